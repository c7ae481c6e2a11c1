"""What a story asks: of what, how, and held against what.

The question is cut from its conditions ("if each box holds 6, how many ...?"), which are read with
the story. Its mode says what is asked of the amounts: what there is at the end or was at the
start, all together, the difference, a share of each, how many groups.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from narrate.reading.words import lexicon
from narrate.reading.words.asked import after_of, how, named_at, what
from narrate.reading.words.comparing import LONGER, MORE
from narrate.reading.words.lexicon import MODALS, NO_THING, UNITS, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.query import Query
from narrate.reading.words.things import low_at
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import verb_at
from narrate.reading.words.whom import PEOPLE

_MEASURES = word_set("long far tall heavy deep wide high old fast full")
_START = re.compile(
    r"\b(?:at first|beforehand|at the (?:start|beginning)|in the beginning|originally"
    r"|initially|before|(?:to |did .* )?(?:begin|start) with|to start)\b"
)
_END = re.compile(
    r"\b(?:left|remain\w*|still|now|remaining|in the end|at the end of (?:the )?\w+"
    r"|after (?:that|this)|afterwards?|unsold|then|stay(?:s|ed)?|kept|keep)\b"
)
_ALL = re.compile(r"\b(?:everything|both|altogether|total|together|combined|entire|all)\b")


_SHOWING = word_set("show shows showed tell tells told record records recorded")


def find_question(found: Sequence[Sequence[Token]]) -> tuple[int, int, int] | None:
    """The sentence that asks, the place in it where the question begins, and where it ends."""
    asking = [(n, at) for n, s in enumerate(found) if (at := _begins(s)) is not None]
    if len(asking) > 1:  # the table shows how much rain fell
        asking = [(n, at) for n, at in asking if not (at and found[n][at - 1].low in _SHOWING)]
    if len(asking) != 1:
        return None
    number, at = asking[0]
    sentence = found[number]
    end = next(
        (
            i
            for i in range(at + 2, len(sentence))
            if sentence[i].low in ("if", "when")
            or (sentence[i].low == "given" and low_at(sentence, i + 1) in _GIVEN)
            or (sentence[i].low == "," and _goes_on(sentence, i))
        ),
        len(sentence),
    )
    return number, at, end


_GIVEN = word_set("that the a an this these")


def _goes_on(sentence: Sequence[Token], at: int) -> bool:
    return at + 1 < len(sentence) and sentence[at + 1].low in ("if", "when", "given")


def _begins(sentence: Sequence[Token]) -> int | None:
    for at, token in enumerate(sentence):
        after = sentence[at + 1].low if at + 1 < len(sentence) else ""
        if token.low == "how" and after in _MEASURES | {"many", "much"}:
            return at
        if token.low == "what" and (
            after
            in (
                "is",
                "was",
                "are",
                "were",
                "fraction",
                "percent",
                "number",
                "will",
                "did",
                "does",
                "would",
                "part",
                "percentage",
                "length",
                "amount",
                "weight",
                "distance",
                "height",
            )
        ):
            return at
        if token.low in ("find", "calculate", "determine") and at == 0:
            return at
    return None


def read_question(tokens: Sequence[Token], who_was: dict[str, frozenset[str]]) -> Query | None:
    """The query of a question's tokens, None where its form is not known."""
    words = [t for t in tokens if t.kind != "p"]
    lows = [w.low for w in words]
    text = " ".join(lows)
    if len(words) < 2:
        return None
    if lows[:5] == ["what", "is", "the", "least", "number"] and {"needed", "need"} & set(lows):
        words = [replace(words[0], text="how"), replace(words[1], text="many"), *words[6:]]
        lows = [w.low for w in words]
        text = " ".join(lows)
    base = Query(
        kind="many",
        thing=(),
        words=frozenset(),
        text=text,
        start=tokens[0].start,
        end=tokens[-1].end,
        lows=tuple(lows),
        began=bool(_START.search(text)),
        ended=bool(_END.search(text)),
        total=bool(_ALL.search(text)),
    )
    rule = how if lows[0] == "how" else what
    query = rule(base, words)
    if query is None:
        return None
    if _asks_around(query):
        measure = tuple(word for word in query.thing if word in UNITS)
        query = replace(query, kind="perimeter", thing=measure)
    return _with_words(query, words, who_was)


_AROUND = re.compile(
    r"\b(?:around|round|enclose|surround|to fence) (?:it|(?:the|an?|this|that|its|his|her|their) "
    r"(?:(?:whole|entire|outside of the|edges? of the) )?\w+(?: \w+)?)(?: \d.*)?$"
)


