//! The levels: what golfers of a handicap do, read from the tables in profiles/levels and interpolated between.

use std::sync::OnceLock;

use super::bag::{blend, delivered_with, lerp, pattern_with};
use super::club::Class;
use super::club_table;
use super::pattern::{Mishit, Pattern, uncorrelated};
use super::skill::{Putting, Touch};
use super::{BagClub, Golfer, Origin, Sex, embedded};
use crate::files::toml::{self, Outline, Table};
use crate::files::{Faults, Source};
use crate::units::Angle;

/// Where the tour stands among the handicaps (from memory: tour professionals would play off plus 5 or 6).
pub const TOUR_HANDICAP: f64 = -5.5;

/// Lowest handicap index there is a level for.
pub const LOWEST: f64 = -6.0;
/// Highest handicap index there is a level for: the highest there is (Rules of Handicapping, Rule 5.3).
pub const HIGHEST: f64 = 54.0;

/// How the slope between the last two levels goes on beyond them: for so many strokes as it is, then by such a share of it.
type Slope = [f64; 2];
/// Of all but speed, for men and for women. Set so that golfers off 36, 45 and 54 play to their handicap on the parkland
/// course: nothing is published of such golfers but the drives of women off 29 to 36.
const BEYOND: [Slope; 2] = [[0.0, 0.9], [8.0, 1.86]];
/// Of speed. From there on golfers lose less speed than straightness (chosen): straight on, the weakest drove shorter than
/// they hit their irons.
const SPEED_BEYOND: [Slope; 2] = [[0.0, 0.36], [8.0, 0.5]];

/// Ball speed of a club over that of the next longer one, at most.
const SLOWER: f64 = 0.998;

/// Why there is no such level.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LevelError {
    /// Beyond the tables.
    #[error(
        "handicap {0} is outside the levels: they reach from -6 (better than a tour professional; plus handicaps are written negative) to {HIGHEST}"
    )]
    OutOfRange(f64),
    /// A name that is no level's.
    #[error(
        "`{0}` is no level: write `level:tour`, `level:scratch`, `level:5`, or with `:women` after it, as `level:20:women`"
    )]
    Unknown(String),
    /// The tables the program carries are at fault: a mistake of the program.
    #[error("the level tables are at fault:\n{0}")]
    Broken(Faults),
}

/// Short game, sand and putting of a level.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Skills {
    pub short_game: Touch,
    pub sand: Touch,
    pub putting: Putting,
}

/// The levels of men or of women, best first.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Ladder {
    steps: Vec<Golfer>,
}

impl Ladder {
    /// The two steps around a handicap and how far between them it lies; beyond the best the first slope goes on, beyond
    /// the last one as [`BEYOND`] has it.
    fn around(&self, handicap: f64) -> (&Golfer, &Golfer, f64) {
        let last = self.steps.len() - 1;
        let upper = self
            .steps
            .iter()
            .position(|step| step.handicap >= handicap)
            .unwrap_or(last)
            .clamp(1, last.max(1));
        let (a, b) = (&self.steps[upper - 1], &self.steps[upper.min(last)]);
        (a, b, share((a, b), handicap, &BEYOND))
    }

    /// Short game, sand and putting at a handicap.
    pub(super) fn skills(&self, handicap: f64) -> Skills {
        let (a, b, t) = self.around(handicap);
        Skills {
            short_game: Touch::blend(&a.short_game.0, &b.short_game.0, t),
            sand: Touch::blend(&a.sand.0, &b.sand.0, t),
            putting: Putting::blend(&a.putting.0, &b.putting.0, t),
        }
    }

    /// The level at a handicap. The bag is that of the nearer step.
    pub(super) fn golfer(&self, handicap: f64) -> Golfer {
        let (a, b, t) = self.around(handicap);
        let nearer = if t < 0.5 { a } else { b };
        let skills = self.skills(handicap);
        let speed_t = share((a, b), handicap, &SPEED_BEYOND);
        let club = |entry: &BagClub| {
            let one = pattern_with(&a.clubs, entry.club)?;
            let other = pattern_with(&b.clubs, entry.club)?;
            let mut pattern = blend(&one, &other, t);
            pattern.mean[0] = lerp(one.mean[0], other.mean[0], speed_t);
            let delivered = |clubs| delivered_with(clubs, entry.club).unwrap_or(entry.delivered);
            Some(BagClub {
                delivered: delivered(&a.clubs).blend(&delivered(&b.clubs), speed_t),
                ..BagClub::unmeasured(entry.club, pattern, Origin::Assumed)
            })
        };
        Golfer {
            name: name_of(handicap, nearer.sex),
            handicap,
            sex: nearer.sex,
            clubs: in_order(nearer.clubs.iter().filter_map(club).collect()),
            short_game: (skills.short_game, Origin::Assumed),
            sand: (skills.sand, Origin::Assumed),
            putting: (skills.putting, Origin::Assumed),
            loft_shift: Angle::ZERO,
            notes: Vec::new(),
        }
    }
}

