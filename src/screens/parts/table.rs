//! A table of few columns.

use super::{Element, element};

/// A table whose first column says what each row is about.
pub struct Table {
    /// What it holds.
    pub caption: &'static str,
    /// What stands over the columns.
    pub heads: &'static [&'static str],
    /// The rows, as many words in each as there are columns.
    pub rows: Vec<Vec<String>>,
}

impl Table {
    /// The table.
    #[must_use]
    pub fn view(self) -> Element {
        let heads = self.heads.iter().map(|head| element("th").set("scope", "col").text(*head));
        let head = element("thead").child(element("tr").children(heads));
        let rows = self.rows.into_iter().map(|row| {
            let cells = row.into_iter().enumerate().map(|(column, words)| {
                let cell = if column == 0 {
                    element("th").set("scope", "row")
                } else {
                    element("td")
                };
                cell.text(words)
            });
            element("tr").children(cells)
        });
        element("table")
            .child(element("caption").text(self.caption))
            .child(head)
            .child(element("tbody").children(rows))
    }
}
