### The line of the job, and the steps after the bath.

station-all = Where the pulp is
station-done = { $name }, done
station-cook = Cook
station-rinse = Rinse
station-plan = Plan
station-bath = Bath
station-wash = Wash
station-prove = Prove
station-store = Store
station-sheets = Sheets

ladder-all = Steps after the bath
ladder-drain = Drain
ladder-drained = Drained
ladder-rinse = Rinse { $n }
ladder-more_rinses =
    { $count ->
        [one] Then { $count } more rinse
       *[other] Then { $count } more rinses
    }
ladder-rinses_left =
    { $count ->
        [one] About { $count } rinse to go
       *[other] About { $count } rinses to go
    }
ladder-rinses_most = (at most { $most })
ladder-rinses_open = Rinse until the strip shows zero and the pH is that of the tap.
ladder-bath_not_read = The bath was not read, so its bleach counts as fresh. A strip and a pH from this rinse give a better number.
ladder-water_planned = As planned. Change it if you use another amount.
ladder-as_planned = { $amount } as planned
ladder-read_or_not = Read them in water squeezed from the pulp, or leave them empty. What you read here counts as a test.
ladder-rinse_more = More: soak, dryness, wash plan
ladder-chlorine_strip = Chlorine strip
ladder-peroxide_strip = Peroxide strip
ladder-which_strip = Which strip was it?
ladder-antichlor = Remove the last bleach
ladder-antichlor_why = The strip still finds bleach. An antichlor removes it with fewer rinses. You may also rinse on.
ladder-acid = Neutral finish with acid
ladder-acid_why = No bleach is left, and the pH is still above that of the tap. Acid brings it down with fewer rinses. You may also rinse on.
ladder-ph_of_rinse = The pH of your last rinse is filled in. Read the pH of the tap water.
ladder-what_it_tells = What this test shows
ladder-store = Store
ladder-is_done = done
ladder-is_left_out = left out, with a reason
ladder-is_now = now
ladder-is_optional = may help
ladder-is_ahead = later

proof-unsigned = Tested, not signed off
proof-untested = Not tested clean
proof-failed = A test failed: not clean
lot-past = Past its keep-by date

next-cook = Write down the cook
next-rinse_now = Rinse the pulp

store-not_clean = This pulp is not proven clean:
store-test_first = Do the tests first
store-sign_first = Sign it off first
store-untested_why = Why you store it now
store-refusal-untested = Do the missing tests, or write why you store it without.
store-untested_line = Stored without proof that it is clean: { $why }

batch-fact_time = Time in bath
batch-fact_planned = planned: { $time }
batch-fact_lightness = Lightness
batch-facts_lightness = L* { $first } → { $last }
batch-facts_lightness_one = L* { $last }
batch-photos = Photos
batch-photo_before = before
batch-photo_end = end
batch-photo_after = after
batch-photo_dried = dried
batch-part-before = Before the bath
batch-part-bath = Bath
batch-part-wash = Wash
batch-part-proof = Proof
batch-part-stored = Stored
batch-part_entries =
    { $count ->
        [one] { $count } entry
       *[other] { $count } entries
    }

acid-refusal-peroxide_not_proven_zero = No acid yet. Peroxide may be left, and vinegar and peroxide make a vapour that burns eyes and lungs. The { $test } does not stand at zero since the last bleach. Rinse and test; then this opens.

label-failed = TEST FAILED
