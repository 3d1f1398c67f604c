### Help: cautions in general terms, methods, sources, this phone, preferences.

caution-chlorine_from_liquor-help = Bleach liquor gives off chlorine long before it turns acid. The stronger the liquor, the higher the pH where this starts. A plan and a pH reading show the limit for your liquor. Add no acid.
caution-peroxide_hot-help = Above about { DEGREES(50) } percarbonate and peroxide break down faster and faster, and this makes more heat. Leave the container open and keep room for froth.
caution-hypochlorite_hot-help = Above about { DEGREES(40) } chlorine bleach is used up fast and weakens the fibre. Keep to { DEGREES(30, to: 45) }, and never go above { DEGREES(60) }. The warmer the bath, the shorter.
caution-hypochlorite_ph_low-help = Below pH 9.5 chlorine bleach attacks the fibre more and more, most of all near pH 7. Below 8.5 stop the bath, or raise the pH with a little soda ash dissolved in water.
caution-peroxide_as_antichlor-help = Peroxide on stronger chlorine bleach froths and splashes. Use it only for the last of the bleach, in a weak liquor, in an open container, a little at a time.
caution-strong_bottle-help = Bottles stronger than household bleach burn skin and eyes. Wear goggles, and open them slowly.
caution-high_charge-help = A charge above the usual weakens the fibre. Two light baths with a wash between whiten more and weaken less.
caution-strong_bath-help = A bath much stronger than usual burns skin and eyes, gives off more gas and damages fibre. Never pour undiluted bleach on pulp. Put the water in first.
caution-long_bath-help = After a few hours chlorine bleach mostly weakens the fibre. Stop earlier, wash, look at the colour, and make a second short bath if needed.
caution-alkali_burns-help = Above pH 12 a liquor burns skin and can blind an eye. Wear goggles that seal and long gloves. Rinse a splash at once with running water for 15 minutes.
caution-alkali_swells_fibre-help = Above pH 12 fibre swells and loses strength, and bleach works worse. Use less alkali, or rinse the pulp better first.
caution-drain_strong-help = A strong liquor harms drains and septic tanks. Use it up on more pulp, let it lose its strength, or dilute it well first.

