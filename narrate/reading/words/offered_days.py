"""Two days that a relation holds against each other: which of them the told amount is of."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import TIMES
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.quantity import Quantity


def leads_back_to_day(told: Told, q: Quantity, base: Amount) -> bool | None:
    """Whether the amount is of the day that "more than" speaks of; None where no day is named."""
    days = {w.removesuffix("-day").replace("-", " ") for w in q.other & TIMES}
    said = re.split(r"[.?!] ", told.text[: q.start])[-1]
    if base.told.start < q.start - len(said) or base.told.start > q.start:
        said = re.split(r"[.?!] ", told.text[: base.told.start])[-1]
        said += re.split(r"[.?!] ", told.text[base.told.start :])[0]
    if not days:
        return None
    in_base, asked = (any(day in part for day in days) for part in (said, told.question))
    return False if in_base else True if asked else None
