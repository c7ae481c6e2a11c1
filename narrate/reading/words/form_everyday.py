"""Rows of everyday stories: sold and earned, cut from a roll, lunches to choose, savings, ages.

CCSSM (2010) 3.OA.D.8, 4.OA.A.3 (several steps), 6.RP.A.3 (rates), 7.EE.B.3, 7.SP.C.8; two kinds
of tickets: 8.EE.C.8, solved as it was before letters (all of one kind first): common practice.
"""

from __future__ import annotations

from fractions import Fraction

from narrate.reading.words.form_scaled import scaled
from narrate.reading.words.forms import Named, form, one_of, same
from narrate.reading.words.lexicon import one

_DOES = r"(?:does|do|did|will|would|should|must|can|could)"
_EACH = r"(?:each|apiece|every one)"
_SELLS = r"(?:sold|sells|sell|will sell)"
_COST = r"(?:had cost|cost|costs|was bought for|were bought for|had been bought for)"
_PROFIT = one_of(
    r"what (?:is|was|will be) (?:the|his|her|their|its) (?:class's |club's )?(?:total )?profit"
    r"(?: (?:on|from|for) (?:all )?(?:the )?[_])?",
    rf"how much (?:total )?(?:profit|money) {_DOES} {{who3}}(?:make|earn) (?:in all|altogether|"
    r"in profit|on the [_])?",
    r"what (?:is|was) (?P<owner>[a-z' ]+?'s?) (?:total )?profit(?: (?:on|from|for) (?:the )?[_])?",
    rf"how much profit {_DOES} {{who3}}(?:make|earn)(?: (?:in all|altogether|on the [_]))?",
)
_SOLD = rf"{{who1}}{_SELLS} <n> [x] (?:for|at) <$p> {_EACH}"


def _profit(given: Named) -> str | None:
    return "n × (p − c)" if Fraction(given["p"]) > Fraction(given["c"]) else None


PROFITS = (
    form(
        "profit",
        rf"{_SOLD}\. (?:each|every) (?:[y]|one|<one>) {_COST} (?:{{who2}})?<$c>(?: to make)?\. "
        rf"{_PROFIT}",
        _profit, where="", unit="dollar", says="each total all sold every", clue="profit",
    ),
    form(
        "profit",
        rf"{{who1}}(?:bought|buys|made|makes) <n> [x] for <$c> {_EACH}(?:\.| and) (?:{{who2}})?"
        rf"{_SELLS} (?:them|all of them|the [y]) for <$p> {_EACH}\. {_PROFIT}",
        _profit, unit="dollar", says="each total all sold every", clue="profit",
    ),
)  # fmt: skip
"""What is earned by selling for more than it cost."""

_LONG = r"(?:long|in length)"
_CUTS = r"(?:cuts?|used|uses|needs?|took|takes|snipped)"
CUT = (
    form(
        "left of a roll",
        rf"{{who1}}{_CUTS} <n> pieces of [x] each <a> [u] {_LONG} from an? (?P<r>[a-z]+)"
        rf"(?: of [x2])? (?:that (?:was|is|measured) )?<b> [v](?: {_LONG})?\. how (?:many [w]|much)"
        r" of [y] (?:is|are|was|were) left(?: (?:on|of|in) the [s])?",
        lambda g: "b − n × a" if one(g["u"]) == one(g["v"]) == one(g.get("w", g["v"])) else None,
        where="x=y", unit="v", says="each left",
    ),
)  # fmt: skip
"""What is left of a roll."""


def _one_each(given: Named) -> str | None:
    """One of each kind, where just the kinds that make the whole are told of."""
    kinds = [name for name in ("a", "b", "c") if name in given]
    made = [given[f"p{name}"] for name in kinds]
    told = [given[f"x{name}"] for name in kinds]
    ones = all(given[f"o{name}"] == "1" for name in kinds if f"o{name}" in given)
    alike = all(same(p, x) for p, x in zip(made, told, strict=True))
    return " × ".join(kinds) if ones and alike and len(set(told)) == len(told) else None


_A = r"(?:<o{0}>|an?) (?:kind of |type of |choice of )?(?P<p{0}>[a-z]+)"
_OF = (
    r"<{0}> (?:different )?(?:(?:kinds?|types?|choices?|sizes?|flavors?|colors?) of )?"
    r"(?P<x{0}>[a-z]+)"
)
_MADE_OF = r"(?:is|has|comes with|includes|consists of|is made of|is made with|contains)"
_POSSIBLE = (
    r"how many (?:different |possible )*(?P<what>[a-z]+) (?:are possible|are there|can be "
    r"(?:made|ordered|chosen)|(?:can|could) {who}(?:make|order|choose|have))"
)


