"""Captions: the numbers of captioning guides, two outside parsers, and random sentences.

Limits: 32 characters a line wanted and 37 at most, 2 lines, 6 s, 17 characters a second (DCMP
Captioning Key; BBC Subtitle Guidelines; children's rate of streaming guides), shortest time and
gaps as in `_cues` (partly from memory, said there).
"""

from __future__ import annotations

import io
import re
from itertools import pairwise

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from narrate.lesson.lesson import Beat, Lesson, Sentence, Span, Timeline
from narrate.lesson.timeline import letters, predict
from narrate.outputs import USUAL, captions_srt, captions_vtt
from narrate.outputs._cues import Cue, make_cues
from narrate.outputs._words import Word, timed_words
from tests.outputs.samples_text import BEATS, LESSON, said
from tests.outputs.strict_webvtt import parse_strictly

TIMES = predict(LESSON)
CUES = make_cues(LESSON, TIMES)

SPOKEN = {
    "2": "two",
    "20": "twenty",
    "3/4": "three fourths",
    "15/20": "fifteen twentieths",
    "7/10": "seven tenths",
    "12/12": "twelve twelfths",
    "0.25": "zero point two five",
    "□/20": "blank over twenty",
}
NUMERALS = st.sampled_from(sorted(SPOKEN))
NOUNS = st.sampled_from(["cup", "parts", "kilograms", "twentieths", "barrel", "pieces"])
PLAIN = """
we add the amounts and then look for a common size because pieces differ when they are compared with
barrels, so everything has to be measured in equal parts of one whole
"""
SENTENCE_WORDS = st.sampled_from(PLAIN.split())


@st.composite
def counted(draw: st.DrawFn) -> tuple[str, str]:
    numeral, noun = draw(NUMERALS), draw(NOUNS)
    return f"{SPOKEN[numeral]} {noun}", f"{numeral} {noun}"


@st.composite
def equations(draw: st.DrawFn) -> tuple[str, str]:
    left, right, total = draw(NUMERALS), draw(NUMERALS), draw(NUMERALS)
    say = f"two and {SPOKEN[left]} plus {SPOKEN[right]} equals {SPOKEN[total]},"
    return say, f"2 {left} + {right} = {total},"


PIECES = st.one_of(SENTENCE_WORDS.map(lambda word: (word, word)), counted(), equations())


@st.composite
def sentences(draw: st.DrawFn) -> Sentence:
    pieces = draw(st.lists(PIECES, min_size=1, max_size=25))
    say, caption = (" ".join(way) + "." for way in zip(*pieces, strict=True))
    return Sentence(say=say, caption=caption, pause_ms=draw(st.integers(0, 5_000)))


def one_lesson(beats: list[list[Sentence]], grade: int = 5) -> Lesson:
    told = tuple(
        Beat(id=f"b{number}", item=None, part=None, move="say", sentences=tuple(own))
        for number, own in enumerate(beats)
    )
    return Lesson(
        review="r", title="R", grade=grade, language="en", beats=told, pages=(), chapters=()
    )


def vtt(lesson: Lesson = LESSON, timeline: Timeline = TIMES) -> str:
    sink = io.BytesIO()
    captions_vtt.write(lesson, timeline, USUAL, sink)
    return sink.getvalue().decode()


def srt(lesson: Lesson = LESSON, timeline: Timeline = TIMES) -> str:
    sink = io.BytesIO()
    captions_srt.write(lesson, timeline, USUAL, sink)
    return sink.getvalue().decode()


def lines_of(*own: Sentence) -> list[tuple[str, ...]]:
    lesson = one_lesson([list(own)])
    return [cue.lines for cue in make_cues(lesson, predict(lesson))]


def ms(seconds: float) -> int:
    return round(seconds * 1_000)


