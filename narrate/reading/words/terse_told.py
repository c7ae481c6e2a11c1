"""Relations, prices and groups that are told in many words, in fewer."""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import one
from narrate.reading.words.terse_row import Row, row


def _asks_least(found: re.Match[str]) -> bool:
    """Whether it is asked how many are needed at least."""
    return re.search(r"\b(?:least|fewest|smallest|needed?s?)\b", found.string) is not None


def _paid_for_all(found: re.Match[str]) -> bool:
    """Whether all that was bought has a price: both of two, all of more."""
    if re.search(r"\d (?:[a-z]+ ){1,3}that costs? \$", found.string):
        return False  # 3 pots that cost $4: each of them, or all
    prices = found.string.count("$") - 1
    return prices == len("ab") if found["all"] in ("both", "the two") else prices > 0


def _of_one_trip(found: re.Match[str]) -> bool:
    """Whether no number of trips is told."""
    return not re.search(rf"\d (?:[a-z]+ )?{found['trip']}s", found.string)


def _told_before(found: re.Match[str]) -> bool:
    return re.search(rf"\b{found['n']} ", found.string[: found.start()]) is not None


def _counted_alone(found: re.Match[str]) -> bool:
    """Whether what is counted is told as cups, never as cups of something."""
    told = found.string[: found.start()]
    unit = one(found["u"])
    return re.search(rf"\b{unit}s? of ", told) is None and unit in {*map(one, told.split())}


def _one_place(found: re.Match[str]) -> bool:
    """Whether no other place is told of."""
    return len(re.findall(r"\b(?:at|in) (?:the|an?|another) ", found.string)) == 1


