"""Rows of a share of a group: percents, what a sample lets expect, chances, choices.

CCSSM (2010) 6.RP.A.3c, 7.RP.A.3, 7.SP.A.2, 7.SP.C.6, 7.SP.C.7, 7.SP.C.8.
"""

from __future__ import annotations

import re
from math import factorial

from narrate.reading.words.forms import Named, form, heads, one_of
from narrate.reading.words.lexicon import VERBS, one
from narrate.reading.words.plain import word_set

_DOES = r"(?:will|would|does|do|did|can|could|should|must)"
_DID = (
    r"(?:has|had|have|picked|planted|grew|baked|made|sold|bought|collected|counted|took|answered"
    r"|surveyed|asked|tested|sowed|checked|packed|owns|found)"
)

# -- what was done by some, and what is asked of them

_SMALL = word_set(
    "to be are is was were will would have has had do did does their his her its the a an of them "
    "these those that who which as in on at for by with be being been and it they or"
)
_NOT = word_set("not n't never don't didn't doesn't aren't weren't isn't wasn't no")


def stems(doing: str) -> set[str]:
    """The words of what is done, each cut so that sprout is as sprouted."""
    words = {VERBS.get(word, one(word)) for word in doing.split() if word not in _SMALL | _NOT}
    return {word[:5] for word in words}


def _same_doing(given: Named) -> bool | None:
    """Whether what is asked is what was told (True), or that it is not so (False); else None."""
    told, asked = given["told"], given["asked"]
    doing = stems(asked) - stems(given["x"])
    if not doing or not doing <= stems(told):
        return None
    denied = [bool(set(words.split()) & _NOT) for words in (told, asked)]
    return denied[0] == denied[1]


_GROUP = one_of(
    r"there (?:are|were) <n> [x]{where}",
    rf"{{who}}{_DID} <n> [x]{{where}}",
    r"<n> [x] (?:are|were) (?:in|on|at) [_]",
)
_OF_THEM = r"of (?:them|these|those|the [y]|these [y]|his [y]|her [y])"
_DOING = r"[a-z' ]+"


def _part(given: Named) -> str | None:
    """A percent of a group that does something, or of the rest."""
    told_of = heads(given["x"])
    if any(name in given and not heads(given[name]) <= told_of for name in ("y", "z")):
        return None
    alike = _same_doing(given)
    if alike is None:
        return None
    return "n × r ÷ 100" if alike else "n − n × r ÷ 100"


def _percent(given: Named) -> str | None:
    """What percent of a group does something, or does not."""
    if any(name in given and not heads(given[name]) <= heads(given["x"]) for name in ("y", "z")):
        return None
    alike = _same_doing(given)
    if alike is None or int(given["a"]) > int(given["n"]):
        return None
    return "a ÷ n × 100" if alike else "(n − a) ÷ n × 100"


