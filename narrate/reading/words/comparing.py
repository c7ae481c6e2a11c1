"""So many more, so many times as many, a share of: numbers that need another amount."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.reading.words.clauses import Clause
from narrate.reading.words.lexicon import NO_THING, PRONOUNS, UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.things import (
    lemmas_of,
    low_at,
    thing_after,
)
from narrate.reading.words.token import Token

MORE = {"more": 1} | dict.fromkeys(
    word_set(
        "less fewer lesser shorter younger lighter cheaper smaller slower lower narrower closer "
        "nearer"
    ),
    -1,
)
"""Words of comparison by how they lead from the other amount."""

LONGER = re.compile(
    r"longer|taller|higher|farther|further|heavier|older|wider|deeper|larger|bigger|greater|faster|warmer|thicker"
)


def times_of(
    made: Quantity, words: Sequence[Token], place: int, end: int, clause: Clause
) -> Quantity | None:
    """Twice as many as; 3 times as long as; 3 times the number of."""
    token = words[place]
    if token.sort != "times" and low_at(words, place + 1) != "times":
        half = token.sort == "part" and low_at(words, place + 1) == "as"
        if not half:
            return None
    at = place + (1 if token.sort in ("times", "part") else 2)
    than = next(
        (i for i in range(at, len(words)) if words[i].low in ("as", "than") and i > at), None
    )
    if (
        low_at(words, at) != "as"
        and than is None
        and low_at(words, at) not in ("the", "that", "his", "her", "its", "their")
        and not words[at : at + 1]
    ):
        return None
    if low_at(words, at) == "as" and than is None:
        thing, _ = thing_after(words, at + 2)
        return replace(made, sort="times", thing=thing, other=frozenset())
    if low_at(words, at) in ("a", "per", "each", "every"):
        return None  # 3 times a day counts
    if (than is not None and words[than].low == "than") or any(w.kind == "n" for w in words[at:]):
        return replace(made, sort="times", other=frozenset())  # "3 times more than" says two things
    if than is not None:
        thing, _ = (
            thing_after(words, at + 2) if low_at(words, at) == "as" else thing_after(words, at + 1)
        )
        return replace(made, sort="times", thing=thing, other=lemmas_of(words[than + 1 :]))
    return replace(made, sort="times", thing=(), other=lemmas_of(words[at:]))


def compared_of(
    made: Quantity, words: Sequence[Token], place: int, end: int, clause: Clause
) -> Quantity | None:
    """3 more apples than; 2 inches longer than; 3 fewer than."""
    than = next((i for i in range(place + 1, len(words)) if words[i].low == "than"), None)
    if than is None:
        words, than = _with_later(words, place, clause)
    last = words[-1].low
    itself = all(w.low in PRONOUNS for w in clause.subject)  # it was 2 inches shorter then
    unit = 0 if words[place].sort == "money" else 1
    short = than is None and place + 2 + unit == len(words) and not itself
    told = last in MORE or LONGER.fullmatch(last)
    if short and set(made.thing) & UNITS and told:
        if last == "more" and clause.base not in ("cost", "weigh"):
            return None
        return replace(made, sort="compare", sign=MORE.get(last, 1), more=False)
    if than is None or any(w.kind == "n" for w in words[place + 1 : than]):
        fewer = _is_fewer(made, words, place, end)
        return replace(made, sort="compare", sign=-1, more=False) if fewer else None
    word = next(
        (w for w in words[place + 1 : than] if w.low in MORE or LONGER.fullmatch(w.low)), None
    )
    if word is None:
        return None
    thing = made.thing or thing_after(words, place + 2)[0]
    share = words[place].sort in ("part", "percent") and not (set(made.thing[:1]) & UNITS)
    if (
        share
        or any(w.kind == "n" for w in words[than + 1 :])
        or low_at(words, place + 1) == "times"
    ):
        return replace(made, sort="compare", sign=MORE.get(word.low, 1), more=False)
    return replace(
        made,
        sort="compare",
        sign=MORE.get(word.low, 1),
        thing=tuple(t for t in thing if not LONGER.fullmatch(t)),
        other=lemmas_of(words[than + 1 :]),
        more=False,
    )


def _is_fewer(made: Quantity, words: Sequence[Token], place: int, end: int) -> bool:
    """Whether an amount is so many fewer: 12 fewer crayons, or holds 12 crayons fewer."""
    behind = low_at(words, place + 1)
    counted = bool(made.thing) and place + 1 < end == len(words) - 1
    ends = counted and words[-1].low in ("fewer", "less")
    return ends or (behind in MORE and behind != "more")


def _with_later(
    words: Sequence[Token], place: int, clause: Clause
) -> tuple[Sequence[Token], int | None]:
    """The stretch joined to the "than" of a later one: 6 fewer pears and 8 more plums than Ben."""
    later = [s for s in clause.stretches if s and s[0].start > words[0].start]
    for stretch in later:
        than = next((i for i, w in enumerate(stretch) if w.low == "than"), None)
        if than is not None and stretch[0].kind == "n":
            joined = [*words, *stretch[than:]]
            return joined, len(words)
    return words, None


def part_of(
    made: Quantity, words: Sequence[Token], place: int, end: int, clause: Clause
) -> Quantity | None:
    """3/4 of the barrel, 20% of his money: a share, not an amount of its own."""
    token = words[place]
    if token.sort not in ("part", "percent"):
        return None
    if low_at(words, place + 1) in ("of", "the", "full", "his", "her", "as", "") or made.percent:
        if "full" in (*made.thing[:1], *made.thing[-1:]):
            return replace(
                made,
                sort="part",
                thing=tuple(
                    w.lemma for w in clause.subject if w.kind == "w" and w.low not in NO_THING
                ),
            )
        unit = (
            made.thing[:1]
            and made.thing[0] in UNITS
            and (
                low_at(words, place + 1) != "of"
                or low_at(words, place + 2) in ("a", "an")
                or one(low_at(words, place + 2)) in UNITS
            )
        )
        return None if unit else replace(made, sort="part")
    if made.thing and clause.base == "be" and not set(made.thing) & UNITS and clause.subject:
        named = [w for w in clause.subject if w.kind == "w" and w.low not in NO_THING]
        if named and not any(w.kind == "n" for w in clause.subject):
            return replace(made, sort="part", thing=(named[-1].lemma,))  # a salad is 2/5 melon
    return None if made.thing else replace(made, sort="part")
