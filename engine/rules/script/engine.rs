//! The interpreter: what a script may use, and the limits it is held to.

use std::sync::{Arc, LazyLock};

use rhai::packages::{
    ArithmeticPackage, BasicArrayPackage, BasicFnPackage, BasicIteratorPackage, BasicMapPackage,
    BasicMathPackage, BasicStringPackage, LogicPackage, MoreStringPackage, Package,
};
use rhai::{Engine, OptimizationLevel, def_package};

use super::objects;

def_package! {
    /// What of the language a script may use, in one piece, so that names are found quickly.
    LanguagePackage(_module):
        ArithmeticPackage,
        LogicPackage,
        BasicMathPackage,
        BasicStringPackage,
        MoreStringPackage,
        BasicArrayPackage,
        BasicMapPackage,
        BasicIteratorPackage,
        BasicFnPackage
    {}
}

/// Built once: it holds a thousand functions.
static LANGUAGE: LazyLock<LanguagePackage> = LazyLock::new(LanguagePackage::new);

/// Hears what scripts print, from any thread.
pub type Print = Arc<dyn Fn(&str) + Send + Sync>;

/// Steps of one call. A rule takes a few dozen; this many take a few milliseconds.
const MOST_STEPS: u64 = 20_000;
/// Calls within calls.
const MOST_DEPTH: usize = 24;
/// Expressions within expressions.
const MOST_NESTED: usize = 48;
/// Characters of a text.
const MOST_CHARACTERS: usize = 1000;
/// Entries of an array or a map.
const MOST_ENTRIES: usize = 1000;
/// Names at one time, and functions of a script.
const MOST_NAMES: usize = 100;

/// An interpreter without files, network, processes, clock or chance: it starts from nothing, and only arithmetic,
/// logic, texts, lists and the objects of a rule are put in. (The core package stays out: it has `sleep` and `exit`.)
pub(super) fn engine(print: &Print) -> Engine {
    let mut engine = Engine::new_raw();
    LANGUAGE.register_into_engine(&mut engine);
    objects::register(&mut engine);
    limit(&mut engine);
    engine.disable_symbol("eval");
    engine.set_optimization_level(OptimizationLevel::None);
    engine.set_strict_variables(true);
    engine.set_fail_on_invalid_map_property(true);
    let heard = Arc::clone(print);
    engine.on_print(move |text| heard(text));
    let heard = Arc::clone(print);
    engine.on_debug(move |text, _, position| heard(&format!("{position:?}: {text}")));
    engine
}

fn limit(engine: &mut Engine) {
    engine.set_max_operations(MOST_STEPS);
    engine.set_max_call_levels(MOST_DEPTH);
    engine.set_max_expr_depths(MOST_NESTED, MOST_NESTED);
    engine.set_max_string_size(MOST_CHARACTERS);
    engine.set_max_array_size(MOST_ENTRIES);
    engine.set_max_map_size(MOST_ENTRIES);
    engine.set_max_variables(MOST_NAMES);
    engine.set_max_functions(MOST_NAMES);
}
