"""The lesson says what an item's picture shows, so that it is heard and read in captions."""

from __future__ import annotations

from dataclasses import replace

from narrate.items.item import PictureGiven, Review, Stimulus
from tests.lesson.told import told_review
from tests.solving import load_one

ALT = "A jug filled to the mark 3/4 on a scale from 0 to 1 liter."


def review(alt: str) -> Review:
    item = load_one(
        stimulus={"text": "Water stands in a jug."},
        parts=[
            {"ask": "Rain adds 1/5 liter. How much is in it now?", "model": "3/4 + 1/5",
             "boxes": ["numerator", "denominator"]},
            {"ask": "How much less is 1/5 liter than that?", "model": "3/4 - 1/5",
             "boxes": ["numerator", "denominator"]},
        ],
    )  # fmt: skip
    assert item.stimulus is not None
    picture = PictureGiven(data=b"", kind="png", width=4, height=3, alt=alt) if alt else None
    item = replace(item, stimulus=Stimulus(text=item.stimulus.text, picture=picture))
    return Review(id="jug", title="Jug", grade=5, language="en", items=(item,))


def test_what_the_picture_shows_is_said_once_after_the_reading() -> None:
    first, second = told_review(review(ALT)).parts
    assert first.moves[:3] == ["read", "picture given", "try"]
    assert "picture given" not in second.moves
    said = first.beats[1].sentences[-1]
    assert said.say == "A jug filled to the mark three fourths on a scale from zero to one liter."
    assert said.caption == ALT
    assert said.stem


def test_without_a_picture_nothing_is_said_of_one() -> None:
    assert all("picture given" not in part.moves for part in told_review(review("")).parts)
