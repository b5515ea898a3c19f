//! The things a script is given, as Rhai knows them: read-only, but for the runs and effects it builds itself.

use std::sync::Arc;

use rhai::{Dynamic, Engine, EvalAltResult, FLOAT, INT, ImmutableString, Position};

use super::fields::{HOLED, KINDS, kind_name, lie_name, lie_named};
use crate::ball::turf::{Firmness, Run};
use crate::player::club::Club;
use crate::rules::count::ShotFacts;
use crate::rules::hold::{GreenAt, LandingFacts};
use crate::rules::lies::{LieEffect, lie_effect};
use crate::rules::worth::PartFacts;
use crate::units::Length;

/// A landing; cheap to hand from function to function.
#[derive(Debug, Clone)]
pub(super) struct Landing(Arc<LandingFacts>);

impl Landing {
    pub(super) fn of(landing: &LandingFacts) -> Self {
        Self(Arc::new(landing.clone()))
    }
}

/// A club; none for a shot made with no club a script is told.
#[derive(Debug, Clone, Copy)]
pub(super) struct ClubView(pub(super) Option<Club>);

impl ClubView {
    fn name(self) -> ImmutableString {
        self.0
            .map(|club| club.to_string())
            .unwrap_or_default()
            .into()
    }
}

/// A run in yards, as a script reads and builds it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct RunView {
    pub(super) run_yd: f64,
    pub(super) side_yd: f64,
}

impl From<Run> for RunView {
    fn from(run: Run) -> Self {
        Self {
            run_yd: run.along.yd(),
            side_yd: run.across.yd(),
        }
    }
}

impl From<RunView> for Run {
    fn from(run: RunView) -> Self {
        Self {
            along: Length::from_yd(run.run_yd),
            across: Length::from_yd(run.side_yd),
        }
    }
}

impl RunView {
    fn times(self, factor: f64) -> Self {
        Self {
            run_yd: self.run_yd * factor,
            side_yd: self.side_yd * factor,
        }
    }

    fn farther(self, yards: f64) -> Self {
        Self {
            run_yd: self.run_yd + yards,
            ..self
        }
    }

    fn and(self, other: Self) -> Self {
        Self {
            run_yd: self.run_yd + other.run_yd,
            side_yd: self.side_yd + other.side_yd,
        }
    }
}

/// What a lie does, as a script reads and builds it.
#[derive(Debug, Clone, Copy)]
pub(super) struct EffectView(pub(super) LieEffect);

/// The tag of an error that is the script's, whatever it was asked about.
pub(super) const MISUSED: i32 = 1;

fn misused(sign: &str, thing: &str) -> Box<EvalAltResult> {
    let mut message = Dynamic::from(format!(
        "`{sign}` does not work on {thing}, but on its fields"
    ));
    message.set_tag(MISUSED);
    Box::new(EvalAltResult::ErrorRuntime(message, Position::NONE))
}

/// Things are compared by their fields. Rhai answers `false` to a comparison it does not know, and would go on with it.
fn refuse_comparing<T: Clone + Send + Sync + 'static>(engine: &mut Engine, thing: &'static str) {
    for sign in ["<", "<=", ">", ">=", "==", "!="] {
        let refused = move || -> Result<bool, Box<EvalAltResult>> { Err(misused(sign, thing)) };
        engine.register_fn(sign, move |_: T, _: FLOAT| refused());
        engine.register_fn(sign, move |_: FLOAT, _: T| refused());
        engine.register_fn(sign, move |_: T, _: INT| refused());
        engine.register_fn(sign, move |_: INT, _: T| refused());
    }
}

/// The same between two things of one kind.
fn refuse_comparing_two<T: Clone + Send + Sync + 'static>(
    engine: &mut Engine,
    thing: &'static str,
) {
    for sign in ["<", "<=", ">", ">=", "==", "!="] {
        engine.register_fn(
            sign,
            move |_: T, _: T| -> Result<bool, Box<EvalAltResult>> { Err(misused(sign, thing)) },
        );
    }
}

