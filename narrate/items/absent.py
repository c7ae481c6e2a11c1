"""Who was away when, from a CSV file: a row for a pupil's code and a day, or several.

    code,day
    p03,2026-05-04
    p07,2026-05-04 2026-05-06
    p09,

The first column holds initials or codes, not names. A row without a day is a pupil who missed
nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.items.answers import read_rows
from narrate.items.days import DAYS_ARE, day
from narrate.items.texts import shorten

HEADER = ("code", "day")


@dataclass(slots=True, kw_only=True)
class Away:
    """A pupil's code, the days away with their places, and rows that could not be read."""

    code: str
    place: Place
    days: dict[date, Place] = field(default_factory=dict)
    unread: list[Place] = field(default_factory=list)


@dataclass(frozen=True, slots=True, kw_only=True)
class Absences:
    """Who was away, in the order of the file; faults of rows; what a person should look at."""

    pupils: tuple[Away, ...]
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]


def read_absences(path: Path) -> Absences:
    """The list of who was away. Raises FaultsFound where it is no such list."""
    rows = read_rows(path, "a list of absences")
    header = tuple(cell.strip().lower() for cell in rows[0]) if rows else ()
    if header[:2] != HEADER:
        wrong = f'the first row is "{shorten(",".join(header))}"' if rows else "this file is empty"
        right = "begin with the row code,day, then a row for each pupil and day"
        raise FaultsFound((Fault(place=Place(file=str(path)), wrong=wrong, right=right),))
    pupils: dict[str, Away] = {}
    faults: list[Fault] = []
    notes: list[str] = []
    for line, row in enumerate(rows[1:], start=2):
        if any(cell.strip() for cell in row):
            _read(row, Place(file=str(path), line=line), pupils, faults, notes)
    return Absences(pupils=tuple(pupils.values()), faults=tuple(faults), notes=tuple(notes))


def _read(
    row: Sequence[str],
    place: Place,
    pupils: dict[str, Away],
    faults: list[Fault],
    notes: list[str],
) -> None:
    """One row, put in with its pupil."""
    code, cell = row[0].strip(), row[1] if len(row) > 1 else ""
    where = Place(file=place.file, line=place.line, column=2)
    if not code:
        wrong = f'"{shorten(cell.strip())}" is the day of nobody'
        faults.append(Fault(place=place, wrong=wrong, right="write a code before the comma"))
        return
    if code not in pupils and is_like_a_name(code):
        notes.append(f'{place}: "{shorten(code)}" looks like a full name; use initials or a code')
    pupil = pupils.setdefault(code, Away(code=code, place=place))
    for text in [*_days(cell), *(text for more in row[2:] for text in _days(more))]:
        when = day(text)
        if when is None:
            faults.append(Fault(place=where, wrong=f'"{shorten(text)}" is no day', right=DAYS_ARE))
            pupil.unread.append(where)
        elif (before := pupil.days.setdefault(when, where)) != where:
            notes.append(
                f"{where}: {when} stands for this pupil on line {before.line} as well; "
                "it counts once"
            )


def _days(cell: str) -> Iterator[str]:
    yield from (text for text in re.split(r"[\s;,]+", cell) if text)


def is_like_a_name(code: str) -> bool:
    """Whether a code holds two words of letters, as first and last names are."""
    return len([w for w in re.split(r"[\s,._]+", code) if len(w) > 1 and w.isalpha()]) > 1
