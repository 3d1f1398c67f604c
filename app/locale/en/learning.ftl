# What a forecast rests on: published ranges, and own baths.
learning-title = What it rests on
learning-say = A forecast begins with published ranges, which are wide. Readings of your own baths narrow them. Damage to the fibre is never read, so its ranges stay as published.
learning-bleach = Bleach
learning-hypochlorite = Chlorine bleach
learning-percarbonate = Percarbonate
learning-peroxide = Peroxide
learning-fibre = Fibre
learning-other_fibre = Another fibre
learning-none = No bath of yours has readings yet: all ranges are published ones or our estimates.
learning-own = { $count ->
    [0] No bath of this fibre with this bleach has readings yet.
    [one] Rests on 1 bath of this fibre.
   *[other] Rests on { $count } baths of this fibre.
}
learning-of_others = { $count ->
    [one] 1 bath of another fibre counts a little too.
   *[other] { $count } baths of other fibres count a little too.
}
learning-readings = { $count ->
    [one] 1 reading.
   *[other] { $count } readings.
}
learning-under_way = Learning from your baths: { $learnt } of { $of }.
learning-correction = Bands of { $of }: width × { $factor }, from how { $readings } earlier readings fell.
learning-longer = Longer than your own baths: the longest had { $longest }. What comes after is a guess of the law alone.
learning-warmer = More than 10 °C warmer than your own baths: the warmest had { $warmest }.
learning-cooler = More than 10 °C cooler than your own baths: the coolest had { $coolest }.
learning-nearest = Your nearest bath
learning-nearest_facts = { $celsius }, { $minutes }, { $charge } mol oxidant/kg of fibre
learning-published = published
learning-estimated = our estimate, wide
learning-from_readings = { $count ->
    [one] from 1 reading of yours
   *[other] from { $count } readings of yours
}
learning-seen = { $count ->
    [one] seen in 1 reading, not narrowed yet
   *[other] seen in { $count } readings, not narrowed yet
}
learning-range = { $low } to { $high }
learning-source = Source
learning-source_own = Your readings narrow an earlier range. That came from: { $source }
learning-holds = Holds for: { $where }
learning-parameters = Numbers in use
learning-link = What the forecast rests on

# Plain names of the numbers.
learning-parameter-fast_consumers = Bleach that the pulp uses up fast
learning-parameter-slow_consumers = Bleach that it uses up slowly
learning-parameter-fast_rate = How fast the fast part goes
learning-parameter-slow_ratio = Slow part, compared with the fast
learning-parameter-colour_rate = How fast colour goes
learning-parameter-colour_floor = Colour that stays, as part of the start
learning-parameter-bleach_energy = How much warmth speeds up bleaching
learning-parameter-acid_speedup = Speed in acid, compared with alkali
learning-parameter-acid_yield = Acid that forms
learning-parameter-scission_rate = How fast fibre is damaged
learning-parameter-scission_energy = How much warmth speeds up damage
learning-parameter-scission_acid_ratio = Damage in acid, compared with alkali
learning-parameter-scission_acid_energy = How much warmth speeds up damage in acid
learning-parameter-scission_together_ratio = Damage near pH 7, compared with acid
learning-parameter-metal_loss = Bleach lost to metals
learning-parameter-metal_energy = How much warmth speeds up that loss
learning-parameter-decay_factor = Decay of bleach by itself, over the published
learning-parameter-dissolving_time = Time in which the powder dissolves
learning-parameter-start_polymerization = Chain length of the fibre before

# Their units.
learning-unit-per_fibre = mol/kg of fibre
learning-unit-rate = L/(mol·s)
learning-unit-root_rate = (L/mol)^½/s
learning-unit-energy = kJ/mol
learning-unit-per_second = 1/s
learning-unit-acid = mol for each mol used
learning-unit-second = s

# What bands are of.
learning-dry_lightness = lightness once dry
learning-wet_lightness = lightness of the wet pulp
learning-oxidant_left = bleach left
learning-ph = pH
learning-celsius = temperature
