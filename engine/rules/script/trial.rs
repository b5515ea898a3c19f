//! A script tried on a fixed set of landings, lies, parts and shots: what `check` shows, and what every script must
//! come through before anything is played.

use std::sync::Arc;

use super::{Function, Script};
use crate::ball::Strike;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::fly;
use crate::ball::turf::{Firmness, Run};
use crate::course::{Green, Lie};
use crate::files::Faults;
use crate::player::club::Club;
use crate::rules::count::{Count, ShotFacts};
use crate::rules::hold::{self, GreenAt, GreenFacts, Hold, LandingFacts, Place};
use crate::rules::lies::{LieEffect, LieRule, lie_effect};
use crate::rules::worth::{PartFacts, Worth};
use crate::units::{Angle, Speed, Spin};

/// Strikes whose landings stand for what comes down on greens: club, ball speed mph, launch degrees, backspin rpm.
/// Invented for the purpose: from a hybrid that runs to a wedge that bites.
const STRIKES: [(Club, f64, f64, f64); 6] = [
    (Club::Hybrid(4), 132.0, 11.5, 4200.0),
    (Club::Iron(5), 122.0, 12.5, 4600.0),
    (Club::Iron(7), 108.0, 17.0, 6200.0),
    (Club::Iron(9), 98.0, 22.0, 7800.0),
    (Club::PitchingWedge, 92.0, 25.0, 8600.0),
    (Club::SandWedge, 78.0, 30.0, 9000.0),
];

const FIRMNESSES: [Firmness; 3] = [Firmness::SOFT, Firmness::MEDIUM, Firmness::FIRM];

/// The green of the trial: level, of ordinary size and pace. Common practice, no published source.
const DEPTH_YD: f64 = 30.0;
const WIDTH_YD: f64 = 26.0;
const STIMP_FT: f64 = 10.0;
/// How far from an edge a ball near it pitches.
pub const NEAR_EDGE_YD: f64 = 2.5;

/// One landing of the trial, and both runs, yards along the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tried {
    /// The club.
    pub club: Club,
    /// Speed at the pitch.
    pub speed: Speed,
    /// Angle of descent.
    pub descent: Angle,
    /// All spin.
    pub spin: Spin,
    /// Firmness of the green.
    pub firmness: Firmness,
    /// The built-in run.
    pub usual: Run,
    /// The script's in the middle of the green.
    pub run: Run,
    /// The script's near the front, the back, the left and the right edge, where it asks for the place.
    pub near_edges: Option<[Run; 4]>,
}

/// One lie of the trial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TriedLie {
    /// The lie.
    pub lie: Lie,
    /// The club.
    pub club: Club,
    /// The built-in effect.
    pub usual: LieEffect,
    /// The script's.
    pub effect: LieEffect,
}

/// Every landing of the trial, on soft, medium and firm turf.
///
/// # Errors
/// The first fault of the script.
pub fn landings(rule: &impl Hold) -> Result<Vec<Tried>, Faults> {
    let mut all = Vec::new();
    for (club, mph, launch_deg, backspin_rpm) in STRIKES {
        let landing = landing(club, mph, launch_deg, backspin_rpm);
        for firmness in FIRMNESSES {
            all.push(tried(rule, &landing, club, firmness)?);
        }
    }
    Ok(all)
}

fn landing(club: Club, mph: f64, launch_deg: f64, backspin_rpm: f64) -> LandingFacts {
    let strike = Strike {
        ball_speed: Speed::from_mph(mph),
        launch: Angle::from_deg(launch_deg),
        direction: Angle::ZERO,
        backspin: Spin::from_rpm(backspin_rpm),
        sidespin: Spin::ZERO,
    };
    let flight = fly(&strike, &Atmosphere::new(&Air::standard()));
    LandingFacts {
        ball: flight.landing,
        carry_yd: flight.carry.yd(),
        club: Some(club),
        lie: Lie::Fairway,
    }
}

/// A level green of the trial's size, and the built-in run of a landing on it.
fn green(landing: &LandingFacts, firmness: Firmness, stimp_ft: f64) -> (Arc<GreenFacts>, Run) {
    let surface = Green {
        firmness,
        stimp_ft,
        slope_along_pct: 0.0,
        slope_across_pct: 0.0,
    };
    let facts = GreenFacts {
        hole: 0,
        depth_yd: DEPTH_YD,
        width_yd: WIDTH_YD,
        surface,
    };
    (Arc::new(facts), hold::turf(&surface).run(&landing.ball))
}

/// A place so far from the front and the left.
fn place(from_front_yd: f64, from_left_yd: f64) -> Place {
    let edges = [
        from_front_yd,
        DEPTH_YD - from_front_yd,
        from_left_yd,
        WIDTH_YD - from_left_yd,
    ];
    Place {
        from_front_yd,
        from_left_yd,
        from_edge_yd: edges.into_iter().fold(f64::INFINITY, f64::min),
    }
}

