//! The course: its file, its holes, its grids.

#![allow(clippy::expect_used)] // a test may stop

mod day;
mod demo;
mod distances;
mod file;
mod grid;
mod tees;

use costcard::{
    course::{Course, Hole, Lie, LieGrid},
    files::Source,
};

/// The course of a text.
fn course(text: &str) -> Course {
    match Course::read(&Source::new("sample.toml", text)) {
        Ok(course) => course,
        Err(faults) => panic!("{faults}"),
    }
}

/// The only hole of a course of one hole, told by its keys.
fn hole(keys: &str) -> Hole {
    let mut course = course(&format!("name = 'One'\n[[holes]]\n{keys}"));
    course.holes.remove(0)
}

/// How many cells, each a square yard, have a lie.
fn cells(grid: &LieGrid, lie: Lie) -> usize {
    grid.lies.iter().filter(|cell| **cell == lie).count()
}

/// A grid drawn with a letter for every `step`th cell, the green at the top.
fn drawn(grid: &LieGrid, step: usize) -> String {
    let letter = |lie: &Lie| match lie {
        Lie::Tee => 'T',
        Lie::Fairway => '-',
        Lie::Rough => ',',
        Lie::Sand => 's',
        Lie::Trees => '^',
        Lie::Green => 'o',
        Lie::Water => '~',
        Lie::OutOfBounds => '#',
    };
    let rows = grid.lies.chunks(grid.columns).step_by(step);
    let lines: Vec<String> = rows
        .map(|row| row.iter().step_by(step).map(letter).collect())
        .collect();
    lines.into_iter().rev().collect::<Vec<_>>().join("\n")
}
