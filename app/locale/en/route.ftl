### Ways to a target colour.

route-title = Ways to this colour
route-title_of = Ways to the colour · { $batch }
route-no_target = Choose the colour to bleach towards first.
route-choose_target = Choose the colour
route-no_weight = Weigh the pulp first: baths are worked out from its dry fibre.
route-no_bleach = There is no bleach on the shelf. Only your own products are used.
route-impossible = The target colour is outside what can be worked out (L* 5 to 99.5).
route-from_to = From L* { $now } ({ $low } – { $high }) now to L* { $target }, both of dry pulp.
route-measure_first = The colour now was never measured, so the odds are vague. A photo of a dried pinch with a white paper in it narrows them most.
route-measure = Take one
route-working = Working out the ways…
route-serves = What serves best
route-leave_natural = The pulp is as light as wanted already. Leave it natural.
route-take = { $way }. { $odds }
route-unlikely = No way has even odds. The best would give about { $lightness }. Small pots first, or a darker target.
route-cook_again = No way has fair odds, and the pulp is very dark: what colours it is lignin. A second cook removes it; bleach would only be used up by it.
route-keep_its_colour = No way has fair odds without hurting the fibre. Its own colour serves better than a weak sheet.
route-no_way = No bath can be offered: each was refused, would be dangerous, or would hurt the fibre too much. Read the pH of the pulp's water, and see the plan for the reasons.
route-try_pots = Try small pots first
route-best = Suggested
route-kind-one_hypochlorite = One chlorine bath
route-kind-one_peroxide = One peroxide bath
route-kind-two_hypochlorite = Two mild chlorine baths
route-kind-two_peroxide = Two mild peroxide baths
route-kind-peroxide_after = Chlorine bath, wash, then peroxide
route-wash_between = Wash until the strip shows zero. The two baths never meet.
route-odds = About { $n } in 10 that it gets there.
route-odds_hardly = It hardly gets there.
route-odds_nearly = It nearly always gets there.
route-lightness = L* { $middle } ({ $low } – { $high })
route-fact_odds = Odds
route-fact_lightness = Ends at
route-fact_risk = Fibre risk
route-fact_time = Time with washing
route-fact_water = Water with rinses
route-fact_chlorine = Chlorine in the drain
route-fact_cost = Bleach costs
route-chain_loss = { $low } to { $high } of the chain length lost
route-risk_low = low
route-risk_some = some
route-risk_high = high
route-time_unknown = the wash cannot be worked out
route-water_unknown = the wash cannot be worked out
route-no_chlorine = none
route-chlorine = { $low } to { $high } g
route-no_price = left out: a price or a package size is missing on the shelf
route-yellows = Chlorine bleach leaves groups that yellow later. A peroxide bath after it removes part of them.
route-second_later = The plan is that of the first bath. Plan the second one after the wash.
route-make = Make this plan
route-way = Way
route-side_by_side = Side by side, as a table
route-rests_on = Odds from { $draws } simulated baths of each kind, over the whole range of what is not known of this pulp. Ranges hold 8 in 10. All this is calculated, not measured.
route-not_tried =
    { $count ->
        [one] { $count } bath was left out: the planner refuses it or it would be dangerous.
       *[other] { $count } baths were left out: the planner refuses them or they would be dangerous.
    }
