"""What the words beside a number say it is for, held against what a reading does with it.

A second look that knows nothing of how a reading came about: the units must come out as those that
are asked for, an amount told as "so much more" is not multiplied, one of what there was is not
added to it, and what is left is not a sum. A reading that the words beside its numbers contradict
does not stand.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator

from narrate.exact.tree import Expr, Frac, Group, Mixed, Neg, Op
from narrate.reading.vetoes.vetoed import vetoed
from narrate.reading.words.amiss import amiss
from narrate.reading.words.askew import askew
from narrate.reading.words.facts import Answer, Story
from narrate.reading.words.goings import misdirected
from narrate.reading.words.lexicon import NO_THING, UNITS
from narrate.reading.words.passed_over import passed_over
from narrate.reading.words.plain import BELOW_ZERO, word_set
from narrate.reading.words.quantity import Quantity

Units = Counter[str]
"""Measures with their powers: {"length": 2} of an area; counts of things have none."""

_MEASURES = {
    "length": "inch foot yard mile meter centimeter kilometer millimeter",
    "mass": "gram kilogram pound ounce ton milligram",
    "volume": "liter milliliter gallon quart pint",
    "money": "dollar cent penny",
}
MEASURE_OF = {unit: name for name, units in _MEASURES.items() for unit in units.split()}
_FAR = word_set("far tall wide deep high")
_SIZES = word_set("height length width depth distance")
_HEAVY = word_set("heavy weigh weight mass")


def contradicted(story: Story, answer: Answer) -> str:
    """What of the words a reading goes against, "" if nothing."""
    told = {id(q.tree): q for q in story.original if q.tree is not None}
    joined = [(told[id(leaf)], role) for leaf, role in _roles(answer.tree) if id(leaf) in told]
    whole = len(joined) == len(answer.places)  # else one stands for itself: for 1 inch
    asked = _asked(story) if whole and answer.situation != "area" else None
    found = _units(answer.tree, told) if asked is not None else None
    if found is not None and found != asked:
        return "the units do not come out as asked"
    if reason := vetoed(story.text, answer.tree):
        return reason
    return (
        _by_numbers(story, joined)
        or amiss(story, answer, joined)
        or askew(story, answer, joined)
        or passed_over(story, answer)
        or _by_parts(story, answer, joined)
        or _by_question(story, answer, joined)
    )


Joined = list[tuple[Quantity, str]]
"""The amounts of a reading, each with the operation that joins it."""


def _by_numbers(story: Story, joined: Joined) -> str:
    """What the words beside single numbers speak against."""
    if any(role in "×÷" and _is_so_much_more(story, q) for q, role in joined):
        return "so much more or less is neither multiplied nor divided"
    if BELOW_ZERO.search(story.text):
        return "a number is below zero"
    if any(_is_up_or_down(q, role) for q, role in joined) and _DEEP.search(story.text):
        return "what rises from below is less deep"
    if any(_turned_round(story, q, role) for q, role in joined):
        return "what became less was more before"
    return ""


def _by_parts(story: Story, answer: Answer, joined: Joined) -> str:
    """What is said of a whole and its parts, of what went and what is left, against a reading."""
    if misdirected(story, answer):
        return "what went is not added, what came is not taken away"
    if answer.unknown != "start" and _adds_what_went(story, joined):
        return "one amount is some of the other"
    if answer.unknown == "not so" and answer.situation == "take from" and _is_not_left(story):
        return "what is not left is what went"
    if _is_of_both(story, answer) or (story.query.began and answer.situation in _COMPARED):
        return "so much more or less is of something else"
    if _is_told_part(story, answer):
        return "the part itself is told"
    if _counts_in_pieces(story, answer):
        return f"the {story.query.head} would not be whole"
    return ""


def _by_question(story: Story, answer: Answer, joined: Joined) -> str:
    """What the question asks for, against a reading."""
    if story.query.began and answer.unknown == "change":
        return "the question asks for what was there before"
    if _asks_who_added(story, answer):
        return "whose the first amount is, is not told"
    if answer.unknown == "result" and any(r == "−" and _only_is_so(story, q) for q, r in joined):
        return "what is broken is still there"
    signs = {node.sign for node in _operations(answer.tree)}
    if signs in ({"+"}, {"+", "×"}) and _asks_what_is_left(story):
        return "the question asks for what is left"
    return ""


def _asked(story: Story) -> Units | None:
    """The measures of the answer that is asked for, None where that is not certain."""
    query = story.query
    if query.kind in ("area", "fraction", "times", "average") or query.per:
        return None
    if story.money_asked:
        return Counter(money=1)
    unit = next((MEASURE_OF[w] for w in query.thing if w in MEASURE_OF), "")
    if unit:
        return None if "square" in query.lows or "cubic" in query.lows else Counter({unit: 1})
    lows = set(query.lows)
    if query.kind == "many" and query.thing:
        return None
    far = lows & _SIZES or _FAR & {*query.lows[1:2]}  # how tall; not: the tall glass
    for said, name in ((far, "length"), (lows & _HEAVY, "mass")):
        if said:
            return Counter({name: 1})
    return None


def _units(tree: Expr, told: dict[int, Quantity]) -> Units | None:
    """The measures of a tree's value; None where two that are joined have not the same."""
    match tree:
        case Group(inner) | Neg(inner):
            return _units(inner, told)
        case Op(sign, left, right):
            first, second = _units(left, told), _units(right, told)
            if first is None or second is None:
                return None
            if sign in "+−":
                return first if first == second else None
            powers = first.copy()
            for name, power in second.items():
                powers[name] += power if sign == "×" else -power
            return Counter({name: power for name, power in powers.items() if power})
        case _:
            q = told.get(id(tree))
            return _of(q) if q is not None else Counter()


