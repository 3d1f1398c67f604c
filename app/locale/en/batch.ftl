### One batch: its page, its record, and the forms that write in it.

batch-colour = Colour, measured and followed
batch-missing = Not in this book
batch-since = { $fibre }, begun { $date }
batch-timeline = What happened
batch-write_down = Write something down
batch-more_to_write = Weigh, rinse, test, put by…
batch-plan = Plan a bath
batch-send = Send this batch
batch-print = Print
batch-entry_menu = Take back or correct this
batch-saved = Saved: { $what }
batch-undone = Taken back. It stays in the record and can be brought back.
batch-elsewhere = ({ $time } in { $zone })
batch-taken_back =
    { $count ->
        [one] Show { $count } entry that was taken back
       *[other] Show { $count } entries that were taken back
    }
batch-mark-taken_back = taken back
batch-mark-corrected = corrected

figure_range = { $low } to { $high }

entry-batch_started = Batch begun
entry-renamed = New name
entry-cooked = Cooked
entry-weighed = Weighed
entry-planned = Plan made
entry-bath_started = Bath started
entry-schedule_changed = Other times set
entry-cue_answered = Cue seen to
entry-stirred = Stirred
entry-reheated = Reheated
entry-added = Added
entry-bath_stopped = Bath stopped
entry-reading = Reading
entry-photo = Photo
entry-colour_reading = Colour measured
entry-colour_target = Colour to bleach towards
entry-note = Note
entry-rinsed = Rinsed
entry-antichlored = Antichlor
entry-end_test = End test
entry-acid_finished = Brought to neutral with acid
entry-reserve_added = Alkaline reserve added
entry-signed_off = Signed off
entry-stored = Put by
entry-sheets = Sheets made
entry-given_up = Given up
entry-lot_drawn = Drawn from a lot
entry-lot_blended = Lots blended
entry-product_added = New on the shelf
entry-product_opened = Opened
entry-strength_found = Strength found
entry-product_finished = Used up
entry-own_figure = Own figure noted
entry-device_named = Phone named
entry-reference_card = A card's own values noted
entry-withdrawn = Taken back
entry-corrected = Corrected
entry-unknown = Something newer

entry_line-sample = Sample: { $wet } wet, { $dry } dry
entry_line-cooked_in = Cooked in: { $alkali }
entry_line-stop_at = Stop at { $when }
entry_line-no_stop = No time set to stop
entry_line-turned = It turned blue or brown: oxidant is there
entry_line-not_turned = It did not turn
entry_line-against = Against { $white }
entry_line-clean = Clean, every end test passed
entry_line-unproven = Not proven clean; the reason stands here
entry_line-keep_by = Keep by { $date }
entry_line-sheets =
    { $count ->
        [one] { $count } sheet
       *[other] { $count } sheets
    }
entry_line-unknown = A newer Bleachfield wrote this entry, and this one cannot read it. It is kept whole and passed on.
entry_line-aim_strength = Aim: { $amount } { $active } in the liquor
entry_line-aim_charge = Aim: { $amount } { $active } on dry fibre
entry_line-run = { $minutes } at { $celsius }
entry_line-loads =
    { $count ->
        [one] In { $count } load
       *[other] In { $count } loads
    }
entry_line-as_planned = As planned
entry_line-by_plan = Amounts of the plan. What was measured out was not noted.
entry_line-product_as_planned = Bleach as planned: { $amount }
entry_line-product_plan_said = The plan said { $amount } of bleach
entry_line-water_as_planned = Water as planned: { $amount }
entry_line-water_plan_said = The plan said { $amount } of water
entry_line-ran_of_plan = Ran { $ran }; the plan said { $plan }
entry_line-ran = Ran { $ran }

