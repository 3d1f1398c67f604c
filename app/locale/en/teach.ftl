### Teaching the phone by known colours.

teach-title = Teach this phone
teach-what = Every camera shows colours in its own way. A photo of colours with known values tells how this phone does. The ± of colours measured with it then gets smaller.
teach-optional = You do this once for each kind of light. Colours are measured without it too.
teach-offer = Teach this phone, for a smaller ±
teach-known = What do you photograph?
teach-known-swatches = Swatches with values that I know
teach-how-chart = Lay the chart flat beside where your pulp lies, in the same light, and let it fill the photo.
teach-how-swatches = Lay at least six swatches side by side, a white and some browns among them. You need the L*, a*, b* (D65) of each.
teach-known_already = Taught on { $day } with { $name }: pulp colours came within ΔE00 { $after }, before { $before }. Teaching again replaces it.
teach-mark-corners = Drag each mark to the middle of the corner patch of that colour.
teach-mark-swatches = Drag each mark onto its swatch.
teach-corner-brown = Dark brown
teach-corner-blue_green = Blue-green
teach-corner-black = Black
teach-corner-white = White
teach-swatch = Swatch { $n }
teach-values = Values for daylight (D65, 2° observer). The lightest neutral swatch is taken as the white.
teach-another = Add a swatch
teach-refused = Nothing learnt from this photo
teach-learnt = Learnt: pulp colours come within ΔE00 { $after }, before { $before }.
teach-used_for = It is used for photos that are saved on this phone and measured in this kind of light. Photos of other phones are not changed.
teach-name = Name of the chart or swatches
teach-save = Teach this phone
teach-again =
    { $count ->
        [one] { $count } photo of this phone was measured before in this light.
       *[other] { $count } photos of this phone were measured before in this light.
    }
teach-again_both = Measured again, each keeps both figures: the new one, and the one from before.
teach-again_do = Measure them again
teach-again_running = { $done } of { $of } measured
teach-again_done = Measured again: { $measured }. Not possible: { $refused }.
teach-again_why = measured again after teaching the phone
