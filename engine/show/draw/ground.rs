//! The ground of a hole: its areas by lie, each with its tint and texture.

use crate::course::shape::Ellipse;
use crate::course::{Hole, Lie, LieGrid, Point};

use super::colour::Colour;
use super::svg::{Element, Svg, Words, path_through, px};
use super::trace::{outlines, path};

/// Lies in the order they are painted and listed.
pub(super) const LIES: [(Lie, &str); 8] = [
    (Lie::OutOfBounds, "out of bounds"),
    (Lie::Trees, "trees"),
    (Lie::Rough, "rough"),
    (Lie::Fairway, "fairway"),
    (Lie::Tee, "tee"),
    (Lie::Green, "green"),
    (Lie::Sand, "sand"),
    (Lie::Water, "water"),
];

/// Ground shown beside the line of play, behind the tee and beyond the green, yards.
const BESIDE_YD: f64 = 60.0;
const BEHIND_YD: f64 = 22.0;
const BEYOND_YD: f64 = 48.0;

/// A rectangle of ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Extent {
    pub low: Point,
    pub high: Point,
}

impl Extent {
    /// The ground of a hole that is worth a look: round its line of play, in whole yards and within its grid.
    pub fn of(hole: &Hole) -> Self {
        let grid = &hole.grid;
        let over = |figure: fn(&Point) -> f64| {
            let all = hole.line.iter().map(figure);
            all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let (x, y) = (over(|point| point.x_yd), over(|point| point.y_yd));
        let right_yd = grid.left_yd + grid.columns as f64;
        let far_yd = grid.near_yd + grid.rows as f64;
        Self {
            low: Point {
                x_yd: (x.0 - BESIDE_YD).floor().max(grid.left_yd),
                y_yd: (y.0 - BEHIND_YD).floor().max(grid.near_yd),
            },
            high: Point {
                x_yd: (x.1 + BESIDE_YD).ceil().min(right_yd),
                y_yd: (y.1 + BEYOND_YD).ceil().min(far_yd),
            },
        }
    }

    pub fn width_yd(&self) -> f64 {
        self.high.x_yd - self.low.x_yd
    }

    pub fn length_yd(&self) -> f64 {
        self.high.y_yd - self.low.y_yd
    }
}

/// A rectangle of ground at its place on the picture, the direction of play upwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    pub extent: Extent,
    /// Upper left corner, pixels.
    pub corner: (f64, f64),
    pub px_per_yd: f64,
}

impl View {
    /// Where a place of the hole stands on the picture.
    pub fn at(&self, point: Point) -> (f64, f64) {
        (
            self.corner.0 + (point.x_yd - self.extent.low.x_yd) * self.px_per_yd,
            self.corner.1 + (self.extent.high.y_yd - point.y_yd) * self.px_per_yd,
        )
    }

    /// Its width and height, pixels.
    pub fn size(&self) -> (f64, f64) {
        (
            self.extent.width_yd() * self.px_per_yd,
            self.extent.length_yd() * self.px_per_yd,
        )
    }

    /// Its left and its right edge, pixels.
    pub fn edges(&self) -> (f64, f64) {
        (self.corner.0, self.corner.0 + self.size().0)
    }

    /// Opens a group that shows nothing outside the view.
    pub fn open_clipped(&self, svg: &mut Svg, name: &str) {
        let id = svg.name(name);
        svg.open(Element::new("clipPath").with("id", &id));
        svg.put(Element::rect(self.corner, self.size()));
        svg.close("clipPath");
        svg.open(Element::new("g").with("clip-path", format!("url(#{id})")));
    }

    /// The path of an ellipse.
    pub fn ellipse(&self, ellipse: &Ellipse) -> String {
        let (sin, cos) = ellipse.heading_rad.sin_cos();
        let places: Vec<(f64, f64)> = (0..ELLIPSE_STEPS)
            .map(|step| {
                let angle = f64::from(step) / f64::from(ELLIPSE_STEPS) * std::f64::consts::TAU;
                let along = ellipse.half_length_yd * angle.cos();
                let across = ellipse.half_width_yd * angle.sin();
                self.at(Point {
                    x_yd: ellipse.centre.x_yd + along * sin + across * cos,
                    y_yd: ellipse.centre.y_yd + along * cos - across * sin,
                })
            })
            .collect();
        path_through(&places, true)
    }
}

