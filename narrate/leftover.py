"""What still lies in a folder from an earlier build: it is named, and left where it is."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

LESSON = "lesson.json"
_OF_DAYS = re.compile(r"\d{4}-\d{2}-\d{2}(_[\w-]+)?")
"""What `catch-up` calls the folder of some days."""


def told_in(folder: Path) -> list[Any] | None:
    """What the lesson of a folder says and builds, beat by beat, whenever; None if there is none.

    Times are left out: a lesson that is spoken faster is no other lesson.
    """
    try:
        beats = json.loads((folder / LESSON).read_bytes())["beats"]
        kept = ("id", "item", "part", "say", "caption", "builds", "waits")
        return [[beat[key] for key in kept] for beat in beats]
    except (OSError, ValueError, LookupError, TypeError):
        return None


@contextmanager
def told_of(
    folder: Path,
    outputs: Mapping[str, Any],
    every: Mapping[str, Any],
    tell: Callable[[str], None],
) -> Iterator[None]:
    """Tells, when `outputs` have been written to a folder, which of `every` output still lie there,
    if the lesson is another now."""
    before = told_in(folder)
    yield
    names = [n for n, out in every.items() if n not in outputs and (folder / out.FILE).exists()]
    if names and told_in(folder) != before:
        tell(line(folder, names, every))


def line(folder: Path, names: list[str], every: Mapping[str, Any]) -> str:
    """What to do about the files of some outputs, which are of another lesson."""
    along = {each for name in names for each in getattr(every[name], "WITH", ())}
    files = ", ".join(every[name].FILE for name in names)
    also = " ".join(f"--also {name}" for name in names if name not in along)
    return (
        f"{folder}: still there from an earlier build, of another lesson than the rest: {files};"
        f" delete {'it' if len(names) == 1 else 'them'} or build again with {also}"
    )


def tell_days(folder: Path, written: set[str], tell: Callable[[str], None]) -> None:
    """Tells of the folders of days that were written by an earlier list, and not by this one."""
    old = sorted(
        lesson.parent.name
        for lesson in folder.glob(f"*/{LESSON}")
        if lesson.parent.name not in written and _OF_DAYS.fullmatch(lesson.parent.name)
    )
    if old:
        them = "it" if len(old) == 1 else "them"
        tell(
            f"{folder}: still there from an earlier list: {', '.join(old)}; nobody on this list"
            f" gets {them}, so delete {them} if nobody else does"
        )
