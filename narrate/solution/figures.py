"""Pictures of amounts as values: what is drawn, never how.

A figure is drawn in layers that come one after another and stay. Each layer names its figure by
`of`; the first layer of a figure is its ground (`Strip`, `Bar`, `NumberLine`).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from narrate.exact.tree import Decimal, Whole, Writing
from narrate.solution.task import as_decimal

Tone = Literal["first", "second", "third", "rest"]
"""Which amount a shaded stretch belongs to: told by hatching and label first, colour second."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A fraction strip: `wholes` wholes side by side, each cut in `parts` equal parts, empty."""

    of: str
    wholes: int
    parts: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Shade:
    """A stretch of a strip or bar from `start` to `end` (in wholes) shaded, with its label."""

    of: str
    start: Fraction
    end: Fraction
    tone: Tone
    label: Writing | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShadeEach:
    """In each of so many `pieces` of a strip, from its left end on, the same amount shaded.

    `size` is how long each piece is (in wholes); shaded are `count` of the small parts of which
    `parts` make a whole.
    """

    of: str
    pieces: int
    size: Fraction
    count: int
    parts: int
    tone: Tone


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossOff:
    """A shaded stretch of a strip from `start` to `end` (in wholes) crossed off."""

    of: str
    start: Fraction
    end: Fraction
    label: Writing | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A strip re-cut: every whole now shows `parts` equal parts (thin new cuts).

    With `start` and `end` (in wholes) only that stretch is cut.
    """

    of: str
    parts: int
    start: Fraction | None = None
    end: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Brace:
    """A bracket under a strip or bar from `start` to `end` (in wholes) with a label, `?` for □."""

    of: str
    start: Fraction
    end: Fraction
    label: Writing


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Two amounts compared: two bars from one left edge, each with its label.

    The stretch between their ends is marked as the difference, `?`.
    """

    of: str
    longer: Fraction
    shorter: Fraction
    longer_label: Writing
    shorter_label: Writing


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberLine:
    """A number line from `low` to `high` (whole numbers of `unit`), `parts` ticks to each.

    The whole numbers of `unit` are labelled: 34 to 35 of tenths is from 3.4 to 3.5.
    """

    of: str
    low: int
    high: int
    parts: int = 1
    unit: Fraction = Fraction(1)

    def number(self, count: int) -> Whole | Decimal:
        """So many of its unit, with the digits of its place: 34 tenths are 3.4."""
        amount, places = count * self.unit, len(str(self.unit.denominator)) - 1
        return (as_decimal(amount, places) if places else None) or Whole(int(amount))


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A thick stretch of a number line from `start` to `end`: where the answer must lie.

    Without an `end` it goes on past the end of the line.
    """

    of: str
    start: Fraction
    end: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """A labelled point of a number line."""

    of: str
    at: Fraction
    label: Writing


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """A hop on a number line from `start` to `end`, with its label above."""

    of: str
    start: Fraction
    end: Fraction
    label: Writing


Layer = (
    Strip | Shade | ShadeEach | CrossOff | Cut | Brace | Bars | NumberLine | Stretch | Point | Jump
)
