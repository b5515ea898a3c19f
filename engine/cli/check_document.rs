//! What `check` found, for other programs.

use serde::Serialize;

use costcard::cost::design::CourseDocument;
use costcard::cost::rating::CourseRatings;
use costcard::files::{Fault, Faults};

use super::cards::Card;
use super::check::Checked;
use super::kind::Kind;
use super::try_script::LandingDocument;

/// The faults as other programs read them.
#[derive(Debug, Serialize)]
pub struct CheckDocument<'a> {
    files: Vec<FileDocument<'a>>,
    /// Those of the script, where it is the one file.
    #[serde(skip_serializing_if = "Option::is_none")]
    landings: Option<Vec<LandingDocument>>,
    /// The card of the course, where it is the one file.
    #[serde(flatten)]
    course: Option<CourseDocument>,
}

#[derive(Debug, Serialize)]
struct FileDocument<'a> {
    file: &'a str,
    kind: Option<&'static str>,
    faults: Vec<FaultDocument<'a>>,
    /// How many there are beyond those listed, in this file and those it names.
    #[serde(skip_serializing_if = "Option::is_none")]
    more_faults: Option<usize>,
    /// Of a course.
    #[serde(skip_serializing_if = "Option::is_none")]
    ratings: Option<CourseRatings>,
    /// Of a course.
    #[serde(flatten)]
    course: Option<CourseDocument>,
    /// Of a script that says how a ball runs on a green.
    #[serde(skip_serializing_if = "Option::is_none")]
    landings: Option<Vec<LandingDocument>>,
}

#[derive(Debug, Serialize)]
struct FaultDocument<'a> {
    line: Option<usize>,
    column: Option<usize>,
    message: &'a str,
    hint: Option<&'a str>,
}

impl<'a> CheckDocument<'a> {
    /// What was found in each file; courses have a card where all files are sound.
    pub fn new(checked: &'a [Checked<'a>], cards: &[Option<Card>]) -> Self {
        let mut files = Vec::new();
        for (one, card) in checked.iter().zip(cards) {
            let found = one.result.as_ref().err();
            let list = found.map_or(&[][..], Faults::list);
            let (own, of_others): (Vec<&Fault>, Vec<&Fault>) = list
                .iter()
                .partition(|fault| *fault.source.name == *one.file);
            files.push(FileDocument {
                file: one.file,
                kind: one.kind,
                faults: own.into_iter().map(FaultDocument::from).collect(),
                more_faults: found.map(Faults::more).filter(|more| *more > 0),
                ratings: card.as_ref().map(|card| card.ratings),
                course: of_course(one, card.as_ref()),
                landings: one.landings(),
            });
            // What is wrong in a player's sheet, or a course's script, stands under that file's own name.
            for faults in of_others.chunk_by(|a, b| a.source.name == b.source.name) {
                files.push(FileDocument {
                    file: &faults[0].source.name,
                    kind: Kind::of(&faults[0].source).map(Kind::name),
                    faults: faults.iter().copied().map(FaultDocument::from).collect(),
                    more_faults: None,
                    ratings: None,
                    course: None,
                    landings: None,
                });
            }
        }
        let (landings, course) = match (checked, cards) {
            ([only], [card]) => (only.landings(), of_course(only, card.as_ref())),
            _ => (None, None),
        };
        Self {
            files,
            landings,
            course,
        }
    }
}

impl<'a> From<&'a Fault> for FaultDocument<'a> {
    fn from(fault: &'a Fault) -> Self {
        let place = fault
            .span
            .as_ref()
            .map(|span| fault.source.position(span.start));
        Self {
            line: place.map(|place| place.line),
            column: place.map(|place| place.column),
            message: &fault.message,
            hint: fault.hint.as_deref(),
        }
    }
}

/// The card of a checked course.
fn of_course(one: &Checked<'_>, card: Option<&Card>) -> Option<CourseDocument> {
    let (course, _) = one.course()?;
    let card = card?;
    let rating = card.rating();
    Some(CourseDocument::new(course, rating, &card.design))
}
