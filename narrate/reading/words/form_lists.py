"""Rows of a list of amounts: their mean or range, and the next of a pattern.

CCSSM (2010) 6.SP.A.3, 6.SP.B.5c; patterns 4.OA.C.5 and 5.OA.B.3.
"""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

from narrate.reading.words.forms import Named, form
from narrate.reading.words.lexicon import one
from narrate.reading.words.plain import word_set

_UNIT = r"(?: ?°[fc]| [a-z]+)?"
_LIST = rf"(?P<list>\$?#\d+{_UNIT}(?: \$?#\d+{_UNIT})*(?: (?:and )?\$?#\d+{_UNIT}))"
_SAID = "mean average per on during these those this what from through"


def _listed(given: Named) -> list[str]:
    return [given[at] for at in re.findall(r"#\d+", given["list"])]


def _units(given: Named) -> set[str]:
    """The words behind the numbers of a list, each as one of it."""
    return {one(word) for word in re.findall(r"[a-z]+", given["list"])} - {"and"}


def _list_of(given: Named) -> list[str] | None:
    """The numbers of a list of one unit, as many as are told of, none of them a fraction."""
    numbers = _listed(given)
    if not _is_told(given):
        return None
    counted = given.get("c", str(len(numbers)))
    if counted != str(len(numbers)) or len(_units(given)) > 1 or len(numbers) < 3:
        return None
    return None if any("/" in number or " " in number for number in numbers) else numbers


_ASKING = word_set(
    "a the of per in for on he she they it his her their its did do does was were is number amount"
)


def _is_told(given: Named) -> bool:
    """Whether the question says nothing of the list that was not told."""
    told = " ".join(given.get(name, "") for name in ("before", "list", "behind"))
    return _stems(given.get("after", "")) <= _stems(re.sub(r"\b[a-z]+day\b", "day", told))


def _stems(said: str) -> set[str]:
    """The words that tell something, each cut so that pick is as picked."""
    return {one(word)[:4] for word in re.findall(r"[a-z]+", said) if word not in _ASKING}


def _mean(given: Named) -> str | None:
    numbers = _list_of(given)
    return f"({' + '.join(numbers)}) ÷ {len(numbers)}" if numbers else None


def _range(given: Named) -> str | None:
    numbers = _list_of(given)
    if not numbers:
        return None
    ordered = sorted(numbers, key=Fraction)
    return f"{ordered[-1]} − {ordered[0]}" if ordered[0] != ordered[-1] else None


_TOLD = (
    rf"(?P<before>[a-z' ]+?(?: <c> [a-z' ]+?)?):? ?{_LIST}(?: (?P<behind>(?:on|in|over|during|at"
    r"|for)"
    r" [a-z' ]*?(?:<c> )?[a-z' ]+?|respectively))?"
)
_OF = r"(?: (?:(?:number|amount|height|weight|length|score|temperature|price|time|distance|cost)))?"
_AFTER = r"(?: (?P<after>[a-z' ]+?))?"
MEANS = (
    form(
        "mean",
        rf"{_TOLD}\. (?:what (?:is|was)|find) (?:the|his|her|their|its) (?:mean"
        rf"|average){_OF}{_AFTER}",
        _mean, unit="list", says=_SAID, clue="mean average",
    ),
    form(
        "range",
        rf"{_TOLD}\. (?:what (?:is|was)|find) the range(?: (?:of|in) (?P<after>[a-z' ]+))?",
        _range, unit="list", says=_SAID, clue="range",
    ),
)  # fmt: skip
"""The mean and the range of amounts that are listed."""

_NTH = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth",
    "eleventh", "twelfth",
)  # fmt: skip
_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_PLACE = re.compile(
    rf"\b(?:(?P<nth>{'|'.join(_NTH)}|#\d+(?:th|st|nd|rd))|(?P<day>{'|'.join(_DAYS)})"
    r"|(?P<of>week|day|month|year|step|figure|stage|hour|row|minute|term) #(?P<at>\d+))\b"
)
_VALUE = re.compile(r"#(\d+)")


def _places(said: str, given: Named) -> list[tuple[int, int, str]]:
    """Where the places of a pattern are named: the characters, which one, and of what."""
    found = []
    for place in _PLACE.finditer(said):
        if place["nth"]:
            found.append((place.start(), _NTH.index(place["nth"]) + 1, "nth"))
        elif place["day"]:
            found.append((place.start(), _DAYS.index(place["day"]) + 1, "day"))
        else:
            number = given[f"#{place['at']}"]
            found.append((place.start(), int(number) if number.isdigit() else 0, place["of"]))
    return found


