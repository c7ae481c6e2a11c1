"""What sentences tell, each a row: how a clause is written, and what it puts into the world."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from narrate.reading.sized.changed import changed, cut_off, from_to, made_change, to
from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.related import (
    compared,
    counts_compared,
    then_and_now,
    there_compared,
    there_times,
    times,
    together,
)
from narrate.reading.sized.states import done, placed, raced, state, there
from narrate.reading.sized.teller import Teller, fitting
from narrate.reading.sized.world import UnreadError


@dataclass(frozen=True, slots=True)
class Row:
    """How a clause is written, and what it tells."""

    form: str
    effect: Callable[[Teller, re.Match[str], Clause], None]


_S = r"(?:this |that |which |{S} )?"
_THING = r"(?:(?: of)? {G})?"
_STATES = (
    (r"(?:it|the (?P<D>temperature)) (?P<V>is|was) {N} (?:in|at|on) {S}", placed),
    (r"{N} (?:in|at|on) {S}", placed),
    (r"there (?:is|are|was|were) {N} {S}", there),
    (r"it (?P<V>takes|took) {S} {N}(?: to (?P<E>[a-z ]+))?", raced),
    (rf"{_S}{{BM}} {{N}}(?: {{A}}| in {{D}})?{{FROM}}", state),
    (rf"{_S}{{V}}(?: (?P<E>it|them|the {{G}}|an? {{G}}))? in {{N}}", raced),
    (rf"{_S}{{BE}} {{N}} {{G}}(?: {{A}})?{{FROM}}", state),
    (rf"{_S}(?P<V>has|had|have) an? {{D}} of {{N}}", state),
    (rf"{_S}(?P<V>has|had|have) {{N}} (?:of|in) {{D}}", state),
    (r"{N}{IN}", state),
    (r"{S} {N}{IN}", state),
)
_COMPARISONS = (
    (r"there (?:are|were) {N} (?P<C>more|fewer|less) {S} than {O}", there_compared),
    (rf"{_S}(?:{{BM}} )?{{N}} {{C}} than {{WAS}}", then_and_now),
    (rf"{_S}{{BM}} {{K}} as {{A}} as {{WAS}}", then_and_now),
    (rf"{_S}{{BM}} {{N}}(?: {{G}})? {{C}}(?: in {{D}})?{{FROM}} than {{O}}", compared),
    (rf"{_S}{{BM}} {{N}} {{C}}", compared),
    (
        r"it (?:takes|took) {S} {N} (?P<C>longer|more|less)"
        r"(?: than (?:it (?:takes|took) )?{O})?(?: to (?P<E>[a-z ]+))?",
        compared,
    ),
    (rf"{_S}{{BM}} {{C}} than {{O}} by {{N}}", compared),
    (rf"{_S}{{V}} {{N}} {{C}}{_THING} than {{O}}(?: {{V2}})?", counts_compared),
    (rf"{_S}{{BM}} (?:only )?{{K}} as {{A}} as {{O}}", times),
    (rf"{_S}{{BM}} (?:only )?{{K}} as much as {{O}}", times),
    (rf"{_S}{{BM}} {{K}} the {{D}} of {{O}}", times),
    (rf"{_S}{{BM}} {{K}} (?:of )?what {{O}}(?: sells for)?", times),
    (r"{K} (?:of )?what {O}(?: sells for)?", times),
    (rf"{_S}{{BM}} {{K}} (?:as|that) (?:much|{{A}})", times),
    (r"{S} {K} as (?:much|many|{A})", times),
    (r"there (?:are|were) {K} as many {S} as {O}", there_times),
    (rf"{_S}{{V}} {{K}} as (?:many|much)(?: {{G}})?", times),
    (rf"{_S}{{V}} {{N}} {{G}} {{C}} than {{O}}(?: {{V2}})?", counts_compared),
    (rf"{_S}{{BM}} {{K}} {{P}}", times),
    (rf"{_S}{{V}} {{K}} as (?:far|long|fast|often) as {{O}}(?: {{V2}})?", times),
    (rf"{_S}{{V}} {{K}} as (?:many|much)(?: {{G}})? as {{O}}(?: {{V2}})?", times),
)
_CHANGES = (
    (rf"{_S}{{AUX}}{{CH}}(?: by)? {{N}}(?: {{C}}| in {{D}})?(?: to {{M}})?", changed),
    (rf"{_S}(?P<V>got|became|grew|has become|has got|has gotten) {{N}} {{C}}", changed),
    (rf"{_S}(?P<V>got|became|grew|has become|has got|has gotten) {{C}} by {{N}}", changed),
    (rf"{_S}{{AUX}}{{CH}} from {{N}} to {{M}}{{IN}}", from_to),
    (rf"{_S}{{AUX}}{{CH}} to {{N}}{{IN}}", to),
    (rf"{_S}(?:is|was|goes|went) (?:on sale for|marked down to|reduced to) {{N}}", to),
    (r"(?:{NAME} )?(?:cut|trimmed|sawed|snipped|clipped) {N} (?:off|from) {S}", cut_off),
    (r"{N} (?:is|was|are|were) (?:cut|trimmed|sawed|snipped) (?:off|from) {S}", cut_off),
    (
        r"(?:{NAME} )(?P<V>raised|lowered|cut|reduced|increased|dropped) {S} by {N}(?: to {M})?",
        made_change,
    ),
)
_SUMS = (
    (r"the (?:sum|total) of {S} and {P} (?:is|was) {N}", together),
    (r"(?:{ALL} , )?{S} and {P} (?:{BMV} ){N}(?: {A}|(?: of)? {G})? {ALL}", together),
    (r"{ALL} ,? ?{S} and {P} (?:{BMV} ){N}(?: {A}|(?: of)? {G})?", together),
)
_DONE = ((rf"{_S}{{V}} {{N}}{_THING}", done),)
ROWS: tuple[Row, ...] = tuple(
    Row(text, effect) for text, effect in (*_CHANGES, *_COMPARISONS, *_STATES, *_SUMS, *_DONE)
)
"""What clauses tell; the first row that fits a clause reads it."""


NUMBER = re.compile(r"[#$½x]\d+")
"""A number in a line of words."""


def fits(clause: Clause) -> bool:
    """Whether any row reads a clause; each has one number or two."""
    if not 1 <= len(NUMBER.findall(clause.text)) <= 2:
        return False
    return any(fitting(row.form, clause) for row in ROWS)


def tell(teller: Teller, clause: Clause) -> None:
    """Put in what one clause tells. Raises UnreadError where that is not certain."""
    for row in ROWS:
        if m := fitting(row.form, clause):
            _take_up(teller, row, m, clause)
            row.effect(teller, m, clause)
            return
    raise UnreadError


def _take_up(teller: Teller, row: Row, m: re.Match[str], clause: Clause) -> None:
    """Whom "which" and "that" take up: what was named last, or the amount told."""
    if clause.joint not in ("which", "who", "that") or m.groupdict().get("S") is not None:
        teller.held = None
        return
    if teller.held is not None:
        if row.effect not in (state, done):
            raise UnreadError
        teller.last, teller.held = teller.held, None
