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


def split_order(text: str) -> tuple[str, ...]:
    """The ids that `--order` names."""
    return tuple(name.strip() for name in text.split(",") if name.strip())


def in_order(reviews: Sequence[Review], order: Sequence[str]) -> tuple[Review, ...]:
    """The reviews with the items named first, in that order; the others follow as they stood.

    Raises WrongUse, with the nearest id, where none of the reviews has an item.
    """
    ids = [item.id for review in reviews for item in review.items]
    for name in order:
        if name not in ids:
            close = nearest(name, ids)
            what = f"did you mean {close}?" if close else f"there are: {', '.join(ids)}"
            raise WrongUse(f"no item to put in order has the id {name!r}; {what}")
    place = {name: at for at, name in enumerate(order)}
    return tuple(
        replace(each, items=tuple(sorted(each.items, key=lambda i: place.get(i.id, len(place)))))
        for each in reviews
    )


def without_skipped(reviews: Sequence[Review]) -> tuple[Review, ...]:
    """The reviews without the items to be skipped; a review of nothing else is left out."""
    kept = (
        replace(each, items=tuple(item for item in each.items if not item.skip)) for each in reviews
    )
    return tuple(review for review in kept if review.items)


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
