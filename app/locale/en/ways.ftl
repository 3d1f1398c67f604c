### Ways to a target colour.

ways-title = Ways to this colour
ways-title_of = Ways to the colour · { $batch }
ways-no_target = Choose the colour to bleach towards first.
ways-choose_target = Choose the colour
ways-no_weight = Weigh the pulp first: baths are worked out from its dry fibre.
ways-no_bleach = There is no bleach on the shelf. Only your own products are used.
ways-impossible = The target colour is outside what can be worked out (L* 5 to 99.5).
ways-from_to = From L* { $now } ({ $low } – { $high }) now to L* { $target }, both of dry pulp.
ways-measure_first = The colour now was never measured, so the odds are vague. A photo of a dried pinch with a white paper in it narrows them most.
ways-measure = Take one
ways-working = Working out the ways…
ways-serves = What serves best
ways-leave_natural = The pulp is as light as wanted already. Leave it natural.
ways-take = { $way }. { $odds }
ways-unlikely = No way has even odds. The best would give about { $lightness }. Small pots first, or a darker target.
ways-cook_again = No way has fair odds, and the pulp is very dark: what colours it is lignin. A second cook removes it; bleach would only be used up by it.
ways-keep_its_colour = No way has fair odds without hurting the fibre. Its own colour serves better than a weak sheet.
ways-no_way = No bath can be offered: each was refused, would be dangerous, or would hurt the fibre too much. Read the pH of the pulp's water, and see the plan for the reasons.
ways-try_pots = Try small pots first
ways-best = Suggested
ways-kind-one_hypochlorite = One chlorine bath
ways-kind-one_peroxide = One peroxide bath
ways-kind-two_hypochlorite = Two mild chlorine baths
ways-kind-two_peroxide = Two mild peroxide baths
ways-kind-peroxide_after = Chlorine bath, wash, then peroxide
ways-wash_between = Wash until the strip shows zero. The two baths never meet.
ways-odds = About { $n } in 10 that it gets there.
ways-odds_hardly = It hardly gets there.
ways-odds_nearly = It nearly always gets there.
ways-lightness = L* { $middle } ({ $low } – { $high })
ways-fact_odds = Odds
ways-fact_lightness = Ends at
ways-fact_risk = Fibre risk
ways-fact_time = Time with washing
ways-fact_water = Water with rinses
ways-fact_chlorine = Chlorine in the drain
ways-fact_cost = Bleach costs
ways-chain_loss = { $low } to { $high } of the chain length lost
ways-risk_low = low
ways-risk_some = some
ways-risk_high = high
ways-time_unknown = the wash cannot be worked out
ways-water_unknown = the wash cannot be worked out
ways-no_chlorine = none
ways-chlorine = { $low } to { $high } g
ways-no_price = left out: a price or a package size is missing on the shelf
ways-yellows = Chlorine bleach leaves groups that yellow later. A peroxide bath after it removes part of them.
ways-second_later = The plan is that of the first bath. Plan the second one after the wash.
ways-make = Make this plan
ways-way = Way
ways-side_by_side = Side by side, as a table
ways-rests_on = Odds from { $draws } simulated baths of each kind, over the whole range of what is not known of this pulp. Ranges hold 8 in 10. All this is calculated, not measured.
ways-not_tried =
    { $count ->
        [one] { $count } bath was left out: the planner refuses it or it would be dangerous.
       *[other] { $count } baths were left out: the planner refuses them or they would be dangerous.
    }
