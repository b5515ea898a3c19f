//! Sheets as practitioners write them: what is read of them, what is told, and what is no golf in the unit it says.

#![allow(clippy::expect_used)] // a test may stop

use costcard::ball::air::{Air, Atmosphere};
use costcard::ball::flight::fly;
use costcard::files::Source;
use costcard::player::batch::{Batch, ColumnMap, Input, Overrule, PassedKind, Quantity};
use costcard::player::club::Club;
use costcard::player::measured::fit_batch;
use costcard::player::pattern::strike_of;
use costcard::player::{Sex, levels};
use rand::SeedableRng;
use rand::rngs::ChaCha8Rng;

pub(super) fn read_with(sheet: &str, map: &str) -> Result<Batch, String> {
    let map =
        ColumnMap::read(&Source::new("map.toml", map)).map_err(|faults| faults.to_string())?;
    let input = Input::Text(Source::new("bay.csv", sheet));
    Batch::read(vec![input], &map, &Overrule::default()).map_err(|faults| faults.to_string())
}

pub(super) fn read(sheet: &str) -> Batch {
    read_with(sheet, "").unwrap_or_else(|told| panic!("{told}"))
}

pub(super) fn told(sheet: &str) -> String {
    read_with(sheet, "").map(|_| ()).unwrap_err()
}

#[test]
fn plain_headers_give_the_same_shots_as_costcards_own() {
    let own = read(
        "club,club_speed_mph,ball_speed_mph,launch_deg,direction_deg,spin_rpm,spin_axis_deg,carry_yd\n\
         7 iron,80,104,15.5,-1.0,4900,3,142\n7 iron,79,103,16.5,1.5,5100,-2,141\n",
    );
    for head in [
        "Club,Club Speed [mph],Ball Speed [mph],Launch Angle [deg],Launch Direction [deg],Spin Rate [rpm],Spin Axis [deg],Carry [yd]",
        "CLUB TYPE,club head speed (mph),BallSpeed_mph,launch_angle,Launch Direction,spin rate,SpinAxis,Carry Distance (yards)",
        "club,\"Club Speed, mph\",\"Ball Speed, mph\",Launch Angle (°),Direction,Spin,Spin Axis,\"Carry, yds\"",
    ] {
        let batch = read(&format!(
            "{head}\n7 iron,80,104,15.5,-1.0,4900,3,142\n7 iron,79,103,16.5,1.5,5100,-2,141\n"
        ));
        assert_eq!(batch.shots, own.shots, "{head}");
        assert!(batch.unread.is_empty(), "{head}");
    }
    let metric = read(
        "Club,Ball Speed (km/h),Launch Angle,Spin Rate,Carry (m)\n7 iron,167.4,15.5,4900,129.8\n7 iron,165.8,16.5,5100,128.9\n",
    );
    let speed = metric.shots[0].figures.measured(Quantity::BallSpeed);
    assert!((speed.unwrap() - 104.0).abs() < 0.05, "{speed:?}");
    let carry = metric.shots[0].figures.measured(Quantity::Carry);
    assert!((carry.unwrap() - 142.0).abs() < 0.1, "{carry:?}");
}

#[test]
fn a_unit_that_could_be_several_is_asked_for_once_and_may_stand_anywhere() {
    let rows = "7 iron,104,15.5\n7 iron,103,16.5\n";
    assert_eq!(
        told(&format!("Club,Ball Speed,Launch Angle\n{rows}")),
        "bay.csv:1:6: `Ball Speed` does not say its unit\nhint: write `Ball Speed (mph)`, `Ball Speed (km/h)` or \
         `Ball Speed (m/s)`, or say it in a column map (`--map MAP.toml`): `units = { ball_speed_mph = \"mph\" }`"
    );
    let said = [
        read(&format!("Club,Ball Speed,Launch Angle\n,mph,deg\n{rows}")),
        read("Club,Ball Speed,Launch Angle\n7 iron,104 mph,15.5\n7 iron,103mph,16.5\n"),
        read_with(
            &format!("Club,Ball Speed,Launch Angle\n{rows}"),
            "units = { ball_speed_mph = \"mph\" }",
        )
        .unwrap(),
    ];
    for batch in said {
        let speed = batch.shots[0].figures.measured(Quantity::BallSpeed);
        assert_eq!(speed, Some(104.0));
    }
}

