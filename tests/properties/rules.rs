//! The built-in rules: no lie makes a shot better than the tee does.

use costcard::course::Lie;
use costcard::player::club::Club;
use costcard::rules::lies::lie_effect;

const CLUBS: [Club; 6] = [
    Club::Driver,
    Club::Wood(3),
    Club::Hybrid(4),
    Club::Iron(5),
    Club::Iron(9),
    Club::SandWedge,
];

#[test]
fn no_lie_is_better_than_a_tee() {
    for lie in Lie::ALL {
        for club in CLUBS {
            let effect = lie_effect(lie, club);
            let told = format!("{club} from {lie:?}: {effect:?}");
            assert!(
                effect.ball_speed > 0.0 && effect.ball_speed <= 1.0,
                "{told}"
            );
            assert!(effect.spread >= 1.0 && effect.mishits >= 1.0, "{told}");
            assert!(
                effect.spin > 0.0 && effect.launch_deg.abs() < 20.0,
                "{told}"
            );
        }
    }
}

#[test]
fn rough_is_no_better_than_fairway() {
    for club in CLUBS {
        let [fairway, rough] = [Lie::Fairway, Lie::Rough].map(|lie| lie_effect(lie, club));
        assert!(rough.ball_speed <= fairway.ball_speed, "{club}");
        assert!(rough.spread >= fairway.spread, "{club}");
        assert!(rough.mishits >= fairway.mishits, "{club}");
    }
}
