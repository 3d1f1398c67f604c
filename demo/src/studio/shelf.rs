//! The products on the studio's shelf, and its own measured figures.

use bleachfield_core::bath::{Bleach, Bottle, LabelBasis, Powder, PowderBasis};
use bleachfield_core::chemistry::bottle::{
    EvidenceKind, StorageConditions, StrengthEvidence, strength_now,
};
use bleachfield_core::chemistry::titration::{Analyte, TitrationReadings, liquid};
use bleachfield_core::journal::{
    Additive, Amount, Body, DeviceNamed, Note, OwnFigure, OwnFigureOf, ProductAdded, ProductKind,
    ProductOpened, Storage, Strength, StrengthBasis, StrengthFound, StrengthMethod, Subject,
    TitrationRun,
};
use bleachfield_core::quantity::{Basis, Estimate, in_grams_per_litre, millilitres, share};
use jiff::Timestamp;
use ulid::Ulid;

use super::DemoError;
use super::journal_builder::{Author, JournalBuilder};
use super::model::{HARDNESS, ROOM, SQUEEZE, TAP_PH, read};

/// A bleach on the shelf: its container and strength.
#[derive(Clone, Debug)]
pub struct StockBleach {
    pub id: Ulid,
    pub name: &'static str,
    pub bleach: Bleach,
    /// True strength as a share of the assumed one.
    pub true_share: f64,
}

/// The products that the season uses.
pub struct Shelf {
    /// Stored cool and dark.
    pub cellar: StockBleach,
    /// Stored warm and light; assumed at its label's strength until [`test_sill`].
    pub sill: StockBleach,
    pub percarbonate: StockBleach,
    pub thiosulfate: Ulid,
    pub citric: Ulid,
    pub chalk: Ulid,
}

/// First day of the season, in days before its end.
const OPENING: i64 = 226;
const LABEL: f64 = 5.25;

/// Writes the products and the studio's own figures.
///
/// # Errors
/// If the core refuses a strength.
pub fn stock(journal: &mut JournalBuilder) -> Result<Shelf, DemoError> {
    let at = journal.on(OPENING, 9, 5);
    for (minute, author) in [(0, Author::Marl), (8, Author::Teasel)] {
        let name = DeviceNamed { name: author.name().into() };
        journal.write(
            author,
            journal.on(OPENING, 9, minute),
            Subject::Studio,
            Body::DeviceNamed(name),
        );
    }
    own_figures(journal);
    let hypochlorite = Bleach::Hypochlorite(Bottle::labelled(LABEL, LabelBasis::NaoclByMass));
    let powder = Bleach::Percarbonate(Powder::labelled(share(0.28), PowderBasis::Peroxide));
    let bottle = |size: f64, celsius: f64, dark: bool, made: i64, note: &str| ProductSpec {
        kind: ProductKind::Hypochlorite,
        strength: Some(hypochlorite.strength()),
        size: Amount::VolumeMl(Estimate::exact(size, Basis::Label)),
        storage: Storage { celsius: Some(celsius), dark: Some(dark), closed: Some(dark) },
        made: Some(made),
        note: note.to_owned(),
    };
    let jar = |kind, grams: f64, strength: Option<Strength>, note: &str| ProductSpec {
        kind,
        strength,
        size: Amount::MassG(Estimate::exact(grams, Basis::Label)),
        storage: Storage { celsius: Some(ROOM), dark: Some(true), closed: Some(true) },
        made: None,
        note: note.to_owned(),
    };
    let pure = |percent: f64| Strength {
        figure: Estimate::within(percent, 0.01, Basis::Label),
        stated_as: StrengthBasis::SubstancePercentByMass,
        density_g_per_ml: None,
    };
    let (cellar, sill) = ("Bleach, cellar bottle", "Bleach, windowsill bottle");
    let tub = "Percarbonate tub";
    let cellar_id = add(journal, at, cellar, bottle(5000.0, 12.0, true, OPENING + 20, ""));
    let sill_id = add(
        journal,
        at,
        sill,
        bottle(2000.0, 27.0, false, SILL_MADE, "Was here when we moved in. South window."),
    );
    let tub_note = "Goes in as powder. Never closed up once it is wet.";
    let tub_id = add(
        journal,
        at,
        tub,
        jar(ProductKind::Percarbonate, 3000.0, Some(powder.strength()), tub_note),
    );
    add(
        journal,
        at,
        "Soda ash",
        jar(ProductKind::SodaAsh, 5000.0, Some(pure(99.0)), "For cooking."),
    );
    let thiosulfate = jar(ProductKind::Thiosulfate, 500.0, Some(pure(99.0)), "The crystals.");
    let thiosulfate = add(journal, at, "Thiosulfate", thiosulfate);
    let citric = add(
        journal,
        at,
        "Citric acid",
        jar(ProductKind::CitricAcid, 1000.0, Some(pure(99.5)), "Other end of the shelf."),
    );
    let chalk =
        add(journal, at, "Chalk", jar(ProductKind::CalciumCarbonate, 1000.0, Some(pure(98.0)), ""));
    let opened = ProductOpened { on: journal.day(222) };
    let when = journal.on(222, 10, 2);
    journal.write(Author::Marl, when, Subject::Bottle(cellar_id), Body::ProductOpened(opened));
    let truth = aged(&hypochlorite, SILL_MADE - SILL_TESTED, 27.0, true)?
        / aged(&hypochlorite, 0, 27.0, false)?;
    Ok(Shelf {
        cellar: StockBleach { id: cellar_id, name: cellar, bleach: hypochlorite, true_share: 1.0 },
        sill: StockBleach { id: sill_id, name: sill, bleach: hypochlorite, true_share: truth },
        percarbonate: StockBleach { id: tub_id, name: tub, bleach: powder, true_share: 1.0 },
        thiosulfate,
        citric,
        chalk,
    })
}

