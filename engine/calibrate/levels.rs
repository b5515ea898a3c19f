//! Makes the level tables in profiles/levels from published figures and the few dials below:
//! `cargo run --example calibrate levels`. To tune a level, change a dial and run it again.

use std::error::Error;

use costcard::ball::impact::NoDelivery;
use costcard::course::Course;
use costcard::player::Sex;
use costcard::player::club::{Class, Club};
use costcard::player::heads::head;
use costcard::player::levels;
use costcard::player::pattern::{Mishit, Pattern, strike_of, uncorrelated};

use crate::landing::Bench;
use crate::level_file::{self, Level};
use crate::neutral;
use crate::tour_clubs::TourClubs;

/// The handicaps of the levels, tour first.
const HANDICAPS: [f64; 7] = [-5.5, 0.0, 5.0, 10.0, 15.0, 20.0, 28.0];
const NAMES: [&str; 7] = ["tour", "scratch", "5", "10", "15", "20", "28"];

/// One figure by level.
type Dial = [f64; 7];

// The dials. One column a level: tour, scratch, 5, 10, 15, 20, 28. From memory and rough, but for those that name a
// source; chosen so that whole rounds come near what is published of them (tests/published/rounds.rs says what does not).

/// Landing areas against the accuracy table (which names scratch and bogey golfers; the tour is put at a share of
/// scratch, the others lie on the line through both). The table and the scores pull apart: with the table's areas to
/// the yard a scratch golfer scores two strokes too many, a bogey golfer too few, or misses one shot in three. So each
/// goes a part of the way, within a tenth of the table.
const AREA_FACTOR: Dial = [0.78, 0.95, 0.97, 1.0, 1.02, 1.03, 1.03];
/// Widths of the woods' areas on top of that: beyond 250 yd the table is gone on in a straight line, which is too
/// wide for the tour (about 3.4° from memory, Broadie, Every Shot Counts).
const WOOD_WIDTH_FACTOR: Dial = [0.72, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0];
/// Share of mishits, percent: where the search for it begins. The tour's stays.
const MISHIT_SHARE_PCT: Dial = [0.2, 1.0, 10.0, 19.0, 25.0, 29.0, 31.0];
/// Launch of the men's driver, degrees.
const DRIVER_LAUNCH_MEN_DEG: Dial = [10.9, 11.5, 12.0, 12.5, 12.8, 13.0, 13.3];
/// Backspin of the men's driver, rpm.
const DRIVER_SPIN_MEN_RPM: Dial = [2686.0, 2750.0, 2850.0, 2950.0, 3050.0, 3150.0, 3250.0];
/// Launch of the women's driver, degrees.
const DRIVER_LAUNCH_WOMEN_DEG: Dial = [13.2, 13.3, 13.4, 13.5, 13.5, 13.5, 13.5];
/// Backspin of the women's driver, rpm.
const DRIVER_SPIN_WOMEN_RPM: Dial = [2611.0, 2650.0, 2700.0, 2750.0, 2800.0, 2850.0, 2850.0];
/// Spread of launch, degrees, as far as it fits into the landing area.
const LAUNCH_SD_DEG: Dial = [0.9, 1.1, 1.3, 1.6, 1.8, 2.0, 2.4];
/// Spread of backspin, percent, likewise.
const BACKSPIN_SD_PCT: Dial = [5.0, 6.0, 7.0, 8.5, 10.0, 11.0, 13.0];
/// Short game: error along, across (percent of the distance), at no distance (feet), mishits (percent).
const SHORT_GAME: [Dial; 4] = [
    [11.0, 11.5, 15.0, 18.5, 22.0, 25.5, 30.5],
    [4.5, 5.2, 5.9, 6.6, 7.4, 8.2, 9.7],
    [1.0, 1.2, 1.35, 1.5, 1.65, 1.8, 2.1],
    [0.5, 0.8, 3.5, 7.0, 10.5, 14.0, 18.0],
];
/// Sand, in the same four figures. To tour professionals it is hardly harder than the rough (their strokes to hole out);
/// those of the 1960s left a quarter more of the distance from it (Cochran & Stobbs 1968). The poorer the golfer the more
/// it costs: from 15 yd a 10-handicapper is to save about one in five, a 20-handicapper one in eight (from memory).
const SAND: [Dial; 4] = [
    [14.0, 17.5, 23.5, 30.0, 36.0, 43.0, 52.0],
    [5.5, 7.0, 8.5, 10.0, 11.5, 13.5, 16.5],
    [1.5, 1.9, 2.2, 2.5, 2.8, 3.1, 3.6],
    [2.0, 4.0, 7.5, 13.0, 19.0, 25.0, 32.0],
];
/// Putting: direction (degrees), length (percent), aim past the hole (feet). The tour's is fitted to measured putts
/// (`calibrate putting`); a 90-golfer, between 15 and 20, is to hole 84 % at 3 ft, 50 % at 5 ft, a little over 25 % at
/// 8 ft (Broadie, Every Shot Counts) and three-putt about twice a round.
const PUTTING: [Dial; 3] = [
    [1.306, 1.41, 1.59, 1.75, 1.9, 2.05, 2.31],
    [9.06, 9.74, 10.05, 10.35, 10.76, 11.17, 12.18],
    [0.87, 0.87, 0.87, 0.87, 0.87, 0.87, 0.87],
];

