### The shelf: bottles and tubs, their age and strength, titration.

shelf-add = Add a bottle or tub
shelf-finished =
    { $count ->
        [one] { $count } used up
       *[other] { $count } used up
    }
shelf-missing = Not on this shelf
shelf-missing_why = The bottle or tub at this address is not on this phone, or its entry was undone.
shelf-empty-title = Nothing on the shelf yet
shelf-empty-what = Chlorine bleach loses strength in its bottle, and labels count in different ways. Add yours to the shelf, and every bath is calculated with the strength it has today.
shelf-empty-age = Its age and the temperature where you keep it give its strength now, with a range.
shelf-empty-label = The number on the label, in the way that label counts, is converted to grams per litre.
shelf-empty-test = A strip or a titration is better than any label. The best measurement is used, and the shelf says which.
shelf-sort-bleach = Bleaches
shelf-sort-alkali = Alkalis
shelf-sort-antichlor = Antichlors
shelf-sort-acid = Acids
shelf-sort-chalk = Chalk
shelf-sort-other = Other things
shelf-kind-hypochlorite = Chlorine bleach (hypochlorite)
shelf-kind-percarbonate = Percarbonate (oxygen bleach powder)
shelf-kind-peroxide = Hydrogen peroxide
shelf-kind-soda_ash = Soda ash
shelf-kind-washing_soda = Washing soda
shelf-kind-lye = Lye (caustic soda)
shelf-kind-baking_soda = Baking soda
shelf-kind-thiosulfate = Sodium thiosulfate
shelf-kind-sulfite = Sodium sulfite
shelf-kind-bisulfite = Sodium bisulfite
shelf-kind-metabisulfite = Sodium metabisulfite
shelf-kind-ascorbic_acid = Ascorbic acid (vitamin C)
shelf-kind-citric_acid = Citric acid
shelf-kind-acetic_acid = Vinegar, acetic acid
shelf-kind-calcium_carbonate = Chalk (calcium carbonate)
shelf-kind-other = Something else
shelf-card-chlorine_uncertain = { $low } to { $high } g/L available chlorine: measure it
shelf-card-chlorine = { $n } g/L available chlorine now
shelf-card-percarbonate = { $n } % percarbonate
shelf-stated-naocl_mass = { $n } % sodium hypochlorite by mass
shelf-stated-naocl_volume = { $n } % sodium hypochlorite by volume
shelf-stated-chlorine_litre = { $n } g/L available chlorine
shelf-stated-chlorine_mass = { $n } % available chlorine by mass
shelf-stated-chlorine_volume = { $n } % available chlorine by volume
shelf-stated-peroxide_mass = { $n } % hydrogen peroxide by mass
shelf-stated-peroxide_volume = { $n } % hydrogen peroxide by volume
shelf-stated-percarbonate = { $n } % percarbonate
shelf-stated-active_oxygen = { $n } % active oxygen
shelf-stated-substance = { $n } % by mass
shelf-range = { $low } to { $high } { $unit }
shelf-unknown_strength = Strength not known
shelf-rests_on-titration = From a titration { $ago }, calculated for today.
shelf-rests_on-strip = From a strip { $ago }, calculated for today. A titration would narrow the range.
shelf-rests_on-label = From the label, assumed true { $ago } and calculated for today. A strip or a titration is better.
shelf-rests_on-nothing = No label and no test, so the range is a wide guess. Test it before an important bath.
shelf-rests_on-test = From a test { $ago }.
shelf-rests_on-label_only = From the label.
shelf-age-made = Made { $ago }
shelf-age-bought = Bought { $ago }; when it was made is not known
shelf-age-opened = Opened { $ago }; when it was made is not known
shelf-age-added = Added { $ago }; its age is not known
shelf-ago-ahead = in the future; check the date of this phone
shelf-ago-today = today
shelf-ago-days =
    { $count ->
        [one] { $count } day ago
       *[other] { $count } days ago
    }
shelf-ago-weeks =
    { $count ->
        [one] { $count } week ago
       *[other] { $count } weeks ago
    }
shelf-ago-months =
    { $count ->
        [one] { $count } month ago
       *[other] { $count } months ago
    }
shelf-ago-years =
    { $count ->
        [one] { $count } year ago
       *[other] { $count } years ago
    }
