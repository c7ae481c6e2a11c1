"""Rows of stories in fixed forms: averages, ages, times of day, unknown numbers, chances.

CCSSM (2010) 3.MD.A.1, 6.SP.A.3, 6.EE.B.7, 7.SP.C.7; ages: common practice, no source.
"""

from __future__ import annotations

import re
from math import lcm

from narrate.reading.words.forms import Case, Form, Named, form
from narrate.reading.words.lexicon import one

_TIMES_A = (
    r"(?:<k> times|(?P<word>twice|double|triple|half)(?: of)?) (?:a|the|some) (?:certain )?number"
)
_WHAT_NUMBER = r"(?:what is (?:the|this|that|her|his) number|find the number)"
_WORDS = {"twice": "2", "double": "2", "triple": "3"}


def _undone(given: Named, sign: str, amount: str) -> str | None:
    """The number of which so many times, and some more or less, is told."""
    rest = f"r {'−' if sign == '+' else '+'} {amount}"
    if given.get("word") == "half":
        return f"({rest}) × 2"
    times = "k" if "k" in given else _WORDS[given["word"]]
    return f"({rest}) ÷ {times}"


def _listed(count: int) -> str:
    """A list of so many numbers: <l1> <l2> and <l3>."""
    return " ".join(f"<l{n}>" for n in range(1, count)) + f" and <l{count}>"


def _sum(count: int) -> str:
    return " + ".join(f"l{n}" for n in range(1, count + 1))


def _mean(count: int) -> Case:
    def work(given: Named) -> str | None:
        told = given.get("c", str(count))
        return f"({_sum(count)}) ÷ {count}" if told == str(count) else None

    return Case("", work)


def _missing(count: int) -> Case:
    def work(given: Named) -> str | None:
        told = given.get("d", str(count))
        fits = (
            int(given["c"]) == count + 1 and told == str(count) if given["c"].isdigit() else False
        )
        return f"c × m − ({_sum(count)})" if fits else None

    return Case("", work)


_TESTS = r"(?:[_] )?(?:tests|quizzes|games|days|weeks|races|trips|rounds|plants|rows)"


def _needed(count: int) -> Case:
    """The next score, for a mean that is wanted."""

    def work(given: Named) -> str | None:
        told = given.get("c", str(count))
        return f"{count + 1} × m − ({_sum(count)})" if told == str(count) else None

    return Case("", work)


_NEXT_TEST = ("third", "fourth", "fifth", "sixth", "seventh", "eighth")
MEANS = tuple(
    row
    for count in range(2, 8)
    for row in (
        Form(
            "mean",
            rf"[_] scores (?:on|in|for) (?:<c> |(?:his|her|their|the) )?{_TESTS} (?:were|are) "
            rf"{_listed(count)}\. what (?:is|was) (?:the|his|her|their) (?:mean|average)"
            r"(?: score)?",
            (_mean(count),),
        ),
        Form(
            "mean",
            rf"{{who}}(?:scored|got) {_listed(count)}(?: points)? (?:on|in) (?:<c> |(?:his|her|"
            rf"their) (?:<c2> )?)?{_TESTS}\. what (?:is|was) (?:the|his|her|their) (?:mean|average)"
            r"(?: score)?",
            (_mean(count),),
        ),
        Form(
            "missing of a mean",
            r"the (?:mean|average) of <c> (?:whole )?numbers is <m>\. (?:<d> of (?:the (?:numbers|"
            rf"others)|them)|the (?:first|other)(?: <d2>)?(?: numbers)?) are {_listed(count)}\. "
            r"what is the (?:third|fourth|fifth|sixth|other|last|missing|remaining)"
            r"(?: number| one)?",
            (_missing(count),),
        ),
        Form(
            "missing of a mean",
            rf"(?:{{who}}scored {_listed(count)}(?: points)? on (?:<c> )?{_TESTS}|[_] scores "
            rf"(?:on|in|for)"
            rf" (?:(?:his|her|their) (?:first )?)?(?:<c2> )?{_TESTS} (?:are|were) "
            rf"{_listed(count)})\. what"
            r"(?: score)? (?:must|does|should|will) {who}(?:need to "
            r")?(?:get|score|earn|have)(?: to get)? on"
            rf" (?:the|his|her|a) (?:{_NEXT_TEST[count - 2]}|next)(?: [_])? (?:to have|to "
            rf"get|so that|for|to"
            r" earn|if) (?:(?:an?|her|his|the) )?(?:overall )?(?:mean|average)(?: score)?(?: "
            r"(?:of|to be|is"
            r"|will be))? <m>",
            (_needed(count),),
            says="mean average next so that if first",
        ),
    )
)  # fmt: skip
"""The mean of scores that are listed, and the one that is missing where their mean is told."""

