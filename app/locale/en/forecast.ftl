# Names of what a forecast takes.
field-forecast_consistency = Consistency of the bath
field-forecast_lightness = Lightness of the pulp at the start
field-forecast_strength = Oxidant in the bath
field-forecast_time = Times of the forecast
field-forecast_parameter = What the forecast draws from

refusal-no_forecast = No forecast can be made of this bath: its strength, pH or warmth is outside what the calculation knows.

# What a bath stands in.
vessel_shape-bucket = Bucket or pot
vessel_shape-tub = Wide tub or tray
vessel_material-plastic = Plastic
vessel_material-steel = Steel or enamel
vessel_material-ceramic = Glass or stoneware
vessel_material-wood = Wood
vessel_cover-open = Open
vessel_cover-lid = Lid on
vessel_cover-insulated = Lid and blankets

refusal-forecast_too_long = This bath has run for almost a day. A forecast reaches 24 hours from its start.

# Under the ring.
forecast-title = If it is left on
forecast-waiting = Calculating what comes…
forecast-not_here = The forecast is not stored on this phone yet, and there is no network.
forecast-line = In { $minutes } min: lightness { $lightness } once dry, damage { $damage }
forecast-damage-low = low
forecast-damage-some = some
forecast-damage-high = high
forecast-damage-range = { $low } to { $high }

# In a plan.
forecast-plan = Forecast: { $from } → { $to } once dry, damage { $damage } (80 %)

# What to do, each with its reason.
forecast-danger_first = Do first what the red caution says.
forecast-go_on-colour = Leave it on until about { $time }: by then the colour is probably reached.
forecast-go_on-oxidant = Leave it on until about { $time }: by then the bleach is probably used up.
forecast-go_on-damage = Leave it on until { $time } at most: after that the fibre may have lost { $percent } % of its chain length.
forecast-go_on-time = Leave it on until { $time }: bleach is left, and the fibre keeps within what you allow.
forecast-stop-colour = Stop now: the colour is probably reached.
forecast-stop-oxidant = Stop now: the bleach is probably used up, and more time adds nothing.
forecast-stop-damage = Stop now: within minutes the fibre may have lost { $percent } % of its chain length.
forecast-stop-ph = Stop now: the pH is probably below 8.5, where bleach attacks fibre most.
forecast-stop-time = Stop now: the planned time is over.
forecast-reheat = Warm it to { $to }: it is probably below { $below } and works slowly.
forecast-redose = Add { $amount } of { $product } if you want it lighter: the bleach is probably used up. It costs fibre too.
forecast-redose-unknown = Add at most half of the first bleach again if you want it lighter: the bleach is probably used up. It costs fibre too.
forecast-read_ph = Read the pH before { $time }: nobody has yet, and it may be below 8.5 then.
forecast-read_ph-now = Read the pH now: nobody has yet, and it may be below 8.5.
forecast-soda = Add { $amount } of { $product } before { $time }, in { $left }: the pH is falling and may be below 8.5 then.
forecast-soda-unknown = Add soda before { $time }, in { $left }, and read the pH: it is falling and may be below 8.5 then.
forecast-change_way-chlorine = Stop and wash: chlorine bleach alone will probably not reach this colour. After washing, percarbonate may.
forecast-change_way-peroxide = Stop and wash: this bleach will probably not reach this colour. A second cook, or leaving it so, may serve better.
forecast-cannot_tell = Cannot tell yet: { $reading } would help most.
forecast-cannot_tell-wide = Cannot tell yet whether the time is enough.
forecast-cannot_tell-contradict = Cannot tell: the readings do not fit together.
forecast-reading-ph_strip = a pH strip
forecast-reading-oxidant_strip = a strip for the bleach that is left
forecast-reading-thermometer = a thermometer
forecast-reading-wet_photo = a photo of the wet pulp with a white paper
forecast-reading-dry_photo = a small sample, washed, dried and photographed
forecast-additive-hypochlorite = chlorine bleach
forecast-additive-percarbonate = percarbonate
forecast-additive-peroxide = peroxide
forecast-additive-soda_ash = soda ash
forecast-additive-washing_soda = washing soda