shelf-truth-measure = The range is too wide for a dose. Measure it before you use it, or buy a new one.
shelf-truth-chlorine = Available chlorine now
shelf-truth-as_naocl = As sodium hypochlorite by volume
shelf-truth-left = Left since then
shelf-truth-best_case = The upper end is the best case: a clean bottle kept closed and dark. Light, air, warmth and traces of metal only make it weaker.
shelf-truth-opened = Opened: the lower end is lower, for extra losses that we cannot calculate.
shelf-truth-lit = In the light: the lower end is lower, for extra losses that we cannot calculate.
shelf-truth-warm = It is kept warm. With every { DEGREES(10, of: "difference") } more it loses strength three to four times as fast.
shelf-truth-temperature_assumed = The temperature where it is kept was not entered. Assumed: a room of { DEGREES(10, to: 28) }.
shelf-truth-beyond_dilute = Weaker than the bleach that this calculation was measured with. Other losses matter more here, and it may be weaker than shown.
shelf-truth-beyond_cold = Colder than the calculation was measured for ({ DEGREES(15) }). The figure is an extrapolation.
shelf-truth-beyond_hot = Hotter than the calculation was measured for ({ DEGREES(55) }). Do not rely on this figure.
shelf-truth-beyond_long_exposed = Open or in light for more than 60 days. The loss was measured for 30 days only; longer is a guess.
shelf-truth-beyond_low_in_lye = Too little lye for the calculation: at a lower pH bleach loses strength faster than this.
shelf-truth-peroxide = Hydrogen peroxide in it
shelf-truth-active_oxygen = Active oxygen
shelf-truth-percarbonate = Percarbonate in the powder
shelf-truth-ten_grams = 10 g of it in a litre
shelf-truth-gives_peroxide = Peroxide released
shelf-truth-gives_soda = Soda ash that comes with it
shelf-truth-gas = A kilogram of it can give off { $litres } L of oxygen, { $most } L at most.
shelf-truth-never_closed = Never close the liquor, wet powder or wet pulp tightly: the gas has to get out.
shelf-truth-filler = Laundry powders often hold more soda ash. That is not counted here.
shelf-truth-peroxide_ages = Peroxide in its own vented bottle keeps for months in a clean dark place. Never pour any back. A titration shows what is left.
shelf-traps-head = What “{ $n } %” on a label can mean
shelf-traps-head_litre = The same bottle on other labels ({ $n } g/L)
shelf-traps-why = Labels count in four ways. The same number means a different strength in each, in grams of available chlorine per litre.
shelf-traps-why_litre = A label in g/L of available chlorine is clear. Other labels would give this bottle these numbers.
shelf-traps-mine = (this label)
shelf-traps-in_litres = In grams per litre, this bottle was made with { $n } g/L of available chlorine.
shelf-traps-cannot_be = not possible
shelf-traps-density = The ways by mass need the density. None was entered, so { $density } g/mL is assumed, the usual one at this strength.
shelf-new-title = A new bottle or tub
shelf-new-sort = What is it for?
shelf-new-kind = What is it?
shelf-new-household = Which one is it exactly?
stock-head = Make a clear stock solution
stock-share_hint = Available chlorine on the label: 65 to 70 % for pool granules, 20 to 35 % for bleaching powder.
stock-volume_hint = Water and powder together.
stock-strength = Clear liquid, available chlorine
stock-step-wear = Wear goggles and gloves. Work outside or at an open window. Use a clean, dry plastic spoon.
stock-step-into_water = Put the powder into the water, a little at a time, and stir.
stock-step-settle = Let it settle for at least { $hours } hours, loosely covered, in the dark.
stock-step-pour = Pour off the clear liquid. Up to { $sediment } stays at the bottom: never put that on pulp. Rinse it away with plenty of water.
stock-step-label = Label it as chlorine bleach with its strength. Keep the dry powder in its own box, dry, away from everything that burns.
stock-chalk = The liquid holds calcium. Soda ash makes it cloudy with chalk; up to { $soda } of soda ash removes all of it. If you add soda, let it settle again before the pulp goes in.
shelf-new-name = Name on the shelf
shelf-new-name_hint = For example the place where it is. If empty, the kind of product is its name.
shelf-new-size_hint = How much it held when new (optional).
shelf-new-price_hint = What the whole package cost, in your own money (optional). Ways to a colour then show a cost.
field-product_price = price
shelf-new-label_head = The label
shelf-new-dates_head = Dates
shelf-new-dates_hint = Leave empty what you do not know. The older date counts.
shelf-new-made_hint = Printed on some bottles, often as a code.
shelf-new-opened_hint = Leave empty while it is closed.
shelf-new-kept_head = How it is kept
shelf-new-celsius_hint = The usual temperature of the place. If empty, a room is assumed.
shelf-new-dark = Light
shelf-new-dark_yes = In the dark, or not see-through
shelf-new-dark_no = Clear, or in the light
shelf-new-closed = Lid
shelf-new-closed_yes = Its own lid, closed
shelf-new-closed_no = Loose, or open
shelf-new-not_noted = Not noted
shelf-new-note = Anything else to note
shelf-new-save = Add to the shelf
shelf-new-stuck = Something above is missing or not possible. The message is beside its field. Nothing you typed is lost.
shelf-substance_hint = As on the label, such as 5 % for vinegar (optional).
shelf-peroxide_counts = The label counts
shelf-peroxide_mass = % by mass (w/w)
shelf-peroxide_volume = % by volume (w/v)
shelf-peroxide_hint = From the pharmacy it is often 3 or 6 %. “10 volumes” is 3 %, “20 volumes” is 6 %, “40 volumes” is 12 %.
shelf-peroxide_assumed = It may hold 3 to 12 % hydrogen peroxide. That range is too wide for a dose. Measure it with a titration.
shelf-history = History
shelf-doing = Actions
shelf-gone = Used up { $date }
shelf-used_in = Used in
shelf-kept_head = Label and storage
shelf-fact-label = Label
shelf-fact-size = Size
shelf-fact-made = Made
shelf-fact-bought = Bought
shelf-fact-opened = Opened
shelf-fact-kept_at = Kept at
shelf-fact-light = Light
shelf-fact-lid = Lid
shelf-do-opened = Opened
shelf-do-strip = Strip test
shelf-do-titrate = Titration
shelf-do-used_up = Used up
shelf-do-note = Note
shelf-do-rename = Rename
shelf-opened_why = From this day it counts as an open bottle.
shelf-used_up_why = It leaves the shelf, and its record stays. Use up the rest of a bleach on more pulp.
shelf-why = Reason, if it was thrown out
shelf-note = Note
shelf-nothing_written = Nothing recorded yet.
shelf-take_back = Undo
shelf-take_back_this = Undo: { $what }
shelf-told-label = The label: { $label }
shelf-told-opened = On { $date }
shelf-told-titrated =
    { $count ->
        [one] By titration, { $count } run
       *[other] By titration, { $count } runs
    }
