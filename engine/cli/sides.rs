//! The shots before and after: two sheets, or two sessions of one.

use std::cmp::Ordering;

use costcard::files::{Faults, listed, nearest};
use costcard::player::batch::{Batch, ColumnMap, Overrule, Session, order_of_days};

use super::args::CompareArgs;
use super::usage::Usage;
use super::{bay, notes, output};

/// The shots before and after: two sheets, or two sessions of one. What was passed over of them is told before a session is
/// looked for: the column that would tell it may be among that.
pub fn sides(args: &CompareArgs) -> anyhow::Result<[Batch; 2]> {
    let sheets: Vec<&String> = std::iter::once(&args.before_sheet)
        .chain(&args.after_sheet)
        .collect();
    let overrule = Overrule {
        keep: args.keep.clone(),
        drop: args.drop.clone(),
    };
    let overrule = bay::overrule(overrule, sheets.len())?;
    of_known_sheets(&overrule, &sheets)?;
    let map = args.sheet.map.as_deref().map(bay::column_map).transpose()?;
    let map = map.unwrap_or_default();
    let read = |sheet: &String| read(sheet, &map, &overrule);
    let (before, after) = (args.before.as_deref(), args.after.as_deref());
    let Some(second) = &args.after_sheet else {
        let sheet = read(&args.before_sheet)?;
        notes::of_sheets(&[&sheet]);
        return Ok(two_sessions(&sheet, before, after)?);
    };
    if is_same_file(&args.before_sheet, second) {
        return Err(Usage {
            message: format!("`{second}` is both before and after"),
            hint:
                "name two sheets; or name one sheet, and its sessions with `--before` and `--after`"
                    .to_owned(),
        }
        .into());
    }
    let (first, second) = match (read(&args.before_sheet), read(second)) {
        (Ok(first), Ok(second)) => (first, second),
        (Err(mut faults), Err(more)) => {
            faults.extend(more);
            return Err(faults.into());
        }
        (Err(faults), _) | (_, Err(faults)) => return Err(faults.into()),
    };
    notes::of_sheets(&[&first, &second]);
    Ok([
        chosen(first, "--before", before)?,
        chosen(second, "--after", after)?,
    ])
}

/// What is to be told where the shots that were named as before are of a later day than those named as after.
pub fn backwards([before, after]: [&Batch; 2]) -> Option<String> {
    let day = |session: Option<&Session>| session.and_then(|session| session.date.clone());
    let (first, last) = (day(before.sessions.first())?, day(after.sessions.last())?);
    let is_backwards = order_of_days(&first, &last) == Some(Ordering::Greater);
    is_backwards.then(|| {
        format!("the shots before are of {first}, those after of {last}: turned round, every change is the other way")
    })
}

fn read(sheet: &str, map: &ColumnMap, overrule: &Overrule) -> Result<Batch, Faults> {
    let input = bay::input(sheet)?;
    let overrule = overrule.of_sheet(&input.name());
    Batch::read(vec![input], map, &overrule)
}

/// Every row named must be of a sheet that is read.
fn of_known_sheets(overrule: &Overrule, sheets: &[&String]) -> Result<(), Usage> {
    let mut named = overrule.keep.iter().chain(&overrule.drop);
    let unknown = named.find(|row| !sheets.iter().any(|sheet| row.may_be_of(sheet)));
    unknown.map_or(Ok(()), |row| {
        Err(Usage {
            message: format!("row {row} is of none of the sheets"),
            hint: format!(
                "write the sheet as it is written here, as `{}:12`",
                sheets[0]
            ),
        })
    })
}

fn is_same_file(one: &str, other: &str) -> bool {
    let real = |path: &str| std::fs::canonicalize(path).ok();
    one == other || real(one).is_some_and(|path| Some(path) == real(other))
}

/// The whole sheet, or the session of it that is named.
fn chosen(batch: Batch, flag: &str, session: Option<&str>) -> Result<Batch, Usage> {
    match session {
        None => Ok(batch),
        Some(name) => Ok(batch.of_session(session_of(&batch, flag, name)?)),
    }
}

fn session_of(batch: &Batch, flag: &str, name: &str) -> Result<usize, Usage> {
    batch.session_named(name).ok_or_else(|| {
        let names: Vec<&str> = session_names(batch);
        let meant = nearest(name, names.iter().copied());
        let names = told(&names);
        Usage {
            message: format!(
                "`{flag}` names no session of `{}`: `{name}`",
                batch.files[0]
            ),
            hint: match meant {
                Some(meant) => format!("did you mean `{meant}`? The sessions are {names}"),
                None => format!("the sessions are {names}"),
            },
        }
    })
}

/// Sessions told one by one in a message.
const MOST_TOLD: usize = 12;

fn told(names: &[&str]) -> String {
    match names.len() {
        many if many > MOST_TOLD => format!(
            "{} and {} more",
            listed(&names[..MOST_TOLD], "and"),
            many - MOST_TOLD
        ),
        _ => listed(names, "and"),
    }
}

/// The names of a batch's sessions.
pub fn session_names(batch: &Batch) -> Vec<&str> {
    batch
        .sessions
        .iter()
        .map(|session| &*session.name)
        .collect()
}

/// The only two sessions of a sheet, the earlier first: some devices list the newest shots first. Where their days do not
/// tell, they are taken in the order they stand in, which is said.
fn in_order_of_days(batch: &Batch) -> (usize, usize) {
    let day = |session: usize| batch.sessions[session].date.as_deref();
    let Some((one, other)) = day(0).zip(day(1)) else {
        return (0, 1);
    };
    match order_of_days(one, other) {
        Some(Ordering::Greater) => (1, 0),
        Some(_) => (0, 1),
        None => {
            output::note(&format!(
                "whether {one} or {other} was first cannot be told from how they are written: the one that stands first is taken for the first; --before and --after say otherwise"
            ));
            (0, 1)
        }
    }
}

/// Two sessions of one sheet: those named, or the only two.
fn two_sessions(
    batch: &Batch,
    before: Option<&str>,
    after: Option<&str>,
) -> Result<[Batch; 2], Usage> {
    let named =
        |flag, name: Option<&str>| name.map(|name| session_of(batch, flag, name)).transpose();
    let pair = match (named("--before", before)?, named("--after", after)?) {
        (Some(before), Some(after)) => Some((before, after)),
        _ if batch.sessions.len() != 2 => None,
        (Some(before), None) => Some((before, 1 - before)),
        (None, Some(after)) => Some((1 - after, after)),
        (None, None) => Some(in_order_of_days(batch)),
    };
    let file = &batch.files[0];
    match pair {
        Some((before, after)) if before == after => Err(Usage {
            message: format!("session `{}` is both before and after", batch.sessions[before].name),
            hint: format!("the sessions of `{file}` are {}", told(&session_names(batch))),
        }),
        Some((before, after)) => Ok([batch.of_session(before), batch.of_session(after)]),
        None if batch.sessions.len() == 1 => Err(Usage {
            message: format!("`{file}` holds one session, and there is no second sheet"),
            hint: "name the sheet of after too; or tell sessions apart by a column `session` or `date`".to_owned(),
        }),
        None => Err(Usage {
            message: format!("`{file}` holds {} sessions", batch.sessions.len()),
            hint: format!(
                "name two of them with `--before` and `--after`: {}",
                told(&session_names(batch))
            ),
        }),
    }
}
