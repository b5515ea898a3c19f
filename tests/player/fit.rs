//! Patterns fitted to synthetic batches come back as what they were drawn from.

use costcard::player::fit::fit;
use costcard::player::pattern::{FIGURES, Five, Pattern};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

use super::sampling::seven_iron;

/// Batches fitted for each figure of a test.
const BATCHES: u64 = 300;

/// Mean error of the fitted means (in standard deviations), mean ratio of the fitted to the true standard deviations,
/// and mean fitted share of mishits.
fn bias(truth: &Pattern, level: &Pattern, strikes: usize) -> (Five, Five, f64) {
    let sampler = truth.sampler().unwrap();
    let (mut mean, mut sd, mut share) = ([0.0; 5], [0.0; 5], 0.0);
    for seed in 0..BATCHES {
        let mut rng = ChaCha8Rng::seed_from_u64(seed);
        let batch: Vec<Five> = (0..strikes).map(|_| sampler.random(&mut rng)).collect();
        let fitted = fit(&batch, level).unwrap().pattern;
        for i in 0..5 {
            mean[i] += (fitted.mean[i] - truth.mean[i]) / truth.sd[i] / BATCHES as f64;
            sd[i] += fitted.sd[i] / truth.sd[i] / BATCHES as f64;
        }
        share += fitted.mishit.share / BATCHES as f64;
    }
    (mean, sd, share)
}

#[test]
fn with_the_right_level_behind_it_a_fit_is_nearly_unbiased() {
    for share in [0.0, 0.1] {
        let mut truth = seven_iron();
        truth.mishit.share = share;
        for strikes in [12, 20, 40, 100] {
            let (mean, sd, found) = bias(&truth, &truth, strikes);
            println!(
                "share {share}, {strikes} strikes: mean {mean:.3?}, sd {sd:.3?}, share {found:.3}"
            );
            for i in 0..5 {
                assert!(
                    mean[i].abs() < 0.05,
                    "{share} {strikes} {}: {}",
                    FIGURES[i],
                    mean[i]
                );
                assert!(
                    (sd[i] - 1.0).abs() < 0.05,
                    "{share} {strikes} {}: {}",
                    FIGURES[i],
                    sd[i]
                );
            }
            assert!((found - share).abs() < 0.02, "{share} {strikes}: {found}");
        }
    }
}

/// A level whose players launch higher, spin more and spread less.
fn another_level() -> Pattern {
    let mut level = seven_iron();
    level.mean = [112.0, 18.5, 0.0, 6700.0, 0.0];
    level.sd = level.sd.map(|sd| 0.75 * sd);
    level.mishit.share = 0.05;
    level
}

#[test]
fn with_another_level_behind_it_the_strikes_win_as_they_grow_in_number() {
    let truth = seven_iron();
    let mut worst_before = f64::INFINITY;
    // Bias allowed in the means (standard deviations) and in the standard deviations (share). The level lies up to
    // 0.8 standard deviations off and its spreads 25 % under the truth's.
    for (strikes, mean_limit, sd_limit) in [
        (12, 0.12, 0.16),
        (20, 0.10, 0.13),
        (40, 0.08, 0.09),
        (100, 0.05, 0.06),
    ] {
        let (mean, sd, share) = bias(&truth, &another_level(), strikes);
        println!("{strikes} strikes: mean {mean:.3?}, sd {sd:.3?}, share {share:.3}");
        let worst_mean = mean.iter().fold(0.0_f64, |worst, m| worst.max(m.abs()));
        let worst_sd = sd
            .iter()
            .fold(0.0_f64, |worst, s| worst.max((s - 1.0).abs()));
        assert!(worst_mean < mean_limit, "{strikes}: {mean:?}");
        assert!(worst_sd < sd_limit, "{strikes}: {sd:?}");
        assert!(
            worst_sd < worst_before,
            "{strikes}: more strikes, more bias"
        );
        worst_before = worst_sd;
    }
}

#[test]
fn a_thin_low_short_shot_counts_as_a_mishit_and_leaves_the_spread_alone() {
    let mut truth = seven_iron();
    truth.mishit.share = 0.0;
    let sampler = truth.sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(2);
    let mut batch: Vec<Five> = (0..15).map(|_| sampler.random(&mut rng)).collect();
    let clean = fit(&batch, &seven_iron()).unwrap().pattern;
    batch.push([82.0, 9.0, 2.0, 4300.0, 500.0]);
    let with_thin = fit(&batch, &seven_iron()).unwrap();
    assert!(
        with_thin.mishit_chance[15] > 0.95,
        "{:?}",
        with_thin.mishit_chance
    );
    let growth = with_thin.pattern.sd[0] / clean.sd[0];
    assert!(
        (growth - 1.0).abs() < 0.03,
        "ball speed spread grew by {growth}"
    );
    assert!(with_thin.pattern.mishit.share > clean.mishit.share);
}

