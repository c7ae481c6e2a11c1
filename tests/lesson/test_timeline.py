"""Times: the letter model, the pace by grade, and that everything adds up (invariant 8)."""

from __future__ import annotations

import os
import shutil
import subprocess
import wave
from array import array
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence, Span
from narrate.lesson.timeline import (
    chapter_beats,
    chapter_spans,
    letters,
    pace,
    paced_words,
    pauses,
    predict,
    sentence_ms,
)

# Fifty lines of our own, as a teacher says them, about the garden and the kitchen.
LINES = """
Question one.
A rain barrel is three fourths full.
A shower adds another one fifth of the barrel.
What fraction of the barrel is full now?
Pause here and try it.
What are we looking for?
How full the barrel is after the rain.
The rain joins what's already there, so we add: three fourths plus one fifth.
How big should it be?
One fourth of the barrel is empty.
Fifths are smaller than fourths, so one fifth fits, with a little room left.
The answer is more than three fourths and less than one whole.
So A and D are out: both are less than three fourths.
But rain can't leave the barrel emptier.
We can't count fourths and fifths together yet.
The pieces have to be one size.
Multiples of five: five, ten, fifteen, twenty.
And of four: four, eight, twelve, sixteen, twenty.
Both can be cut into twentieths.
Cut each fourth into five equal parts.
Three pieces become fifteen, each a twentieth.
Same amount, smaller pieces.
One piece becomes four twentieths.
Fifteen pieces and four pieces make nineteen pieces.
They're still twentieths.
Nine tenths would be eighteen twentieths.
We have nineteen, so B is out.
Take the rain back out: nineteen twentieths minus four twentieths is fifteen twentieths.
That's three fourths, where we started.
The answer is C.
Make the pieces one size, then count them.
The first bed got two and one fifth kilograms of compost.
The second bed got seven tenths of a kilogram.
How many kilograms of compost were used on both beds?
There are three boxes, so we write a mixed number.
Twenty-nine tenths is two wholes and nine tenths.
The strip shows tenths, and tenths are what we need.
Shade twenty-two tenths for the first bed.
Shade on seven more for the second bed.
There's no box for a whole number, so seven fourths stays as it is.
Mira poured two thirds of a liter of soup into the pot.
She ladled out one fourth of a liter for tasting.
How much soup is left in the pot?
Taking some away leaves less than two thirds.
The denominator tells the size of a piece, and the size didn't change.
Regroup one whole as eight eighths.
Now there are eleven eighths to take from.
Seven eighths plus one half equals eleven eighths.
Does that make sense?
Yes: it's a little more than one whole.
""".strip().splitlines()

SENTENCES = st.builds(
    Sentence,
    say=st.text(alphabet="abcdefgh ,.;:?!-'", max_size=60),
    caption=st.just("x"),
    pause_ms=st.integers(0, 6_000),
    stem=st.booleans(),
)


def lesson(beats: list[tuple[Sentence, ...]], grade: int = 5) -> Lesson:
    told = tuple(
        Beat(id=f"b{number}", item=None, part=None, move="say", sentences=sentences)
        for number, sentences in enumerate(beats)
    )
    return Lesson(
        review="r", title="R", grade=grade, language="en", beats=told, pages=(), chapters=()
    )


def test_pace_by_grade() -> None:
    """Ceilings of listening advice by age, below 150 for adults (common practice, no source)."""
    assert [pace(grade) for grade in range(3, 9)] == [130, 130, 140, 140, 150, 150]


@pytest.mark.parametrize(
    ("say", "count"),
    [
        ("Multiples of five: five, ten, fifteen.", 3),
        ("It fits. So we add.", 1),
        ("It fits.", 0),
        ("“It fits.”", 0),
        ("Wait... what?", 1),
        ("", 0),
    ],
)
def test_pauses_inside_a_line(say: str, count: int) -> None:
    assert pauses(say) == count


def test_sentence_ms_is_the_published_formula() -> None:
    """seconds = 0.0772 × letters + 0.436 × pauses + 0.277 at 157 words a minute.

    Worked by hand: 19 letters and one pause are 1.4668 + 0.436 + 0.277 = 2.1798 s.
    """
    say = "So we add: one plus three"
    assert (letters(say), pauses(say)) == (19, 1)
    assert sentence_ms(say, 157) == 2_180
    assert sentence_ms(say, 314) == 1_090
    assert sentence_ms("", 157) == 0