help-wrong_head = When it goes wrong
help-wrong_smell = Sharp smell, stinging eyes or throat: leave the room, get others out, open windows from outside if you can. Go back only when the air is clear.
help-wrong_eye = In an eye: rinse with gently running water for 15 minutes, lids open, contact lenses out. Then get medical help.
help-wrong_skin = On skin: rinse with plenty of water and take off wet clothes.
help-wrong_swallowed = Swallowed: rinse the mouth, do not vomit, call your poison centre.
help-wrong_spill = Spilt: gloves and goggles on, plenty of water, windows open. Never acid or another cleaner on bleach.
help-wrong_label = The product label and its safety data sheet say what is right for that product. In an emergency call your local emergency number.
help-preferences = Preferences
help-methods_head = How to
help-cautions_head = Cautions
help-cautions_all = All cautions
help-sources_head = Sources
help-sources_say = Each number in Bleachfield has its source in the program, with a grade of how reliable it is. Common practice, and what was written from memory, is marked.
help-not = Bleachfield helps you calculate and keep records. It does not replace the product label, local rules, or the advice of licensed people.
help-source-1 = Acidity of hypochlorous acid: Morris 1966, Journal of Physical Chemistry 70, 3798.
help-source-2 = Chlorine and chloride: Wang and Margerum 1994, Inorganic Chemistry 33, 1050.
help-source-3 = How bleach ages: Adam and Gordon 1999, Inorganic Chemistry 38, 1299; opened and diluted: Rutala and others 1998.
help-source-4 = Carbonate: Plummer and Busenberg 1982, Geochimica et Cosmochimica Acta 46, 1011.
help-source-5 = Peroxide: Evans and Uri 1949, Transactions of the Faraday Society 45, 224.
help-source-6 = Percarbonate: registration dossier 15960 at the European Chemicals Agency.
help-source-7 = Gas over liquor: Sander 2015, Atmospheric Chemistry and Physics 15, 4399; limits in air: NIOSH and OSHA.
help-source-8 = Consistency and dryness: TAPPI T 240, ISO 4119, ISO 638.
help-source-9 = Alkaline reserve and permanence: ISO 9706; Library of Congress comparison of standards.
help-source-10 = Colour difference: CIEDE2000, Sharma, Wu and Dalal 2005; yellowness: ASTM E313.
help-method-dryness-head = Measure how dry your squeezed pulp is
help-method-dryness-1 = Squeeze the pulp as you always do and weigh a pinch of 20 to 50 g.
help-method-dryness-2 = Dry it at { DEGREES(105) } in an oven until the weight no longer changes, or a few days in the room.
help-method-dryness-3 = Weigh it again. Dry weight over wet weight is the dryness. Pulp dried in a room keeps some moisture; Bleachfield allows for it.
help-method-dryness-4 = Save it as your own figure. Dryness is usually the largest error in a bath.
help-method-strength-head = Measure the bleach in a bottle
help-method-strength-1 = Read what the label counts. NaOCl and available chlorine, by mass and by volume, are four different numbers.
help-method-strength-2 = Note the date it was made or opened. An open or warm bottle, or one in the light, can lose half in a month.
help-method-strength-3 = A titration is the most accurate. A strip in a measured dilution is rough.
help-method-strength-4 = Enter either on the Shelf. The best measurement is used, and the screen says which.
help-method-make_up-head = Make up the liquor
help-method-make_up-1 = Goggles, gloves, apron, open window.
help-method-make_up-2 = Warm the water first, off the heat. Measure the water as the plan says. The plan has already counted the water in the pulp.
help-method-make_up-3 = Put bleach or powder into the water and stir. Then add the pulp, loosened by hand.
help-method-make_up-4 = Check the pH before you leave it: 9.5 to 11 for chlorine bleach, 10.3 to 11.3 for percarbonate. Strips are made for cool liquor: let a spoonful cool to room temperature first.
help-method-run-head = Run the bath
help-method-run-1 = Stir when the cue says so. Pulp at the edge bleaches slower.
help-method-run-2 = Keep it warm with hot water around the container, never with a flame under it.
help-method-run-3 = Read pH and strip at each check, in a cooled spoonful. Below 9.5 (chlorine bleach) or 10.3 (percarbonate) add a little dissolved soda ash.
help-method-run-4 = Press a pinch dry in a cloth before you judge its colour. Wet pulp looks darker than dry.
help-method-run-5 = When the strip shows no bleach, more time does nothing. Stop the bath.
help-method-stop-head = When to stop
help-method-stop-1 = A little before the colour you want: pulp dries paler.
help-method-stop-2 = When the strip shows no bleach left.
help-method-stop-3 = At once when the pulp feels short and breaks between the fingers.
help-method-stop-4 = To stop: drain, squeeze, rinse. Still too dark? Wash, and run a second light bath.
help-method-wash-head = Wash
help-method-wash-1 = Squeeze hard before each rinse. What you squeeze out does not need rinsing out.
help-method-wash-2 = Many small rinses clean better than one large one with the same water.
help-method-wash-3 = Let each rinse soak for ten minutes: liquor stays inside the fibre.
help-method-wash-4 = Read the pH of the water you squeeze out. Go on until it is near the pH of your tap water.
help-method-prove-head = Test that it is clean
help-method-prove-1 = A chlorine or peroxide strip shows none in the water squeezed out last.
help-method-prove-2 = Starch-iodide paper stays white.
help-method-prove-3 = The pH is within 0.3 of the tap water, and nothing feels slippery.
help-method-prove-4 = Only then may acid touch the pulp, and only then sign it off as clean.
help-method-photo-head = Take a photo that can be measured
help-method-photo-1 = Lay a white card, and a grey one if you have it, flat beside the pulp.
help-method-photo-2 = Use daylight from a window: no direct sun, no flash, no lamp.
help-method-photo-3 = Hold the phone level above it. All of it must be sharp, with no glare.
help-method-photo-4 = Note whether the pulp was wet, pressed or dried.
help-phone_head = This phone
help-phone_stopped = The app stopped unexpectedly on { $date } (version { $version }). What was saved is not affected. Report: { $text }
help-phone_offline_preparing = Getting ready to work without a network…
help-phone_offline_ready = Works without a network.
help-phone_offline_unsupported = This browser cannot keep the app for use without a network.
help-phone_offline_failed = The app could not be kept for use without a network: { $why }
help-phone_update = A new version is ready.
help-phone_update_now = Update
help-phone_update_wait = A new version is ready. You can update when no bath is running.
help-phone_kept_disk = Your records are stored on this phone.
help-phone_kept_memory = The browser stores nothing (private window?). What you enter is gone when this page closes. Share a backup before you leave.
help-phone_promised = The browser has promised not to delete it.
help-phone_not_promised = The browser may delete it when the phone runs out of room. Add Bleachfield to the home screen and share a backup often.
help-phone_ask = Ask the browser to keep it
help-phone_room = Uses { $used } MB of the { $quota } MB that the browser allows.
help-phone_entries =
    { $count ->
        [one] { $count } entry in your records.
       *[other] { $count } entries in your records.
    }
help-unreadable =
    { $count ->
        [one] { $count } entry cannot be read by this version. Nothing was deleted.
       *[other] { $count } entries cannot be read by this version. Nothing was deleted.
    }
