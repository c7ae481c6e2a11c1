"""A text made a story: its clauses, its quantities and its question."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from narrate.exact.tree import Whole
from narrate.reading.words.clauses import Clause, clauses
from narrate.reading.words.declining import unsure
from narrate.reading.words.facts import Story
from narrate.reading.words.lexicon import NAMES_NOTHING, NO_THING, UNITS
from narrate.reading.words.notes import whole
from narrate.reading.words.plain import MOST_NUMBERS, SHORT, word_set
from narrate.reading.words.quantities import quantities
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.question import find_question, read_question
from narrate.reading.words.sentences import plain_sentences
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.whom import resolve
from narrate.reading.words.why_told import told_plainly

NO_LETTERS: Mapping[str, int] = {}
_HERE = word_set("first other last these those all")
"""Words before a number of the question that point at an amount told already."""


def tell(text: str, letters: Mapping[str, int] = NO_LETTERS, *, asks_work: bool = False) -> Story:
    """The story of a text. Raises Declined where there is not one question of a known form.

    `letters` are read as numbers. With `asks_work`, a question for an expression is read as the
    question that the expression answers.
    """
    read = [_as_number(token, letters) for token in tokens(text)] if letters else tokens(text)
    if sum(token.kind == "n" for token in read) > MOST_NUMBERS:
        raise unsure(text[:SHORT], f"there are more than {MOST_NUMBERS} numbers")
    found = plain_sentences(read, asks_work=asks_work)
    where = find_question(found)
    if where is None and (found := whole(found)):
        where = find_question(found)
    if where is None:
        raise unsure(text, "I do not see what one thing is asked")
    number, at, end = where
    asking = found[number]
    if at and asking[at - 1].low in ("about", "approximately", "roughly"):
        raise unsure(text, "the question asks for an estimate")
    if at == 1 and asking[0].text[:1].isupper() and asking[0].low not in NO_THING:
        raise unsure(text, f"the question begins with “{asking[0].text}”")
    after = [s for s in found[number + 1 :] if not _is_instruction(s)]
    told = [*found[:number], asking[:at], asking[end:], *after]
    made = [c for n, s in enumerate(told) if s for c in clauses(n, s)]
    asked = _asking(number, asking[at:end])
    resolve(made, asked)
    if len(asked.subject) > 1 and any(_is_somebody(c) for c in made if c.sentence > number):
        raise unsure(text, told_plainly("who is meant is not certain"))
    who = _pronouns(made)
    query = read_question(asking[at:end], who)
    if query is None:
        raise unsure(text, "I do not understand what the question asks for")
    inside = _inside(len(told), asking[at:end], who, query)
    amounts = quantities([*made, *inside])
    amounts = [replace(q, asked=True) if q.clause >= len(made) else q for q in amounts]
    pointed = {t.start for b, t in pairwise(asking) if b.low in _HERE}
    amounts = [q for q in amounts if not q.asked or (q.known and q.start not in pointed)]
    amounts = _with_asked(amounts, text, query, frozenset(w for c in made for w in c.who))
    return Story(text=text.lower(), clauses=made, quantities=amounts, query=query)


def _with_asked(
    amounts: list[Quantity], text: str, query: Query, owners: frozenset[str]
) -> list[Quantity]:
    """The amounts with what the question says of them: stamps, if she had 85; of his $25."""
    untold = not any(q.thing for q in amounts) and all(q.start > query.start for q in amounts)
    if query.thing and untold:
        amounts = [replace(q, thing=query.thing, borrowed=True) for q in amounts]
    return [_all_there(q, text, query.words & owners) for q in amounts]


def _all_there(q: Quantity, text: str, owners: frozenset[str]) -> Quantity:
    """An amount of the question that is all there was: how much of his $25 will he have left?"""
    of_all = re.search(r"\bhow (?:many|much) of (?:the|his|her|their) $", text[: q.start].lower())
    if not q.asked or not of_all or q.sort != "amount":
        return q
    all_there = replace(q, verb="have", verb_sort="own", before=True, who=owners)
    return replace(all_there, after=False, left=False)


_NO_NAMES = NAMES_NOTHING | UNITS


def _asking(number: int, asked: Sequence[Token]) -> Clause:
    """The question as a clause: whom it names, else the things it names."""
    words = [t for t in asked[2:] if t.kind == "w" and t.low not in _NO_NAMES]
    named = [t for t in words if t.text[:1].isupper()]
    subject = [t for t in asked if t in named or (t.low == "and" and named)] or words
    who = frozenset(t.lemma for t in named or words)
    return Clause(sentence=number, stretches=[asked], subject=subject, who=who)


def _is_somebody(clause: Clause) -> bool:
    """Whether a clause speaks of a "he" or "she" who is not known."""
    return not clause.who and bool({t.low for t in clause.subject} & {"he", "she"})


def _as_number(token: Token, letters: Mapping[str, int]) -> Token:
    number = letters.get(token.text) if token.kind == "w" else None
    return token if number is None else replace(token, kind="n", tree=Whole(number))


_INSTRUCTIONS = word_set(
    "give write express show simplify leave explain draw select choose enter type"
)


def _is_instruction(sentence: Sequence[Token]) -> bool:
    """Whether a sentence behind the question says how to answer, and tells no number."""
    return sentence[0].low in _INSTRUCTIONS and all(t.kind != "n" for t in sentence)


def _inside(
    number: int, asking: Sequence[Token], who: Mapping[str, frozenset[str]], query: Query
) -> list[Clause]:
    """The clauses inside the question, which may tell amounts of its own.

    "How much do 2 pens and 2 pads cost" has one verb, which is the question's.
    """
    made = clauses(number, [t for t in asking if t.kind != "p"][2:])
    for clause in made:
        words = (who.get(t.low, frozenset({t.lemma})) for t in clause.subject if t.kind == "w")
        clause.who = frozenset().union(*words)
        if clause.base == "do":
            clause.base, clause.sort = query.verb, query.verb_sort
    return made


def _pronouns(made: Sequence[Clause]) -> dict[str, frozenset[str]]:
    """Whom the pronouns of the question mean."""
    owners = [c.who for c in made if c.who]
    last = owners[-1] if owners else frozenset()
    named = [c.who for c in made if c.who and any(_is_name(w) for w in c.subject)]
    things = [who for who in owners if who not in named]
    person = named[-1] if named else last
    several = len(set(owners)) > 1 or (last == person and len(last) == 1)
    return {
        **dict.fromkeys(("he", "she", "his", "her", "him"), person),
        **dict.fromkeys(("they", "their", "them"), frozenset() if several else last),
        **dict.fromkeys(("it", "its"), things[-1] if things else last),
    }


def _is_name(word: Token) -> bool:
    return word.text[:1].isupper() and word.low not in NO_THING
