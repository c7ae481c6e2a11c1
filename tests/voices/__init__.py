"""Voices that read a lesson aloud."""