#[test]
fn columns_that_are_not_read_are_named_with_what_they_look_like() {
    let batch = read(
        "club,ball_speed_mph,Launch Angle X,Notes,Side,Launch Direction\n7 iron,104,15.5,good,left,\n7 iron,103,16.5,,right,\n",
    );
    let unread: Vec<(&str, Option<Quantity>)> = batch
        .unread
        .iter()
        .map(|one| (one.header.as_str(), one.like))
        .collect();
    assert_eq!(
        unread,
        [
            ("Launch Angle X", Some(Quantity::Launch)),
            ("Notes", None),
            // Words, and nothing at all, are no figures, whatever stands above them.
            ("Side", None),
            ("Launch Direction", None),
        ]
    );
    assert_eq!(batch.columns, [Quantity::BallSpeed]);
}

#[test]
fn what_is_told_of_a_sheet_that_lacks_its_columns_is_true_and_helps() {
    let told = told("Club,Tempo,Launch Angle\n7 iron,104,15.5\n");
    assert!(
        told.contains("no column says how fast or how far the ball went; not known: `Tempo`\n"),
        "{told}"
    );
    let map = told.split('`').rev().nth(1).unwrap_or_default();
    assert_eq!(map, "columns = { ball_speed_mph = \"Tempo\" }");
    let mapped = read_with("Club,Tempo,Launch Angle\n7 iron,104,15.5\n", map).unwrap();
    assert_eq!(mapped.shot_count(), 1);

    let turned = "columns = { \"Ball Speed\" = \"ball_speed_mph\" }";
    let told = read_with("club,Ball Speed\n7 iron,104\n", turned).map(|_| ());
    assert_eq!(
        told.unwrap_err(),
        "map.toml:1:13: `Ball Speed` stands where costcard's own name belongs\nhint: write it the other way round: \
         `ball_speed_mph = \"Ball Speed\"`"
    );
}

#[test]
fn nobody_called_max_loses_shots_and_averages_are_passed_over() {
    let shots = "Max,Range,7 iron,104,15.5\nMax,Range,7 iron,103,16.5\nMax,Range,7 iron,105,14.5\n";
    let batch = read(&format!(
        "Player,Location,club,ball_speed_mph,launch_deg\n{shots}Average,,,104,15.5\nMax,Range,Std Dev,1,0.5\nAverage,,7 iron,104,15.5\n"
    ));
    assert_eq!(batch.shot_count(), 3);
    let passed = batch.passed[&PassedKind::Totals];
    assert_eq!((passed.rows, passed.row), (3, 5));
    let numbered = read(
        "No,club,ball_speed_mph,launch_deg\n1,7 iron,104,15.5\n2,7 iron,103,16.5\nMax,7 iron,104,16.5\nRange,7 iron,1,1\n",
    );
    assert_eq!(numbered.shot_count(), 2);
    assert_eq!(numbered.passed[&PassedKind::Totals].rows, 2);
}

#[test]
fn a_name_that_is_no_clubs_is_told_once_and_putts_are_passed_over() {
    let head = "club,ball_speed_mph,launch_deg\n";
    let told = told(&format!(
        "{head}Chipper,60,25\n7 iron,104,15.5\nChipper,61,26\nChipper,62,27\nMallet,60,20\n"
    ));
    assert!(
        told.starts_with("bay.csv:2:1: unknown club `Chipper`, here and in 2 more rows\n"),
        "{told}"
    );
    assert!(
        told.contains("bay.csv:6:1: unknown club `Mallet`\n"),
        "{told}"
    );
    assert_eq!(told.matches("unknown club").count(), 2, "{told}");
    assert!(
        told.contains("`clubs = { \"Chipper\" = \"none\" }`"),
        "{told}"
    );

    let batch = read(&format!(
        "{head}Iron 7,104,15.5\nPutter,12,2\nPutter,13,2\nEisen 7,103,16.5\n"
    ));
    assert_eq!(batch.counts.keys().collect::<Vec<_>>(), [&Club::Iron(7)]);
    assert_eq!(batch.passed[&PassedKind::Putter].rows, 2);
}

