"""One file, one output."""