_SAYS = "not all if each of more less"
_HOW_MANY = one_of(
    rf"how many (?:{_OF_THEM} )?(?P<asked>{_DOING})",
    rf"how many [z] (?P<asked>(?:are|were|did|do|have|had|bring|like|can|will|will be) {_DOING})",
)
PERCENTS = (
    form(
        "percent of those told",
        rf"{_GROUP}\. (?:if )?<r%> {_OF_THEM} (?P<told>{_DOING})(?:\.| ) ?{_HOW_MANY}",
        _part, unit="x", says=_SAYS,
    ),
    form(
        "percent of those told",
        rf"<r%> of (?:the|his|her|{{who}}) ?<n> [x]{{where}} (?P<told>(?:are|were|have|had|can"
        r"|do|did|like"
        rf"|chose|said|brought|bring|bought|came|won|sprouted|bloomed) {_DOING})\. {_HOW_MANY}",
        _part, unit="x", says=_SAYS,
    ),
    form(
        "percent of those told",
        r"{who}(?:had|has) <r%> of (?:his|her|their) <n> [x] (?P<told>[a-z' ]+)\. "
        r"how many [z] (?P<asked>(?:are|were) [a-z' ]+)",
        _part, unit="x", says=_SAYS,
    ),
    form(
        "what percent",
        rf"{_GROUP}(?:\.| and) (?:if )?<a> {_OF_THEM} (?P<told>{_DOING})\.? "
        rf"what percent {_OF_THEM} (?P<asked>{_DOING})",
        _percent, says=_SAYS, clue="percent",
    ),
    form(
        "what percent",
        rf"of (?:the )?<n> [x](?: (?:that|which|who) {{who}}{_DID}| in [_]| on [_])? <a> "
        rf"(?P<told>{_DOING})\. what percent {_OF_THEM} (?P<asked>{_DOING})",
        _percent, says=_SAYS, clue="percent",
    ),
    form(
        "what percent",
        rf"<a> of (?:the |his |her )?<n> [x]{{where}} (?P<told>{_DOING})\. "
        rf"what percent {_OF_THEM} (?P<asked>{_DOING})",
        _percent, says=_SAYS, clue="percent",
    ),
    form(
        "what percent",
        rf"{{who}}(?P<told>answered|got|made|solved|sold|picked|planted|ate|used|read|completed)"
        r" <a> "
        r"(?:out )?of (?:the |his |her )?<n> [x](?P<told2>{where}(?: correctly| correct|"
        r" right)?)\. "
        rf"what percent {_OF_THEM} {_DOES} {{who}}(?P<asked>{_DOING})",
        lambda g: _percent({**g, "told": f"{g['told']} {g['told2']}"}),
        says=_SAYS, clue="percent",
    ),
    form(
        "percent of change",
        r"[_] (?P<way>rose|increased|went up|grew|decreased|fell|dropped|went down|was reduced"
        r"|was raised"
        r"|changed) from \$?<a>(?: [x])? to \$?<b>(?: [y])?(?: [_])?\. what (?:is|was) the"
        r" percent(?:age)? "
        r"(?:of )?(?P<change>increase|decrease|change)(?: (?:in|of) [_])?",
        lambda g: _change(g),
        says="increase decrease change increased decreased reduced raised up down",
        clue="percent percentage",
    ),
)  # fmt: skip
"""A percent of a group, what percent of it some are, and by what percent an amount changed."""

_GROWS = ("rose", "increased", "went up", "grew", "was raised")


def _change(given: Named) -> str | None:
    """By what percent an amount became more or less, where the words say the same way."""
    more = int(given["b"]) > int(given["a"])
    told = given["way"] == "changed" or (given["way"] in _GROWS) == more
    asked = given["change"] == "change" or (given["change"] == "increase") == more
    if not told or not asked or given["a"] in ("0", given["b"]):
        return None
    return f"100 × ({'b − a' if more else 'a − b'}) ÷ a"


# -- what a sample lets expect


def _expected(given: Named) -> str | None:
    """As large a part of many as of the few that were looked at."""
    told_of = heads(given["x"])
    if any(name in given and not heads(given[name]) <= told_of for name in ("y", "z")):
        return None
    alike = _same_doing(given)
    few, some, many = (int(given[name]) for name in ("n", "a", "m"))
    if alike is None or some >= few:
        return None
    part = "a" if alike else "(n − a)"
    return f"m ÷ n × {part}" if many % few == 0 else f"{part} ÷ n × m"


_SAMPLE = one_of(
    rf"of <n> [x](?: (?:that|which|who) (?:were|{{who}}) ?(?:tested|surveyed|asked|checked"
    r"|planted|sowed"
    rf"|sown))? <a> (?P<told>{_DOING})",
    rf"{{who}}(?:surveyed|asked|tested|checked|planted|sowed|examined|inspected) <n> [x](?:\.|"
    r" and) <a>"
    rf" (?:of (?:them|the [y]|these) )?(?P<told>{_DOING})",
    rf"in a (?:test|survey|sample)(?: of [_])? <a> (?:out )?of <n> [x] (?P<told>{_DOING})",
    rf"in a (?:survey|sample|test) of <n> [x] <a> (?:of (?:them|the [y]) )?(?P<told>{_DOING})",
    rf"<a> (?:out )?of (?:the )?<n> [x] (?:in a (?:sample|survey|test) )?(?P<told>{_DOING})",
)
_BASED = (
    r"(?:(?:based on|according to|using) (?:this|these|the) (?:test|results?|survey|sample|data"
    r"|information"
    r"|results of the [_])? ?)?"
)
_LIKELY = (
    r"(?:(?:would|should|can|could) be expected|(?:would|should|can) {who}expect|are expected"
    r"|are likely"
    r"|would {who}predict)"
)
_EXPECT = one_of(
    rf"{_BASED}(?:about )?how many of (?:the )?<m> [z]{{where}} {_LIKELY} to (?P<asked>{_DOING})",
    rf"{_BASED}(?:about )?how many of (?:the )?<m> [z] {_LIKELY} (?P<asked>not to {_DOING})",
    rf"(?:{_BASED}if )?there are <m> [z]{{where}} ?(?:{_BASED})(?:about )?how many (?:[y] |of"
    r" them )?"
    rf"{_LIKELY} to (?P<asked>{_DOING})",
    rf"{_BASED}(?:about )?how many (?:[y] )?{_LIKELY} to (?P<asked>{_DOING}) (?:if there are|if"
    rf" {{who}}plants"
    r"|out of|from) <m> [z]",
)
EXPECTED = (
    form(
        "expected count",
        rf"{_SAMPLE}\. (?:if )?{_EXPECT}",
        _expected, unit="x", says="about if not based each", clue="expect expected likely predict",
    ),
)  # fmt: skip
"""How many of many, as the few that were looked at let expect."""

