"""Whatever is wrong with a file is told through the command line: where, what, and what is right.

The list of faults is the project's own (what a teacher can get wrong in a file); places are counted
by hand: line and column, both from 1.
"""

from __future__ import annotations

import html
import json
import re
from collections import Counter
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
import webvtt
from pptx import Presentation

from narrate.cli import main

HEAD = "review: Garden week\nitems:\n  - id: bed\n"
GOOD = "  - {id: good, stem: 1/2 + 1/4, boxes: [numerator, denominator]}\n"


def item(*lines: str) -> str:
    """A review of one item whose keys stand on lines 4, 5, ... from column 5."""
    return HEAD + "".join(f"    {line}\n" for line in lines)


BOXED = ("stem: 1/2 + 1/4", "boxes: [numerator, denominator]")

FAULTS: dict[str, tuple[str, str, str, str]] = {
    # what is wrong with the file: its text, the place, words of what is wrong, words of the remedy
    "unknown key": (item(*BOXED, "lable: One"), "6:5", '"lable"', 'did you mean "label"?'),
    "missing stem": (item("boxes: [number]"), "3:5", 'no "stem"', "add stem:"),
    "duplicate id": (
        item(*BOXED) + "  - {id: bed, stem: 1/2 + 1/3, boxes: [number]}\n",
        "6:10",
        'the id "bed" is taken by the item on line 3',
        'give one of them an id of its own, such as "bed-2"',
    ),
    "ids that differ by case": (
        item(*BOXED) + "  - {id: BED, stem: 1/2 + 1/3, boxes: [number]}\n",
        "6:10",
        'the id "BED" is taken by the item on line 3, as "bed"',
        'such as "BED-2"; capitals alone do not tell files apart',
    ),
    "duplicate choice": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, A: 2/6, B: 1/4}"),
        "5:23",
        "choice A stands twice",
        "its own letter",
    ),
    "choice that is no number": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, B: a lot of it}"),
        "5:26",
        'choice "a lot of it" is no number or expression',
        "where choices are sentences, declare the key",
    ),
    "zero denominator": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, B: 3/0}"),
        "5:28",
        "a denominator is zero",
        "write a denominator of 1 or more",
    ),
    "zero denominator in the stem": (
        item("stem: 1/2 + 3/0", "boxes: [number]"),
        "4:19",
        "a denominator is zero",
        "write a denominator of 1 or more",
    ),
    "zero denominator in the model": (
        item(*BOXED, "model: 1/2 + 1/00"),
        "6:20",
        "a denominator is zero",
        "write a denominator of 1 or more",
    ),
    "both boxes and choices": (
        item(*BOXED, "choices: {A: 3/4, B: 2/6}"),
        "6:14",
        "both boxes and choices",
        "keep one of the two",
    ),
    "neither boxes nor choices": (
        item("stem: 1/2 + 1/4"),
        "3:5",
        "neither choices nor boxes",
        "add choices:",
    ),
    "key that is no choice": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, B: 2/6}", "key: E"),
        "6:10",
        'the key "E" is no choice',
        "name one of A, B",
    ),
    "tab": (HEAD + "\tstem: x\n", "4:1", "a tab stands in the indentation", "indent with spaces"),
    "empty": ("", "1:1", "this file is empty", "narrate starter FILE"),
    "remarks alone": ("# later\n", "1:1", "this file is empty", "narrate starter FILE"),
    "no items": ("items: []\n", "1:8", "there are no items", "write - id: below items:"),
    "thirteen digits": (
        item("stem: 1234567890123 + 1/2", "boxes: [number]"),
        "4:11",
        "a number of 13 digits",
        "use at most 12 digits",
    ),
    "alias": (
        item("stem: &it 1/2 + 1/4", "boxes: [number]"),
        "4:11",
        "&it names this place for reuse",
        "write the value itself",
    ),
    "reference": (
        item("stem: *it", "boxes: [number]"),
        "4:11",
        "*it refers to another place",
        "write the value itself",
    ),
    "nesting": (
        item("stem: " + "[" * 40 + "]" * 40, "boxes: [number]"),
        "4:20",
        "nested more than 12 levels deep",
        "look for a stray bracket",
    ),
    "id that leaves the folder": (
        item(*BOXED).replace("bed", "../../bed"),
        "3:9",
        'the id "../../bed" cannot name files',
        "use letters a to z, digits",
    ),
    "id that is a path": (
        item(*BOXED).replace("id: bed", 'id: "C:\\\\bed"'),
        "3:9",
        "cannot name files",
        "use letters a to z, digits",
    ),
    # Microsoft, "Naming Files, Paths, and Namespaces": reserved whatever the case.
    "id that Windows keeps": (
        item(*BOXED).replace("bed", "Aux"),
        "3:9",
        'the id "Aux" is reserved on Windows',
        "choose another name",
    ),
    "control character": (
        item("stem: 1/2\x07 + 1/4", "boxes: [number]"),
        "4:14",
        "the control character U+0007 stands here",
        "remove it",
    ),
    # XML 1.0, section 2.2: no deck can hold it.
    "U+FFFE": (
        item("stem: 1/2\ufffe + 1/4", "boxes: [number]"),
        "4:14",
        "the non-character U+FFFE stands here",
        "remove it",
    ),
    "long stem": (
        item("stem: " + "x" * 2001, "boxes: [number]"),
        "4:11",
        '"stem" has 2,001 characters',
        "use at most 2,000",
    ),
    # What is found by solving is told at the key that has to change.
    "key that is wrong": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, B: 2/6}", "key: B"),
        "6:5",
        "the key says B (2/6), but the answer is 3/4: A (3/4)",
        "correct the key",
    ),
    "no right choice": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/5, B: 2/6}"),
        "5:5",
        "no choice is right: the answer is 3/4",
        "put it among the choices",
    ),
    "two right choices": (
        item("stem: 1/2 + 1/4", "choices: {A: 3/4, B: 6/8}"),
        "5:5",
        "A (3/4) and B (6/8) are both right",
        "simplest: true",
    ),
}

