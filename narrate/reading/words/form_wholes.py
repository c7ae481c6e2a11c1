"""Rows of stories of a thing with what is in it, of two prices, and of what is to be added.

CCSSM (2010), glossary Tables 1 and 2: take apart, addend unknown; add to, change unknown; compare,
difference unknown; equal groups, product unknown.
"""

from __future__ import annotations

from narrate.reading.words.forms import Case, Form, Named, form
from narrate.reading.words.masking import amount

_A = r"(?:the|a|an|his|her|this)"
_WEIGHS = r"(?:weighs?|weighed|has a mass of|have a mass of|had a mass of)"
_ALONE = r"(?: alone| by itself| by themselves)"
_HOLDING = r"(?:with|full of|filled with|of|and) (?:the |its |his |her )?"
_FULL = (
    rf"{_A} [x] {_HOLDING}[y](?: in it)? {_WEIGHS} <m> [u]",
    rf"{_A} [x] {_WEIGHS} <m> [u] when it is (?:full of|filled with) [y]",
)
_EMPTY = (
    rf"(?:the |an )?empty [b] {_WEIGHS} <e> [v]",
    rf"the [b] {_WEIGHS} <e> [v] when (?:it is )?empty",
    rf"the [b]{_ALONE} {_WEIGHS} <e> [v]",
)
_HOW_HEAVY = (
    r"(?:how much do(?:es)?|what is the (?:weight|mass) of|find the (?:weight|mass) of) the "
    rf"(?:empty )?[d]{_ALONE}?(?: in (?:it|the [_]))?(?: weigh{_ALONE}?)?"
)


def _less(given: Named) -> str | None:
    """All less a part, where that is less."""
    return "m − e" if amount(given["m"]) > amount(given["e"]) else None


WEIGHED = (
    *(
        Form(
            "a thing and what is in it",
            rf"{full}\. {empty}\. {_HOW_HEAVY}",
            (Case("u=v x=b y=d", _less),), unit="u",
        )
        for full in _FULL for empty in _EMPTY
    ),
    *(
        Form(
            "a thing and what is in it",
            rf"{full}\. the [b]{_ALONE}? {_WEIGHS} <e> [v]\. {_HOW_HEAVY}",
            (Case("u=v y=b x=d", _less),), unit="u",
        )
        for full in _FULL
    ),
)  # fmt: skip
"""A basket with its fruit: what the fruit weighs, or the basket."""
_EACH = r"(?:for an?|per|an?|for each|for every|each)"
_PRICES = (
    rf"(?:[_] )?(?:costs?|cost|is|are|were|was) <$a> {_EACH} [x] and <$b> {_EACH} [y]",
    r"[_] for an? [x] (?:costs?|is|are) <$a> and [_] for an? [y] (?:costs?|is|are) <$b>",
)
_TO_PAY = (
    r"how much (?:would|will|do|does|did) (?:the )?(?:[_] for )?<n> [z] and <w> [q] (?:cost|pay)"
    r"(?: altogether| in all| in total)?",
    r"how much (?:would|will|does|did) it cost for <n> [z] and <w> [q]",
    r"(?:what is|find) the (?:total )?cost (?:of [_] )?for <n> [z] and <w> [q]",
)
PRICED = tuple(
    Form(
        "two prices",
        rf"{told}\. {asked}",
        (
            Case("x=z x!y y=q", "n × a + w × b"),
            Case("x=q x!y y=z", "n × b + w × a"),
        ), unit="dollar",
    )
    for told in _PRICES for asked in _TO_PAY
)  # fmt: skip
"""So many at a price, and so many at another."""


def _apart(given: Named) -> str | None:
    """How far apart two prices are."""
    first, second = amount(given["a"]), amount(given["b"])
    return None if first == second else "a − b" if first > second else "b − a"


def _to_make(given: Named) -> str | None:
    """What is to be added."""
    return "b − a" if amount(given["b"]) > amount(given["a"]) else None


def _share(given: Named) -> str | None:
    """A part of what something weighs."""
    return "a × b" if amount(given["a"]) < 1 else None


_ATE = r"(?:ate|used|drank|sold|gave away|served)"
OTHERS = (
    Form(
        "two prices apart",
        r"[x] costs? <$a> (?:an?|per) [u] and [y] costs? <$b> (?:an?|per) [v]\. "
        r"(?:what is|find) the difference in (?:price|cost|the prices?)",
        (Case("u=v x!y", _apart),), unit="dollar",
    ),
    form(
        "to be added",
        r"how (?:many|much) more(?: [x])?(?: of [_])? (?:must|should|has to|have to|needs? to) "
        r"(?:be added|{who}add) to <a> [u](?: of [_])? to (?:make|get|have) <b> [v](?: of [_])?",
        _to_make, where="u=v", unit="v",
    ),
    form(
        "part of a whole",
        rf"{{who1}}{_ATE} <a> of an? [x] (?:that|which) (?:weighed|held|weighs|holds) <b> [u]\. "
        r"how many [v](?: of [_])? (?:did|does) {who2}(?:eat|use|drink|sell|give away|serve)",
        _share, where="u=v", unit="v",
    ),
)  # fmt: skip
ROWS = (*WEIGHED, *PRICED, *OTHERS)
