//! The clubs of a bag, one by one: how far, how high, how steep, what they hold, and how they are presented.
//!
//! Shots are flown in the still air of standard tests from a good lie. Means and spreads are those of normal strikes;
//! greens are held, or not, by mishits too.

pub mod arcs;
pub mod beside;
pub mod curves;
mod findings;
mod hold;
pub mod landings;

pub use findings::{Finding, Loft, findings};
pub use hold::{DEPTH_YD as GREEN_DEPTH_YD, WIDTH_YD as GREEN_WIDTH_YD};

use serde::Serialize;

use super::draws::Draws;
use crate::ball::air::{Air, Atmosphere};
use crate::ball::flight::{Flight, fly_all};
use crate::ball::turf::{Firmness, Slope, Surface, Turf};
use crate::course::Lie;
use crate::files::Faults;
use crate::player::club::Club;
use crate::player::pattern::{PatternFault, Sampler, strike_of};
use crate::player::presented::{Presented, presented};
use crate::player::{BagClub, Golfer, Origin};
use crate::rules::Rulebook;
use crate::rules::hold::{Hold, LandingFacts};
use crate::units::{Speed, Spin};

/// Stimpmeter reading of the greens that stand beside a fairway; the run on a fairway hardly hangs on it.
const STIMP_FT: f64 = 10.0;

/// The clubs of a player and what there is to say about them.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clubs {
    /// Whose.
    pub player: String,
    /// Handicap index of the golfers whose deliveries stand beside them.
    pub goal_handicap: f64,
    /// Longest first.
    pub clubs: Vec<ClubRow>,
    /// What stands out.
    pub findings: Vec<Finding>,
    /// The scripts by which greens hold.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rules: Vec<String>,
}

/// Why there are no figures of clubs.
#[derive(Debug, thiserror::Error)]
pub enum ClubsError {
    /// A pattern is none.
    #[error(transparent)]
    Pattern(#[from] PatternFault),
    /// A rule failed.
    #[error(transparent)]
    Rule(#[from] Faults),
}

/// One club.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClubRow {
    /// Name.
    pub club: String,
    /// Whether its pattern is fitted to measured shots.
    pub measured: bool,
    /// Whether its pattern is assumed from the handicap.
    pub assumed: bool,
    /// Shots the pattern is fitted to.
    pub shots: Option<usize>,
    /// Mean ball speed of normal strikes.
    pub ball_speed_mph: f64,
    /// Their mean launch.
    pub launch_deg: f64,
    /// The mean backspin they leave the club with.
    pub backspin_rpm: f64,
    /// Their mean carry.
    pub carry_yd: f64,
    /// Standard deviation of their carry.
    pub carry_sd_yd: f64,
    /// Mean distance right of the target line at which they pitch.
    #[serde(skip)]
    pub side_yd: f64,
    /// Standard deviation of it.
    #[serde(skip)]
    pub side_sd_yd: f64,
    /// Mean run on a medium fairway; negative when they spin back.
    pub run_yd: f64,
    /// Mean apex.
    pub apex_yd: f64,
    /// Mean angle of descent.
    pub descent_deg: f64,
    /// Mean speed at the pitch.
    pub landing_speed_mph: f64,
    /// Mean spin at the pitch.
    pub landing_spin_rpm: f64,
    /// Share of on-target shots that stay on the green, by its firmness.
    pub held_pct: HeldPct,
    /// Carry beyond that of the next shorter club; none for the shortest.
    pub gap_yd: Option<f64>,
    /// How it is presented; figures are null where no delivery gives such balls.
    #[serde(flatten)]
    pub delivery: DeliveryRow,
}

/// Share of the shots on target that stay on the green, percent: of those that pitch in the front half of a level
/// green of [`GREEN_DEPTH_YD`] by [`GREEN_WIDTH_YD`], Stimpmeter 10.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct HeldPct {
    /// On a soft green.
    pub soft: f64,
    /// On a medium green.
    pub medium: f64,
    /// On a firm green.
    pub firm: f64,
}

