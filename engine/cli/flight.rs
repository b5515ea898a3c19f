//! `flight`: one strike, its flight and its runs.

use serde::Serialize;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly};
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::show::flight::{RunRow, flight as show};
use costcard::units::{Angle, Length, Speed, Spin, Temperature};

use super::args::{Common, FlightArgs};
use super::output;

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
}

#[derive(Debug, Serialize)]
struct RunDocument {
    surface: &'static str,
    firmness: &'static str,
    run_yd: f64,
}

const SURFACES: [(&str, Surface); 3] = [
    ("fairway", Surface::Fairway),
    ("rough", Surface::Rough),
    ("green", Surface::Green),
];
const FIRMNESSES: [(&str, Firmness); 3] = [
    ("soft", Firmness::SOFT),
    ("medium", Firmness::MEDIUM),
    ("firm", Firmness::FIRM),
];

pub fn run(args: &FlightArgs, common: &Common) -> anyhow::Result<()> {
    let flight = fly(&strike(args), &Atmosphere::new(&air(args)));
    let runs = runs(&flight, args.stimp);
    if common.json {
        return output::print_json(&document(&flight, &runs));
    }
    output::print(&show(&flight, &runs, output::page(common)))
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

fn document(flight: &Flight, runs: &[RunRow<'static>]) -> FlightDocument {
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
    }
}
