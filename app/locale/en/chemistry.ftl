### What the chemistry of the core refuses and remarks; substances that must not meet.

refusal-clash = Never { $first } with { $second }. { $reason }
refusal-too_concentrated = Too salty to calculate a pH: the ionic strength is { $given } mol/kg, and the calculation is valid up to { $highest }. Dilute it, or read a strip.
refusal-ph_unreachable = No amount of this brings it to pH { $target }. Use a stronger alkali, or rinse the pulp.
refusal-acid_with_hypochlorite = No acid while it holds chlorine bleach: that makes chlorine gas. Wash the bleach out and test first.
refusal-two_oxidants = Never mix chlorine bleach with peroxide or percarbonate: oxygen comes off at once, with heat and splashes, and they destroy each other. No pH can be given for such a mixture.
refusal-label_basis = A label counts sodium hypochlorite or available chlorine, by mass (w/w), by volume (w/v) or in g/L. The same number means a different strength in each. If the label does not say, choose sodium hypochlorite by volume, the weakest of them, or test the bottle.

note-clash = Take care: { $first } with { $second }. { $reason }

clash-chlorine = They make chlorine gas.
clash-chloramines = They make chloramine gas.
clash-oxygen_burst = Oxygen comes off all at once, with heat and splashes; a closed container bursts.
clash-chloroform = They make chloroform and other poisons.
clash-hydrogen = It dissolves the metal and makes hydrogen, which burns.
clash-catalysed_loss = It attacks the metal. The dissolved metal breaks the bleach down and stains the pulp.
clash-rust_catalysis = Rust makes the bleach break down fast, with froth and heat, and leaves weak spots in the pulp. Remove it and rinse.
clash-explosive_peroxide = They can make peroxides that explode. Acid and drying make it worse.
clash-peracid_and_foam = Vinegar and peroxide make peracetic acid, which burns eyes and lungs. Any acid makes percarbonate foam over.
clash-corrosion = It pits the metal slowly. Rinse it at once, or use plastic, glass or sound enamel.
clash-sulfur_dioxide = They make sulfur dioxide, a choking gas.
clash-mutual_loss = They use each other up, with heat, and no bleach is left.

ingredient-hypochlorite = chlorine bleach
ingredient-peroxide = peroxide
ingredient-percarbonate = percarbonate
ingredient-acid = acid (vinegar, citric, descaler)
ingredient-ammonia = ammonia or a cleaner with it
ingredient-alcohol = alcohol or acetone
ingredient-light_metal = aluminium or galvanised metal
ingredient-heavy_metal = copper, brass, iron or mild steel
ingredient-rust = rust
ingredient-stainless_steel = stainless steel
ingredient-soda = soda
ingredient-lye = lye
ingredient-sulfur_reducer = an antichlor (thiosulfate, sulfite)

peroxide-early_death-metals = Iron, manganese and copper, from water, plant or a worn pot, break it down within the hour.
peroxide-early_death-hard_water = Hard water forms chalk, which uses up soda and lowers the pH.
peroxide-early_death-heat = Above { DEGREES(50) } it breaks down by itself, faster and faster.
peroxide-early_death-catalase = Raw or hardly cooked plant holds an enzyme that breaks it down. Boiling stops the enzyme.

stabiliser-sodium_silicate = sodium silicate (water glass, 41 °Bé)
stabiliser-magnesium_sulfate = magnesium sulfate (Epsom salt)
stabiliser-chelant = a chelant (DTPA or EDTA)

way-leave_out = Leave out { $what }

remark-over_rinsed = The pulp carries no alkali: nothing holds the pH up while the bleach is used. Have soda ash ready and read the pH early.
remark-pulp_not_tested = The water in the pulp was not tested. Squeeze some out and dip a pH strip. Below 6 it is acid: add no chlorine bleach, rinse first.
remark-acid_pulp = The water in the pulp may be acid. It uses up soda, and a pH does not show how much. Rinse the pulp, or check the pH often and have soda ash ready.
remark-ph_may_be_low = A cooled sample may read as low as pH { $ph }, below the safe range. Read a strip after mixing, before you start the clock.
remark-ph_may_be_high = A cooled sample may read as high as pH { $ph }, above the safe range. Read a strip after mixing.

