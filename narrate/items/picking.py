"""One item, or one part of it, out of many: `rain-barrel`, `compost.2`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from narrate.errors import WrongUse
from narrate.items.item import Item, Review
from narrate.items.messages import nearest


def split_name(name: str) -> tuple[str, str | None]:
    """An item's id and the number of a part, None for all; ids hold no points."""
    own, point, part = name.partition(".")
    return own, part if point else None


def pick(reviews: Sequence[Review], name: str) -> tuple[Review, ...]:
    """Each review that has the item, with nothing but it, or but the part that is named.

    Raises WrongUse, with the nearest id, where no review has it.
    """
    own, part = split_name(name)
    found = tuple(
        replace(review, items=(_cut(item, part),))
        for review in reviews
        for item in review.items
        if item.id == own
    )
    if not found:
        ids = [item.id for review in reviews for item in review.items]
        close = nearest(own, ids)
        what = f"did you mean {close}?" if close else f"there are: {', '.join(ids)}"
        raise WrongUse(f"no item has the id {own!r}; {what}")
    return found


def _cut(item: Item, part: str | None) -> Item:
    """The item with that part alone, which is still called by its letter."""
    if part is None:
        return item
    kept = tuple(each for each in item.parts if str(each.number) == part)
    if not kept:
        last = len(item.parts)
        there = f"parts 1 to {last}" if last > 1 else "one part, 1"
        raise WrongUse(f"{item.id} has no part {part!r}; it has {there}")
    return replace(item, parts=kept, parts_in_all=len(item.parts))
