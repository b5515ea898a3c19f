//! The player file as `fit` writes it: what was fitted, what it was fitted to, and what was left out. Read again, it
//! gives the same player.

use std::fmt::Write as _;

use super::batch::Quantity;
use super::batch::quoted;
use super::bay::FittedPlayer;
use super::club_table::{FIGURES, PAIRS};
use super::delivery::Delivered;
use super::measured::FittedClub;
use super::pattern::{Five, Pattern};
use super::posterior::Evidence;
use super::{Origin, Sex};

/// The text of the player's file.
#[must_use]
pub fn player_file(player: &FittedPlayer) -> String {
    let mut out = head(player);
    out += SKILLS;
    for club in &player.fitted.clubs {
        out.push('\n');
        out += &club_table(club);
    }
    out.push('\n');
    out += &fitted_to(player);
    if !player.map.is_plain() {
        out += "\n# What the sheets call their columns. For the next fit, name this file: --map THIS.toml\n";
        out += &player.map.to_toml("map");
    }
    out
}

/// Where a reader looks for what the bay does not measure.
const SKILLS: &str = "
# Short game, sand and putting come from the handicap until they are counted, for instance:
# [short_game]
# up_and_down_pct = 36
# [sand]
# sand_save_pct = 18
# [putting]
# holed_from_5_ft_pct = 62
# holed_from_8_ft_pct = 38
";

fn head(player: &FittedPlayer) -> String {
    let who = &player.who;
    let shots: usize = player.batch.counts.values().map(|count| count.shots).sum();
    let used: usize = player.fitted.clubs.iter().map(|club| club.used).sum();
    let mut out = format!(
        "# Fitted by costcard to {used} of {shots} measured shots. Figures are as an onlooker sees them: right is positive.\n\n",
    );
    let sex = match who.sex {
        Sex::Men => "men",
        Sex::Women => "women",
    };
    let _ = writeln!(out, "name = {}", quoted(&who.name));
    let _ = writeln!(out, "handicap_index = {:?}", who.handicap);
    let _ = writeln!(out, "sex = \"{sex}\"");
    if who.left_handed {
        out += "hand = \"left\"\n";
    }
    let assumed = player.golfer.clubs.iter();
    let assumed = assumed.filter(|entry| entry.origin == Origin::Assumed);
    let names: Vec<String> = assumed
        .map(|entry| quoted(&entry.club.to_string()))
        .collect();
    out += "\n# Clubs too few shots were measured with: they come from the handicap, at the player's own speed.\n# Strike out those that are not in the bag.\n";
    let _ = writeln!(out, "assumed_clubs = [{}]", names.join(", "));
    out
}

fn club_table(club: &FittedClub) -> String {
    let pattern = &club.pattern;
    let mut out = String::from("[[clubs]]\n");
    let _ = writeln!(out, "club = {}", quoted(&club.club.to_string()));
    let _ = writeln!(out, "{}", told(club));
    for (figure, mean) in FIGURES.iter().zip(pattern.mean) {
        let _ = writeln!(out, "{} = {mean}", figure.name);
    }
    let _ = writeln!(out, "spread = {}", by_figure(&pattern.sd));
    let _ = writeln!(out, "correlation = {}", correlations(&pattern.correlation));
    let _ = writeln!(out, "tail_dof = {}", pattern.tail_dof);
    let _ = writeln!(out, "mishits = {}", mishits(pattern));
    let _ = writeln!(
        out,
        "measured = {{ shots = {}, mishits = {}, figures = {}, derived = {} }}",
        club.used,
        club.mishits,
        names(&club.measured),
        names(&club.derived)
    );
    out += &sureness(&club.evidence);
    if club.delivered != Delivered::default() {
        let _ = writeln!(out, "delivery = {}", delivery(&club.delivered));
    }
    out
}

/// The club in words, for who reads the file.
fn told(club: &FittedClub) -> String {
    let flown = &club.flown;
    let side = match flown.side_yd.round() {
        side if side > 0.0 => format!("{side} yd right"),
        side if side < 0.0 => format!("{} yd left", -side),
        _ => "straight".to_owned(),
    };
    format!(
        "# Normal strikes carry {:.0} yd, give or take {:.0}, and end {side}, give or take {:.0}.",
        flown.carry_yd, flown.carry_sd_yd, flown.side_sd_yd
    )
}

