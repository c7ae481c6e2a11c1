"""Lines that the units of the amounts make: rates with what counts their groups, then joined."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from narrate.exact.parser import parse_expr
from narrate.exact.tree import value
from narrate.reading.words.offered_amounts import Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.offered_kinds import holds

Names = frozenset[str]


@dataclass(frozen=True, slots=True)
class Term:
    """A part of a line: what it counts, and what it is so much for each of."""

    line: str
    unit: str
    per: Names


def by_units(story: Told) -> Iterator[str]:
    """The one line in which every rate is used with its groups, "" where units leave none."""
    if not story.of("each") or any(
        a.role not in ("amount", "each", "groups") for a in story.amounts
    ):
        return
    terms = _multiplied([_term(a) for a in story.amounts])
    rates = [t for t in terms if t.per]
    plain = [t for t in terms if not t.per]
    if len(rates) == 1 and plain and _asked(story, rates[0].per):
        yield f"{_held(_joined(story, plain))} ÷ {rates[0].line}"
    elif not rates and len(plain) > 1:
        yield _joined(story, plain)
    elif len(terms) == 1 and plain:
        yield plain[0].line


def _asked(story: Told, names: Names) -> bool:
    return bool(names & {story.head, story.query.head} - {""})


def _term(amount: Amount) -> Term:
    return Term(amount.said, amount.unit, amount.per if amount.role == "each" else frozenset())


def _multiplied(terms: Sequence[Term]) -> list[Term]:
    """The terms with each rate multiplied by what counts its groups, where that is one term."""
    left = list(terms)
    for _ in terms:
        for rate in [t for t in left if t.per]:
            groups = [t for t in left if t.unit in rate.per and t.unit != rate.unit]
            if len(groups) == 1 and rate.unit not in groups[0].per:
                of = groups[0]
                left[left.index(of)] = Term(f"{of.line} × {rate.line}", rate.unit, of.per)
                left.remove(rate)
                break
    return left


def _joined(story: Told, terms: Sequence[Term]) -> str:
    """Terms of one kind added, or the others taken from the largest where something is left."""
    ordered = list(terms)
    takes = holds(story, "left|rest|not|differ|need|goal|profit")
    if takes:
        ordered.sort(key=lambda t: value(parse_expr(t.line)), reverse=True)
    return (" − " if takes else " + ").join(t.line for t in ordered)


def _held(line: str) -> str:
    """A line in parentheses where it joins amounts."""
    return f"({line})" if "+" in line or "−" in line else line
