//! The frame that is shown before the program has come (app/index.html) has the words of the
//! app's own frame and empty Sink, in their order: nothing moves or changes when the app takes
//! over.

use std::{fs, path::Path};

fn source(path: &str) -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    fs::read_to_string(root.join(path)).expect("readable")
}

/// The keys that a component asks for, in the order of its source.
fn keys(component: &str) -> Vec<&str> {
    component.split("t!(\"").skip(1).filter_map(|rest| rest.split('"').next()).collect()
}

/// A message without variables, from its line.
fn message<'a>(file: &'a str, key: &str) -> &'a str {
    let line = file.lines().find_map(|line| line.strip_prefix(&format!("{key} = ")));
    line.unwrap_or_else(|| panic!("no message {key}")).trim()
}

/// The texts between the tags of a piece of the page.
fn texts(html: &str) -> Vec<&str> {
    let between = html.split('>').filter_map(|part| part.split('<').next());
    between.map(str::trim).filter(|text| !text.is_empty()).collect()
}

#[test]
fn the_empty_sink_is_that_of_the_app() {
    let page = source("app/index.html");
    let (_, template) = page.split_once("<template id=\"empty-sink\">").expect("a template");
    let (template, _) = template.split_once("</template>").expect("closed");
    let (component, locale) =
        (source("app/src/screens/sink/empty.rs"), source("app/locale/en/sink.ftl"));
    let mut expected = vec!["Sink"];
    expected.extend(keys(&component).into_iter().map(|key| message(&locale, key)));
    assert_eq!(texts(template), expected);
    let classes = |html: &str| -> Vec<String> {
        let buttons = html.split("class=\"button").skip(1);
        buttons.filter_map(|rest| rest.split('"').next()).map(str::to_owned).collect()
    };
    assert_eq!(classes(template), classes(&component));
}

#[test]
fn the_places_are_those_of_the_app() {
    let page = source("app/index.html");
    let (_, places) = page.split_once("<nav class=\"places\"").expect("the places");
    let (places, _) = places.split_once("</nav>").expect("closed");
    let locale = source("app/locale/en/common.ftl");
    let expected = ["sink", "mix", "batches", "shelf", "help"]
        .map(|place| message(&locale, &format!("place-{place}")).to_owned());
    let places = places.split_once('>').map_or(places, |(_, inside)| inside);
    assert_eq!(texts(places), expected);
    assert!(page.contains(&format!("aria-label=\"{}\"", message(&locale, "place-all"))));
    assert!(page.contains(message(&locale, "app-opening")));
}
