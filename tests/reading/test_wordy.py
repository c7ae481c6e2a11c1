"""Stories told in many words: what tells no amount is left out, what binds one never is."""

from __future__ import annotations

import pytest

from tests.reading.lots import hold, lots

ITEMS = lots("wordy.tsv")

READ = {"told in many words": 14, "words that bind": 6}
"""How many of each are read."""


@pytest.mark.parametrize("name", READ)
def test_what_is_read_is_right(name: str) -> None:
    hold(ITEMS, name, READ)