UNKNOWN = (
    form(
        "unknown number",
        rf"<n> more than {_TIMES_A} is (?:equal to )?<r>\. {_WHAT_NUMBER}",
        lambda g: _undone(g, "+", "n"),
    ),
    form(
        "unknown number",
        rf"<n> less than {_TIMES_A} is (?:equal to )?<r>\. {_WHAT_NUMBER}",
        lambda g: _undone(g, "−", "n"),
    ),
    form(
        "unknown number",
        rf"{_TIMES_A} (?P<sign>plus|minus|increased by|decreased by) <n> (?:is|equals|is equal to) "
        rf"<r>\. {_WHAT_NUMBER}",
        lambda g: _undone(g, "+" if g["sign"] in ("plus", "increased by") else "−", "n"),
    ),
    form(
        "unknown number",
        rf"(?:if|when) <n> is added to {_TIMES_A} the (?:result|sum|answer) is <r>\. "
        rf"{_WHAT_NUMBER}",
        lambda g: _undone(g, "+", "n"),
    ),
    form(
        "unknown number",
        rf"(?:if|when) <n> is subtracted from {_TIMES_A} the (?:result|difference|answer) is <r>\. "
        rf"{_WHAT_NUMBER}",
        lambda g: _undone(g, "−", "n"),
    ),
    form(
        "unknown number",
        rf"(?:if|when) a (?:certain )?number is multiplied by <k>(?: and(?: then)?|, then) <n> is "
        r"(?P<sign>added|subtracted)(?: (?:to|from) the (?:product|result))? the (?:result|answer) "
        rf"is <r>\. {_WHAT_NUMBER}",
        lambda g: _undone(g, "+" if g["sign"] == "added" else "−", "n"),
    ),
    form(
        "unknown number",
        rf"(?:when|if) a (?:certain )?number is divided by <k> the (?:answer|quotient) is <q>"
        rf"(?: with| and) a remainder (?:of|is) <n>\. {_WHAT_NUMBER}",
        "k × q + n",
    ),
    form(
        "consecutive numbers",
        r"the sum of <two> consecutive (?:(?:whole |counting )?numbers|integers) is <s>\. "
        r"what is the (?P<which>larger|greater|smaller|lesser)(?: number| integer| one)?",
        lambda g: (
            None
            if g["two"] != "2" or int(g["s"]) % 2 == 0
            else f"(s {'+' if g['which'] in ('larger', 'greater') else '−'} 1) ÷ 2"
        ),
    ),
)
"""A number of which something made of it is told."""


def _age(given: Named) -> str | None:
    """How old someone is, told by how much older or younger than another, then or now."""
    shift = int(given.get("in", "0")) - int(given.get("ago", "0"))
    then = int(given.get("after", "0")) - int(given.get("before", "0"))
    work = "p"
    work += f" + {-shift}" if shift < 0 else f" − {shift}" if shift else ""
    if "n" in given:
        first = given["d"] == given["a"] and given["c"] == given["b"]
        if not first and not (given["d"] == given["b"] and given["c"] == given["a"]):
            return None
        work += " + n" if (given["more"] == "older") == first else " − n"
    elif given["c"] != given["d"] and given["d"] not in ("he", "she", "they"):
        return None
    return work + (f" + {then}" if then > 0 else f" − {-then}" if then else "")


_AGED = (
    r"(?:(?:<ago> years? ago )?(?P<c>[a-z']+(?: [a-z']+)?) (?:is|was) <p>(?: years old)?"
    r"(?: now| today)?|(?P<c2>[a-z']+) was <p2>(?: years old)? <ago2> years? ago"
    r"|in <in> years? (?P<c3>[a-z']+) will be <p3>(?: years old)?"
    r"|(?P<c4>[a-z']+) will be <p4>(?: years old)? in <in4> years?)"
)
_HOW_OLD = (
    r"how old (?:is (?P<d>[a-z']+)(?: now| today)?|will (?P<d2>[a-z']+) be (?:in <after2> years?"
    r"|<after3> years? from now)|was (?P<d4>[a-z']+) <before4> years? ago)"
)


