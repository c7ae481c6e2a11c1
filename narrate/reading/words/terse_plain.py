"""Plain words for what a test says in a longer way: clauses turned round, questions said shortly.

Each row says the same whatever the story (see `terse`): "pieces that are each 2 feet long" are
"pieces, each 2 feet long,"; "by how many miles was A's walk shorter" asks how many miles shorter
it was; what "had not been eaten" was left, where it is asked how many were eaten.
"""

from __future__ import annotations

import re

from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.terse_row import Row, row

_NUMBER = re.compile(r"\$?\d[\d,]*(?:\.\d+)?(?:(?: \d+)?/\d+)?")


def _numbers_before(found: re.Match[str], place: int) -> list[str]:
    return _NUMBER.findall(found.string[:place])


def _same_unit(found: re.Match[str]) -> bool:
    """Whether all that is measured is told in the unit that is asked for."""
    unit = found["u"] or found["us"]
    told = {one(w) for w in re.findall("[a-z]+", found.string.lower())} & UNITS - {"in"}
    return unit is None or told == {one(unit)}


def _both_in_unit(found: re.Match[str]) -> bool:
    """Whether just two amounts are told, both in the unit asked for."""
    rest = found.string[: found.start()]
    return (
        len(_numbers_before(found, found.start())) == 2
        and len(
            [
                u
                for u in re.findall(r"\d (?:\d+/\d+ )?([a-z]+)\b", rest)
                if one(u) == one(found["u"])
            ]
        )
        == 2
    )


def _one_came(found: re.Match[str]) -> bool:
    """Whether just one change and its end are told."""
    return len(_numbers_before(found, found.start())) == 2


def _of_those_told(found: re.Match[str]) -> bool:
    """Whether what is asked is what was told of the first part: what fraction is red."""
    return found["c"] == found["d"] and found["c"] != found["other"]


def _two_named(found: re.Match[str]) -> bool:
    """Whether just two of a kind are told of by a name: class A, class B."""
    kind = one(found["k"])
    kind = {"classe": "class"}.get(kind, kind)
    said = set(re.findall(rf"\b(?i:{kind}) ([A-Z\d]\w*)", found.string[: found.start()]))
    said |= set(
        re.findall(rf"\b([A-Z][\w.]*'s|[Tt]he [a-z]+) {kind}\b", found.string[: found.start()])
    )
    return len(said) == 2


def _took_away(found: re.Match[str]) -> bool:
    """Whether it is told that some were taken away from what there was."""
    return _AWAY.search(found.string[: found.start()]) is not None


_AWAY = re.compile(
    r"\b(?:taken|removed|given away|carried|sold|moved|eaten|used|sent) (?:to|from|out|away|by"
    r"|for)\b"
    r"|\b(?:given away|are taken|are sold|are eaten|are used|are removed)\b"
)


def _no_age_asked(found: re.Match[str]) -> bool:
    return not re.search(r"\b(?:old|older|younger|age|ages|years?)\b", found.string[found.end() :])


_EATEN = (
    ("eaten", "eat"), ("used", "use"), ("sold", "sell"), ("picked", "pick"), ("planted", "plant"),
    ("watered", "water"), ("washed", "wash"), ("read", "read"), ("opened", "open"),
)  # fmt: skip

