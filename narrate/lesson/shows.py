"""What a beat asks a page to show. `pages` finds the place and draws the marks.

A closed set, so that no kind draws and no output lays out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from narrate.exact.tree import Piece, Writing
from narrate.solution.figures import Layer

Role = Literal["amount", "relationship", "unknown", "condition", "extra"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StemMark:
    """A telling phrase of the stem marked by its role: characters `start` to `end` of `source`.

    Amounts get a box, relationships a dashed underline, the unknown a solid underline, conditions
    a double underline; a number that is not needed is struck thinly.
    """

    source: Literal["stimulus", "ask"]
    start: int
    end: int
    role: Role


@dataclass(frozen=True, slots=True)
class PauseSign:
    """The sign that says: pause here and try it. `words` stand beside it."""

    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of work. Lines of one part align their first `=` signs.

    `struck` shows a wrong line of a pupil: marked wrong with a word from the start, and with what
    went wrong where a `slip` is known to make it.
    """

    tree: Writing
    note: str = ""
    struck: bool = False
    slip: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Multiples:
    """Multiples of `of`, listed at the side: `values` in order, the last one ringed if `ring`."""

    of: int
    values: tuple[int, ...]
    ring: bool = True


@dataclass(frozen=True, slots=True)
class Draw:
    """A layer of a figure."""

    layer: Layer


@dataclass(frozen=True, slots=True, kw_only=True)
class Strike:
    """Answer choice `letter` is struck, with a short reason beside it."""

    letter: str
    reason: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class Choose:
    """Answer choice `letter` is circled: it is right."""

    letter: str


@dataclass(frozen=True, slots=True)
class FillBoxes:
    """The answer boxes get their digits, in the order of the item's boxes; "" stays empty."""

    digits: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Takeaway:
    """The sentence to take along, as a caption writes it."""

    text: str


Show = StemMark | PauseSign | Line | Multiples | Draw | Strike | Choose | FillBoxes | Takeaway