field-carbon_dioxide = carbon dioxide from the air
field-bottle_lye = lye in the bottle
field-carried_alkali = kind of alkali in the pulp
field-carried_acid = amount of acid in the pulp
field-soda_ash = soda ash weighed
field-ph_model = error of the pH calculation
field-powder_filler = soda that fills the powder
field-water_bicarbonate = bicarbonate in the water

### Products that people have at home: names, and why a bath is not planned with some.

household-plain_bleach = plain chlorine bleach
household-thickened_bleach = thick (gel) bleach
household-scented_bleach = bleach with perfume or detergent
household-calcium_hypochlorite = pool chlorine or bleaching powder (calcium hypochlorite)
household-dichloroisocyanurate = pool chlorine (dichlor)
household-trichloroisocyanurate = pool chlorine tablets (trichlor)
household-percarbonate_powder = pure percarbonate powder
household-laundry_powder = laundry powder or stain remover
household-oxygen_bleach_liquid = liquid oxygen bleach
household-peroxide_liquid = hydrogen peroxide in water
household-peroxide_cream = hair developer cream
household-drain_cleaner = drain cleaner
household-limescale_remover = limescale remover
household-vinegar = vinegar
household-ammonia_cleaner = cleaner with ammonia
household-alcohol_or_acetone = alcohol or acetone

household-note-calcium_hypochlorite = Only as a clear stock solution. Put the powder into water, never water on the powder. Let it settle for six hours, and use the clear liquid. Never put dry powder on pulp. Keep it dry and away from other bleach, acid, oil, paper and cloth: it can catch fire.
household-refusal-isocyanurate = Never use this one. It holds acid and nitrogen, and can make chlorine gas and explosive nitrogen trichloride. Buy plain chlorine bleach.
household-refusal-thickened_bleach = Thick bleach is not for pulp. The thickener stays in the paper, and the gel does not mix evenly, so no strength is right. Buy plain bleach.
household-refusal-scented_bleach = Bleach with perfume or detergent is not for pulp. Both stay in the paper, and it foams. Buy plain bleach.
household-refusal-laundry_powder = Laundry powder is not for pulp. Its enzymes can attack the fibre, and brighteners and detergent stay in the paper. Buy plain percarbonate.
household-refusal-oxygen_bleach_liquid = Liquid oxygen bleach is not for pulp. It holds detergent, perfume and acid, which stay in the paper. Buy plain percarbonate, or hydrogen peroxide of 3 to 12 %.
household-refusal-peroxide_cream = Hair cream is not for pulp. Its fat and soap stay in the paper. Buy clear hydrogen peroxide of 3 to 12 %.
household-refusal-peroxide_too_strong = Hydrogen peroxide of up to { $given } is too strong to handle here; the limit is { $limit }. It burns skin and eyes and feeds fire. Buy it at 3 to 12 %; do not dilute it yourself.
household-refusal-drain_cleaner = Drain cleaner is not for pulp. It may hold lye, bleach, aluminium or strong acid, and can splash or make gas.
household-refusal-limescale_remover = Limescale remover is acid. With chlorine bleach it makes chlorine gas. Keep it away from every bath.
household-refusal-vinegar = Vinegar is acid. With chlorine bleach it makes chlorine gas. Keep it away from every bath.
household-refusal-ammonia_cleaner = Ammonia with chlorine bleach makes chloramine gas. Keep it away from every bath.
household-refusal-alcohol_or_acetone = Alcohol and acetone with chlorine bleach make chloroform and other poisons; with peroxide they can burn or explode. Keep them away from every bath.

field-stock_powder = powder for the stock
field-stock_volume = stock solution
field-stock_available_chlorine = available chlorine in the powder