/// How far between two steps a handicap lies, and beyond the second by what slope.
fn share((a, b): (&Golfer, &Golfer), handicap: f64, beyond: &[Slope; 2]) -> f64 {
    let [straight_on, then] = beyond[b.sex as usize];
    let over = (handicap - b.handicap).max(0.0);
    let at =
        handicap.min(b.handicap) + over.min(straight_on) + then * (over - straight_on).max(0.0);
    (at - a.handicap) / (b.handicap - a.handicap)
}

/// Far beyond the last level slopes cross: no club is faster there than the longer one before it, and no wood or
/// hybrid spins less.
fn in_order(mut clubs: Vec<BagClub>) -> Vec<BagClub> {
    let (mut longer_mph, mut longer_rpm) = (f64::INFINITY, 0.0);
    for entry in &mut clubs {
        let is_wood = matches!(entry.club.class(), Class::Wood | Class::Hybrid);
        let [speed_mph, _, _, backspin_rpm, _] = &mut entry.pattern.mean;
        *speed_mph = speed_mph.min(SLOWER * longer_mph);
        longer_mph = *speed_mph;
        if is_wood {
            *backspin_rpm = backspin_rpm.max(longer_rpm);
            longer_rpm = *backspin_rpm;
        }
    }
    clubs
}

/// What a level is called.
fn name_of(handicap: f64, sex: Sex) -> String {
    let who = if handicap == TOUR_HANDICAP {
        "tour professional".to_owned()
    } else if handicap == 0.0 {
        "scratch golfer".to_owned()
    } else if handicap < 0.0 {
        format!("plus {} handicap", -handicap)
    } else {
        format!("{handicap} handicap")
    };
    match sex {
        Sex::Men => who,
        Sex::Women => format!("{who} (women)"),
    }
}

/// The level of a handicap index; plus handicaps are negative.
///
/// # Errors
/// When the handicap lies outside −6 to 54.
///
/// ```
/// use costcard::player::{Sex, levels};
/// let twelve = levels::level(12.0, Sex::Men).unwrap();
/// assert_eq!(twelve.name, "12 handicap");
/// assert!(levels::level(55.0, Sex::Men).is_err());
/// ```
pub fn level(handicap: f64, sex: Sex) -> Result<Golfer, LevelError> {
    if !(LOWEST..=HIGHEST).contains(&handicap) {
        return Err(LevelError::OutOfRange(handicap));
    }
    Ok(ladder(sex)?.golfer(handicap))
}

/// A level by name: `tour`, `scratch` or a handicap as `5`, `12.4` or `12,4`; a plus handicap as `+2` or `-2`.
///
/// # Errors
/// When it is no level's name or outside the levels.
pub fn named(name: &str, sex: Sex) -> Result<Golfer, LevelError> {
    match name.trim().to_lowercase().as_str() {
        "tour" => level(TOUR_HANDICAP, sex),
        "scratch" => level(0.0, sex),
        other => {
            let unknown = || LevelError::Unknown(name.to_owned());
            // A comma before decimals, as much of the world writes them.
            let other = other.replacen(',', ".", 1);
            let number = other.strip_prefix('+').map_or_else(
                || other.parse::<f64>(),
                |plus| plus.parse::<f64>().map(|plus| -plus),
            );
            let handicap = number.ok().filter(|h| h.is_finite()).ok_or_else(unknown)?;
            level(handicap, sex)
        }
    }
}

/// Reads `level:NAME` or `level:NAME:SEX`, as `level:tour` or `level:20:women`.
///
/// # Errors
/// When it is no level, or outside the levels.
pub fn parse_spec(text: &str) -> Result<Golfer, LevelError> {
    let unknown = || LevelError::Unknown(text.to_owned());
    let mut parts = text.split(':').map(str::trim);
    if parts.next() != Some("level") {
        return Err(unknown());
    }
    let name = parts.next().ok_or_else(unknown)?;
    let sex = match parts.next().map(str::to_lowercase).as_deref() {
        None | Some("men") => Sex::Men,
        Some("women") => Sex::Women,
        Some(_) => return Err(unknown()),
    };
    if parts.next().is_some() {
        return Err(unknown());
    }
    named(name, sex).map_err(|error| match error {
        LevelError::Unknown(_) => unknown(),
        other => other,
    })
}

/// The levels of men or women, read once.
pub(super) fn ladder(sex: Sex) -> Result<&'static Ladder, LevelError> {
    static LADDERS: OnceLock<Result<[Ladder; 2], Faults>> = OnceLock::new();
    let ladders = LADDERS.get_or_init(|| {
        let mut steps = Vec::new();
        let mut faults = Faults::default();
        for source in embedded::levels() {
            match read(&source) {
                Ok(golfer) => steps.push(golfer),
                Err(more) => faults.extend(more),
            }
        }
        if !faults.list().is_empty() {
            return Err(faults);
        }
        steps.sort_by(|a, b| a.handicap.total_cmp(&b.handicap));
        Ok([Sex::Men, Sex::Women].map(|sex| Ladder {
            steps: steps
                .iter()
                .filter(|step| step.sex == sex)
                .cloned()
                .collect(),
        }))
    });
    match ladders {
        Ok([men, women]) => Ok(match sex {
            Sex::Men => men,
            Sex::Women => women,
        }),
        Err(faults) => Err(LevelError::Broken(faults.clone())),
    }
}

