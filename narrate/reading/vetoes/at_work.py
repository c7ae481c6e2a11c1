"""Times that do not grow with the number: more at the same work, several at once, cuts of a log."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors
from narrate.reading.vetoes.told_numbers import COUNT

_SPAN = r"(?:seconds?|minutes?|hours?|days?|weeks?|months?)"
_THEM = rf"{COUNT} (?!{_SPAN}\b)(?:[a-z]+ )?[a-z]+"
_WORK = re.compile(
    rf"\b(?:takes?|took|needs?) {_THEM} {COUNT} {_SPAN}\b"
    rf"|\b{_THEM} (?:can|could|will) [^.?!]*\bin {COUNT} {_SPAN}\b"
    rf"|\blasts? {COUNT} {_SPAN} for {_THEM}\b|\blasts? {_THEM} {COUNT} {_SPAN}\b"
    rf"|\bfeeds? {_THEM} for {COUNT} {_SPAN}\b"
    rf"|\bwith {_THEM},? it (?:takes?|took) {COUNT} {_SPAN}\b"
)
_TIME_ASKED = re.compile(rf"\bhow (?:long|many {_SPAN})\b|\bhow much time\b")
_AT_ONCE = re.compile(
    r"\bat (?:once|the same time)\b|\bin the same (?:pot|pan|oven|tray)\b|\btogether\b"
)
_CUT = re.compile(r"\b(?:cut|saw|chop|break|divide|split)s?\b[^.?!]*\binto\b")
_WITH = re.compile(rf"\bwith {_THEM}")
_NO_DOER = r"(?!(?:are|is|was|were|can|could|of|for|in|costs?|weighs?)\b)"
_ACTING = re.compile(
    rf"(?:^|[.?!]\s+|\b(?:if|when) )(?!{COUNT} {_SPAN}\b){COUNT}"
    rf" ((?:{_NO_DOER}[a-z]+ )??{_NO_DOER}[a-z]+)"
    r"(?: (?:who|working) [^.?!]*?| (?:in|at|on) (?:an?|the) [a-z]+)?"
    rf" {_NO_DOER}([a-z]+)\b[^.?!]*\b{COUNT} {_SPAN}\b"
)
_TROOP = re.compile(
    rf"\b(?:choir|group|class|team|crew|band|family) of {COUNT} ([a-z]+) ()"
    rf"[^.?!]*\b{COUNT} {_SPAN}\b"
)
_AT_A_RATE = re.compile(r"\bat (?:this|that|the same|a steady|a constant) (?:rate|pace|speed)\b")
_NEEDS = r"(?:needs?|takes?|requires?)"


def more_take_longer(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a time is worked out as if it grew with how many are at it, where it does not."""
    if _TIME_ASKED.search(question) is None or not any(factors(tree)):
        return False
    if _AT_ONCE.search(question) or _CUT.search(question) or _WITH.search(question):
        return True
    if _WORK.search(story + question) and re.search(COUNT, question):
        return True
    doers = _ACTING.search(story) or _TROOP.search(story)
    if doers is None or (
        doers[2] in ("take", "takes", "took") and _AT_A_RATE.search(story + question)
    ):
        return False
    names = "|".join(re.escape(name.removesuffix("s")) for name in doers[1].split())
    return bool(
        re.search(
            rf"\b{COUNT} (?:such |more |other |of )?(?:(?:{names})(?:e?s)?\b|them\b)", question
        )
        or re.search(rf"\b{COUNT} {_NEEDS}\b|\b{_NEEDS} {COUNT}\b", question)
    )


ROWS: Rows = (
    Row(
        more_take_longer,
        "more of them at work do not take more time",
        "how long|how much time|how many sec|how many min|how many hour|how many day"
        "|how many week|how many month",
    ),
)
