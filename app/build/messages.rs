//! The messages of Fluent files, and their errors. Reads no files itself.

use std::collections::{BTreeMap, BTreeSet};

use fluent_syntax::{
    ast::{
        CallArguments, Entry, Expression, InlineExpression, Pattern, PatternElement, Resource,
        Variant,
    },
    parser::parse,
};

/// The functions that a message may call; `app/src/i18n/bundle.rs` adds them.
const FUNCTIONS: [&str; 2] = ["NUMBER", "DEGREES"];

/// Each message's key, with the variables of its text and of the entries it refers to.
pub type Messages = BTreeMap<String, BTreeSet<String>>;

/// Why the Fluent files cannot be used.
#[derive(Debug, PartialEq, thiserror::Error)]
pub enum LocaleError {
    #[error("{file}, line {line}: {reason}")]
    Syntax { file: String, line: usize, reason: String },
    #[error("{file}: `{key}` is defined twice")]
    Duplicate { file: String, key: String },
    #[error("{file}: `{key}` has no text")]
    Empty { file: String, key: String },
    #[error("`{key}` refers to `{to}`, which is not defined")]
    Reference { key: String, to: String },
    #[error("`{key}` calls {name}; the functions are NUMBER and DEGREES")]
    Function { key: String, name: String },
    #[error("{language}: `{key}` is missing")]
    Missing { language: String, key: String },
    #[error("{language}: `{key}` is not a message of English")]
    Unknown { language: String, key: String },
    #[error("{language}: `{key}` takes ${variable}, which English does not")]
    Variable { language: String, key: String, variable: String },
}

/// The messages of one language; `files` are names and texts.
pub fn read(files: &[(String, String)]) -> Result<Messages, Vec<LocaleError>> {
    let mut errors = Vec::new();
    let mut entries = BTreeMap::new();
    for (file, text) in files {
        let resource = match parse(text.as_str()) {
            Ok(resource) => resource,
            Err((resource, syntax_errors)) => {
                errors.extend(syntax_errors.into_iter().map(|error| LocaleError::Syntax {
                    file: file.clone(),
                    line: 1
                        + text.bytes().take(error.pos.start).filter(|byte| *byte == b'\n').count(),
                    reason: error.kind.to_string(),
                }));
                resource
            }
        };
        collect(file, resource, &mut entries, &mut errors);
    }
    let mut messages = Messages::new();
    for key in entries.keys() {
        let mut found = Uses::default();
        follow(key, &entries, &mut found, &mut errors);
        if !key.starts_with('-') {
            messages.insert(key.clone(), found.variables);
        }
    }
    if errors.is_empty() { Ok(messages) } else { Err(errors) }
}

/// Where a language differs from English: a message missing or added, or a variable that English
/// does not have.
pub fn differences(language: &str, messages: &Messages, english: &Messages) -> Vec<LocaleError> {
    let language = || language.to_owned();
    let mut errors = Vec::new();
    for key in english.keys().filter(|key| !messages.contains_key(*key)) {
        errors.push(LocaleError::Missing { language: language(), key: key.clone() });
    }
    for (key, variables) in messages {
        let Some(given) = english.get(key) else {
            errors.push(LocaleError::Unknown { language: language(), key: key.clone() });
            continue;
        };
        for variable in variables.difference(given) {
            let (key, variable) = (key.clone(), variable.clone());
            errors.push(LocaleError::Variable { language: language(), key, variable });
        }
    }
    errors
}

/// What an entry uses: variables, functions, and other entries (a term's name with its dash).
#[derive(Default)]
struct Uses {
    variables: BTreeSet<String>,
    entries: BTreeSet<String>,
    functions: BTreeSet<String>,
}

fn collect(
    file: &str,
    resource: Resource<&str>,
    entries: &mut BTreeMap<String, Uses>,
    errors: &mut Vec<LocaleError>,
) {
    for entry in resource.body {
        let (key, pattern) = match entry {
            Entry::Message(message) => (message.id.name.to_owned(), message.value),
            Entry::Term(term) => (format!("-{}", term.id.name), Some(term.value)),
            _ => continue,
        };
        let (file, mut uses) = (file.to_owned(), Uses::default());
        match pattern {
            Some(pattern) => uses.pattern(&pattern),
            None => errors.push(LocaleError::Empty { file: file.clone(), key: key.clone() }),
        }
        if entries.insert(key.clone(), uses).is_some() {
            errors.push(LocaleError::Duplicate { file, key });
        }
    }
}

/// Adds to `found` what `key` uses, directly or through other entries.
fn follow(
    key: &str,
    entries: &BTreeMap<String, Uses>,
    found: &mut Uses,
    errors: &mut Vec<LocaleError>,
) {
    let Some(uses) = entries.get(key) else { return };
    found.variables.extend(uses.variables.iter().cloned());
    for name in uses.functions.iter().filter(|name| !FUNCTIONS.contains(&name.as_str())) {
        errors.push(LocaleError::Function { key: key.to_owned(), name: name.clone() });
    }
    for to in &uses.entries {
        if !entries.contains_key(to) {
            errors.push(LocaleError::Reference { key: key.to_owned(), to: to.clone() });
        } else if found.entries.insert(to.clone()) {
            follow(to, entries, found, errors);
        }
    }
}

impl Uses {
    fn pattern(&mut self, pattern: &Pattern<&str>) {
        for element in &pattern.elements {
            if let PatternElement::Placeable { expression } = element {
                self.expression(expression);
            }
        }
    }

    fn expression(&mut self, expression: &Expression<&str>) {
        match expression {
            Expression::Inline(inline) => self.inline(inline),
            Expression::Select { selector, variants } => {
                self.inline(selector);
                for Variant { value, .. } in variants {
                    self.pattern(value);
                }
            }
        }
    }

    fn inline(&mut self, inline: &InlineExpression<&str>) {
        match inline {
            InlineExpression::VariableReference { id } => {
                self.variables.insert(id.name.to_owned());
            }
            InlineExpression::MessageReference { id, .. } => {
                self.entries.insert(id.name.to_owned());
            }
            InlineExpression::TermReference { id, arguments, .. } => {
                self.entries.insert(format!("-{}", id.name));
                arguments.iter().for_each(|arguments| self.arguments(arguments));
            }
            InlineExpression::FunctionReference { id, arguments } => {
                self.functions.insert(id.name.to_owned());
                self.arguments(arguments);
            }
            InlineExpression::Placeable { expression } => self.expression(expression),
            InlineExpression::StringLiteral { .. } | InlineExpression::NumberLiteral { .. } => {}
        }
    }

    fn arguments(&mut self, arguments: &CallArguments<&str>) {
        arguments.positional.iter().for_each(|value| self.inline(value));
        arguments.named.iter().for_each(|argument| self.inline(&argument.value));
    }
}