/// Puts everything a rule sees into the interpreter.
pub(super) fn register(engine: &mut Engine) {
    register_landing(engine);
    register_green(engine);
    register_usual_runs(engine);
    register_club(engine);
    register_runs(engine);
    register_effects(engine);
    register_part(engine);
    register_shot(engine);
    refuse_comparing::<Landing>(engine, "a landing");
    refuse_comparing::<GreenAt>(engine, "a green");
    refuse_comparing::<ClubView>(engine, "a club");
    refuse_comparing::<RunView>(engine, "a run");
    refuse_comparing::<EffectView>(engine, "an effect");
    refuse_comparing::<PartFacts>(engine, "a part");
    refuse_comparing::<ShotFacts>(engine, "a shot");
    refuse_comparing_two::<RunView>(engine, "two runs");
    refuse_comparing_two::<ClubView>(engine, "two clubs");
}

fn register_landing(engine: &mut Engine) {
    engine
        .register_type_with_name::<Landing>("landing")
        .register_get("speed_mph", |l: &mut Landing| l.0.speed().mph())
        .register_get("descent_deg", |l: &mut Landing| l.0.descent().deg())
        .register_get("backspin_rpm", |l: &mut Landing| l.0.backspin().rpm())
        .register_get("sidespin_rpm", |l: &mut Landing| l.0.sidespin().rpm())
        .register_get("spin_rpm", |l: &mut Landing| l.0.spin().rpm())
        .register_get("carry_yd", |l: &mut Landing| l.0.carry_yd)
        .register_get("club", |l: &mut Landing| ClubView(l.0.club))
        .register_get("lie", |l: &mut Landing| word(lie_name(l.0.lie)));
}

fn register_green(engine: &mut Engine) {
    engine
        .register_type_with_name::<GreenAt>("green")
        .register_get("hole", |g: &mut GreenAt| INT::from(g.facts().hole))
        .register_get("depth_yd", |g: &mut GreenAt| g.facts().depth_yd)
        .register_get("width_yd", |g: &mut GreenAt| g.facts().width_yd)
        .register_get("firmness", |g: &mut GreenAt| {
            g.facts().surface.firmness.value()
        })
        .register_get("stimp_ft", |g: &mut GreenAt| g.facts().surface.stimp_ft)
        .register_get("slope_along_pct", |g: &mut GreenAt| {
            g.facts().surface.slope_along_pct
        })
        .register_get("slope_across_pct", |g: &mut GreenAt| {
            g.facts().surface.slope_across_pct
        })
        .register_get("from_front_yd", |g: &mut GreenAt| g.from_front_yd())
        .register_get("from_back_yd", |g: &mut GreenAt| g.from_back_yd())
        .register_get("from_left_yd", |g: &mut GreenAt| g.from_left_yd())
        .register_get("from_right_yd", |g: &mut GreenAt| g.from_right_yd())
        .register_get("from_edge_yd", |g: &mut GreenAt| g.from_edge_yd());
}

/// The built-in run, on this green or on one of another firmness and Stimpmeter reading.
fn register_usual_runs(engine: &mut Engine) {
    engine.register_fn("usual_run", |_: &mut Landing, green: GreenAt| {
        RunView::from(green.usual_run())
    });
    engine.register_fn(
        "usual_run",
        |l: &mut Landing, g: GreenAt, f: FLOAT, s: FLOAT| usual_run_at(l, &g, f, s),
    );
    engine.register_fn(
        "usual_run",
        |l: &mut Landing, g: GreenAt, f: INT, s: INT| usual_run_at(l, &g, f as FLOAT, s as FLOAT),
    );
    engine.register_fn(
        "usual_run",
        |l: &mut Landing, g: GreenAt, f: FLOAT, s: INT| usual_run_at(l, &g, f, s as FLOAT),
    );
    engine.register_fn(
        "usual_run",
        |l: &mut Landing, g: GreenAt, f: INT, s: FLOAT| usual_run_at(l, &g, f as FLOAT, s),
    );
}

