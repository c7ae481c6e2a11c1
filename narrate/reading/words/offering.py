"""Ready-made `model:` lines for a story that is not read: only such as its words let be right.

The situations are rows of `offered_rows`, sums and differences rows of `offered_sums`; what cannot
be right, by its size or by what it counts, is taken out here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction
from math import ceil, floor
from string import Formatter

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Whole, value
from narrate.reading.words.choices import held_by
from narrate.reading.words.lexicon import UNITS
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told, told
from narrate.reading.words.offered_doubts import doubtful
from narrate.reading.words.offered_heard import unheard
from narrate.reading.words.offered_joined import by_units
from narrate.reading.words.offered_kinds import holds, in_proportion, rate, two_parts
from narrate.reading.words.offered_licence import licensed
from narrate.reading.words.offered_links import linked, tied
from narrate.reading.words.offered_never import never
from narrate.reading.words.offered_rows import ROWS
from narrate.reading.words.offered_shape import offer
from narrate.reading.words.offered_sums import apart, letters_of, sums, together
from narrate.reading.words.offered_units import speaks_against
from narrate.reading.words.offered_unused import leaves_one_out
from narrate.reading.words.plain import BELOW_ZERO

MOST = 3
"""So many lines are offered."""

MOST_AMOUNTS = 5
"""Lines of more amounts are not guessed."""

MOST_IN_LIST = 12
"""Lines of more amounts of a list are not made."""

_NO_LINE = (
    r"ratio|probab\w+|likely|estimate\w*|median|mode|about how (?:many|much)|greatest number|symbol"
    r"|expression|equation|between which|divi\w+ evenly|divisible|multiples?|factors?|prime|closest"
    r"|(?:what|which) (?:\w+ )?number|(?:what|which) (?:is|was) (?:the|his|her|\w+'s) number(?! of)"
)
"""What a question asks for that no one line of work is."""

_NO_STORY = (
    r"pattern|sequence|slope|hypotenuse|square root|(?:supple|comple)mentary|number line|diameter"
    r"|radius|π|coordinates?|points? \(|similar|(?:certain|unknown) number|thinks? of a number"
    r"|each of the others|digits?|rule is"
    r"|between each|each end|both ends|back and forth|round trip|both ways"
    r"|quarters and|dimes?|nickels?|hundreds"
    r"|cylinder|cone|sphere|circle"
)
"""Words of what is not worked out by the amounts of a story."""


def offered(text: str) -> list[str]:
    """At most three lines for what a story could ask, the likeliest first; none where none fits."""
    whole = told(text)
    story = linked(whole)
    if (
        _is_told(story)
        or _holds_more(story)
        or _in_other_unit(story)
        or story.asks(_NO_LINE)
        or story.says(_NO_STORY)
        or BELOW_ZERO.search(story.text)
        or len(story.amounts) > (MOST_IN_LIST if story.asks("mean|average|range") else MOST_AMOUNTS)
    ):
        return []
    for of, lines in ((story, _lines), (tied(whole), by_units)):
        if made := _standing(text, of, whole, lines):
            return _agreeing(made)
    return []


def _standing(
    text: str, story: Told, whole: Told, lines: Callable[[Told], Iterator[str]]
) -> list[str]:
    """The lines of a story that pass the second look, and that its words license."""
    made = dict.fromkeys(map(without_ones, lines(story)))
    return [
        line
        for line in made
        if _stands(story, whole.amounts, line) and _is_licensed(text, story, whole, line)
    ]


def _is_licensed(text: str, story: Told, whole: Told, line: str) -> bool:
    """Whether the words license a line, and hold nothing that it does not answer to."""
    made = offer(story, line)
    against = unheard(story, text, made) or leaves_one_out(made, whole, text) or doubtful(made)
    return not against and licensed(made)


def _agreeing(lines: Sequence[str]) -> list[str]:
    """The first of lines that have one value; none where it is not decided which is right."""
    return list(lines[:1]) if agree(lines) else []


def agree(lines: Sequence[str]) -> bool:
    """Whether all lines have one value."""
    try:
        return len({value(parse_expr(line)) for line in lines}) == 1
    except ExactError:
        return False


def _stands(story: Told, every: Sequence[Amount], line: str) -> bool:
    """Whether a line passes the second look: its size, the words, the units, what it leaves out."""
    return (
        could_be(story, line)
        and not _begins_with_what_went(story, line)
        and not never(story, line)
        and not speaks_against(story, every, line)
    )


def _begins_with_what_went(story: Told, line: str) -> bool:
    """Whether what is left is found by taking from what went."""
    if "−" not in line or not holds(story, "left|not"):
        return False
    letters = zip(story.of("amount"), letters_of(story), strict=True)
    went = [a for a, letter in letters if letter in "lp" and a.told.partitive]
    return any(line.startswith(f"{a.said} − ") for a in went)


def _holds_more(story: Told) -> bool:
    """Whether the story tells of a half or a double that is none of its amounts."""
    said = re.findall(r"\b(?:half|halves|twice|doubl\w+|tripl\w+)\b", story.text)
    told_so = ("part", "times", "into", "each")
    return len(said) > sum(a.role in told_so or a.worth == _HALF for a in story.amounts)


_HALF = Fraction(1, 2)


def _is_told(story: Told) -> bool:
    """Whether one amount is the very thing asked for: 3 pots and 2 pans; how many pans?"""
    plain = story.of("amount")
    if len(plain) != len(story.amounts) or len(plain) < 2 or story.asks(_WORKED):
        return False
    if story.query.also or in_proportion(story) is not None:
        return False
    asked = {*story.query.thing} - UNITS
    shared = frozenset.intersection(*(a.names for a in plain))
    named = [a for a in plain if (a.names - shared - UNITS) & asked]
    return len(named) == 1 and all(a.names - shared for a in plain) and asked <= named[0].names


_WORKED = (
    r"left|now|still|more|fewer|less|rest|remain\w*|total|altogether|in all|together|than|not|no"
    r"|difference|at first|before|each|every|both"
)


def _in_other_unit(story: Told) -> bool:
    """Whether the question asks in a unit that no amount is in: inches told, feet asked for."""
    units = {w for a in story.amounts for w in (*a.names, *a.per)} & UNITS
    return story.head in UNITS - {"dollar", *units} and bool(units) and not story.of("part")


def _lines(story: Told) -> Iterator[str]:
    """The lines of the first situation that fits and holds all its amounts, then sums."""
    if story.asks("mean|average(?! speed)|range"):
        yield from _of_list(story)
        return
    roles = " ".join(sorted(amount.role for amount in story.amounts))
    for row in ROWS:
        if row.roles == roles and holds(story, row.asked):
            made = [_filled(line, story) for line in row.lines]
            yield from filter(None, made)
            if any(made) or not any(row.lines):
                return
    yield from sums(story)


def _of_list(story: Told) -> Iterator[str]:
    """The mean of a list of amounts, or how far its greatest is from its least."""
    listed = [a for a in story.amounts if a.role in ("amount", "part") and not _counts(story, a)]
    if len(listed) < 2 or len({a.unit for a in listed} - {""}) > 1:
        return
    ordered = sorted(listed, key=lambda a: a.worth)
    if story.asks("range"):
        yield f"{ordered[-1].said} − {ordered[0].said}"
    elif len({a.role for a in story.amounts} - {"groups"}) == 1:
        yield f"({' + '.join(a.said for a in listed)}) ÷ {len(listed)}"


def _counts(story: Told, amount: Amount) -> bool:
    """Whether an amount counts the others of a list: on five days."""
    return amount.worth == len(story.amounts) - 1 and amount.told.text[:1].isalpha()


def _filled(line: str, story: Told) -> str:
    """A line with the amounts in their places, "" where one is not there."""
    names = bound(story)
    wanted = {name for _, name, _, _ in Formatter().parse(line) if name}
    return line.format(**names) if wanted <= names.keys() else ""


_ONES = re.compile(r"(?<![\d.,/ ])1 × (?=[\d(])|(?<=[+−(] )1 × (?=[\d(])| [×÷] 1(?![\d.,/])(?! \d)")


def without_ones(line: str) -> str:
    """A line without steps that change nothing: 1 × 280 is 280."""
    bare = _ONES.sub("", line)
    return bare[1:-1] if re.fullmatch(r"\([^()]*\)", bare) else bare


def bound(story: Told) -> dict[str, str]:
    """The names of a row's lines with what they stand for."""
    found: dict[str, str] = {}
    for role in {amount.role for amount in story.amounts}:
        for number, amount in enumerate(story.of(role), start=1):
            found[role if number == 1 else f"{role}{number}"] = _said(amount)
    for role, names in _BY_SIZE.items():
        if amounts := sorted(story.of(role), key=lambda a: a.worth):
            found |= dict(zip(names, (amounts[0].said, amounts[-1].said), strict=True))
    if every := sorted(story.amounts, key=lambda a: a.worth):
        found |= {"least_of_all": every[0].said, "most_of_all": every[-1].said}
    if len(story.of("amount")) > 1:
        found["gap"] = apart(story.of("amount"), "")
        found |= {"sum": together(story), "apart": apart(story.of("amount"), "")}
    if asked := [
        a for a in story.of("amount") if a.names & (story.query.words | {*story.query.thing})
    ]:
        found |= {"asked_one": min(asked, key=lambda a: _common(a, story)).said}
    found |= _named(("of_first", "first", "second"), in_proportion(story))
    found |= _named(("asked_unit", "per_unit"), rate(story))
    found |= _named(("shared", "sharers"), shared(story)) | _shared_sum(story) | _two_parts(story)
    return found | _named(("groups_of", "size_of"), many_of(story)) | _pairs(story)


