//! Shots followed to their ends eight side by side, and the strokes expected there: what
//! [`finish`](super::finish::finish) and [`Values::at`] say of each, to the last bit.
//!
//! Most balls stop on what they pitched on. For these nothing hangs on the ball but numbers, so eight go through one
//! register, and so do those that have to look for an edge on their way; the few that run over one, or pitch in water,
//! are followed one by one.

use wide::i32x8;

use crate::course::Lie;

use super::bank::{HoleShot, SwingShots};
use super::edges::{Runs, mask};
use super::finish::{
    Finish, Line, Rolling, STEP_YD, Spot, Struck, TREES_RUN, drop_behind, roll_over,
    stroke_and_distance,
};
use super::ground::Ground;
use super::place::Xy;
use super::places::{Cells, Eight, LANES, Places, lies};
use super::ruled::Told;
use super::values::Values;

/// Where eight shots end.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ends {
    x: [f32; LANES],
    y: [f32; LANES],
    lies: [Lie; LANES],
    pitched: [Lie; LANES],
    penalties: [u8; LANES],
    replays: [bool; LANES],
}

impl Ends {
    /// What became of one of the shots.
    pub fn end(&self, lane: usize) -> Finish {
        Finish {
            spot: Spot {
                at: Xy::new(self.x[lane], self.y[lane]),
                lie: self.lies[lane],
            },
            penalty: self.penalties[lane],
            replay: self.replays[lane],
            pitched: self.pitched[lane],
        }
    }

    /// Expected strokes from where each lies.
    pub fn expected(&self, values: &Values<'_>) -> [f32; LANES] {
        values.at_eight(Places::of(self.x, self.y), &self.lies)
    }

    fn set(&mut self, lane: usize, end: &Finish) {
        (self.x[lane], self.y[lane]) = (end.spot.at.x, end.spot.at.y);
        self.lies[lane] = end.spot.lie;
        self.penalties[lane] = end.penalty;
        self.replays[lane] = end.replay;
    }
}

/// Hears how each of some shots from a spot ends, in their order.
pub(super) fn each_end(
    ground: &Ground,
    (from, line): (Spot, Line),
    (shots, told): (&SwingShots, Told),
    list: &[HoleShot],
    mut hear: impl FnMut(&Finish),
) {
    for few in list.chunks(LANES) {
        let ends = finish_eight(ground, (from, line), (shots, told), few);
        for lane in 0..few.len() {
            hear(&ends.end(lane));
        }
    }
}

/// A ball about to be hit.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hit<'a> {
    pub from: Spot,
    pub line: Line,
    pub struck: Struck<'a>,
}

/// Plays up to eight shots from `from` along `line` to their ends.
pub(super) fn finish_eight(
    ground: &Ground,
    (from, line): (Spot, Line),
    (shots, told): (&SwingShots, Told),
    few: &[HoleShot],
) -> Ends {
    let aims = Aims {
        from: Places::splat(from.at),
        ahead: Places::splat(line.ahead),
        eased: Eight::splat(line.eased),
    };
    follow(ground, aims, few.len(), |lane| Hit {
        from,
        line,
        struck: shots.struck(&few[lane], told),
    })
}

/// Plays so many shots, at most eight, each from a place and along a line of its own, to their ends.
pub(super) fn finish_each<'a>(
    ground: &Ground,
    count: usize,
    hit: impl Fn(usize) -> Hit<'a>,
) -> Ends {
    follow(ground, Aims::of((0..count).map(&hit)), count, hit)
}

/// Where eight shots are hit from, and how.
struct Aims {
    from: Places,
    ahead: Places,
    eased: Eight,
}

impl Aims {
    fn of<'a>(hits: impl Iterator<Item = Hit<'a>>) -> Self {
        let mut rows = [Eight::ZERO; LANES];
        for (row, Hit { from, line, .. }) in rows.iter_mut().zip(hits) {
            let (at, ahead) = (from.at, line.ahead);
            *row = Eight::new([at.x, at.y, ahead.x, ahead.y, line.eased, 0.0, 0.0, 0.0]);
        }
        let [from_x, from_y, ahead_x, ahead_y, eased, ..] = Eight::transpose(rows);
        Self {
            from: Places {
                x: from_x,
                y: from_y,
            },
            ahead: Places {
                x: ahead_x,
                y: ahead_y,
            },
            eased,
        }
    }
}