#[test]
fn two_lofts_are_two_wedges() {
    let head = "club,ball_speed_mph,launch_deg\n";
    let batch = read(&format!("{head}56°,80,30\n60°,75,33\n56,81,30\n"));
    assert_eq!(batch.counts.len(), 2);
    let two = format!("{head}54,80,30\n56,78,31\n");
    let told = told(&two);
    assert!(
        told.starts_with("bay.csv:3:1: `54` and `56` would both be the sand wedge\n"),
        "{told}"
    );
    let map = "clubs = { \"54\" = \"gap wedge\", \"56\" = \"sand wedge\" }";
    assert_eq!(read_with(&two, map).unwrap().counts.len(), 2);
}

/// Shots of a golfer off `handicap` with four clubs, his speeds times `speed`, written in units of which the columns say
/// others: ball speeds and carries are multiplied once more.
fn sheet(handicap: f64, sex: Sex, speed: f64, [ball, carry]: [f64; 2]) -> String {
    let level = levels::level(handicap, sex).unwrap();
    let mut rng = ChaCha8Rng::seed_from_u64(5);
    let air = Atmosphere::new(&Air::standard());
    let mut sheet =
        "club,ball_speed_mph,launch_deg,direction_deg,backspin_rpm,sidespin_rpm,carry_yd\n"
            .to_owned();
    for club in [
        Club::Driver,
        Club::Iron(5),
        Club::Iron(7),
        Club::PitchingWedge,
    ] {
        let mut pattern = level.pattern_with(club).unwrap().scaled(speed);
        pattern.mishit.share = 0.0;
        let sampler = pattern.sampler().unwrap();
        for _ in 0..8 {
            let strike = sampler.random(&mut rng);
            let flown = fly(&strike_of(&strike), &air).carry.yd();
            let [speed, launch, direction, back, side] = strike;
            sheet += &format!(
                "{club},{:.1},{launch:.1},{direction:.1},{back:.0},{side:.0},{:.1}\n",
                speed * ball,
                flown * carry
            );
        }
    }
    sheet
}

/// The same without carries.
fn without_carry(sheet: &str) -> String {
    let cut = |line: &str| line.rsplit_once(',').map(|(kept, _)| format!("{kept}\n"));
    sheet.lines().filter_map(cut).collect()
}

const KMH: f64 = 1.609_344;
const MPS: f64 = 0.447_04;

#[test]
fn a_sheet_in_another_unit_of_speed_is_told_and_not_read() {
    let kmh = told(&without_carry(&sheet(8.0, Sex::Men, 1.0, [KMH, 1.0])));
    assert!(
        kmh.starts_with("bay.csv:1:6: the usual ball speed of the driver would be 2"),
        "{kmh}"
    );
    assert!(
        kmh.contains("these look like km/h\n") && kmh.contains("`ball_speed_kmh`"),
        "{kmh}"
    );
    let mps = told(&without_carry(&sheet(14.0, Sex::Men, 1.0, [MPS, 1.0])));
    assert!(
        mps.contains("too slow for the spin: these look like m/s\n"),
        "{mps}"
    );
    for handicap in [0.0, 10.0, 20.0] {
        let mph = without_carry(&sheet(handicap, Sex::Men, 1.0, [1.0, 1.0]));
        let under_kmh = told(&mph.replace("ball_speed_mph", "ball_speed_kmh"));
        assert!(
            under_kmh.contains("too slow for the spin: these look like mph\n"),
            "{handicap}: {under_kmh}"
        );
    }
    // With carries, a slow player's sheet too.
    for (speed, ball, unit) in [(0.75, KMH, "km/h"), (0.75, MPS, "m/s"), (1.1, KMH, "km/h")] {
        let told = told(&sheet(20.0, Sex::Women, speed, [ball, 1.0]));
        assert!(
            told.contains(&format!("these look like {unit}\n")),
            "{speed} {ball}: {told}"
        );
        assert_eq!(told.matches("these look like").count(), 1, "{told}");
    }
    let feet = told(&sheet(14.0, Sex::Men, 1.0, [1.0, 3.0]));
    assert!(
        feet.contains("the usual carry of the driver") && feet.contains("these look like ft\n"),
        "{feet}"
    );
    // Who knows better says so.
    let own = "units = { ball_speed_mph = \"mph\" }";
    let kept = without_carry(&sheet(8.0, Sex::Men, 1.0, [KMH, 1.0]));
    let told = read_with(&kept, own).map(|_| ()).err().unwrap_or_default();
    assert!(!told.contains("these look like"), "{told}");
}

