"""What a question or a story may say that decides between situations, each by a name."""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import partial
from typing import Final

from narrate.reading.words.lexicon import UNITS, VERBS, one
from narrate.reading.words.offered_amounts import LENGTHS, Amount
from narrate.reading.words.offered_asked import Told
from narrate.reading.words.plain import word_set

_START = (
    r"at first|beforehand|at the (?:start|beginning)|in the beginning|originally|initially|before"
    r"|(?:to )?(?:begin|start) with|to start|had \w+ \w+ed|had (?:\w+ ){1,3}been"
)
_EACH = r"each|every|per|apiece|one(?! of| more| day)|a piece"
_SHARED = r"share[sd]?|sharing|split|divid\w+|equally|evenly|equal (?:parts|groups|pieces)"
_ASKED: dict[str, str] = {
    "total": r"altogether|in all|all together|total|both|combined|together|sum|everything"
    r"|(?:one|an?) (?:\w+ ){1,4}and (?:one|an?) \w+|that (?:day|week|morning)"
    r"|in (?:the )?(?:two|2|both) \w+|th[eo]se (?:two|three) \w+",
    "left": r"left|leftover|remain\w*|rest|still|unsold|unused|empty|keep|kept|back"
    r"|(?:how much|his|her|the|their) change",
    "other": r"other|others",
    "mean": r"mean|average(?! speed)",
    "fraction": rf"fraction(?! of an? (?:{'|'.join(sorted(UNITS))})\b)|what part|which part",
    "ways": r"(?:different|possible)\b.*(?:possible|made|make|choose|form\w*|ways)",
    "profit": r"profit",
    "original": r"original|regular|usual\w*",
    "percent": r"percent\w*",
    "times": r"times as|times the|times more|how many times",
    "area": r"area|square \w+|cover\w*|tiles?|size of",
    "around": r"perimeter|border\w*|around|edging|enclose\w*",
    "volume": r"volume|cubic \w+|cubes?|fills?",
    "start": _START,
    "not": r"not|n't|never|except|without|no|un\w+ed|none",
    "owns": r"has|have|had",
    "need": r"(?:more|additional)\b.*\b(?:needs?|needed|must|to reach|until|have to|has to|short)",
    "more_than": r"more than",
    "now": r"now|then|left|remain\w*|end|after (?:that|this)",
    "ago": r"ago",
    "in_years": r"in (?:[\d]+|\w+) years",
}
_SAID: dict[str, str] = {
    "square": r"square (?!meters?|feet|foot|cent\w+|inch\w*|yards?|miles?|kilo\w+|cm|m|ft|km)\w+",
    "short": r"short",
    "emptied": r"empty",
    "got_back": r"back|change of|in change",
    "triangle": r"equilateral",
    "says_rest": r"(?:rest|remaining|others|left|leftover)",
    "off": r"off|discount\w*|sale|reduc\w+|cheaper",
    "raised": r"tax|tip|more than|raise[ds]?|increase[ds]?|went up|rose|interest",
    "shared": _SHARED,
    "goal": r"(?:wants?|wanted|needs?|goal|at least|to buy|costs?)\b"
    r".*\b(?:already|so far|has|have)",
    "halved": r"in(?:to)? (?:two|2) (?:pieces|parts|sections|piles|groups)"
    r"|one (?:\w+ )?(?:is|was)\b[^.?!]* the other",
    "as_much": r"(?:as|so) (?:far|much|many|long|high|tall|heavy|old)",
}


def _differs(told: Told) -> bool:
    longer = r"how (?:much|many)(?: \w+)? (?:more|fewer|less|\w+er)\b"
    return told.query.sign != 0 or told.asks(f"difference|{longer}")


def _asks_rest(told: Told) -> bool:
    """Whether what is asked for is told to be the rest: the others are for breads."""
    said = re.search(
        r"\b(?:rest|others|remainder)(?: of (?:the|them|these|his|her)(?: \w+)?)?,? "
        r"(?:(?:are|were|is|was|have|had) )?(\w+)", told.text)  # fmt: skip
    if said is not None and {VERBS.get(said[1], said[1]), one(said[1])} & _asked_words(told):
        return True
    for clause in told.clauses:
        words = clause.lows
        if words & {"rest", "others", "remaining", "remainder", "remained"} or "other" in words:
            counted = {
                w for a in told.amounts for w in a.told.near if a.told.clause < len(told.clauses)
            }
            lemmas = {t.lemma for t in clause.tokens} | {clause.base}
            heads = {w for a in told.amounts for w in a.told.thing}
            if (lemmas - heads - counted) & told.query.words:
                return True
    return False


