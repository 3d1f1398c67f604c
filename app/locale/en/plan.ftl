### The plan of a bath, and its start.

plan-title = Plan a bath
plan-title_of = Plan: { $batch }

plan-steps = Steps of the plan
plan-step_pulp = Pulp
plan-step_bleach = Bleach
plan-step_bath = Bath
plan-step_measure = Measure out
plan-next = Next: { $step }

plan-bar_missing = Still needed: { $what }
plan-bar_basis = what the label counts
plan-bar_refused = This cannot be done. The reason is under “{ $step }”.
plan-bar_danger = First tick the danger above. { $answer }
plan-bar_stopped = Do not start this plan.
plan-bar_bleach = { $amount } bleach
plan-bar_powder = { $amount } powder
plan-bar_soda = { $amount } soda ash
plan-bar_water = { $amount } water
plan-bar_water_at = { $amount } water at { $temperature }
plan-bar_ph = pH { $ph }
plan-waiting = Fill in the pulp and the bleach.

plan-dryness = How dry is it?
plan-dryness_assumed = How dry is it? Not measured
plan-dry_line = About { $dry } dry fibre ({ $low } to { $high })
plan-dry_better = Dry and weigh a pinch of it, and the amounts are right within a few percent.

plan-preset = Begin with
plan-preset_usual = Usual
plan-preset_gentle = Gentle
plan-preset_last = As last time
plan-filled = filled in
plan-usual_range = usual { $low } to { $high }
plan-field_charge = Charge
plan-field_temperature = Temperature
plan-field_minutes = Time
plan-field_consistency = Consistency
plan-consistency_short = 4 to 6 stirs by hand
plan-more = More: pH of the pulp, loads, size, other things in it
plan-comes_of_it = What the bath will be

plan-understood = I have read this and go on

plan-signs_why =
    { $count ->
        [0] Why, and sources
        [one] Why, sources, and one more caution
       *[other] Why, sources, and { $count } more cautions
    }

plan-aim_by = Measure the bleach by
plan-by_charge = The dry fibre
plan-by_strength = The liquor
plan-charge_hint = { $active } on dry fibre. Usual: { $low } to { $high } %. Two mild baths with a wash between them are better for the fibre than one strong bath.
plan-strength_hint = { $active } in all the liquor, with the water in the pulp.
plan-active_chlorine = Available chlorine
plan-active_peroxide = Hydrogen peroxide
plan-size_by = Size of the bath by
plan-by_consistency = Consistency
plan-by_volume = Total volume
plan-consistency_hint = Consistency is the dry fibre in everything in the bucket. 4 to 6 % stirs by hand; 10 % and more is stiff.
plan-volume_hint = Pulp and liquor together.
plan-temperature_hint = Temperature: studios use { $low } to { $high }; the literature prefers { $book_low } to { $book_high }.
plan-minutes_hint = Time: studios use { $low } to { $high } min; the literature has { $book_low } to { $book_high } min. Stop by colour and strip, not by the clock alone.
plan-capacity_hint = To the brim, if one vessel does not hold it all. Leave empty otherwise.
plan-vessel = It is
plan-pot = A pot or bucket
plan-blender = A blender
plan-refused_head = This cannot be done
plan-ways_head = These would work:
plan-result_head = Measure out
plan-soda_ash_why = Peroxide works only in alkali. The soda ash makes the bath the same as one of percarbonate. Dissolve it in the water before the peroxide goes in.
plan-pulp_water = The wet pulp already brings { $water } of water; it is counted.
plan-band = { $low } to { $high }, mostly because of the { $field }
plan-band_only = { $low } to { $high }
plan-assumed_why = Some of this rests on a value that nobody measured.
plan-dry_fibre = Dry fibre
plan-charge = Bleach on dry fibre
plan-strength = Strength of the liquor
plan-consistency = Consistency
plan-total = In the bucket
plan-consistency_readings = By the standard definition this is { $standard }. If the pulp were all dry fibre it would be { $if_dry }; as squeezed pulp to liquor it is { $loose }.
plan-squeezed_hint = By a strip in the water that you squeeze out of the rinsed pulp. It shows what is left of the cook. Near 7 the pulp is rinsed too well, and the pH of the bath may drop too low. Below 6 it is acid: no chlorine bleach. If you leave it empty, a wide estimate is used.
plan-ph = Predicted pH
plan-ph_line = Predicted pH { $ph } ({ $low } to { $high })
plan-ph_assumed = It rests on what was assumed of bottle, water and pulp. Read a strip once it is mixed.
plan-ph_cooled = A sample cooled to { DEGREES(25) }
plan-ph_in_bath = In the bath, at { $temperature }
plan-ph_which = The safe range is for cooled liquor. A paper strip shows the cooled value. A meter in the warm bath shows the lower one.
plan-long_exposed = This bottle was open or in light for more than 60 days. The loss was measured for 30 days only; longer is a guess. Measure it.
plan-ph_leave = Within the safe range, { $low } to { $high }. Add nothing.
plan-ph_too_high = Above the safe range, { $low } to { $high }. Rinse the pulp better, or make the bath larger. More alkali yellows.
plan-ph_below = Below the safe range, { $low } to { $high }.
plan-no_ph = The pH cannot be predicted. { $why }
plan-schedule_head = While it runs
plan-stir_every = Stir every { $time }
plan-check_at = Check colour, pH and strip from { $time } on
plan-reheat_below = Reheat when it falls below { $temperature }
plan-stop_at = Stop at { $time }, or sooner: at the colour you want, or when the strip shows nothing left