/// Women lose more of a handicap to distance than men do, and so less of it to the short game: theirs is that of men of
/// this share of their handicap, less one. An assumption, in view of the share of mishits that is left.
const WOMENS_TOUCH: f64 = 0.5;
const WOMENS_HEAD_START: f64 = 1.0;

/// What mishits look like against normal strikes: thin and heavy, short and low. Poorer golfers' are worse (from memory).
const BALL_SPEED_FACTOR: Dial = [0.85, 0.83, 0.80, 0.78, 0.76, 0.74, 0.72];
/// The share of mishits is looked for until the index is met this closely.
const CLOSE_ENOUGH: f64 = 0.1;
/// A first guess of how the index grows with the share.
const INDEX_BY_SHARE: f64 = 25.0;
/// At most so often.
const MOST_LOOKS: usize = 6;
/// A level has at least so much larger a share than the level before: the index tells it to a hundredth or so.
const MORE_SHARE: f64 = 0.001;
/// Shares that are humanly possible.
const LEAST_SHARE: f64 = 0.004;
const MOST_SHARE: f64 = 0.5;
const LAUNCH_SHIFT_DEG: f64 = -3.0;
const BACKSPIN_FACTOR: f64 = 0.85;
const SPREAD_FACTOR: f64 = 1.8;
/// Share of the variance across that comes from the start direction; sidespin makes the rest.
const DIRECTION_SHARE: f64 = 0.6;
/// Largest spread of sidespin, as a share of backspin: an axis tilted by 8°. Where it binds (wedges), the start
/// direction makes the rest. An assumption.
const WIDEST_TILT: f64 = 0.14;
/// An amateur loses less speed with short clubs than with the driver: share of the driver's loss at a 7 iron and
/// below, falling in a line from all of it at the driver (common practice: a bogey golfer's 7 iron carries 130 yd).
const IRON_SPEED_LOSS: f64 = 0.65;
/// Largest share of the variance along that may come from launch and backspin; ball speed makes the rest.
const LAUNCH_SHARE: f64 = 0.3;
/// A slower swing launches an iron higher: degrees per unit of speed lost. Read off the women's tour table against
/// the men's: about 20 for irons.
const LAUNCH_PER_SPEED_DEG: f64 = 15.0;
/// Correlations: a strike that launches higher spins more and leaves slower (more loft at impact).
const LAUNCH_BACKSPIN: f64 = 0.3;
const BALL_SPEED_LAUNCH: f64 = -0.15;
const BALL_SPEED_BACKSPIN: f64 = -0.1;

