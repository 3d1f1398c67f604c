### Files between phones, and photos taken in.

exchange-again = Try again
exchange-sent_last = The whole book was last sent out on { $date }.
exchange-sent_never = The whole book has never been sent out from this phone.
exchange-remind =
    { $count ->
        [one] { $count } entry is on this phone alone, and phones fall into vats. Send the book somewhere.
       *[other] { $count } entries are on this phone alone, and phones fall into vats. Send the book somewhere.
    }
exchange-entries =
    { $count ->
        [one] { $count } new entry
       *[other] { $count } new entries
    }
exchange-photos =
    { $count ->
        [one] { $count } photo
       *[other] { $count } photos
    }
exchange-missing =
    { $count ->
        [one] { $count } photo stays where it was taken: it is not at hand.
       *[other] { $count } photos stay where they were taken: they are not at hand.
    }
exchange-unreadable =
    { $count ->
        [one] { $count } entry on this phone cannot be read. It goes into the file as it is stored.
       *[other] { $count } entries on this phone cannot be read. They go into the file as they are stored.
    }
exchange-unreadable_left_out =
    { $count ->
        [one] { $count } entry on this phone cannot be read, and may belong to these batches. It is not in this file. A file of the whole book has it.
       *[other] { $count } entries on this phone cannot be read, and may belong to these batches. They are not in this file. A file of the whole book has them.
    }
exchange-unreadable_photos =
    { $count ->
        [one] { $count } photo on this phone cannot be read and is not in the file. Nothing was deleted. See Help.
       *[other] { $count } photos on this phone cannot be read and are not in the file. Nothing was deleted. See Help.
    }
exchange-ahead =
    { $count ->
        [one] The clock of the phone that wrote this is { $count } minute ahead of this one. Set it right there, or later entries will seem to come before it.
       *[other] The clock of the phone that wrote this is { $count } minutes ahead of this one. Set it right there, or later entries will seem to come before it.
    }
exchange-send-title = Send the book
exchange-send-what = One file with entries and photos, for another phone or for safe keeping. It holds no place and no camera data.
exchange-send-which = What goes into it?
exchange-send-all = The whole book
exchange-send-some = Some batches
exchange-send-pack = Make the file
exchange-send-packing = Making the file…
exchange-send-share = Share it
exchange-send-share_text = Share without photos, as text
exchange-send-save = Save it on this phone
exchange-send-shared = The file is on its way.
exchange-send-saved = Saved as { $name }
exchange-send-cannot_share = This browser does not share such a file. Save it, and send it from your files.
exchange-send-cannot_save = The browser refuses to save the file.
exchange-send-book_name = book
exchange-send-some_name = batches
exchange-take-title = Take in a file
exchange-take-what = A file that another Bleachfield sent. You see what it would add before anything is added.
exchange-take-pick = Choose the file
exchange-take-ways = You can also drop it here, or share it to Bleachfield from another app where the phone allows that.
exchange-take-reading = Reading { $name }…
exchange-take-refused = { $name } cannot be taken in.
exchange-take-nothing_changed = Nothing in your book has changed.
exchange-take-written = Written { $date } on { $device }
exchange-take-nothing_new = Everything in this file is in your book already.
exchange-take-new_batches = New batches
exchange-take-grown = Batches that get more
exchange-take-products = New on the shelf
exchange-take-new_entries =
    { $count ->
        [one] { $count } new entry in all
       *[other] { $count } new entries in all
    }
exchange-take-here =
    { $count ->
        [one] { $count } entry is here already and stays as it is.
       *[other] { $count } entries are here already and stay as they are.
    }
exchange-take-conflicts =
    { $count ->
        [one] { $count } entry differs between the file and this book, which only an edited file can do. One of the two is kept, on both phones the same.
       *[other] { $count } entries differ between the file and this book, which only an edited file can do. One of each two is kept, on both phones the same.
    }
exchange-take-unreadable =
    { $count ->
        [one] { $count } entry cannot be read by this version. It is stored as it is, for a later version to read.
       *[other] { $count } entries cannot be read by this version. They are stored as they are, for a later version to read.
    }
exchange-take-taking_in = Taking it in…
exchange-take-do = Take it in
exchange-take-leave = Leave it
exchange-take-done = It is in the book.
exchange-take-to_book = To the book

refusal-file-not_ours = This is not a Bleachfield file.
refusal-file-damaged = The file is damaged or cut short { $part }. Have it sent again.
refusal-file-too_large = Unpacked, it comes to more than { $most } MB, and no Bleachfield file should. It may be meant to do harm.
refusal-file-too_many = It holds more than { $most } files, and no Bleachfield file should.
refusal-file-newer = It was written by a newer Bleachfield ({ $app }, format { $format }; this one knows up to { $known }). Update this one, then take it in.
refusal-file-wrong_photo = A photo in it is not what its name says ({ $name }). Have it sent again.
refusal-file-odd_name = It holds a file by the name of { $name }, which points outside of it. It may be meant to do harm.
refusal-file-not_written = The file could not be made. There may be too little memory; try fewer batches.
refusal-photo-wanted = Take or choose a picture first.
refusal-photo-empty = The file is empty.
refusal-photo-too_large = The picture comes to { $megabytes } MB; the most is { $most } MB.
refusal-photo-heic = This picture is in HEIC format, which this browser cannot open. Set the phone's camera to its most compatible format (JPEG), or send yourself a JPEG copy.
refusal-photo-not_a_picture = This is no JPEG, PNG or WebP picture.
refusal-photo-moving = This is a moving picture. Take a still one.
refusal-photo-damaged = The picture is damaged, and this browser cannot open it.
refusal-photo-no_canvas = This browser cannot make the picture smaller. Ask for full size in the preferences.
refusal-worker-gone = The part of Bleachfield that reads and writes files did not start. Close other apps, reload, and try again. Nothing was changed.

# The demo studio.
demo-what = Look around first: a made-up studio by an estuary, with a season of batches and a bath that runs.
demo-apart = It is a place of its own. Nothing of it comes into your book, and all of it is gone when you leave.
demo-enter = Open the demo studio
demo-opening = Opening the demo studio…
demo-name = Demo studio
demo-ribbon = Nothing here is yours
demo-leave = Leave
demo-leaving = Leaving…
demo-here = You are in the demo studio. Whatever you write or import here is gone when you leave.
demo-file = This file is the demo studio.
demo-refused-running = A bath of yours is running, and its cues would not call you in the demo studio. Stop the bath first.
demo-refused-missing = This copy of Bleachfield comes without the demo studio.
demo-refused-no_network = The demo studio could not be fetched. The first time, it comes over the network.