/// How a club is presented. Lofts are as the player's device reads them.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
pub struct DeliveryRow {
    /// Whether all of it was measured.
    pub delivery_measured: bool,
    /// Club speed.
    pub club_speed_mph: Option<f64>,
    /// Attack angle, negative down.
    pub attack_deg: Option<f64>,
    /// Spin loft.
    pub spin_loft_deg: Option<f64>,
    /// Face against path, positive right.
    pub face_to_path_deg: Option<f64>,
    /// Dynamic loft.
    pub dynamic_loft_deg: Option<f64>,
    /// What golfers of the goal's standard deliver with the club.
    pub usual_dynamic_loft_deg: Option<f64>,
    /// The club whose usual loft is nearest; none for a driver.
    pub plays_like: Option<String>,
}

/// Works out every club of `player`, beside golfers of the standard of `goal`.
///
/// ```
/// use costcard::player::{Sex, levels};
/// use costcard::round::clubs::clubs;
/// let golfer = levels::level(10.0, Sex::Men)?;
/// let clubs = clubs(&golfer, &golfer)?;
/// assert_eq!(clubs.clubs[0].club, "driver");
/// assert!(clubs.clubs[0].carry_yd > clubs.clubs[1].carry_yd);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
///
/// # Errors
/// When a pattern is none.
pub fn clubs(player: &Golfer, goal: &Golfer) -> Result<Clubs, ClubsError> {
    clubs_by_rules(player, goal, &Rulebook::default())
}

/// The same, greens holding by the rules of a rulebook that stand for every hole.
///
/// # Errors
/// When a pattern is none, or a rule fails.
pub fn clubs_by_rules(
    player: &Golfer,
    goal: &Golfer,
    rules: &Rulebook,
) -> Result<Clubs, ClubsError> {
    let mut rows = rows(player, goal, rules, |_| true)?;
    for index in 1..rows.len() {
        rows[index - 1].gap_yd = Some(rows[index - 1].carry_yd - rows[index].carry_yd);
    }
    Ok(Clubs {
        player: player.name.clone(),
        goal_handicap: goal.handicap,
        rules: rules.files().to_vec(),
        findings: findings(player, &rows),
        clubs: rows,
    })
}

/// Some of the clubs of `player`, those that are `wanted`; their gaps are left open.
///
/// # Errors
/// When a pattern is none, or a rule fails.
pub fn rows(
    player: &Golfer,
    goal: &Golfer,
    rules: &Rulebook,
    wanted: impl Fn(Club) -> bool,
) -> Result<Vec<ClubRow>, ClubsError> {
    let bench = Bench::new(rules);
    let clubs = player.clubs.iter().filter(|entry| wanted(entry.club));
    clubs
        .map(|entry| bench.row(entry, presented(entry, player, goal)))
        .collect()
}

/// Air, turf and draws that are the same for every club.
struct Bench<'a> {
    hold: Option<&'a dyn Hold>,
    atmosphere: Atmosphere,
    fairway: Turf,
    draws: Draws,
}

impl<'a> Bench<'a> {
    fn new(rules: &'a Rulebook) -> Self {
        Self {
            hold: rules.everywhere().hold.as_deref(),
            atmosphere: Atmosphere::new(&Air::standard()),
            fairway: Turf::new(Surface::Fairway, Firmness::MEDIUM, STIMP_FT, Slope::LEVEL),
            draws: Draws::new(),
        }
    }

