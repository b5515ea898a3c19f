//! The balls of many rounds on one hole, shot by shot: full shots are followed eight side by side.

use rand::RngExt;
use rand::rngs::ChaCha8Rng;

use crate::course::{Hole, Lie};
use crate::player::club::Club;
use crate::rules::count::ShotFacts;

use super::bank::{HoleShot, SwingShots};
use super::choose::Choice;
use super::counting::{Counter, ended, over_water, to_pin_yd};
use super::eight::{Hit, finish_each};
use super::finish::{Finish, Line, Spot};
use super::ground::Ground;
use super::nearness::{MEANT_YD, band};
use super::part::Part;
use super::place::{FEET, Xy};
use super::places::LANES;
use super::play::{Round, Watch, Watched};
use super::ruled::Told;
use super::solve::{Play, Solved};
use super::tally::Tally;
use super::touch::TouchShot;
use super::values::MOST_STROKES;
use super::visits::Visit;

/// A hole that rounds are played on.
pub(super) struct OnHole<'a> {
    pub hole: &'a Hole,
    pub golfer: &'a Solved<'a>,
    pub goal: Option<&'a Solved<'a>>,
    pub counter: Option<&'a Counter>,
    pub watch: Option<Watch<'a>>,
    /// Its place on the course.
    pub index: usize,
}

/// A ball on its way.
#[derive(Clone)]
struct Ball {
    spot: Spot,
    /// What the goal's golfer expects to take from there.
    goal_expects: f64,
    strokes: u32,
    /// Strokes it took to reach the green.
    on_in: Option<u32>,
    /// The part of the first shot from near the green, and the strokes taken before it.
    near_in: Option<(Part, u32)>,
    is_over: bool,
}

/// A full shot, its strike drawn.
struct FullShot<'a> {
    /// Which of the rounds it belongs to.
    round: usize,
    choice: Choice,
    hit: Hit<'a>,
}

/// What is hit from somewhere.
#[derive(Clone, Copy)]
struct Aim<'a> {
    choice: Choice,
    line: Line,
    shots: &'a SwingShots,
}

impl<'a> OnHole<'a> {
    /// Plays the hole in all of some rounds.
    pub fn play(&self, rounds: &mut [Round], tally: &mut Tally) {
        let tee = self.golfer.tee_spot();
        let on_tee = Ball {
            spot: tee,
            goal_expects: self.goal_expects(tee),
            strokes: 0,
            on_in: None,
            near_in: None,
            is_over: false,
        };
        let mut balls = vec![on_tee; rounds.len()];
        let from_tee = match self.golfer.play(tee) {
            Some(Play::Full(choice)) => Some(self.aim(tee, choice)),
            _ => None,
        };
        let mut in_play: Vec<usize> = (0..rounds.len()).collect();
        let mut full: Vec<FullShot<'_>> = Vec::with_capacity(rounds.len());
        while !in_play.is_empty() {
            // First what each plays, then how it ends: reading the one does not wait for the other.
            for &round in &in_play {
                let (ball, random) = (&mut balls[round], &mut rounds[round].random);
                let full_shot = self.play_shot(from_tee, ball, random, tally);
                full.extend(full_shot.map(|(choice, hit)| FullShot { round, choice, hit }));
            }
            for few in full.chunks(LANES) {
                self.end_full_shots(few, &mut balls, rounds, tally);
            }
            full.clear();
            in_play.retain(|round| !balls[*round].is_over);
        }
        for (ball, round) in balls.iter().zip(rounds) {
            // A hole is given up long before its strokes are too many for a byte.
            round.scores.push(ball.strokes as u8);
        }
    }

    fn goal_expects(&self, spot: Spot) -> f64 {
        self.goal.map_or(0.0, |goal| f64::from(goal.expected(spot)))
    }

    /// Plays one shot (or all putts); a full shot is given back, to be followed beside others.
    fn play_shot(
        &self,
        from_tee: Option<Aim<'a>>,
        ball: &mut Ball,
        random: &mut ChaCha8Rng,
        tally: &mut Tally,
    ) -> Option<(Choice, Hit<'a>)> {
        if ball.spot.lie == Lie::Green {
            self.putt_out(ball, random, tally);
            return None;
        }
        if let Some(aim) = from_tee.filter(|_| self.golfer.on_tee(ball.spot)) {
            return Some((aim.choice, aim.hit(ball.spot, random)));
        }
        match self.golfer.play(ball.spot) {
            Some(Play::Touch(shot)) => self.play_touch(ball, &shot, random, tally),
            Some(Play::Full(choice)) => {
                let aim = self.aim(ball.spot, choice);
                return Some((choice, aim.hit(ball.spot, random)));
            }
            // No club is played from this lie: the ball is unplayable, and goes back to the tee.
            None => {
                tally.penalties += 1;
                ball.spot = self.golfer.tee_spot();
                self.took(ball, (Part::LongApproach, 1), false, tally);
            }
        }
        None
    }