/// The bags without the putter (common practice): irons give way to hybrids and woods as speed falls.
fn bag(handicap: f64, sex: Sex) -> &'static [&'static str] {
    match (sex, handicap) {
        (Sex::Men, ..7.5) => &[
            "driver", "3w", "5w", "4i", "5i", "6i", "7i", "8i", "9i", "pw", "gw", "sw", "lw",
        ],
        (Sex::Men, ..12.5) => &[
            "driver", "3w", "5w", "4h", "5i", "6i", "7i", "8i", "9i", "pw", "gw", "sw", "lw",
        ],
        (Sex::Men, _) => &[
            "driver", "3w", "5w", "4h", "5h", "6i", "7i", "8i", "9i", "pw", "gw", "sw",
        ],
        (Sex::Women, ..7.5) => &[
            "driver", "3w", "5w", "7w", "5h", "6i", "7i", "8i", "9i", "pw", "gw", "sw", "lw",
        ],
        (Sex::Women, _) => &[
            "driver", "3w", "5w", "7w", "5h", "6h", "7i", "8i", "9i", "pw", "gw", "sw",
        ],
    }
}

/// Rows of a published table by a key: every other one, and the last, so that nothing inside the table is gone on
/// beyond the rows used. The rest is left to tests/published/levels.rs.
fn fitted_rows(
    file: &str,
    of: impl Fn(&csv::StringRecord) -> bool,
) -> Result<Vec<Vec<f64>>, Box<dyn Error>> {
    let rows = crate::table(file)?;
    let own: Vec<_> = rows.iter().filter(|row| of(row)).collect();
    let used = own
        .iter()
        .enumerate()
        .filter(|(index, _)| index % 2 == 0 || index + 1 == own.len());
    Ok(used
        .map(|(_, row)| row.iter().filter_map(|cell| cell.parse().ok()).collect())
        .collect())
}

/// The straight line through neighbouring points, gone on beyond the ends.
fn along_line(points: &[(f64, f64)], x: f64) -> f64 {
    let last = points.len() - 1;
    let upper = points
        .iter()
        .position(|point| point.0 >= x)
        .unwrap_or(last)
        .max(1);
    let ((x0, y0), (x1, y1)) = (points[upper - 1], points[upper]);
    y0 + (y1 - y0) * (x - x0) / (x1 - x0)
}

/// Published figures of men or women.
struct Published {
    /// Drives by the middle of a band of handicaps, yards.
    drives: Vec<(f64, f64)>,
    /// Widths and depths by shot length: scratch, bogey.
    widths: [Vec<(f64, f64)>; 2],
    depths: [Vec<(f64, f64)>; 2],
    /// A scratch golfer's drive, yards: the bands begin above 0. Source: Course Rating System Manual, USGA.
    scratch_drive_yd: f64,
    /// Handicap of the bogey golfer.
    bogey: f64,
    clubs: TourClubs,
}

impl Published {
    fn read(sex: Sex) -> Result<Self, Box<dyn Error>> {
        let (word, bogey, scratch_drive_yd) = match sex {
            Sex::Men => ("men", 20.0, 250.0),
            Sex::Women => ("women", 24.0, 210.0),
        };
        let drives = fitted_rows("driving-distance-by-handicap.csv", |row| &row[0] == word)?;
        let areas = |golfer: &str| {
            fitted_rows("accuracy-by-shot-length.csv", |row| {
                &row[0] == golfer && &row[1] == word
            })
        };
        let areas = [areas("scratch")?, areas("bogey")?];
        let column = |i: usize| {
            areas
                .each_ref()
                .map(|rows| rows.iter().map(|row| (row[0], row[i])).collect())
        };
        Ok(Self {
            drives: drives
                .iter()
                .map(|row| (f64::midpoint(row[0], row[1]), row[2]))
                .collect(),
            widths: column(1),
            depths: column(2),
            scratch_drive_yd,
            bogey,
            clubs: TourClubs::read(word)?,
        })
    }