figure-raw_dry = Raw fibre, dry
figure-wet_mass = Wet mass
figure-dryness = Dryness
figure-dry_fibre = Oven-dry fibre
figure-water_in_lump = Water in the lump
figure-product_amount = Bleach
figure-soda_ash = Soda ash
figure-water_to_add = Water to add
figure-water_added = Water added
figure-consistency = Consistency
figure-charge = Charge on dry fibre
figure-liquor_strength = Strength of the liquor
figure-ph_foreseen = pH foreseen
figure-celsius = Temperature
figure-from_celsius = Had fallen to
figure-to_celsius = Warmed to
figure-amount = Amount
figure-reading = Read
figure-lightness = Lightness L*
figure-a_star = Green to red a*
figure-b_star = Blue to yellow b*
figure-yellowness = Yellowness
figure-blue_index = Blue index
figure-rinse_water = Water
figure-soaked = Soaked for
figure-dryness_after = Dryness after squeezing
figure-ph = pH
figure-strip = Strip
figure-ph_before = pH before
figure-ph_after = pH after
figure-calcium_carbonate = Calcium carbonate
figure-retention = Reckoned to stay in the sheet
figure-alkali_mass = Alkali
figure-alkali_charge = Alkali on dry fibre
figure-cook_liquor = Cooking liquor
figure-cooked_for = Cooked for
figure-ph_after_rinse = pH squeezed out after rinsing

dryness_from-dried_sample = By a dried sample
dryness_from-own_figure = By this studio's own figure
dryness_from-assumed = Dryness not measured

drying-oven = Dried in an oven at 105 °C
drying-air = Dried in the room

cue_outcome-done = Done: { $cue }
cue_outcome-skipped = Left out: { $cue }

cue_kind-stir = Stir
cue_kind-reheat = Warm it
cue_kind-ph = Read the pH
cue_kind-strip = Dip a strip
cue_kind-photo = Take a photo
cue_kind-stop = Stop

additive-hypochlorite = Chlorine bleach
additive-percarbonate = Percarbonate
additive-peroxide = Peroxide
additive-water = Water
additive-soda_ash = Soda ash
additive-washing_soda = Washing soda
additive-lye = Lye
additive-baking_soda = Baking soda
additive-stabiliser = Stabiliser
additive-other = Something else

reading-ph = pH
reading-available_chlorine_mg_per_l = Chlorine strip
reading-peroxide_mg_per_l = Peroxide strip
reading-celsius = Temperature
reading-starch_iodide = Starch–iodide paper
reading-hardness_mg_per_l = Water hardness
reading-tap_ph = pH of the tap
reading-other = Something else

pulp_state-wet = Wet pulp
pulp_state-pressed = Pressed pulp
pulp_state-dried = Dried pulp

antichlor-thiosulfate_pentahydrate = Sodium thiosulfate, crystals
antichlor-thiosulfate_anhydrous = Sodium thiosulfate, anhydrous
antichlor-sulfite = Sodium sulfite
antichlor-bisulfite = Sodium bisulfite
antichlor-metabisulfite = Sodium metabisulfite
antichlor-ascorbic_acid = Vitamin C
antichlor-peroxide = Peroxide
antichlor-other = Something else

end_test-chlorine_strip = Chlorine strip
end_test-peroxide_strip = Peroxide strip
end_test-starch_iodide = Starch–iodide paper
end_test-last_rinse_ph = pH of the last rinse
end_test-feel = Between the fingers
end_test-smell = Smell

outcome-passed = passed
outcome-failed = failed
outcome-unclear = tells nothing either way

acid-citric = Citric acid
acid-acetic = Vinegar or acetic acid
acid-other = Another acid

stored_form-wet_cold = Wet, in the cold
stored_form-frozen = Frozen
stored_form-dried = Dried

oxidant-hypochlorite = Chlorine bleach
oxidant-percarbonate = Percarbonate
oxidant-peroxide = Peroxide

active-available_chlorine = available chlorine
active-sodium_hypochlorite = sodium hypochlorite
active-hydrogen_peroxide = hydrogen peroxide
active-product = of the product

stop_reason-reached_colour = White enough
stop_reason-time_up = The time was up
stop_reason-spent = Nothing left in the bath
stop_reason-fibre_suffering = The fibre was weakening
stop_reason-unsafe = Gas, heat or smell
stop_reason-other = Another reason, or none given

