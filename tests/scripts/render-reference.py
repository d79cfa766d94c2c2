"""
Writes tests/workers/render-reference.json: a mix of noise as a playback class colours it, computed by numpy and scipy alone.

Nothing is shared with what is tested but the curve, which is read from the class's table in src/standards: the filter is designed
here a second time (folded cepstrum), and the convolution is scipy's, of the whole signal at once.

    python3 tests/scripts/render-reference.py
"""

import json
import re
from pathlib import Path

import numpy as np
import scipy
from scipy.signal import fftconvolve

ROOT = Path(__file__).resolve().parents[2]
RATE = 48_000
TAPS = 8192
FRAMES = 100_000
BANDS = 29

source = (ROOT / "src/standards/playback-classes/phone.ts").read_text()
rows = re.findall(r"^\s*\[([\d_.]+), (-?[\d.]+), (-?[\d.]+), (-?[\d.]+)\],", source, re.M)
nominal = np.array([float(row[0].replace("_", "")) for row in rows])
typical = np.array([float(row[2]) for row in rows])
step = np.arange(-16, -16 + BANDS)
exact = 1000 * 10 ** (step / 10)
curve = typical[1 : 1 + BANDS]
assert nominal[1] == 25 and nominal[BANDS] == 16_000

size = 4 * TAPS
hz = np.fft.rfftfreq(size, 1 / RATE)
log_magnitude = np.interp(np.log(np.maximum(hz, 1)), np.log(exact), curve) * np.log(10) / 20
cepstrum = np.fft.irfft(log_magnitude, size)
cepstrum[1 : size // 2] *= 2
cepstrum[size // 2 + 1 :] = 0
taps = np.fft.irfft(np.exp(np.fft.rfft(cepstrum)), size)[:TAPS]
fade = TAPS // 4
taps[-fade:] *= 0.5 + 0.5 * np.cos(np.pi * np.arange(fade) / fade)

state = 1
noise = np.empty((FRAMES, 2))
for n in range(FRAMES):
    for side in range(2):
        state = (1664525 * state + 1013904223) % 2**32
        noise[n, side] = (state >> 17) / 32768 - 0.5

# A phone sums both sides, halved.
filtered = fftconvolve(noise.mean(axis=1), taps)[:FRAMES]
places = [0, 1, 2, 100, 8191, 8192, 24_576, 24_577, 49_153, 65_536, 99_998, 99_999, *range(3000, FRAMES, 971)]
out = {
    "made": f"numpy {np.__version__}, scipy {scipy.__version__}",
    "peak": float(np.abs(filtered).max()),
    "at": places,
    "samples": [float(filtered[n]) for n in places],
}
(ROOT / "tests/workers/render-reference.json").write_text(json.dumps(out, indent=1) + "\n")
