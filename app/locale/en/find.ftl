### Finding batches: search, filters, order, tags.

find-hint = Names, fibres, notes, products and places. Every word must be there.
find-filters = Filters
find-filters_set =
    { $count ->
        [one] Filters: { $count } set
       *[other] Filters: { $count } set
    }
find-fibre = Fibre
find-any_fibre = Any fibre
find-oxidant = Bleach
find-any_oxidant = Any bleach
find-state = State
find-tag = Tag
find-any_tag = Any tag
find-clear = Show all
find-order = Sort by
find-order-changed = Latest entry
find-order-started = Oldest first
find-order-lightness = Lightest first
find-order-yield = Most fibre kept first
find-order-cost = Cheapest first
find-started = Started { $date }
find-yield = { $share } of the fibre kept
find-no_yield = Fibre kept: not known. It takes a weighing before the bath and the stored weight.
find-cost = Cost { $cost }
find-cost_at_least = Cost at least { $cost }
find-no_cost = Cost not known: no price on the shelf.

entry-tagged = Tags changed
entry_line-tags_on = Added: { $tags }
entry_line-tags_off = Removed: { $tags }
batch-tags = Tags
form-tags-short = Tags
form-tags-title = Tags
form-tags-what = A tag is a word of your own, such as a project or a person. Batches are found by their tags.
form-tags-new = New tag
form-tags-hint = One tag at a time.
form-tags-add = Add tag
form-tags-others = Your other tags
form-tags-off = Remove { $tag }

### Batches side by side.

compare-choose = Compare
compare-with = Compare with…
compare-choose_two = Tick two to four batches.
compare-chosen =
    { $count ->
        [one] { $count } batch ticked
       *[other] { $count } batches ticked
    }
compare-no_more = Four batches ticked. That is the most.
compare-go = Show side by side
compare-leave = Cancel
compare-take = Compare { $name }