    /// Width and depth of the two-thirds area of a shot, yards.
    fn area(&self, level: usize, length_yd: f64) -> (f64, f64) {
        let at = |table: &[Vec<(f64, f64)>; 2]| {
            let ends = table.each_ref().map(|points| along_line(points, length_yd));
            let handicap = HANDICAPS[level].max(0.0);
            AREA_FACTOR[level] * (ends[0] + (ends[1] - ends[0]) * handicap / self.bogey)
        };
        (at(&self.widths), at(&self.depths))
    }
}

/// Writes the level files named, such as men-20; all of them when none is.
pub fn make(names: &[String]) -> Result<(), Box<dyn Error>> {
    let bench = Bench::new();
    for (sex, word) in [(Sex::Men, "men"), (Sex::Women, "women")] {
        let published = Published::read(sex)?;
        let neutral = neutral::course(sex)?;
        let mut least = LEAST_SHARE;
        for (level, called) in NAMES.iter().enumerate() {
            let name = format!("{word}-{called}");
            if !names.is_empty() && !names.contains(&name) {
                let kept = &levels::named(called, sex)?.clubs[0].pattern;
                least = least.max(kept.mishit.share + MORE_SHARE);
                continue;
            }
            let made = fitted((&bench, &published, &neutral), level, sex, least)?;
            least = least.max(made.clubs[0].1.mishit.share + MORE_SHARE);
            report(&bench, &made)?;
            level_file::write(&made)?;
        }
    }
    Ok(())
}

/// A level whose share of mishits makes its handicap index that of its name. The tour's is no handicap golfer's, and
/// keeps the share of the dial.
fn fitted(
    (bench, published, neutral): (&Bench, &Published, &Course),
    level: usize,
    sex: Sex,
    least: f64,
) -> Result<Level, Box<dyn Error>> {
    let with = |share: f64| make_one(bench, published, level, sex, share);
    let (mut share, asked) = (MISHIT_SHARE_PCT[level] / 100.0, HANDICAPS[level]);
    let mut made = with(share)?;
    if asked < 0.0 {
        return Ok(made);
    }
    let mut slope = INDEX_BY_SHARE;
    let mut before: Option<(f64, f64)> = None;
    for _ in 0..MOST_LOOKS {
        let index = neutral::index(&made, neutral)?;
        println!(
            "{sex:?} {}: mishits {:.1} %: index {index:.2}",
            NAMES[level],
            100.0 * share
        );
        if (index - asked).abs() < CLOSE_ENOUGH {
            break;
        }
        if let Some((last_share, last_index)) = before {
            slope = ((index - last_index) / (share - last_share))
                .clamp(0.3 * INDEX_BY_SHARE, 3.0 * INDEX_BY_SHARE);
        }
        before = Some((share, index));
        let next = (share + (asked - index) / slope).clamp(least, MOST_SHARE);
        if next == share {
            break;
        }
        share = next;
        made = with(share)?;
    }
    Ok(made)
}

fn make_one(
    bench: &Bench,
    published: &Published,
    level: usize,
    sex: Sex,
    share: f64,
) -> Result<Level, Box<dyn Error>> {
    let driver = driver(bench, published, level, sex, share)?;
    let speed = driver.mean[0] / published.clubs.of(Club::Driver)[0];
    let driver_spin_rpm = driver.mean[3];
    let mut clubs = vec![(Club::Driver, driver)];
    for name in &bag(HANDICAPS[level], sex)[1..] {
        let club: Club = name.parse()?;
        let [ball_speed, launch, backspin] = published.clubs.of(club);
        let speed = 1.0 - (1.0 - speed) * loss_share(club);
        let launch = launch + LAUNCH_PER_SPEED_DEG * (1.0 - speed);
        let mut backspin = backspin * speed;
        if club.class() == Class::Wood {
            // Weak golfers' drives spin more than their speed lets expect; a face with more loft spins the ball no less.
            backspin = backspin.max(driver_spin_rpm);
        }
        let pattern = blank(level, share, [ball_speed * speed, launch, backspin]);
        clubs.push((club, spread(bench, published, level, club, pattern)?));
    }
    let clubs = clubs
        .into_iter()
        .map(|(club, pattern)| {
            let delivery = head(club).delivery(&strike_of(&pattern.mean), None)?;
            Ok((club, pattern, delivery))
        })
        .collect::<Result<_, NoDelivery>>()?;
    let touch = touch_handicap(HANDICAPS[level], sex);
    let skills = |dials: &[Dial]| {
        let at = |dial: &Dial| {
            along_line(
                &HANDICAPS.iter().copied().zip(*dial).collect::<Vec<_>>(),
                touch,
            )
        };
        dials
            .iter()
            .map(at)
            .map(|figure| (1000.0 * figure).round() / 1000.0)
            .collect()
    };
    Ok(Level {
        file: NAMES[level],
        handicap: HANDICAPS[level],
        sex,
        clubs,
        short_game: skills(&SHORT_GAME),
        sand: skills(&SAND),
        putting: skills(&PUTTING),
    })
}

