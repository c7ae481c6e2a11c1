"""Items written in a test, solved as a file of theirs is: one row a part, as `solve` prints it."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path
from typing import Any

from narrate import pipeline
from narrate.items.item import Item
from narrate.items.loading import load
from narrate.lesson.solved import SolvedPart

FRACTION = ["numerator", "denominator"]
MIXED = ["whole", "numerator", "denominator"]
NUMBER = ["number"]

Row = dict[str, Any]


def solve_one(stem: str, **keys: Any) -> Row:
    """The row of an item with one part."""
    with tempfile.TemporaryDirectory() as folder:
        path = _saved(folder, {"id": "item", "stem": stem, **keys})
        [row] = pipeline.solve([path])
    return row


def load_one(stem: str = "", **keys: Any) -> Item:
    """An item, loaded; it must be without fault. Parts go without a stem."""
    words = {"stem": stem} if stem else {}
    with tempfile.TemporaryDirectory() as folder:
        found = load([_saved(folder, {"id": "item", **words, **keys})])
    assert not found.faults, found.faults
    return found.reviews[0].items[0]


def solved_one(stem: str, **keys: Any) -> SolvedPart:
    """The solved part of an item with one part, its key not checked."""
    item = load_one(stem, **keys)
    return pipeline.solve_part(item, item.parts[0], {})


def _saved(folder: str, item: dict[str, Any]) -> Path:
    path = Path(folder) / "items.jsonl"
    path.write_text(json.dumps(item), encoding="utf-8")
    return path
