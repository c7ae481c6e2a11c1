"""A row of `terse`: words that a wordy writer uses, and the fewer words that say the same."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache

Sure = Callable[[re.Match[str]], bool]


@dataclass(frozen=True, slots=True)
class Row:
    """Words that may stand in a text, and what is read instead, `<name>` for a group of them.

    Only a text with one of the words of `clue` is looked at; `sure` must hold of what was found.
    """

    clue: str
    said: str
    read: str
    sure: Sure | None = None

    def may_be(self, low: str) -> bool:
        """Whether a text in small letters has a word without which the row is not there."""
        for word in _clues(self.clue):  # noqa: SIM110 - a generator takes twice as long
            if word in low:
                return True
        return False

    def pattern(self) -> re.Pattern[str]:
        """The row as a pattern, `{N}` a number, `{C}` a count, `{P}` a pronoun, `{U}` words."""
        return _compiled(self.said)


_SLOTS = {
    "{N}": r"\$?\d[\d,]*(?:\.\d+)?(?:(?: \d+)?/\d+)?",
    "{C}": r"(?:\d+|[Tt]wo|[Tt]hree|[Ff]our|[Ff]ive|[Ss]ix|[Ss]even|[Ee]ight|[Nn]ine|[Tt]en"
    r"|[Ee]leven|[Tt]welve|[A-Za-z]+teen|(?:[Tt]wenty|[Tt]hirty|[Ff]orty|[Ff]ifty)(?:-[a-z]+)?)",
    "{P}": r"(?:[Hh]e|[Ss]he|[Tt]hey|[Ii]t)",
    "{U}": r"[A-Za-z' -]+?",
    "{FEELS}": r"(?:hungry|tired|thirsty|happy|excited|proud|sleepy|cold|hot|busy|glad|sad)",
    "{IS}": r"(?:is|are|was|were)",
    "{SIZE}": r"(?:distance|length|height|width|mass|weight|price|cost|depth)",
    "{EVENT}": r"(?:class|lesson|concert|fair|festival|trip|game|contest|day|party|sale|race|show"
    r"|club|picnic|camp|season|jump|meeting|hike|competition|tournament|tour)",
}


@cache
def _clues(clue: str) -> tuple[str, ...]:
    return tuple(clue.split("|"))


@cache
def _compiled(said: str) -> re.Pattern[str]:
    for slot, pattern in _SLOTS.items():
        said = said.replace(slot, pattern)
    return re.compile(said)


def row(clue: str, said: str, read: str = "", sure: Sure | None = None) -> Row:
    """A row in short."""
    return Row(clue, said, read, sure)
