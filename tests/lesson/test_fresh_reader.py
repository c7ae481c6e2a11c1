"""What a reader who has only the slides must be able to tell (own design)."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from narrate.kinds import equal_fractions
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Text
from narrate.lesson.slipwords import went_wrong
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from narrate.solution.number_slips import NUMBER_SLIPS
from narrate.solution.slips import SUM_SLIPS
from tests.lesson.told import DEMO, review_of


def told(item: dict[str, Any], folder: Path) -> Lesson:
    path = folder / "one.json"
    path.write_text(json.dumps({"review": "One", "grade": 5, "items": [{"id": "one", **item}]}))
    lesson, faults, declined = make_lesson(review_of(path), Words("en"))
    assert lesson is not None, (faults, declined)
    return lesson


def words_of(lesson: Lesson, start: str) -> list[str]:
    """All words in groups whose name starts so."""
    return [
        " ".join(mark.lines)
        for page in lesson.pages
        for build in page.builds
        if build.group.name.startswith(start)
        for mark in build.group.marks
        if isinstance(mark, Text)
    ]


def test_what_went_wrong_stands_beside_the_wrong_line(tmp_path: Path) -> None:
    stem = "Rosa worked out 3/5 + 1/4 and wrote 4/9. What went wrong?"
    boxes = ["numerator", "denominator"]
    item = {"stem": stem, "claim": "4/9", "boxes": boxes, "model": "3/5 + 1/4"}
    said = words_of(told(item, tmp_path), "line 3/5 + 1/4 = 4/9")
    assert "not right: denominators added too" in said
    assert "adds across" in {slip.name for slip in SUM_SLIPS}


def test_every_slip_has_a_few_words() -> None:
    slips = {slip.name for slip in (*SUM_SLIPS, *NUMBER_SLIPS, *equal_fractions.SLIPS)}
    told_of = {slip: went_wrong(slip, "en") for slip in slips}
    assert [slip for slip, words in told_of.items() if not 0 < len(words.split()) <= 5] == []


def test_a_strike_says_how_the_choice_came_about_rather_than_that_it_is_another(
    tmp_path: Path,
) -> None:
    """Beside 144: stopped too early, since 6 × 24 is 144; 162 is 144 + 18; 3/20 keeps the 3."""
    stem = (
        "Mara fills 6 trays with 24 seedlings each. She gives away 18 seedlings. How many are left?"
    )
    item = {"stem": stem, "choices": {"A": "126", "B": "144", "C": "162"}}
    lesson = told({**item, "model": "6 * 24 - 18"}, tmp_path)
    assert words_of(lesson, "strike B") == ["stopped too early"]
    assert words_of(lesson, "strike C") == ["from adding"]
    stem = "Which number goes in the box to make 3/4 = □/20 true?"
    lesson = told({"stem": stem, "choices": {"A": "3", "B": "15", "C": "5"}}, tmp_path)
    assert words_of(lesson, "strike A") == ["old numerator kept"]
    assert words_of(lesson, "strike C") == ["only the factor"]


def test_an_expression_with_the_answers_value_is_not_called_the_end(tmp_path: Path) -> None:
    """7/24 − 2/24 is 5/24, as 7/8 − 2/3 is, but it is still to be worked out: 7/8 is not in it."""
    stem = "Which could be the first line of work for 7/8 - 2/3?"
    choices = {"A": "21/24 - 16/24", "B": "5/5", "C": "21/24 + 16/24", "D": "7/24 - 2/24"}
    lesson = told({"stem": stem, "choices": choices}, tmp_path)
    assert "changes" in " ".join(words_of(lesson, "strike D"))
    assert not any("end" in word.split(",")[0].split() for word in words_of(lesson, "strike D"))


def test_no_strike_of_the_demo_reviews_says_only_that_it_is_another_number() -> None:
    """Each says what went wrong, what the choice makes, or on which side of what it lies."""
    said = []
    for review in ("garden-week", "kitchen-market", "harvest-count"):
        lesson, *_ = make_lesson(review_of(DEMO.with_name(f"{review}.yaml")), Words("en"))
        assert lesson is not None
        said += words_of(lesson, "strike ")
    assert len(said) > 40
    assert not [reason for reason in said if not reason or reason.startswith("not $")]
    assert not [reason for reason in said if re.fullmatch(r"not \d.*", reason)]


REASONS: tuple[tuple[str, dict[str, str], dict[str, str]], ...] = (
    # 3/4 + 1/5 is more than 3/4; 9/10 is 18/20, the sum 19/20
    (
        "3/4 + 1/5 = □",
        {"A": "4/9", "B": "19/20", "C": "4/20", "D": "9/10"},
        {
            "A": "less than 3/4: denominators added too",
            "C": "less than 3/4: old numerators kept",
            "D": "that is 18/20, not 19/20",
        },
    ),
    # 5/12 + 3/8 = 19/24; (5 − 3)/(12 − 8) = 2/4
    (
        "5/12 - 3/8 = □",
        {"A": "1/24", "B": "2/4", "C": "19/24"},
        {
            "B": "more than 5/12: denominators subtracted too",
            "C": "more than 5/12: from adding",
        },
    ),
    # the first adds tops and bottoms; the second keeps 5 and 3; 6/24 + 2/24 is 8/24 otherwise
    (
        "Which could be the first line of work for 5/6 + 3/8?",
        {"A": "(5 + 3)/(6 + 8)", "B": "5/24 + 3/24", "C": "20/24 + 9/24", "D": "6/24 + 2/24"},
        {"A": "denominators added too", "B": "old numerators kept", "D": "changes 5/6"},
    ),
    # 348 + 275: 13 ones and 12 tens; 513 counts neither the new ten nor the new hundred
    (
        "348 + 275 = □",
        {"A": "513", "B": "623", "C": "73", "D": "613"},
        {
            "A": "all regrouping forgotten",
            "C": "less than 300 + 200: from subtracting",
            "D": "new ten forgotten",
        },
    ),
    # 3 × 4 is one new ten and 2; 4 × 7 is two new tens and 8
    ("24 × 3 = □", {"A": "72", "B": "62"}, {"B": "new ten forgotten"}),
    ("27 × 4 = □", {"A": "108", "B": "88"}, {"B": "new tens forgotten"}),
    # 6 × 20 is 120, and 6 × 30 is 180: 144 lies between
    (
        "144 ÷ 6 = □",
        {"A": "24", "B": "45", "C": "20", "D": "30"},
        {"B": "more than 180 ÷ 6", "C": "6 × 20 is only 120", "D": "6 × 30 is 180 already"},
    ),
    # 1 − 1/3 is 2/3
    (
        "1 - 1/3 - 2/5 = □",
        {"A": "11/15", "B": "2/3", "C": "4/15"},
        {"A": "only the known parts", "B": "2/5 left out"},
    ),
)
"""Questions and what is to stand beside their struck choices, by hand."""


@pytest.mark.parametrize(("stem", "choices", "wanted"), REASONS, ids=lambda x: str(x)[:30])
def test_what_went_wrong_stands_beside_a_strike(
    stem: str, choices: dict[str, str], wanted: dict[str, str], tmp_path: Path
) -> None:
    path = tmp_path / "one.json"
    item = {"id": "one", "stem": stem, "choices": choices}
    path.write_text(json.dumps({"review": "One", "grade": 5, "items": [item]}))
    lesson, faults, declined = make_lesson(review_of(path), Words("en"))
    assert lesson is not None, (faults, declined)
    appears = "\n".join(line for beat in lesson.beats for line in beat.appears)
    found = dict(re.findall(r"^strike (\w): (.*)$", appears, re.MULTILINE))
    assert {letter: found[letter] for letter in wanted} == wanted


def test_work_that_was_done_is_not_called_counting_on_a_picture(tmp_path: Path) -> None:
    """2 1/5 is written as 2 2/10 first; 3/10 + 4/10 is counted on the strip as it is."""
    strip = {"diagram": {"strip": {"wholes": 3, "parts": 10}}}
    boxes = ["numerator", "denominator"]
    for model, counted in (("1 1/5 + 7/10", False), ("3/10 + 4/10", True)):
        part = {"stem": f"{model} = □", "stimulus": strip, "boxes": boxes, "model": model}
        beats = told(part, tmp_path).beats
        taken = next(beat.caption for beat in beats if beat.move == "take along")
        assert ("picture" in taken) is counted


def test_one_of_a_thing_is_written_as_one(tmp_path: Path) -> None:
    """50 is 7 × 7 + 1, and 52 is 7 × 7 + 3; an empty box does not tell which."""
    for beans, unit in (("50", "bean"), ("52", "beans")):
        stem = f"There are {beans} beans. Each pot gets 7 beans. How many beans are left over?"
        lesson = told({"stem": stem, "boxes": ["number"], "unit": "beans"}, tmp_path)
        filled = " ".join(words_of(lesson, "answer "))
        empty = [
            " ".join(line for mark in group.marks if isinstance(mark, Text) for line in mark.lines)
            for page in lesson.pages
            for group in page.base
            if group.name == "answer boxes"
        ]
        assert set(empty) == ({"", "beans"} if unit == "bean" else {"beans"})
        assert filled == (f"1 {unit}" if unit == "bean" else "3")


def test_change_is_said_in_dollars_where_the_choices_are(tmp_path: Path) -> None:
    """3 × 2.45 = 7.35 and 10 − 7.35 = 2.65, by hand; nothing "was there" that had to be paid."""
    stem = "Bexa buys 3 pots of mint at $2.45 each. She pays with a $10 bill. How much change"
    choices = {"A": "$2.65", "B": "$7.35", "C": "$7.55", "D": "$3.65"}
    lesson = told({"stem": f"{stem} does she get?", "choices": choices}, tmp_path)
    said = " ".join(sentence.caption for beat in lesson.beats for sentence in beat.sentences)
    assert "735 cents, which is $7.35" in said
    assert "That's $2.65." in said
    assert "So the answer is choice A, $2.65." in said
    assert "what was there, and now" not in said


def test_a_result_on_the_way_is_not_called_the_first_step(tmp_path: Path) -> None:
    """36 − 12 = 24, 24 ÷ 4 = 6 and 6 + 5 = 11, by hand: 6 comes after the second step."""
    choices = {"A": "11", "B": "40", "C": "6", "D": "2"}
    lesson = told({"stem": "Find (36 - 12) ÷ 4 + 5.", "choices": choices}, tmp_path)
    captions = [sentence.caption for beat in lesson.beats for sentence in beat.sentences]
    slip = next(
        caption for caption in captions if caption.endswith("gets 6.") or " get 6 " in caption
    )
    assert "first step" not in slip
    assert "last step" in slip


def test_a_first_line_that_stops_at_regrouping(tmp_path: Path) -> None:
    """5 1/4 is 4 5/4, worked by hand; nothing is taken away yet."""
    lesson = told(
        {
            "stem": "Which could be the first line of work for 5 1/4 - 2 3/4?",
            "choices": {"A": "4 5/4 - 2 3/4", "B": "5 1/4 - 3 2/4", "C": "3 2/4"},
        },
        tmp_path,
    )
    said = " ".join(beat.say for beat in lesson.beats)
    assert "four and five fourths" in said
    assert "choice A" in said
