//! A map of the strokes a player is expected to need from everywhere on a hole.

use crate::cost::on_hole::StrokesMap;
use crate::course::{Hole, Lie, Point};
use crate::show::reading::number;

use super::colour::{Colour, on_scale};
use super::ground::{self, LIES, View};
use super::hole::{About, about, draft, marks, view};
use super::panel::Panel;
use super::svg::{Element, Svg, Words};
use super::trace::{outlines, path};
use super::{Picture, Played, SMALL, Style};

/// Bands of colour at most.
const MOST_BANDS: f64 = 18.0;
/// The share of the squares, those of the fewest strokes first, that bands are made for.
const SHOWN_SHARE: f64 = 0.97;
/// Steps a band may have, strokes.
const STEPS: [f64; 3] = [0.1, 0.25, 0.5];

/// The map of a hole of a course for a player.
#[must_use]
pub fn strokes(course: &str, hole: &Hole, played: &Played<'_>, style: Style<'_>) -> Picture {
    let view = view(hole);
    let alone = Played {
        beside: None,
        ..*played
    };
    let About {
        title,
        below,
        description,
    } = about(course, hole, Some(&alone), style.reading);
    let about = About {
        description: format!(
            "{description} A map of the strokes {} is expected to need from each place.",
            played.name
        ),
        below: format!("{below} from the tee"),
        title,
    };
    let squares = Squares::of(&played.on.map, &view);
    let bands = Bands::of(&squares);
    draft(&view, &about, style, |svg, panel| {
        ground::textures(svg, 1.0);
        view.open_clipped(svg, "ground");
        map(svg, &squares, &bands, &view);
        ground::edges(svg, hole, &view);
        let no_play = LIES.into_iter().filter(|(lie, _)| is_unplayable(*lie));
        ground::areas(svg, hole, &view, &no_play.collect::<Vec<_>>());
        svg.close("g");
        marks(svg, hole, &view, style.reading, None, view.edges());
        legend(svg, panel, &bands, played.name);
        ground_key(svg, panel, hole, &view);
    })
}

fn is_unplayable(lie: Lie) -> bool {
    matches!(lie, Lie::Water | Lie::OutOfBounds)
}

/// The squares of a map that are seen; those nobody can play from have the strokes of the nearest in their row, and where
/// that has none, of the nearest row.
struct Squares {
    left_yd: f64,
    near_yd: f64,
    step_yd: f64,
    columns: usize,
    strokes: Vec<f64>,
    seen: Vec<f64>,
}

/// Rows of which nothing is known are those of the nearest of which something is.
fn from_rows_beside(rows: Vec<Vec<f64>>) -> Vec<f64> {
    let is_known = |row: &[f64]| row.iter().any(|strokes| !strokes.is_nan());
    let known: Vec<usize> = (0..rows.len()).filter(|at| is_known(&rows[*at])).collect();
    let nearest = |at: usize| known.iter().copied().min_by_key(|row| row.abs_diff(at));
    (0..rows.len())
        .flat_map(|at| rows[nearest(at).unwrap_or(at)].clone())
        .collect()
}

impl Squares {
    fn of(map: &StrokesMap, view: &View) -> Self {
        let filled = |row: &[Option<f64>]| -> Vec<f64> {
            let known: Vec<(usize, f64)> = row
                .iter()
                .enumerate()
                .filter_map(|(i, s)| Some((i, (*s)?)))
                .collect();
            let nearest = |at: usize| {
                known
                    .iter()
                    .min_by_key(|(i, _)| i.abs_diff(at))
                    .map_or(f64::NAN, |(_, s)| *s)
            };
            (0..row.len()).map(nearest).collect()
        };
        let rows = map.strokes.chunks(map.columns.max(1));
        let strokes = from_rows_beside(rows.map(filled).collect());
        let (low, high) = (view.extent.low, view.extent.high);
        let is_seen = |square: &usize| {
            let x_yd = map.left_yd + ((square % map.columns) as f64 + 0.5) * map.step_yd;
            let y_yd = map.near_yd + ((square / map.columns) as f64 + 0.5) * map.step_yd;
            (low.x_yd..=high.x_yd).contains(&x_yd) && (low.y_yd..=high.y_yd).contains(&y_yd)
        };
        let seen = (0..strokes.len())
            .filter(is_seen)
            .filter_map(|square| map.strokes[square]);
        Self {
            left_yd: map.left_yd,
            near_yd: map.near_yd,
            step_yd: map.step_yd,
            columns: map.columns,
            seen: seen.collect(),
            strokes,
        }
    }
}

