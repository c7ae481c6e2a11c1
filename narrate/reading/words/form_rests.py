"""Rows of parts of one whole and what is left of it: a book, a pan, a fence, a practice.

Two parts of a book that were read, a leftover that is shared, a part that is counted and the whole
asked for, a fence with a gate, a practice with a break. CCSSM (2010) 3.MD.A.1, 4.OA.A.3, 4.MD.A.3,
5.NF.B.6, 6.RP.A.3c, 7.NS.A.3.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.form_numbers import ENDS, STARTS, elapsed
from narrate.reading.words.form_shares import stems
from narrate.reading.words.forms import LENGTHS, Named, form, heads, one_of, same
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set

_WHEN = (
    r"(?: (?:on|in|at|for|during|before|after|by) (?:the |this |that |his |her )?[a-z']+"
    r"(?: [a-z']+){0,2}?| today| yesterday)?"
)
_DOES = r"(?:does|do|did|has|have|had|must|will)"

# -- two parts of one whole, and what is left


def _one_whole(given: Named, *names: str) -> bool:
    """Whether what the parts are of is the one thing told, or "it"."""
    return all(given[n] == "it" or same(given["w"], given[n]) for n in names if n in given)


def _two_parts_off(given: Named) -> str | None:
    parts = [Fraction(given["f"]), Fraction(given["g"])]
    if (
        not _one_whole(given, "v", "q")
        or not all(0 < part < 1 for part in parts)
        or sum(parts) >= 1
    ):
        return None
    counted, asked = heads(given["x"]), heads(given["y"])
    if counted != asked or heads(given["w"]) & counted:
        return None
    left = "n × (1 − f − g)"
    whole = (Fraction(given["n"]) * (1 - sum(parts))).denominator == 1
    return left if whole or counted & UNITS else None


_THING = r"(?P<w>[a-z]+(?: [a-z]+)?)"
_WITH = one_of(
    rf"{{who1}}(?:is|are|was|were) (?:[a-z]+ing) (?:a|an|the|his|her|their) {_THING} (?:that has"
    rf"|that had|of|with) <n> [x]",
    rf"{{who1}}(?:began|started|bought|has|had|borrowed|opened) (?:to read )?(?:a|an|the|his|her"
    rf"|their) {_THING} "
    r"(?:that has|that had|of|with) <n> [x]",
    rf"(?:a|an|the|her|his|{{who}}) ?{_THING} (?:has|had|contains|contained) <n> [x]",
)
_PART = r"(?:of (?:it|the [{0}])|of (?:his|her|their) [{0}])"
_DONE = r"(?:read|reads|used|ate|finished|filled|painted|planted|watered|weeded|sold|completed)"
_STILL = one_of(
    r"how many [y] (?:does|do|did) {who}(?:still )?have (?:left|(?:left |still )?to [a-z]+)",
    r"how many [y] (?:are|were) (?:still )?(?:left|unread|unused|not read|left to read|left over"
    r"|remaining)",
    r"how many [y] (?:does|do|did) {who}still (?:have|need) to [a-z]+",
    r"how many [y] (?:remain|remained)(?: to be [a-z]+)?",
    r"how many [y] has {who}not (?:yet )?[a-z]+(?: yet)?",
)
TWO_PARTS = (
    form(
        "two parts of a whole, and the rest",
        rf"{_WITH}\. (?:{_WHEN.strip()} )?{{who2}}{_DONE} <f> {_PART.format('v')}{_WHEN} and "
        rf"(?:{{who3}})?(?:{_DONE} )?"
        rf"<g> {_PART.format('q')}{_WHEN}\. {_STILL}",
        _two_parts_off, unit="x",
        says="and left still remain remaining before after not all each first last",
        clue="still left unread unused remain remained remaining not",
    ),
)  # fmt: skip
"""How many pages are left of a book of which two parts were read."""

# -- a leftover that is shared


def _share_of_leftover(given: Named) -> str | None:
    food, people = heads(given["w"]), heads(given["h"])
    named = [heads(given[name]) for name in ("y", "z") if name in given]
    known = food | heads(given.get("of", ""))
    if not 0 < Fraction(given["f"]) < 1 or Fraction(given["n"]).denominator != 1:
        return None
    if any(not words <= known for words in named) or food & people:
        return None
    asked = one(given["k"].split()[-1])
    return "f ÷ n" if asked in people | _ONE_OF_THEM else None


_ONE_OF_THEM = word_set("person one pupil child friend")
_LEFT_OVER = (
    r"(?:(?:had|has) not been (?:eaten|used|sold)|(?:was|is) (?:left(?: over)?|not eaten|uneaten"
    r"|still left)"
    r"|remained|remains|were left(?: over)?)"
)
LEFTOVERS = (
    form(
        "a leftover shared",
        rf"(?:(?:after|when|at) [a-z' ]+? )?<f> of (?:a|an|the|one|<o>) (?P<w>[a-z]+)(?: of "
        rf"(?P<of>[a-z]+(?: [a-z]+)?))? "
        rf"{_LEFT_OVER}{_WHEN}\. (?:the )?<n> [h] (?:shared|share|split|divided|ate|will share) "
        r"(?:all (?:of )?)?(?:it|(?:this|the|that|what was)(?: (?:leftover|remaining|left|rest of "
        r"the))?(?: [y])?) "
        r"(?:equally|evenly|in equal (?:parts|shares))(?: among (?:them|themselves))?\. what "
        r"(?:fraction|part) of "
        r"(?:a|an|the)(?: (?:whole|original|entire|full))? [z] (?:did|does|will) each(?: of the)? "
        r"[k] "
        r"(?:get|eat|receive|have)",
        _share_of_leftover,
        says="after when not left remained remaining equally each share split over all half third "
        "quarter whole what was",
        clue="fraction part",
    ),
)  # fmt: skip
"""What fraction of the whole each of some gets who share what was left of it."""

# -- a part that is counted, the whole asked for


def _whole_of_part(given: Named) -> str | None:
    share = Fraction(given["f"]) if "f" in given else Fraction(given["r"]) / 100
    group, some = heads(given["x"]), stems(given["a"]) - _ARE
    again = stems(given["b"]) - _ARE
    if not 0 < share < 1 or not some or Fraction(given["n"]).denominator != 1:
        return None
    if not heads(given["y"]) <= group or any(
        not heads(given[m]) <= group for m in ("z",) if m in given
    ):
        return None
    if again - {word[:5] for word in group} != some - {word[:5] for word in group}:
        return None
    if (Fraction(given["n"]) / share).denominator != 1:
        return None
    return "n ÷ f" if "f" in given else "n × 100 ÷ r"


_ARE = {"be", "have"}
_IS = r"(?:are|is|were|was|have|had|come|came|play|chose|like|bring|brought)"
_DID = rf"(?:{_IS} [a-z' ]+?|[a-z]+ed(?: [a-z' ]+?)?)"
_ALL_ASKED = one_of(
    r"how many [y](?: (?:in all|altogether))? (?:does|do|did) (?:the [_]|this [_]|[_]) have(?: in "
    r"all| altogether)?",
    r"how many [y] (?:are|were) (?:there|(?:in|at|on) [_])(?: (?:in all|altogether))?",
    r"what is the (?:total )?number of [y](?: (?:in|at|on) [_])?",
)
WHOLES = tuple(
    form(
        "the whole of a part",
        rf"{share} of (?:all )?(?:the|his|her|their) [x](?: (?:in|of|at|on) (?:the|a|an|her|his) "
        rf"[_])? (?P<a>{_DID})"
        rf"(?:\. if | and |\. )(?:there (?P<b>(?:are|were) )<n> (?P<c>[a-z' ]+?)"
        rf"|<n> (?:of (?:the|these|those|them)(?: [z])?|[z]) (?P<b2>{_DID})"
        r"|(?:the|this) [_] (?:has|had) <n> (?P<c2>[a-z' ]+?))(?:\.| ) ?"
        rf"{_ALL_ASKED}",
        lambda g: _whole_of_part({**g, "b": f"{g.get('b', g.get('b2', ''))} "
        f"{g.get('c', g.get('c2', ''))}"}),
        unit="y", says="if in all total altogether half third quarter", clue="many number",
    )
    for share in ("<f>", "<r%>")
)  # fmt: skip
"""How many there are, where a part of them is told as a fraction and as a count."""

# -- around a rectangle, but for a gate


def _but_for_a_gate(given: Named) -> str | None:
    units = {one(given[name]) for name in ("u", "v", "t", "s") if name in given}
    if len(units) != 1 or not units <= LENGTHS:
        return None
    around = 2 * (Fraction(given["l"]) + Fraction(given["b"]))
    return (
        "2 × (l + b) − g"
        if Fraction(given["g"]) < min(around / 4, Fraction(given["l"]), Fraction(given["b"]))
        else None
    )


_RECTANGLE = one_of(
    r"(?:a|the) (?:[a-z]+ )?rectangular (?:[a-z]+ )?[p] (?:is|measures) <l> (?P<u>[a-z]+)(?: "
    r"long)? (?:and|by) "
    r"<b> (?P<v>[a-z]+)(?: wide)?",
)
_GATE = one_of(
    r"(?:an? |one |<one> )?(?:opening|gap|gate|space) (?:that is )?<g> (?P<t>[a-z]+) wide(?: for "
    r"(?:a|the) [_])?",
    r"(?:an? |one |<one> )?<g> (?P<t>[a-z]+)(?: wide)? (?:opening|gap|gate|space)(?: for (?:a|the) "
    r"[_])?",
)
_AROUND_BUT = (
    rf"{_RECTANGLE}\. (?:a|the) [f] (?:goes|runs|is put|will go|is built|was built) (?:all "
    r"(?:the way )?)?around (?:it|the [p2]|the (?:edge|outside) of (?:it|the [_]))"
    rf"(?: except for| except at| but for) {_GATE}\. "
)
FENCES = (
    form(
        "around but for a gate",
        rf"{_AROUND_BUT}"
        r"(?:what is the length of|how long is) the [k](?: in (?P<s>[a-z]+))?",
        _but_for_a_gate, where="f=k", unit="u", says="all except one but what rectangular", clue=
        "rectangular",
    ),
    form(
        "around but for a gate",
        rf"{_AROUND_BUT}"
        r"how many (?P<s>[a-z]+) (?:long is the [k]|of [k] (?:is|are) (?:there|needed|used))",
        _but_for_a_gate, where="f=k", unit="u", says="all except one but what rectangular", clue=
        "rectangular",
    ),
)  # fmt: skip
"""How long a fence is that goes around a rectangle but for its gate."""

# -- a time with a break in it


def _but_for_a_break(given: Named) -> str | None:
    if given.get("one", "1") != "1" or any(
        one(given[n]) != "minute" for n in ("u", "v") if n in given
    ):
        return None
    rests = one(given["k"].split()[-1])
    if rests in _RESTS or stems(given["doing"]) != stems(given["done"]):
        return None
    if "clock1" in given:
        made = elapsed(given)
        return f"{made} − b" if made else None
    return "n − b" if Fraction(given["n"]) > Fraction(given["b"]) else None


_RESTS = word_set("break rest pause")
_LASTS = one_of(
    rf"{{who}}{STARTS} at <@clock1>(?: and)? (?:{{who}})?{ENDS} at <@clock2>(?: on the same day)?",
    r"{who}(?:lasts|lasted|is|was|takes|took|goes on for|went on for|runs for|ran for) <n> "
    r"(?P<u>minutes)(?: long)?",
)
_BREAK = one_of(
    r"there (?:is|was) (?:<one>|one|a|an) <b> minute (?:break|pause|rest)",
    r"there (?:is|was) (?:<one>|one|a|an) (?:break|pause|rest) of <b> minutes",
    r"{who}(?:rests?|rested|paused?|pauses|takes? a break|took a break) (?:for )?<b> minutes",
    r"{who}(?:takes?|took|has|had) a <b> minute (?:break|pause|rest)",
)
_THE_TIME = r"(?:the rest of the time|all the rest of the time|the remaining time)"
BREAKS = (
    form(
        "a time but for its break",
        rf"{_LASTS}\.? {_BREAK} and (?:the )?[k] (?P<doing>[a-z]+)(?: for)? {_THE_TIME}\. "
        r"(?:for )?how many minutes (?:does|did|do) (?:the )?(?P<m>[a-z]+) (?P<done>[a-z]+)",
        _but_for_a_break, where="k=m", unit="minute", says="rest one same all remaining", clue=
        "minutes",
    ),
    form(
        "a time but for its break",
        r"(?:during|in) (?:a|the|an) <n> minute [_] (?:the )?[k] (?:rested|paused|rests|took a "
        r"break)(?: for)? <b> minutes and "
        rf"(?:the [_] |they |she |he )?(?P<doing>[a-z]+)(?: for)? {_THE_TIME}\. (?:for )?how many "
        rf"minutes "
        r"(?:does|did|do) (?:the )?(?P<m>[a-z]+) (?P<done>[a-z]+)",
        _but_for_a_break, where="k=m", unit="minute", says="rest one same all remaining", clue=
        "minutes",
    ),
)  # fmt: skip
"""How long a choir sings at a practice with a break."""

ROWS = (*TWO_PARTS, *LEFTOVERS, *WHOLES, *FENCES, *BREAKS)
