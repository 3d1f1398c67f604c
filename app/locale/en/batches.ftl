### The list of batches, their states, and what comes next.

batches-yellowing = Yellowing
batches-yellowing_due =
    { $count ->
        [one] Yellowing: one sheet to measure again
       *[other] Yellowing: { $count } sheets to measure again
    }
batches-new = New batch
batches-seek = Find
batches-state = Where it stands
batches-any_state = Anywhere
batches-none_found = No batch like that. Every word must be in its name, fibre or notes.
batches-found = { $n } of { $all } batches
batches-count =
    { $count ->
        [one] { $count } batch
       *[other] { $count } batches
    }
batches-nameless = Batch without a name
batches-changed = Last entry { $when }
batches-ph = pH { $ph }
batches-lightness = lightness { $n }
batches-send = Send the book
batches-take = Take in a file
batches-empty-title = No batch in the book yet
batches-empty-what = A batch is one lot of fibre on its way from wet lump to sheet. Its page keeps all that was done to it.
batches-empty-first = Weigh the squeezed pulp, and say how dry it is.
batches-empty-second = Choose the bleach and get the plan of the bath.
batches-empty-third = Start the clock; read pH and strip, take photos as it lightens.
batches-empty-fourth = Stop, rinse, test that it is clean, and put the pulp by.

state-planning = Before the bath
state-running = Bath running
state-stopped = Bath stopped
state-washing = Washing
state-clean = Clean
state-unproven = Signed off, not proven clean
state-stored = Stored
state-used = Made into sheets
state-given_up = Given up

state_tells-planning = No bleach has met this pulp yet.
state_tells-running = Bleach is at work. It goes on until you stop and rinse.
state_tells-stopped = Bleach is still in the pulp until it is rinsed out.
state_tells-washing = Rinse until the end tests pass.
state_tells-clean = Every end test passed.
state_tells-unproven = Signed off with a reason in place of a test. Treat it as if bleach were left in it.
state_tells-stored = Put by as a lot.
state_tells-used = Sheets were made of it.
state_tells-given_up = Nothing more will come of this batch. Its record stays.

next-weigh = Weigh the wet pulp
next-plan = Plan the bath
next-start = Start the bath
next-watch = To the running bath
next-end_tests = Test that it is clean
next-sign_off = Sign it off
next-store = Put the pulp by
next-sheets = Write down sheets
next-nothing = Nothing is left to do here.
