"""Ready-made `model:` lines for a story that is not read: only such as its words let be right.

What the question and the story say is looked at for what is likely (a border, a share, so much
each, in all, left); what amounts measure rules lines out: cups and batches are never added.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import prod

from narrate.exact.tree import Decimal, Whole, value
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.offered_amounts import Amount, amounts_in, question_in
from narrate.reading.words.plain import BELOW_ZERO

MOST = 3
"""So many lines are offered."""


def offered(text: str) -> list[str]:
    """At most three lines for what a story could ask, the likeliest first; none where none fits."""
    told = Asked(text=text.lower(), question=question_in(text), amounts=amounts_in(text))
    return list(dict.fromkeys(_lines(told)))[:MOST]


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A story, what it asks, and its amounts in the order of the words."""

    text: str
    question: str
    amounts: Sequence[Amount]

    def asks(self, pattern: str) -> bool:
        """Whether the question holds one of the words."""
        return re.search(rf"\b(?:{pattern})\b", self.question) is not None

    def says(self, pattern: str) -> bool:
        """Whether the story, or its question, holds one of the words."""
        return re.search(rf"\b(?:{pattern})\b", self.text) is not None

    @property
    def counted(self) -> str:
        """What a number of is asked for, "" where no number of something is."""
        found = re.search(
            r"\b(?:how many|number of) (?:(?:more|full|whole) )?(\d[^ ]*|[a-z]+)", self.question
        )
        return one(found[1]) if found else ""

    @property
    def counts(self) -> bool:
        """Whether things are asked for one by one, so that no part of one is an answer."""
        return self.counted not in UNITS | {""}


_AROUND = r"perimeter|border\w*|around|edging"
_COVERED = r"area|square \w+|cover\w*|tiles?"
_FILLED = r"volume|cubic \w+|cubes?"
_SHARED = (
    r"share[sd]?|sharing|split|divid\w+|equally|evenly|among|equal (?:parts|groups|pieces)|cut"
)
_EACH = r"each|every|per|apiece|one(?! of| more)|a piece"
_IN_GROUPS = r"(?:each|every|per)|\w+s of \d+|\d+ (?:to|in) an? |packs?|cut|cuts|pieces?"
_MADE = r"(?:are|is) (?:there )?in|makes?|made|fills?|fits?|holds?|needed|needs?|served?|lasts?"
_AT_A_TIME = r"each|every|per|apiece|batch(?:es)?|times|(?<!in )a (?:day|week|bag|box|pack)"
_TOGETHER = r"all together|altogether|in all|total|both|combined|sum|together"
_LEFT = (
    r"left|leftover|remain\w*|rest|still|difference|more|fewer|less|longer|shorter|heavier|lighter|"
    r"taller|farther|further|change|grow|grew|stay|stayed|away|other|older|younger"
)
_TAKES = r"less|fewer|shorter|lighter|younger|gave|gives|spent|spends|used|ate|lost|left"
_NO_LINE = r"ratio|probab\w+|estimate\w*|median|mode|range|about how (?:many|much)"
"""What a question asks for that no one line of work is."""

_NOT = r"not|n't|never|except|without"


def _lines(told: Asked) -> Iterator[str]:
    """Lines that could be right, the likeliest first."""
    amounts = told.amounts
    if told.asks("fraction|part|percent") and told.asks(_NOT):
        yield from _not_so(amounts)
        return
    if told.asks(_NOT) or told.asks(_NO_LINE) or BELOW_ZERO.search(told.text):
        return
    if not 2 <= len(amounts) <= MOST_AMOUNTS:
        return
    if any(amount.sort == "percent" for amount in amounts):
        yield from _percent(told)
    elif told.asks(_FILLED) and len(amounts) == 3:
        yield " × ".join(amount.said for amount in amounts)
    elif told.asks(_AROUND) and not told.asks("fraction|section"):
        if len(amounts) == 2:
            yield f"2 × ({' + '.join(amount.said for amount in amounts)})"
    elif told.asks(_COVERED) and len(amounts) == 2:
        yield " × ".join(amount.said for amount in amounts)
    elif _are_parts(told):
        yield " − ".join(["1", *(amount.said for amount in amounts)])
    elif len(amounts) == 2:
        yield from _of_two(told)
    else:
        yield from _sums(told)


MOST_AMOUNTS = 4
"""Lines of more amounts are not guessed."""


def _are_parts(told: Asked) -> bool:
    """Whether all amounts are parts of one whole, and what else there is of it is asked."""
    parts = all(a.sort == "part" and not a.measured for a in told.amounts)
    return parts and sum(value(a.tree) for a in told.amounts) < 1 and _asks_rest(told)


def _asks_rest(told: Asked) -> bool:
    over = told.asks("left|leftover|remain\\w*|rest|still")
    return over or told.says("(?:the|all) (?:rest|others?|remaining)")


