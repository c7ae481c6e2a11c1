"""`selfstudy.html` used in Chromium to its end: real clicks and keys, right, wrong and slip-made.

Standards: WCAG 2.2 (W3C 2023) by axe-core and by measuring; SC 2.5.8 and 2.5.5 for hit targets,
2.1.4 for keys, 1.4.10 for reflow. That an answer is judged rightly is held against sympy.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import sympy
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, expect

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs import USUAL
from tests.browser import browser
from tests.outputs.study import (
    FRAME,
    PROBLEMS,
    Pupil,
    hummed,
    plain,
    told,
    told_text,
    until,
    write_page,
)

Told = tuple[Lesson, Timeline]
SIZES = [(1366, 768), (820, 1180), (390, 844), (844, 390), (320, 640)]
BOTH = pytest.mark.parametrize(("width", "height"), [(1366, 768), (390, 844)])


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with browser() as found:
        yield found


@pytest.fixture(scope="module")
def demo() -> Told:
    return told(PROBLEMS / "garden-week.yaml")


@pytest.fixture(scope="module")
def path(demo: Told, tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_page(tmp_path_factory.mktemp("study"), *demo)


@pytest.fixture(scope="module")
def market(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return write_page(tmp_path_factory.mktemp("market"), *told(PROBLEMS / "kitchen-market.yaml"))


@pytest.fixture
def pupil(chromium: Browser, path: Path) -> Iterator[Pupil]:
    found = Pupil(chromium, path)
    yield found
    found.close()


def written(question: dict[str, Any]) -> list[str]:
    """The right answer as it goes in the boxes."""
    top, bottom = map(int, question["answer"])
    if question["boxes"] == ["number"]:
        return [str(sympy.Rational(top, bottom))]
    if "whole" in question["boxes"]:
        return [str(top // bottom), str(top % bottom), str(bottom)]
    return [str(top), str(bottom)]


def in_boxes(question: dict[str, Any], number: list[str]) -> list[str]:
    """A number that a slip makes, as it goes in the boxes."""
    whole, top, bottom = number
    if question["boxes"] == ["number"]:
        return [top if bottom == "1" else f"{top}/{bottom}"]
    return [whole, top, bottom] if "whole" in question["boxes"] else [top, bottom]


class TestAWholeReview:
    @BOTH
    @pytest.mark.parametrize("name", ["path", "market"])
    def test_from_begin_to_end(
        self,
        chromium: Browser,
        request: pytest.FixtureRequest,
        name: str,
        width: int,
        height: int,
    ) -> None:
        """Each question met, answered by a slip first, then rightly; then the telling goes on."""
        pupil = Pupil(chromium, request.getfixturevalue(name), width, height)
        page = pupil.page
        pupil.begin()
        for number in range(page.evaluate("questions.length")):
            question = pupil.to_question(number)
            expect(page.locator("#ask-name")).to_be_focused()
            assert page.evaluate("going") is False
            shown = [plain(page, f"#ask-words p:nth-child({k + 1})") for k in range(
                len(question["words"]))]  # fmt: skip
            assert shown == question["words"]
            self.wrong_first(pupil, question)
            right = [each["letter"] for each in question["choices"] if each["right"]]
            said = pupil.answer(*(right or written(question)))
            assert said == f"Yes! {question['right']}"
            expect(page.locator("#go-on")).to_be_focused()
            page.keyboard.press("Enter")
            assert page.evaluate("[going, asked]") == [True, None]
            assert abs(pupil.now - question["on"]) <= FRAME
            pupil.wait(100)
            assert page.locator("#yours").is_visible()
            assert page.evaluate("document.documentElement.scrollWidth") <= width
        page.evaluate("seek(total - 200)")
        pupil.wait(500)
        expect(page.locator("#done-name")).to_be_focused()
        assert page.locator("#again button").count() == 0
        assert page.locator("#hold").text_content() == "Start again"
        page.click("#hold")
        pupil.wait(2 * FRAME)
        assert pupil.now < 200
        assert [each for each in pupil.requests if not each.startswith(("file:", "blob:"))] == []
        pupil.close()

    def wrong_first(self, pupil: Pupil, question: dict[str, Any]) -> None:
        if question["boxes"]:
            number, told_of_it = question["foreseen"][0]
            assert pupil.answer(*in_boxes(question, number)) == f"Not yet. {told_of_it}"
            return
        wrong = next(each for each in question["choices"] if not each["right"])
        said = pupil.answer(wrong["letter"])
        assert said == f"Not yet. {wrong['told'] or question['other']}"

    def test_what_was_not_right_is_named_at_the_end(self, pupil: Pupil) -> None:
        question = pupil.to_question(0)
        assert "4/9" in pupil.answer("A")
        pupil.page.click("#go-on")
        pupil.to_question(1)
        pupil.answer(*written(pupil.page.evaluate("questions[1]")))
        pupil.page.click("#go-on")
        pupil.page.evaluate("seek(total - 200)")
        pupil.wait(500)
        again = pupil.page.locator("#again button").all_text_contents()
        assert again[0] == "Question 1"
        assert "Question 2, part A" not in again
        pupil.page.click("#again button >> nth=0")
        pupil.wait(2 * FRAME)
        assert 0 < question["at"] - pupil.now < 60_000
        assert pupil.page.evaluate("going") is True


class TestAnswering:
    def test_a_slip_is_explained_and_tried_again(self, pupil: Pupil) -> None:
        pupil.to_question(0)
        said = pupil.answer("A")
        assert said.startswith("Not yet.")
        assert "denominators" in said
        assert pupil.answer("C").startswith("Yes!")

    def test_nothing_chosen_and_nothing_written_are_met_kindly(self, pupil: Pupil) -> None:
        pupil.to_question(0)
        assert pupil.answer() == "Choose an answer first, or go on without."
        pupil.to_question(1)
        assert pupil.answer("", "", "") == "Some of the boxes are still empty."
        assert pupil.answer("2", "9", "") == "Some of the boxes are still empty."
        assert pupil.answer("two", "9", "10").startswith("I can't read a number there.")
        assert "denominator" in pupil.answer("2", "9", "0")
        assert pupil.page.evaluate("answers.size") == 0

    def test_the_right_amount_in_another_form_is_told_so(self, pupil: Pupil) -> None:
        pupil.to_question(1)
        assert pupil.answer("", "29", "10").startswith("Nearly.")
        assert "mixed number" in pupil.answer("1", "19", "10")
        assert pupil.answer("2", "18", "20").startswith("Yes!")

    def test_every_right_choice_is_to_be_marked(self, pupil: Pupil) -> None:
        lesson = pupil.page.evaluate("questions.map((each) => each.several)")
        question = pupil.to_question(lesson.index(True))
        assert question["several"]
        assert pupil.answer("A").startswith("Nearly.")
        assert pupil.answer("A", "B").startswith("Not yet.")
        assert pupil.answer("A", "C", "E").startswith("Yes!")

    def test_it_can_be_left_out_or_seen_at_once(self, pupil: Pupil) -> None:
        question = pupil.to_question(0)
        assert pupil.page.locator("#go-on").text_content() == "Go on without trying"
        pupil.page.click("#go-on")
        assert abs(pupil.now - question["on"]) <= FRAME
        pupil.to_question(1)
        pupil.page.click("#forward")
        assert pupil.page.evaluate("asked") is None
        pupil.to_question(2)
        pupil.page.click("#hold")
        assert pupil.page.evaluate("asked") is None
        assert pupil.page.locator("#yours").is_hidden()

    @pytest.mark.parametrize(
        ("item", "answer", "most"),
        [
            ("stem: 3/4 + 3/4, boxes: [whole, numerator, denominator]", "3/2", 14),
            ("stem: 3/8 + 3/8, simplest: true, boxes: [numerator, denominator]", "3/4", 20),
            ("stem: 5/6 + 1/2, boxes: [numerator, denominator]", "4/3", 20),
        ],
    )
    def test_fractions_are_judged_as_sympy_does(
        self, chromium: Browser, tmp_path: Path, item: str, answer: str, most: int
    ) -> None:
        """All fractions up to a size: right where equal, and in the form that is asked."""
        source = f"items:\n  - {{id: q1, {item}}}\n"
        pupil = Pupil(chromium, write_page(tmp_path, *told_text(source, tmp_path)))
        question = pupil.to_question(0)
        whole = "whole" in question["boxes"]
        rows = [
            [w, n, d]
            for w in range(3 if whole else 1)
            for n in range(1, most)
            for d in range(1, most)
        ]
        typed = [[str(n) for n in (row if whole else row[1:])] for row in rows]
        wanted = []
        for w, n, d in rows:
            equal = w + sympy.Rational(n, d) == sympy.Rational(answer)
            lowest = sympy.gcd(n, d) == 1 or not question["simplest"]
            mixed = n < d or not whole or d == 1
            wanted.append(
                "right" if equal and lowest and mixed else "nearly" if equal else "not_yet"
            )
        assert judged(pupil, typed) == wanted
        assert {"right", "nearly", "not_yet"} - set(wanted) in (set(), {"nearly"})
        pupil.close()

    def test_numbers_are_judged_as_sympy_does(self, chromium: Browser, tmp_path: Path) -> None:
        """Whole numbers, decimals and fractions in one box, however long."""
        item = "stem: Each jar costs $4.75. Noor buys 3 jars. How much does she pay?"
        source = f"items:\n  - {{id: q1, boxes: [number], unit: dollars, stem: '{item}'}}\n"
        source = source.replace("stem: 'stem: ", "stem: '")
        pupil = Pupil(chromium, write_page(tmp_path, *told_text(source, tmp_path)))
        pupil.to_question(0)
        random.seed(5)
        plain_numbers = ["14.25", "14.250", "57/4", "14 1/4", "14 2/8", ".25", "14", "-14.25"]
        plain_numbers += [f"14.25{'0' * 14}1", "14.2499999999999999", "1425/100", "142.5/10"]
        plain_numbers += [f"{random.randint(1, 99)}.{random.randint(0, 99):02}" for _ in range(30)]
        wanted = []
        for number in plain_numbers:
            try:
                parts = [sympy.Rational(part) for part in number.split()]
                wanted.append("right" if sum(parts) == sympy.Rational(57, 4) else "not_yet")
            except (TypeError, ValueError):
                wanted.append("")
        wanted[plain_numbers.index("142.5/10")] = ""  # a fraction of whole numbers only
        assert judged(pupil, [[number] for number in plain_numbers]) == wanted
        others = {"$14.25": "right", "14.25 dollars": "right", "−14.25": "not_yet",
                  "1,425": "not_yet", "about 14": "", "14,25": "", "1/0": "", "1e3": "",
                  "": "", "14.25.1": "", "0x10": ""}  # fmt: skip
        assert judged(pupil, [[number] for number in others]) == list(others.values())
        pupil.close()


def judged(pupil: Pupil, typed: list[list[str]]) -> list[str]:
    """What the page says to each answer typed into the boxes; "" where it asks for another."""
    program = """(typed) => typed.map((values) => {
      document.querySelectorAll("#fields input").forEach((box, k) => { box.value = values[k]; });
      return judgeBoxes(asked).lead ?? "";
    })"""
    found: list[str] = pupil.page.evaluate(program, typed)
    return found


class TestTime:
    def test_each_caption_is_there_when_it_is_said(self, pupil: Pupil) -> None:
        pupil.begin()
        seen = pupil.page.evaluate("""() => cues.map(([start, end]) => {
          going = true; seek((start + end) / 2);
          return find("caption").textContent;
        })""")
        assert seen == pupil.page.evaluate("cues.map((cue) => cue[2])")

    def test_each_step_is_drawn_when_the_lesson_says(self, pupil: Pupil, demo: Told) -> None:
        lesson, timeline = demo
        seen = pupil.page.evaluate("""() => beats.map(({ start }) => {
          seek(start);
          return [...document.querySelectorAll("#picture g[aria-label]")]
            .map((each) => each.getAttribute("aria-label"));
        })""")
        for beat, there in zip(lesson.beats, seen, strict=True):
            mine = next(each for each in lesson.pages if beat.id in each.beats)
            told_now = mine.beats[: mine.beats.index(beat.id) + 1]
            expected = [group.alt for group in mine.base]
            expected += [b.group.alt for b in mine.builds if b.beat in told_now]
            assert there == expected
        assert timeline.total_ms == pupil.page.evaluate("total")

    @pytest.mark.parametrize("pace", ["0.75", "1", "1.25", "1.5"])
    def test_it_goes_at_the_pace_chosen(self, pupil: Pupil, pace: str) -> None:
        pupil.page.select_option("#pace", pace)
        pupil.begin()
        pupil.wait(8_000)
        assert abs(pupil.now - 8_000 * float(pace)) <= 2 * FRAME * float(pace)

    def test_held_is_held_and_shows_all_of_its_step(self, pupil: Pupil, demo: Told) -> None:
        pupil.begin()
        pupil.wait(2_000)
        pupil.page.click("#hold")
        before = pupil.now
        pupil.wait(60_000)
        assert pupil.now == before
        assert plain(pupil.page, "#caption") == " ".join(demo[0].beats[0].caption.split())

    def test_the_question_stays_at_hand_while_it_is_worked(self, pupil: Pupil) -> None:
        """In words of the page's own size: those in the drawing are small on a phone."""
        question = pupil.to_question(1)
        assert pupil.page.locator("#question").is_hidden()
        pupil.page.click("#go-on")
        pupil.page.click("#question summary")
        words = pupil.page.locator("#question-words p").all_text_contents()
        assert words == question["words"]

    def test_back_next_and_parts(self, pupil: Pupil, demo: Told) -> None:
        lesson, timeline = demo
        starts = [timeline.beats[beat.id].start for beat in lesson.beats]
        for _ in range(2):
            pupil.page.click("#forward")
        assert pupil.now == starts[2]
        pupil.page.click("#back")
        assert pupil.now == starts[1]
        pupil.page.click("#parts button >> text='Question 6'")
        first = next(c.first_beat for c in lesson.chapters if c.title == "Question 6")
        assert abs(pupil.now - timeline.beats[first].start) <= FRAME
        current = pupil.page.locator("#parts [aria-current]").all_text_contents()
        assert current == ["Question 6"]
        assert "Question 6, about" in plain(pupil.page, "#where")


