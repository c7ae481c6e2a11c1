"""What stems are read as, and which are declined: expectations worked by hand from the words.

Situations are those of CCSSM (2010), glossary Table 1, as `narrate.reading.reading` names them.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import pytest

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.reading.read import read
from narrate.reading.reading import Reading
from tests.solving import FRACTION, MIXED, NUMBER, load_one, solve_one


def reading(stem: str, **keys: Any) -> Reading:
    if "choices" not in keys and "claim" not in keys:
        keys.setdefault("boxes", FRACTION)
    item = load_one(stem, **keys)
    return read(item, item.parts[0])


def declined(stem: str, **keys: Any) -> Declined:
    with pytest.raises(Declined) as caught:
        reading(stem, **keys)
    return caught.value


# -- bare questions

BARE: list[tuple[str, str]] = [
    ("3/4 + 1/5", "3/4 + 1/5"),
    ("3/4 + 1/5 = ?", "3/4 + 1/5"),
    ("□ = 3/4 + 1/5", "3/4 + 1/5"),
    ("What is 3/4 + 1/5?", "3/4 + 1/5"),
    ("Work out 2 1/5 - 7/10.", "2 1/5 − 7/10"),
    ("Add. 1/2 + 1/3 + 1/4", "1/2 + 1/3 + 1/4"),
    ("Find the value of 1 - (1/3 + 2/5).", "1 − (1/3 + 2/5)"),
    ("What is the sum of 2/3 and 1/4?", "2/3 + 1/4"),
    ("What is the sum of 2/3, 1/4 and 1/6?", "2/3 + 1/4 + 1/6"),
    ("Find the total of 2/3 and 1/4.", "2/3 + 1/4"),
    ("Add 2/3 and 1/4.", "2/3 + 1/4"),
    ("Add 1/4 to 2/3.", "2/3 + 1/4"),
    ("Subtract 1/4 from 2/3.", "2/3 − 1/4"),
    ("What is 2/3 plus 1/4?", "2/3 + 1/4"),
    ("What is 2/3 minus 1/4?", "2/3 − 1/4"),
    ("What is 2/3 plus 1/4 minus 1/6?", "2/3 + 1/4 − 1/6"),
    ("Find the difference between 5/6 and 1/4.", "5/6 − 1/4"),
    ("Find the difference between 1/4 and 5/6.", "5/6 − 1/4"),
    ("Write 8/12 in simplest form.", "8/12"),
    ("3/4 + 1/5 =", "3/4 + 1/5"),
    ("Which one is 3/4 + 1/5?", "3/4 + 1/5"),
    ("What is 3/4 + 1/5 as one fraction?", "3/4 + 1/5"),
    ("Noor works out 3/4 + 1/5. What does she get?", "3/4 + 1/5"),
    ("Noor: 3/4 + 1/5", "3/4 + 1/5"),
    ("To begin finding 7/10 − 1/4, what is first?", "7/10 − 1/4"),
    ("Select all the sums that equal 1.", "1"),
    ("Noor and Wen add 3/4 + 1/5.", "3/4 + 1/5"),
    ("Noor's sum is 3/4 + 1/5. Solve it.", "3/4 + 1/5"),
]


@pytest.mark.parametrize(("stem", "expression"), BARE)
def test_a_bare_question_asks_for_its_expression(stem: str, expression: str) -> None:
    found = reading(stem)
    assert write(found.expression) == expression
    assert (found.goal.form, found.situation, found.story) == ("value", "bare", False)


class Asked(NamedTuple):
    form: str
    shape: str = "any"
    simplest: bool = False


FORMS: list[tuple[str, dict[str, Any], Asked]] = [
    ("What is 3/4 + 1/5?", {"choices": {"A": "4/9", "B": "19/20"}}, Asked("value")),
    (
        "Which could be the first line of work for 3/4 + 1/5?",
        {"choices": {"A": "15/20 + 4/20", "B": "4/9 + 1/9"}},
        Asked("first line"),
    ),
    (
        "Which expression is equal to 3/4 + 1/5?",
        {"choices": {"A": "15/20 + 4/20", "B": "4/9 + 1/9"}},
        Asked("equivalent"),
    ),
    (
        "Which fraction is equal to 2/3?",
        {"choices": {"A": "8/12", "B": "4/3"}},
        Asked("equivalent"),
    ),
    (
        "Select all that are equal to 1/2 + 1/4.",
        {"choices": {"A": "3/4", "B": "6/8", "C": "2/6"}, "select": "all"},
        Asked("equivalent"),
    ),
    ("3/4 + □ = 19/20", {"boxes": FRACTION}, Asked("missing")),
    ("3/4 = □/20", {"boxes": NUMBER}, Asked("missing")),
    (
        "How could Ana find 3/4 + 1/5?",
        {
            "model": "3/4 + 1/5",
            "choices": {"A": "Use twentieths.", "B": "Add the numerators."},
            "key": "A",
        },
        Asked("told"),
    ),
    (
        "Tavi says that 3/4 + 1/5 is 4/9. What went wrong?",
        {"model": "3/4 + 1/5", "claim": "4/9"},
        Asked("claim"),
    ),
    ("What is 1/4 + 1/4 in simplest form?", {}, Asked("value", simplest=True)),
    ("What is 1/4 + 1/4 in lowest terms?", {}, Asked("value", simplest=True)),
    ("Add 1/4 and 1/4. Simplify.", {}, Asked("value", simplest=True)),
    ("What is 1/4 + 1/4?", {"simplest": True}, Asked("value", simplest=True)),
    ("What is 3/4 + 3/4 as a mixed number?", {"boxes": MIXED}, Asked("value", "mixed")),
    ("What is 3/4 + 3/4 as an improper fraction?", {}, Asked("value", "improper")),
]


@pytest.mark.parametrize(("stem", "keys", "asked"), FORMS)
def test_the_form_of_a_question(stem: str, keys: dict[str, Any], asked: Asked) -> None:
    goal = reading(stem, **keys).goal
    assert Asked(goal.form, goal.shape, goal.simplest) == asked


# -- stories, told by a `model:` line


class Story(NamedTuple):
    stem: str
    model: str
    situation: str
    noun: str
    misleading: str = ""


STORIES = [
    Story(
        "A rain barrel is 3/4 full. A shower adds another 1/5 of the barrel. "
        "What fraction of the barrel is full now?",
        "3/4 + 1/5",
        "add to",
        "a fraction of the barrel",
    ),
    Story(
        "After the class used 1/4 of the seeds, 2/3 of the seeds were left. "
        "What fraction of the seeds was there at first?",
        "2/3 + 1/4",
        "start",
        "a fraction of the seeds",
        "left",
    ),
    Story(
        "The soup needs 1/2 liter of stock and 1/3 liter of water. How many liters is that in all?",
        "1/2 + 1/3",
        "put together",
        "a number of liters",
    ),
    Story(
        "The bean vine is 3/4 meter long. The squash vine is 1/5 meter longer than the bean vine. "
        "How long is the squash vine?",
        "3/4 + 1/5",
        "larger",
        "a length",
    ),
    Story(
        "The bean vine is 3/4 meter long. The pea vine is 1/5 meter shorter than the bean vine. "
        "How long is the pea vine?",
        "3/4 - 1/5",
        "smaller",
        "a length",
    ),
    Story(
        "The jug held 7/8 liter. Noor poured 1/4 liter on the basil. How much was left?",
        "7/8 - 1/4",
        "take from",
        "an amount",
    ),
    Story(
        "Of the bed, 7/8 is planted. Peas fill 1/4 of the bed. Beets fill the rest. "
        "What fraction of the bed is beets?",
        "7/8 - 1/4",
        "take apart",
        "a fraction of the bed",
    ),
    Story(
        "Wen picked 5/6 kilogram of plums and Tavi 1/4 kilogram. "
        "How much more did Wen pick than Tavi?",
        "5/6 - 1/4",
        "difference",
        "an amount",
        "more",
    ),
    Story(
        "The bin was 1/2 full. Pupils put in 1/3 and took out 1/4. How full is it now?",
        "1/2 + 1/3 - 1/4",
        "in and out",
        "",
    ),
]


COMPARED_IN_WORDS = [
    ("Ilse has 3/4 cup. Rui has three more than Ilse.", "3/4 + 3", "larger"),
    ("Rui's bean is one fourth of a foot taller than Ilse's 5/6 foot.", "5/6 + 1/4", "larger"),
    ("The squash is ¼ meter longer than the bean, which is 3/4 meter.", "3/4 + 1/4", "larger"),
    ("Wen walked half a mile farther than Noor, who walked 2/3 mile.", "2/3 + 1/2", "larger"),
    ("Of 3/4 bag, Wen took two fifths fewer than Ana took.", "3/4 - 2/5", "smaller"),
    ("Two beds are 3/4 full and wider than the third, which is 1/2 full.", "3/4 + 1/2",
     "put together"),
    ("Ana picked the one wider than this, 3/4 foot, and 1/2 foot.", "3/4 + 1/2", "put together"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "model", "situation"), COMPARED_IN_WORDS)
def test_a_comparison_by_an_amount_in_words_is_one(stem: str, model: str, situation: str) -> None:
    """CCSSM glossary, Table 1, compare: bigger unknown, smaller unknown."""
    assert reading(f"{stem} How much is it?", model=model).situation == situation


def test_how_long_asks_for_a_time_where_hours_are_told() -> None:
    stem = "Bo weeds for 1/2 hour and rakes for 3/4 hour. How long does he work?"
    assert reading(stem, model="1/2 + 3/4").unknown.noun == "a length of time"


@pytest.mark.parametrize(
    ("stem", "amounts", "noun"),
    [
        (
            "There were 64 seed packets in a drawer. The class used 26 of them. "
            "How many seed packets are in the drawer now?",
            ["64 seed packets", "26"],
            "a number of seed packets",
        ),
        (
            "Mia picked 12 red apples and 9 green apples. How many apples did she pick in all?",
            ["12 red apples", "9 green apples"],
            "a number of apples",
        ),
        (
            "Bo pours 12 liters and Noor pours 7 liters. How many liters is that in all?",
            ["12 liters", "7 liters"],
            "a number of liters",
        ),
    ],
)
def test_things_of_two_words_are_named_whole(stem: str, amounts: list[str], noun: str) -> None:
    found = reading(stem, boxes=NUMBER)
    assert [t.text for t in found.tellings if t.role == "amount"] == amounts
    assert found.unknown.noun == noun


def test_the_telling_phrase_stands_beside_its_amount() -> None:
    found = reading(STORIES[3].stem, model=STORIES[3].model)
    told = [telling.text for telling in found.tellings if telling.role == "relationship"]
    assert told == ["longer than"]


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.situation)
def test_a_story_is_told_by_its_model(story: Story) -> None:
    found = reading(story.stem, model=story.model)
    assert found.story
    assert (found.situation, found.unknown.noun) == (story.situation, story.noun)
    assert found.misleading == story.misleading
    assert write(found.expression) == story.model.replace("-", "−")


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story.situation)
def test_telling_phrases_stand_where_they_say(story: Story) -> None:
    """Each is cut from the stem, and every amount of the model is among them."""
    found = reading(story.stem, model=story.model)
    assert all(story.stem[t.start : t.end] == t.text for t in found.tellings)
    amounts = [t.text.split()[0] for t in found.tellings if t.role == "amount"]
    assert sorted(amounts) == sorted(story.model.replace("+", "-").split(" - "))
    assert found.unknown.question in story.stem
    assert found.unknown.question.endswith("?")


def test_a_number_that_the_model_does_not_use_is_no_amount() -> None:
    """The time is told and not needed."""
    stem = "In 2/3 hour Ana picked 3/4 kilogram of peas and 1/5 kilogram of beans. How much in all?"
    tellings = reading(stem, model="3/4 + 1/5").tellings
    assert [t.text for t in tellings if t.role == "amount"] == ["3/4 kilogram", "1/5 kilogram"]


# -- declined


READY = [
    (
        "The gardener wonders about 3/4 + 1/5.",
        "I found 3/4 + 1/5 in the words, but I do not see what one thing is asked",
        ["`model: 3/4 + 1/5`"],
    ),
]


def test_where_nothing_is_known_the_form_is_shown_and_no_line_is_ready() -> None:
    error = declined("How many beans are in the jar?")
    assert error.understood == "I found no numbers to work with"
    assert error.add.endswith("that says what to work out, in the form `model: 3/4 + 1/5`")
    assert "such as" not in error.add
    one = declined("Some of the 9 beans are in the jar. How many of them are red?")
    assert one.add == (
        "say “How many of them are red?” in plainer words, "
        "or add a `model:` line that says what to work out"
    )


def test_a_question_that_asks_for_no_amount_is_the_sentence_to_say_plainly() -> None:
    error = declined("A barrel is 3/4 full. A shower adds another 1/5. Where does it stand?")
    assert error.understood.startswith("I found 3/4, 1/5 in the words, but I do not see what")
    assert error.add.startswith("say “Where does it stand?” in plainer words, or add a `model:`")


def test_times_of_day_are_named_and_not_called_missing_numbers() -> None:
    error = declined("Ivo worked from 9:20 until 10:05. How long did he work?")
    assert (
        error.understood
        == "I found times of day (9:20, 10:05), but I am not sure what is asked of them"
    )
    assert "`told:`" in error.add
    assert "`model:" not in error.add


def test_three_amounts_that_are_not_read_have_no_line_ready() -> None:
    error = declined("Noor has 2 1/5 liters, Wen 7/10 liter and Tavi 1/2 liter. How much is it?")
    assert error.add == (
        "say “How much is it?” in plainer words, or add a `model:` line that says what to work out"
    )


@pytest.mark.parametrize(("stem", "understood", "lines"), READY)
def test_a_story_without_a_model_is_declined_with_the_line_to_add(
    stem: str, understood: str, lines: list[str]
) -> None:
    error = declined(stem)
    assert error.understood == understood
    assert error.add == (f"add a line that says what to work out, such as {' or '.join(lines)}")


def test_choices_that_are_equations_are_told_as_such() -> None:
    """The item has numbers, and `model:` alone would not settle which equation is right."""
    choices = {"A": "1/2 + 1/3 = 5/6", "B": "1/2 + 1/3 = 2/5"}
    error = declined("Which equation tells how Mina found it?", choices=choices)
    assert error.understood == "the choices are equations, which are not judged one by one"
    assert "`key: A`" in error.add


@pytest.mark.parametrize(
    ("stem", "answer"),
    [
        ("Round 3.46 to the nearest tenth.", "3.5"),
        ("A barrel held 30.58 liters. How many liters did it hold, to the nearest tenth?", "30.6"),
    ],
)
def test_rounding_is_read(stem: str, answer: str) -> None:
    assert solve_one(stem, boxes=NUMBER)["answer"] == answer


def test_which_choice_is_not_so_is_declined_by_name() -> None:
    choices = {"A": "2/4", "B": "3/6", "C": "2/3"}
    error = declined("Which is NOT another name for 1/2?", choices=choices)
    assert error.understood == "the question asks which choice is not so"


@pytest.mark.parametrize(("stem", "understood", "lines"), READY[:3])
def test_the_line_to_add_settles_it(stem: str, understood: str, lines: list[str]) -> None:
    """What is advised is itself read: a teacher can paste it."""
    for line in lines:
        model = line.strip("`").removeprefix("model: ")
        assert write(reading(stem, model=model).expression) == model


@pytest.mark.parametrize(
    "stem",
    [
        "Mia got 4/9 for 3/4 + 1/5. How far off is she?",
        "What is 3/4 + 1/5 with 2/3?",
        "What is 3/4 + 1/5 and 1/2 + 1/3?",
        "What is half of 3/4 + 1/5?",
        "What is twice 3/4 + 1/5?",
        "What is 3/4 + 1/5 rounded?",
        "What is the numerator of 3/4 + 1/5?",
        "Subtract 3/4 and 1/5.",
        "Add 3/4 from 1/5.",
        "3/4 +",
        "Add 3/4.",
        "Show how to subtract 3/4 from a number.",
        "Find the sum of 1/2 and 1/3 and add it to the total.",
    ],
)
def test_a_bare_question_with_more_in_it_is_declined(stem: str) -> None:
    """Extra numbers, unknown words, a part of the answer: each could change what is asked."""
    assert "`model:" in declined(stem).add


@pytest.mark.parametrize(
    "stem",
    [
        "What is one minus 3/4?",
        "Subtract 3/4 from one.",
        "Add one to 3/4.",
        "Three plus 3/4 + 1/5",
        "Find 3/4 + 1/5, then add one.",
        "Which number added to 3/4 makes one?",
        "What is the sum of 1/2 and 1/3 subtracted from one?",
    ],
)
def test_a_number_in_words_is_never_passed_over(stem: str) -> None:
    """ "Subtract 3/4 from one" asks for 1/4, and must not be answered with 3/4."""
    assert "`model:" in declined(stem).add


@pytest.mark.parametrize("command", ["Estimate", "Round", "Double", "Halve", "Reverse"])
def test_an_unknown_command_is_no_name(command: str) -> None:
    """Its capital is that of a sentence's first word."""
    assert "`model: " in declined(f"{command} 3/4 + 1/5.").add