/// Handicap of the men whose short game, sand and putting a level has.
fn touch_handicap(handicap: f64, sex: Sex) -> f64 {
    match sex {
        Sex::Women if handicap >= 0.0 => WOMENS_TOUCH * handicap - WOMENS_HEAD_START,
        _ => handicap,
    }
}

/// Share of the driver's loss of speed that a club has.
fn loss_share(club: Club) -> f64 {
    let (driver, seven) = (Club::Driver.iron_loft_deg(), Club::Iron(7).iron_loft_deg());
    let way = ((club.iron_loft_deg() - driver) / (seven - driver)).clamp(0.0, 1.0);
    1.0 - (1.0 - IRON_SPEED_LOSS) * way
}

/// The driver whose mean drive, mishits and run on a medium fairway included, is the published one. The tour's is
/// that of the tour table.
fn driver(
    bench: &Bench,
    published: &Published,
    level: usize,
    sex: Sex,
    share: f64,
) -> Result<Pattern, Box<dyn Error>> {
    let (launch, backspin) = match sex {
        Sex::Men => (DRIVER_LAUNCH_MEN_DEG[level], DRIVER_SPIN_MEN_RPM[level]),
        Sex::Women => (DRIVER_LAUNCH_WOMEN_DEG[level], DRIVER_SPIN_WOMEN_RPM[level]),
    };
    let mut ball_speed = published.clubs.of(Club::Driver)[0];
    let make = |ball_speed| {
        let pattern = blank(level, share, [ball_speed, launch, backspin]);
        spread(bench, published, level, Club::Driver, pattern)
    };
    if HANDICAPS[level] < 0.0 {
        return make(ball_speed);
    }
    let asked_yd = if HANDICAPS[level] == 0.0 {
        published.scratch_drive_yd
    } else {
        along_line(&published.drives, HANDICAPS[level])
    };
    for _ in 0..8 {
        // A drive grows by about 1.9 yd per mph.
        ball_speed += (asked_yd - bench.mean_drive_yd(&make(ball_speed)?)?) / 1.9;
    }
    make(ball_speed)
}

/// A straight pattern of these means (ball speed, launch, backspin), its spreads still to be found.
fn blank(level: usize, share: f64, [ball_speed, launch, backspin]: [f64; 3]) -> Pattern {
    let mut correlation = uncorrelated();
    for (row, column, r) in [
        (0, 1, BALL_SPEED_LAUNCH),
        (0, 3, BALL_SPEED_BACKSPIN),
        (1, 3, LAUNCH_BACKSPIN),
    ] {
        correlation[row][column] = r;
        correlation[column][row] = r;
    }
    Pattern {
        mean: [ball_speed, launch, 0.0, backspin, 0.0],
        sd: [
            0.02 * ball_speed,
            LAUNCH_SD_DEG[level],
            1.0,
            BACKSPIN_SD_PCT[level] / 100.0 * backspin,
            100.0,
        ],
        correlation,
        tail_dof: costcard::player::fit::TAIL_DOF,
        mishit: Mishit {
            share,
            ball_speed_factor: BALL_SPEED_FACTOR[level],
            launch_shift_deg: LAUNCH_SHIFT_DEG,
            backspin_factor: BACKSPIN_FACTOR,
            spread_factor: SPREAD_FACTOR,
        },
    }
}