def _of(q: Quantity) -> Units:
    """The measures of one amount, those it is told for each of below the line."""
    if q.percent or q.sort == "times" or (q.sort == "part" and q.borrowed):
        return Counter()
    found: Units = Counter()
    if q.money:
        found["money"] += 1
    else:
        found.update({MEASURE_OF[w] for w in q.thing if w in MEASURE_OF})
    per = [MEASURE_OF[w] for w in q.per or q.of_one if w in MEASURE_OF]
    found.subtract(per * len("ab") if "square" in q.per[:-1] else per)  # $6 a square meter
    return Counter({name: power for name, power in found.items() if power})


def _roles(tree: Expr, role: str = "") -> Iterator[tuple[Expr, str]]:
    """Each number of a tree with the operation that joins it."""
    match tree:
        case Group(inner) | Neg(inner):
            yield from _roles(inner, role)
        case Op(sign, left, right):
            yield from _roles(left, sign)
            yield from _roles(right, sign)
        case _:
            yield tree, role


def _operations(tree: Expr) -> Iterator[Op]:
    match tree:
        case Group(inner) | Neg(inner):
            yield from _operations(inner)
        case Op(_, left, right):
            yield tree
            yield from _operations(left)
            yield from _operations(right)
        case _:
            return


_MORE = (
    r"(?:more|less|fewer|longer|shorter|taller|higher|lower|heavier|lighter|older|younger|wider"
    r"|narrower|deeper|cheaper|larger|smaller|bigger|farther|further|faster|slower|warmer|colder)"
)
_SO_MUCH_BEHIND = re.compile(rf"^(?: [^\W\d_]+)?(?: of [^\W\d_]+)? {_MORE}\b(?! times)")
_SO_MUCH_BEFORE = re.compile(rf"\b{_MORE}(?: [^\W\d_]+){{0,3}} by (?:about |only |exactly )?$")


def _is_so_much_more(story: Story, q: Quantity) -> bool:
    """Whether an amount is told as a difference: 3 kilograms heavier, lighter by 3 kilograms."""
    if q.sort in ("times", "rate") or q.percent:
        return False
    number = re.match(r"[\d.,/ ]*[\d%]|[^\W\d_]+", story.text[q.start :])
    behind = story.text[q.start + (number.end() if number else 0) :]
    found = _SO_MUCH_BEHIND.match(behind)
    return (found is not None and "than" in behind.split(".")[0]) or bool(
        _SO_MUCH_BEFORE.search(story.text[: q.start])
    )


_DEEP = re.compile(r"\b(?:below|beneath|underwater|underground|deep|depth|under (?:the )?water)\b")
_UP, _DOWN = (
    word_set("rise climb ascend swim float go move"),
    word_set("sink dive descend fall drop"),
)


def _is_up_or_down(q: Quantity, role: str) -> bool:
    """Whether an amount is added for going up, or taken away for going down."""
    return (role == "+" and q.verb in _UP) or (role == "−" and q.verb in _DOWN)


_BECAME = re.compile(
    r"\b(?:get|gets|got|become|becomes|became|grew|grown|made it) (?P<how>[a-z]+er|less|more)"
    r"(?: [^\W\d_]+){0,3} by (?:about |only |exactly )?$"
)
_LESS = re.compile(r"short|light|less|small|low|thin|narrow|cheap|cold|cool|shallow|slow|near|weak")


def _turned_round(story: Story, q: Quantity, role: str) -> bool:
    """Whether an amount by which something got lighter is added to it, or so on."""
    found = _BECAME.search(story.text[: q.start])
    if found is None or role not in "+−":
        return False
    less = bool(_LESS.match(found["how"]))
    return (role == "−") != (less != story.query.began)


_OF_THEM = re.compile(r"^(?: [^\W\d_]+)? of (?:it|them|this|that|these|those)\b")


