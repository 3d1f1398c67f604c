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
remark-ph_may_be_low = The pH may be as low as { $ph }, below the window. Read a strip once it is mixed, before the time counts.
remark-ph_may_be_high = The pH may be as high as { $ph }, above the window. Read a strip once it is mixed.

field-carbon_dioxide = carbon dioxide in the air
field-bottle_lye = lye in the bottle
field-carried_alkali = kind of alkali in the pulp
field-powder_filler = soda that fills the powder
field-water_bicarbonate = bicarbonate in the water

### Products that people have at home: names, and why a bath is not planned with some.

household-plain_bleach = plain chlorine bleach
household-thickened_bleach = thick (gel) bleach
household-scented_bleach = bleach with perfume or detergent
household-calcium_hypochlorite = pool chlorine or bleaching powder (calcium hypochlorite)
household-dichloroisocyanurate = pool chlorine (dichlor)
household-trichloroisocyanurate = pool chlorine tablets (trichlor)
household-percarbonate_powder = percarbonate powder, nothing else in it
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
household-refusal-laundry_powder = Laundry powder is not for pulp. Its enzymes can eat the fibre, and brighteners and detergent stay in the paper. Buy plain percarbonate.
household-refusal-oxygen_bleach_liquid = Liquid oxygen bleach is not for pulp. It holds detergent, perfume and acid, which stay in the paper. Buy plain percarbonate, or hydrogen peroxide of 3 to 12 %.
household-refusal-peroxide_cream = Hair cream is not for pulp. Its fat and soap stay in the paper. Buy clear hydrogen peroxide of 3 to 12 %.
household-refusal-peroxide_too_strong = Hydrogen peroxide of up to { $given } is too strong to handle here; the limit is { $limit }. It burns skin and eyes and feeds fire. Buy it at 3 to 12 %; do not dilute it yourself.
household-refusal-drain_cleaner = Drain cleaner is not for pulp. It may hold lye, bleach, aluminium or strong acid, and can spit or make gas.
household-refusal-limescale_remover = Limescale remover is acid. With chlorine bleach it makes chlorine gas. Keep it away from every bath.
household-refusal-vinegar = Vinegar is acid. With chlorine bleach it makes chlorine gas. It has no place in a bath.
household-refusal-ammonia_cleaner = Ammonia with chlorine bleach makes chloramine gas. Keep it away from every bath.
household-refusal-alcohol_or_acetone = Alcohol and acetone with chlorine bleach make chloroform and other poisons; with peroxide they can burn or explode. Keep them away from every bath.

field-stock_powder = powder for the stock
field-stock_volume = stock solution
field-stock_available_chlorine = available chlorine in the powder
