"""
Writes tests/translation/listen/loss-reference.json: share of the loudness of popular music that each playback class loses, by numpy alone.

    python3 tests/scripts/loss-reference.py

Shares nothing with the program but the method. Tables come from ../shared/reference (ISO 532-1, the envelopes and levels of the
classes, the spectrum of popular music); A-weighting from the poles of IEC 61672-1. Masking is not followed from event to event as in
the standard's own program: over a grid of 0.0001 Bark the specific loudness falls by the steepness of its range and band, and never
below the core of the band it is in. That the standard's worked example comes out is asserted before anything is
written.
"""

import csv
import json
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
SHARED = ROOT.parent / "shared" / "reference"
ISO = json.loads((SHARED / "iso532-1-tables.json").read_text())
NAMES = {
    "phone": "phone",
    "laptop": "laptop",
    "wireless": "bluetooth_small",
    "tv": "tv_builtin",
    "car": "car",
    "earphones": "earbuds_sealed",
}
# One small source, or two that sound as one.
MONO = {"phone", "wireless"}
# Below, both sides are the same; from there on they have nothing in common in the wide mix.
WIDE_FROM_HZ = 200
STEPS_PER_BARK = 10_000


def table(name):
    lines = [line for line in (SHARED / f"{name}.csv").read_text().splitlines() if line and not line.startswith("#")]
    return list(csv.DictReader(lines))


def a_weighting(hz):
    def response(f):
        a, b, c, d = 20.598997, 107.652649, 737.862231, 12194.217148
        return d**2 * f**4 / ((f**2 + a**2) * np.sqrt((f**2 + b**2) * (f**2 + c**2)) * (f**2 + d**2))

    return 20 * np.log10(response(hz) / response(1000.0))


def cores(thirds, field):
    """Specific loudness of the twenty critical bands, before it spreads."""
    rows = np.array(ISO["DLL_low_frequency_reduction_db"]["rows_per_RAP"])
    limits = np.array(ISO["RAP_upper_level_of_range_db"])
    reduced = []
    for band in range(11):
        row = next((r for r, limit in enumerate(limits) if thirds[band] <= limit - rows[r, band]), len(limits) - 1)
        reduced.append(10 ** ((thirds[band] + rows[row, band]) / 10))
    low = [sum(reduced[0:6]), sum(reduced[6:9]), sum(reduced[9:11])]
    with np.errstate(divide="ignore"):
        level = np.concatenate([10 * np.log10(low), thirds[11:28]])
    level = level - np.array(ISO["a0_db"])
    if field == "diffuse":
        level = level + np.array(ISO["DDF_free_minus_diffuse_db"])
    quiet = np.array(ISO["LTQ_db"])
    excess = 10 ** ((level - np.array(ISO["DCB_db"]) - quiet) / 10)
    loudness = np.where(level > quiet, 0.0635 * 10 ** (0.025 * quiet) * ((0.75 + 0.25 * excess) ** 0.25 - 1), 0)
    loudness = np.maximum(loudness, 0)
    loudness[0] *= min(1, 0.4 + 0.32 * loudness[0] ** 0.2)
    return loudness


def specific(all_cores):
    """Specific loudness at the end of each step and its mean over the step, shape [cases, 240000] each."""
    # The standard's own program puts each edge 0.0001 Bark higher.
    edges = np.array(ISO["z_upper_bark"]) + 0.0001
    ranges = np.array(ISO["RNS_sone_per_bark"])
    steepness = np.array(ISO["USL_steepness"]["rows_per_RNS"])
    core = np.hstack([all_cores, np.zeros((len(all_cores), 1))])
    now = core[:, 0]
    ends = np.empty((len(all_cores), 24 * STEPS_PER_BARK))
    means = np.empty_like(ends)
    for step in range(ends.shape[1]):
        # To the middle of the step belongs the band that it lies in.
        band = int(np.searchsorted(edges, (step + 0.5) / STEPS_PER_BARK))
        start = np.maximum(core[:, band], now)
        # Ranges fall: the first whose lower end is under what is left.
        row = np.minimum((ranges[None, :] >= start[:, None]).sum(axis=1), len(ranges) - 1)
        fallen = start - steepness[row, min(max(band - 1, 0), 7)] / STEPS_PER_BARK
        now = np.maximum(core[:, band], fallen)
        ends[:, step], means[:, step] = now, (start + now) / 2
    return ends, means


def levels_at(power, curve, level_dba, weighting):
    shaped = 10 * np.log10(power) + curve
    return shaped + level_dba - 10 * np.log10(np.sum(10 ** ((shaped + weighting) / 10)))


def main():
    _, annex_b2 = specific(cores(np.array(ISO["annexB2_input_db"], float), "free")[None, :])
    sone = annex_b2.sum() / STEPS_PER_BARK
    # Half the last digit printed, and the grid: a fourth of its step makes 0.0002 more.
    assert abs(sone - ISO["expected"]["annexB2_N_sone"]) < 0.0005 + 0.0003, sone

    music = [row for row in table("popular-music-ltas") if row["source"] == "default" and 25 <= float(row["f_hz"]) <= 16e3]
    nominal = np.array([float(row["f_hz"]) for row in music])
    power = 10 ** (np.array([float(row["level_db"]) for row in music]) / 10)
    assert len(nominal) == 29
    weighting = a_weighting(1000 * 10 ** (np.arange(-16, 13) / 10))
    levels = {row["class"]: float(row["level_typical_dba"]) for row in csv.DictReader(level_lines())}
    envelopes = table("playback-class-envelopes")

    cases = []
    for name, known_as in NAMES.items():
        rows = [row for row in envelopes if row["class"] == known_as and 25 <= float(row["f_hz"]) <= 16e3]
        for mix in ("middle", "wide"):
            if mix == "wide" and name not in MONO:
                continue
            # In mono what has nothing in common loses 3 dB.
            kept = np.where((nominal >= WIDE_FROM_HZ) & (mix == "wide"), 0.5, 1)
            field = "free" if name == "earphones" else "diffuse"
            neutral = levels_at(power, np.zeros(29), levels[known_as], weighting)
            for member in ("low", "typical", "high"):
                curve = np.array([float(row[f"{member}_db"]) for row in rows])
                heard = levels_at(power * kept, curve, levels[known_as], weighting)
                cases.append((name, mix, member, cores(neutral[:28], field), cores(heard[:28], field)))

    ends, means = specific(np.array([core for case in cases for core in case[3:]]))
    # Where the program reads it: at 0.1, 0.2 ... 24 Bark.
    marks = np.arange(1, 241) * (STEPS_PER_BARK // 10) - 1
    rows = []
    for n, (name, mix, member, _, _) in enumerate(cases):
        rows.append(
            {
                "class": name,
                "mix": mix,
                "member": member,
                "share": share_lost(*ends[2 * n : 2 * n + 2, marks]),
                "integral": share_lost(*means[2 * n : 2 * n + 2]),
            }
        )
    out = {"made": f"numpy {np.__version__}", "annexB2Sone": round(float(sone), 4), "rows": rows}
    (ROOT / "tests/translation/listen/loss-reference.json").write_text(json.dumps(out, indent=2) + "\n")


def share_lost(neutral, heard):
    return round(float(np.maximum(0, neutral - heard).sum() / neutral.sum()), 6)


def level_lines():
    return [line for line in (SHARED / "playback-class-levels.csv").read_text().splitlines() if not line.startswith("#")]


main()
