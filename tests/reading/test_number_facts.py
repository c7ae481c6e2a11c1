"""Whole questions about numbers, each answered by hand; those that are not settled are declined.

Place value CCSSM (2010) 4.NBT.A.1, patterns 4.OA.C.5, volume 5.MD.C.5, unknowns 3.OA.A.4 and
6.EE.B.5, percents 6.RP.A.3c, powers 6.EE.A.1, absolute value 6.NS.C.7, data 6.SP.B.5.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.errors import Declined
from narrate.reading.words.understand import read_words

ASKED = [
    ("12", "What is the value of p in 24 = 2p?"),
    ("4", "Solve for x: x + 7 = 11."),
    ("30", "Solve the equation n/5 = 6."),
    ("9", "If 3y = 27, what is y?"),
    ("15", "What value of x makes x − 6 = 9 true?"),
    ("0.875", "Write 7/8 as a decimal."),
    ("3/4", "What is 0.75 as a fraction in simplest form?"),
    ("0.4", "What is 40% written as a decimal?"),
    ("7", "What is the median of 3, 9, 7, 5, 12?"),
    ("6", "Find the mean of 4, 6, and 8."),
    ("9", "What is the range of the numbers 3, 12, 7, 5?"),
    ("5", "What is the mode of 5, 3, 5, 8, 5?"),
    ("24", "What is the least common multiple of 8 and 12?"),
    ("6", "What is the greatest common factor of 18 and 24?"),
    ("8", "Evaluate 2^3."),
    ("81", "What is 3 to the fourth power?"),
    ("49", "What is 7²?"),
    ("11", "What is 3 + 4 × 2?"),
    ("-3", "What is 5 − 8?"),
    ("-12", "What is −4 × 3?"),
    ("14", "What is −25 − (−11) + 28?"),
    ("24", "What is 40% of 60?"),
    ("25", "15 is what percent of 60?"),
    ("7", "What is the absolute value of −7?"),
    ("300", "What is the value of the 3 in 4,312?"),
    ("5000", "What is the value of the digit 5 in 25,841?"),
    ("5/6", "What is the reciprocal of 6/5?"),
    ("36", "What is the area of a rectangle that is 9 cm long and 4 cm wide?"),
    ("60", "What is the volume of a box 5 cm long, 4 cm wide, and 3 cm high?"),
    ("17", "What is the next number in the pattern 2, 5, 8, 11, 14?"),
    ("48", "What is the next number in the pattern 3, 6, 12, 24?"),
    ("23", "Evaluate 3n + 5 when n = 6."),
    ("10", "What is the value of 4x − 2 if x = 3?"),
    ("16", "Simplify: 2(3 + 5)."),
    ("5", "What is the square root of 25?"),
    ("70", "What is 7 × 10?"),
    ("3200", "What is 3.2 × 1,000?"),
    ("0.056", "What is 5.6 ÷ 100?"),
    ("45", "How many minutes are in 3/4 of an hour?"),
    ("6", "How many sides does a hexagon have?"),
    ("56", "What is the product of 7 and 8?"),
    ("13", "What is the difference between 20 and 7?"),
    ("9", "What is the quotient of 63 and 7?"),
    ("27", "What is 15 more than 12?"),
    ("21", "What number is 3 times 7?"),
    ("4", "28 divided by what number is 7?"),
    ("6", "If 42 = 7k, then what is the value of k?"),
    ("7", "Which digit is in the hundreds place of 4,735?"),
    ("4", "In the number 35.648, which digit is in the hundredths place?"),
    ("4", "What number comes next? 64, 32, 16, 8, ___"),
    ("125", "What is the volume of a cube with edges of 5 cm?"),
    (
        "90",
        "What is the volume of a box with a length of 5 in, a width of 6 in and a height of 3 in?",
    ),
    ("20", "What percent of 45 is 9?"),
    ("8", "What number minus 5 is 3?"),
    ("15", "20 minus what number equals 5?"),
    ("32", "What number divided by 4 is 8?"),
    ("1/4", "What fraction of 12 is 3?"),
    ("16", "What is 4 squared?"),
    ("3", "What is |-3|?"),
    ("12", "What number is 5 less than 17?"),
]

UNSETTLED = [
    "What is the value of the 3 in 3,312?",
    "What is the value of x in x + y = 4?",
    "If 3y = 27, what is x?",
    "Which digit is in the thousands place of 312?",
    "What is the next number in the pattern 1, 4, 9, 16?",
    "What is the next number in the pattern 2, 4?",
    "What is the volume of a rectangular prism 5 cm long, 4 cm wide, and 3 m high?",
    "What is the volume of a triangular prism with edges of 5 cm, 4 cm and 3 cm?",
    "What is the volume of two boxes 5 cm long, 4 cm wide, and 3 cm high?",
    "What is the square root of 20?",
    "What number is 3 times as many as 7?",
]


@pytest.mark.parametrize(("answer", "text"), ASKED)
def test_what_is_asked_of_numbers(answer: str, text: str) -> None:
    assert read_words(text).value == Fraction(answer)


@pytest.mark.parametrize("text", UNSETTLED)
def test_what_is_not_settled(text: str) -> None:
    with pytest.raises(Declined):
        read_words(text)
