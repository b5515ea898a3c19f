//! Decisions on a hole, in strokes: the club from the tee, a long drive in the rough or a shorter one in the fairway, to
//! go for the green or to lay up.
//!
//! All of it is read off a solved hole, for the golfer it is solved for.

use serde::Serialize;

use crate::course::line::{Line, Station};
use crate::course::{Course, Hole, Lie};
use crate::player::club::Club;
use crate::round::choose::{Care, Choice, Choosing};
use crate::round::finish::{Spot, finish};
use crate::round::part::SHORT_GAME_YD;
use crate::round::place::Xy;
use crate::round::ruled::Told;
use crate::round::solve::Solved;

/// Answers for one hole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoleAnswers {
    /// Number on the card.
    pub number: u32,
    /// Par.
    pub par: u8,
    /// Length, yards.
    pub length_yd: f64,
    /// Expected strokes from the tee, by the club hit there, fewest first.
    pub tee: Vec<TeeClub>,
    /// Fairway against rough; none on a par 3, or where the best tee shot does not find the fairway.
    pub drive: Option<Drive>,
    /// Going for the green against laying up, from the fairway, the farthest from the hole first; empty where there is
    /// nothing to decide.
    pub approach: Vec<GoOrLayUp>,
}

/// A club from the tee.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct TeeClub {
    /// The club.
    pub club: Club,
    /// Expected strokes for the hole with its best tee shot.
    pub strokes: f64,
}

/// Drives in the fairway and the drives in the rough that are worth as much.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Drive {
    /// The club of the best tee shot.
    pub club: Club,
    /// How far its balls in the fairway lie from the tee, along the line of play.
    pub usual_yd: f64,
    /// Drives around that, shortest first.
    pub even: Vec<Even>,
}

/// A drive in the fairway, and the one in the rough that is worth as much.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Even {
    /// Length of the drive in the fairway, along the line of play.
    pub fairway_yd: f64,
    /// Expected strokes from there.
    pub fairway_strokes: f64,
    /// Expected strokes from the rough beside it; none where there is none.
    pub rough_strokes: Option<f64>,
    /// Length of the shortest drive in the rough that is worth as much; none where none is.
    pub rough_yd: Option<f64>,
}

/// Going for the green and laying up, from one place in the fairway. Every full shot is one or the other, so that the
/// better of the two is the best there is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct GoOrLayUp {
    /// The place.
    #[serde(skip)]
    pub from: Spot,
    /// Distance to the hole.
    pub to_hole_yd: f64,
    /// The best club for the green, or for as near to it as the player gets: aimed to end within the short game of it.
    pub go_club: Club,
    /// How far short of the green it is aimed to end; 0 where it is aimed at the green.
    pub go_short_yd: f64,
    /// Expected strokes with it.
    pub go_strokes: f64,
    /// The best club for laying up.
    pub lay_up_club: Club,
    /// How far from the hole it is aimed to pitch.
    pub lay_up_to_yd: f64,
    /// Expected strokes with it.
    pub lay_up_strokes: f64,
    /// Strokes saved by going; negative where laying up saves some.
    pub going_saves: f64,
}

/// Clubs from the tee that are told at most.
const TEE_CLUBS: usize = 4;
/// Drives are looked at in steps of this size, yards.
const STEP_YD: f64 = 1.0;
/// Drives shown around the usual one: so much shorter and longer, yards.
const AROUND_YD: [f64; 3] = [-20.0, 0.0, 20.0];
/// Fairway and rough are looked for up to so far beside the line, yards.
const ASIDE_YD: f64 = 45.0;
/// How deep in the rough a ball is taken to lie, yards from the fairway's edge.
const DEEP_YD: f64 = 4.0;
/// A shot aimed to end this near the green, or nearer, is aimed at it, yards.
const AT_GREEN_YD: f64 = 8.0;
/// A shot aimed to end this far short of the green, or farther, lays up, yards: outside the short game. Any other goes for
/// the green, or as near to it as the player gets.
const SHORT_YD: f64 = SHORT_GAME_YD as f64;
/// Distances from the hole at which going or laying up is weighed, yards.
const APPROACH_STEP_YD: usize = 10;
/// Nearer than this nobody lays up, yards.
const NEAREST_YD: usize = 150;

/// Answers for the holes of these numbers; numbers that the course does not have are left out.
#[must_use]
pub fn answers(course: &Course, solved: &[Solved<'_>], asked: &[u32]) -> Vec<HoleAnswers> {
    let holes = course.holes.iter().zip(solved);
    holes
        .filter(|(hole, _)| asked.contains(&hole.number))
        .map(|(hole, solved)| answer(hole, solved))
        .collect()
}

fn answer(hole: &Hole, solved: &Solved<'_>) -> HoleAnswers {
    let at = Place {
        hole,
        solved,
        line: Line::through(&hole.line),
    };
    let far = hole.par >= 4;
    HoleAnswers {
        number: hole.number,
        par: hole.par,
        length_yd: hole.length_yd,
        tee: at.tee_clubs(),
        drive: if far { at.drive() } else { None },
        approach: if far { at.approach() } else { Vec::new() },
    }
}

/// A solved hole and its line of play.
struct Place<'a> {
    hole: &'a Hole,
    solved: &'a Solved<'a>,
    line: Option<Line>,
}

