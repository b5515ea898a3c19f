//! One `[[clubs]]` table: a stated pattern, in a player's file or a level's.

use std::ops::{Range, RangeInclusive};

use super::club::Club;
use super::delivery::Delivered;
use super::measured::SIDES;
use super::pattern::{Five, Pattern, uncorrelated};
use super::posterior::{Evidence, Given, Open};
use crate::files::toml::{Entry, Table};

/// One of the five figures: its name in files, the values it can have, its unit.
pub(super) struct Figure {
    pub name: &'static str,
    range: RangeInclusive<f64>,
    widest_spread: f64,
    unit: &'static str,
    example: &'static str,
}

/// The five figures in the order of [`Five`].
pub(super) const FIGURES: [Figure; 5] = [
    Figure {
        name: "ball_speed_mph",
        range: 20.0..=220.0,
        widest_spread: 30.0,
        unit: "mph",
        example: "112.5",
    },
    Figure {
        name: "launch_deg",
        range: -20.0..=70.0,
        widest_spread: 15.0,
        unit: "degrees",
        example: "16.4",
    },
    Figure {
        name: "direction_deg",
        range: -45.0..=45.0,
        widest_spread: 20.0,
        unit: "degrees",
        example: "1.5",
    },
    Figure {
        name: "backspin_rpm",
        range: -3000.0..=15_000.0,
        widest_spread: 4000.0,
        unit: "rpm",
        example: "6200",
    },
    Figure {
        name: "sidespin_rpm",
        range: -8000.0..=8000.0,
        widest_spread: 4000.0,
        unit: "rpm",
        example: "-300",
    },
];

/// The keys of a `[[clubs]]` table.
pub(super) const KEYS: [&str; 15] = [
    "club",
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "backspin_rpm",
    "sidespin_rpm",
    "spread",
    "correlation",
    "tail_dof",
    "mishits",
    "measured",
    "sure",
    "open",
    "open_correlation",
    "delivery",
];

/// The keys of `measured`.
const MEASURED_KEYS: [&str; 4] = ["shots", "mishits", "figures", "derived"];

/// The keys of `sure`.
const SURE_KEYS: [&str; 3] = ["mean_strikes", "spread_dof", "share_strikes"];

/// The keys of `spread`.
const SPREAD_KEYS: [&str; 5] = [
    "ball_speed_mph",
    "launch_deg",
    "direction_deg",
    "backspin_rpm",
    "sidespin_rpm",
];

/// The keys of `correlation`, each with the two figures it binds.
pub(super) const PAIRS: [(&str, usize, usize); 10] = [
    ("ball_speed_launch", 0, 1),
    ("ball_speed_direction", 0, 2),
    ("ball_speed_backspin", 0, 3),
    ("ball_speed_sidespin", 0, 4),
    ("launch_direction", 1, 2),
    ("launch_backspin", 1, 3),
    ("launch_sidespin", 1, 4),
    ("direction_backspin", 2, 3),
    ("direction_sidespin", 2, 4),
    ("backspin_sidespin", 3, 4),
];

/// The keys of `mishits`.
const MISHIT_KEYS: [&str; 5] = [
    "share_pct",
    "ball_speed_factor",
    "launch_shift_deg",
    "backspin_factor",
    "spread_factor",
];

/// The values they can have.
const MISHIT_RANGES: [RangeInclusive<f64>; 5] =
    [0.0..=60.0, 0.3..=1.0, -20.0..=20.0, 0.0..=1.5, 0.5..=5.0];

/// What a table states of one club; what it leaves out is `None`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stated {
    pub club: Club,
    pub ball_speed_mph: f64,
    mean: [Option<f64>; 5],
    sd: [Option<f64>; 5],
    correlation: Vec<(usize, usize, f64)>,
    tail_dof: Option<f64>,
    mishit: [Option<f64>; 5],
    /// Shots behind it, when it was fitted to some.
    pub shots: Option<usize>,
    /// Whether these told where balls went to the sides, or nobody says.
    pub tells_sides: bool,
    /// How sure it is, when that is known.
    pub evidence: Option<Evidence>,
    /// How the club is delivered.
    pub delivered: Delivered,
    /// Where the club's name stands.
    pub name_place: Range<usize>,
    /// Where the figures stand that may contradict each other.
    pub correlation_place: Range<usize>,
}

