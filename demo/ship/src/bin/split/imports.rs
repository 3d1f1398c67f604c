//! Short names for what the program imports: the compiler's tell what a function
//! is and end in a hash, once in the program and once in its script.

use std::error::Error;

use wasm_encoder::reencode::{Reencode, RoundtripReencoder};
use wasm_encoder::{ImportSection, Module, RawSection};
use wasmparser::{Parser, Payload};

/// What the program calls the functions of its script, as one module.
const MODULE: &str = "a";

/// The program and its script, with short names for what `module` exports.
///
/// # Errors
/// If the program cannot be read, or the script does not define each import once.
pub fn shorten(
    program: &[u8],
    script: &str,
    module: &str,
) -> Result<(Vec<u8>, String), Box<dyn Error>> {
    let mut script = replaced_once(script, &format!("\"{module}\": "), &format!("{MODULE}: "))?;
    let mut short = Module::new();
    let mut names = 0..;
    for payload in Parser::new(0).parse_all(program) {
        let payload = payload?;
        if let Payload::ImportSection(section) = payload {
            let mut imports = ImportSection::new();
            for import in section.into_imports() {
                let import = import?;
                let kind = RoundtripReencoder.entity_type(import.ty)?;
                if import.module == module {
                    let name = name(names.next().unwrap_or(usize::MAX));
                    let (old, new) =
                        (format!("\n        {}: ", import.name), format!("\n{name}: "));
                    script = replaced_once(&script, &old, &new)?;
                    imports.import(MODULE, &name, kind);
                } else {
                    imports.import(import.module, import.name, kind);
                }
            }
            short.section(&imports);
        } else if let Some((id, range)) = payload.as_section() {
            let range = usize::try_from(range.start)?..usize::try_from(range.end)?;
            short.section(&RawSection { id, data: &program[range] });
        }
    }
    Ok((short.finish(), script))
}

/// `a` to `Z`, then `aa` and so on.
fn name(mut nth: usize) -> String {
    const LETTERS: &[u8; 52] = b"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    let mut name = String::new();
    loop {
        name.insert(0, char::from(LETTERS[nth % LETTERS.len()]));
        match (nth / LETTERS.len()).checked_sub(1) {
            Some(rest) => nth = rest,
            None => return name,
        }
    }
}

fn replaced_once(text: &str, old: &str, new: &str) -> Result<String, Box<dyn Error>> {
    match text.split(old).collect::<Vec<_>>()[..] {
        [before, after] => Ok([before, new, after].concat()),
        _ => Err(format!("the script does not say {old:?} once").into()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use wasm_encoder::{EntityType, TypeSection};

    #[test]
    fn program_and_script_agree_on_short_names() {
        let mut program = Module::new();
        let mut types = TypeSection::new();
        types.ty().function([], []);
        program.section(&types);
        let mut imports = ImportSection::new();
        for (module, name) in [("./b.js", "one_123"), ("./l.js", "later"), ("./b.js", "one_1234")] {
            imports.import(module, name, EntityType::Function(0));
        }
        program.section(&imports);
        let script = "{\n        one_123: f,\n        one_1234: g,\n \"./b.js\": import0}";
        let (program, script) = shorten(&program.finish(), script, "./b.js").unwrap();
        assert_eq!(script, "{\na: f,\nb: g,\n a: import0}");
        let imports: Vec<_> = Parser::new(0)
            .parse_all(&program)
            .filter_map(|payload| match payload.unwrap() {
                Payload::ImportSection(section) => Some(section.into_imports()),
                _ => None,
            })
            .flatten()
            .map(|import| import.map(|import| (import.module, import.name)).unwrap())
            .collect();
        assert_eq!(imports, [("a", "a"), ("./l.js", "later"), ("a", "b")]);
        assert!(shorten(&program, "{}", "a").is_err());
    }

    #[test]
    fn names_do_not_repeat() {
        assert_eq!([0, 51, 52, 52 + 52 * 52].map(name), ["a", "Z", "aa", "aaa"]);
    }
}
