"""Conditions as questions say them: which number is greater than 2/5, a multiple of 7, even.

`_TABLE` holds how each is said. A question is read only where every word of it is accounted for.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Whole, value
from narrate.reading.demands import Condition, ConditionName
from narrate.reading.nearest import place_named
from narrate.reading.words.lexicon import UNITS, one

Numeral = Whole | Decimal | Frac | Mixed

_NOUN = (
    r"(?:(?:whole|mixed|unit|decimal|improper|proper|counting|actual|exact|original) )?"
    r"(?:numbers?|fractions?|decimals?|values?|amounts?|lengths?|widths?|heights?|distances?"
    r"|weights?|mass(?:es)?|prices?|costs?|times?|measurements?|choices?|answers?|options?)"
)
_OF = rf"(?: of (?:these|the following|the)(?: {_NOUN})?)?(?: {_NOUN})?(?: (?:below|here|shown))?"
_BE = r"(?:is|are|has|have|was|were|be|(?:could|can|might|must|would) be)"
_N = r"#(\d+)(?: (?!and\b|but\b)[a-z]+)?"
_MORE = r"(?:greater|more|larger|bigger|higher|longer|heavier|taller)"
_LESS = r"(?:less|smaller|fewer|lower|shorter|lighter)"
_AMONG = rf"(?: of (?:all|these|the following|the)(?: {_NOUN})?)?"
_A = r"(?:an? )?(?:(?:number|value|fraction|decimal|length|weight)(?: that is)? )?"


def _row(pattern: str, name: ConditionName) -> tuple[str, ConditionName]:
    return pattern, name


_TABLE: tuple[tuple[str, ConditionName], ...] = (
    _row(rf"{_A}{_MORE} than or equal to {_N}", "at least"),
    _row(rf"{_A}{_LESS} than or equal to {_N}", "at most"),
    _row(rf"at least {_N}", "at least"),
    _row(rf"at most {_N}", "at most"),
    _row(rf"{_A}{_MORE} than {_N}", "greater"),
    _row(rf"{_A}{_LESS} than {_N}", "less"),
    _row(
        rf"(?:equal|equivalent)(?: in value)? to {_N}|the same (?:amount |number |value )?as {_N}",
        "equal",
    ),
    _row(rf"(?:an? )?multiples? of {_N}|divisible by {_N}", "multiple"),
    _row(rf"(?:an? )?(?:factor|divisor)s? of {_N}", "factor"),
    _row(r"(?:an? )?even(?: numbers?)?", "even"),
    _row(r"(?:an? )?odd(?: numbers?)?", "odd"),
    _row(r"(?:a )?prime(?: numbers?)?", "prime"),
    _row(r"(?:a )?composite(?: numbers?)?", "composite"),
    _row(rf"(?:the )?(?:greatest|largest|highest|biggest)(?: {_NOUN})?{_AMONG}", "greatest"),
    _row(rf"(?:the )?(?:least|smallest|lowest)(?: {_NOUN})?{_AMONG}", "least"),
)
"""How a condition is said, after "is", and which it is."""

_BOTH = (
    (rf"{_A}(?:in )?between #(\d+) and #(\d+)", ("greater", "less")),
    (r"(?:an? )?(?:common )?multiple of (?:both )?#(\d+) and #(\d+)", ("multiple", "multiple")),
    (r"divisible by (?:both )?#(\d+) and (?:by )?#(\d+)", ("multiple", "multiple")),
    (r"(?:an? )?(?:common )?factor of (?:both )?#(\d+) and #(\d+)", ("factor", "factor")),
    (r"(?:an? )?(?:common )?divisor of (?:both )?#(\d+) and #(\d+)", ("factor", "factor")),
    (r"(?:an? )?prime factor of #(\d+)", ("prime", "factor")),
)  # fmt: skip
"""Two conditions said as one."""
_ALONE = ("even", "odd", "prime", "composite")
"""Conditions that name no number."""
_EQUALS = (
    r"\b(?:equals|names|represents|shows|has the same value as|is (?:another|a) name for"
    r"|is another way to write) (?=#)"
)
_DIVIDED = r"\bcan be (?:evenly |exactly )?divided (?:evenly |exactly |without a remainder )?by "
_ONLY_ONE = (
    rf"^(?:only|just) one of (?:these|the)(?: {_NOUN})?(?: below)? (is [^.]+)\. "
    r"which(?: one| number)?(?: is it| is that)?\?$"
)
_IN_FORM = r",? (?:written )?in (?:simplest|lowest) (?:form|terms)(?:,(?= )|(?=\?))"
"""Only the choices can be in this form or not: where two are equal, it is not settled."""

_PLACE = r"(?:(?:whole|ten|hundred) [a-z]+|[a-z]+|#\d+)"
_TO_PLACE = rf"to the nearest (?P<place>{_PLACE})"
_ROUNDS = (
    rf"(?:the |a )?(?:{_NOUN} )?(?:before it (?:was|is) )?rounded to #(?P<to>\d+)"
    rf"(?: when rounded)? {_TO_PLACE}"
)
_WHEN_ROUNDED = rf"#(?P<to>\d+),? (?:when |if )?(?:it (?:is|was) )?rounded {_TO_PLACE}"
_ROUND_ITSELF = (
    rf"(?:which|what){_OF} (?:(?:could |can |would )?rounds? to|(?:is|are|could be) rounded to) "
    rf"#(?P<to>\d+)(?: when (?:it is )?(?:rounded|rounding))?,? {_TO_PLACE}[?.]"
)
_WAS_ROUNDED = (
    r"(?:an?|the|[a-z]+'s|[a-z]+) [^#.]*? ?(?:is|was|were)? ?rounded (?:(?:an?|the) [^#.]*? )?"
    rf"{_TO_PLACE}(?:,? (?:and )?(?:is|was|becomes?|it is|the result is|gives)"
    r"|\. (?:it|the (?:rounded )?(?:number|result|answer)(?: of [a-z ]+?)?) is(?: now)?) "
    r"#(?P<to>\d+)\. "
)
_ROUNDED_WHICH = (
    rf"when (?:it is )?rounded {_TO_PLACE},? (?:which|what){_OF} (?:rounds to|is|equals|becomes) "
    r"#(?P<to>\d+)\?"
)
_ROUNDED_IS = (
    rf"(?:when )?rounded {_TO_PLACE},? (?:an?|the|[a-z]+'s) [^#.]*? (?:is|was) #(?P<to>\d+)\. "
)
_ITSELF = (
    r"(?!.*\b(?:not|never|cannot|twice|double|triple|half|third|quarter|more|less|fewer|than|next"
    r"|sum|product|difference|quotient|opposite|after|before|plus|minus|times|digits?|rounded)\b)"
)
"""A question that asks for the very number, and for nothing made of it."""
_COULD_BE = (
    rf"{_ITSELF}(?:which|what){_OF} (?:could|can|might|may) "
    r"(?:be (?:the |that |this |my |his |her |their )?(?:(?:actual|exact|original) )?[a-z' ]+"
    r"|[a-z' ]+ (?:be|have been))\?"
)
_HAS = (
    r"[a-z]+ (?:wrote|picked|chose|has|drew|thinks of|is thinking of|am thinking of) "
    r"an? (?:secret )?number(?: that |\. (?:it|the number|his number|her number|my number) )"
)
_SAYS = r"(?:[a-z]+ (?:says|said) (?:that )?)"
_HOW_MANY = rf"{_ITSELF}how many (?P<thing>[a-z]+) (?:could|can|might) [a-z' ]+\?"


_NUMBER = r"\$?\d+(?:,\d{3})*(?:\.\d+)?(?:(?: \d+)?/\d+)?%?"
_TOLD = re.compile(
    rf"(?:\b(?:not )?(?:(?:{_MORE}|{_LESS}) than(?: or equal to)?|at (?:least|most)|divisible by"
    r"|(?:an? )?(?:common |prime )?(?:multiple|factor|divisor)s? of|(?:in )?between"
    rf"|(?:equal|equivalent) to)(?: both)? {_NUMBER}(?: and (?:by )?{_NUMBER})?"
    r"|\b(?:is|and|an?) (?P<alone>even|odd|prime|composite)\b)",
    re.IGNORECASE,
)
"""A condition as it stands in a sentence: less than 45, a multiple of 7, odd."""


def conditions_told(text: str) -> Iterator[tuple[int, int]]:
    """Where the words of a text say conditions."""
    for found in _TOLD.finditer(text):
        yield found.span("alone" if found["alone"] else 0)


@cache
def _compiled(pattern: str) -> re.Pattern[str]:
    """A pattern, compiled when it is first wanted."""
    return re.compile(pattern)


@dataclass(frozen=True, slots=True)
class Asked:
    """A question with each number masked as #0, #1 and so on."""

    text: str
    numbers: tuple[Numeral, ...]