/// Days before the season's end: when the windowsill bottle was made, and when each was tested.
const SILL_MADE: i64 = OPENING + 380;
const SILL_TESTED: i64 = 187;
const CELLAR_TESTED: i64 = 120;

/// Titrates the windowsill bottle, after a bath with it was too weak.
///
/// # Errors
/// If the core refuses the titration.
pub fn test_sill(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<StockBleach, DemoError> {
    let truth = aged(&shelf.sill.bleach, SILL_MADE - SILL_TESTED, 27.0, true)?;
    let note = "So that is why. The label is a memory.";
    let tested = titrate(journal, journal.on(SILL_TESTED, 10, 20), &shelf.sill, truth, note)?;
    let about = Subject::Bottle(shelf.sill.id);
    let text = "Moved it to the cellar. Use it up on hemp, or not at all.".to_owned();
    journal.write(
        Author::Teasel,
        journal.on(SILL_TESTED, 10, 55),
        about,
        Body::Note(Note { text }),
    );
    Ok(tested)
}

/// Titrates the cellar bottle at midsummer.
///
/// # Errors
/// As [`test_sill`].
pub fn test_cellar(journal: &mut JournalBuilder, shelf: &Shelf) -> Result<StockBleach, DemoError> {
    let truth = aged(&shelf.cellar.bleach, OPENING + 20 - CELLAR_TESTED, 12.0, false)?;
    let note = "Half empty, still good. The cellar is worth the stairs.";
    titrate(journal, journal.on(CELLAR_TESTED, 9, 30), &shelf.cellar, truth, note)
}

struct ProductSpec {
    kind: ProductKind,
    strength: Option<Strength>,
    size: Amount,
    storage: Storage,
    /// Days back.
    made: Option<i64>,
    note: String,
}

fn add(journal: &mut JournalBuilder, at: Timestamp, name: &str, product: ProductSpec) -> Ulid {
    let id = journal.fresh_id(at);
    let body = Body::ProductAdded(ProductAdded {
        name: name.to_owned(),
        product: product.kind,
        strength: product.strength,
        size: Some(product.size),
        bought: product.made.is_none_or(|made| made < OPENING + 100).then(|| journal.day(OPENING)),
        made: product.made.map(|made| journal.day(made)),
        opened: (product.made == Some(SILL_MADE)).then(|| journal.day(SILL_MADE - 60)),
        storage: product.storage,
        price: None,
        note: product.note,
    });
    journal.write(Author::Teasel, at, Subject::Bottle(id), body);
    id
}

fn own_figures(journal: &mut JournalBuilder) {
    let at = journal.on(OPENING, 9, 20);
    let own = |what, value: f64, off: f64, note: &str| {
        let figure = Estimate { basis: Basis::OwnRecord, ..read(value, off) };
        Body::OwnFigure(OwnFigure { what, figure, note: note.to_owned() })
    };
    for body in [
        own(
            OwnFigureOf::SqueezeDryness,
            SQUEEZE,
            0.015,
            "Six balls, Marl's hands, dried overnight.",
        ),
        own(OwnFigureOf::TapPh, TAP_PH, 0.1, ""),
        own(OwnFigureOf::TapHardnessMgPerL, HARDNESS, 20.0, "Off the water company's letter."),
        own(OwnFigureOf::RoomCelsius, ROOM, 2.0, "By the sink. Colder by the door."),
        own(
            OwnFigureOf::CoolingTauMinutes { vessel: "blue bucket".into() },
            330.0,
            40.0,
            "Lid on, towel round it.",
        ),
        own(OwnFigureOf::LoadMl { vessel: "blue bucket".into() }, 12_000.0, 500.0, ""),
        own(
            OwnFigureOf::GramsPerSpoon { of: Additive::Percarbonate, spoon_ml: 15 },
            17.0,
            1.0,
            "Level, five times.",
        ),
        own(
            OwnFigureOf::Yield { fibre: "cattail leaf".into() },
            0.27,
            0.03,
            "Last year's four cooks.",
        ),
    ] {
        journal.write(Author::Marl, at, Subject::Studio, body);
    }
}

/// Strength of a bottle after a time in days, g/L available chlorine, by the core.
fn aged(label: &Bleach, days: i64, celsius: f64, lit: bool) -> Result<f64, DemoError> {
    let Bleach::Hypochlorite(bottle) = label else {
        return Err(DemoError::of("no bottle")(label));
    };
    let strength = bottle.liquid().map_err(DemoError::of("a label"))?.available_chlorine.estimate();
    let evidence = StrengthEvidence { kind: EvidenceKind::Label, strength, days_ago: days as f64 };
    let celsius = Estimate::within(celsius, 0.1, Basis::OwnRecord);
    let keeping = StorageConditions { celsius, opened: lit, lit };
    let now = strength_now(&[evidence], &keeping).map_err(DemoError::of("a bottle's age"))?;
    Ok(in_grams_per_litre(now.available_chlorine.value))
}

/// Two runs of 1 mL against 0.1 mol/L thiosulfate.
fn titrate(
    journal: &mut JournalBuilder,
    at: Timestamp,
    stock: &StockBleach,
    truth_g_per_l: f64,
    note: &str,
) -> Result<StockBleach, DemoError> {
    const NORMALITY: f64 = 0.1;
    let exact = truth_g_per_l / Analyte::AvailableChlorine.grams_per_equivalent() / NORMALITY;
    let titre = |off: f64| ((exact + off) * 20.0).round() / 20.0;
    let titres = [titre(-0.02), titre(0.06)];
    let readings = TitrationReadings {
        normality: NORMALITY,
        titres: &titres.map(millilitres),
        blank: millilitres(0.0),
        reading_error: millilitres(0.05),
    };
    let found = liquid(Analyte::AvailableChlorine, millilitres(1.0), &[], &readings)
        .map_err(DemoError::of("a titration"))?;
    let bleach = Bleach::Hypochlorite(Bottle::titrated(found.strength));
    let body = Body::StrengthFound(StrengthFound {
        method: StrengthMethod::IodometricTitration,
        strength: bleach.strength(),
        runs: titres
            .map(|titrant_ml| TitrationRun {
                sample_ml: Some(1.0),
                sample_g: None,
                titrant_mol_per_l: NORMALITY,
                titrant_ml,
                blank_ml: None,
            })
            .to_vec(),
        dilution: None,
        strip_mg_per_l: None,
        note: note.to_owned(),
    });
    journal.write(Author::Teasel, at, Subject::Bottle(stock.id), body);
    Ok(StockBleach { bleach, true_share: 1.0, ..stock.clone() })
}