    fn row(&self, entry: &BagClub, presented: Option<Presented>) -> Result<ClubRow, ClubsError> {
        let sampler = entry.pattern.sampler()?;
        let normal = self.normal(&sampler);
        let mean = |figure: &dyn Fn(&Flight) -> f64| {
            normal.iter().map(figure).sum::<f64>() / normal.len() as f64
        };
        let carry_yd = mean(&|flight| flight.carry.yd());
        let square = mean(&|flight| (flight.carry.yd() - carry_yd).powi(2));
        let side_yd = mean(&|flight| flight.side.yd());
        let side_square = mean(&|flight| (flight.side.yd() - side_yd).powi(2));
        let [ball_speed_mph, launch_deg, _, backspin_rpm, _] = entry.pattern.mean;
        let landing_mps = mean(&|flight| flight.landing.velocity_mps.length());
        let landing_rad_s = mean(&|flight| flight.landing.spin_rad_s.length());
        Ok(ClubRow {
            club: entry.club.to_string(),
            measured: matches!(entry.origin, Origin::Measured { .. }),
            assumed: entry.origin == Origin::Assumed,
            shots: match entry.origin {
                Origin::Measured { strikes } => Some(strikes),
                Origin::Stated | Origin::Assumed => None,
            },
            ball_speed_mph,
            launch_deg,
            backspin_rpm,
            carry_yd,
            carry_sd_yd: square.sqrt(),
            side_yd,
            side_sd_yd: side_square.sqrt(),
            run_yd: mean(&|flight| self.fairway.run(&flight.landing).along.yd()),
            apex_yd: mean(&|flight| flight.apex.yd()),
            descent_deg: mean(&|flight| flight.descent.deg()),
            landing_speed_mph: Speed::from_mps(landing_mps).mph(),
            landing_spin_rpm: Spin::from_rad_s(landing_rad_s).rpm(),
            held_pct: self.held_pct(entry.club, &sampler, &normal)?,
            gap_yd: None,
            delivery: presented.map(DeliveryRow::from).unwrap_or_default(),
        })
    }

    /// The flights of the normal strikes.
    fn normal(&self, sampler: &Sampler) -> Vec<Flight> {
        let strikes = self.draws.normal.iter();
        let strikes = strikes.map(|draw| strike_of(&sampler.normal_strike(draw)));
        fly_all(&strikes.collect::<Vec<_>>(), &self.atmosphere)
    }

    fn held_pct(
        &self,
        club: Club,
        sampler: &Sampler,
        normal: &[Flight],
    ) -> Result<HeldPct, Faults> {
        let mishits = self.draws.mishit.iter();
        let mishits = mishits.map(|draw| strike_of(&sampler.mishit_strike(draw)));
        let mishits = fly_all(&mishits.collect::<Vec<_>>(), &self.atmosphere);
        let share = sampler.mishit_share();
        let each = (1.0 - share) / normal.len() as f64;
        let each_mishit = share / self.draws.mishit.len() as f64;
        let shots: Vec<hold::Weighed> = normal
            .iter()
            .map(|&flight| (flight, each))
            .chain(mishits.into_iter().map(|flight| (flight, each_mishit)))
            .map(|(flight, weight)| (landing(club, &flight), weight))
            .collect();
        let held = |firmness| hold::held_pct(&shots, firmness, self.hold);
        Ok(HeldPct {
            soft: held(Firmness::SOFT)?,
            medium: held(Firmness::MEDIUM)?,
            firm: held(Firmness::FIRM)?,
        })
    }
}

fn landing(club: Club, flight: &Flight) -> LandingFacts {
    LandingFacts {
        ball: flight.landing,
        carry_yd: flight.carry.yd(),
        club: Some(club),
        lie: Lie::Fairway,
    }
}

impl From<Presented> for DeliveryRow {
    fn from(presented: Presented) -> Self {
        let delivery = presented.delivery;
        Self {
            delivery_measured: presented.measured.all(),
            club_speed_mph: Some(delivery.club_speed.mph()),
            attack_deg: Some(delivery.attack.deg()),
            spin_loft_deg: Some(delivery.spin_loft().deg()),
            // Adding nothing turns a negative zero into a plain one.
            face_to_path_deg: Some(delivery.face_to_path().deg() + 0.0),
            dynamic_loft_deg: Some(delivery.dynamic_loft.deg()),
            usual_dynamic_loft_deg: presented.usual.map(|usual| usual.dynamic_loft.deg()),
            plays_like: presented.plays_like.map(|club| club.to_string()),
        }
    }
}