def _continued(given: Named) -> str | None:
    """The amount at a later place of a pattern that grows or falls by the same each time."""
    tell, ask = given["tell"], given["ask"]
    if not all("#" in sentence for sentence in tell.split(". ")[1:]):
        return None
    told, asked = _places(tell, given), _places(ask, given)
    amounts = [(v.start(), given[v[0]]) for v in _VALUE.finditer(_PLACE.sub(_blanked, tell))]
    if len(told) < 3 or len(told) != len(amounts) or len(asked) != 1:
        return None
    if len({of for _, _, of in (*told, *asked)}) != 1 or "#" in _PLACE.sub(_blanked, ask):
        return None
    before = [place < at for (place, _, _), (at, _) in zip(told, amounts, strict=True)]
    ordered = sorted([*(p for p, _, _ in told), *(a for a, _ in amounts)])
    turns = [at in {p for p, _, _ in told} for at in ordered]
    if len(set(before)) != 1 or any(first == second for first, second in pairwise(turns)):
        return None
    return _by_steps([at for _, at, _ in told], [n for _, n in amounts], asked[0][1])


def _blanked(place: re.Match[str]) -> str:
    return " " * len(place[0])


def _by_steps(at: list[int], amounts: list[str], wanted: int) -> str | None:
    steps = {second - first for first, second in pairwise(at)}
    if steps != {1} or wanted <= at[-1] or not all(n.isdigit() for n in amounts):
        return None
    grows = {int(second) - int(first) for first, second in pairwise(amounts)}
    if len(grows) != 1 or grows == {0}:
        return None
    more, times = grows.pop() > 0, wanted - at[-1]
    one_step = f"({amounts[1]} − {amounts[0]})" if more else f"({amounts[0]} − {amounts[1]})"
    all_steps = one_step if times == 1 else f"{times} × {one_step}"
    return f"{amounts[-1]} {'+' if more else '−'} {all_steps}"


PATTERNS = (
    form(
        "pattern",
        r"(?P<tell>[^?]+?)\.? (?:if|assuming|suppose) (?:the|this|that) (?:same )?pattern "
        r"(?:continues|keeps going|goes on)(?: in the same way)? (?P<ask>how (?:many|much|tall"
        r"|long|far) "
        r"[^?.]+)",
        _continued, says=f"next later then after before what if same last {' '.join(_NTH)}",
        clue="pattern",
    ),
)  # fmt: skip
"""What a pattern told by its places comes to at a later one."""

_MISSING = r"(?:last|other|remaining|missing|third|fourth|fifth|sixth)"


def _left_of_mean(given: Named) -> str | None:
    """The one amount that is not told, of several whose mean is."""
    numbers = _listed(given)
    count = int(given["c"]) if given["c"].isdigit() else 0
    if count != len(numbers) + 1 or given.get("d", str(len(numbers))) != str(len(numbers)):
        return None
    return f"c × m − ({' + '.join(numbers)})" if len(numbers) > 1 else None


MISSING = (
    form(
        "missing of a mean",
        rf"<c> [x] (?:have|had) an? (?:mean|average) (?:of|[a-z]+ of) <m>{_UNIT}\. <d> of"
        r" (?:them|the [y])"
        rf" [a-z' ]+? {_LIST}\. (?:what|how much|how)(?: [a-z]+)? (?:is|does|did|do|was) (?:the"
        r" )?[a-z' ]*?"
        rf"{_MISSING}(?: [a-z' ]+)?",
        _left_of_mean, unit="list", says="what how other last third fourth fifth sixth",
        clue="mean average",
    ),
    form(
        "missing of a mean",
        rf"the (?:mean|average) [a-z' ]*?of <c> [x] is <m>{_UNIT}\. <d> of (?:them|the [y])"
        rf" [a-z' ]+? {_LIST}\. (?:what|how much|how)(?: [a-z]+)? (?:is|does|did|do|was) (?:the"
        r" )?[a-z' ]*?"
        rf"{_MISSING}(?: [a-z' ]+)?",
        _left_of_mean, unit="list", says="what how other last third fourth fifth sixth",
        clue="mean average",
    ),
)  # fmt: skip
"""The one amount that is not told, where the mean is."""

ROWS = (*MEANS, *PATTERNS, *MISSING)
