"""What a person should look at once a part is read: judged by hand, from the words."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from narrate import pipeline
from narrate.items.item import PictureGiven, Stimulus
from narrate.reading import agreement
from tests.reading.test_agreement import notes as of_numbers
from tests.solving import FRACTION, load_one


def doubts(stem: str, **keys: Any) -> list[str]:
    """The notes of one item, without their places."""
    item = load_one(stem, **({"boxes": FRACTION} | keys))
    found = pipeline.notes_of(item, list(pipeline.solve_item(item)))
    return [line.split(": item: ")[1] for line in found]


AGAINST = [
    ("Ana has 1/2 cup of oil. She pours out 1/3 cup. How much oil is left?", "1/2 + 1/3", "left"),
    ("Peas cover 1/3 of a bed, beans 2/5. What fraction remains?", "1/3 + 2/5", "remains"),
    ("Bo drinks 1/4 liter of 2/3 liter. How much does he have now?", "2/3 + 1/4", "drinks"),
    ("It held 3/4 cup. Rain fills 1/5 cup. How much is there in all?", "3/4 - 1/5", "in all"),
    ("A path is 3/4 mile, a lane 1/5 mile. How long are they altogether?", "3/4 - 1/5",
     "altogether"),
    ("A bag holds 3/4 kg. Lin adds 1/5 kg. How heavy is the bag now?", "3/4 - 1/5", "adds"),
    ("Ed has 2/3 yard, Di 1/4 yard. How much more does Ed have?", "2/3 + 1/4", "how much more"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "model", "word"), AGAINST)
def test_words_that_speak_against_the_model_are_named(stem: str, model: str, word: str) -> None:
    found = [line for line in doubts(stem, model=model) if "speaks for" in line]
    assert len(found) == 1
    assert f"“{word}”" in found[0]


@pytest.mark.parametrize(("stem", "model", "word"), AGAINST)
def test_nothing_is_said_of_the_right_operation(stem: str, model: str, word: str) -> None:
    right = model.replace("+", "-") if "+" in model else model.replace("-", "+")
    if right.startswith("1/3 - 2/5"):
        right = "1 - 1/3 - 2/5"
    assert doubts(stem, model=right) == []


TURNED_ROUND = [
    ("Ida had some oil. She gave away 1/3 cup and has 1/2 cup left. How much had she at first?",
     "1/2 + 1/3"),
    ("Ida gave away 1/3 cup. Then 1/2 cup was left. How much did she have before?", "1/2 + 1/3"),
    ("If 1/2 cup is left after she used 1/3 cup, how much was there?", "1/2 + 1/3"),
    ("How much was in a jug if 1/2 cup is left after 1/3 cup was used?", "1/2 + 1/3"),
    ("Lu lost 1/3 of his beads. If 1/2 is there now, what part had he?", "1/2 + 1/3"),
    ("Ben's rope is 3/4 m, 1/5 m less than Ana's. How long is Ana's rope?", "3/4 + 1/5"),
    ("Ana's rope is 3/4 m. It is 1/5 m longer than Ben's. How long is Ben's?", "3/4 - 1/5"),
    ("Ana and Ben have 3/4 kg in all. Ana has 1/5 kg. How much has Ben?", "3/4 - 1/5"),
    ("How much more does Ana need, who has 1/5 kg and wants 3/4 kg in all?", "3/4 - 1/5"),
    ("Kim eats 1/4 of a pie and then 1/3 of it. How much has she eaten now?", "1/4 + 1/3"),
    ("Kim uses 1/4 cup of rice and 1/3 cup of peas. How much does she use in all?", "1/4 + 1/3"),
    ("The left bed takes 1/4 bag, the right one 1/3. How much do they take?", "1/4 + 1/3"),
    ("After it got 1/5 m longer it is 3/4 m now. How long was it before?", "3/4 - 1/5"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "model"), TURNED_ROUND)
def test_a_story_told_the_other_way_round_is_no_doubt(stem: str, model: str) -> None:
    assert doubts(stem, model=model) == []


def test_an_answer_below_zero_is_looked_at_in_the_grades_of_fractions() -> None:
    """CCSSM (2010): numbers below zero are added and subtracted in grade 7, 7.NS.A.1."""
    (found,) = doubts("1/3 − 1/2 = □")
    assert found.startswith("1/3 − 1/2 is below zero, which is rare in grade 5; ")
    assert doubts("1/3 − 1/2 = □", grade=7) == []
    assert doubts("1/2 − 1/3 = □") == []


def test_a_right_claim_is_looked_at_where_it_may_be_right() -> None:
    stem = "Ana says 1/2 + 1/3 = 5/6. Is she right?"
    assert doubts(stem, claim="5/6") == ["the claim 5/6 is right; look whether it is meant to be"]
    assert doubts(stem.replace("5/6", "2/5"), claim="2/5") == []


@pytest.mark.parametrize(
    ("stem", "model", "boxes", "count"),
    [
        ("A bag of 1/2 kg and one of 1/3 kg: how heavy are they?", "1/2 + 1/3", ["number"], 1),
        ("A bag of 1/2 kg and one of 1/3 kg: how heavy are they?", "1/2 + 1/3", FRACTION, 0),
        ("A bag of 1/2 kg and one of 3/2 kg: how heavy are they?", "1/2 + 3/2", ["number"], 0),
        ("1/2 of it and 1/3 of it: what fraction is it?", "1/2 + 1/3", ["number"], 0),
    ],
)
def test_one_box_for_a_fraction_is_looked_at(
    stem: str, model: str, boxes: list[str], count: int
) -> None:
    found = doubts(stem, model=model, boxes=boxes)
    assert len(found) == count
    assert all("`boxes: [numerator, denominator]`" in line for line in found)


def test_a_doubt_names_its_place_and_is_told_by_build_too(tmp_path: Path) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(
        "items:\n  - id: jug\n    stem: It holds 1/2 liter. Ed drinks 1/3 liter. What is left?\n"
        "    boxes: [numerator, denominator]\n    model: 1/2 + 1/3\n",
        encoding="utf-8",
    )
    said = (
        f"{path}:5:5: jug: `model:` 1/2 + 1/3 adds, but “left” in the words speaks for taking "
        "away; look whether it is meant",
    )
    assert pipeline.check([path]).notes == said
    assert pipeline.build([path], to=tmp_path / "out").notes == said


def test_what_a_picture_shows_counts_as_words() -> None:
    stem = "The jug holds what the picture shows. 1/5 liter is added. How much is in it?"
    assert of_numbers(stem, "3/4 + 1/5") != []
    item = load_one(stem, model="3/4 + 1/5", boxes=FRACTION)
    assert item.stimulus is None
    alt = "A jug filled to 3/4 of a liter."
    picture = PictureGiven(data=b"", kind="png", width=1, height=1, alt=alt)
    shown = replace(item, stimulus=Stimulus(picture=picture))
    assert list(agreement.notes(shown)) == []


def test_two_wrong_choices_that_are_the_same_are_named() -> None:
    choices = {"A": "18", "B": "18.0", "C": "42"}
    assert doubts("What is 12 + 30?", choices=choices, boxes=None) == [
        "A and B are the same: 18.0; look whether one of them is a slip"
    ]
    assert doubts("What is 12 + 30?", choices=choices | {"B": "18 kg"}, boxes=None) == []
