"""Which amounts a question asks about: those that got off, those of the giver, what was paid."""

from __future__ import annotations

import re

from narrate.exact.tree import Expr
from narrate.reading.vetoes.row import Row, Rows
from narrate.reading.vetoes.summed import go_alike, numbers, operations, sums, worth
from narrate.reading.vetoes.told_numbers import FIGURES, NUMBER, SO_MANY, found_all, read_number
from narrate.reading.words.lexicon import NO_THING, VERBS
from narrate.reading.words.verbs import BE, HAVE

_OTHER_WAY = {
    "off": ("on", "in"), "on": ("off", "out"), "up": ("down",), "down": ("up",),
    "in": ("out", "off"), "out": ("in", "on"),
}  # fmt: skip
_GOES = re.compile(
    r"\b(?P<verb>get|got|go|went|gone|come|came|climb|carry|carried|walk|run|ran|drop|rise|rose)\b"
    r"[^?]*?\b(?P<way>on|off|up|down|in|out)\b"
)
_WAY_AT_END = re.compile(
    r"\b(?P<verb>[a-z]+) (?P<way>on|off|up|down|in|out)"
    r"(?: (?:in all|altogether|in total|together))?\s*\??\s*$"
)


def counts_both_ways(story: str, question: str, tree: Expr | None) -> bool:
    """Whether those that got on are counted where those that got off are asked about."""
    asked = _GOES.search(question) or _WAY_AT_END.search(question)
    if asked is None or re.search(r"\b(?:left|now|still|there)\b", question):
        return False
    others = "|".join(_OTHER_WAY[asked["way"]])
    verb = re.escape(asked["verb"][:3])
    if not re.search(
        rf"\b{verb}[a-z]* (?:{others})\b(?! \d)|[a-z0-9], (?:{others}) (?:by )?\d", story
    ):
        return False
    used = {*numbers(tree)}
    found = found_all(FIGURES, story)
    for at, number in enumerate(found):
        end = found[at + 1].start() if at + 1 < len(found) else len(story)
        begin = found[at - 1].end() if at else 0
        behind = _ways(re.split(r"[.?!,;]\s", story[number.end() : end])[0])
        before = _ways(re.split(r"[.?!,;]\s", story[begin : number.start()])[-1])
        close = re.search(r"\b(?:on|off|up|down|out|in)(?: by)? $", story[begin : number.start()])
        way = before[-1:] if close else behind[:1] or before[-1:]
        if read_number(number[0]) in used and way and way[0] in _OTHER_WAY[asked["way"]]:
            return True
    return False


def _ways(text: str) -> list[str]:
    """The ways that are no place: got on, got off at the mill, but not in a crate."""
    return re.findall(r"\b(on|off|up|down|out|in)\b(?! (?:an?|the|his|her|its|each|every)\b)", text)


_DOES_SO_MUCH = re.compile(rf"\b([a-z]+) (?:by )?\$?({NUMBER})")


def counts_what_else_was_done(story: str, question: str, tree: Expr | None) -> bool:
    """Whether hours of rest are added where the hours of work are asked about."""
    asked = {VERBS.get(word, word) for word in re.findall(r"[a-z]+", question)} - BE - HAVE
    done: dict[str, set[object]] = {}
    for verb, number in _DOES_SO_MUCH.findall(story):
        base = VERBS.get(verb, verb)
        if (verb in VERBS or verb.endswith("ed")) and base not in NO_THING | BE | HAVE:
            done.setdefault(base, set()).add(read_number(number))
    mine = [verb for verb in done if verb in asked]
    if len(mine) != 1 or not re.search(r"\b(?:in all|altogether|total)\b", question):
        return False
    others = set().union(*(told for verb, told in done.items() if verb not in mine)) - done[mine[0]]
    joined = [{worth(term) for _, term in terms} for terms in sums(tree)]
    return any(each & done[mine[0]] and each & others for each in joined)