class TestKeys:
    def test_a_whole_question_by_keyboard_alone(self, pupil: Pupil, demo: Told) -> None:
        page, (_, timeline) = pupil.page, demo
        page.keyboard.press("Space")
        assert page.evaluate("going") is True
        page.keyboard.press("Space")
        assert page.evaluate("going") is False
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowRight")
        page.keyboard.press("ArrowLeft")
        assert pupil.now == timeline.beats[demo[0].beats[1].id].start
        page.keyboard.press("Shift+ArrowRight")
        assert page.evaluate("partAt(now)") == 2
        page.keyboard.press("Shift+ArrowLeft")
        assert page.evaluate("partAt(now)") == 1
        pupil.to_question(0)
        page.keyboard.press("Tab")
        page.keyboard.press("ArrowDown")  # radio buttons are chosen by arrows, the page stays
        assert page.evaluate("asked !== null")
        page.keyboard.press("Enter")
        assert pupil.said.startswith("Not yet.")
        page.keyboard.press("ArrowDown")
        page.keyboard.press("Enter")
        assert pupil.said.startswith("Yes!")
        page.keyboard.press("Enter")
        assert page.evaluate("[going, asked]") == [True, None]
        expect(page.locator("#hold")).to_be_focused()

    def test_a_button_in_focus_keeps_the_space_bar(self, pupil: Pupil) -> None:
        pupil.page.focus("#captions")
        pupil.page.keyboard.press("Space")
        assert pupil.page.get_attribute("#captions", "aria-pressed") == "false"
        assert pupil.page.evaluate("going") is False
        assert pupil.page.locator("#caption").is_hidden()

    def test_letters_do_nothing(self, pupil: Pupil) -> None:
        """WCAG 2.2, 2.1.4: no shortcut is a single letter, figure or sign."""
        before = pupil.page.evaluate("[now, going, pace, begun]")
        for key in "abcdefghijklmnopqrstuvwxyz0123456789.,-+?":
            pupil.page.keyboard.press(key)
        assert pupil.page.evaluate("[now, going, pace, begun]") == before

    def test_the_keys_are_told(self, pupil: Pupil) -> None:
        pupil.page.click("#keys summary")
        assert pupil.page.locator("#keys li").count() == 4


