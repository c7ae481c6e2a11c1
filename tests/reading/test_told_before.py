"""Parts that go on from what an earlier part tells: worked by hand, and never without it.

A rain tank of 40 liters of which 3/8 are used holds 40 − 15 = 25 liters; with 15 liters out and
5 in it holds 30, and not 45.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.items.loading import load_text
from narrate.pipeline import PartOutcome, solve_item
from narrate.reading.told_before import ToldBefore, statements
from narrate.settling import draft

TANK = "A rain tank holds 40 liters of water."
USES = "Tovi uses 15 liters of the water. What fraction of the water does Tovi use?"


def outcomes(stimulus: str, *asks: str) -> list[PartOutcome]:
    shared = f'    stimulus: {{text: "{stimulus}"}}\n' if stimulus else ""
    parts = "".join(f'      - ask: "{ask}"\n        boxes: [number]\n' for ask in asks)
    text = f"review: r\ngrade: 5\nitems:\n  - id: x\n{shared}    parts:\n{parts}"
    review, faults = load_text(text, Path("r.yaml"))
    assert review is not None
    assert not faults
    return list(solve_item(review.items[0]))


@pytest.mark.parametrize(
    ("stimulus", "first", "second"),
    [
        (
            TANK,
            "Tovi uses 3/8 of the water. How many liters of water does Tovi use?",
            "How many liters of water are left in the tank?",
        ),
        (
            "",
            "Bo mixes 2 1/2 cups of oil and 3/4 cup of vinegar. How many cups does he mix in all?",
            "How many more cups of oil than vinegar does he have?",
        ),
        (
            "",
            "Ada buys 3 pots for $4 each. How much does she pay?",
            "She pays with a $20 bill. How much change does she get?",
        ),
        (TANK, USES, "Then Ada pours in 5 liters of water. How many liters are in the tank now?"),
        (
            "Ada has $20.",
            "Ada buys 3 pots for $4 each. How much does she pay?",
            "Bo gives her $5 more. How much money does Ada have now?",
        ),
    ],
)
def test_a_part_is_not_read_without_what_it_goes_on_from(
    stimulus: str, first: str, second: str
) -> None:
    _, later = outcomes(stimulus, first, second)
    assert isinstance(later.declined, ToldBefore)
    assert statements(first)[0] in later.declined.add


@pytest.mark.parametrize(
    ("stimulus", "first", "second", "answer"),
    [
        (
            "The kitchen has 3 bags of flour. Each bag holds 2 1/2 pounds of flour.",
            "How many pounds of flour does the kitchen have in all?",
            "The cook uses 3 3/4 pounds of the flour. How many pounds of flour are left?",
            "15/4",
        ),
        (
            "",
            "Ada planted 3 rows of 6 beans. How many beans did she plant?",
            "Bo planted 4 rows of 5 beans. How many beans did Bo plant?",
            "20",
        ),
        (
            "",
            "Ada has 3/4 cup of oil and 1/8 cup of vinegar. How many cups does she have in all?",
            "What is 3/4 - 1/8?",
            "5/8",
        ),
        (
            TANK,
            "Is the tank of 40 liters full? Show how you know.",
            "Tovi uses 3/8 of the water. How many liters of water does Tovi use?",
            "15",
        ),
    ],
)
def test_a_part_that_says_all_is_read_alone(
    stimulus: str, first: str, second: str, answer: str
) -> None:
    *_, later = outcomes(stimulus, first, second)
    assert later.solved is not None
    assert str(later.solved.reading.goal.answer) == answer


@pytest.mark.parametrize(
    ("ask", "told"),
    [
        ("Ada has 5 figs. How many are left?", "Ada has 5 figs."),
        ("Ada has 5 figs. She eats 2. How many are left?", "Ada has 5 figs. She eats 2."),
        ("How many are left?", ""),
        ("Ada likes figs. How many are left?", ""),
        ("Find how many of 5 figs are left. Show your work.", ""),
        ("Ada has 5 figs.", ""),
    ],
)
def test_what_a_part_tells_before_it_asks(ask: str, told: str) -> None:
    assert statements(ask)[0] == told


PASTED = """1. A rain tank holds 40 liters of water.
Part A
Tovi uses 3/8 of the water. How many liters of water does Tovi use?
____ liters
Part B
How many liters of water are left in the tank?
____ liters
"""


def test_a_draft_shares_what_later_parts_go_on_from() -> None:
    made = draft(PASTED, "w")
    assert 'text: "A rain tank holds 40 liters of water. Tovi uses 3/8 of the water."' in made.text
    assert "in Part A, and later parts go on from it: Tovi uses 3/8 of the water." in made.text
    assert made.to_settle == 0


def test_a_draft_leaves_a_part_that_is_read_otherwise_with_it() -> None:
    later = "Then Ada pours in 5 liters of water. How many liters of water are in the tank now?"
    made = draft(f"1. {TANK}\nPart A\n{USES}\nPart B\n{later}\n", "w")
    assert f'text: "{TANK}"' in made.text
    assert "I read 40 + 5, but 40 + 5 − 15 with what the part before tells" in made.text
