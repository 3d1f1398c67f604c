### Colour from photos: what the core refuses, asks for and doubts.

colour-place-white = white
colour-place-second_white = second white
colour-place-grey = grey
colour-place-pulp = pulp
colour-place-surface = chart
colour-light-daylight = Daylight: window or shade
colour-light-bulb = A filament bulb, tungsten or halogen
colour-light-good_lamp = A LED or tube marked CRI (Ra) 80 or more
colour-light-other_lamp = Any other lamp, or not marked
colour-refused-no_reference = There is no white in this photo to compare the pulp with.
colour-refused-impossible_reference = The values of your { $place } card must be between 0 and 100 %.
colour-refused-outside_photo = The mark for the { $place } is partly outside the photo.
colour-refused-overlapping = The mark for the { $place } overlaps the mark for the white or the grey.
colour-refused-too_small = The mark for the { $place } is { $side } pixels on its shorter side. At least { $least } are needed.
colour-refused-clipped = { $share } of the { $place } is at the limit of the camera, where colour is lost.
colour-refused-too_dark = The white reads { $code } of 255. It should be at least { $least }.
colour-refused-too_bright = The white reads { $code } of 255. Above { $most } the camera loses the difference between pale colours.
colour-refused-blurred = The photo is not sharp: edges are { $edge } of its length wide. At most { $most } can be measured.
colour-refused-uneven_patch = Light or colour changes by { $difference } across the mark for the { $place }. At most { $most } can be measured.
colour-refused-uneven_light = One white gets { $difference } more light than the other. At most { $most } can be corrected.
colour-refused-mixed_light = The colour of the light changes by { $difference } from one white to the other. At most { $most } can be measured.
colour-refused-grey_off = The grey does not match your grey card: lightness is off by { $lightness }, colour by { $chroma }.
colour-refused-coloured_light = The light is too coloured to correct: the strongest channel of the white is { $ratio } times the weakest. At most { $most } can be measured.
colour-refused-too_few_surfaces = { $count } colours are marked. At least { $least } are needed, one of them white.
colour-refused-not_as_known = The colours in the photo do not fit the values of the chart: they are ΔE00 { $difference } apart. At most { $most } can be used.
colour-refused-poor_lamp = A lamp that is not marked CRI 80 or more can change a pulp's colour more than bleaching does.
colour-do-add_white = Lay a sheet of plain white paper beside the pulp, in the same light, and take the photo again.
colour-do-check_card_values = Enter the card's values again, each between 0 and 100 %.
colour-do-mark_again = Drag the mark back into the photo.
colour-do-mark_apart = Drag the marks apart, so that each lies on its own object.
colour-do-closer = Mark a larger area, or take the photo from nearer.
colour-do-less_exposure = Tap the white on the screen and lower the exposure until it is light grey, then take the photo again.
colour-do-more_light = Take the photo again in more light, without flash.
colour-do-hold_still = Rest your elbows, tap the pulp to focus, and take the photo again.
colour-do-mark_plain_place = Move the mark to a place without shadow, glare or edge.
colour-do-even_light = Turn the table so that the window lights both whites alike.
colour-do-one_light = Use one kind of light only. Switch the other off or close the curtain.
colour-do-check_grey = Check that the grey lies flat beside the white, without shadow, and that it is the card you chose.
colour-do-more_surfaces = Mark more colours that you know the values of, from white to brown.
colour-do-check_chart = Check that each corner mark is on its own colour, that you chose the right chart, and that it lies flat in even light. Then take the photo again if it is still refused.
colour-do-daylight = Take the photo by a window in daylight, or under a lamp marked CRI 90.
colour-doubt-pulp = how uneven the pulp is
colour-doubt-white = how uneven the white looks
colour-doubt-white_value = how white your white is
colour-doubt-tone = the camera's contrast
colour-doubt-light = how evenly the light falls
colour-doubt-camera = the colour error of the camera
colour-chart-from_november2014 = 24-patch chart, made since November 2014
colour-chart-before_november2014 = 24-patch chart, made before November 2014
colour-dryness-wet = wet
colour-dryness-pressed = pressed
colour-dryness-dried = dried
colour-ageing-window = on a bright window sill
colour-ageing-warm_oven = in a warm oven
colour-ageing-dark = in a closed drawer
colour-shift-none_known = No dry-colour prediction yet: this batch has no swatch measured both wet and dried.
colour-white-raw = Raw
colour-white-straw = Straw
colour-white-oat = Oat
colour-white-cream = Cream
colour-white-natural = Natural white
colour-white-bright = Bright white
colour-name-dark_brown = dark brown
colour-name-brown = brown
colour-name-light_brown = light brown
colour-name-tan = tan
colour-name-straw = straw
colour-name-oat = oat
colour-name-cream = cream
colour-name-natural_white = natural white
colour-name-bright_white = bright white
colour-name-dark_grey = dark grey
colour-name-grey = grey
colour-name-light_grey = light grey
colour-tint-greenish = greenish
colour-tint-reddish = reddish
colour-tint-yellowish = yellowish
colour-tint-greyish = greyish
colour-words-tinted = { $tint } { $name }
colour-words-same = as light as before, within the ±
colour-words-a_little_lighter = a little lighter than before
colour-words-a_little_darker = a little darker than before
colour-words-lighter =
    { $shades ->
        [one] one shade lighter than before
       *[other] { $shades } shades lighter than before
    }
colour-words-darker =
    { $shades ->
        [one] one shade darker than before
       *[other] { $shades } shades darker than before
    }