Captured = pytest.CaptureFixture[str]


def write(folder: Path, text: str | bytes, name: str = "bad.yaml") -> Path:
    file = folder / name
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return file


def assert_told(line: str, file: Path, place: str, wrong: str, right: str) -> None:
    """One line: file:line:column: what is wrong; what would be right."""
    assert "\n" not in line
    assert "Traceback" not in line
    start, _, rest = line.partition(f"{file}:{place}: ")
    assert start == "", line
    before, found, after = rest.partition("; ")
    assert found, line
    assert wrong in before
    assert right in after


class TestEveryFault:
    @pytest.mark.parametrize("name", FAULTS)
    def test_check_tells_it(self, tmp_path: Path, capsys: Captured, name: str) -> None:
        text, *told = FAULTS[name]
        file = write(tmp_path, text)
        assert main(["check", str(file)]) == 1
        (line,) = capsys.readouterr().out.splitlines()
        assert_told(line, file, *told)

    @pytest.mark.parametrize("name", FAULTS)
    def test_build_tells_it_and_builds_nothing(
        self, tmp_path: Path, capsys: Captured, name: str
    ) -> None:
        text, *told = FAULTS[name]
        file, to = write(tmp_path, text), tmp_path / "out"
        assert main(["build", str(file), "--to", str(to)]) == 1
        printed = capsys.readouterr()
        assert printed.out == ""
        # Where a second item has the id of the first, the first is good.
        if "taken by" not in told[1]:
            assert not to.exists()
            (line,) = printed.err.splitlines()
            assert_told(line, file, *told)
        else:
            assert_told(printed.err.splitlines()[-1], file, *told)

    @pytest.mark.parametrize("name", FAULTS)
    def test_solve_tells_it_and_solves_nothing_of_it(
        self, tmp_path: Path, capsys: Captured, name: str
    ) -> None:
        text, *told = FAULTS[name]
        file = write(tmp_path, text)
        assert main(["solve", str(file), "--json"]) == 1
        printed = capsys.readouterr()
        rows = [json.loads(line) for line in printed.out.splitlines()]
        faults = [row["message"] for row in rows if row["status"] == "fault"]
        (line,) = faults + printed.err.splitlines()
        assert_told(line, file, *told)


