"""Independent computation of decay and clarity with numpy and scipy, for tests/metrics/decay/decay-reference.test.ts.

    python3 tests/scripts/decay-reference.py > tests/metrics/decay/decay-reference.json
    npx prettier --write tests/metrics/decay/decay-reference.json

Shares with the program only the definitions: filter magnitude (Butterworth band-pass of order 3 between the band edges,
run backwards in time), start (given sample), split first and filter after, evaluation ranges of ISO 3382-1. Made its
own way: filter from scipy's pole placement, real signals at full rate, the knee from a maximum-likelihood fit of
decay plus noise, polyfit for the slopes, clarity and centre time summed in time.
Measured responses come from ../shared/data; without it only the synthetic ones are written.
"""

import json
import pathlib
import sys

import numpy as np
from scipy import optimize, signal
from scipy.io import wavfile

G = 10**0.3
OCTAVES = {63: -4, 125: -3, 250: -2, 500: -1, 1000: 0, 2000: 1, 4000: 2, 8000: 3}
DATA = pathlib.Path(__file__).resolve().parents[3] / "shared" / "data"


def noise(seed, count):
    """Uniform noise from a linear congruential generator, the same in any language."""
    state = seed
    values = np.empty(count)
    for n in range(count):
        state = (1664525 * state + 1013904223) % 2**32
        values[n] = state / 2**32 - 0.5
    return values


def synthetic():
    rate, count = 48000, 72000
    t = np.arange(count) / rate
    fall = lambda seconds: np.exp(-3 * np.log(10) * t / seconds)
    yield "single slope 0.3 s", rate, noise(1, count) * fall(0.3), 0
    yield "single slope 0.8 s", rate, noise(2, count) * fall(0.8), 0
    yield "slope 0.4 s over noise", rate, noise(3, count) * fall(0.4) + 10 ** (-60 / 20) * noise(4, count), 0
    yield "double slope", rate, noise(5, count) * fall(0.25) + 0.05 * noise(6, count) * fall(0.9), 0


def measured():
    for folder, pattern in (("listening-room", "LR_*.wav"), ("office", "room_a_*.wav")):
        for path in sorted((DATA / folder).glob(pattern)):
            rate, samples = wavfile.read(path)
            for channel in range(samples.shape[1]):
                x = samples[:, channel].astype(float)
                start = int(np.argmax(np.abs(x) >= 0.1 * np.max(np.abs(x))))
                yield f"{folder}/{path.name}#{channel}", rate, x, start


class SameMagnitude:
    """Analogue Butterworth, applied to the spectrum; conjugated, so time-reversed."""

    def __init__(self, fm, rate):
        self.edges = fm * G**-0.5, fm * G**0.5
        self.poles = signal.butter(3, [2 * np.pi * f for f in self.edges], "bandpass", analog=True, output="zpk")
        self.rate = rate

    def response(self, size):
        f = np.fft.rfftfreq(size, 1 / self.rate)
        h = np.zeros(len(f), complex)
        h[1:] = signal.freqs_zpk(*self.poles, worN=2 * np.pi * f[1:])[1]
        return h

    def backwards(self, x, size):
        return np.fft.irfft(np.fft.rfft(x, size) * np.conj(self.response(size)), size)

    def without_delay(self, x, size):
        return np.fft.irfft(np.fft.rfft(x, size) * np.abs(self.response(size)), size)


class Digital:
    """A digital class 1 design run over the reversed samples."""

    def __init__(self, sos):
        self.sos = sos

    def backwards(self, x, size):
        padded = np.zeros(size)
        padded[: len(x)] = x
        # Backwards twice over the circle, so that what rings before the start comes back at the end.
        twice = np.concatenate([padded, padded])[::-1]
        return signal.sosfilt(self.sos, twice)[::-1][:size]


def class_one(response, fm):
    """Whether a design keeps the 2014 class 1 limits at the tabled points below half the sample rate."""
    points = [(0, -0.4, 0.4), (1 / 8, -0.4, 0.5), (1 / 4, -0.4, 0.7), (3 / 8, -0.4, 1.4), (0.4999, -0.4, 5.3)]
    points += [(0.5, 1.2, 1e9), (1, 16.6, 1e9), (2, 40.5, 1e9), (3, 60, 1e9), (4, 70, 1e9)]
    at = lambda f: -20 * np.log10(np.abs(response(f)) + 1e-30)
    zero = at(fm)
    return all(
        low <= at(fm * G ** (sign * x)) - zero <= high for x, low, high in points for sign in (-1, 1)
    )