def _not_so(amounts: Sequence[Amount]) -> Iterator[str]:
    """The part that is not so: 1 − 12/20 of 12 among 20."""
    if len(amounts) != 2:
        return
    less, more = sorted(amounts, key=lambda amount: value(amount.tree))
    if isinstance(less.tree, Whole) and isinstance(more.tree, Whole) and less.tree != more.tree:
        yield f"1 − {less.said}/{more.said}"


def _percent(told: Asked) -> Iterator[str]:
    shares = [amount for amount in told.amounts if amount.sort == "percent"]
    others = [amount for amount in told.amounts if amount.sort != "percent"]
    if len(shares) != 1 or len(others) != 1 or not isinstance(shares[0].tree, Whole):
        return
    part = f"{shares[0].said}/100 × {others[0].said}"
    whole_left = f"{others[0].said} − {part}"
    takes_off = told.says("off|discount|sale|left|remain|remaining|rest")
    adds = told.says("tax|tip|more than|raise|increase[ds]?")
    if takes_off:
        yield whole_left
    if adds:
        yield f"{others[0].said} + {part}"
    yield part


def _of_two(told: Asked) -> Iterator[str]:
    """Lines for two amounts, by what the words say and by what the amounts measure."""
    sums = told.asks(_LEFT) or told.asks(_TOGETHER)
    if rate := _rate(told):
        yield rate
    elif told.asks("mean|average"):
        first, second = told.amounts
        yield from (f"({first.said} + {second.said}) ÷ 2",) if _add_up(told.amounts) else ()
    elif _is_part_of(told):
        yield from _parts(told)
    elif _is_some_of(told):
        yield from _some(told)
    elif _asks_each(told) or (told.says(_SHARED) and not told.counts and not sums):
        yield from _shares(told)
    elif (
        not sums
        and told.counted not in ("", *(a.unit for a in told.amounts))
        and (told.says(_IN_GROUPS) or told.asks(_MADE))
    ):
        yield from _groups(told)
    elif told.says(_AT_A_TIME) and not (told.asks(_LEFT) and _add_up(told.amounts)):
        yield from _products(told)
    else:
        yield from _sums(told)
        if not sums and sum(a.measured for a in told.amounts) == 1:
            yield from _products(told)
            yield from _shares(told)


def _rate(told: Asked) -> str:
    """What is asked for by the hour or the pound, "" where nothing is: miles per hour."""
    asked = re.search(r"\b([a-z]+) (?:per|each|every|an?|in one) ([a-z]+)", told.question)
    units = {a.unit: a for a in told.amounts if a.measured}
    pair = [units.get(one(word)) for word in asked.groups()] if asked else []
    if len(units) < 2 or None in pair:
        return ""
    return " ÷ ".join(amount.said for amount in pair if amount is not None)


def _asks_each(told: Asked) -> bool:
    """Whether it is asked how much each gets; told it is in "at 3/4 cup each"."""
    tells = re.search(rf"\d(?: [\w/]+){{0,2}} (?:{_EACH})\b", told.question)
    return told.asks(_EACH) and tells is None and not told.asks(_LEFT)


def _is_part_of(told: Asked) -> bool:
    """Whether one part is told of the other amount: 2/3 of the 24, 2/3 of them, 1/3 of 3/4."""
    parts = [a for a in told.amounts if a.sort == "part"]
    first, second = told.amounts
    of_it = told.text[first.end : second.start] == " of "
    as_much = any(_AS_MUCH.match(told.text, a.end) for a in parts)
    return (
        as_much
        or (first in parts and of_it)
        or (len(parts) == 1 and _OF.match(told.text, parts[0].end) is not None)
    )


_AS_MUCH = re.compile(r" (?:of )?(?:as|that) (?:much|many|long|far|tall|heavy|big|wide)\b")
_OF = re.compile(r" of (?:the|these|those|this|that|it|them|her|his|their|an?|all)\b")


def _is_some_of(told: Asked) -> bool:
    """Whether one amount is so many of the other: 2 of the 3 beds."""
    first, second = told.amounts
    between = told.text[first.end : second.start]
    whole = isinstance(first.tree, Whole) and isinstance(second.tree, Whole)
    return whole and re.fullmatch(r" of (?:the|these|those|her|his|their) ", between) is not None


def _some(told: Asked) -> Iterator[str]:
    """The others, or the part: 3 − 2 and 2/3 of 2 of the 3."""
    some, every = told.amounts
    lines = [f"{every.said} − {some.said}", f"{some.said}/{every.said}"]
    yield from reversed(lines) if told.asks("fraction|part") else lines