def _merged(given: Named) -> str | None:
    """The age of a row whose alternatives have names of their own: c2 is c."""
    merged = {name.rstrip("234"): word for name, word in given.items()}
    work = _age(merged)
    if work is None:
        return None
    return re.sub(r"\bp\b", merged["p"], re.sub(r"\bn\b", merged.get("n", "n"), work))


AGES = (
    form(
        "age",
        r"(?P<a>[a-z']+) is <n> years? (?P<more>older|younger) than (?P<b>[a-z']+)\. "
        rf"{_AGED}\. {_HOW_OLD}",
        _merged, unit="year",
    ),
    form(
        "age",
        rf"{_AGED}\. (?P<a>[a-z']+) is <n> years? (?P<more>older|younger) than (?P<b>[a-z']+)\. "
        rf"{_HOW_OLD}",
        _merged, unit="year",
    ),
    form("age", rf"{_AGED}\. {_HOW_OLD}", _merged, unit="year"),
)  # fmt: skip
"""How old someone is, was or will be."""

_CLOCK = re.compile(r"(\d{1,2})(?::(\d\d))?\s?(?:([ap])\.?\s?m\.?)?", re.IGNORECASE)


def _minutes(clock: str) -> int | None:
    found = _CLOCK.fullmatch(clock)
    if found is None or not found[3] or not 1 <= int(found[1]) <= 12:
        return None
    return int(found[1]) % 12 * 60 + int(found[2] or 0) + (720 if found[3].lower() == "p" else 0)


def elapsed(given: Named) -> str | None:
    """The minutes between two times of one day, as so many hours and so many minutes."""
    start, end = _minutes(given["clock1"]), _minutes(given["clock2"])
    if start is None or end is None or not start < end:
        return None
    hours, rest = divmod(end, 60)[0] - divmod(start, 60)[0], end % 60
    minus = f" − {start % 60}" if start % 60 else ""
    plus = f" + {rest}" if rest else ""
    return f"{hours} × 60{plus}{minus}" if hours else f"{rest}{minus}"


STARTS = r"(?:starts?|started|begins?|began|opens?|opened|leaves?|left|sets? out|set out)"
ENDS = r"(?:ends?|ended|closes?|closed|finish(?:es|ed)?|stops?|stopped|arrives?|arrived|is over)"
TIMES = (
    form(
        "elapsed time",
        rf"{{who}}{STARTS}(?: [_])? at <@clock1>(?: and)? (?:{{who}})?{ENDS}(?: [_])? at "
        r"<@clock2>(?: (?:on|of) the same (?:day|morning|afternoon|evening))?\.? "
        r"how many minutes (?:long )?(?:is|was|does|did|do|will) [_]",
        elapsed, unit="minute", says="same",
    ),
    form(
        "elapsed time",
        r"{who}[_] from <@clock1> (?:to|until) <@clock2>\.? "
        r"how many minutes (?:long )?(?:is|was|does|did|do|will) [_]",
        elapsed, unit="minute",
    ),
)  # fmt: skip
"""How many minutes lie between two times of day."""


def _chance(count: int) -> Case:
    def work(given: Named) -> str | None:
        colours = [given[f"x{n}"].split() for n in range(1, count + 1)]
        asked = given["y"].split()
        hits = [n for n, words in enumerate(colours, 1) if words[0] == asked[0]]
        if len(hits) != 1:
            return None
        return f"n{hits[0]} ÷ ({' + '.join(f'n{n}' for n in range(1, count + 1))})"

    return Case("", work)


def _kinds(count: int) -> str:
    told = [f"<n{n}> [x{n}]" for n in range(1, count + 1)]
    return f"{' '.join(told[:-1])} and {told[-1]}"


def _chance_of_not(count: int) -> Case:
    """The chance that it is of any kind but one."""

    def work(given: Named) -> str | None:
        asked = given["y"].split()[0]
        others = [n for n in range(1, count + 1) if given[f"x{n}"].split()[0] != asked]
        if len(others) != count - 1:
            return None
        hits = " + ".join(f"n{n}" for n in others)
        return f"({hits}) ÷ ({' + '.join(f'n{n}' for n in range(1, count + 1))})"

    return Case("", work)


