"""How well lines are found in recordings: `python -m tests.benchmarks.fitting`.

espeak-ng reads the demo's first items in four voices at four speeds, with breaths in half of the
pauses; then with a line said again and one left out. Ends with 1 where less than 95% of boundaries
lie within 300 ms (the limit is the project's own).
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
from tests.fitting.test_recordings import ITEMS, boundaries, order, script, within

VOICES = [("en-us", 130), ("en-gb-scotland+f3", 165), ("en-us+f4", 110), ("en-gb", 190)]
LEAST, ROUNDS = 0.95, 3


def main() -> int:
    lesson = demo(ITEMS)
    lines = script(lesson)
    planned = predict(lesson)
    missed = False
    print(f"{len(lines)} lines; boundaries within 300 ms")
    for voice, speed in VOICES:
        spoken = speak(lines, voice, speed)
        found = repeats = skips = 0
        shares = []
        begun = time.monotonic()
        for number in range(ROUNDS + 1):
            chance = random.Random(number)
            again, skipped = chance.sample(range(5, len(lines) - 5), 2) if number else (-1, -1)
            recording = record(spoken, order(lesson, again, skipped), seed=number)
            with tempfile.TemporaryDirectory() as folder:
                fitted = from_sound(lesson, planned, recording.save(Path(folder) / "talk.wav"))
            shares.append(within(boundaries(fitted, recording)))
            notes = "\n".join(fitted.notes)
            repeats += number > 0 and f"the last time counts: {lines[again]}" in notes
            skips += number > 0 and f"no caption: {lines[skipped]}" in notes
            found += 1
        missed |= min(shares) < LEAST
        print(
            f"{voice:20} {speed}: {shares[0]:.1%} as written; {min(shares[1:]):.1%} at least with"
            f" a line again and one left out, named {repeats} and {skips} of {ROUNDS};"
            f" {(time.monotonic() - begun) / found:.1f} s each"
        )
    return int(missed)


if __name__ == "__main__":
    sys.exit(main())
