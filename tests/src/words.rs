//! Words on screen are plain present-day English: phrases that were replaced do not come back.
//! Read from every message of English, the frame of the app, its manifest and the README.

use std::{fs, path::Path};

/// Archaic turns, riddles and jokes, and the plain words in their place. Lower case; a phrase
/// matches whole words.
const REPLACED: &[(&str, &str)] = &[
    ("put by", "stored"),
    ("put the pulp by", "store the pulp"),
    ("take in a file", "import"),
    ("taken in", "imported"),
    ("take it in", "import"),
    ("send the book", "share a backup"),
    ("the book", "your records"),
    ("give it up", "abandon"),
    ("given up", "abandoned"),
    ("take back", "undo"),
    ("taken back", "undone"),
    ("rubbed out", "deleted"),
    ("see to", "check, do"),
    ("seen to", "done"),
    ("lump", "wet pulp"),
    ("reckon", "calculate"),
    ("reckoned", "estimated, calculated"),
    ("foreseen", "predicted"),
    ("foretold", "predicted"),
    ("its window", "the safe range"),
    ("working window", "safe range"),
    ("tells nothing", "unclear"),
    ("begun", "started"),
    ("seek", "search"),
    ("upon", "on"),
    ("hence", "so"),
    ("whence", "from where"),
    ("nought", "zero"),
    ("naught", "zero"),
    ("aught", "anything"),
    ("ere", "before"),
    ("lest", "so that … not"),
    ("afresh", "again"),
    ("anew", "again"),
    ("forthwith", "now"),
    ("thereof", "of it"),
    ("herein", "here"),
    ("speak mill", "mill figures"),
    ("fall into vats", "back up your records"),
    ("turns sour", "turns acid"),
    ("go sour", "the pH drops too low"),
    ("cannot come out", "cannot be taken"),
    ("may wait", "optional"),
    ("may stay empty", "optional"),
    ("will not do", "is not possible"),
    ("stands here", "is shown here"),
    ("stand here", "are shown here"),
    ("where it stands", "state"),
    ("where does it stand", "where is it"),
    ("out of bounds", "outside the safe range"),
    ("prop up", "keep"),
    ("leads nowhere", "does not exist"),
    ("all the same", "even so"),
    ("no telling", "not known"),
    ("let it call", "allow notifications"),
    ("meets pulp", "start a bath"),
];

#[test]
fn replaced_phrases_do_not_come_back() {
    let mut found = Vec::new();
    for (place, text) in shown() {
        let words = words(&text);
        for (phrase, plain) in REPLACED.iter().filter(|(phrase, _)| holds(&words, phrase)) {
            found.push(format!("{place}: “{phrase}” ({plain}) in “{text}”"));
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn phrases_are_found_as_whole_words() {
    let found = |text: &str, phrase: &str| holds(&words(text), phrase);
    assert!(found("Put the pulp by, then", "put the pulp by"));
    assert!(found("In its\nwindow.", "its window"));
    assert!(!found("There were windows", "ere") && !found("see tomorrow", "see to"));
    assert!(shown().len() > 1900, "too few texts were read");
}

/// The frame that is shown before the program has come has the app's own words.
#[test]
fn the_frame_says_what_the_app_says() {
    let house = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let page = fs::read_to_string(house.join("app/index.html")).expect("readable");
    let (_, frame) = page.split_once("id=\"starting\"").expect("the frame");
    let (frame, _) = frame.split_once("</template>").expect("the empty Sink");
    let texts = frame.split('>').filter_map(|part| part.split_once('<')).map(|(text, _)| text);
    let texts: Vec<&str> = texts.map(str::trim).filter(|text| !text.is_empty()).collect();
    assert!(texts.len() > 10, "only {} texts were found", texts.len());
    let folder = fs::read_dir(house.join("app/locale/en")).expect("a folder");
    let messages: String = folder
        .map(|file| fs::read_to_string(file.expect("readable").path()).expect("readable"))
        .collect();
    for text in texts {
        assert!(messages.contains(&format!(" = {text}\n")), "no message says “{text}”");
    }
}

/// Each text that is shown, with where it is written.
fn shown() -> Vec<(String, String)> {
    let house = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let read = |path: &Path| fs::read_to_string(path).expect("readable");
    let mut texts = Vec::new();
    let folder = fs::read_dir(house.join("app/locale/en")).expect("a folder");
    for path in folder.map(|file| file.expect("readable").path()) {
        let text = read(&path);
        for line in text.lines().filter(|line| !line.starts_with('#') && !line.ends_with('=')) {
            // A line is `key = text`, or one form of a plural.
            let shown = line.split_once(" = ").map_or(line, |(_, shown)| shown);
            texts.push((path.display().to_string(), shown.to_owned()));
        }
    }
    for page in ["app/index.html", "README.md", "public/manifest.webmanifest"] {
        texts
            .extend(read(&house.join(page)).lines().map(|line| (page.to_owned(), line.to_owned())));
    }
    texts
}

/// The words of a text in lower case, between single spaces and one at each end.
fn words(text: &str) -> String {
    let letters = |c: char| if c.is_alphanumeric() { c } else { ' ' };
    let spaced: String = text.to_lowercase().chars().map(letters).collect();
    format!(" {} ", spaced.split_whitespace().collect::<Vec<_>>().join(" "))
}

fn holds(words: &str, phrase: &str) -> bool {
    words.contains(&format!(" {phrase} "))
}
