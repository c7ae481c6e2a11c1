"""Invariant 4: the key is checked, never trusted. Right choices were found by hand."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from narrate.pipeline import solve, solve_item
from tests.generated import loaded, made
from tests.solving import Row, load_one, solve_one

SUM = "What is 3/4 + 1/5?"


def fault(stem: str, choices: dict[str, str], **keys: Any) -> tuple[str, str]:
    """What is wrong, and what would be right; the row of a fault has no answer in it."""
    row = solve_one(stem, choices=choices, **keys)
    assert row["status"] == "fault", row
    assert (row["answer"], row["key"], row["steps"]) == (None, None, [])
    place, wrong = row["message"].split(": ", 1)
    key = "key" if wrong.startswith("the key") else "choices"
    line = json.dumps({"id": "item", "stem": stem, "choices": choices, **keys})
    assert place.endswith(f":1:{line.index(key) - 1 + 1}")
    wrong, right = wrong.split("; ", 1)
    return wrong, right


def solved(stem: str, choices: dict[str, str], **keys: Any) -> Row:
    row = solve_one(stem, choices=choices, **keys)
    assert row["status"] == "solved", row["message"]
    return row


# -- stopped


def test_no_right_choice_is_stopped_with_the_answer() -> None:
    assert fault(SUM, {"A": "4/9", "B": "9/10", "C": "4/20"}) == (
        "no choice is right: the answer is 19/20",
        "put it among the choices",
    )


def test_two_right_choices_are_stopped_with_both() -> None:
    """3/6 and 1/2 are the same number, and nothing asks for one of them."""
    wrong, right = fault("What is 1/6 + 2/6?", {"A": "3/6", "B": "3/12", "C": "1/2"})
    assert wrong == "A (3/6) and C (1/2) are both right"
    assert "`simplest: true`" in right
    assert "`select: all`" in right


def test_a_right_answer_that_stands_twice_is_stopped() -> None:
    assert fault("What is 12 + 30?", {"A": "42", "B": "42", "C": "18"}) == (
        "A (42) and B (42) are both right",
        "make every choice different",
    )


def test_a_wrong_choice_that_stands_twice_is_struck_twice() -> None:
    row = solved("What is 12 + 30?", {"A": "18", "B": "18", "C": "42"})
    assert row["key"] == "C"
    assert all(row["choices"][letter]["ruled_out_at"] is not None for letter in "AB")


def test_what_is_advised_for_two_right_choices_would_settle_it() -> None:
    """Simplest form is not advised where it is asked already, or where it decides nothing."""
    stem, choices = "What is 3/4 + 5/12 in simplest form?", {"A": "7/6", "B": "1 1/6", "C": "1/3"}
    _, right = fault(stem, choices)
    assert "simplest: true" not in right
    assert '"as a mixed number"' in right
    assert solved(f"{stem} Write it as a mixed number.", choices)["key"] == "B"
    _, right = fault("Which is equal to 2/6 + 1/6?", {"A": "1/2", "B": "3/12", "C": "1/4 + 1/4"})
    assert right == "keep one, or add `select: all`"


@pytest.mark.parametrize(
    "words",
    [
        "What is 3/4 - 1/12 in its simplest form?",
        "Find 3/4 - 1/12 in its simplest possible form.",
        "Subtract: 3/4 - 1/12. Reduce your answer.",
        "Find 3/4 - 1/12 in lowest terms.",
        "Find 3/4 - 1/12 and simplify.",
    ],
)
def test_the_words_say_that_simplest_form_is_asked(words: str) -> None:
    assert solved(words, {"A": "2/3", "B": "8/12", "C": "4/8"})["key"] == "A"


def test_a_key_does_not_settle_two_right_choices() -> None:
    wrong, _ = fault("What is 1/6 + 2/6?", {"A": "3/6", "B": "3/12", "C": "1/2"}, key="C")
    assert wrong == "A (3/6) and C (1/2) are both right"


def test_a_wrong_key_is_stopped_with_the_declared_and_the_computed_one() -> None:
    assert fault(SUM, {"A": "4/9", "B": "9/10", "C": "19/20", "D": "4/20"}, key="A") == (
        "the key says A (4/9), but the answer is 19/20: C (19/20)",
        "correct the key or the choices",
    )


@pytest.mark.parametrize(
    ("key", "shown"),
    [
        (["A"], "the key says A (3/4)"),
        (["A", "B", "C"], "the key says A (3/4) and B (6/8) and C (2/6)"),
        (["A", "C"], "the key says A (3/4) and C (2/6)"),
    ],
)
def test_a_select_all_key_must_hold_all_that_are_right_and_no_more(
    key: list[str], shown: str
) -> None:
    choices = {"A": "3/4", "B": "6/8", "C": "2/6"}
    stem = "Select all that are equal to 1/2 + 1/4."
    wrong, _ = fault(stem, choices, select="all", key=key)
    assert wrong == f"{shown}, but the answer is 3/4: A (3/4) and B (6/8)"


def test_a_first_line_that_is_missing_is_stopped_with_one_that_would_be_right() -> None:
    """5/6 + 3/8: 20/24 + 9/24, worked by hand."""
    stem = "Which could be the first line of work for 5/6 + 3/8?"
    lines = {"A": "5/24 + 3/24", "B": "20/24 - 9/24", "C": "20/24 + 9/24"}
    assert fault(stem, {"A": lines["A"], "B": lines["B"]}) == (
        "no choice is right: a first line of work would be 20/24 + 9/24",
        "put it among the choices",
    )
    assert fault(stem, lines, key="A")[0] == (
        "the key says A (5/24 + 3/24), but a first line of work would be 20/24 + 9/24: "
        "C (20/24 + 9/24)"
    )


def test_select_all_with_none_right_is_stopped() -> None:
    wrong, _ = fault("Select all that are equal to 1/2 + 1/4.", {"A": "2/6", "B": "1/6"},
                     select="all")  # fmt: skip
    assert wrong == "no choice is right: the answer is 3/4"


def test_the_unsimplified_choice_alone_is_not_right_where_simplest_form_is_asked() -> None:
    wrong, _ = fault("What is 5/12 + 3/12 in simplest form?", {"A": "8/12", "B": "8/24"})
    assert wrong == "no choice is right: the answer is 2/3"


def test_a_right_choice_written_otherwise_is_shown_to_be_equal() -> None:
    """1/2 + □ = 5/6: 5/6 − 3/6 = 2/6, and the choice reads 1/3. Worked by hand."""
    row = solved("What number makes 1/2 + □ = 5/6 true?", {"A": "1/3", "B": "4/4", "C": "1/6"})
    shows = [step["shows"] for step in row["steps"] if step["move"] == "equal choice"]
    assert shows == ["1/3 = (1 × 2)/(3 × 2) = 2/6"]
    assert (row["key"], row["written"]) == ("A", "2/6")


# -- decided by the form that is asked


@pytest.mark.parametrize(
    ("stem", "keys"),
    [
        ("What is 5/12 + 3/12 in simplest form?", {}),
        ("What is 5/12 + 3/12?", {"simplest": True}),
    ],
)
def test_simplest_form_decides_between_equal_choices(stem: str, keys: dict[str, Any]) -> None:
    """8/12 beside 2/3: one number, and only 2/3 has no common factor left."""
    row = solved(stem, {"A": "8/12", "B": "8/24", "C": "2/3"}, key="C", **keys)
    assert row["key"] == "C"
    assert row["choices"]["A"]["value"] == row["choices"]["C"]["value"] == "2/3"
    at = row["choices"]["A"]["ruled_out_at"]
    assert "simplest" in [fact["name"] for fact in row["steps"][at]["facts"]]


def test_a_mixed_number_decides_between_equal_choices() -> None:
    stem = "What is 3/4 + 3/4 as a mixed number?"
    assert solved(stem, {"A": "6/4", "B": "1 2/4", "C": "6/8"})["key"] == "B"


def test_an_improper_fraction_decides_between_equal_choices() -> None:
    stem = "What is 3/4 + 3/4 as an improper fraction?"
    assert solved(stem, {"A": "6/4", "B": "1 2/4", "C": "6/8"})["key"] == "A"


# -- right


@pytest.mark.parametrize("right", ["19/20", "38/40", "57/60"])
def test_the_key_is_found_whatever_its_writing(right: str) -> None:
    """Two and three times as many pieces, each a half and a third as large."""
    row = solved(SUM, {"A": "4/9", "B": right})
    assert (row["key"], row["answer"]) == ("B", "19/20")
    assert row["choices"]["B"]["ruled_out_at"] is None
    assert row["choices"]["A"]["ruled_out_at"] is not None


def test_select_all_finds_every_right_choice() -> None:
    choices = {"A": "3/4", "B": "6/8", "C": "2/6", "D": "2/4 + 1/4", "E": "1/4 + 1/4"}
    row = solved("Select all that are equal to 1/2 + 1/4.", choices, select="all")
    assert row["key"] == ["A", "B", "D"]


def test_select_all_may_have_one_right_choice() -> None:
    row = solved("Select all that are equal to 1/2 + 1/4.", {"A": "3/4", "B": "2/6"}, select="all")
    assert row["key"] == ["A"]


# -- sentences: only the item can say which is right

SENTENCES = {
    "A": "Add the numerators and the denominators.",
    "B": "Write both fractions in twentieths.",
    "C": "Subtract the smaller fraction.",
}


def test_sentences_are_told_from_the_key() -> None:
    row = solved("How could Noor find 3/4 + 1/5?", SENTENCES, model="3/4 + 1/5", key="B")
    assert (row["key"], row["answer"], row["written"]) == ("B", None, None)
    struck = [letter for letter, choice in row["choices"].items() if choice["reason"]]
    assert struck == ["A", "C"]


START = {"A": "She adds 4 and 5.", "B": "She writes both in twentieths.", "C": "She adds 3 and 1."}


@pytest.mark.parametrize(
    ("ask", "stops"),
    [
        ("Ana works out 3/4 + 1/5. How should she start?", True),
        ("Ana works out 3/4 + 1/5. Which sentence tells what she could do first?", True),
        ("Ana works out 3/4 + 1/5. Which sentence is true?", False),
        ("Ana had 3/4 at the start and got 1/5. How much is it? Which sentence is true?", False),
    ],
)
def test_the_work_stops_where_sentences_tell_how_to_start(ask: str, stops: bool) -> None:
    row = solved(ask, START, key="B", model="3/4 + 1/5")
    moves = [step["move"] for step in row["steps"]]
    assert ("join" not in moves) == stops
    assert "rewrite" in moves
    assert (moves[-1], row["key"], row["answer"]) == ("told", "B", None)


def test_fractions_of_one_size_start_with_seeing_that() -> None:
    choices = {"A": "She adds the denominators.", "B": "She adds the numerators."}
    row = solved("Ana adds 3/8 and 1/8. How should she start?", choices, key="B", model="3/8 + 1/8")
    assert [step["move"] for step in row["steps"]] == ["set up", "like size", "told"]


def test_sentences_without_a_key_are_not_guessed(tmp_path: Path) -> None:
    """They are one fault of the file, with what to add: three alike would say the same."""
    item = {"id": "item", "stem": "How is it found?", "model": "3/4 + 1/5", "choices": SENTENCES}
    path = tmp_path / "items.jsonl"
    path.write_text(json.dumps(item), encoding="utf-8")
    [row] = solve([path])
    assert row["status"] == "fault"
    assert f"choices {', '.join(SENTENCES)} are no numbers" in row["message"]
    assert f'"{SENTENCES["A"]}"' in row["message"]
    assert "declare the key" in row["message"]


# -- generated


def test_a_false_key_is_never_let_through() -> None:
    """In 300 items each wrong choice is declared in turn."""
    tried = 0
    for item, each in loaded(made(300, seed=41)):
        if "key" not in each.source:
            continue
        right = each.source["key"]
        for letter in sorted(set(each.source["choices"]) - {right}):
            false = load_one(**{**each.source, "key": letter, "id": item.id})
            [outcome] = solve_item(false)
            assert outcome.fault is not None, each.source
            texts = each.source["choices"]
            assert f"{letter} ({texts[letter]})" in outcome.fault.wrong.replace("−", "-")
            assert f"{right} ({texts[right]})" in outcome.fault.wrong.replace("−", "-")
            tried += 1
    assert tried > 50
