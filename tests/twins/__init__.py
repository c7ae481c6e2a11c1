"""Tests of the room of twins."""
