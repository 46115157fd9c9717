//! What the calculation's own text says: its constants, and the numbers that stand in its functions.

use proc_macro2::{LineColumn, Span, TokenStream, TokenTree};
use syn::spanned::Spanned;
use syn::visit::{self, Visit};
use syn::{Attribute, Expr, ItemConst, ItemFn, ItemImpl, ItemMod, ItemStatic, ItemStruct, Lit, Type};

use super::statement::{Reference, Statement, Status, says_exact};

/// A constant, or a function with numbers in it.
#[derive(Debug)]
pub struct Place {
    /// As the code calls it: `SOLAR_CONSTANT`, `Cover::transmission`.
    pub name: String,
    pub is_function: bool,
    /// The numbers: the value of a constant, or those in a function, once each.
    pub numbers: String,
    pub statement: Statement,
    pub line: usize,
}

/// Everything in one file that holds a number, in the order of the text.
#[derive(Debug)]
pub struct Reading {
    pub places: Vec<Place>,
    /// Constants without a number: names, words, lists.
    pub wordless: usize,
}

/// Whole numbers in functions are looked at where they may speak of the world; in a stored form they are its own.
///
/// # Errors
///
/// When it is no Rust.
pub fn read(text: &str, counts_whole: bool) -> syn::Result<Reading> {
    let file = syn::parse_file(text)?;
    let mut reader = Reader {
        lines: text.lines().collect(),
        owner: Vec::new(),
        places: Vec::new(),
        wordless: 0,
        counts_whole,
    };
    reader.visit_file(&file);
    let Reader { mut places, wordless, .. } = reader;
    places.sort_by_key(|place| place.line);
    lean(&mut places);
    Ok(Reading { places, wordless })
}

/// Gives each place what it takes over from another: from the one before it, or from one that it names.
fn lean(places: &mut [Place]) {
    for at in 0..places.len() {
        let on = match &places[at].statement.refers {
            None => continue,
            Some(Reference::Before) => at.checked_sub(1),
            Some(Reference::To(name)) => places.iter().position(|place| place.name.rsplit("::").next() == Some(name)),
        };
        if let Some(other) = on.and_then(|on| places.get(on)).map(|place| place.statement.clone()) {
            places[at].statement.lean_on(&other);
        }
    }
}

struct Reader<'a> {
    lines: Vec<&'a str>,
    /// The types whose `impl` is being read.
    owner: Vec<String>,
    places: Vec<Place>,
    wordless: usize,
    counts_whole: bool,
}

