"""Lines that the words speak against, whatever the amounts measure: never offered."""

from __future__ import annotations

import re
from dataclasses import dataclass

from narrate.reading.words.offered_asked import Told


@dataclass(frozen=True, slots=True)
class Never:
    """What the question and the whole story hold, and what a line has that is then not right."""

    asked: str
    told: str
    line: str


_ONLY_SUM = r"[^×÷−]*"
_ROWS = (
    Never(r"how many times", "", r"[^÷]*"),
    Never(r"still (?:have|has|be|hold)|(?:left|remain\w*)(?: over)?\W*$", "", r"[^−÷]*"),
    Never(r"empty|unsold|unused|free", "", r"[^−÷]*"),
    Never(r"how (?:many|much) (?:more|fewer|less)|profit", "", r"[^−÷]*"),
    Never(r"percent\w*", "", r"[^×÷]*"),
    Never("", r"(?:for|one) free|splits? the|in half", r"[^−÷]*"),
    Never(r"original|regular|usual\w*", r"off|discount|sale", r".*−.*×.*"),
    Never(r"back", "", r"[^−]*"),
    Never(r"left|remain\w*", r"(?:divide|share|split)[sd]?\b.* (?:same|equal)\w*", r"[^÷×]*"),
    Never(r"others?|rest", "", r"[^−÷]*"),
    Never(r"not|n't", "", r"[^−]*\+[^−]*"),
    Never("", r"reduced|discount|coupon|\$[\d.]+ off", r"[^−]*"),
    Never(r"area|square \w+", "", _ONLY_SUM),
    Never(r"each|gets?", r"(?:splits?|share[sd]?|divide[sd]?)\b[^?]* (?:evenly|equally)",
          r"[^÷]*×[^÷]*"),
    Never("", r"\d[^.?!]* (?:less|fewer|lower|shorter|lighter)(?! than)\b(?![^.?!]* than\b)",
          r"[^−]*"),
    Never(r"in all|one of each|of each kind|altogether|both",
          r"(?:more|less|longer) (?:than|for|on)", r"[^+−]+\+[^+−]+"),
    Never(r"left|remain\w*|still", r"every (?:day|morning|week|hour)|(?:a|each) day", r"[^×÷]*"),
)  # fmt: skip


def never(story: Told, line: str) -> bool:
    """Whether the words speak against a line."""
    return any(
        re.fullmatch(row.line, line)
        and (not row.asked or story.asks(row.asked))
        and (not row.told or story.says(row.told))
        for row in _ROWS
    )
