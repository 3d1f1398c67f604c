//! Edits of the built page: links that Trunk wrote, the content security policy, and the page for
//! addresses that are no file.

use anyhow::{Context, Result};

use crate::dist::{sha256, sha384};

/// Placeholder in the policy for the hashes of the inline scripts.
const INLINE_SCRIPTS: &str = "INLINE-SCRIPTS";

/// A file that Trunk linked, and its replacement.
pub struct Replaced {
    pub old_name: String,
    pub old: Vec<u8>,
    pub new_name: String,
    pub new: Vec<u8>,
}

/// Changes every link and import of a replaced file, and its `integrity`.
pub fn relink(page: &str, replaced: &[Replaced]) -> String {
    replaced.iter().fold(page.to_owned(), |page, file| {
        page.replace(&format!("/{}", file.old_name), &format!("/{}", file.new_name))
            .replace(&sha384(&file.old), &sha384(&file.new))
    })
}

/// Adds a module preload of a script that the program imports.
///
/// # Errors
/// If the page has no `</head>`.
pub fn preload(page: &str, name: &str, script: &[u8]) -> Result<String> {
    let at = page.find("</head>").context("the page has no </head>")?;
    let link = format!(
        r#"<link rel="modulepreload" href="./{name}" crossorigin="anonymous" integrity="{}">"#,
        sha384(script)
    );
    Ok([&page[..at], &link, &page[at..]].concat())
}

/// The files of the page's style sheets, in their order.
pub fn style_sheets(page: &str) -> Vec<String> {
    let links = tags(page, "<link").into_iter().filter(|tag| tag.contains("stylesheet"));
    links.filter_map(href).map(|href| href.trim_start_matches("./").to_owned()).collect()
}

/// Puts a link to one style sheet in the place of all that the page has.
///
/// # Errors
/// If the page has none.
pub fn link_one_style_sheet(page: &str, name: &str, style: &[u8]) -> Result<String> {
    let links = tags(page, "<link").into_iter().filter(|tag| tag.contains("stylesheet"));
    let links: Vec<&str> = links.collect();
    let first = links.first().context("the page has no style sheet")?;
    let link = format!(r#"<link rel="stylesheet" href="./{name}" integrity="{}">"#, sha384(style));
    let page = page.replacen(first, &link, 1);
    Ok(links[1..].iter().fold(page, |page, link| page.replacen(link, "", 1)))
}

/// The tags of the page that begin so.
fn tags<'a>(page: &'a str, begin: &str) -> Vec<&'a str> {
    let starts = page.match_indices(begin).map(|(at, _)| &page[at..]);
    starts.filter_map(|rest| rest.find('>').map(|end| &rest[..=end])).collect()
}

/// The address of a link, which minifying may have left without quotes.
fn href(tag: &str) -> Option<&str> {
    let (_, rest) = tag.split_once("href=")?;
    match rest.strip_prefix('"') {
        Some(quoted) => quoted.split('"').next(),
        None => rest.split([' ', '>']).next(),
    }
}

/// Writes the hashes of the page's inline scripts into its content security policy.
///
/// # Errors
/// If the policy has no placeholder for them.
pub fn allow_inline_scripts(page: &str) -> Result<String> {
    let hashes: Vec<_> =
        inline_scripts(page).iter().map(|text| format!("'{}'", sha256(text.as_bytes()))).collect();
    fill(page, INLINE_SCRIPTS, &hashes.join(" "))
}

/// The page that a host shows for an address that is no file: the page's script that finds the
/// folder of the app and opens the address there, and nothing else.
///
/// # Errors
/// If the page has no such script.
pub fn not_found(page: &str) -> Result<String> {
    let scripts = inline_scripts(page);
    let script = scripts.iter().find(|text| text.contains("data-lost"));
    let script = script.context("no script finds the folder of the app")?;
    let policy = format!(
        "default-src 'none'; style-src 'unsafe-inline'; script-src '{}'; connect-src 'self'; \
         base-uri 'none'; form-action 'none'",
        sha256(script.as_bytes())
    );
    Ok(format!(
        r#"<!DOCTYPE html>
<html lang="en" data-lost>
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Bleachfield</title>
<style>[data-lost] main {{ visibility: hidden }}</style>
<script>{script}</script>
</head>
<body>
<main>
<h1>Nothing is at this address</h1>
<p><a href="./">Open Bleachfield</a></p>
</main>
<noscript><p>Bleachfield needs JavaScript.</p></noscript>
</body>
</html>
"#
    ))
}