class TestListening:
    """Voice and screen reader: one of them tells, never both."""

    def test_without_a_voice_each_step_is_told_to_readers(self, pupil: Pupil, demo: Told) -> None:
        pupil.begin()
        assert plain(pupil.page, "#status") == " ".join(demo[0].beats[0].say.split())
        pupil.page.evaluate(f"seek({demo[1].beats[demo[0].beats[3].id].start})")
        assert plain(pupil.page, "#status") == " ".join(demo[0].beats[3].say.split())

    def test_with_a_voice_only_what_it_does_not_say(
        self, chromium: Browser, tmp_path: Path
    ) -> None:
        source = "items:\n  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
        lesson, timeline = told_text(source, tmp_path)
        pupil = Pupil(chromium, write_page(tmp_path, lesson, timeline, hummed(timeline, tmp_path)))
        page = pupil.page
        pupil.begin()
        page.evaluate("seek(beats[1].start + 10)")
        assert plain(page, "#status") == "Going on."
        page.click("#hold")
        page.keyboard.press("ArrowRight")
        assert plain(page, "#status") == lesson.beats[2].say
        page.click("#voice")
        page.click("#hold")
        page.evaluate("seek(beats[3].start)")
        assert plain(page, "#status") == lesson.beats[3].say
        assert page.evaluate("voice.muted") is True
        pupil.close()

    def test_time_is_the_voices(self, chromium: Browser, tmp_path: Path) -> None:
        """In real time, for a second: what is shown follows what is heard."""
        source = "items:\n  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
        lesson, timeline = told_text(source, tmp_path)
        file = write_page(tmp_path, lesson, timeline, hummed(timeline, tmp_path))
        context = chromium.new_context()
        page = context.new_page()
        page.goto(file.as_uri())
        page.click("#parts button >> nth=1")
        until(page, "speaking() && voice.currentTime > 0.4")
        apart = page.evaluate("Math.abs(now - parts[1].start - voice.currentTime * 1000)")
        assert apart < 300
        length = page.evaluate("voice.duration * 1000 - (parts[2].start - parts[1].start)")
        assert abs(length) < 60
        page.evaluate("seek(questions[0].at - 150)")
        until(page, "asked !== null")
        assert page.evaluate("voice.paused") is True
        context.close()

    def test_a_broken_voice_does_not_stop_the_telling(
        self, chromium: Browser, tmp_path: Path
    ) -> None:
        source = "items:\n  - {id: q1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6}}\n"
        lesson, timeline = told_text(source, tmp_path)
        file = write_page(tmp_path, lesson, timeline, hummed(timeline, tmp_path))
        text = file.read_text("utf-8")
        for sound in text.split('class="sound">')[1:]:
            text = text.replace(sound.partition("<")[0], "AAAA")
        file.write_text(text, encoding="utf-8")
        pupil = Pupil(chromium, file)
        pupil.begin()
        pupil.wait(3_000)
        assert abs(pupil.now - 3_000) <= 3 * FRAME
        pupil.close()


