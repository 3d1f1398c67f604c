### The shelf: bottles and tubs, their age and strength, titration.

shelf-add = Add a bottle or tub
shelf-finished =
    { $count ->
        [one] { $count } used up
       *[other] { $count } used up
    }
shelf-missing = Not on this shelf
shelf-missing_why = This address names a bottle or tub that is not on this phone, or its entry was taken back.
shelf-empty-title = Nothing on the shelf yet
shelf-empty-what = Chlorine bleach dies in its bottle, and no two labels count alike. Put yours on the shelf, and every bath is reckoned with what is in it today.
shelf-empty-age = When it was made and opened, and how warm it stands, give its strength now, with the range that this leaves.
shelf-empty-label = What the label says, on the label's own basis, becomes grams per litre.
shelf-empty-test = A strip or a titration beats any label. The best evidence is used, and the shelf says which.
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
shelf-rests_on-titration = By a titration { $ago }, carried to today.
shelf-rests_on-strip = By a strip { $ago }, carried to today. A titration would narrow it.
shelf-rests_on-label = By the label, held true { $ago } and carried to today. A strip or a titration would say better.
shelf-rests_on-nothing = No label and no test, so a wide guess stands in. Test it before a bath that matters.
shelf-rests_on-test = By a test { $ago }.
shelf-rests_on-label_only = By the label.
shelf-age-made = Made { $ago }
shelf-age-bought = Bought { $ago }; when it was made is not known
shelf-age-opened = Opened { $ago }; when it was made is not known
shelf-age-added = Noted { $ago }; its own age is not known
shelf-ago-ahead = in the future, so look at this phone's date
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
shelf-truth-chlorine = Available chlorine now
shelf-truth-as_naocl = As sodium hypochlorite by volume
shelf-truth-left = Left of what that showed
shelf-truth-best_case = The upper end is the best case, of a clean bottle kept closed and dark. Light, air, warmth and traces of metal only take away from it.
shelf-truth-opened = Opened: the lower end goes further down, for losses that no law describes.
shelf-truth-lit = In the light: the lower end goes further down, for losses that no law describes.
shelf-truth-warm = It stands warm. Every 10 °C more makes it die three to four times as fast.
shelf-truth-temperature_assumed = Nobody noted how warm it stands, so a room of 10 to 28 °C is assumed.
shelf-truth-beyond_dilute = Thinner than the law was measured for: other losses overtake the one it describes, and it may be weaker than this.
shelf-truth-beyond_cold = Colder than the law was measured for (15 °C); it was carried on down.
shelf-truth-beyond_hot = Hotter than the law was measured for (55 °C); do not lean on this figure.
shelf-truth-beyond_low_in_lye = Too little lye for the law: at a lower pH bleach dies faster than this.
shelf-truth-peroxide = Hydrogen peroxide that it gives
shelf-truth-active_oxygen = Active oxygen
shelf-truth-percarbonate = Percarbonate in the powder
shelf-truth-ten_grams = 10 g of it in a litre
shelf-truth-gives_peroxide = Peroxide released
shelf-truth-gives_soda = Soda ash that comes with it
shelf-truth-gas = A kilogram of it can give off { $litres } L of oxygen, { $most } L at most.
shelf-truth-never_closed = Never close the liquor, wet powder or wet pulp up: the gas has to get out.
shelf-truth-filler = Fillers of laundry powders often hold more soda ash; that comes on top and is not counted here.
shelf-truth-peroxide_ages = Peroxide in its own vented bottle keeps for months, in a clean dark place; once poured, never back. A titration says what is left.
shelf-traps-head = What “{ $n } %” on a label can mean
shelf-traps-head_litre = The same bottle on other labels ({ $n } g/L)
shelf-traps-why = Labels count in four ways. The same number is a different bottle in each, in grams of available chlorine per litre.
shelf-traps-why_litre = A label in g/L of available chlorine needs no guessing. Other labels would give this bottle these numbers.
shelf-traps-mine = (this label)
shelf-traps-in_litres = In grams per litre, as some labels have it, this bottle was made with { $n } g/L.
shelf-traps-cannot_be = stronger than can be
shelf-traps-density = The ways by mass need the density. None was given, so { $density } g/mL is taken, the usual one at this strength.
shelf-new-title = A new bottle or tub
shelf-new-sort = What is it for?
shelf-new-kind = What is it?
shelf-new-household = Which one is it exactly?
shelf-new-name = Name on the shelf
shelf-new-name_hint = Such as the brand or its place. Left empty, it is called what it is.
shelf-new-size_hint = How much it held when new. May be left empty.
shelf-new-label_head = The label
shelf-new-dates_head = Dates
shelf-new-dates_hint = Leave out what you do not know. The older date counts.
shelf-new-made_hint = Printed on some bottles, often as a code.
shelf-new-opened_hint = Leave empty while it is closed.
shelf-new-kept_head = How it is kept
shelf-new-celsius_hint = The usual temperature of the place. Left empty, a room is assumed.
shelf-new-dark = Light
shelf-new-dark_yes = In the dark, or not see-through
shelf-new-dark_no = Clear, or in the light
shelf-new-closed = Lid
shelf-new-closed_yes = Its own lid, closed
shelf-new-closed_no = Loose, or open
shelf-new-not_noted = Not noted
shelf-new-note = Anything else to note
shelf-new-save = Put it on the shelf
shelf-new-stuck = Something above is missing or cannot be. It says so beside its field; nothing you typed is lost.
shelf-substance_hint = As the label says it, such as 5 % vinegar. May be left empty.
shelf-peroxide_counts = The label counts
shelf-peroxide_mass = % by mass (w/w)
shelf-peroxide_volume = % by volume (w/v)
shelf-peroxide_hint = Chemist's bottles are often 3 or 6 %. “10 volumes” is 3 %.
shelf-peroxide_assumed = No figure is taken for it. Titrate it, and its strength stands here.
shelf-history = What happened to it
shelf-doing = What to do with it
shelf-gone = Used up { $date }
shelf-used_in = Used in
shelf-kept_head = Label and keeping
shelf-fact-label = The label
shelf-fact-size = It held
shelf-fact-made = Made
shelf-fact-bought = Bought
shelf-fact-opened = Opened
shelf-fact-kept_at = Kept at
shelf-fact-light = Light
shelf-fact-lid = Lid
shelf-do-opened = Opened
shelf-do-strip = Strip test
shelf-do-titrate = Titrate it
shelf-do-used_up = Used up
shelf-do-note = Note
shelf-do-rename = Rename
shelf-opened_why = From this day on it is reckoned as an open bottle.
shelf-used_up_why = It leaves the shelf, and its record stays. What is left of a bleach is best used up on more pulp.
shelf-why = Why, if it was thrown out
shelf-note = Note
shelf-nothing_written = Nothing is written here yet.
shelf-take_back = Take back
shelf-take_back_this = Take back: { $what }
shelf-told-label = The label: { $label }
shelf-told-opened = On { $date }
shelf-told-titrated =
    { $count ->
        [one] By titration, { $count } titre
       *[other] By titration, { $count } titres
    }