def masked(ask: str) -> Asked | None:
    """The question in small letters with its numbers masked, None where it holds other work."""
    plain = re.sub(r"(?<![\w/.])(\d+) over (\d+)(?![\w/])", r"\1/\2", ask)
    plain = re.sub(r"(?<![\w/.,])(\d{1,3}) ?%", _hundredths, plain)
    plain = re.sub(r"\b(?:one|a) half\b(?! of)", "1/2", re.sub(r"\bone whole\b", "1", plain))
    text = ""
    numbers: list[Numeral] = []
    for run in prose.read(plain):
        if isinstance(run.piece, str):
            text += run.piece
        elif isinstance(run.piece, Numeral):
            text = text.removesuffix("$") + f"#{len(numbers)}"
            numbers.append(run.piece)
        elif plain[run.start : run.end] in ("x", "n"):
            text += plain[run.start : run.end]
        else:
            return None
    text = " ".join(text.replace("’", "'").split()).lower()
    if re.search(r"[^\w #.,?:'-]", text):
        return None
    return Asked(text, tuple(numbers))


def _hundredths(percent: re.Match[str]) -> str:
    """A percent as the decimal that it stands for."""
    whole, rest = divmod(int(percent[1]), 100)
    return f"{whole}.{rest:02d}"


def conditions_of(asked: Asked) -> tuple[Condition, ...] | None:
    """What the choices have to be, None where a word of the question is not accounted for."""
    text = re.sub(r"\.? ?select all that apply\.?$|,? if any\b", "?", asked.text)
    text = re.sub(_IN_FORM, "", re.sub(r"[?.]+$", "?", text))
    text = re.sub(_EQUALS, "is equal to ", text)
    text = re.sub(_DIVIDED, "is divisible by ", text)
    text = re.sub(_ONLY_ONE, r"which number \1?", text)
    for reader in (_rounded, _which, _all_that, _told_then_asked, _if_then):
        if found := reader(text, asked):
            return tuple(found)
    return None


