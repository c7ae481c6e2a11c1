"""Pasted text made a review file: every form of choice, parts, keys, and what must be settled."""

from __future__ import annotations

from pathlib import Path

import pytest

from narrate import cli, pipeline
from narrate.items.item import Review
from narrate.items.loading import load
from narrate.pasting.stacked import unstacked
from narrate.settling import draft

PASTED = """Garden test, week 4

1. The kitchen made 6 liters of lemonade. The class drank 4 2/5 liters.
How many liters of lemonade are left?
A. 2 3/5
B. 1 3/5
C. 2 2/5
D. 1/5
Key: B

2) Noor wants to find 5/6 + 3/8. Which could be the first line of her work?
(A) (5 + 3)/(6 + 8)   (B) 5/24 + 3/24  (C) 20/24 + 9/24  (D) 20/24 - 9/24

3. The first bed got 2 1/5 kilograms of compost. The second bed got 7/10 kilogram.
Part A
How many kilograms of compost did both beds get?
Part B
How many more kilograms did the first bed get than the second bed?
a) 1 1/2
b) 2 9/10
c) 3/10

4. Select all the expressions that are equal to 2/3 + 1/4.
A. 8/12 + 3/12
B. 3/7
C. 1 - 1/12
Answer: A, C
"""


def loaded(text: str, folder: Path) -> tuple[Review, Path]:
    path = folder / "pasted.yaml"
    path.write_text(draft(text, "pasted").text, encoding="utf-8")
    found = load([path])
    assert not found.faults, found.faults
    return found.reviews[0], path


def test_a_draft_is_checked_without_fault_and_solved(tmp_path: Path) -> None:
    review, path = loaded(PASTED, tmp_path)
    outcome = pipeline.check([path])
    assert (outcome.faults, outcome.declined) == ((), ())
    rows = list(pipeline.solve([path]))
    keys = [(row["item"], row["part"], row["key"]) for row in rows]
    assert keys == [
        ("question-1", 1, "B"),
        ("question-2", 1, "C"),
        ("question-3", 1, None),
        ("question-3", 2, "A"),
        ("question-4", 1, ["A", "C"]),
    ]
    assert review.items[2].stimulus is not None
    assert review.items[2].stimulus.text.startswith("The first bed got")


def test_the_heading_is_the_title(tmp_path: Path) -> None:
    review, _ = loaded(PASTED, tmp_path)
    assert review.title == "Garden test, week 4"
    assert len(review.items) == 4


@pytest.mark.parametrize(
    "line", ["Name: ________", "Directions: show your work", "Choose the best answer.", "-- 4 --"]
)
def test_a_line_that_is_no_title_is_told_and_not_taken(line: str, tmp_path: Path) -> None:
    text = f"{line}\n\n1. What is 1/2 + 1/4?\n"
    assert f"# not taken, as it stands before the first number: {line}" in draft(text, "w-1").text
    assert loaded(text, tmp_path)[0].title == "pasted"


AS_CHECKED = """1. Which number is a multiple of 6?
A. 15
B. 18
C. 20
2. Round 3.47 to the nearest tenth.
A. 3.4
B. 3.5
3. Ana has 12 plums and buys 5 more. Which equation shows how many plums p she has now?
A. 12 + 5 = p
B. 12 - 5 = p
4. Which number is a factor of 36 but not of 24?
A. 12
B. 18
5. Class begins at 9:00 a.m. and has a break of 45 minutes. When does it end?
A. 9:45 a.m.
B. 9:15 a.m.
6. Part A
What is 1/2 + 1/4?
Part B
How do plums grow?
7. What is 1/2 + 1/8?
A. 5/8
B. 2/10
Key: B
"""


def test_a_draft_says_what_check_says_and_where_and_counts_it(tmp_path: Path) -> None:
    """The comments are those of `check`, behind the question they are about, and no others."""
    made = draft(AS_CHECKED, "pasted")
    path = tmp_path / "pasted.yaml"
    path.write_text(made.text, encoding="utf-8")
    outcome = pipeline.check([path])
    said = [str(fault).split(": ", 1)[1] for fault in outcome.faults]
    said += [line.split(": ", 2)[2] for line in outcome.declined]
    blocks = {b[:1]: b for b in made.text.split("- id: question-")[1:]}
    told = {
        number: [w.split("\n")[0].strip() for w in block.split("# to settle: ")[1:]]
        for number, block in blocks.items()
    }
    assert [n for n, words in told.items() if words] == ["5", "6", "7"]
    comments = [words for block in told.values() for words in block]
    assert len(comments) == len(said)
    assert all(any(line.startswith(words) for line in said) for words in comments)
    assert blocks["6"].index("How do plums") < blocks["6"].index("# to settle")
    assert (made.items, made.to_settle) == (7, 3)


