"""Rows of stories of equal groups told whole (CCSSM 2010, glossary Table 2; 3.OA.A, 5.NF.B).

The number in a group, the number of groups or all of them is asked. Things that are counted are
read only where they come out whole: what is left over is another story's.
"""

from __future__ import annotations

from collections.abc import Callable

from narrate.reading.words.forms import Form, Named, form
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.masking import amount

_A = r"(?:an?|one|each|every|#\d+)"
_IN = r"(?:in|into|on|onto|among|between|to)"
_PUT = (
    r"(?:puts?|pack(?:s|ed)?|plant(?:s|ed)?|place(?:s|d)?|pour(?:s|ed)?|arrange(?:s|d)?|share(?:s|d)?"
    r"|divide(?:s|d)?|splits?|sort(?:s|ed)?|sow(?:s|ed)?|lays?|laid|stack(?:s|ed)?|sets|glue(?:s|d)?"
    r"|ties?|tied)"
)
_HAS = r"(?:has|had|have|picked|picks|baked|bakes|made|bought|buys|collected|grew|cut)"
_DID = r"(?:does|did|do|will|would|can|could|must|should)"
_NEEDS = r"(?:takes?|uses?|needs?|requires?|is made with|calls for|holds?)"
_MAKE = r"(?:fill|need|use|make|pack|pour|cut|sew|get)"
_SAME = r"the same (?:number|amount)(?: of [_])?"
_ALIKE = (
    rf"(?: with {_SAME} {_IN} each(?: (?:of them|[_]))?| {_SAME} {_IN} each(?: (?:of them|[_]))?"
    rf"| all alike| equally| evenly| so that (?:all|both|each)(?: of)?(?: the)? [_] "
    rf"(?:have|has|hold|holds|get|gets) {_SAME})"
)
_SAID_ALIKE = (
    rf"(?:(?:each|every) [_] (?:has|had|holds|held|gets|got) {_SAME}"
    rf"|(?:there (?:are|is|were)|{{who2}}[_]) {_SAME} {_IN} (?:each|every)(?: [_])?"
    rf"|(?:all|both)(?: the| of the)? [_] (?:have|had|hold|held|get|got) {_SAME})"
)
_IN_ONE = (
    rf"how many [y] (?:are|were|go|went|will be|will go) (?:there )?{_IN} {_A} [h]",
    rf"how many [y] {_DID} {{who1}}{_PUT} {_IN} {_A} [h]",
    rf"how many [y] {_DID} {_A} [h] (?:have|hold|get|contain)",
)
_COST = r"(?:costs?|is|sells? for|is sold for)"
_IN_ALL = r"(?: (?:altogether|in all|in total))?"


def _is_single(given: Named) -> bool:
    """Whether each number that a row does not name is one: one box, in one minute."""
    named = sum(name in given for name in ("n", "t", "k", "p", "a", "b"))
    written = [number for name, number in given.items() if name.startswith("#")]
    return written.count("1") >= len(written) - named


def _each(total: str, groups: str) -> Callable[[Named], str | None]:
    """What is in one of several groups; a number of things comes out whole, a measure need not."""

    def work(given: Named) -> str | None:
        count, all_ = amount(given[groups]), amount(given[total])
        measured = bool({one(word) for word in given["x"].split()} & UNITS)
        fits = (
            count.denominator == 1 and count > 1 and (measured or (all_ / count).denominator == 1)
        )
        return f"{total} ÷ {groups}" if fits and _is_single(given) else None

    return work


def _many(total: str, size: str) -> Callable[[Named], str | None]:
    """How many groups there are, where they come out whole."""

    def work(given: Named) -> str | None:
        count = amount(given[total]) / amount(given[size])
        return f"{total} ÷ {size}" if count.denominator == 1 and count > 1 else None

    return work


def _times(groups: str, size: str) -> Callable[[Named], str | None]:
    """All of several groups."""
    return lambda given: f"{groups} × {size}" if _is_single(given) else None


_PUT_ALIKE = (
    rf"{{who2}}{_PUT} <t> [x] {_IN} <n> (?:equal )?[g]{_ALIKE}",
    rf"{{who3}}{_PUT} <t> [x] {_IN} <n> (?:equal )?[g]\. {_SAID_ALIKE}",
    rf"<t> [x] (?:are|were) (?:to be )?{_PUT} {_IN} <n> (?:equal )?[g]{_ALIKE}",
)
SIZES: tuple[Form, ...] = tuple(
    form(
        "equal groups, how many in one", rf"{told}\. {asked}",
        _each("t", "n"), where="x=y g=h", unit="y",
    )
    for told in _PUT_ALIKE
    for asked in _IN_ONE
)  # fmt: skip
"""How many are in one of several groups that are said to be alike."""

