"""S028, the remainder of a story dropped: NAEP 1983 as told by Silver, Shapiro and Deutsch (1993).

From memory: 1,128 soldiers are to be bused, 36 in a bus; 32 buses are needed. 31, 31 remainder 12
and 31 1/3 were given by pupils.
"""

from __future__ import annotations

import pytest

from narrate.exact.parser import parse_expr
from narrate.kinds import find_kinds
from narrate.reading.reading import Rounding
from narrate.solution.slips import made_by
from narrate.solution.task import Task


def _slip(work: str, rounding: Rounding, wrong: str) -> str | None:
    task = Task(expression=parse_expr(work), terms=(), rounding=rounding)
    found = made_by(find_kinds()["decimals_and_whole_numbers"].SLIPS, task).slip(parse_expr(wrong))
    return found.number if found else None


@pytest.mark.parametrize("wrong", ["31", "12", "31 12/36", "31 1/3", "31.12"])
def test_what_pupils_gave_for_1128_riders_is_that_slip(wrong: str) -> None:
    assert _slip("1128 ÷ 36", "up", wrong) == "S028"


def test_the_answer_is_no_slip() -> None:
    assert _slip("1128 ÷ 36", "up", "32") is None


def test_one_too_many_is_that_slip_where_full_groups_are_asked() -> None:
    assert _slip("1128 ÷ 36", "down", "32") == "S028"