def _which(text: str, asked: Asked) -> list[Condition] | None:
    """Which number is greater than 2/5 and less than 1?"""
    found = _compiled(rf"(?:which|what)(?: one)?{_OF} (?P<said>{_BE} .*)\?").fullmatch(text)
    return _all_said(found["said"], asked) if found else None


def _all_that(text: str, asked: Asked) -> list[Condition] | None:
    """Select all the fractions that are greater than 1."""
    order = r"(?:select|choose|mark|circle|pick|find|identify)"
    found = _compiled(
        rf"{order}(?: (?:all|every|each|the|a|an|any))?(?: of)?(?: the)?(?: {_NOUN})?"
        rf"(?: (?:below|here|shown))? (?:that|which) (?P<said>{_BE} .*)\?"
    ).fullmatch(text)
    return _all_said(found["said"], asked) if found else None


def _told_then_asked(text: str, asked: Asked) -> list[Condition] | None:
    """A number is even and less than 20. Which could it be?"""
    found = _compiled(
        rf"(?:{_HAS}|{_SAYS}?(?:an?|the|my|her|his|[a-z]+'s) "
        rf"(?:{_NOUN}|number of (?P<thing>[a-z]+)(?: [a-z' ]+?)?) )"
        rf"(?P<said>{_BE} [^.]*)\. (?P<question>.*)"
    ).fullmatch(text)
    if found is None or not _asks_which(found["question"], found["thing"]):
        return None
    return _all_said(found["said"], asked)


def _asks_which(question: str, thing: str | None) -> bool:
    if _compiled(_COULD_BE).fullmatch(question):
        return True
    counted = _compiled(_HOW_MANY).fullmatch(question)
    return bool(counted and thing and one(counted["thing"]) == one(thing))


def _if_then(text: str, asked: Asked) -> list[Condition] | None:
    """If the value of x is between 1 and 2, which could be x?"""
    found = _compiled(
        rf"(?:if|suppose)(?: the value of)? (?P<name>x|n|an? {_NOUN}) (?P<said>{_BE} .*), "
        rf"(?:which|what){_OF} (?:could|can|might) (?:be (?P<again>x|n|the {_NOUN})"
        rf"|(?P<again2>x|n|it|the {_NOUN}) be)\?"
    ).fullmatch(text)
    return _all_said(found["said"], asked) if found else None