    /// Counts strokes of a part; the ball lies where the next one is played from, if it is not holed.
    fn took(&self, ball: &mut Ball, (part, strokes): (Part, u32), holed: bool, tally: &mut Tally) {
        ball.strokes += strokes;
        ball.is_over = holed || ball.strokes >= MOST_STROKES;
        let before = ball.goal_expects;
        ball.goal_expects = match ball.is_over {
            true => 0.0,
            false => self.goal_expects(ball.spot),
        };
        tally.lost[part as usize] += ball.goal_expects + f64::from(strokes) - before;
        if ball.is_over {
            self.count_hole(ball, holed, tally);
        }
    }

    fn count_hole(&self, ball: &Ball, holed: bool, tally: &mut Tally) {
        if let Some((part, before)) = ball.near_in {
            let saves = match part {
                Part::Sand => &mut tally.sand_saves,
                _ => &mut tally.up_and_downs,
            };
            saves.count(holed && ball.strokes <= before + 2);
        }
        let hole = &mut tally.holes[self.index];
        hole.strokes += u64::from(ball.strokes);
        hole.given_up += u64::from(!holed);
        hole.greens += u64::from(
            ball.on_in
                .is_some_and(|on| on + 2 <= u32::from(self.hole.par)),
        );
    }

    fn putt_out(&self, ball: &mut Ball, random: &mut ChaCha8Rng, tally: &mut Tally) {
        let distance_ft = Xy::from(self.hole.pin).seen_from(ball.spot.at).length() * FEET;
        let putts = u32::from(
            self.golfer
                .values
                .putts()
                .draw(f64::from(distance_ft), random.random()),
        );
        ball.on_in.get_or_insert(ball.strokes);
        tally.putts += u64::from(putts);
        tally.three_putts += u64::from(putts >= 3);
        tally.shots[Part::Putting as usize] += u64::from(putts);
        self.took(ball, (Part::Putting, putts), true, tally);
    }

    fn play_touch(
        &self,
        ball: &mut Ball,
        shot: &TouchShot<'_>,
        random: &mut ChaCha8Rng,
        tally: &mut Tally,
    ) {
        let part = Part::near_green(ball.spot.lie);
        ball.near_in.get_or_insert((part, ball.strokes));
        tally.shots[part as usize] += 1;
        let Some(end) = touch_end(random, shot, self.golfer.ground()) else {
            self.count(ball, Counted::touch(part, None), tally);
            ball.on_in.get_or_insert(ball.strokes + 1);
            return self.took(ball, (part, 1), true, tally);
        };
        let end = self.or_again(ball, end);
        self.count(ball, Counted::touch(part, Some(&end)), tally);
        self.rests(ball, (part, false), &end, tally);
    }

    fn or_again(&self, ball: &Ball, end: Finish) -> Finish {
        let again = || self.golfer.expected(ball.spot);
        end.or_again(ball.spot, &self.golfer.values, again)
    }

    /// The ball comes to rest, the shot and its penalty are counted.
    fn rests(
        &self,
        ball: &mut Ball,
        (part, is_full): (Part, bool),
        end: &Finish,
        tally: &mut Tally,
    ) {
        if let Some(watch) = self.watch {
            watch(Watched {
                hole: self.index,
                is_full,
                end,
            });
        }
        let strokes = 1 + u32::from(end.penalty);
        tally.penalties += u64::from(end.penalty);
        ball.spot = end.spot;
        if end.spot.lie == Lie::Green {
            ball.on_in.get_or_insert(ball.strokes + strokes);
        }
        self.took(ball, (part, strokes), false, tally);
    }

