"""Asides that tell a number of another kind than the one asked for: an age, a year, a weight.

"Nadia, who is 9 years old, has read 134 pages" tells how old she is, and how many pages are left is
asked: the aside is left out. A row is a frame that an aside stands in. It is idle where each of its
numbers is: where its measure is not asked for, and no other number of the text is told in it. What
is left must be a story that is read, with every number needed (see `terse`), and the vetoes look at
the whole text.
"""

from __future__ import annotations

import re

from narrate.reading.words.plain import word_set
from narrate.reading.words.terse_row import Row, row

# -- what a number may be of, and what speaks of it

_MEASURES = {
    "length": r"(?:kilo|centi|milli)?met(?:er|re)s?|cm|mm|km|m|inch(?:es)?|f(?:oo|ee)t|yards?"
    r"|miles?",
    "mass": r"(?:kilo|milli)?grams?|kilos?|kg|g|tons?|tonnes?|pounds?|lbs?|ounces?",
    "volume": r"(?:milli|centi)?lit(?:er|re)s?|ml|l|gallons?|pints?|quarts?",
    "time": r"seconds?|minutes?|hours?|days?|weeks?|months?|years?",
    "warmth": r"degrees?|°c?f?",
}
_ASKED = {
    "length": r"long|high|tall|wide|deep|far|area|volume|perimeter|distance|around|length|height"
    r"|width|sides?|longer|taller|shorter|higher|away|squares?|edges?",
    "mass": r"heavy|heavier|lighter|weighs?|weigh|mass|weight|carry|load",
    "volume": r"capacity|full|fills?|filled|empty|holds?|hold|pours?|poured|room|volume|water"
    r"|milk|juice",
    "time": r"long|longer|lasts?|ends?|ended|begins?|begin|starts?|when|time|until|till|rate|speed"
    r"|fast|daily|weekly|per|noon|often|each|every|old|older|later|earlier|a",
    "warmth": r"warm|warmer|cold|colder|hot|hotter|temperature|degrees",
    "age": r"old|older|oldest|young|younger|youngest|ages?|aged|years?|birthdays?|born",
    "year": r"years?|old|older|ago|age|since|when|born|long",
}
"""Words of a question that ask for a measure, beside its units."""

_DAILY = (
    r"mornings?|afternoons?|evenings?|nights?|lunch|breakfast|dinner|daily|hourly|weekly|speed"
    r"|rate|per|once|[a-z]+days?|regularly|always"
)
"""Words for what may be done so often as there are days or hours."""

_ROOM = (
    r"seats?|seated|places|room|spaces?|full|fully|empty|fits?|holds?|hold|capacity|free|taken"
    r"|trips?|enough|least|fewest|each|every|share[sd]?|split|divided|equally|other|others|rest"
    r"|apiece|one|them|they|their|everyone|everybody|all"
)
"""Words for what may hang on how many a thing has or holds."""

_OFTEN = re.compile(r"\b(?:each|every) (?:second|minute|hour|day|week|month)\b|\bin all\b")

_BINDS = (
    r"twice|times|more|fewer|less|than|each|every|half|third|quarter|of (?:which|them|these|it)"
    r"|per|also|together|only|another|other|some|rest|left|altogether|all|both|double|extra"
    r"|percent|as|gave|sold|ate|bought|lost|took|got|found|used|added|already|still"
)
"""Words of an aside that bind its number to others."""

_NUMBER = re.compile(
    r"(?P<money>\$)?(?P<n>\d[\d,]*(?:\.\d+)?(?:(?: \d+)?/\d+)?)"
    r"(?:[ -](?P<k>[a-z°]+))?(?P<old> old)?"
)


def _says(text: str, words: str) -> bool:
    return re.search(rf"(?<![a-z])(?:{words})(?![a-z])", text) is not None


def _rest(found: re.Match[str]) -> tuple[str, str]:
    """What is told beside an aside, and what is asked."""
    rest = f"{found.string[: found.start()]} {found.string[found.end() :]}".lower()
    at = max(rest.rfind(". "), 0)
    return rest, rest[at:]


