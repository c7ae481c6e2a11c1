"""Which wording of a move is said next: none too often, none so soon again.

A wording is said three times at most in a review, and never in the same part again nor in the part
after it, as long as another is left.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

from narrate.lesson.lesson import Sentence

MOST_USES = 3
"""So often a wording is said in one review."""

Wording = tuple[str, int]
"""A move and the place of one of its wordings in the template file."""


@dataclass(slots=True)
class Memory:
    """What has been said: sentences and wordings of this part and the one before, all wordings."""

    used: Counter[Wording] = field(default_factory=Counter)
    before: set[str] = field(default_factory=set)
    here: set[str] = field(default_factory=set)
    wordings_before: set[Wording] = field(default_factory=set)
    wordings_here: set[Wording] = field(default_factory=set)

    def next_part(self) -> None:
        """From here on another part is told."""
        self.before, self.here = self.here, set()
        self.wordings_before, self.wordings_here = self.wordings_here, set()

    def note(self, wording: Wording, sentences: tuple[Sentence, ...]) -> None:
        """Remembers what is said now."""
        self.used[wording] += 1
        self.wordings_here.add(wording)
        self.here.update(sentence.say for sentence in sentences)

    def repeats(self, sentences: tuple[Sentence, ...]) -> int:
        """How many of some sentences have been said lately."""
        return sum(s.say in self.here or s.say in self.before for s in sentences)

    def lately(self, wording: Wording) -> bool:
        """Whether a wording has been said in this part or in the one before."""
        return wording in self.wordings_here or wording in self.wordings_before

    def is_used_up(self, wording: Wording) -> bool:
        """Whether a wording has been said as often as it may."""
        return self.used[wording] >= MOST_USES

    def copied(self) -> Memory:
        """A memory of the same, which keeps what it holds when this one goes on."""
        return Memory(
            Counter(self.used),
            set(self.before),
            set(self.here),
            set(self.wordings_before),
            set(self.wordings_here),
        )
