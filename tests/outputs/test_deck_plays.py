"""Every deck plays what `lesson.json` says, as LibreOffice reads it: the demo and 200 made items.

The reader is LibreOffice's conversion to OpenDocument; what is right is `lesson.json`, the contract
that other programs read, and for the kind of effect the page.
"""

from __future__ import annotations

import io
import json
import re
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import Any

import pytest
from openxml_audit import validate_pptx
from pptx import Presentation

from narrate.items.item import Review
from narrate.items.loading import load
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.outputs import USUAL, Options, deck, lesson_json
from narrate.pipeline import make_lesson
from tests.generated import loaded, made
from tests.outputs.libreoffice import Played, Steps, convert, played, slides, turns

PROBLEMS = Path(__file__).resolve().parents[2] / "problems"
DEMO, NUMBERS = PROBLEMS / "garden-week.yaml", PROBLEMS / "kitchen-market.yaml"
P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
ITEMS, AT_ONCE = 200, 25
FEW = 28
"""Two of each form of item."""

TIMED = Options(builds="timed")


def told(review: Review) -> Lesson:
    lesson, faults, declined = make_lesson(review, Words("en"))
    assert lesson is not None
    assert (faults, declined) == ([], [])
    return lesson


def demo() -> Lesson:
    (review,) = load([DEMO]).reviews
    return told(review)


def demos() -> tuple[Lesson, Lesson]:
    """The two demo reviews: fractions, and stories with numbers."""
    (numbers,) = load([NUMBERS]).reviews
    return demo(), told(numbers)


def many(count: int, at_once: int = AT_ONCE) -> Iterator[Lesson]:
    """Lessons of so many made items, some in each."""
    items = [item for item, _ in loaded(made(count, seed=31))]
    for start in range(0, count, at_once):
        part = tuple(items[start : start + at_once])
        yield told(Review(id=f"r{start}", title="R", grade=5, language="en", items=part))


DECKS: dict[str, tuple[Lesson, Options]] = {}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with all decks as .pptx and .odp, converted in one call."""
    folder = tmp_path_factory.mktemp("decks")
    fractions, numbers = demos()
    DECKS["demo"], DECKS["timed"] = (fractions, USUAL), (fractions, TIMED)
    DECKS["numbers"] = numbers, USUAL
    DECKS.update({f"made {n}": (lesson, USUAL) for n, lesson in enumerate(many(ITEMS))})
    for name, (lesson, options) in DECKS.items():
        with (folder / f"{name}.pptx").open("wb") as sink:
            deck.write(lesson, predict(lesson), options, sink)
    convert(folder, "odp", *(f"{name}.pptx" for name in DECKS))
    return folder


def beats_by_slide(lesson: Lesson, timeline: Timeline, options: Options) -> list[list[Any]]:
    """The beats of each slide, as `lesson.json` has them."""
    sink = io.BytesIO()
    lesson_json.write(lesson, timeline, options, sink)
    beats = json.loads(sink.getvalue())["beats"]
    return [list(found) for _, found in groupby(beats, key=lambda beat: int(beat["slide"]))]


def by_hand(beats: list[Any], effects: dict[str, str]) -> Steps:
    """A click for each beat that shows something, its later builds by themselves."""
    return [
        [
            Played(
                target=name,
                effect=effects[name],
                trigger="after-previous" if place else "on-click",
                subtype="from-left" if effects[name] == "wipe" else None,
                delay=200 if place else 0,
            )
            for place, name in enumerate(beat["builds"])
        ]
        for beat in beats
        if beat["builds"]
    ]


def compare(folder: Path, name: str) -> int:
    """Compares every slide of a by-hand deck; how many effects there were."""
    lesson, options = DECKS[name]
    _, pages = slides(folder / f"{name}.odp")
    wanted = beats_by_slide(lesson, predict(lesson), options)
    assert len(pages) == len(wanted)
    count = 0
    for page, drawn, beats in zip(lesson.pages, pages, wanted, strict=True):
        effects: dict[str, str] = {b.group.name: b.effect for b in page.builds}
        assert played(drawn) == by_hand(beats, effects), (name, page.title)
        count += len(effects)
    return count


@pytest.mark.parametrize("name", ["demo", "timed", "numbers", "made 0"])
def test_the_audit_finds_nothing(folder: Path, name: str) -> None:
    """PyPI openxml-audit: the schema, and what the office program is known to repair."""
    errors = validate_pptx(str(folder / f"{name}.pptx")).errors
    assert [str(error) for error in errors] == []


@pytest.mark.parametrize("name", ["demo", "numbers"])
def test_demo(folder: Path, name: str) -> None:
    assert compare(folder, name) > 150


def test_200_made_items(folder: Path) -> None:
    """All in the one batch: about a minute and a half of LibreOffice."""
    decks = [name for name in DECKS if name.startswith("made ")]
    assert len(decks) == ITEMS // AT_ONCE
    assert sum(compare(folder, name) for name in decks) > 2000


class TestTimed:
    """A deck that runs by itself: every build within 50 ms of its beat, every slide to its end."""

    def test_builds_come_at_the_times_of_their_beats(self, folder: Path) -> None:
        lesson, options = DECKS["timed"]
        _, pages = slides(folder / "timed.odp")
        for drawn, beats in zip(
            pages, beats_by_slide(lesson, predict(lesson), options), strict=True
        ):
            due = [
                (n, beat["start_ms"] - beats[0]["start_ms"])
                for beat in beats
                for n in beat["builds"]
            ]
            steps = played(drawn)
            assert len(steps) == bool(due)
            seen = [(effect.target, effect.delay) for step in steps for effect in step]
            assert [name for name, _ in seen] == [name for name, _ in due]
            assert all(abs(a - b) <= 50 for (_, a), (_, b) in zip(seen, due, strict=True))
            triggers = {effect.trigger for step in steps for effect in step}
            assert triggers <= {"after-previous", "with-previous"}

    def test_slides_turn_when_their_last_beat_ends(self, folder: Path) -> None:
        lesson, options = DECKS["timed"]
        root, pages = slides(folder / "timed.odp")
        for drawn, beats in zip(
            pages, beats_by_slide(lesson, predict(lesson), options), strict=True
        ):
            kind, stays = turns(root, drawn)
            assert kind == "automatic"
            found = re.fullmatch(r"PT(?:(\d+)M)?(?:(\d+)S)?", stays or "")
            assert found
            minutes, seconds = (int(number or 0) for number in found.groups())
            length = beats[-1]["end_ms"] - beats[0]["start_ms"]
            assert 60 * minutes + seconds == length // 1000  # LibreOffice keeps whole seconds

    def test_the_times_written_are_exact(self, folder: Path) -> None:
        """ECMA-376 Part 1, 19.3.1.50: advTm in milliseconds, advClick whether a click turns too."""
        lesson, options = DECKS["timed"]
        wanted = [
            str(beats[-1]["end_ms"] - beats[0]["start_ms"])
            for beats in beats_by_slide(lesson, predict(lesson), options)
        ]
        opened: Any = Presentation(str(folder / "timed.pptx"))
        turn = [slide.element.find(f"{P}transition") for slide in opened.slides]
        assert [each.get("advTm") for each in turn] == wanted
        assert {each.get("advClick") for each in turn} == {"0"}

    def test_a_deck_by_hand_waits(self, folder: Path) -> None:
        root, pages = slides(folder / "demo.odp")
        assert {turns(root, page)[0] for page in pages} <= {None, "manual"}
