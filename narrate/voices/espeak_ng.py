"""espeak-ng: a plain voice, small and fast (GPL, run as a process of its own)."""

from __future__ import annotations

import io
import shutil
import subprocess
import wave

from narrate.errors import OutputFailed

RATE = 22_050
LANGUAGES = ("en",)

_VOICES = {"en": "en-us"}
_ASKED, _SPOKEN = 150, 172
"""Asked for 150 words a minute it speaks 172 (measured on 60 lines)."""


def missing() -> str:
    """What would have to be installed."""
    return "" if shutil.which("espeak-ng") else "install espeak-ng (apt install espeak-ng)"


def say(text: str, language: str, wpm: int) -> bytes:
    """A sentence as samples; see `Voice.say`."""
    speed = wpm * _ASKED // _SPOKEN
    command = ["espeak-ng", "-v", _VOICES[language], "-s", str(speed), "--stdout", "--stdin"]
    try:
        done = subprocess.run(command, input=text.encode(), capture_output=True, check=True)
        with wave.open(io.BytesIO(done.stdout)) as sound:
            samples: bytes = sound.readframes(sound.getnframes())
    except (OSError, subprocess.CalledProcessError, wave.Error, EOFError) as error:
        raise OutputFailed(f"espeak-ng could not say {text!r} ({error})") from error
    return samples