def _choices(*names: str) -> str:
    *first, last = (_A.format(name) for name in names)
    *told, end = (_OF.format(name) for name in names)
    return (
        rf"(?:(?:at|in|on) (?:the|an?) [_] )?(?:an?|each|every|the) (?P<w>[a-z]+(?: [a-z]+)?) "
        rf"{_MADE_OF} "
        rf"{' '.join(first)} and {last}\. (?:there are|{{who}}(?:has|have|offers?)) "
        rf"{' '.join(told)} and {end}(?: to choose from)?\. {_POSSIBLE}"
    )


CHOICES = tuple(
    form(
        "choices",
        _choices(*names),
        _one_each,
        says="different possible each every",
        clue="different possible",
    )
    for names in (("a", "b"), ("a", "b", "c"))
)
"""How many ways there are to take one of each kind."""


def _weeks(given: Named) -> str | None:
    """How long saving goes on, where it comes out even."""
    goal, there, each = (Fraction(given[name]) for name in ("n", "k", "r"))
    even = each > 0 and there < goal and ((goal - there) / each).denominator == 1
    return "(n − k) ÷ r" if even and one(given["u"]) == one(given["v"]) else None


def _backward(given: Named) -> str | None:
    return "(a + b) × 2" if given["h"] == "1/2" else None


_GOAL = one_of(
    r"{who1}(?:wants?|needs?|hopes|plans) to (?:save|have|raise) (?:at least )?<$n>(?: (?:for|to) "
    r"[_])?",
    r"{who1}(?:wants?|needs?|hopes|plans)(?: to buy)? (?:a|an|the|some|new) [_] (?:that|which) "
    r"(?:costs?|is|are) <$n>",
    r"{who1}needs? <$n> (?:for|to) [_]",
)
_ENOUGH = one_of(
    r"(?:after|in) how many [v] will {who}(?:have|have saved) (?:exactly )?(?:just )?enough(?: "
    r"money)?(?: [_])?",
    r"how many [v] (?:will|does) it take(?: {who})?(?:to save|to have) (?:exactly )?enough(?: "
    r"[_])?",
)
_SPENT = r"(?:spent|spends|paid|used)"
MONEY = (
    form(
        "weeks of saving",
        rf"{_GOAL}\. {{who2}}(?:already )?(?:has|had|saved|has saved) <$k>(?: saved| "
        r"already| now)?(?:\.| and"
        r"| but) (?:(?!can |will |plans ){who3})?(?:can |will |plans to )?(?:saves?|saving|put "
        r"aside|adds?) <$r> "
        r"(?:each|"
        rf"every|a|per) [u]\. (?:what is the (?:least|fewest|smallest) number of [v] "
        rf"{{who}}(?:must|"
        rf"needs to|has to|will have to|should) save(?: [_])?|{_ENOUGH}|how many [v] {_DOES} "
        rf"{{who}}(?:need to"
        r" |have to )?save(?: [_])?|how many [v] will it take(?: [_])?)",
        _weeks, unit="u", says="least fewest each every per already if",
        clue="save saves saving raise",
    ),
    form(
        "half spent, then some more",
        rf"{{who1}}{_SPENT} <h> of (?:his|her|their) (?:money|savings|allowance) on [_]\. "
        rf"(?:then )?"
        rf"{{who2}}(?:then )?{_SPENT} <$a> on [_]\. (?:now )?{{who3}}(?:had|has) <$b> left\. "
        rf"how much"
        rf" (?:money )?{_DOES} {{who4}}have (?:before {{who}}[_]|at first|to (?:start|begin) with"
        r"|at the (?:start|beginning)|in the beginning)",
        _backward, unit="dollar", says="half then left before first now", clue="spent paid used",
    ),
)  # fmt: skip
"""Savings, and money spent step by step."""

_AGED = r"(?P<a>[a-z]+) is <n> (?:years old|years of age)"


def _age(given: Named) -> str | None:
    """The age of which so many times, and some years, is told."""
    sign = "−" if given["more"] in ("older", "more") else "+"
    count = int(given["k"])
    known = {"his", "her", "their", "the", f"{given['a']}'s", *given["b"].split()}
    made = int(given["n"]) + int(given["d"]) * (1 if sign == "+" else -1)
    if (
        not count
        or made <= 0
        or made % count
        or given["b"].split()[-1] != given["asked"].split()[-1]
        or not known.issuperset(given["asked"].split())
    ):
        return None
    return f"(n {sign} d) ÷ k"