    fn aim(&self, from: Spot, choice: Choice) -> Aim<'a> {
        let (line, shots) = self.golfer.choosing(from).line(from, choice);
        Aim {
            choice,
            line,
            shots,
        }
    }

    /// Follows full shots to their ends, and counts them.
    fn end_full_shots(
        &self,
        few: &[FullShot<'_>],
        balls: &mut [Ball],
        rounds: &mut [Round],
        tally: &mut Tally,
    ) {
        let ends = finish_each(self.golfer.ground(), few.len(), |lane| few[lane].hit);
        for (lane, shot) in few.iter().enumerate() {
            let ball = &mut balls[shot.round];
            let end = self.or_again(ball, ends.end(lane));
            self.end_full_shot(shot, &end, (ball, &mut rounds[shot.round]), tally);
        }
    }

    fn end_full_shot(
        &self,
        shot: &FullShot<'_>,
        end: &Finish,
        (ball, round): (&mut Ball, &mut Round),
        tally: &mut Tally,
    ) {
        let choice = shot.choice;
        let choosing = self.golfer.choosing(ball.spot);
        let from_tee = self.golfer.on_tee(ball.spot) && self.hole.par >= 4;
        let part = if from_tee {
            Part::TeeShots
        } else {
            choosing.part(choice)
        };
        tally.shots[part as usize] += 1;
        if round.is_kept() {
            round.visits.push(Visit {
                hole: self.index,
                spot: ball.spot,
                choice,
                part,
            });
        }
        if from_tee && ball.strokes == 0 {
            let hit = matches!(end.spot.lie, Lie::Fairway | Lie::Green) && end.penalty == 0;
            tally.holes[self.index].fairways += u64::from(hit);
        }
        if !from_tee {
            self.count_nearness(ball, choice.target, end.spot.at, tally);
        }
        if end.pitched == Lie::Green {
            tally.holds[part as usize].pitched += 1;
            tally.holds[part as usize].held += u64::from(end.spot.lie == Lie::Green && !end.replay);
        }
        if self.counter.is_some() {
            let counted = Counted {
                part,
                club: Some(choosing.club(choice)),
                over_water: over_water(
                    self.golfer.ground(),
                    ball.spot,
                    shot.hit.line,
                    shot.hit.struck.shot,
                ),
                end: Some(end),
            };
            self.count(ball, counted, tally);
        }
        self.rests(ball, (part, true), end, tally);
    }

    /// Counts a shot under the label its rule gives it. The ball still lies where it was played from.
    fn count(&self, ball: &Ball, shot: Counted<'_>, tally: &mut Tally) {
        let Some(counter) = self.counter else {
            return;
        };
        let facts = ShotFacts {
            hole: self.hole.number,
            par: self.hole.par,
            stroke: ball.strokes + 1,
            part: shot.part.name(),
            club: shot.club,
            lie: ball.spot.lie,
            to_pin_yd: to_pin_yd(self.hole, ball.spot.at),
            left_yd: shot.end.map_or(0, |end| to_pin_yd(self.hole, end.spot.at)),
            over_water: shot.over_water,
            pitched: shot.end.map_or(Lie::Green, |end| end.pitched),
            ended: ended(shot.end),
            penalty: shot.end.map_or(0, |end| end.penalty),
        };
        if let Some(label) = counter.label(&facts) {
            *tally.labels.entry(label).or_default() += 1;
        }
    }

    /// Counts how near the hole a shot meant for the green finished.
    fn count_nearness(&self, ball: &Ball, target: Xy, end: Xy, tally: &mut Tally) {
        let pin = Xy::from(self.hole.pin);
        if pin.seen_from(target).length() > MEANT_YD {
            return;
        }
        if let Some(band) = band(pin.seen_from(ball.spot.at).length()) {
            tally.near[band].count(pin.seen_from(end).length() * FEET);
        }
    }
}

impl<'a> Aim<'a> {
    /// A strike, drawn.
    fn hit(&self, from: Spot, random: &mut ChaCha8Rng) -> Hit<'a> {
        let shots = self.shots;
        Hit {
            from,
            line: self.line,
            struck: shots.struck(pick(random, shots), Told::Finely),
        }
    }
}

/// What a rule that counts is told of a shot, beside where it was played from.
struct Counted<'a> {
    part: Part,
    /// None for chips, pitches and greenside bunker shots.
    club: Option<Club>,
    over_water: bool,
    /// None when it was holed.
    end: Option<&'a Finish>,
}

impl<'a> Counted<'a> {
    const fn touch(part: Part, end: Option<&'a Finish>) -> Self {
        Self {
            part,
            club: None,
            over_water: false,
            end,
        }
    }
}

fn pick<'a>(random: &mut ChaCha8Rng, shots: &'a SwingShots) -> &'a HoleShot {
    let list = if random.random::<f32>() < shots.mishit_share {
        &shots.mishit
    } else {
        &shots.normal
    };
    &list[random.random_range(0..list.len())]
}

/// None when the shot is holed.
fn touch_end(random: &mut ChaCha8Rng, shot: &TouchShot<'_>, ground: &Ground) -> Option<Finish> {
    let (normal, mishits) = shot.counts();
    if random.random::<f32>() < shot.mishit_share {
        return Some(shot.mishit(ground, random.random_range(0..mishits)));
    }
    if random.random::<f32>() < shot.holed {
        return None;
    }
    Some(shot.normal(ground, random.random_range(0..normal)))
}
