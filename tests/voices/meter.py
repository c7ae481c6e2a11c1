"""An independent meter: PyPI `pyloudnorm` (ITU-R BS.1770-4), and true peaks by its Annex 2."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import numpy as np
import pyloudnorm
from scipy.io import wavfile
from scipy.signal import resample_poly


def samples(path: Path) -> tuple[int, Any]:
    """The rate of a WAV file of 16 bits, and its samples from -1 to 1."""
    rate, found = wavfile.read(path)
    return rate, np.asarray(found, dtype=np.float64) / 32768


def loudness(path: Path) -> float:
    """The loudness of the whole in LUFS."""
    rate, found = samples(path)
    return float(pyloudnorm.Meter(rate).integrated_loudness(found))


def true_peak(path: Path) -> float:
    """The highest true peak in dBTP: four times as many samples, as BS.1770-4, Annex 2 has it."""
    _, found = samples(path)
    return 20 * math.log10(float(np.max(np.abs(resample_poly(found, 4, 1)))))