# How much to add.
forecast-dose-solution = It is too little to measure: mix { $bleach } of { $product } with { $water } of water, and add { $take } of that.
forecast-dose-soda = With it { $amount } of soda ash.
forecast-dose-ph = It cannot bring the pH above { $ph }.
forecast-dose-vessels =
    { $count ->
        [one] In one vessel.
       *[other] Over all { $count } vessels together, in equal parts.
    }
forecast-dose-how = Dissolve powder in a little warm water first. Add half, stir, read again, then the rest. Save what you added under “Add”.

# The numbers behind it.
forecast-percent = { $n } %
forecast-fact-colour = Chance of the colour by { $time }
forecast-fact-damage_now = Chance of more damage than you allow, now
forecast-fact-damage_then = The same by { $time }
forecast-fact-now = Lightness now
forecast-fact-wet_dry = { $wet } wet, { $dry } once dry
forecast-no_target = No target colour is chosen for this batch, so the advice rests on time, bleach left and damage.
forecast-narrows = { $reading } would narrow the range most.
forecast-contradict-how = Check the last readings: one of them may be of another bath, or misread. A new reading of each kind helps.
forecast-allow = Chain length that the fibre may lose
forecast-allow_share = { $percent } %
forecast-allow_why = Shorter chains mean a weaker, more brittle sheet. Half is our own choice: no table for hand-made sheets was found. Every advice to go on or to add keeps to it.

# Chart and table.
forecast-chart-key = Dark: half of all courses that fit. Light: four in five. Line: the middle one. Dots are your readings, wet ones shown as they would dry; thick line: now; dotted: checks, additions, stop.
forecast-chart-summary = By { $time }: lightness { $lightness } once dry, damage { $damage }. Four in five courses that fit your readings lie in these ranges.
forecast-chart-lightness = Lightness L*, once dry
forecast-chart-yellowness = Yellowness, once dry
forecast-chart-chlorine = Chlorine left, mg/L
forecast-chart-peroxide = Peroxide left, mg/L
forecast-chart-ph = pH, as a strip shows it
forecast-chart-celsius = Temperature, °C
forecast-chart-fahrenheit = Temperature, °F
forecast-chart-damage = Chain length lost, %
forecast-table = As a table
forecast-table-what = Four in five
forecast-rests = What it rests on
forecast-samples = { $samples } calculated courses, weighed by { $readings } readings of this bath.
forecast-assumed = Assumed, because nobody said it:
forecast-assumed-strength = how strong the bath is
forecast-assumed-ph = its pH at the start
forecast-assumed-celsius = how warm it was at the start
forecast-assumed-consistency = how much pulp is in it
forecast-assumed-colour = the colour of the pulp before the bath
forecast-assumed-drying = how much lighter this pulp dries
forecast-assumed-vessel = the vessel and its lid
forecast-assumed-room = how warm the room is
forecast-assumed-reheated = how warm it was after reheating
forecast-assumed-addition = what one addition does: it is left out
forecast-drying = Wet pulp looks darker. Lightness here is of the dry pulp; photos of wet pulp are compared with the wet colour.
forecast-room = Room for the cooling: { $room }.

# Warm again.
warming-title = Warmth
warming-now = About { $now } now.
warming-leaves = Below { $low } in about { $minutes }.
warming-stays = It stays above { $low }.
warming-below = It is below { $low }: warm it to { $high } at most.
warming-learnt = From your own readings of this bath.
warming-not_learnt = Two thermometer readings, ten minutes apart or more, make this closer.
warming-minutes = { $value } min ({ $range })
warming-hours = { $value } h ({ $range })
warming-hot_water = With hot water
warming-add = Add { $water } at { $hot }, slowly, stirring: it comes to { $reaches }. Consistency becomes { $consistency } %, and the bleach { $strength } % as strong.
warming-water_bath = In a water bath
warming-in_bath = About { $minutes } in the water bath, stirring.
warming-take_out = Take it out before { $minutes } min: it would become too warm.
field-kettle_celsius = temperature of the hot water
field-water_bath_volume = water around the vessel
field-water_bath_celsius = temperature of that water
vessel-title = Vessel and room
vessel-why = How fast a bath cools depends on its lid and vessel. Say what you know.
vessel-as_before = As last time:
vessel-cover = Cover
vessel-shape = Shape
vessel-material = Material
field-room_celsius = temperature of the room
vessel-nothing = Choose at least one of these.
vessel-save = Save vessel and room
vessel-said = Vessel saved.