def _parts(told: Asked) -> Iterator[str]:
    """A part of an amount, or what is left of the amount."""
    parts = [a for a in told.amounts if a.sort == "part"]
    part = next((a for a in parts if _AS_MUCH.match(told.text, a.end)), parts[0])
    whole = next(a for a in told.amounts if a is not part)
    taken = f"{part.said} × {whole.said}"
    yield f"{whole.said} − {taken}" if told.asks("left|leftover|remain\\w*|rest") else taken


def _products(told: Asked) -> Iterator[str]:
    """A product, how many times first: 4 × 1 2/3."""
    ordered = sorted(told.amounts, key=lambda a: (a.measured, not isinstance(a.tree, Whole)))
    work = prod(value(amount.tree) for amount in ordered)
    if not all(a.measured for a in ordered) and not (told.counts and work % 1):
        yield " × ".join(amount.said for amount in ordered)


def _shares(told: Asked) -> Iterator[str]:
    """What is shared by how many share it: 1/3 ÷ 4."""
    groups = [a for a in told.amounts if isinstance(a.tree, Whole) and not a.measured]
    behind = [a for a in groups if _shares_it(told, a)]
    if not (behind or len(groups) == 1):
        most = max(told.amounts, key=lambda a: value(a.tree))
        groups = [a for a in groups if a is not most]
    by = (behind or groups)[:1]
    what = [a for a in told.amounts if a not in by]
    if by and len(what) == 1 and value(by[0].tree):
        yield from _quotient(told, what[0], by[0])


def _shares_it(told: Asked, amount: Amount) -> bool:
    """Whether an amount is that of those who share: among 4 cakes, 5 friends share."""
    before = re.search(r"\b(?:among|between|into|by) $", told.text[: amount.start])
    behind = re.match(r" \w+ (?:\w+ ){0,2}?(?:share|split|divide)\b", told.text[amount.end :])
    return bool(before or behind)


def _groups(told: Asked) -> Iterator[str]:
    """How often the smaller goes into the larger: 5 ÷ 1/4."""
    less, more = sorted(told.amounts, key=lambda a: value(a.tree))
    if value(less.tree) and (less.measured == more.measured or not more.measured):
        yield from _quotient(told, more, less)


def _quotient(told: Asked, what: Amount, by: Amount) -> Iterator[str]:
    """A quotient, unless it makes parts of things and has a decimal in it."""
    even = value(what.tree) / value(by.tree) % 1 == 0
    whole = not any(isinstance(a.tree, Decimal) for a in (what, by))
    if even or whole or not told.counts:
        yield f"{what.said} ÷ {by.said}"


def _sums(told: Asked) -> Iterator[str]:
    """All put together, and the others taken from the largest, where they are of one measure."""
    if not _add_up(told.amounts) or told.says("each|every|per|twice|double|half"):
        return
    most, *rest = sorted(told.amounts, key=lambda a: value(a.tree), reverse=True)
    together = " + ".join(amount.said for amount in told.amounts)
    apart = " − ".join(amount.said for amount in (most, *rest))
    left = value(most.tree) - sum(value(a.tree) for a in rest)
    if told.asks(_TOGETHER) and not told.asks(_LEFT):
        yield from _told_by_another(told) if told.says(_COMPARED) else (together,)
        return
    if left >= 0 and (told.asks(_LEFT) or told.says(_TAKES)):
        yield apart
    if len(told.amounts) > 2:
        yield from _in_and_out(told)
    if not (told.asks(_LEFT) and len(told.amounts) > 2):
        yield together
    if left >= 0:  # else it would go below zero
        yield apart


_COMPARED = r"more \w* ?than|(?:less|fewer|shorter|longer|taller|heavier|lighter)"


def _told_by_another(told: Asked) -> Iterator[str]:
    """Two together, the second told by how much more or less it is: 21 + 21 + 15."""
    if len(told.amounts) == 2:
        first, second = (amount.said for amount in told.amounts)
        more = told.says("more|longer|taller|heavier")
        yield f"{first} + {first} {'+' if more else '−'} {second}"


def _in_and_out(told: Asked) -> Iterator[str]:
    """What there was and came, without what went last, where words tell that some went."""
    *came, went = told.amounts
    if told.says(_TAKES) and sum(value(a.tree) for a in came) >= value(went.tree):
        yield f"{' + '.join(amount.said for amount in came)} − {went.said}"


def _add_up(amounts: Sequence[Amount]) -> bool:
    """Whether no two of the amounts measure unlike things: cups and batches, feet and hours."""
    units = {("dollar" if a.sort == "money" else a.unit) for a in amounts if a.measured}
    counted = [a for a in amounts if a.unit and not a.measured]
    if any(a.sort == "part" and not a.measured for a in amounts) and (units or counted):
        return all(a.sort == "part" or a.unit in ("", *units) for a in amounts) and len(units) < 2
    return len(units) < 2 and not (units and counted)
