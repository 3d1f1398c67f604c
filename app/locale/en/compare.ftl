### Batches side by side, and the readings of a batch over time.

compare-title = Side by side
compare-too_few = Two batches are needed. Go back to Batches, press Compare and tick two to four.
compare-differs = What differs
compare-nothing_differs = Nothing that was written down differs.
compare-fact = Fact
compare-equal =
    { $count ->
        [one] The same in all: { $count } line
       *[other] The same in all: { $count } lines
    }
compare-group-pulp = Pulp
compare-group-plan = Plan
compare-group-bath = In the bath
compare-group-wash = Wash
compare-group-result = Result
compare-fact-fibre = Fibre
compare-fact-cook_alkali = Cooked in
compare-fact-cook_time = Cooked for
compare-fact-cook_yield = Kept by the cook
compare-fact-dry_fibre = Dry fibre
compare-fact-oxidant = Bleach
compare-fact-product = Product
compare-fact-bleach_amount = Amount of bleach
compare-fact-charge = Charge on dry fibre
compare-fact-consistency = Consistency
compare-fact-planned_temperature = Planned temperature
compare-fact-planned_time = Planned time
compare-fact-predicted_ph = Predicted pH
compare-fact-time_in_bath = Time in bath
compare-fact-first_temperature = Temperature, first reading
compare-fact-last_temperature = Temperature, last reading
compare-fact-first_ph = pH, first reading
compare-fact-last_ph = pH, last reading
compare-fact-last_strip = Strip, last reading
compare-fact-rinses = Rinses
compare-fact-rinse_water = Rinse water
compare-fact-antichlor = Antichlor
compare-fact-lightness_before = Lightness L*, first
compare-fact-lightness_after = Lightness L*, last
compare-fact-lightness_gained = Lightness gained
compare-fact-yellowness_after = Yellowness, last
compare-fact-bleach_yield = Fibre kept in bleaching
compare-fact-proof = End tests
compare-fact-cost = Cost of chemicals
compare-proof-clean = Clean
compare-proof-unsigned = Passed, not signed off
compare-proof-untested = Not all tested
compare-proof-failed = A test failed
compare-curves = Over time
compare-key = Each curve has the letter of its batch at its end. A filled dot is wet pulp, a square pressed, a ring dried.
compare-at = { $letter }, { $when }
compare-told = { $batch }: lightness { $from } to { $to } in { $minutes } min of bleach.
compare-told_one = { $batch }: lightness { $l }.
compare-no_photo = No photo
compare-photos_how = Photos in which a white was marked are corrected by it, so that their colours can be compared.
compare-photo_l = Corrected. L* { $l }
compare-photo_raw = Not corrected: its colour cannot be compared.

run-lightness = Lightness L*
run-yellowness = Yellowness
run-ph = pH
run-celsius = Temperature, °C
run-fahrenheit = Temperature, °F
run-strip = Strip, mg/L
run-minutes = min in bleach
run-after = after
run-after_nth = After the bath, { $n }
run-before = Before
run-when = When
run-told = { $name }: { $from } to { $to }.
run-told_one = { $name }: { $value }.
run-title = The whole run
run-key = Dotted lines are acts: stirring, warming, additions and the stop. A filled dot is wet pulp, a square pressed, a ring dried.