# -- numbers on a cube or a spinner

_TURNED = r"(?:rolled|spun|tossed|thrown)"
_NUMBERED = one_of(
    r"(?:for [_] )?(?:a|one|the) [_] (?:with|has|that has) (?:<s> (?:equal |equal sized "
    r"|congruent )?"
    r"(?:sections|parts|faces|sides) |faces |sides |sections )?(?:that are |are )?"
    r"(?:numbered|labeled|labelled) (?:from )?<lo> (?:to|through) <hi>",
    r"(?:a|one|the) (?:fair )?(?:number cube|numbered cube|die)(?: (?:numbered|labeled) (?:from"
    r" )?<lo> (?:to"
    r"|through) <hi>)?",
)
_ON = (
    r"(?:(?:it )?(?:will land|lands|landing|land|stops|stopping|comes up|will come up)(?: on)? "
    r"|rolling |spinning |getting )"
)
_WANTED = (
    r"(?:an? )?(?P<wanted>(?:number )?(?:greater|less|more) than #\d+|number (?:that is"
    r" )?(?:greater|less)"
    r" than #\d+|even number|odd number|multiple of #\d+|number that is a multiple of #\d+|#\d+)"
)


def _hits(given: Named) -> tuple[int, int] | None:
    """How many of the numbers are as is wanted, and how many there are."""
    low, high = int(given.get("lo", "1")), int(given.get("hi", "6"))
    if low != 1 or high > 20 or given.get("s", str(high)) != str(high):
        return None
    wanted = given["wanted"]
    named = [int(given[at]) for at in re.findall(r"#\d+", wanted)]
    numbers = range(1, high + 1)
    if "even" in wanted or "odd" in wanted:
        return sum(n % 2 == ("odd" in wanted) for n in numbers), high
    if "multiple" in wanted:
        return sum(n % named[0] == 0 for n in numbers if named[0]), high
    if "less" in wanted:
        return sum(n < named[0] for n in numbers), high
    if "than" in wanted:
        return sum(n > named[0] for n in numbers), high
    return (1, high) if named[0] in numbers else None


def _chance(given: Named) -> str | None:
    found = _hits(given)
    return f"{found[0]} ÷ {found[1]}" if found and found[0] else None


def _expected_turns(given: Named) -> str | None:
    found = _hits(given)
    if not found or not found[0]:
        return None
    return f"t ÷ {found[1]} × {found[0]}"


_TURNED_SAYS = (
    "if once times about less more greater even odd multiple equal probability chance expect"
)
NUMBERED = (
    form(
        "chance",
        rf"(?:if )?{_NUMBERED}(?: is {_TURNED}(?: (?:once|<one> time))?)?\.? (?:it is"
        rf" {_TURNED}(?: once)?\. )?what is the (?:probability|"
        rf"chance)s? (?:that (?:the [_] |it )?{_ON}|of {_ON}){_WANTED}",
        _chance, says=_TURNED_SAYS, clue="probability chance expect",
    ),
    form(
        "expected count",
        rf"(?:if )?{_NUMBERED} (?:is|will be|was) {_TURNED} <t> times\.? (?:about )?how many"
        r" times (?:should|would|can|could|do|will) "
        rf"(?:you|{{who}})expect (?:it to land on |it to come up |to (?:roll|spin|get) )?{_WANTED}",
        _expected_turns, says=_TURNED_SAYS, clue="probability chance expect",
    ),
)  # fmt: skip
"""The chance of a number on a cube or spinner, and how often it is to be expected."""