/// Reads a level file: a player's file in which everything is stated.
///
/// # Errors
/// Every fault of the file, missing figures among them.
pub fn read(source: &Source) -> Result<Golfer, Faults> {
    toml::read(source, &KEYS, level_file)
}

/// What such a file may say, shown by a sound sample.
///
/// # Errors
/// Every fault of the sample.
pub fn outline(sample: &Source) -> Result<Outline, Faults> {
    toml::outline(sample, &KEYS, level_file)
}

/// Keys of a level file.
const KEYS: [&str; 8] = [
    "name",
    "description",
    "handicap_index",
    "sex",
    "clubs",
    "short_game",
    "sand",
    "putting",
];

fn level_file(file: &Table<'_>) -> Option<Golfer> {
    let name = file.need("name", "\"scratch golfer\"").text();
    let _ = file.may("description", "\"Off 5 at a club.\"").text();
    let handicap = file
        .need("handicap_index", "0")
        .number(LOWEST..=HIGHEST, "");
    let sex = sex(file);
    let tables = file
        .need("clubs", "[{ club = \"driver\", … }]")
        .tables(&club_table::KEYS);
    let clubs: Option<Vec<BagClub>> = tables.iter().map(whole_club).collect();
    let (short_game, sand) = (whole_touch(file, "short_game"), whole_touch(file, "sand"));
    let putting = whole_putting(file);
    let mut clubs = clubs?;
    clubs.sort_by_key(|entry| entry.club);
    Some(Golfer {
        name: name?,
        handicap: handicap?,
        sex: sex?,
        clubs,
        short_game: (short_game?, Origin::Assumed),
        sand: (sand?, Origin::Assumed),
        putting: (putting?, Origin::Assumed),
        loft_shift: Angle::ZERO,
        notes: Vec::new(),
    })
}

/// Reads `sex`.
pub(super) fn sex(file: &Table<'_>) -> Option<Sex> {
    file.need("sex", "\"men\"")
        .word(&[("men", Sex::Men), ("women", Sex::Women)])
}

/// A club in which everything is stated.
fn whole_club(table: &Table<'_>) -> Option<BagClub> {
    let stated = club_table::read(table)?;
    let delivered = &stated.delivered;
    let whole_delivery = delivered.club_speed_mph.is_some()
        && delivered.attack_deg.is_some()
        && delivered.dynamic_loft_deg.is_some();
    if !stated.is_whole() || !whole_delivery {
        table.fault(
            stated.name_place.clone(),
            format!("the {} of a level lacks figures", stated.club),
            "state every mean, every spread, all of `mishits`, and club speed, attack and dynamic loft of `delivery`",
        );
        return None;
    }
    // Nothing of this is left but the scale for a ball speed that is stated anyway.
    let blank = Pattern {
        mean: [stated.ball_speed_mph, 0.0, 0.0, 0.0, 0.0],
        sd: [0.0; 5],
        correlation: uncorrelated(),
        tail_dof: super::fit::TAIL_DOF,
        mishit: Mishit::NONE,
    };
    let pattern = stated.over(&blank);
    if let Err(fault) = pattern.validate() {
        table.fault(stated.correlation_place.clone(), fault.to_string(), "");
        return None;
    }
    Some(BagClub {
        delivered: stated.delivered,
        ..BagClub::unmeasured(stated.club, pattern, Origin::Assumed)
    })
}

fn whole_touch(file: &Table<'_>, key: &'static str) -> Option<Touch> {
    let keys = ["along_pct", "across_pct", "base_ft", "mishit_pct"];
    let table = file.need(key, "{ along_pct = 12, … }").table(&keys)?;
    let number = |key, limit, unit| table.need(key, "1.5").number(0.0..=limit, unit);
    let along = number("along_pct", 80.0, "percent");
    let across = number("across_pct", 60.0, "percent");
    let base = number("base_ft", 15.0, "feet");
    let mishit = number("mishit_pct", 60.0, "percent");
    Some(Touch {
        along_pct: along?,
        across_pct: across?,
        base_ft: base?,
        mishit_pct: mishit?,
    })
}

fn whole_putting(file: &Table<'_>) -> Option<Putting> {
    let keys = ["direction_sd_deg", "length_sd_pct", "past_ft"];
    let table = file
        .need("putting", "{ direction_sd_deg = 1.3, … }")
        .table(&keys)?;
    let number = |key, range, unit| table.need(key, "1.5").number(range, unit);
    let direction = number("direction_sd_deg", 0.1..=8.0, "degrees");
    let length = number("length_sd_pct", 0.5..=60.0, "percent");
    let past = number("past_ft", 0.0..=4.0, "feet");
    Some(Putting {
        direction_sd_deg: direction?,
        length_sd_pct: length?,
        past_ft: past?,
    })
}