def spread_designs(fm, rate):
    edges = [fm * G**-0.5, fm * G**0.5]
    designs = {
        "butterworth 3": signal.butter(3, edges, "bandpass", fs=rate, output="sos"),
        "butterworth 4": signal.butter(4, edges, "bandpass", fs=rate, output="sos"),
        "chebyshev 3, 0.2 dB": signal.cheby1(3, 0.2, [edges[0] * 0.985, edges[1] / 0.985], "bandpass", fs=rate, output="sos"),
    }
    kept = {}
    for name, sos in designs.items():
        nyquist = rate / 2
        response = lambda f: signal.sosfreqz(sos, worN=[f], fs=rate)[1][0] if f < nyquist else 0.0
        if class_one(response, fm):
            kept[name] = Digital(sos)
    return kept


def knee(power, dt, bandwidth, usable):
    """Maximum-likelihood fit of a exp(-k t) + n to powers with exponential scatter, from 5 dB down."""
    p = power[:usable]
    left = np.cumsum(p[::-1])[::-1]
    usable = int(np.sum(left > 1e-9 * left[0]))
    p = p[:usable]
    block = max(1, int(round(0.002 / dt)))
    count = usable // block
    e = p[: count * block].reshape(count, block).mean(axis=1)
    t = (np.arange(count) + 0.5) * block * dt
    remaining = np.cumsum(e[::-1])[::-1]
    first = int(np.sum(remaining > remaining[0] * 10**-0.5))
    e, t = e[first:], t[first:]
    floor = e[-max(1, len(e) // 10) :].mean()

    def cost(parameters):
        la, lk, ln = parameters
        m = np.exp(la - np.exp(lk) * t) + np.exp(ln)
        return np.sum(e / m + np.log(m))

    best = None
    for seconds in (0.15, 0.3, 0.6, 1.2):
        for share in (1.0, 1e-3):
            k = 13.8 / seconds
            start = [np.log(e[0]) + k * t[0], np.log(k), np.log(floor * share)]
            found = optimize.minimize(cost, start, method="Nelder-Mead", options={"maxiter": 4000, "xatol": 1e-4, "fatol": 1e-4})
            if best is None or found.fun < best.fun:
                best = found
    la, lk, ln = best.x
    k = np.exp(lk)
    at = (la - ln) / k
    if at >= usable * dt:
        # The noise is not reached.
        late = int(usable - 4.6 / k / dt)
        rest = left[max(0, late) : usable] - left[usable - 1]
        return usable, 0.0, rest[0] / (np.exp(min(4.6, k * usable * dt)) - 1), k, usable
    steps = int(round(at / dt))
    return steps, np.exp(ln), np.exp(la - k * steps * dt) / k / dt, k, usable


def block_knee(power, dt, bandwidth):
    """Lundeby's procedure with levels of blocks, as written; None where it finds no line."""
    noise = power[int(0.9 * len(power)) :].mean()
    span = 0.03
    line = None
    for round_ in range(6):
        size = max(1, int(span / dt))
        levels = 10 * np.log10(power[: len(power) // size * size].reshape(-1, size).mean(axis=1))
        t = (np.arange(len(levels)) + 0.5) * size * dt
        floor = 10 * np.log10(noise)
        peak = int(np.argmax(levels))
        above = floor + 7
        low = peak + int(np.argmax(levels[peak:] < above)) if np.any(levels[peak:] < above) else len(levels)
        high = peak if line is None else int(np.argmax(levels < above + 20)) if np.any(levels < above + 20) else 0
        if low - high < 2:
            break
        fall, start = np.polyfit(t[high:low], levels[high:low], 1)
        if fall >= 0:
            break
        line = fall, start
        at = (floor - start) / fall
        span = 10 / -fall / 5
        begin = min(int((at + 7 / -fall) / dt), int(0.9 * len(power)))
        noise = power[begin:].mean()
    if line is None or not 0 < at < len(power) * dt:
        return None
    fall, start = line
    return int(at / dt), noise, 10 ** ((start + fall * at) / 10) / (-fall * np.log(10) / 10) / dt


def slope(curve, dt, high, low):
    inside = np.nonzero((curve <= high) & (curve >= low))[0]
    below = np.nonzero(curve < low)[0]
    if len(below) == 0:
        return None
    inside = inside[inside < below[0]]
    return -60 / np.polyfit(inside * dt, curve[inside], 1)[0]


KNEE_DOUBT = 5 / (10 / np.log(10))


def times(e, steps, tail, dt):
    total = e[:steps].sum() + tail
    curve = 10 * np.log10(np.maximum(np.cumsum(e[:steps][::-1])[::-1] + tail, 1e-30) / total)
    depth = 10 * np.log10(total / tail)
    return {
        "rangeDb": depth,
        "edtS": slope(curve, dt, 0, -10) if depth >= 20 else None,
        "t20S": slope(curve, dt, -5, -25) if depth >= 35 else None,
        "t30S": slope(curve, dt, -5, -35) if depth >= 45 else None,
    }


def evaluate(x, rate, fm, filt):
    bandwidth = fm * (G**0.5 - G**-0.5)
    size = 2 ** int(np.ceil(np.log2(len(x) + rate)))
    y = filt.backwards(x, size)
    dt = 1 / rate
    usable = int(len(x) - 2 / bandwidth * rate)
    steps, floor, tail, k, last = knee(y[: len(x)] ** 2, dt, bandwidth, usable)
    e = y[: len(x)] ** 2 - floor
    out, *others = [
        times(e, int(at), tail * np.exp(-k * (at - steps) * dt), dt)
        for at in (steps, steps - KNEE_DOUBT / k / dt, min(last, steps + KNEE_DOUBT / k / dt))
    ]
    floor_part = y[steps:last] ** 2
    half = len(floor_part) // 2
    falling = half > 0 and floor_part[half:].mean() < 0.63 * floor_part[:half].mean()
    if (last - steps) * dt * k < 2 * KNEE_DOUBT or falling:
        # A floor seen for less than 10 dB of decay, or one that falls by 2 dB, may be none: no noise, cut at the record's end.
        p = y[:last] ** 2
        late = int(max(0, last - KNEE_DOUBT * 2 / k / dt))
        fall = np.log(p[late : (late + last) // 2].sum() / p[(late + last) // 2 :].sum()) / ((last - late) / 2 * dt)
        if fall > 0:
            rest = p[late:].sum() / (np.exp(fall * (last - late) * dt) - 1)
            others.append(times(y[: len(x)] ** 2, last, rest, dt))
    blocks = block_knee(y[:last] ** 2, dt, bandwidth)
    if blocks:
        others.append(times(y[: len(x)] ** 2 - blocks[1], blocks[0], blocks[2], dt))
    # One sample earlier or later: where the direct sound is a cliff, a sample of it decides.
    others.append(times(e[1:], steps - 1, tail, dt))
    others.append(times(np.concatenate([y[-1:] ** 2, e]), steps + 1, tail, dt))
    # What the figures become by other choices of no meaning; where they do not move, there is one right answer.
    for name in ("t20S", "t30S", "edtS"):
        found = [o[name] for o in (out, *others) if o[name] is not None]
        out[name + "ByChoice"] = [min(found), max(found)] if found else None
    if isinstance(filt, SameMagnitude):
        # Indices past the record are times before zero: the circle.
        zero = filt.without_delay(x, size)
        time = np.arange(size) * dt
        time[len(x) + (size - len(x)) // 2 :] -= size * dt
        kept = time < steps * dt
        for limit, name in ((0.05, "50"), (0.08, "80")):
            n = int(round(limit * rate))
            early = np.where(np.arange(len(x)) < n, x, 0)
            el = np.sum(filt.backwards(early, size) ** 2) - floor * n
            la = np.sum(filt.backwards(x - early, size)[kept] ** 2) - floor * (steps - n) + tail
            out["c%sDb" % name] = 10 * np.log10(el / la) if la > 0 and steps > n else None
            if name == "50":
                out["d50"] = el / (el + la) if la > 0 and steps > n else None
        energy = np.sum(zero[kept] ** 2) - floor * steps + tail
        moment = np.sum(time[kept] * zero[kept] ** 2) - floor * steps**2 / 2 * dt + tail * steps * dt
        out["tsS"] = moment / energy
    return out


def main():
    rows = []
    for name, rate, x, start in list(synthetic()) + list(measured()):
        x = x[start:]
        for nominal, exponent in OCTAVES.items():
            fm = 1000 * G**exponent
            if fm * G**0.5 > rate / 2:
                continue
            row = {"name": name, "startSample": start, "nominalHz": nominal, **evaluate(x, rate, fm, SameMagnitude(fm, rate))}
            spread = {key: evaluate(x, rate, fm, filt) for key, filt in spread_designs(fm, rate).items()}
            row["otherFilters"] = {
                key: {"t20S": value["t20S"], "t30S": value["t30S"]} for key, value in spread.items()
            }
            rows.append(row)
        print(name, file=sys.stderr)
    rounded = json.loads(json.dumps(rows), parse_float=lambda text: float("%.6g" % float(text)))
    print("[\n" + ",\n".join(json.dumps(row) for row in rounded) + "\n]")


main()
