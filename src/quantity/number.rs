use std::fmt;

/// Characters of typed text that are read; more is refused (limit). A number of so many digits is still a whole `u64`.
const LONGEST: usize = 16;

/// Why typed text is not a number. Each prints as a sentence that quotes what was typed and says what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NumberError {
    /// Something other than digits, one decimal mark or a fraction stands there.
    NotANumber {
        /// What was typed.
        text: String,
    },
    /// A sign or a decimal mark stands alone: more is about to be typed.
    Unfinished {
        /// What was typed.
        text: String,
    },
    /// A comma before exactly three digits: a decimal comma or a thousands comma.
    Ambiguous {
        /// What was typed.
        text: String,
        /// Read as a decimal comma.
        as_decimal: String,
        /// Read as a thousands comma.
        as_thousands: String,
    },
}

impl fmt::Display for NumberError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotANumber { text } if is_range(text) => write!(f, "“{text}” is two numbers: type one of them."),
            Self::NotANumber { text } => write!(f, "“{text}” is not a number: use digits, such as 2, 1.5 or 1½."),
            Self::Unfinished { text } => write!(f, "“{text}” needs a digit."),
            Self::Ambiguous {
                text,
                as_decimal,
                as_thousands,
            } => {
                write!(f, "“{text}” could be {as_decimal} or {as_thousands}: type one of those.")
            }
        }
    }
}

impl std::error::Error for NumberError {}

/// Reads a number as people type one: `1.5`, `1,5`, `1½`, `1 1/2`, `½`, `−3`, with spaces around. Nothing but spaces is `None`.
///
/// Both `,` and `.` are a decimal mark and a trailing one is forgiven, since more may be coming. Exponents, units and
/// thousands marks are refused, never guessed.
///
/// # Errors
/// [`NumberError`], whose text is a sentence for the grower.
pub fn parse_number(typed: &str) -> Result<Option<f64>, NumberError> {
    let text = typed.trim();
    if text.is_empty() {
        return Ok(None);
    }
    let not_a_number = || NumberError::NotANumber { text: shortened(text) };
    if text.chars().count() > LONGEST {
        return Err(not_a_number());
    }
    let (minus, unsigned) = match text.chars().next() {
        Some('-' | '−' | '–') => ("-", after_first(text)),
        Some('+') => ("", after_first(text)),
        _ => ("", text),
    };
    if unsigned.is_empty() || unsigned == "." || unsigned == "," {
        return Err(NumberError::Unfinished { text: shortened(text) });
    }
    if let Some((whole, thousandths)) = unsigned.split_once(',')
        && thousandths.len() == 3
        && (1..=3).contains(&whole.len())
        && !whole.starts_with('0')
        && is_digits(whole)
        && is_digits(thousandths)
    {
        return Err(NumberError::Ambiguous {
            text: shortened(text),
            as_decimal: format!("{minus}{whole}.{thousandths}"),
            as_thousands: format!("{minus}{whole}{thousandths}"),
        });
    }
    let value = decimal_number(unsigned)
        .or_else(|| mixed_fraction(unsigned))
        .ok_or_else(not_a_number)?;
    Ok(Some(if minus.is_empty() { value } else { -value }))
}

/// Whether two numbers stand there with a dash between them, as labels have it.
fn is_range(text: &str) -> bool {
    let is_number = |part: &str| decimal_number(part.trim()).is_some();
    let parts = text.split_once(['-', '–', '−']);
    parts.is_some_and(|(low, high)| is_number(low) && is_number(high))
}

/// Digits with at most one decimal mark.
fn decimal_number(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once(['.', ',']).unwrap_or((text, ""));
    let unit = part.bytes().fold(1.0, |unit, _| unit * 10.0);
    Some(whole_number(&(whole.to_owned() + part))? / unit)
}

/// A fraction, alone or after a whole number.
fn mixed_fraction(text: &str) -> Option<f64> {
    if let Some(fraction) = text.chars().last().and_then(written_fraction) {
        let whole = text.get(..text.len() - text.chars().last()?.len_utf8())?.trim_end();
        return Some(if whole.is_empty() { 0.0 } else { whole_number(whole)? } + fraction);
    }
    let (before, denominator) = text.split_once(['/', '⁄'])?;
    let (whole, numerator) = before.rsplit_once(' ').unwrap_or(("0", before));
    let denominator = whole_number(denominator)?;
    (denominator > 0.0).then_some(())?;
    Some(whole_number(whole.trim())? + whole_number(numerator)? / denominator)
}

/// Digits as a number: exact up to 2⁵³, and the nearest beyond.
#[expect(clippy::cast_precision_loss, reason = "the nearest is what is wanted")]
fn whole_number(text: &str) -> Option<f64> {
    if is_digits(text) {
        text.parse::<u64>().ok().map(|number| number as f64)
    } else {
        None
    }
}

/// The value of a fraction that is one sign (exact).
fn written_fraction(character: char) -> Option<f64> {
    let (numerator, denominator) = match character {
        '¼' => (1.0, 4.0),
        '½' => (1.0, 2.0),
        '¾' => (3.0, 4.0),
        '⅓' => (1.0, 3.0),
        '⅔' => (2.0, 3.0),
        '⅛' => (1.0, 8.0),
        '⅜' => (3.0, 8.0),
        '⅝' => (5.0, 8.0),
        '⅞' => (7.0, 8.0),
        _ => return None,
    };
    Some(numerator / denominator)
}

fn is_digits(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit())
}

fn after_first(text: &str) -> &str {
    let mut rest = text.chars();
    rest.next();
    rest.as_str().trim_start()
}

fn shortened(text: &str) -> String {
    if text.chars().count() <= LONGEST {
        text.to_owned()
    } else {
        text.chars().take(LONGEST).chain(['…']).collect()
    }
}