help-unreadable_what = They are missing from your batches and from every calculation. Export them, then update the app: a newer version may read them.
help-unreadable_export = Export unreadable entries
help-unreadable_notice =
    { $count ->
        [one] { $count } entry cannot be read by this version. Nothing was deleted. Update the app, or export it in Help.
       *[other] { $count } entries cannot be read by this version. Nothing was deleted. Update the app, or export them in Help.
    }
help-photos_check = Check the stored photos
help-photos_checking = Reading every photo…
help-photos_sound = Every stored photo can be read.
help-photos_unreadable =
    { $count ->
        [one] { $count } photo cannot be read. Nothing was deleted.
       *[other] { $count } photos cannot be read. Nothing was deleted.
    }
help-photos_what = To get them back, import a backup that has them. What is still stored of them can be exported; the app cannot import that file.
help-photos_export = Export what is stored
help-phone_install = To add Bleachfield to the home screen: open the browser's menu and choose to add it. It then opens like any other app.
help-phone_version = Version { $version }

preferences-title = Preferences
preferences-look = Appearance
preferences-system = Same as the phone
preferences-light = Light
preferences-dark = Dark
preferences-contrast = High contrast
preferences-measures = Cups and spoons are
preferences-metric = Metric
preferences-us = US
preferences-imperial = Imperial
preferences-temperature = Temperatures in
preferences-mark = Decimal mark
preferences-point = Point 0.5
preferences-comma = Comma 0,5
preferences-photo = Photos are kept
preferences-photo_smaller = About 1500 px on the long side
preferences-photo_full = Full size
preferences-photo_cost = A photo of 1500 px takes 0.1 to 0.4 MB, a full one 3 to 12 MB. Full size does not measure better; it only shows more detail.
preferences-sound = Sound for cues
preferences-vibration = Vibration for cues
preferences-speak = Say the cues aloud
preferences-stay_awake = Keep the screen on while a bath runs
preferences-safety = These settings never hide a caution.

install-head = Put it on this phone
install-why = On the home screen Bleachfield opens like any other app, fills the screen, and the phone is less likely to clear its records.
install-do = Put it on this phone
install-share-1 = Press Share, in the bar of the browser.
install-share-2 = Scroll down the list and press Add to Home Screen.
install-share-3 = Press Add. Open it from the home screen from then on.
install-drawing = Sketch: first the share button at the foot of the screen, then a line of the list, then the new picture on the home screen.
install-offer = Your first batch is saved. Put Bleachfield on the home screen, so that it is at hand at the sink.
install-offer_how = Show how
install-offer_no = No, thanks

### Worked examples and drawings.
help-examples_head = Worked examples
help-example-dilute_head = Diluting a bottle
help-example-dilute = { $volume } at { $target } % from a bottle of { $strength } %: { $volume } × { $target } ÷ { $strength } = { $bottle } from the bottle, and { $water } of water. A label is not exact: { $low } to { $high } of the bottle may be needed.
help-example-dry_head = Dry fibre in wet pulp
help-example-dry = { $wet } of squeezed pulp that is { $percent } % dry holds { $dry } of dry fibre. By hand the dryness is not exact: it may be { $low } to { $high }.
help-example-bath_head = One bath
help-example-bath = { $wet } of squeezed pulp holds { $dry } g of dry fibre. A charge of { $charge } % is { $chlorine } g of available chlorine. From a bottle of { $strength } % sodium hypochlorite by mass, that is: { $answer }. The water in the pulp is counted:
help-example-rinse_head = One large rinse or four small ones
help-example-rinse = { $water } of water for { $wet } of squeezed pulp. In one rinse it leaves { $one } % of the bleach in the pulp. In { $rinses } rinses of { $each } it leaves { $many } %, if each is stirred well. After 0, 1, 2 … rinses:
drawing-percent = { $n } %
drawing-staircase = Bleach left in the pulp after each rinse, in percent: { $steps }
drawing-photo = A table beside a window. White paper and pulp lie side by side on it. A phone is held straight above both.
drawing-photo_say = Daylight from one side, no lamp and no flash. White paper and pulp side by side in the same light. Hold the phone straight above, so that it throws no shadow.
drawing-window = daylight
drawing-phone = phone
drawing-white = white paper
drawing-pulp = pulp
drawing-strip = A strip is held beside the tube that it came from, its pad next to the field of the same shade.
drawing-strip_say = Hold the strip beside the scale on its own tube, and read it after the time that the tube says. Between two fields, take the middle. Another maker’s scale does not fit.
drawing-tube = its own tube
drawing-pad = pad
drawing-strip_label = strip
drawing-photo_head = How to set up the photo
drawing-strip_head = How to read a strip
