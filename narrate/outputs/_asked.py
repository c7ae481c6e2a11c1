"""What pupils are asked, as data that a page's program judges with whole numbers alone."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.question import Question, Said


def asked(lesson: Lesson, timeline: Timeline) -> list[dict[str, Any]]:
    """Each question with when it is asked (`at`: its beat's words are said) and when the telling
    goes on (`on`), in milliseconds."""
    return [_question(question, timeline) for question in lesson.questions]


def _question(question: Question, timeline: Timeline) -> dict[str, Any]:
    beat, spoken = timeline.beats[question.beat], timeline.sentences[question.beat]
    return {
        "at": spoken[-1].end if spoken else beat.start,
        "on": beat.end,
        "words": list(question.words),
        "several": question.several,
        "choices": [
            {
                "letter": choice.letter,
                "text": choice.text,
                "right": choice.right,
                "told": _text(choice.told),
            }
            for choice in question.choices
        ],
        "boxes": list(question.boxes),
        "unit": question.unit,
        "answer": _pair(question.answer),
        "form": question.form,
        "simplest": question.simplest,
        "foreseen": [
            [[str(each.whole), str(each.numerator), str(each.denominator)], _text(each.told)]
            for each in question.foreseen
        ],
        "bounds": [[each.side, _pair(each.amount), _text(each.told)] for each in question.bounds],
        "right": _text(question.right),
        "other": _text(question.other),
        "more": _text(question.more),
        "notAsAsked": _text(question.not_as_asked),
    }


def _text(said: Said) -> str:
    return " ".join(sentence.caption for sentence in said)


def _pair(amount: Fraction) -> list[str]:
    """Numerator and denominator as digits: the program has no numbers that large but of text."""
    return [str(amount.numerator), str(amount.denominator)]
