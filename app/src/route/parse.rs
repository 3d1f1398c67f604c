//! From an address to its [`Route`].

use ulid::Ulid;

use super::{BatchForm, PlanStart, Route};

impl Route {
    /// The route at `path`, such as `/batch/01J…`; `query` gives a query parameter by name.
    /// `None` where no screen has that address. A query that cannot be read is left out.
    pub fn parse<'q>(path: &str, query: impl Fn(&str) -> Option<&'q str>) -> Option<Self> {
        let parts: Vec<&str> = path.trim_matches('/').split('/').collect();
        let id = |text: &str| text.parse::<Ulid>().ok();
        let asked = |name| query(name).and_then(id);
        Some(match parts[..] {
            ["" | "sink"] => asked("bath").map_or(Self::Sink, Self::Bath),
            ["mix"] => Self::Calculator,
            ["mix", sum] => Self::Sum(sum.parse().ok()?),
            ["batches"] => Self::Batches,
            ["batches", "compare"] => {
                Self::Compare(query("of")?.split('.').filter_map(id).collect())
            }
            ["batches", "season"] => Self::Season,
            ["batches", "new"] => Self::NewBatch,
            ["batches", "send"] => Self::Send { batch: asked("batch") },
            ["batches", "take"] => Self::Import,
            ["batches", "yellowing"] => Self::Yellowing,
            ["batch", batch] => {
                let form = query("do").and_then(|form| form.parse::<BatchForm>().ok());
                Self::Batch { id: id(batch)?, form }
            }
            ["batch", batch, "label"] => Self::BatchLabel(id(batch)?),
            ["batch", batch, "plan"] if query("do") == Some("change") => {
                Self::ChangePlan(id(batch)?)
            }
            ["batch", batch, "plan"] => match PlanStart::parse(&query) {
                Some(start) => Self::StartPlan { batch: id(batch)?, start },
                None => Self::Plan(id(batch)?),
            },
            ["batch", batch, "ways"] => Self::WaysToColour(id(batch)?),
            ["batch", batch, "trial"] => Self::NewTrial(id(batch)?),
            ["trial", trial] => Self::Trial(id(trial)?),
            ["batch", batch, "colour"] => Self::Colour(id(batch)?),
            ["batch", batch, "colour", "target"] => Self::ColourTarget(id(batch)?),
            ["batch", batch, "colour", "compare"] => Self::ColourCompare {
                batch: id(batch)?,
                left: asked("left"),
                right: asked("right"),
            },
            ["batch", batch, "colour", "measure"] => Self::ColourMeasure {
                batch: id(batch)?,
                photo: query("photo")?.to_owned().try_into().ok()?,
                purpose: query("for").and_then(|it| it.parse().ok()).unwrap_or_default(),
            },
            ["colour", "teach"] => Self::Teach,
            ["plan"] => asked("again").map_or(Self::NewPlan, Self::PlanAgain),
            ["class_sheet"] => Self::ClassSheet { batch: asked("batch") },
            ["lots"] => Self::Lots,
            ["lot", lot] => Self::Lot(id(lot)?),
            ["lot", lot, "label"] => Self::LotLabel(id(lot)?),
            ["shelf"] => Self::Shelf,
            ["shelf", "new"] => Self::NewProduct,
            ["shelf", product] => Self::Product(id(product)?),
            ["shelf", product, "titrate"] => Self::Titrate(id(product)?),
            ["help"] => Self::Help,
            ["help", "preferences"] => Self::Preferences,
            ["help", "glossary"] => Self::Glossary,
            ["help", "rests_on"] => Self::RestsOn,
            _ => return None,
        })
    }
}

#[cfg(test)]
mod tests {
    use bleachfield_core::journal::PhotoId;
    use strum::IntoEnumIterator;

    use super::super::{ColourPurpose, Sum};
    use super::*;

