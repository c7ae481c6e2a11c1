"""What the words beside a number say happened to it: it was there, came, went, or is what is left.

A cue is read from the stretch of words in which the number stands, from its verb and the small
words behind it, whoever does it: "sawed off 2 meters", "14 more crept up", "leaving 2.95 liters".
What is given or paid has no cue: to whom it goes is not seen here.
"""

from __future__ import annotations

import re
from typing import Literal

from narrate.reading.words.clauses import Clause
from narrate.reading.words.directions import GIVING
from narrate.reading.words.facts import Story
from narrate.reading.words.lexicon import NO_THING, VERBS
from narrate.reading.words.measured_amounts import measure_of
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

Cue = Literal["there", "after", "came", "went", "all", ""]

_STOPS = re.compile(
    r"\.(?!\d)|[;?!:]|\b(?=there (?:is|are|was|were)\b)|\b(?:until|till)\b"
    r"(?! (?:there|she|he|it|they) (?:had|were|was|held))"
    r"|, (?:and|but|so|then|which|who|when|while|if|where|for)\b|\b(?:and|but) then\b"
    r"|\bbut\b|\bwhen\b|\b(?=then\b)|,(?= (?:\d|[a-z]+ing\b|(?:it|she|he|they|there|the) ))"
    r"|\band(?= (?:now|afterwards?)\b)"
    r"|\band(?= [\d.,/ ]*\d [a-z]+ (?:is|are|was|were|remain|remained|had|has)\b)"
    r"|\band(?= (?:has|have|had|is|was|were|are|[a-z]+ed|went|came|gave|took"
    r"|ate|sold|left|found|got|put|lost|bought|made|sent|threw|flew|fell|drank|spent)\b)"
)
WENT = word_set(
    "eat use spend sell leave fly die break remove drink throw burn drop spill lend"
    " mail send leak pop melt escape trade waste feed erase cut saw tear peel slice chop trim clip"
    " shave snip drain evaporate unload ship lose steal swallow nibble crush smash rot wither wilt"
    " depart quit cancel subtract deduct withdraw scoop ladle serve vanish disappear crack sew"
    " stitch nail knock blow wash take dry steam burst release discard recycle cook boil fry"
    " plant sow bury deliver dig transplant seize toss"
)
CAME = word_set(
    "add receive get buy find collect earn win join arrive come hatch gain gather bring fetch stir"
    " mix board enter land deposit save borrow refill increase rise climb sprout creep crawl roll"
    " appear insert contribute acquire"
)
_EITHER = word_set(
    "fly swim walk run drive hop jump crawl creep climb roll get go move put pour pack take carry"
    " load drop throw hand pull push pump drip empty tip tuck bring blow float sail slide"
    " wander drift scramble flutter skip ride step pile stack slip hang lift cycle drain wash plant"
    " set lay move shift wheel haul rake shovel spread spoon shake sprinkle dump stuff transfer"
    " place"
)
_OUT = re.compile(
    r"\b(?:off|out|away|home|from|down to|overboard"
    r"|(?:blew|blows|blown|knocked|knocks|fell|falls|cut|chopped|tore|torn) down)\b"
)
_IN = re.compile(
    r"\b(?:in|into|onto|on board|aboard|over to (?:join|it|them)|to join|up to join)\b"
)
_THERE = word_set(
    "be have own hold contain weigh measure stand show read count keep sit live possess grow"
)
_POSED = word_set("hang float swim")
"""Verbs by which things are there as well, where they do it: 9 lanterns hung in the tree."""
_AFTER_BEFORE = re.compile(
    r"\b(?:leaving|leaves?|left (?:only |just |her |him |them |it |\w+ )?(?:with )?|which left"
    r"|making|made it"
    r"|(?:that|this|it) (?:left|made|makes|brings it to)"
    r"|brought (?:it|the \w+(?: in the \w+)?|her \w+|his \w+) (?:up |down )?to"
    r"|(?:went|walked|came|drove|ran|sent) (?:home|away|off|back) with"
    r"|came (?:out|back|home) with|ended(?: up)? with"
    r"|until (?:there were|(?:she|he|it|they) (?:had|held|was|were|is|has|weighed|measured)))"
    r" (?:only |just |exactly |a total of )?$|^(?:only |just )?left $"
    r"|\b(?:stood|stands|stand) (?:then |now )?at $"
)
_WHICH_MADE = re.compile(r", which (?:made|makes|gave|gives) (?:\w+ )?(?:a total of )?$")
_AFTER_BEHIND = re.compile(
    r"^(?: [a-z'-]+){0,4}? (?:left\b|remain|still\b|stay(?:ed|s)?\b|to go\b)"
)
_ITS = r"\b(?:from|out of|off)(?: of)? (?:an?|the|his|her|their|its|this)"
_FROM_ALL = re.compile(rf"{_ITS}(?: [a-z'-]+){{1,4}} (?:of|with|holding|containing) $")
_OF_ALL = re.compile(r"\b[\w/.]+ of (?:the|his|her|their|our|my|its|these|those) $")
_FROM_SIZED = re.compile(r"\bfrom (?:an?|the|his|her|their|this)$")
_FROM_ONE = re.compile(rf"{_ITS}(?: [a-z'-]+){{1,4}}$")
_LONG = re.compile(r"^ [\w. -]+? (?:long|tall|wide|deep|high)\b")
_BEGAN_WITH = re.compile(r"\b(?:began|begins?|start(?:ed|s)?)(?: out| off)? with (?:only |just )?$")
_IS_LONG = re.compile(r"^(?: [a-z-]+)? (?:long|tall|wide|deep|high)\b")
_BY_ITSELF = re.compile(
    r"^(?: (?!to\b|the\b|an?\b)[a-z'-]+){0,3}? (?:got|get|gets|went|go|goes|came|come|comes"
    r"|walked|ran|flew|swam|hopped|climbed|drove|strolled|streamed) (?:back )?"
    r"(in|on|aboard|off|out|away)\b(?! to\b)"
)
_BECAME = re.compile(r"\b(?:to|into)(?: be)?$")
_DONE = re.compile(r"\b(?:been|was|were|is|are|had|has|have) ([a-z]+(?:ed|wn|en|un|ut|ld|ft))\b")
MOVES = WENT | CAME | _EITHER
"""Verbs of what comes or goes."""
_TOLD = MOVES | _THERE | GIVING
_FILLED = re.compile(r"\bfill(?:s|ed)? (?:it|the|an?|his|her|their|its)\b.* with $")
_WENT_WITH = re.compile(
    r"\b(?:went|goes|came|comes|left|leaves|started|starts|arrived|arrives|set out|set off)\b"
    r"(?! home| back| out).* with $"
)
_MADE_MORE = word_set("lay bake make knit sew build fold print draw paint write")
_NOW = re.compile(r"\b(?:now|then|still|in the end|at the end|finally|afterwards?)\b")
_ALL = re.compile(r"\b(?:altogether|in all|in total|total of|all together|between them|together)\b")
_MOVING = re.compile(r"\b(?:more|another|additional|further|extra)\b")


