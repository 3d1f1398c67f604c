### Measuring colour in a photo, and following it.

swatch-plus_minus = { $value } ± { $half }
swatch-minutes = { $n } min
swatch-before = before the bath
swatch-not_iso = For an opaque stack of swatches, by daylight (D65). The blue index is what this phone's camera makes of blue light. It is not ISO brightness, which takes an instrument.
swatch-figure-lightness = Lightness L*
swatch-figure-chroma = Chroma C*
swatch-figure-hue = Hue, degrees
swatch-figure-yellowness = Yellowness (E313)
swatch-figure-blue = Blue index, of 100
swatch-figure-k_over_s = K/S in the blue
swatch-figure-cie_whiteness = CIE whiteness
swatch-to_target = ΔE00 to the colour you aim at: { $difference }.
swatch-dries_to = By what this batch showed before ({ $pairs }), it dries to about L* { $lightness }, yellowness { $yellowness }.
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
swatch-measure-between = The second pulp is { $difference } away (ΔE00), with L* { $lightness }. In one photo a difference is surer than either colour.
swatch-measure-doubt = The ± is mostly from { $doubt }.
swatch-measure-again = Measure again
swatch-mark-photo = The photo. Tap it to bring the chosen mark there.
swatch-mark-white = White
swatch-mark-second_white = White 2
swatch-mark-grey = Grey
swatch-mark-pulp = Pulp
swatch-mark-second_pulp = Pulp 2
swatch-mark-told = { $name }, { $x } % across, { $y } % down. Arrow keys move it, plus and minus size it.
swatch-mark-found = These were found in the photo. Look whether each mark lies where it should, and drag it if not.
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
swatch-reference-copy_paper_is = to send back 90 % of the light (85 to 92, in the blue up to 100). Brighteners make it bluer.
swatch-reference-own_card = My own card
swatch-reference-grey = The grey is
swatch-reference-grey_18 = An 18 % grey card
swatch-reference-light = The light
swatch-card-is = { $name }: L* { $l }, a* { $a }, b* { $b }
swatch-card-change = Change
swatch-card-once = Enter what the card's maker prints. It is asked once.
swatch-card-name = Name of the card
swatch-card-white = white card
swatch-card-grey = grey card
swatch-card-lightness_hint = A card that only names its reflectance is 96 at 90 %, 50 at 18 %.
swatch-card-save = Keep the card
swatch-keep-earlier = Measured before?
swatch-keep-new = No, a new swatch
swatch-keep-earlier_hint = The same swatch, wet then dried, teaches what drying does; fresh then aged, how it yellows.
swatch-keep-ageing = Since then it was kept
swatch-keep-not_aged = Not aged
swatch-keep-save = Save the colour
swatch-progress-title = Colour, { $name }
swatch-progress-none = No colour of this batch was measured yet.
swatch-progress-how = Lay white paper beside the pulp, by a window, without flash, and take a photo of both.
swatch-progress-last = Last: { $when }
swatch-progress-to_target = { $name }: ΔE00 { $difference } to go.
swatch-progress-moving = The last two wet swatches differ by more than their ±. The bath can be seen to work.
swatch-progress-standing = The last two wet swatches are alike within their ±.
swatch-progress-chips = Swatches
swatch-progress-unmeasured = Not measured yet
swatch-chart-lightness = Lightness L*
swatch-chart-yellowness = Yellowness
swatch-chart-to_target = ΔE00 to go
swatch-chart-when = When
swatch-chart-minutes = min in bleach
swatch-chart-in_order = in order of time
swatch-chart-after = after
swatch-chart-key = ● wet, ■ pressed, ○ dried; upright lines are the ±, the dashed level is your aim. Tap one to see its photo.
swatch-chart-table = As a table
swatch-chart-told = { $state }, over { $minutes } min: lightness from { $from } to { $to }, yellowness from { $yellow_from } to { $yellow_to }.
swatch-chart-told_one = One swatch, { $state }: lightness { $lightness }.
swatch-target-choose = Aim at a colour
swatch-target-title = Aim at a colour
swatch-target-steps = Six steps from raw fibre to the whitest plant paper. They are Bleachfield's own; no standard has them.
swatch-target-swatches = A swatch in the book
swatch-target-paper = A paper you have
swatch-target-paper_how = Take a photo of the paper with white beside it, then press the photo here.
swatch-target-measure = Measure the paper in this photo
swatch-target-name = What you call this paper
swatch-target-nameless = your paper
swatch-target-aim = Aim at this colour
swatch-compare-title = Compare photos
swatch-compare-with = Compare
swatch-compare-how = Each photo is shown by its own white, so that one colour looks the same in both.
swatch-compare-too_few = It takes two photos with a measured colour. Measure another one first.
swatch-compare-left = One photo
swatch-compare-right = The other
swatch-compare-view = How they are shown
swatch-compare-beside = Side by side
swatch-compare-split = One over the other
swatch-compare-divide = Where one ends
swatch-compare-difference = Their pulps are ΔE00 { $difference } apart.
swatch-ageing-title = Yellowing
swatch-ageing-how = Measure a dried sheet again after a week, a month, three and a year, half of it on a window sill or in a warm oven if you like. Pulp that was rinsed short shows it first.
swatch-ageing-none = No dried swatch was measured yet. Measure a sheet when it is dry, and it is listed here.
swatch-ageing-made = First measured dry on { $day }.
swatch-ageing-due = To be measured again since { $day }.
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
