### One batch: its page, its record, and the forms that write in it.

batch-colour = Colour over time
batch-missing = This batch is not on this phone
batch-since = { $fibre }, started { $date }
batch-timeline = What happened
batch-write_down = Add to the record
batch-more_to_write = Weigh, rinse, test, store…
batch-plan = Plan a bath
batch-send = Share this batch
batch-print = Print
batch-entry_menu = Undo or edit
batch-saved = Saved: { $what }
batch-undone = Undone. The entry stays in the record and can be restored.
batch-elsewhere = ({ $time } in { $zone })
batch-taken_back =
    { $count ->
        [one] Show { $count } undone entry
       *[other] Show { $count } undone entries
    }
batch-mark-taken_back = undone
batch-mark-corrected = edited

figure_range = { $low } to { $high }

entry-batch_started = Batch started
entry-renamed = Renamed
entry-cooked = Cooked
entry-weighed = Weighed
entry-planned = Plan made
entry-bath_started = Bath started
entry-schedule_changed = Times changed
entry-cue_answered = Cue answered
entry-stirred = Stirred
entry-reheated = Reheated
entry-vessel_described = Vessel described
entry-added = Added
entry-bath_stopped = Bath stopped
entry-reading = Reading
entry-photo = Photo
entry-colour_reading = Colour measured
entry-colour_target = Target colour
entry-note = Note
entry-rinsed = Rinsed
entry-antichlored = Antichlor
entry-end_test = End test
entry-acid_finished = Neutralised with acid
entry-reserve_added = Alkaline reserve added
entry-signed_off = Signed off
entry-stored = Stored
entry-sheets = Sheets made
entry-given_up = Abandoned
entry-trial_designed = Trial with small pots
entry-lot_drawn = Taken from a lot
entry-lot_blended = Lots blended
entry-product_added = Added to the shelf
entry-product_opened = Opened
entry-strength_found = Strength measured
entry-product_finished = Used up
entry-own_figure = Own figure saved
entry-device_named = Phone named
entry-reference_card = Card values saved
entry-camera_taught = Phone taught
entry-withdrawn = Undone
entry-corrected = Edited
entry-unknown = Newer kind of entry

entry_line-sample = Sample: { $wet } wet, { $dry } dry
entry_line-cooked_in = Cooked in: { $alkali }
entry_line-stop_at = Stop at { $when }
entry_line-no_stop = No stop time set
entry_line-turned = Turned blue or brown: bleach is present
entry_line-not_turned = No change of colour
entry_line-against = Compared with { $white }
entry_line-clean = Clean: every end test passed
entry_line-unproven = Not proven clean. The reason is below.
entry_line-keep_by = Keep by { $date }
entry_line-sheets =
    { $count ->
        [one] { $count } sheet
       *[other] { $count } sheets
    }
entry_line-unknown = A newer version of Bleachfield wrote this entry. This version cannot read it. It is kept, and exported unchanged.
entry_line-aim_strength = Target: { $amount } { $active } in the liquor
entry_line-aim_charge = Target: { $amount } { $active } on dry fibre
entry_line-run = { $minutes } at { $celsius }
entry_line-loads =
    { $count ->
        [one] In { $count } load
       *[other] In { $count } loads
    }
entry_line-as_planned = As planned
entry_line-by_plan = Amounts from the plan. What was really measured out was not recorded.
entry_line-product_as_planned = Bleach as planned: { $amount }
entry_line-product_plan_said = Planned: { $amount } of bleach
entry_line-water_as_planned = Water as planned: { $amount }
entry_line-water_plan_said = Planned: { $amount } of water
entry_line-ran_of_plan = Ran { $ran }; planned { $plan }
entry_line-ran = Ran { $ran }

figure-raw_dry = Raw fibre, dry
figure-wet_mass = Wet mass
figure-dryness = Dryness
figure-dry_fibre = Oven-dry fibre
figure-water_in_lump = Water in the wet pulp
figure-product_amount = Bleach
figure-soda_ash = Soda ash
figure-water_to_add = Water to add
figure-water_added = Water added
figure-consistency = Consistency
figure-charge = Charge on dry fibre
figure-liquor_strength = Strength of the liquor
figure-ph_foreseen = Predicted pH
figure-celsius = Temperature
figure-from_celsius = Had cooled to
figure-to_celsius = Warmed to
figure-room_celsius = Room
figure-amount = Amount
figure-reading = Reading
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
figure-retention = Expected to stay in the sheet
figure-alkali_mass = Alkali
figure-alkali_charge = Alkali on dry fibre
figure-cook_liquor = Cooking liquor
figure-cooked_for = Cooked for
figure-ph_after_rinse = pH of water squeezed out after rinsing

dryness_from-dried_sample = From a dried sample
dryness_from-own_figure = Own figure, from earlier samples
dryness_from-assumed = Dryness not measured

drying-oven = Dried in an oven at { DEGREES(105) }
drying-air = Dried in the air of the room

