"""How the teacher speaks: greeting, phrases, words to avoid; checked, and after her templates."""

from __future__ import annotations

import re
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

import pytest

from narrate import cli
from narrate.errors import FaultsFound
from narrate.exact.parser import parse
from narrate.exact.spoken import speak
from narrate.items.loading import load
from narrate.items.voice import read_voice, voice_beside
from narrate.lesson.lesson import Lesson
from narrate.lesson.wishes import Wishes
from narrate.pipeline import make_lesson, words_for
from tests.lesson.told import DEMO

EXAMPLE = files("narrate.items").joinpath("voice.yaml").read_text(encoding="utf-8")


def lesson(folder: Path, text: str = "", templates: Path | None = None) -> Lesson:
    """The demo, told in a voice."""
    path = folder / "mine.yaml"
    path.write_text(text or "# nothing\n", encoding="utf-8")
    (review,) = load([DEMO]).reviews
    made, *_ = make_lesson(review, words_for(review, templates, Wishes(voice=path)))
    assert made is not None
    return made


def said(made: Lesson, move: str = "") -> str:
    """What is said besides the items' own words, of a move or in all."""
    beats = [beat for beat in made.beats if beat.move.startswith(move)]
    return " ".join(s.say for beat in beats for s in beat.sentences if not s.stem)


def test_greeting_closing_class_and_video(tmp_path: Path) -> None:
    ours = lesson(tmp_path, "class: garden detectives\nvideo: on our class page\n")
    assert said(ours, "greeting").startswith("Welcome, garden detectives, to our review, Garden")
    assert "You'll find this video on our class page." in said(ours, "closing")
    hers = lesson(tmp_path, "greeting: Hello. Can we do 3/4?\nclosing: That is all.\n")
    assert said(hers, "greeting") == "Hello. Can we do three fourths?"
    assert said(hers, "closing") == "That is all."
    assert "video" not in said(lesson(tmp_path), "greeting")


PHRASES = """\
phrases:
  try: Stop the video and have a go. <try>
  one size:
    - Different pieces aren't counted together.
  rewrite: "{{ fraction }} and {{ equal }} are the same amount."
"""


def test_her_phrases_come_before_ours(tmp_path: Path) -> None:
    """A routine is hers every time; another phrase whenever it was not said lately."""
    made = lesson(tmp_path, PHRASES)
    tries = [beat for beat in made.beats if beat.move == "try"]
    assert {beat.say for beat in tries} == {"Stop the video and have a go."}
    assert {beat.sentences[-1].pause_ms for beat in tries} == {5000}
    assert "Three fourths and fifteen twentieths are the same amount." in said(made, "rewrite")
    sizes = [beat.say for beat in made.beats if beat.move == "one size"]
    mine = [say == "Different pieces aren't counted together." for say in sizes]
    assert mine[0]
    assert sum(mine) >= 3
    assert not any(one and other for one, other in pairwise(mine))


def test_her_templates_come_before_her_voice(tmp_path: Path) -> None:
    folder = tmp_path / "templates" / "en"
    folder.mkdir(parents=True)
    (folder / "greeting.j2").write_text("Greeting from a template.\n", encoding="utf-8")
    (folder / "try.j2").write_text("{# routine #}\nTry, from a template.\n", encoding="utf-8")
    text = PHRASES + "greeting: Hello from the voice.\n"
    made = lesson(tmp_path, text, tmp_path / "templates")
    assert said(made, "greeting") == "Greeting from a template."
    assert "Try, from a template." in said(made, "try")
    assert "are the same amount" in said(made, "rewrite")


@pytest.mark.parametrize("word", ["multiply", "agree", "the boxes"])
def test_words_to_avoid_are_not_said(tmp_path: Path, word: str) -> None:
    """Another wording is chosen; the items keep their own words."""
    pattern = re.compile(rf"\b{word}(?:s|es)?\b", re.IGNORECASE)
    assert pattern.search(said(lesson(tmp_path)))
    assert not pattern.search(said(lesson(tmp_path, f"avoid: [{word}]\n")))


def test_a_word_that_cannot_be_avoided_is_told(tmp_path: Path) -> None:
    with pytest.raises(FaultsFound) as raised:
        lesson(tmp_path, "avoid: [twentieth]\n")
    told = f"{tmp_path / 'mine.yaml'}:1:9: every wording of “rewrite” says a word to avoid, such as"
    assert str(raised.value).startswith(f"{told} “twentieth” in “")


def test_where_no_wording_is_left_her_own_is_taken(tmp_path: Path) -> None:
    text = "avoid: [looking]\n"
    with pytest.raises(FaultsFound, match="every wording of “asked-question” says a word to avoid"):
        lesson(tmp_path, text)
    made = lesson(tmp_path, f"{text}phrases:\n  asked question: What do we want? <think>\n")
    assert "What do we want?" in said(made, "asked")


