### Help: cautions in general terms, methods, sources, this phone, preferences.

caution-chlorine_from_liquor-help = Bleach liquor gives off chlorine well before it turns sour, and the stronger it is the sooner. A plan and a pH reading tell you where the line lies for the liquor at hand. Add no acid.
caution-peroxide_hot-help = Above about 50 °C percarbonate and peroxide break down faster and faster, and the heat they give feeds it. Leave the vessel open and keep room for froth.
caution-hypochlorite_hot-help = Above about 40 °C chlorine bleach spends itself fast and takes fibre strength with it. Keep to 30 to 45 °C, and never go above 60 °C. The warmer, the shorter.
caution-hypochlorite_ph_low-help = Below pH 9.5 chlorine bleach attacks the fibre more and more, worst near pH 7; below 8.5 stop the bath or bring the pH up with a little soda ash dissolved in water.
caution-peroxide_as_antichlor-help = Peroxide may take out only the last of the chlorine bleach, in a thin liquor, in an open vessel, a little at a time. Stronger, it froths and spits.
caution-strong_bottle-help = Bottles stronger than household bleach burn skin and eyes. Wear goggles, and open them slowly.
caution-high_charge-help = A charge above what is customary costs strength. Two light baths with a wash between whiten more and weaken less.
caution-strong_bath-help = A bath far stronger than usual burns skin and eyes, gives off more gas and spoils fibre. Never pour bleach undiluted on pulp. Put the water in first.
caution-long_bath-help = After a few hours chlorine bleach takes mostly fibre strength. Stop earlier, wash, look at the colour, and make a second short bath if it needs one.
caution-alkali_burns-help = Above pH 12 a liquor burns skin and can blind an eye. Wear goggles that seal and long gloves. Rinse a splash at once with running water for 15 minutes.
caution-alkali_swells_fibre-help = Above pH 12 fibre swells and loses strength, and bleach works worse. Use less alkali, or rinse the pulp better first.
caution-drain_strong-help = A strong liquor harms drains and septic tanks. Use it up on more pulp, let it spend itself, or thin it well first.