class TestWholeFiles:
    def check(self, capsys: Captured, *paths: Path) -> list[str]:
        assert main(["check", *map(str, paths)]) == 1
        return capsys.readouterr().out.splitlines()

    def test_not_utf8(self, tmp_path: Path, capsys: Captured) -> None:
        file = write(tmp_path, "review: Café\n".encode("cp1252"))
        (line,) = self.check(capsys, file)
        assert_told(line, file, "1:12", "this file is not UTF-8", "save it as UTF-8")

    def test_a_folder_with_no_items(self, tmp_path: Path, capsys: Captured) -> None:
        write(tmp_path, "later", "notes.txt")
        (line,) = self.check(capsys, tmp_path)
        assert_told(line, tmp_path, "1:1", "this folder holds no items", "add .yaml")

    def test_no_such_file(self, tmp_path: Path, capsys: Captured) -> None:
        file = tmp_path / "none.yaml"
        (line,) = self.check(capsys, file)
        assert_told(line, file, "1:1", "there is no such file or folder", "check its name")

    def test_another_kind_of_file(self, tmp_path: Path, capsys: Captured) -> None:
        file = write(tmp_path, "x", "items.docx")
        (line,) = self.check(capsys, file)
        assert_told(line, file, "1:1", "this kind of file is not read", ".yaml")

    @pytest.mark.parametrize("name", ["nul.yaml", "my review.yaml", "-x.yaml", "béd.yaml"])
    def test_a_name_that_cannot_name_a_folder(
        self, tmp_path: Path, capsys: Captured, name: str
    ) -> None:
        file = write(tmp_path, item(*BOXED), name)
        (line,) = self.check(capsys, file)
        assert_told(line, file, "1:1", "the file name", "")

    def test_two_reviews_of_one_name(self, tmp_path: Path, capsys: Captured) -> None:
        """They would be written to one folder; on some disks capitals do not tell them apart."""
        (tmp_path / "more").mkdir()
        files = [write(tmp_path, item(*BOXED)), write(tmp_path / "more", item(*BOXED), "BAD.yaml")]
        (line,) = self.check(capsys, *files)
        assert_told(
            line, files[1], "1:1", f'another review, {files[0]}, is called "BAD"', "its own name"
        )

    @pytest.mark.parametrize("text", ["{", '{"items": [}', "[1, 2", "\0", "{a: b}", "nul"])
    def test_json_that_breaks_off(self, tmp_path: Path, capsys: Captured, text: str) -> None:
        file = write(tmp_path, text, "bad.json")
        for line in self.check(capsys, file):
            assert re.match(re.escape(str(file)) + r":\d+:\d+: [^;]+; .+", line)

    def test_a_line_of_jsonl(self, tmp_path: Path, capsys: Captured) -> None:
        row: dict[str, Any] = {"id": "a", "stem": "1/2 + 1/4", "boxes": ["number"]}
        file = write(tmp_path, f'{json.dumps(row)}\n\n{{"id": "b", stem}}\n', "bad.jsonl")
        (line,) = self.check(capsys, file)
        assert_told(line, file, "3:13", "this is not JSON", "write keys in quotes")


def test_all_faults_of_a_file_come_at_once_in_order(tmp_path: Path, capsys: Captured) -> None:
    text = item("stem: 1/0", "choices: {a: 1/2, B: some}", "key: C", "boxs: [number]") + GOOD
    text += "  - {id: late, stem: 1/2 + 1/4, choices: {A: 3/4, B: 1/6}, key: B}\n"
    file = write(tmp_path, text)
    assert main(["check", str(file)]) == 1
    lines = capsys.readouterr().out.splitlines()
    places = [line.removeprefix(f"{file}:").split(": ")[0] for line in lines]
    assert places == ["4:13", "5:15", "6:10", "7:5", "9:60"]


def test_a_story_that_is_not_read_is_declined_with_what_to_add(
    tmp_path: Path, capsys: Captured
) -> None:
    stem = "stem: Mo picks 3/4 of a basket of beans and then 1/5 of a basket. How much is that?"
    file = write(tmp_path, item(stem, "boxes: [numerator, denominator]"))
    assert main(["build", str(file), "--to", str(tmp_path / "out")]) == 3
    (line,) = capsys.readouterr().err.splitlines()
    assert line.startswith(f"{file}:3:5: bed: ")
    assert "3/4, 1/5" in line
    assert line.endswith("or add a `model:` line that says what to work out")
    assert not (tmp_path / "out").exists()


# -- words that mean something to a format or a program


ASK = "Mo puts 1/2 cup of peas in a bowl and adds 1/4 cup. How many cups is that now?"
HOSTILE = {
    "end of script": "</script><script>alert('x')</script> & <b>",
    "template": "{{ 7*7 }} {% raw %} {# x #} ${7*7}",
    "formula": "=cmd()|'/c calc'!A1 +SUM @x -y",
    "right to left": "\u202eabc\u202c \u200f\u200e \u05d0\u05d1",
    "emoji": "\U0001f955 \U0001f468\u200d\U0001f373 \U0001f1f3\U0001f1f4",
    "captions": "--> WEBVTT NOTE STYLE &lt; <v Mo> {\\an8}",
    "xml": "]]> <!-- <?x ?> &#0; &amp;",
    "quotes": "\"'`\\ \\n %s %(x)s",
    "private use": "\ue000 \ue001 \uf8ff",
}


def built(folder: Path, stem: str, **more: object) -> Path:
    """The folder of a review of one story whose stem begins with hostile words."""
    row = {"id": "bed", "stem": stem, "choices": {"A": "3/4", "B": "2/6"}, "model": "1/2 + 1/4"}
    file = folder / "bad.json"
    file.write_text(json.dumps({**more, "items": [row]}), "utf-8")
    assert main(["build", str(file), "--to", str(folder / "out")]) == 0
    return folder / "out" / "bad"


def squeezed(text: str) -> str:
    """Without white space: lines of a page or a caption break where they will."""
    return "".join(text.split())


def shown(words: str) -> str:
    """Words as they stand on pages and in captions: `7*7` is mathematics, written 7 × 7."""
    return squeezed(words.replace("7*7", "7 × 7"))