def idle(found: re.Match[str]) -> bool:
    """Whether each number of an aside, its words in the group `w`, is of a kind not asked for."""
    said = found["w"].lower()
    rest, asked = _rest(found)
    numbers = [*_NUMBER.finditer(said)]
    if not numbers or _says(said, _BINDS) or "%" in said or "?" not in asked:
        return False
    return all(_is_unasked(said, number, rest, asked) for number in numbers)


def _is_unasked(said: str, number: re.Match[str], rest: str, asked: str) -> bool:
    kind = number["k"] or ""
    if number["money"]:
        return _no_money(rest)
    if number["old"] or re.fullmatch(r"(?:who )?(?:is|was|turned|is now|aged) \d+", said.strip()):
        return not _says(rest, _ASKED["age"])
    if re.search(r"\b(?:in|since) $", said[: number.start()]) and re.fullmatch(
        r"(?:1\d|20)\d\d", number["n"]
    ):
        return not _says(rest, _ASKED["year"]) and not re.search(r"\b(?:1\d|20)\d\d\b", rest)
    for measure, units in _MEASURES.items():
        if re.fullmatch(units, kind):
            if measure == "time" and _says(rest, _DAILY):
                return False
            return not _says(rest, units) and not _says(asked, _ASKED[measure])
    return bool(kind) and _counts_alone(said[number.start("k") :], rest, asked)


def _no_money(rest: str) -> bool:
    money = "costs?|pay|pays|paid|price|money|dollars?|cents?|spend|spent|earns?|earned"
    return "$" not in rest and not _says(rest, money)


_SMALL = word_set("and or the a an in on at to for by is are was were take takes play plays")


def _counts_alone(said: str, rest: str, asked: str) -> bool:
    """Whether what is counted is named nowhere else, and what is asked for is told elsewhere."""
    words = re.findall(r"[a-z]+", said)[:2]
    things = [w[:-1] if w.endswith("s") else w for w in words if w not in _SMALL]
    named = "|".join(rf"{re.escape(w)}(?:s|es)?" for w in things)
    if not things or _says(rest, named) or _says(_OFTEN.sub("", rest), _ROOM):
        return False
    wanted = re.search(r"how many ([a-z]+(?: [a-z]+)?)", asked)
    if _says(asked, "more|fewer|than|percent|fraction|part|together"):
        return False
    if wanted is None:
        return _says(asked, r"speed|how (?:much|long|far|tall|high|heavy)|what (?:is|was)")
    return any(
        re.search(rf"\d (?:[a-z]+ )?{re.escape(w.rstrip('s'))}", rest) is not None
        or re.fullmatch("|".join([*_MEASURES.values(), "dollars"]), w) is not None
        for w in wanted[1].split()
    )


# -- other tests


def _of_a_place(found: re.Match[str]) -> bool:
    """Whether the place is named once, and who did more is asked."""
    rest, asked = _rest(found)
    place = found["p"].split()[-1]
    return not _says(rest, rf"{place}s?|it|end|edge") and _says(asked, "than|farther|further")


def _no_such_price(found: re.Match[str]) -> bool:
    """Whether what has the price is not bought, and no sum of prices is asked for."""
    rest, asked = _rest(found)
    thing = found["y"].lower().rstrip("s")
    many = "all|altogether|total|spend|spent|change|left|together|both|more|less|than"
    return not _says(rest, rf"{thing}s?|both|fruits?|vegetables?") and not _says(asked, many)


_SUMS = "all|altogether|total|together|both|they|fewer|two|who|difference|these|children|pupils"


def _named_alone(found: re.Match[str]) -> bool:
    """Whether nobody asks about who has the amount, alone or with others."""
    rest, asked = _rest(found)
    alone = not _says(rest, re.escape(found["y"].lower()))
    return alone and not _says(asked, rf"{_SUMS}|more|less|than|better|worse|higher|lower")


def _compared_alone(found: re.Match[str]) -> bool:
    """Whether what it is compared with is asked for nowhere, alone or with others."""
    rest, asked = _rest(found)
    alone = not _says(rest, rf"{re.escape(found['y'].lower())}|before|previous")
    return alone and not _says(asked, rf"{_SUMS}|more|less|than")


