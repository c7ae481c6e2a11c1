"""What is asked, each a row: how a question is written, and what answers it."""

from __future__ import annotations

from dataclasses import dataclass

from narrate.reading.sized.answers import (
    Answerer,
    Asked,
    amount,
    change,
    difference,
    needed,
    ratio,
    total,
    up_to,
)
from narrate.reading.sized.clauses import Clause
from narrate.reading.sized.rows import is_named, may_fit, pattern
from narrate.reading.sized.teller import Teller
from narrate.reading.sized.world import UnreadError


@dataclass(frozen=True, slots=True)
class Row:
    """How a question is written, and what answers it."""

    form: str
    answer: Answerer


_IS = r"(?P<W>is|was|are|were|must|should|will|did|does|do|would|has|had)"
_SIZE = r"(?P<A>tall|high|long|deep|wide|thick|old|heavy|far away|far|hot|warm|cold)"
_TWO = (
    r"(?:they|it all|(?:the |these |all |those )?(?:(?P<Q>#\d+|both)(?: of)?(?: the)? )?"
    r"(?P<T>[a-z]+))"
)
_BOTH = r"(?:the |these |all |those )?(?P<Q>#\d+|both)(?: of)?(?: the)? (?P<T>[a-z]+)"
_FIND = r"(?:what {W} |find |state |give |calculate |work out |determine )"
_AMOUNTS = (
    rf"how {_SIZE} {{W}} {{S}}(?: be| been| become)?{{FROM}}",
    r"how (?:much|many {U})(?: {A})? {W} {S}"
    r"(?: (?:be|(?P<V>weigh|cost|measure|hold|last|take|stand)))?"
    r"(?: (?:long|tall|high|wide|deep|old|far))?",
    r"how many {U}(?: {A})? {W} {S}(?: {Vb})?{FROM}",
    r"how many {G}(?: {A})? {W} {S}(?: {Vb})?{FROM}",
    r"how much money {W} {S} {Vb}",
    r"how (?:much|many) {W} {S} {Vb}",
    rf"how {_SIZE} {{S}} {{W}}",
    r"how (?:much|many {U}) {S} (?P<V>weighs?|weighed|costs?|holds?|held)",
    r"how many {G} {S} {Vb}",
    rf"{_FIND}{{S}}(?: be)?",
    r"how (?P<A>long) {W} it take {S}(?: to (?P<E>[a-z ]+))?",
    r"how many {U} {W} it take {S}(?: to (?P<E>[a-z ]+))?",
    r"what {D} {W} {S}(?: be| have| reach)?",
    r"how many {S} {W} there",
    r"what {W} {S} (?P<V>show|hold|sell for)",
    r"what {W} {S} (?P<V>weigh|cost|measure)",
)
_DIFFERENCES = (
    r"how much {C} {W} {S} (?P<V>weigh|cost|measure|hold|last|take)(?: than {O})?",
    r"how (?:much|many {U}) {C}{FROM} {W} {S}(?: than {O})?",
    r"how (?:much|many {U}) {C} than {O} {W} {S}",
    r"how many {C} {U} {W} {S}(?: {Vb})?(?: than {O})?",
    r"how many {C} {G} {W} {S}(?: {Vb})?(?: than {O})?",
    r"how much {C} {W} {S} {Vb}(?: than {O})?",
    r"how much {C} money {W} {S} {Vb}(?: than {O})?",
    r"how many {U} {C} {W} {S} {Vb}(?: than {O})?",
    r"how many {U} {C} {W} it (?:in|at|on) {S}(?: than (?:in|at|on) {O})?",
    r"by how (?:much|many {U}) {W} {S} {C}(?: than {O})?",
    r"how (?:much|many {U}) {C} {W} it take {S}(?: to (?P<E>[a-z ]+?))?(?: than {O})?"
    r"(?: to (?P<E2>[a-z ]+))?",
    r"{S} {W} how (?:much|many {U}) {C} than {O}",
    rf"{_FIND}the (?:age )?difference (?:in|between)(?: their| the| these)?(?: #\d+)? {{Ds}}",
    rf"{_FIND}the difference (?:in|between) (?:the )?{{Ds}} (?:of|between|for) {{S}} and {{P}}",
    rf"{_FIND}the difference between {{S}} and {{P}}",
    r"how many {U} apart(?: in {D})? {W} {S} and {P}",
    r"how many {U} apart(?: in {D})? {W} they",
)
_ENOUGH = (
    r"(?:have |get |reach |buy |own |weigh |be )?"
    r"(?:as (?:many|much|tall|old|heavy|long)(?: {G2})? as"
    r"|the same (?:number|amount)(?: of {G2})? as"
    r"|catch up with|catch up to|match|equal|tie with|tie) {O}"
)
_UP_TO = (
    r"how (?:much|many {U})(?: {C})? {W} {S} (?:need to |have to )?(?:grow|gain|rise|get)(?: {C})?"
    r"(?: in order)? to (?:be|reach|weigh|measure) {N}(?: {A})?",
)
_GET = "(?:get|save|find|collect|pick|buy|gain|earn|read|score|have|make|grow)"
_NEEDS = (
    rf"how (?:many more (?:{{U}}|{{G}})|much more(?: money)?) "
    rf"{{W}} {{S}} (?:need|have|want|get)(?: to {_GET})?"
    rf"(?: in order)? to {_ENOUGH}",
    rf"how many more (?:{{U}}|{{G}}) must {{S}} {_GET}(?: in order)? to {_ENOUGH}",
)
_RISE = "(?P<R>rise|increase|gain|growth|drop|fall|decrease|loss|change|difference)"
_CHANGES = (
    r"(?:by )?how (?:much|many {U})(?: {C}| in {D})? {W} {S} {CH}(?: in {D})?",
    r"how (?:much|many {U})(?: of {D})? {W} {S} {CH}",
    rf"{_FIND}the {_RISE} in {{S}}",
    rf"{_FIND}its {_RISE}",
    r"how (?:much|many {U}) {C} did {S} (?:get|become|grow)",
    r"how (?:much|many {U}) (?:of {S} )?(?:was|were) "
    r"(?P<R>cut off|trimmed off|cut|trimmed|sawed off)",
    r"how (?:much|many {U}) {W} (?:{NAME}) (?P<R>cut off|trim off|cut|trim)(?: of)?(?: {S})?",
    r"how (?:much|many {U}) {W} {S} (?:price|temperature|level|height|weight) {CH}",
)
_RATIOS = (
    r"how many times as (?:{A}|many|much)(?: {G})? as {P} {W} {S}(?: {Vb})?",
    r"how many times as (?:{A}|many|much)(?: {G})? {W} {S}(?: {Vb})? as {O}",
    r"{S} {W}(?: {Vb})? how many times as (?:{A}|many|much)(?: {G})? as {O}",
    r"{S} {Vb} how many times as (?:many|much)(?: {G})? as {O}",
)
_TOTALS = (
    rf"{_FIND}the (?:sum|total) of (?:their|the|these)(?: #\d+)? {{Ds}}",
    rf"{_FIND}the (?:total|combined) {{Ds}} of {{S}} and {{P}}",
    rf"{_FIND}the (?:total|combined) {{Ds}} of {_TWO}",
    rf"{_FIND}(?:their|the) (?:total|combined) {{Ds}}",
    r"how (?:much|many {U}|many {G}|much money|old) {W} {S} and {P}(?: {Vb})? {ALL}",
    r"how (?:much|many {U}|many {G}) {W} the (?P<Q>#\d+)(?: of them)? {Vb} {ALL}",
    rf"how (?:much|many {{U}}|many {{G}}|much money|{_SIZE}) {{W}} "
    rf"{_TWO}(?: {{Vb}})? {{ALL}}",
    rf"{{ALL}} ,? ?how (?:much|many {{U}}|many {{G}}|much money) {{W}} {_TWO} {{Vb}}",
    rf"what {{W}} {_TWO} (?P<V>weigh|cost|measure) {{ALL}}",
    r"how (?:much|many {U}) {W} {S} and {P} (?P<V>weigh|cost)",
    rf"how (?:much|many {{U}}|many {{G}}) {{W}} {_BOTH} {{Vb}}",
    r"how (?:much|many {U}) {W} both(?: of them)? (?P<V>weigh|cost)(?: {ALL})?",
)
_ROWS: tuple[tuple[tuple[str, ...], Answerer], ...] = (
    (_NEEDS, needed), (_UP_TO, up_to), (_RATIOS, ratio), (_DIFFERENCES, difference),
    (_CHANGES, change), (_TOTALS, total), (_AMOUNTS, amount),
)  # fmt: skip


def _form(text: str) -> str:
    return (
        text.replace("{W}", _IS)
        .replace("{D2}", r"(?:price|temperature|level)")
        .replace("{G2}", r"(?:[a-z]+)")
    )


ROWS: tuple[Row, ...] = tuple(Row(_form(text), answer) for texts, answer in _ROWS for text in texts)
"""What questions ask; the first row that fits a question reads it."""


def ask(teller: Teller, clause: Clause) -> Asked:
    """The answer to a question. Raises UnreadError where its form is not known, or not certain."""
    for row in ROWS:
        if not may_fit(row.form, clause.text):
            continue
        m = pattern(row.form).fullmatch(clause.text)
        if m is None:
            continue
        groups = m.groupdict()
        if is_named(groups.get("S")) and is_named(groups.get("O")):
            return row.answer(teller, m, clause)
    raise UnreadError