#[test]
fn many_mishits_teach_what_they_look_like() {
    let mut truth = seven_iron();
    truth.mishit.share = 0.3;
    truth.mishit.ball_speed_factor = 0.72;
    let sampler = truth.sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(3);
    let batch: Vec<Five> = (0..200).map(|_| sampler.random(&mut rng)).collect();
    let fitted = fit(&batch, &seven_iron()).unwrap().pattern;
    let factor = fitted.mishit.ball_speed_factor;
    assert!((factor - 0.72).abs() < 0.03, "{factor}");
    assert!(
        (fitted.mishit.share - 0.3).abs() < 0.05,
        "{}",
        fitted.mishit.share
    );
}

#[test]
fn none_and_one_strike_give_the_level_or_nearly_so() {
    let level = seven_iron();
    assert_eq!(fit(&[], &level).unwrap().pattern, level);
    let one = fit(&[[106.0, 16.0, 0.0, 6000.0, 0.0]], &level).unwrap();
    assert_eq!(one.strikes, 1);
    let ratio = one.pattern.sd[1] / level.sd[1];
    assert!((ratio - 1.0).abs() < 0.05, "{ratio}");
}

#[test]
fn strikes_all_alike_still_give_a_valid_pattern() {
    let batch = vec![[104.0, 17.0, 1.0, 6100.0, 300.0]; 30];
    let fitted = fit(&batch, &seven_iron()).unwrap().pattern;
    fitted.validate().unwrap();
    assert!(fitted.sd[0] < 3.0 * 0.6);
}

#[test]
fn a_mirrored_batch_gives_the_mirrored_pattern() {
    let sampler = seven_iron().sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(8);
    let batch: Vec<Five> = (0..25).map(|_| sampler.random(&mut rng)).collect();
    let turned: Vec<Five> = batch
        .iter()
        .map(|s| [s[0], s[1], -s[2], s[3], -s[4]])
        .collect();
    let one = fit(&batch, &seven_iron()).unwrap().pattern.mirrored();
    let other = fit(&turned, &seven_iron().mirrored()).unwrap().pattern;
    for i in 0..5 {
        assert!((one.mean[i] - other.mean[i]).abs() < 1e-6);
        assert!((one.sd[i] - other.sd[i]).abs() < 1e-6);
    }
}

/// A player far steadier than golfers of his handicap: eighty clean shots are his own pattern, not theirs; and twenty
/// have more of him than of them.
#[test]
fn eighty_clean_shots_speak_for_themselves() {
    for (narrower, of) in [(0.25, 80), (0.35, 80), (0.5, 80), (1.5, 80)] {
        let mut truth = seven_iron();
        truth.mishit.share = 0.0;
        truth.sd = truth.sd.map(|sd| narrower * sd);
        let (mean, sd, _) = bias(&truth, &seven_iron(), of);
        println!("{narrower} of the level's spread, {of} shots: mean {mean:.3?}, sd {sd:.3?}");
        for i in 0..5 {
            assert!(
                (sd[i] - 1.0).abs() < 0.10,
                "{narrower} {}: {}",
                FIGURES[i],
                sd[i]
            );
        }
    }
    let mut truth = seven_iron();
    truth.mishit.share = 0.0;
    truth.sd = truth.sd.map(|sd| 0.25 * sd);
    let (_, sd, _) = bias(&truth, &seven_iron(), 20);
    println!("twenty: {sd:.3?}");
    for i in 0..5 {
        // Half way between his own spread and four times as much would be 2.5.
        assert!((0.9..1.5).contains(&sd[i]), "{}: {}", FIGURES[i], sd[i]);
    }
}

#[test]
fn how_much_of_a_spread_is_the_players_own_grows_with_the_shots() {
    let sampler = seven_iron().sampler().unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(4);
    let mut share = |count: usize| {
        let batch: Vec<Five> = (0..count).map(|_| sampler.random(&mut rng)).collect();
        fit(&batch, &seven_iron()).unwrap().own_share
    };
    assert_eq!(fit(&[], &seven_iron()).unwrap().own_share, 0.0);
    let (few, some, many) = (share(5), share(20), share(80));
    assert!(
        few < 0.5 && some > 0.5 && many > 0.85,
        "{few} {some} {many}"
    );
}
