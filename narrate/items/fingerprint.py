"""What tells whether an item is still what a lesson was made of."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from hashlib import sha256

from narrate.errors import Place
from narrate.items.edits import Edit
from narrate.items.item import Item, Review

_NOWHERE = Place(file="")


def fingerprints(review: Review, edits: Iterable[Edit]) -> dict[str, str]:
    """The fingerprint of each item of a review, by its id, with what she edited of its beats.

    It hangs on all that is told of the item: not on where it stands in the file, on notes, on what
    pupils chose, or on whether it is skipped or held.
    """
    changed = [(edit.beat, _said(edit)) for edit in edits]
    return {
        item.id: _digest(
            review.language, _bare(item), [e for e in changed if e[0].startswith(f"{item.id}.")]
        )
        for item in review.items
    }


def _said(edit: Edit) -> tuple[object, ...]:
    texts = (edit.say, edit.show)
    return edit.was, [text.text if text else None for text in texts], edit.wait_ms


def _digest(*of: object) -> str:
    return sha256(repr(of).encode()).hexdigest()[:16]


def _bare(item: Item) -> Item:
    parts = (replace(part, place=_NOWHERE, places={}, counts={}) for part in item.parts)
    return replace(item, place=_NOWHERE, skip=False, hold_until=None, parts=tuple(parts))
