### Words that all screens share: places, buttons, lengths of time, units.

place-all = The five places
place-sink = Sink
place-mix = Mix
place-batches = Batches
place-shelf = Shelf
place-help = Help

do-back = Back
do-close = Close
do-undo = Undo
do-save = Save
do-choose = Choose…

mark-assumed = assumed

duration-seconds = { $n } s
duration-minutes = { $n } min
duration-hours = { $n } h
duration-days = { $n } d

unit-minutes = { $n } min
unit-days = { $n } days
unit-teaspoon = tsp
unit-tablespoon = tbsp
unit-cup = cup
unit-pint = pint
unit-quart = quart
unit-gallon = gal
unit-day = days
unit-week = weeks

nowhere-title = Page not found
nowhere-why = Bleachfield has no page at this address. Nothing is lost.
nowhere-home = Go to the Sink

app-opening = Opening your records…
app-refused = Your records cannot be opened here

not_here-title = Not on this phone yet
not_here-why = This part of Bleachfield is not stored on this phone yet, and there is no network. Your batches are safe. Cues of a running bath continue at the Sink.
not_here-again = Try again

# A number field.
field-unit_of = Unit: { $field }
field-fractions = Add a fraction

# A form that has come back as it was left.
draft-found = Typed { $since }, not saved.
draft-discard = Clear it
