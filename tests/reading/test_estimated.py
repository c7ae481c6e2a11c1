"""About how much: answered where every usual way to round leads to one choice, else declined.

Keys by hand; CCSSM (2010) 3.OA.D.8 and 4.OA.A.3 name rounding as a strategy of estimating.
"""

from __future__ import annotations

import pytest

from tests.solving import Row, solve_one

ROWS = (
    (
        "A box holds 48 seed packets. About how many seed packets do 21 boxes hold?",
        "100 700 1,000 1,500",
        "C",
    ),
    (
        "Tomas picked 312 pounds of apples in September and 489 pounds in October. "
        "About how many pounds of apples did he pick in all?",
        "600 700 800 900",
        "C",
    ),
    (
        "Mira had $81.90. She spent $28.75 on tools. About how much money did she have left?",
        "$40 $50 $60 $110",
        "B",
    ),
    (
        "Which is the best estimate of the total cost of a rake for $18.95 and a hoe for $21.10?",
        "$30 $35 $40 $50",
        "C",
    ),
)
UNSETTLED = (
    (  # 801 is exact, and 800 is about as much
        "Tomas picked 312 pounds of apples in September and 489 pounds in October. "
        "About how many pounds of apples did he pick in all?",
        "800 801 900 1,000",
    ),
    (  # 1,900 − 1,100 is 800, 2,000 − 1,000 is 1,000
        "A farm sold 1,892 pumpkins in fall and 1,143 in winter. "
        "About how many more pumpkins did the farm sell in fall than in winter?",
        "800 1,000 2,000 3,000",
    ),
    (  # no way to round makes one of them
        "A box holds 48 seed packets. About how many seed packets do 21 boxes hold?",
        "69 300 1,100 4,800",
    ),
)


def _solved(ask: str, choices: str) -> Row:
    return solve_one(ask, choices=dict(zip("ABCD", choices.split(), strict=True)))


@pytest.mark.parametrize(("ask", "choices", "key"), ROWS)
def test_the_choice_that_rounding_leads_to(ask: str, choices: str, key: str) -> None:
    row = _solved(ask, choices)
    assert (row["status"], row["key"]) == ("solved", key)
    assert row["steps"][0]["move"] == "about"


@pytest.mark.parametrize(("ask", "choices"), UNSETTLED)
def test_choices_that_do_not_settle_it(ask: str, choices: str) -> None:
    assert _solved(ask, choices)["status"] != "solved"
