"""One file, one kind of problem."""
