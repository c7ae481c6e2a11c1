"""Everything that can go wrong, as one tree.

    NarrateError
    ├── ExactError      text that is no exact number or expression; holds the column
    ├── FaultsFound     every fault of the input, gathered and raised once
    ├── Declined        an item that cannot be read or solved with certainty
    ├── WrongUse        the command line was used wrongly
    └── OutputFailed    a file could not be written

A `Fault` is a value, not an exception: faults are collected while a file is read. A message says
where it is, what is wrong and what would be right.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Place:
    """A place in a file. `line` and `column` count from 1; 1:1 where there is none."""

    file: str
    line: int = 1
    column: int = 1

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong in the input. `item` is the id of the item it spoils, None for the file."""

    place: Place
    wrong: str
    right: str
    item: str | None = None

    def __str__(self) -> str:
        return f"{self.place}: {self.wrong}; {self.right}"


class NarrateError(Exception):
    """The root of the tree."""


class ExactError(NarrateError):
    """Text that is no exact number or expression. `column` counts from 1 within the text."""

    def __init__(self, message: str, column: int = 1) -> None:
        super().__init__(message)
        self.message = message
        self.column = column


class FaultsFound(NarrateError):
    """All faults of the input, in the order of their places."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("\n".join(str(fault) for fault in faults))
        self.faults = faults


class Declined(NarrateError):
    """An item that cannot be read or solved with certainty.

    `understood` says what was understood, `add` what the teacher could add to settle it; where that
    takes work to say, it is a function, called when the message is first wanted.
    """

    def __init__(self, understood: str, add: str | Callable[[], str]) -> None:
        super().__init__(understood)
        self.understood = understood
        self._add = add

    @property
    def add(self) -> str:
        """What the teacher could add."""
        if not isinstance(self._add, str):
            self._add = self._add()
        return self._add

    def __str__(self) -> str:
        return f"{self.understood}; {self.add}"


class WrongUse(NarrateError):
    """The command line was used wrongly (exit code 2)."""


class OutputFailed(NarrateError):
    """A file could not be written; what was there before is whole."""
