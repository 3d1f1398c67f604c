//! Every shipped library has a permissive licence, as MIT OR Apache-2.0 of the whole requires.

#![allow(clippy::unwrap_used)]

use std::collections::HashMap;

use cargo_metadata::{CargoOpt, DependencyKind, Metadata, MetadataCommand, PackageId};
use spdx::{Expression, LicenseReq};

/// SPDX identifiers.
const ALLOWED: [&str; 10] = [
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "ISC",
    "MIT",
    "Unicode-3.0",
    "Zlib",
];

#[test]
fn shipped_libraries_have_a_permissive_licence() {
    let metadata = MetadataCommand::new()
        .manifest_path(concat!(env!("CARGO_MANIFEST_DIR"), "/../../Cargo.toml"))
        .features(CargoOpt::SomeFeatures(Vec::new()))
        .other_options(["--filter-platform=wasm32-unknown-unknown", "--locked"].map(str::to_owned))
        .exec()
        .unwrap();
    let shipped = shipped(&metadata);
    assert!(shipped.len() > 50, "only {} packages: the graph was not walked", shipped.len());
    let refused: Vec<String> = metadata
        .packages
        .iter()
        .filter(|package| shipped.contains(&&package.id))
        .filter(|package| !allows(package.license.as_deref().unwrap_or_default()))
        .map(|package| format!("{} {}: {:?}", package.name, package.version, package.license))
        .collect();
    assert!(refused.is_empty(), "not allowed: {refused:#?}");
}

#[test]
fn copyleft_and_unknown_licences_are_refused() {
    assert!(allows("MIT OR GPL-3.0-only"));
    assert!(allows("MIT/Apache-2.0"));
    assert!(!allows("GPL-3.0-only"));
    assert!(!allows("MIT AND MPL-2.0"));
    assert!(!allows(""));
}

fn allows(licence: &str) -> bool {
    // Older crates write "/" for "OR".
    let licence = licence.replace('/', " OR ");
    Expression::parse(&licence).is_ok_and(|expression| expression.evaluate(is_allowed))
}

fn is_allowed(required: &LicenseReq) -> bool {
    required.license.id().is_some_and(|id| ALLOWED.contains(&id.name))
}

/// The app and all packages that it needs at run time.
fn shipped(metadata: &Metadata) -> Vec<&PackageId> {
    let nodes: HashMap<_, _> =
        metadata.resolve.as_ref().unwrap().nodes.iter().map(|node| (&node.id, node)).collect();
    let app = metadata.packages.iter().find(|package| package.name == "bleachfield").unwrap();
    let mut found = vec![&app.id];
    let mut at = 0;
    while at < found.len() {
        for dependency in &nodes[found[at]].deps {
            let at_run_time =
                dependency.dep_kinds.iter().any(|kind| kind.kind == DependencyKind::Normal);
            if at_run_time && !found.contains(&&dependency.pkg) {
                found.push(&dependency.pkg);
            }
        }
        at += 1;
    }
    found
}