/// Sets the spreads so that two thirds of the flown normal strikes fill the published area.
fn spread(
    bench: &Bench,
    published: &Published,
    level: usize,
    club: Club,
    mut pattern: Pattern,
) -> Result<Pattern, Box<dyn Error>> {
    // A wood's shot ends where it stops; any other is played to a green, where it pitches.
    let runs = club.class() == Class::Wood;
    let middle = bench.end(&pattern.mean, runs);
    let (mut width, depth) = published.area(level, middle[1]);
    if runs {
        width *= WOOD_WIDTH_FACTOR[level];
    }
    let slope = |figure: usize, step: f64, axis: usize| {
        let (mut less, mut more) = (pattern.mean, pattern.mean);
        less[figure] -= step;
        more[figure] += step;
        (bench.end(&more, runs)[axis] - bench.end(&less, runs)[axis]) / (2.0 * step)
    };
    let half = costcard::player::half_width_in_sd(pattern.tail_dof, 2.0 / 3.0);
    let (across, along) = (width / 2.0 / half, depth / 2.0 / half);
    let (by_launch, by_backspin) = (slope(1, 0.5, 1), slope(3, 100.0, 1));
    let by_ball_speed = slope(0, 1.0, 1);
    let room = LAUNCH_SHARE.sqrt() * along;
    let of_launch = (by_launch * pattern.sd[1]).hypot(by_backspin * pattern.sd[3]);
    let (by_direction, by_sidespin) = (slope(2, 0.5, 0), slope(4, 100.0, 0));
    let by_tilt = by_sidespin * WIDEST_TILT * pattern.mean[3];
    let turn = |across: f64| {
        let curve = ((1.0 - DIRECTION_SHARE).sqrt() * across).min(by_tilt);
        let start = (across.powi(2) - curve.powi(2)).sqrt();
        [start / by_direction, curve / by_sidespin]
    };
    if of_launch > room {
        pattern.sd[1] *= room / of_launch;
        pattern.sd[3] *= room / of_launch;
    }
    pattern.sd[0] = (along.powi(2) - of_launch.min(room).powi(2)).sqrt() / by_ball_speed;
    let mut aimed = across;
    for _ in 0..6 {
        [pattern.sd[2], pattern.sd[4]] = turn(aimed);
        let now = bench.fly(&pattern, runs)?;
        aimed *= width / now.width;
        pattern.sd[0] *= (depth / now.depth).clamp(0.6, 1.6);
    }
    [pattern.sd[2], pattern.sd[4]] = turn(aimed);
    Ok(pattern)
}

/// Prints what the level comes to.
fn report(bench: &Bench, level: &Level) -> Result<(), Box<dyn Error>> {
    println!("{:?} {}", level.sex, level.file);
    for (club, pattern, delivery) in &level.clubs {
        let landings = bench.fly(pattern, club.class() == Class::Wood)?;
        let flight = bench.flight(&pattern.mean);
        println!(
            "  {club:14} {:5.1} mph {:4.1}° {:5.0} rpm  carry {:5.1} yd, descent {:4.1}°, area {:4.1} × {:4.1} yd, sd {:.1?}, \
             club {:.1} mph, attack {:+.1}°, loft {:.1}°",
            pattern.mean[0],
            pattern.mean[1],
            pattern.mean[3],
            flight.carry.yd(),
            flight.descent.deg(),
            landings.width,
            landings.depth,
            pattern.sd,
            delivery.club_speed.mph(),
            delivery.attack.deg(),
            delivery.dynamic_loft.deg(),
        );
    }
    println!(
        "  mean drive {:.1} yd",
        bench.mean_drive_yd(&level.clubs[0].1)?
    );
    Ok(())
}