def _rounded(text: str, asked: Asked) -> list[Condition] | None:
    """Which number could be the one before it was rounded to 400, to the nearest ten?"""
    if "nearest" not in text:
        return None
    text = re.sub(r" in #(\d+)\b", lambda m: "" if _is_year(asked, int(m[1])) else m[0], text)
    for pattern in (_ROUND_ITSELF, _ROUNDED_WHICH):
        if found := _compiled(pattern).fullmatch(text):
            return _one_rounded(asked, found["to"], found["place"])
    for pattern in (_ROUNDED_IS, _WAS_ROUNDED):
        found = _compiled(pattern).match(text)
        if found and _compiled(_COULD_BE).fullmatch(text[found.end() :]):
            return _one_rounded(asked, found["to"], found["place"])
    for pattern in (_ROUNDS, _WHEN_ROUNDED):
        found = _compiled(rf"(?:which|what){_OF} {_BE} (?:{pattern})\?").fullmatch(text)
        if found:
            return _one_rounded(asked, found["to"], found["place"])
    return None


def _is_year(asked: Asked, at: int) -> bool:
    number = asked.numbers[at]
    return isinstance(number, Whole) and 1500 < number.number < 2100


def _one_rounded(asked: Asked, to: str, place: str) -> list[Condition] | None:
    numbers = asked.numbers
    name = write(numbers[int(place[1:])]) if place.startswith("#") else place
    nearest = place_named(name)
    target = numbers[int(to)]
    if nearest is None or value(target) % nearest.size:
        return None
    return [Condition(name="rounds", than=target, nearest=nearest)]


def _all_said(said: str, asked: Asked) -> list[Condition] | None:
    """Conditions joined by and, but; None where one is not known."""
    said = re.sub(
        r"^(?:has|have) an? (?:value|length|weight|price|cost) (?:that is )?", "is ", said
    )
    said = re.sub(
        r"\b(?:is|are|was|were|be|has|have|could|can|might|must|would|also|both(?! #)|that|it) ",
        "",
        said,
    )
    said = _NOT_OF.sub(r"\g<what>\g<joint> not \g<again>\g<other>", said)
    found: list[Condition] = []
    rest = said.strip()
    while rest:
        taken = _first(rest, asked)
        if taken is None:
            return None
        conditions, end = taken
        found += conditions
        rest = rest[end:]
        if rest:
            joint = re.match(r",? (?:and|but)(?: is)? |, ", rest)
            if joint is None:
                return None
            rest = rest[joint.end() :]
    return found if _fit(found) else None


_NOT_OF = re.compile(
    r"(?P<what>(?P<again>(?:an? )?(?:factor|multiple) of |divisible by )#\d+)"
    r"(?P<joint>,? (?:and|but)) not (?:of|by) (?P<other>#\d+)"
)
"""A factor of 36 but not of 24: what it is not is said once."""


def _first(said: str, asked: Asked) -> tuple[list[Condition], int] | None:
    """The condition that a phrase begins with, and where it ends."""
    negated = said.startswith("not ")
    start = 4 if negated else 0
    for pattern, names in _BOTH:
        found = _compiled(pattern).match(said, start)
        if found and not negated and _ends(said, found.end()):
            pair = zip(names, (found[1], found[len(found.groups())]), strict=True)
            return [
                _condition(name, None if name in _ALONE else asked.numbers[int(at)], False)
                for name, at in pair
            ], found.end()
    for pattern, name in _TABLE:
        found = _compiled(pattern).match(said, start)
        if not found or not _ends(said, found.end()) or _counts_things(found[0]):
            continue
        numbers = [group for group in found.groups() if group]
        than = asked.numbers[int(numbers[0])] if numbers else None
        return [_condition(name, than, negated)], found.end()
    return None


def _counts_things(said: str) -> bool:
    """Whether a number is followed by a word that is no unit: 2 thirds are not 2."""
    return any(one(word) not in UNITS for word in re.findall(r"#\d+ ([a-z]+)", said))


def _ends(said: str, at: int) -> bool:
    return at == len(said) or said[at] in " ,"


def _condition(name: str, than: Expr | None, negated: bool) -> Condition:
    return Condition(name=name, than=than, negated=negated)  # type: ignore[arg-type]


def _counts(tree: Expr | None) -> bool:
    return isinstance(tree, Whole) and tree.number > 0


def _fit(conditions: list[Condition]) -> bool:
    """Whether each condition can be held against numbers: multiples and factors are of wholes."""
    for each in conditions:
        if each.name in ("multiple", "factor") and not _counts(each.than):
            return False
        if each.negated and each.name in ("greatest", "least", "rounds"):
            return False
    alone = any(each.name in ("greatest", "least") for each in conditions)
    return bool(conditions) and (len(conditions) == 1 or not alone)