def test_number_words_are_heard_as_two() -> None:
    assert paced_words("That's twenty-nine tenths - two and nine tenths.") == 8


def test_a_stem_is_read_a_tenth_slower() -> None:
    """At nine tenths of the pace: 140 words a minute become 126."""
    say = "A rain barrel is three fourths full."
    plain, stem = (Sentence(say=say, caption=say, stem=it) for it in (False, True))
    times = predict(lesson([(plain,), (stem,)])).sentences
    assert times["b0"][0].length == sentence_ms(say, 140)
    assert times["b1"][0].length == pytest.approx(sentence_ms(say, 126), abs=1)


def test_wpm_overrides_the_grade() -> None:
    say = "Make the pieces one size."
    one = lesson([(Sentence(say=say, caption=say, pause_ms=0),)])
    assert predict(one, 100).total_ms == sentence_ms(say, 100)
    assert predict(one).total_ms == sentence_ms(say, 140)


@given(st.lists(st.lists(SENTENCES, max_size=4).map(tuple), max_size=6), st.integers(80, 220))
def test_times_add_up(beats: list[tuple[Sentence, ...]], wpm: int) -> None:
    """Beats are contiguous from 0, hold their sentences in order, and sum to the total."""
    timeline = predict(lesson(beats), wpm)
    now = 0
    for name, span in timeline.beats.items():
        assert span.start == now
        sentences = beats[int(name[1:])]
        silence = sum(sentence.pause_ms for sentence in sentences)
        assert span.length == silence + sum(spoken.length for spoken in timeline.sentences[name])
        for spoken, sentence in zip(timeline.sentences[name], sentences, strict=True):
            assert now <= spoken.start <= spoken.end
            now = spoken.end + sentence.pause_ms
        assert now == span.end
    assert timeline.total_ms == now


def test_chapters_share_out_the_whole_review() -> None:
    say = (Sentence(say="Hello.", caption="Hello."),)
    base = lesson([say, say, say, say])
    chapters = tuple(
        Chapter(title=title, first_beat=f"b{at}") for title, at in (("A", 1), ("B", 3))
    )
    told = Lesson(
        review="r", title="R", grade=5, language="en", beats=base.beats, pages=(), chapters=chapters
    )
    groups = chapter_beats(told)
    assert [[beat.id for beat in beats] for _, beats in groups] == [["b0", "b1", "b2"], ["b3"]]
    timeline = predict(told)
    spans = [span for _, span in chapter_spans(told, timeline)]
    assert spans == [
        Span(0, timeline.beats["b3"].start),
        Span(timeline.beats["b3"].start, timeline.total_ms),
    ]


def test_predicted_times_against_a_voice(tmp_path: Path) -> None:
    """Against espeak-ng, a formant voice: mean error under 12% after one scale factor."""
    if shutil.which("espeak-ng") is None:
        assert not os.environ.get("CI"), "espeak-ng is not installed"
        pytest.skip("espeak-ng is not installed")
    assert len(LINES) == 50
    predicted = [sentence_ms(line, 157) for line in LINES]
    measured = [_spoken_ms(line, tmp_path / "line.wav") for line in LINES]
    scale = sum(measured) / sum(predicted)
    errors = [
        abs(scale * guess - real) / real for guess, real in zip(predicted, measured, strict=True)
    ]
    assert sum(errors) / len(errors) < 0.12
    assert 0.7 < scale < 1.3


def _spoken_ms(line: str, wav: Path) -> float:
    """How long the voice speaks, without the silence around it."""
    command = ["espeak-ng", "-v", "en-us", "-s", "140", "-w", str(wav), line]
    subprocess.run(command, check=True)
    with wave.open(str(wav)) as sound:
        samples = array("h", sound.readframes(sound.getnframes()))
        rate = sound.getframerate()
    loud: list[int] = [place for place, sample in enumerate(samples) if abs(sample) > 300]
    return 1_000 * (loud[-1] - loud[0]) / int(rate)