def cue_of(story: Story, q: Quantity) -> Cue:
    """What happened to an amount, "" where its words do not say."""
    before, behind = _stretch(story, q)
    said = f"{before} {behind}"
    made = _WHICH_MADE.search(story.text, max(0, q.start - 40), q.start)
    if made or _AFTER_BEFORE.search(f"{before} ") or _AFTER_BEHIND.search(behind):
        return "after"
    if _ALL.search(said):
        return "all"
    verb = _verb_of(q, before, behind)
    if _BEGAN_WITH.search(f"{before} "):
        return "there"
    if _IS_LONG.search(behind) and verb != "grow":
        return "after" if _NOW.search(said) else "there"
    if any(said.search(f"{before} ") for said in (_FROM_ALL, _OF_ALL, _FILLED, _WENT_WITH)) or (
        _FROM_ONE.search(before) and _LONG.search(behind)
    ):
        return "there"
    if by := _BY_ITSELF.match(behind):
        return "came" if by[1] in ("in", "on", "aboard") else "went"
    if verb == "grow" and measure_of(q) and not _BECAME.search(before):
        return "came"
    if _FROM_SIZED.search(before) and story.text[q.start : q.end].count("-"):
        return "there"  # from a 10-foot board
    if (by := _BY_LITTLE_WORD.search(before)) and by[1] not in _NO_MOVING:
        return "came" if by[2].startswith("in") else "went"
    if verb in _THERE or (not verb and q.borrowed):
        return "after" if _NOW.search(said) else "there"
    if verb in _POSED and q.before_verb and not (_OUT.search(behind) or _MOVING.search(said)):
        return "there"
    return _moved(verb, before, behind, q)


