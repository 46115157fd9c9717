//! Every check that runs both natively and in a browser.
