"""Rows of stories that compare two kinds of things of one owner or in one place.

CCSSM (2010), glossary Tables 1 and 2, compare: larger or smaller unknown; product or group size
unknown. "The bed has 18 fewer tulips than roses" is of one bed: whoever has the others must be
the same, and must do the same.
"""

from __future__ import annotations

from collections.abc import Callable

from narrate.reading.words.forms import Case, Form, Named, are_one
from narrate.reading.words.lexicon import VERBS

_KIND = r"[a-z-]+(?: [a-z-]+)?"
_ACTS = (
    r"(?:has|had|have|holds|contains|grows|grew|picked|planted|bought|made|baked|saw|counted|sold"
    r"|used|collected|found|caught|drew|cut|washed|packed|ordered|needs)"
)
_ACT = (
    r"(?:have|hold|contain|grow|pick|plant|buy|make|bake|see|count|sell|use|collect|find|catch"
    r"|draw|cut|wash|pack|order|need)"
)


def _in(at: int) -> str:
    """Where things are, named."""
    return rf"(?: (?:in|on|at) (?P<place{at}>(?:the|this|a|an|my|our|his|her|their) {_KIND}))?"


def _there(at: int) -> str:
    """Whose things are told of: there are, the bed has, Ana picked."""
    owner = rf"(?P<owner{at}>(?:[a-z'-]+ ){{1,4}}?)"
    return rf"(?:(?P<there{at}>there (?:are|were))|{owner}(?P<act{at}>{_ACTS}))"


def _bare(letter: str) -> str:
    return rf"(?P<{letter}>{_KIND})"


_ASKED = (
    rf"how many {_bare('d')} (?:(?P<there3>(?:are|were) there){_in(3)}|(?:are|were){_in(4)}"
    rf"|(?:does|did|do) (?P<owner3>(?:[a-z'-]+ ){{1,4}}?)(?P<act3>{_ACT}){_in(5)})"
)
_MORE = r"<n> (?P<sign>more|fewer|less)"
_TIMES = r"<n>(?: times)? as many"
_KNOWN = rf"{_there(2)} <k> {_bare('c')}{_in(2)}"


_NOW = ("has", "holds", "contains", "grows", "needs")


def _one_owner(given: Named) -> bool:
    """Whether all of a story has one owner or place, and one thing is done."""
    owners = (word for name, word in given.items() if name.startswith(("owner", "place")))
    acts = {VERBS.get(word, word) for name, word in given.items() if name.startswith("act")}
    are_there = any(name.startswith("there") for name in given) or "act3" not in given
    then = {word for name, word in given.items() if name.startswith("act") and word == "had"}
    now = {word for name, word in given.items() if name.startswith("act") and word in _NOW}
    if not are_one(owners) or (then and now):
        return False
    return acts <= {"have", "hold", "contain"} or (len(acts) == 1 and not are_there)


def _worked(up: str, down: str, *, back: bool) -> Callable[[Named], str | None]:
    def work(given: Named) -> str | None:
        if not _one_owner(given):
            return None
        return down if (given.get("sign", "more") == "more") == back else up

    return work


def _cases(up: str, down: str) -> tuple[Case, ...]:
    """What is worked out where the one told is the second of a comparison, and the first."""
    return (
        Case("c=b c!a d=a d!b", _worked(up, down, back=False)),
        Case("c=a c!b d=b d!a", _worked(up, down, back=True)),
    )


_SUMS, _PRODUCTS = _cases("k + n", "k − n"), _cases("k × n", "k ÷ n")
_THAN = rf"{_MORE} {_bare('a')} than {_bare('b')}"
_AS = rf"{_TIMES} {_bare('a')} as {_bare('b')}"


def _rows(kind: str, told: str, cases: tuple[Case, ...]) -> tuple[Form, ...]:
    """A comparison told first, and told after the amount that is known."""
    told_at = rf"{_there(1)} {told}{_in(1)}"
    return (
        Form(kind, rf"{told_at}\. (?:if )?{_KNOWN}(?:\.| )? {_ASKED}", cases, unit="d"),
        Form(kind, rf"{_KNOWN}\. {told_at}\. {_ASKED}", cases, unit="d"),
        Form(kind, rf"{_KNOWN} and {told}{_in(1)}\. {_ASKED}", cases, unit="d"),
    )


_SO_MANY = Form(
    "two kinds compared, times as many",
    rf"{_KNOWN} and {_TIMES} {_bare('a')}{_in(1)}\. {_ASKED}",
    (Case("c!a d=a", _worked("k × n", "k × n", back=False)),), unit="d",
)  # fmt: skip
ROWS = (
    _SO_MANY,
    *_rows("two kinds compared", _THAN, _SUMS),
    *_rows("two kinds compared, times as many", _AS, _PRODUCTS),
)
