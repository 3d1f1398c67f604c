//! Which sums of Mix were opened, last first. Nothing of what was typed.

use strum::IntoEnumIterator;

use crate::{platform::local_storage, route::Sum};

const KEY: &str = "bleachfield.mix_recent";

/// Every sum: those that were opened, last first, then the rest.
pub fn in_order() -> Vec<Sum> {
    let opened: Vec<String> = local_storage::get(KEY).unwrap_or_default();
    order(&opened)
}

/// Puts a sum first.
pub fn opened(sum: Sum) {
    let mut names: Vec<&str> = in_order().into_iter().map(<&str>::from).collect();
    let name = <&str>::from(sum);
    names.retain(|one| *one != name);
    names.insert(0, name);
    local_storage::set(KEY, &names);
}

/// A name that is not known here, of another version, is left out.
fn order(opened: &[String]) -> Vec<Sum> {
    let mut sums: Vec<Sum> = opened.iter().filter_map(|name| name.parse().ok()).collect();
    for sum in Sum::iter() {
        if !sums.contains(&sum) {
            sums.push(sum);
        }
    }
    sums
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_opened_come_first_and_none_is_lost() {
        let opened = ["wash", "of_a_later_version", "dilute"].map(str::to_owned);
        let sums = order(&opened);
        assert_eq!(sums[..3], [Sum::Wash, Sum::Dilute, Sum::DryFibre]);
        assert_eq!(sums.len(), Sum::iter().count());
        assert_eq!(order(&[]), Sum::iter().collect::<Vec<_>>());
    }
}
