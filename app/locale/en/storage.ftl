### What goes wrong when something is saved; limits of cue times.

refusal-store-quota_exceeded = This phone has no room left for Bleachfield, so nothing was saved. Make room (old photos, other apps), or export the book and take some photos out, then try again.
refusal-store-version_too_new = The book on this phone was written by a newer Bleachfield. It is safe. Close Bleachfield and open it again with a network, so that it can update.
refusal-store-closed_by_other_tab = Bleachfield is open in another window that holds on to the book. Close that one, then reload here. Nothing is lost.
refusal-store-aborted = The browser took the save back and does not say why. Nothing was saved; try again.
refusal-store-corrupt = The book on this phone cannot be read. It is left as it is. If you have an exported file, it can be taken in again.
refusal-store-unavailable = This browser gives Bleachfield no room to save, as private windows do. What you write is gone when this page closes; export it before then.
refusal-cue-every = A cue can come back after { $least } at the soonest and { $most } at the latest.
refusal-cue-minute = Give a time after the start of the bath, at most { $most }. Zero and less are no time to wait for.
