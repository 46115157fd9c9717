//! Goes through a source and writes a switch around each place that changes.

use std::collections::{HashMap, HashSet};
use std::fmt::Write as _;
use std::ops::Range;

use syn::spanned::Spanned as _;
use syn::visit::{self, Visit};
use syn::{Arm, BinOp, Block, Expr, FieldValue, Member, Signature, UnOp};

use super::lines::Lines;
use super::list::{Change, Genre};
use super::switches::{Switched, Written};

#[derive(Clone, Copy, PartialEq, Eq, Hash)]
enum Kind {
    Body,
    Operator,
    Arm,
    Guard,
    Field,
}

impl Kind {
    fn of(genre: Genre) -> Self {
        match genre {
            Genre::Body => Self::Body,
            Genre::Binary | Genre::Unary => Self::Operator,
            Genre::Arm => Self::Arm,
            Genre::Guard => Self::Guard,
            Genre::Field => Self::Field,
        }
    }
}

/// Part of what is written in; `change` is the one that it alone is for.
struct Piece {
    text: String,
    change: Option<usize>,
}

struct Edit {
    replaced: Range<usize>,
    pieces: Vec<Piece>,
    scaffold: Option<usize>,
}

/// A source on its way to having its changes written in.
pub struct Writer<'a> {
    text: &'a str,
    by_start: HashMap<(Kind, usize), Vec<(usize, &'a Change)>>,
    constant: &'a HashSet<String>,
    /// The type whose functions are visited.
    owner: String,
    edits: Vec<Edit>,
    /// The changes of each construct that was written around something.
    scaffolds: Vec<Vec<usize>>,
    /// The first change of a place that has several, with all.
    leaders: Vec<Vec<usize>>,
    freed: Vec<(String, Vec<usize>)>,
    placed: HashSet<usize>,
    /// Changes with which the text would be no Rust.
    refused: HashSet<usize>,
    /// Within conditions of which one binds something.
    chained: bool,
}