def stem_on_slides(deck: Path) -> str:
    """The text of the groups `stem`, slide by slide: a long one goes on on the next."""
    shapes = [shape for slide in Presentation(str(deck)).slides for shape in slide.shapes]
    stems = [inner for shape in shapes if shape.name == "stem" for inner in shape.shapes]
    return squeezed("".join(part.text_frame.text for part in stems if part.has_text_frame))


class _Words(HTMLParser):
    """What a browser shows of a page, and the tags it sees but the headings of slides.

    A stem that is a line longer may take one slide more.
    """

    def __init__(self, page: str) -> None:
        super().__init__()
        self.words: list[str] = []
        self.tags: list[str] = []
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if ("class", "slide") not in attrs:
            self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.words.append(data)


@pytest.fixture(scope="module", params=HOSTILE)
def hostile(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> tuple[str, Path]:
    """Hostile words, and the folder of a review whose stem begins with them."""
    words = HOSTILE[request.param]
    return words, built(tmp_path_factory.mktemp("hostile"), f"{words} {ASK}")


class TestHostileWords:
    def test_on_the_slide_they_are_read_back(self, hostile: tuple[str, Path]) -> None:
        words, folder = hostile
        assert stem_on_slides(folder / "deck.pptx").startswith(shown(words))

    def test_in_the_notes_they_are_read_back(self, hostile: tuple[str, Path]) -> None:
        _, folder = hostile
        notes = Presentation(str(folder / "deck.pptx")).slides[1].notes_slide
        assert said(folder) in notes.notes_text_frame.text

    def test_in_the_script_they_are_words_alone(
        self, hostile: tuple[str, Path], tmp_path: Path
    ) -> None:
        """A browser shows them, and sees not one tag more than beside harmless words."""
        _, folder = hostile
        page = _Words((folder / "script.html").read_text("utf-8"))
        assert squeezed(said(folder)) in squeezed("".join(page.words))
        harmless = _Words((built(tmp_path, f"Listen: {ASK}") / "script.html").read_text("utf-8"))
        assert Counter(page.tags) == Counter(harmless.tags)

    def test_in_the_run_through_they_are_words_alone(
        self, hostile: tuple[str, Path], tmp_path: Path
    ) -> None:
        _, folder = hostile
        page = _Words((folder / "runthrough.html").read_text("utf-8"))
        harmless = built(tmp_path, f"Listen: {ASK}") / "runthrough.html"
        tags = Counter(_Words(harmless.read_text("utf-8")).tags)
        assert set(page.tags) == set(tags)
        assert Counter(page.tags)["script"] == tags["script"] == 1
        assert squeezed(said(folder)) in squeezed("".join(page.words))

    def test_in_captions_they_start_no_cue_and_no_tag(self, hostile: tuple[str, Path]) -> None:
        """WebVTT (W3C): cue text holds no `-->`, and `<` and `&` begin tags and escapes."""
        words, folder = hostile
        text = (folder / "captions.vtt").read_text("utf-8")
        timings = re.findall(r"^[\d:.]+ --> [\d:.]+$", text, re.MULTILINE)
        assert text.count("-->") == len(timings) == len(webvtt.read(str(folder / "captions.vtt")))
        assert "<" not in text
        cues = re.sub(r"^(\d+|[\d:.]+ --> [\d:.]+)$", "", text, flags=re.MULTILINE)
        assert shown(words).replace("-->", "→") in squeezed(html.unescape(cues))


def said(folder: Path) -> str:
    """What is said when the item is read, by lesson.json."""
    beats = json.loads((folder / "lesson.json").read_text("utf-8"))["beats"]
    (read,) = [beat["say"] for beat in beats if beat["id"] == "bed.1.read"]
    assert isinstance(read, str)
    return read


def test_a_template_in_a_stem_is_not_carried_out(tmp_path: Path) -> None:
    folder = built(tmp_path, f"{{{{ 7*7 }}}} {ASK}", review="{{ 7*7 }} {% include 'x' %}")
    assert "{{ seven times seven }} Mo puts" in said(folder)
    title = Presentation(str(folder / "deck.pptx")).slides[0].shapes.title
    assert title is not None
    assert "{{" in title.text_frame.text
    assert "49" not in title.text_frame.text


@pytest.mark.parametrize("filler", ["Mo waters the beans. ", "=x", "\U0001f955", "</script>"])
def test_two_thousand_characters_are_built(tmp_path: Path, filler: str) -> None:
    stem = f"{(filler * 2000)[: 1999 - len(ASK)]} {ASK}"
    assert len(stem) == 2000
    folder = built(tmp_path, stem)
    before, _, _ = stem.partition("1/2")
    assert stem_on_slides(folder / "deck.pptx").startswith(squeezed(before))
