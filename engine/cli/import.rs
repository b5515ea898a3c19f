//! `import`: a course from a map.

use std::path::Path;
use std::process::ExitCode;

use costcard::course::Course;
use costcard::course::import::document::ImportDocument;
use costcard::course::import::{
    ImportError, Imported, Map, Options, Refused, Survey, Turf, embedded,
};
use costcard::files::{Source, listed};
use costcard::show::import as show;
use costcard::show::reading::holes;

use super::args::{Common, ImportArgs};
use super::usage::Usage;
use super::{INPUT_AT_FAULT, load, output, written};

pub fn run(args: &ImportArgs, common: &Common) -> anyhow::Result<ExitCode> {
    if let Some(out) = &args.out {
        written::check_free(Path::new(out), args.force)?;
    }
    let map = match args.map.strip_prefix(load::DEMO) {
        Some(name) => embedded::map(name)?,
        None => Map::read(Path::new(&args.map))?,
    };
    let survey = Survey::of(&map);
    let Some(at) = chosen(&survey, args)? else {
        return several(&survey, args, common);
    };
    let options = Options {
        tees: args.tees.as_deref(),
        make_greens: args.make_greens,
    };
    match survey.import(at, options) {
        Ok(course) => done(&survey, &course, args, common),
        Err(ImportError::Nothing(refused)) => nothing(&survey, &refused, args, common),
        Err(error) => Err(usage(&error).into()),
    }
}

/// The course to import; none where the map holds several and none was named.
fn chosen(survey: &Survey<'_>, args: &ImportArgs) -> anyhow::Result<Option<usize>> {
    let count = survey.courses().len();
    match &args.course {
        Some(asked) if count > 0 => Ok(Some(survey.course(asked).map_err(|error| usage(&error))?)),
        _ if count > 1 => Ok(None),
        _ => Ok(Some(0)),
    }
}

/// Writes and tells the course.
fn done(
    survey: &Survey<'_>,
    course: &Imported,
    args: &ImportArgs,
    common: &Common,
) -> anyhow::Result<ExitCode> {
    if let Some(out) = &args.out {
        let turf = Turf {
            firmness: args.firmness.clone(),
            stimp_ft: args.stimp,
        };
        let text = course.to_toml(&turf);
        // What is written must be what the program reads.
        Course::read(&Source::new(out, &text))?;
        written::write(Path::new(out), &text, args.force)?;
    }
    if common.json {
        output::print_json(&ImportDocument::new(survey, Some(course), &course.refused))?;
    } else {
        output::print(&show::course(
            course,
            args.out.as_deref(),
            output::page(common),
        ))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Tells the courses of a map that holds several. Without one named there is nothing to write.
fn several(survey: &Survey<'_>, args: &ImportArgs, common: &Common) -> anyhow::Result<ExitCode> {
    let courses = survey.courses();
    let names: Vec<String> = courses
        .iter()
        .map(|(name, count)| format!("{name} ({})", holes(*count)))
        .collect();
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    if args.out.is_some() {
        let usage = Usage {
            message: format!(
                "this map holds {} courses: {}",
                courses.len(),
                listed(&names, "and").replace('`', "")
            ),
            hint: "say which with `--course`, by its name or its number in this list".to_owned(),
        };
        if common.json {
            output::print_json(&ImportDocument::new(survey, None, survey.refused()))?;
        }
        return Err(usage.into());
    }
    if common.json {
        output::print_json(&ImportDocument::new(survey, None, survey.refused()))?;
    } else {
        output::print(&show::courses(
            &courses,
            survey.refused(),
            output::page(common),
        ))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Nothing can be played: the input is at fault, and what was found is told all the same.
fn nothing(
    survey: &Survey<'_>,
    refused: &[Refused],
    args: &ImportArgs,
    common: &Common,
) -> anyhow::Result<ExitCode> {
    if common.json {
        output::print_json(&ImportDocument::new(survey, None, refused))?;
    }
    output::print_usage(&Usage {
        message: format!(
            "{}: no hole of this map can be played; nothing is written",
            args.map
        ),
        hint: show::why_nothing(refused),
    });
    Ok(ExitCode::from(INPUT_AT_FAULT))
}

/// A fault of the flags.
fn usage(error: &ImportError) -> Usage {
    let hint = match error {
        ImportError::Nothing(refused) => show::why_nothing(refused),
        ImportError::NoSuchCourse(_, Some(meant)) => format!("did you mean `{meant}`?"),
        ImportError::NoSuchCourse(_, None) => {
            "`costcard import MAP` lists the courses of a map".to_owned()
        }
        ImportError::NoSuchTees(_, known) if known.is_empty() => {
            "it tells no colours: leave `--tees` out".to_owned()
        }
        ImportError::NoSuchTees(_, known) => {
            let known: Vec<String> = known
                .iter()
                .map(|(colour, holes)| format!("{colour} ({holes} holes)"))
                .collect();
            format!("there are {}", known.join(", "))
        }
    };
    Usage {
        message: error.to_string(),
        hint,
    }
}
