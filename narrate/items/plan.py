"""Which items were reviewed on which day, from a file of the teacher's.

    2026-05-04:
      garden-week.yaml: [rain-barrel, compost]
    2026-05-06:
      garden-week.yaml: seed-trays
      kitchen-market.yaml: all

Files are named as they lie from the plan. Days come in the order of the calendar, the items of a
day as they are listed. An item may be named on several days: who was there on one has seen it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from narrate.errors import Fault, FaultsFound, Place
from narrate.items.days import DAY_IS, day
from narrate.items.item import Item, Review
from narrate.items.loading import load
from narrate.items.messages import nearest
from narrate.items.nodes import Keyed, Many, Node, Refused, Text, structural_faults
from narrate.items.rules import entries
from narrate.items.sidefile import fault, read_keys
from narrate.items.texts import shorten

ALL = "all"
_LISTS = "write a list of ids, such as [rain-barrel, compost], or all"
_BEGIN = "begin with a day: 2026-05-04:, and below it garden-week.yaml: [rain-barrel]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """An item of a review, and the days on which it was reviewed, in order."""

    days: tuple[date, ...]
    review: Review
    item: Item
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """What was planned, in order; the days of the plan; what is wrong with it and its reviews.

    A day whose items are all unknown is one of its days.
    """

    planned: tuple[Planned, ...]
    days: frozenset[date]
    faults: tuple[Fault, ...]


def read_plan(path: Path) -> Plan:
    """The plan with the reviews it names. Raises FaultsFound where nothing in it can be used."""
    root = read_keys(path, _BEGIN)
    faults = [*structural_faults(root)]
    if not root.entries:
        faults.append(fault(root, "this plan is empty", _BEGIN))
    named = list(_named(root, faults))
    reviews = _loaded(named, path.parent, faults)
    planned: dict[tuple[str, str], Planned] = {}
    for when, file, listed in sorted(named, key=lambda each: each[0]):
        review = reviews.get(file.text)
        for found in _items(when, review, listed, faults) if review else ():
            name = found.review.id, found.item.id
            before = planned.setdefault(name, found)
            if when not in before.days:
                planned[name] = replace(before, days=(*before.days, when))
            elif before is not found:
                wrong = (
                    f"{found.item.id} is planned already on this day, on line {before.place.line}"
                )
                faults.append(Fault(place=found.place, wrong=wrong, right="name it once a day"))
    ordered = tuple(sorted(set(faults), key=lambda each: (each.place, each.wrong)))
    if not planned:
        raise FaultsFound(ordered)
    days = frozenset(when for when, *_ in named)
    return Plan(planned=tuple(planned.values()), days=days, faults=ordered)


def _named(root: Keyed, faults: list[Fault]) -> Iterator[tuple[date, Text, Node]]:
    """Each day with a review's file and the items listed of it."""
    for key, node in root.entries:
        when = day(key.text)
        if when is None:
            faults.append(fault(key, f'"{shorten(key.text)}" is no day', DAY_IS))
        elif not isinstance(node, Keyed) or not node.entries:
            right = "write below it the file of a review, a colon, and the ids of its items"
            if not isinstance(node, Refused):  # which has told its own reason
                faults.append(fault(key, f"nothing is planned on {key.text}", right))
        else:
            yield from ((when, file, listed) for file, listed in node.entries)


def _loaded(
    named: Sequence[tuple[date, Text, Node]], folder: Path, faults: list[Fault]
) -> dict[str, Review]:
    """The reviews by the names that the plan gives them; their faults, and those of the names."""
    found: dict[str, Review] = {}
    seen: dict[str, Path] = {}
    for _, file, _ in named:
        if file.text in found or file.text in seen:
            continue
        path = seen[file.text] = folder / file.text
        if not path.is_file():
            what = "no such file" if not path.is_dir() else "a folder; name one of its files"
            wrong = f'"{shorten(file.text)}" is {what}'
            faults.append(fault(file, wrong, "name the file of a review as it lies from this plan"))
            continue
        loaded = load([path])
        faults.extend(loaded.faults)
        if loaded.reviews:
            found[file.text] = loaded.reviews[0]
    return _told_apart(named, found, faults)


def _told_apart(
    named: Sequence[tuple[date, Text, Node]], found: dict[str, Review], faults: list[Fault]
) -> dict[str, Review]:
    """The reviews without a second file of a name: names tell lessons apart."""
    files: dict[str, Path] = {}
    kept: dict[str, Review] = {}
    for _, file, _ in named:
        review = found.get(file.text)
        if review is None or file.text in kept:
            continue
        other = files.setdefault(review.id.lower(), review.file)
        if other.resolve() != review.file.resolve():
            wrong = f'another review, {other}, is called "{review.id}" as well'
            faults.append(fault(file, wrong, "give each file its own name"))
            continue
        kept[file.text] = review
    return kept


def _items(when: date, review: Review, listed: Node, faults: list[Fault]) -> Iterator[Planned]:
    """The items that a day lists of a review; all of them but those to be skipped by `all`."""
    ids = {item.id: item for item in review.items}
    if isinstance(listed, Text) and listed.text.strip() == ALL:
        for item in review.items:
            if not item.skip:
                yield Planned(days=(when,), review=review, item=item, place=listed.place)
        return
    names = entries(listed)
    whole = not isinstance(listed, Many) or len(names) == len(listed.entries)
    if not isinstance(listed, Refused) and not (names and whole):
        faults.append(fault(listed, "here is no list of ids", _LISTS))
    for name in names:
        if name.text in ids:
            yield Planned(days=(when,), review=review, item=ids[name.text], place=name.place)
        else:
            close = nearest(name.text, ids)
            right = f"did you mean {close}?" if close else f"there are: {', '.join(ids)}"
            wrong = f'{review.file.name} has no good item "{shorten(name.text)}"'
            faults.append(fault(name, wrong, right))