fn table(entries: impl IntoIterator<Item = (String, f64)>) -> String {
    let entries = entries.into_iter();
    let entries: Vec<String> = entries
        .map(|(key, value)| format!("{key} = {value}"))
        .collect();
    format!("{{ {} }}", entries.join(", "))
}

fn by_figure(values: &Five) -> String {
    let named = FIGURES.iter().zip(values);
    table(named.map(|(figure, value)| (figure.name.to_owned(), *value)))
}

fn correlations(correlation: &[Five; 5]) -> String {
    let pairs = PAIRS.iter();
    table(pairs.map(|(name, row, column)| ((*name).to_owned(), correlation[*row][*column])))
}

fn mishits(pattern: &Pattern) -> String {
    let mishit = &pattern.mishit;
    // The share is a hundredth of a figure of two decimals: this is that figure again.
    let share_pct = (mishit.share * 10_000.0).round() / 100.0;
    let entries = [
        ("share_pct", share_pct),
        ("ball_speed_factor", mishit.ball_speed_factor),
        ("launch_shift_deg", mishit.launch_shift_deg),
        ("backspin_factor", mishit.backspin_factor),
        ("spread_factor", mishit.spread_factor),
    ];
    table(entries.map(|(key, value)| (key.to_owned(), value)))
}

fn names(quantities: &[Quantity]) -> String {
    let names: Vec<String> = quantities.iter().map(|one| quoted(&one.name())).collect();
    format!("[{}]", names.join(", "))
}

/// How sure the figures are: see `player/posterior.rs` for how to draw from it.
fn sureness(evidence: &Evidence) -> String {
    let entries = [
        ("mean_strikes", evidence.mean_strikes),
        ("spread_dof", evidence.spread_dof),
        ("share_strikes", evidence.share_strikes),
    ];
    let entries = entries.map(|(key, value)| (key.to_owned(), value));
    let mut out = format!("sure = {}\n", table(entries));
    if let Some(open) = &evidence.open {
        let _ = writeln!(out, "open = {}", by_figure(&open.sd));
        let _ = writeln!(
            out,
            "open_correlation = {}",
            correlations(&open.correlation)
        );
    }
    out
}

fn delivery(delivered: &Delivered) -> String {
    let named = Delivered::COLUMNS.into_iter().zip(delivered.figures());
    table(named.filter_map(|(name, figure)| Some((name.to_owned(), figure?))))
}

fn fitted_to(player: &FittedPlayer) -> String {
    let batch = &player.batch;
    let mut out = String::from(
        "# What the figures above were fitted to; nothing here changes them.\n[fitted_to]\n",
    );
    let files: Vec<String> = batch.files.iter().map(|file| quoted(file)).collect();
    let _ = writeln!(out, "files = [{}]", files.join(", "));
    out += "sessions = [\n";
    for session in &batch.sessions {
        let date = session.date.as_ref();
        let date = date.map(|date| format!(", date = {}", quoted(date)));
        let _ = writeln!(
            out,
            "  {{ name = {}{}, shots = {} }},",
            quoted(&session.name),
            date.unwrap_or_default(),
            session.shots
        );
    }
    out += "]\n";
    out += &left_out(player);
    out
}

fn left_out(player: &FittedPlayer) -> String {
    let listed = player.fitted.left_out(&player.batch);
    let more = player.fitted.left_out_count(&player.batch) - listed.len();
    if listed.is_empty() {
        return "left_out = []\n".to_owned();
    }
    let mut out = String::from("left_out = [\n");
    for shot in &listed {
        let _ = writeln!(
            out,
            "  {{ file = {}, row = {}, club = {}, reason = {} }},",
            quoted(&player.batch.files[shot.file]),
            shot.row,
            quoted(&shot.club.to_string()),
            quoted(&shot.reason)
        );
    }
    out += "]\n";
    if more > 0 {
        let _ = writeln!(out, "left_out_and_not_listed = {more}");
    }
    out
}