const ELLIPSE_STEPS: u32 = 72;

/// Which of the lies are seen, in the order of [`LIES`].
pub(super) fn lies_seen(hole: &Hole, extent: &Extent) -> Vec<(Lie, &'static str)> {
    let window = window(&hole.grid, extent);
    let seen = |(lie, _): &(Lie, &str)| window.lies.contains(lie);
    LIES.into_iter().filter(seen).collect()
}

/// Writes the textures that areas are filled with, at a scale.
pub(super) fn textures(svg: &mut Svg, scale: f64) {
    svg.open(Element::new("defs"));
    for (lie, name) in LIES {
        let (width, height) = tile(lie);
        let pattern = Element::new("pattern")
            .with("id", svg.name(&slug(name)))
            .with("patternUnits", "userSpaceOnUse")
            .px("width", width)
            .px("height", height)
            .with("patternTransform", format!("scale({})", px(scale)));
        svg.open(pattern);
        // A little over the edge: tiles show no seams then.
        svg.put(Element::rect((-1.0, -1.0), (width + 2.0, height + 2.0)).fill(Colour::of(lie)));
        for mark in marks(lie) {
            svg.put(mark);
        }
        svg.close("pattern");
    }
    svg.close("defs");
}

fn tile(lie: Lie) -> (f64, f64) {
    match lie {
        Lie::Trees => (18.0, 18.0),
        Lie::Rough => (20.0, 16.0),
        Lie::Water => (16.0, 9.0),
        Lie::Sand => (6.0, 6.0),
        _ => (8.0, 8.0),
    }
}

/// The texture of a lie within its tile: tree tops, grass, waves, grains, hatching.
fn marks(lie: Lie) -> Vec<Element> {
    let drawn = |d: &str, width: f64, opacity: f64| {
        let mark = Element::path(d.to_owned()).stroke(Colour::Texture, width);
        mark.with("stroke-opacity", opacity)
    };
    match lie {
        Lie::Trees => ["M3 8L6 2L9 8Z", "M12 17L15 11L18 17Z"]
            .map(|d| {
                Element::path(d.to_owned())
                    .fill(Colour::Texture)
                    .with("fill-opacity", 0.55)
            })
            .to_vec(),
        Lie::Rough => vec![drawn("M3 6l1 -3M5 6l1 -2M13 14l1 -3M15 14l1 -2", 0.8, 0.5)],
        Lie::Water => vec![drawn("M0 5q4 -4 8 0t8 0", 0.9, 0.55)],
        Lie::Sand => [(1.5, 1.5), (4.5, 4.5)]
            .map(|at| {
                Element::circle(at, 0.7)
                    .fill(Colour::Texture)
                    .with("fill-opacity", 0.6)
            })
            .to_vec(),
        Lie::OutOfBounds => vec![drawn("M-1 9L9 -1M-1 1L1 -1M7 9L9 7", 1.0, 0.45)],
        Lie::Tee | Lie::Fairway | Lie::Green => Vec::new(),
    }
}

/// A name without blanks.
pub(super) fn slug(name: &str) -> String {
    name.replace(' ', "-")
}

