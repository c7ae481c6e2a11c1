"""`selfstudy.html` as a file: what it holds, what it may do, and how it is made of any lesson.

What it may do is held against the standards: Content Security Policy Level 3 (W3C), its hashes;
the HTML standard, script data states.
"""

from __future__ import annotations

import base64
import hashlib
import json
import os
import re
import sys
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import av
import pytest
import webvtt

from narrate import cli
from narrate.errors import OutputFailed
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.palette import DARK, LIGHT
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, captions_vtt, selfstudy
from narrate.outputs._encoded import mp3
from tests.outputs.samples_text import LESSON
from tests.outputs.study import PROBLEMS, data_of, hummed, page_of, told, told_text

Told = tuple[Lesson, Timeline]
DEMO = PROBLEMS / "garden-week.yaml"


@pytest.fixture(scope="module")
def demo() -> Told:
    return told(DEMO)


@pytest.fixture(scope="module")
def page(demo: Told) -> bytes:
    return page_of(*demo)


class TestWhatItHolds:
    def test_captions_are_those_of_the_captions_file(self, demo: Told, page: bytes) -> None:
        sink = BytesIO()
        captions_vtt.write(*demo, USUAL, sink)
        captions = webvtt.from_string(sink.getvalue().decode())
        assert [cue[2] for cue in data_of(page)["cues"]] == [
            " ".join(c.lines) for c in captions.captions
        ]

    def test_beats_and_parts_begin_when_the_lesson_says(self, demo: Told, page: bytes) -> None:
        lesson, timeline = demo
        data = data_of(page)
        assert [each["start"] for each in data["beats"]] == [
            timeline.beats[beat.id].start for beat in lesson.beats
        ]
        assert [each["title"] for each in data["parts"]] == [c.title for c in lesson.chapters]
        firsts = [timeline.beats[chapter.first_beat].start for chapter in lesson.chapters]
        assert [each["start"] for each in data["parts"]] == firsts
        assert data["total"] == timeline.total_ms

    def test_pages_are_the_drawings_in_their_order(self, demo: Told, page: bytes) -> None:
        """What is there at each beat: base and builds up to it (invariant 7)."""
        lesson, data = demo[0], data_of(page)
        for beat, mine in zip(lesson.beats, data["beats"], strict=True):
            drawn = data["pages"][mine["page"]]
            there = [*drawn["base"], *drawn["builds"][: mine["shown"]]]
            labels = re.findall(r'<g role="img" aria-label=("[^"]*"|\'[^\']*\')',
                                "".join(data["drawings"][k] for k in there))  # fmt: skip
            source = lesson.pages[mine["page"]]
            told_now = source.beats[: source.beats.index(beat.id) + 1]
            builds = [build for build in source.builds if build.beat in told_now]
            assert len(labels) == len(source.base) + len(builds)

    def test_a_drawing_is_held_once(self, page: bytes) -> None:
        drawings = data_of(page)["drawings"]
        assert len(drawings) == len(set(drawings))

    def test_a_silent_demo_stays_small(self, page: bytes) -> None:
        """Half a megabyte for half an hour: a school laptop opens it at once (our own bound)."""
        assert len(page) < 600_000

    def test_every_question_comes_when_its_beat_has_been_said(
        self, demo: Told, page: bytes
    ) -> None:
        lesson, timeline = demo
        for question, asked in zip(lesson.questions, data_of(page)["questions"], strict=True):
            span, spoken = timeline.beats[question.beat], timeline.sentences[question.beat]
            assert span.start < asked["at"] == spoken[-1].end <= asked["on"] == span.end

    def test_the_same_lesson_gives_the_same_bytes(self, page: bytes) -> None:
        assert page_of(*told(DEMO)) == page

    def test_light_or_dark_as_the_options_say(self, demo: Told, page: bytes) -> None:
        dark = page_of(*demo, replace(USUAL, dark=True))
        for made, look, palette in ((page, "light", LIGHT), (dark, "dark", DARK)):
            assert f'data-look="{look}"'.encode() in made
            assert f'fill="#{palette["paper"]}"'.encode() in made.replace(rb"\"", b'"')


