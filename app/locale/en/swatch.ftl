### Measuring colour in a photo, and following it.

swatch-plus_minus = { $value } ± { $half }
swatch-minutes = { $n } min
swatch-before = before the bath
swatch-not_iso = For an opaque stack of swatches, by daylight (D65). The blue index is how this phone's camera sees blue light. It is not ISO brightness, which needs an instrument.
swatch-figure-lightness = Lightness L*
swatch-figure-a = a*, green to red
swatch-figure-b = b*, blue to yellow
swatch-figure-chroma = Chroma C*
swatch-figure-hue = Hue, degrees
swatch-figure-yellowness = Yellowness (E313)
swatch-figure-blue = Blue index, of 100
swatch-figure-k_over_s = K/S in the blue
swatch-figure-cie_whiteness = CIE whiteness
swatch-to_target = ΔE00 to the target colour: { $difference }.
swatch-dries_to = From this batch's earlier swatches ({ $pairs }), it should dry to about L* { $lightness }, yellowness { $yellowness }.
swatch-pairs =
    { $count ->
        [one] { $count } swatch, wet and dried
       *[other] { $count } swatches, wet and dried
    }
swatch-days =
    { $count ->
        [one] { $count } day
       *[other] { $count } days
    }
swatch-rinses =
    { $count ->
        [one] { $count } rinse
       *[other] { $count } rinses
    }
swatch-measure-link = Measure colour
swatch-measure-title = Measure colour
swatch-measure-title_target = Measure a paper
swatch-measure-after_photo = Save and measure its colour
swatch-measure-looking = Looking at the photo…
swatch-measure-measuring = Measuring…
swatch-measure-refused = No colour from this photo yet
swatch-measure-between = The second pulp is { $change } than the first (ΔE00 { $difference }). In one photo a difference is more certain than either colour.
swatch-figures = Figures
swatch-untaught = Without what the phone was taught: L* { $l }, a* { $a }, b* { $b }.
swatch-lighter_by = lighter by { $by }
swatch-darker_by = darker by { $by }
swatch-measure-doubt = The ± comes mostly from { $doubt }.
swatch-measure-again = Measure again
swatch-mark-photo = The photo. Tap it to move the chosen mark there.
swatch-mark-white = White
swatch-mark-second_white = White 2
swatch-mark-grey = Grey
swatch-mark-pulp = Pulp
swatch-mark-second_pulp = Pulp 2
swatch-mark-told = { $name }, { $x } % across, { $y } % down. Arrow keys move it, plus and minus change its size.
swatch-mark-found = These were found in the photo. Check that each mark is in the right place. If not, drag it.
swatch-mark-none_found = No white sheet or card was found in this photo. If there is one, tick it and drag the mark there.
swatch-mark-smaller = { $name }: smaller
swatch-mark-larger = { $name }: larger
swatch-mark-more = More marks
swatch-mark-again = As found
swatch-mark-as_last = As last time
swatch-mark-tick-white = White paper or card
swatch-mark-tick-second_white = A second white, at the other end
swatch-mark-tick-grey = Grey card
swatch-mark-tick-pulp = Pulp
swatch-mark-tick-second_pulp = A second pulp, to compare
swatch-reference-white = The white is
swatch-reference-copy_paper = Plain copy paper
swatch-reference-copy_paper_name = copy paper
swatch-reference-copy_paper_is = Reflects 90 % of the light (85 to 92, in the blue up to 100). Brighteners make it bluer.
swatch-reference-own_card = My own card
swatch-reference-grey = The grey is
swatch-reference-grey_18 = An 18 % grey card
swatch-reference-light = The light
swatch-card-is = { $name }: L* { $l }, a* { $a }, b* { $b }
swatch-card-change = Change
swatch-card-once = Enter the values printed with the card. You do this once.
swatch-card-name = Name of the card
swatch-card-white = white card
swatch-card-grey = grey card
swatch-card-lightness_hint = If the card gives only its reflectance: 90 % is 96, 18 % is 50.
swatch-card-save = Save the card
swatch-keep-earlier = Measured before?
swatch-keep-new = No, a new swatch
swatch-keep-earlier_hint = The same swatch wet, then dried, shows what drying does. Fresh, then aged, it shows how it yellows.
swatch-keep-ageing = Kept since then
swatch-keep-not_aged = Not aged
swatch-keep-save = Save the colour
swatch-progress-title = Colour, { $name }
swatch-progress-none = No colour of this batch is measured yet.
swatch-progress-how = Lay white paper beside the pulp, by a window, without flash, and take a photo of both.
swatch-progress-last = Last: { $when }
swatch-progress-to_target = { $name }: ΔE00 { $difference } to go.
swatch-progress-moving = The last two wet swatches differ by more than their ±. The bath is working.
swatch-progress-standing = The last two wet swatches are the same within their ±.
swatch-progress-chips = Swatches
swatch-progress-unmeasured = Not measured yet
swatch-chart-lightness = Lightness L*
swatch-chart-yellowness = Yellowness
swatch-chart-to_target = ΔE00 to go
swatch-chart-when = When
swatch-chart-minutes = min in bleach
swatch-chart-in_order = in order of time
swatch-chart-after = after
swatch-chart-key = ● wet, ■ pressed, ○ dried. Upright lines are the ±. The dashed line is the target. Tap one to see its photo.
swatch-chart-table = As a table
swatch-chart-told = { $state }, over { $minutes } min: lightness from { $from } to { $to }, yellowness from { $yellow_from } to { $yellow_to }.
swatch-chart-told_one = One swatch, { $state }: lightness { $lightness }.
swatch-target-choose = Choose a target colour
swatch-target-title = Target colour
swatch-target-steps = Six steps from raw fibre to the whitest plant paper. They are Bleachfield's own, not a standard.
swatch-target-swatches = A measured swatch
swatch-target-paper = A paper you have
swatch-target-paper_how = Take a photo of the paper with white beside it, then choose the photo here.
swatch-target-measure = Measure the paper in this photo
swatch-target-name = Name of this paper
swatch-target-nameless = your paper
swatch-target-aim = Set as target
swatch-compare-title = Compare photos
swatch-compare-with = Compare
swatch-compare-how = Each photo is corrected by its own white, so that colours can be compared.
swatch-compare-too_few = This needs two photos with a measured colour. Measure another one first.
swatch-compare-left = One photo
swatch-compare-right = The other
swatch-compare-view = How they are shown
swatch-compare-beside = Side by side
swatch-compare-split = One over the other
swatch-compare-divide = Position of the dividing line
swatch-compare-difference = The other is { $change } (ΔE00 { $difference }).
swatch-aged = aged
swatch-ageing-title = Yellowing
swatch-ageing-how = Measure a dried sheet again after one week, one month, three months and a year. You can keep half of it on a window sill or in a warm oven. Pulp that was not rinsed enough yellows first.
swatch-ageing-none = No dried swatch is measured yet. Measure a sheet when it is dry. Then it is listed here.
swatch-ageing-made = First measured dry on { $day }.
swatch-ageing-due = Overdue: measure again (due { $day }).
swatch-ageing-next = Measure it again on { $day }.
swatch-ageing-again = Take a photo of it now
swatch-ageing-after = After
swatch-ageing-kept = Kept
swatch-ageing-post_colour = Post-colour no.
swatch-ageing-since_made = ΔE00 since made
swatch-ageing-short = { $rinses }, and not shown to be clean: { $open }.

field-card_lightness = card's L*
field-card_a = card's a*
field-card_b = card's b*