@pytest.mark.parametrize(
    ("stem", "answer"),
    [("2/3 × 1/4", "1/6"), ("What is 1/4 of 2/3?", "1/6"), ("What is 2/3 ÷ 1/4?", "8/3"),
     ("3 × 1/4 + 1/2", "5/4")],
)  # fmt: skip
def test_products_and_quotients_of_fractions_are_read_and_solved(stem: str, answer: str) -> None:
    row = solve_one(stem, boxes=FRACTION)
    assert (row["status"], row["answer"]) == ("solved", answer)


def test_what_no_kind_works_out_is_declined_by_name() -> None:
    row = solve_one("What is 1/4 × (−2)?", boxes=FRACTION)
    assert row["status"] == "declined"
    read_as = write(reading("What is 1/4 × (−2)?").expression)
    assert f"I read {read_as}; numbers below zero" in row["message"]


# The story, how its remainder is read; none of these numbers of things is whole.
PARTS_OF_THINGS = [
    ("Each pot holds 3/4 liter of soil. How many pots are needed for 5 liters of soil?", "7"),
    ("Each loaf takes 3/4 kilogram of flour. A sack holds 5 kilograms of flour. "
     "How many full loaves can be made from the sack?", "6"),
]  # fmt: skip


@pytest.mark.parametrize(("story", "answer"), PARTS_OF_THINGS)
def test_a_part_of_a_thing_is_read_as_the_question_asks(story: str, answer: str) -> None:
    assert solve_one(story, boxes=["number"])["answer"] == answer


@pytest.mark.parametrize(
    "story",
    [
        "Kim needs 3/4 cup of flour for each batch. She has 7 cups of flour. "
        "How many batches can she make?",
        "A rope is 7 meters long. Ali cuts it into pieces that are 2/3 meter long. "
        "How many pieces does he get?",
        "There are 5 pupils. 2/3 of them like beans. How many pupils like beans?",
    ],
)
def test_parts_of_things_are_declined_where_the_words_do_not_tell(story: str) -> None:
    assert solve_one(story, boxes=["number"])["status"] == "declined"


@pytest.mark.parametrize("work", ["1/2 + 0.25", "0.5 × 1/4", "7.5 ÷ 0.7", "−4 + 2.5"])
def test_decimals_that_no_kind_works_out_are_declined(work: str) -> None:
    """Beside fractions, without an end, below zero."""
    row = solve_one(f"What is {work}?", boxes=["number"])
    assert row["status"] == "declined"
    assert "not worked out yet; leave it out" in row["message"]
