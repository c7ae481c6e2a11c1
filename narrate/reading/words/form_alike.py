"""Rows of several that are alike and one thing more: 4 tickets and a program, 6 jars in a crate.

What the one thing costs or weighs is told by itself; the rest is shared out equally. CCSSM (2010)
3.OA.D.8, 4.OA.A.3, 7.EE.B.3.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.forms import Named, form, heads, one_of, same
from narrate.reading.words.lexicon import UNITS, one

_ALIKE = r"(?:identical|equal|like|same sized|equally heavy|matching)"
_THE_SAME = one_of(
    r"(?:all (?:of )?the|each of the|each|all the|the)(?: <n_0>)? [x2] (?:were|was|are|is|cost"
    r"|costs|had|has) "
    r"(?:all )?(?:at )?(?:the )?same(?: price| amount)?",
    r"all [x3] cost the same(?: price| amount)?",
)
_EACH_PRICE = one_of(
    r"how much (?:was|is|did|does) (?:each|<one>|one)(?: (?:of the )?[z])?(?: cost)?",
    r"what (?:was|is) the (?:price|cost) of (?:each|<one>|one)(?: of the)? [z]",
    r"what did (?:each|<one>|one) [z] cost",
    r"how many dollars (?:was|is|did|does) (?:each|<one>|one) [z](?: cost)?",
)


def _is(given: Named, name: str, *others: str) -> bool:
    return all(same(given[name], given[other]) for other in others if other in given)


def _one_of_several(given: Named) -> str | None:
    """The price of one of several, the price of the other thing taken off."""
    alike = _is(given, "x", "x2", "x3", "z") and _is(given, "y", "y2")
    apart = not same(given["x"], given["y"]) and not same(given.get("z", given["x"]), given["y"])
    ones = all(given[name] == "1" for name in ("one", "o") if name in given)
    if not alike or not apart or not ones or Fraction(given["n"]) < 2:
        return None
    return "(t − e) ÷ n" if Fraction(given["t"]) > Fraction(given["e"]) else None


_PAID = r"(?:paid|pays|spent|spends|was charged)"
_SEVERAL = r"<n> [x] and (?:<o>|an?|the|one) [y]"
BOUGHT = tuple(
    form(
        "several alike and one more",
        rf"{told}\. (?:the|each|one) [y2] (?:cost|costs|was|is) <$e>(?:(?: and|\.) {_THE_SAME})?\. "
        rf"{_EACH_PRICE}",
        _one_of_several, unit="dollar", says="each same all equal one at total", clue=
        "cost costs was is",
    )
    for told in (
        rf"{{who}}{_PAID} (?:a total of )?<$t>(?: in all| altogether)? (?:for|on) {_SEVERAL}",
        rf"{{who}}(?:bought|ordered|got) {_SEVERAL} for (?:a total of )?<$t>(?: in all| "
        rf"altogether)?",
        rf"{_SEVERAL} (?:cost|costs|cost a total of)(?: {{who}})?<$t>(?: in all| altogether| "
        rf"together)?",
    )
)  # fmt: skip
"""What one of several cost that were bought with one thing of another price."""

_WEIGHS = r"(?:weighs?|weighed|ha[sd] a (?:mass|weight) of|ha[sd] a total (?:mass|weight) of)"
_INSIDE = rf"<n> (?:{_ALIKE} )?[x](?: of [_])?(?: in(?:side)?(?: (?:of )?it)?)?"
_TOGETHER = one_of(
    rf"(?:a|an|the) [b] (?:with|holding|containing) {_INSIDE} {_WEIGHS} <t> (?P<u>[a-z]+)",
    rf"(?:a|an|the) [b] and (?:the )?{_INSIDE} (?:weigh|weighed|have a (?:mass|weight) of) <t> "
    rf"(?P<u>[a-z]+)(?: together| in all)?",
    rf"(?:together )?(?:a|an|the) [b] and (?:the )?{_INSIDE} (?:weigh|weighed) <t> (?P<u>[a-z]+)",
)
_ALONE = one_of(
    rf"the empty [b2] (?:alone |by itself )?{_WEIGHS} <e> (?P<v>[a-z]+)",
    rf"the [b2] (?:alone|by itself|itself|when empty|when it is empty) {_WEIGHS} <e> (?P<v>[a-z]+)",
    rf"(?:when )?empty the [b2] {_WEIGHS} <e> (?P<v>[a-z]+)",
    rf"(?:when (?:it is )?empty|by itself|alone) (?:the [b2]|it) {_WEIGHS} <e> (?P<v>[a-z]+)",
    rf"the [b2] {_WEIGHS} <e> (?P<v>[a-z]+) (?:when (?:it is )?empty|by itself|alone)",
    rf"without the [x2] the [b2] {_WEIGHS} <e> (?P<v>[a-z]+)",
)
_EACH_WEIGHS = one_of(
    r"how much does (?:each|<one>|one)(?: of the)? [z](?: of [_])? weigh(?: in (?P<w>[a-z]+))?",
    r"what is the (?:weight|mass) (?:in (?P<w>[a-z]+) )?of (?:each|<one>|one)(?: of the)? [z](?: "
    r"of [_])?"
    r"(?: in (?P<w>[a-z]+))?",
    r"how many (?P<w>[a-z]+) does (?:each|<one>|one)(?: of the)? [z](?: of [_])? weigh",
)


def _one_inside(given: Named) -> str | None:
    """What one of several alike weighs, the empty container taken off."""
    units = {one(given[name]) for name in ("u", "v", "w") if name in given}
    alike = _is(given, "x", "x2", "z") and _is(given, "b", "b2") and given.get("one", "1") == "1"
    if not alike or len(units) != 1 or not units <= UNITS or heads(given["x"]) & heads(given["b"]):
        return None
    fits = Fraction(given["t"]) > Fraction(given["e"]) and Fraction(given["n"]) > 1
    return "(t − e) ÷ n" if fits else None


INSIDE = (
    form(
        "several alike in one container",
        rf"{_TOGETHER}(?:\.| and| but) {_ALONE}\. (?:if (?:(?:each|every) [_] weighs|all [_] "
        rf"weigh) the "
        rf"same(?: amount)? )?{_EACH_WEIGHS}",
        _one_inside, unit="u", says="each one equal same all when in together total without if "
        "inside alone",
        clue="empty alone itself without",
    ),
)  # fmt: skip
"""What one of several weighs that were weighed in a crate, a box or a pot."""

ROWS = (*BOUGHT, *INSIDE)
