//! Playing: the shot bank, the choice of club and aim, holes solved for expected strokes, rounds and tallies.
//! This room knows nothing of cost: it plays, and counts.
//!
//! ```
//! use costcard::course::Course;
//! use costcard::files::Source;
//! use costcard::player::{Sex, levels};
//! use costcard::round::{play::Rounds, stage::Stage};
//!
//! let text = "name = 'One Hole'\n[[holes]]\npar = 3\nlength_yd = 140\ngreen = { depth_yd = 28, width_yd = 26 }";
//! let course = Course::read(&Source::new("one.toml", text))?;
//! let golfer = levels::named("10", Sex::Men)?;
//! let golfers = [&golfer];
//! let stage = Stage::new(&course, &golfers);
//! let (banks, side) = (stage.hole_banks(), stage.side(|_| 0));
//! let solved = stage.solve(&banks, &side, None);
//! let rounds = Rounds { holes: &course.holes, golfer: &solved, goal: None, seed: 1 };
//! let scores = rounds.play(1000, &|_| {}).scores;
//! let mean = scores.iter().map(|score| f64::from(*score)).sum::<f64>() / 1000.0;
//! assert!((3.0..4.0).contains(&mean), "{mean}");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod balls;
pub mod bank;
mod candidates;
pub mod choose;
pub mod clubs;
pub mod counting;
pub mod draws;
mod edges;
mod eight;
pub mod finish;
pub mod ground;
pub mod nearness;
mod nodes;
pub mod part;
pub mod place;
mod places;
pub mod play;
pub mod row;
pub mod ruled;
pub mod side;
mod sight;
pub mod solve;
pub mod spread;
pub mod stage;
pub mod stands;
mod sweep;
pub mod swing;
pub mod tally;
mod tee;
pub mod touch;
pub mod traffic;
pub mod values;
pub mod visits;
pub mod way;
