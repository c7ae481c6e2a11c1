"""Questions for the expression that says a phrase: 5 less than twice a number n."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Blank, Expr, Group, Op, Over, Relation, Writing, walk
from narrate.items.item import Item, Part
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.saying import same_by_another_way, says_same
from narrate.reading.tellings import stimulus_of, tellings, unknown_of
from narrate.reading.words.phrases import UNNAMED, phrase
from narrate.reading.work_asked import worth_of

_EXPRESSION = r"(?:(?:algebraic|numerical|mathematical|variable|number) )?expressions?"
_SAYS = (
    r"(?:(?:can|could|would|should) (?:be used to )?)?(?:best )?"
    r"(?:represents?|shows?|means?|matche?s?|describes?|models?|is|says|is the same as"
    r"|translates to|correctly represents)"
)
_THE = (
    r"(?:(?:the )?(?:phrase|words|statement|verbal expression|word phrase|description)"
    r"(?: below)?:? ?)?"
)
_ASKS = (
    rf"(?:which|what)(?: of (?:these|the following))?(?: {_EXPRESSION})? {_SAYS} {_THE}"
    r"(?P<said>.+)",
    rf"(?:write|find|choose) (?:an?|the) {_EXPRESSION} (?:for|that (?:represents|means)) {_THE}"
    r"(?P<said>.+)",
    r"how (?:can|could|would) (?:you write )?(?P<said>.+?) (?:be written )?as an expression",
    r"(?P<said>.+?) (?:can be|is) (?:written|represented|expressed) (?:as|by)"
    rf"(?: the {_EXPRESSION})?",
)
_MOST = 220


def phrase_reading(item: Item, part: Part) -> Reading | None:
    """A part that asks which choice says a phrase, None where it asks no such thing.

    Raises Declined where no choice says it, or one makes the same in another way.
    """
    if part.claim is not None or part.model is not None or stimulus_of(item) or part.select_all:
        return None
    if len(part.choices) < 2 or len(part.ask) > _MOST or not _all_work(part):
        return None
    said = _said(part.ask)
    expression = phrase(said) if said else None
    if expression is None:
        return None
    expression = _with_letter(expression, part)
    _hold_choices(part, expression)
    return Reading(
        goal=Goal(form="expression", asked=expression, answer=worth_of(expression)),
        expression=expression,
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, expression, "bare")),
    )


def _all_work(part: Part) -> bool:
    trees = [choice.tree for choice in part.choices]
    work = [tree for tree in trees if tree is not None and any(map(_is_op, walk(tree)))]
    plain = not any(isinstance(tree, Relation) for tree in trees)
    return plain and len(work) == len(trees)


def _is_op(node: Writing) -> bool:
    return isinstance(node, Op | Over)


def _said(ask: str) -> str:
    text = " ".join(ask.split()).strip(" ?.:_").lower()
    for pattern in _ASKS:
        if found := re.fullmatch(pattern, text):
            return found["said"]
    return ""


def _with_letter(tree: Expr, part: Part) -> Expr:
    """A number that the words give no letter, by the one letter of the choices."""
    names = {
        node.name
        for choice in part.choices
        if choice.tree is not None
        for node in walk(choice.tree)
        if isinstance(node, Blank)
    }
    return _named(tree, names.pop()) if len(names) == 1 else tree


def _named(tree: Expr, name: str) -> Expr:
    match tree:
        case Blank(old) if old == UNNAMED:
            return Blank(name)
        case Op(sign, left, right):
            return Op(sign, _named(left, name), _named(right, name))
        case Group(inner):
            return Group(_named(inner, name))
        case _:
            return tree


def _hold_choices(part: Part, expression: Expr) -> None:
    """Raises Declined where not just one choice says the phrase."""
    trees: Sequence[Writing] = [c.tree for c in part.choices if c.tree is not None]
    right = [tree for tree in trees if says_same(expression, tree)]
    other = any(same_by_another_way(expression, tree) for tree in trees)
    if len(right) != 1 or other:
        raise Declined(
            f"I read {write(expression)}, and not just one choice says that",
            "correct the choices, or say the phrase in other words",
        )
