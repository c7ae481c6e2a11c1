"""Plain stories of multiplying and dividing: equal groups, rates, shares, areas, means.

Each lot was written with its answers by hand before it was run; the table's head says how many of a
first run were right. None may be wrong; a trap may be declined.
"""

from __future__ import annotations

import pytest

from tests.reading.lots import hold, lots

ITEMS = lots("plain_groups.tsv")

READ = {
    "plain": 59,
    "traps": 19,
    "plain, fresh": 40,
    "traps, more": 8,
    "two steps": 22,
    "two steps traps": 0,
    "varied": 74,
    "near misses": 4,
    "how many times": 4,
    "so many times": 5,
    "rectangles": 14,
    "two steps, varied": 9,
    "two steps, near misses": 1,
    "varied, fresh": 28,
}
"""How many of each are read; of 60, 107, 40, 45, 24, 23, 79, 50, 8, 10, 24, 13, 16 and 40."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    hold(ITEMS, name, READ)
