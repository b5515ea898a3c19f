//! What changes of a player are worth on a course.

mod ready;

pub use ready::{Accuracy, Ready, ready};
