"""Times of day: when something ends or begins, or how long it takes, by one time and one length.

Whose time it is, and whether it is a start or an end, must be told; else nothing is read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from narrate.exact.measures import in_units, two_units, unit_named
from narrate.exact.tree import Expr, InUnits, Op, TimeOfDay, Whole, value
from narrate.items.item import Choice, Item, Part
from narrate.reading.demands import OnTheClock
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of, tellings, unknown_of
from narrate.reading.two_units import in_two_units
from narrate.reading.words.plain import word_set

Way = Literal["later", "earlier", "between"]

_TIME = re.compile(
    r"(?<![\d:.,$])(\d{1,2})(?::(\d\d)(?: ?([ap])\.? ?m\b\.?)?| ?([ap])\.? ?m\b\.?)(?![\d:])",
    re.IGNORECASE,
)
_LENGTH = re.compile(
    r"(?P<half>half an hour)|(?P<one>(?:an|one) hour(?P<more> and a half)?)"
    r"|(?P<n>\d+)[ -](?P<unit>hours?|minutes?|hrs?\.?|mins?\.?)(?P<hlf> and a half)?(?!\w)",
    re.IGNORECASE,
)
_START = (
    r"(?:starts?|started|begins?|began|leaves?|left|leave|departs?|departed|opens?|opened"
    r"|sets? (?:off|out))"
)
_END = (
    r"(?:ends?|ended|finish(?:es|ed)?|arrives?|arrived|gets? (?:home|there|back)"
    r"|got (?:home|there|back)|reach(?:es|ed)?|stops?|stopped|closes?|closed|(?:be|is|was|were|are)"
    r" (?:over|done|ready|finished|baked))"
)
_LASTS = r"(?:lasts?|lasted|takes?|took|for|long|spen[dt]s?|is|was)"
_WHEN = r"(?:at )?(?:what time|when)"
_DO = r"(?:does|do|did|will|should|must|would|can|is|was|are|were)"
_SOME = r"[a-z' ]{0,60}?"
_LOADED = re.compile(
    r"\b(?:before|after|earlier|later|until|till|not|never|every|each|twice|half|late|early|break"
    r"|rest(?:s|ed)?|pauses?|paused|again|second|first|two|three|four|five|six|seven|eight|nine|ten"
    r"|another|other|more|less|longer|shorter|same|instead|zone|ago|between|then|next|slow|fast)\b"
)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A text with its times as @ and its lengths as ~, and both in their order."""

    text: str
    times: tuple[TimeOfDay, ...]
    lengths: tuple[InUnits, ...]


def clock_reading(item: Item, part: Part) -> Reading | None:
    """A question for a time of day or for the time between two, None where it is none."""
    if part.claim is not None or part.model is not None or stimulus_of(item) or len(part.ask) > 600:
        return None
    if len(part.choices) < 2 or not _TIME.search(part.ask) or _several_names(part.ask):
        compared = _compared_alone(part)
        return _reading(item, part, compared) if compared else None
    asked = _masked(part.ask)
    found = _found(asked) if asked else None
    return _reading(item, part, found) if found else None


def _several_names(ask: str) -> bool:
    """Whether more than one person or place is named, so that a time may be somebody else's."""
    words = re.findall(r"(?<![.?!] )(?<!^)\b(?!(?:Mr|Mrs|Ms|Dr|I)\b)[A-Z][a-z]+", ask)
    named = {w for w in words if w not in _DAYS}
    firsts = re.findall(r"(?:^|[.?!] )([A-Z][a-z]+)", ask)
    named |= {w for w in firsts if ask.count(w) > 1 and w not in _NO_NAMES}
    return len(named) > 1


