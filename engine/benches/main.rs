//! Speed of the engine: `cargo bench`. With `COSTCARD_TABLES=FOLDER` it measures nothing by itself, but writes the tables
//! that rounds read into that folder, for `rounds.py` to play by.

mod cards;
mod flights;
mod rounds;
mod tables;

use criterion::{Criterion, criterion_group};

criterion_group!(
    speed,
    flights::flights,
    flights::runs,
    flights::bags,
    flights::putts,
    rounds::holes,
    cards::whole_rank,
    cards::tries
);

fn main() {
    if let Some(folder) = std::env::var_os("COSTCARD_TABLES") {
        if let Err(error) = tables::write(folder.as_ref()) {
            println!("{error}");
        }
        return;
    }
    speed();
    Criterion::default().configure_from_args().final_summary();
}
