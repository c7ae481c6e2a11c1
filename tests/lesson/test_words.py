"""The words of lessons: what templates hold, and what is said and captioned from them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
import textstat

from narrate.errors import ExactError
from narrate.exact import prose
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Mixed,
    Relation,
    Whole,
    WithRest,
    Writing,
    has_blank,
    value,
    walk,
)
from narrate.items.item import Item, Review
from narrate.lesson.lesson import Lesson, Sentence
from narrate.lesson.templates import builtin_folder
from narrate.lesson.view import Told
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from narrate.reading.saying import work_of
from narrate.solution.steps import Step
from narrate.solution.task import as_expr
from tests.generated import FORMS, loaded, made, made_with_numbers
from tests.lesson.told import (
    DEMO,
    KITCHEN,
    ToldPart,
    ToldReview,
    demo,
    generated,
    harvest,
    market,
    numbers,
    products,
    review_of,
    told_alone,
    work_asked,
)

ENGLISH = builtin_folder() / "en"
TEMPLATES = sorted(ENGLISH.rglob("*.j2"))
EVERY = [demo, generated, market, numbers, harvest, products, work_asked]
REVIEWS = pytest.mark.parametrize("review", EVERY, ids=lambda review: review.__name__)


def plain(path: Path) -> str:
    """A template's own words: what Jinja fills in, and the names of pauses, left out."""
    text = re.sub(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", "\x00", path.read_text("utf-8"), flags=re.S)
    return re.sub(r"<\w+>", " ", text)


def name(path: Path) -> str:
    return path.relative_to(ENGLISH).as_posix()


# -- what templates hold

_NUMBER_WORD = re.compile(
    r"\b(?:zero|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen"
    r"|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|thousand|million|dozen"
    r"|half|halves|thirds?|quarters?|(?:four|fif|six|seven|eigh|nin|ten|eleven|twelf)ths?"
    r"|\w+(?:teen|tie)ths?|hundredths?|thousandths?|twice|thrice|double|triple)\b",
    re.IGNORECASE,
)

_ALLOWED = (
    r"one size",  # the idea of the strand: pieces alike; no count of anything
    r"one whole",  # the unit that fractions are fractions of
    r"one fraction",  # a form of writing, against a mixed number
    r"one way\b",  # how a slip came about
    r"one of the",  # "one of the amounts": not which
    r"each one|the hardest one|one at a time",  # the questions of the review
    r"larger than one divides",  # the definition of simplest form speaks of the number one itself
    r"below zero",  # the sign of a computed total
    r"(?:from|at) zero",  # the point of the number line that distances are told from
)


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_templates_hold_no_numbers(path: Path) -> None:
    """Every number that is said is computed (first invariant of the design)."""
    text = plain(path)
    for phrase in _ALLOWED:
        text = re.sub(phrase, " ", text, flags=re.IGNORECASE)
    assert not re.search(r"\d", text)
    assert not _NUMBER_WORD.findall(text)


_AVOID = (
    # Karp, Bush & Dougherty 2014, "13 rules that expire" (abstract read; the list from memory)
    r"reduc(?:e|es|ed|ing)",
    r"borrow\w*",
    r"carry\w*|carries|carried",
    r"(?:goes|go|going) into\b(?! the)",
    r"out of\b(?! that)",
    r"plug\w*",
    r"cancel\w*",
    r"(?:top|bottom|upper|lower) numbers?",
    r"bigger numbers?|big numbers?",
    r"makes? (?:it )?bigger",
    r"key ?words?",
    r"butterfly",
    r"trick\w*",
    # filler and talk down, common practice, no source
    r"obviously|clearly|of course|easy|easily|simple|basically",
    r"wrong answers? because you",
)
_RULES_OF_A_WORD = r"(?:means|tells? (?:us|you) to|always) (?:add|subtract|multiply|divide)"
"""Powell & Fuchs 2018: key words lead to wrong operations."""

_NEEDS_EYES = (
    r"this one|that one|over (?:here|there)|right (?:here|there)|like (?:so|this)"
    r"|as you (?:can )?see|see here|look here|these ones|on the (?:left|right)"
    r"|the (?:blue|red|green|orange) \w+"
)
"""WCAG 2.2, 1.2.5 and 1.3.3: what is shown is named, not pointed at."""


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_templates_use_the_words_of_the_trade(path: Path) -> None:
    for pattern in (*_AVOID, _RULES_OF_A_WORD, _NEEDS_EYES):
        assert not re.search(rf"\b(?:{pattern})\b", plain(path), re.IGNORECASE), pattern


@pytest.mark.parametrize("text", ["Reduce it.", "We borrow one.", "Four goes into twelve."])
def test_a_word_to_avoid_would_be_found(text: str) -> None:
    assert any(re.search(rf"\b(?:{pattern})\b", text, re.IGNORECASE) for pattern in _AVOID)


_NO_CHOICE = {
    "asked/unknown.j2", "asked/condition.j2", "asked/tested-for.j2", "asked/named-as.j2",
    "rule-out/work-words.j2"
}  # fmt: skip
"""A macro that other templates use, not a move."""


@pytest.mark.parametrize("path", TEMPLATES, ids=name)
def test_every_move_has_three_wordings(path: Path) -> None:
    """Frames that pupils hold on to, short reasons and words on pages have one."""
    source = path.read_text("utf-8")
    if source.startswith("{# routine #}") or name(path) in _NO_CHOICE:
        return
    if path.parent.name in ("reason", "page"):
        return
    wordings = [w for w in re.split(r"^---\s*$", source, flags=re.M) if w.strip()]
    assert len(wordings) >= 3
    assert len(wordings) == len({" ".join(w.split()) for w in wordings})


# -- what is said


@cache
def is_routine(move: str) -> bool:
    """Whether a move is a frame that comes back on purpose."""
    source = (ENGLISH / f"{move.replace(' ', '-')}.j2").read_text("utf-8")
    return source.startswith("{# routine #}")


def varied(sentence: Sentence) -> bool:
    """Whether a sentence is said in a wording of a move, not in a frame."""
    move, _, _ = sentence.wording.rpartition("#")
    return bool(move) and not is_routine(move)


def own(part: ToldPart) -> list[Sentence]:
    """Narration without the frames."""
    return [sentence for sentence in part.narration if varied(sentence)]


@REVIEWS
def test_no_sentence_comes_twice_in_neighbouring_parts(review: object) -> None:
    before: list[str] = []
    for part in told(review).parts:
        here = [sentence.say for sentence in own(part)]
        assert not [say for say, times in Counter(here).items() if times > 1], part.name
        assert not set(here) & set(before), part.name
        before = here


def told(review: object) -> ToldReview:
    assert callable(review)
    found = review()
    assert isinstance(found, ToldReview)
    return found


def words(say: str) -> int:
    return len(say.split())


@REVIEWS
def test_half_of_the_sentences_have_eight_to_fourteen_words(review: object) -> None:
    """With the frames, which are short on purpose, and without them."""
    every = [words(s.say) for part in told(review).parts for s in part.narration]
    without = [words(s.say) for part in told(review).parts for s in own(part)]
    for lengths in (every, without):
        assert sum(8 <= length <= 14 for length in lengths) * 2 >= len(lengths)


MOST_WORDS = 25


@REVIEWS
def test_no_sentence_has_more_than_25_words(review: object) -> None:
    """Denominators in the hundreds too; only the item's own sentences may be longer."""
    longest = max((s.say for part in told(review).parts for s in part.narration), key=words)
    assert words(longest) <= MOST_WORDS, longest


@REVIEWS
def test_sentences_are_whole_and_spoken_in_words(review: object) -> None:
    for beat in told(review).lesson.beats:
        for sentence in beat.sentences:
            assert re.match(r"[“\"]?[A-Z]", sentence.say), sentence.say
            assert sentence.say.rstrip('”"’)').endswith((".", "?", "!", ":")), sentence.say
            assert not re.search(r"\d", sentence.say), sentence.say
            assert not re.search(r"[\uE000-\uF8FF]", sentence.say + sentence.caption)
            assert "  " not in sentence.say
            assert not re.search(r"\s[.,:;?!]", sentence.say), sentence.say


@REVIEWS
def test_one_is_not_spoken_of_as_many(review: object) -> None:
    """Agreement of number, where a computed count stands before a noun or a verb."""
    wrong = re.compile(
        r"\b(?:and one (?:stay|are|pieces)\b|(?<![\w-])(?<!hundred )one (?:pieces|parts|wholes)\b"
        r"|[a-z]+-one more make\b|\bone more make\b|wholes (?:is|stays)\b|pieces (?:is|isn't)\b)"
    )
    for part in told(review).parts:
        for sentence in part.narration:
            assert not wrong.search(sentence.say.lower()), sentence.say


# -- say and caption come from one tree


@REVIEWS
def test_captions_say_what_the_voice_says(review: object) -> None:
    """A caption read aloud by the reader of items' own words gives the spoken sentence."""
    for part in told(review).parts:
        for sentence in part.narration:
            if any(isinstance(n, Blank) for t in trees(sentence.caption) for n in walk(t)):
                continue  # a blank is read as printed in an item and by what it asks in the work
            spoken = prose.say_prose(sentence.caption)
            assert spoken[:1].upper() + spoken[1:] == sentence.say


def trees(text: str) -> Iterator[Writing]:
    for piece in prose.pieces(text):
        if not isinstance(piece, str):
            yield piece


# -- every number is from the item or the solution


@REVIEWS
def test_every_number_comes_from_the_item_or_the_solution(review: object) -> None:
    for part in told(review).parts:
        allowed = set(_allowed(part))
        for sentence in part.narration:
            said = set(_values(trees(sentence.caption)))
            assert said <= allowed, (part.name, sentence.caption, said - allowed)


_BENCHMARKS = (Whole(0), Frac(1, 2), Whole(1))


def _allowed(part: ToldPart) -> Iterator[Fraction]:
    item, asked, solution = part.solved.item, part.solved.part, part.solved.solution
    stimulus = item.stimulus.text if item.stimulus else ""
    yield from _values(_BENCHMARKS)
    yield from _values(trees(f"{stimulus} {asked.ask}"))
    yield from _values(c.tree for c in asked.choices if c.tree is not None)
    if item.stimulus and item.stimulus.diagram:
        yield from (Fraction(item.stimulus.diagram.wholes), Fraction(item.stimulus.diagram.parts))
    sizes = [size for step in solution.steps for size in _sizes(step)]
    for step in solution.steps:
        yield from _of_step(step)
        if step.line is not None:  # a line of work counted in its pieces
            counts = [amount * size for amount in _values([step.line]) for size in sizes]
            yield from counts
            yield from (count % size for count in counts for size in sizes)  # beside its wholes
    works = (work_of(c.tree) for c in asked.choices if isinstance(c.tree, Relation))
    yield from _values(work for work in works if work is not None)  # what its unknown is
    for choice in asked.choices:  # a choice counted in pieces of the work's size
        if choice.tree is not None and not isinstance(choice.tree, Relation):
            yield from (amount * size for amount in _values([choice.tree]) for size in sizes)
            if not has_blank(choice.tree):
                yield from _values([as_expr(value(choice.tree))])


def _sizes(step: Step) -> Iterator[int]:
    size = step.details.get("size")
    if isinstance(size, int):
        yield size
    yield from (int(fact.args[1]) for fact in step.facts if fact.name == "makes")


def _of_step(step: Step) -> Iterator[Fraction]:
    lines = [tree for tree in (step.line, step.shown) if tree is not None]
    yield from _values(lines)
    yield from _of_detail(tuple(step.details.values()))
    yield from (Fraction(number) for listed in step.lists for number in listed.values)
    yield from (Fraction(arg) for fact in step.facts for arg in fact.args if arg in _exact(arg))


def _exact(arg: object) -> tuple[object, ...]:
    return (arg,) if isinstance(arg, Fraction | int) else ()


def _of_detail(detail: object) -> Iterator[Fraction]:
    if isinstance(detail, tuple):
        for inner in detail:
            yield from _of_detail(inner)
    elif isinstance(detail, int):
        yield Fraction(detail)
    elif not isinstance(detail, str):
        yield from _values([detail])  # type: ignore[list-item]


def _values(found: Iterable[Writing]) -> Iterator[Fraction]:
    """The values of all numbers and expressions in some trees, and the parts of fractions."""
    for tree in found:
        for node in walk(tree):
            yield from _parts(node)


def _parts(node: Writing) -> Iterator[Fraction]:
    match node:
        case Frac(numerator, denominator):
            yield from (Fraction(numerator), Fraction(denominator))
        case WithRest(quotient, rest, _):
            yield from (Fraction(quotient), Fraction(rest))
        case Mixed(whole, numerator, denominator):
            yield from (Fraction(whole), Fraction(numerator), Fraction(denominator))
        case Relation():
            return
        case Whole() | _:
            pass
    yield from _value(node)


def _value(node: Expr) -> Iterator[Fraction]:
    try:
        yield abs(value(node))
    except ExactError:
        return


# -- whole reviews


def retold(items: Iterable[Item]) -> Lesson:
    """A review told."""
    review = Review(id="g", title="G", grade=5, language="en", items=tuple(items))
    lesson, *_ = make_lesson(review, Words("en"))
    assert lesson is not None
    return lesson


@cache
def reviews_of_20() -> list[tuple[Item, ...]]:
    """The demo, and 200 generated items as ten reviews."""
    made_up = tuple(item for item, _ in loaded(made(200, seed=5)))
    return [review_of(DEMO).items, *(made_up[at : at + 20] for at in range(0, 200, 20))]


@cache
def reviews_of_one_form() -> dict[str, list[Item]]:
    """Twenty generated items of each form: what repeats most."""
    found: dict[str, list[Item]] = {}
    for item, each in loaded(made(20 * len(FORMS), seed=3)):
        found.setdefault(each.form, []).append(item)
    return found


@pytest.mark.parametrize("place", range(11))
def test_a_rebuild_says_the_same(place: int) -> None:
    items = reviews_of_20()[place]
    assert retold(items) == retold(items)


MOST_USES = 3
"""So often a wording is said in a review of 20 items; frames apart."""


def said_in(told: tuple[Told, ...]) -> Counter[str]:
    """How often each wording is said in a part."""
    beats = ([s.wording for s in each.beat.sentences if varied(s)] for each in told)
    return Counter(wording for beat in beats for wording in dict.fromkeys(beat))


def check_wordings(parts: Iterable[tuple[Told, ...]]) -> None:
    """None more than three times, none twice in a part nor in two that follow each other."""
    counts = [said_in(told) for told in parts]
    assert all(times == 1 for here in counts for times in here.values())
    for before, here in pairwise(counts):
        assert not set(before) & set(here)
    used = sum(counts, Counter[str]())
    assert {wording for wording, times in used.items() if times > MOST_USES} == set()


@pytest.mark.parametrize("place", range(11))
def test_no_wording_is_said_often_or_soon_again(place: int) -> None:
    check_wordings(told for _, told in told_alone(reviews_of_20()[place]))


@pytest.mark.parametrize("form", FORMS)
def test_nor_in_twenty_items_of_one_form(form: str) -> None:
    check_wordings(told for _, told in told_alone(reviews_of_one_form()[form]))


@pytest.mark.parametrize("path", KITCHEN, ids=lambda path: path.stem)
def test_nor_in_the_reviews_of_a_kitchen_week(path: Path) -> None:
    check_wordings(told for _, told in told_alone(review_of(path).items))


@pytest.mark.parametrize("place", range(7))
def test_nor_in_reviews_with_numbers(place: int) -> None:
    check_wordings(told for _, told in told_alone(reviews_with_numbers()[place]))


def test_nor_in_twenty_items_that_ask_for_work() -> None:
    solved = dict.fromkeys(part.solved.item for part in work_asked().parts)
    check_wordings(told for _, told in told_alone(solved))


@cache
def reviews_with_numbers() -> list[tuple[Item, ...]]:
    """The second demo, and 120 generated items as six reviews of 20."""
    made_up = tuple(item for item, _ in loaded(made_with_numbers(120, seed=5)))
    market_items = review_of(DEMO.with_name("kitchen-market.yaml")).items
    return [market_items, *(made_up[at : at + 20] for at in range(0, 120, 20))]


ROUTINES = """
asked-question asked/bare catch-up-greeting choose choose-all closing condition/improper
condition/mixed condition/simplest counts define/common-denominator define/denominator
define/greatest-common-factor define/improper-fraction define/least-common-multiple define/median
define/mixed-number define/multiples define/numerator define/product define/quotient
define/reciprocal define/regroup define/remainder define/simplest-form define/square-root
estimate-question
fit-the-boxes/fraction fit-the-boxes/mixed fit-the-boxes/number greeting label multiples-of
multiples-of/on rewrite/and-next rewrite/next set-up/bare strip-given try
"""


def test_frames_are_few_and_named() -> None:
    """What makes a frame is in DEVELOPERS.md: a fixed place, a fixed job, and no reason in it."""
    found = {name(p).removesuffix(".j2") for p in TEMPLATES if is_routine(name(p)[:-3])}
    assert found == set(ROUTINES.split())


# -- reading level, and nothing that needs eyes


@pytest.mark.parametrize("place", range(11))
def test_the_words_are_no_harder_than_a_grade_above_the_reviews(place: int) -> None:
    """Flesch-Kincaid grade (Kincaid et al. 1975) by textstat, without the items' own words."""
    lesson = retold(reviews_of_20()[place])
    narration = " ".join(s.say for b in lesson.beats for s in b.sentences if not s.stem)
    assert textstat.flesch_kincaid_grade(narration) <= lesson.grade + 1


def test_hard_words_would_be_found() -> None:
    hard = "Subsequently the equivalent representation necessitates considerable justification."
    assert textstat.flesch_kincaid_grade(hard) > 6


@REVIEWS
def test_narration_names_what_is_shown(review: object) -> None:
    """WCAG 2.2, 1.2.5 and 1.3.3: what is said can be followed without seeing the page."""
    for part in told(review).parts:
        for sentence in part.narration:
            assert not re.search(rf"\b(?:{_NEEDS_EYES})\b", sentence.say, re.IGNORECASE)
