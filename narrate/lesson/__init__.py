"""The lesson: beats, words, times and pages."""
