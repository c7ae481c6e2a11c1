"""narrate: test items in, worked-solution lessons out."""
