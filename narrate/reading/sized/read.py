"""A story of one measure read whole: every sentence by a row, then the one answer that uses all."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from narrate.errors import ExactError
from narrate.reading.sized.answers import Asked
from narrate.reading.sized.asked import ask
from narrate.reading.sized.clauses import clause, cut
from narrate.reading.sized.forms import NOUNS, UNIT, line, one_of
from narrate.reading.sized.reworded import reworded
from narrate.reading.sized.teller import Teller
from narrate.reading.sized.told import NUMBER, fits, tell
from narrate.reading.sized.world import UnreadError, World
from narrate.reading.words.clauses import sentences
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.lexicon import COLOURS, one
from narrate.reading.words.plain import BELOW_ZERO
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.two import told_apart_by_order
from narrate.reading.words.understood import Understood, from_answer

_MOST_SENTENCES, _LONGEST = 8, 700
_ASKS = re.compile(
    r"\b(?:how (?:many|much|tall|high|long|deep|wide|thick|old|heavy|far|hot"
    r"|warm|cold)|what (?:[a-z]+ )?(?:is|was|will|are|were|did|does|do|would))\b",
    re.I,
)
_ORDERS = re.compile(r"(?:find|state|give|calculate|work out|determine) ", re.I)
_FIND_HOW = re.compile(r"^(?:find|work out|tell|determine)(?: out)? (?=how )", re.I)
_AGES = re.compile(r"\b(?:old|older|younger|ages?)\b", re.I)
_OPENS = re.compile(r"^(?:and|but|so|then)(?: ,)? ", re.I)


def read_sized(text: str) -> Understood | None:
    """What a story of one measure asks and its answer; None where not all of it is read."""
    if len(text) > _LONGEST or BELOW_ZERO.search(text.lower()):
        return None
    found = told_apart_by_order(sentences(tokens(text)))
    if not 1 <= len(found) <= _MOST_SENTENCES:
        return None
    try:
        return _read(text, found)
    except (UnreadError, ExactError):
        return None


def _read(text: str, found: Sequence[Sequence[Token]]) -> Understood:
    numbers: list[Token] = []
    lines = [reworded(_then_or_now(_ASIDE.sub("", line(sentence, numbers)))) for sentence in found]
    told, question, at = _apart(lines)
    if not all(NUMBER.search(said) for said in told):
        raise UnreadError
    world = World(numbers)
    teller = Teller(world, ages=bool(_AGES.search(text)))
    for said in told:
        clauses = cut(_OPENS.sub("", said), fits)
        if clauses is None:
            raise UnreadError
        for each in clauses:
            tell(teller, each)
    asked, unit = _without_unit(question)
    if (
        unit
        and one(unit) not in world.units
        and not (unit.startswith("dollar") and "dollar" in world.units)
    ):
        raise UnreadError
    answer = ask(teller, clause(asked))
    _judge(teller, answer)
    return _understood(text, teller, answer, found[at])


_ASIDE = re.compile(
    r" , (?:says|said|according to) (?:(?:the|her|his) )?[^\W\d_]+ ?,?(?= |$)", re.I
)


_OLD_PRICE = re.compile(
    rf"\b(the|its|his|her|their) (?:(original|old|starting|former|regular|first)"
    rf"|new|current|final|present|sale) (?={one_of([*NOUNS])}\b)",
    re.I,
)


_AGED = re.compile(r"^([^,]+) , (?:aged|who is) (#\d+)(?: years old)? , (?=is )", re.I)


def _then_or_now(text: str) -> str:
    """The old price as the price originally, the new price as the price now; ages as sentences."""
    text = _AGED.sub(r"\1 is \2 years old and ", text)
    return _OLD_PRICE.sub(lambda m: f"{'originally' if m[2] else 'now'} {m[1]} ", text)


def _apart(lines: Sequence[str]) -> tuple[list[str], str, int]:
    """The sentences that tell, the question, and its place."""
    asking = [i for i, said in enumerate(lines) if _ASKS.search(said) or _ORDERS.match(said)]
    if len(asking) != 1:
        raise UnreadError
    at = asking[0]
    told, question = [*lines[:at], *lines[at + 1 :]], lines[at]
    begins = re.search(r"(?:^|,? )(?:by )?(?:how|what) ", question, re.I)
    if re.match(r"(?:if|when) ", question, re.I) and begins and begins.start():
        told.append(question[: begins.start()].split(" ", 1)[1])
        question = question[begins.start() :].lstrip(" ,")
    elif " if " in question:
        question, _, condition = question.partition(" if ")
        told.append(condition)
    return told, _FIND_HOW.sub("", _OPENS.sub("", question.strip(" ,"))), at


_IN_UNIT = re.compile(rf",? in (?P<unit>{UNIT})(?: ,|$)", re.I)


def _without_unit(question: str) -> tuple[str, str]:
    """A question without the unit that it asks for the answer in, and that unit."""
    found = _IN_UNIT.search(question)
    if found is None:
        return question, ""
    rest = f"{question[: found.start()].strip()} {question[found.end() :].strip()}"
    return rest.strip(" ,"), found["unit"].lower()


def _judge(teller: Teller, answer: Asked) -> None:
    """Raises UnreadError unless all numbers are used, of one unit and of one measure."""
    world = teller.world
    if {*answer.used, *world.silent} != set(range(len(world.numbers))):
        raise UnreadError
    units = world.units - {""}
    if (
        len(units) > 1
        or not _one_thing(world.counted)
        or ("" in world.units and units and not (teller.ages and units == {"year"}))
    ):
        raise UnreadError
    if world.measures and not frozenset.intersection(*world.measures):
        raise UnreadError
    plain = teller.ages or units or world.counted
    if not plain or (units <= {"day", "week", "month"} and units and not teller.ages):
        raise UnreadError
    if (
        teller.ages
        and not units
        and world.measures
        and not frozenset.intersection(*world.measures) & {"age"}
    ) and not world.counted:
        raise UnreadError


def _one_thing(counted: Collection[tuple[str, ...]]) -> bool:
    """Whether all that is counted is one thing: seed packets, and packets; no red ones and blue."""
    longest = max(counted, key=len, default=())
    return all(
        words == longest or (words == longest[-len(words) :] and longest[0] not in COLOURS)
        for words in counted
    )


def _understood(text: str, teller: Teller, answer: Asked, asked: Sequence[Token]) -> Understood:
    world = teller.world
    units = world.units - {""}
    unit = next(iter(units), "year" if teller.ages and not world.counted else "")
    money = unit == "dollar"
    thing = world.asked_unit or (
        unit.split()[0] if unit else next((each[-1] for each in sorted(world.counted)), "")
    )
    told = tuple(
        _quantity(text, world, n, unit, thing, money, answer) for n in range(len(world.numbers))
    )
    used = tuple(q for n, q in enumerate(told) if n in answer.used)
    made = Answer(tree=answer.tree, used=used, situation=answer.situation, unknown=answer.unknown)
    query = Query(
        kind="much" if money else "times" if answer.unknown == "number of groups" else "many",
        thing=("dollar",) if money else (thing,) if thing else (),
        words=frozenset(),
        start=asked[0].start,
        end=asked[-1].end,
    )
    story = Story(text=text.lower(), clauses=(), quantities=told, query=query)
    return from_answer(text, story, made)


def _quantity(
    text: str, world: World, number: int, unit: str, thing: str, money: bool, answer: Asked
) -> Quantity:
    token = world.numbers[number]
    related = any(link.number == number and not link.change for link in world.relations)
    times = related and any(link.number == number and link.sign == "×" for link in world.relations)
    measure = unit.split()[0] if unit else ""
    end = _end(text, token.end, measure or thing)
    return Quantity(
        start=token.start,
        end=end,
        tree=token.tree,
        sort="times" if times else "compare" if related else "amount",
        thing=(measure,) if measure else (thing,) if thing else (),
        money=money,
        text=text[token.start : end],
    )


def _end(text: str, end: int, counted: str) -> int:
    """Where the word for what is counted ends, if it stands right behind a number."""
    behind = re.match(r"[ -]([^\W\d_]+)", text[end:])
    return end + behind.end() if behind and one(behind[1]) == counted else end