form-weigh-short = Weigh
form-weigh-title = Weigh the wet pulp
form-reading-short = Reading
form-reading-title = A reading
form-reading-what = What did you read?
form-reading-by = Read off
form-reading-by_strip = A strip
form-reading-by_meter = A meter
form-reading-turned-label = The paper
form-reading-text = What you saw (may stay empty)
form-photo-short = Photo
form-photo-title = A photo
form-photo-camera = Take a photo
form-photo-pick = Choose a picture
form-photo-state = The pulp is
form-photo-pulp-wet = Wet
form-photo-pulp-pressed = Pressed
form-photo-pulp-dried = Dried
form-photo-caption = Caption (may stay empty)
form-photo-working = Getting the photo ready…
form-photo-ready = { $width } × { $height }, { $size }
form-photo-stripped = Place, time and camera that the picture told are taken out; the pixels stay as they are.
form-photo-made_smaller = Made smaller, as your preferences say. Place, time and camera are not in it.
form-note-short = Note
form-note-title = A note
form-note-text = Note
form-note-optional = Note (may stay empty)
form-rinse-short = Rinse
form-rinse-title = The wash
form-rinse-so_far =
    { $count ->
        [one] { $count } rinse so far.
       *[other] { $count } rinses so far.
    }
form-rinse-ph_hint = Squeeze a little water out of the pulp onto the strip.
form-antichlor-short = Antichlor
form-antichlor-title = Antichlor
form-antichlor-reagent = With what?
form-antichlor-strip_after = Strip afterwards
form-end_test-short = End test
form-end_test-title = Is it clean?
form-end_test-which = Which test?
form-end_test-strip_hint = Dip it in water squeezed from the pulp. No colour is 0.
form-end_test-rinse_ph = pH read in the last rinse
form-end_test-feel-label = Between finger and thumb
form-end_test-feel-clean = Squeaks, not slippery
form-end_test-feel-slippery = Slippery
form-end_test-comes_to = This test: { $outcome }
form-sign_off-short = Sign off
form-sign_off-title = Sign it off
form-sign_off-clean = Every test that this batch needs has passed after the last thing that was done to it.
form-sign_off-not_clean = It is not clean as long as a test fails or is missing. You may still let it go, in writing. The record keeps both.
form-sign_off-do_clean = Sign off as clean
form-sign_off-do_unproven = Sign off with this reason
form-store-short = Put by
form-store-title = Put the pulp by
form-store-wet_hint = Squeeze as you always do, then weigh all of it.
form-store-form = How is it kept?
form-store-keep_by = Keep by
form-store-place = Where does it stand?
form-sheets-short = Sheets
form-sheets-title = Sheets
form-sheets-from_lot = Pulp that was put by is drawn from its lot, so that the lot says what is left:
form-rename-short = Rename
form-rename-title = Rename
form-rename-name = Name
form-give_up-short = Give up
form-give_up-title = Give it up
form-give_up-running = A bath of this batch is still running. Stop it at the Sink first, so that the record says when.
form-give_up-what = For pulp that was spilt, spoilt or thrown out. The batch stays in the book, and this can be taken back.
form-give_up-why = What happened?
form-give_up-do = Give it up
form-entry-title = This entry
form-entry-written_on = Written on { $device }
form-entry-first_said = What it said at first
form-entry-take_back = Take it back
form-entry-bring_back = Bring it back
form-entry-was_taken_back = Entry taken back
form-entry-was_brought_back = Entry brought back
form-entry-nothing_lost = Nothing is ever rubbed out. What is taken back stays in the record.
form-correct-title = Correct it
form-correct-at = When did it happen?
form-correct-fibre = Fibre
form-correct-why = Why was it wrong? (may stay empty)

field-rinse_water = Water
field-soaked = Soaked for
field-ph_squeezed = pH of the water squeezed out
field-strip = Strip in the water squeezed out
field-grams = Weighed out
field-tap_ph = pH of the tap water
field-sheet_width = Width, mm
field-sheet_height = Height, mm

refusal-note-empty = Write something first.
refusal-batch-nameless = A batch needs a name.
refusal-reading-empty = Say what you saw.
refusal-not_chosen = Choose one of these.
refusal-time-unreadable = This is no date and time.
refusal-time-future = This has not happened yet.

photo-of = Photo of the pulp, { $name }
photo-gone = The photo is not on this phone. It stayed where it was taken.
photo-unreadable = The photo is on this phone and cannot be read. Nothing was deleted. See Help.
