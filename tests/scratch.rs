#![allow(missing_docs)]
use costcard::cost::card::*;
use costcard::course::*;
use costcard::files::Source;
use costcard::player::*;
use costcard::round::stage::*;
use std::time::Instant;

fn course(n: &str) -> Course { Course::read(&Source::read(std::path::Path::new(n)).unwrap()).unwrap() }
#[test]
fn solve() {
    for c in ["profiles/courses/parkland.toml", "profiles/courses/heathland.toml"] {
        let course = course(c);
        for l in ["tour"] {
            let g = levels::named(l, Sex::Men).unwrap();
            let gs = [&g];
            let t = Instant::now();
            let st = Stage::new(&course, &gs);
            let b = st.hole_banks();
            let side = st.side(|_| 0);
            let t1 = t.elapsed();
            let t = Instant::now();
            let s = st.solve(&b, &side, None);
            let t2 = t.elapsed();
            let t = Instant::now();
            let _ = st.solve(&b, &side, None);
            let t3 = t.elapsed();
            println!("SOLVE {c} {l} stage {t1:?} solve {t2:?} again {t3:?} {}", costcard::cost::figures::expected_score(&s));
            let t = Instant::now();
            let f = play(&g, &course, Effort { rounds: 20000, seed: 1 }, &|_| {});
            println!("PLAY {:?} score {:.2} exp {:.2} sd {:.2} fw {:.1?} gir {:.1} held {:.1?} putts {:.1} 3p {:.2} pen {:.2}", t.elapsed(), f.score_mean, f.expected_strokes, f.score_sd, f.fairways_hit_pct, f.greens_hit_pct, f.greens_held_pct, f.putts_mean, f.three_putts_mean, f.penalties_mean);
        }
    }
}