class TestFormats:
    def test_strict_parser_reads_every_cue(self) -> None:
        """The strict parser of npm finds no error and the times and words that were meant."""
        found = parse_strictly(vtt())
        assert [(ms(cue["startTime"]), ms(cue["endTime"])) for cue in found] == [
            (cue.start, cue.end) for cue in CUES
        ]
        assert "&amp;" in vtt()
        assert "&lt; 3/4" in vtt()

    def test_webvtt_py_reads_the_words_back(self) -> None:
        found = webvtt.from_string(vtt()).captions
        assert [tuple(cue.text.splitlines()) for cue in found] == [
            tuple(line.replace("&", "&amp;").replace("<", "&lt;") for line in cue.lines)
            for cue in CUES
        ]

    def test_srt_round_trip(self) -> None:
        """Read back as SubRip by webvtt-py: same words, same times."""
        found = webvtt.from_buffer(io.StringIO(srt()), format="srt").captions
        assert [(cue.start, cue.end, tuple(cue.text.splitlines())) for cue in found] == [
            (clock(cue.start), clock(cue.end), cue.lines) for cue in CUES
        ]

    def test_no_text_can_break_a_cue(self) -> None:
        """`-->`, blank lines, control characters and markup stay words (WebVTT, section 4.1)."""
        own = said("a to b.", "a --> b \x00\x07\ufffe <b>&\n\n1\n00:00:00.000 c.")
        lesson = one_lesson([[own]])
        timeline = predict(lesson)
        (cue,) = parse_strictly(vtt(lesson, timeline))
        assert " ".join(cue["text"].split()) == "a → b &lt;b&gt;&amp; 1 00:00:00.000 c."
        assert len(webvtt.from_buffer(io.StringIO(srt(lesson, timeline)), format="srt")) == 1

    def test_an_empty_lesson_is_a_whole_file(self) -> None:
        lesson = one_lesson([])
        assert parse_strictly(vtt(lesson, predict(lesson))) == []
        assert srt(lesson, predict(lesson)) == ""


def clock(at: int) -> str:
    return f"{at // 3_600_000:02}:{at // 60_000 % 60:02}:{at // 1_000 % 60:02}.{at % 1_000:03}"


class TestReading:
    @pytest.mark.parametrize("cue", CUES, ids=lambda cue: cue.text)
    def test_limits_of_the_guides(self, cue: Cue) -> None:
        assert len(cue.lines) <= 2
        assert all(len(line) <= 37 for line in cue.lines)
        assert cue.end - cue.start <= 6_000
        assert len(cue.text) / (cue.end - cue.start) * 1_000 <= 17
        assert cue.end - cue.start >= 1_500

    def test_nearly_all_lines_have_32_characters_at_most(self) -> None:
        long = [line for cue in CUES for line in cue.lines if len(line) > 32]
        assert len(long) / sum(len(cue.lines) for cue in CUES) < 0.1

    def test_nothing_is_left_out_or_added(self) -> None:
        """Captions carry the lesson's sentences, word for word (invariant 6)."""
        assert " ".join(cue.text for cue in CUES) == " ".join(beat.caption for beat in BEATS)

    def test_long_pauses_are_clear(self) -> None:
        """No caption stands through a pause of 1.5 s or more (BBC)."""
        for beat in BEATS:
            spoken = TIMES.sentences[beat.id]
            ends = [*(span.start for span in spoken[1:]), TIMES.beats[beat.id].end]
            for span, after in zip(spoken, ends, strict=True):
                if after - span.end >= 1_500:
                    middle = (span.end + after) // 2
                    assert not [cue for cue in CUES if cue.start <= middle <= cue.end]

    def test_a_cue_comes_with_its_words(self) -> None:
        """The first words of a sentence are never more than 0.1 s ahead of the voice."""
        starts = {span.start for spans in TIMES.sentences.values() for span in spans}
        shown = {cue.start for cue in CUES}
        assert CUES[0].start == 0
        late = [at for at in starts if not any(at - 100 <= start <= at for start in shown)]
        assert late == [TIMES.sentences["rain-barrel.1.read"][1].start]  # joined to "Question 1."


class TestTimesInsideASentence:
    """Each caption word is due when its spoken words are: by letters, mathematics as it is said."""

    def starts(self, say: str, caption: str) -> dict[str, int]:
        words = timed_words(said(say, caption), Span(0, letters(say) * 100))
        assert words[-1].end == letters(say) * 100
        return {word.text: word.start for word in words}

    def test_words_after_a_fraction_come_after_its_words(self) -> None:
        """ "Fifteen twentieths" has 7 + 10 letters."""
        starts = self.starts("Fifteen twentieths and more", "15/20 and more")
        assert starts == {"15/20": 0, "and": 1_700, "more": 2_000}

    def test_the_and_of_a_mixed_number_is_told_from_the_next(self) -> None:
        starts = self.starts("two and one fifth and seven tenths", "2 1/5 and 7/10")
        assert starts["and"] == 100 * letters("two and one fifth")

    def test_words_that_only_look_alike_do_not_anchor(self) -> None:
        starts = self.starts(
            "fifteen twentieths cup then two twentieths", "15/20 cup then 2 twentieths"
        )
        assert starts["cup"] == 100 * letters("fifteen twentieths")
        assert starts["twentieths"] == 100 * letters("fifteen twentieths cup then two")

    def test_a_sentence_without_a_caption_has_no_words(self) -> None:
        assert timed_words(said("Hm."), Span(0, 500))[0] == Word("Hm.", 0, 500)
        silent = Sentence(say="Hm.", caption="")
        assert timed_words(silent, Span(0, 500)) == ()