def test_quarters_are_said_for_fourths(tmp_path: Path) -> None:
    made = lesson(tmp_path, "quarters: true\n")
    spoken = " ".join(beat.say for beat in made.beats)
    assert "three quarters" in spoken
    assert not re.search(r"(?<!-)\bfourths?\b", spoken)  # but twenty-fourths
    assert "fourths" in " ".join(beat.say for beat in lesson(tmp_path).beats)
    # trade/spoken.md, row 3: "three fourths", "three quarters" in money and time
    assert speak(parse("2 3/4"), "en-quarters") == "two and three quarters"


def test_known_terms_are_not_explained(tmp_path: Path) -> None:
    def explained(text: str) -> set[str]:
        made = lesson(tmp_path, text)
        return {beat.id.partition(".define-")[2] for beat in made.beats if beat.move == "define"}

    assert {"numerator", "denominator"} <= explained("")
    left = explained("known: [numerator, Denominator]\n")
    assert not left & {"numerator", "denominator"}


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("greting: Hi\n", '1:1: unknown key "greting"; did you mean "greeting"?'),
        ("greeting: ''\n", '1:11: "greeting" is empty; fill it in'),
        ("quarters: maybe\n", '1:11: "quarters" is "maybe"; write true or false'),
        ("avoid: {a: b}\n", '1:8: "avoid" is no list of words'),
        ("phrases: hello\n", '1:10: "phrases" is "hello"; write a move'),
        ("phrases:\n  rewrit: a\n", '2:3: there is no move "rewrit"; did you mean "rewrite"?'),
        ("phrases:\n  greeting: a\n", '2:3: there is no move "greeting"'),
        (
            'phrases:\n  rewrite: "{{ fractoin }} it is."\n',
            "2:12: {{ fractoin }} is not known here; did you mean {{ fraction }}?",
        ),
        ("phrases:\n  try: Take 5.\n", "2:13: this wording holds a number; write words only"),
        ('phrases:\n  try: "{{ oh"\n', "2:8: this wording cannot be read ("),
        ('phrases:\n  rewrite: "{{ fraction|loud }}"\n', "2:12: this wording cannot be read ("),
        ("known: [fractoins]\n", '1:9: "fractoins" is no term that is explained'),
        ("pace: 20\n", '1:7: "pace" is "20"; write a whole number from 60 to 250'),
    ],
)
def test_what_is_wrong_is_told_with_its_place(tmp_path: Path, text: str, fault: str) -> None:
    with pytest.raises(FaultsFound) as raised:
        lesson(tmp_path, text)
    assert str(raised.value).startswith(f"{tmp_path / 'mine.yaml'}:{fault}")


class TestTheFile:
    def test_it_is_read_beside_a_review_and_checked(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        review = tmp_path / "week.yaml"
        review.write_text(
            "items:\n  - id: a\n    stem: 1/2 + 1/3\n    boxes: [numerator, denominator]\n", "utf-8"
        )
        voice = tmp_path / "voice.yaml"
        voice.write_text("greeting: Hello from beside.\n", "utf-8")
        assert cli.main(["build", str(tmp_path), "--to", str(tmp_path / "out")]) == 0
        transcript = tmp_path / "out" / "week" / "transcript.txt"
        assert "Hello from beside." in transcript.read_text("utf-8")
        other = tmp_path / "other.yml"
        other.write_text("greeting: Hello from elsewhere.\n", "utf-8")
        words = ["build", str(review), "--to", str(tmp_path / "out"), "--voice", str(other)]
        assert cli.main(words) == 0
        assert "Hello from elsewhere." in transcript.read_text("utf-8")
        voice.write_text("phrases:\n  tyr: Go.\n", "utf-8")
        assert cli.main(["check", str(review)]) == 1
        assert 'voice.yaml:2:3: there is no move "tyr"' in capsys.readouterr().out
        assert cli.main([*words[:-1], str(tmp_path / "none.yaml")]) == 1

    def test_its_pace_is_that_of_the_times(self, tmp_path: Path) -> None:
        voice = tmp_path / "voice.yaml"
        voice.write_text("pace: 100\n", "utf-8")
        assert voice_beside(tmp_path / "week.yaml").pace == 100

    def test_a_commented_example_is_written_once(self, tmp_path: Path) -> None:
        path = tmp_path / "voice.yaml"
        assert cli.main(["starter", "--voice", str(path)]) == 0
        assert path.read_text("utf-8") == EXAMPLE
        assert cli.main(["starter", "--voice", str(path)]) == 2

    def test_the_example_can_be_used_with_every_line_of_it(self, tmp_path: Path) -> None:
        """As written it says nothing; with each # taken away all of it goes."""
        assert said(lesson(tmp_path, EXAMPLE)) == said(lesson(tmp_path))
        text = re.sub(r"^#(?! )", "", EXAMPLE, flags=re.MULTILINE)
        text = re.sub(r"^#( {2,})", r"\1", text, flags=re.MULTILINE)
        voice = lesson(tmp_path, text)
        assert said(voice, "greeting").startswith("Hello and welcome.")
        assert "Pause the video and have a go." in said(voice, "try")
        assert read_voice(tmp_path / "mine.yaml").pace == 135
