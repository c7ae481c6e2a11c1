"""The `model:` lines that are offered where a story is declined: sums a teacher could mean.

Own stories; the lines were worked out by hand.
"""

from __future__ import annotations

import pytest

from narrate.reading.words.declining import unsure


@pytest.mark.parametrize(
    ("story", "lines"),
    [
        ("It crawled 3/5 meter, then up to 1 1/10 meters.", ["3/5 + 1 1/10", "1 1/10 − 3/5"]),
        (
            "Two ribbons take 4 1/6 yards. One of them takes 2 3/4.",
            ["4 1/6 + 2 3/4", "4 1/6 − 2 3/4"],
        ),
        ("She read 2/3 hour and 1/4 hour, he read 5/6 hour.", ["2/3 + 1/4 + 5/6"]),
        ("A bag weighs 2.5 kilograms; 6 bags?", ["2.5 + 6", "6 − 2.5", "2.5 × 6", "6 ÷ 2.5"]),
        ("He has 9 pots, 4 pans and 3 lids.", ["9 + 4 + 3", "9 − 4 − 3"]),
        ("Two of the three beds are dry.", ["2 + 3", "3 − 2", "2 × 3", "3 ÷ 2"]),
    ],
)
def test_no_line_counts_the_amounts_or_goes_below_zero(story: str, lines: list[str]) -> None:
    offered = " or ".join(f"`model: {line}`" for line in lines)
    assert str(unsure(story, "why")).endswith(f"such as {offered}")
