//! Strikes drawn from a pattern follow the distribution it names.

use costcard::player::pattern::{
    Draw, FIGURES, Mishit, Pattern, PatternFault, strike_of, uncorrelated,
};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;
use statrs::distribution::{ContinuousCDF, StudentsT};

/// A slicer's 7 iron with every pair of figures correlated.
pub fn seven_iron() -> Pattern {
    let mut correlation = uncorrelated();
    for (row, column, r) in [
        (0, 1, -0.2),
        (0, 2, 0.15),
        (0, 3, -0.1),
        (1, 3, 0.35),
        (1, 4, 0.1),
        (2, 4, 0.4),
    ] {
        correlation[row][column] = r;
        correlation[column][row] = r;
    }
    Pattern {
        mean: [104.0, 17.0, 1.0, 6100.0, 300.0],
        sd: [3.0, 1.8, 2.6, 550.0, 420.0],
        correlation,
        tail_dof: 6.0,
        mishit: Mishit {
            share: 0.1,
            ball_speed_factor: 0.82,
            launch_shift_deg: -3.0,
            backspin_factor: 0.85,
            spread_factor: 1.8,
        },
    }
}

/// The greatest distance between the sample's and the theory's distribution function.
fn kolmogorov_distance(mut sample: Vec<f64>, theory: impl Fn(f64) -> f64) -> f64 {
    sample.sort_by(f64::total_cmp);
    let n = sample.len() as f64;
    sample
        .iter()
        .enumerate()
        .map(|(i, &x)| {
            let p = theory(x);
            (p - i as f64 / n).abs().max(((i + 1) as f64 / n - p).abs())
        })
        .fold(0.0, f64::max)
}

#[test]
fn random_normal_strikes_follow_the_t_distribution() {
    let mut pattern = seven_iron();
    pattern.mishit.share = 0.0;
    let sampler = pattern.sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(11);
    let strikes: Vec<_> = (0..20_000).map(|_| sampler.random(&mut rng)).collect();
    let scale = (4.0_f64 / 6.0).sqrt();
    for (i, figure) in FIGURES.iter().enumerate() {
        let t = StudentsT::new(pattern.mean[i], pattern.sd[i] * scale, 6.0).unwrap();
        let sample = strikes.iter().map(|strike| strike[i]).collect();
        let distance = kolmogorov_distance(sample, |x| t.cdf(x));
        // Kolmogorov's bound at 1 in 1000: 1.95/sqrt(n).
        assert!(distance < 1.95 / 20_000_f64.sqrt(), "{figure}: {distance}");
    }
}

#[test]
fn drawn_strikes_follow_the_t_distribution_more_closely_than_random_ones() {
    let pattern = seven_iron();
    let sampler = pattern.sampler().unwrap();
    let strikes: Vec<_> = (0..1024)
        .map(|i| {
            let point = std::array::from_fn(|d| f64::from(sobol_burley::sample(i, d as u32, 7)));
            sampler.normal_strike(&Draw::at(point))
        })
        .collect();
    let scale = (4.0_f64 / 6.0).sqrt();
    for (i, figure) in FIGURES.iter().enumerate() {
        let t = StudentsT::new(pattern.mean[i], pattern.sd[i] * scale, 6.0).unwrap();
        let sample = strikes.iter().map(|strike| strike[i]).collect();
        let distance = kolmogorov_distance(sample, |x| t.cdf(x));
        // Half of what random strikes would be allowed at 1 in 1000.
        assert!(
            distance < 0.5 * 1.95 / 1024_f64.sqrt(),
            "{figure}: {distance}"
        );
    }
}

#[test]
fn random_strikes_keep_the_correlations_and_the_share_of_mishits() {
    let pattern = seven_iron();
    let sampler = pattern.sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    let strikes: Vec<_> = (0..40_000).map(|_| sampler.random(&mut rng)).collect();
    let slow = strikes
        .iter()
        .filter(|strike| strike[0] < 0.91 * 104.0)
        .count() as f64
        / 40_000.0;
    // Nearly every mishit lies under 91 % of the ball speed, few normal strikes do.
    assert!((slow - 0.105).abs() < 0.015, "{slow}");
    let mut clean = pattern.clone();
    clean.mishit.share = 0.0;
    let sampler = clean.sampler().unwrap();
    let strikes: Vec<_> = (0..40_000).map(|_| sampler.random(&mut rng)).collect();
    for row in 0..5 {
        for column in 0..row {
            let product: f64 = strikes
                .iter()
                .map(|s| {
                    (s[row] - clean.mean[row]) * (s[column] - clean.mean[column])
                        / (clean.sd[row] * clean.sd[column])
                })
                .sum();
            let r = product / 40_000.0;
            assert!(
                (r - clean.correlation[row][column]).abs() < 0.03,
                "{row} {column}: {r}"
            );
        }
    }
}

#[test]
fn a_mirrored_player_gets_the_mirrored_strikes_exactly() {
    let pattern = seven_iron();
    let (sampler, mirrored) = (
        pattern.sampler().unwrap(),
        pattern.mirrored().sampler().unwrap(),
    );
    for i in 0..64 {
        let point = std::array::from_fn(|d| f64::from(sobol_burley::sample(i, d as u32, 3)));
        let draw = Draw::at(point);
        for (one, other) in [
            (
                sampler.normal_strike(&draw),
                mirrored.normal_strike(&draw.mirrored()),
            ),
            (
                sampler.mishit_strike(&draw),
                mirrored.mishit_strike(&draw.mirrored()),
            ),
        ] {
            let turned = [other[0], other[1], -other[2], other[3], -other[4]];
            assert_eq!(one, turned);
        }
    }
}

#[test]
fn each_kind_of_fault_is_named() {
    let broken = |change: fn(&mut Pattern)| {
        let mut pattern = seven_iron();
        change(&mut pattern);
        pattern.validate().unwrap_err()
    };
    assert_eq!(
        broken(|p| p.tail_dof = 2.0),
        PatternFault::TailTooHeavy(2.0)
    );
    assert_eq!(
        broken(|p| p.mishit.share = 1.2),
        PatternFault::MishitShare(1.2)
    );
    assert_eq!(
        broken(|p| p.sd[3] = -1.0),
        PatternFault::NegativeSpread {
            figure: "backspin",
            sd: -1.0
        }
    );
    assert_eq!(
        broken(|p| p.mean[0] = f64::NAN),
        PatternFault::NotFinite {
            figure: "ball speed"
        }
    );
    // Launch goes with ball speed and with backspin, yet those two against each other: impossible at 0.9.
    let contradiction = broken(|p| {
        for (row, column, r) in [(0, 1, 0.9), (1, 3, 0.9), (0, 3, -0.9)] {
            p.correlation[row][column] = r;
            p.correlation[column][row] = r;
        }
    });
    assert_eq!(contradiction, PatternFault::Correlations);
}

#[test]
fn a_strike_beyond_what_a_ball_can_do_is_held_within_it() {
    let strike = strike_of(&[-3.0, -25.0, 99.0, -9000.0, -20_000.0]);
    assert!((strike.ball_speed.mph() - 5.0).abs() < 1e-9);
    assert!((strike.launch.deg() - 0.5).abs() < 1e-9);
    assert!((strike.direction.deg() - 60.0).abs() < 1e-9);
    assert!((strike.backspin.rpm() + 3000.0).abs() < 1e-9);
    assert!((strike.sidespin.rpm() + 8000.0).abs() < 1e-9);
}
