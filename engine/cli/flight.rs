//! `flight`: one strike, its flight and its runs.

use serde::Serialize;

use costcard::ball::Strike;
use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::{Flight, fly};
use costcard::ball::impact::Delivery;
use costcard::ball::turf::{Firmness, Slope, Surface, Turf};
use costcard::course::Lie;
use costcard::files::Faults;
use costcard::player::club::Club;
use costcard::player::heads::head;
use costcard::rules::hold::{Hold, LandingFacts};
use costcard::rules::script::trial;
use costcard::show::flight::{RunRow, flight as show, impact as show_impact};
use costcard::units::{Angle, Length, Speed, Spin, Temperature};

use super::args::{BallArgs, Common, DeliveryArgs, FlightArgs};
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
    /// Only when the head's figures were given.
    #[serde(skip_serializing_if = "Option::is_none")]
    impact: Option<ImpactDocument>,
}

/// What the head gave the ball.
#[derive(Debug, Serialize)]
struct ImpactDocument {
    club: String,
    ball_speed_mph: f64,
    launch_deg: f64,
    direction_deg: f64,
    backspin_rpm: f64,
    sidespin_rpm: f64,
    spin_loft_deg: f64,
    face_to_path_deg: f64,
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
    let impact = impact(&args.delivery);
    let strike = impact.map_or_else(|| strike(&args.ball), |impact| impact.strike);
    let flight = fly(&strike, &Atmosphere::new(&air(args)));
    let rules = rules::named(&args.rules)?;
    let mut runs = runs(&flight, args.stimp);
    if let Some(hold) = &rules.everywhere().hold {
        let landing = LandingFacts {
            ball: flight.landing,
            carry_yd: flight.carry.yd(),
            club: args.delivery.club,
            lie: Lie::Fairway,
        };
        let usual = by_rule(&mut runs, &**hold, &landing, args.stimp)?;
        if !common.json {
            runs.extend(usual);
        }
    }
    if common.json {
        return output::print_json(&FlightDocument {
            impact: impact.map(ImpactDocument::from),
            ..document(&flight, &runs, rules.files())
        });
    }
    let page = output::page(common);
    let ball = impact.map_or_else(String::new, |impact| {
        show_impact(&impact.delivery, &impact.strike, page)
    });
    output::print(&(ball + show(&flight, &runs, page).as_str()))
}

/// Puts the runs of a rule in the place of those on the green; gives back the built-in ones.
fn by_rule(
    runs: &mut [RunRow<'static>],
    rule: &dyn Hold,
    landing: &LandingFacts,
    stimp_ft: f64,
) -> Result<Vec<RunRow<'static>>, Faults> {
    let on_green = runs.iter_mut().filter(|(surface, ..)| *surface == GREEN);
    let mut usual = Vec::new();
    for ((_, word, run), (_, firmness)) in on_green.zip(FIRMNESSES) {
        let (ruled, built_in) = trial::on_level_green(rule, landing, firmness, stimp_ft)?;
        *run = ruled.along;
        usual.push(("green, built-in rule", *word, built_in.along));
    }
    Ok(usual)
}

/// A delivery and the strike it gives.
#[derive(Debug, Clone, Copy)]
struct Impact {
    club: Club,
    delivery: Delivery,
    strike: Strike,
}

/// The impact, when the head's figures were typed.
fn impact(args: &DeliveryArgs) -> Option<Impact> {
    let or_square = |degrees: Option<f64>| Angle::from_deg(degrees.unwrap_or(0.0));
    let club = args.club?;
    let delivery = Delivery {
        club_speed: Speed::from_mph(args.club_speed?),
        attack: Angle::from_deg(args.attack?),
        path: or_square(args.path),
        face: or_square(args.face),
        dynamic_loft: Angle::from_deg(args.dynamic_loft?),
        lie_tilt: or_square(args.lie),
    };
    Some(Impact {
        club,
        delivery,
        strike: head(club).strike(&delivery),
    })
}

impl From<Impact> for ImpactDocument {
    fn from(impact: Impact) -> Self {
        let Impact {
            club,
            delivery,
            strike,
        } = impact;
        // Adding nothing turns a negative zero into a plain one.
        Self {
            club: club.to_string(),
            ball_speed_mph: strike.ball_speed.mph(),
            launch_deg: strike.launch.deg() + 0.0,
            direction_deg: strike.direction.deg() + 0.0,
            backspin_rpm: strike.backspin.rpm() + 0.0,
            sidespin_rpm: strike.sidespin.rpm() + 0.0,
            spin_loft_deg: delivery.spin_loft().deg(),
            face_to_path_deg: delivery.face_to_path().deg() + 0.0,
        }
    }
}

/// The ball that was typed; the command line lets nobody leave out the first three.
fn strike(args: &BallArgs) -> Strike {
    let given = |figure: Option<f64>| figure.unwrap_or(0.0);
    Strike {
        ball_speed: Speed::from_mph(given(args.ball_speed)),
        launch: Angle::from_deg(given(args.launch)),
        direction: Angle::from_deg(given(args.direction)),
        backspin: Spin::from_rpm(given(args.backspin)),
        sidespin: Spin::from_rpm(given(args.sidespin)),
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
        impact: None,
    }
}