@pytest.mark.parametrize("form", ["{}. ", "({}) ", "{}) "])
@pytest.mark.parametrize("letters", ["ABC", "abc"])
def test_every_form_of_letters(form: str, letters: str, tmp_path: Path) -> None:
    lines = [
        form.format(letter) + value for letter, value in zip(letters, ("1", "2", "3"), strict=True)
    ]
    text = "\n".join(["1. What is 1/2 + 3/2?", *lines, "key: b"])
    part = loaded(text, tmp_path)[0].items[0].parts[0]
    assert [(c.letter, c.text) for c in part.choices] == [("A", "1"), ("B", "2"), ("C", "3")]
    assert part.key == ("B",)


LAYOUTS = """Question 1
A cook has 3/4 cup of oats and adds ⅛ cup more.
How many cups of oats are there now?
   A) 4/12   B) 7/8   C) 1/2   D) 5/8
KEY - B

Question 2.
What is
  3     1
 --- + --- ?
  4     5
A.  19
   ----
    20
B.   4
    ---
     9
(C) 4/20
Answer: A

3. Part A
Sol has 2 ½ pounds of rice and uses 3⁄4 pound. How many pounds of rice are left?
Part B: How many pounds of rice are 1 1/2 + 1/4 pounds?
a) 1 3/4   b) 1 2/6   c) 1

4) A pan holds 12 rolls. The class baked 30 rolls. How many pans are needed?
A 2
B 3
C 18
Correct answer: B
"""


def test_every_layout_of_choices_keys_and_fractions(tmp_path: Path) -> None:
    """Side by side in small letters, bare letters, fractions over three lines, glyphs."""
    review, path = loaded(LAYOUTS, tmp_path)
    asks = [part.ask for item in review.items for part in item.parts]
    assert asks[1] == "What is 3/4 + 1/5 ?"
    choices = [{c.letter: c.text for c in p.choices} for i in review.items for p in i.parts]
    assert choices[0] == {"A": "4/12", "B": "7/8", "C": "1/2", "D": "5/8"}
    assert choices[1] == {"A": "19/20", "B": "4/9", "C": "4/20"}
    assert choices[3] == {"A": "1 3/4", "B": "1 2/6", "C": "1"}
    assert choices[4] == {"A": "2", "B": "3", "C": "18"}
    assert [p.key for i in review.items for p in i.parts] == [("B",), ("A",), (), (), ("B",)]
    two = draft("1. Which is equal to 1/2?\nA. 2\n4\nB. 3/6\n", "two").text
    assert 'A: "2 4"  # a fraction? write 3/4' in two
    answers = [row["answer"] for row in pipeline.solve([path])][:3]
    assert answers == ["7/8", "19/20", "7/4"]


@pytest.mark.parametrize(
    "lines",
    [
        ["3", "---", "x"],
        ["3 4", "---", "5 6"],
        ["3", "5", "8"],
        ["- - -", "---", "- - -"],
        ["A. 3", "B. ---", "4"],
    ],
)
def test_lines_that_are_no_fraction_stay(lines: list[str]) -> None:
    assert unstacked(lines) == lines


def test_items_without_numbers_stand_apart_by_empty_lines(tmp_path: Path) -> None:
    text = "What is 1/2 + 1/4?\nA. 3/4\nB. 2/6\n\nWhat is 1/2 + 1/8?\nA. 5/8\nB. 2/10\n"
    asks = [item.parts[0].ask for item in loaded(text, tmp_path)[0].items]
    assert asks == ["What is 1/2 + 1/4?", "What is 1/2 + 1/8?"]


