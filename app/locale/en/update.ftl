### A newer version of the app.

update-here = A newer Bleachfield is here. No bath is running, so it can start now; nothing that you saved changes.
update-now = Start it
update-later = Later