_GIVES = r"\b(?:gave|gives?|sold|sells?|sent|sends?|lent|lends?|handed)"
_THEY_DID = rf"(?:who|which) (?:then |later )?[a-z]+(?: away| out| up)? ({NUMBER})"
_RECEIVED = re.compile(rf"{_GIVES}\b[^.?!]*?({NUMBER})\b[^.?!]*? to [^.?!]*?, {_THEY_DID}")
_PASSED_ON = re.compile(
    rf"({NUMBER})\b[^.?!]*?, which (?:he|she|they) (?:gave|spent|lent|sold|lost|put|handed)\b"
)


def counts_what_others_did(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what the receiver of a gift did with it changes what the giver has."""
    for found in found_all(_RECEIVED, story):
        given, later = (read_number(each) for each in found.groups() if each)
        if go_alike(tree, given, later):
            return True
    passed = {read_number(found[1]) for found in found_all(_PASSED_ON, story)}
    return any(worth(t) in passed for terms in sums(tree) for sign, t in terms if sign > 0)


_ONLY_SEEN = re.compile(
    r"\b(?:look(?:s|ed)? at|saw|sees?|admir\w+|wish\w*|reserv\w+|dream\w*|tr(?:y|ies|ied) on|liked?"
    rf"|lik(?:es|ed))\b[^.?!,]*?\$({NUMBER})"
)


def pays_for_what_is_seen(story: str, question: str, tree: Expr | None) -> bool:
    """Whether a thing that was only looked at is paid for."""
    seen = {read_number(found[1]) for found in found_all(_ONLY_SEEN, story)}
    return any(sign < 0 and worth(t) in seen for terms in sums(tree) for sign, t in terms)


_FILLED = re.compile(rf"\b(?P<n>{SO_MANY}) (?P<vessels>[a-z]+s)\b")
_OUT_OF = re.compile(r"\b(?:filled|poured|drawn|taken)\b")


def asks_what_the_vessels_hold(story: str, question: str, tree: Expr | None) -> bool:
    """Whether what is left in the jug is given where what is in the glasses is asked."""
    asked = re.search(r"\b(?:is|are) (?:there )?in the ([a-z]+s)\b", question)
    if (
        asked is None
        or not sums(tree)
        or not _OUT_OF.search(story)
        or re.search(r"\bleft\b", question)
    ):
        return False
    return any(found["vessels"] == asked[1] for found in found_all(_FILLED, story))


_FRACTION_ASKED = re.compile(
    r"\bwhat fraction of (?:the |all (?:the )?)?[a-z]+(?: [a-z]+)? (?P<so>.*)"
)


def takes_another_part(story: str, question: str, tree: Expr | None) -> bool:
    """Whether the fraction that is told is given where the question names another part."""
    asked = _FRACTION_ASKED.search(question)
    if asked is None or operations(tree) not in ("", "÷"):
        return False
    if re.search(r"\b(?:each|left|does|did|do)\b", asked[0]):
        return False
    words = {w for w in re.findall(r"[a-z]{3,}", asked["so"]) if w not in NO_THING} - BE - HAVE
    told = {word[:4] for word in re.findall(r"[a-z]{3,}", story)}
    return bool(words) and not any(word[:4] in told for word in words)


ROWS: Rows = (
    Row(
        counts_both_ways,
        "only those that went the one way are asked about",
        " off| on| up| down| in| out",
    ),
    Row(
        counts_what_else_was_done,
        "only some of what was done is asked about",
        "in all|altogether|total",
    ),
    Row(counts_what_others_did, "somebody else did something with them", "who |which "),
    Row(
        pays_for_what_is_seen,
        "something was only looked at",
        "look|saw|see|admir|wish|reserv|dream|tri|try|like",
    ),
    Row(asks_what_the_vessels_hold, "what was filled is asked about", "in the "),
    Row(takes_another_part, "another part may be asked about", "fraction"),
)
