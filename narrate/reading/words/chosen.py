"""Which of its choices a question asks for, by what it says of them: not a factor of 42, the least.

An item's part is read so in `reading/judged.py`; here words and choices are only texts.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from narrate.errors import Declined
from narrate.reading.conditions import conditions_of, masked
from narrate.reading.words.choices import amounts_of
from narrate.reading.words.lexicon import UNITS, one

_MOST = 600


def chosen(text: str, choices: Sequence[str]) -> Fraction | None:
    """The value of the one choice that is as the words say, None where they say no such thing.

    Raises Declined where no choice is so, or more than one.
    """
    amounts = amounts_of(choices)
    if len(text) > _MOST or len(choices) < 2 or len(amounts) < len(choices):
        return None
    asked = masked(text)
    conditions = conditions_of(asked) if asked else None
    if not conditions or _in_other_unit(text, choices):
        return None
    right = [n for n in amounts if all(each.holds(n, amounts) for each in conditions)]
    if len(right) != 1:
        raise Declined(
            f"I read which choice is as the question says, and {len(right)} of them are",
            "correct the choices, or say it in other words",
        )
    return right[0]


def _in_other_unit(text: str, choices: Sequence[str]) -> bool:
    """Whether the choices are in another unit than the question, or each in one of its own."""
    named, *own = (
        {one(w) for w in re.findall("[a-z]+", t.lower())} & UNITS for t in (text, *choices)
    )
    return any(units != own[0] for units in own) or bool(named and own[0] and named != own[0])
