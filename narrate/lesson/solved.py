"""A part with all that is known of it: what a lesson is told from."""

from __future__ import annotations

from dataclasses import dataclass

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

    def words_of(self, source: Source) -> str:
        """The item's own words: of the stimulus, or of the question."""
        if source == "ask":
            return self.part.ask
        return self.item.stimulus.text if self.item.stimulus else ""