/// Plays so many shots, at most eight, to their ends.
#[inline(always)]
fn follow<'a>(ground: &Ground, aims: Aims, count: usize, hit: impl Fn(usize) -> Hit<'a>) -> Ends {
    let mut lanes = Lanes::of((0..count).map(|lane| hit(lane).struck.shot));
    let pitch = aims.from.moved(lanes.pitch.turned(aims.ahead), aims.eased);
    let Cells {
        lies: kinds,
        clear_yd: clear,
    } = ground.at_eight(pitch);
    let pitched = lies(kinds);
    lanes.run_by_rule(count, |lane| {
        let Struck { shot, ruled, told } = hit(lane).struck;
        let ruled = ruled?;
        (pitched[lane] == Lie::Green).then(|| ruled.run(shot, pitch.lane(lane), told))
    });
    let run = lanes.runs_on(kinds).turned(aims.ahead);
    let way = run.length();
    // A ball in a bunker does not run, and is at rest where it pitched.
    let stops = way.simd_le(clear).to_bitmask();
    let lost = kinds.simd_eq(i32x8::splat(Lie::Water as i32))
        | kinds.simd_eq(i32x8::splat(Lie::OutOfBounds as i32));
    let there = (1 << count) - 1;
    let lost = lost.to_bitmask() & there;
    let runs = Runs {
        pitch,
        kinds,
        direction: Places {
            x: run.x / way,
            y: run.y / way,
        },
        way,
        looking: mask(there & !stops & !lost),
    };
    let edges = runs.edges(ground, clear.fast_max(Eight::splat(STEP_YD)));
    // A run that was looked along ends as far on in its direction as it is long: rounded otherwise than by itself.
    let (at_rest, on) = (pitch.moved(run, Eight::ONE), runs.at(way));
    let at = Places {
        x: runs.looking.select(on.x, at_rest.x),
        y: runs.looking.select(on.y, at_rest.y),
    };
    let mut ends = Ends {
        x: at.x.to_array(),
        y: at.y.to_array(),
        lies: pitched,
        pitched,
        penalties: [0; LANES],
        replays: [false; LANES],
    };
    let mut followed = edges.met | lost;
    while followed != 0 {
        let lane = followed.trailing_zeros() as usize;
        followed &= followed - 1;
        let at = pitch.lane(lane);
        let Hit { from, struck, .. } = hit(lane);
        let end = match pitched[lane] {
            Lie::OutOfBounds => stroke_and_distance(from, pitched[lane]),
            Lie::Water => drop_behind(ground, from, at, from.at, pitched[lane]),
            _ => {
                let rolling = Rolling {
                    pitch: at,
                    pitched: pitched[lane],
                    direction: runs.direction.lane(lane),
                    way_yd: way.as_array()[lane],
                };
                roll_over(ground, from, struck, rolling, edges.edge(lane))
            }
        };
        ends.set(lane, &end);
    }
    ends
}

/// Eight shots, figure by figure.
struct Lanes {
    pitch: Places,
    heading: Places,
    run_fairway: Eight,
    run_rough: Eight,
    run_green: Places,
}