# -- choices


_MADE = word_set(
    "combination outfit way choice lunch sandwich salad meal snack dinner breakfast drink sundae "
    "pizza bouquet arrangement smoothie bowl uniform costume pair set different possible"
)
"""What is made of one of each kind."""


def _one_each(given: Named) -> str | None:
    """One of each kind, where the question names the kinds or speaks of combinations."""
    if not {one(word) for word in given["what"].split()} <= _MADE:
        return None
    kinds = [name for name in ("a", "b", "c") if name in given]
    named = [one(given[f"x{name}"].split()[-1]) for name in kinds]
    if len(set(named)) != len(named):
        return None
    parts = given.get("parts", "")
    if parts:
        said = {one(word) for word in parts.split()}
        if not set(named) <= said or any(given[at] != "1" for at in re.findall(r"#\d+", parts)):
            if not re.search(r"#\d+ (?:of )?each|one of each|each", parts):
                return None
            if any(given[at] != "1" for at in re.findall(r"#\d+", parts)):
                return None
    elif not re.search(r"\b(?:combinations?|outfits?)\b", given["what"]):
        return None
    return " × ".join(kinds)


_SORT = r"(?:(?:different )?(?:kinds?|types?|colors?|sizes?|choices?|flavors?|sorts?) of )?"
_TWO_KINDS = rf"<a> {_SORT}(?P<xa>[a-z' ]+) and <b> {_SORT}(?P<xb>[a-z' ]+?)"
_THREE_KINDS = (
    rf"<a> {_SORT}(?P<xa>[a-z' ]+?) <b> {_SORT}(?P<xb>[a-z' ]+?) and <c> {_SORT}(?P<xc>[a-z' ]+?)"
)
_OFFERS = (
    r"(?:{who}(?:has|have|offers?|sells|serves|packs|packed|brought|can choose from|owns)|there"
    r" are)"
)
_WAYS = one_of(
    r"how many (?:different |possible )*(?P<what>[a-z' ]+?) (?:of|with|using|made of|consisting"
    r" of|that have)"
    r" (?P<parts>[a-z#'\d ]+?) (?:are possible|are there|can be (?:made|chosen|ordered)|can"
    r" {who}(?:make|choose"
    r"|wear|order|have|buy))",
    r"how many (?:different |possible )*(?P<what>[a-z' ]+?) (?:can|could|does) {who}(?:make"
    r"|choose|wear|order|"
    r"have|create|put together)(?: (?:of|with|using|if {who}(?:takes|chooses|picks|uses|wears)"
    r"|by choosing|that have) "
    r"(?P<parts>[a-z#'\d ]+))?",
    r"how many (?:different |possible )*(?P<what>combinations|outfits) are (?:possible|there)",
)


def _orders(given: Named) -> str | None:
    """In how many orders a few things can stand."""
    count = int(given["n"])
    if not 3 <= count <= 5 or factorial(count) > 120:
        return None
    return " × ".join(str(n) for n in range(count, 0, -1))


CHOICES = (
    *(
        form(
            "choices",
            rf"{_OFFERS} {kinds}{{where}}\. {_WAYS}",
            _one_each, says="different each if",
            clue="different possible combinations outfits choices ways",
        )
        for kinds in (_TWO_KINDS, _THREE_KINDS)
    ),
    form(
        "orders",
        r"in how many (?:different )?(?:ways|orders) can (?:{who})?(?:arrange )?<n> (?:different"
        r" )?[x] "
        r"?(?:be (?:arranged|lined up|placed|put|displayed)|stand|sit|line up)?(?: in a (?:row"
        r"|line)| in order"
        r"| side by side){where}",
        _orders, says="different", clue="ways orders",
    ),
)  # fmt: skip
"""How many ways there are to choose one of each, and to set things in a row."""

ROWS = (*PERCENTS, *EXPECTED, *NUMBERED, *CHOICES)
