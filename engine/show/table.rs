//! One look for every table: words to the left, figures to the right, a rule under the heading.

pub use super::reading::number;
use comfy_table::{CellAlignment, ContentArrangement, Table};
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

/// The table's text, without the blanks at the ends of lines.
pub fn text(table: &Table) -> String {
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
