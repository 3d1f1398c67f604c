//! After the bath: rinses, antichlor, neutral finish, alkaline reserve, end tests, sign-off.

use bleachfield_core::chemistry::alkaline_reserve::{PERMANENT, reserve_dose};
use bleachfield_core::chemistry::dechlorination::{
    AntichlorReagent as Reagent, AntichlorRequest, ResidualEvidence, antichlor_dose,
};
use bleachfield_core::derive::end_test_result;
use bleachfield_core::journal::{
    Acid, AcidFinished, Amount, Antichlor, Antichlored, Body, EndTest, EndTestOf, Figure, Note,
    Outcome, ReserveAdded, Rinsed, SignedOff, Subject,
};
use bleachfield_core::pulp::sign_off::{self, OxidantsUsed, PH_FROM_TAP};
use bleachfield_core::quantity::{
    Basis, Estimate, grams, grams_per_litre, in_grams, in_share, millilitres, share,
};
use ulid::Ulid;

use super::BatchSimulation;
use crate::studio::DemoError;
use crate::studio::model::{TAP_PH, meter, read, rinsed, strip};

impl BatchSimulation<'_> {
    /// Rinses with a volume in litres, with readings of the expressed water after each.
    pub fn rinse(&mut self, times: u32, litres: f64, note: &str) -> Result<(), DemoError> {
        for n in 0..times {
            self.wait(16);
            self.rinses += 1;
            let (ph, oxidant) = self.expressed_water(litres)?;
            let note = if n + 1 == times { note } else { "" };
            self.write(Body::Rinsed(Rinsed {
                water_l: read(litres, 0.1),
                minutes: Some(read(10.0, 1.0)),
                dryness_after: None,
                ph: Some(meter(ph)),
                strip_mg_per_l: Some(strip(oxidant)),
                strip_of: None,
                note: note.to_owned(),
            }));
        }
        self.liquor = self.expressed_water(litres)?;
        self.rinses = 0;
        Ok(())
    }

    /// Adds the core's dose of thiosulfate for the strip's reading.
    pub fn antichlor(&mut self, product: Ulid, note: &str) -> Result<(), DemoError> {
        self.wait(9);
        let seen = strip(self.liquor.1).value / 1000.0;
        let litres = 4.0;
        let request = AntichlorRequest::new(
            Reagent::ThiosulfatePentahydrate,
            ResidualEvidence::Strip(grams_per_litre(seen)),
            Estimate::within(millilitres(litres * 1000.0), 0.05, Basis::Measured),
            share(0.99),
        );
        let liquor_ph = Some(Estimate::within(self.liquor.0, 0.02, Basis::Measured));
        let dose = antichlor_dose(&AntichlorRequest { liquor_ph, ..request })
            .map_err(DemoError::of("an antichlor"))?;
        let weighed = (in_grams(dose.dose.value) * 10.0).ceil() / 10.0;
        self.write(Body::Antichlored(Antichlored {
            reagent: Antichlor::ThiosulfatePentahydrate,
            product: Some(product),
            grams: read(weighed, 0.05),
            minutes: Some(read(10.0, 1.0)),
            strip_mg_per_l: Some(strip(0.0)),
            note: note.to_owned(),
        }));
        self.liquor.1 = 0.0;
        self.changed = Some(self.at);
        Ok(())
    }

    /// A neutral finish with citric acid, g.
    pub fn neutralize(&mut self, product: Ulid, spoon_g: f64, note: &str) {
        self.wait(12);
        let before = self.liquor.0;
        self.liquor.0 = TAP_PH - 0.1;
        let after = self.liquor.0;
        self.write(Body::AcidFinished(AcidFinished {
            acid: Acid::Citric,
            product: Some(product),
            amount: Amount::MassG(read(spoon_g, 0.1)),
            ph_before: Some(meter(before)),
            ph_after: Some(meter(after)),
            note: note.to_owned(),
        }));
        self.changed = Some(self.at);
    }

    /// Adds calcium carbonate for the alkaline reserve of permanent paper. Water in
    /// equilibrium with calcite and air has pH 8.3 (from memory).
    pub fn reserve(&mut self, chalk: Ulid) -> Result<(), DemoError> {
        self.wait(10);
        let retention = Estimate { value: 0.45, low: 0.3, high: 0.6, basis: Basis::Assumed };
        let fibre = Estimate::within(grams(self.dry_g()), 0.07, Basis::Computed);
        let dose = reserve_dose(fibre, share(PERMANENT), retention.map(share))
            .map_err(DemoError::of("a reserve"))?;
        let calcium_carbonate_g = read(in_grams(dose.dose.value).round(), 0.5);
        let retention_share = Some(retention.map(share).map(in_share));
        self.write(Body::ReserveAdded(ReserveAdded { calcium_carbonate_g, retention_share }));
        self.liquor.0 = 8.3;
        self.changed = Some(self.at);
        let text = format!("Took {} g for a batch.", calcium_carbonate_g.value);
        let note = Body::Note(Note { text });
        self.journal.write(self.author, self.at, Subject::Bottle(chalk), note);
        Ok(())
    }

    /// Does the end tests required after the bleaches used.
    pub fn end_tests(&mut self) {
        let (ph, oxidant) = self.liquor;
        let residue = strip(oxidant);
        let passed = |pass: bool| if pass { Outcome::Passed } else { Outcome::Failed };
        if self.chlorine_used {
            let chlorine = strip(if self.peroxide_used { 0.0 } else { oxidant });
            self.test(EndTestOf::ChlorineStrip, passed(chlorine.value == 0.0), Some(chlorine), "");
        }
        if self.peroxide_used {
            self.test(EndTestOf::PeroxideStrip, passed(residue.value == 0.0), Some(residue), "");
        }
        let shown = meter(ph);
        let near = (shown.value - TAP_PH).abs() <= PH_FROM_TAP + 1e-9;
        self.test(EndTestOf::LastRinsePh, passed(near), Some(shown), "");
        self.test(EndTestOf::Feel, Outcome::Passed, None, "Squeaks.");
    }

    /// Rinses, does the end tests and signs off.
    pub fn wash_and_sign_off(
        &mut self,
        rinses: u32,
        litres: f64,
        note: &str,
        reason: &str,
    ) -> Result<(), DemoError> {
        self.rinse(rinses, litres, note)?;
        self.end_tests();
        self.sign_off(reason)
    }

    /// Signs off: clean if the core says so, otherwise with a reason.
    pub fn sign_off(&mut self, reason: &str) -> Result<(), DemoError> {
        self.wait(3);
        let used = OxidantsUsed { hypochlorite: self.chlorine_used, peroxide: self.peroxide_used };
        let signed = sign_off::sign_off(used, &self.tests, self.changed, reason)
            .map_err(DemoError::of("a sign-off"))?;
        self.write(Body::SignedOff(SignedOff { complete: signed.clean, reason: signed.reason }));
        Ok(())
    }

    fn test(&mut self, test: EndTestOf, outcome: Outcome, figure: Option<Figure>, note: &str) {
        self.wait(2);
        let entry = EndTest { test, outcome, figure, note: note.to_owned() };
        self.tests.extend(end_test_result(&entry, self.at));
        self.write(Body::EndTest(entry));
    }

    fn expressed_water(&self, litres: f64) -> Result<(f64, f64), DemoError> {
        rinsed(self.squeezed_g(), self.liquor, self.rinses, litres)
    }
}
