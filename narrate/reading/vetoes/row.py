"""A veto: whether a story, a question and the work of a reading do not go together, and why."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from narrate.exact.tree import Expr

Veto = Callable[[str, str, Expr | None], bool]
"""From the story and the question in small letters, and the work."""


@dataclass(frozen=True, slots=True)
class Row:
    """A veto, what is said where it speaks against a reading, and pieces of words without any of
    which it has nothing to say, so that it is not asked."""

    speaks_against: Veto
    why: str
    clues: str

    def may_speak(self, text: str) -> bool:
        """Whether a text has one of the clues."""
        return any(clue in text for clue in self.clues.split("|"))


Rows = tuple[Row, ...]
