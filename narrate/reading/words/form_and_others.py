"""Rows of stories of somebody and so many others, who are one more (CCSSM 2010, 3.OA.A.3, D.8).

Mila and her 3 friends are 3 + 1 who pick; who shares with others has a share of his own only
where the words put him beside them: Mila and 3 friends share.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from narrate.reading.words.forms import Form, Named, form

_HIS = r"(?:(?:his|her|their|the) )?"
_SOMEBODY = r"(?P<who1>(?:(?:an?|the|his|her) )?[a-z'-]+ )"
_AND_OTHERS = rf"{_SOMEBODY}and {_HIS}<n> (?:other )?[o]"
_DONE = (
    r"(?:picks?|picked|plants?|planted|sows?|sowed|carr(?:y|ies|ied)|fills?|filled|bakes?|baked|makes?"
    r"|made|brings?|brought|eats?|ate|has|have|had|buys?|bought|gets?|got|gives?|gave|reads?|sells?"
    r"|sold|collects?|collected|packs?|packed|waters?|watered|uses?|used|needs?|needed|digs?|dug)"
)
_SHARE = r"(?:shares?|shared|splits?|split|divides?|divided)"
_DO = r"(?:do|did|will)"
_IN_ALL = r"(?: (?:altogether|in all|in total|all together))?"
_SAYS = "and each other others share shared split altogether all total equal left"


def _one_more(work: str) -> Callable[[Named], str | None]:
    """Work with one more than the others, who are at least two."""
    return lambda given: work if _count(given) else None


def _shared(given: Named) -> str | None:
    """An equal share of each, where it comes out whole."""
    others = _count(given)
    return (
        "t ÷ (n + 1)" if others and (Fraction(given["t"]) / (others + 1)).denominator == 1 else None
    )


def _count(given: Named) -> int:
    return int(given["n"]) if given["n"].isdigit() and int(given["n"]) > 1 else 0


_ASKED = (
    rf"how many [y] {_DO} they (?:all )?{_DONE}{_IN_ALL}",
    rf"how many [y] (?:are|were|is|was) {_DONE}{_IN_ALL}",
    r"how many [y] (?:are|were) (?:needed|there)(?: in all)?",
)
PRODUCTS: tuple[Form, ...] = tuple(
    form(
        "equal groups, all of them", rf"{told}\. {asked}", _one_more("(n + 1) × a"),
        where="x=y", unit="y", says=_SAYS, clue="and",
    )
    for told in (
        rf"{_AND_OTHERS} each {_DONE} <a> [x]{{where}}",
        rf"{_AND_OTHERS} {_DONE} <a> [x] each{{where}}",
    )
    for asked in _ASKED
)  # fmt: skip
"""What all of them have, bring or make."""

PAID: tuple[Form, ...] = tuple(
    form(
        "equal groups, all of them", rf"{told}\. {asked}", _one_more("(n + 1) × a"),
        unit="dollar", says=_SAYS, clue="and",
    )
    for told in (
        rf"{_AND_OTHERS} each (?:pay|paid|spend|spent|give|gave) <$a>(?: for (?:an?|the) [x])?",
        rf"{_AND_OTHERS} (?:pay|paid|spend|spent|give|gave) <$a> each(?: for (?:an?|the) [x])?",
    )
    for asked in (
        rf"how much {_DO} they (?:pay|spend|give){_IN_ALL}",
        r"how much (?:does|did) the [y] cost",
        r"what (?:is|was) the (?:total )?(?:cost|price) of the [y]",
    )
)  # fmt: skip
"""What all of them pay."""

SHARES: tuple[Form, ...] = tuple(
    form(
        "equal groups, how many in one", rf"{told}\. {asked}", _shared,
        where="x=y", unit="y", says=_SAYS, clue="and",
    )
    for told in (
        rf"{_AND_OTHERS} {_SHARE} <t> [x]{{where}} (?:equally|evenly)",
        rf"{_AND_OTHERS} (?:equally|evenly) {_SHARE} <t> [x]",
    )
    for asked in (
        r"how many [y] (?:does|did|do|will) (?:each|every)(?: (?:of them|person|child|one))? "
        r"(?:get|have|receive)",
        r"how many [y] (?:are|were) there for each(?: (?:of them|person|child|one))?",
    )
)  # fmt: skip
"""An equal share of each of them."""

LEFT: tuple[Form, ...] = tuple(
    form(
        "what is left after equal groups",
        rf"{{who2}}{_DONE} <t> [x]{{where}}\. {told}\. how many [y] (?:are|were) left",
        _one_more("t − (n + 1) × a"), where="x=y", unit="y", says=_SAYS, clue="and",
    )
    for told in (
        rf"(?P<who1>(?:she|he) )and {_HIS}<n> (?:other )?[o] each {_DONE} <a>(?: of them| [z])?",
        rf"(?P<who1>(?:she|he) )and {_HIS}<n> (?:other )?[o] {_DONE} <a>(?: of them| [z])? each",
    )
)  # fmt: skip
"""What they leave."""

ROWS = (*PRODUCTS, *PAID, *SHARES, *LEFT)
