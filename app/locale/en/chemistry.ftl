### What the chemistry of the core refuses and remarks; substances that must not meet.

refusal-clash = Never { $first } with { $second }. { $reason }
refusal-too_concentrated = This is too salty to reckon a pH for: its ionic strength is { $given } mol/kg, and the sums hold up to { $highest }. Thin it, or read a strip.
refusal-ph_unreachable = No amount of this brings it to pH { $target }. Take a stronger alkali, or rinse the pulp.
refusal-acid_with_hypochlorite = No acid while there is chlorine bleach in it: it would make chlorine gas. Wash and test the bleach out first.
refusal-two_oxidants = Chlorine bleach and peroxide or percarbonate never go together: they burst into oxygen, with heat and splashes, and waste each other. There is no pH to tell of such a mixture.
refusal-label_basis = A label counts sodium hypochlorite or available chlorine, by mass (w/w), by volume (w/v) or in g/L; the same number is another bottle in each. If it does not say, choose sodium hypochlorite by volume, which promises least, or test the bottle.

note-clash = Mind { $first } with { $second }. { $reason }

clash-chlorine = They make chlorine gas.
clash-chloramines = They make chloramine gas.
clash-oxygen_burst = Oxygen comes off all at once, with heat and splashes; a closed vessel bursts.
clash-chloroform = They make chloroform and other poisons.
clash-hydrogen = It eats the metal and makes hydrogen, which burns.
clash-catalysed_loss = The metal is eaten, and what dissolves makes the bleach break down and stains the pulp.
clash-corrosion = It pits the metal slowly. Rinse it at once, or take plastic, glass or sound enamel.
clash-sulfur_dioxide = They make sulfur dioxide, a choking gas.
clash-mutual_loss = They use each other up, with heat, and nothing is left to bleach with.

ingredient-hypochlorite = chlorine bleach
ingredient-peroxide = peroxide
ingredient-percarbonate = percarbonate
ingredient-acid = acid (vinegar, citric, descaler)
ingredient-ammonia = ammonia or a cleaner with it
ingredient-alcohol = alcohol or acetone
ingredient-light_metal = aluminium or galvanised metal
ingredient-heavy_metal = copper, brass, iron or mild steel
ingredient-stainless_steel = stainless steel
ingredient-soda = soda
ingredient-lye = lye
ingredient-sulfur_reducer = an antichlor (thiosulfate, sulfite)

peroxide-early_death-metals = Iron, manganese and copper, from water, plant or a worn pot, break it down within the hour.
peroxide-early_death-hard_water = Hard water throws down chalk, which takes up soda and drags the pH down.
peroxide-early_death-heat = Above 50 °C it breaks down by itself, faster and faster.
peroxide-early_death-catalase = Raw or hardly cooked plant holds an enzyme that eats it. Boiling ends the enzyme.

stabiliser-sodium_silicate = sodium silicate (water glass, 41 °Bé)
stabiliser-magnesium_sulfate = magnesium sulfate (Epsom salt)
stabiliser-chelant = a chelant (DTPA or EDTA)

way-leave_out = Leave out { $what }

remark-over_rinsed = The pulp brings no alkali with it: it is rinsed so well that nothing holds the pH up as the bleach is spent. Have soda ash at hand and read the pH early.
remark-pulp_not_tested = The water in the pulp was not tested. Squeeze some out and dip a pH strip. Below 6 it is acid: add no chlorine bleach, rinse first.
remark-acid_pulp = The pulp's water may be acid. It uses up soda, and a pH does not tell how much. Rinse the pulp, or check the pH often and have soda ash ready.
remark-ph_may_be_low = A cooled sample may read as low as pH { $ph }, below the safe range. Read a strip once it is mixed, before the time counts.
remark-ph_may_be_high = A cooled sample may read as high as pH { $ph }, above the safe range. Read a strip once it is mixed.

field-carbon_dioxide = carbon dioxide in the air
field-bottle_lye = lye in the bottle
field-carried_alkali = kind of alkali in the pulp
field-carried_acid = amount of acid in the pulp
field-ph_model = error of the pH calculation
field-powder_filler = soda that fills the powder
field-water_bicarbonate = bicarbonate in the water