NUMBERS: tuple[Form, ...] = (
    form(
        "equal groups, how many groups",
        rf"[x] (?:are|were) (?:{_PUT} )?<n> (?:to|in) {_A} [g]\. {{who1}}{_HAS} <t> [y]{{where}}\. "
        rf"how many [h] {_DID} {{who2}}{_MAKE}",
        _many("t", "n"), where="x=y g=h", unit="h",
    ),
    form(
        "equal groups, how many groups",
        rf"{{who1}}{_HAS} <t> [x]{{where}}(?:\. {{who2}}| and ){_PUT} <n>(?: of them| [_])? {_IN} "
        rf"{_A} [g]\. how many [h] (?:will that (?:make|fill)|{_DID} {{who3}}{_MAKE})",
        _many("t", "n"), where="g=h", unit="h",
    ),
    form(
        "equal groups, how many groups",
        rf"there (?:are|were) <n> [x] {_IN} (?:each|every) [g] and <t> [y] "
        rf"(?:altogether|in all|in total)\. how many [h] (?:are|were) there",
        _many("t", "n"), where="x=y g=h", unit="h",
    ),
    form(
        "equal groups, how many groups",
        rf"{_A} [g] {_NEEDS} <n> [u] of [x]\. (?:there (?:are|is)|{{who1}}has) <t> [v] of [z]"
        rf"{{where}}\. how many [h] (?:{_DID} {{who2}}{_MAKE}|can be (?:made|filled|cut|sewn))",
        _many("t", "n"), where="x=z u=v g=h", unit="h",
    ),
    *(
        form(
            "equal groups, how many groups",
            r"(?:the|an?) (?P<jug>[a-z]+) (?:of [_] )?(?:holds|contains|has) <t> [u](?: of [_])?\. "
            r"(?:an?|one|each|#\d+) (?P<g>serving|portion|helping)(?: of [_])? (?:is|uses|takes) "
            rf"<n> [v](?: of [_])?\. {asked}",
            _many("t", "n"), where="u=v g=h", unit="h",
        )
        for asked in (
            r"how many [h] are (?:there )?in (?:the|a) (?P=jug)",
            r"how many [h] (?:does|can) the (?P=jug) (?:hold|make|give)",
            r"for how many [h] is there enough",
        )
    ),
)  # fmt: skip
"""How many groups there are."""

PRODUCTS: tuple[Form, ...] = (
    form(
        "equal groups, all of them",
        rf"(?:an?|one|each|#\d+) [x] {_COST} <$p>\. (?:how much|what) {_DID} <n> [y] cost{_IN_ALL}",
        _times("n", "p"), where="x=y", unit="dollar",
    ),
    form(
        "equal groups, all of them",
        r"[x] (?:are|cost|sell for) <$p> (?:each|apiece)\. (?:find|what (?:is|was)) the "
        r"(?:total )?(?:cost|price)(?: in dollars)? of <n> [y](?: in dollars)?",
        _times("n", "p"), where="x=y", unit="dollar",
    ),
    form(
        "equal groups, all of them",
        rf"{{who1}}{_PUT} <n> [x] {_IN} (?:each|every) [g](?: of [_])?\. {{who2}}"
        r"(?:filled|fills|used|uses|planted|has|had|made) <k> [h]\. "
        rf"how many [y] (?:does|did) {{who3}}{_PUT}(?: in (?:it|them))?{_IN_ALL}",
        _times("k", "n"), where="x=y g=h", unit="y",
    ),
    form(
        "equal groups, all of them",
        r"(?:the )?<k> [g] each (?:brought|gave|baked|picked|planted|made|bought|sold|carried) "
        r"<n> [x](?: to [_]|{where})\. how many [y] were (?:brought|given|baked|picked|planted|made"
        rf"|bought|sold|carried)(?: to the [_]|{{where}}){_IN_ALL}",
        _times("k", "n"), where="x=y", unit="y",
    ),
    *(
        form(
            "equal groups, all of them",
            rf"{_A} batch of [_] {_NEEDS} <n> [u] of [x]\. {{who1}}(?:makes|made|is making|wants to"
            rf" make|bakes|baked)(?: only)? <k> (?:of an? )?batch(?:es)?\. {asked} {_DID} {{who2}}"
            r"(?:use|need)",
            _times("k", "n"), where=where, unit="u",
        )
        for asked, where in ((r"how many [v] of [y]", "x=y u=v"), (r"how much [y]", "x=y"))
    ),
)  # fmt: skip
"""What all groups come to."""

RATES: tuple[Form, ...] = (
    form(
        "speed",
        r"{who1}(?:walked|ran|rode|went|crawled|crept|swam|moved|travelled|traveled|drove|rowed) "
        r"<a> [x] in <b> [u]\. how far (?:did|does) {who2}(?:walk|run|ride|go|crawl|creep|swim|move"
        r"|travel|drive|row) (?:in|each|per|every)(?: a| an| one| #\d+)? [v]",
        lambda g: "a ÷ b" if _is_single(g) and g["v"] == one(g["v"]) else None,
        where="x~length u~time u=v", unit="x",
    ),
)  # fmt: skip
"""How far in one unit of time."""

ROWS = (*SIZES, *NUMBERS, *PRODUCTS, *RATES)
