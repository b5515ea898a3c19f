//! Closed outlines from the pieces a map draws them in.

use super::map::Place;

/// Joins pieces at their ends into closed outlines, none with its first point again at the end. Pieces that do not close
/// are closed with a straight side when they have three points or more, and dropped otherwise.
pub(super) fn joined(pieces: Vec<Vec<Place>>) -> Vec<Vec<Place>> {
    let mut open: Vec<Vec<Place>> = pieces.into_iter().filter(|piece| piece.len() > 1).collect();
    let mut closed = Vec::new();
    while let Some(mut ring) = open.pop() {
        grow(&mut ring, &mut open);
        if ring.first() != ring.last() {
            // A piece is missing where it ends: there may be more before its beginning.
            ring.reverse();
            grow(&mut ring, &mut open);
        }
        closed.extend(outline(ring));
    }
    closed.reverse();
    closed
}

/// Joins pieces to the end of a ring until it closes or nothing goes on there.
fn grow(ring: &mut Vec<Place>, open: &mut Vec<Vec<Place>>) {
    while ring.first() != ring.last() {
        let Some(next) = next_of(ring, open) else {
            return;
        };
        let mut piece = open.swap_remove(next);
        if ring.last() != piece.first() {
            piece.reverse();
        }
        ring.extend(piece.into_iter().skip(1));
    }
}

/// The piece that goes on where a ring ends.
fn next_of(ring: &[Place], open: &[Vec<Place>]) -> Option<usize> {
    let end = ring.last();
    open.iter()
        .position(|piece| piece.first() == end || piece.last() == end)
}

/// A line as an outline: without repeated points, and without its first point again at the end; none when fewer than
/// three points are left.
pub(super) fn outline(mut line: Vec<Place>) -> Option<Vec<Place>> {
    line.dedup();
    if line.len() > 1 && line.first() == line.last() {
        line.pop();
    }
    (line.len() >= 3).then_some(line)
}

/// Whether a place lies within an outline, by counting the sides that pass to one side of it.
pub(super) fn holds(outline: &[Place], place: Place) -> bool {
    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
    let crossed = sides.filter(|(a, b)| {
        let spans = (a.lat_deg > place.lat_deg) != (b.lat_deg > place.lat_deg);
        spans && {
            let share = (place.lat_deg - a.lat_deg) / (b.lat_deg - a.lat_deg);
            place.lon_deg < a.lon_deg + share * (b.lon_deg - a.lon_deg)
        }
    });
    crossed.count() % 2 == 1
}

#[cfg(test)]
mod tests {
    use super::*;

    fn places(points: &[(f64, f64)]) -> Vec<Place> {
        points
            .iter()
            .map(|&(lat_deg, lon_deg)| Place { lat_deg, lon_deg })
            .collect()
    }

    #[test]
    fn pieces_are_joined_whichever_way_they_run() {
        let pieces = vec![
            places(&[(0.0, 0.0), (0.0, 1.0)]),
            places(&[(1.0, 1.0), (0.0, 1.0)]),
            places(&[(1.0, 1.0), (1.0, 0.0), (0.0, 0.0)]),
        ];
        let rings = joined(pieces);
        assert_eq!(rings.len(), 1);
        assert_eq!(rings[0].len(), 4);
        assert!(holds(
            &rings[0],
            Place {
                lat_deg: 0.5,
                lon_deg: 0.5
            }
        ));
        assert!(!holds(
            &rings[0],
            Place {
                lat_deg: 0.5,
                lon_deg: 1.5
            }
        ));
    }

    /// At the edge of an extract a piece is missing: what is there makes one outline, in whatever order it is listed.
    #[test]
    fn pieces_of_an_open_ring_are_joined_in_any_order() {
        let pieces = [
            places(&[(0.0, 0.0), (0.0, 1.0)]),
            places(&[(0.0, 1.0), (1.0, 1.0)]),
            places(&[(1.0, 1.0), (1.0, 0.5)]),
        ];
        for order in [
            [0, 1, 2],
            [0, 2, 1],
            [1, 0, 2],
            [1, 2, 0],
            [2, 0, 1],
            [2, 1, 0],
        ] {
            let rings = joined(order.map(|piece| pieces[piece].clone()).to_vec());
            assert_eq!(rings.len(), 1, "{order:?}");
            assert_eq!(rings[0].len(), 4, "{order:?}");
        }
    }

    #[test]
    fn two_rings_stay_two() {
        let square = |at: f64| places(&[(at, 0.0), (at, 1.0), (at + 1.0, 1.0), (at, 0.0)]);
        assert_eq!(joined(vec![square(0.0), square(5.0)]).len(), 2);
    }
}