impl Lanes {
    fn of<'a>(few: impl Iterator<Item = &'a HoleShot>) -> Self {
        let figures = |shot: &HoleShot| {
            Eight::new([
                shot.pitch.x,
                shot.pitch.y,
                shot.heading.x,
                shot.heading.y,
                shot.run_fairway_yd,
                shot.run_rough_yd,
                shot.run_green.x,
                shot.run_green.y,
            ])
        };
        let mut rows = [Eight::ZERO; LANES];
        for (row, shot) in rows.iter_mut().zip(few) {
            *row = figures(shot);
        }
        let [
            pitch_x,
            pitch_y,
            heading_x,
            heading_y,
            run_fairway,
            run_rough,
            green_x,
            green_y,
        ] = Eight::transpose(rows);
        Self {
            pitch: Places {
                x: pitch_x,
                y: pitch_y,
            },
            heading: Places {
                x: heading_x,
                y: heading_y,
            },
            run_fairway,
            run_rough,
            run_green: Places {
                x: green_x,
                y: green_y,
            },
        }
    }

    /// Runs of the first so many on greens by a rule, where it gives one.
    fn run_by_rule(&mut self, count: usize, mut rule: impl FnMut(usize) -> Option<Xy>) {
        let Places { x, y } = &mut self.run_green;
        let (x, y) = (x.as_mut_array(), y.as_mut_array());
        for lane in 0..count {
            if let Some(run) = rule(lane) {
                (x[lane], y[lane]) = (run.x, run.y);
            }
        }
    }

    /// Runs on endless ground of what each pitched on, in the frame of the aim.
    fn runs_on(&self, kinds: i32x8) -> Places {
        let on = |lie: Lie| kinds.simd_eq(i32x8::splat(lie as i32));
        let far = (on(Lie::Fairway) | on(Lie::Tee)).select(
            self.run_fairway,
            on(Lie::Rough).select(
                self.run_rough,
                on(Lie::Trees).select(self.run_rough * TREES_RUN, Eight::ZERO),
            ),
        );
        let green = on(Lie::Green);
        Places {
            x: green.select(self.run_green.x, self.heading.x * far),
            y: green.select(self.run_green.y, self.heading.y * far),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used)] // a test may stop

    use super::*;
    use crate::ball::turf::Run;
    use crate::course::embedded;
    use crate::files::Faults;
    use crate::player::{Sex, levels};
    use crate::round::finish::finish;
    use crate::round::stage::Stage;
    use crate::rules::Rulebook;
    use crate::rules::hold::{GreenAt, Hold, LandingFacts};
    use crate::units::Length;

    /// A rule of which the run hangs on the place.
    struct Backboard;

    impl Hold for Backboard {
        fn run(&self, _: &LandingFacts, green: &GreenAt) -> Result<Run, Faults> {
            Ok(Run {
                along: Length::from_yd(0.4 * green.from_back_yd()),
                across: Length::from_yd(2.0),
            })
        }
    }

    /// From the tee, from both sides of the line of play and from behind the green, so that balls end on every lie, over
    /// every edge, in water and out of bounds.
    #[test]
    fn eight_shots_end_as_each_does_alone_to_the_last_bit() {
        let golfer = levels::level(28.0, Sex::Men).expect("a level");
        for (name, rules) in [
            ("parkland", Rulebook::default()),
            ("heathland", Rulebook::default()),
            ("heathland", Rulebook::default().with_hold(Backboard)),
        ] {
            let course = embedded::course(name).expect("a course");
            let golfers = [&golfer];
            let stage = Stage::by_rules(&course, &golfers, &rules);
            let (banks, side) = (stage.hole_banks(), stage.side(|_| 0));
            let mut ends_on = [0_u32; Lie::ALL.len()];
            let mut followed = 0;
            for (index, hole) in course.holes.iter().enumerate().step_by(5) {
                let solved = stage.solve_hole(index, &banks, &side);
                let (pin, tee) = (Xy::from(hole.pin), Xy::from(hole.tee));
                for (share, right_yd, lie) in [
                    (0.0, 0.0, Lie::Tee),
                    (0.4, 0.0, Lie::Fairway),
                    (0.6, 30.0, Lie::Rough),
                    (0.8, -25.0, Lie::Trees),
                    (1.1, 8.0, Lie::Sand),
                ] {
                    let way = pin.seen_from(tee);
                    let from = Spot {
                        at: tee.moved(way, share).moved(Xy::new(right_yd, 0.0), 1.0),
                        lie,
                    };
                    let ahead = pin.seen_from(from.at).unit();
                    let line = Line { ahead, eased: 0.97 };
                    let bank = &banks[index][0];
                    for swing in 0..bank.swings().len() {
                        let shots = bank.shots(swing, lie, ahead);
                        for few in [&shots.normal[..], &shots.mishit[..]]
                            .into_iter()
                            .flat_map(|list| list.chunks(7))
                        {
                            let shots_told = (shots, Told::Finely);
                            let ends = finish_eight(solved.ground(), (from, line), shots_told, few);
                            let expected = ends.expected(&solved.values);
                            for (lane, shot) in few.iter().enumerate() {
                                let struck = shots.struck(shot, Told::Finely);
                                let alone = finish(solved.ground(), from, line, struck);
                                assert_eq!(ends.end(lane), alone, "{name} {index} {from:?}");
                                ends_on[alone.spot.lie as usize] += 1;
                                followed += u32::from(alone.spot.lie != alone.pitched);
                                if !alone.replay {
                                    let value = solved.values.at(alone.spot);
                                    assert_eq!(
                                        expected[lane].to_bits(),
                                        value.to_bits(),
                                        "{name} {index} {alone:?}"
                                    );
                                }
                            }
                        }
                    }
                }
            }
            for lie in [Lie::Fairway, Lie::Rough, Lie::Sand, Lie::Trees, Lie::Green] {
                assert!(ends_on[lie as usize] > 100, "{name}: {lie:?}");
            }
            assert!(followed > 1000, "{name}: {followed}");
        }
    }
}
