"""Whose amount a question asks about: one who has so many more, two of three who are listed."""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import numbers, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, found_all, read_number
from narrate.reading.words.lexicon import NO_THING

_SO_MUCH_MORE = re.compile(
    rf"(?:^|[.?!,;] (?:and |but )?)([a-z]+) [a-z]+ \$?({NUMBER}) (?:[a-z]+ )?(?:more|fewer|less) "
    r"(?:[a-z]+ ){0,3}?than ([a-z]+)"
)
_SO_MANY_TIMES = re.compile(
    rf"(?:^|[.?!,;] (?:and |but )?)([a-z]+) [a-z]+ (twice|half|({NUMBER}) times) as (?:many|much)\b"
    r"[^.?!]*? as ([a-z]+)"
)


def leaves_the_relation_out(story: str, question: str, tree: Expr | None) -> bool:
    """Whether one who is told by another is asked about, and how they differ is left out."""
    if tree is None or re.search(r"\bthan\b", question):
        return False
    used = {*numbers(tree)}
    told = [(f[1], read_number(f[2]), f[3]) for f in found_all(_SO_MUCH_MORE, story)]
    for f in found_all(_SO_MANY_TIMES, story):
        times = {"twice": Fraction(2), "half": Fraction(1, 2)}.get(f[2])
        told.append((f[1], times or read_number(f[3]), f[4]))
    return any(
        _asks_only(question, who, other) and not {times, 1 / times if times else None} & used
        for who, times, other in told
        if who not in NO_THING and not _has_an_own(story, who)
    )


def _has_an_own(story: str, who: str) -> bool:
    """Whether an amount of somebody is told by itself."""
    more = r"(?! (?:[a-z]+ )?(?:more|fewer|less|times)\b)"
    return re.search(rf"\b{who} [a-z]+ \$?{NUMBER}\b{more}", story) is not None


def _asks_only(question: str, who: str, other: str) -> bool:
    """Whether a question names the one and not the other."""
    return re.search(rf"\b{who}\b", question) is not None and other not in question


_LISTED = re.compile(
    rf"\b([a-z]+), ([a-z]+),? and ([a-z]+) [a-z]+ \$?({NUMBER})[^,.?!]*?, \$?({NUMBER})[^,.?!]*?,? "
    rf"and \$?({NUMBER})\b"
)


def takes_more_than_are_named(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the amount of one of three is counted where the question names the others."""
    used = {*numbers(tree)}
    for found in found_all(_LISTED, story):
        names, amounts = found.groups()[:3], map(read_number, found.groups()[3:])
        asked = [re.search(rf"\b{name}\b", question) is not None for name in names]
        if any(asked) and not all(asked):
            own = dict(zip(names, amounts, strict=True))
            others = {own[name] for name, named in zip(names, asked, strict=True) if not named}
            if others & used:
                return True
    return False


_THAN_THAT = re.compile(rf"\b({NUMBER}) (?:[a-z]+ )?(more|fewer|less) than that\b")


def turns_that_round(story: str, question: str, tree: Expr | None) -> bool:
    """Whether "15 fewer than that" is read as if the other were fewer."""
    for found in found_all(_THAN_THAT, story):
        number, up = read_number(found[1]), found[2] == "more"
        signs = {sign for terms in sums(tree) for sign, t in terms if worth(t) == number}
        if (-1 if up else 1) in signs:
            return True
    return False


ROWS: Rows = (
    Row(leaves_the_relation_out, "how much more or less somebody has is left out", "than|as "),
    Row(turns_that_round, "fewer than that is fewer than what was told before", "than that"),
    Row(takes_more_than_are_named, "an amount seems to be somebody else's", " and "),
)