PLAINER: tuple[Row, ...] = (
    # pieces that are each so long
    row(
        "that are each|that is each|that each measure|that measure",
        r"(?P<p>\b{C} [a-z]+(?: of [a-z]+)?) that (?:are each|are all|each measure|measure) "
        r"(?P<n>{N} [a-z]+)(?: (?:long|in length))?"
        r"(?: each)?(?=[ .,])",
        "<p>, each <n> long,",
    ),
    row(
        "from ",
        r"(?:^|(?<=\. ))From (?P<x>(?:a|an|the|her|his) [a-z ]*?{N}[a-z0-9 ]*?), "
        r"(?P<w>(?:[A-Z][a-z]+|[Ss]he|[Hh]e|[Tt]hey|the [a-z]+)) "
        r"(?P<v>cuts?|sawed|cut off|snipped) (?P<y>[^.]*?)(?P<e>,?\.)",
        "<w> <v> <y>, from <x>.",
    ),
    row(
        "from ",
        r"(?:^|(?<=\. ))From (?P<x>(?:a|an|the|her|his) [a-z ]*?{N}[a-z0-9 ]*?), (?P<y>{C} "
        r"[^.]*?),? (?:were|are) cut(?: off)?\.",
        "They cut <y>, from <x>.",
    ),
    row(
        "sawed off|cut from|cut off",
        r"(?P<h>(?:^|(?<=\. ))(?:A|The) (?P<b>[a-z]+)) is (?P<n>{N} [a-z]+) long\. (?P<y>{C} "
        r"pieces, each {N} [a-z]+ long), (?:are|were) "
        r"(?:sawed off|cut from|cut off|sawed from)(?: of)? (?:it|the (?P=b))\.",
        "<h> is <n> long. They cut <y>, from the <b>.",
    ),
    row(
        " wasted| lost",
        r"(?:(?<=\. )|^)(?:No [a-z]+|Nothing|None of it) (?:is|was) (?:wasted|lost|spilled)(?: "
        r"(?:in|by|during|while|when) [a-z ]+)?\. ",
    ),
    row(
        "not used|not cut",
        r"(?P<t>\bcut [^?]*)[Hh]ow (?:much|many [a-z]+) of (?P<x>the [a-z]+)(?:, in "
        r"(?P<u>[a-z]+),)? (?:was|were|is|are) not (?:used|cut)(?=\?)",
        "<t>How many <u> of <x> were left",
        lambda found: bool(found["u"]),
    ),
    # filled and full
    row(
        "completely",
        r"(?P<h>[Hh]ow many )(?P<x>[a-z ]+? (?:can|could|will|did) [A-Za-z. ]+?) (?:completely "
        r"fill|fill completely)\b",
        "<h>full <x> fill",
    ),
    row(
        "completely",
        r"(?P<h>[Hh]ow many )(?P<x>[a-z ]+? (?:can|could) be) (?:completely filled|filled "
        r"completely)\b",
        "<h>full <x> filled",
    ),
    row(
        " full?| filled?",
        r",? when (?:they are|it is|all are|each is|they are all) (?:completely )?(?:full"
        r"|filled)(?=\?)",
        "",
    ),
    # each with so many
    row(
        ", with ",
        r"(?P<w>(?:^|(?<=\. ))(?:In [a-z ]+ there are |There are )?)(?P<c>{C} [a-z]+), with "
        r"(?P<n>{N} [a-z ]+?) (?P<o>in|on) each"
        r"(?: of them| one)?(?:, (?:are|were|stand|sit|hang) [a-z ]+)?\.",
        "There are <c> with <n> <o> each.",
    ),
    row(
        " stay| remain",
        r"(?P<q>[Hh]ow many (?P<x>[a-z]+)) (?:stay|stayed|remain|remained)(?: (?:in|on|at) the "
        r"[a-z ]+)?(?=\?)",
        "<q> are left",
        _took_away,
    ),
    row(
        "the same number on every|the same number in every|the same number in each|the same number "
        "on each",
        r"(?P<h>\b(?:has|had) {N} [a-z ]+?) to (?:put|place|plant|pack|set) (?:on|in|into) "
        r"(?P<n>{N} [a-z ]+?)\. (?P<w>He|She|They) "
        r"(?P<v>puts?|plants?|places?|packs?|sets?) the same number (?P<o>on|in|into) (?:every"
        r"|each) [a-z]+",
        "<h>. <w> <v> the same number <o> each of <n>",
    ),
    # that somebody grew
    row(
        " that ",
        r"\b[Tt]he (?P<x>[a-z]+(?: [a-z]+)?) that (?P<w>[A-Z][a-z]+) (?:grew|made|set|baked|owns"
        r"|has|built|planted|picked|bought|raised|caught|drew)"
        r"(?= (?:is|was|has|had|weighs|weighed|measures|measured|stands|stood|costs|cost)\b|\?)",
        "<w>'s <x>",
    ),
    row(
        "than the one that",
        r"\bthan the one that (?P<w>[A-Z][a-z]+) (?:grew|made|set|baked|owns|has|built|planted"
        r"|picked|bought|raised|caught|drew)(?=[.,?])",
        "than <w>'s",
    ),
    row(
        "times that ",
        r"\b(?P<h>has|had) (?P<n>{N}|twice) times that (?P<s>mass|weight|length|height|price|width"
        r"|depth)(?=[.,])",
        "<h> a <s> <n> times as great",
    ),
    # questions said shortly
    row(
        "by what fraction|by how m",
        r"\b[Bb]y (?:what fraction of an? (?P<u>[a-z]+)|how many (?P<us>[a-z]+)|how much) (?P<i>is"
        r"|was|are|were) "
        r"(?P<a>[A-Z][A-Za-z' ]*?|the [a-z' ]+?) (?P<c>shorter|longer|taller|heavier|lighter|wider"
        r"|deeper|higher|older|greater|less|more) than",
        "How much <c> <i> <a> than",
        _same_unit,
    ),
    row(
        " if ",
        r"^How much (?P<c>[a-z]+) (?P<i>is|was) (?P<a>[A-Z][a-z]+)'s (?P<x>[a-z]+) than "
        r"(?P<b>[A-Z][a-z]+'s)(?: (?P=x))? if (?P=a)'s(?: (?P=x))? "
        r"(?P<t>[^?]*)\?",
        "<a>'s <x> <t>. How much <c> <i> <a>'s <x> than <b>?",
    ),
    row(
        "what fraction of ",
        r"^(?P<q>What (?:fraction|part) of (?:an?|the|his|her) (?P<w>[a-z]+) (?:is|was) left) if "
        r"(?P<n>{N}) of it (?P<t>[^?]*)\?",
        "<n> of the <w> <t>. <q>?",
    ),
    row(
        " of it ",
        r"(?P<a>{N} of (?:an?|the) (?P<w>[a-z]+) (?P<v>(?:is|was) [a-z]+) (?:at|on|for|in) [a-z "
        r"]+?,? and {N} of) it (?=(?:at|on|for|in) )",
        "<a> the <w> <v> ",
    ),
    row(
        "what percent did",
        r"(?P<a>\banswered {N} of (?:the|her|his) {N} (?P<y>[a-z ]*?(?:questions|problems|items)) "
        r"(?:correctly|right)\. )[Ww]hat percent did (?P<w>[a-z]+|[A-Z][a-z]+) (?:get|answer) "
        r"(?:right|correctly|correct)(?=\?)",
        "<a>What percent of the <y> did <w> answer correctly",
    ),
    row(
        " of which ",
        r"(?P<x>{N} (?P<k>[a-z]+)), of which (?P<m>{N} )(?P<i>are|were) (?P<t>[^.]*\. [Hh]ow many "
        r"of )(?:its|the|these|those|their) (?P=k) ",
        "<x>. <m>of them <i> <t>the <k> ",
    ),
    row(
        "took in $",
        r"\btook in (?P<n>\$[^?]*\bdid {P} )take in\b",
        "earned <n>earn",
    ),
    row(
        "-seat |-person |-passenger ",
        r"[Hh]ow many (?P<n>\d+)-(?:seat|person|passenger) (?P<x>[a-z]+) are needed to (?P<v>seat"
        r"|carry|hold|take) (?P<m>{N} )(?P<g>[a-z]+)(?=\?)",
        "How many <x> are needed for <m><g> if each of the <x> holds <n> <g>",
    ),
    row(
        "ahead of|to go|were left|are left",
        r"(?:^|(?<=\. ))[A-Z][a-z ]*? (?:gone|walked|hiked|run|ridden|biked|jogged) (?P<n>{N} "
        r"(?P<us>miles|kilometers|meters|yards|feet)) of (?:a|the|her|his) "
        r"(?P<m>{N})-(?:mile|kilometer|meter|yard|foot) (?P<t>trail|path|route|road|race|hike"
        r"|walk)(?: when [a-z ]+)?\. [Hh]ow many (?P=us) (?:of the (?P=t) )?"
        r"(?:were|are|did (?:she|he|they) have) (?:still )?(?:ahead of (?:her|him|them)|left|to go"
        r"|left to go)(?=\?)",
        "The <t> is <m> <us> long. They walked <n> of the <t>. How many <us> of the <t> were left",
    ),
    row(
        "for both ",
        r"(?P<a>for the first [a-z]+ and {N} [a-z]+ for the second(?: one| [a-z]+)?\. [^?]*?) for "
        r"both [a-z]+(?=\?)",
        "<a> in all",
    ),
    row(
        "total |combined ",
        r"\b[Ww]hat (?:is|was) the (?:total|combined) (?:weight|mass|length|amount|distance"
        r"|volume), in (?P<u>[a-z]+), of "
        r"(?:these|the|those|both) (?:two |both )?[a-z ]+(?=\?)",
        "How many <u> is that in all",
        _both_in_unit,
    ),
    row(
        "days|months|weeks|pages|nights|mornings",
        r" (?:on|in|over|for|during) (?:those|these|both of those|both of these) two (?:days"
        r"|months|weeks|pages|nights|mornings)(?: together| combined)?(?=\?)",
        " in all",
    ),
    row(
        " the two | both ",
        r"\bdid (?:the two|both|these two|those two) (?P<k>[a-z]+) (?P<v>[a-z]+)(?= (?:in all"
        r"|altogether|together|in total)\?)",
        "did they <v>",
        _two_named,
    ),
    row(
        "by the two |by both ",
        r" by (?:the two|both|these two|those two) (?P<k>[a-z]+)(?= (?:in all|altogether|together"
        r"|in total)\?)",
        "",
        _two_named,
    ),
    row(
        " had on | did on | had in | did in ",
        r"(?P<a>\bas (?:far|many|much|long|often)(?: [a-z ]+?)? as) {P} (?:had|did) (?=(?:on|in) )",
        "<a> ",
    ),
    row(
        " still have to | have left to |yet to ",
        r"(?P<q>[Hh]ow many (?:more )?[a-z ]+?) (?:does|do|did) {P} (?:still have to|still need to"
        r"|have left to|have yet to) (?:read|plant|pick|wash|water|make|do|walk)(?=\?)",
        "<q> are left",
    ),
    # the rest of a group that is not asked for
    row(
        " the others | the rest ",
        r"(?P<a>\b(?P<m>{C}|[A-Z][a-z]+-[a-z]+) of (?:the|them|these) ?(?:[a-z]+ )?(?:are|were) "
        r"(?P<c>[a-z]+)),? and (?:all )?the (?:others|rest) (?:are|were) (?P<other>[a-z]+)"
        r"(?P<q>\. (?:What fraction|What percent) of the [a-z]+ (?:are|is|were) (?P<d>[a-z]+)\?)",
        "<a><q>",
        _of_those_told,
    ),
    row(
        " a pair.| a pair,",
        r"(?P<a>\b(?P<g>gloves|boots|scissors|shoes|socks|mittens)\b[^?]*? a pair)(?=[.,])",
        "<a> of <g>",
    ),
    # what was there before
    row(
        "already in|already on",
        r"(?P<s>\bSome [a-z]+) (?P<i>was|were) already (?P<o>in|on) (?:the |his |her )?(?:[a-z "
        r"]+'s )?(?P<p>[a-z' ]+?) when (?P<w>[A-Z][a-z]+|the [a-z]+) (?P<v>put|poured|placed|added"
        r"|dropped)(?P<n> in {N}| {N})(?: from [a-z' ]+)?",
        "<s> <i> <o> the <p>. <w> <v><n>",
    ),
    row(
        "before that",
        r"(?P<q>[Hh]ow (?:much|many) [a-z ]+? (?:was|were) (?:there )?(?:in|on) [A-Za-z' ]+?) "
        r"before that(?=\?)",
        "<q> at first",
        _one_came,
    ),
    row(
        " until ",
        r"(?:^|(?<=\. ))(?P<w>[A-Z][a-z]+) had (?P<n>{N} [a-z]+ of (?P<f>[a-z]+)) in (?P<j>an? "
        r"(?:[a-z]+ )?(?P<b>[a-z]+))\. "
        r"(?:She|He) (?:kept|keeps) (?:pouring|putting|adding|dropping) (?:in )?(?:more "
        r")?(?:(?P=f)|it)(?: in| to it)? until (?:the (?P=b)|it|there) "
        r"(?:held|had|contained|were) (?P<m>{N} [a-z]+)(?: of (?P=f))?(?: in (?:it|the (?P=b)))?\.",
        "There were <n> in <j>. <w> added some more <f>. Then there were <m> of <f> in the <b>.",
    ),
    row(
        "lunch was over|dinner was over|breakfast was over|party was over",
        r"\b(?P<w>[Ww])hen (?:the )?(?P<m>lunch|dinner|breakfast|party) was over, (?=\d)",
        "After <m>, ",
    ),
    *(
        row(
            f"not been {done}|not {done}",
            rf"(?P<n>\b{{N}} of (?:them|the [a-z]+)) (?:had|have|has|were|was) not (?:yet "
            rf")?(?:been )?{done}(?P<r>\. [Hh]ow many "
            rf"(?:of the )?(?P<x>[a-z]+)) (?:did [A-Za-z ]+? {do}|(?:were|had been|was) {done})\?",
            f"<n> were left<r> were {done}?",
        )
        for done, do in _EATEN
    ),
    # a tub with so much in it
    row(
        " in it|containing|holding",
        r"(?:(?<=[.] )|^)[A-Z][\w.' ]+? (?:brought|opened|took out|got|has|had) a (?P<j>[a-z ]+?) "
        r"(?:with|containing|holding) (?P<n>{N} [a-z]+ of [a-z ]+?)(?: in it)?(?=\. )",
        "There were <n> in a <j>",
    ),
    row(
        "into a|in a",
        r"\b(?:stirred|mixed|poured|put) (?P<n>{N} [a-z]+)(?: of (?:it|the [a-z]+))? (?:in|into) "
        r"an? (?P<x>dip|smoothie|cake|salad|sauce|soup|batter|dough|stew|shake|pie|bowl of "
        r"[a-z]+)(?=[., ])",
        "used <n> for a <x>",
    ),
    # who is so old, and does something
    row(
        "-year-old",
        r"(?:^|(?<=\. ))(?:\w+)-year-old (?=[A-Z])",
        "",
        _no_age_asked,
    ),
    row(
        "for the ",
        r"^For (?:the|a|their) (?:[a-z]+ ){0,2}?(?:drive|sale|fair|concert|picnic|party|festival"
        r"|project|show), (?=[A-Z]|the |a )",
    ),
    row(
        "if no ",
        r"\b(?P<i>[Ii])f (?:no one|nobody|none|nothing)(?: else)? (?:else )?(?:joins|comes|leaves"
        r"|is added|is taken|is lost)(?: or [a-z]+)?, ",
    ),
)
