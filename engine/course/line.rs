//! The line of play: places along it and beside it.

use super::Point;

/// A line of play from the tee to the middle of the green.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    legs: Vec<Leg>,
}

/// One straight leg of it.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Leg {
    start: Point,
    /// Distance along the line at the start, yards.
    along_yd: f64,
    length_yd: f64,
    /// Sine and cosine of the heading, clockwise from +y: the direction of play is (sin, cos).
    sin: f64,
    cos: f64,
}

/// A place told by the line of play.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Station {
    /// Distance along the line from the tee; negative behind the tee, more than its length beyond the green.
    pub along_yd: f64,
    /// Distance to the right of the line; negative left.
    pub side_yd: f64,
}

impl Line {
    /// A line through points; none when there are fewer than two or two in a row are the same.
    #[must_use]
    pub fn through(points: &[Point]) -> Option<Self> {
        let mut along_yd = 0.0;
        let mut legs = Vec::new();
        for pair in points.windows(2) {
            let (dx, dy) = (pair[1].x_yd - pair[0].x_yd, pair[1].y_yd - pair[0].y_yd);
            let length_yd = dx.hypot(dy);
            if length_yd <= 0.0 {
                return None;
            }
            legs.push(Leg {
                start: pair[0],
                along_yd,
                length_yd,
                sin: dx / length_yd,
                cos: dy / length_yd,
            });
            along_yd += length_yd;
        }
        (!legs.is_empty()).then_some(Self { legs })
    }

    /// A line that leaves the tee along +y and turns at distances along it, given in yards and degrees (positive
    /// right), nearest first.
    #[must_use]
    pub fn with_turns(length_yd: f64, turns: &[(f64, f64)]) -> Option<Self> {
        let mut here = Point {
            x_yd: 0.0,
            y_yd: 0.0,
        };
        let mut points = vec![here];
        let (mut at_yd, mut heading_deg) = (0.0, 0.0_f64);
        for &(turn_at_yd, turn_deg) in turns.iter().chain([&(length_yd, 0.0)]) {
            let (sin, cos) = heading_deg.to_radians().sin_cos();
            let step = turn_at_yd - at_yd;
            here = Point {
                x_yd: here.x_yd + step * sin,
                y_yd: here.y_yd + step * cos,
            };
            points.push(here);
            at_yd = turn_at_yd;
            heading_deg += turn_deg;
        }
        Self::through(&points)
    }

    /// Its points, from the tee to the middle of the green.
    #[must_use]
    pub fn points(&self) -> Vec<Point> {
        let end = self.end();
        self.legs.iter().map(|leg| leg.start).chain([end]).collect()
    }

    /// The middle of the green.
    #[must_use]
    pub fn end(&self) -> Point {
        let last = self.last();
        last.at(last.length_yd, 0.0)
    }

    /// Its length, yards.
    #[must_use]
    pub fn length_yd(&self) -> f64 {
        let last = self.last();
        last.along_yd + last.length_yd
    }

    /// The direction of play at a distance along it, radians clockwise from +y.
    #[must_use]
    pub fn heading_rad(&self, along_yd: f64) -> f64 {
        let leg = self.leg_at(along_yd);
        leg.sin.atan2(leg.cos)
    }

    /// The point at a station.
    #[must_use]
    pub fn point(&self, station: Station) -> Point {
        let leg = self.leg_at(station.along_yd);
        leg.at(station.along_yd - leg.along_yd, station.side_yd)
    }

    /// The station of a point: that of the nearest place on the line, whose first and last leg go on without end.
    #[must_use]
    pub fn station(&self, x_yd: f64, y_yd: f64) -> Station {
        let mut nearest = (
            f64::INFINITY,
            Station {
                along_yd: 0.0,
                side_yd: 0.0,
            },
        );
        for (index, leg) in self.legs.iter().enumerate() {
            let (dx, dy) = (x_yd - leg.start.x_yd, y_yd - leg.start.y_yd);
            let forward = dx * leg.sin + dy * leg.cos;
            let right = dx * leg.cos - dy * leg.sin;
            let least = if index == 0 { f64::NEG_INFINITY } else { 0.0 };
            let most = if index + 1 == self.legs.len() {
                f64::INFINITY
            } else {
                leg.length_yd
            };
            let along = forward.clamp(least, most);
            let away = (forward - along).powi(2) + right.powi(2);
            if away < nearest.0 {
                let side_yd = away.sqrt().copysign(right);
                nearest = (
                    away,
                    Station {
                        along_yd: leg.along_yd + along,
                        side_yd,
                    },
                );
            }
        }
        nearest.1
    }

    /// The line from another start: its corners as far as they lie more than `past_yd` beyond the start along the line.
    /// None when the start is the end of the line.
    #[must_use]
    pub fn started_at(&self, start: Point, past_yd: f64) -> Option<Self> {
        let at_yd = self.station(start.x_yd, start.y_yd).along_yd;
        let corners = self.legs.iter().skip(1);
        let ahead = corners.filter(|leg| leg.along_yd > at_yd + past_yd);
        let points: Vec<Point> = [start]
            .into_iter()
            .chain(ahead.map(|leg| leg.start))
            .chain([self.end()])
            .collect();
        Self::through(&points)
    }

    /// The places `half_width_yd` to both sides of each leg's ends, and `beyond_yd` past the end of the last.
    pub(super) fn corners(&self, half_width_yd: f64, beyond_yd: f64) -> Vec<Point> {
        let past = self.last().at(self.last().length_yd + beyond_yd, 0.0);
        let sides = |leg: &Leg| {
            [
                (0.0, -1.0),
                (0.0, 1.0),
                (leg.length_yd, -1.0),
                (leg.length_yd, 1.0),
            ]
            .map(|(forward, side)| leg.at(forward, side * half_width_yd))
        };
        self.legs.iter().flat_map(sides).chain([past]).collect()
    }

    /// The leg at a distance along the line.
    fn leg_at(&self, along_yd: f64) -> &Leg {
        self.legs
            .iter()
            .rev()
            .find(|leg| leg.along_yd <= along_yd)
            .unwrap_or(&self.legs[0])
    }

    fn last(&self) -> &Leg {
        &self.legs[self.legs.len() - 1]
    }
}

impl Leg {
    /// The point some yards forward from the leg's start and to the right of it.
    fn at(&self, forward_yd: f64, right_yd: f64) -> Point {
        Point {
            x_yd: self.start.x_yd + forward_yd * self.sin + right_yd * self.cos,
            y_yd: self.start.y_yd + forward_yd * self.cos - right_yd * self.sin,
        }
    }
}