/// Bands of colour: from which strokes each begins, the fewest first.
struct Bands {
    step: f64,
    from: Vec<f64>,
    /// Whether there are squares beyond the last band, which are of it too.
    is_open: bool,
}

impl Bands {
    fn of(squares: &Squares) -> Self {
        let low = squares.seen.iter().copied().fold(f64::INFINITY, f64::min);
        let mut sorted = squares.seen.clone();
        sorted.sort_by(f64::total_cmp);
        let most = sorted.last().copied().unwrap_or(low);
        // A corner nobody gets away from shall not leave one colour for the rest.
        let place = (sorted.len() as f64 * SHOWN_SHARE) as usize;
        let high = sorted.get(place).copied().unwrap_or(most);
        let fits = |step: &f64| (high - low) / step <= MOST_BANDS;
        let step = STEPS.into_iter().find(fits).unwrap_or(1.0);
        let (first, last) = ((low / step).floor() as i64, (high / step).floor() as i64);
        Self {
            step,
            from: (first..=last).map(|band| band as f64 * step).collect(),
            is_open: most >= (last + 1) as f64 * step,
        }
    }

    /// Few strokes are light, many dark.
    fn colour(&self, index: usize) -> String {
        on_scale(1.0 - index as f64 / (self.from.len().max(2) - 1) as f64)
    }
}

/// Each band is painted over those of fewer strokes, so that nothing shows between them.
fn map(svg: &mut Svg, squares: &Squares, bands: &Bands, view: &View) {
    svg.put(Element::rect(view.corner, view.size()).with("fill", bands.colour(0)));
    for (index, from) in bands.from.iter().enumerate().skip(1) {
        let set: Vec<bool> = squares
            .strokes
            .iter()
            .map(|strokes| strokes >= from)
            .collect();
        let d = path(&outlines(&set, squares.columns), |place| {
            view.at(Point {
                x_yd: squares.left_yd + place.x * squares.step_yd,
                y_yd: squares.near_yd + place.y * squares.step_yd,
            })
        });
        let band = Element::path(d)
            .with("fill", bands.colour(index))
            .with("fill-rule", "evenodd");
        svg.put(band.with("data-from-strokes", number(*from, 2)));
    }
}

fn legend(svg: &mut Svg, panel: &mut Panel, bands: &Bands, name: &str) {
    panel.heading(svg, &format!("Strokes {name} is expected to need"));
    let height = 15.0;
    // Many strokes on top.
    for (row, index) in (0..bands.from.len()).rev().enumerate() {
        let y = panel.y + row as f64 * height;
        svg.put(Element::rect((panel.x, y), (26.0, height)).with("fill", bands.colour(index)));
        let from = number(bands.from[index], 2);
        let text = match bands.is_open && index + 1 == bands.from.len() {
            true => format!("{from} and more"),
            false => format!("{from} to {}", number(bands.from[index] + bands.step, 2)),
        };
        svg.words((panel.x + 33.0, y + 11.5), &text, Words::sized(SMALL));
    }
    panel.y += bands.from.len() as f64 * height + 6.0;
    let note = "From where the ball lies, the stroke to be played counted; from each lie as it is";
    panel.paragraph(svg, note);
}

fn ground_key(svg: &mut Svg, panel: &mut Panel, hole: &Hole, view: &View) {
    let lies: Vec<_> = ground::lies_seen(hole, &view.extent)
        .into_iter()
        .filter(|(lie, _)| is_unplayable(*lie))
        .collect();
    if !lies.is_empty() {
        panel.heading(svg, "No ball is played from");
        panel.y += ground::legend(svg, (panel.x, panel.y), &lies, 2, 140.0);
    }
    panel.entry(
        svg,
        "Edges of fairway, green, tee, sand and trees",
        |svg, (x, y)| {
            svg.put(
                Element::line((x - 12.0, y + 4.0), (x + 12.0, y + 4.0)).stroke(Colour::Ink, 0.9),
            );
        },
    );
}

#[cfg(test)]
mod tests {
    use super::from_rows_beside;

    #[test]
    fn a_row_of_water_has_the_strokes_of_the_nearest_row() {
        let water = vec![f64::NAN; 2];
        let rows = vec![vec![4.0, 4.1], water.clone(), water, vec![3.0, 3.1]];
        assert_eq!(
            from_rows_beside(rows),
            [4.0, 4.1, 4.0, 4.1, 3.0, 3.1, 3.0, 3.1]
        );
    }
}
