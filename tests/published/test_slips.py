"""Each slip gives the wrong number that its source prints, from the example that it prints.

The sources as the list of slips names them: S029 CCSSM (2010) 5.NF.A.2 and Siegler et al. (2010);
S001, S002, S016, S019, S021 to S026 Ashlock; S006 to S008, S014 the studies of subtraction by
Brown, Burton and VanLehn; S027, S065 Bell et al. (1981); S053 Hart (1981); S060, S062, S064 Hiebert
and Wearne (1985); S061, S063 Brown (1981); S086 Linchevski and Livneh (1999); S087 Karp, Bush and
Dougherty (2014); S037 to S042 Siegler and Pyke (2013), Braithwaite, Pyke and Siegler (2017), Ma
(1999) and Ashlock, S050 Ashlock; S110 Powell and Fuchs (2018), here in two steps; S112 the
practice guide on word problems (2012); S030, S032, S034 Schumacher and Malone (2017); S033, S046
to S049, S051 Ashlock, *Error Patterns in Computation*; S035 Hart (1981). S029 and S030 were read;
the others are from memory. S015 is Brown and Burton (1978), from memory, told there of whole
numbers.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Frac, Mixed, value
from narrate.kinds import find_kinds
from narrate.solution.slips import Slip, Written, made_by
from narrate.solution.task import Task, sum_terms

# Number, kind, example, the wrong number, the right one, whether simplest form is asked.
Row = tuple[str, str, str, str, str, bool]
PRINTED: list[Row] = [
    ("S029", "fraction_sums", "1/2 + 2/5", "3/7", "9/10", False),
    ("S030", "fraction_sums", "5/6 − 1/4", "4/2", "7/12", False),
    ("S032", "fraction_sums", "5/6 + 1/4", "6/12", "13/12", False),
    ("S033", "fraction_sums", "5/6 + 1/4", "6/24", "13/12", False),
    ("S034", "fraction_sums", "2/3 + 1/4", "3/4", "11/12", False),
    ("S035", "equal_fractions", "2/3", "5/6", "4/6", False),
    ("S051", "equal_fractions", "6/8", "4/6", "3/4", True),
    ("S036", "equal_fractions", "2/3", "2/6", "4/6", False),
    ("S046", "equal_fractions", "2 3/4", "5/4", "11/4", False),
    ("S046", "fraction_sums", "2 3/4", "5/4", "11/4", False),
    ("S047", "equal_fractions", "2 3/4", "10/4", "11/4", False),
    ("S047", "fraction_sums", "2 3/4", "10/4", "11/4", False),
    ("S048", "fraction_sums", "4 1/4 − 1 3/4", "3 2/4", "2 2/4", False),
    ("S049", "fraction_sums", "4 1/4 − 1 3/4", "2 8/4", "2 2/4", False),
    ("S051", "fraction_sums", "5/8 + 1/8", "4/6", "3/4", True),
    ("S015", "fraction_sums", "63 − 29", "92", "34", False),
    ("S001", "decimals_and_whole_numbers", "47 + 38", "75", "85", False),
    ("S006", "decimals_and_whole_numbers", "42 + 35", "87", "77", False),
    ("S110", "decimals_and_whole_numbers", "6 × 9 + 2", "17", "56", False),
    ("S002", "decimals_and_whole_numbers", "47 + 38", "715", "85", False),
    ("S007", "decimals_and_whole_numbers", "63 − 29", "46", "34", False),
    ("S008", "decimals_and_whole_numbers", "143 − 28", "125", "115", False),
    ("S014", "decimals_and_whole_numbers", "63 − 29", "40", "34", False),
    ("S015", "decimals_and_whole_numbers", "63 − 29", "92", "34", False),
    ("S016", "decimals_and_whole_numbers", "43 × 26", "344", "1118", False),
    ("S019", "decimals_and_whole_numbers", "27 × 4", "88", "108", False),
    ("S021", "decimals_and_whole_numbers", "43 × 26", "818", "1118", False),
    ("S022", "decimals_and_whole_numbers", "30 × 40", "120", "1200", False),
    ("S023", "decimals_and_whole_numbers", "618 ÷ 6", "13", "103", False),
    ("S024", "decimals_and_whole_numbers", "72 ÷ 3", "42", "24", False),
    ("S025", "decimals_and_whole_numbers", "76 ÷ 3", "22", "76/3", False),
    ("S026", "decimals_and_whole_numbers", "17 ÷ 5", "3.2", "3.4", False),
    ("S027", "decimals_and_whole_numbers", "3 ÷ 12", "4", "1/4", False),
    ("S053", "decimals_and_whole_numbers", "2/3 × 12", "4", "8", False),
    ("S060", "decimals_and_whole_numbers", "2.5 + 0.13", "0.38", "2.63", False),
    ("S061", "decimals_and_whole_numbers", "1.7 + 2.6", "3.13", "4.3", False),
    ("S062", "decimals_and_whole_numbers", "3 − 0.45", "3.45", "2.55", False),
    ("S063", "decimals_and_whole_numbers", "2.5 × 10", "2.50", "25", False),
    ("S064", "decimals_and_whole_numbers", "0.3 × 0.2", "0.6", "0.06", False),
    ("S065", "decimals_and_whole_numbers", "6 ÷ 0.2", "3", "30", False),
    ("S042", "decimals_and_whole_numbers", "2/3 × 12", "24/36", "8", False),
    ("S086", "decimals_and_whole_numbers", "2 + 3 × 4", "20", "14", False),
    ("S087", "decimals_and_whole_numbers", "10 − 3 + 2", "5", "9", False),
    ("S015", "fraction_products", "8 × 3/4", "8 3/4", "6", False),
    ("S029", "fraction_products", "2/3 × 4/5", "6/8", "8/15", False),
    ("S037", "fraction_products", "3/5 × 1/5", "3/5", "3/25", False),
    ("S038", "fraction_products", "2/3 × 4/5", "10/12", "8/15", False),
    ("S039", "fraction_products", "2/3 ÷ 4/5", "12/10", "5/6", False),
    ("S040", "fraction_products", "2/3 ÷ 4/5", "8/15", "5/6", False),
    ("S041", "fraction_products", "6 ÷ 1/2", "6/2", "12", False),
    ("S042", "fraction_products", "3 × 2/5", "6/15", "6/5", False),
    ("S046", "fraction_products", "2 3/4 × 3", "15/4", "33/4", False),
    ("S047", "fraction_products", "2 3/4 × 3", "30/4", "33/4", False),
    ("S050", "fraction_products", "2 1/2 × 3 1/3", "6 1/6", "8 1/3", False),
    ("S053", "fraction_products", "2/3 × 5", "5/3", "10/3", False),
    ("S112", "fraction_products", "1 − 1/2 × 3/4", "3/8", "5/8", False),
    ("S112", "decimals_and_whole_numbers", "3 × 8 − 5", "24", "19", False),
]


ALSO = {"S008": "S007"}
"""143 − 28 = 125 comes of both; the one that more pupils follow names it (Raghubar et al. 2009)."""


def _task(example: str, simplest: bool) -> Task:
    expression = parse_expr(example)
    terms = sum_terms(expression)
    return Task(expression=expression, terms=terms or (), simplest=simplest)


def _numbered(kind: str, number: str) -> Slip:
    return next(slip for slip in find_kinds()[kind].SLIPS if slip.number == number)


def _written(text: str) -> Written:
    match parse_expr(text):
        case Frac(top, bottom):
            return 0, top, bottom
        case Mixed(whole, top, bottom):
            return whole, top, bottom
        case other:
            return 0, value(other).numerator, value(other).denominator


def _same(slip: Slip, given: Written, printed: Written) -> bool:
    """As printed, digit by digit; a slip of the whole of a mixed sum gives its value alone."""
    reduced = {"S046", "S047", "S015"}
    if slip.number in reduced or slip in find_kinds()["decimals_and_whole_numbers"].SLIPS:
        return _amount(given) == _amount(printed)
    return given == printed


def _amount(written: Written) -> Fraction:
    return written[0] + Fraction(written[1], written[2])


@pytest.mark.parametrize(("number", "kind", "example", "wrong", "right", "simplest"), PRINTED)
def test_a_slip_gives_the_printed_number(
    number: str, kind: str, example: str, wrong: str, right: str, simplest: bool
) -> None:
    slip, task = _numbered(kind, number), _task(example, simplest)
    assert any(_same(slip, given, _written(wrong)) for given in slip.gives(task))
    assert task.answer == value(parse_expr(right))


@pytest.mark.parametrize("row", PRINTED, ids=lambda row: f"{row[0]} {row[2]}")
def test_the_printed_number_is_known_as_that_slip(
    row: tuple[str, str, str, str, str, bool],
) -> None:
    """The slip found for the printed wrong number is that one."""
    number, kind, example, wrong, _, simplest = row
    found = made_by(find_kinds()[kind].SLIPS, _task(example, simplest))
    slip = found.slip(parse_expr(wrong))
    assert slip is not None
    assert slip.number == ALSO.get(number, number)


@pytest.mark.parametrize("example", ["1/2 + 2/5", "5/6 − 1/4", "4 1/4 − 1 3/4", "1 − 1/3 − 2/5"])
def test_the_right_answer_is_no_slip(example: str) -> None:
    task = _task(example, False)
    assert task.answer not in made_by(find_kinds()["fraction_sums"].SLIPS, task).by_value


def test_a_number_written_just_as_a_slip_writes_it_is_that_slip_s() -> None:
    """1/2 + 1/2 + 1/2: adding across writes 3/6; 1/2, of the same value, is one of the amounts."""
    found = made_by(find_kinds()["fraction_sums"].SLIPS, _task("1/2 + 1/2 + 1/2", False))
    names = [slip.name for text in ("3/6", "1/2") if (slip := found.slip(parse_expr(text)))]
    assert names == ["adds across", "one amount given"]


def test_every_slip_names_its_source() -> None:
    for kind in find_kinds().values():
        for slip in kind.SLIPS:
            assert slip.source, slip.name
            assert slip.number or slip.source == "common practice, no source", slip.name
