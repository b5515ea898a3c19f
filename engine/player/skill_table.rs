//! The tables `[short_game]`, `[sand]` and `[putting]`: the raw figures, or those a player can count himself.

use std::cell::RefCell;

use super::Origin;
use super::levels::{self, Ladder};
use super::skill::{Putting, Touch};
use crate::files::joined;
use crate::files::toml::Table;
use crate::units::Length;

const TOUCH_KEYS: [&str; 4] = ["along_pct", "across_pct", "base_ft", "mishit_pct"];
const PUTTING_KEYS: [&str; 3] = ["direction_sd_deg", "length_sd_pct", "past_ft"];
const HOLED_KEYS: [&str; 4] = [
    "holed_from_3_ft_pct",
    "holed_from_5_ft_pct",
    "holed_from_8_ft_pct",
    "holed_from_15_ft_pct",
];
/// The distances of those putts, feet.
const HOLED_FT: [f64; 4] = [3.0, 5.0, 8.0, 15.0];

/// `up_and_down_pct`: from 20 yd off the hole, a clean lie on grass.
const UP_AND_DOWN_FROM: Length = Length::from_yd(20.0);
/// `sand_save_pct`: from 15 yd off the hole, a clean lie in a bunker by the green.
const SAND_SAVE_FROM: Length = Length::from_yd(15.0);

/// What a skill table may be filled from.
pub(super) struct Behind<'a> {
    pub ladder: &'a Ladder,
    pub handicap: f64,
    /// What is told of figures that are taken for others.
    pub notes: RefCell<Vec<String>>,
}

/// The handicap a counted figure belongs to.
enum Counted {
    At(f64),
    /// It is less than golfers of the highest handicap make: so much is, 0 to 1.
    Below(f64),
    /// It is beyond what anyone reaches: from the worst to the best, 0 to 1.
    Beyond([f64; 2]),
}

impl Behind<'_> {
    /// The handicap at which `chance` (0 to 1) equals `stated`; it falls as the handicap rises.
    fn handicap_of(&self, stated: f64, chance: impl Fn(f64) -> f64) -> Counted {
        let (mut low, mut high) = (levels::LOWEST, levels::HIGHEST);
        let (best, worst) = (chance(low), chance(high));
        if stated > best {
            return Counted::Beyond([worst, best]);
        }
        if stated < worst {
            return Counted::Below(worst);
        }
        while high - low > 1e-6 {
            let middle = f64::midpoint(low, high);
            if chance(middle) > stated {
                low = middle;
            } else {
                high = middle;
            }
        }
        Counted::At(f64::midpoint(low, high))
    }

    /// Reads a percentage a player counted and finds the handicap it belongs to. Of a few putts or chips fewer may go in
    /// than golfers of the highest handicap make: these are taken then, and it is told.
    fn counted(
        &self,
        table: &Table<'_>,
        (key, example): (&'static str, &'static str),
        chance: impl Fn(f64) -> f64,
    ) -> Option<f64> {
        let entry = table.may(key, example);
        let pct = entry.number(0.0..=100.0, "percent")?;
        if 0.0 < pct && pct < 1.0 {
            // To a hundredth of a percent: a share times a hundred is not always written as short as the share.
            let meant = (1e4 * pct).round() / 100.0;
            return entry.note(
                format!("`{key} = {pct}` is less than one in a hundred"),
                format!("write {meant} for {meant} in a hundred"),
            );
        }
        match self.handicap_of(pct / 100.0, chance) {
            Counted::At(handicap) => Some(handicap),
            Counted::Below(worst) => {
                self.notes.borrow_mut().push(format!(
                    "`{key}`: golfers off {:.0} make {:.0} % here, and {pct} % is less: taken as off {:.0}",
                    levels::HIGHEST,
                    100.0 * worst,
                    levels::HIGHEST
                ));
                Some(levels::HIGHEST)
            }
            Counted::Beyond([worst, best]) => entry.note(
                format!("{pct} % is beyond what golfers of any handicap reach here"),
                format!(
                    "from the best tour players to handicap {:.0} it falls from {:.1} to {:.1} %; count again, or leave it out",
                    levels::HIGHEST,
                    100.0 * best,
                    100.0 * worst
                ),
            ),
        }
    }
}

/// Which of the two touches a table is about.
#[derive(Clone, Copy)]
pub(super) enum Kind {
    ShortGame,
    Sand,
}

impl Kind {
    const fn key(self) -> &'static str {
        match self {
            Kind::ShortGame => "short_game",
            Kind::Sand => "sand",
        }
    }

    const fn counted_key(self) -> &'static str {
        match self {
            Kind::ShortGame => "up_and_down_pct",
            Kind::Sand => "sand_save_pct",
        }
    }

    const fn from(self) -> Length {
        match self {
            Kind::ShortGame => UP_AND_DOWN_FROM,
            Kind::Sand => SAND_SAVE_FROM,
        }
    }

    fn of(self, behind: &Behind<'_>, handicap: f64) -> Touch {
        let skills = behind.ladder.skills(handicap);
        match self {
            Kind::ShortGame => skills.short_game,
            Kind::Sand => skills.sand,
        }
    }
}

/// Raw figures of a touch, those that are stated.
fn raw_touch(table: &Table<'_>) -> [Option<f64>; 4] {
    [
        table.may("along_pct", "15").number(0.0..=80.0, "percent"),
        table.may("across_pct", "6").number(0.0..=60.0, "percent"),
        table.may("base_ft", "1.2").number(0.0..=15.0, "feet"),
        table.may("mishit_pct", "4").number(0.0..=60.0, "percent"),
    ]
}