fn no_firmness(given: FLOAT) -> String {
    let said = format!("firmness lies from 0 to 1, and is not {given}");
    match (1.0..=100.0).contains(&given) {
        true => format!("{said}: {given} percent are {}", given / 100.0),
        false => said,
    }
}

fn usual_run_at(
    landing: &Landing,
    green: &GreenAt,
    firmness: FLOAT,
    stimp_ft: FLOAT,
) -> Result<RunView, Box<EvalAltResult>> {
    let firmness = Firmness::new(firmness).ok_or_else(|| thrown(no_firmness(firmness)))?;
    if !(5.0..=16.0).contains(&stimp_ft) {
        let message = format!("a Stimpmeter reading lies from 5 to 16 ft, and is not {stimp_ft}");
        return Err(thrown(message));
    }
    Ok(green
        .facts()
        .run_at(&landing.0.ball, firmness, stimp_ft)
        .into())
}

fn thrown(message: String) -> Box<EvalAltResult> {
    Box::new(EvalAltResult::ErrorRuntime(message.into(), Position::NONE))
}

fn register_club(engine: &mut Engine) {
    engine
        .register_type_with_name::<ClubView>("club")
        .register_get("name", |c: &mut ClubView| c.name())
        .register_get("kind", |c: &mut ClubView| word(c.0.map_or("", kind_name)))
        .register_get("loft_deg", |c: &mut ClubView| {
            c.0.map_or(0.0, |club| club.typical_loft().deg())
        })
        .register_fn("to_string", |c: &mut ClubView| c.name())
        .register_fn("==", |c: ClubView, name: ImmutableString| {
            is_called(&c, &name)
        })
        .register_fn("==", |name: ImmutableString, c: ClubView| {
            is_called(&c, &name)
        })
        .register_fn("!=", |c: ClubView, name: ImmutableString| {
            is_called(&c, &name).map(|is| !is)
        })
        .register_fn("!=", |name: ImmutableString, c: ClubView| {
            is_called(&c, &name).map(|is| !is)
        });
}

/// Whether a club is the one of a name. A name that is no club's is a slip, and would never be met.
fn is_called(club: &ClubView, name: &str) -> Result<bool, Box<EvalAltResult>> {
    if club.name() == name || ClubView(None).name() == name {
        return Ok(club.name() == name);
    }
    if KINDS.contains(&name) {
        return Err(thrown(format!(
            "`{name}` is a kind of club, and no club: compare the club's `kind` with it, as in `landing.club.kind == \"{name}\"`"
        )));
    }
    match name.parse::<Club>() {
        Ok(other) => Ok(club.0 == Some(other)),
        Err(unknown) => Err(thrown(format!("`{name}` is no club: {}", unknown.hint()))),
    }
}

fn register_runs(engine: &mut Engine) {
    engine
        .register_type_with_name::<RunView>("run")
        .register_get_set(
            "run_yd",
            |r: &mut RunView| r.run_yd,
            |r: &mut RunView, yd: FLOAT| r.run_yd = yd,
        )
        .register_get_set(
            "side_yd",
            |r: &mut RunView| r.side_yd,
            |r: &mut RunView, yd: FLOAT| r.side_yd = yd,
        )
        .register_set("run_yd", |r: &mut RunView, yd: INT| r.run_yd = yd as FLOAT)
        .register_set("side_yd", |r: &mut RunView, yd: INT| {
            r.side_yd = yd as FLOAT
        })
        .register_fn("to_string", |r: &mut RunView| {
            format!("{:.1} yd, {:.1} to the side", r.run_yd, r.side_yd)
        })
        .register_fn("*", |r: RunView, by: FLOAT| r.times(by))
        .register_fn("*", |by: FLOAT, r: RunView| r.times(by))
        .register_fn("*", |r: RunView, by: INT| r.times(by as FLOAT))
        .register_fn("*", |by: INT, r: RunView| r.times(by as FLOAT))
        .register_fn("/", |r: RunView, by: FLOAT| r.times(1.0 / by))
        .register_fn("/", |r: RunView, by: INT| r.times(1.0 / by as FLOAT))
        .register_fn("+", |r: RunView, yd: FLOAT| r.farther(yd))
        .register_fn("+", |yd: FLOAT, r: RunView| r.farther(yd))
        .register_fn("+", |r: RunView, yd: INT| r.farther(yd as FLOAT))
        .register_fn("+", |yd: INT, r: RunView| r.farther(yd as FLOAT))
        .register_fn("-", |r: RunView, yd: FLOAT| r.farther(-yd))
        .register_fn("-", |r: RunView, yd: INT| r.farther(-(yd as FLOAT)))
        .register_fn("+", |r: RunView, other: RunView| r.and(other))
        .register_fn("-", |r: RunView, other: RunView| r.and(other.times(-1.0)))
        .register_fn("-", |r: RunView| r.times(-1.0));
}

