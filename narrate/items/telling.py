"""A question told by hand: moments of `say`, `show` and `wait`, and what can be checked in them."""

from __future__ import annotations

from collections.abc import Iterator

from narrate.errors import ExactError, Fault
from narrate.exact.claims import untrue
from narrate.items.nodes import Keyed, Many, Node, Text
from narrate.items.sidefile import SECONDS, fault, seconds


def told_rules(told: Node, owner: Keyed) -> Iterator[Fault]:
    """The faults of what is told by hand: empty moments, lines that are not so, wrong letters."""
    if not isinstance(told, Many):
        return  # told with the single keys
    if not told.entries:
        yield fault(told, '"told" is an empty list', "write - say: with what is said first")
    for place, moment in enumerate(told.entries):
        if isinstance(moment, Keyed):
            yield from _moment(moment, owner, first=place == 0)


def _moment(moment: Keyed, owner: Keyed, *, first: bool) -> Iterator[Fault]:
    say, show, wait = (moment.get(name) for name in ("say", "show", "wait"))
    if say is None and show is None and (wait is None or first):
        yield fault(moment, "nothing is said or shown here", "write say: or show:")
    if isinstance(wait, Text) and seconds(wait) is None:
        yield fault(wait, '"wait" is no number of seconds', SECONDS)
    for node in (say, show):
        if isinstance(node, Text):
            yield from _not_so(node)
    if isinstance(show, Text):
        yield from _letter(show, owner)


def _not_so(node: Text) -> Iterator[Fault]:
    try:
        for offset, wrong in untrue(node.text):
            yield Fault(place=node.at(offset), wrong=wrong, right="correct the line")
    except ExactError:  # told with the single keys
        return


def _letter(show: Text, owner: Keyed) -> Iterator[Fault]:
    """A letter rings a choice, so it must be a key that the question declares."""
    letter = show.text.strip()
    choices, key = owner.get("choices"), owner.get("key")
    if len(letter) != 1 or not letter.isupper() or choices is None:
        return
    keys = (
        [entry.text for entry in key.entries if isinstance(entry, Text)]
        if isinstance(key, Many)
        else key.text.replace(",", " ").split()
        if isinstance(key, Text)
        else []
    )
    if letter not in keys:
        wrong = f"{letter} is shown as right, and it is no key"
        yield fault(show, wrong, "declare it with key:, or show something else")
