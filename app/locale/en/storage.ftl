### What goes wrong when something is saved; limits of cue times.

refusal-store-quota_exceeded = This phone has no room left for Bleachfield. Nothing was saved. Delete old photos or other apps, or export your records and remove some photos, then try again.
refusal-store-version_too_new = A newer Bleachfield wrote the records on this phone. They are safe. Close Bleachfield and open it again with a network, so that it can update.
refusal-store-closed_by_other_tab = Bleachfield is open in another window that uses the records. Close that window, then reload here. Nothing is lost.
refusal-store-aborted = The browser cancelled the save and gives no reason. Nothing was saved. Try again.
refusal-store-corrupt = The records on this phone cannot be read. They are left unchanged. If you have a backup file, you can import it again.
refusal-store-unavailable = This browser gives Bleachfield no room to save, for example in a private window. What you enter is gone when this page closes. Export it before then.
refusal-cue-every = A cue can repeat every { $least } to { $most }.
refusal-cue-minute = Enter a time after the start of the bath, more than zero and at most { $most }.