def _asked_words(told: Told) -> frozenset[str]:
    """The words of the question, verbs by their plain form."""
    return told.query.words | {VERBS.get(w, w) for w in re.findall("[a-z]+", told.question)}


def _asks_told(told: Told) -> bool:
    """Whether what is asked for is what one amount already tells: how many of them did he sell?"""
    if told.asks("not|n't|left|more|fewer|less|rest|other|others|no") or _asks_rest(told):
        return False
    some = [a for a in told.of("amount") if a.told.partitive]
    return any(a.told.verb == told.query.verb not in ("be", "have") for a in some)


def _asks_unsaid(told: Told) -> bool:
    """Whether a part of them is so, and how many are something not yet named is asked for."""
    part = next((a.told for a in told.of("part")), None)
    story = told.text.replace(told.question, "")
    asked = told.query.words - {w for a in told.amounts for w in a.names}
    unsaid = not any(w in story for w in asked) or told.query.head not in story
    return part is not None and part.verb == "be" and bool(asked) and unsaid


def _asks_done(told: Told) -> bool:
    """Whether all amounts tell of the very thing done that is asked about: sold, and sold."""
    plain = told.of("amount")
    done = {a.told.verb for a in plain} == {told.query.verb}
    return done and told.query.verb_sort in ("lose", "take", "do") and not _differs(told)


def _among_both(told: Told) -> bool:
    """Whether two amounts are the two kinds of a whole: 14 boys and 10 girls, 4 red, 6 blue."""
    plain = told.of("amount")
    apart = len(plain) == 2 and plain[0].told.thing != plain[1].told.thing
    return (
        apart
        and not any(a.told.partitive or a.told.before or a.told.total for a in plain)
        and (plain[0].told.clause == plain[1].told.clause)
    )


def _asks_change(told: Told) -> bool:
    """Whether it is asked what came or went, and no amount tells that: how much did it grow?"""
    happened = told.query.verb_sort in ("gain", "lose", "take")
    happened = happened or told.query.verb in _CHANGING or told.asks("change|grow|rise|drop|climb")
    return happened and not any(a.told.verb == told.query.verb for a in told.amounts)


_CHANGING = word_set("grow climb rise fall drop change move shrink")


def _asks_each(told: Told) -> bool:
    """Whether it is asked how much each gets; told it is in "at 3/4 cup each"."""
    tells = re.search(rf"\d(?: [\w/]+){{0,2}} (?:{_EACH})\b", told.question)
    return tells is None and (bool(told.query.per) or told.asks(_EACH))


def _asks_containers(told: Told) -> bool:
    """Whether the number of groups is asked for: how many rows, how long at so much an hour."""
    each = told.of("each")
    named = {told.query.head, told.head} - {""}
    amounts = {w for a in told.of("amount") for w in a.names}
    timed = told.asks("how long|when") and any(a.per & _TIMES for a in each)
    return timed or any(a.per & named for a in each) or (bool(each) and not named & amounts
        and told.counts and not any(named & a.names for a in each))  # fmt: skip


_TIMES = word_set("second minute hour day week month year")


def _like(told: Told) -> bool:
    """Whether the plain amounts count what is told to be so much for each."""
    each, plain = told.of("each"), told.of("amount")
    return bool(each) and all(
        bool(a.names & each[0].names) or a.unit == each[0].unit for a in plain
    )


def _adding(told: Told) -> bool:
    """Whether a plain amount counts what is in the groups too: 6 rows of 14 leeks, 25 leeks."""
    each = told.of("each")
    return any(bool(a.names & e.names) or a.unit == e.unit for a in told.of("amount") for e in each)


def _chained(told: Told) -> bool:
    """Whether a group holds what is told to hold so much itself: 8 boxes of 12 in each crate."""
    each = told.of("each")
    return any(bool(a.per & b.names) for a in each for b in each if a is not b)


def _unlike(told: Told) -> bool:
    """Whether one amount measures and another counts things: cups and batches."""
    plain = told.of("amount")
    return any(a.measured for a in plain) and any(not a.measured and a.unit for a in plain)