shelf-told-permanganate = By titration with permanganate
shelf-told-strip = By a strip
shelf-told-other = In another way
shelf-told-strip_read = Diluted 1 in { $one_in }, the strip read { $mg } mg/L
shelf-strip-thin = Dilute it so that the strip can read it: put 1 mL of the bottle in a jug, add clean water to make 500 mL, and stir. A 5 % bleach then reads about 100 mg/L.
shelf-strip-dip = Dip a chlorine strip (free or total chlorine, mg/L) for as long as its label says, and compare at once.
shelf-strip-range = If the strip shows its highest colour, it may be more. Dilute further and dip a new strip.
shelf-strip-one_in_hint = 1 mL made up to 500 mL is 500; 2 mL made up to 1 L is also 500.
shelf-strip-reading_hint = What the strip shows. The dilution is counted for you.
shelf-titrate-title = Titration
shelf-titrate-what = Iodide turns all the bleach into iodine. Thiosulfate of known strength is then added drop by drop until the iodine is gone. The amount used shows how strong the bleach is.
shelf-titrate-one = 1. Dilute it
shelf-titrate-two = 2. Turn it into iodine
shelf-titrate-three = 3. Titrate
shelf-titrate-four = 4. Result
shelf-titrate-chlorine-thin = Measure a little from the bottle with a pipette or a syringe, add clean water to a known volume, and mix.
shelf-titrate-chlorine-iodide = Into a clean glass: 50 mL of water and about 2 g of potassium iodide, dissolved.
shelf-titrate-chlorine-sample = Add the portion of diluted bleach. So far only iodide and water are in the glass.
shelf-titrate-chlorine-acid = Then add 15 mL of white vinegar and swirl. It turns brown. Use vinegar or another acetic acid, never hydrochloric acid.
shelf-titrate-chlorine-wait = Titrate at once, out of the sun.
shelf-titrate-peroxide-thin = Weigh or measure a little, add clean cool water to a known volume, and mix until all is dissolved. Use it fresh, and do not close it.
shelf-titrate-peroxide-iodide = Into a clean glass: 50 mL of water and about 2 g of potassium iodide, dissolved.
shelf-titrate-peroxide-sample = Then add 20 mL of white vinegar, and the portion of diluted peroxide.
shelf-titrate-peroxide-acid = Add 3 drops of a 3 % solution of ammonium molybdate. Without it the iodine forms too slowly, and the result is too low.
shelf-titrate-peroxide-wait = Cover it and keep it in the dark for 10 minutes. It turns brown.
shelf-titrate-why_acid_here = Acid and chlorine bleach make chlorine gas. Only here is it done: a few millilitres, diluted, with the iodide in first to take up the chlorine. Never in the bottle, never in a bath. Open a window, and keep to this order.
shelf-titrate-to_straw = Add thiosulfate while you swirl, until the brown is pale yellow.
shelf-titrate-starch = Add a few drops of starch solution. It turns dark blue.
shelf-titrate-to_clear = Go on drop by drop until the blue is gone. Read how much thiosulfate you used.
shelf-titrate-again = Repeat with a fresh portion until two results agree.
shelf-titrate-aliquot_hint = How much of the diluted liquid went into the glass each time.
shelf-titrate-taken_hint = Usual: 10 mL of the bottle.
shelf-titrate-weighed_hint = Usual: 1 g of the powder.
shelf-titrate-whole_hint = Usual: 250 mL.
shelf-titrate-normality_hint = As on the bottle of thiosulfate: 0.1 N is 0.1 mol/L (24.8 g of the crystals in a litre).
shelf-titrate-read_with = Measured with
shelf-titrate-burette = A burette
shelf-titrate-syringe = A syringe
shelf-titrate-titre = Thiosulfate used, run { $n }
shelf-titrate-another = Add a run
shelf-titrate-blank_hint = The same without bleach. If empty, zero.
shelf-titrate-waiting = Enter what you took and the first run. Then the strength is shown here.
shelf-titrate-cannot_be = No strength can be calculated. See the message beside the field.
shelf-titrate-one_only = One run does not show how well you can repeat it. Do a second.
shelf-titrate-agree = The runs agree within { $spread } %.
shelf-titrate-disagree = The runs differ by { $spread } %. Repeat until two agree within 2 %.
shelf-titrate-outlier = Run { $n } differs from the others. It is still counted; repeat it, or empty its field.

