"""Which items are of a topic, by the codes of standards: `5.NF.A.1`, or a cluster, `5.NF.A`."""

from __future__ import annotations

import re
from collections.abc import Hashable, Mapping, Sequence
from typing import TypeVar

from narrate.items.item import Item

Name = TypeVar("Name", bound=Hashable)


def split_topics(text: str) -> tuple[str, ...]:
    """The codes that `--topics` names, each once."""
    return tuple(dict.fromkeys(code for code in re.split(r"[,\s]+", text.strip()) if code))


def covers(topic: str, item: Item) -> bool:
    """Whether an item is of a topic: its standard is that, or lies below it (5.NF.A.1 in 5.NF)."""
    codes = re.split(r"[,;\s]+", item.standard.lower())
    asked = topic.lower()
    return any(code == asked or _below(code, asked) for code in codes)


def _below(code: str, topic: str) -> bool:
    rest = code.removeprefix(topic)
    return rest != code and re.fullmatch(r"\..+|[a-z]", rest) is not None


def cheapest(
    topics: Sequence[str], items: Mapping[Name, Item], lengths: Mapping[Name, int]
) -> tuple[Name, ...]:
    """The items that together are of all topics and take the least time, exactly.

    Each topic must have one. For every set of topics that the items up to here cover, the shortest
    way to it is kept.
    """
    best: dict[frozenset[str], tuple[int, tuple[Name, ...]]] = {frozenset(): (0, ())}
    for name, item in items.items():
        own = {topic for topic in topics if covers(topic, item)}
        for covered, (length, chosen) in list(best.items()):
            now = covered | own
            longer = length + lengths[name]
            if now not in best or longer < best[now][0]:
                best[now] = longer, (*chosen, name)
    return best[frozenset(topics)][1]
