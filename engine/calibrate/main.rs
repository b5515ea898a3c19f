//! Fits the constants that stand in the engine, from published figures, and prints them with what is left over:
//! `cargo run --release --example calibrate flight`, `… impact` or `… putting`; `… levels` makes the level tables, `… residuals`
//! what is left over of them, `… shots` the strikes of the demo players, `… bay` the demo batches.
//! Each fit leaves out rows for the tests.

mod bay;
mod flight;
mod impact;
mod landing;
mod level_file;
mod levels;
mod nelder_mead;
mod neutral;
mod putting;
mod residuals;
mod shots;
mod tour_clubs;

use std::process::ExitCode;

fn main() -> ExitCode {
    let asked = std::env::args().nth(1);
    let done = match asked.as_deref() {
        Some("flight") => flight::fit(),
        Some("impact") => impact::fit(),
        Some("putting") => putting::fit(),
        Some("levels") => levels::make(&std::env::args().skip(2).collect::<Vec<_>>()),
        Some("residuals") => residuals::write(),
        Some("shots") => shots::make(),
        Some("bay") => bay::make(),
        _ => Err("say which: flight, impact, putting, levels, residuals, shots or bay".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("calibrate: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Rows of a published table, without its comment lines.
fn table(name: &str) -> Result<Vec<csv::StringRecord>, csv::Error> {
    let path = format!("{}/tests/published/data/{name}", env!("CARGO_MANIFEST_DIR"));
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)?
        .into_records()
        .collect()
}