_BY_SIZE = {
    "amount": ("least", "most"), "part": ("lowest", "highest"),
    "groups": ("least_groups", "most_groups"), "each": ("least_each", "most_each"),
}  # fmt: skip


def _common(amount: Amount, story: Told) -> int:
    """The fewer words another amount has in common, the better an amount is told by its own."""
    own = amount.names - frozenset().union(*(a.names for a in story.amounts if a is not amount))
    return -len(own & (story.query.words | {*story.query.thing}))


def _named(names: tuple[str, ...], amounts: tuple[Amount, ...] | None) -> dict[str, str]:
    return {n: a.said for n, a in zip(names, amounts, strict=True)} if amounts else {}


def _said(amount: Amount) -> str:
    """The number as it stands in a line, a percent as a part of a hundred."""
    if amount.role != "percent":
        return amount.said
    return f"{amount.said}/100" if isinstance(amount.told.tree, Whole) else f"({amount.said} ÷ 100)"


def shared(story: Told) -> tuple[Amount, Amount] | None:
    """What is shared and how many share it: 1/3 pound among 4 cakes, 5 friends."""
    plain = story.of("amount")
    groups = [a for a in plain if isinstance(a.told.tree, Whole) and not a.measured and a.worth]
    behind = [a for a in groups if _shares_it(story, a)]
    if not (behind or len(groups) == 1):
        groups = [a for a in groups if a is not max(plain, key=lambda a: a.worth)]
    by = (behind or groups)[:1]
    what = [a for a in plain if a not in by]
    return (what[0], by[0]) if by and len(what) == 1 else None