impl Place<'_> {
    /// The best tee shot with each club.
    fn tee_clubs(&self) -> Vec<TeeClub> {
        let spot = self.solved.tee_spot();
        let choosing = self.solved.choosing(spot);
        let mut clubs: Vec<TeeClub> = Vec::new();
        for &swing in choosing.swings {
            let candidates = choosing.candidates(spot, &[swing]);
            let best = choosing.best(&self.solved.values, spot, &candidates, Care::TEE);
            if let Some((choice, strokes)) = best {
                clubs.push(TeeClub {
                    club: choosing.club(choice),
                    strokes: f64::from(strokes),
                });
            }
        }
        clubs.sort_by(|a, b| a.strokes.total_cmp(&b.strokes));
        // A pitch from the tee has several swings of one club.
        let mut best: Vec<TeeClub> = Vec::new();
        for club in clubs {
            if best.iter().all(|known| known.club != club.club) {
                best.push(club);
            }
        }
        best.truncate(TEE_CLUBS);
        best
    }

    fn drive(&self) -> Option<Drive> {
        let spot = self.solved.tee_spot();
        let choosing = self.solved.choosing(spot);
        let candidates = choosing.candidates(spot, choosing.swings);
        let (choice, _) = choosing.best(&self.solved.values, spot, &candidates, Care::TEE)?;
        let usual_yd = self.usual_drive_yd(choosing, spot, choice)?;
        let even = AROUND_YD.into_iter();
        Some(Drive {
            club: choosing.club(choice),
            usual_yd,
            even: even.filter_map(|more| self.even(usual_yd + more)).collect(),
        })
    }

    /// Mean distance along the line of the normal strikes that end in the fairway.
    fn usual_drive_yd(&self, choosing: &Choosing<'_>, from: Spot, choice: Choice) -> Option<f64> {
        let (line, shots) = choosing.line(from, choice);
        let ends = shots.normal.iter().filter_map(|shot| {
            let end = finish(
                choosing.ground,
                from,
                line,
                shots.struck(shot, Told::Finely),
            );
            let in_fairway = end.penalty == 0 && end.spot.lie == Lie::Fairway;
            in_fairway.then(|| self.along_yd(end.spot.at)).flatten()
        });
        let (sum, count) = ends.fold((0.0, 0_u32), |(sum, count), yd| (sum + yd, count + 1));
        (count > 0).then(|| sum / f64::from(count))
    }

    fn along_yd(&self, at: Xy) -> Option<f64> {
        let line = self.line.as_ref()?;
        Some(line.station(f64::from(at.x), f64::from(at.y)).along_yd)
    }

    /// A drive in the fairway and its equal in the rough; none where there is no fairway.
    fn even(&self, fairway_yd: f64) -> Option<Even> {
        let fairway = self.in_fairway(fairway_yd)?;
        // As far as full shots are played from: beyond, the short game begins.
        let last_yd = self.hole.length_yd - f64::from(SHORT_GAME_YD);
        let longer = (0..).map(|step| fairway_yd + STEP_YD * f64::from(step));
        let mut longer = longer.take_while(|yd| *yd <= last_yd);
        let rough_yd = longer.find(|yd| self.in_rough(*yd).is_some_and(|rough| rough <= fairway));
        Some(Even {
            fairway_yd,
            fairway_strokes: fairway,
            rough_strokes: self.in_rough(fairway_yd),
            rough_yd,
        })
    }

    /// Expected strokes from the fairway at a distance, where it is nearest the line of play.
    fn in_fairway(&self, along_yd: f64) -> Option<f64> {
        let mut out = offsets().flat_map(|yd| [yd, -yd]);
        let side_yd = out.find(|side| self.lie(along_yd, *side) == Some(Lie::Fairway))?;
        self.expected(along_yd, side_yd, Lie::Fairway)
    }

    /// Expected strokes from the rough at a distance, a little off the fairway's edge: the mean of both sides.
    fn in_rough(&self, along_yd: f64) -> Option<f64> {
        let side = |sign: f64| {
            let mut out = offsets().map(|yd| sign * yd);
            let edge = out.find(|yd| self.lie(along_yd, *yd) == Some(Lie::Rough))?;
            let deep = edge + sign * DEEP_YD;
            let at = if self.lie(along_yd, deep) == Some(Lie::Rough) {
                deep
            } else {
                edge
            };
            self.expected(along_yd, at, Lie::Rough)
        };
        match (side(-1.0), side(1.0)) {
            (Some(left), Some(right)) => Some(f64::midpoint(left, right)),
            (one, other) => one.or(other),
        }
    }

    fn at(&self, along_yd: f64, side_yd: f64) -> Option<Xy> {
        let station = Station { along_yd, side_yd };
        Some(Xy::from(self.line.as_ref()?.point(station)))
    }

    fn lie(&self, along_yd: f64, side_yd: f64) -> Option<Lie> {
        Some(self.solved.ground().lie(self.at(along_yd, side_yd)?))
    }

    fn expected(&self, along_yd: f64, side_yd: f64, lie: Lie) -> Option<f64> {
        let at = self.at(along_yd, side_yd)?;
        Some(f64::from(self.solved.expected(Spot { at, lie })))
    }

    /// Places in the fairway from which the green can be reached and laying up is another thing.
    fn approach(&self) -> Vec<GoOrLayUp> {
        let pin = Xy::from(self.hole.pin);
        let farthest = (self.hole.length_yd as usize / APPROACH_STEP_YD) * APPROACH_STEP_YD;
        let distances = (NEAREST_YD..=farthest).rev().step_by(APPROACH_STEP_YD);
        distances
            .filter_map(|to_hole_yd| {
                let along_yd = self.hole.length_yd - to_hole_yd as f64;
                let mut out = offsets().flat_map(|yd| [yd, -yd]);
                let side = out.find(|side| self.lie(along_yd, *side) == Some(Lie::Fairway))?;
                let at = self.at(along_yd, side)?;
                let spot = Spot {
                    at,
                    lie: Lie::Fairway,
                };
                self.go_or_lay_up(spot, f64::from(pin.seen_from(at).length()))
            })
            .collect()
    }

    fn go_or_lay_up(&self, from: Spot, to_hole_yd: f64) -> Option<GoOrLayUp> {
        let choosing = self.solved.choosing(from);
        let all = choosing.candidates(from, choosing.swings);
        let ends = all
            .into_iter()
            .map(|choice| (choice, self.left_yd(choosing, from, choice)));
        let ends: Vec<(Choice, f64)> = ends.collect();
        let those = |wanted: &dyn Fn(f64) -> bool| -> Vec<Choice> {
            let those = ends.iter().filter(|(_, left_yd)| wanted(*left_yd));
            those.map(|(choice, _)| *choice).collect()
        };
        let go = those(&|left_yd| left_yd < SHORT_YD);
        let lay_up = those(&|left_yd| left_yd >= SHORT_YD);
        // A target that is moved about may end as the other kind of shot: it then counts as that.
        let refined = [&go, &lay_up]
            .map(|candidates| choosing.best(&self.solved.values, from, candidates, Care::TEE));
        let best = |candidates: &[Choice], goes: bool| {
            let is_one = |(choice, _): &&(Choice, f32)| {
                (self.left_yd(choosing, from, *choice) < SHORT_YD) == goes
            };
            let found = refined.iter().flatten().filter(is_one).copied();
            found
                .min_by(|a, b| a.1.total_cmp(&b.1))
                .or_else(|| choosing.best(&self.solved.values, from, candidates, Care::GUEST))
        };
        let ((go, go_strokes), (lay_up, lay_up_strokes)) =
            (best(&go, true)?, best(&lay_up, false)?);
        let pin = Xy::from(self.hole.pin);
        let short_yd = self.left_yd(choosing, from, go);
        Some(GoOrLayUp {
            from,
            to_hole_yd,
            go_club: choosing.club(go),
            go_short_yd: if short_yd <= AT_GREEN_YD {
                0.0
            } else {
                short_yd
            },
            go_strokes: f64::from(go_strokes),
            lay_up_club: choosing.club(lay_up),
            lay_up_to_yd: f64::from(pin.seen_from(lay_up.target).length()),
            lay_up_strokes: f64::from(lay_up_strokes),
            going_saves: f64::from(lay_up_strokes - go_strokes),
        })
    }

    /// How far short of the green a choice is aimed to end; negative beyond it.
    fn left_yd(&self, choosing: &Choosing<'_>, from: Spot, choice: Choice) -> f64 {
        let (_, shots) = choosing.line(from, choice);
        let way = choice.target.seen_from(from.at).unit();
        let end = choice.target.moved(way, shots.run_green_yd);
        let to_green_yd = self
            .hole
            .grid
            .to_green_yd(f64::from(end.x), f64::from(end.y));
        let pin = Xy::from(self.hole.pin);
        let (to_pin, gone) = (pin.seen_from(from.at), end.seen_from(from.at));
        let is_beyond = gone.length() > to_pin.length();
        if is_beyond { -to_green_yd } else { to_green_yd }
    }
}

/// Distances from the line of play outwards, yards.
fn offsets() -> impl Iterator<Item = f64> {
    (0..=ASIDE_YD as u32).map(f64::from)
}