class TestWhatItMayDo:
    def test_only_its_own_script_and_style_run(self, page: bytes) -> None:
        text = page.decode()
        (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', text)
        policy = policy.replace("&#39;", "'")
        rules = dict(rule.split(" ", 1) for rule in policy.split("; "))
        assert rules["default-src"] == "'none'"
        assert set(rules) == {
            "default-src", "script-src", "style-src-elem", "style-src-attr", "img-src",
            "media-src", "base-uri", "form-action",
        }  # fmt: skip
        for kind, rule in (("script", "script-src"), ("style", "style-src-elem")):
            (inner,) = re.findall(rf"<{kind}>(.*?)</{kind}>", text, re.S)
            hashed = base64.b64encode(hashlib.sha256(inner.encode()).digest()).decode()
            assert rules[rule] == f"'sha256-{hashed}'"

    def test_it_names_no_other_place(self, page: bytes) -> None:
        text = page.decode().replace("http://www.w3.org/2000/svg", "")
        assert not re.findall(r"https?:|//[a-z]", re.sub(r"(?m)//[ ].*$", "", text))
        assert not re.findall(r"""\b(?:src|href)=["'](?!#|data:)""", text.split("<script>")[0])

    def test_its_program_asks_for_nothing_and_keeps_nothing(self, page: bytes) -> None:
        (script,) = re.findall(r"<script>(.*?)</script>", page.decode(), re.S)
        for name in (
            "fetch", "XMLHttpRequest", "sendBeacon", "WebSocket", "EventSource", "import(",
            "localStorage", "sessionStorage", "indexedDB", "cookie", "caches", "eval", "Function(",
            "parseFloat", "innerText",
        ):  # fmt: skip
            assert name not in script, name

    def test_nothing_in_an_item_can_end_its_data(self, tmp_path: Path) -> None:
        """HTML, "script data" states: `</script` and `<!--` would change how the page is read."""
        source = """\
review: "</script><script>alert(1)</script>"
items:
  - id: q1
    label: "<!-- <script> Question"
    stem: "</script><img src=x onerror=alert(2)> Tavi has 3/4 & takes 1/4 of it. What is 3/4 - 1/4?"
    model: 3/4 - 1/4
    boxes: [numerator, denominator]
    unit: "<b>cups</b>"
"""
        text = page_of(*told_text(source, tmp_path)).decode()
        assert text.count("<script") == text.count("</script>") == 2
        before, data = text.split('id="lesson">')
        assert "<img" not in before + data.split("</script>")[1]
        assert "<!--" not in text


class TestItsSound:
    def test_each_part_has_its_own_as_long_as_it(self, tmp_path: Path) -> None:
        timeline = predict(LESSON)
        page = page_of(LESSON, timeline, hummed(timeline, tmp_path))
        sounds = re.findall(r'class="sound">(.*?)</script>', page.decode())
        parts = data_of(page)["parts"]
        ends = [*(part["start"] for part in parts[1:]), timeline.total_ms]
        for sound, part, end in zip(sounds, parts, ends, strict=True):
            length = _length(base64.b64decode(sound))
            assert abs(length * 1_000 // 24_000 - (end - part["start"])) < 60
        assert len(page) < timeline.total_ms * 6 + 100_000  # 32 kbit/s, and a third for base 64

    def test_without_pyav_it_says_what_to_install(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setitem(sys.modules, "av", None)
        timeline = predict(LESSON)
        with pytest.raises(OutputFailed, match=r"narrate\[audio\].*--spoken-by nobody"):
            page_of(LESSON, timeline, hummed(timeline, tmp_path))
        assert page_of(LESSON, timeline)

    def test_what_was_made_is_kept_for_the_next_build(self, tmp_path: Path) -> None:
        samples = b"\0\1" * 8_000
        made = mp3(samples, 16_000, tmp_path)
        (kept,) = tmp_path.rglob("*.piece")
        assert kept.read_bytes() == made
        os.utime(kept, (0, 0))
        assert mp3(samples, 16_000, tmp_path) == made
        assert kept.stat().st_mtime > 0  # marked as used: it was not made anew
        kept.write_bytes(b"spoilt")
        assert mp3(samples, 16_000, tmp_path) == made


def _length(sound: bytes) -> int:
    """The samples of an mp3, as PyAV reads it."""
    with av.open(BytesIO(sound), "r") as container:
        assert container.streams.audio[0].codec_context.name.startswith("mp3")
        assert container.streams.audio[0].rate == 24_000
        return sum(int(frame.samples) for frame in container.decode(audio=0))


class TestAnyLesson:
    def test_one_that_asks_nothing_simply_goes_on(self) -> None:
        page = page_of(LESSON, predict(LESSON))
        assert data_of(page)["questions"] == []
        assert "Garden week &lt;&amp; kitchen&gt;" in page.decode()

    def test_it_is_built_when_asked_for(self, tmp_path: Path) -> None:
        source = "items:\n  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
        (tmp_path / "week.yaml").write_text(source, encoding="utf-8")
        to = tmp_path / "out"
        here = [str(tmp_path / "week.yaml"), "--to", str(to), "--spoken-by", "nobody"]
        assert cli.main(["build", *here]) == 0
        assert not (to / "week" / selfstudy.FILE).exists()
        for more in ([], ["--only", "q1"], ["--blank-work"], ["--detail", "lines"]):
            assert cli.main(["build", *here, "--also", "selfstudy", *more]) == 0
            folder = to / "week" / ("only/q1" if more[:1] == ["--only"] else "")
            data = data_of((folder / selfstudy.FILE).read_bytes())
            lesson = json.loads((folder / "lesson.json").read_text("utf-8"))
            assert [each["start"] for each in data["beats"]] == [
                beat["start_ms"] for beat in lesson["beats"]
            ]
            (question,) = data["questions"]
            assert [each["right"] for each in question["choices"]] == [False, True]

    def test_edits_keep_the_question(self, tmp_path: Path) -> None:
        source = "items:\n  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
        (tmp_path / "week.yaml").write_text(source, encoding="utf-8")
        (tmp_path / "week.edits.yaml").write_text(
            "q1.1.try:\n  was: Pause here and try it.\n  say: Now you.\n", encoding="utf-8"
        )
        to = ["--to", str(tmp_path), "--spoken-by", "nobody", "--also", "selfstudy"]
        assert cli.main(["build", str(tmp_path / "week.yaml"), *to]) == 0
        data = data_of((tmp_path / "week" / selfstudy.FILE).read_bytes())
        assert len(data["questions"]) == 1
        assert "Now you." in [beat["say"] for beat in data["beats"]]

    def test_what_was_missed_asks_its_own_questions(self, tmp_path: Path) -> None:
        """Two reviews with an item of one id, and a twin in place of a held one."""
        beans = (
            "review: Beans\nitems:\n"
            "  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
            "  - {id: q2, hold-until: 2099-01-01, stem: 3/4 + 1/5, choices: {A: 4/9, B: 19/20}}\n"
        )
        peas = (
            "review: Peas\nitems:\n  - {id: q1, stem: 2/3 - 1/4, boxes: [numerator, denominator]}\n"
        )
        plan = "2026-05-04:\n  beans.yaml: all\n2026-05-06:\n  peas.yaml: all\n"
        absent = "code,day\np1,2026-05-04 2026-05-06\n"
        for name, text in (
            ("beans.yaml", beans),
            ("peas.yaml", peas),
            ("plan.yaml", plan),
            ("absent.csv", absent),
        ):
            (tmp_path / name).write_text(text, encoding="utf-8")
        given = ["--plan", str(tmp_path / "plan.yaml"), "--absent", str(tmp_path / "absent.csv")]
        more = ["--twins", "--also", "selfstudy", "--spoken-by", "nobody", "--to", str(tmp_path)]
        assert cli.main(["catch-up", *given, *more]) == 0
        (path,) = tmp_path.glob(f"*/{selfstudy.FILE}")
        data = data_of(path.read_bytes())
        first, twin, last = data["questions"]
        assert [each["text"] for each in first["choices"]] == ["2/5", "5/6"]
        assert "3/4 + 1/5" not in " ".join(twin["words"])
        assert [each["right"] for each in twin["choices"]] == [False, True]
        assert last["answer"] == ["5", "12"]
        starts = [part["start"] for part in data["parts"]]
        assert all(
            starts[k + 1] < question["at"] < starts[k + 2]
            for k, question in enumerate(data["questions"])
        )