def _is_part(told: Told) -> bool:
    """Whether the amount is told to be that part of what is asked for: 12, which is 2/3 of them."""
    plain, parts = told.of("amount"), [*told.of("part"), *told.of("percent")]
    if not plain or not parts or plain[0].told.start > parts[0].told.start:
        return False
    between = told.text[plain[0].told.end : parts[0].told.start]
    says = re.search(
        r"\b(?:which|that|this|these|it) (?:is|was|are|were|makes?) (?:only )?$", between
    )
    of_all = re.match(r"(?: ?(?:%|percent))? of\b", told.text[_behind(told, parts[0]) :])
    return says is not None and of_all is not None


def _of_it(told: Told) -> bool:
    """Whether the second part is of the first: ate 1/4 of it."""
    if len(told.of("part")) < 2:
        return False
    first, second = told.of("part")[0].told, told.of("part")[-1]
    had = first.verb_sort in ("be", "own") or first.verb == "plant"
    points = re.match(
        r" of (?:it|that|them|this|those|what (?:he|she|they|it|was))\b",
        told.text[_behind(told, second) :],
    )
    before = re.search(r"\bof (?:the|that) (\w+)(?: part)?, $", told.text[: second.told.start])
    after = re.match(r" of (?:the|that) (\w+)", told.text[_behind(told, second) :])
    named = before or after
    begun = told.text[_behind(told, told.of("part")[0]) : second.told.start]
    own = re.search(rf"\b(?:is|are|was|were)(?: \w+)? {named[1]}", begun) if named else None
    return (points is not None and had) or own is not None


def _behind(told: Told, amount: Amount) -> int:
    found = re.match(
        r"[\w/-]+(?: (?:third|quarter|fourth|fifth|half|halve|sixth|eighth|tenth)s?)?",
        told.text[amount.told.start :],
    )
    return amount.told.start + (found.end() if found else 0)


def _asks_same(told: Told) -> bool:
    """Whether a question asks for what a part tells, not for what it leaves: 2/3 sprouted."""
    parts = [a.told for a in (*told.of("part"), *told.of("percent"))]
    words = _asked_words(told) | {told.query.verb}
    return not parts or any(q.verb in ("", "be", *words) for q in parts)


def _asks_side(told: Told) -> bool:
    """Whether a question names who or when a comparison tells of: how many did Bo pick?"""
    compared = [a.told for a in told.amounts if a.role in _COMPARED]
    known = frozenset(w for a in told.of("amount") for w in (*a.told.who, *a.names))
    return any(((q.words | q.other) - known) & told.query.words for q in compared)


def _of_rest(told: Told) -> bool:
    """Whether the second part is of what the first one leaves: 1/4 of the remaining cake."""
    second = told.of("part")[-1:]
    left = (
        r" of (?:the |what )?(?:rest|remain\w*|others|left|was left|is left"
        r"|\w+ (?:that|which|who) (?:remain\w*|(?:was|were|is|are) left))"
    )
    return any(re.match(left, told.text[_behind(told, a) :]) for a in second)


def _in_question(words: str, told: Told) -> bool:
    return told.asks(words)


def _in_text(words: str, told: Told) -> bool:
    return told.says(words)


KINDS: Final[dict[str, Callable[[Told], bool]]] = {
    **{name: partial(_in_question, words) for name, words in _ASKED.items()},
    **{name: partial(_in_text, words) for name, words in _SAID.items()},
    "differ": _differs,
    "rest": _asks_rest,
    "asks_told": _asks_told,
    "asks_done": _asks_done,
    "asks_unsaid": _asks_unsaid,
    "among_both": _among_both,
    "changed": _asks_change,
    "cost": lambda t: t.head == "dollar",
    "each": _asks_each,
    "containers": _asks_containers,
    "like": _like,
    "chained": _chained,
    "unlike": _unlike,
    "is_part": _is_part,
    "of_it": _of_it,
    "of_rest": _of_rest,
    "lengths": lambda t: all(a.unit in LENGTHS or not a.unit for a in t.of("amount")),
    "by_area": lambda t: any("square" in a.per for a in t.of("each")),
    "goes": lambda t: any(
        a.told.verb_sort in ("lose", "take") for a in (*t.of("amount"), *t.of("each"))
    ),
    "each_goes": lambda t: any(a.told.verb_sort in ("lose", "take") for a in t.of("each")),
    "adding": _adding,
    "some_of": lambda t: any(a.told.before for a in t.of("amount")),
    "unasked": lambda t: not t.question,
    "in_two": lambda t: two_parts(t) is not None,
    "of_both": lambda t: any(a.told.total or of_all(t, a) for a in t.of("amount")),
    "part_gone": lambda t: any(a.told.left for a in t.of("amount")) and not t.asks("left|now|more"),
    "asks_same": _asks_same,
    "of_side": _asks_side,
    "part_first": lambda t: bool(t.of("part")) and t.amounts[0].role == "part",
    "sided": lambda t: bool(t.query.than),
    "counts": lambda t: t.counts and not any(a.measured for a in t.amounts),
    "differing": lambda t: len({a.unit for a in t.of("amount")} - {""}) > 1,
    "in_proportion": lambda t: in_proportion(t) is not None,
    "rate": lambda t: rate(t) is not None,
}


