### The sheet for a workshop.

class-title = Class sheet
class-title_of = Class sheet: { $batch }
class-for_class = Make a class sheet
field-class_people = number of people
field-class_table = people at a table
field-class_dry = dry pulp for each person
field-class_start = time to begin
field-class_minutes = minutes
field-class_places = places
field-class_rinses = rinses after the bath
class-dry_hint = Without its water
class-pot_hint = The vessel for a bath. More than it holds is divided.
class-pot_for = One bath for
class-pot_for_person = each person
class-pot_for_table = each table
class-pot_for_class = the whole class
class-stations = Stations
class-start = Begins at
class-times = Minutes and places
class-times_hint = A place is room for one table: a sink, a hob. Tables begin one after the other, so that none waits for a place.
class-minutes = Minutes
class-minutes_hint = Empty: what is usual
class-places = Places
class-bath = Bleach and bath: { $bleach }
class-more = Pulp, rinses and paper
class-format = Size of the paper
class-format_hint = Counted for paper of 100 g/m².
class-letter = Letter
class-waiting = The sheet appears here when every field is filled in.
class-missing = The sheet appears here. Missing: { $what }.
class-refused = No class sheet
class-refusal-no_station = Choose at least one station.
class-refusal-no_bath = Enter the bleach and the bath first.
class-refusal-too_short = { $given } is too short for this station. It takes at least { $least }.
class-refusal-past_midnight = The class would end { $minutes } after midnight. Begin earlier, give stations more places, or do the cook the day before.
class-print = Print on one page
class-save = Save as a plan
class-save_why = One plan for all the pulp of the class. Nothing else on this page is recorded.
class-batch_name = Class of { $date }
class-who = { $people } at { $tables }, { $from } to { $to }. { $dry } dry pulp, { $wet } wet.
class-people =
    { $count ->
        [one] 1 person
       *[other] { $count } people
    }
class-tables =
    { $count ->
        [one] 1 table
       *[other] { $count } tables
    }
class-everyone = Everyone wears goggles that seal, rubber gloves and an apron at the cook, the bath and the wash. Keep running water free for eyes.
class-short = The batch has less pulp than the class needs: { $missing } wet pulp is missing.
class-schedule = When each table begins at each station
class-table_n = { $n } ({ $people })
class-end = End
class-pace = { $station } sets the pace: a table begins every { $gap }. With { $more } places there, the class ends at { $end }.
class-pace_only = { $station } sets the pace: a table begins every { $gap }.
class-together = all together
class-one_person = 1 person
class-table_of = Table of { $people }
class-all = All
class-each_person = Each person
class-each_table = Table of { $people }
class-for_people =
    { $count ->
        [one] 1 person
       *[other] { $count } people
    }
class-recipe = { $whose }: { $pulp } wet pulp · { $rest }.
class-stop = Stop after { $minutes }.
class-stir = Stir every { $minutes }.
class-water_at = The water is at { $temperature }.
class-papers = About { $count } sheets of { $format } for each person.
class-on_table = On the table:
class-measured = Bold: measured. Other amounts are calculated from it.
class-cook_values = { $minutes } at { $celsius }, { $strength } alkali in the liquor. Assumed: soda ash, { $charge } of the dry plant.
class-rinse_values = { $rinses } rinses, until the water squeezed from the pulp is clear.
class-wash_values = { $rinses } rinses. Stir, wait 10 minutes, squeeze. Go on until the strip shows none.
class-wash_most = If the bath used up no bleach, { $rinses } rinses would be needed.
class-does-cook = Dissolve the soda ash in the water, add the dry plant, keep just below boiling.
class-does-rinse = Drain the cook, then stir into clean water and squeeze.
class-does-plan = Weigh the squeezed pulp. Dip a strip into water squeezed from it.
class-does-bath = Water first, then the bleach, then the pulp. Start the clock.
class-does-bath_pulp_first = Water first, then the pulp, then the bleach. Start the clock.
class-does-wash = Drain the bath, one at a time. Then stir into clean water and squeeze.
class-does-prove = Squeeze out some water and dip the strips. Pulp is clean when they show no bleach and the pH of the tap.
class-does-sheets = Pull, couch and press the sheets.
class-needs-cook = pot with lid, hob, scale, long spoon, thermometer, timer.
class-needs-rinse = sink, bucket, sieve or net, jug.
class-needs-plan = scale, bowl, pH strips, this sheet.
class-needs-bath = plastic bucket, jug or cylinder, scale, plastic spoon, thermometer, timer, strips.
class-needs-wash = sink, bucket, sieve or net, jug, strips.
class-needs-prove = strips with their colour scales, small glass, towel.
class-needs-sheets = vat, mould and deckle, felts, press or boards, sponge.
class-item-raw_fibre = Dry plant
class-item-cook_alkali = Soda ash
class-item-cook_water = Water
class-item-rinse_water = Water, all rinses
class-item-wet_pulp = Wet pulp
class-item-bleach = Bleach
class-item-powder = Percarbonate
class-item-soda_ash = Soda ash
class-item-bath_water = Water
class-item-wash_water = Water, all rinses
class-item-ph_strips = pH strips
class-item-chlorine_strips = Chlorine strips
class-item-peroxide_strips = Peroxide strips
class-item-sheets = Sheets
