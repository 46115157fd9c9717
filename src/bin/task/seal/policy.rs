//! The content security policy of the page.

use super::digest;
use super::markup::Inline;

/// Nothing is allowed but what is named. The page compiles a program, so that must be named too.
pub fn policy(inline: &Inline) -> String {
    let scripts = hashes(&inline.scripts);
    let styles = hashes(&inline.styles);
    [
        "default-src 'none'",
        &format!("script-src 'self'{scripts} 'wasm-unsafe-eval'"),
        &format!("style-src 'self'{styles}"),
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "base-uri 'none'",
        "form-action 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types first-truss",
    ]
    .join("; ")
}

fn hashes(texts: &[String]) -> String {
    let quoted: Vec<_> = texts
        .iter()
        .map(|text| format!(" '{}'", digest::integrity(text.as_bytes())))
        .collect();
    quoted.concat()
}
