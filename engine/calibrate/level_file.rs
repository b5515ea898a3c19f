//! Writes a level in the format of a player's file.

use std::fmt::Write as _;
use std::{fs, io};

use costcard::ball::impact::Delivery;
use costcard::files::{Faults, Source};
use costcard::player::club::Club;
use costcard::player::pattern::Pattern;
use costcard::player::{Golfer, Sex, levels};

/// A level, ready to write.
pub struct Level {
    /// What the file is called after the sex.
    pub file: &'static str,
    pub handicap: f64,
    pub sex: Sex,
    pub clubs: Vec<(Club, Pattern, Delivery)>,
    /// Error along, across, base, mishits.
    pub short_game: Vec<f64>,
    /// Likewise.
    pub sand: Vec<f64>,
    /// Direction, length, aim past the hole.
    pub putting: Vec<f64>,
}

/// The golfer that the file would be read as.
pub fn golfer(level: &Level) -> Result<Golfer, Faults> {
    levels::read(&Source::new("a level", &text(level, word(level.sex))))
}

const fn word(sex: Sex) -> &'static str {
    match sex {
        Sex::Men => "men",
        Sex::Women => "women",
    }
}

/// Writes profiles/levels/SEX-NAME.toml.
pub fn write(level: &Level) -> io::Result<()> {
    let sex = word(level.sex);
    let path = format!(
        "{}/profiles/levels/{sex}-{}.toml",
        env!("CARGO_MANIFEST_DIR"),
        level.file
    );
    fs::write(path, text(level, sex))
}

fn text(level: &Level, sex: &str) -> String {
    let mut text = format!(
        "# Made by `cargo run --example calibrate levels`: change the dials in engine/calibrate/levels.rs, not this file.\n\
         # Sources: accuracy-by-shot-length.csv, driving-distance-by-handicap.csv and tour-flight-averages.csv in\n\
         # tests/published/data; the share of mishits is the one that makes the handicap index on neutral ground; the\n\
         # rest from memory, in view of whole rounds. Deliveries are those that give each club's mean strike by the\n\
         # impact of engine/ball/impact.rs. What is left over: residuals.csv.\n\
         name = \"{} ({sex})\"\n\
         handicap_index = {:?}\n\
         sex = \"{sex}\"\n",
        if level.file.parse::<f64>().is_ok() {
            format!("{} handicap", level.file)
        } else {
            level.file.to_owned()
        },
        level.handicap
    );
    let touch = ["along_pct", "across_pct", "base_ft", "mishit_pct"];
    let putting = ["direction_sd_deg", "length_sd_pct", "past_ft"];
    skill(&mut text, "short_game", &touch, &level.short_game);
    skill(&mut text, "sand", &touch, &level.sand);
    skill(&mut text, "putting", &putting, &level.putting);
    for (club, pattern, delivery) in &level.clubs {
        club_table(&mut text, *club, pattern);
        let _ = writeln!(
            text,
            "delivery = {{ club_speed_mph = {:.1}, attack_deg = {:.1}, dynamic_loft_deg = {:.1} }}",
            delivery.club_speed.mph(),
            delivery.attack.deg(),
            delivery.dynamic_loft.deg()
        );
    }
    text
}

fn skill(text: &mut String, name: &str, keys: &[&str], figures: &[f64]) {
    let _ = writeln!(text, "\n[{name}]");
    for (key, figure) in keys.iter().zip(figures) {
        let _ = writeln!(text, "{key} = {figure:?}");
    }
}

fn club_table(text: &mut String, club: Club, pattern: &Pattern) {
    let Pattern {
        mean,
        sd,
        correlation,
        mishit,
        ..
    } = pattern;
    let _ = write!(
        text,
        "\n[[clubs]]\nclub = \"{club}\"\nball_speed_mph = {:.2}\nlaunch_deg = {:.2}\ndirection_deg = {:.2}\n\
         backspin_rpm = {:.0}\nsidespin_rpm = {:.0}\n\
         spread = {{ ball_speed_mph = {:.3}, launch_deg = {:.3}, direction_deg = {:.3}, backspin_rpm = {:.1}, sidespin_rpm = {:.1} }}\n\
         correlation = {{ ball_speed_launch = {:?}, ball_speed_backspin = {:?}, launch_backspin = {:?} }}\n\
         mishits = {{ share_pct = {:.1}, ball_speed_factor = {:?}, launch_shift_deg = {:?}, backspin_factor = {:?}, spread_factor = {:?} }}\n",
        mean[0],
        mean[1],
        mean[2],
        mean[3],
        mean[4],
        sd[0],
        sd[1],
        sd[2],
        sd[3],
        sd[4],
        correlation[0][1],
        correlation[0][3],
        correlation[1][3],
        100.0 * mishit.share,
        mishit.ball_speed_factor,
        mishit.launch_shift_deg,
        mishit.backspin_factor,
        mishit.spread_factor,
    );
}