def _not_compared(found: re.Match[str]) -> bool:
    """Whether two others are compared, and what is told last is not named again."""
    rest, asked = _rest(found)
    return not _says(rest, found["k"]) and _says(asked, "than") and not _says(asked, _SUMS)


def _named_in_question(found: re.Match[str]) -> bool:
    """Whether what is counted beside it is asked for, and it is not."""
    rest, asked = _rest(found)
    return not _says(rest, rf"{found['k'].rstrip('s')}s?") and not _says(asked, f"{_SUMS}|more")


def _one_room(found: re.Match[str]) -> bool:
    return not re.search(r"\b(?:[Rr]ooms?|[Hh]alls?|[Cc]lass \d)\b", found.string[found.end() :])


_STATES = (
    r"(?:is|are|was|were|has|have|had|holds?|weighs?|weighed|lasts?|lasted|goes on|went on"
    r"|measures?|measured|opened|closes|opens|can|costs?|stands?|stood|lies|seats|contains"
    r"|meets?|lives?|works?|began|started|serves|covers)"
)
_IN = r"[^,.;?()]*?\d[^,;?()]*?"

UNASKED: tuple[Row, ...] = (
    # a clause of its own
    row(
        ", which |, who |, whose |, where |, in which |, at which |, on which ",
        rf", (?P<w>(?:which|who) {_STATES}\b{_IN}"
        rf"|(?:whose|where|(?:in|at|on|for) which) {_IN}),",
        "",
        idle,
    ),
    row(
        ", which |, who |, whose |, where |, in which |, at which |, on which ",
        rf", (?P<w>(?:which|who) {_STATES}\b{_IN}"
        rf"|(?:whose|where|(?:in|at|on|for) which) {_IN})(?=\. )",
        "",
        idle,
    ),
    row(
        "aged |weighing |measuring |holding |lasting |built |founded |opened |costing |made ",
        r", (?P<w>(?:aged|weighing|measuring|holding|lasting|built in|founded in|opened in|costing"
        rf"|made in) {_IN}),",
        "",
        idle,
    ),
    row(
        "(",
        r" \((?P<w>[^()]*\d[^()]*)\)",
        "",
        idle,
    ),
    row(
        " that is | that are | that was | that were | that weigh| that last| that goes| that went",
        rf" that (?P<w>(?:is|are|was|were|weighs?|weighed|lasts?|lasted|goes on|went on|measures?"
        rf"|opened|stands|began) {_IN})(?=, |\. )",
        "",
        idle,
    ),
    row(
        " that is | that are | that was | that were | that weigh| that last| that measure",
        rf" that (?P<w>(?:is|are|was|were|weighs?|lasts?|measures?) {_IN}) and "
        "(?=(?:have|has|hold|holds|had) )",
        " that ",
        idle,
    ),
    row(
        " and weigh| and ha| and is | and are | and was | and last| and meet| and train",
        rf" and (?P<w>(?:is|are|was|weighs?|weighed|has|have|lasts?|lasted|meets?|trains?) {_IN})"
        r"(?=[.;] )",
        "",
        idle,
    ),
    row(
        " weigh| measure| lasts",
        rf" (?P<w>(?:weighs?|weighed|measures?|lasts?) {_IN}) and (?=(?:costs?|has|holds) )",
        " ",
        idle,
    ),
    # how it begins
    row(
        " that | which | whose |weighing|measuring|holding",
        rf"^(?P<w>(?:In|On|With|At|During|Carrying) (?:an?|the|his|her|their) [a-z ]+? "
        rf"(?:that|which|whose|weighing|measuring|holding) {_IN}), (?=[A-Z]|the |an? )",
        "",
        idle,
    ),
    row(
        " minutes | hours | seconds | hour | minute ",
        r"^(?P<w>(?:In|Within) \d+ (?:minutes|hours|seconds|hour|minute)) (?=[A-Z])",
        "",
        idle,
    ),
    row(
        " jumped| threw| swam| kicked| rolled",
        r"^(?:Into|On|In|Along|Over) (?:an?|the) (?P<p>[a-z ]+?)(?: (?:that|which) (?:is|was)|,? "
        r"which (?:is|was))? {N} [a-z]+ (?:long|wide|deep|high),? (?=[A-Z][a-z]+ (?:jumped|threw"
        r"|swam|kicked|rolled) )",
        "",
        _of_a_place,
    ),
    # small ones
    row(
        "-litre |-liter |-gallon |-metre |-meter |-minute |-hour |-day |-kilogram |-gram |-page ",
        r"(?P<a>\b(?:[Aa]n?|[Tt]he|[Tt]his|[Hh]is|[Hh]er|[Tt]heir) )(?P<w>\d+-[a-z]+) (?=[a-z])",
        "<a>",
        idle,
    ),
    row(
        " trays| pots| rows| boxes| beds",
        r"(?<=[a-z]) in (?P<w>\d+ (?:trays|pots|rows|boxes|beds)),? (?=and {N} of )",
        ", ",
        idle,
    ),
    row(
        "number ",
        r" (?:in an? [a-z]+ )?(?:marked|labelled|labeled) (?:with )?(?:the )?number \d+(?=[.,])",
    ),
    row(
        "in room |in class |in hall ",
        r"^In (?:Room|Class|Hall) \d+, (?=\d|[A-Z]|the )",
        "",
        _one_room,
    ),
    row(
        "calls for|needs|uses|takes|requires",
        r"(?P<a>\b(?:calls for|needs|uses|takes|requires) {N} [a-z]+ of [a-z]+) and {N} "
        r"(?P<k>[a-z]+)(?= and (?:feeds|serves|makes|is enough for) )",
        "<a>",
        _named_in_question,
    ),
    *(
        row(
            "every |each ",
            rf"(?P<a>\b(?:[Ee]very|[Ee]ach) (?:[a-z]+ ){{1,2}})(?:is made up of|consists of|has) "
            rf"{told}(?P<q>\. [Hh]ow many (?P=x) (?:are there |are |play |work )?in {{N}}) "
            r"(?:such )?(?P<g>[a-z]+\?)",
            "<a>has <n><q> <g>",
            _named_in_question,
        )
        for told in (
            r"(?P<n>{N} (?P<x>[a-z]+)) and {N} (?P<k>[a-z]+)",
            r"{N} (?P<k>[a-z]+) and (?P<n>{N} (?P<x>[a-z]+))",
        )
    ),
    # what other things cost, weigh, and what others have
    row(
        ", where ",
        r", where an? (?P<y>[a-z]+) costs {N},",
        "",
        _no_such_price,
    ),
    row(
        " cost",
        r"(?P<a>\b[a-z]+ costs? \$[\d.]+ (?:an?|per) (?P<u>[a-z]+)),? (?:and|while) "
        r"(?P<y>[a-z]+) costs? \$[\d.]+ (?:an?|per) (?P=u)(?=\.)",
        "<a>",
        _no_such_price,
    ),
    row(
        " cost",
        r"\b(?P<y>[a-z]+) costs? \$[\d.]+ (?:an?|per) (?P<u>[a-z]+),? (?:and|while) "
        r"(?P<a>[a-z]+ costs? \$[\d.]+ (?:an?|per) (?P=u)(?=\.))",
        "<a>",
        _no_such_price,
    ),
    row(
        " than ",
        r"(?P<a> {N} [a-z]+), (?P<b>an? [a-z]+ {N} [a-z]+) and an? (?P<k>[a-z]+) {N} [a-z]+(?=\. )",
        "<a> and <b>",
        _not_compared,
    ),
    row(
        "; |, while |, but ",
        r"(?:;|, while|, but) (?P<y>[A-Z][a-z]+)(?:'s [a-z ]+)? (?:was|is|had|scored|has|got"
        r"|picked) {N}(?: [a-z]+)?(?=\. )",
        "",
        _named_alone,
    ),
    row(
        ", which is |, which was ",
        r", which (?:is|was) {N} (?:[a-z]+ )?(?:more|fewer|less|longer|shorter|taller|heavier"
        r"|lighter) than (?P<y>last [a-z]+|yesterday|(?:the [a-z]+ )?before|[A-Z][a-z]+)(?=\. )",
        "",
        _compared_alone,
    ),
)
"""A row of `terse`: an aside with a number that nobody asks for."""