/// The scripted run of a landing in the middle of a level green, and the built-in one.
///
/// # Errors
/// The fault of the rule.
pub fn on_level_green(
    rule: &dyn Hold,
    landing: &LandingFacts,
    firmness: Firmness,
    stimp_ft: f64,
) -> Result<(Run, Run), Faults> {
    let (facts, usual) = green(landing, firmness, stimp_ft);
    let at = GreenAt::new(facts, place(DEPTH_YD / 2.0, WIDTH_YD / 2.0), usual);
    Ok((rule.run(landing, &at)?, usual))
}

fn tried(
    rule: &impl Hold,
    landing: &LandingFacts,
    club: Club,
    firmness: Firmness,
) -> Result<Tried, Faults> {
    let (facts, usual) = green(landing, firmness, STIMP_FT);
    let ask = |from_front_yd: f64, from_left_yd: f64| {
        let at = GreenAt::new(
            Arc::clone(&facts),
            place(from_front_yd, from_left_yd),
            usual,
        );
        rule.run(landing, &at).map(|run| (run, at.read()))
    };
    let (middle, side) = (DEPTH_YD / 2.0, WIDTH_YD / 2.0);
    let (run, read) = ask(middle, side)?;
    let near = [
        (NEAR_EDGE_YD, side),
        (DEPTH_YD - NEAR_EDGE_YD, side),
        (middle, NEAR_EDGE_YD),
        (middle, WIDTH_YD - NEAR_EDGE_YD),
    ];
    let mut near_edges = [run; 4];
    for (run, (front, left)) in near_edges.iter_mut().zip(near) {
        *run = ask(front, left)?.0;
    }
    Ok(Tried {
        club,
        speed: landing.speed(),
        descent: landing.descent(),
        spin: landing.spin(),
        firmness,
        usual,
        run,
        near_edges: (read != 0).then_some(near_edges),
    })
}

/// Every club from every lie.
///
/// # Errors
/// The first fault of the script.
pub fn lies(rule: &impl LieRule) -> Result<Vec<TriedLie>, Faults> {
    let mut all = Vec::new();
    for lie in [Lie::Tee, Lie::Fairway, Lie::Rough, Lie::Sand, Lie::Trees] {
        for club in Club::all() {
            all.push(TriedLie {
                lie,
                club,
                usual: lie_effect(lie, club),
                effect: rule.effect(lie, club)?,
            });
        }
    }
    Ok(all)
}

/// Calls every function a script defines on the whole trial.
///
/// # Errors
/// The first fault.
pub fn sound(script: &Script) -> Result<(), Faults> {
    for function in script.defined() {
        match function {
            Function::Hold => landings(script).map(drop)?,
            Function::LieEffect => lies(script).map(drop)?,
            Function::Worth => worths(script)?,
            Function::Count => labels(script)?,
        }
    }
    Ok(())
}

fn worths(script: &Script) -> Result<(), Faults> {
    for (part, saved, lost) in [
        ("tee shots", 1.2, 1.5),
        ("long approach", 0.4, 0.6),
        ("mid irons", 0.9, 0.8),
        ("short irons", 0.3, 0.2),
        ("short game", 0.7, 0.9),
        ("sand", 0.1, 0.1),
        ("putting", -0.1, -0.2),
    ] {
        let facts = PartFacts {
            part,
            saved,
            lost,
            shots: 12.0,
            measured: true,
        };
        script.worth(&facts)?;
    }
    Ok(())
}

fn labels(script: &Script) -> Result<(), Faults> {
    let tee = ShotFacts {
        hole: 1,
        par: 4,
        stroke: 1,
        part: "tee shots",
        club: Some(Club::Driver),
        lie: Lie::Tee,
        to_pin_yd: 402,
        left_yd: 171,
        over_water: false,
        pitched: Lie::Fairway,
        ended: Some(Lie::Fairway),
        penalty: 0,
    };
    let wet = ShotFacts {
        stroke: 2,
        part: "mid irons",
        club: Some(Club::Iron(6)),
        lie: Lie::Fairway,
        to_pin_yd: 171,
        left_yd: 40,
        over_water: true,
        pitched: Lie::Water,
        ended: Some(Lie::Rough),
        penalty: 1,
        ..tee
    };
    let chip = ShotFacts {
        stroke: 4,
        part: "short game",
        club: None,
        lie: Lie::Rough,
        to_pin_yd: 22,
        left_yd: 0,
        over_water: false,
        pitched: Lie::Green,
        ended: None,
        penalty: 0,
        ..tee
    };
    for shot in [tee, wet, chip] {
        script.label(&shot)?;
    }
    Ok(())
}
