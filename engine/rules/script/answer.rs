//! What a script gave, checked: of the right kind, finite, and nothing absurd. A fault says what was given, in words
//! that follow "gave".

use rhai::{Dynamic, FLOAT, INT, Map};

use super::fields::{EFFECT, RUN};
use super::objects::{EffectView, Figure, RunView};
use crate::ball::turf::Run;
use crate::course::Lie;
use crate::files::listed;
use crate::player::club::Club;
use crate::rules::count::Label;
use crate::rules::hold::{self, ACROSS_YD, ALONG_YD};
use crate::rules::lies::{LieEffect, lie_effect};
use crate::rules::worth;

/// What `hold` must give.
pub(super) const RUN_HINT: &str = "end `hold` with the run in yards, as `usual_run(landing, green) * 1.5`, a number, or \
                                   `#{ run_yd: 6.0, side_yd: -1.0 }`: -100 to 1000 yd along the line, at most 150 to a side";
/// What `worth` must give.
pub(super) const WORTH_HINT: &str =
    "end `worth` with a number, as `part.saved_strokes / 2.0`, of at most a million";
/// What `count` must give.
pub(super) const LABEL_HINT: &str = "end `count` with a label of 1 to 80 characters on one line, as \"over water\", or with \
                                     `()` for a shot that is not counted";

/// Longest label, characters.
const LONGEST_LABEL: usize = 80;

/// What `lie_effect` must give.
pub(super) fn effect_hint() -> String {
    format!(
        "end `lie_effect` with `usual_lie_effect(lie, club)`, changed as you like, or with a map of {}",
        listed(&EFFECT, "and")
    )
}

/// The run a script gave.
pub(super) fn run(gave: &Dynamic) -> Result<Run, String> {
    let view = if let Some(view) = gave.clone().try_cast::<RunView>() {
        view
    } else if let Some(run_yd) = number(gave) {
        RunView {
            run_yd,
            side_yd: 0.0,
        }
    } else if let Some(map) = gave.read_lock::<Map>() {
        of_map(&map)?
    } else {
        return Err(told(gave));
    };
    let run = view.into();
    match hold::absurd(run) {
        None => Ok(run),
        Some(_) if !ALONG_YD.contains(&view.run_yd) => {
            Err(format!("a run of {} yd", told_yd(view.run_yd)))
        }
        Some(_) if !ACROSS_YD.contains(&view.side_yd) => {
            Err(format!("a run of {} yd to the side", told_yd(view.side_yd)))
        }
        Some(absurd) => Err(absurd),
    }
}

/// Yards to the tenth: nobody asks for more.
fn told_yd(yards: f64) -> f64 {
    (yards * 10.0).round() / 10.0
}

/// A map with the run and, if it likes, the side; the short names are understood too.
fn of_map(map: &Map) -> Result<RunView, String> {
    let mut view = RunView {
        run_yd: f64::NAN,
        side_yd: 0.0,
    };
    for (long, short) in RUN.into_iter().zip(["run", "side"]) {
        if map.contains_key(long) && map.contains_key(short) {
            return Err(format!(
                "a map with both `{long}` and `{short}`, which are one"
            ));
        }
    }
    for (key, value) in map {
        let figure = match key.as_str() {
            "run_yd" | "run" => &mut view.run_yd,
            "side_yd" | "side" => &mut view.side_yd,
            other => {
                return Err(format!(
                    "a map with `{other}`, where {} may stand",
                    listed(&RUN, "and")
                ));
            }
        };
        *figure = number(value).ok_or_else(|| format!("{} for `{key}`", told(value)))?;
    }
    if map.contains_key("run_yd") || map.contains_key("run") {
        Ok(view)
    } else {
        Err("a map without `run_yd`".to_owned())
    }
}

/// The figures of an effect by the names scripts know.
const FIGURES: [Figure; 5] = [
    |e| &mut e.ball_speed,
    |e| &mut e.spin,
    |e| &mut e.launch_deg,
    |e| &mut e.spread,
    |e| &mut e.mishits,
];

/// The effect a script gave; what a map leaves out stays as the built-in table has it.
pub(super) fn effect(gave: &Dynamic, lie: Lie, club: Club) -> Result<LieEffect, String> {
    let effect = if let Some(EffectView(effect)) = gave.clone().try_cast::<EffectView>() {
        effect
    } else if let Some(map) = gave.read_lock::<Map>() {
        let mut effect = lie_effect(lie, club);
        for (key, value) in &*map {
            let known = EFFECT
                .iter()
                .zip(FIGURES)
                .find(|(name, _)| **name == key.as_str());
            let Some((_, figure)) = known else {
                return Err(format!("a map with `{key}`, which is no figure of a lie"));
            };
            *figure(&mut effect) =
                number(value).ok_or_else(|| format!("{} for `{key}`", told(value)))?;
        }
        effect
    } else {
        return Err(told(gave));
    };
    effect.absurd().map_or(Ok(effect), Err)
}

/// The worth a script gave.
pub(super) fn worth(gave: &Dynamic) -> Result<f64, String> {
    match number(gave) {
        Some(number) if worth::is_sound(number) => Ok(number),
        _ => Err(told(gave)),
    }
}

/// The label a script gave.
pub(super) fn label(gave: &Dynamic) -> Result<Option<Label>, String> {
    if gave.is_unit() {
        return Ok(None);
    }
    let Some(text) = gave.read_lock::<rhai::ImmutableString>() else {
        return Err(told(gave));
    };
    let length = text.chars().count();
    if !(1..=LONGEST_LABEL).contains(&length) || text.chars().any(char::is_control) {
        return Err(format!("a label of {length} characters"));
    }
    Ok(Some(Label::from(text.as_str())))
}

/// A whole number or a decimal.
fn number(value: &Dynamic) -> Option<f64> {
    if let Ok(number) = value.as_float() {
        return Some(number);
    }
    value.as_int().ok().map(|whole: INT| whole as FLOAT)
}

/// A value in words: a number itself, anything else by its kind.
fn told(value: &Dynamic) -> String {
    if value.is_unit() {
        return "nothing (a `let`, a loop, or an `if` without an `else` as the last line gives nothing)".to_owned();
    }
    match number(value) {
        Some(number) => number.to_string(),
        None => super::fault::kind(value.type_name()).to_owned(),
    }
}
