"""Slots of the rows by which sentences are known, and what makes a row of words a pattern."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from narrate.reading.sized.forms import (
    ADJECTIVES,
    CHANGING,
    COMPARED,
    NAME,
    NOUNS,
    TIMES,
    UNIT,
    WORD,
    amount,
    one_of,
)
from narrate.reading.sized.names import named
from narrate.reading.words.lexicon import NOUNS_FIRST, PAST, VERBS
from narrate.reading.words.plain import word_set, words_needed

MEASURES = {
    "weigh": "weigh(?:s|ed)?",
    "cost": "costs?|is priced at|was priced at|(?:sells|sold|is sold|was sold) for",
    "measure": "measures?|measured",
    "stand": "stands?|stood", "hold": "holds?|held", "last": "lasts?|lasted",
    "show": "shows?|showed",
    "take": "takes?|took",
}  # fmt: skip
"""Verbs of measures, as they are written."""
_MEASURE = "|".join(MEASURES.values())
_BE = "is|was|are|were|has been|had been|will be"
_USED = "used to (?:be|weigh|cost|measure|stand)"


def _forms_of(verb: str) -> list[str]:
    first, *rest = verb.split()
    if first == "be":
        return [" ".join(rest)]
    return [" ".join([form, *rest]) for form, base in VERBS.items() if base == first]


CHANGED = {form: CHANGING[verb] for verb in CHANGING for form in _forms_of(verb)} | {
    "shrunk": -1, "sank": -1, "sunk": -1, "risen": 1, "fallen": -1, "dipped": -1, "jumped": 1,
    "climbed": 1,     "shot up": 1, "warm up": 1, "cool off": -1, "cool down": -1, "went": 0,
    "warmed": 1, "warmed up": 1, "cooled": -1, "cooled off": -1, "cooled down": -1, "cool": -1,
    "reduced": -1,
}  # fmt: skip
"""Every form of the verbs of change, and whether there is more or less after it."""

_BASES = set(VERBS.values()) - (
    NOUNS_FIRST
    - word_set(
        "run walk jump hike bike skate swim drive ride read cost need paint draw cook wash score"
        " catch drink eat sleep play pick count move fit use share bite hit sell mix plant pack"
        " order load water weed record stack"
    )
) | {"have"}
_AUX = (
    r"(?: (?:is|was|are|were|does|did|do|has|had|have|costs?|weighs?|weighed|can"
    r"|will be|holds|held))?"
)
_IRREGULAR = [form for form in PAST if not form.endswith(("ed", "s"))]
_D = one_of([*NOUNS])
SLOTS = {
    "NAME": NAME,
    "S": rf"(?P<S>{NAME})",
    "O": rf"(?P<O>{NAME}){_AUX}",
    "P": rf"(?P<O>{NAME})",
    "N": amount("N"),
    "M": amount("M"),
    "K": TIMES,
    "C": rf"(?P<C>{one_of([*COMPARED])})",
    "A": rf"(?P<A>{one_of([a for a in ADJECTIVES if a])})",
    "D": rf"(?P<D>{_D})",
    "Ds": rf"(?P<D>{_D})s?",
    "IN": rf"(?: (?P<A>{one_of([a for a in ADJECTIVES if a])})| in (?P<D>{_D}))?",
    "BE": rf"(?P<V>{_BE})",
    "IS": r"(?P<V>is|was|are|were|will|did|does|do|would|has|had)",
    "BM": rf"(?P<V>{_BE}|{_MEASURE}|{_USED})",
    "BMV": rf"(?P<V>{_BE}|{_MEASURE}|{WORD})",
    "MV": rf"(?P<V>{_MEASURE})",
    "V": rf"(?P<V>{WORD})",
    "Vb": rf"(?P<V>{one_of([*_BASES])})",
    "V2": rf"(?:did|does|do|has|have|had|{WORD}(?:ed|s)|{one_of(_IRREGULAR)})",
    "G": rf"(?P<G>(?!times\b|percent\b|dozen\b|as\b){WORD}(?: {WORD})??)",
    "U": rf"(?P<U>{UNIT})",
    "CH": rf"(?P<V>{one_of([*CHANGED])})",
    "AUX": r"(?:(?P<X>has|have|had|will|was|were|is|has been|had been|will be) )?",
    "FROM": rf"(?: (?:away )?from (?P<F>{NAME}))?",
    "WAS": r"(?P<H>it|he|she|they) (?P<H2>was|is|were|weighed|cost|stood|measured|did|had been)",
    "ALL": r"(?:together|altogether|in all|in total|combined|all together)",
}


_OF_SLOT = {
    "C": frozenset(word for name in COMPARED for word in name.split()),
    "K": frozenset({"times", "#"}),
    "D": frozenset(word for name in NOUNS for word in name.split()),
    "CH": frozenset(word for name in CHANGED for word in name.split()),
    "ALL": frozenset({"together", "altogether", "all", "total", "combined"}),
}
_OF_SLOT["Ds"] = _OF_SLOT["D"]
_OF_SLOT["BE"] = word_set("is was are were has had will")
_OF_SLOT["MV"] = frozenset(re.findall(r"[a-z]+", re.sub(r"[()?:]", " ", _MEASURE))) | {
    form for form, base in VERBS.items() if base in MEASURES
}
_OF_SLOT["BM"] = _OF_SLOT["BE"] | _OF_SLOT["MV"] | {"used"}


@cache
def clues(row: str) -> tuple[frozenset[str], ...]:
    """The words that a row of a table cannot do without: of each set one must be there."""
    outside = re.sub(r"\([^()]*\)\?", " ", re.sub(r"\([^()]*\)\?", " ", row))
    slots = [_OF_SLOT[name] for name in re.findall(r"\{(\w+)\}", outside) if name in _OF_SLOT]
    return (*slots, *words_needed(row))


@lru_cache(maxsize=256)
def words_in(text: str) -> frozenset[str]:
    """The words of a clause, each also without its last s; "#" where it says so many times."""
    words = text.lower().split()
    times = {"#"} if re.search(r"[x½]\d", text) else set()
    return frozenset([*words, *(word.removesuffix("s") for word in words), *times])


def may_fit(row: str, text: str) -> bool:
    """Whether a clause has the words that a row needs: its pattern is made only for these."""
    said = words_in(text)
    return all(any_of & said for any_of in clues(row))


@cache
def pattern(text: str) -> re.Pattern[str]:
    """A row of a table as a pattern: its slots filled in."""
    filled = re.sub(r"\{([A-Z]\w*)\}", lambda m: SLOTS[m[1]], text)
    known: set[str] = set()

    def once(m: re.Match[str]) -> str:
        again = m[1] in known
        known.add(m[1])
        return "(?:" if again else m[0]

    return re.compile(re.sub(r"\(\?P<(\w+)>", once, filled), re.IGNORECASE)


_OF = re.compile(rf"(?:the |an? )?(?P<D>{_D})s? (?:of|in|at|on|for) (?P<S>.+)", re.IGNORECASE)
_ITS = re.compile(rf"(?P<W>its|his|her|their) (?P<D>{_D})s?", re.IGNORECASE)
_WHOSE = re.compile(rf"(?P<S>.+'s?) (?P<D>{_D})s?", re.IGNORECASE)
_BARE = re.compile(rf"(?:the )?(?P<D>{_D})", re.IGNORECASE)


def subject(text: str) -> tuple[str, str]:
    """Whose measure a subject names, and which: the price of a lamp; "" where it names none."""
    for form in (_OF, _WHOSE):
        if m := form.fullmatch(text):
            owner = m["S"]
            own = owner.removesuffix("'s").removesuffix("'") if form is _WHOSE else owner
            return own, m["D"].lower()
    if m := _ITS.fullmatch(text):
        return {"its": "it", "his": "he", "her": "she"}.get(m["W"].lower(), "they"), m["D"].lower()
    if m := _BARE.fullmatch(text):
        return "", m["D"].lower()
    return text, ""


def is_named(text: str | None) -> bool:
    """Whether words can name someone or something."""
    if text is None:
        return True
    owner, measure = subject(text)
    return named(owner) is not None if owner else bool(measure)
