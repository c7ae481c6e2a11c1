"""Choices that are times of day or lists: what to do is said once, and doing it works."""

from __future__ import annotations

from pathlib import Path

from narrate import pipeline

TIMES = '{A: "9:15 a.m.", B: "9:45 a.m.", C: "10:00 a.m."}'
LISTS = '{A: "1/2, 2/3, 3/4", B: "2/3, 1/2, 3/4"}'
ITEM = """items:
  - id: a
    stem: Which one is right?
    choices: {choices}
"""
TOLD = """    key: B
    told:
      - say: Look at what comes first.
      - show: B
"""


def checked(text: str, folder: Path) -> pipeline.Outcome:
    path = folder / "week.yaml"
    path.write_text(text, encoding="utf-8")
    return pipeline.check([path])


def test_times_are_declined_where_the_question_does_not_settle_them(tmp_path: Path) -> None:
    text = ITEM.replace("{choices}", TIMES)
    found = checked(text, tmp_path)
    assert not found.faults
    assert "the choices are times of day, and I am not sure from the words" in found.declined[0]
    told = checked(text + TOLD, tmp_path)
    assert (told.faults, told.declined) == ((), ())
    (declined,) = checked(f"{text}    key: B\n", tmp_path).declined
    assert "or tell the question with `told:`, beside its `key:`" in declined


def test_lists_are_declined_where_the_question_does_not_settle_them(tmp_path: Path) -> None:
    text = ITEM.replace("{choices}", LISTS)
    found = checked(text, tmp_path)
    assert not found.faults
    assert "the choices are lists of numbers, which are not read" in found.declined[0]
    told = checked(text + TOLD, tmp_path)
    assert (told.faults, told.declined) == ((), ())
