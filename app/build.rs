//! Checks the Fluent files in `locale/` and generates the table of messages.
//!
//! A language is a folder `locale/<language>/` of `.ftl` files. All are compared with English; any
//! error stops the build.

use std::{
    collections::BTreeMap, env, error::Error, fmt::Write, fs, path::Path, process::ExitCode,
};

#[path = "build/messages.rs"]
mod messages;

use messages::{Messages, differences, read};

/// The reference language.
const ENGLISH: &str = "en";

fn main() -> ExitCode {
    match run() {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            println!("cargo::error={error}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<(), Box<dyn Error>> {
    println!("cargo::rerun-if-changed=build");
    println!("cargo::rerun-if-changed=locale");
    let languages = languages(&Path::new(&env::var("CARGO_MANIFEST_DIR")?).join("locale"))?;
    let english = checked(&languages)?;
    fs::write(Path::new(&env::var("OUT_DIR")?).join("messages.rs"), table(&english, &languages)?)?;
    Ok(())
}

/// Files of each language: name and text.
type Languages = BTreeMap<String, Vec<(String, String)>>;

fn languages(locale: &Path) -> Result<Languages, Box<dyn Error>> {
    let mut languages = Languages::new();
    for folder in fs::read_dir(locale)? {
        let folder = folder?.path();
        let language = folder.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        language.parse::<unic_langid::LanguageIdentifier>().map_err(|error| {
            format!("locale/{language}: the name is not a language tag: {error}")
        })?;
        let mut files = Vec::new();
        for file in fs::read_dir(&folder)? {
            let path = file?.path();
            let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
            if name.ends_with(".ftl") {
                files.push((format!("locale/{language}/{name}"), fs::read_to_string(&path)?));
            }
        }
        files.sort();
        languages.insert(language.to_owned(), files);
    }
    Ok(languages)
}

/// The messages of English, if no language has an error.
fn checked(languages: &Languages) -> Result<Messages, Box<dyn Error>> {
    let mut all_errors = Vec::new();
    let mut tables = BTreeMap::new();
    for (language, files) in languages {
        match read(files) {
            Ok(messages) => _ = tables.insert(language, messages),
            Err(errors) => all_errors.extend(errors),
        }
    }
    if let Some(english) = tables.get(&ENGLISH.to_owned()) {
        for (language, messages) in &tables {
            all_errors.extend(differences(language, messages, english));
        }
    }
    for error in &all_errors {
        println!("cargo::error={error}");
    }
    match tables.remove(&ENGLISH.to_owned()) {
        Some(english) if all_errors.is_empty() => Ok(english),
        _ => Err(format!("{} errors in app/locale", all_errors.len()).into()),
    }
}

/// Rust source of `MESSAGES`, sorted keys with their variables, and of `LANGUAGES`, each with the
/// text of its files.
fn table(english: &Messages, languages: &Languages) -> Result<String, std::fmt::Error> {
    let mut source = String::from("const MESSAGES: &[(&str, &[&str])] = &[\n");
    for (key, variables) in english {
        let variables: Vec<&String> = variables.iter().collect();
        writeln!(source, "    ({key:?}, &{variables:?}),")?;
    }
    source.push_str("];\n\npub(super) const LANGUAGES: &[(&str, &[&str])] = &[\n");
    for (language, files) in languages {
        writeln!(source, "    ({language:?}, &[")?;
        for (file, _) in files {
            let path = format!("/{file}");
            let file = format!("include_str!(concat!(env!(\"CARGO_MANIFEST_DIR\"), {path:?}))");
            writeln!(source, "        {file},")?;
        }
        source.push_str("    ]),\n");
    }
    source.push_str("];\n");
    Ok(source)
}
