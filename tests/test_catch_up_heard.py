"""Her own recording in what is put together of a lesson that was fitted to it.

The recording is a voice's, much quieter and with other pauses than planned, so that what must be
heard when is known. Sounds are decoded by PyAV and laid over the recording by cross-correlation.
"""

from __future__ import annotations

import io
import json
import re
import shutil
import wave
from array import array
from base64 import b64decode
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest

from narrate import built, voices
from narrate.cli import main
from narrate.lesson.narration import LEAD_MS, Narration, Stretch, put_together
from narrate.outputs import _takes
from narrate.outputs._takes import takes
from narrate.voices import espeak_ng
from tests.fitting.lessons import fit
from tests.fitting.recordings import need_espeak
from tests.outputs.study import data_of
from tests.outputs.test_selfrun import Deck, stays
from tests.voices import meter

Captured = pytest.CaptureFixture[str]
Patch = pytest.MonkeyPatch
RATE = 22_050
WITHIN_MS = 100
"""The issue's own bound for times."""

WEEK = """\
review: Bean week
items:
  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6, C: 2/6}}
  - {id: q2, stem: 3/4 + 1/5, boxes: [numerator, denominator]}
  - {id: q3, stem: 3/8 + 2/8, boxes: [numerator, denominator]}
"""
PLAN = "2026-05-04:\n  week.yaml: [q1, q3]\n2026-05-06:\n  week.yaml: q2\n"


@pytest.fixture(scope="module")
def fitted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a review, its recording `talk.wav`, and what was fitted to it in `out`."""
    need_espeak()
    folder = tmp_path_factory.mktemp("fitted")
    (folder / "week.yaml").write_text(WEEK, "utf-8")
    (folder / "plan.yaml").write_text(PLAN, "utf-8")
    (folder / "absent.csv").write_text("code,day\np1,2026-05-04\n", "utf-8")
    assert main(["build", str(folder / "week.yaml"), "--to", str(folder / "out")]) == 0
    found = built.find(folder / "out" / "week", print)
    assert found
    samples = np.zeros(RATE * 3 // 2, "<i2")
    for beat in found.lesson.beats:
        for sentence in beat.sentences:
            said = np.frombuffer(espeak_ng.say(sentence.say, "en", 150), "<i2") // 8
            pause = np.zeros((sentence.pause_ms + 350) * RATE // 1000, "<i2")
            samples = np.concatenate([samples, said.astype("<i2"), pause])
    with wave.open(str(folder / "talk.wav"), "wb") as sound:
        sound.setparams((1, 2, RATE, 0, "NONE", ""))
        sound.writeframes(samples.tobytes())
    assert fit(folder, "--audio", folder / "talk.wav") == 0
    return folder


@pytest.fixture(scope="module")
def shown(fitted: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of it, with a video of what was missed."""
    place = tmp_path_factory.mktemp("shown") / "place"
    shutil.copytree(fitted, place)
    catch_up(place, "--also", "video", "--height", "720")
    return place


@pytest.fixture
def place(fitted: Path, tmp_path: Path) -> Path:
    shutil.copytree(fitted, tmp_path / "place")
    return tmp_path / "place"


def catch_up(place: Path, *words: str, code: int = 0) -> Path:
    asked = ["--plan", "plan.yaml", "--absent", "absent.csv", "--built", "out", "--to", "missed"]
    named = [word if word.startswith("--") else str(place / word) for word in asked]
    assert main(["catch-up", *named, *words]) == code
    return place / "missed" / "2026-05-04"


def beats(folder: Path) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads((folder / "lesson.json").read_text("utf-8"))["beats"]
    return found


def heard_in(data: Path | Any) -> Any:
    """All that is heard in a file, at the recording's rate."""
    resampler = av.AudioResampler(format="s16", layout="mono", rate=RATE)
    with av.open(data) as container:
        frames = [f for frame in container.decode(audio=0) for f in resampler.resample(frame)]
    return np.concatenate([frame.to_ndarray()[0] for frame in frames]).astype(float)


def late_by(hers: Any, ours: Any, reach: int) -> tuple[float, float]:
    """How many ms later than `reach` samples into `ours` she is heard, and how alike (1: same)."""
    size = 1 << (len(hers) + len(ours)).bit_length()
    product = np.fft.irfft(np.fft.rfft(ours, size) * np.conj(np.fft.rfft(hers, size)), size)
    at = int(np.argmax(product[: 2 * reach + 1]))
    found = ours[at : at + len(hers)]
    return (at - reach) * 1000 / RATE, float(np.corrcoef(hers[: len(found)], found)[0, 1])


def her_beats(place: Path, folder: Path) -> list[tuple[dict[str, Any], dict[str, Any]]]:
    """Beats of items, and the closing: as they are heard here, and as they were recorded."""
    recorded = {beat["id"]: beat for beat in beats(place / "out" / "week")}
    return [(b, recorded[b["id"]]) for b in beats(folder)[1:] if b["id"] in recorded]


