"""One file a step, numbered in order; the number is the revision."""
