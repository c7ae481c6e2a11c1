"""Long sentences turned round: the question first, the passive, one clause inside the other.

Each row says the same whatever the story (see `terse`): "How many are left if 9 of the 30 were
sold" tells of the 30 first, and "balloons burst, after which 58 were left" is what was lost.
"""

from __future__ import annotations

import re

from narrate.reading.words.terse_row import Row, row


def _listed(found: re.Match[str]) -> bool:
    """Whether all that is on a list has a price."""
    told = found.string[found.end() :]
    first = told[: told.find(". ")]
    return first.count(" for $") == len(re.findall(r"\$", told)) > 1


def _only_dollars(found: re.Match[str]) -> bool:
    return "$" in found.string and not re.search(r"\bcents?\b|¢", found.string)


def _last_is_not_full(found: re.Match[str]) -> bool:
    """Whether a group is left that is not full."""
    return 0 < int(found["s"]) < int(found["t"]) and int(found["t"]) % int(found["s"]) != 0


def _same_thing(found: re.Match[str]) -> bool:
    return found["x"].lower() == found["y"].lower()


TURNED: tuple[Row, ...] = (
    # the question first
    row(
        " if ",
        r"^(?P<q>How many (?P<x>[a-z]+) (?:are|were) (?:left|still there|unsold))(?: [a-z ]+?)? if "
        r"(?P<t>{N} of the {N} (?P=x))(?: [a-z ]+?)? (?P<v>(?:are|were|have been|had been) "
        r"(?:sold|eaten|given away|used|taken|lost|picked|removed|carried away))(?: [a-z ]+)?\?",
        "<t> <v>. <q>?",
    ),
    row(
        "how many of them",
        r"^(?P<a>{N} of the {N} (?P<x>[a-z]+))(?: (?:on|in|of) the [a-z ]+?)? (?P<i>are|were) "
        r"(?P<t>[a-z]+)(?: today| yesterday)?\. How many of them (?=are|were)",
        "<a> <i> <t>. How many of the <x> ",
    ),
    row(
        " that has | which has ",
        r"(?P<w>[A-Z][a-z]+) (?:has |had )?(?P<v>read|picked) (?P<n>{N} (?P<k>[a-z]+)) (?:of|from) "
        r"(?:a|the|her|his) (?P<b>book|tree|bush|story) (?:that|which) (?:has|had) (?P<m>{N} "
        r"(?P=k))(?: in all)?(?=\. )",
        "A <b> has <m>. <w> <v> <n>",
    ),
    row(
        " needs ",
        r"(?P<w>[A-Z][a-z]+|The [a-z]+) needs (?P<a>{N} (?P<u>[a-z]+) of (?P<k>[a-z]+)) (?P<f>for "
        r"[a-z ]+?) and (?P<b>{N} (?P=u))(?: of (?P=k))? (?P<g>for [a-z ]+?)\. How many (?P=u) of "
        r"(?P=k) does (?:he|she|the [a-z]+|[A-Z][a-z]+) need (?:in total|in all|altogether)\?",
        "<w> used <a> <f> and <b> of <k> <g>. How many <u> of <k> did they use in all?",
    ),
    row(
        "-litre |-liter |-gallon ",
        r"(?P<h>filled an?) (?:empty )?(?P<n>\d+)-(?P<u>litre|liter|gallon) (?P<b>[a-z ]+?) in "
        r"(?P<m>{N} minutes)\. How many (?P<v>(?P=u)s) of water flowed (?:from it |into it |out "
        r")?(?:per|a|each) minute\?",
        "<h> <b> of <n> <v> in <m>. How many <v> per minute is that?",
    ),
    row(
        " keeps | keep | has ",
        r"[A-Z][a-z]+ (?:keeps|has|puts) (?:all )?(?:her|his) (?P<n>\d+ (?:[a-z]+ "
        r")?(?P<x>[a-z]+)) in an? "
        r"(?P<a>[a-z]+) (?P<b>box|tin|bag|drawer|album) and an? (?P<c>[a-z]+) (?P=b)\. There are "
        r"(?P<m>\d+) more (?P=x) in the (?P<d>(?P=a)|(?P=c)) (?P=b) than in the "
        r"(?P<e>(?P=a)|(?P=c)) "
        r"(?:one|(?P=b))\.",
        "There are <n> in two boxes. The <d> box has <m> more <x> than the <e> box.",
        lambda found: found["d"] != found["e"],
    ),
    row(
        " jumped | threw | ran | swam ",
        r"(?P<a>\b[A-Z][a-z]+ (?P<v>jumped|threw|ran|swam|walked|kicked) {N} (?P<u>[a-z]+)),? and "
        r"(?P<b>[A-Z][a-z]+) (?P<n>{N})(?=\. )",
        "<a> and <b> <v> <n> <u>",
    ),
    row(
        "by how ",
        r"[Bb]y how (?:much|many [a-z]+) (?P<c>farther|further|longer) did (?P<t>[A-Z][a-z]+ "
        r"[a-z]+ "
        r"than [A-Z][a-z]+)(?=\?)",
        "How much farther did <t>",
    ),
    row(
        " rows of ",
        r"(?:^|(?<=\. ))(?:(?:For|At|In|On) [a-z ]+?,? )?(?P<x>[A-Za-z][a-z]+) (?:have "
        r"been|had been"
        r"|were|are) (?:set out|set up|placed|arranged|planted|put up|lined up)(?: (?:in|on) the "
        r"[a-z]+(?: [a-z]+)?)? in (?P<n>\d+ [a-z]+ of \d+)(?=[,.] )",
        "There are <n> <x>",
    ),
    row(
        "standing already|already standing|lying already|already lying",
        r"(?P<i>\bwere|\bare) (?:(?:standing|lying) already|already (?:standing|lying))",
        "<i> already",
    ),
    row(
        "puts aside|put aside|puts away",
        r"\bputs (?:aside|away) (?=\$)",
        "saves ",
    ),
    row(
        "how many dollars",
        r"[Hh]ow many dollars (?P<v>does|did|do|will|would) (?P<x>one [a-z]+|an? [a-z]+) "
        r"cost(?=\?)",
        "How much <v> <x> cost",
        _only_dollars,
    ),
    # one clause inside the other
    row(
        " as old as ",
        r"(?P<a>\b[A-Z][\w']*(?: [a-z]+)?), who is (?P<n>{N})(?: years old)?, is "
        r"(?P<t>twice|[a-z]+ "
        r"times|{N} times) as old as (?P<b>[A-Z][a-z]+)(?=\.)",
        "<a> is <n> years old. That is <t> as old as <b>",
    ),
    row(
        " as old as ",
        r"(?P<a>\b(?P<b>[A-Z][a-z]+)'s [a-z]+), who is (?P<n>{N})(?: years old)?, is (?P<t>twice"
        r"|[a-z]+ times|{N} times) as old as (?:he|she)(?: is)?(?=\.)",
        "<a> is <n> years old. That is <t> as old as <b>",
    ),
    row(
        " gave ",
        r"^(?P<w>[A-Z][a-z]+) gave (?P<f>one [a-z]+|half|{N}) of (?P<h>her|his) (?P<n>\d+ "
        r"(?P<x>[a-z]+)) to (?P<b>[A-Z][a-z]+|[a-z ]+?),? and (?:afterwards|then|later) (?:she|he) "
        r"(?P<v>bought|found|got|picked) (?P<m>\d+) (?:new|more|other)(?: ones| (?P=x))?\.",
        "<w> had <n>. <w> gave <f> of <h> <x> to <b>. Then <w> <v> <m> <x>.",
    ),
    row(
        " wants to read | is going to read ",
        r"(?P<w>[A-Z][a-z]+) (?:wants to|is going to) read a book of (?P<n>{N} pages),? and "
        r"(?:he|she) reads (?P<m>{N} pages (?:an?|per|every|each) day)\. How many days will (?:the "
        r"book|it) take (?:him|her)\?",
        "A book has <n>. <w> reads <m>. How many days will it take <w> to read the book?",
    ),
    row(
        " is mixed | which is | the cook uses",
        r"\bFor (?:an?|one|a single|each|every) (?P<x>(?:[a-z]+ )?[a-z]+), (?:the "
        r"[a-z]+|[A-Z][a-z]+) "
        r"(?P<v>uses|needs|takes) (?=\d)",
        "Each <x> <v> ",
    ),
    row(
        "for a |for one |for each |for every ",
        r"^For (?:an?|one|a single|each|every) (?P<x>(?:[a-z]+ )?[a-z]+),? (?:the [a-z]+|[A-Z]"
        r"[a-z]+) (?P<v>uses|needs|takes) (?P<n>{N} [^.]*\. [Hh]ow (?:much|many) [^?]*? )"
        r"(?:does|do|did|will) [A-Za-z]+ (?:use|need|take) for (?P<m>{N} )(?P<y>[a-z ]+)\?",
        "Each <x> needs <n>are needed for <m><y>?",
    ),
    row(
        "that can each ",
        r"^(?P<x>[A-Z][a-z]+) that can each (?:seat|hold|carry|take) (?P<n>\d+ (?P<k>[a-z]+)) "
        r"(?:will|must|are to|have to) (?:take|carry|bring|hold) (?:all )?(?:the )?(?P<m>\d+ "
        r"(?P=k))(?: [a-z ]+)?\. (?:What is the smallest number of|How many) (?P<y>[a-z]+) (?:that "
        r"must be|must be|are|will be|have to be) (?:hired|needed|used|ordered)\?",
        "If each of the <y> holds <n>, what is the smallest number of <y> needed for <m>?",
        _same_thing,
    ),
    row(
        "last table|last bench|last van|last boat|last row|last box|last bag",
        r"(?P<t>\d+) (?P<k>[a-z]+) (?:are|are to be|will be|were) (?P<v>seated|put|packed|placed) "
        r"(?P<p>at|in|on|into) (?P<g>[a-z]+) (?:that (?:have|has) places for|that hold|of|for) "
        r"(?P<s>\d+)(?: [a-z]+)?(?: each)?\. The (?P=g) are filled one after (?:another|the other)"
        r"\. How many (?P=k) (?:will |are |be )*(?:sit |go |seated )?(?:at|in|on) the last [a-z]+, "
        r"which is not full\?",
        "<t> <k> are put <p> <g> of <s>. How many <k> are left over?",
        _last_is_not_full,
    ),
    # what happened to some of them
    row(
        "after which ",
        r"(?:^|(?<=\. ))Some of the (?P<n>{N}) (?P<x>[a-z]+)(?: [a-z ]+?)? (?P<v>burst|melted"
        r"|withered|broke|died|fell|escaped|hatched)(?: [a-z ]+)?, after which (?:only |just )?"
        r"(?P<m>{N}) were left\. How many (?:of the )?(?P=x) (?P=v)(?: [a-z ]+)?\?",
        "There were <n> <x>. Some <x> were lost. Then there were <m> <x> left. How many <x> were "
        "lost?",
    ),
    row(
        "one in ",
        r"\b[Oo]ne in(?: every)? (?P<n>\d+) of the (?P<m>\d+) (?P<x>(?:[a-z]+ )?[a-z]+s)(?: [a-z "
        r"]+?)? failed to (?P<v>[a-z]+)(?:, but all (?:of )?the others did(?: (?P=v))?)?\. How "
        r"many "
        r"(?P<y>[a-z]+) (?:(?P=v)ed|did (?P=v))\?",
        "There were <m> <x>. 1/<n> of the <x> were lost. How many <x> are left?",
    ),
    # who got on and off
    row(
        " were on it",
        r"^When the (?P<b>bus|train|tram|van|boat) (?:pulled up|stopped|arrived)(?: at [a-z ]+)?, "
        r"(?P<n>\d+ [a-z]+) were on it\. (?:There )?(?P<t>\d+ of them )",
        "There were <n> on a <b>. <t>",
    ),
    row(
        "when it ",
        r"(?P<q>[Hh]ow many [a-z]+) were on the (?P<b>bus|train|tram|van|boat) when it "
        r"(?:drove|went"
        r"|moved|travelled|traveled|set|sailed) (?:on|off|away|again)\?",
        "<q> are on the <b> now?",
    ),
    # votes
    row(
        " voted ",
        r"^When [a-z ]+ voted [a-z ]+, (?=[a-z]+ (?:was given|got|received) )",
    ),
    row(
        " was given ",
        r"(?P<a>\b[A-Za-z]+) was given (?P<n>\d+ (?P<k>votes|points)),? and (?P<b>[A-Za-z]+) was "
        r"given (?P<m>\d+)\. How many more (?P=k) (?:went|were given) to (?P<c>[A-Za-z]+) than to "
        r"(?P<d>[A-Za-z]+)\?",
        "The <a> got <n> and the <b> got <m> <k>. How many more <k> did the <c> get than the <d>?",
    ),
    # lists
    row(
        "list had ",
        r"^(?P<w>[A-Z][a-z]+)'s (?:shopping )?list had (?:[a-z]+|\d+) things on it: ",
        "<w> bought ",
        _listed,
    ),
    row(
        "take up",
        r"[Tt]here (?:are|were) (?P<a>\d+ (?P<x>[a-z]+)) of (?P<n>{N} (?P<u>minutes|hours|pages)) "
        r"and (?P<b>\d+ (?P<y>[a-z]+)) of (?P<m>{N} (?P=u))\. How many (?P=u) do the (?P=x) and "
        r"(?:the )?(?P=y) (?:take up|take|last) (?:altogether|in all|together)\?",
        "there are <a> of <n> each and <b> of <m> each. How many <u> is that in all?",
    ),
    row(
        " over",
        r"^Having (?P<v>tied|packed|put|bundled|bound|sorted) (?P<x>[a-z]+) into (?P<n>\d+ [a-z]+) "
        r"of (?P<m>\d+), [A-Za-z ]+? had (?P<r>\d+)(?: (?P=x))? (?:left )?over\. How many (?P=x) "
        r"(?:had|did|were) [a-z ]+ (?:in all|altogether)\?",
        "They <v> <n> of <m> <x> each and had <r> <x> left over. How many <x> did they have in "
        "all?",
    ),
    row(
        " per game| per round| per day| per week",
        r"[Hh]ow many (?P<x>[a-z]+) did [A-Z][a-z]+ [a-z]+ per (?:game|round|day|week) on average"
        r"(?=\?)",
        "What is the mean number of <x>",
    ),
    # cut off, and what is left
    row(
        "from a",
        r"^From an? (?P<r>[a-z]+) (?P<n>{N} [a-z]+) long, (?P<w>[A-Z][a-z]+) cut (?:off )?(?:a "
        r"piece "
        r"of )?(?P<m>{N} [a-z]+)(?: (?:to|for) [a-z ]+)?\.",
        "A <r> was <n> long. <w> cut off <m>.",
    ),
    row(
        "that remained|that was left|that is left|that remains",
        r"[Hh]ow many (?P<u>[a-z]+) long (?:was|is) the (?P<r>[a-z]+) that (?:remained|remains|was "
        r"left|is left)(?=\?)",
        "How many <u> of <r> were left",
    ),
    row(
        "from a roll|from a reel|from a ball",
        r"^From an? (?:roll|reel|ball) (?:with|of) (?P<n>{N} [a-z]+ of [a-z]+), (?P<w>[A-Z][a-z]+) "
        r"cut (?P<a>{N} [a-z]+)(?: for [a-z ]+)? and (?P<b>{N} [a-z]+)(?: for [a-z ]+)?\.",
        "<w> had <n>. <w> cut off <a> and <b>.",
    ),
    row(
        "left on the roll|left on the reel|left on the ball",
        r"(?<=left) on the (?:roll|reel|ball)(?=\?)",
    ),
    row(
        " lines ",
        r"^On an? [a-z]+ with {N} (?P<k>[a-z]+), (?P<t>[A-Z][a-z]+ [a-z]+ {N} (?P=k) and "
        r"[a-z]+ {N} "
        r"(?P<o>[a-z]+) (?:on|in) each of )those (?:(?:he|she) [a-z]+)?(?P<q>\. How many (?P=o) )",
        "<t>the <k><q>",
    ),
    # grown
    row(
        " measured it",
        r"^When [A-Z][a-z]+ measured it (?P<d>last [a-z]+|yesterday|in [A-Z][a-z]+), "
        r"(?:his|her|the) "
        r"(?P<x>[a-z ]+? (?:was|is) {N} [a-z]+ (?:tall|high|long)); today",
        "The <x> <d>. Today",
    ),
    row(
        "by how many ",
        r"[Bb]y how many (?P<u>[a-z]+) has it grown(?=\?)",
        "How many <u> has it grown",
    ),
    row(
        "kitchen scale|scales",
        r"^On the (?:[a-z]+ )?scales?,? (?P<a>an?) ",
        "A ",
    ),
    row(
        "by how many ",
        r"[Bb]y how many (?P<u>[a-z]+) (?P<i>was|is) (?P<a>the [a-z]+|[A-Z][a-z]+) "
        r"(?P<c>heavier|lighter|taller|longer|shorter|wider) than (?P<b>the "
        r"[a-z]+|[A-Z][a-z]+)(?=\?)",
        "How many <u> <c> <i> <a> than <b>",
    ),
    row(
        "this week's",
        r"(?P<a>\bThis week (?:[a-z']+ )+{N} (?P<x>[a-z]+)[^?]*?) this week's (?P=x)(?=\?)",
        "<a> the <x>",
    ),
)
"""A row of `terse`: a long sentence and the short ones that say the same."""
