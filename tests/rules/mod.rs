//! Rules a user can rewrite: the examples, what must hold of any rule, messages, and a hundred thousand odd scripts.

mod examples;
mod faults;
mod hold;
mod load;
mod odd_scripts;

use std::sync::{Arc, Mutex};

use costcard::course::Course;
use costcard::files::{Faults, Source};
use costcard::rules::Rulebook;
use costcard::rules::script::{self, Print, Script};

use crate::support::course;

/// Hears nothing.
pub fn silent() -> Print {
    Arc::new(|_| {})
}

/// A script from its text.
pub fn script(text: &str) -> Result<Script, Faults> {
    Script::read(&Source::new("mine.rhai", text), &silent())
}

/// A script that must be sound.
pub fn sound(text: &str) -> Script {
    script(text).unwrap_or_else(|faults| panic!("{faults}"))
}

/// The rules of a course with these examples over them.
pub fn examples(course: &Course, names: &[&str]) -> Rulebook {
    let named: Vec<String> = names
        .iter()
        .map(|name| format!("demo:{name}.rhai"))
        .collect();
    script::load(Some(course), &named, &silent()).unwrap_or_else(|faults| panic!("{faults}"))
}

/// Somebody who writes down what scripts print.
pub fn listener() -> (Print, Arc<Mutex<Vec<String>>>) {
    let heard = Arc::new(Mutex::new(Vec::new()));
    let by = Arc::clone(&heard);
    let print: Print = Arc::new(move |text| {
        by.lock()
            .unwrap_or_else(|poisoned| poisoned.into_inner())
            .push(text.to_owned());
    });
    (print, heard)
}

/// Three holes: a short one over water onto a green of medium turf, a longer one, and one with water on the second shot.
pub fn three_holes() -> Course {
    course(
        r#"
name = "Three Ponds"
[defaults]
fairway_width_yd = 30
rough_width_yd = 25
green = { depth_yd = 30, width_yd = 26 }
[[holes]]
par = 3
length_yd = 172
green = {}
areas = [{ lie = "water", from_yd = 90, to_yd = 140 }]
[[holes]]
par = 4
length_yd = 408
green = {}
[[holes]]
par = 4
length_yd = 395
green = {}
areas = [{ lie = "water", from_yd = 320, to_yd = 352 }]
"#,
    )
}