plan-bucket = The bucket, by weight: { $bleach } bleach, { $water } added water, { $held } water in the pulp, { $fibre } dry fibre
plan-bucket_bleach = Bleach
plan-bucket_water = Added water
plan-bucket_held = Water in the pulp
plan-bucket_fibre = Dry fibre

plan-ready_wear = Goggles, gloves and an apron on. Window open. Nothing acid, no ammonia near. Strips and thermometer at hand.
plan-ready_water = water in the bucket
plan-ready_water_at = water at { $temperature } in the bucket
plan-ready_soda = soda ash, dissolved in the water
plan-ready_bleach = chlorine bleach from the bottle, into the water
plan-ready_powder = percarbonate powder, into the water
plan-ready_peroxide = peroxide from the bottle, into the water
plan-ready_from = from “{ $product }”, into the water
plan-ready_solution = of the weak solution below, into the water
plan-ready_when_cooled = Only when the pulp has cooled the water.
plan-ready_pulp = wet pulp in. Stir well.
plan-solution = So little cannot be measured in a jug. Mix { $bleach } bleach and { $water } water in a marked cup, and take { $take } of that: it holds { $holds } bleach. Or take { $holds } with a fine syringe and that much more water.
plan-solution_powder = So little cannot be weighed on a studio scale. Dissolve { $bleach } powder in { $water } water, and take { $take } of that at once: it holds { $holds } powder. Pour the rest away. Never close it up.
plan-load_solution = { $amount } solution
plan-load_line = In { $count } loads: { $count } × { $pulp } pulp + { $rest }
plan-warm_why = So that pulp, water and bleach come to the bath’s temperature. Pulp and bleach are taken to be at { $room } (assumed); warm the bucket first.
plan-hot_cold = From kettle and tap
plan-hot_cold_split = { $hot } hot and { $cold } cold make the water at { $temperature }. Pour hot into cold.
plan-too_cold = Even boiling water brings this bath only to { $reaches }, not to { $target }. Take the temperature lower, make the bath larger (a lower consistency), or first warm the pulp in warm water and squeeze it again.
plan-too_hot = The room is too warm for so cold a bath. Cool the pulp first.
plan-expect_strength = Once mixed, a strip reads { $low } to { $high } g/L.
plan-expect_ph = pH strip { $low } to { $high }.
plan-right_amount = The right amount of bleach is between { $low } and { $high }.
plan-start_clock = The clock starts when the bleach meets the pulp.
plan-start_now = Bleach is in. Start the clock
plan-tick_first = Tick all of the list first.
plan-keep = Keep the plan for later
plan-kept = The plan is kept.
plan-plant = Plant or name (optional)
plan-plant_hint = It begins a batch. Left empty, the batch has the date as its name.
plan-unnamed = Pulp, { $date }

company-head = Other things in the bath, or touching it

batch-unknown = That batch is not in this book. It may be on another phone.

### A plan that was kept, at its ready check.

plan-kept_title = Start the planned bath
plan-kept_over = This plan was started or withdrawn.
plan-kept_head = The plan of { $date }
plan-kept_product = { $product }, { $bleach }
plan-kept_typed = { $bleach }, by its label
plan-kept_bleach = Bleach
plan-kept_pulp = Wet pulp
plan-kept_temperature = Temperature
plan-kept_minutes = Time
plan-kept_ph = Predicted pH in the bath
plan-kept_change = Change the plan
plan-kept_again = Plan it again
plan-kept_as_planned = Start it as planned
plan-kept_changed_head = Since this plan was made
plan-kept_ask = What to measure out may be wrong now. Plan it again, or start it as planned if you are sure.
plan-kept_stopped = Do not start this plan as it is. Do this first, then plan it again.
plan-kept_just_changed = Something has just changed. Read it before you start.

plan_change-other_oxidant = There may be { $left } in the pulp now. The plan is for { $planned }. Never put both in one vessel: first wash the pulp and test that it is gone.
plan_change-any_oxidant = There may be another bleach in the pulp now. The plan is for { $planned }. First wash the pulp and test that none is left.
plan_change-acid_pulp = The water in the pulp may be as acid as pH { $ph } now. Acid and chlorine bleach make chlorine gas.
plan_change-acid_added = Acid was added to the pulp, and no pH was read after it. Acid and chlorine bleach make chlorine gas.
plan_change-acid_takes_alkali = The water in the pulp is, or may be, acid now. Acid takes away the alkali that this bath needs.
plan_change-bath_running = A bath of this batch is running. Stop it first.
plan_change-strength_unknown = The strength of “{ $product }” is not known well enough now. Measure it first.
plan_change-strength = “{ $product }” has { $now } now. The plan is for { $planned }.
plan_change-product_finished = “{ $product }” is marked as used up.
plan_change-product_gone = “{ $product }” is no longer on the shelf.
plan_change-weighed = The wet pulp is { $now } at { $now_dryness } dryness now. The plan is for { $planned } at { $planned_dryness }.
plan_change-not_weighed = The weighing of the pulp was withdrawn.
plan_change-rinsed = The pulp was rinsed and not weighed after that. It may hold more or less water now.
