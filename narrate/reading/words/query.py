"""What a story asks: of what, how, and held against what, as a value."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Kind = Literal["many", "much", "cost", "long", "fraction", "times", "area", "perimeter", "average"]


STILL_TO = (
    r"\b(?:still|yet|left) (?:[a-z]+ )??(?:(?:has|have|must|needs?|is|are) )?to (?:be )?"
    r"(?P<verb>[a-z]+)$"
)
"""A question for what is still to be done: how many are still to come?"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Query:
    """What is asked. `thing` is counted, `words` tell which; `than`: what it is held against.

    `sign` is +1 for "how many more", −1 for "how many fewer", 0 without; `per` is the thing asked
    for each of; `verb` what is done; `start` and `end` the question's place in the text.
    """

    kind: Kind
    thing: tuple[str, ...]
    also: tuple[tuple[str, ...], ...] = ()
    words: frozenset[str]
    than: frozenset[str] = frozenset()
    sign: int = 0
    per: tuple[str, ...] = ()
    verb: str = ""
    verb_sort: str = ""
    who: frozenset[str] = frozenset()
    began: bool = False
    ended: bool = False
    total: bool = False
    needs: bool = False
    negative: bool = False
    shared: bool = False
    text: str = ""
    start: int = 0
    end: int = 0
    lows: tuple[str, ...] = ()

    @property
    def head(self) -> str:
        """What is counted, in one word."""
        return self.thing[-1] if self.thing else ""