class TestEverywhere:
    @pytest.mark.parametrize(
        ("width", "height", "look"), [(1366, 768, "light"), (390, 844, "dark")]
    )
    def test_axe_finds_nothing(
        self, chromium: Browser, demo: Told, tmp_path: Path, width: int, height: int, look: str
    ) -> None:
        """axe-core, all its rules, at the start, while told, asked, answered, and at the end."""
        file = write_page(tmp_path, *demo, replace(USUAL, dark=look == "dark"))
        pupil = Pupil(chromium, file, width, height, live=True)
        page = pupil.page
        page.emulate_media(reduced_motion="reduce")

        def clean(state: str) -> None:
            found = Axe().run(page)
            assert found.violations_count == 0, f"{state}: {found.generate_report()}"

        clean("start")
        pupil.to_question(0)
        clean("asked")
        pupil.answer("A")
        clean("not yet")
        pupil.answer("C")
        clean("right")
        page.click("#go-on")
        page.evaluate("hold(); seek(now + 40000)")
        page.click("#keys summary")
        clean("told")
        pupil.to_question(1)
        pupil.answer("", "29", "10")
        clean("boxes")
        page.evaluate("close(); seek(total - 100); run()")
        pupil.wait(500)
        clean("end")
        pupil.close()

    @pytest.mark.parametrize(("width", "height"), SIZES)
    def test_nothing_is_cut_off_and_targets_are_large(
        self, chromium: Browser, path: Path, width: int, height: int
    ) -> None:
        """No sideways scroll; 44 px for what is pressed (WCAG 2.2, 2.5.5; its AA asks for 24)."""
        pupil = Pupil(chromium, path, width, height)
        page = pupil.page
        pressed = ":is(button, select, summary, .choice, input[type=text]):visible"
        for number in (None, 0, 1, 3):
            if number is not None:
                pupil.to_question(number)
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            for target in page.locator(pressed).all():
                box = target.bounding_box()
                assert box is not None
                assert min(box["width"], box["height"]) >= 43.9, target.evaluate("e => e.outerHTML")
        pupil.close()

    def test_what_is_said_of_an_answer_is_in_sight_on_a_phone(
        self, chromium: Browser, path: Path
    ) -> None:
        pupil = Pupil(chromium, path, 390, 844)
        pupil.to_question(0)
        pupil.answer("A")
        desk = pupil.page.locator("#desk").bounding_box()
        said = pupil.page.locator("#told").bounding_box()
        assert desk
        assert said
        assert said["y"] >= 0
        assert said["y"] + said["height"] <= desk["y"]
        pupil.close()

    def test_nothing_moves_for_who_asks_for_that(self, pupil: Pupil) -> None:
        name = "getComputedStyle(document.querySelector('#picture .new')).animationName"
        pupil.to_question(0)
        pupil.page.click("#forward")
        pupil.page.evaluate("seek(beats.find((each) => each.shown > 1).start - 1)")
        pupil.page.click("#forward") if pupil.page.evaluate("asked") else pupil.wait(100)
        assert pupil.page.locator("#picture .new").count()
        assert pupil.page.evaluate(name) == "come"
        pupil.page.emulate_media(reduced_motion="reduce")
        assert pupil.page.evaluate(name) == "none"

    def test_nothing_is_sent_or_kept(self, pupil: Pupil) -> None:
        pupil.to_question(0)
        pupil.answer("A")
        refused = """async () => {
          try { await fetch("https://example.org/"); return "sent"; } catch { return "refused"; }
        }"""
        assert pupil.page.evaluate(refused) == "refused"
        assert pupil.page.evaluate("localStorage.length + sessionStorage.length") == 0
        assert pupil.page.evaluate("document.cookie") == ""
        assert pupil.page.evaluate("indexedDB.databases().then((all) => all.length)") == 0
        assert [each for each in pupil.requests if not each.startswith("file:")] in (
            [],
            ["https://example.org/"],
        )
        pupil.page.reload()
        assert pupil.page.evaluate("[now, answers.size]") == [0, 0]

    def test_odd_words_are_only_words(self, chromium: Browser, tmp_path: Path) -> None:
        source = """\
review: "</script><script>alert(1)</script>"
items:
  - id: q1
    label: "<!-- <script> Question"
    stem: "</script><img src=x onerror=alert(2)> Tavi has 3/4 & takes 1/4 of it. What is 3/4 - 1/4?"
    model: 3/4 - 1/4
    choices: {A: "<b>2/4</b> cup", B: 1/2, C: 3/4}
    key: B
"""
        source = source.replace('A: "<b>2/4</b> cup"', "A: 1/8")
        pupil = Pupil(chromium, write_page(tmp_path, *told_text(source, tmp_path)))
        page = pupil.page
        page.on("dialog", lambda dialog: pytest.fail(f"ran: {dialog.message}"))
        pupil.to_question(0)
        assert plain(page, "#ask-words").startswith("</script><img src=x onerror=alert(2)> Tavi")
        assert plain(page, "#ask-name") == "Your turn: <!-- <script> Question"
        assert plain(page, "h1") == "</script><script>alert(1)</script>"
        assert page.locator("img, #ask b b").count() == 0
        pupil.close()
