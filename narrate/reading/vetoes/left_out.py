"""Work that leaves out what the words say of an amount: so many of them, all of them, all round."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr, Op
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import factors, is_number, numbers, sums, worth
from narrate.reading.vetoes.told_numbers import NUMBER, found_all, read_number
from narrate.reading.words.lexicon import NO_THING

_OF_ONE = re.compile(
    rf"\b(?:an?|one|each|every) (?:[a-z]+ ){{1,2}}(?:costs?|weighs?|is|was|for|at)"
    rf" \$?({NUMBER})"
)
_SO_MANY = re.compile(rf"\b({NUMBER}) ([a-z]+(?: [a-z]+)?)")


def compares_one_of_each(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what one of each costs is compared where so many of them are asked about."""
    if not isinstance(tree, Op) or tree.sign != "−" or not re.search(r"\bthan\b", question):
        return False
    if not (is_number(tree.left) and is_number(tree.right)):
        return False
    used = {*numbers(tree)}
    ones = {read_number(found[1]) for found in found_all(_OF_ONE, story)}
    if not used <= ones:
        return False
    counted = [
        f for f in found_all(_SO_MANY, story + question) if read_number(f[1]) not in used | {1}
    ]
    named = {word for found in counted for word in found[2].split() if word not in NO_THING}
    return any(re.search(rf"\b{re.escape(word[:-1])}", question) for word in named)


_SOME = re.compile(r"\b(?:some|several|a few|a number of)\b")
_PART_OF_ALL = re.compile(
    r"\b(?:half|third|fourth|quarter|fifth|\d+/\d+|halves|thirds|fourths|quarters|fifths)s? of"
    r" (?:all (?:of )?)?(?:them|it|all|the|his|her|their|those|these)\b"
)
_AT_FIRST = re.compile(
    r"\b(?:at (?:first|the (?:start|beginning))|start(?:ed)?|begin|begun|before|originally|first)\b"
)


def takes_part_of_what_came(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a part of all is taken of one amount, though how many there were is not known."""
    if not (_SOME.search(story) and _PART_OF_ALL.search(story) and _AT_FIRST.search(question)):
        return False
    parts = [f for f in factors(tree) if f is not None and f < 1]
    return bool(parts) and bool(sums(tree)) and "÷" not in _signs(tree)


def _signs(tree: Expr | None) -> str:
    if not isinstance(tree, Op):
        return ""
    return tree.sign + _signs(tree.left) + _signs(tree.right)


_SIDES = re.compile(rf"\b({NUMBER}) [a-z]+ (?:by|long and|wide and|long by|wide by) ({NUMBER})\b")
_ROUND = re.compile(r"\b(?:fenc\w+|border|edging|around|perimeter|frame|trim|string|railing)\b")


def goes_half_round(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the two sides of a rectangle are joined once, where what goes round is asked."""
    sides = _SIDES.search(story)
    if sides is None or not _ROUND.search(question) or 2 in set(factors(tree)):
        return False
    told = {read_number(sides[1]), read_number(sides[2])}
    used = [n for n in numbers(tree) if n in told]
    return bool(sums(tree)) and len(used) < 4 and "×" not in _signs(tree)


_SO_MANY_MORE = re.compile(rf"({NUMBER})\b[^.?!]*?(?:\band|\bthen|,)(?: then)? ({NUMBER}) more\b")


def turns_more_round(story: str, question: str, tree: Expr | None) -> bool:
    """Whether "and then 14 more" is taken another way than what it goes on from."""
    found = _SO_MANY_MORE.search(story + question)
    if found is None or re.match(r" [a-z]+ than\b| than\b", (story + question)[found.end() :]):
        return False
    first, more = read_number(found[1]), read_number(found[2])
    for terms in sums(tree):
        signs = {worth(term): sign for sign, term in terms}
        if first in signs and more in signs and signs[first] != signs[more]:
            return True
    return False


_COSTS_MORE = re.compile(rf"\bfor \$({NUMBER}) (?:more|less)\b(?! than)")
_HAS_MORE = re.compile(
    rf"\b(?:has|have) ({NUMBER}) (?:more|fewer) (?!(?:[a-z]+ ){{0,3}}than\b)[a-z]+"
)


def adds_more_than(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is told as so much more than another is taken for all there is of it."""
    joined = sums(tree)
    if len(joined) != 1 or len(joined[0]) != 2:
        return False
    used = {worth(term) for _, term in joined[0]}
    if not re.search(
        r"\b(?:in all|altogether|total|spend|spent|pay|paid|both|have|has)\b", question
    ):
        return False
    return any(
        read_number(found[1]) in used
        for pattern in (_COSTS_MORE, _HAS_MORE)
        for found in found_all(pattern, story)
    )


_PERCENT = rf"({NUMBER}) ?(?:%|percent\b)"
_RISES = re.compile(
    rf"\b(?:grew|grows|rose|rises|risen|increas\w+|went up|goes up|gain\w*|raised)\b"
    rf"[^.?!]*?{_PERCENT}"
    rf"|{_PERCENT} (?:more|higher|greater|longer|heavier|larger|taller)\b"
)
_FALLS = re.compile(
    rf"\b(?:fell|falls|fallen|drop\w*|decreas\w+|went down|goes down|shrank|shrunk|lost|reduced)\b"
    rf"[^.?!]*?{_PERCENT}|{_PERCENT} (?:less|lower|fewer|shorter|lighter|smaller|off)\b"
)


def turns_a_percent_round(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what grew by a percent is made less, or what fell by one more."""
    text = story + question
    if not isinstance(tree, Op) or text.count("%") + text.count("percent") != 1:
        return False
    if not (is_number(tree.left) and isinstance(tree.right, Op)):
        return False
    up, down = _RISES.search(text), _FALLS.search(text)
    if (up is None) == (down is None):
        return False
    return tree.sign == ("−" if up else "+")


_PICTURES = re.compile(rf"\b(?:takes?|took) ({NUMBER}) (?:more )?(?:photos?|pictures?)\b")


def takes_pictures_away(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a picture that is taken is made one less."""
    taken = {read_number(found[1]) for found in found_all(_PICTURES, story)}
    return any(sign < 0 and worth(term) in taken for terms in sums(tree) for sign, term in terms)


def takes_a_percent_for_so_many(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the number of a percent is worked with as if it counted something."""
    text = story + question
    used = [*numbers(tree)]
    percents = {read_number(found[1]) for found in re.finditer(_PERCENT, text)}
    if 100 in used or percents.isdisjoint(used):
        return False
    told = {read_number(each) for each in re.findall(NUMBER, re.sub(_PERCENT, " ", text))}
    return not (percents - told).isdisjoint(used)


ROWS: Rows = (
    Row(compares_one_of_each, "so many of them are compared, not one of each", "than"),
    Row(
        takes_part_of_what_came,
        "the part is of all there were, and that is not known",
        "some|several|a few|a number",
    ),
    Row(
        goes_half_round,
        "the sides go all the way round",
        "fenc|border|edging|around|perimeter|frame|trim|string|railing",
    ),
    Row(turns_more_round, "so many more go the same way", " more"),
    Row(adds_more_than, "an amount is told as so much more than another", " more| less| fewer"),
    Row(takes_pictures_away, "a picture that is taken is one more", "photo|picture"),
    Row(takes_a_percent_for_so_many, "a percent counts nothing", "%|percent"),
    Row(turns_a_percent_round, "what goes up by a percent is not made less", "%|percent"),
)
