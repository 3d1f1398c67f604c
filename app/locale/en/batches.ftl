### The list of batches, their states, and what comes next.

batches-yellowing = Yellowing
batches-yellowing_due =
    { $count ->
        [one] Yellowing: one sheet to measure again
       *[other] Yellowing: { $count } sheets to measure again
    }
batches-new = New batch
batches-seek = Search
batches-any_state = Any state
batches-none_found = No batch found. Try fewer words or filters.
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
batches-send = Share a backup
batches-take = Import
batches-empty-title = No batches yet
batches-empty-what = A batch is one lot of fibre, from wet pulp to finished sheet. Its page keeps everything you did.
batches-empty-first = Weigh the squeezed pulp, and say how dry it is.
batches-empty-second = Choose the bleach and get the plan of the bath.
batches-empty-third = Start the clock. Read pH and strip, and take photos as the pulp gets lighter.
batches-empty-fourth = Stop, rinse, test that it is clean, and store the pulp.

state-planning = Before the bath
state-running = Bath running
state-stopped = Bath stopped
state-washing = Washing
state-clean = Clean
state-unproven = Signed off, not proven clean
state-stored = Stored
state-used = Made into sheets
state-given_up = Abandoned

state_tells-planning = Not bleached yet.
state_tells-running = Bleach is working. It goes on until you stop and rinse.
state_tells-stopped = Bleach is still in the pulp until it is rinsed out.
state_tells-washing = Rinse until the end tests pass.
state_tells-clean = Every end test passed.
state_tells-unproven = Signed off with a reason, not with tests. Treat it as if it still holds bleach.
state_tells-stored = Stored as a lot.
state_tells-used = Made into sheets.
state_tells-given_up = Abandoned. Its record stays.

next-weigh = Weigh the wet pulp
next-plan = Plan the bath
next-start = Start the bath
next-watch = Go to the running bath
next-end_tests = Test that it is clean
next-sign_off = Sign off
next-store = Store the pulp
next-sheets = Record sheets
next-nothing = Nothing left to do.
