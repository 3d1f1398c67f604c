### A newer version of the app.

update-here = A new version of Bleachfield is ready. No bath is running, so you can update now. Your records do not change.
update-now = Update
update-later = Later