def holds(told: Told, asked: str) -> bool:
    """Whether a story says all that the conditions of a row name."""
    return all(any(_one(told, name) for name in each.split("|")) for each in asked.split())


def _one(told: Told, name: str) -> bool:
    return not KINDS[name[1:]](told) if name.startswith("!") else KINDS[name](told)


def in_proportion(told: Told) -> tuple[Amount, Amount, Amount] | None:
    """So much for so many, and how many others: of 6 pads for $15 and 10 pads, ($15, 6, 10)."""
    plain = told.of("amount")
    if told.query.sign or len(plain) != len(told.amounts):
        return None
    for other in plain:
        pair = [a for a in plain if a is not other]
        if len(pair) != 2 or not pair[0].unit == pair[1].unit != other.unit:
            continue
        for first, second in (pair, pair[::-1]):
            tied = first.told.clause == other.told.clause != second.told.clause
            if tied and (told.head in (other.unit, *other.names) or _asks_how(told, other)):
                return other, first, second
    return None


def _asks_how(told: Told, amount: Amount) -> bool:
    """Whether a measure is asked for in a word: how far, how long."""
    if told.head:
        return False
    far, long = told.asks("how far"), told.asks("how long (?:will|does|did|would)")
    return (far and amount.unit in LENGTHS) or (long and amount.unit in _TIMES)


def rate(told: Told) -> tuple[Amount, Amount] | None:
    """What is asked for by the hour or the pound: of 150 miles in 3 hours, (150, 3)."""
    plain = told.of("amount")
    if len(plain) != 2:
        return None
    per = re.search(r"\b(?:per|each|every|an?|one|in one|single) ([a-z]+)", told.question)
    over = [a for a in plain if per and one(per[1]) in (a.unit, a.head)]
    what = [a for a in plain if a not in over]
    return (what[0], over[0]) if len(over) == len(what) == 1 else None


def two_parts(told: Told) -> bool | None:
    """Whether the larger of two parts of one whole is asked for, told by how they compare.

    None where there is no such whole, or where it is not certain which is asked for.
    """
    whole = [
        a for a in told.of("amount") if a.told.total or of_all(told, a) or holds(told, "halved")
    ]
    compared = [a.told for a in told.amounts if a.role in _COMPARED]
    if len(whole) != 1 or len(compared) != 1 or len(told.amounts) != len("ab"):
        return None
    if told.asks(_LARGER) != told.asks(_SMALLER):
        return told.asks(_LARGER)
    q = compared[0]
    beyond = re.search(r"\bthan (?P<what>[a-z' ]+)", told.text[q.start :])
    others = q.other or frozenset(one(w) for w in re.findall("[a-z]+", beyond[1] if beyond else ""))
    owner, own = whole[0].told.who, frozenset(q.thing) - whole[0].names - others
    both = (q.who & others) | (frozenset() if owner & others else owner)
    mine, other = (told.query.words & w - both for w in (q.who | own, others))
    if bool(mine) == bool(other):
        return None
    return bool(mine) == (compared[0].sign >= 0)


_COMPARED = ("more", "fewer", "times", "into")
_LARGER = "large|big|longer|larger|bigger|heavier|greater|taller|longest|largest|greatest"
_SMALLER = "small|little|shorter|smaller|lighter|lesser|shortest|smallest"


_ALL = r"altogether|in all|total|together|combined|in total|between them|in th[eo]se two \w+"


def of_all(told: Told, amount: Amount) -> bool:
    """Whether the sentence of an amount says that it is of all."""
    q = amount.told
    before = re.split(r"(?<![A-Z])[.?!] ", told.text[: q.start])[-1]
    behind = re.split(r"[.?!](?: |$)", told.text[q.start :])[0]
    numbers = re.findall(r"\d[\d./]*", before + behind)
    return len(numbers) == 1 and re.search(rf"\b(?:{_ALL})\b", before + behind) is not None