/// Reads one table; faults are noted on it.
pub(super) fn read(table: &Table<'_>) -> Option<Stated> {
    let name = table.need("club", "\"7 iron\"");
    let club = name.text().and_then(|text| {
        text.parse::<Club>().map_or_else(
            |unknown| {
                name.note(
                    format!("unknown club \"{}\"", unknown.given),
                    unknown.hint(),
                )
            },
            Some,
        )
    });
    let mean = FIGURES.each_ref().map(|figure| {
        let entry = if figure.name == "ball_speed_mph" {
            table.need(figure.name, figure.example)
        } else {
            table.may(figure.name, figure.example)
        };
        entry.number(figure.range.clone(), figure.unit)
    });
    let sd = spreads(table, "spread");
    let tail_dof = table.may("tail_dof", "6").number(2.1..=1000.0, "");
    let (correlation, mishit) = (correlations(table, "correlation"), mishits(table));
    let ((shots, tells_sides), evidence) = (shots(table), evidence(table));
    Some(Stated {
        club: club?,
        ball_speed_mph: mean[0]?,
        mean,
        sd,
        correlation,
        tail_dof,
        mishit,
        shots,
        tells_sides,
        evidence,
        delivered: delivered(table),
        name_place: table.place("club"),
        correlation_place: table.place("correlation"),
    })
}

/// Standard deviations by figure.
fn spreads(table: &Table<'_>, key: &'static str) -> [Option<f64>; 5] {
    let entry = table.may(key, "{ ball_speed_mph = 2.5, launch_deg = 1.5 }");
    entry.table(&SPREAD_KEYS).map_or([None; 5], |spread| {
        FIGURES.each_ref().map(|figure| {
            let entry = spread.may(figure.name, "1.5");
            entry.number(0.0..=figure.widest_spread, figure.unit)
        })
    })
}

/// Shots the club was fitted to, and whether these told where balls went to the sides.
fn shots(table: &Table<'_>) -> (Option<usize>, bool) {
    let entry = table.may("measured", "{ shots = 18 }");
    let Some(measured) = entry.table(&MEASURED_KEYS) else {
        return (None, true);
    };
    let shots = measured.need("shots", "18").whole(1..=1_000_000_000);
    let _ = measured.may("mishits", "2").whole(0..=1_000_000_000);
    let names = |key| {
        let list = measured.may(key, "[\"launch_deg\"]").list()?;
        Some(list.iter().filter_map(Entry::text).collect::<Vec<_>>())
    };
    let (figures, _) = (names("figures"), names("derived"));
    let of_sides = |name: &str| SIDES.iter().any(|quantity| quantity.name() == name);
    let tells_sides = figures.is_none_or(|names| names.iter().any(|name| of_sides(name)));
    (
        shots.and_then(|shots| usize::try_from(shots).ok()),
        tells_sides,
    )
}

/// How sure the pattern is.
fn evidence(table: &Table<'_>) -> Option<Evidence> {
    const EXAMPLE: &str = "{ mean_strikes = 15, spread_dof = 18, share_strikes = 36 }";
    let sure = table.may("sure", EXAMPLE).table(&SURE_KEYS);
    let sd = spreads(table, "open");
    let correlation = correlations(table, "open_correlation");
    let sure = sure?;
    let number = |key, least: f64| sure.need(key, "18").number(least..=1e9, "strikes");
    let (mean_strikes, spread_dof) = (number("mean_strikes", 0.1), number("spread_dof", 2.1));
    let share_strikes = number("share_strikes", 0.1);
    let mut open = Open {
        sd: sd.map(|sd| sd.unwrap_or(0.0)),
        correlation: uncorrelated(),
    };
    correlate(&mut open.correlation, &correlation);
    Some(Evidence {
        mean_strikes: mean_strikes?,
        spread_dof: spread_dof?,
        share_strikes: share_strikes?,
        open: sd.iter().any(Option::is_some).then_some(open),
    })
}

fn correlate(all: &mut [Five; 5], stated: &[(usize, usize, f64)]) {
    for &(row, column, r) in stated {
        all[row][column] = r;
        all[column][row] = r;
    }
}

fn correlations(table: &Table<'_>, key: &'static str) -> Vec<(usize, usize, f64)> {
    let keys = PAIRS.map(|(name, _, _)| name);
    let Some(stated) = table.may(key, "{ launch_backspin = 0.3 }").table(&keys) else {
        return Vec::new();
    };
    let read = |(name, row, column): (&'static str, usize, usize)| {
        let r = stated.may(name, "0.3").number(-0.99..=0.99, "")?;
        Some((row, column, r))
    };
    PAIRS.into_iter().filter_map(read).collect()
}

