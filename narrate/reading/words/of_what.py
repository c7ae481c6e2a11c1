"""What a part is a part of, and what is only meant to happen: where sums would be wrong.

Half of what is left, or of a part told before, is no part of the whole: it can't be added to other
parts nor taken from one. What someone plans to use is still there.
"""

from __future__ import annotations

import re

from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_SUMS = frozenset(
    (
        "put together", "take apart", "take from", "add to", "in and out", "difference", "change",
        "needed", "not so",
    )
)  # fmt: skip

_REST = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?(?:of )?(?:all |only )?"
    r"(?:(?:the|what|her|his|their|its|this|that|these|those) )?(?:was |is |were |are |had |still )*"
    r"(?:rest|remain\w*|left\w*|unused|other|others)\b"
)
_PART = re.compile(
    r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?of (?:the|that|this|her|his|their|its|these|those) (?:\w+ ){0,2}?"
    r"(?:part|portion|half|third|quarter|section|share|amount)\b"
)
_IT = re.compile(r"^(?:[\w/⁄%-]+(?:\.\d+)? ){1,3}?(?:of )?(?:it|that|this|them|these|those)\b")


def of_another_part(story: Story, answer: Answer) -> bool:
    """Whether a sum has a part in it that is a part of less than the whole."""
    if answer.situation not in _SUMS:
        return False
    parts = [q for q in answer.used if q.sort == "part"]
    return any(_is_of_less(story, q) for q in parts)


def _is_of_less(story: Story, part: Quantity) -> bool:
    words = story.text[part.start :]
    if _REST.match(words) or _PART.match(words):
        return True
    before = [q for q in story.quantities if q.sort == "part" and q.start < part.start]
    there = any(q.verb_sort in ("be", "own", "gain") for q in before)
    return there and bool(_IT.match(words))


_MEANT = word_set("plan want hope intend wish expect need")
_WILL = word_set("will would if after")


def only_meant(story: Story, answer: Answer) -> bool:
    """Whether an amount is taken away or added that someone only plans to, asked before it is."""
    if answer.situation not in ("take from", "add to", "in and out"):
        return False
    if set(story.query.lows) & _WILL:
        return False
    return any(
        q.known and q.verb_sort in ("lose", "take", "gain") and _is_meant(story, q)
        for q in answer.used
    )


def _is_meant(story: Story, q: Quantity) -> bool:
    words = story.text[max(0, q.start - 40) : q.start]
    found = re.search(r"\b(\w+?)(?:s|ned|ed)? to (\w+) [^.,;?]*$", words)
    return bool(found) and found[1] in _MEANT
