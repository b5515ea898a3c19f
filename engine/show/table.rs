//! One look for every table: words to the left, figures to the right, a rule under the heading.

use super::page::Page;
pub use super::reading::number;
use comfy_table::{Cell, CellAlignment, ColumnConstraint, ContentArrangement, Row, Table};
use comfy_table::{ContentLineStyle, LineStyle, TableStyle};

const STYLE: TableStyle = TableStyle::new()
    .header_lines(ContentLineStyle::none().junction(' '))
    .header_separator(LineStyle::none().fill('─').junction('─'))
    .content_lines(ContentLineStyle::none().junction(' '));

/// A table with these headings, which may be of two lines; the first `words` columns hold words, the rest figures.
pub fn table<'a>(headings: impl IntoIterator<Item = &'a str>, words: usize) -> Table {
    let mut table = Table::new();
    table.load_style(STYLE);
    table.set_content_arrangement(ContentArrangement::Disabled);
    table.set_header(headings);
    for (index, column) in table.column_iter_mut().enumerate() {
        column.set_padding((u16::from(index > 0), 0));
        if index >= words {
            column.set_cell_alignment(CellAlignment::Right);
        }
    }
    table
}

/// The table's text. Where the page is too narrow for it, the columns without room stand in tables of their own below,
/// each of which begins with the first column again.
pub fn text(table: &Table, page: Page) -> String {
    folded(table, 1, page)
}

/// The same where it takes the first `kept` columns to tell rows apart.
pub fn folded(table: &Table, kept: usize, page: Page) -> String {
    let folds = folds(table, kept, page.width);
    if folds.len() == 1 {
        return of_columns(table, &folds[0]).join("");
    }
    let tables: Vec<String> = folds
        .iter()
        .map(|columns| filled(table, of_columns(table, columns), kept, columns).join(""))
        .collect();
    tables.join("\n")
}

/// Between columns: what joins them, and the blank before a column.
const GAP: usize = 2;

/// Which columns stand beside each other on a page of this width.
fn folds(table: &Table, kept: usize, width: usize) -> Vec<Vec<usize>> {
    let widths: Vec<usize> = table
        .column_max_content_widths()
        .into_iter()
        .map(usize::from)
        .collect();
    let kept = kept.min(widths.len());
    let names: usize = widths[..kept].iter().sum::<usize>() + GAP * kept.saturating_sub(1);
    let mut folds: Vec<Vec<usize>> = vec![(0..kept).collect()];
    let mut used = names;
    for (index, column) in widths.iter().enumerate().skip(kept) {
        let is_first = folds.last().is_some_and(|fold| fold.len() == kept);
        if used + GAP + column > width && !is_first {
            folds.push((0..kept).collect());
            used = names;
        }
        if let Some(fold) = folds.last_mut() {
            fold.push(index);
        }
        used += GAP + column;
    }
    folds
}

/// Lines of some columns without those of rows that have nothing there.
fn filled(table: &Table, mut lines: Vec<String>, kept: usize, columns: &[usize]) -> Vec<String> {
    let head = lines.len().saturating_sub(table.row_count());
    let says = |row: &Row| {
        let cells: Vec<String> = row.cell_iter().map(Cell::content).collect();
        columns
            .iter()
            .skip(kept)
            .any(|at| cells.get(*at).is_some_and(|cell| !cell.is_empty()))
    };
    let mut says_all = std::iter::repeat_n(true, head).chain(table.row_iter().map(says));
    lines.retain(|_| says_all.next().unwrap_or(true));
    lines
}

/// The lines of some columns, without the blanks at their ends.
fn of_columns(table: &Table, shown: &[usize]) -> Vec<String> {
    let mut table = table.clone();
    for (index, column) in table.column_iter_mut().enumerate() {
        if !shown.contains(&index) {
            column.set_constraint(ColumnConstraint::Hidden);
        }
    }
    table
        .to_string()
        .lines()
        .map(|line| format!("{}\n", line.trim_end()))
        .collect()
}

/// A share that may not exist.
pub fn pct(share: Option<f64>) -> String {
    share.map_or_else(|| "–".into(), |share| format!("{share:.0} %"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::reading::Reading;

    fn shown(columns: usize) -> String {
        let mut rows = table(["part of\nthe game", "would\nsave", "shots\na round"], 1);
        rows.add_row(["long approach", "1.8", "2.8"]);
        rows.add_row(["putting", "0.4", "34.2"]);
        text(&rows, Page::new(Reading::Yards, columns))
    }

    #[test]
    fn a_table_that_has_room_stands_in_one_piece() {
        let whole = "\
part of        would    shots
the game        save  a round
─────────────────────────────
long approach    1.8      2.8
putting          0.4     34.2
";
        assert_eq!(shown(80), whole);
        assert_eq!(shown(30), whole);
    }

    #[test]
    fn columns_without_room_stand_below_with_their_names() {
        let mut rows = table(["part", "expected strokes", "shots a round"], 1);
        rows.add_row(["long approach", "1.8", "2.8"]);
        rows.add_row(["all together", "3.7"]);
        let folded = "\
part           expected strokes
───────────────────────────────
long approach               1.8
all together                3.7

part           shots a round
────────────────────────────
long approach            2.8
";
        assert_eq!(text(&rows, Page::new(Reading::Yards, 40)), folded);
    }

    #[test]
    fn a_column_wider_than_the_page_runs_over_rather_than_being_cut() {
        let mut rows = table(["change", "saved"], 1);
        rows.add_row(["5 to 7 iron dynamic_loft +4 and more", "0.55"]);
        let shown = text(&rows, Page::new(Reading::Yards, 30));
        assert!(shown.contains("and more   0.55\n"), "{shown}");
    }
}