impl Reader<'_> {
    fn name(&self, name: &syn::Ident) -> String {
        self.owner
            .last()
            .map_or_else(|| name.to_string(), |owner| format!("{owner}::{name}"))
    }

    /// The text of a span, on one line.
    fn text(&self, span: Span) -> String {
        let (start, end): (LineColumn, LineColumn) = (span.start(), span.end());
        let lines = self.lines.iter().enumerate().skip(start.line - 1).take(end.line + 1 - start.line);
        let mut words = Vec::new();
        for (at, line) in lines {
            let signs = line.chars().collect::<Vec<_>>();
            let from = if at + 1 == start.line { start.column } else { 0 };
            let until = if at + 1 == end.line { end.column } else { signs.len() };
            let part: String = signs[from..until].iter().collect();
            words.extend(part.split("//").next().unwrap_or("").split_whitespace().map(str::to_string));
        }
        words.join(" ")
    }

    /// What is said of an item: the comment above it, then the plain comments in it.
    fn statement(&self, attributes: &[Attribute], span: Span) -> Statement {
        let above = documented(attributes);
        let inside: Vec<String> = self.lines[span.start().line - 1..span.end().line]
            .iter()
            .filter_map(|line| {
                let comment = line
                    .trim_start()
                    .strip_prefix("//")
                    .or_else(|| line.split_once(" // ").map(|(_, comment)| comment))?;
                (!comment.starts_with('/')).then(|| comment.trim().to_string())
            })
            .collect();
        Statement::of(&above, &inside)
    }

    fn constant(&mut self, name: &syn::Ident, kind: &Type, value: &Expr, attributes: &[Attribute], span: Span) {
        let mut found = Numbers::default();
        found.visit_expr(value);
        let is_nothing = !found.literals.is_empty() && found.literals.iter().all(|literal| amount(literal) == Some(0.0));
        // A byte is a sign of a text, and nought says nothing.
        let is_sign = matches!(value, Expr::Lit(literal) if matches!(literal.lit, Lit::Byte(_)));
        if is_sign || is_nothing || (found.literals.is_empty() && !is_number(kind)) {
            self.wordless += 1;
            return;
        }
        let mut statement = self.statement(attributes, span);
        if is_called(kind, &["Range"]) {
            // What can be typed: its unit stands in it.
            statement.statuses = vec![Status::Limit];
            statement.unit = unit_of_range(value).or(statement.unit).or_else(|| Some("no unit".to_string()));
        } else {
            if statement.unit.is_none() && is_called(kind, &WHOLE) {
                statement.unit = Some("count".to_string());
            }
            if statement.statuses.is_empty() && says_exact(&statement.text) {
                statement.statuses = vec![Status::Exact];
            }
        }
        self.places.push(Place {
            name: self.name(name),
            is_function: false,
            numbers: self.value(value),
            statement,
            line: name.span().start().line,
        });
    }

    /// The value of a constant: its numbers as they are written, a table with its columns named.
    fn value(&self, value: &Expr) -> String {
        match value {
            Expr::Struct(table) => {
                let fields = table.fields.iter().filter_map(|field| {
                    let shown = self.value(&field.expr);
                    let name = match &field.member {
                        syn::Member::Named(name) => name.to_string().replace('_', " "),
                        syn::Member::Unnamed(_) => String::new(),
                    };
                    (!shown.is_empty()).then(|| format!("{name} {shown}").trim().to_string())
                });
                fields.collect::<Vec<_>>().join(", ")
            }
            Expr::Lit(literal) if matches!(literal.lit, Lit::Str(_) | Lit::Bool(_)) => String::new(),
            Expr::Array(list) => self.list(list.elems.iter()),
            Expr::Tuple(list) => self.list(list.elems.iter()),
            Expr::Reference(to) => self.value(&to.expr),
            Expr::Call(call) => self.list(call.args.iter()),
            // What a row of a table does with its number is no value.
            Expr::Closure(_) => String::new(),
            Expr::Lit(_) => self.text(value.span()).replace('_', ""),
            other => self.text(other.span()),
        }
    }

    fn list<'e>(&self, values: impl Iterator<Item = &'e Expr>) -> String {
        let shown: Vec<String> = values.map(|value| self.value(value)).filter(|value| !value.is_empty()).collect();
        shown.join(", ")
    }

    fn function(&mut self, name: &syn::Ident, attributes: &[Attribute], body: &syn::Block, span: Span) {
        let mut found = Numbers::default();
        found.visit_block(body);
        let mut telling: Vec<String> = found
            .literals
            .into_iter()
            .filter(|literal| is_telling(literal, self.counts_whole))
            .collect();
        telling.dedup();
        if telling.is_empty() {
            return;
        }
        self.places.push(Place {
            name: self.name(name),
            is_function: true,
            numbers: telling.join(", "),
            statement: self.statement(attributes, span),
            line: name.span().start().line,
        });
    }
}

impl<'ast> Visit<'ast> for Reader<'_> {
    fn visit_item_mod(&mut self, item: &'ast ItemMod) {
        if !is_for_tests(&item.attrs) {
            visit::visit_item_mod(self, item);
        }
    }

    fn visit_item_impl(&mut self, item: &'ast ItemImpl) {
        self.owner.push(self.text(item.self_ty.span()));
        visit::visit_item_impl(self, item);
        self.owner.pop();
    }

    fn visit_item_struct(&mut self, _: &'ast ItemStruct) {}

    fn visit_item_const(&mut self, item: &'ast ItemConst) {
        self.constant(&item.ident, &item.ty, &item.expr, &item.attrs, item.span());
    }

    fn visit_item_static(&mut self, item: &'ast ItemStatic) {
        self.constant(&item.ident, &item.ty, &item.expr, &item.attrs, item.span());
    }

    fn visit_impl_item_const(&mut self, item: &'ast syn::ImplItemConst) {
        self.constant(&item.ident, &item.ty, &item.expr, &item.attrs, item.span());
    }

    fn visit_item_fn(&mut self, item: &'ast ItemFn) {
        self.function(&item.sig.ident, &item.attrs, &item.block, item.span());
        visit::visit_item_fn(self, item);
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        self.function(&item.sig.ident, &item.attrs, &item.block, item.span());
        visit::visit_impl_item_fn(self, item);
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        if let Some(body) = &item.default {
            self.function(&item.sig.ident, &item.attrs, body, item.span());
        }
        visit::visit_trait_item_fn(self, item);
    }
}