_DAYS = {"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}
_NO_NAMES = {"The", "It", "He", "She", "They", "If", "At", "What", "When", "How", "On", "A", "An"}


def _masked(ask: str) -> _Asked | None:
    """The words in small letters; None where a number is neither time nor length."""
    times: list[TimeOfDay] = []
    lengths: list[InUnits] = []
    pieces: list[str] = []
    at = 0
    while at < len(ask):
        two = two_units(ask, at) if ask[at].isdigit() else None
        if two is not None and two[0].names[1][0] == "minute":
            lengths.append(two[0])
            pieces.append("~")
            at = two[1]
        elif (time := _TIME.match(ask, at)) and (found := time_of(time[0])) and found.minute < 60:
            times.append(found)
            pieces.append("@")
            at = time.end()
            if time[0].endswith(".") and re.match(r"\s+[A-Z]|\s*$", ask[at:]):
                pieces.append(".")  # it ends the sentence too
        elif (length := _LENGTH.match(ask, at)) and not (at and ask[at - 1].isalnum()):
            lengths.append(_length(length))
            pieces.append("~")
            at = length.end()
        else:
            pieces.append(ask[at])
            at += 1
    text = " ".join("".join(pieces).split()).replace("’", "'").lower()
    if re.search(r"[\d@~][\d@~]|\d", text):
        return None
    return _Asked(re.sub(r"(?<=\w)\. ?$", "?", text), tuple(times), tuple(lengths))


def _length(found: re.Match[str]) -> InUnits:
    if found["half"]:
        return in_units(0, 30, "hour", "minute")
    if found["one"]:
        return in_units(1, 30 if found["more"] else 0, "hour", "minute")
    count, hours = int(found["n"]), unit_named(found["unit"]) == "hour"
    half = 30 if found["hlf"] and hours else 0
    return in_units(count if hours else 0, half if hours else count, "hour", "minute")


def time_of(text: str) -> TimeOfDay | None:
    """A time as a choice writes it, 3:45 p.m.; None of anything else."""
    found = _TIME.fullmatch(text.strip())
    if found is None or not 1 <= int(found[1]) <= 12:
        return None
    half = (found[3] or found[4] or "").lower()
    return TimeOfDay(int(found[1]) % 12 + 12 * (half == "p"), int(found[2] or 0), bool(half))


# -- what is asked


@dataclass(frozen=True, slots=True)
class _Found:
    """The work that is asked for, and which way it goes."""

    way: Way
    tree: Op
    told: tuple[TimeOfDay | InUnits, ...]


_SAID: tuple[tuple[str, Way], ...] = (
    (r"what time (?:is it|is|will it be|was it) ~ (?:after|later than|past) @\?", "later"),
    (r"what time (?:is it|is|will it be|was it) ~ (?:before|earlier than) @\?", "earlier"),
    (
        r"(?:it is|the clock (?:shows|says)|the time is) @(?: now)?[.,]? (?:and )?what time will "
        r"(?:it be|the clock show|it show) (?:in ~|~ (?:from now|later))\?",
        "later",
    ),
    (
        r"(?:it is|the clock (?:shows|says)|the time is) @(?: now)?[.,]? (?:and )?what time was it "
        r"~ (?:ago|earlier)\?",
        "earlier",
    ),
)
"""Whole questions about a time and a length."""

_WHO = r"(?P<who>[a-z' ]{1,40}?)"
_VERB = rf"(?:(?P<start>{_START})|(?P<end>{_END}))"
_KNOWN = rf"(?:(?:^|[.,?] )(?:if |when )?|\band ){_WHO} {_VERB}\b{_SOME}(?:at|by) @"
_QUESTION = rf"{_WHEN} {_DO} {_WHO} {_VERB}{_SOME}\?$"
_LONG = (
    r"\b(?:how long|how much time|how many (?:hours and )?minutes|how many hours and minutes)\b"
    rf"{_SOME}\?$"
)
_FROM_TO = (
    rf"\b(?:{_START}{_SOME} at @(?: and|[.,](?: and)?)(?: (?:it|he|she|they))? {_END}{_SOME} at @"
    rf"|(?:from|between) @ (?:to|until|and) @)"
)


def _found(asked: _Asked) -> _Found | None:
    count = (asked.text.count("@"), asked.text.count("~"))
    if count == (2, 0):
        return _between(asked)
    if count != (1, 1):
        return None
    time, length = asked.times[0], asked.lengths[0]
    for pattern, way in _SAID:
        if re.fullmatch(pattern, asked.text):
            return _moved(way, time, length)
    if _LOADED.search(asked.text):
        return None
    known, question = re.search(_KNOWN, asked.text), re.search(_QUESTION, asked.text)
    lasts = re.search(rf"\b{_LASTS} (?:about )?~|~ (?:long|to )|\bthe ~ |\ba ~ ", asked.text)
    if not known or not question or not lasts or len(list(re.finditer(_KNOWN, asked.text))) > 1:
        return None
    whose = known["who"], question["who"]
    if not _is_whose(*whose, asked.text) or not _is_its_length(*whose, asked.text):
        return None
    if known["start"] and question["end"]:
        return _moved("later", time, length)
    return _moved("earlier", time, length) if known["end"] and question["start"] else None


_PEOPLE = {"he", "she", "they", "i", "we"}
_EVENTS = word_set(
    "class school practice lunch recess dinner breakfast supper camp work training rehearsal "
    "church band choir soccer baseball basketball football swimming gym math art music science"
)
_ARTICLES = {"the", "a", "an", "his", "her", "their", "this", "that", "its", "your", "my", "our"}
_OF_WORK = r"~ to (?!cook\b|bake\b|finish\b|make\b|complete\b|rise\b|dry\b)"


def _is_whose(told: str, asked: str, text: str) -> bool:
    """Whether the start and the end are of one thing or person, and the length is its length."""
    one, other = (words.split() for words in (told, asked))
    a_thing = one[0] in _ARTICLES or one[-1] in _EVENTS or one[-1] == "it"
    if set(other) & _PEOPLE or other == one:
        same = other == one or one[-1] in _PEOPLE or (len(one) == 1 and not a_thing)
    else:
        same = (other == ["it"] and a_thing) or other[-1] == one[-1]
    return same and not (a_thing and re.search(_OF_WORK, text)) and " takes her" not in text


def _is_its_length(told: str, asked: str, text: str) -> bool:
    """Whether the length is told of what starts and ends: it lasts ~, and lasts ~."""
    before = text.split("~")[0]
    joined, clause = "", before
    for mark in (". ", ", ", "? ", " and "):
        if mark in clause:
            joined, clause = mark, clause.rpartition(mark)[2]
    words = clause.split()
    subjects = {told.split()[-1], asked.split()[-1], "trip", "ride", "drive", "flight", "walk"}
    goes_on = joined == " and " and (len(words) == 1 or words[1:] == ["for"])
    return not words or words[0] in _PEOPLE | {"it"} or bool(set(words) & subjects) or goes_on


def _between(asked: _Asked) -> _Found | None:
    """How long it is from one time to another."""
    text = asked.text.replace("between @", "from @").replace("until @", "to @")
    if not re.search(_LONG, text) or not re.search(_FROM_TO, text) or _LOADED.search(text):
        return None
    first, last = asked.times
    if first.half != last.half:
        return None
    while value(last) <= value(first):
        last = last.moved(1440 if first.half else 720)
    return _Found("between", Op("−", last, first), (first, last))


def _moved(way: Way, time: TimeOfDay, length: InUnits) -> _Found:
    return _Found(way, Op("+" if way == "later" else "−", time, length), (time, length))


_BESIDE = (
    rf"(?P<a>[a-z]+) {_SOME}~ "
    r"(?P<rel>before|after|earlier than|later than) (?P<b>[a-z]+)"
)
_ITS_TIME = rf"(?:if )?(?P<c>[a-z]+) (?P<did>[a-z]+){_SOME} at @,?"
_ASKS_HIS = rf"{_WHEN} (?:does|did|will) (?P<d>[a-z]+) (?P<do>[a-z]+){_SOME}\?"


def _compared_alone(part: Part) -> _Found | None:
    """Nia finished 4 minutes before Bo. Bo finished at 4:02. When did Nia finish?"""
    asked = _masked(part.ask)
    if asked is None or (len(asked.times), len(asked.lengths)) != (1, 1):
        return None
    told = list(re.finditer(rf"(?:^|(?<=[.?] )){_BESIDE}(?=[.,])", asked.text))
    tail = re.search(rf"(?:^|[.,] )(?:and )?{_ITS_TIME}[.]? {_ASKS_HIS}$", asked.text)
    if len(told) != 1 or tail is None:
        return None
    one, other, known, wanted = told[0]["a"], told[0]["b"], tail["c"], tail["d"]
    if len({one, other}) != 2 or {known, wanted} != {one, other} or not _alike(tail, told[0][0]):
        return None
    later = (told[0]["rel"] in ("after", "later than")) == (wanted == one)
    return _moved("later" if later else "earlier", asked.times[0], asked.lengths[0])


def _alike(tail: re.Match[str], told: str) -> bool:
    """Whether all three sentences say the same was done: finished, finished, finish."""
    stem = tail["do"][:4]
    return tail["did"].startswith(stem) and re.search(rf"\b{stem}", told) is not None


# -- the reading


def _reading(item: Item, part: Part, found: _Found) -> Reading | None:
    choices = tuple(choice.tree for choice in on_the_clock(part, found.way, found.tree).choices)
    if any(tree is None for tree in choices):
        return None
    expression: Op = found.tree
    halves = {tree.half for tree in choices if isinstance(tree, TimeOfDay)}
    time = expression.left
    if isinstance(time, TimeOfDay) and found.way != "between":
        if len(halves) != 1 or (True in halves and not time.half):
            return None
        expression = replace(expression, left=replace(time, half=time.half and True in halves))
    goal = Goal(
        form="value",
        asked=expression,
        answer=value(expression),
        demand=OnTheClock(name=found.way),
    )
    numbers = tuple(_numbers(found))
    marked = numbers[0]
    for number in numbers[1:]:
        marked = Op("+", marked, number)
    return Reading(
        goal=goal,
        expression=expression,
        equation=None,
        target=None,
        situation="steps",
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, marked, "steps")),
        unit=part.unit,
    )


def _numbers(found: _Found) -> Iterator[Expr]:
    """The numbers of the words, for their marks."""
    for told in found.told:
        if isinstance(told, InUnits):
            yield from (Whole(n) for n in (told.large, told.small) if n)
        else:
            yield Whole(told.hour)


def on_the_clock(part: Part, way: Way, work: Expr) -> Part:
    """The part whose choices are times of day, or lengths of time where these are asked for.

    A time stands within half a day, or a day, on the side of the answer.
    """
    if way == "between":
        return in_two_units(part, "hour", "minute")
    assert isinstance(work, Op)
    start = work.left
    assert isinstance(start, TimeOfDay)
    return replace(part, choices=tuple(_as_time(c, way, start) for c in part.choices))


def _as_time(choice: Choice, way: Way, start: TimeOfDay) -> Choice:
    time = time_of(choice.text)
    if time is None:
        return replace(choice, tree=None)
    period = 1440 if time.half else 720
    ahead = int(value(time) - value(start)) % period
    there = int(value(start)) + ahead - (period if way == "earlier" and ahead else 0)
    hours = (there - time.minute) // 60
    return replace(choice, tree=replace(time, hours=hours))