cue_outcome-skipped = Skipped: { $cue }

cue_done-stir = Stirred
cue_done-reheat = Warmed the bath
cue_done-ph = pH read
cue_done-strip = Strip dipped
cue_done-photo = Photo taken
cue_done-stop = Stopped
cue_kind-stir = Stir
cue_kind-reheat = Warm the bath
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
end_test-feel = Feel between the fingers
end_test-smell = Smell

outcome-passed = passed
outcome-failed = failed
outcome-unclear = unclear

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
stop_reason-time_up = Time was up
stop_reason-spent = No bleach left in the bath
stop_reason-fibre_suffering = The fibre was getting weak
stop_reason-unsafe = Gas, heat or smell
stop_reason-other = Another reason, or none given

form-weigh-short = Weigh
form-weigh-title = Weigh the wet pulp
form-reading-short = Reading
form-reading-title = A reading
form-reading-what = What did you measure?
form-reading-by = Measured with
form-reading-by_strip = A strip
form-reading-by_meter = A meter
form-reading-turned-label = The paper
form-reading-text = What you saw (optional)
form-photo-short = Photo
form-photo-title = A photo
form-photo-camera = Take a photo
form-photo-pick = Choose a picture
form-photo-state = The pulp is
form-photo-pulp-wet = Wet
form-photo-pulp-pressed = Pressed
form-photo-pulp-dried = Dried
form-photo-caption = Caption (optional)
form-photo-working = Getting the photo ready…
form-photo-ready = { $width } × { $height }, { $size }
form-photo-stripped = Place, time and camera data are removed. The picture itself is unchanged.
form-photo-made_smaller = Made smaller, as set in your preferences. Place, time and camera data are removed.
form-note-short = Note
form-note-title = A note
form-note-text = Note
form-note-optional = Note (optional)
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
form-antichlor-reagent = Which antichlor?
form-antichlor-strip_after = Strip reading afterwards
form-end_test-short = End test
form-end_test-title = Is it clean?
form-end_test-which = Which test?
form-end_test-strip_hint = Dip it in water squeezed from the pulp. No colour means 0.
form-end_test-rinse_ph = pH of the last rinse
form-end_test-feel-label = Between finger and thumb
form-end_test-feel-clean = Squeaks, not slippery
form-end_test-feel-slippery = Slippery
form-end_test-comes_to = Result: { $outcome }
form-sign_off-short = Sign off
form-sign_off-title = Sign off
form-sign_off-clean = Every test that this batch needs has passed since the last thing was added.
form-sign_off-not_clean = Not clean: a test failed or is missing. You can still sign off with a written reason. The record keeps both.
form-sign_off-do_clean = Sign off as clean
form-sign_off-do_unproven = Sign off with this reason
form-store-short = Store
form-store-title = Store the pulp
form-store-wet_hint = Squeeze as you always do, then weigh all of it.
form-store-form = How is it kept?
form-store-keep_by = Keep by
form-store-place = Where is it?
form-sheets-short = Sheets
form-sheets-title = Sheets
form-sheets-from_lot = Stored pulp is taken from its lot, so that the lot shows what is left:
form-rename-short = Rename
form-rename-title = Rename
form-rename-name = Name
form-give_up-short = Abandon
form-give_up-title = Abandon batch
form-give_up-running = A bath of this batch is still running. Stop it at the Sink first, so that the stop time is recorded.
form-give_up-what = For pulp that was spilt, spoiled or thrown out. The batch stays in your records, and you can undo this.
form-give_up-why = What happened?
form-give_up-do = Abandon batch
form-entry-title = This entry
form-entry-written_on = Written on { $device }
form-entry-first_said = Before the edit
form-entry-take_back = Undo this entry
form-entry-bring_back = Restore this entry
form-entry-was_taken_back = Entry undone
form-entry-was_brought_back = Entry restored
form-entry-nothing_lost = Nothing is deleted. An undone entry stays in the record.
form-correct-title = Edit
form-correct-at = When did it happen?
form-correct-fibre = Fibre
form-correct-why = What was wrong? (optional)

field-rinse_water = Water
field-soaked = Soaked for
field-ph_squeezed = pH of the water squeezed out
field-strip = Strip in the water squeezed out
field-grams = Amount weighed
field-tap_ph = pH of the tap water
field-sheet_width = Width, mm
field-sheet_height = Height, mm

refusal-note-empty = Write something first.
refusal-batch-nameless = A batch needs a name. Type one.
refusal-reading-empty = Write what you saw.
refusal-not_chosen = Choose one of these.
refusal-time-unreadable = This is not a date and time. Enter both.
refusal-time-future = This is in the future. Enter a time up to now.

photo-of = Photo of the pulp, { $name }
photo-gone = This photo is not on this phone. It is on the phone that took it.
photo-unreadable = This photo is on this phone but cannot be read. Nothing was deleted. See Help.
