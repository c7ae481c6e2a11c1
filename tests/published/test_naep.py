"""NAEP released items whose official scoring text was read, where they fit this strand.

US Department of Education, National Center for Education Statistics; a US government work.
"""

from __future__ import annotations

from tests.solving import MIXED, solve_one


def test_a_length_between_two_marks_of_a_ruler() -> None:
    """Grade 4, an object from the 8-inch to the 10 1/2-inch mark; scored right: 2 1/2."""
    row = solve_one("What is 10 1/2 − 8?", boxes=[*MIXED, "inches"])
    assert (row["answer"], row["written"], row["unit"]) == ("5/2", "2 1/2", "inches")
