### A season's baths together.

season-title = What worked
season-count =
    { $count ->
        [0] No bath is over yet. Each batch whose bath was stopped counts here.
        [one] { $count } batch whose bath is over.
       *[other] { $count } batches whose baths are over.
    }
season-by = Put together by
season-by-charge = Charge
season-by-time = Time
season-by-temperature = Temperature
season-by-fibre = Fibre
season-of = Result
season-of-lightness_gained = Lightness gained
season-of-kept = Fibre kept
season-axis_kept = Fibre kept, %
season-none = Nothing to show. Lightness gained takes two colour readings of a batch; fibre kept takes a weighing before the bath and the stored weight.
season-batches = Batches
season-range = Lowest to highest
season-key = Each dot is the mean of a group, with n batches behind it. Its line goes from the lowest to the highest. One batch alone shows little.
season-most_light = Most lightness gained: { $group }, by { $result } (n = { $n }).
season-most_kept = Most fibre kept: { $group }, { $result } (n = { $n }).
season-per_kg = For a kilogram of dry pulp
season-used = What
season-mean = Mean
season-active = Active bleach
season-water = Water of baths and rinses
season-cost = Cost of chemicals
season-per_kg_how = Of the stored pulp where it was weighed, else of the fibre before the bath. Amounts by the plans. Small pots of trials are left out.