/// Notes raw and counted figures that stand in one table.
fn either(table: &Table<'_>, counted: &[&str], raw: &[&str]) -> bool {
    let Some(both) = raw.iter().find(|key| table.has(key)) else {
        return true;
    };
    let Some(count) = counted.iter().find(|key| table.has(key)) else {
        return true;
    };
    table.fault(
        table.place(both),
        format!(
            "`{both}` and `{count}` cannot both stand in {}",
            table.label()
        ),
        &format!("keep `{count}`, or the figures it stands for"),
    );
    false
}

/// Reads `[short_game]` or `[sand]`; left out, it comes from the level.
pub(super) fn touch(
    file: &Table<'_>,
    kind: Kind,
    behind: &Behind<'_>,
    putting: &Putting,
) -> Option<(Touch, Origin)> {
    let level = kind.of(behind, behind.handicap);
    let entry = file.may(kind.key(), "{ up_and_down_pct = 38 }");
    if entry.kind().is_none() {
        return Some((level, Origin::Assumed));
    }
    let count_key = kind.counted_key();
    let keys = [
        TOUCH_KEYS[0],
        TOUCH_KEYS[1],
        TOUCH_KEYS[2],
        TOUCH_KEYS[3],
        count_key,
    ];
    let table = entry.table(&keys)?;
    if !either(&table, &[count_key], &TOUCH_KEYS) {
        return None;
    }
    if table.has(count_key) {
        let chance = |handicap| kind.of(behind, handicap).saved(kind.from(), putting);
        let handicap = behind.counted(&table, (count_key, "38"), chance)?;
        return Some((kind.of(behind, handicap), Origin::Stated));
    }
    let [along, across, base, mishit] = raw_touch(&table);
    let touch = Touch {
        along_pct: along.unwrap_or(level.along_pct),
        across_pct: across.unwrap_or(level.across_pct),
        base_ft: base.unwrap_or(level.base_ft),
        mishit_pct: mishit.unwrap_or(level.mishit_pct),
    };
    Some((touch, stated(&table)))
}

/// Reads `[putting]`; left out, it comes from the level.
pub(super) fn putting(file: &Table<'_>, behind: &Behind<'_>) -> Option<(Putting, Origin)> {
    let level = behind.ladder.skills(behind.handicap).putting;
    let entry = file.may("putting", "{ holed_from_5_ft_pct = 60 }");
    if entry.kind().is_none() {
        return Some((level, Origin::Assumed));
    }
    let keys = [&PUTTING_KEYS[..], &HOLED_KEYS].concat();
    let table = entry.table(&keys)?;
    if !either(&table, &HOLED_KEYS, &PUTTING_KEYS) {
        return None;
    }
    if HOLED_KEYS.iter().any(|key| table.has(key)) {
        let handicap = counted_putting(&table, behind)?;
        return Some((behind.ladder.skills(handicap).putting, Origin::Stated));
    }
    let number = |key, example, range, unit| table.may(key, example).number(range, unit);
    let direction = number("direction_sd_deg", "1.5", 0.1..=8.0, "degrees");
    let length = number("length_sd_pct", "12", 0.5..=60.0, "percent");
    let past = number("past_ft", "1", 0.0..=4.0, "feet");
    let putting = Putting {
        direction_sd_deg: direction.unwrap_or(level.direction_sd_deg),
        length_sd_pct: length.unwrap_or(level.length_sd_pct),
        past_ft: past.unwrap_or(level.past_ft),
    };
    Some((putting, stated(&table)))
}

/// The handicap that the counted putts belong to: the mean when several distances are given.
fn counted_putting(table: &Table<'_>, behind: &Behind<'_>) -> Option<f64> {
    let mut handicaps = Vec::new();
    let mut sound = true;
    let chance = |feet: f64, handicap: f64| {
        let putting = behind.ladder.skills(handicap).putting;
        putting.holed(Length::from_ft(feet))
    };
    for (key, feet) in HOLED_KEYS.into_iter().zip(HOLED_FT) {
        if !table.has(key) {
            continue;
        }
        match behind.counted(table, (key, "60"), |handicap| chance(feet, handicap)) {
            Some(handicap) => handicaps.push(handicap),
            None => sound = false,
        }
    }
    let handicap = handicaps.iter().sum::<f64>() / handicaps.len() as f64;
    if sound && handicaps.len() > 1 {
        let taken = |feet| 100.0 * chance(feet, handicap);
        behind.notes.borrow_mut().extend(putts_apart(table, taken));
    }
    sound.then_some(handicap)
}

/// Counted putts from one distance may be so far off what all of them together come to, percent, without a word.
const APART_PCT: f64 = 5.0;

/// What is told of counted putts that no golfer holes all of as they were counted: what is reckoned with in their place.
fn putts_apart(table: &Table<'_>, taken: impl Fn(f64) -> f64) -> Option<String> {
    let all = HOLED_KEYS.into_iter().zip(HOLED_FT);
    let told = all.filter_map(|(key, feet)| {
        let counted = table.may(key, "60").bare_number()?;
        let taken = taken(feet);
        let is_apart = (taken - counted).abs() > APART_PCT;
        is_apart.then(|| format!("{taken:.0} % from {feet} ft in place of {counted} %"))
    });
    let told: Vec<String> = told.collect();
    (!told.is_empty()).then(|| {
        format!(
            "the counted putts do not fit together: reckoned with {}",
            joined(&told, "and")
        )
    })
}

/// An empty table states nothing.
fn stated(table: &Table<'_>) -> Origin {
    if table.keys().is_empty() {
        Origin::Assumed
    } else {
        Origin::Stated
    }
}