def _verb_of(q: Quantity, before: str, behind: str) -> str:
    """The verb that tells of an amount: the nearest one before it, else its own."""
    said = f"{before} {behind}"
    for done in _DONE.finditer(said):
        if (verb := base_of(done[1])) in MOVES:
            return verb
    nearest = next((v for w in reversed(_WORD.findall(before)) if (v := base_of(w)) in _TOLD), "")
    verbs = [base_of(w) for w in _WORD.findall(said)]
    moving = next((v for v in verbs if v in MOVES), base_of(q.verb))
    return nearest or (q.verb if q.verb in verbs else moving)


def base_of(word: str) -> str:
    """The plain form of a verb."""
    return VERBS.get(word, _plain(word))


_WORD = re.compile(r"[a-z']+")


def _moved(verb: str, before: str, behind: str, q: Quantity) -> Cue:
    """Whether an amount came or went, by its verb and by where it went."""
    if verb in GIVING or verb in _DEALT:
        return "went" if _AWAY.search(f"{before} {behind}") else ""
    if q.money and q.verb == "spend" and verb in ("buy", "purchase", "order"):
        return "went"  # spent $16 to buy pens
    more = bool(_MOVING.search(f"{before[-12:]} {behind[:14]}"))
    if verb == "deliver":
        return "came" if q.passive or q.who & _CARRIERS else ""
    if verb in _EITHER:
        if _OF_THEM.match(behind) and not more:
            return "went"
        out = _OUT.search(behind) or _OUT.search(before[-16:])
        into = _IN.search(behind) or _IN.search(before[-16:]) or more
        if bool(out) != bool(into):
            return "went" if out else "came"
        return ""
    if more and verb in _MADE_MORE:
        return "came"
    if verb in WENT:
        return "" if more or _PUT_IN.search(f"{before} # {behind}") else "went"
    if verb in CAME:
        return "" if _OUT.search(behind) and "from" not in behind else "came"
    return ""


_CARRIERS = word_set("truck van farmer cart wagon lorry driver supplier grocer dairy train boat")
_OF_THEM = re.compile(r"^ of (?:them|these|those|the|it)\b")
_PUT_IN = re.compile(r"\bin # |\b(?:into|onto)\b")
_BY_LITTLE_WORD = re.compile(r"\b([a-z]+) (in|into|off|out|away)$")
_NO_MOVING = frozenset(VERBS) | NO_THING | word_set("turned log logged laid")


_DEALT = word_set("pay donate return contribute fall")
_AWAY = re.compile(r"\baway\b")


def _plain(word: str) -> str:
    """The plain form of a verb that no table holds: sawed, crept."""
    if word.endswith("ed") and len(word) > 4:
        stem = f"{word[:-3]}y" if word.endswith("ied") else word[:-2]
        known = (w for w in (word[:-1], stem) if w in WENT | CAME | _EITHER)
        return next(known, stem[:-1] if stem[-1] == stem[-2] else stem)
    return _ODD.get(word, word)


_ODD = {
    "crept": "creep", "sawn": "saw", "torn": "tear", "tore": "tear", "slid": "slide",
}  # fmt: skip


def _stretch(story: Story, q: Quantity) -> tuple[str, str]:
    """The words before and behind a number in its own stretch."""
    text = story.text
    cuts = [m.end() for m in _STOPS.finditer(text, 0, q.start)]
    if q.clause < len(story.clauses) and story.clauses[q.clause].subject:
        cuts.append(max([*cuts[-1:], _begins(story.clauses[q.clause], q)]))
    number = re.match(r"[$£€]?[\d.,/ ]*\d|[^\W\d_]+(?:[- ](?:and )?[^\W\d_]+)*?", text[q.start :])
    end = q.start + (number.end() if number else 0)
    stop = next((m.start() for m in _STOPS.finditer(text, end)), len(text))
    return text[cuts[-1] if cuts else 0 : q.start].strip(), f" {text[end:stop].strip()}"


def _begins(clause: Clause, q: Quantity) -> int:
    """Where the words of a clause begin, 0 where its subject stands behind the number."""
    start = clause.subject[0].start
    return start if start < q.start and clause.subject[0].low in _SUBJECTS else 0


_SUBJECTS = word_set("the a an it he she they there his her their its")