impl<'a> Writer<'a> {
    /// Ready to go through the file of this text.
    pub fn of(text: &'a str, changes: &[(usize, &'a Change)], constant: &'a HashSet<String>) -> Self {
        let lines = Lines::of(text);
        let mut by_start: HashMap<(Kind, usize), Vec<(usize, &Change)>> = HashMap::new();
        for (number, change) in changes {
            by_start
                .entry((Kind::of(change.genre), lines.byte(change.start)))
                .or_default()
                .push((*number, change));
        }
        Self {
            text,
            by_start,
            constant,
            owner: String::new(),
            edits: Vec::new(),
            scaffolds: Vec::new(),
            leaders: Vec::new(),
            freed: Vec::new(),
            placed: HashSet::new(),
            refused: HashSet::new(),
            chained: false,
        }
    }

    fn wanted(&self, kind: Kind, start: usize) -> Vec<(usize, &'a Change)> {
        self.by_start.get(&(kind, start)).cloned().unwrap_or_default()
    }

    fn scaffold(&mut self, changes: &[(usize, &Change)]) -> usize {
        let numbers: Vec<usize> = changes.iter().map(|(number, _)| *number).collect();
        self.placed.extend(&numbers);
        self.scaffolds.push(numbers);
        self.scaffolds.len() - 1
    }

    /// A construct whose one question is for all its changes.
    fn asked_once(&mut self, changes: &[(usize, &Change)]) -> usize {
        let scaffold = self.scaffold(changes);
        self.leaders.push(self.scaffolds[scaffold].clone());
        scaffold
    }

    fn edit(&mut self, replaced: Range<usize>, pieces: Vec<Piece>, scaffold: usize) {
        self.edits.push(Edit {
            replaced,
            pieces,
            scaffold: Some(scaffold),
        });
    }

    /// `match at(1) { 1 => …, 2 => …, _ => … }`, where each `…` is what `with` makes of an operator.
    fn choice(changes: &[(usize, &Change)], original: &str, with: impl Fn(&str) -> String) -> Vec<Piece> {
        let mut pieces = vec![plain(format!("match crate::switch::at({}) {{ ", changes[0].0))];
        for (number, change) in changes {
            pieces.push(plain(format!("{number} => {{ ")));
            pieces.push(Piece {
                text: with(&change.replacement),
                change: Some(*number),
            });
            pieces.push(plain(" } "));
        }
        pieces.push(plain(format!("_ => {{ {} }} }}", with(original))));
        pieces
    }

    /// A function, with the changes of its whole body; a constant one stops being so.
    fn function(&mut self, signature: &Signature, block: &Block, visit: impl FnOnce(&mut Self)) {
        let name = match self.owner.as_str() {
            "" => signature.ident.to_string(),
            owner => format!("{owner}::{}", signature.ident),
        };
        let placed_before = self.placed.clone();
        if let Some(constant) = &signature.constness {
            if self.constant.contains(&name) {
                return;
            }
            self.edits.push(Edit {
                replaced: constant.span().byte_range(),
                pieces: vec![plain("")],
                scaffold: None,
            });
        }
        if let Some(first) = block.stmts.first() {
            let changes = self.wanted(Kind::Body, first.span().byte_range().start);
            // A function whose type is hidden has one type in all its returns.
            let hidden = self.text[signature.output.span().byte_range()].contains("impl ");
            if !changes.is_empty() && !hidden {
                let scaffold = self.asked_once(&changes);
                let mut pieces = vec![plain(format!(" match crate::switch::at({}) {{ ", changes[0].0))];
                for (number, change) in &changes {
                    pieces.push(plain(format!("{number} => {{ return ")));
                    pieces.push(Piece {
                        text: change.replacement.clone(),
                        change: Some(*number),
                    });
                    pieces.push(plain("; } "));
                }
                pieces.push(plain("_ => {} }"));
                let start = block.brace_token.span.open().byte_range().end;
                self.edit(start..start, pieces, scaffold);
            }
        }
        visit(self);
        if signature.constness.is_some() {
            let mine = self.placed.difference(&placed_before).copied().collect();
            self.freed.push((name, mine));
        }
    }

    fn binary(&mut self, binary: &syn::ExprBinary) {
        let operator = binary.op.span().byte_range();
        let changes = self.wanted(Kind::Operator, operator.start);
        if matches!(binary.op, BinOp::And(_)) && (self.chained || has_let(&binary.left) || has_let(&binary.right)) {
            // There is no `||` among conditions that bind something.
            self.refused.extend(changes.iter().map(|(number, _)| *number));
            let outer = std::mem::replace(&mut self.chained, true);
            for side in [&binary.left, &binary.right] {
                self.chained = matches!(&**side, Expr::Binary(_));
                self.visit_expr(side);
            }
            self.chained = outer;
            return;
        }
        let chained = std::mem::replace(&mut self.chained, false);
        self.plain_binary(binary, &changes);
        self.chained = chained;
    }

    fn plain_binary(&mut self, binary: &syn::ExprBinary, changes: &[(usize, &Change)]) {
        if changes.is_empty() {
            visit::visit_expr_binary(self, binary);
            return;
        }
        let whole = binary.span().byte_range();
        let operator = binary.op.span().byte_range();
        let sign = &self.text[operator.clone()];
        let scaffold = self.asked_once(changes);
        match binary.op {
            BinOp::And(_) | BinOp::Or(_) => {
                let number = changes[0].0;
                let test = if sign == "&&" { "!=" } else { "==" };
                self.edit(whole.start..whole.start, vec![plain("(match ")], scaffold);
                self.visit_expr(&binary.left);
                let middle = format!(" {{ l__ => if l__ {test} crate::switch::on({number}) {{ ");
                self.edit(operator, vec![plain(middle)], scaffold);
                self.visit_expr(&binary.right);
                self.edit(whole.end..whole.end, vec![plain(" } else { l__ } })")], scaffold);
            }
            BinOp::AddAssign(_)
            | BinOp::SubAssign(_)
            | BinOp::MulAssign(_)
            | BinOp::DivAssign(_)
            | BinOp::RemAssign(_)
            | BinOp::BitXorAssign(_)
            | BinOp::BitAndAssign(_)
            | BinOp::BitOrAssign(_)
            | BinOp::ShlAssign(_)
            | BinOp::ShrAssign(_) => {
                let left = &self.text[binary.left.span().byte_range()];
                self.edit(whole.start..operator.end, vec![plain("(match ")], scaffold);
                self.visit_expr(&binary.right);
                let mut pieces = vec![plain(" { r__ => ")];
                pieces.extend(Self::choice(changes, sign, |sign| format!("{left} {sign} r__")));
                pieces.push(plain(" })"));
                self.edit(whole.end..whole.end, pieces, scaffold);
            }
            _ => {
                let compared = matches!(
                    binary.op,
                    BinOp::Eq(_) | BinOp::Ne(_) | BinOp::Lt(_) | BinOp::Le(_) | BinOp::Gt(_) | BinOp::Ge(_)
                );
                let (first, second) = if compared { ("(match (&(", "), &(") } else { ("(match ((", "), (") };
                self.edit(whole.start..whole.start, vec![plain(first)], scaffold);
                self.visit_expr(&binary.left);
                self.edit(operator, vec![plain(second)], scaffold);
                self.visit_expr(&binary.right);
                let mut pieces = vec![plain(")) { (l__, r__) => ")];
                pieces.extend(Self::choice(changes, sign, |sign| format!("l__ {sign} r__")));
                pieces.push(plain(" })"));
                self.edit(whole.end..whole.end, pieces, scaffold);
            }
        }
    }

    /// The text with all that was written.
    pub fn assembled(self) -> Switched {
        let mut edits: Vec<(usize, Edit)> = self.edits.into_iter().enumerate().collect();
        edits.sort_by_key(|(order, edit)| (edit.replaced.start, *order));
        let mut text = String::with_capacity(self.text.len() * 2);
        let mut written = Vec::new();
        let mut around: Vec<Option<Range<usize>>> = vec![None; self.scaffolds.len()];
        let mut read = 0;
        for (_, edit) in edits {
            // What is copied as it stands, such as the left side of `+=`, is written once.
            if edit.replaced.start < read {
                continue;
            }
            text.push_str(&self.text[read..edit.replaced.start]);
            read = edit.replaced.end;
            let start = text.len();
            for piece in edit.pieces {
                let start = text.len();
                text.push_str(&piece.text);
                if let Some(change) = piece.change {
                    written.push(Written {
                        place: start..text.len(),
                        changes: vec![change],
                    });
                }
            }
            if let Some(scaffold) = edit.scaffold {
                let around = around[scaffold].get_or_insert(start..start);
                around.end = text.len();
            }
        }
        text.push_str(&self.text[read..]);
        for (place, changes) in around.into_iter().zip(self.scaffolds) {
            if let Some(place) = place {
                written.push(Written { place, changes });
            }
        }
        Switched {
            text,
            written,
            freed: self.freed,
            placed: self.placed,
            refused: self.refused,
            together: self.leaders,
        }
    }
}