AGES = (
    form(
        "age",
        rf"{_AGED}\. (?:(?:he|she|they) is|(?:he|she)'s|(?:his|her) age is) <d> years? "
        rf"(?P<more>older"
        r"|younger|more|less) than <k>(?: times)? (?P<b>[a-z' ]+?)'s? age\. how "
        r"old is "
        r"(?P<asked>[a-z' ]+)",
        _age, unit="year", says="older younger more less than twice times", clue="age",
    ),
    form(
        "two parts of a length",
        r"(?:an?|the) [x] (?:that is )?<n> [u] long is (?:cut|split|divided) into <two> [p]\. "
        r"<one> "
        r"[q] is <k>(?: times)? as long as the other(?: [r])?\. how long is the "
        r"(?P<which>longer|shorter)(?: [s])?",
        lambda g: _two_parts(g), unit="u",
        says="other times twice as long longer shorter", clue="times twice",
    ),
    form(
        "two parts of a length",
        r"(?:an?|the) <n> [u] [x] is (?:cut|split|divided) into <two> [p]\. <one> "
        r"[q] is <k>(?: times)? as long as the other(?: [r])?\. how long is the "
        r"(?P<which>longer|shorter)(?: [s])?",
        lambda g: _two_parts(g), unit="u",
        says="other times twice as long longer shorter", clue="times twice",
    ),
)  # fmt: skip
"""An age told by another, and a length in two parts of which one is so many times the other."""


def _two_parts(given: Named) -> str | None:
    times = given["k"]
    if given["two"] != "2" or given["one"] != "1" or not times.isdigit():
        return None
    work = f"n ÷ ({times} + 1)"
    return f"{work} × {times}" if given["which"] == "longer" else work


def _tickets(given: Named) -> str | None:
    """How many of the dearer or cheaper sort, as if all were of the other sort first."""
    a, b, n, t = (Fraction(given[name]) for name in "abnt")
    first, second = (one(given[name].split()[-1]) for name in ("x", "y"))
    asked = one(given["z"].split()[-1])
    if a == b or first == second or asked not in (first, second):
        return None
    dear, cheap = ("a", "b") if a > b else ("b", "a")
    is_dear = (asked == first) == (a > b)
    low, high = (min(a, b), max(a, b))
    count = (t - n * low) / (high - low) if is_dear else (n * high - t) / (high - low)
    if count.denominator != 1 or not 0 <= count <= n:
        return None
    if is_dear:
        return f"(t − n × {cheap}) ÷ ({dear} − {cheap})"
    return f"(n × {dear} − t) ÷ ({dear} − {cheap})"


_TOOK = r"(?:took in|collected|raised|made|earned|received|brought in)"
_OF_TICKETS = (
    rf"\. {{who}}(?:sold|sells) (?:a total of )?<n> tickets (?:and|for a total of|for) "
    rf"(?:{_TOOK} )?"
    r"(?:a total of )?<$t>\. how many [z] tickets (?:were sold|did {who}sell)"
)
TICKETS = (
    form(
        "two kinds of tickets",
        r"tickets (?:to|for|at) (?:the |a )?[_] (?:were|are|cost|sold for) <$a> for "
        r"(?P<x>[a-z]+) and "
        rf"<$b> for (?P<y>[a-z]+){_OF_TICKETS}",
        _tickets, says="total and each sold", clue="tickets",
    ),
    form(
        "two kinds of tickets",
        r"(?P<x>[a-z]+) tickets (?:were|are|cost|sold for) <$a>(?: each)? and (?P<y>[a-z]+) "
        r"tickets "
        rf"(?:were|are|cost|sold for) <$b>(?: each)?{_OF_TICKETS}",
        _tickets, says="total and each sold", clue="tickets",
    ),
)  # fmt: skip
"""Two kinds of tickets at two prices, and how many there are of the one."""

