"""Sixty items written by hand after the code was, each with its answer worked by hand.

The answer stands in the item's `note:` (one for each part): `answer | written | key`, with null
where choices are expressions. Sources of the forms: what a teacher of grades 4 and 5 has at hand.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import yaml

from narrate import pipeline

FOLDER = Path(__file__).parent / "kitchen_week"
FILES = sorted(FOLDER.iterdir())


def _items(path: Path) -> list[dict[str, Any]]:
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".jsonl":
        return [json.loads(line) for line in text.splitlines()]
    items: list[dict[str, Any]] = yaml.safe_load(text)["items"]
    return items


def _worked(path: Path) -> dict[tuple[str, int], list[str]]:
    """What was worked by hand, for each part."""
    found = {}
    for item in _items(path):
        notes = item["note"] if isinstance(item["note"], list) else [item["note"]]
        for part, note in enumerate(notes, start=1):
            found[item["id"], part] = note.split(" | ")
    return found


def _got(row: dict[str, Any]) -> list[str]:
    key = row["key"]
    letters = ",".join(key) if isinstance(key, list) else key
    found = [row["answer"] or "null", row["written"] or "null", letters]
    return [text for text in found if text is not None]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_every_part_is_solved_as_by_hand(path: Path) -> None:
    worked = _worked(path)
    rows = list(pipeline.solve([path]))
    assert {(row["item"], row["part"]) for row in rows} == set(worked)
    for row in rows:
        assert row["status"] == "solved", row["message"]
        assert _got(row) == worked[row["item"], row["part"]], row["item"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_good_items_are_neither_refused_nor_noted(path: Path) -> None:
    outcome = pipeline.check([path])
    assert (outcome.faults, outcome.declined, outcome.notes) == ((), (), ())


def test_there_are_sixty_items() -> None:
    assert sum(len(_items(path)) for path in FILES) == 60
