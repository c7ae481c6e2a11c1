"""Whether the work of a reading may stand before the words of its text, whoever made it."""

from __future__ import annotations

import re
from functools import lru_cache

from narrate.exact.tree import Expr
from narrate.reading.vetoes import (
    and_others,
    at_work,
    both_told,
    how_often,
    lacking,
    left_out,
    moments,
    not_joined,
    parts_named,
    places,
    rooms,
    things_asked,
    times_told,
    uncounted,
    untold,
    which_ones,
    whose,
)
from narrate.reading.vetoes.bare_parts import joins_a_bare_part
from narrate.reading.vetoes.row import Rows

ROWS: Rows = (
    *and_others.ROWS,
    *at_work.ROWS,
    *both_told.ROWS,
    *how_often.ROWS,
    *lacking.ROWS,
    *left_out.ROWS,
    *moments.ROWS,
    *not_joined.ROWS,
    *parts_named.ROWS,
    *places.ROWS,
    *rooms.ROWS,
    *things_asked.ROWS,
    *times_told.ROWS,
    *uncounted.ROWS,
    *untold.ROWS,
    *which_ones.ROWS,
    *whose.ROWS,
)


def vetoed(text: str, tree: Expr | None) -> str:
    """Why a reading of a text by this tree is none, "" where nothing speaks against it."""
    if joins_a_bare_part(text, tree):
        return "a part is not added to what it is a part of"
    return _why(text.lower(), tree)


@lru_cache(maxsize=64)
def _why(text: str, tree: Expr | None) -> str:
    story, question = _parted(text)
    asked = (row for row in _that_may_speak(text) if row.speaks_against(story, question, tree))
    return next((row.why for row in asked), "")


@lru_cache(maxsize=8)
def _that_may_speak(text: str) -> Rows:
    return tuple(row for row in ROWS if row.may_speak(text))


@lru_cache(maxsize=8)
def _parted(text: str) -> tuple[str, str]:
    """What is told, and the question: the last sentence that asks, else the last."""
    found = [*re.finditer(r"[^.?!]*(?:[.?!](?!\s|$)[^.?!]*)*[.?!]*\s*", text)]
    sentences = [each[0] for each in found if each[0].strip()]
    asking = [at for at, each in enumerate(sentences) if "?" in each] or [len(sentences) - 1]
    if not sentences:
        return "", ""
    at = asking[-1]
    condition, comma, question = _before_the_question(sentences[at])
    told = [*sentences[:at], condition + comma, *sentences[at + 1 :]]
    return "".join(told), question


def _before_the_question(sentence: str) -> tuple[str, str, str]:
    """A condition before a question, in the same sentence: if 8 cooks need 3 hours, how many."""
    asking = re.search(r", (?=(?:and )?(?:how|what|which) )", sentence)
    if asking is None:
        return "", "", sentence
    return sentence[: asking.start()], ". ", sentence[asking.end() :]