def test_each_beat_of_the_video_is_heard_as_she_said_it(shown: Path) -> None:
    """At its time to the millisecond; and the whole as loud as all that is heard (EBU R 128).

    Peaks are held, which bends waves a little; what she says elsewhere is not half as alike.
    """
    folder = shown / "missed" / "2026-05-04"
    hers, ours = heard_in(str(shown / "talk.wav")), heard_in(str(folder / "video.mp4"))
    reach = RATE // 10
    pairs = her_beats(shown, folder)
    assert [beat["id"] for beat, _ in pairs][-1] == "closing"
    assert len(pairs) > 15
    for here, there in pairs:
        assert here["end_ms"] - here["start_ms"] == there["end_ms"] - there["start_ms"]
        first, last = (there[key] * RATE // 1000 for key in ("start_ms", "end_ms"))
        begin = here["start_ms"] * RATE // 1000 - reach
        end = here["end_ms"] * RATE // 1000 + reach
        late, alike = late_by(hers[first:last], ours[begin:end], reach)
        assert abs(late) <= 2, here["id"]
        assert alike > 0.8, here["id"]
        other = hers[last : last + (last - first)]
        if other.any():
            assert late_by(other, ours[begin:end], reach)[1] < 0.4, here["id"]
    with wave.open(str(shown / "all.wav"), "wb") as sound:
        sound.setparams((1, 2, RATE, 0, "NONE", ""))
        sound.writeframes(ours.astype("<i2").tobytes())
    assert abs(meter.loudness(shown / "all.wav") + 16) <= 1
    assert meter.true_peak(shown / "all.wav") <= -1


def test_captions_keep_step_with_her(shown: Path) -> None:
    """The first caption of a beat comes when she begins to speak, within a tenth of a second."""
    folder = shown / "missed" / "2026-05-04"
    ours = np.abs(heard_in(str(folder / "video.mp4")))
    cues = (folder / "video.vtt").read_text("utf-8").split("\n\n")[1:]
    starts = [_ms(cue.splitlines()[1].split(" --> ")[0]) for cue in cues if "-->" in cue]
    checked = 0
    for here, _ in her_beats(shown, folder):
        if here["start_ms"] not in starts:
            continue
        quiet = ours[
            (here["start_ms"] - 300) * RATE // 1000 : (here["start_ms"] - 100) * RATE // 1000
        ]
        loud = ours[here["start_ms"] * RATE // 1000 : (here["start_ms"] + 100) * RATE // 1000]
        assert loud.max() > 8 * max(quiet.max(), 50), here["id"]
        checked += 1
    assert checked > 15


def _ms(stamp: str) -> int:
    hours, minutes, seconds = stamp.split(":")
    return (int(hours) * 60 + int(minutes)) * 60_000 + round(float(seconds) * 1000)


def test_slides_and_parts_are_cut_at_her_times(place: Path) -> None:
    folder = catch_up(place, "--also", "selfrun", "--also", "selfstudy")
    deck = Deck((folder / "selfrun.pptx").read_bytes())
    slides = sorted({beat["slide"] for beat in beats(folder)})
    groups = [[b for b in beats(folder) if b["slide"] == number] for number in slides]
    for group, slide in zip(groups, deck.slides, strict=True):
        assert 0 <= stays(slide) - (group[-1]["end_ms"] - group[0]["start_ms"]) <= 50
    page = (folder / "selfstudy.html").read_text("utf-8")
    sounds = [b64decode(each) for each in re.findall(r'class="sound">(.*?)</script>', page)]
    parts = [0, *(part["start"] for part in data_of(page.encode())["parts"][1:])]
    ends = [*parts[1:], beats(folder)[-1]["end_ms"]]
    for sound, start, end in zip(sounds, parts, ends, strict=True):
        heard = heard_in(io.BytesIO(sound))
        assert abs(len(heard) * 1000 / RATE - (end - start)) < WITHIN_MS
    assert b"caption 1" not in deck.zip.read("ppt/slides/slide1.xml")  # the voice greets


def test_without_a_voice_what_she_did_not_record_is_read(
    place: Path, monkeypatch: Patch, capsys: Captured
) -> None:
    monkeypatch.setattr(voices, "choose", lambda *_: None)
    folder = catch_up(place, "--also", "selfrun")
    assert "what you have not recorded is silent" in capsys.readouterr().err
    deck = Deck((folder / "selfrun.pptx").read_bytes())
    first, *rest = [deck.zip.read(f"ppt/slides/slide{n + 1}.xml") for n in range(len(deck.slides))]
    assert b"caption 1" in first
    assert b"narration" not in first
    assert all(b"narration" in slide and b"caption 1" not in slide for slide in rest)


def test_the_video_shows_the_captions_of_what_nobody_reads(place: Path, monkeypatch: Patch) -> None:
    monkeypatch.setattr(voices, "choose", lambda *_: None)
    seen: list[bool] = []

    def note(*given: Any) -> Any:
        for take in takes(*given):
            seen.append(any(state.caption for state in take.states))
            yield take

    monkeypatch.setattr(_takes, "takes", note)
    catch_up(place, "--also", "video", "--height", "720")
    greeting, *hers = seen
    assert greeting
    assert hers
    assert not any(hers)


def test_a_part_that_was_changed_since_is_spoken_by_the_voice(
    place: Path, capsys: Captured
) -> None:
    text = (place / "week.yaml").read_text("utf-8")
    (place / "week.yaml").write_text(text.replace("3/8 + 2/8", "3/8 + 4/8"), "utf-8")
    folder = catch_up(place, "--also", "selfrun")
    told = capsys.readouterr().err
    assert "in your own voice; what you have not recorded is spoken by" in told
    assert "q3: not as " in told
    recorded = {beat["id"]: beat["say"] for beat in beats(place / "out" / "week")}
    said = {beat["id"]: beat["say"] for beat in beats(folder) if beat["item"]}
    assert all(recorded[name] == say for name, say in said.items() if name.startswith("q1."))
    assert any("seven" in say for name, say in said.items() if name.startswith("q3."))


class TestRecordingThatIsGone:
    """One message before anything is written; other voices and silent decks need no recording."""

    def files(self, place: Path) -> dict[Path, bytes]:
        return {p: p.read_bytes() for p in place.rglob("*") if p.is_file()}

    @pytest.mark.parametrize(
        ("change", "said"),
        [
            (
                lambda path: path.unlink(),
                "cannot be opened (no such file or directory); put it back",
            ),
            (lambda path: path.write_bytes(b"other"), "has been changed since then; fit that"),
        ],
    )
    def test_it_is_told(self, place: Path, capsys: Captured, change: Any, said: str) -> None:
        catch_up(place, "--also", "selfrun")
        change(place / "talk.wav")
        before = self.files(place)
        capsys.readouterr()
        catch_up(place, "--also", "selfrun", code=2)
        told = capsys.readouterr().err
        assert f"{place / 'talk.wav'}, your recording that {place / 'out' / 'week'}" in told
        assert said in told
        assert "nothing was written" in told
        assert self.files(place) == before

    def test_one_of_another_length_is_told(self, place: Path, capsys: Captured) -> None:
        """As where a table was corrected and another file named beside it."""
        with wave.open(str(place / "short.wav"), "wb") as sound:
            sound.setparams((1, 2, 8_000, 0, "NONE", ""))
            sound.writeframes(bytes(16_000 * 5))
        shutil.copy(place / "out" / "week" / "times.csv", place / "mine.csv")
        words = ["--times", place / "mine.csv", "--sound", place / "short.wav"]
        assert fit(place, *words) == 0
        before = self.files(place)
        catch_up(place, "--also", "selfrun", code=2)
        assert "short.wav lasts 0:05, but the times end at" in capsys.readouterr().err
        assert self.files(place) == before

    def test_it_is_not_needed_where_she_is_not_heard(self, place: Path) -> None:
        (place / "talk.wav").unlink()
        hers = [beat["end_ms"] for beat in beats(catch_up(place))]
        silent = catch_up(place, "--also", "selfrun", "--spoken-by", "nobody")
        assert [beat["end_ms"] for beat in beats(silent)] == hers
        spoken = catch_up(place, "--also", "selfrun", "--spoken-by", "espeak-ng")
        assert [beat["end_ms"] for beat in beats(spoken)] != hers

    def test_it_is_found_where_folder_and_recording_were_moved_together(self, place: Path) -> None:
        moved = place.with_name("elsewhere")
        place.rename(moved)
        catch_up(moved, "--also", "selfrun")

    def test_it_is_not_the_whole_any_more_where_a_part_was_recorded_again(
        self, place: Path, capsys: Captured
    ) -> None:
        rows = beats(place / "out" / "week")
        part = [b for b in rows if b["item"] == "q2"]
        noted = [{k: b[k] for k in ("id", "start_ms", "end_ms")} for b in part]
        (place / "part.json").write_text(json.dumps({"review": "week", "beats": noted}), "utf-8")
        assert fit(place, "--times", place / "part.json", "--part", "q2.1") == 0
        assert "catch-up cannot take your voice from it" in capsys.readouterr().err
        assert "spoken by" in catch_up_told(place, capsys)

    def test_a_corrected_table_is_of_the_same_recording(
        self, place: Path, capsys: Captured
    ) -> None:
        shutil.copy(place / "out" / "week" / "times.csv", place / "mine.csv")
        assert fit(place, "--times", place / "mine.csv") == 0
        assert "in your own voice" in catch_up_told(place, capsys)


class TestFittedWithoutTheRecording:
    def noted(self, place: Path) -> Path:
        """Her times, as the run-through page saves them."""
        rows = beats(place / "out" / "week")
        noted = [{k: b[k] for k in ("id", "start_ms", "end_ms")} for b in rows]
        path = place / "times.json"
        path.write_text(json.dumps({"review": "week", "beats": noted}), "utf-8")
        return path

    def test_fit_and_catch_up_tell_it(self, place: Path, capsys: Captured) -> None:
        assert fit(place, "--times", self.noted(place)) == 0
        assert f"fit again with --sound {place / 'talk.wav'}" in capsys.readouterr().err
        told = catch_up_told(place, capsys)
        assert told.count("was fitted without its recording, so your own voice is not in it") == 1
        assert "--sound FILE" in told

    def test_with_sound_she_is_heard(self, place: Path, capsys: Captured) -> None:
        assert fit(place, "--times", self.noted(place), "--sound", place / "talk.wav") == 0
        told = catch_up_told(place, capsys)
        assert "in your own voice" in told
        assert "without its recording" not in told

    def test_a_build_over_it_tells_how_it_comes_back(self, place: Path, capsys: Captured) -> None:
        words = ["build", str(place / "week.yaml"), "--to", str(place / "out")]
        assert main(words) == 0
        table = place / "out" / "week" / "times.csv"
        way = f"--times {table} --sound {place / 'talk.wav'} brings both back"
        assert way in capsys.readouterr().err
        assert "without its recording" not in catch_up_told(place, capsys)  # it is not fitted now
        assert fit(place, "--times", table, "--sound", place / "talk.wav") == 0
        assert "in your own voice" in catch_up_told(place, capsys)


def catch_up_told(place: Path, capsys: Captured) -> str:
    capsys.readouterr()
    catch_up(place, "--also", "selfrun")
    return capsys.readouterr().err


class TestPutTogether:
    """Sounds one after another, each at its time to the sample."""

    RATE = 8_000

    def sound(self, path: Path, *levels: int) -> Narration:
        """A second of each level."""
        samples = array("h", [level for level in levels for _ in range(self.RATE)])
        with wave.open(str(path), "wb") as file:
            file.setparams((1, 2, self.RATE, 0, "NONE", ""))
            file.writeframes(samples.tobytes())
        return Narration(path=path)

    def put(self, path: Path, *stretches: Stretch) -> list[int]:
        put_together(stretches, self.RATE, path)
        with wave.open(str(path)) as file:
            return list(array("h", file.readframes(file.getnframes())))

    def test_each_is_at_its_time(self, tmp_path: Path) -> None:
        one = self.sound(tmp_path / "one.wav", 1_000, 2_000, 3_000)
        other = self.sound(tmp_path / "other.wav", 5_000, 6_000)
        found = self.put(
            tmp_path / "all.wav",
            Stretch(sound=one, start=1_000, length=1_000, quiet=500),
            Stretch(sound=None, start=0, length=250, quiet=250),
            Stretch(sound=other, start=1_000, length=1_000, quiet=500),
            Stretch(sound=one, start=2_000, length=1_001, quiet=0),
        )
        assert len(found) == 3_251 * self.RATE // 1000
        assert found[4_000] == 2_000
        assert set(found[8_000:10_000]) == {0}  # silence is silent to its end
        assert found[10_100] == 6_000
        lead = LEAD_MS * self.RATE // 1000
        assert found[18_000 - lead - 100] == 6_000
        assert found[18_000 - lead + 100] == 2_000  # what stands before it in its own sound
        assert found[18_100] == 3_000
        assert set(found[-8:]) == {0}  # where the sound has ended

    def test_no_word_is_cut_where_there_is_no_pause(self, tmp_path: Path) -> None:
        one = self.sound(tmp_path / "one.wav", 1_000, 2_000)
        found = self.put(
            tmp_path / "all.wav",
            Stretch(sound=one, start=0, length=1_000, quiet=0),
            Stretch(sound=one, start=1_000, length=1_000, quiet=0),
        )
        assert found[8_000 - 100] == 1_000
        assert found[8_000 + 100] == 2_000

    def test_before_a_sound_begins_there_is_silence(self, tmp_path: Path) -> None:
        one = self.sound(tmp_path / "one.wav", 1_000)
        found = self.put(
            tmp_path / "all.wav",
            Stretch(sound=one, start=0, length=500, quiet=400),
            Stretch(sound=one, start=0, length=500, quiet=400),
        )
        lead = LEAD_MS * self.RATE // 1000
        assert set(found[4_000 - lead : 4_000]) == {0}
        assert found[4_100] == 1_000