#[test]
fn no_golfer_is_too_slow_or_too_fast_for_the_check() {
    for (handicap, sex, speed) in [
        (36.0, Sex::Women, 0.5),
        (36.0, Sex::Men, 0.4),
        (20.0, Sex::Women, 0.75),
        (28.0, Sex::Men, 0.7),
        (10.0, Sex::Women, 0.8),
        (0.0, Sex::Men, 1.0),
        (-6.0, Sex::Men, 1.1),
    ] {
        let whole = sheet(handicap, sex, speed, [1.0, 1.0]);
        for sheet in [without_carry(&whole), whole] {
            let batch = read(&sheet);
            assert_eq!(batch.shot_count(), 32, "{handicap} {speed}");
            assert!(batch.unit_doubts.is_empty(), "{handicap} {speed}");
        }
    }
}

#[test]
fn carries_in_metres_under_yards_are_asked_about() {
    let batch = read(&sheet(14.0, Sex::Men, 1.0, [1.0, 0.9144]));
    let doubt = batch.unit_doubts.first().expect("a doubt");
    assert_eq!((doubt.unit, doubt.column.as_str()), ("m", "carry_m"));
    let yards = sheet(14.0, Sex::Men, 1.0, [1.0, 1.0]).replace("carry_yd", "carry_m");
    let doubts = read(&yards).unit_doubts;
    assert_eq!(doubts.first().map(|doubt| doubt.unit), Some("yd"));
    // Without spin too, which would be worked out from them.
    let plain = sheet(6.0, Sex::Men, 1.0, [1.0, 0.9144]);
    assert!(read(&plain).unit_doubts[0].spin_measured);
    let spinless = without(&plain, "backspin_rpm");
    let doubts = read(&spinless).unit_doubts;
    let told = doubts
        .first()
        .map(|doubt| (doubt.unit, doubt.spin_measured));
    assert_eq!(told, Some(("m", false)));
    let right = without(&sheet(6.0, Sex::Men, 1.0, [1.0, 1.0]), "backspin_rpm");
    assert!(read(&right).unit_doubts.is_empty());
}

/// A sheet without one of its columns.
fn without(sheet: &str, header: &str) -> String {
    let head: Vec<&str> = sheet.lines().next().unwrap().split(',').collect();
    let gone = head.iter().position(|one| *one == header).unwrap();
    let kept = |line: &str| {
        let cells = line.split(',').enumerate();
        let cells = cells.filter(|(place, _)| *place != gone);
        cells.map(|(_, cell)| cell).collect::<Vec<&str>>().join(",") + "\n"
    };
    sheet.lines().map(kept).collect()
}

/// The same with where balls ended and how high they flew, sidespin, sides and heights multiplied.
fn with_ends(sheet: &str, signs: [f64; 3]) -> String {
    with_directions(sheet, 1.0, signs)
}

fn with_directions(sheet: &str, direction: f64, [spin, side, height]: [f64; 3]) -> String {
    let air = Atmosphere::new(&Air::standard());
    let with = |line: &str| {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |cell: usize| cells[cell].parse::<f64>().unwrap();
        let strike: [f64; 5] = std::array::from_fn(|figure| number(figure + 1));
        let flight = fly(&strike_of(&strike), &air);
        format!(
            "{},{},{},{},{},{:.1},{:.1}\n",
            cells[..3].join(","),
            number(3) * direction,
            cells[4],
            number(5) * spin,
            cells[6],
            flight.side.yd() * side,
            flight.apex.yd() * height
        )
    };
    let (head, lines) = sheet.split_once('\n').unwrap();
    let lines: String = lines.lines().map(with).collect();
    format!("{head},side_yd,apex_yd\n{lines}")
}

