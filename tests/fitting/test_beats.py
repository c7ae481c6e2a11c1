"""Timelines from noted beats: what was noted is kept, the rest is filled in, all adds up."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from narrate.fitting import pace, table
from narrate.fitting.fitted import Fitted, from_beats, from_lines, only, splice
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.timeline import predict
from narrate.outputs._cues import make_cues
from tests.fitting.lessons import demo, made, said

WORDS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
SENTENCES = st.builds(
    lambda count, pause: said(" ".join(WORDS[:count]) + ".", pause),
    st.integers(1, 10),
    st.sampled_from([250, 500, 1_000, 3_000, 5_000]),
)
LESSONS = st.lists(st.lists(SENTENCES, min_size=1, max_size=4).map(tuple), min_size=1, max_size=7)


def assert_adds_up(lesson: Lesson, timeline: Timeline) -> None:
    """Invariant 8: contiguous beats in whole ms from 0, lines inside, captions inside, in order."""
    now = 0
    for beat in lesson.beats:
        span = timeline.beats[beat.id]
        assert span.start == now <= span.end
        now = span.end
        spans = timeline.sentences[beat.id]
        assert len(spans) == len(beat.sentences)
        edges = [span.start, *(edge for one in spans for edge in (one.start, one.end)), span.end]
        assert all(isinstance(edge, int) for edge in edges)
        assert edges == sorted(edges)
    assert timeline.total_ms == now
    cues = make_cues(lesson, timeline)
    assert all(before.end <= after.start for before, after in pairwise(cues))
    beats = list(timeline.beats.values())
    for cue in cues:
        assert cue.start < cue.end
        assert any(beat.start <= cue.start and cue.end <= beat.end for beat in beats)


def test_noted_beats_get_their_times() -> None:
    lesson = made(*[(said("We add the two amounts now."),)] * 3)
    noted = {"b0": Span(0, 4_000), "b1": Span(4_000, 7_500), "b2": Span(7_500, 11_000)}
    timeline, notes = from_beats(lesson, noted, predict(lesson))
    assert timeline.beats == noted
    assert notes == ()


def test_pauses_inside_are_kept_and_speech_is_scaled() -> None:
    """Two lines of one length, pauses of 1 s: of 8 s they take 6, so 3 s each."""
    lesson = made((said("We add them.", 1_000), said("We add them.", 1_000)))
    usual = predict(lesson, 60)
    assert usual.sentences["b0"][0].length > 2_500
    timeline, _ = from_beats(lesson, {"b0": Span(0, 8_000)}, usual)
    assert timeline.sentences["b0"] == (Span(0, 3_000), Span(4_000, 7_000))


def test_a_long_wait_is_no_slow_speech() -> None:
    """A minute where 5 s were planned: the words end soon, the rest is silence."""
    lesson = made((said("Pause here and try it.", 5_000),))
    usual = predict(lesson)
    timeline, _ = from_beats(lesson, {"b0": Span(0, 60_000)}, usual)
    assert timeline.sentences["b0"][0].length <= usual.sentences["b0"][0].length * 3 // 2


def test_a_beat_not_noted_fills_the_time_between_its_neighbours() -> None:
    lesson = made(*[(said("We add the two amounts now."),)] * 3)
    noted = {"b0": Span(0, 4_000), "b2": Span(6_900, 11_000)}
    timeline, _ = from_beats(lesson, noted, predict(lesson))
    assert timeline.beats == {**noted, "b1": Span(4_000, 6_900)}


def test_without_time_between_it_keeps_its_planned_length() -> None:
    lesson = made(*[(said("We add the two amounts now."),)] * 3)
    usual = predict(lesson, 100)
    noted = {"b0": Span(0, 4_000), "b2": Span(4_000, 9_000)}
    timeline, _ = from_beats(lesson, noted, usual)
    length = usual.beats["b1"].length
    assert timeline.beats["b1"] == Span(4_000, 4_000 + length)
    assert timeline.beats["b2"].length == 5_000


def test_a_beat_clicked_through_shares_with_the_next() -> None:
    lesson = made(*[(said("We add the two amounts now."),)] * 3)
    noted = {"b0": Span(0, 4_000), "b1": Span(4_000, 4_050), "b2": Span(4_050, 10_000)}
    timeline, notes = from_beats(lesson, noted, predict(lesson))
    assert timeline.beats["b1"] == Span(4_000, 7_000)
    assert timeline.beats["b2"] == Span(7_000, 10_000)
    assert notes == ("b1 was passed at once; it shares the time of b2",)


@given(LESSONS, st.data())
def test_any_noted_times_add_up(beats: list[tuple[object, ...]], data: st.DataObject) -> None:
    lesson = made(*beats)  # type: ignore[arg-type]
    noted, now = {}, 0
    for beat in lesson.beats:
        now += data.draw(st.sampled_from([0, 0, 10, 3_000, 30_000]))
        length = data.draw(st.integers(0, 40_000))
        if data.draw(st.booleans()):
            noted[beat.id] = Span(now, now + length)
        now += length
    timeline, _ = from_beats(lesson, noted, predict(lesson))
    assert_adds_up(lesson, timeline)


@given(LESSONS, st.data())
def test_any_heard_lines_add_up(beats: list[tuple[object, ...]], data: st.DataObject) -> None:
    """Lines of at least 0.3 s, some of them not said."""
    lesson = made(*beats)  # type: ignore[arg-type]
    heard: dict[str, list[Span | None]] = {}
    now = data.draw(st.integers(0, 5_000))
    for beat in lesson.beats:
        heard[beat.id] = []
        for _ in beat.sentences:
            length = data.draw(st.integers(300, 9_000))
            there = data.draw(st.integers(0, 4)) > 0
            heard[beat.id].append(Span(now, now + length) if there else None)
            now += there * (length + data.draw(st.integers(0, 3_000)))
    timeline = from_lines(lesson, heard, now + 100)
    assert_adds_up(lesson, timeline)
    assert timeline.total_ms == now + 100
    for beat in lesson.beats:
        for want, got in zip(heard[beat.id], timeline.sentences[beat.id], strict=True):
            assert got == want if want else got.length == 0


def test_a_line_that_was_not_said_has_no_caption() -> None:
    lesson = made((said("We add them."), said("We skip this.")), (said("We look back."),))
    heard: dict[str, list[Span | None]] = {
        "b0": [Span(0, 2_000), None],
        "b1": [Span(2_600, 5_000)],
    }
    timeline = from_lines(lesson, heard, 6_000)
    assert [cue.text for cue in make_cues(lesson, timeline)] == ["We add them.", "We look back."]


def test_a_part_is_spliced_and_the_others_only_move() -> None:
    lesson = demo(2)
    before = Fitted(timeline=predict(lesson, 120), sure={})
    piece = only(lesson, "compost", 1)
    assert {beat.part for beat in piece.beats} == {1}
    again = Fitted(timeline=predict(piece, 90), sure={})
    joined = splice(lesson, before, again).timeline
    assert_adds_up(lesson, joined)
    inside = {beat.id for beat in piece.beats}
    for name, span in joined.beats.items():
        source = again if name in inside else before
        assert span.length == source.timeline.beats[name].length
    first = piece.beats[0].id
    assert joined.beats[first].start == before.timeline.beats[first].start
    last = lesson.beats[-1].id
    longer = again.timeline.total_ms - sum(before.timeline.beats[n].length for n in inside)
    assert longer > 0
    assert joined.beats[last].start == before.timeline.beats[last].start + longer


def test_the_table_keeps_a_splice(tmp_path: Path) -> None:
    """Written and read back, a part that begins with a silence takes none of it from another."""
    lesson = demo(2)
    piece = only(lesson, "compost", 2)
    lines: dict[str, list[Span | None]] = {beat.id: [] for beat in piece.beats}
    now = 800
    for beat in piece.beats:
        for _ in beat.sentences:
            lines[beat.id].append(Span(now, now + 2_000))
            now += 2_400
    again = Fitted(timeline=from_lines(piece, lines, now), sure={})
    joined = splice(lesson, Fitted(timeline=predict(lesson, 120), sure={}), again)
    with (tmp_path / "times.csv").open("wb") as sink:
        table.write(lesson, joined, sink)
    kept = table.read(tmp_path / "times.csv", lesson)
    assert kept.timeline == joined.timeline
    assert splice(lesson, kept, again).timeline == joined.timeline


def test_the_pace_comes_back() -> None:
    """What is predicted at a pace and read back gives that pace, within a word."""
    lesson = demo(2)
    for wpm in (95, 128, 171):
        timeline = predict(lesson, wpm)
        assert abs((pace.from_beats(lesson, timeline.beats) or 0) - wpm) <= 1
        assert abs((pace.from_lines(lesson, timeline) or 0) - wpm) <= 1


def test_less_than_a_minute_teaches_no_pace() -> None:
    """One recorded minute carries the model to another voice (the project's own trials)."""
    lesson = made((said("We add the two amounts now."),))
    assert pace.from_beats(lesson, {"b0": Span(0, 3_000)}) is None
