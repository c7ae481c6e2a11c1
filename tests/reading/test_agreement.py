"""Where `model:` and `claim:` do not agree with the words: worked by hand from the words."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from narrate import pipeline
from narrate.reading import agreement
from tests.solving import FRACTION, MIXED, load_one


def notes(stem: str, model: str, **keys: Any) -> list[str]:
    item = load_one(stem, model=model, **({"boxes": FRACTION} | keys))
    return [line.split(": item: ")[1] for line in agreement.notes(item)]


TOLD = [
    ("A barrel is 3/4 full. Rain adds 1/5. How full is it?", "3/4 + 1/5"),
    ("A barrel is ¾ full. Rain adds ⅕. How full is it?", "3/4 + 1/5"),
    ("It takes 2½ hours. We have had 1¼. What is left?", "2 1/2 - 1 1/4"),
    ("Three fourths of it is full. A fifth is added. How full is it?", "3/4 + 1/5"),
    ("Three-fourths of it is full; rain adds one-fifth. How full is it?", "3/4 + 1/5"),
    ("Half of the bed is peas and a quarter of it beans. How much is that?", "1/2 + 1/4"),
    ("It is two and a half feet long; one fourth of a foot is cut off. Now?", "2 1/2 - 1/4"),
    ("It is two-and-three-quarters cups. Half a cup is used. What is left?", "2 3/4 - 1/2"),
    ("Five hours, of which 3/4 hour is over. What is left?", "5 - 3/4"),
    ("Parsley covers 1/3 and chives 2/5 of a bed; mint the rest. How much?", "1 - 1/3 - 2/5"),
    ("Ann adds 6/8 and 1/5 of a cup. How much is that?", "3/4 + 1/5"),
    ("There are 3 pots. They hold 3/4 cup and 1/5 cup. How much is that?", "3/4 + 1/5"),
    ("The third bed got 3/4 bag, the fourth 1/5 bag. How much is that?", "3/4 + 1/5"),
    ("3/4 + 1/5 = □", "3/4 + 1/5"),
    ("It rained 1 and 1/2 inches on Monday, 3/4 inch on Tuesday. How much?", "1 1/2 + 3/4"),
    ("The first half of the row takes 1/3 bag, the second half of it 1/4. Total?", "1/3 + 1/4"),
    ("Of 12 plants, 1/3 are peas and 1/4 beans. What part is peas or beans?", "1/3 + 1/4"),
    ("Ann has a 6-foot board and cuts off 2 1/3 feet. What is left?", "6 - 2 1/3"),
]


IDLE = [
    ("Wen is 8 years old. She picks 12 plums and 9 pears. How much fruit is that?", "12 + 9"),
    ("Class 4 has 28 boxes of 12 plums on May 3. How many plums are there?", "28 * 12"),
    ("From 9:20 on Mo sowed 14 rows of 6 beans. How many beans did Mo sow?", "14 * 6"),
    ("A shelf has 45 bowls and 30 plates. Mo takes 17 bowls. How many bowls are left?", "45 - 17"),
]


@pytest.mark.parametrize(("stem", "model"), IDLE)
def test_numbers_that_only_name_or_are_read_as_idle_are_not_asked_for(
    stem: str, model: str
) -> None:
    assert notes(stem, model) == []


@pytest.mark.parametrize(("stem", "model"), TOLD)
def test_nothing_is_said_where_the_words_hold_every_number(stem: str, model: str) -> None:
    """In symbols, glyphs, words or hyphens; a whole that is told about needs no number."""
    assert notes(stem, model) == []


NOT_TOLD = [
    ("A barrel is 3/4 full. Rain adds 1/5. How full?", "3/4 + 1/6", ["1/6", "1/5"]),
    ("It is 5 1/4 meters. Lin cuts off 2 5/6 meters. Left?", "5 1/4 - 2 1/6", ["2 1/6", "2 5/6"]),
    ("A jug holds 6 liters. We drink 4 2/5 liters. What is left?", "5 - 4 2/5", ["5", "6"]),
    ("Peas cover a third of it, beans 2/5. What is left?", "1 - 2/5", ["1/3"]),
    ("Peas cover a third of it, beans 2/5 of it. What is left?", "1 - 1/4 - 2/5", ["1/4", "1/3"]),
    ("Five twelfths is soup, 1/4 salad. What is left?", "1 - 1/4", ["5/12"]),
    ("For 45 minutes and 1/2 hour. How long?", "3/4 + 1/2", ["3/4"]),
    ("28 jars hold 12 plums each, and 5 crates are full. How many plums?", "28 * 12", ["5"]),
    ("156 seedlings go in 12 rows, 2 liters a row. How many seedlings a row?", "12 * 2", ["156"]),
]


@pytest.mark.parametrize(("stem", "model", "named"), NOT_TOLD)
def test_a_number_that_only_one_side_holds_is_named(
    stem: str, model: str, named: list[str]
) -> None:
    found = notes(stem, model)
    assert [line.split(" holds ")[-1].split(" hold ")[-1].split(",")[0] for line in found] == named


@pytest.mark.parametrize(
    ("model", "count"), [("5/6 + 1/4", 1), ("5/6 - 1/4", 0), ("1/4 + 5/6", 1), ("10/12 - 3/12", 0)]
)
def test_a_sum_that_a_longer_question_writes_out_is_held_against_the_model(
    model: str, count: int
) -> None:
    stem = "Dmitri says that 5/6 − 1/4 = 4/2. Explain his error and give the correct difference."
    found = notes(stem, model, claim="4/2")
    assert len([line for line in found if line.startswith("the question writes out 5/6")]) == count


def test_a_later_part_may_use_what_an_earlier_one_made() -> None:
    item = load_one(
        stimulus={"text": "One bed got 3/4 bag, the other 1/5 bag."},
        parts=[
            {"ask": "How much in all?", "boxes": FRACTION, "model": "3/4 + 1/5"},
            {"ask": "What is left of 2 bags?", "boxes": MIXED, "model": "2 - 19/20"},
        ],
    )
    assert list(agreement.notes(item)) == []


def test_a_note_names_key_number_and_place(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(
        "items:\n  - id: bed\n    stem: It holds 3/4 liter. 1/5 liter is added. How much is in?\n"
        "    boxes: [numerator, denominator]\n    model: 3/4 + 1/6\n",
        encoding="utf-8",
    )
    outcome = pipeline.check([path])
    assert (outcome.faults, outcome.declined) == ((), ())
    assert outcome.notes == (
        f"{path}:5:5: bed: `model:` holds 1/6, which the words do not; look whether it is meant",
        f"{path}:5:5: bed: the words hold 1/5, which `model:` leaves out; look whether it is meant",
    )


CONTRADICTED = [
    ("2/3 + 1/4 = ?", "2/3 - 1/4", "2/3 + 1/4"),
    ("What is 2/3 + 1/4?", "2/3 + 1/5", "2/3 + 1/4"),
    ("Subtract 1/4 from 2/3.", "2/3 + 1/4", "2/3 − 1/4"),
    ("What number makes 3/5 + □ = 9/10 true?", "3/5 + 9/10", "3/5 + □ = 9/10"),
]


@pytest.mark.parametrize(("stem", "model", "asked"), CONTRADICTED)
def test_a_model_that_contradicts_a_bare_question_is_a_fault(
    stem: str, model: str, asked: str
) -> None:
    item = load_one(stem, model=model, boxes=FRACTION)
    [outcome] = pipeline.solve_item(item)
    assert outcome.fault is not None
    assert f"the question asks for {asked}" in outcome.fault.wrong
    assert outcome.fault.place == item.parts[0].at("model")


AGREED = [
    ("What is 2/3 + 1/4?", "1/4 + 2/3"),
    ("What number makes 3/5 + □ = 9/10 true?", "9/10 - 3/5"),
    ("What is 2/3 + 1/4?", "2/3 + 1/4 = □"),
    ("What is 6/9 + 1/4?", "2/3 + 1/4"),
]


@pytest.mark.parametrize(("stem", "model"), AGREED)
def test_a_model_that_gives_the_same_answer_is_none(stem: str, model: str) -> None:
    [outcome] = pipeline.solve_item(load_one(stem, model=model, boxes=FRACTION))
    assert outcome.fault is None
    assert outcome.solved is not None


@pytest.mark.parametrize(
    "asks", ["What went wrong?", "What is his mistake, and what is right?", "Find the error."]
)
def test_a_right_claim_has_nothing_to_put_right(asks: str) -> None:
    item = load_one(f"Tavi says that 1/2 + 3/10 is 8/10. {asks}", claim="8/10", model="1/2 + 3/10")
    [outcome] = pipeline.solve_item(item)
    assert outcome.fault is not None
    assert outcome.fault.wrong == (
        "the claim 8/10 is right: 1/2 + 3/10 makes 8/10, so nothing went wrong"
    )


@pytest.mark.parametrize(
    "asks", ["Is he right?", "Did he make a mistake?", "Say whether it is wrong.", "Is it wrong?"]
)
def test_a_right_claim_may_be_asked_about(asks: str) -> None:
    item = load_one(f"Tavi says that 1/2 + 3/10 is 8/10. {asks}", claim="8/10", model="1/2 + 3/10")
    [outcome] = pipeline.solve_item(item)
    assert outcome.fault is None
