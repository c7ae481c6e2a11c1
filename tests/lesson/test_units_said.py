"""What a result counts, as it is said: a fraction is of one thing, more than one of many.

"Two thirds of a cup" is common practice, no source.
"""

from __future__ import annotations

import pytest

from narrate.exact.tree import Expr, Frac, Mixed, Whole
from narrate.lesson.number_moments import counted
from narrate.lesson.wording import Words


@pytest.mark.parametrize(
    ("result", "unit", "said"),
    [
        (Frac(2, 3), "cups of honey", "That's two thirds of a cup of honey."),
        (Frac(1, 6), "pound", "That's one sixth of a pound."),
        (Frac(3, 4), "hours", "That's three fourths of an hour."),
        (Frac(5, 4), "square feet", "That's five fourths of a square foot."),
        (Frac(1, 2), "liters per minute", "That's one half of a liter per minute."),
        (Mixed(2, 1, 2), "cups", "That's two and one half cups."),
        (Whole(1), "loaves", "That's one loaf."),
        (Whole(6), "loaves", "That's six loaves."),
    ],
)
def test_a_result_is_said_with_its_unit(result: Expr, unit: str, said: str) -> None:
    (sentence,) = Words("en").tell("counts", counted(result, unit))
    assert sentence.say == said
