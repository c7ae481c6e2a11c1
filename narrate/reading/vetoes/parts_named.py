"""A number that tells a part of what was just named, or what was not paid: no amount beside it."""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import go_alike, go_apart, numbers, operations, sums, worth
from narrate.reading.vetoes.told_numbers import COUNT, NUMBER, found_all, read_number

_N = rf"\$?({NUMBER})"
_OF_THEM = r"(?:them|it|those|these|which|that)"
_PART_OF = (
    re.compile(rf"{_N}(?! of {_OF_THEM})[^.?!,]*, {_N}(?: [a-z]+)? of {_OF_THEM}\b"),
    re.compile(rf"{_N}[^.?!,]*, (?:of {_OF_THEM}|among them|including),? (?:only )?{_N}"),
    re.compile(rf"{_N} [a-z]+, {_N} (?:with|without)\b"),
    re.compile(rf"{_N}[^.?!]*?,? (?:and )?{_N}(?: [a-z]+)? of (?:which|those|these)\b"),
)
_SPLIT_UP = re.compile(
    rf"{_N}(?: [a-z]+)?(?: (?:were|was) [a-z]+)?(?: of {_OF_THEM})?[,:] {_N}(?: [a-z]+)?"
    rf"(?: of {_OF_THEM})? (?:to|for|on|in|at|from|by)\b"
)
"""35, of which 20 went on a coat: told where the 35 themselves went nowhere."""

_ALREADY_SO = re.compile(rf"{_N}(?: [a-z]+)? of which (?:was|were|is|are)\b")