fn mishits(table: &Table<'_>) -> [Option<f64>; 5] {
    let stated = table
        .may("mishits", "{ share_pct = 8 }")
        .table(&MISHIT_KEYS);
    let Some(stated) = stated else {
        return [None; 5];
    };
    let [share, ball_speed, launch, backspin, spread] = MISHIT_RANGES;
    let number = |key, example, range, unit| stated.may(key, example).number(range, unit);
    [
        number("share_pct", "8", share, "percent").map(|pct| pct / 100.0),
        number("ball_speed_factor", "0.82", ball_speed, ""),
        number("launch_shift_deg", "-3", launch, "degrees"),
        number("backspin_factor", "0.85", backspin, ""),
        number("spread_factor", "1.8", spread, ""),
    ]
}

/// How the club is delivered.
fn delivered(table: &Table<'_>) -> Delivered {
    let stated = table
        .may("delivery", "{ attack_deg = -3.5, dynamic_loft_deg = 21 }")
        .table(&Delivered::COLUMNS);
    let Some(stated) = stated else {
        return Delivered::default();
    };
    let degrees = |key, range| stated.may(key, "1.5").number(range, "degrees");
    let speed = stated.may("club_speed_mph", "84");
    Delivered {
        club_speed_mph: speed.number(20.0..=160.0, "mph"),
        attack_deg: degrees("attack_deg", -25.0..=25.0),
        path_deg: degrees("path_deg", -45.0..=45.0),
        face_deg: degrees("face_deg", -45.0..=45.0),
        dynamic_loft_deg: degrees("dynamic_loft_deg", -10.0..=80.0),
        lie_deg: degrees("lie_deg", -30.0..=30.0),
    }
}

impl Stated {
    /// The whole pattern: what is left out comes from the level, scaled to the stated ball speed.
    pub(super) fn over(&self, level: &Pattern) -> Pattern {
        let mut pattern = level.scaled(self.ball_speed_mph / level.mean[0]);
        put(&mut pattern.mean, &self.mean);
        put(&mut pattern.sd, &self.sd);
        correlate(&mut pattern.correlation, &self.correlation);
        pattern.tail_dof = self.tail_dof.unwrap_or(pattern.tail_dof);
        let mishit = &mut pattern.mishit;
        let mut figures: Five = [
            mishit.share,
            mishit.ball_speed_factor,
            mishit.launch_shift_deg,
            mishit.backspin_factor,
            mishit.spread_factor,
        ];
        put(&mut figures, &self.mishit);
        [
            mishit.share,
            mishit.ball_speed_factor,
            mishit.launch_shift_deg,
            mishit.backspin_factor,
            mishit.spread_factor,
        ] = figures;
        pattern
    }

    /// The figures that stand in it.
    pub(super) fn given(&self) -> Given {
        let stand = |figures: &[Option<f64>; 5]| figures.map(|figure| figure.is_some());
        Given {
            mean: stand(&self.mean),
            sd: stand(&self.sd),
            mishits: self.mishit[0].is_some(),
        }
    }

    /// Whether nothing needs a level: every mean, spread and mishit figure is stated.
    pub(super) fn is_whole(&self) -> bool {
        [&self.mean, &self.sd, &self.mishit]
            .iter()
            .all(|figures| figures.iter().all(Option::is_some))
    }
}

/// A pattern within what a table can state: figures of a handful of wild shots may reach beyond it.
pub(super) fn within_reach(mut pattern: Pattern) -> Pattern {
    let hold = |value: &mut f64, range: &RangeInclusive<f64>| {
        *value = value.clamp(*range.start(), *range.end());
    };
    for (index, figure) in FIGURES.iter().enumerate() {
        hold(&mut pattern.mean[index], &figure.range);
        hold(&mut pattern.sd[index], &(0.0..=figure.widest_spread));
    }
    let mishit = &mut pattern.mishit;
    let [share, ball_speed, launch, backspin, spread] = MISHIT_RANGES;
    hold(
        &mut mishit.share,
        &(0.01 * share.start()..=0.01 * share.end()),
    );
    hold(&mut mishit.ball_speed_factor, &ball_speed);
    hold(&mut mishit.launch_shift_deg, &launch);
    hold(&mut mishit.backspin_factor, &backspin);
    hold(&mut mishit.spread_factor, &spread);
    pattern
}

fn put(figures: &mut Five, stated: &[Option<f64>; 5]) {
    for (figure, stated) in figures.iter_mut().zip(stated) {
        *figure = stated.unwrap_or(*figure);
    }
}
