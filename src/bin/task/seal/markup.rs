//! What the page's markup says about scripts, styles and the policy.

use std::cell::RefCell;

use lol_html::html_content::Element;
use lol_html::{RewriteStrSettings, element, rewrite_str, text};

const POLICY: &str = r#"meta[http-equiv="Content-Security-Policy"]"#;

/// The texts of the inline scripts and styles, as a browser hashes them.
#[derive(Default)]
pub struct Inline {
    pub scripts: Vec<String>,
    pub styles: Vec<String>,
}

/// # Errors
///
/// When the page has what a strict policy forbids, or no place for the policy before all that it has to let through.
pub fn inline(html: &str) -> Result<Inline, String> {
    let found = RefCell::new(Inline::default());
    let guarded = RefCell::new(false);
    // A browser reads every line end as one character.
    let html = html.replace("\r\n", "\n");
    let settings = RewriteStrSettings::new()
        .append_element_content_handler(element!("*", |element| check(element, &guarded)))
        .append_element_content_handler(element!("script:not([src])", |_| {
            found.borrow_mut().scripts.push(String::new());
            Ok(())
        }))
        .append_element_content_handler(text!("script:not([src])", |chunk| {
            add(&mut found.borrow_mut().scripts, chunk.as_str());
            Ok(())
        }))
        .append_element_content_handler(element!("style", |_| {
            found.borrow_mut().styles.push(String::new());
            Ok(())
        }))
        .append_element_content_handler(text!("style", |chunk| {
            add(&mut found.borrow_mut().styles, chunk.as_str());
            Ok(())
        }));
    rewrite_str(&html, settings).map_err(|cause| cause.to_string())?;
    Ok(found.into_inner())
}

/// A text may come in several pieces.
fn add(texts: &mut [String], piece: &str) {
    if let Some(text) = texts.last_mut() {
        text.push_str(piece);
    }
}

fn check(element: &Element<'_, '_>, guarded: &RefCell<bool>) -> Result<(), Box<dyn std::error::Error + Send + Sync>> {
    let name = element.tag_name();
    let refused = element
        .attributes()
        .iter()
        .map(lol_html::html_content::Attribute::name)
        .find(|attribute| attribute == "style" || attribute.starts_with("on"));
    if let Some(attribute) = refused {
        return Err(format!("the policy forbids the attribute {attribute} of <{name}>").into());
    }
    if name == "meta" && element.get_attribute("http-equiv").as_deref() == Some("Content-Security-Policy") {
        guarded.replace(true);
    }
    if ["script", "style", "link", "body"].contains(&name.as_str()) && !*guarded.borrow() {
        return Err(format!("<{name}> comes before the policy").into());
    }
    Ok(())
}

/// The page with `policy` in its place.
///
/// # Errors
///
/// When the page cannot be read as markup.
pub fn with_policy(html: &str, policy: &str) -> Result<String, String> {
    let settings =
        RewriteStrSettings::new().append_element_content_handler(element!(POLICY, |meta| Ok(meta.set_attribute("content", policy)?)));
    rewrite_str(html, settings).map_err(|cause| cause.to_string())
}

/// The policy that stands in the page; `None` when there is none, or an empty one.
pub fn policy_of(html: &str) -> Option<String> {
    let policy = RefCell::new(None);
    let settings = RewriteStrSettings::new().append_element_content_handler(element!(POLICY, |meta| {
        policy.replace(meta.get_attribute("content"));
        Ok(())
    }));
    rewrite_str(html, settings).ok()?;
    policy.into_inner().filter(|policy| !policy.is_empty())
}
