### Files between phones, and photos taken in.

exchange-again = Try again
exchange-sent_last = Last full backup: { $date }.
exchange-sent_never = There is no backup of this phone yet.
exchange-remind =
    { $count ->
        [one] { $count } entry is on this phone only. Back up your records.
       *[other] { $count } entries are on this phone only. Back up your records.
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
        [one] { $count } photo is not on this phone and is not in the file.
       *[other] { $count } photos are not on this phone and are not in the file.
    }
exchange-unreadable =
    { $count ->
        [one] { $count } entry on this phone cannot be read. It is exported as it is stored.
       *[other] { $count } entries on this phone cannot be read. They are exported as they are stored.
    }
exchange-unreadable_left_out =
    { $count ->
        [one] { $count } entry on this phone cannot be read, and may belong to these batches. It is not in this file. A full backup has it.
       *[other] { $count } entries on this phone cannot be read, and may belong to these batches. They are not in this file. A full backup has them.
    }
exchange-unreadable_photos =
    { $count ->
        [one] { $count } photo on this phone cannot be read and is not in the file. Nothing was deleted. See Help.
       *[other] { $count } photos on this phone cannot be read and are not in the file. Nothing was deleted. See Help.
    }
exchange-ahead =
    { $count ->
        [one] The clock of the phone that wrote this is { $count } minute ahead of this one. Set it right there, or its entries get the wrong order.
       *[other] The clock of the phone that wrote this is { $count } minutes ahead of this one. Set it right there, or its entries get the wrong order.
    }
exchange-send-title = Share a backup
exchange-send-what = One file with entries and photos, for another phone or as a backup. It holds no place and no camera data.
exchange-send-which = What goes into the file?
exchange-send-all = All records
exchange-send-some = Some batches
exchange-send-pack = Make the file
exchange-send-packing = Making the file…
exchange-send-share = Share
exchange-send-share_text = Share without photos, as text
exchange-send-save = Save on this phone
exchange-send-shared = The file was handed to the other app.
exchange-tables = For a spreadsheet
exchange-tables_what = All batches, or all their readings, as a table (CSV). A table cannot be imported here: it is no backup.
exchange-table-batches = Batches
exchange-table-readings = Readings
exchange-send-saved = Saved as { $name }
exchange-send-cannot_share = This browser cannot share such a file. Save it, and send it from your files.
exchange-send-cannot_save = The browser does not allow saving the file.
exchange-send-book_name = backup
exchange-send-some_name = batches
exchange-take-title = Import
exchange-take-what = Choose a file from another Bleachfield. You see what it adds before anything is added.
exchange-take-pick = Choose the file
exchange-take-ways = You can also drop it here, or share it to Bleachfield from another app if the phone allows that.
exchange-take-reading = Reading { $name }…
exchange-take-refused = { $name } cannot be imported.
exchange-take-nothing_changed = Nothing in your records has changed.
exchange-take-written = Written { $date } on { $device }
exchange-take-nothing_new = Your records already have everything in this file.
exchange-take-new_batches = New batches
exchange-take-grown = Batches with new entries
exchange-take-products = New on the shelf
exchange-take-new_entries =
    { $count ->
        [one] { $count } new entry in all
       *[other] { $count } new entries in all
    }
exchange-take-here =
    { $count ->
        [one] { $count } entry is here already and does not change.
       *[other] { $count } entries are here already and do not change.
    }
exchange-take-conflicts =
    { $count ->
        [one] { $count } entry differs between the file and your records. This happens only if a file was edited by hand. One version is kept, the same on both phones.
       *[other] { $count } entries differ between the file and your records. This happens only if a file was edited by hand. One version of each is kept, the same on both phones.
    }
exchange-take-unreadable =
    { $count ->
        [one] { $count } entry cannot be read by this version. It is stored unchanged for a later version.
       *[other] { $count } entries cannot be read by this version. They are stored unchanged for a later version.
    }
exchange-take-taking_in = Importing…
exchange-take-do = Import this file
exchange-take-leave = Cancel
exchange-take-done = Imported.
exchange-take-to_book = Go to the batches

refusal-file-not_ours = This is not a Bleachfield file.
refusal-file-damaged = The file is damaged or incomplete { $part }. Ask for it again.
refusal-file-too_large = Unpacked, this file is larger than { $most } MB. No Bleachfield file is that large, and it may be harmful.
refusal-file-too_many = It holds more than { $most } files. No Bleachfield file holds so many.
refusal-file-newer = A newer Bleachfield wrote it ({ $app }, format { $format }; this one reads up to { $known }). Update this one, then import it.
refusal-file-wrong_photo = A photo in it does not match its name ({ $name }). Ask for the file again.
refusal-file-odd_name = It holds a file named { $name }, which points outside of the file. It may be harmful.
refusal-file-not_written = The file could not be made. There may be too little memory; try fewer batches.
refusal-photo-wanted = Take or choose a photo first.
refusal-photo-empty = The file is empty.
refusal-photo-too_large = The picture has { $megabytes } MB. At most { $most } MB are possible.
refusal-photo-heic = This picture is in HEIC format, which this browser cannot open. Set the phone's camera to its most compatible format (JPEG), or send yourself a JPEG copy.
refusal-photo-not_a_picture = This is not a JPEG, PNG or WebP picture.
refusal-photo-moving = This is an animated picture. Choose a still one.
refusal-photo-damaged = The picture is damaged, and this browser cannot open it.
refusal-photo-no_canvas = This browser cannot make the picture smaller. Choose full size in the preferences.
refusal-worker-stopped = The part of Bleachfield that reads photos and files stopped by an error in the program. Nothing was changed. Try again. Help shows the error under “This phone”.
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