/// The number literals of an expression, constants inside it apart.
#[derive(Default)]
struct Numbers {
    literals: Vec<String>,
}

impl<'ast> Visit<'ast> for Numbers {
    fn visit_lit(&mut self, literal: &'ast Lit) {
        match literal {
            Lit::Float(number) => self.literals.push(number.to_string()),
            Lit::Int(number) => self.literals.push(number.to_string()),
            _ => {}
        }
    }

    // A constant in a function is one of its own.
    fn visit_item_const(&mut self, _: &'ast ItemConst) {}

    fn visit_item_fn(&mut self, _: &'ast ItemFn) {}

    // How long a list is and which of it is meant say nothing of the world.
    fn visit_type(&mut self, _: &'ast Type) {}

    fn visit_expr_repeat(&mut self, list: &'ast syn::ExprRepeat) {
        self.visit_expr(&list.expr);
    }

    fn visit_macro(&mut self, call: &'ast syn::Macro) {
        self.of_tokens(call.tokens.clone());
    }
}

impl Numbers {
    fn of_tokens(&mut self, tokens: TokenStream) {
        for token in tokens {
            match token {
                TokenTree::Group(group) => self.of_tokens(group.stream()),
                TokenTree::Literal(literal) => {
                    if let Lit::Float(number) = Lit::new(literal) {
                        self.literals.push(number.to_string());
                    }
                }
                _ => {}
            }
        }
    }
}

/// Numbers that any sum may hold without saying anything of the world: none, one, two, a half, and powers of ten.
const SILENT: [f64; 8] = [0.0, 0.5, 1.0, 2.0, 10.0, 100.0, 1000.0, 1e6];
/// A whole three is, almost always, a number of decimals.
const SILENT_WHOLE: f64 = 3.0;

/// Whether a number in a function has a meaning that needs a source.
fn is_telling(literal: &str, counts_whole: bool) -> bool {
    let is_whole = !literal.contains(['.', 'e']);
    amount(literal).is_some_and(|number| !SILENT.contains(&number) && !(is_whole && (!counts_whole || number <= SILENT_WHOLE)))
}

fn amount(literal: &str) -> Option<f64> {
    literal.replace('_', "").parse().ok()
}

/// The types that count.
const WHOLE: [&str; 10] = ["u8", "u16", "u32", "u64", "usize", "i8", "i16", "i32", "i64", "isize"];

fn is_number(kind: &Type) -> bool {
    is_called(kind, &["f64"]) || is_called(kind, &WHOLE)
}

fn is_called(kind: &Type, names: &[&str]) -> bool {
    let Type::Path(path) = kind else { return false };
    path.path
        .segments
        .last()
        .is_some_and(|last| names.iter().any(|name| last.ident == name))
}

/// The words after a number that a `Range` holds, if any.
fn unit_of_range(value: &Expr) -> Option<String> {
    let Expr::Struct(range) = value else { return None };
    let field = range
        .fields
        .iter()
        .find(|field| matches!(&field.member, syn::Member::Named(name) if name == "unit"))?;
    let Expr::Lit(literal) = &field.expr else { return None };
    let Lit::Str(unit) = &literal.lit else { return None };
    let unit = unit.value();
    (!unit.is_empty()).then(|| unit.trim().to_string())
}

fn is_for_tests(attributes: &[Attribute]) -> bool {
    attributes.iter().any(|attribute| {
        attribute.path().is_ident("cfg") && attribute.parse_args::<syn::Ident>().is_ok_and(|condition| condition == "test")
    })
}

/// The text of an item's documentation, on one line.
pub fn documented(attributes: &[Attribute]) -> String {
    let lines = attributes.iter().filter_map(|attribute| {
        let syn::Meta::NameValue(pair) = &attribute.meta else { return None };
        if !pair.path.is_ident("doc") {
            return None;
        }
        let Expr::Lit(literal) = &pair.value else { return None };
        let Lit::Str(text) = &literal.lit else { return None };
        Some(text.value().trim().to_string())
    });
    lines.collect::<Vec<_>>().join(" ").trim().to_string()
}

#[cfg(test)]
mod tests {
    use super::super::statement::Status;
    use super::{Reading, read};

    fn reading(text: &str) -> Reading {
        read(text, true).unwrap()
    }

    #[test]
    fn a_constant_has_its_numbers_unit_and_status() {
        let read = reading("/// Night below which fruit sets poorly, °C\n/// (from memory).\npub(super) const COLD_NIGHT: f64 = 1_3.5;");
        let [place] = read.places.as_slice() else { panic!("{read:?}") };
        assert_eq!((place.name.as_str(), place.numbers.as_str(), place.line), ("COLD_NIGHT", "13.5", 3));
        assert_eq!(place.statement.unit.as_deref(), Some("°C"));
        assert_eq!(place.statement.statuses, [Status::Memory]);
    }

    #[test]
    fn what_says_the_same_leans_on_the_one_before_and_what_names_another_on_that() {
        let read = reading(
            "/// Mean, °C. A table (read).\nconst A: f64 = 1.5;\n/// The same of the night.\nconst B: f64 = 2.5;\n\
             /// Days (choice).\nconst C: f64 = 3.5;\n/// See [`A`].\nconst D: f64 = 4.5;",
        );
        let of = |at: usize| (&read.places[at].statement.statuses, read.places[at].statement.unit.as_deref());
        assert_eq!(of(1), (&vec![Status::Read], Some("°C")));
        assert_eq!(of(3), (&vec![Status::Read], Some("°C")));
    }

    #[test]
    fn words_lists_noughts_tests_and_signs_are_no_numbers() {
        let read = reading(
            "const WORD: &str = \"a 7\"; const ALL: [u8; 2] = [A, B]; const NONE: [f64; 2] = [0.0, 0.0]; const SIGN: u8 = b'7';\n\
             #[cfg(test)] mod tests { const SEVEN: f64 = 7.5; fn f() -> f64 { 7.5 } }",
        );
        assert!(read.places.is_empty(), "{read:?}");
        assert_eq!(read.wordless, 4);
    }

    #[test]
    fn a_table_shows_the_names_of_its_columns_and_its_plain_comments_count() {
        let read = reading("/// A pest, °C.\nconst A: Life = Life {\n    lower: 8.3,\n    // Choice.\n    upper: Some(30.0),\n};");
        assert_eq!(read.places[0].numbers, "lower 8.3, upper 30.0");
        assert_eq!(read.places[0].statement.statuses, [Status::Choice]);
    }

    #[test]
    fn a_range_is_a_limit_and_holds_its_unit() {
        let read = reading("/// Rain that can be.\nconst R: Range = Range { what: \"Rain\", low: 0.0, high: 500.0, unit: \" mm\" };");
        assert_eq!(read.places[0].statement.statuses, [Status::Limit]);
        assert_eq!(read.places[0].statement.unit.as_deref(), Some("mm"));
    }

    #[test]
    fn numbers_hide_in_no_function_closure_macro_or_method() {
        let read = reading(
            "fn a() -> f64 { 0.5 * 2.0 + 1000.0 } fn b() -> f64 { (|x| x * 0.7)(1.0) } fn c() -> bool { matches!(x, y if y > 1.25) }\n\
             impl Cover { /// Share (choice).\n fn d(self) -> f64 { match self { _ => 0.65 } } fn e(day: u32) -> u32 { day * 275 + 3 } }\n\
             fn f() { const INSIDE: f64 = 4.5; }",
        );
        let found: Vec<_> = read
            .places
            .iter()
            .map(|place| (place.name.as_str(), place.numbers.as_str()))
            .collect();
        assert_eq!(
            found,
            [
                ("b", "0.7"),
                ("c", "1.25"),
                ("Cover::d", "0.65"),
                ("Cover::e", "275"),
                ("INSIDE", "4.5")
            ]
        );
        assert_eq!(read.places[2].statement.statuses, [Status::Choice]);
    }

    #[test]
    fn whole_numbers_of_a_stored_form_are_its_own() {
        assert!(read("fn a(day: u32) -> u32 { day * 372 }", false).unwrap().places.is_empty());
        assert_eq!(read("fn a() -> f64 { 0.7 }", false).unwrap().places.len(), 1);
    }
}