help-wrong_head = When it goes wrong
help-wrong_smell = Sharp smell, stinging eyes or throat: leave the room, let others out, air it from outside. Go back only when it has cleared.
help-wrong_eye = In an eye: rinse with gently running water for 15 minutes, lids open, lenses out. Then get medical help.
help-wrong_skin = On skin: rinse with plenty of water and take off what is soaked.
help-wrong_swallowed = Swallowed: rinse the mouth, do not bring it up, call your poison centre.
help-wrong_spill = Spilt: gloves and goggles on, plenty of water, windows open. Never acid or another cleaner on bleach.
help-wrong_label = The product label and its safety data sheet say what is right for that product. In an emergency call your local emergency number.
help-preferences = Preferences
help-methods_head = How it is done
help-cautions_head = Cautions
help-cautions_all = All cautions in one place
help-sources_head = Where the numbers come from
help-sources_say = Each number in Bleachfield has its source beside it in the program, with how far it can be trusted. What is common practice, or was written from memory, is called so.
help-not = Bleachfield helps you reckon and remember. It does not replace the product label, local codes, or the advice of someone licensed to give it.
help-source-1 = Acidity of hypochlorous acid: Morris 1966, Journal of Physical Chemistry 70, 3798.
help-source-2 = Chlorine and chloride: Wang and Margerum 1994, Inorganic Chemistry 33, 1050.
help-source-3 = How bleach ages: Adam and Gordon 1999, Inorganic Chemistry 38, 1299; opened and thinned: Rutala and others 1998.
help-source-4 = Carbonate: Plummer and Busenberg 1982, Geochimica et Cosmochimica Acta 46, 1011.
help-source-5 = Peroxide: Evans and Uri 1949, Transactions of the Faraday Society 45, 224.
help-source-6 = Percarbonate: registration dossier 15960 at the European Chemicals Agency.
help-source-7 = Gas over liquor: Sander 2015, Atmospheric Chemistry and Physics 15, 4399; limits in air: NIOSH and OSHA.
help-source-8 = Consistency and dryness: TAPPI T 240, ISO 4119, ISO 638.
help-source-9 = Alkaline reserve and permanence: ISO 9706; Library of Congress comparison of standards.
help-source-10 = Colour difference: CIEDE2000, Sharma, Wu and Dalal 2005; yellowness: ASTM E313.
help-method-dryness-head = Find out how dry your squeeze is
help-method-dryness-1 = Squeeze the pulp as you always do and weigh a pinch of 20 to 50 g.
help-method-dryness-2 = Dry it at 105 °C in an oven until it loses no more, or a few days in the room.
help-method-dryness-3 = Weigh it again. Dry over wet is the dryness; in the room some moisture stays, and Bleachfield allows for it.
help-method-dryness-4 = Keep it as your own figure. It is the largest error you can take out of a bath.
help-method-strength-head = Find out what is in the bottle
help-method-strength-1 = Read what the label counts. NaOCl and available chlorine, by mass and by volume, are four different numbers.
help-method-strength-2 = Note the date it was made or opened. An open, warm or lit bottle can lose half in a month.
help-method-strength-3 = A titration tells you best; a strip in a measured dilution tells you roughly.
help-method-strength-4 = Enter either on the Shelf. The best evidence is used, and the screen says which.
help-method-make_up-head = Make up the liquor
help-method-make_up-1 = Goggles, gloves, apron; a window open.
help-method-make_up-2 = Warm the water first, off the heat. Measure the water as the plan says; the pulp's own is counted already.
help-method-make_up-3 = Bleach or powder into the water, stirring. Then the pulp, loosened by hand.
help-method-make_up-4 = Check the pH before you leave it: 9.5 to 11 for chlorine bleach, 10.3 to 11.3 for percarbonate. A strip is made for cool liquor: let a spoonful cool to room temperature first.
help-method-run-head = Run the bath
help-method-run-1 = Stir when the cue says so; pulp at the edge bleaches slower.
help-method-run-2 = Keep the temperature by hot water round the vessel, not by a flame under it.
help-method-run-3 = Read pH and strip at each check, in a cooled spoonful. Below 9.5 (chlorine bleach) or 10.3 (percarbonate) add a little dissolved soda ash.
help-method-run-4 = Press a pinch dry in a cloth before you judge its colour. Wet pulp looks darker than it will dry.
help-method-run-5 = Never leave a bath to run out; when the strip shows nothing, time adds nothing.
help-method-stop-head = When to stop
help-method-stop-1 = At the colour you want, less a little, for it dries paler.
help-method-stop-2 = When the strip shows no oxidant left.
help-method-stop-3 = When pulp feels short and breaks between the fingers, at once.
help-method-stop-4 = To stop: drain, squeeze, rinse. Still too dark? Wash, and run a second light bath.
help-method-wash-head = Wash
help-method-wash-1 = Squeeze hard before each rinse. What you squeeze out you need not rinse out.
help-method-wash-2 = Many small rinses clean better than one large one with the same water.
help-method-wash-3 = Let each rinse soak ten minutes; liquor hides inside the fibre.
help-method-wash-4 = Read the pH of what you squeeze out, and go on until it is near that of your tap.
help-method-prove-head = Prove that it is clean
help-method-prove-1 = Chlorine or peroxide strip in the last squeezings shows none.
help-method-prove-2 = Starch-iodide paper stays white.
help-method-prove-3 = The pH is within 0.3 of the tap's, and nothing feels slippery.
help-method-prove-4 = Only then may acid come near the pulp, and only then is it signed off as clean.
help-method-photo-head = Take a photo that can be measured
help-method-photo-1 = Lay a white card, and a grey one if you have it, flat beside the pulp.
help-method-photo-2 = Daylight from a window, no sun, no flash, no lamp mixed in.
help-method-photo-3 = Hold the phone level above, all of it sharp and none of it glaring.
help-method-photo-4 = Note whether the pulp was wet, pressed or dried.
help-phone_head = This phone
help-phone_stopped = The app stopped unexpectedly on { $date } (version { $version }). What was saved is not affected. Report: { $text }
help-phone_offline_preparing = Getting ready to work without a network…
help-phone_offline_ready = Works without a network.
help-phone_offline_unsupported = This browser cannot keep the app for use without a network.
help-phone_offline_failed = The app could not be kept for use without a network: { $why }
help-phone_update = A new version is here.
help-phone_update_now = Reload into the new version
help-phone_update_wait = A new version is here. It will be offered when no bath is running.
help-phone_kept_disk = The book is kept on this phone.
help-phone_kept_memory = The browser will not keep anything (private browsing?). What you write is gone when this page closes. Send the book before you leave.
help-phone_promised = The browser has promised not to clear it.
help-phone_not_promised = The browser may clear it when the phone runs short of room. Put Bleachfield on the home screen and send the book now and then.
help-phone_ask = Ask the browser to keep it
help-phone_room = { $used } MB used of { $quota } MB that the browser allows.
help-phone_entries =
    { $count ->
        [one] { $count } entry in the book.
       *[other] { $count } entries in the book.
    }
help-unreadable =
    { $count ->
        [one] { $count } entry cannot be read by this version. Nothing was deleted.
       *[other] { $count } entries cannot be read by this version. Nothing was deleted.
    }
help-unreadable_what = What they say is missing from your batches and from every calculation. Export them, then update the app: a newer version may read them.
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
help-photos_what = A backup that has them brings them back: import it. What is still stored of them can be exported; the app cannot import that file.
help-photos_export = Export what is stored
help-phone_install = To put Bleachfield on the home screen: open the browser's menu and choose to add it. From then on it opens like any other app.
help-phone_version = Version { $version }

preferences-title = Preferences
preferences-look = Look
preferences-system = As the phone
preferences-light = Light
preferences-dark = Dark
preferences-contrast = High contrast
preferences-measures = Cups and spoons are
preferences-metric = Metric
preferences-us = US
preferences-imperial = Imperial
preferences-mark = Decimal mark
preferences-point = Point 0.5
preferences-comma = Comma 0,5
preferences-photo = Photos are kept
preferences-photo_smaller = About 1500 px on the long side
preferences-photo_full = Full size
preferences-photo_cost = A photo of 1500 px takes 0.1 to 0.4 MB, a full one 3 to 12 MB. Full size measures no better; it only shows more detail.
preferences-sound = Sound for cues
preferences-vibration = Vibration for cues
preferences-speak = Speak the cues aloud
preferences-stay_awake = Keep the screen on while a bath runs
preferences-safety = None of these hides a caution.

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