def counts_a_part_beside(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a part goes beside its whole, the same way: 34 were sold, 10 of them here."""
    if not (_OTHERS_ASKED.search(question) or re.search(r"\b(?:rest|others?)\b", story)):
        so = {read_number(found[1]) for found in found_all(_ALREADY_SO, story)}
        if any(len(terms) > 2 and worth(t) in so for terms in sums(tree) for _, t in terms):
            return True
    for found in found_all(_SPLIT_UP, story):
        if _both_go(tree, read_number(found[1]), read_number(found[2])):
            return True
    return any(
        _goes_beside(tree, read_number(found[1]), read_number(found[2]))
        for pattern in _PART_OF
        for found in found_all(pattern, story)
    )


_OTHERS_ASKED = re.compile(r"\b(?:not|rest|others?|good|left|remain\w*|un[a-z]+|fresh|whole)\b")


def _both_go(tree: Expr | None, whole: Fraction, part: Fraction) -> bool:
    """Whether a whole and a part of it are both taken away."""
    gone = [{worth(t) for sign, t in terms if sign < 0} for terms in sums(tree)]
    return any(whole in each and part in each for each in gone)


def _goes_beside(tree: Expr | None, whole: Fraction, part: Fraction) -> bool:
    """Whether a part goes the same way as its whole, or comes back of a whole that went."""
    gone = any(sign < 0 and worth(t) == whole for terms in sums(tree) for sign, t in terms)
    return go_alike(tree, whole, part) or (gone and go_apart(tree, whole, part))


_NOT_PAID = re.compile(
    rf"\bof (?:the|an?|his|her|their) {_N} (?:[a-z]+ )?(?:owed|bill|debt|loan)|\bdown from {_N}"
    rf"|\bfor \${NUMBER}[^.?!]*?\b(?:saving|saved) {_N}|\binstead of {_N}|\breduced from {_N}"
)
_OFF = re.compile(
    rf"{_N}[^.?!]*?\b(?:with|for|less|minus) an? {_N} (?:discount|rebate|coupon)"
    rf"|{_N}[^.?!]*?{_N} off\b"
)


def counts_what_was_not_paid(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what was owed, saved or once asked is counted beside what was paid."""
    for found in found_all(_NOT_PAID, story):
        unpaid = read_number(next(filter(None, found.groups())))
        if any(len(terms) > 2 and unpaid in {worth(t) for _, t in terms} for terms in sums(tree)):
            return True
    for found in found_all(_OFF, story):
        price, off = (read_number(each) for each in found.groups() if each)
        if go_alike(tree, price, off):
            return True
    return False


_FULL = re.compile(r"\b(?:full|filled|with (?:the|its|all|his|her|an?|[a-z]+ in))\b")
_EMPTY = re.compile(r"\b(?:empty|itself|alone|without)\b")
_WEIGHS = re.compile(r"\b(?:weigh\w*|mass|heavy)\b")


def adds_full_and_empty(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what something weighs full and what it weighs empty are put together."""
    if not (_WEIGHS.search(question) and _EMPTY.search(story) and _FULL.search(story)):
        return False
    return "+" in operations(tree)


_TO_ANOTHER = re.compile(
    rf"({NUMBER}) (?:of [a-z]+ )?(?:[a-z]+ )?(?:hopped|jumped|flew|moved|went|ran|walked|swam|drove"
    r"|climbed|crawled) (?:on |over |off )?to (?:another|an?other|the (?:next|other)|a different)\b"
)


def counts_who_left_as_come(story: str, question: str, tree: Expr | None) -> bool:
    """Whether those that went to another place are counted as come."""
    gone = {read_number(found[1]) for found in found_all(_TO_ANOTHER, story)}
    return any(sign > 0 and worth(t) in gone for terms in sums(tree) for sign, t in terms[1:])


_LESS_THAN_BEFORE = re.compile(
    rf"{_N} [a-z]+\b[^.?!]*?{_N}(?: [a-z]+)? (?:less|fewer) (?:than )?(?:in|on|during|this|the)\b"
)


def takes_less_for_going(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a second growth told as so much less than the first is taken for one of its own."""
    found = _LESS_THAN_BEFORE.search(story)
    if found is None or re.search(r"\b(?:which|that|this) (?:is|was)\b", found[0]):
        return False
    first, less = read_number(found[1]), read_number(found[2])
    used = [*numbers(tree)]
    if used.count(first) > 1:  # and the second growth is added: 28 − 15 more
        return len({sign for sign, t in sums(tree)[0] if worth(t) == first}) > 1
    return less in used and not {first, less}.issuperset(used)


def takes_sides_for_one(story: str, question: str, tree: Expr | None) -> bool:
    """Whether early and late are held against each other as if they lay on one side."""
    text = story + question
    return (
        bool(re.search(r"\bearly\b", text) and re.search(r"\blate\b", text))
        and operations(tree) == "−"
    )


_PAIR = re.compile(r"\b(?:an?|the|one|each|per) pair of (?:[a-z]+ )??(?P<things>[a-z]+)s\b")


def takes_a_pair_for_one(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what a pair costs or weighs is taken for what one does."""
    pair = _PAIR.search(story)
    if pair is None or "pair" in question or 2 in {*numbers(tree)}:
        return False
    things = re.escape(pair["things"])
    return re.search(rf"\b{COUNT} (?:[a-z]+ )?{things}s?\b", question) is not None


_SHARES = re.compile(r"\b(?:equally|evenly|splits?|shares?|shared|divides?|divided)\b")
_AGAIN = re.compile(
    r"\b(?:one|each|an?) (?:of the )?[a-z]+\b[^.?!]*?\b(?:equally|evenly|among|between|to share)\b"
)


def shares_once_only(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a share that is shared out again is worked out as one sharing."""
    if operations(tree) != "÷":
        return False
    shared = _SHARES.search(story)
    behind = story[shared.end() :] if shared else ""
    return re.search(r"\b(?:then|and)\b", behind) is not None and _AGAIN.search(behind) is not None


ROWS: Rows = (
    Row(
        counts_a_part_beside,
        "a number is a part of what was just named",
        " of |among|including| with|, |: ",
    ),
    Row(
        counts_what_was_not_paid,
        "something is told that was not paid",
        "owe|bill|debt|loan|down from|saving|saved|instead|reduced|discount|rebate|coupon| off",
    ),
    Row(adds_full_and_empty, "full and empty are not put together", "empty|itself|alone|without"),
    Row(
        counts_who_left_as_come,
        "some went to another place",
        "another|the next|the other|different",
    ),
    Row(
        takes_less_for_going,
        "an amount tells how much more or less something is, and I cannot tell than what",
        " less| fewer",
    ),
    Row(takes_sides_for_one, "early and late are on two sides", "early"),
    Row(takes_a_pair_for_one, "a pair is two", "pair"),
    Row(shares_once_only, "a share is shared again", "equally|evenly|split|share|divide"),
)
