"""Remakes absorber-reference.json: porous layers by another way than the project's.

Transfer matrices in place of impedance transfer, the empirical constants in the authors' own units (frequency in Hz over
resistivity in cgs rayl/cm, as Delany and Bazley have them), and the mean over angles as an integral in place of its closed form.
Needs numpy and scipy. Run: python3 tests/scripts/absorber-reference.py > tests/standards/absorbers/absorber-reference.json
With "depths" after it, it gives depth-reference.json of tests/treatment instead: the least depth of a layer that takes a share, sought
in steps of 5 mm and then by Brent's method, Delany and Bazley's model for frequency over resistivity from 0.01 to 1 and Miki's below.
"""

import json
import sys

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq

C, RHO = 343.2, 1.204


def material(model, f, sigma):
    x = f / (sigma / 1000)  # Hz over cgs rayl/cm
    if model == "delanyBazley":
        z = 1 + 9.08 * x**-0.754 - 11.9j * x**-0.732
        k = 1 + 10.8 * x**-0.700 - 10.3j * x**-0.595
    else:
        z = 1 + 5.50 * x**-0.632 - 8.43j * x**-0.632
        k = 1 + 7.81 * x**-0.618 - 11.41j * x**-0.618
    return z * RHO * C, k * 2 * np.pi * f / C


def matrix(z, k, d):
    return np.array([[np.cos(k * d), 1j * z * np.sin(k * d)], [1j * np.sin(k * d) / z, np.cos(k * d)]])


def row(model, sigma, depth, gap, f):
    z, k = material(model, f, sigma)
    t = matrix(z, k, depth) @ matrix(RHO * C, 2 * np.pi * f / C, gap)
    s = t[0, 0] / t[1, 0] / (RHO * C)  # no velocity at the wall

    def angle(theta):
        r = (s * np.cos(theta) - 1) / (s * np.cos(theta) + 1)
        return (1 - abs(r) ** 2) * np.sin(2 * theta)

    diffuse = quad(angle, 0, np.pi / 2, epsabs=1e-12, epsrel=1e-12)[0]
    return {
        "model": model, "resistivity": sigma, "depthM": depth, "gapM": gap, "frequencyHz": f,
        "re": s.real, "im": s.imag, "normal": 1 - abs((s - 1) / (s + 1)) ** 2, "diffuse": diffuse,
    }  # fmt: skip


def least_depth(model, sigma, f, share):
    def over(depth):
        return row(model, sigma, depth, 0, f)["diffuse"] - share

    for step in range(1, 401):
        if over(0.005 * step) >= 0:
            return brentq(over, max(0.005 * (step - 1), 1e-6), 0.005 * step, xtol=1e-9)
    return None


# Delany and Bazley's constants are printed to three digits in either system of units: up to 0.002 of the absorption.
DIGITS = 0.002


def depth_row(f, sigma, share):
    model = "delanyBazley" if 0.01 <= f / sigma <= 1 else "miki"
    depth, less, more = (least_depth(model, sigma, f, share + off) for off in (0, -DIGITS, DIGITS))
    taken = row(model, sigma, depth, 0, f)["normal"] if depth else None
    return {
        "frequencyHz": f, "resistivity": sigma, "absorption": share, "model": model,
        "depthM": depth, "lessM": less, "moreM": more, "straightOn": taken,
    }  # fmt: skip


if sys.argv[1:] == ["depths"]:
    depths = [
        depth_row(f, sigma, share) for f in (40, 60, 125, 250, 1000) for share in (0.5, 0.8) for sigma in (5000, 10000, 20000)
    ]
    print(json.dumps(depths, indent=1))
    sys.exit()

layers = [(5000, 0.05, 0), (10000, 0.05, 0), (20000, 0.1, 0), (10000, 0.1, 0.1), (5000, 0.3, 0), (10000, 0.025, 0.075)]
rows = [
    row(model, *layer, f) for model in ("delanyBazley", "miki") for layer in layers for f in (63, 125, 250, 500, 1000, 4000)
]
print(json.dumps(rows, indent=1))
