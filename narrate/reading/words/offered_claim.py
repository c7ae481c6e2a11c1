"""The lines to add where a question tells what a pupil wrote: the work, and the claim."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.errors import ExactError
from narrate.exact.caption import write
from narrate.exact.tree import Decimal as DecimalNumber
from narrate.exact.tree import Frac, Mixed, Op, Relation, Whole, Writing, has_blank, value

_SPEAKS_OF_IT = re.compile(
    r"\b(?:[Ww]rong|[Mm]istakes?|[Ee]rrors?|[Ii]ncorrect(?:ly)?)\b"
    r"|\b[Ii]s (?:he|she|[A-Z]\w+)(?: \w+)? (?:right|correct)\b"
)
_PUPIL = re.compile(
    r"\b(?:wrote|writes|got|gets|says|said|claims|claimed|answered|thinks|thought|found|answer)\b",
    re.IGNORECASE,
)
_NUMBER = Whole | Frac | Mixed | DecimalNumber


def claim_lines(text: str, numbers: Sequence[Writing]) -> str:
    """The two lines to add, "" where the words tell of no pupil's wrong answer to one work."""
    if not (_SPEAKS_OF_IT.search(text) and _PUPIL.search(text)):
        return ""
    match tuple(numbers):
        case (Op() as work, answer) if isinstance(answer, _NUMBER):
            pass
        case (Relation(sides=(Op() as work, answer)),) if isinstance(answer, _NUMBER):
            pass
        case _:
            return ""
    try:
        if has_blank(work) or value(work) == value(answer):
            return ""
    except ExactError:
        return ""
    return (
        f"add `model: {write(work)}`, what was to be worked out, and `claim: {write(answer)}`, "
        "what the pupil wrote: the lesson then says what went wrong"
    )