shelf-told-permanganate = By titration with permanganate
shelf-told-strip = By a strip
shelf-told-other = By other means
shelf-told-strip_read = Thinned 1 in { $one_in }, the strip read { $mg } mg/L
shelf-strip-thin = Thin it so that the strip can read it: 1 mL of the bottle made up to 500 mL with clean water, stirred. A 5 % bleach then reads about 100 mg/L.
shelf-strip-dip = Dip a chlorine strip (free or total chlorine, mg/L) for as long as its label says, and compare at once.
shelf-strip-range = At the strip's top colour it may be more: thin it further and dip a fresh one.
shelf-strip-one_in_hint = 1 mL made up to 500 mL is 500; 2 mL made up to 1 L is 500, too.
shelf-strip-reading_hint = What the strip shows, as it is. The thinning is reckoned in.
shelf-titrate-title = Titrate it
shelf-titrate-what = Iodide turns all the bleach into iodine, and thiosulfate of known strength takes the iodine away again, drop by drop. How much it took tells how strong the bleach is.
shelf-titrate-one = 1. Thin it
shelf-titrate-two = 2. Turn it into iodine
shelf-titrate-three = 3. Titrate
shelf-titrate-four = 4. What it comes to
shelf-titrate-chlorine-thin = Measure a little of the bottle with a pipette or a syringe, make it up with clean water, and mix.
shelf-titrate-chlorine-iodide = Into a clean glass: 50 mL of water and about 2 g of potassium iodide, dissolved.
shelf-titrate-chlorine-sample = Add the portion of thinned bleach. Nothing else has gone in yet but iodide and water.
shelf-titrate-chlorine-acid = Then 15 mL of white vinegar, swirling. It turns brown. Vinegar or another acetic acid, never hydrochloric.
shelf-titrate-chlorine-wait = Titrate at once, out of the sun.
shelf-titrate-peroxide-thin = Weigh or measure a little, make it up with clean cool water, and mix until all is dissolved. Use it fresh, and do not close it.
shelf-titrate-peroxide-iodide = Into a clean glass: 50 mL of water and about 2 g of potassium iodide, dissolved.
shelf-titrate-peroxide-sample = Then 20 mL of white vinegar, and the portion of thinned peroxide.
shelf-titrate-peroxide-acid = Add 3 drops of a 3 % solution of ammonium molybdate. Without it the iodine comes far too slowly, and the figure is too low.
shelf-titrate-peroxide-wait = Cover it and keep it in the dark for 10 minutes. It turns brown.
shelf-titrate-why_acid_here = Only in this glass does acid ever meet chlorine bleach, thinned, by the millilitre, with the iodide in first to take up the chlorine. Never the bottle, never a bath. Open a window, and pour in this order.
shelf-titrate-to_straw = Run thiosulfate in, swirling, until the brown has paled to straw.
shelf-titrate-starch = Add a few drops of starch solution. It turns dark blue.
shelf-titrate-to_clear = Go on drop by drop until the blue is gone, and read how much thiosulfate went in.
shelf-titrate-again = Repeat with a fresh portion until two agree.
shelf-titrate-aliquot_hint = How much of the thinned liquid went into the glass each time.
shelf-titrate-normality_hint = As the bottle of thiosulfate says: 0.1 N is 0.1 mol/L (24.8 g of the crystals in a litre).
shelf-titrate-read_with = Read with
shelf-titrate-burette = A burette
shelf-titrate-syringe = A syringe
shelf-titrate-titre = Thiosulfate used, titre { $n }
shelf-titrate-another = One more titre
shelf-titrate-blank_hint = What the same without any bleach takes. Left empty, nothing.
shelf-titrate-waiting = Fill in what you took and the first titre, and the strength stands here.
shelf-titrate-cannot_be = No strength can come of this. Look at the field that says so.
shelf-titrate-one_only = One titre says nothing of how well you can repeat it. Do a second.
shelf-titrate-agree = The titres agree, to within { $spread } % of each other.
shelf-titrate-disagree = The titres lie { $spread } % apart. Two within 2 % would do: repeat it.
shelf-titrate-outlier = Titre { $n } stands out from the others. It is still counted; repeat it, or empty its field.

refusal-missing = Something is missing here: { $field }.
refusal-date_in_future = This day is still { $ahead } ahead. Choose today or a day before.
refusal-date_before_made = It cannot have been bought or opened before it was made. One of the two dates is wrong.
refusal-date_too_old = That is more than fifty years ago. Look at the year again.

field-bought = bought
field-made = made
field-opened = opened
field-kept_at = temperature where it stands
field-product_size = size of the container
field-peroxide_strength = strength of the peroxide
field-substance_share = strength on the label
field-strip_reading = strip reading
field-dilution = thinning, one in
field-strength = strength
field-age = age
field-percarbonate = percarbonate in the powder
field-active_oxygen = active oxygen
field-sample = amount taken from the bottle
field-powder_weighed = powder weighed
field-diluted_to = volume it is made up to
field-aliquot = portion for each titre
field-normality = strength of the thiosulfate, mol/L
field-titre = thiosulfate used
field-blank = blank
