//! The messages of `app/locale`, read as the build reads them, and tests of that reading.
//! Which keys the program asks for is `keys.rs`'s and `messages.rs`'s.

use std::{fs, path::Path, sync::LazyLock};

#[path = "../../app/build/messages.rs"]
mod messages;

pub use messages::Messages;
use messages::{LocaleError, differences, read};

/// Every message of English with its variables.
pub static ENGLISH: LazyLock<Messages> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../app/locale/en");
    let files: Vec<(String, String)> = fs::read_dir(folder)
        .expect("a folder")
        .map(|file| file.expect("readable").path())
        .map(|path| (path.display().to_string(), fs::read_to_string(&path).expect("readable")))
        .collect();
    read(&files).expect("valid Fluent files")
});

fn of(text: &str) -> Result<Messages, Vec<LocaleError>> {
    read(&[("a.ftl".to_owned(), text.to_owned())])
}

#[test]
fn messages_are_read_with_all_their_variables() {
    let text = "plain = Text\n\
        -brand = Bleachfield\n\
        one = { $a } and { NUMBER($b, maximumFractionDigits: 1) }\n\
        two = { $n ->\n    [one] { one }\n   *[other] { $c } { -brand }\n }\n";
    let read = of(text).expect("valid");
    let variables = |key: &str| read[key].iter().map(String::as_str).collect::<Vec<_>>();
    assert_eq!(read.keys().collect::<Vec<_>>(), ["one", "plain", "two"]);
    assert_eq!(variables("plain"), [""; 0]);
    assert_eq!(variables("one"), ["a", "b"]);
    assert_eq!(variables("two"), ["a", "b", "c", "n"]);
    assert!(ENGLISH.len() > 1900, "only {} messages", ENGLISH.len());
}

#[test]
fn wrong_files_are_refused() {
    let refused = |text: &str| of(text).expect_err("refused");
    let (file, key) = ("a.ftl".to_owned(), "a".to_owned());
    assert!(matches!(&refused("b = B\na = { $x\n")[0], LocaleError::Syntax { line: 2.., .. }));
    assert!(matches!(&refused("a\n")[0], LocaleError::Syntax { line: 1, .. }));
    assert_eq!(
        refused("a = A\na = B\n"),
        [LocaleError::Duplicate { file: file.clone(), key: key.clone() }]
    );
    assert_eq!(refused("a =\n    .title = T\n"), [LocaleError::Empty { file, key: key.clone() }]);
    let to = "b".to_owned();
    assert_eq!(refused("a = { b }\n"), [LocaleError::Reference { key: key.clone(), to }]);
    let name = "DATETIME".to_owned();
    assert_eq!(refused("a = { DATETIME($d) }\n"), [LocaleError::Function { key, name }]);
}

#[test]
fn a_language_is_held_against_english() {
    let english = of("a = A\nb = { $n } and { $m }\n").expect("valid");
    let other = of("b = { $n } { $x }\nc = C\n").expect("valid");
    let (language, key) = (|| "de".to_owned(), |key: &str| key.to_owned());
    assert_eq!(differences("de", &english, &english), []);
    assert_eq!(
        differences("de", &other, &english),
        [
            LocaleError::Missing { language: language(), key: key("a") },
            LocaleError::Variable { language: language(), key: key("b"), variable: key("x") },
            LocaleError::Unknown { language: language(), key: key("c") },
        ]
    );
}
