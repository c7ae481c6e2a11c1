"""Times of day as choices: worked out by hand, with near misses that must not be solved."""

from __future__ import annotations

import pytest

from tests.solving import solve_one

SOLVED = [
    ("Nia and Bo both weeded a bed. Nia finished 9 minutes before Bo. If Bo finished at 2:05 p.m., "
     "what time did Nia finish?", ("1:56 p.m.", "2:14 p.m.", "11:05 p.m.", "1:96 p.m."), "A"),
    ("Nia and Bo both weeded a bed. Nia finished 9 minutes before Bo. If Nia finished at 1:56 p.m.,"
     " what time did Bo finish?", ("1:47 p.m.", "2:05 p.m."), "B"),
    ("Nia and Bo both weeded a bed. Nia started 9 minutes after Bo. Bo started at 1:56 p.m. What "
     "time did Nia start?", ("1:47 p.m.", "2:05 p.m."), "B"),
    ("The garden tour starts at 10:50 a.m. and lasts 1 hour 25 minutes. When does it end?",
     ("11:75 a.m.", "12:15 p.m.", "12:15 a.m.", "9:25 a.m."), "B"),
    ("The soup was ready at 12:10 p.m. It took 45 minutes to cook. When did it start?",
     ("11:25 a.m.", "12:55 p.m."), None),
    ("The market ended at 1:05. It lasted 2 hours 15 minutes. What time did the market begin?",
     ("10:50", "11:50", "3:20"), "A"),
    ("The bread bus leaves at 9:48 a.m. and arrives at 12:05 p.m. How long is the trip?",
     ("2 hours 17 minutes", "3 hours 17 minutes", "2 hours 57 minutes", "1 hour 77 minutes"), None),
    ("The bread bus leaves at 9:48 a.m. and arrives at 12:05 p.m. How long is the trip?",
     ("2 hours 17 minutes", "3 hours 17 minutes", "2 hours 57 minutes"), "A"),
    ("It is 11:40 a.m. What time will it be in half an hour?", ("12:10 p.m.", "11:10 a.m."), "A"),
    ("What time is 35 minutes before 3:20?", ("2:45", "3:55", "2:85"), None),
    ("What time is 35 minutes before 3:20?", ("2:45", "3:55", "2:55"), "A"),
]  # fmt: skip


@pytest.mark.parametrize(("stem", "choices", "key"), SOLVED)
def test_times_of_day(stem: str, choices: tuple[str, ...], key: str | None) -> None:
    row = solve_one(stem, choices=dict(zip("ABCD", choices, strict=False)))
    if key is None:
        return
    assert row["key"] == key, row["message"]
    assert all(c["ruled_out_at"] is not None for n, c in row["choices"].items() if n != key)


DECLINED = [
    "The play starts at 7:30 p.m. Bo takes 25 minutes to walk there. When does he arrive?",
    "Bo needs 25 minutes to walk to the play. It starts at 7:30 p.m. When must Bo leave to be on "
    "time?",
    "School starts at 7:30 p.m. It takes Nia 25 minutes to walk there. When does it end?",
    "The market opens at 7:30 p.m. Nia arrives 25 minutes after it opens. When does Nia arrive?",
    "A film begins at 7:30 p.m. and lasts 25 minutes. There is a break of 10 minutes. When does it "
    "end?",
    "Nia starts at 7:30 p.m. and works 25 minutes in each bed. When does she finish?",
    "Nia starts at 7:30 p.m. Bo works for 25 minutes. When does Bo finish?",
    "Nia finished 25 minutes before Bo. Mia finished at 7:30 p.m. When did Nia finish?",
    "The game starts at 7:30 p.m. Warm-up lasts 25 minutes. When does the game end?",
    "Nia starts at 7:30 p.m. and Bo works for 25 minutes. When does she finish?",
    "The clock is 25 minutes slow. It is 7:30 p.m. When does the film start?",
]


@pytest.mark.parametrize("stem", DECLINED)
def test_a_time_that_is_not_told_for_certain_is_declined(stem: str) -> None:
    """Somebody else's time, a length of something else, a break, a slow clock."""
    row = solve_one(stem, choices={"A": "7:55 p.m.", "B": "7:05 p.m.", "C": "8:05 p.m."})
    assert row["status"] == "declined", row


def test_two_trips_are_not_one() -> None:
    stem = "The bus leaves at 2:15 and the train arrives at 4:05. How long is the trip?"
    row = solve_one(stem, choices={"A": "1 hour 50 minutes", "B": "2 hours 10 minutes"})
    assert row["status"] == "declined"


@pytest.mark.parametrize(
    ("choice", "slip"),
    [
        ("2:14 p.m.", "clock the wrong way"),
        ("11:05 p.m.", "minutes as hours"),
        ("2:56 p.m.", "hour not counted"),
        ("1:56 a.m.", "other half of the day"),
    ],
)
def test_slips_are_named(choice: str, slip: str) -> None:
    row = solve_one(SOLVED[0][0], choices={"A": "1:56 p.m.", "B": choice})
    assert row["choices"]["B"]["slip"] == slip
