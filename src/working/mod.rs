//! (the heading comes with the code)