_CHANCE_OF = (
    r"\. (?:if )?(?:(?:<one>|a|an) [_] (?:is|was) (?:taken|picked|drawn|chosen|selected|"
    r"pulled)(?: out)?"
    r"(?: of the [_]| from the [_])?(?: without looking| at random|randomly)?\.? )?"
    r"what is the (?:probability|chance) "
)
_CHANCE_ROWS = tuple(
    Form(
        "chance",
        rf"{{who}}(?:holds?|contains?|has|there are) {_kinds(count)}{_CHANCE_OF}{asked}",
        (case(count),),
        says="not if",
    )
    for count in (2, 3, 4)
    for asked, case in (
        (r"(?:that (?:it|the [_]) is not(?: an?)?|of (?:not )(?:picking|drawing|choosing|taking|"
        r"getting"
         r"|selecting) an?|of (?:picking|drawing|choosing|taking|getting|selecting) an? [_] "
         r"that is not"
         r"(?: an?)?) [y]", _chance_of_not),
        (r"(?:of (?:picking|drawing|choosing|taking|getting|selecting) an?) [y]", _chance),
    )
)  # fmt: skip
CHANCES = tuple(
    Form(
        "chance",
        rf"{{who}}(?:holds?|contains?|has|there are) {_kinds(count)}\. (?:if )?(?:<one>|a|an|"
        r"{who}[_] (?:<one2>|a|an)) [_] (?:is )?(?:taken|picked|drawn|chosen|selected|pulled|picks"
        r"|draws|takes|chooses)(?: out)?(?: of the [_]| from the [_])?(?: without looking"
        r"| at random)?\.? what is the (?:probability|chance) (?:that (?:it|the [_]) is(?: an?)?"
        r"|of (?:picking|drawing|choosing|taking|getting) an?) [y]",
        (_chance(count),),
    )
    for count in (2, 3, 4)
)
"""The chance that one thing of several kinds is of one kind."""


PARTS = (
    form(
        "rest of two parts",
        r"{who}[_] <f> of (?:a|the|his|her|their) [w]{where}(?: on [_]| in the [_])? and <g> of "
        r"(?:it|the [w2])(?: on [_]| in the [_])?\. the [v] (?:has|had|held|holds|was|is|"
        r"contains|contained) <n> [u]\. how many [y] (?:are|were|does|has|did|is) "
        r"(?:left|{who}(?:still to|still have to|have left to|left to) [_])",
        lambda g: "n − n × f − n × g" if "/" in g["f"] and "/" in g["g"] else None,
        where="w&v u=y", unit="y",
    ),
)  # fmt: skip
"""What is left of a whole of which two parts are gone."""

_START = r"\b(?:just|today|now|start|starts|started|begin|begins|began)\b"
_MEET = r"\b(?:together|both|same (?:time|day|minute))\b"
_ASKS = (
    r"(?:(?:in|after) )?how many (?P<unit>[a-z]+) (?:will|later|from|does|do|until|after|pass)\b"
)


def _meeting(given: Named) -> str | None:
    """The least time in which things that come again and again come together again."""
    asked = re.match(_ASKS, given["ask"].split(" if ")[0]) or re.search(_ASKS, given["ask"])
    every = [int(given[name]) for name in ("a", "b", "c") if name in given]
    units = {one(given[name]) for name in ("u", "v", "w") if name in given}
    said = f"{given.get('now', '')} {given['ask']}"
    meets = re.search(_MEET, said) and re.search(_MEET + r"|\bagain\b", given["ask"])
    if asked is None or {one(asked["unit"])} != units or not meets or not re.search(_START, said):
        return None
    return str(lcm(*every))


MEETINGS = (
    form(
        "together again",
        r"{who}(?:[_] )?every <a> [u](?: {who}(?:[_] )?every <c> [w])? (?:and|while|but) {who}"
        r"(?:[_] )?every <b> [v]\.(?: (?P<now>[a-z' ]+)\.)? (?P<ask>[a-z' ]+)",
        _meeting, where="u~time", unit="u",
        says="how after if both next again together same before first until when then another",
    ),
)  # fmt: skip
"""When things that come again and again come together again."""

ROWS = (
    *MEANS, *MEETINGS, *UNKNOWN, *AGES, *TIMES, *CHANCES, *_CHANCE_ROWS, *PARTS,
)  # fmt: skip
