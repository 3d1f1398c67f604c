//! Hazard rules: each a condition on the plan or the log, a severity, the words, a source.
