"""The stripes of a hatched box, as polygons; places in hundredths of a point."""

from __future__ import annotations

STRIPE, STRIPE_PERIOD = 509, 1273
"""How far x + y reaches over a stripe, and to the next: stripes 3.6 points wide, 9 apart."""

Point = tuple[int, int]


def stripe_polygons(left: int, top: int, right: int, bottom: int) -> list[list[Point]]:
    """The stripes in a rectangle: bands of constant x + y, cut to it. None where it has no room."""
    if left >= right or top >= bottom:
        return []
    low, high = left + top, right + bottom
    bands = range(low // STRIPE_PERIOD * STRIPE_PERIOD, high, STRIPE_PERIOD)
    cut = ((max(low, band), min(high, band + STRIPE)) for band in bands)
    return [_band(start, end, (left, top, right, bottom)) for start, end in cut if start < end]


def _band(start: int, end: int, edges: tuple[int, int, int, int]) -> list[Point]:
    """The part of a rectangle where x + y lies between `start` and `end`."""
    left, top, right, bottom = edges
    upper = [(right, top)] if start < right + top < end else []
    lower = [(left, bottom)] if start < left + bottom < end else []
    return [
        (max(left, start - bottom), min(bottom, start - left)),
        (min(right, start - top), max(top, start - right)),
        *upper,
        (min(right, end - top), max(top, end - right)),
        (max(left, end - bottom), min(bottom, end - left)),
        *lower,
    ]