def _asks_around(query: Query) -> bool:
    """Whether a question asks how long it is all the way around: how much fence goes around it?"""
    measured = query.kind in ("much", "long") or bool(UNITS.intersection(map(one, query.lows[2:3])))
    plain = not query.sign and not {"half", "halfway", "times", "cost"} & set(query.lows)
    return measured and plain and _AROUND.search(query.text) is not None


def _with_words(query: Query, words: Sequence[Token], who_was: dict[str, frozenset[str]]) -> Query:
    """The query with its verb, who it asks about, what it compares with, and what for each of."""
    lows = [w.low for w in words]
    than = lows.index("than") if "than" in lows else len(words)
    if "compared" in lows:
        than = min(than, lows.index("compared") + 1)
    body, rest = words[2:than], words[than + 1 :]
    acting = [w for i, w in enumerate(body) if verb_at(body, i) or _after_name(body, i)]
    shared = not acting and bool(rest)
    acting = acting or [w for i, w in enumerate(rest) if verb_at(rest, i)]
    named = lexicon.MODALS | {"left", "total"}
    done = (w for w in reversed(acting) if w.low not in named and w.lemma not in query.thing)
    verb = next((VERBS[w.low] for w in (*done, *_did_at_end(lows, body))), "")
    if not verb and query.kind == "much" and body and body[-1].low in ("cost", "weigh"):
        verb = body[-1].low
    verb = "receive" if _asks_given(lows) else verb
    verb = "cost" if query.kind == "much" and re.search(_COSTS_TO, query.text) else verb
    return replace(
        query,
        words=_lemmas(body, who_was) | ({verb} if verb == "receive" else set()),
        than=_lemmas(rest, who_was),
        per=_for_each(body),
        verb=verb,
        verb_sort=lexicon.CLASS_OF.get(verb, ""),
        needs=bool(_NEEDING & set(lows)) and query.sign > 0 and not rest,
        shared=shared,
        negative=any(low in ("not", "n't") or low.endswith("n't") for low in lows),
    )


def _did_at_end(lows: Sequence[str], body: Sequence[Token]) -> Sequence[Token]:
    """The last word where it is what was done, though it often names: what did the club plant?"""
    does = {"did", "does", "do"} & set(lows)
    return [w for w in body[-1:] if does and VERBS.get(w.low) == w.low and w.kind == "w"]


def _asks_given(lows: Sequence[str]) -> bool:
    """Whether it is asked what someone got: how many maps was the school sent?"""
    be = next((i for i, low in enumerate(lows) if low in ("was", "were")), len(lows))
    return len(lows) > be + len(("was", "it")) and lows[-1] in ("given", "sent", "lent", "paid")


_COSTS_TO = r"\bit cost (?:[a-z]+ )?to [a-z]+\b"
_NEEDING = word_set("need needs needed must require required")


def _after_name(words: Sequence[Token], place: int) -> bool:
    """Whether a word that can be a verb stands behind a name: how far did Ana run."""
    return place > 0 and words[place].low in VERBS and words[place - 1].text[:1].isupper()


def _for_each(body: Sequence[Token]) -> tuple[str, ...]:
    """The thing that a question asks for each of."""
    for at, word in enumerate(body[:-1]):
        before = body[at - 1].low if at else ""
        measured = body[at + 1].lemma in UNITS and before not in ("of", "in", "for", "to")
        single = before in ("in", "into", "on", "onto", "for", "does", "did", "is", "of")
        if word.low not in ("each", "every", "per", "one", "a"):
            continue
        if (word.low == "a" and not measured) or (word.low == "one" and not single):
            continue
        if body[at + 1].low == "of":
            return tuple(after_of(body, at + 2))
        if word.low == "each" and before in MODALS and at + 2 == len(body):
            return ()  # how many does each get?
        return named_at(body, at + 1)[0]
    return ()


_DROP = MODALS | word_set(
    "did do does many much more fewer less left total all altogether number either unsold unused "
    "still now yet each every one same"
)


def _lemmas(words: Sequence[Token], who_was: dict[str, frozenset[str]]) -> frozenset[str]:
    """The words that tell amounts apart, pronouns taken back, verbs by their plain form."""
    found: set[str] = set()
    for place, word in enumerate(words):
        kin = place + 1 < len(words) and words[place + 1].lemma in PEOPLE
        if kin and word.low in ("his", "her", "their"):
            continue  # his aunt is no one that "he" means
        if word.low in who_was:
            found |= who_was[word.low]
        elif word.kind != "w" or word.low in MORE or LONGER.fullmatch(word.low):
            continue
        elif word.low not in NO_THING | _DROP or word.low in _TELLING:
            acts = word.low in VERBS and verb_at(words, place) and word.lemma not in UNITS
            found.add(VERBS[word.low] if acts else word.lemma)
    return frozenset(found) - _NOTHING_TOLD


_TELLING = word_set("today yesterday first second")
_NOTHING_TOLD = word_set("be have begin start remain combine those that")
