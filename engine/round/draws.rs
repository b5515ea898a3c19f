//! The draws every pattern is sampled with: one low-discrepancy sequence, made once.
//!
//! Each point of an Owen-scrambled Sobol sequence gives two draws that mirror each other across the
//! line of play, so that a mirrored golfer has exactly the mirrored shots.

use sobol_burley::sample;
use statrs::distribution::{ContinuousCDF, Normal};

use crate::player::pattern::Draw;

/// Normal strikes of one swing in the bank.
pub const NORMAL: usize = 128;
/// Mishits of one swing in the bank.
pub const MISHITS: usize = 64;

/// Scrambles of the sequence: normal strikes, mishits, and the errors of short shots.
const SCRAMBLES: [u32; 3] = [0x0C05_7CA2, 0x0C05_7CA3, 0x0C05_7CA4];

/// The draws of a bank.
#[derive(Debug, Clone, PartialEq)]
pub struct Draws {
    /// For the normal strikes.
    pub normal: Vec<Draw>,
    /// For the mishits.
    pub mishit: Vec<Draw>,
}

impl Draws {
    /// The first half of them, evenly spread themselves.
    #[must_use]
    pub fn few() -> Self {
        Self {
            normal: pairs(NORMAL / 2, SCRAMBLES[0]),
            mishit: pairs(MISHITS / 2, SCRAMBLES[1]),
        }
    }

    /// The draws.
    #[must_use]
    pub fn new() -> Self {
        Self::of(NORMAL, MISHITS)
    }

    /// The first draws of the same sequences, so many; even numbers, since draws come in mirrored pairs.
    #[must_use]
    pub fn of(normal: usize, mishits: usize) -> Self {
        Self {
            normal: pairs(normal, SCRAMBLES[0]),
            mishit: pairs(mishits, SCRAMBLES[1]),
        }
    }
}

impl Default for Draws {
    fn default() -> Self {
        Self::new()
    }
}

fn pairs(count: usize, scramble: u32) -> Vec<Draw> {
    (0..count / 2)
        .map(|point| {
            Draw::at(std::array::from_fn(|dimension| {
                u(point, dimension, scramble)
            }))
        })
        .flat_map(|draw| [draw, draw.mirrored()])
        .collect()
}

/// Standard normal pairs (along, across), mirrored two by two in the second.
#[must_use]
pub fn unit_pairs(count: usize) -> Vec<[f32; 2]> {
    let z =
        |point, dimension| Normal::standard().inverse_cdf(u(point, dimension, SCRAMBLES[2])) as f32;
    (0..count / 2)
        .map(|point| [z(point, 0), z(point, 1)])
        .flat_map(|[along, across]| [[along, across], [along, -across]])
        .collect()
}

/// A coordinate of a point of the sequence, away from 0 and 1, whose quantiles are infinite.
fn u(point: usize, dimension: usize, scramble: u32) -> f64 {
    f64::from(sample(point as u32, dimension as u32, scramble)).clamp(1e-6, 1.0 - 1e-6)
}
