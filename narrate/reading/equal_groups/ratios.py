"""How many times as much one amount is as another, or as several together that belong to one.

CCSSM (2010), glossary Table 2, compare, number of groups unknown. The question names both sides;
each amount goes to the side whose words its part of the sentence says, else to that of the part
before it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from narrate.exact.tree import Expr, value
from narrate.reading.equal_groups.amounts import Amount, Line, UnreadError, goes_with, line_of
from narrate.reading.equal_groups.words import is_loaded
from narrate.reading.words.clauses import sentences
from narrate.reading.words.facts import Answer, Story, joined
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.understood import Understood, from_answer

_BE = r"(?:is|was|are|were)"
_AS = r"how many times as (?P<how>\w+)(?: (?!as\b|is\b|was\b|does\b|did\b|do\b)(?P<thing>\w+))?"
_ASKED = tuple(
    re.compile(form)
    for form in (
        rf"(?P<a>.+?) {_BE} how many times (?:as (?P<how>\w+)(?: \w+)? as )?(?P<b>.+)",
        rf"{_AS} (?:{_BE}|does|did|do|has|had) (?P<a>.+?) as (?P<b>.+)",
        rf"{_AS} as (?P<b>.+?) (?:{_BE}|does|did|do) (?P<a>.+)",
        r"(?P<a>.+?) how many times as (?P<how>\w+)(?: \w+)? as (?P<b>.+)",
    )
)
"""How both sides are named, the one that is so many times the other first."""
_ASIDE = re.compile(r", and (?:no more|none|nothing more) (?:after|before) (?:that|this|it)\b")
_LONGEST = 400


def read_ratio(text: str) -> Understood | None:
    """How many times as much is asked, None where the sides of all amounts are not certain."""
    if len(text) > _LONGEST or "how many times" not in text.lower():
        return None
    try:
        return _read(text)
    except UnreadError:
        return None


def _read(text: str) -> Understood:
    plain = _ASIDE.sub(lambda m: " " * len(m[0]), text)
    *told, asked = sentences(tokens(plain))
    lines = [line_of(words, at) for at, words in enumerate(told)]
    sides = _sides(asked)
    shares = _shared_out(lines, sides)
    _refuse(lines, asked, [a for side in shares for a in side])
    first, second = (joined("+", *(a.tree for a in side)) for side in shares)
    if value(first) <= value(second):
        raise UnreadError
    return _understood(text, joined("÷", first, second), shares, asked)


def _sides(asked: Sequence[Token]) -> tuple[frozenset[str], frozenset[str]]:
    """The words that tell the two sides that a question names."""
    line = " ".join(w.low for w in asked if w.kind == "w")
    if any(w.kind not in "wp" for w in asked):
        raise UnreadError
    for form in _ASKED:
        if m := form.fullmatch(line):
            first, second = (_telling(m[key].split()) for key in "ab")
            both = (first - second, second - first)
            if all(both):
                return both
    raise UnreadError


def _telling(words: Sequence[str]) -> frozenset[str]:
    return frozenset(one(w) for w in words if w in _WHEN or (w not in NO_THING and w not in VERBS))


_WHEN = word_set("this last today yesterday first second")


def _shared_out(
    lines: Sequence[Line], sides: tuple[frozenset[str], frozenset[str]]
) -> tuple[tuple[Amount, ...], tuple[Amount, ...]]:
    """The amounts of either side, in the order told."""
    found: tuple[list[Amount], list[Amount]] = ([], [])
    parts = [list(_parts(line)) for line in lines]
    every = frozenset.intersection(*(words for part in parts for words, _ in part))
    for part in parts:
        last = None
        for words, amount in part:
            named = [i for i, side in enumerate(sides) if (side - every) & words]
            last = named[0] if len(named) == 1 else None if named else last
            if last is None or not amount.alone or (amount.size and amount.thing == ()):
                raise UnreadError
            found[last].append(amount)
    first, *others = sorted((a for side in found for a in side), key=lambda a: a.start)
    alike = all(a.thing == () or goes_with(a.thing, first.thing) for a in others)
    if not all(found) or not alike:
        raise UnreadError
    return tuple(found[0]), tuple(found[1])


def _parts(line: Line) -> Iterator[tuple[frozenset[str], Amount]]:
    """Each amount of a line with the words of its part of the sentence."""
    cuts = [at for at in range(len(line.words)) if line.low(at) in _JOINTS]
    ends = sorted({*cuts, len(line.words)})
    start = 0
    before: frozenset[str] = frozenset()
    for end in ends:
        here = [at for at in range(start, end) if at in line.amounts]
        words = frozenset(line.words[at].lemma for at in range(start, end)) | before
        for at in here:
            own = frozenset(line.amounts[at].thing) - UNITS
            yield words | own, line.amounts[at]
        before = frozenset() if here else words
        if len(here) > 1:
            raise UnreadError
        start = end


_JOINTS = word_set(", ; and while but whereas")
_PLAIN = word_set(", ; and while but whereas before after . in on of")


def _refuse(lines: Sequence[Line], asked: Sequence[Token], used: Sequence[Amount]) -> None:
    """Raises UnreadError where a word could change the amounts, or the question is of another."""
    for line in lines:
        if not line.amounts or any(a not in used for a in line.amounts.values()):
            raise UnreadError
        spared = _PLAIN | _WHEN
        if any(is_loaded(w, spared) or _is_handed(w) for w in line.words if w.kind != "n"):
            raise UnreadError
    told = {w.lemma for line in lines for w in line.words}
    told |= {VERBS.get(w.low, w.lemma) for line in lines for w in line.words}
    told |= {word for a in used for word in a.thing}
    for word in asked:
        small = word.kind != "w" or word.low in NO_THING | _OF_MEASURES or word.lemma in told
        if not small and VERBS.get(word.low, word.low) not in told | _MOVING:
            raise UnreadError


def _is_handed(word: Token) -> bool:
    """Whether a verb takes from one and gives to another."""
    return VERBS.get(word.low) in word_set("give lend hand send take return share")


_OF_MEASURES = word_set(
    "how many times number amount distance length height width depth weight mass age price cost "
    "long tall high wide deep heavy old great large much far big rain rainfall is was are were what"
)
_MOVING = word_set("be do have run walk cover ride go swim")


def _understood(
    text: str,
    tree: Expr,
    shares: tuple[tuple[Amount, ...], tuple[Amount, ...]],
    asked: Sequence[Token],
) -> Understood:
    used = [a for side in shares for a in side]
    quantities = {
        a.start: Quantity(
            start=a.start, end=a.end, tree=a.tree, thing=a.thing, money=a.money,
            text=text[a.start : a.end],
        )
        for a in used
    }  # fmt: skip
    query = Query(
        kind="times", thing=(), words=frozenset(), start=asked[0].start, end=asked[-1].end
    )
    told = [quantities[at] for at in sorted(quantities)]
    story = Story(text=text.lower(), clauses=(), quantities=told, query=query)
    answer = Answer(
        tree=tree,
        used=tuple(quantities[a.start] for a in used),
        situation="times as many",
        unknown="number of groups",
    )
    return from_answer(text, story, answer)
