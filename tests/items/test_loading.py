"""What a teacher writes comes out as it was meant."""

from __future__ import annotations

import json
from importlib.resources import files
from pathlib import Path

import pytest

from narrate.exact.parser import parse
from narrate.items.item import Choice, Item, Part, Review, StripGiven
from narrate.items.loading import load

GARDEN = """\
review: Garden week
grade: 4
source: our own
items:
  - id: rain-barrel
    label: Question 7
    standard: 5.NF.A.2
    stem: >-
      A rain barrel is 3/4 full.
      A shower adds another 1/5 of the barrel.
    choices: {A: 4/9, B: 19/20 of the barrel, C: 9/10}
    key: B
    note: whatever [we] like
  - id: compost
    grade: 6
    stimulus:
      text: The first bed got 2 1/5 kilograms.
      diagram: {strip: {wholes: 3, parts: 10}}
    parts:
      - ask: How many kilograms?
        boxes: [whole, numerator, denominator, kilograms]
        model: 2 1/5 + 7/10
        way: improper, product
      - ask: Which are equal?
        choices: [6/8, 3/4 + 0, 1/2]
        select: all
        key: A, B
      - ask: What went wrong?
        claim: 3/7
        model: 2/5 + 1/2
"""


def review_of(folder: Path, text: str, name: str = "garden-week.yaml") -> Review:
    file = folder / name
    file.write_text(text, encoding="utf-8")
    loaded = load([file])
    assert loaded.faults == ()
    (review,) = loaded.reviews
    return review


def part_of(folder: Path, *lines: str) -> Part:
    text = "items:\n  - id: a\n" + "".join(f"    {line}\n" for line in lines)
    (item,) = review_of(folder, text).items
    (part,) = item.parts
    return part


@pytest.fixture
def items(tmp_path: Path) -> tuple[Item, ...]:
    return review_of(tmp_path, GARDEN).items


def test_a_review(tmp_path: Path) -> None:
    review = review_of(tmp_path, GARDEN)
    assert (review.id, review.title, review.grade, review.language) == (
        "garden-week",
        "Garden week",
        4,
        "en",
    )


def test_an_item_without_parts_asks_its_stem(items: tuple[Item, ...]) -> None:
    barrel = items[0]
    (part,) = barrel.parts
    assert (barrel.label, barrel.standard, barrel.grade) == ("Question 7", "5.NF.A.2", 4)
    assert part.ask == "A rain barrel is 3/4 full. A shower adds another 1/5 of the barrel."
    assert part.choices[1] == Choice(
        letter="B", text="19/20 of the barrel", tree=parse("19/20"), unit="of the barrel"
    )
    assert part.key == ("B",)
    assert (barrel.place.line, barrel.place.column) == (5, 5)


def test_parts_share_a_stimulus(items: tuple[Item, ...]) -> None:
    compost = items[1]
    assert compost.label == "Question 2"  # by position
    assert compost.grade == 6
    assert compost.stimulus is not None
    assert compost.stimulus.text == "The first bed got 2 1/5 kilograms."
    assert compost.stimulus.diagram == StripGiven(wholes=3, parts=10)
    assert [part.number for part in compost.parts] == [1, 2, 3]
    assert [part.place.line for part in compost.parts] == [20, 24, 28]


def test_how_a_part_is_answered(items: tuple[Item, ...]) -> None:
    boxed, several, claimed = items[1].parts
    assert (boxed.boxes, boxed.unit) == (("whole", "numerator", "denominator"), "kilograms")
    assert (boxed.model, boxed.ways) == (parse("2 1/5 + 7/10"), ("improper", "product"))
    assert [choice.letter for choice in several.choices] == ["A", "B", "C"]
    assert (several.select_all, several.key) == (True, ("A", "B"))
    assert claimed.claim == parse("3/7")


def test_a_stem_beside_parts_is_shared_by_them(tmp_path: Path) -> None:
    text = "items:\n  - {id: a, stem: Two beds., parts: [{ask: 1/2 + 1/4, boxes: number}]}\n"
    (item,) = review_of(tmp_path, text).items
    assert item.stimulus is not None
    assert item.stimulus.text == "Two beds."


@pytest.mark.parametrize("text", ["3/4", "12:30", "no", "2 1/5", "0x1F", "1e3", "~", "2026-01-02"])
def test_scalars_are_text_as_written(tmp_path: Path, text: str) -> None:
    """Each would be a number, a truth value, a date or nothing to YAML 1.1 (yaml.org/type)."""
    assert part_of(tmp_path, f"stem: {text}", "boxes: [number]").ask == text


def test_sentences_are_choices_where_the_key_is_declared(tmp_path: Path) -> None:
    part = part_of(tmp_path, "stem: x", "choices: {A: Add the tops only., B: 3/4}", "key: A")
    assert [choice.tree for choice in part.choices] == [None, parse("3/4")]


