"""How well lines are found in recordings: `python -m tests.benchmarks.fitting`.

espeak-ng reads the demo's first items in four voices at their speeds, with breaths in half of the
pauses; then three times each with a line said again and one left out. Ends with 1 where less than
95% of boundaries lie within 300 ms, or where more than one in ten of those lines is neither named
nor among the few which it may be instead (the limits are the project's own).
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from pathlib import Path

from narrate.fitting.heard import from_sound
from narrate.lesson.timeline import predict
from tests.fitting.lessons import demo
from tests.fitting.recordings import record, speak
from tests.fitting.test_recordings import ITEMS, boundaries, named, order, script, within

VOICES = [("en-us", 130), ("en-gb-scotland+f3", 165), ("en-us+f4", 110), ("en-gb", 190)]
LEAST, NAMED, ROUNDS = 0.95, 0.9, 3


def main() -> int:
    lesson = demo(ITEMS)
    lines = script(lesson)
    worst, told = 1.0, 0
    print(f"{len(lines)} lines; boundaries within 300 ms")
    for voice, speed in VOICES:
        spoken = speak(lines, voice, speed)
        shares, exact, among = [], [0, 0], [0, 0]
        begun = time.process_time()
        for number in range(ROUNDS + 1):
            chance = random.Random(number)
            wrong = chance.sample(range(5, len(lines) - 5), 2) if number else [-1, -1]
            recording = record(spoken, order(lesson, *wrong), seed=number)
            with tempfile.TemporaryDirectory() as folder:
                path = recording.save(Path(folder) / "talk.wav")
                fitted = from_sound(lesson, predict(lesson), path)
            shares.append(within(boundaries(fitted, recording)))
            for place, mark in enumerate(("said again later", "not heard") if number else ()):
                for line, rivals in named(fitted.notes, mark):
                    exact[place] += line == lines[wrong[place]]
                    among[place] += lines[wrong[place]] in rivals
        told += sum(exact) + sum(among)
        worst = min(worst, *shares)
        print(
            f"{voice:20} {speed}: {shares[0]:.1%} as written; {min(shares[1:]):.1%} at least with"
            f" a line again and one left out; of {ROUNDS} said again {exact[0]} are named and"
            f" {among[0]} told as one of a few, of {ROUNDS} left out {exact[1]} and {among[1]};"
            f" {(time.process_time() - begun) / (ROUNDS + 1):.1f} s each"
        )
    return int(worst < LEAST or told < NAMED * 2 * ROUNDS * len(VOICES))


if __name__ == "__main__":
    sys.exit(main())