_FOR = r"(?:serves|is for|feeds|makes enough for|will serve|for)"
_NEEDS = r"(?:calls for|uses|needs|requires|takes|asks for)"
_PEOPLE = r"(?:people|guests|pupils|students|servings|persons|children)"
_RECIPE = one_of(
    rf"an? [r] (?:recipe )?(?:that |which )?{_FOR} <b> [u] {_NEEDS} <a> [m] of [x]",
    rf"an? [r] (?:recipe )?(?:that |which )?{_NEEDS} <a> [m] of [x] (?:to serve|for) <b> [u]",
)
_SAME_RECIPE = r"(?:(?:using|with|by|at) (?:the same|this|that) (?:recipe|rate) )?"
RECIPES = (
    *scaled(
        "recipe",
        rf"{_RECIPE}\. {_SAME_RECIPE}how many [n] of [y] (?:are|is|will be|would be) "
        rf"(?:needed|used|"
        r"required) (?:to serve|for|to make enough for|to feed) <c> [v]",
        "m=n x=y u=v", "m", "same using enough",
    ),
    *scaled(
        "recipe",
        rf"{_RECIPE}\. {_SAME_RECIPE}how many [n] of [y] {_DOES} {{who}}need (?:to serve|for|to "
        rf"make "
        r"enough for|to feed) <c> [v]",
        "m=n x=y u=v", "m", "same using enough",
    ),
    *scaled(
        "same rate",
        rf"how (?:far|many [x2]) {_DOES} {{who}}(?:travel|go|drive|ride|run|walk|fly) in <c> "
        rf"[v] if "
        r"{who}(?:goes|travels|drives|rides|runs|walks|flies|went|traveled) <a> [x] "
        r"(?:in|every) <b> "
        r"[u](?: at an? (?:constant|steady|even) (?:speed|rate|pace))?",
        "u=v u~time x~length", "x", "every",
    ),
)  # fmt: skip
"""Recipes for more people, and a distance asked for before its speed is told."""


SIMILAR = scaled(
    "similar figures",
    r"<two> [p] are similar\. the first (?:one )?is <b> [u] (?P<one1>wide|tall|high) and <a> "
    r"[v] (?P<other1>"
    r"long|wide)\. the second (?:one )?is <c> [w] (?P=one1)\. how (?P=other1) is the second(?: "
    r"[q])?",
    "u=v u=w u~length", "u", "similar first second wide long tall high", "similar",
)  # fmt: skip
"""The side of a figure that has the shape of another."""


def _denied(given: Named) -> str | None:
    """The part of a group of which something is not told."""
    told, asked = given["told"].split(), given["asked"].split()
    bare = [w for w in asked if w not in ("do", "did", "does", "are", "were", "have", "not", "is")]
    same_words = {one(w) for w in bare} <= {one(w) for w in told} and bool(bare)
    return "n − f × n" if "/" in given["f"] and same_words and "not" in asked else None


def _of_group(given: Named) -> str | None:
    """A fraction of a group, where what was done is what is asked."""
    thing = given.get("thing", given["what"])
    alike = given["asked"] == given["told"] and thing == given["what"]
    return "f × n" if alike and "/" in given["f"] else None


SHARES = (
    form(
        "rest of a fraction",
        r"(?:there (?:are|were) <n> [x]{where}|{who}(?:has|had) <n> [x]{where}) ?(?:\.| and) "
        r"<f> of "
        r"(?:them|the [y]) (?P<told>[a-z' ]+)\. how many(?: of (?:them|the [z]{where})| [z])? "
        r"(?P<asked>(?:do|did|are|were|have) not [a-z' ]+)",
        _denied, unit="x", says="not", clue="not",
    ),
    form(
        "fraction of a group",
        r"how many [z] (?P<asked>[a-z]+) (?:an? |the )?(?P<what>[a-z ]+?) if <f> of the <n> "
        r"[x]{where} "
        r"(?P<told>[a-z]+) (?:#\d+|(?:an? |the )?(?P<thing>[a-z ]+))",
        _of_group,
        where="x&z", unit="x", says="if",
    ),
    form(
        "bags of so many",
        r"{who1}(?:picked|packed|has|had|bought|filled|grew|collected) <n> [c] of [x] with <a> "
        r"[y] in "
        r"each [d]\. {who2}(?:will put|puts|put|is putting|packs|will pack) all (?:of "
        r")?(?:the|her|his"
        r"|their) [z] (?:in|into) [b] of <k>\. how many [e] (?:will {who}(?:fill|need|have)|are "
        r"there|"
        r"does {who}fill|can {who}fill)",
        lambda g: (
            "n × a ÷ k" if int(g["k"]) and int(g["n"]) * int(g["a"]) % int(g["k"]) == 0 else None
        ),
        where="x=y x=z c=d b=e", unit="e", says="each all",
    ),
)  # fmt: skip
"""Parts of groups."""

ROWS = (
    *PROFITS, *CUT, *CHOICES, *MONEY, *AGES, *TICKETS, *RECIPES, *SIMILAR, *SHARES,
)  # fmt: skip
