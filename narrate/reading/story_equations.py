"""Which equation shows a story's total: the one whose sides both make what the story asks for.

46 × 12 is split in each choice, as (40 × 12) + (6 × 12) = 480 + 72; the story says what it must be.
"""

from __future__ import annotations

import re
from fractions import Fraction

from narrate.errors import Declined
from narrate.exact.tree import Expr, Op, Relation, has_blank, value, walk
from narrate.items.item import Item, Part
from narrate.reading.demands import Offer, Tested
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of, tellings, unknown_of
from narrate.reading.words.understood import Understood
from narrate.reading.work_asked import understand_work

_ASKS = re.compile(
    r"\bwhich (?:equation|number sentence)\b[^.?]*\b(?:find|total|number|amount|cost|how)\b"
    r"[^.?]*\?$",
    re.IGNORECASE,
)


def equation_of_story(item: Item, part: Part) -> Reading | None:
    """A part whose choices are equations without letters, one of which makes what a story asks.

    None where the story is not read, or where not just one choice makes it.
    """
    relations = [c.tree for c in part.choices if isinstance(c.tree, Relation)]
    if part.model is not None or part.claim is not None or stimulus_of(item) or part.select_all:
        return None
    if len(relations) != len(part.choices) or not _ASKS.search(part.ask):
        return None
    if any(has_blank(r) or r.sign != "=" or len(r.sides) != 2 for r in relations):
        return None
    try:
        understood = understand_work(item, part)
    except Declined:
        return None
    asked = understood.expression
    return None if asked is None else _reading(item, part, asked, understood)


def _reading(item: Item, part: Part, asked: Expr, understood: Understood) -> Reading | None:
    offers = tuple(_offer(c.letter, c.tree, value(asked)) for c in part.choices)
    right = [c for c, offer in zip(part.choices, offers, strict=True) if offer and offer.holds]
    if None in offers or len(right) != 1 or not isinstance(asked, Op):
        return None
    demand = Tested(name="makes", offers=tuple(o for o in offers if o), about=(asked,))
    sides = right[0].tree
    assert isinstance(sides, Relation)
    return Reading(
        goal=Goal(form="tested", asked=sides.sides[0], answer=value(asked), demand=demand),
        expression=sides.sides[0],
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, asked, "steps")),
        unit=part.unit,
        counted=understood.counted,
    )


def _offer(letter: str, tree: object, wanted: Fraction) -> Offer | None:
    """A choice and whether it makes what is wanted; None where its sides are not one number."""
    assert isinstance(tree, Relation)
    left, right = (value(side) for side in tree.sides)
    work = any(isinstance(node, Op) for node in walk(tree.sides[0]))
    if not work or (left != right and wanted in (left, right)):
        return None
    return Offer(letter=letter, holds=left == right == wanted, said=(tree.sides[0],))
