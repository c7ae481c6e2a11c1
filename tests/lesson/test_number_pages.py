"""Pages of whole numbers and decimals: nothing overlaps, long lines of work keep their room."""

from __future__ import annotations

import pytest

from narrate.lesson.checking import overlaps
from tests.lesson.told import market, numbers


@pytest.mark.parametrize("review", [market, numbers], ids=["market", "numbers"])
def test_nothing_overlaps_or_leaves_its_room(review: object) -> None:
    assert callable(review)
    assert [fault for page in review().lesson.pages for fault in overlaps(page)] == []
