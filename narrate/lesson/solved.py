"""A part with all that is known of it: what a lesson is told from."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from narrate.items.item import Item, Part
from narrate.reading.reading import Reading, Source
from narrate.solution.steps import Solution


@dataclass(frozen=True, slots=True, kw_only=True)
class SolvedPart:
    """A part, read and solved. `language` is what it is told in."""

    item: Item
    part: Part
    reading: Reading
    solution: Solution
    language: str = "en"

    @property
    def missed(self) -> Fraction | None:
        """The share of the class's choices that are wrong; None where it is not known."""
        return _missed(self.part, self.solution.key)

    def words_of(self, source: Source) -> str:
        """The item's own words: of the stimulus, or of the question."""
        if source == "ask":
            return self.part.ask
        return self.item.stimulus.text if self.item.stimulus else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class HandTold:
    """A part that the teacher tells herself, in the moments of its `told`."""

    item: Item
    part: Part

    @property
    def missed(self) -> Fraction | None:
        """The share of the class's choices that are wrong by its declared key."""
        return _missed(self.part, self.part.key)


Tellable = SolvedPart | HandTold


def _missed(part: Part, key: Sequence[str]) -> Fraction | None:
    every = sum(part.counts.values())
    right = sum(part.counts.get(letter, 0) for letter in key)
    return Fraction(every - right, every) if every and key else None


def most_missed_first(parts: Sequence[Tellable]) -> list[Tellable]:
    """Items by how much of them was missed, those not known last; their parts stay together."""
    missed: dict[str, Fraction] = {}
    for part in parts:
        share = part.missed
        if share is not None:
            missed[part.item.id] = max(share, missed.get(part.item.id, share))
    return sorted(parts, key=lambda part: -missed.get(part.item.id, Fraction(-1)))