TOLD: tuple[Row, ...] = (
    # relations
    row(
        " than they | than he | than she | than it ",
        r"(?P<a>\b(?P<v>[a-z]+) {N} (?:more|fewer|less) [a-z ]*than) {P} (?:did|(?P=v)) "
        "(?P<d>(?:on|in|at) )",
        "<a> <d>",
    ),
    row(
        "than that",
        r"(?P<who>(?:Mr\. |Mrs\. |Ms\. |Dr\. )?[A-Z][\w' ]*?)(?P<told> (?:has |have |had "
        r")?[a-z]+ {N} [a-z ]+,? (?:and|but|while) [^,\d]*? {N} (?:more|fewer|less) [a-z]+ "
        "than )that(?=[.,])",
        "<who><told><who>",
    ),
    row(
        " in hers| in his| in theirs",
        r"(?<=\bha[sd]) in (?:hers|his|theirs)(?=[.,])",
    ),
    row(
        " more | fewer ",
        "(?P<a>{N} (?P<x>[a-z]+) (?P<at>(?:at|in|on) [a-z' ]+?),? (?:and|but) (?:there "
        "(?:were|are|was) )?{N} (?:more|fewer) (?P=x) (?:at|in|on) (?:(?! than )[a-z' "
        r"])+?)(?=\.)",
        "<a> than <at>",
    ),
    row(
        "his |her ",
        "(?:His|Her) (?P<j>jump|throw|walk|run|ride|hike) (?:is|was) (?P<n>{N} [a-z]+) "
        "(?P<m>shorter|less) than (?P<o>[A-Z][a-z]+)'s(?: (?P=j))?(?=[.,])",
        "That was <n> less than <o>",
    ),
    row(
        "how many times as",
        "The (?:time|distance|amount)(?: that)? (?P<a>[A-Za-z ]+?) "
        "(?P<v>[a-z]+ed|ran|rode|read|swam|drove) is how many times as "
        "(?P<l>long|far|much|great) as the (?:time|distance|amount)(?: that)? (?P<b>[A-Za-z "
        r"]+?) (?P=v)\?",
        "How many times as <l> as <b> did <a> <v>?",
    ),
    row(
        "times as ",
        r"times as (?:far|long|much|great|large|tall|high) as the (?P<d>{SIZE})\b",
        "times the <d>",
    ),
    row(
        "distance from",
        r"(?P<a>[Tt]he distance) from (?P<s>(?:the )?[A-Za-z]+)(?P<b> to [^.]*\.\d+[^.]*\.| "
        r"to [^.]*\.)(?P<t> The distance) from (?P=s)(?P<c> to "
        r"[^?]*?(?:farther|further|closer))(?: from (?P=s))?(?P<d> [^?]*\?)",
        "<a><b><t><c><d>",
    ),
    row(
        "mass that|weight that|length that|height that|price that",
        r"(?P<a>\b(?:has|had) a (?P<s>mass|weight|length|height|price)) that (?:is|was) "
        "(?P<n>{N}|twice) times (?:the (?P=s) of|that of|as (?:much|great|large) as(?: "
        "(?:that|the (?P=s)) of)?) ",
        "<a> <n> times as great as ",
    ),
    row(
        "%",
        r"(?:a tip|a gratuity) (?:that (?:is|was)|of) (?P<p>\d+%)(?: of the "
        "(?:bill|cost|total|price))?",
        "a <p> tip",
    ),
    row(
        "sales tax",
        "{P} (?:must|has to|have to|will|needs? to)(?: also)? pay an? (?P<t>sales tax) "
        r"(?:that is|of) (?P<p>\d+%)(?: of (?:the|its|that) (?:price|cost|bill))?",
        "the <t> is <p>",
    ),
    # prices
    row(
        "that cost",
        "(?P<a>(?:bought|buys|ordered|chose)(?: an? [a-z ]+? for {N},? and)? an? [a-z ]+?) "
        "that costs? (?P<p>{N})",
        "<a> for <p>",
    ),
    row(
        "that cost",
        r"(?P<a> for {N},? and an? [a-z ]+?) that costs? (?P<p>\$)",
        "<a> for <p>",
    ),
    row(
        "after ",
        " after {P} (?:paid for|bought) (?P<all>both|the two|all|these|everything|them)(?: "
        r"of)?(?: (?:the )?(?:things|items|supplies|of them|them))?(?=\?)",
        "",
        _paid_for_all,
    ),
    # groups
    row(
        "at most|up to|no more than|a maximum of",
        r"(?P<h>\b(?:holds?|carr(?:y|ies)|seats?|fits?)) (?:at most|up to|no more than|a "
        r"maximum of) (?=\d)",
        "<h> ",
        _asks_least,
    ),
    row(
        "each of the",
        r"each of the (?P<n>\d+) (?P<p>[a-z]+)s(?=\?)",
        "each <p>",
        _told_before,
    ),
    row(
        "all of the rest",
        r"\ball of the rest\b",
        "the rest",
    ),
    row(
        " the rest ",
        "(?P<w>(?:[.,] |^)(?P<p>He|She|They) (?:used|cut off|ate|sold|gave away|poured) {N} "
        "[^,.]*?) on the [a-z]+(?P<b>,)? and (?:he|she|they) (?P<v>[a-z]+) the rest",
        "<w>. <p> <v> the rest",
    ),
    row(
        "on every",
        r" on every (?:[a-z]+ )?(?P<trip>hike|trip|game|visit|walk)(?=\.)",
        "",
        _of_one_trip,
    ),
    row(
        "as many",
        r",? and fills as many [a-z]+ as (?:he|she|they) can(?=\.)",
    ),
    row(
        "wants to|want to",
        "(?P<n>{N} [a-z ]+?) that (?:he|she|they) wants? to (?:store|put|pack|place|keep) "
        r"in(?:to)? [a-z]+(?=\.)",
        "<n>",
    ),
    row(
        "not be in a full",
        "(?P<q>[Hh]ow many [a-z ]+?) (?:will|would|do) not (?:be|fit) in an? (?:full "
        r")?[a-z]+(?=\?)",
        "<q> are left over",
    ),
    row(
        "so far",
        "^So far(?: this (?:year|week|month|season))?,? (?=[A-Z])",
    ),
    row(
        "so far",
        " so far(?: this (?:year|week|month|season))?(?=[.?])",
    ),
    row(
        " has | have ",
        "(?P<w>[a-z]) has (?P<v>[a-z]+ed|read|sold|made|found|caught|drawn|run) (?={N} )",
        "<w> <v> ",
    ),
    row(
        "full of|filled with",
        r"\b(?P<a>[Aa])(?P<u>(?: half)?[- ](?:gallon|quart|pint|liter|cup)) "
        "(?P<j>jug|jar|bottle|pitcher|can|bucket|bowl|carton|pot|tub) (?:was|is) (?:full "
        r"of|filled with) (?P<w>[a-z ]+?)(?=\.)",
        "<a> <j> had 1<u> of <w>",
    ),
    row(
        "signed up|joined|enrolled",
        r"(?P<w>(?:^|[.,] )[^.\d]*?)\b(?:[Ss]ome )?(?P<m>[Mm]ore [a-z]+) (?:signed "
        "up|joined|enrolled), and (?:by|on|at) [A-Z][a-z]+(?: "
        "(?:morning|noon|night|evening|afternoon))? there were (?P<n>{N} )",
        "<w>some <m> joined. Then there were <n>",
    ),
    row(
        "signed up",
        r"(?P<a>[Hh]ow many [a-z]+) signed up(?= |\?)",
        "<a> joined",
    ),
    row(
        " sold ",
        r"(?:(?<=\. )|(?<=, )|^)[A-Za-z. ]+? sold (?P<x>[a-z ]+) for (?P<p>{N}) "
        r"(?:an?|per|each) (?P<c>[a-z]+) and (?P<y>[a-z ]+) for (?P<q>{N}) each\.",
        "<x> cost <p> a <c> and <y> cost <q> each.",
    ),
    row(
        " for each ",
        "uses (?P<a>{N} [a-z]+ of (?P<f>[a-z ]+)) for each (?P<t>[a-z]+)(?: of "
        r"(?P<b>[a-z]+))?(?:,? and {P} (?:will make|makes|is making)|\. {P} (?:will "
        r"make|makes|is making)) (?P<n>\d+) (?P<ts>[a-z]+)\. {P} also (?:needs|uses) "
        r"(?P<o>{N} [a-z]+ of (?P=f) for [a-z ]+)\.",
        "needs <a> for each of <n> <ts> and <o>.",
    ),
    row(
        " had | have ",
        r"(?P<n>\d+ of the (?P<x>[a-z]+)) (?:had|have) (?P<y>[a-z]+) (?:in|on) "
        r"them(?P<w>\.[^.]*?[Hh]ow many of the )(?:[a-z]+ )?(?P<z>(?P=x)) (?:were|are) "
        r"empty(?: at [a-z]+)?(?=\?)",
        "<n> were used<w><z> were left",
    ),
    row(
        "that held|that had",
        r"(?:(?<=[.] )|^)[A-Z][\w.' ]+? (?:brought|has|had|opened|took out|got) a (?P<j>[a-z "
        "]+?) that (?P<h>held|had) (?P<n>{N} [a-z]+ of [a-z ]+?)(?: (?:to|from|in|at) the "
        r"[a-z ]+)?(?=\.)",
        "A <j> had <n>",
    ),
    row(
        "sales tax is",
        r"The price(?: on the tag)? is (?P<n>{N}), and the sales tax is (?P<p>\d+%)\. How "
        "(?:much|many dollars) will (?P<w>[A-Z][A-Za-z. ]+?) pay for (?P<y>the [a-z]+)(?: "
        r"with (?:the )?tax| including tax)?\?",
        "The price of <y> is <n>, and the sales tax is <p>. How much will <w> pay for <y> "
        "with tax?",
    ),
    row(
        "has two parts",
        "(?P<t>[Tt]he [a-z ]+?)(?P<at> (?:around|in|at|through|along) [A-Za-z ]+?)? is "
        r"(?P<m>{N} [a-z]+) long, and it has two parts\. One(?: part)? is (?P<p>[a-z]+), and "
        r"the other(?: part| one)? is (?P<o>[a-z]+)\. (?:If the|The) (?P=p) part is (?P<n>{N} "
        r"(?P<u>[a-z]+)) long[,.] [Hh]ow many (?P=u) long is the (?P=o) part\?",
        "<t> is <m> long. <n> of the trail are <p>, and the rest is <o>. How many <u> of the "
        "trail are <o>?",
    ),
    row(
        "it takes",
        "It takes (?P<n>{N} [a-z]+)(?: of [a-z ]+?)? to fill (?:one|each|an?)(?: of)?(?: "
        r"the| her| his)? (?P<s>[a-z ]+?)s?(?: in [a-z ]+)?\. [Hh]ow many (?:of )?(?:the "
        ")?(?P<f>[a-z ]+?) can (?P<w>she|he|they) fill if (?:she|he|they) uses? all of the "
        r"(?P<x>[a-z]+)\?",
        "They put all of the <x> in <f> that hold <n> each. How many <f> can <w> fill?",
    ),
    row(
        "there are ",
        "(?P<a>There are {N} [a-z]+) (?:going on|coming to|going to|playing in|marching in) "
        r"the [a-z]+(?: this [A-Z][a-z]+)?(?=\.)",
        "<a>",
    ),
    row(
        "each ",
        "(?P<a>Each (?:member|player|student|child|camper|scout)) (?:of|in|on) the [a-z ]+? "
        r"(?P<v>carries|brings|needs|drinks|eats|gets|uses)\b",
        "<a> <v>",
    ),
    row(
        "measured|weighed|checked|counted",
        "(?P<w>(?:^|[.,] ))[A-Za-z. ]+? (?:measured|weighed|counted|checked) (?:it|them|the "
        "[a-z]+)(?: again)?,? and (?:found|saw) that (?P<x>it|they|there|the [a-z]+) "
        "(?P<v>was|were|had)",
        "<w><x> <v>",
    ),
    row(
        "%",
        "[Hh]ow many dollars (?P<d>will|did|does|do|must|should) (?P<w>[A-Za-z. ]+?) "
        r"(?P<v>pay|leave|spend|owe)\b",
        "How much <d> <w> <v>",
    ),
    row(
        "how many ",
        "(?P<q>[Hh]ow many (?P<u>[a-z]+)) of [a-z]+ (?P<d>did|do|does|will|are|were|was|is) ",
        "<q> <d> ",
        _counted_alone,
    ),
    row(
        "price of ",
        r"(?P<a>[Tt]he price of an? [a-z ]+?) (?:at|in) the [a-z ]+? (?P<i>is|was) (?=\$)",
        "<a> <i> ",
        _one_place,
    ),
    row(
        "gauge|meter|counter",
        r"(?P<g>\b(?:gauge|meter|thermometer|counter)\b[a-z ]*?) (?:showed|read) (?P<n>{N} "
        "[^?]*)(?P<q>[Hh]ow many [a-z ]+? )(?:did|does|will) (?P<x>the [a-z ]+?) "
        r"(?:show|read)(?=\?)",
        "<g> had <n><q>are in <x> now",
    ),
)