def _shared_sum(story: Told) -> dict[str, str]:
    """What several share together, and how many they are: $21.50 and $8.50 by 5 friends."""
    plain = story.of("amount")
    sharers = [a for a in plain if not a.measured and a.told.before_verb]
    shared = [a for a in plain if a.measured]
    if len(sharers) != 1 or len(shared) != len(plain) - 1 or len({a.unit for a in shared}) != 1:
        return {}
    return {"sum_shared": f"({' + '.join(a.said for a in shared)})", "sharers": sharers[0].said}


def _two_parts(story: Told) -> dict[str, str]:
    """The larger or smaller of two parts of a whole, by how much or how many times they differ."""
    if (larger := two_parts(story)) is None:
        return {}
    whole = story.of("amount")[0].said
    by = next(a for a in story.amounts if a.role != "amount").said
    share = f"{whole} ÷ ({by} + 1)"
    return {
        "half_of": f"({whole} {'+' if larger else '−'} {by}) ÷ 2",
        "part_of": f"{share} × {by}" if larger else share,
    }


def _shares_it(story: Told, amount: Amount) -> bool:
    """Whether an amount is that of those who share: among 4 cakes, 5 friends share."""
    before = re.search(r"\b(?:among|between|into|by) (?:the )?$", story.text[: amount.told.start])
    behind = re.match(
        r"\S+ \w+ (?:\w+ ){0,2}?(?:share|split|divide)\b", story.text[amount.told.start :]
    )
    return bool(before or behind)


def many_of(story: Told) -> tuple[Amount, Amount] | None:
    """How many times, and how much it is each time: 4 batches, 1 2/3 cups."""
    plain = story.of("amount")
    if len(plain) < 2 or all(a.measured for a in plain):
        return None
    ordered = sorted(plain, key=lambda a: (a.measured, not isinstance(a.told.tree, Whole)))
    return ordered[0], ordered[1]


def _pairs(story: Told) -> dict[str, str]:
    """Each number of groups times what is told of it, put together: 2 × 5 + 4 × 3."""
    made: list[tuple[Fraction, str]] = []
    free = story.of("groups")
    for each in story.of("each"):
        fits = [a for a in free if a.head in each.per]
        if not fits:
            return {}
        near = {id(a): abs(a.told.start - each.told.start) for a in fits}
        group = min(fits, key=lambda a: (-len(a.names & each.per), near[id(a)]))
        free.remove(group)
        made.append((group.worth * each.worth, f"{group.said} × {each.said}"))
    ordered = [said for _, said in sorted(made, reverse=True)]
    return {"pairs": " + ".join(s for _, s in made), "pairs_apart": " − ".join(ordered)}


_HUNDRED = 100


def could_be(story: Told, line: str) -> bool:
    """Whether a line has a value that the question lets be: not below zero, things whole."""
    try:
        worth = value(parse_expr(line))
    except ExactError:
        return False
    if holds(story, "fraction !left !differ") or holds(story, "fraction left"):
        return 0 < worth <= 1
    if holds(story, "percent"):
        return 0 < worth <= _HUNDRED
    if story.counts and holds(story, "containers"):
        return worth >= 1
    if worth < 1 and "÷" in line and not any(a.measured for a in story.amounts):
        return holds(story, "fraction|shared") and "/" not in line
    if "÷" in line and holds(story, "each shared"):
        return worth > 0  # 8 bars for 5 campers
    return worth >= 0 and (worth.denominator == 1 or not story.counts)


def makes_one_of(line: str, choices: Sequence[str]) -> bool:
    """Whether the value of a line is a choice, rounded to a whole where it is none."""
    try:
        worth = value(parse_expr(line))
    except ExactError:
        return False
    whole = (Fraction(rounded) for rounded in (floor(worth), ceil(worth)))
    return any(held_by(each, choices) for each in (worth, *whole))
