"""`runthrough.html` used in Chromium with real keys and clicks, and its lines by rule."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from narrate import pipeline
from narrate.items.loading import load
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.outputs import USUAL, runthrough
from narrate.outputs._prompt import LINE, prompt_lines
from tests.browser import browser, visit

DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
SIZES = [(1920, 1080), (820, 1180), (390, 844), (844, 390)]


@pytest.fixture(scope="module")
def told() -> tuple[Lesson, Timeline]:
    review = load([DEMO]).reviews[0]
    lesson, _, _ = pipeline.make_lesson(review, Words(review.language))
    assert lesson is not None
    return lesson, predict(lesson)


@pytest.fixture(scope="module")
def path(told: tuple[Lesson, Timeline], tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("run") / "runthrough.html"
    with path.open("wb") as sink:
        runthrough.write(*told, USUAL, sink)
    return path


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as found:
        yield found


@pytest.fixture
def page(chromium: Browser, path: Path) -> Iterator[Page]:
    page = visit(chromium, path)
    yield page
    page.context.close()


@pytest.fixture
def stopped(chromium: Browser, path: Path) -> Iterator[Page]:
    """The page, its time standing still until a test runs it: so times can be told exactly."""
    page = visit(chromium, path, stopped=True)
    yield page
    page.context.close()


def at(page: Page) -> int:
    """The step that the page is at."""
    ids = page.locator("[aria-current=step]").evaluate_all("all => all.map(each => each.id)")
    assert len(ids) == 1
    return int(ids[0].removeprefix("beat-"))


class TestLines:
    def test_no_word_is_lost_and_lines_are_short(self, told: tuple[Lesson, Timeline]) -> None:
        """Four to six words and at most 32 characters (common practice of prompters, no source)."""
        lines: list[str] = []
        for beat in told[0].beats:
            for sentence in beat.sentences:
                mine = prompt_lines(sentence.say)
                assert " ".join(mine) == " ".join(sentence.say.split())
                lines += mine
        assert max(map(len, lines)) <= LINE
        assert sum(4 <= len(line.split()) <= 6 for line in lines) >= len(lines) // 2
        assert max(len(line.split()) for line in lines) <= 8

    def test_a_line_breaks_where_a_phrase_ends(self) -> None:
        said = "Cut each fourth into five pieces, and three fourths becomes fifteen twentieths."
        assert prompt_lines(said) == (
            "Cut each fourth",
            "into five pieces,",
            "and three fourths",
            "becomes fifteen twentieths.",
        )

    def test_a_mixed_number_stays_whole(self) -> None:
        said = "The first bed in the garden got two and one fifth kilograms of compost."
        assert any("two and one fifth" in line for line in prompt_lines(said))

    def test_a_word_longer_than_a_line_stays_whole(self) -> None:
        assert "a" * 60 in " ".join(prompt_lines(f"so {'a' * 60} it is")).split()


class TestGoingOn:
    def test_keys_and_clicks_move_one_step(self, page: Page) -> None:
        assert at(page) == 0
        page.keyboard.press("Space")  # starts the clock
        assert at(page) == 0
        for count, go in enumerate(("Space", "ArrowRight", "PageDown", "Enter"), start=1):
            page.keyboard.press(go)
            assert at(page) == count
        page.click("#forward")
        page.click("#words")
        assert at(page) == 6
        page.keyboard.press("ArrowLeft")
        page.click("#back")
        assert at(page) == 4

    def test_the_page_builds_as_the_lesson_says(
        self, page: Page, told: tuple[Lesson, Timeline]
    ) -> None:
        """What is drawn at each step: the base and every build up to this beat (invariant 7)."""
        lesson, _ = told
        page.keyboard.press("Space")
        seen: list[str] = []
        for number, beat in enumerate(lesson.beats[:40]):
            if number:
                page.keyboard.press("ArrowRight")
            mine = next(each for each in lesson.pages if beat.id in each.beats)
            told_now = mine.beats[: mine.beats.index(beat.id) + 1]
            expected = [group.alt for group in mine.base]
            expected += [b.group.alt for b in mine.builds if b.beat in told_now]
            seen = page.locator("#picture g[aria-label]").evaluate_all(
                "all => all.map(each => each.getAttribute('aria-label'))"
            )
            assert seen == expected
        assert len(seen) > 3

    def test_a_part_is_chosen_from_the_list(
        self, page: Page, told: tuple[Lesson, Timeline]
    ) -> None:
        page.select_option("#part", label="Question 2, part A")
        first = next(c.first_beat for c in told[0].chapters if c.title == "Question 2, part A")
        assert told[0].beats[at(page)].id == first

    def test_words_are_those_of_the_lesson(self, page: Page, told: tuple[Lesson, Timeline]) -> None:
        """One set of words (invariant 6)."""
        shown = page.locator(".beat").evaluate_all("all => all.map(each => each.textContent)")
        plain = [" ".join(re.sub(r"\(pause \d+ s\)", "", text).split()) for text in shown]
        assert plain == [" ".join(beat.say.split()) for beat in told[0].beats]

    def test_the_words_at_hand_are_in_sight_at_every_step(self, page: Page) -> None:
        page.emulate_media(reduced_motion="reduce")
        page.keyboard.press("Space")
        frame = page.locator("#words").bounding_box()
        assert frame is not None
        for _ in range(60):
            page.keyboard.press("ArrowRight")
            line = page.locator("[aria-current=step] p").first.bounding_box()
            assert line is not None
            assert frame["y"] <= line["y"] <= frame["y"] + frame["height"] / 2


class TestKeepingPace:
    FRAME = 17
    """Milliseconds: the clock moves on once a frame."""

    def test_times_are_those_of_the_clicks(
        self, stopped: Page, told: tuple[Lesson, Timeline], tmp_path: Path
    ) -> None:
        lesson, _ = told
        stopped.keyboard.press("k")
        stopped.keyboard.press("Space")
        waits = (4_000, 7_300, 12_000, 900)
        for wait in waits:
            stopped.clock.run_for(wait)
            stopped.keyboard.press("Space")
        times = saved(stopped, tmp_path)
        assert times["review"] == lesson.review
        beats = times["beats"]
        assert [each["id"] for each in beats] == [beat.id for beat in lesson.beats[: len(waits)]]
        assert beats[0]["start_ms"] == 0
        assert all(one["end_ms"] == after["start_ms"] for one, after in pairwise(beats))
        for each, wait in zip(beats, waits, strict=True):
            assert abs(each["end_ms"] - each["start_ms"] - wait) <= 2 * self.FRAME

    def test_holding_the_clock_is_no_time(self, stopped: Page, tmp_path: Path) -> None:
        stopped.keyboard.press("k")
        stopped.keyboard.press("Space")
        stopped.clock.run_for(2_000)
        stopped.keyboard.press("p")
        stopped.clock.run_for(60_000)
        stopped.keyboard.press("p")
        stopped.clock.run_for(1_000)
        stopped.keyboard.press("Space")
        first = saved(stopped, tmp_path)["beats"][0]
        assert abs(first["end_ms"] - first["start_ms"] - 3_000) <= 4 * self.FRAME

    def test_a_step_told_again_has_one_time(self, stopped: Page, tmp_path: Path) -> None:
        stopped.keyboard.press("k")
        for key in ("Space", "Space", "Space", "ArrowLeft", "Space", "Space"):
            stopped.clock.run_for(600)
            stopped.keyboard.press(key)
        beats = saved(stopped, tmp_path)["beats"]
        assert len({each["id"] for each in beats}) == len(beats) == 3
        assert all(one["end_ms"] == after["start_ms"] for one, after in pairwise(beats))

    def test_the_last_step_ends_when_she_says_so(
        self, page: Page, told: tuple[Lesson, Timeline], tmp_path: Path
    ) -> None:
        page.keyboard.press("k")
        for _ in range(len(told[0].beats) + 1):
            page.keyboard.press("Space")
        expect(page.locator("#status")).to_contain_text("last step")
        times = saved(page, tmp_path)
        assert len(times["beats"]) == len(told[0].beats)

    def test_nothing_noted_is_an_empty_list(self, page: Page, tmp_path: Path) -> None:
        page.keyboard.press("Space")
        page.keyboard.press("Space")
        assert saved(page, tmp_path)["beats"] == []

    def test_clocks_tell_how_far_from_plan(
        self, stopped: Page, told: tuple[Lesson, Timeline]
    ) -> None:
        _, timeline = told
        first = timeline.beats[told[0].beats[0].id].length
        stopped.keyboard.press("Space")
        stopped.clock.run_for(first + 8_000)
        stopped.keyboard.press("Space")
        stopped.clock.run_for(500)
        expect(stopped.locator("#pace")).to_have_text("0:08 behind plan")
        minutes, seconds = divmod((first + 8_500) // 1_000, 60)
        expect(stopped.locator("#review-now")).to_have_text(f"{minutes}:{seconds:02}")


def saved(page: Page, folder: Path) -> dict[str, Any]:
    """The times file that the page gives."""
    with page.expect_download() as download:
        page.click("#save")
    assert download.value.suggested_filename == "times.json"
    path = folder / "times.json"
    download.value.save_as(path)
    read: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return read


class TestHerWay:
    def test_the_place_is_kept_on_reload(self, page: Page) -> None:
        for key in ("Space", "Space", "Space", "Space", "l", "m", "]"):
            page.keyboard.press(key)
        look = page.get_attribute("html", "data-look")
        page.reload()
        assert at(page) == 3
        assert page.get_attribute("html", "data-look") == look
        assert "mirrored" in (page.get_attribute("#words", "class") or "")

    def test_words_roll_at_her_pace_and_go_on_by_themselves(
        self, stopped: Page, told: tuple[Lesson, Timeline]
    ) -> None:
        page, (lesson, timeline) = stopped, told
        page.click("summary")
        for _ in range(20):
            page.click("#faster")
        expect(page.locator("#rate")).to_have_text("200%")
        page.keyboard.press("r")
        before = page.locator("#roll").evaluate("each => each.style.transform")
        first, second = (timeline.beats[beat.id].length for beat in lesson.beats[:2])
        page.clock.run_for(first // 4)
        assert page.locator("#roll").evaluate("each => each.style.transform") != before
        assert at(page) == 0
        page.clock.run_for(first // 4 + 100)
        assert at(page) == 1
        page.clock.run_for(second // 2 + 100)
        assert at(page) == 2

    def test_the_slide_follows_the_look(self, page: Page) -> None:
        ground = "each => getComputedStyle(each).fill"
        seen = set()
        for _ in range(2):
            seen.add(page.locator("#picture svg > rect").first.evaluate(ground))
            page.keyboard.press("l")
        light, dark = ("rgb(255, 253, 247)", "rgb(24, 46, 41)")
        assert seen == {light, dark}

    def test_size_and_mirror(self, page: Page) -> None:
        size = "each => parseFloat(getComputedStyle(each).fontSize)"
        before = page.locator("#roll").evaluate(size)
        page.keyboard.press("]")
        assert page.locator("#roll").evaluate(size) > before
        page.keyboard.press("[")
        page.keyboard.press("[")
        assert page.locator("#roll").evaluate(size) < before
        page.keyboard.press("m")
        flipped = page.locator("#words").evaluate("each => getComputedStyle(each).transform")
        assert flipped.startswith("matrix(-1")

    def test_a_button_in_focus_takes_the_space_bar(self, page: Page) -> None:
        page.focus("#keep")
        page.keyboard.press("Space")
        assert page.get_attribute("#keep", "aria-pressed") == "true"
        assert at(page) == 0


class TestEverywhere:
    @pytest.mark.parametrize("look", ["light", "dark"])
    @pytest.mark.parametrize(("width", "height"), SIZES)
    def test_axe_finds_nothing(
        self, chromium: Browser, path: Path, width: int, height: int, look: str
    ) -> None:
        """axe-core, all its rules."""
        page = visit(chromium, path, width, height)
        if page.get_attribute("html", "data-look") != look:
            page.keyboard.press("l")
        page.click("summary")
        for _ in range(6):
            page.keyboard.press("ArrowRight")
        page.wait_for_timeout(450)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        page.context.close()

    @pytest.mark.parametrize(("width", "height"), SIZES)
    def test_nothing_is_cut_off(
        self, chromium: Browser, path: Path, width: int, height: int
    ) -> None:
        page = visit(chromium, path, width, height)
        page.keyboard.press("Space")
        for name in ("#words", "#picture", "#forward", "#back", "#review-now", "summary"):
            box = page.locator(name).bounding_box()
            assert box is not None
            assert box["x"] >= 0
            assert box["x"] + box["width"] <= width
            assert box["y"] + box["height"] <= height
        size = page.locator("#roll").evaluate("each => parseFloat(getComputedStyle(each).fontSize)")
        assert size >= (32 if min(width, height) > 700 else 20)
        page.context.close()

    def test_it_stands_alone(self, path: Path) -> None:
        text = path.read_text(encoding="utf-8")
        assert not re.findall(r"""(?:src|href)=["']?(?!data:)""", text.split("<script>")[0])
        assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")
        assert "https://" not in text
