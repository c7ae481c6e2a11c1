"""What a class answered, from a CSV file: a row for each pupil's code, a column for each item.

    code,rain-barrel,flower-beds.2
    p01,A,C
    p02,C,

The first column holds codes, not names, and is not read. A column is named after an item, or after
one part of it; a cell holds the letter chosen, several letters where several may be, or nothing.
"""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.items.item import Item, Part, Review
from narrate.items.messages import nearest
from narrate.items.texts import shorten

MAX_BYTES = 5_000_000


def with_answers(reviews: Sequence[Review], path: Path) -> tuple[Review, ...]:
    """The reviews with what was chosen counted in their parts. Raises FaultsFound."""
    rows = read_rows(path, "a table of answers")
    columns, faults = _columns(rows[0], reviews, path) if rows else ({}, [_empty(path)])
    counts: dict[str, Counter[str]] = {name: Counter() for name, _ in columns.values()}
    for line, row in enumerate(rows[1:], start=2):
        for at, (name, part) in columns.items():
            cell = row[at].strip() if at < len(row) else ""
            letters = cell.upper().replace(",", " ").replace(";", " ").split()
            wrong = [letter for letter in letters if letter not in _letters(part)]
            counts[name].update(set(letters) - set(wrong))
            faults += (_no_choice(path, line, at, letter, name, part) for letter in wrong[:1])
    if faults:
        raise FaultsFound(tuple(faults))
    return tuple(replace(each, items=tuple(_counted(each.items, counts))) for each in reviews)


def _counted(items: Sequence[Item], counts: dict[str, Counter[str]]) -> Iterator[Item]:
    for item in items:
        parts = tuple(
            replace(part, counts=dict(counts[name]))
            if (name := _name(item, part)) in counts
            else part
            for part in item.parts
        )
        yield replace(item, parts=parts)


def _name(item: Item, part: Part) -> str:
    return f"{item.id}.{part.number}"


def _letters(part: Part) -> list[str]:
    return [choice.letter for choice in part.choices]


def _columns(
    header: Sequence[str], reviews: Sequence[Review], path: Path
) -> tuple[dict[int, tuple[str, Part]], list[Fault]]:
    """The columns that hold answers, by their number from 0: the part's name and the part."""
    items = [item for review in reviews for item in review.items]
    parts = {_name(item, part): part for item in items for part in item.parts}
    alone = {item.id: _name(item, item.parts[0]) for item in items if len(item.parts) == 1}
    found: dict[int, tuple[str, Part]] = {}
    faults: list[Fault] = []
    for at, given in enumerate(map(str.strip, header)):
        name = alone.get(given, given)
        if at == 0:
            if given.lower() != "code":
                wrong = f'the first column is "{shorten(given)}"'
                right = "write code, and a code for each pupil, never a name"
                faults.append(_fault(path, 1, at, wrong, right))
            continue
        if name not in parts:
            near = nearest(given, [*alone, *parts])
            right = (
                f"did you mean {near}?" if near else "name it after an item, or a part: compost.2"
            )
            faults.append(_fault(path, 1, at, f'"{shorten(given)}" is no item or part', right))
        elif not parts[name].choices:
            wrong = f"{name} has no choices to count"
            faults.append(_fault(path, 1, at, wrong, "take its column out"))
        elif name in (other for other, _ in found.values()):
            faults.append(_fault(path, 1, at, f"{name} has two columns", "keep one"))
        else:
            found[at] = name, parts[name]
    return found, faults


def _no_choice(path: Path, line: int, at: int, letter: str, name: str, part: Part) -> Fault:
    wrong = f'"{shorten(letter)}" is no choice of {name}'
    return _fault(path, line, at, wrong, f"write {', '.join(_letters(part))}, or nothing")


def _fault(path: Path, line: int, at: int, wrong: str, right: str) -> Fault:
    """A fault in a cell; its place is the row and the number of the cell in it."""
    return Fault(place=Place(file=str(path), line=line, column=at + 1), wrong=wrong, right=right)


def _empty(path: Path) -> Fault:
    right = "begin with a row of names: code, then ids of items"
    return Fault(place=Place(file=str(path)), wrong="this file is empty", right=right)


def read_rows(path: Path, what: str) -> list[list[str]]:
    """The rows of a CSV file, empty ones at its end left out. Raises FaultsFound.

    `what` says what the file should be.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            text = file.read(MAX_BYTES + 1)
        if len(text) > MAX_BYTES:
            raise ValueError("it is larger than 5 MB")
        first = text.partition("\n")[0]
        mark = max(",;\t", key=first.count)
        rows = list(csv.reader(text.splitlines(), delimiter=mark, strict=True))
    except (OSError, ValueError, csv.Error) as error:
        reason = getattr(error, "strerror", None) or str(error)
        if isinstance(error, UnicodeDecodeError):
            reason = "it is not UTF-8"
        wrong = f"this cannot be read as {what} ({reason})"
        right = "save it as CSV (UTF-8, commas)"
        if isinstance(error, FileNotFoundError):
            wrong, right = f"there is no file here to read as {what}", "look at its name and folder"
        raise FaultsFound((Fault(place=Place(file=str(path)), wrong=wrong, right=right),)) from None
    while rows and not any(cell.strip() for cell in rows[-1]):
        rows.pop()
    return rows