fn register_effects(engine: &mut Engine) {
    engine.register_type_with_name::<EffectView>("effect");
    let figures: [(&str, Figure); 5] = [
        ("speed_factor", |e| &mut e.ball_speed),
        ("spin_factor", |e| &mut e.spin),
        ("launch_deg", |e| &mut e.launch_deg),
        ("spread_factor", |e| &mut e.spread),
        ("mishit_factor", |e| &mut e.mishits),
    ];
    for (name, figure) in figures {
        engine.register_get(name, move |e: &mut EffectView| *figure(&mut e.0));
        engine.register_set(name, move |e: &mut EffectView, to: FLOAT| {
            *figure(&mut e.0) = to
        });
        engine.register_set(name, move |e: &mut EffectView, to: INT| {
            *figure(&mut e.0) = to as FLOAT
        });
    }
    engine.register_fn(
        "usual_lie_effect",
        |lie: ImmutableString, club: ClubView| usual_effect(&lie, club),
    );
}

/// One figure of an effect.
pub(super) type Figure = fn(&mut LieEffect) -> &mut f64;

fn usual_effect(lie: &str, club: ClubView) -> Result<EffectView, Box<EvalAltResult>> {
    let lie_of = lie_named(lie).ok_or_else(|| thrown(format!("there is no lie `{lie}`")))?;
    let club = club.0.ok_or_else(|| thrown("this is no club".to_owned()))?;
    Ok(EffectView(lie_effect(lie_of, club)))
}

fn register_part(engine: &mut Engine) {
    engine
        .register_type_with_name::<PartFacts>("part")
        .register_get("name", |p: &mut PartFacts| word(p.part))
        .register_get("saved_strokes", |p: &mut PartFacts| p.saved)
        .register_get("lost_strokes", |p: &mut PartFacts| p.lost)
        .register_get("shots", |p: &mut PartFacts| p.shots)
        .register_get("measured", |p: &mut PartFacts| p.measured);
}

fn register_shot(engine: &mut Engine) {
    engine
        .register_type_with_name::<ShotFacts>("shot")
        .register_get("hole", |s: &mut ShotFacts| INT::from(s.hole))
        .register_get("par", |s: &mut ShotFacts| INT::from(s.par))
        .register_get("stroke", |s: &mut ShotFacts| INT::from(s.stroke))
        .register_get("part", |s: &mut ShotFacts| word(s.part))
        .register_get("club", |s: &mut ShotFacts| ClubView(s.club))
        .register_get("lie", |s: &mut ShotFacts| word(lie_name(s.lie)))
        .register_get("to_pin_yd", |s: &mut ShotFacts| INT::from(s.to_pin_yd))
        .register_get("left_yd", |s: &mut ShotFacts| INT::from(s.left_yd))
        .register_get("over_water", |s: &mut ShotFacts| s.over_water)
        .register_get("pitched", |s: &mut ShotFacts| word(lie_name(s.pitched)))
        .register_get("ended", |s: &mut ShotFacts| {
            word(s.ended.map_or(HOLED, lie_name))
        })
        .register_get("penalty_strokes", |s: &mut ShotFacts| INT::from(s.penalty));
}

/// A word of the program's own; short ones take no room of their own.
fn word(text: &'static str) -> Dynamic {
    Dynamic::from(ImmutableString::from(text))
}
