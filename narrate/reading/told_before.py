"""What earlier parts of an item tell: a later part may go on from it without saying it again."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from narrate.errors import Declined
from narrate.items.item import Item, Part, Stimulus

T = TypeVar("T")

_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z“\"$\d])")
_ASKS = re.compile(
    r"\?|^(?:find|write|show|explain|draw|select|choose|use|complete|give|work|solve|add|subtract"
    r"|multiply|divide|calculate|what|which|how|name|tell|circle|fill|enter)\b",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"\d|\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|half|twice|third|quarter|"
    r"double)\b",
    re.IGNORECASE,
)
_OTHERWISE = re.compile(r"\b(?:instead|suppose|what if|if|imagine|another|different)\b", re.I)


class ToldBefore(Declined):
    """A part that goes on from what an earlier part tells: `told` are its words.

    `settles` says that the part is read with certainty once all parts share them.
    """

    def __init__(self, understood: str, told: str, *, settles: bool) -> None:
        short = told if len(told) <= 120 else f"{told[:117]}…"
        super().__init__(
            understood,
            f"move “{short}” from the part before to `stimulus:`, which all parts share, or add a "
            "`model:` line that says what to work out",
        )
        self.told = told
        self.settles = settles


def statements(ask: str) -> tuple[str, str]:
    """What a part tells before it asks, and the rest; nothing where no number is told."""
    sentences = _SENTENCE.split(ask.strip())
    at = next((at for at, said in enumerate(sentences) if _ASKS.search(said)), len(sentences))
    told = " ".join(sentences[:at])
    if at == len(sentences) or not _NUMBER.search(told):
        return "", ask
    return told, " ".join(sentences[at:])


def with_told_before(item: Item, part: Part) -> tuple[Item, str] | None:
    """The item with what earlier parts tell among what it shares, and these words."""
    if part.model is not None or part.claim is not None or _OTHERWISE.search(part.ask):
        return None
    told = " ".join(
        said
        for other in item.parts
        if other.number < part.number and (said := statements(other.ask)[0])
    )
    if not told:
        return None
    shared = item.stimulus or Stimulus()
    text = f"{shared.text} {told}".strip()
    return replace(item, stimulus=replace(shared, text=text)), told


def in_its_place(
    item: Item, part: Part, solve: Callable[[Item], T], found: Callable[[T], tuple[Fraction, str]]
) -> T:
    """A part as `solve` makes it in its item; `found` is the answer and what was read.

    Raises ToldBefore where what an earlier part tells would lead elsewhere, or is needed: numbers
    that only an earlier part tells are not on the pages of this one.
    """
    wider = with_told_before(item, part)
    if wider is None:
        return solve(item)
    try:
        alone = solve(item)
    except Declined as declined:
        if _or_none(solve, wider[0]) is None:
            raise
        raise ToldBefore(declined.understood, wider[1], settles=True) from None
    other = _or_none(solve, wider[0])
    if other is None or found(other)[0] == found(alone)[0]:
        return alone
    here, there = found(alone)[1], found(other)[1]
    understood = f"I read {here}, but {there} with what the part before tells"
    raise ToldBefore(understood, wider[1], settles=False)


def _or_none(solve: Callable[[Item], T], item: Item) -> T | None:
    try:
        return solve(item)
    except Declined:
        return None