refusal-missing = Something is missing here: { $field }.
refusal-date_in_future = This day is { $ahead } in the future. Choose today or an earlier day.
refusal-date_before_made = It cannot have been bought or opened before it was made. One of the two dates is wrong.
refusal-date_too_old = That is more than fifty years ago. Check the year.

field-bought = bought
field-made = made
field-opened = opened
field-kept_at = temperature where it is kept
field-product_size = size of the container
field-peroxide_strength = strength of the peroxide
field-substance_share = strength on the label
field-strip_reading = strip reading
field-dilution = dilution, one in
field-strength = strength
field-age = age
field-percarbonate = percarbonate in the powder
field-active_oxygen = active oxygen
field-sample = amount taken from the bottle
field-powder_weighed = powder weighed
field-diluted_to = volume after adding water
field-aliquot = portion for each run
field-normality = strength of the thiosulfate, mol/L
field-titre = thiosulfate used
field-blank = blank

shelf-curve-axis = g/L
shelf-curve-today = today
shelf-curve-key = The line is the most likely strength, the band its range. A dot is a test, the ring the label. The vertical line is today.
shelf-curve-table = Strength as a table
shelf-curve-summary = Available chlorine: { $first } g/L { $ago } days ago, { $now } g/L today, about { $later } g/L in { $days } days.
shelf-curve-by_label = label
shelf-curve-by_strip = strip
shelf-curve-by_titration = titration
shelf-curve-in_days = in { $days } days
shelf-curve-when = When
shelf-curve-range = Range
