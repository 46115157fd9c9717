//! The only code that touches the browser. It holds no wording.
