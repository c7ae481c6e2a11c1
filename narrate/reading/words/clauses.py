"""Sentences cut into clauses: who, which verb, and the stretches of words around it.

A clause has one main verb. A stretch between commas and linking words that has none belongs to the
clause before it ("3 red apples and 2 green apples"), or to the one behind it ("In a school, there
are ..."). Pronouns are taken back to who was spoken of last.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from narrate.reading.words import lexicon
from narrate.reading.words.lexicon import CLASS_OF, NO_THING
from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token
from narrate.reading.words.verbs import BE, HAVE, main_verb, verb_at

_CUTS = word_set(
    ", ; : and but or while if when because since so then who which that where whereas "
    "although though"
)
_MAYBE_CUTS = word_set("after before until")
_ASKS = re.compile(r"^(?:how|what|which|who|find|calculate|determine)$", re.IGNORECASE)


@dataclass(slots=True)
class Clause:
    """One main verb with its subject; `stretches` are runs of tokens, the verb's own first.

    `who` are the words of the subject (pronouns taken back), `base` its verb, `sort` what the verb
    does, `link` the word that began the clause ("said" where "that" or "which" takes up what was
    said before), `passive`: what it names was acted upon.
    """

    sentence: int
    stretches: list[Sequence[Token]]
    subject: Sequence[Token] = ()
    verb: int = -1
    base: str = ""
    sort: str = ""
    link: str = ""
    passive: bool = False
    carried: str = ""
    negative: bool = False
    who: frozenset[str] = field(default_factory=frozenset)

    @property
    def tokens(self) -> list[Token]:
        """All its tokens, in order."""
        return sorted((t for s in self.stretches for t in s), key=lambda t: t.start)

    @property
    def lows(self) -> frozenset[str]:
        """All its words in small letters."""
        return frozenset(t.low for s in self.stretches for t in s)


def sentences(tokens: Sequence[Token]) -> list[list[Token]]:
    """The tokens cut at marks that end a sentence, and where a question runs on without one."""
    found: list[list[Token]] = [[]]
    for place, token in enumerate(tokens):
        after = tokens[place + 1] if place + 1 < len(tokens) else None
        runs_on = token.text in ("How", "What") and found[-1] and token.kind == "w"
        if runs_on:
            found.append([])
        found[-1].append(token)
        if token.kind == "p" and token.text in ".?!;" and not _is_title(found[-1], after):
            found.append([])
    return [sentence for sentence in found if any(t.kind in "wn" for t in sentence)]


def _is_title(sentence: Sequence[Token], after: Token | None) -> bool:
    before = sentence[-2].text if len(sentence) > 1 else ""
    short = before in (
        "Mr",
        "Mrs",
        "Ms",
        "Dr",
        "St",
        "oz",
        "in",
        "ft",
        "lb",
        "a.m",
        "p.m",
        "yd",
        "min",
    )
    titled = before in ("Mr", "Mrs", "Ms", "Dr", "St")
    return titled or (short and after is not None and after.text[:1].islower())


def is_question(sentence: Sequence[Token]) -> bool:
    """Whether a sentence asks."""
    return sentence[-1].text == "?" or any(
        t.low == "how"
        and i + 1 < len(sentence)
        and sentence[i + 1].low in ("many", "much", "long", "far")
        for i, t in enumerate(sentence)
    )


# -- verbs


# -- clauses


def clauses(number: int, sentence: Sequence[Token]) -> list[Clause]:
    """The clauses of one sentence."""
    found: list[Clause] = []
    waiting: list[Sequence[Token]] = []
    timed: list[Sequence[Token]] = []
    for link, words in _run_on(_stretches(sentence)):
        verb = main_verb(words) or _unknown_verb(words) or _then_left(link, words)
        if verb is not None and found and _only_what_for(words, verb[0]):
            verb = None
        if verb is None and not waiting and (short := _without_verb(number, words, found[-1:])):
            found.append(short)
            continue
        if verb is None:
            same = found and not waiting and link not in ("if", "when")
            (found[-1].stretches if same else waiting).append(words)
            timed += [words] if link in ("after", "before") and not same else []
            continue
        clause = _with_verb(number, link, words, verb)
        if waiting and [w.low for w in words[1:2]] == ["more"] and any(map(_has_number, waiting)):
            found.append(Clause(sentence=number, stretches=waiting, sort="be"))
            waiting = []
        joined = bool(waiting) and link == "and" and all(_only_names(w) for w in waiting)
        clause.subject = [
            *(w for s in waiting if joined or not (_is_aside(s) or s in timed) for w in s),
            *_subject(words, clause.verb),
        ]
        clause.stretches += waiting
        waiting = []
        found.append(clause)
    if waiting and found:
        found[-1].stretches += waiting
    elif waiting:
        found.append(Clause(sentence=number, stretches=waiting, sort="be"))
    return found


def _owner_before_number(words: Sequence[Token]) -> Sequence[Token]:
    """Who or what a stretch without a verb begins with, right before its number: Ana 5."""
    at = next((i for i, w in enumerate(words) if w.kind == "n"), 0)
    before = words[1:at] if words[0].low in lexicon.DETERMINERS else words[:at]
    named = before and all(w.kind == "w" and w.low not in NO_THING | {"now"} for w in before)
    return words[:at] if named and words[at].sort != "percent" else ()


def _goes_on_without_verb(clause: Clause, owner: Sequence[Token]) -> bool:
    """Whether a stretch says of another what the clause before it says: and Ben 3."""
    person = owner[0].text[:1].isupper() and clause.subject[:1]
    alike = bool(person) and clause.subject[0].text[:1].isupper()
    known = owner[0].low in ("the", "a", "his", "her") and len(owner) > 1
    return (alike or known or not clause.base) and any(map(_has_number, clause.stretches))


def _without_verb(number: int, words: Sequence[Token], before: Sequence[Clause]) -> Clause | None:
    """A clause without a verb: it is so, or it is as in the clause before; None for others."""
    owner = _owner_before_number(words)
    if not owner or not all(_goes_on_without_verb(like, owner) for like in before):
        return None
    clause = Clause(sentence=number, stretches=[words], subject=owner, sort="be")
    for like in before:
        clause.base, clause.sort = like.base, like.sort if like.base else "be"
    return clause


def _with_verb(
    number: int, link: str, words: Sequence[Token], verb: tuple[int, str, bool, str]
) -> Clause:
    place, base, passive, carried = verb
    if _ends_with(words, place, base, link=link):
        base = "have"
    if base == "carry" and {"out", "away", "off"} & {w.low for w in words[place + 1 : place + 2]}:
        base = "take"
    if passive and any(w.low == "still" for w in words[:place]):
        base, passive = "be", False  # were still stacked in the kitchen
    if passive and base in _GIVING and _is_given(words, place):
        base, passive = "receive", False
    return Clause(
        sentence=number,
        stretches=[words],
        verb=place,
        base=base,
        sort=CLASS_OF.get(base, "do"),
        link=link,
        passive=passive,
        carried=carried,
        negative=any(w.low in ("not", "n't") or w.low.endswith("n't") for w in words),
    )


_COMES = word_set("come go leave return walk arrive drive get start begin set end finish")


def _ends_with(words: Sequence[Token], verb: int, base: str, *, link: str) -> bool:
    """Whether a verb says what someone has then: came home with $11, leaving 3, that left 47."""
    behind = words[verb + 1 :]
    counted = next((i for i, w in enumerate(behind) if w.kind == "n"), None)
    if counted is None:
        return False
    if base == "leave" and counted == 0:
        bare = verb == 0 and words[0].low == "leaving"
        that = verb == 1 and words[0].low in ("that", "this", "which")
        return bare or that or (verb == 0 and link in ("which", "that", "said"))
    there = base in ("start", "begin", "end", "finish") or counted > 1
    return base in _COMES and behind[counted - 1].low == "with" and there


_GIVING = word_set("give send lend hand pay award")


def _is_given(words: Sequence[Token], verb: int) -> bool:
    """Whether who is named gets an amount: Jan was given $20, the school was sent 3 more maps."""
    behind = words[verb + 1 : verb + 3]
    at = next((i for i, w in enumerate(behind) if w.kind == "n" or w.low == "some"), None)
    named = any(w.kind == "w" and w.low not in BE | lexicon.ADVERBS for w in words[:verb])
    counted = any(w.kind == "n" for w in words[:verb])
    return at is not None and named and not counted and behind[0].low not in lexicon.PREPOSITIONS


def _only_what_for(words: Sequence[Token], verb: int) -> bool:
    """Whether a verb behind an amount says what for: and 0.9 meter to tie a stake."""
    return words[0].kind == "n" and verb > 1 and words[verb - 1].low == "to"


def _unknown_verb(words: Sequence[Token]) -> tuple[int, str, bool, str] | None:
    """A verb that is in no table, behind who does it: he skipped 3 of them, the hens pecked 9."""
    doer = len(words) > 2 and (words[0].low in _SUBJECT_PRONOUNS or words[0].text[:1].isupper())
    done = doer and words[0].kind == "w" and len(words[1].low) > 4 and words[1].low.endswith("ed")
    if done and words[1].low not in NO_THING:
        return 1, words[1].low, False, ""
    at = next((i for i, w in enumerate(words) if w.low.endswith("ed") and i > 1), 0)
    named = at and words[0].low in ("the", "her", "his", "their") and at + 1 < len(words)
    counted = named and words[at + 1].kind == "n" and all(w.kind == "w" for w in words[:at])
    plain = counted and all(w.low not in NO_THING for w in words[1 : at + 1])
    return (at, words[at].low, False, "") if plain else None  # the rabbits nibbled 18


def _then_left(link: str, words: Sequence[Token]) -> tuple[int, str, bool, str] | None:
    """The verb of those who went away then: then 6 children left."""
    went = link == "then" and words[0].kind == "n" and len(words) < 5 and words[-1].low == "left"
    return (len(words) - 1, "leave", False, "") if went and len(words) > 1 else None


def _has_number(words: Sequence[Token]) -> bool:
    return any(w.kind == "n" for w in words)


def _only_names(words: Sequence[Token]) -> bool:
    return all(w.kind == "w" and w.low not in lexicon.PREPOSITIONS for w in words)


def _is_aside(words: Sequence[Token]) -> bool:
    return bool(words) and (
        words[0].low in lexicon.PREPOSITIONS | lexicon.ADVERBS or any(w.kind == "n" for w in words)
    )


def _stretches(sentence: Sequence[Token]) -> Iterator[tuple[str, Sequence[Token]]]:
    """The runs of tokens between commas and linking words, each with the word before it."""
    link = ""
    run: list[Token] = []
    for place, token in enumerate(sentence):
        cut = token.low in _CUTS and not _is_part_of_that(sentence, place)
        cut = cut or _takes_up(sentence, place)
        if token.low in _MAYBE_CUTS:
            cut = any(verb_at(sentence, i) for i in range(place + 1, min(place + 7, len(sentence))))
            cut = cut or _unknown_verb(sentence[place + 1 :]) is not None
        if cut or (token.kind == "p" and token.text in '.?!()"'):
            if run:
                yield link, run
            if token.low in ("that", "which", "this") and not run:
                link = "said"
            elif run or token.low != ",":
                link = token.low
            run = []
            continue
        if token.kind != "p":
            run.append(token)
    if run:
        yield link, run


def _takes_up(sentence: Sequence[Token], place: int) -> bool:
    """Whether "this" opens a sentence that holds what was said against another amount."""
    opens = place == 0 and [t.low for t in sentence[:2]] in (["this", "is"], ["this", "was"])
    return opens and bool({"than", "times", "twice"} & {t.low for t in sentence})


def _run_on(
    stretches: Iterator[tuple[str, Sequence[Token]]],
) -> Iterator[tuple[str, Sequence[Token]]]:
    """The stretches with those cut in two that run on: "is 48 pages long the second is 11"."""
    for link, words in stretches:
        while (cut := _second_clause(words)) is not None:
            yield link, words[:cut]
            link, words = "", words[cut:]
        yield link, words


def _second_clause(words: Sequence[Token]) -> int | None:
    """Where a second subject with a verb of its own begins behind a number."""
    main = main_verb(words)
    if main is None:
        return None
    if not any(w.kind == "n" for w in words):
        return None
    for verb in range(main[0] + 3, len(words)):
        finite = words[verb].low in lexicon.PAST | {"is", "has", "are"} and verb_at(words, verb)
        if not finite or words[verb - 1].low in ("to", "who", "that", "which"):
            continue
        for start in range(verb - 1, main[0] + 1, -1):
            if words[start].kind == "n" or words[start].low in (
                "the",
                "his",
                "her",
                "he",
                "she",
                "they",
                "it",
            ):
                plain = (
                    words[start - 1].kind == "w"
                    and words[start - 1].low not in lexicon.PREPOSITIONS | lexicon.DETERMINERS
                )
                return start if plain else None
    return None


def _is_part_of_that(sentence: Sequence[Token], place: int) -> bool:
    """Whether "that" points at a thing ("than those that", "in that city") or "so" counts."""
    token, before = sentence[place], sentence[place - 1].low if place else ""
    after = sentence[place + 1].low if place + 1 < len(sentence) else ""
    if token.low == "that":
        return before in lexicon.PREPOSITIONS | {"times", "than"} or after in (
            "day",
            "amount",
            "number",
        )
    return (token.low == "so" and after == "far") or (token.low == "since" and False)


def _subject(words: Sequence[Token], verb: int) -> Sequence[Token]:
    """What stands before the verb, without a phrase of place or time at its start."""
    for place in range(verb):
        if words[place].low in _SUBJECT_PRONOUNS and (
            place == 0 or words[place - 1].low not in lexicon.PREPOSITIONS
        ):
            return [words[place]]
    start = 0
    timed = len(words) > 2 and words[0].low in _EVERY and words[1].lemma in _PERIODS
    if timed and not (words[0].low == "the" and _names_on(words[2])):
        start = 2
    before = [
        w for w in words[start:verb] if w.low not in BE | HAVE | lexicon.MODALS | _BESIDE_VERB
    ]
    if before and before[0].low in lexicon.PREPOSITIONS:
        for place in range(2, len(before)):
            word = before[place]
            if (
                word.low in lexicon.PRONOUNS | {"some"}
                or word.kind == "n"
                or (word.low == "the" and before[place - 1].low in lexicon.DATES)
                or (
                    word.text[:1].isupper()
                    and before[place - 1].kind == "w"
                    and (
                        not before[place - 1].text[:1].isupper()
                        or before[place - 1].low in lexicon.DATES
                    )
                    and before[place - 1].low not in lexicon.DETERMINERS | lexicon.PREPOSITIONS
                )
            ):
                return before[place:]
        return []
    return before


def _names_on(word: Token) -> bool:
    """Whether a word goes on with a name that a time of day begins: the morning class."""
    return word.kind == "w" and word.text.islower() and word.low not in lexicon.NAMES_NOTHING


_BESIDE_VERB = word_set("not also then there already still now only just")
_SUBJECT_PRONOUNS = word_set("he she they we i it you")
_EVERY = word_set("every each last this next that one the")
_PERIODS = word_set("day week month year morning evening afternoon night hour")


# -- who is spoken of
