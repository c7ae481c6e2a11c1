"""Twins: the same item with fresh numbers, its choices made anew by the same slips."""
