//! What people read: tables, sentences and pictures. Nothing here computes a figure.
//!
//! ```
//! use costcard::show::{page::Page, reading::Reading};
//!
//! let page = Page::new(Reading::Yards, 40);
//! let text = page.paragraph("Work on your long approach shots first: that would save 1.8 strokes a round.");
//! assert_eq!(text.lines().next(), Some("Work on your long approach shots first:"));
//! ```

#[cfg(feature = "program")]
pub mod card;
#[cfg(feature = "program")]
pub mod changes;
#[cfg(feature = "program")]
pub mod clubs;
#[cfg(feature = "program")]
pub mod compare;
#[cfg(feature = "program")]
pub mod course;
#[cfg(feature = "program")]
pub mod decisions;
#[cfg(feature = "program")]
pub mod desk;
pub mod draw;
#[cfg(feature = "program")]
pub mod figures;
#[cfg(feature = "program")]
pub mod fit;
#[cfg(feature = "program")]
pub mod flight;
#[cfg(feature = "program")]
pub mod goal;
#[cfg(feature = "program")]
pub mod handicap;
#[cfg(feature = "program")]
pub mod import;
#[cfg(feature = "program")]
pub mod inference;
#[cfg(feature = "program")]
pub mod intake;
pub mod page;
pub mod reading;
#[cfg(feature = "program")]
pub mod report;
#[cfg(feature = "program")]
pub mod script;
#[cfg(feature = "program")]
mod start;
#[cfg(feature = "program")]
pub mod study;
#[cfg(feature = "program")]
mod sure;
#[cfg(feature = "program")]
mod table;
#[cfg(feature = "program")]
mod worth;
