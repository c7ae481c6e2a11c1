"""What to say more plainly where no line can be offered: the sentence that is not understood."""

from __future__ import annotations

import re

from narrate.reading.words.offered_asked import Told, told
from narrate.reading.words.offered_links import linked
from narrate.reading.words.plain import plain, shortened

_HARD = re.compile(
    r"\b(?:again|half|halves|rest|remaining|twice|double[sd]?|except|without|not|never|instead|same"
    r"|back|both|other|others|almost|would|none|nobody|some|several|few)\b",
    re.IGNORECASE,
)
"""Words by which a sentence without a number changes what there is."""


def not_understood(text: str) -> str:
    """The sentence to say more plainly, shortened where it is long."""
    story = told(text)
    sentences = [s for s in re.split(r"(?<=[.?!])\s+", plain(text).strip()) if s]
    asking = [s for s in sentences if s.endswith("?")] or sentences[-1:]
    telling = [s for s in sentences if s not in asking]
    hard = [s for s in telling if _HARD.search(s) and not re.search(r"\d", s)]
    unused = [s for s in telling if any(_stands_in(number, s) for number in _unused(story))]
    named = asking[-1:] if not story.query.text else [*hard, *unused, *asking[-1:]]
    return shortened(named[0]) if named else ""


def _unused(story: Told) -> list[str]:
    """The numbers that lead to nothing that is asked for, as they are written."""
    kept = {amount.told.start for amount in linked(story).amounts}
    return [a.told.text.split()[0] for a in story.amounts if a.told.start not in kept]


def _stands_in(number: str, sentence: str) -> bool:
    return number in sentence.split()
