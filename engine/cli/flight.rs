//! `flight`: one strike, its flight and its runs.

use serde::Serialize;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly};
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::course::Lie;
use costcard::files::Faults;
use costcard::rules::hold::{Hold, LandingFacts};
use costcard::rules::script::trial;
use costcard::show::flight::{RunRow, flight as show};
use costcard::units::{Angle, Length, Speed, Spin, Temperature};

use super::args::{Common, FlightArgs};
use super::{output, rules};

/// The flight as other programs read it.
#[derive(Debug, Serialize)]
struct FlightDocument {
    carry_yd: f64,
    side_yd: f64,
    apex_yd: f64,
    time_s: f64,
    descent_deg: f64,
    landing_speed_mph: f64,
    landing_spin_rpm: f64,
    runs: Vec<RunDocument>,
    /// The scripts in force.
    #[serde(skip_serializing_if = "<[String]>::is_empty")]
    rules: Vec<String>,
}

#[derive(Debug, Serialize)]
struct RunDocument {
    surface: &'static str,
    firmness: &'static str,
    run_yd: f64,
}

const GREEN: &str = "green";
const SURFACES: [(&str, Surface); 3] = [
    ("fairway", Surface::Fairway),
    ("rough", Surface::Rough),
    (GREEN, Surface::Green),
];
const FIRMNESSES: [(&str, Firmness); 3] = [
    ("soft", Firmness::SOFT),
    ("medium", Firmness::MEDIUM),
    ("firm", Firmness::FIRM),
];

pub fn run(args: &FlightArgs, common: &Common) -> anyhow::Result<()> {
    let flight = fly(&strike(args), &Atmosphere::new(&air(args)));
    let rules = rules::named(&args.rules)?;
    let mut runs = runs(&flight, args.stimp);
    if let Some(hold) = &rules.everywhere().hold {
        let usual = by_rule(&mut runs, &**hold, &flight, args.stimp)?;
        if !common.json {
            runs.extend(usual);
        }
    }
    if common.json {
        return output::print_json(&document(&flight, &runs, rules.files()));
    }
    output::print(&show(&flight, &runs, output::page(common)))
}

/// Puts the runs of a rule in the place of those on the green; gives back the built-in ones.
fn by_rule(
    runs: &mut [RunRow<'static>],
    rule: &dyn Hold,
    flight: &Flight,
    stimp_ft: f64,
) -> Result<Vec<RunRow<'static>>, Faults> {
    let landing = LandingFacts {
        ball: flight.landing,
        carry_yd: flight.carry.yd(),
        club: None,
        lie: Lie::Fairway,
    };
    let on_green = runs.iter_mut().filter(|(surface, ..)| *surface == GREEN);
    let mut usual = Vec::new();
    for ((_, word, run), (_, firmness)) in on_green.zip(FIRMNESSES) {
        let (ruled, built_in) = trial::on_level_green(rule, &landing, firmness, stimp_ft)?;
        *run = ruled.along;
        usual.push(("green, built-in rule", *word, built_in.along));
    }
    Ok(usual)
}

fn strike(args: &FlightArgs) -> Strike {
    Strike {
        ball_speed: Speed::from_mph(args.ball_speed),
        launch: Angle::from_deg(args.launch),
        direction: Angle::from_deg(args.direction),
        backspin: Spin::from_rpm(args.backspin),
        sidespin: Spin::from_rpm(args.sidespin),
    }
}

fn air(args: &FlightArgs) -> Air {
    Air {
        temperature: Temperature::from_f(args.temperature),
        altitude: Length::from_ft(args.altitude),
        humidity_pct: args.humidity,
        wind: Speed::from_mph(args.wind),
        wind_from: Angle::from_deg(args.wind_from),
    }
}

/// The run on every surface in every firmness, on level ground.
fn runs(flight: &Flight, stimp_ft: f64) -> Vec<RunRow<'static>> {
    let mut runs = Vec::new();
    for (surface_name, surface) in SURFACES {
        for (firmness_name, firmness) in FIRMNESSES {
            let turf = Turf::new(surface, firmness, stimp_ft, Slope::LEVEL);
            runs.push((surface_name, firmness_name, turf.run(&flight.landing).along));
        }
    }
    runs
}

fn document(flight: &Flight, runs: &[RunRow<'static>], rules: &[String]) -> FlightDocument {
    // Adding nothing turns a negative zero into a plain one.
    FlightDocument {
        carry_yd: flight.carry.yd() + 0.0,
        side_yd: flight.side.yd() + 0.0,
        apex_yd: flight.apex.yd() + 0.0,
        time_s: flight.time_s,
        descent_deg: flight.descent.deg() + 0.0,
        landing_speed_mph: Speed::from_mps(flight.landing.velocity_mps.length()).mph(),
        landing_spin_rpm: Spin::from_rad_s(flight.landing.spin_rad_s.length()).rpm(),
        runs: runs
            .iter()
            .map(|&(surface, firmness, run)| RunDocument {
                surface,
                firmness,
                run_yd: run.yd() + 0.0,
            })
            .collect(),
        rules: rules.to_vec(),
    }
}
