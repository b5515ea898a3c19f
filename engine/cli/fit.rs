//! `fit`: measured shots to a player file.

use serde::Serialize;

use costcard::player::Origin;
use costcard::player::batch::{Overrule, Quantity};
use costcard::player::bay::FittedPlayer;
use costcard::player::club::Club;
use costcard::player::measured::{FittedClub, LeftOut};
use costcard::player::written::player_file;
use costcard::show::fit::fit as show;

use super::args::{Common, FitArgs};
use super::{bay, notes, output, written};

/// The fit as other programs read it.
#[derive(Debug, Serialize)]
struct FitDocument<'a> {
    player: &'a str,
    handicap_index: f64,
    clubs: Vec<ClubDocument>,
    assumed_clubs: Vec<String>,
    sessions: Vec<SessionDocument<'a>>,
}

#[derive(Debug, Serialize)]
struct SessionDocument<'a> {
    name: &'a str,
    date: Option<&'a str>,
    shots: usize,
}

/// A club that was hit. With too few shots for a pattern `used` is 0 and the figures are null.
#[derive(Debug, Serialize)]
struct ClubDocument {
    club: String,
    shots: usize,
    used: usize,
    misreads: Vec<MisreadDocument>,
    mishits: usize,
    carry_yd: Option<f64>,
    carry_sd_yd: Option<f64>,
    side_yd: Option<f64>,
    side_sd_yd: Option<f64>,
    hit_carry_sd_yd: Option<f64>,
    hit_side_sd_yd: Option<f64>,
    own_pct: Option<f64>,
    mishits_pct: Option<f64>,
    ball_speed_mph: Option<f64>,
    launch_deg: Option<f64>,
    direction_deg: Option<f64>,
    backspin_rpm: Option<f64>,
    sidespin_rpm: Option<f64>,
    measured: Vec<String>,
    derived: Vec<String>,
}

#[derive(Debug, Serialize)]
struct MisreadDocument {
    file: String,
    row: usize,
    reason: String,
}

pub fn run(args: &FitArgs, common: &Common) -> anyhow::Result<()> {
    written::check_free(&args.out, args.force)?;
    let overrule = Overrule {
        keep: args.keep.clone(),
        drop: args.drop.clone(),
    };
    let overrule = bay::overrule(overrule, args.sheets.len())?;
    let player = bay::fitted(
        &args.sheets,
        &args.player,
        &args.handicap,
        &args.sheet,
        &overrule,
    )?;
    written::write(&args.out, player_file(&player), args.force)?;
    notes::of_sheets(&[&player.batch]);
    if common.json {
        return output::print_json(&document(&player));
    }
    output::print(&show(&player, output::page(common)))?;
    output::note(&format!("{} is written", args.out.display()));
    Ok(())
}

fn document(player: &FittedPlayer) -> FitDocument<'_> {
    let left_out = player.fitted.left_out(&player.batch);
    let assumed = player.golfer.clubs.iter();
    let assumed = assumed.filter(|entry| entry.origin == Origin::Assumed);
    let sessions = player.batch.sessions.iter().map(|session| SessionDocument {
        name: &session.name,
        date: session.date.as_deref(),
        shots: session.shots,
    });
    FitDocument {
        player: &player.who.name,
        handicap_index: player.who.handicap,
        clubs: player
            .batch
            .counts
            .keys()
            .map(|club| club_document(player, *club, &left_out))
            .collect(),
        assumed_clubs: assumed.map(|entry| entry.club.to_string()).collect(),
        sessions: sessions.collect(),
    }
}

fn club_document(player: &FittedPlayer, club: Club, left_out: &[LeftOut]) -> ClubDocument {
    let fitted = player.fitted.clubs.iter().find(|one| one.club == club);
    let flown = fitted.map(|fitted| fitted.flown);
    let mean = |index: usize| fitted.map(|fitted| fitted.pattern.mean[index]);
    let named = |list: fn(&FittedClub) -> &Vec<Quantity>| {
        fitted.map_or_else(Vec::new, |one| list(one).iter().map(|q| q.name()).collect())
    };
    let of_club = left_out.iter().filter(|shot| shot.club == club);
    ClubDocument {
        club: club.to_string(),
        shots: player
            .batch
            .counts
            .get(&club)
            .map_or(0, |count| count.shots),
        used: fitted.map_or(0, |fitted| fitted.used),
        misreads: of_club
            .map(|shot| MisreadDocument {
                file: player.batch.files[shot.file].to_string(),
                row: shot.row,
                reason: shot.reason.clone(),
            })
            .collect(),
        mishits: fitted.map_or(0, |fitted| fitted.mishits),
        carry_yd: flown.map(|flown| flown.carry_yd),
        carry_sd_yd: flown.map(|flown| flown.carry_sd_yd),
        side_yd: flown.map(|flown| flown.side_yd),
        side_sd_yd: flown.map(|flown| flown.side_sd_yd),
        hit_carry_sd_yd: fitted.map(|fitted| fitted.hit.carry_sd_yd),
        hit_side_sd_yd: fitted
            .filter(|fitted| fitted.tells_sides)
            .map(|fitted| fitted.hit.side_sd_yd),
        own_pct: fitted.map(|fitted| 100.0 * fitted.own_share),
        mishits_pct: fitted.map(|fitted| 100.0 * fitted.pattern.mishit.share),
        ball_speed_mph: mean(0),
        launch_deg: mean(1),
        direction_deg: mean(2),
        backspin_rpm: mean(3),
        sidespin_rpm: mean(4),
        measured: named(|one| &one.measured),
        derived: named(|one| &one.derived),
    }
}
