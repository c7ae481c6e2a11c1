"""Rows of measures that a story tells: around a bed, until a tank is full.

CCSSM (2010) 3.MD.D.8, 4.MD.A.3, 4.OA.A.3.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.forms import Form, Named, form, one_of, same

_DOES = r"(?:does|do|did|will|would|should|must)"
_FIGURE = one_of(
    r"rectangular [b] (?:that |which )?(?:is |measures |measuring )?<l> [u] long (?:and|by) <w> [v]"
    r" wide",
    r"rectangular [b] (?:that |which )?(?:is |measures |measuring )?<w> [v] wide (?:and|by) <l> [u]"
    r" long",
    r"rectangular [b] (?:that |which )?(?:is |measures |measuring )?<l> [u] by <w> [v]",
    r"rectangular [b] with a length of <l> [u] and a width of <w> [v]",
)
_EDGED = (
    r"(?:{who}(?:wants?|plans?|needs|is going|is planning) to (?:put|build|place|set|lay|install"
    r"|glue"
    r"|sew)|{who}(?:is putting|puts|put|will put|places|will place|built|builds)) (?:a |an |some"
    r" )?[e]"
)
_IS_SET = r"[e] (?:is|will be|was|goes|is to be) (?:(?:set|put|placed|laid|built|sewn|glued) )?"
_EDGE_ASKED = one_of(
    r"how (?:much|many [m] of) [f] (?:is|are|will be) (?:needed|required|used)",
    rf"how (?:much|many [m] of) [f] {_DOES} {{who}}(?:need|use|buy)",
    r"(?:how long|what) (?:is|will be) (?:the length of )?the [f](?: be)?",
)


def _in_one_unit(given: Named) -> str | None:
    """The way around, where the question names no other unit."""
    return None if given.get("m", given["u"]) != given["u"] else "2 × (l + w)"


EDGES = tuple(
    form(
        "perimeter",
        rf"{told}(?:all )?(?:the way )?around (?:the edge of |the outside of )?(?:a|an|the|her|his|"
        rf"their) {_FIGURE}\. {_EDGE_ASKED}",
        _in_one_unit, where="e=f u=v u~length", unit="u", says="long wide all outside how",
        clue="around",
    )
    for told in (rf"{_IS_SET}", rf"{_EDGED} ")
)  # fmt: skip
"""What goes around a rectangle."""


def _until_full(given: Named) -> str | None:
    """What is still missing, by what comes in each unit of time, where that comes out."""
    full, there, each = (Fraction(given[name]) for name in ("n", "k", "r"))
    if not same(given.get("spans", given["span"]), given["span"]):
        return None
    if each == 0 or not there < full or (100 * (full - there) / each).denominator != 1:
        return None
    return "(n − k) ÷ r"


_FILLS = one_of(
    r"(?:a|an|the) <n> [u] [b] (?:already )?(?:has|holds|contains) <k> [v](?: of [_])?(?: in it)?",
    r"(?:a|an|the) [b] (?:can hold|holds) <n> [u](?: of [_])?(?:\. it| and) (?:already )?(?:has|"
    r"contains) <k> [v](?: of [_])?(?: in it)?",
)
FILLED: tuple[Form, ...] = (
    form(
        "until full",
        rf"{_FILLS}\. (?:if )?{{who}}(?:adds|pours in|puts in|fills it with|flows in at) <r>"
        r" [inflow]"
        r"(?: of [_])? (?:each|every|per|a) [span](?:\.| ) ?how (?:many [spans]|long) (?:will|does"
        r"|would) it "
        r"take (?:until the [c] is full|to fill (?:it|the [c])|for the [c] to be full|before the"
        r" [c] is"
        r" full)",
        _until_full, where="u=v u=inflow span~time", unit="span",
        says="already each every per if until before full how", clue="fill full",
    ),
)  # fmt: skip
"""How long it takes until something is full."""

ROWS = (*EDGES, *FILLED)