#[test]
fn a_sign_that_is_the_other_one_is_asked_about() {
    let plain = sheet(14.0, Sex::Men, 1.0, [1.0, 1.0]);
    let doubt = |signs| {
        let doubts = read(&with_ends(&plain, signs)).side_doubts;
        doubts.first().map(|doubt| doubt.column)
    };
    assert_eq!(doubt([1.0, 1.0, 1.0]), None);
    assert_eq!(doubt([-1.0, 1.0, 1.0]), Some(Quantity::Sidespin));
    assert_eq!(doubt([1.0, -1.0, 1.0]), Some(Quantity::Side));
    let turned = read(&with_directions(&plain, -1.0, [1.0; 3])).side_doubts;
    assert_eq!(
        turned.first().map(|doubt| doubt.column),
        Some(Quantity::Direction)
    );
    // A device that tells less spin than there was is no other sign.
    assert_eq!(doubt([0.5, 1.0, 1.0]), None);
    // Who says so is not asked.
    let map = "flipped = [\"sidespin_rpm\"]";
    let batch = read_with(&with_ends(&plain, [-1.0, 1.0, 1.0]), map).unwrap();
    assert!(batch.side_doubts.is_empty());
}

#[test]
fn heights_in_feet_under_yards_are_told() {
    for (handicap, sex) in [(0.0, Sex::Men), (20.0, Sex::Men), (30.0, Sex::Women)] {
        let plain = sheet(handicap, sex, 1.0, [1.0, 1.0]);
        let feet = told(&with_ends(&plain, [1.0, 1.0, 3.0]));
        assert!(
            feet.contains("higher than such a carry comes: these look like ft\n"),
            "{handicap}: {feet}"
        );
        assert_eq!(read(&with_ends(&plain, [1.0; 3])).shot_count(), 32);
        let under_feet =
            |height| with_ends(&plain, [1.0, 1.0, height]).replace("apex_yd", "apex_ft");
        let metres = told(&under_feet(0.9144));
        assert!(
            metres.contains("lower than any ball that carries so far: these look like m\n"),
            "{handicap}: {metres}"
        );
        assert_eq!(read(&under_feet(3.0)).shot_count(), 32);
    }
}

#[test]
fn spin_in_thousands_is_told() {
    let thousands = |line: &str| {
        let mut cells: Vec<String> = line.split(',').map(str::to_owned).collect();
        if let Ok(rpm) = cells[4].parse::<f64>() {
            cells[4] = format!("{:.2}", rpm / 1000.0);
        }
        cells.join(",") + "\n"
    };
    let plain = without_carry(&sheet(14.0, Sex::Men, 1.0, [1.0, 1.0]));
    let sheet: String = plain.lines().map(thousands).collect();
    let told = told(&sheet);
    assert!(
        told.contains("no ball spins so little: these look like thousands\n"),
        "{told}"
    );
}

/// Every club is filled up where its strikes are measured in part, whatever it is called.
#[test]
fn strikes_that_lack_figures_are_fitted_with_every_club() {
    let clubs = [
        "driver",
        "3 wood",
        "4 hybrid",
        "5 iron",
        "8 iron",
        "pitching wedge",
        "gap wedge",
        "sand wedge",
        "lob wedge",
    ];
    let row = |(place, club): (usize, &&str)| -> String {
        let shot = |more| format!("{club},{},{}\n", 140 - 9 * place + more, 12 + 3 * place);
        (0..4).map(shot).collect()
    };
    let rows: String = clubs.iter().enumerate().map(row).collect();
    let batch = read(&format!("club,ball_speed_mph,launch_deg\n{rows}"));
    let level = levels::level(14.0, Sex::Men).expect("a level");
    let fitted = fit_batch(&batch, &level).expect("a fit");
    assert_eq!(fitted.clubs.len(), clubs.len());
}