    /// As the router gives it: path and query apart.
    fn parse(href: &str) -> Option<Route> {
        let (path, query) = href.split_once('?').unwrap_or((href, ""));
        Route::parse(path, |name| {
            let mut pairs = query.split('&').filter_map(|pair| pair.split_once('='));
            pairs.find(|(key, _)| *key == name).map(|(_, value)| value)
        })
    }

    fn every_route() -> Vec<Route> {
        let id = Ulid::from(7_u128);
        let photo: PhotoId = "ab".repeat(32).try_into().expect("64 hexadecimal digits");
        let mut routes = vec![
            Route::Sink,
            Route::Bath(id),
            Route::Calculator,
            Route::Batches,
            Route::Season,
            Route::Compare(vec![id, Ulid::from(8_u128)]),
            Route::NewBatch,
            Route::Send { batch: None },
            Route::Send { batch: Some(id) },
            Route::Import,
            Route::Yellowing,
            Route::Teach,
            Route::batch(id),
            Route::BatchLabel(id),
            Route::NewPlan,
            Route::PlanAgain(id),
            Route::Plan(id),
            Route::ChangePlan(id),
            Route::StartPlan {
                batch: id,
                start: PlanStart {
                    product: id,
                    charge: 150,
                    celsius: 375,
                    minutes: 45,
                    consistency: 500,
                },
            },
            Route::WaysToColour(id),
            Route::NewTrial(id),
            Route::Trial(id),
            Route::Colour(id),
            Route::ColourTarget(id),
            Route::ColourCompare { batch: id, left: None, right: None },
            Route::ColourCompare { batch: id, left: Some(id), right: None },
            Route::ColourCompare { batch: id, left: None, right: Some(id) },
            Route::ColourCompare { batch: id, left: Some(id), right: Some(id) },
            Route::ClassSheet { batch: None },
            Route::ClassSheet { batch: Some(id) },
            Route::Lots,
            Route::Lot(id),
            Route::LotLabel(id),
            Route::Shelf,
            Route::NewProduct,
            Route::Product(id),
            Route::Titrate(id),
            Route::Help,
            Route::Preferences,
            Route::Glossary,
            Route::RestsOn,
        ];
        routes.extend(Sum::iter().map(Route::Sum));
        routes.extend(
            [ColourPurpose::Swatch, ColourPurpose::Target].map(|purpose| Route::ColourMeasure {
                batch: id,
                photo: photo.clone(),
                purpose,
            }),
        );
        let named = BatchForm::iter()
            .filter(|form| !matches!(form, BatchForm::Entry(_) | BatchForm::Correct(_)));
        routes.extend(named.map(|form| Route::form(id, form)));
        routes
    }

    #[test]
    fn every_link_is_read_back() {
        for route in every_route() {
            assert_eq!(parse(&route.to_string()), Some(route.clone()), "{route}");
        }
    }

    #[test]
    fn the_root_is_the_sink_and_a_trailing_slash_is_allowed() {
        assert_eq!(parse("/"), Some(Route::Sink));
        assert_eq!(parse("/shelf/new/"), Some(Route::NewProduct));
    }

    #[test]
    fn an_unknown_address_or_id_is_none() {
        for href in ["/nowhere", "/batch/x", "/mix/what", "/batch", "/lot", "/shelf/new/what"] {
            assert_eq!(parse(href), None, "{href}");
        }
    }

    #[test]
    fn a_step_of_a_form_is_no_route_of_its_own() {
        let id = Ulid::from(7_u128);
        for route in [Route::NewPlan, Route::PlanAgain(id), Route::Plan(id), Route::ChangePlan(id)]
        {
            assert_eq!(parse(&route.step_href("bath")), Some(route));
        }
    }

    #[test]
    fn forms_that_need_an_entry_have_no_address() {
        let id = Ulid::from(7_u128);
        for form in ["entry", "correct", "what"] {
            assert_eq!(parse(&format!("/batch/{id}?do={form}")), Some(Route::batch(id)));
        }
    }
}
