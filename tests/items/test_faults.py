"""Every fault a teacher can make, with the whole line that is reported.

The list of faults is the project's own (its design and its first issue); places are counted by
hand: line and column of the offending key, value or character, both from 1.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate.items.loading import load
from narrate.items.messages import nearest
from narrate.items.schema import ItemSource, keys

HEAD = "review: Garden week\nitems:\n"


def item(*lines: str) -> str:
    """A review of one item `bed` whose keys stand on lines 4, 5, ... from column 5."""
    return HEAD + "  - id: bed\n" + "".join(f"    {line}\n" for line in lines)


BOXED = ("stem: 1/2 + 1/4", "boxes: [numerator, denominator]")
BOXES_ARE = "write [number], [numerator, denominator] or [whole, numerator, denominator]"
EXACT = "write one such as 3/4, 2 1/5 or 3/4 + 1/5"
QUOTES = "put text that holds a colon, quotes or brackets on the next line after >-"
REFUSED = "write the value itself, in quotes where it starts with *, & or !"
NEITHER = "add choices: {A: 1/2, B: 3/4} or boxes: [numerator, denominator]"
NAMES = "use letters a to z, digits, - and _, at most 64, a letter or digit first"
ITEMS = "write a list of items, each starting with - id:"
CHOICE = (
    "write one; where choices are sentences, declare the key, and tell the item with told: "
    "if its words are not read"
)

ITEM_FAULTS = {
    "answer beside boxes": (
        item("stem: 1/2 + 1/3 = ?", "boxes: [number]", "answer: 5/6"),
        '6:5: unknown key "answer"; '
        "leave it out: the answer is worked out, and only choices have a key",
    ),
    "answer beside choices": (
        item("stem: 1/2 + 1/3 = ?", "choices: {A: 5/6, B: 2/5}", "answer: A"),
        '6:5: unknown key "answer"; did you mean "key"?',
    ),
    "unknown key": (
        item(*BOXED, "lable: Question 1"),
        '6:5: unknown key "lable"; did you mean "label"?',
    ),
    "key of another place": (
        item("ask: 1/2 + 1/4", "boxes: [number]"),
        '4:5: unknown key "ask"; did you mean "stem"?',
    ),
    "missing stem": (
        item("boxes: [number]"),
        '3:5: the item has no "stem"; add stem: with the words of the question',
    ),
    "missing id": (
        HEAD + "  - stem: 1/2 + 1/4\n    boxes: [number]\n",
        '3:5: the item has no "id"; add id: with a short name such as rain-barrel',
    ),
    "missing ask": (
        item("parts:", "  - boxes: [number]"),
        '5:9: the part has no "ask"; add ask: with the words of the question',
    ),
    "stem in a part": (
        item("parts:", "  - stem: 1/2 + 1/4", "    boxes: [number]"),
        '5:9: unknown key "stem"; did you mean "ask"?',
    ),
    "key twice": (
        item(*BOXED, "stem: 1/3 + 1/4"),
        '6:5: the key "stem" stands twice, first on line 4; keep one of them',
    ),
    "choice twice": (
        item("stem: x", "choices: {A: 1/2, A: 1/3, B: 1/4}"),
        "5:23: choice A stands twice, first on line 5; give each choice its own letter",
    ),
    "choices of one text": (
        item("stem: x", "choices: {A: 1/2, B: '1/2'}", "key: A"),
        "5:26: choices A and B are the same; make every choice different",
    ),
    "one choice": (
        item("stem: x", "choices: {A: 1/2}"),
        "5:14: there is only one choice; give at least two",
    ),
    "small letter": (
        item("stem: x", "choices: {a: 1/2, B: 1/3}"),
        '5:15: "a" is no single capital letter; use A, B, C and so on',
    ),
    "no space after the colon": (
        item("stem: x", "choices: {A:1/2, B: 1/3}"),
        '5:15: "A:1/2" is no single capital letter; put a space after the colon: A: 1/2',
    ),
    "comma inside braces": (
        item("stem: x", "choices: {A: 2,500, B: 3}"),
        '5:20: "500" is no single capital letter; put a choice that holds a comma in quotes',
    ),
    "sentence without key": (
        item("stem: x", "choices: {A: half of it, B: 1/3}"),
        f'5:18: choice "half of it" is no number or expression; {CHOICE}',
    ),
    "mathematics that breaks off, with key": (
        item("stem: x", "choices: {A: half of it, B: 1/3 +}", "key: A"),
        '5:38: "1/3 +" is no number or expression '
        f"(a number or expression was expected after '+'); {EXACT}",
    ),
    "zero denominator": (
        item("stem: x", "choices: {A: 3/0, B: 1/2}"),
        "5:20: a denominator is zero; write a denominator of 1 or more",
    ),
    "zero denominator in the stem": (
        item("stem: What is 3/0 + 1/2?", "boxes: [number]"),
        "4:21: a denominator is zero; write a denominator of 1 or more",
    ),
    "boxes and choices": (
        item("stem: x", "choices: {A: 3/4, B: 1/2}", "boxes: [number]"),
        "6:12: there are both boxes and choices; keep one of the two",
    ),
    "neither": (
        item("stem: 1/2 + 1/4"),
        f"3:5: the item has neither choices nor boxes; {NEITHER}",
    ),
    "neither, in a part": (
        item("parts:", "  - ask: 1/2 + 1/4"),
        f"5:9: the part has neither choices nor boxes; {NEITHER}",
    ),
    "misspelt box": (
        item("stem: x", "boxes: [numerater, denominator]"),
        '5:13: unknown box "numerater"; did you mean "numerator"?',
    ),
    "boxes that do not fit": (
        item("stem: x", "boxes: [whole, denominator]"),
        f"5:12: these boxes do not go together: whole, denominator; {BOXES_ARE}",
    ),
    "no boxes": (item("stem: x", "boxes: []"), f"5:12: no boxes; {BOXES_ARE}"),
    "unit twice": (
        item("stem: x", "boxes: [number, liters]", "unit: liters"),
        "6:11: the unit is given twice; keep it in boxes or in unit, not in both",
    ),
    "key that is no choice": (
        item("stem: x", "choices: {A: 3/4, B: 1/2}", "key: E"),
        '6:10: the key "E" is no choice; name one of A, B',
    ),
    "key without choices": (
        item(*BOXED, "key: A"),
        '6:5: "key" needs choices; add choices, or leave key out',
    ),
    "several keys": (
        item("stem: x", "choices: {A: 3/4, B: 6/8}", "key: A, B"),
        "6:10: the key names several choices; name one, or add select: all",
    ),
    "key named twice": (
        item("stem: x", "choices: [3/4, 6/8]", "select: all", "key: [A, A]"),
        "7:14: the key names A twice; name it once",
    ),
    "select without choices": (
        item(*BOXED, "select: all"),
        '6:5: "select" needs choices; add choices, or leave select out',
    ),
    "select one": (
        item("stem: x", "choices: [3/4, 6/8]", "select: one"),
        '6:13: "select" is "one"; write all, or leave the key out where one choice is right',
    ),
    "model that does not parse": (
        item(*BOXED, "model: 3/4 + + 1"),
        '6:18: "3/4 + + 1" is no number or expression '
        f"(a number or expression was expected after '+'); {EXACT}",
    ),
    "claim that is an equation": (
        item("stem: x", "claim: 2/5 + 1/2 = 3/7"),
        '5:12: "claim" is an equation; write the pupil\'s answer alone, such as 3/7',
    ),
    "claim with an empty box": (
        item("stem: x", "claim: 3/□"),
        '5:12: "claim" has an empty box; write the pupil\'s answer alone, such as 3/7',
    ),
    "unknown way": (
        item(*BOXED, "way: [mixed, crosswise]"),
        '6:18: "way" is "crosswise"; write multiples, product, larger, improper, mixed or '
        "reciprocal",
    ),
    "simplest": (
        item(*BOXED, "simplest: maybe"),
        '6:15: "simplest" is "maybe"; write true or false',
    ),
    "grade": (item(*BOXED, "grade: 9"), '6:12: "grade" is "9"; write a whole number from 3 to 8'),
    "thirteen digits": (
        item("stem: 1/2 + 1234567890123", "boxes: [number]"),
        "4:17: a number of 13 digits; use at most 12 digits",
    ),
    "thirteen digits in a choice": (
        item("stem: x", "choices: [1, '1,234,567,890,123']"),
        "5:19: a number of 13 digits; use at most 12 digits",
    ),
    "alias": (
        item("stem: *other", "boxes: [number]"),
        f"4:11: *other refers to another place; {REFUSED}",
    ),
    "anchor": (
        item("stem: &here x", "boxes: [number]"),
        f"4:11: &here names this place for reuse; {REFUSED}",
    ),
    "tag": (item("stem: !ours x", "boxes: [number]"), f"4:11: !ours is a YAML tag; {REFUSED}"),
    "escaped control character": (
        item('stem: "a\\x07b"', "boxes: [number]"),
        "4:11: the control character U+0007 stands here; remove it",
    ),
    "escaped non-character": (
        item('stem: "a\\uFFFEb"', "boxes: [number]"),
        "4:11: the non-character U+FFFE stands here; remove it",
    ),
    "strip": (
        item(*BOXED, "stimulus: {diagram: {strip: {wholes: 13, parts: 10}}}"),
        '6:42: "wholes" is "13"; write a whole number from 1 to 12',
    ),
    "strip parts": (
        item(*BOXED, "stimulus: {diagram: {strip: {wholes: 1, parts: 101}}}"),
        '6:52: "parts" is "101"; write a whole number from 1 to 100',
    ),
    "long stem": (
        item("stem: " + "x" * 2001, "boxes: [number]"),
        '4:11: "stem" has 2,001 characters; use at most 2,000',
    ),
    "key left open": (
        item(*BOXED, "label:"),
        '6:11: "label" is empty; fill it in, or leave the key out',
    ),
    "list for a text": (
        item("stem: [x]", "boxes: [number]"),
        '4:11: "stem" is a list; write it as one text',
    ),
    "choice beside parts": (
        item("choices: [1/2, 1/3]", "parts:", "  - {ask: y, boxes: [number]}"),
        '4:5: "choices" stands beside parts; move it into its part',
    ),
    "no parts": (
        item("parts: []"),
        '4:12: "parts" is an empty list; write - ask: with the first question',
    ),
    "item that is text": (
        HEAD + "  - hello\n",
        '3:5: an item is "hello" instead of a set of keys; '
        "start it with - id: and write its other keys below",
    ),
}

NAME_FAULTS = {
    "../../bed": f'3:9: the id "../../bed" cannot name files; {NAMES}',
    "-bed": f'3:9: the id "-bed" cannot name files; {NAMES}',
    "b.ed": f'3:9: the id "b.ed" cannot name files; {NAMES}',
    "bèd": f'3:9: the id "bèd" cannot name files; {NAMES}',
    # Microsoft, "Naming Files, Paths, and Namespaces": reserved in any case.
    "CON": '3:9: the id "CON" is reserved on Windows; choose another name',
    "nul": '3:9: the id "nul" is reserved on Windows; choose another name',
    "Lpt1": '3:9: the id "Lpt1" is reserved on Windows; choose another name',
    "com9": '3:9: the id "com9" is reserved on Windows; choose another name',
}

FILE_FAULTS = {
    "empty": ("", "1:1: this file is empty; narrate starter FILE writes one to begin with"),
    "only remarks": (
        "# x\n",
        "1:1: this file is empty; narrate starter FILE writes one to begin with",
    ),
    "list": (
        "- a\n",
        "1:1: this file does not start with the keys of a review; "
        "write review: and items: at its top, the items below",
    ),
    "no items": ("review: x\n", f'1:1: the review has no "items"; {ITEMS}'),
    "items left open": ("items:\n", f'1:7: "items" is empty; {ITEMS}'),
    "empty list": ("items: []\n", "1:8: there are no items; write - id: below items:"),
    "language": (
        "language: xx\n" + HEAD.partition("\n")[2] + "  - {id: a, stem: x, boxes: [number]}\n",
        '1:11: "language" is "xx"; write en, the one language there is',
    ),
    "tab": (
        HEAD + "  - id: bed\n\tstem: x\n",
        "4:1: a tab stands in the indentation; indent with spaces",
    ),
    "colon": (
        item("stem: He said: yes", "boxes: [number]"),
        "4:18: a colon followed by a space is not expected here; "
        "write two lines: `stem: >-`, and below it, further in, `He said: yes`",
    ),
    # The review's keys are the first level, so the twelfth bracket is the thirteenth.
    "nesting": (
        "review: " + "[" * 13 + "]" * 13 + "\n",
        "1:20: this is nested more than 12 levels deep; "
        "a review needs no more than seven; look for a stray bracket or indent",
    ),
    "two documents": (
        item(*BOXED) + "---\n" + item(*BOXED),
        "6:1: a second document starts here; put each review in its own file",
    ),
    "control character": (
        item("stem: a\x00b", "boxes: [number]"),
        "4:12: the control character U+0000 stands here; remove it",
    ),
    "non-character": (
        item("stem: a\ufffeb", "boxes: [number]"),
        "4:12: the non-character U+FFFE stands here; remove it",
    ),
}


def told(folder: Path, text: str, name: str = "garden.yaml") -> list[str]:
    """The faults of a file as they are printed, without its name."""
    file = folder / name
    file.write_text(text, encoding="utf-8", newline="")
    return [str(fault).removeprefix(f"{file}:") for fault in load([file]).faults]


@pytest.mark.parametrize("name", ITEM_FAULTS)
def test_a_faulty_item_is_told_in_one_line_and_left_out(tmp_path: Path, name: str) -> None:
    text, line = ITEM_FAULTS[name]
    good = "  - {id: good, stem: 1/2 + 1/4, boxes: [number]}\n"
    file = tmp_path / "garden.yaml"
    assert told(tmp_path, text + good) == [line]
    (review,) = load([file]).reviews
    assert [entry.id for entry in review.items] == ["good"]


@pytest.mark.parametrize("name", NAME_FAULTS)
def test_an_id_names_files_on_every_system(tmp_path: Path, name: str) -> None:
    text = item(*BOXED).replace("id: bed", f"id: {name}")
    assert told(tmp_path, text) == [NAME_FAULTS[name]]


@pytest.mark.parametrize("name", FILE_FAULTS)
def test_a_file_that_cannot_be_read_builds_nothing(tmp_path: Path, name: str) -> None:
    text, line = FILE_FAULTS[name]
    assert told(tmp_path, text) == [line]
    assert load([tmp_path]).reviews == ()


@pytest.mark.parametrize(
    ("written", "meant"),
    [("kay", "key"), ("wya", "way"), ("lable", "label"), ("chioces", "choices")],
)
def test_the_nearest_key_keeps_the_letters_or_the_first_of_them(written: str, meant: str) -> None:
    assert nearest(written, keys(ItemSource)) == meant


def test_ids_are_unique_whatever_their_case(tmp_path: Path) -> None:
    second = item(*BOXED).removeprefix(HEAD)
    right = 'give one of them an id of its own, such as "{}-2"'
    assert told(tmp_path, item(*BOXED) + second + second.replace("bed", "Bed")) == [
        f'6:9: the id "bed" is taken by the item on line 3; {right.format("bed")}',
        f'9:9: the id "Bed" is taken by the item on line 3, as "bed"; {right.format("Bed")}'
        "; capitals alone do not tell files apart",
    ]


def test_all_faults_of_a_file_come_at_once_in_the_order_of_their_places(tmp_path: Path) -> None:
    text = item("stem: 1/0", "choices: {a: 1/2, B: half of it}", "key: C", "boxs: [number]")
    assert told(tmp_path, "grad: 5\n" + text) == [
        '1:1: unknown key "grad"; did you mean "grade"?',
        "5:13: a denominator is zero; write a denominator of 1 or more",
        '6:15: "a" is no single capital letter; use A, B, C and so on',
        '7:10: the key "C" is no choice; name one of a, B',
        '8:5: unknown key "boxs"; did you mean "boxes"?',
    ]


def test_several_tabs_are_all_told(tmp_path: Path) -> None:
    assert told(tmp_path, "items:\n\t- id: a\n \tstem: x\n") == [
        "2:1: a tab stands in the indentation; indent with spaces",
        "3:2: a tab stands in the indentation; indent with spaces",
    ]


@pytest.mark.parametrize(
    ("data", "place"),
    [(b"review: caf\xe9\n", "1:12"), ("a: 1\n# \u00e9".encode() + b"\xff", "2:4")],
)
def test_a_file_is_utf8(tmp_path: Path, data: bytes, place: str) -> None:
    file = tmp_path / "garden.yaml"
    file.write_bytes(data)
    (fault,) = load([file]).faults
    assert str(fault) == f"{file}:{place}: this file is not UTF-8; save it as UTF-8 (plain text)"


def test_a_file_is_at_most_five_megabytes(tmp_path: Path) -> None:
    line = "1:1: this file is larger than 5 MB; split it into reviews"
    assert told(tmp_path, "#" * 5_000_001) == [line]


def test_the_file_name_names_the_output_folder(tmp_path: Path) -> None:
    line = f'1:1: the file name "garden week" cannot name files; {NAMES}'
    assert told(tmp_path, item(*BOXED), "garden week.yaml") == [line]
    assert load([tmp_path]).reviews == ()


class TestJson:
    """RFC 8259, with the places of its faults."""

    @pytest.mark.parametrize(
        ("text", "line"),
        [
            (
                '{"items": [}',
                "1:12: this is not JSON (a value is missing here)"
                '; write text in quotes, as in "3/4"',
            ),
            ('{"items": []', '1:13: this is not JSON (a comma is missing here); write "," or "}"'),
            ('{"items" []}', '1:10: this is not JSON (a colon is missing here); write ":"'),
            ('{"items": []} x', "1:15: text stands after the end; remove it"),
            (
                "{items: []}",
                '1:2: this is not JSON (a key is missing here); write keys in quotes, as in "stem"',
            ),
            (
                '{"items": "a',
                "1:11: this is not JSON (unterminated string starting)"
                "; close each string on its line; write \\n and \\\\",
            ),
            (
                "[" * 13,
                "1:13: this is nested more than 12 levels deep; "
                "a review needs no more than seven; look for a stray bracket or indent",
            ),
        ],
    )
    def test_syntax(self, tmp_path: Path, text: str, line: str) -> None:
        assert told(tmp_path, text, "garden.json") == [line]

    def test_places_of_values(self, tmp_path: Path) -> None:
        text = '{"items": [\n {"id": "a", "stem": "x",\n  "boxes": ["number"], "model": "3 +"}]}'
        (line,) = told(tmp_path, text, "garden.json")
        assert line.startswith('3:37: "3 +" is no number or expression')

    def test_half_a_surrogate_pair_is_refused(self, tmp_path: Path) -> None:
        text = '{"items": [{"id": "a", "stem": "x\\ud800", "boxes": ["number"]}]}'
        assert told(tmp_path, text, "garden.json") == [
            "1:32: half of a character, U+D800 stands here; remove it"
        ]

    def test_a_line_of_jsonl_that_is_faulty_spoils_no_other(self, tmp_path: Path) -> None:
        good = '{"id": "a", "stem": "1/2 + 1/4", "boxes": ["number"]}'
        text = f'{good}\n\n{{"id": "b",\n{{"id": "c", "stem": "x"}}\n'
        assert told(tmp_path, text, "garden.jsonl") == [
            '3:12: this is not JSON (a key is missing here); write keys in quotes, as in "stem"',
            f"4:1: the item has neither choices nor boxes; {NEITHER}",
        ]
        (review,) = load([tmp_path]).reviews
        assert [entry.id for entry in review.items] == ["a"]