/// Replaces the first `placeholder` in a page or script.
///
/// # Errors
/// If there is none.
pub fn fill(text: &str, placeholder: &str, content: &str) -> Result<String> {
    text.find(placeholder).with_context(|| format!("no placeholder {placeholder}"))?;
    Ok(text.replacen(placeholder, content, 1))
}

/// The text of each inline script of the page.
fn inline_scripts(page: &str) -> Vec<&str> {
    let mut scripts = Vec::new();
    let mut rest = page;
    while let Some((_, after)) = rest.split_once("<script") {
        let Some((attributes, body)) = after.split_once('>') else { break };
        let Some((text, next)) = body.split_once("</script>") else { break };
        if !attributes.contains("src=") {
            scripts.push(text);
        }
        rest = next;
    }
    scripts
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn links_and_digests_of_a_replaced_file_change() {
        let page = format!("<link href=/a-1.js integrity={}><script>'/a-1.js'", sha384(b"old"));
        let replaced = Replaced {
            old_name: "a-1.js".to_owned(),
            old: b"old".to_vec(),
            new_name: "a-2/a.js".to_owned(),
            new: b"new".to_vec(),
        };
        let wanted =
            format!("<link href=/a-2/a.js integrity={}><script>'/a-2/a.js'", sha384(b"new"));
        assert_eq!(relink(&page, &[replaced]), wanted);
    }

    #[test]
    fn one_style_sheet_stands_in_the_place_of_all() {
        let page = r#"<link rel=icon href=i.svg><link rel="stylesheet" href="./a-1.css" integrity="x"/><p></p><link rel=stylesheet href=./b-2.css integrity=y><b></b>"#;
        assert_eq!(style_sheets(page), ["a-1.css", "b-2.css"]);
        let linked = link_one_style_sheet(page, "c-3.css", b"abc").unwrap();
        let link =
            format!(r#"<link rel="stylesheet" href="./c-3.css" integrity="{}">"#, sha384(b"abc"));
        assert_eq!(linked, format!("<link rel=icon href=i.svg>{link}<p></p><b></b>"));
        assert!(link_one_style_sheet("<p>", "c-3.css", b"abc").is_err());
    }

    #[test]
    fn preload_is_in_the_head_with_its_digest() {
        let page = preload("<head></head><body>", "a.js", b"abc").unwrap();
        assert!(page.starts_with(r#"<head><link rel="modulepreload" href="./a.js" "#), "{page}");
        assert!(page.contains(&sha384(b"abc")), "{page}");
        assert!(preload("<body>", "a.js", b"abc").is_err());
    }

    #[test]
    fn the_page_for_unknown_addresses_has_only_the_script_that_finds_the_folder() {
        let page = "<script id=folder>/* data-lost */</script><script>other</script>";
        let made = not_found(page).unwrap();
        assert!(made.contains("<script>/* data-lost */</script>"), "{made}");
        assert!(made.contains(&sha256(b"/* data-lost */")), "{made}");
        assert!(!made.contains("other"), "{made}");
        assert!(not_found("<script>other</script>").is_err());
    }

    #[test]
    fn policy_allows_the_inline_scripts_and_no_others() {
        let page = r#"<meta content="INLINE-SCRIPTS"><script src="/a.js"></script><script type="module">abc</script>"#;
        let allowed = allow_inline_scripts(page).unwrap();
        assert!(allowed.starts_with(&format!(r#"<meta content="'{}'">"#, sha256(b"abc"))));
        assert!(allow_inline_scripts("<script>abc</script>").is_err());
    }
}