/// Writes the areas of some lies of a hole.
pub(super) fn areas(svg: &mut Svg, hole: &Hole, view: &View, lies: &[(Lie, &'static str)]) {
    let window = window(&hole.grid, &view.extent);
    for &(lie, name) in lies {
        let Some(d) = outline(&window, lie, view) else {
            continue;
        };
        let fill = format!("url(#{})", svg.name(&slug(name)));
        // A rim of the same tint closes the hair's breadth where three areas meet.
        let (rim, width) = match lie {
            Lie::Green | Lie::Tee | Lie::Sand | Lie::Water => (Colour::Texture, 0.7),
            _ => (Colour::of(lie), 0.7),
        };
        let area = Element::path(d).with("fill", fill).stroke(rim, width);
        let area = area
            .with("fill-rule", "evenodd")
            .with("stroke-linejoin", "round");
        svg.put(area.with("data-lie", name));
    }
}

/// Writes the outlines of the areas alone.
pub(super) fn edges(svg: &mut Svg, hole: &Hole, view: &View) {
    let window = window(&hole.grid, &view.extent);
    for (lie, name) in LIES {
        if matches!(lie, Lie::Rough | Lie::OutOfBounds | Lie::Water) {
            continue;
        }
        if let Some(d) = outline(&window, lie, view) {
            let rim = Element::path(d.clone()).stroke(Colour::Paper, 2.0);
            svg.put(rim.with("stroke-opacity", 0.55));
            svg.put(
                Element::path(d)
                    .stroke(Colour::Ink, 0.8)
                    .with("data-lie", name),
            );
        }
    }
}

/// A part of a grid, as large as a view.
struct Window {
    lies: Vec<Lie>,
    columns: usize,
}

fn window(grid: &LieGrid, extent: &Extent) -> Window {
    let (columns, rows) = (extent.width_yd() as usize, extent.length_yd() as usize);
    let lie = |cell: usize| {
        let x_yd = extent.low.x_yd + (cell % columns) as f64 + 0.5;
        let y_yd = extent.low.y_yd + (cell / columns) as f64 + 0.5;
        grid.lie(x_yd, y_yd)
    };
    Window {
        lies: (0..columns * rows).map(lie).collect(),
        columns,
    }
}

/// The path of a lie's areas; none where there is none.
fn outline(window: &Window, lie: Lie, view: &View) -> Option<String> {
    let set: Vec<bool> = window.lies.iter().map(|other| *other == lie).collect();
    if !set.contains(&true) {
        return None;
    }
    let traced = outlines(&set, window.columns);
    Some(path(&traced, |place| {
        view.at(Point {
            x_yd: view.extent.low.x_yd + place.x,
            y_yd: view.extent.low.y_yd + place.y,
        })
    }))
}

/// Writes the flag.
pub(super) fn pin(svg: &mut Svg, view: &View, pin: Point, height: f64) {
    let (x, y) = view.at(pin);
    svg.put(Element::circle((x, y), height / 9.0).fill(Colour::Ink));
    svg.put(Element::line((x, y), (x, y - height)).stroke(Colour::Ink, 1.2));
    let flag = [
        (x, y - height),
        (x + 0.6 * height, y - 0.78 * height),
        (x, y - 0.56 * height),
    ];
    svg.put(
        Element::path(path_through(&flag, true))
            .fill(Colour::Costly)
            .stroke(Colour::Ink, 0.6),
    );
}

/// Writes the tee: a small square.
pub(super) fn tee(svg: &mut Svg, view: &View, tee: Point, size: f64) {
    let (x, y) = view.at(tee);
    let corner = (x - size / 2.0, y - size / 2.0);
    svg.put(
        Element::rect(corner, (size, size))
            .fill(Colour::Paper)
            .stroke(Colour::Ink, 1.4),
    );
}

/// Writes the line of play.
pub(super) fn line(svg: &mut Svg, hole: &Hole, view: &View, width: f64) {
    let places: Vec<(f64, f64)> = hole.line.iter().map(|&point| view.at(point)).collect();
    let line = Element::path(path_through(&places, false)).stroke(Colour::Ink, width);
    svg.put(
        line.dashed("1 4")
            .with("stroke-linecap", "round")
            .with("data-mark", "line of play"),
    );
}

/// Writes a list of lies with their textures, one below the other; gives the height it takes.
pub(super) fn legend(
    svg: &mut Svg,
    (x, y): (f64, f64),
    lies: &[(Lie, &str)],
    columns: usize,
    step_x: f64,
) -> f64 {
    for (index, (_, name)) in lies.iter().enumerate() {
        let at = (
            x + (index % columns) as f64 * step_x,
            y + (index / columns) as f64 * LEGEND_STEP,
        );
        let fill = format!("url(#{})", svg.name(&slug(name)));
        let swatch = Element::rect(at, (26.0, 14.0)).with("fill", fill);
        svg.put(swatch.stroke(Colour::Texture, 0.7));
        svg.words((at.0 + 33.0, at.1 + 11.5), name, Words::sized(12.5));
    }
    lies.len().div_ceil(columns) as f64 * LEGEND_STEP
}

const LEGEND_STEP: f64 = 22.0;
