"""The amounts of a sentence: each number with what it counts, and for each of what it is told."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from narrate.exact.tree import Expr, value
from narrate.reading.words.lexicon import COLOURS, UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.things import thing_after
from narrate.reading.words.token import Token

Name = tuple[str, ...]
"""The words of a thing, its head last; a measure stands first: ("cup", "sugar")."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A number that counts a `thing`; `per` is what it is told for each of, None where told once.

    `loose`: its group is a single one ("a jug holds 2 liters"), of which nobody says that there are
    more. `within`: it is told with the name of its group, a pan of 12. `size`: it tells how long or
    old something is. `asked`: the question tells it. `parts` are the amounts that it was worked out
    of, by the situation `made_by`.
    """

    tree: Expr
    start: int
    end: int
    sentence: int
    thing: Name = ()
    per: Name | None = None
    money: bool = False
    loose: bool = False
    within: bool = False
    size: bool = False
    asked: bool = False
    parts: tuple[Amount, ...] = ()
    made_by: str = ""

    @property
    def alone(self) -> bool:
        """Whether it is told once."""
        return self.per is None


@dataclass(slots=True)
class Line:
    """A sentence: its words without the things that are counted, and its amounts by place.

    `equal` says that its groups are told to be alike; `read` are the places of what was read.
    """

    words: list[Token]
    amounts: dict[int, Amount] = field(default_factory=dict)
    equal: bool = False
    read: set[int] = field(default_factory=set)

    def low(self, at: int) -> str:
        """The word at a place in small letters, "" outside, "#" for a number."""
        if not 0 <= at < len(self.words):
            return ""
        return "#" if self.words[at].kind == "n" else self.words[at].low


_ALIKE = word_set("equal identical same alike equally evenly equal-sized same-sized")
_EXTRA = word_set("more additional extra another other fewer less further new")
_LONG = word_set("long wide tall high deep old thick away")
_EXTENT = word_set("length width height depth")
_SHORT = word_set("short shy")


class UnreadError(Exception):
    """Not all of the words are read."""


def line_of(sentence: Sequence[Token], number: int, *, asked: bool = False) -> Line:
    """A sentence with its amounts. Raises UnreadError for what no amount of a plain story is."""
    words = [_plain(sentence, at) for at in range(len(sentence)) if not _is_hyphen(sentence, at)]
    hyphened = {sentence[at - 1].start for at in range(len(sentence)) if _is_hyphen(sentence, at)}
    made = Line([], equal=bool({w.low for w in words} & _ALIKE))
    at = 0
    while at < len(words):
        made.words.append(words[at])
        at += 1
        if words[at - 1].kind != "n":
            continue
        tied = words[at - 1].joined or words[at - 1].start in hyphened
        amount, at = _amount(words, at - 1, number, asked=asked, tied=tied)
        made.amounts[len(made.words) - 1] = amount
    return made


def _is_hyphen(words: Sequence[Token], at: int) -> bool:
    return words[at].text == "-" and at > 0 and words[at - 1].kind == "n"


def _plain(words: Sequence[Token], at: int) -> Token:
    """A word; "one" is no number here."""
    word = words[at]
    if word.kind == "n" and word.low == "one":
        return Token(kind="w", text=word.text, start=word.start, end=word.end)
    return word


def _amount(
    words: Sequence[Token], at: int, number: int, *, asked: bool, tied: bool
) -> tuple[Amount, int]:
    """The amount at a place, `tied` to its measure by a hyphen, and where what it counts ends."""
    token = words[at]
    if token.tree is None or token.sort not in ("", "money", "part") or not value(token.tree):
        raise UnreadError
    start = at + 1
    while start < len(words) and words[start].low in _ALIKE | {"such", "single"}:
        start += 1
    thing, end = thing_after(words, start)
    between = {w.low for w in words[start:end]} | {words[at - 1].low if at else ""}
    if between & _EXTRA or (
        token.sort == "part" and words[at + 1 : at + 2] and words[at + 1].low == "of"
    ):
        raise UnreadError
    money = token.sort == "money" or thing in (("dollar",), ("dollar", "bill"), ("dollar", "note"))
    if token.sort == "money":
        thing, end = ("dollar",), at + 1
    thing, end = without_verb(thing, words, end)
    thing = tuple(w for w in thing if w not in _ALIKE and w not in ("full", "whole"))
    behind = words[end].low if end < len(words) else ""
    size = behind in _LONG or (
        behind == "in" and end + 1 < len(words) and words[end + 1].low in _EXTENT
    )
    if (size and not set(thing) & UNITS) or {*thing, behind} & _SHORT:
        raise UnreadError  # stacked 9 high, 5 short of 30
    if thing[1:] and thing[0] in UNITS and tied and not _is_several(words, end):
        thing = thing[:1]  # a 49-pound sack
    size = size or (tied and bool(set(thing) & UNITS) and not _is_several(words, end))
    made = Amount(
        tree=token.tree, start=token.start, end=words[max(end, at + 1) - 1].end, sentence=number,
        thing=thing, money=money, size=size, asked=asked,
    )  # fmt: skip
    if tied and thing[:1] and thing[0] in UNITS and thing[1:] and _is_several(words, end):
        made = replace(made, thing=thing[:1], per=thing[1:], size=False)
    return made, end


def without_verb(thing: Name, words: Sequence[Token], end: int) -> tuple[Name, int]:
    """A name without a verb at its end: will 6 meters cost, how many bulbs belong."""
    last, before = words[end - 1], words[end - 2]
    doing = last.low in _BARE_VERBS and last.low == last.lemma
    if thing[-1:] == ("aside",):
        return thing[:-1], end - 1
    if len(thing) > 1 and doing and (before.low != before.lemma or last.low in ("cost", "belong")):
        return thing[:-1], end - 1
    return thing, end


_BARE_VERBS = frozenset(VERBS.values()) | {"belong"}


def _is_several(words: Sequence[Token], end: int) -> bool:
    """Whether what is named before a place is told of several: 3/8-pound bags."""
    return words[end - 1].low != words[end - 1].lemma


def measure_of(name: Name) -> Name:
    """The words of a name that are a measure, which it begins with: square meter."""
    end = next((i for i, w in enumerate(name) if w not in UNITS | _POWERS), len(name))
    return name[:end]


_POWERS = word_set("square cubic")


def goes_with(first: Name, other: Name) -> bool:
    """Whether two names are of one thing: cups of sugar, cups; bean seedlings, seedlings."""
    if not (first and other) or any(len(set(name)) < len(name) for name in (first, other)):
        return False
    measure, same = measure_of(first), measure_of(other)
    if measure or same:
        rest = [tuple(w for w in name if w not in measure) for name in (first, other)]
        return set(measure) == set(same) and (not all(rest) or goes_with(*rest))
    shorter, longer = sorted((first, other), key=len)
    return shorter[-1] == longer[-1] and set(shorter) <= set(longer)


def clashes(first: Name, other: Name) -> bool:
    """Whether two names tell of two sorts of a thing: red beets, rows of white beets."""
    colours = [set(name) & COLOURS for name in (first, other)]
    return all(colours) and colours[0] != colours[1]
