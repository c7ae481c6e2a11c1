"""Checked sources to items. Nothing here can fail: `schema` and `rules` have let it through."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Frac, Mixed, Neg, Relation, Whole
from narrate.items.days import day
from narrate.items.item import Choice, Item, Moment, Part, PictureGiven, Stimulus, StripGiven
from narrate.items.nodes import Keyed, Node, find
from narrate.items.pictures import read_picture
from narrate.items.rules import read_boxes
from narrate.items.schema import Answering, DiagramSource, ItemSource, StimulusSource, ToldSource
from narrate.items.sidefile import milliseconds
from narrate.items.texts import PERCENT, Flaw, mathematics, of_one, read_choice


def build_item(source: ItemSource, node: Keyed, *, position: int, grade: int) -> Item:
    """The item at `position` (from 1) of its file; `grade` is the review's, for want of its own."""
    return Item(
        id=source.id,
        label=source.label or f"Question {position}",
        standard=source.standard,
        grade=source.grade or grade,
        stimulus=_stimulus(source, node),
        parts=_parts(source, node),
        place=node.place,
        skip=source.skip,
        hold_until=day(source.hold_until),
    )


def _stimulus(source: ItemSource, node: Keyed) -> Stimulus | None:
    given = source.stimulus or StimulusSource()
    texts = (given.text, source.stem if source.parts else "")
    stimulus = Stimulus(
        text=" ".join(filter(None, texts)),
        diagram=_strip(given.diagram),
        picture=_picture(given, find(node, ("stimulus", "image"))),
    )
    return None if stimulus == Stimulus() else stimulus


def _picture(given: StimulusSource, node: Node) -> PictureGiven | None:
    """The picture; raises FaultsFound in the one case that it went since it was checked."""
    if not given.image:
        return None
    found = read_picture(Path(node.place.file).parent, given.image, given.alt)
    if isinstance(found, Flaw):
        raise FaultsFound((Fault(place=node.place, wrong=found.wrong, right=found.right),))
    return found


def _strip(diagram: DiagramSource | None) -> StripGiven | None:
    if diagram is None:
        return None
    return StripGiven(wholes=diagram.strip.wholes, parts=diagram.strip.parts)


def _parts(source: ItemSource, node: Keyed) -> tuple[Part, ...]:
    if not source.parts:
        return (_part(source, 1, source.stem, node),)
    return tuple(
        _part(part, number, part.ask, find(node, ("parts", number - 1)))
        for number, part in enumerate(source.parts, start=1)
    )


def _part(source: Answering, number: int, ask: str, node: Node) -> Part:
    boxes, unit = read_boxes(source.boxes)
    return Part(
        number=number,
        ask=ask,
        choices=_of_letter(_choices(source), ask),
        boxes=boxes,
        unit=source.unit or unit,
        select_all=source.select == "all",
        simplest=source.simplest,
        key=tuple(sorted(source.key)),
        model=mathematics(source.model) if source.model else None,
        claim=parse_expr(source.claim) if source.claim else None,
        ways=tuple(source.way),
        told=tuple(_moment(each) for each in source.told),
        counts=source.counts,
        place=node.place,
        places=_places(node),
    )


def _moment(source: ToldSource) -> Moment:
    return Moment(say=source.say, show=source.show, wait_ms=milliseconds(source.wait))


def _places(node: Node) -> dict[str, Place]:
    return {key.text: key.place for key, _ in node.entries} if isinstance(node, Keyed) else {}


_NUMBERS = (Whole, Frac, Mixed, Decimal, Neg)
_NAMED = re.compile(r"([a-z]) ?= ?(\S.*)")
_ASKS_NUMBER = (
    r"\bsolve\b|\bsolution (?:of|to)\b|\b(?:what is|value of|find) {}\b|\bwhat does {} equal\b"
)


def _of_letter(choices: tuple[Choice, ...], ask: str) -> tuple[Choice, ...]:
    """Choices such as x = 11, all of the letter that is asked for, as its numbers."""
    found = [_NAMED.fullmatch(choice.text) for choice in choices]
    names = {m[1] for m in found if m}
    if not all(found) or len(names) != 1:
        return choices
    name = names.pop()
    asks = _ASKS_NUMBER.replace("{}", name)
    if not re.search(rf"(?<![a-z]){name}(?![a-z])", ask):
        return choices
    numbers = [c.tree.sides[1] for c in choices if isinstance(c.tree, Relation)]
    numbers = [tree for tree in numbers if isinstance(tree, _NUMBERS)]
    if len(numbers) != len(choices) or not re.search(asks, ask, re.IGNORECASE):
        return choices
    return tuple(replace(c, tree=tree) for c, tree in zip(choices, numbers, strict=True))


def _choices(source: Answering) -> tuple[Choice, ...]:
    keyed = bool(source.key or source.told)
    made = [read_choice(letter, text, keyed=keyed) for letter, text in source.choices.items()]
    if all(choice.unit == PERCENT for choice in made):
        return tuple(made)
    return tuple(of_one(choice) if choice.unit == PERCENT else choice for choice in made)
