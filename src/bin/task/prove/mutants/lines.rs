//! Where lines and columns are among the bytes of a text.

/// Where each line of a text begins.
pub struct Lines<'a> {
    text: &'a str,
    starts: Vec<usize>,
}

impl<'a> Lines<'a> {
    pub fn of(text: &'a str) -> Self {
        let starts = std::iter::once(0)
            .chain(text.match_indices('\n').map(|(place, _)| place + 1))
            .collect();
        Self { text, starts }
    }

    /// The byte of a line and a column, both from 1; a column counts signs.
    pub fn byte(&self, (line, column): (usize, usize)) -> usize {
        let start = self.starts.get(line.saturating_sub(1)).copied().unwrap_or(self.text.len());
        let rest = self.text.get(start..).unwrap_or("");
        start + rest.chars().take(column.saturating_sub(1)).map(char::len_utf8).sum::<usize>()
    }
}
