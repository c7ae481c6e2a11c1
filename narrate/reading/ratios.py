"""The ratio of two amounts that are told, in the order of the question: 12 beans, 8 peas; beans to
all is 12 to 20.

Two numbers only, each with what it counts; each side of the ratio must name one of them, or all.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.exact.tree import Expr, Frac, Group, Op, Ratio, Whole, value
from narrate.items.item import Choice, Item, Part
from narrate.reading.demands import InRatio
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.tellings import SIMPLEST, stimulus_of, tellings, unknown_of
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set

_RATIO = re.compile(r"(\d{1,3}) ?(:|to) ?(\d{1,3})")
_AMOUNT = re.compile(r"(?<![\d.,/$:])(\d{1,4})(?![\d.,/:%]\d|%) ((?:[a-z'-]+ ?){1,4})")
_ASKED = re.compile(
    r"(?:what|which|find|write|give)\b[^.?]*?\bratio of (?:the )?(?P<x>[a-z' -]+?) to (?:the )?"
    r"(?P<y>[a-z' -]+?)(?:,? (?:in (?:the|his|her|their|this|simplest|lowest)|at the|on the|as a)\b"
    r"[a-z' ]*)?[?.](?: write [a-z' ]*[.])?$"
)
_STOPS = word_set(
    "and in at on to are is were was who that which for with of the a but or from while there has "
    "have had no"
)
_LOADED = re.compile(
    r"\b(?:more|fewer|less|than|each|every|times|left|gave|gives?|added|adds|removed?|then|not"
    r"|other than|except|half|twice|double|percent|rest|remain\w*|of them|one|two|three|four|five"
    r"|six|seven|eight|nine|ten|a dozen|new|after|before|also|another|if)\b"
)
_ALL = word_set("all total altogether")


_NUMBER = r"(\d{1,3})"
_THING = r"((?:[a-z'-]+ ){0,2}?[a-z'-]+)"
_SMALLEST = r"(?: (?:written )?(?:in|to) (?:its )?(?:simplest|lowest) (?:form|terms))"
_DIRECT = re.compile(
    r"(?:what|which(?: of (?:these|the following))?) (?:is|shows|gives) the ratio of "
    rf"{_NUMBER} {_THING} to {_NUMBER} {_THING}{_SMALLEST}?\?"
)
_PURE = re.compile(
    r"(?:(?:which|what) (?:ratio )?is(?: the ratio)?|(?:write|express)(?: the ratio)?) "
    rf"{_NUMBER} ?(?::|to) ?{_NUMBER}{_SMALLEST}[?.]"
    rf"|simplify (?:the ratio )?{_NUMBER} ?(?::|to) ?{_NUMBER}[.]"
)


def ratio_reading(item: Item, part: Part) -> Reading | None:
    """A part that asks for the ratio of two amounts told, None where it does not."""
    if part.claim is not None or part.model is not None or stimulus_of(item) or len(part.ask) > 500:
        return None
    text = " ".join(part.ask.replace("’", "'").split()).lower()
    asked = _ASKED.search(text) if "ratio of" in text else None
    choices = as_ratios(part).choices
    if len(choices) < 2 or not all(isinstance(c.tree, Ratio | Frac) for c in choices):
        return None
    if (named := _written_out(text)) is not None:
        return _reading(item, part, choices, *named)
    if asked is None:
        return None
    told = text[: asked.start()]
    amounts = [(int(m[1]), _counted(m[2])) for m in _AMOUNT.finditer(told)]
    if len(amounts) != 2 or len(re.findall(r"\d+", text)) != 2 or _LOADED.search(told):
        return None
    sides = [_side(asked[name], amounts) for name in "xy"]
    if None in sides or sides[0] == sides[1] or not all(n for n, _ in amounts):
        return None
    first, second = (_named(asked[name], side) for name, side in zip("xy", sides, strict=True))
    return _reading(item, part, choices, sides, (first, second))


def _written_out(text: str) -> tuple[list[Expr | None], tuple[str, str]] | None:
    """The sides of a ratio that the question writes out, and what they are called.

    Amounts in two units of one measure (8 inches to 2 feet) are none: they are told in one unit
    first.
    """
    if found := _DIRECT.fullmatch(text):
        first, one_thing, second, other = found.groups()
        if one_thing != other and {one(one_thing), one(other)} & set(UNITS):
            return None
        names = (one_thing, other)
    elif found := _PURE.fullmatch(text):
        first, second = (number for number in found.groups() if number)
        names = (first, second)
    else:
        return None
    if not int(first) or not int(second):
        return None
    return [Whole(int(first)), Whole(int(second))], names


def _counted(words: str) -> set[str]:
    """The words that name what a number counts, up to the first that goes on: red tulips."""
    found: set[str] = set()
    for word in words.split():
        if word in _STOPS:
            break
        found.add(one(word))
    return found


def _named(words: str, side: Expr | None) -> str:
    """What a side of the ratio is called: beans, all plants."""
    plain = re.sub(r"^(?:total )?number of ", "", words)
    return f"all {plain}" if isinstance(side, Group) and "all" not in plain.split() else plain


def _side(named: str, amounts: list[tuple[int, set[str]]]) -> Expr | None:
    """What a side of the ratio names: an amount by a word of its own, or all of them."""
    words = {one(word) for word in named.split()} - {"number", "of", "the"}
    shared = amounts[0][1] & amounts[1][1]
    if words & _ALL:
        rest = words - _ALL
        return _all(amounts) if rest and shared and rest <= shared else None
    hits = [n for n, (_, kinds) in enumerate(amounts) if words & (kinds - shared)]
    if len(hits) == 1 and words <= amounts[hits[0]][1]:
        return Whole(amounts[hits[0]][0])
    return None


def _all(amounts: list[tuple[int, set[str]]]) -> Expr:
    return Group(Op("+", Whole(amounts[0][0]), Whole(amounts[1][0])))


def _reading(
    item: Item,
    part: Part,
    choices: tuple[Choice, ...],
    sides: Sequence[Expr | None],
    names: tuple[str, str],
) -> Reading:
    first, second = sides
    assert first is not None
    assert second is not None
    expression = Op("÷", first, second)
    signs = [choice.tree.sign for choice in choices if isinstance(choice.tree, Ratio)]
    simplest = part.simplest or bool(re.search(SIMPLEST, part.ask, re.IGNORECASE))
    demand = InRatio(names=names, sign=signs[0] if signs else "/")
    return Reading(
        goal=Goal(
            form="value",
            asked=expression,
            answer=value(expression),
            simplest=simplest,
            demand=demand,
        ),
        expression=expression,
        equation=None,
        target=None,
        situation="steps",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, expression, "steps")),
        unit=part.unit,
    )


def as_ratios(part: Part) -> Part:
    """The part whose choices, where they are ratios, are such: 3:4, 3 to 4."""
    return replace(part, choices=tuple(map(_as_ratio, part.choices)))


def _as_ratio(choice: Choice) -> Choice:
    found = _RATIO.fullmatch(choice.text.strip(" ."))
    if found is None or not int(found[3]):
        return choice
    return replace(choice, tree=Ratio(int(found[1]), int(found[3]), found[2]))