def _adds_what_went(story: Story, joined: list[tuple[Quantity, str]]) -> bool:
    """Whether of two amounts that are added just one is of "it" or "them"."""
    if story.query.total or story.query.kind == "fraction":
        return False  # both may be some of a third
    added = [q for q, role in joined if role == "+"]
    some = [q for q in added if _is_some_of(story, q)]
    holds = len(added) == len(joined) == 2 and _holds(story, *added)
    return holds or (len(added) == len(joined) == 2 and len(some) == 1 and not some[0].more)


def _holds(story: Story, first: Quantity, second: Quantity) -> bool:
    """Whether the second amount is what the first holds: 5 quarts of mix contain 2 of sand."""
    between = story.text[first.end : second.start]
    return (
        re.fullmatch(r"[^.?!;,\d]*\b(?:contains?|contained|includes?|included)\b\s*", between)
        is not None
    )


def _is_some_of(story: Story, q: Quantity) -> bool:
    number = re.match(r"[\d.,/ ]*[\d%]|[^\W\d_]+", story.text[q.start :])
    behind = story.text[q.start + (number.end() if number else 0) :]
    return bool(_OF_THEM.match(behind))


def _asks_who_added(story: Story, answer: Answer) -> bool:
    """Whether what somebody has is asked, who only added to what was there: the cook who baked."""
    query = story.query
    if answer.unknown != "result" or query.verb not in ("have", "own") or query.ended:
        return False
    first, *others = sorted(answer.used, key=lambda q: q.start)
    asked = query.words - set(query.thing)
    own = first.who | first.around | first.to
    return first.verb_sort == "be" and not own & asked and any(q.who & asked for q in others)


def _only_is_so(story: Story, q: Quantity) -> bool:
    """Whether an amount tells how some of the things are, and the question asks for all."""
    if not q.passive or q.clause >= len(story.clauses) or _END.search(story.query.text):
        return False
    return bool({"is", "are"} & story.clauses[q.clause].lows)


_END = re.compile(r"\b(?:left|remain\w*|now|still|not|good|whole|other|others)\b")
_COMPARED = ("larger", "smaller")


def _is_of_both(story: Story, answer: Answer) -> bool:
    """Whether so much more than one of two is reckoned from both of them together."""
    if answer.situation not in _COMPARED and answer.unknown not in _COMPARED:
        return False
    return any(q.sort == "amount" and (q.total or _between(story, q)) for q in answer.used)


def _between(story: Story, q: Quantity) -> bool:
    clause = story.clauses[q.clause] if q.clause < len(story.clauses) else None
    lows = [t.low for t in clause.tokens] if clause is not None else []
    return "between" in lows and bool({"them", "and"} & set(lows[lows.index("between") :]))


def _is_told_part(story: Story, answer: Answer) -> bool:
    """Whether a part is taken of those that are in it: 3/8 are rotten; there are 12 rotten ones."""
    parts = [q for q in answer.used if q.sort == "part" or q.percent]
    counts = [q for q in answer.used if q.sort == "amount" and not q.percent]
    if len(parts) != 1 or len(counts) != 1 or parts[0].clause == counts[0].clause:
        return False
    part, count = parts[0], counts[0]
    if part.clause >= len(story.clauses) or "×" not in {n.sign for n in _operations(answer.tree)}:
        return False
    said = {t.lemma for t in story.clauses[part.clause].tokens if t.kind == "w"} - NO_THING
    return bool((set(count.thing[:-1]) - UNITS) & (said - set(count.thing[-1:])))


def _counts_in_pieces(story: Story, answer: Answer) -> bool:
    """Whether things are counted in pieces though no fraction is told: 6 4/5 sacks."""
    query = story.query
    if query.kind != "many" or not query.thing or answer.value.denominator == 1:
        return False
    if set(query.thing) & UNITS or story.money_asked or cut_in_pieces(story):
        return False
    return not any(isinstance(leaf, Frac | Mixed) for leaf, _ in _roles(answer.tree))


def cut_in_pieces(story: Story) -> bool:
    """Whether things that are shared are cut in pieces: nothing of them is left over."""
    return _NONE_LEFT.search(story.text) is not None


_NONE_LEFT = re.compile(
    r"\b(?:no [a-z]+(?: [a-z]+)? (?:are |is |were |was )?left over|(?:nothing|none) (?:is |was "
    r")?left over)\b"
)
_LEFT = re.compile(
    r"\b(?:left(?! (?:the|her|his|their|home|for))|remain\w*|unsold|unused|uneaten|unread|empty"
    r"|(?:still|yet|left) to [a-z]+)\b"
)


def _is_not_left(story: Story) -> bool:
    """Whether the question asks for what is not left, or what someone does not have."""
    return bool(_LEFT.search(story.query.text)) or story.query.verb_sort == "own"


def _asks_what_is_left(story: Story) -> bool:
    """Whether the question asks for what is left of something."""
    query = story.query
    return bool(_LEFT.search(query.text)) and not query.began
