"""Choices that are times of day or lists: one fault says what to do, and doing it works."""

from __future__ import annotations

from pathlib import Path

import pytest

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


@pytest.mark.parametrize(
    ("choices", "said"),
    [
        (TIMES, "choices A, B, C are times of day, which are not read"),
        (LISTS, "choices A, B are lists of numbers, which are not read"),
    ],
)
def test_one_fault_names_the_way_out_and_the_way_out_works(
    choices: str, said: str, tmp_path: Path
) -> None:
    text = ITEM.replace("{choices}", choices)
    (fault,) = checked(text, tmp_path).faults
    assert fault.wrong == said
    assert fault.right == "declare the right one with key: and tell it with told:"
    told = checked(text + TOLD, tmp_path)
    assert (told.faults, told.declined) == ((), ())
    (declined,) = checked(f"{text}    key: B\n", tmp_path).declined
    assert "which are not read; tell the question with `told:`" in declined
