"""Rows of a part of a group that is counted or measured, and of the rest of it.

"There are 36 pupils. Of these pupils, 4/9 wash up and the rest dry. How many dry?" What is asked is
known by what is said of the part and of the rest; the group's own sentence may say anything that is
not loaded. CCSSM (2010) 5.NF.B.6, 6.RP.A.3c.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from narrate.reading.words.cues import WENT, base_of
from narrate.reading.words.form_shares import stems
from narrate.reading.words.forms import Form, Named, form, heads
from narrate.reading.words.lexicon import UNITS, VERBS
from narrate.reading.words.plain import word_set
from narrate.reading.words.verbs import BE, HAVE

_X = r"(?P<x>[a-z'-]+(?: [a-z'-]+){0,2}?)"
_AND_MORE = (
    r"(?P<place>(?: (?:in|on|at|for|from|to|with|by|this|that|these|today|yesterday|last|who"
    r"|into|onto|around)\b[a-z' ]*)?)"
)
_COUNTED = rf"<n> {_X}{_AND_MORE}"
_MEASURED = rf"<n> (?P<u>[a-z]+) of {_X}{_AND_MORE}"
_WHOLE = r"(?P<group>(?:[a-z' ]+ )?)"
_THOSE = r"(?:the|these|those|this|his|her|their|its)"
_OF_IT = rf"of (?:all )?(?:them|these|those|it|this|{_THOSE} [y])"
_SAYS = r"[a-z' ]+"
_THE_REST = (
    r"(?: and|\.|\. but|;) (?:(?:(?:each|every one|all) of )?the (?:rest|others)|(?:the |all "
    r")?(?:the )?(?:other|remaining) [w])"
    rf"(?: of {_THOSE} [w])? (?P<rest>{_SAYS})"
)
_WHEN = r"(?:(?:for|by|in|on|at|so|during|this|last|today|yesterday)\b[a-z' ]* )?"
_PARTS = (
    rf"{_OF_IT} SHARE(?: of them)? (?P<told>{_SAYS}?)",
    rf"{_WHEN}SHARE {_OF_IT} (?P<told>{_SAYS}?)",
    rf"{_WHEN}SHARE (?P<told>(?P<verb>[a-z]+)(?: {_SAYS}?)?)",
)
_DOES = (
    r"(?P<told>(?P<who>[a-z]+(?: [a-z]+)?) (?P<does>[a-z]+)) "
    rf"SHARE {_OF_IT}(?P<more>(?: {_SAYS}?)?)"
    rf"(?: and (?P<rest>[a-z]+) the (?:rest|others)(?P<last>(?: {_SAYS})?))?"
)
_ASKED = rf"how (?:many|much) (?P<asked>{_SAYS})"
_SAID = (
    "rest others other remaining each every all not left remain remains if after before away out "
    "down up off "
    "sold gave ate lost broke spent"
)
_NOT = word_set("not n't never no")
_LEFT = word_set("left remain remained remaining remains")
_OPEN = word_set("and or but only except without who which that")


def _rest_of_count(given: Named) -> str | None:
    """The rest of a group of which the part is counted."""
    part, whole = Fraction(given["c"]), Fraction(given["n"])
    if not 0 < part < whole:
        return None
    work = _of_group({**given, "f": str(part / whole)})
    return "n − c" if work is not None and work.startswith("n") else None


def _of_group(given: Named) -> str | None:
    """The part or the rest of the group, where what is said of them tells which is asked for."""
    share = Fraction(given["f"]) if "f" in given else Fraction(given["r"]) / 100
    whole = heads(given["x"]) | heads(given.get("u", ""))
    if given.get("verb", "be") not in _DOING or given.get("does", "") in BE | HAVE:
        return None  # 1/2 pound of it; that is 2/5 of them
    named = (heads(given[name]) for name in ("y", "w") if name in given)
    if not 0 < share < 1 or not all(words <= whole for words in named):
        return None
    measured = bool(whole & UNITS)
    if not measured and (share * Fraction(given["n"])).denominator != 1:
        return None
    asked = _which(given, whole)
    part = "f × n" if "f" in given else "n × r ÷ 100"
    return {"part": part, "rest": f"n − {part}"}.get(asked)


_DOING = BE | HAVE | frozenset(VERBS) - UNITS


def _which(given: Named, whole: set[str]) -> str:
    """Whether the "part" or the "rest" is asked for; "" where that is not certain."""
    told, rest = (_said(given, *names) for names in (("told", "more"), ("rest", "last")))
    if _OPEN & {*told, *rest}:
        return ""
    words = given["asked"].split()
    group = stems(f"{given['group']} {given['place']}") | {word[:5] for word in whole}
    if _LEFT & set(words):
        others = stems(" ".join(words)) - group - stems(" ".join((*_LEFT, "of")))
        went = any(base_of(word) in WENT | _GIVEN for word in told)
        return "rest" if went and not rest and not others - _who(given) else ""
    doing = stems(given["asked"]) - group - _who(given)
    doing = doing - stems("attend") or doing  # those of a group that met were there
    denied = bool(_NOT & set(words)) != bool(_NOT & set(told))
    fits = {
        "rest" if denied else "part": bool(doing) and doing <= stems(" ".join(told)) - group,
        "part" if denied else "rest ": bool(doing) and doing <= stems(" ".join(rest)) - group,
    }
    found = [name.strip() for name, so in fits.items() if so]
    return found[0] if len(found) == 1 and not (denied and rest) else ""


_GIVEN = word_set("give donate sell mail send")


def _said(given: Named, *names: str) -> list[str]:
    return " ".join(given.get(name, "") for name in names).split()


def _who(given: Named) -> set[str]:
    """Who did it, by name or "she", in the question: no more than that."""
    own = stems(given.get("who", ""))
    return own | {word[:5] for word in ("he", "she", "they", "it")}


def _rows(group: str, part: str, unit: str) -> Iterator[Form]:
    for share in ("<r%>", "<f>"):
        row = rf"{group}{part.replace('SHARE', share)}(?:\. | ){_ASKED}"
        yield form("part of a group", row, _of_group, unit=unit, says=_SAID)


_GROUPS = (
    (rf"{_WHOLE}{_MEASURED}\. (?:if )?", "u"),
    (rf"{_WHOLE}{_COUNTED}\. (?:if )?", "x"),
)
_OF_ALL = rf"(?P<group>)of (?:the|all) <n> {_X}{_AND_MORE} SHARE (?P<told>{_SAYS}?)"
_COUNTS = (
    rf"{_OF_ALL}{_THE_REST}",
    *(rf"{group}{part}" for group, _ in _GROUPS for part in _PARTS[:2]),
    *(rf"{group}{part}{_THE_REST}" for group, _ in _GROUPS for part in _PARTS[:2]),
)
ROWS = (
    *(
        form(
            "the rest of a group",
            rf"{row.replace('SHARE', '<c>')}(?:\. | ){_ASKED}",
            _rest_of_count,
            unit="x",
            says=_SAID,
            clue="rest others other remaining not",
        )
        for row in _COUNTS
    ),
    *(
        row
        for group, unit in _GROUPS
        for part in (*_PARTS, *(f"{part}{_THE_REST}" for part in _PARTS), _DOES)
        for row in _rows(group, part, unit)
    ),
    *(row for part in (_OF_ALL, f"{_OF_ALL}{_THE_REST}") for row in _rows("", part, "x")),
)
"""The part and the rest of a group, told of it, of them or of the so many."""