fn plain(text: impl Into<String>) -> Piece {
    Piece {
        text: text.into(),
        change: None,
    }
}

/// Whether a condition binds something: `let … && …`.
fn has_let(expression: &Expr) -> bool {
    match expression {
        Expr::Let(_) => true,
        Expr::Binary(binary) if matches!(binary.op, BinOp::And(_) | BinOp::Or(_)) => has_let(&binary.left) || has_let(&binary.right),
        _ => false,
    }
}

impl<'ast> Visit<'ast> for Writer<'_> {
    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        self.function(&item.sig, &item.block, |writer| visit::visit_block(writer, &item.block));
    }

    fn visit_item_impl(&mut self, item: &'ast syn::ItemImpl) {
        let owner = match &*item.self_ty {
            syn::Type::Path(path) => path.path.segments.last().map(|segment| segment.ident.to_string()),
            _ => None,
        };
        let outer = std::mem::replace(&mut self.owner, owner.unwrap_or_default());
        visit::visit_item_impl(self, item);
        self.owner = outer;
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        self.function(&item.sig, &item.block, |writer| visit::visit_block(writer, &item.block));
    }

    fn visit_expr_binary(&mut self, binary: &'ast syn::ExprBinary) {
        self.binary(binary);
    }

    fn visit_expr_unary(&mut self, unary: &'ast syn::ExprUnary) {
        let sign = match unary.op {
            UnOp::Not(sign) => sign.span().byte_range(),
            UnOp::Neg(sign) => sign.span().byte_range(),
            _ => return visit::visit_expr_unary(self, unary),
        };
        let changes = self.wanted(Kind::Operator, sign.start);
        if changes.len() != 1 {
            return visit::visit_expr_unary(self, unary);
        }
        let scaffold = self.scaffold(&changes);
        let text = &self.text[sign.clone()];
        self.edit(sign, vec![plain("(match ")], scaffold);
        self.visit_expr(&unary.expr);
        let end = unary.span().byte_range().end;
        let mut pieces = vec![plain(" { v__ => ")];
        pieces.extend(Self::choice(&changes, text, |sign| format!("{sign}v__")));
        pieces.push(plain(" })"));
        self.edit(end..end, pieces, scaffold);
    }

    /// What the compiler says of a whole match is about the arms that can be left out.
    fn visit_expr_match(&mut self, matched: &'ast syn::ExprMatch) {
        let starts = matched.arms.iter().map(|arm| arm.span().byte_range().start);
        let left_out: Vec<usize> = starts
            .flat_map(|start| self.wanted(Kind::Arm, start))
            .map(|(number, _)| number)
            .collect();
        if left_out.is_empty() {
            return visit::visit_expr_match(self, matched);
        }
        self.scaffolds.push(left_out);
        let scaffold = self.scaffolds.len() - 1;
        let Range { start, end } = matched.span().byte_range();
        self.edit(start..start, Vec::new(), scaffold);
        visit::visit_expr_match(self, matched);
        self.edit(end..end, Vec::new(), scaffold);
    }

    fn visit_arm(&mut self, arm: &'ast Arm) {
        let start = arm.span().byte_range().start;
        let deletion = self.wanted(Kind::Arm, start);
        let guard = arm.guard.as_ref().map(|(_, guard)| guard);
        let guards = guard.map_or_else(Vec::new, |guard| self.wanted(Kind::Guard, guard.span().byte_range().start));
        if guard.is_some_and(|guard| has_let(guard)) || (deletion.is_empty() && guards.is_empty()) {
            return visit::visit_arm(self, arm);
        }
        let changes: Vec<_> = deletion.iter().chain(&guards).copied().collect();
        let scaffold = self.scaffold(&changes);
        let kept = deletion.first().map(|(number, _)| format!("!crate::switch::on({number})"));
        if let Some(guard) = guard {
            let range = guard.span().byte_range();
            let mut before = kept.map_or_else(String::new, |kept| format!("{kept} && "));
            before.push('(');
            let mut closing = String::from("))");
            for (number, change) in &guards {
                if change.replacement == "true" {
                    let _ = write!(before, "crate::switch::on({number}) || ");
                } else {
                    let _ = write!(before, "!crate::switch::on({number}) && (");
                    closing.push(')');
                }
            }
            before.push('(');
            self.edit(range.start..range.start, vec![plain(before)], scaffold);
            self.visit_expr(guard);
            self.edit(range.end..range.end, vec![plain(closing)], scaffold);
        } else if let Some(kept) = kept {
            let end = arm.pat.span().byte_range().end;
            self.edit(end..end, vec![plain(format!(" if {kept}"))], scaffold);
        }
        self.visit_expr(&arm.body);
    }

    fn visit_expr_struct(&mut self, made: &'ast syn::ExprStruct) {
        let rest = made.rest.as_ref().map(|rest| &self.text[rest.span().byte_range()]);
        for field in &made.fields {
            match rest {
                Some(rest) => self.field(made, field, rest),
                None => self.visit_expr(&field.expr),
            }
        }
        if let Some(rest) = &made.rest {
            self.visit_expr(rest);
        }
    }

    fn visit_expr_repeat(&mut self, repeat: &'ast syn::ExprRepeat) {
        self.visit_expr(&repeat.expr);
    }

    fn visit_type(&mut self, _: &'ast syn::Type) {}
    fn visit_pat(&mut self, _: &'ast syn::Pat) {}
    fn visit_item_const(&mut self, _: &'ast syn::ItemConst) {}
    fn visit_impl_item_const(&mut self, _: &'ast syn::ImplItemConst) {}
    fn visit_item_static(&mut self, _: &'ast syn::ItemStatic) {}
    fn visit_expr_const(&mut self, _: &'ast syn::ExprConst) {}
    fn visit_attribute(&mut self, _: &'ast syn::Attribute) {}
    fn visit_generics(&mut self, _: &'ast syn::Generics) {}
}

impl Writer<'_> {
    /// A field that can be left out, so that it comes from the rest.
    fn field(&mut self, made: &syn::ExprStruct, field: &FieldValue, rest: &str) {
        let whole = field.span().byte_range();
        let changes = self.wanted(Kind::Field, whole.start);
        let (Member::Named(name), [(number, _)]) = (&field.member, changes.as_slice()) else {
            return self.visit_expr(&field.expr);
        };
        let kind = &self.text[made.path.span().byte_range()];
        let scaffold = self.scaffold(&changes);
        let value = field.expr.span().byte_range();
        let before = format!("{name}: if crate::switch::on({number}) {{ let spare__: {kind} = {rest}; spare__.{name} }} else {{ ");
        let replaced = if field.colon_token.is_some() {
            whole.start..value.start
        } else {
            whole.start..whole.start
        };
        self.edit(replaced, vec![plain(before)], scaffold);
        self.visit_expr(&field.expr);
        self.edit(whole.end..whole.end, vec![plain(" }")], scaffold);
    }
}