def test_a_sentence_with_two_numbers_has_no_unit(tmp_path: Path) -> None:
    """What it states is known; the second number is no unit of the first."""
    part = part_of(tmp_path, "stem: x", "choices: [3/4 is more than 2/3, It is less]", "key: A")
    said = "3/4 is more than 2/3"
    assert part.choices[0] == Choice(letter="A", text=said, tree=parse("3/4 > 2/3"))


@pytest.mark.parametrize(
    "boxes", ["[number]", "number", "\n      - number", "[number, square feet]"]
)
def test_boxes_in_every_way_of_writing(tmp_path: Path, boxes: str) -> None:
    part = part_of(tmp_path, "stem: x", f"boxes: {boxes}")
    assert part.boxes == ("number",)
    assert part.unit == ("square feet" if "feet" in boxes else "")


def test_a_byte_order_mark_and_other_line_ends_are_welcome(tmp_path: Path) -> None:
    file = tmp_path / "garden.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + GARDEN.replace("\n", "\r\n").encode())
    loaded = load([file])
    assert loaded.faults == ()
    assert loaded.reviews[0].items[1].place.line == 14


def test_json_and_yaml_read_alike(tmp_path: Path) -> None:
    """PyYAML turns the review into the objects that json writes; 3/4 is text to both."""
    rain = {"id": "a", "stem": "x\u00e9\U0001f331 3/4", "choices": ["1/2", "1/3"], "key": None}
    written = json.dumps({"review": "W", "items": [rain]})
    (one,) = review_of(tmp_path, written, "one.json").items
    (two,) = review_of(tmp_path, json.dumps(rain) + "\n", "two.jsonl").items
    assert one.parts[0].ask == two.parts[0].ask == "x\u00e9\U0001f331 3/4"
    assert one.parts[0].choices == two.parts[0].choices
    assert one.parts[0].key == ()


class TestPaths:
    def test_a_folder_gives_its_files_sorted_and_no_deeper(self, tmp_path: Path) -> None:
        text = "items: [{id: a, stem: 1/2 + 1/4, boxes: [number]}]\n"
        (tmp_path / "deeper").mkdir()
        for name in ("b.yml", "a.yaml", "deeper/c.yaml", ".hidden.yaml", "notes.txt"):
            (tmp_path / name).write_text(text, encoding="utf-8")
        loaded = load([tmp_path, tmp_path / "a.yaml"])
        assert [review.id for review in loaded.reviews] == ["a", "b"]
        assert loaded.faults == ()

    def test_a_folder_without_items(self, tmp_path: Path) -> None:
        (fault,) = load([tmp_path]).faults
        assert str(fault) == (
            f"{tmp_path}:1:1: this folder holds no items; add .yaml, .yml, .json or .jsonl files"
        )

    def test_a_missing_path(self, tmp_path: Path) -> None:
        (fault,) = load([tmp_path / "none.yaml"]).faults
        wrong = "there is no such file or folder; check its name"
        assert str(fault) == f"{tmp_path / 'none.yaml'}:1:1: {wrong}"

    @pytest.mark.parametrize("name", ["x" * 5000 + ".yaml", "a\0b.yaml"])
    def test_a_path_no_system_has(self, name: str) -> None:
        assert len(load([Path(name)]).faults) == 1

    def test_another_kind_of_file(self, tmp_path: Path) -> None:
        (tmp_path / "a.txt").write_text("x", encoding="utf-8")
        (fault,) = load([tmp_path / "a.txt"]).faults
        assert fault.wrong == "this kind of file is not read"

    def test_two_reviews_of_one_name_would_share_a_folder(self, tmp_path: Path) -> None:
        text = "items: [{id: a, stem: 1/2 + 1/4, boxes: [number]}]\n"
        for name in ("a.yaml", "a.yml"):
            (tmp_path / name).write_text(text, encoding="utf-8")
        loaded = load([tmp_path])
        assert len(loaded.reviews) == 1
        assert [str(fault) for fault in loaded.faults] == [
            f"{tmp_path / 'a.yml'}:1:1: another review, {tmp_path / 'a.yaml'}, "
            'is called "a" as well; '
            "give each file its own name: it names the output folder"
        ]


def test_the_starter_shows_every_form_and_has_no_fault(tmp_path: Path) -> None:
    text = files("narrate.items").joinpath("starter.yaml").read_text(encoding="utf-8")
    parts = [part for item in review_of(tmp_path, text).items for part in item.parts]
    assert any(part.choices and part.model for part in parts)
    assert any(part.boxes and part.unit for part in parts)
    assert any(part.number == 2 for part in parts)