def test_what_is_not_certain_is_told_in_a_comment(tmp_path: Path) -> None:
    text = "1. Ana has 12 plums and Ben doubles that. How many do they have?\nKey: the second\n"
    made = draft(text, "pasted").text
    assert "# to settle: I found 12 in the words" in made
    assert "# compare with what is worked out: the text says “Key: the second”" in made
    loaded(text, tmp_path)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "\n\n\n",
        "1. \n2. \n",
        'What is "1/2" + 1/4? \\ # : - {x} [y] & *z !t |',
        "1. {{ 7*7 }} <script>alert(1)</script> \u202e\x00\x07 😀 What is 1/2 + 1/4?\n"
        "A. <b>3/4</b>\nB. 1",
        "(A) (A) (A)\nKey:\nPart A\nPart A\n",
        "A. 1\nA. 2\n" * 50,
        "1. " + "((((" * 5_000,
    ],
)
def test_hostile_text_makes_a_file_that_loads(text: str, tmp_path: Path) -> None:
    """Every character stands escaped; at worst the items are at fault, never the file's form."""
    path = tmp_path / "pasted.yaml"
    path.write_text(draft(text, "pasted").text, encoding="utf-8")
    for fault in load([path]).faults:
        assert "\x00" not in str(fault)
        assert fault.wrong


class TestCommand:
    def test_it_writes_beside_the_text_and_never_over_a_file(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        source = tmp_path / "week.txt"
        source.write_text(PASTED, encoding="utf-8")
        assert cli.main(["draft", str(source)]) == 0
        assert (tmp_path / "week.yaml").exists()
        printed = capsys.readouterr().out
        assert "is written; 4 items, none to settle;" in printed
        assert f"next: narrate check {tmp_path / 'week.yaml'}" in printed
        assert cli.main(["draft", str(source)]) == 2
        assert "is there already" in capsys.readouterr().err
        assert cli.main(["draft", str(source), "--to", str(tmp_path / "other.yaml")]) == 0

    def test_a_file_that_is_no_text(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        source = tmp_path / "week.txt"
        source.write_bytes(b"\xff\xfe\x00")
        assert cli.main(["draft", str(source)]) == 2
        assert "cannot be read as text" in capsys.readouterr().err
        assert cli.main(["draft", str(tmp_path / "none.txt")]) == 2
        none = capsys.readouterr().err
        assert "there is no file" in none
        assert "UTF-8" not in none


def test_boxes_are_those_of_what_is_worked_out(tmp_path: Path) -> None:
    text = (
        "1. Each cup of soup takes 2/3 cup of stock. How much stock do 4 cups take?\n\n"
        "2. Mo ate 1/3 of a pie and Bo ate 1/4 of the pie. How much of the pie did they eat?\n\n"
        "3. A rake costs $9.25 and a hoe costs $4.50. How much do both cost?\n\n"
        "4. What is 3/4 + 3/4 as an improper fraction?\n"
    )
    boxes = [item.parts[0].boxes for item in loaded(text, tmp_path)[0].items]
    two = ("numerator", "denominator")
    assert boxes == [("whole", *two), two, ("number",), two]


@pytest.mark.parametrize("key", ["Key: 2 2/3", "Answer: 2 2/3 cups", "Key: 8/3"])
def test_a_key_without_choices_that_is_worked_out_is_no_matter(key: str) -> None:
    made = draft(
        f"1. Each cup of soup takes 2/3 cup of stock. How much stock do 4 cups take?\n{key}\n", "a"
    )
    assert ("#" in made.text.split("items:")[1], made.to_settle) == (False, 0)


@pytest.mark.parametrize(
    ("key", "told"),
    [
        ("Key: 2 1/3", "the text's key is “2 1/3”, but 2 2/3 is worked out"),
        ("Answer: 12 cups", "the text's key is “12 cups”, but 2 2/3 is worked out"),
    ],
)
def test_a_key_without_choices_that_differs_is_told_once(key: str, told: str) -> None:
    made = draft(
        f"1. Each cup of soup takes 2/3 cup of stock. How much stock do 4 cups take?\n{key}\n", "a"
    )
    assert made.text.count("to settle") == 1
    assert told in made.text


def test_a_key_told_in_the_words_of_a_choice_is_its_letter(tmp_path: Path) -> None:
    text = "1. What is 1/2 + 1/4?\nA. 3/4\nB. 2/6\nKey: 3/4\n"
    assert loaded(text, tmp_path)[0].items[0].parts[0].key == ("A",)


def test_letters_that_change_from_item_to_item() -> None:
    """Papers with F, G, H, J on every second item: common practice, no source."""
    made = draft(
        "1. What is 3 + 4?\nF. 5\nG. 6\nH. 7\nJ. 8\nKey: H\n\n"
        "2. What is 9 − 4?\nF. 5  G. 6  H. 7  J. 8\n",
        "paper",
    )
    assert (made.items, made.to_settle) == (2, 0)
    assert made.text.count('J: "8"') == 2
