//! Entries, batches as a projection of their entries, merge, the file format, migrations.