class TestFastVoices:
    """Times that were measured, not predicted: a quick voice leaves the reading behind."""

    SAY = said("The denominator tells how large a piece is, so it stays.")

    def cue(self, beat_ms: int, start: int, end: int) -> Cue:
        lesson = one_lesson([[self.SAY]])
        spans: dict[str, tuple[Span, ...]] = {"b0": (Span(start, end),)}
        (cue,) = make_cues(lesson, Timeline(beats={"b0": Span(0, beat_ms)}, sentences=spans))
        return cue

    def test_the_pause_after_it_is_used(self) -> None:
        """56 characters need 3.3 s at 17 a second; the voice takes 2."""
        cue = self.cue(10_000, 0, 2_000)
        assert len(cue.text) == 56
        assert cue == Cue(0, 3_295, cue.lines)

    def test_then_a_tenth_of_a_second_before_it(self) -> None:
        assert self.cue(3_000, 500, 2_500).start == 400
        assert self.cue(3_000, 500, 2_500).end == 2_920
        assert self.cue(3_000, 30, 2_500).start == 0


class TestBreaks:
    """Where lines break: logical pauses, and never inside what belongs together."""

    def test_before_a_relation_sign_when_an_equation_is_long(self) -> None:
        say = "two and three fourths plus one and five twelfths equals two and nine twelfths " * 2
        own = said(say, "2 3/4 + 1 5/12 = 2 9/12 + 1 5/12 = 3 14/12 = 4 2/12.")
        for cue in lines_of(own):
            for line in cue:
                assert not re.search(r"[=+−]$", line)
                assert not line.startswith("+")

    def test_at_an_operation_sign_only_where_a_side_is_too_long(self) -> None:
        own = said("many halves " * 9, "1/2 + 1/3 + 1/4 + 1/5 + 1/6 + 1/7 + 1/8 + 1/9 = □")
        lines = [line for cue in lines_of(own) for line in cue]
        assert any(line.startswith("+") for line in lines)
        assert not any(line.endswith("+") for line in lines)

    def test_after_a_comma(self) -> None:
        own = said("The rain joins what's already there, so we can add both of them now.")
        assert "The rain joins what's already there," in " ".join(lines_of(own)[0])
        assert lines_of(own)[0][-1].endswith((",", "."))

    def test_a_word_longer_than_a_line_is_cut(self) -> None:
        own = said("x" * 90)
        assert all(len(line) <= 37 for cue in lines_of(own) for line in cue)
        assert "".join(line for cue in lines_of(own) for line in cue) == "x" * 90


@given(st.lists(st.lists(sentences(), max_size=3), min_size=1, max_size=3), st.integers(3, 8))
def test_any_sentences_make_good_cues(beats: list[list[Sentence]], grade: int) -> None:
    """Limits, order, and nothing split, for sentences of any length with any pauses."""
    lesson = one_lesson(beats, grade)
    timeline = predict(lesson)
    cues = make_cues(lesson, timeline)
    assert " ".join(cue.text for cue in cues) == " ".join(b.caption for b in lesson.beats if b.say)
    for cue in cues:
        assert len(cue.lines) <= 2
        assert all(0 < len(line) <= 37 for line in cue.lines)
        assert 0 < cue.end - cue.start <= 6_000
        assert any(inside(cue, span) for span in timeline.beats.values())
    assert all(after.start - before.end >= 80 for before, after in pairwise(cues))
    lines = [line for cue in cues for line in cue.lines]
    assert not [(line, after) for line, after in pairwise(lines) if splits(line, after)]


def splits(line: str, after: str) -> bool:
    """Whether a break parts a numeral from what it counts, a mixed number, or a sum."""
    nouns = r"cup|parts|kilograms|twentieths|barrel|pieces"
    counts = re.search(r"(\d|□/20)$", line) and re.match(rf"({nouns})\b|\d+/\d+", after)
    return bool(counts or line.endswith(("+", "=")) or after.startswith("+"))


@given(st.lists(sentences(), min_size=1, max_size=3), st.integers(3, 8))
def test_a_fast_cue_takes_all_the_time_there_is(own: list[Sentence], grade: int) -> None:
    """Over 17 characters a second only where the next cue, or the end of the beat, is there."""
    lesson = one_lesson([own], grade)
    timeline = predict(lesson)
    cues = make_cues(lesson, timeline)
    ends = [*(cue.start for cue in cues[1:]), timeline.total_ms]
    for cue, end in zip(cues, ends, strict=True):
        if len(cue.text) * 1_000 > 17 * (cue.end - cue.start):
            assert cue.end == end - 80


def inside(cue: Cue, beat: Span) -> bool:
    return beat.start <= cue.start < cue.end <= beat.end
