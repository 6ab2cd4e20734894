"""What is known of the unknowns: means and covariances, sharpened by one reading at a time.

A Kalman filter with nothing but lists: seven unknowns do not pay for a library at run time.
Source: Bayes' rule for jointly normal quantities; checked against scipy in the tests.
"""

from __future__ import annotations

from math import log, pi
from operator import mul
from typing import NamedTuple

Vector = tuple[float, ...]
Matrix = tuple[Vector, ...]


class Belief(NamedTuple):
    """Mean and covariance of the unknowns, as departures from the recorded figures."""

    mean: Vector
    spread: Matrix

    def with_own(self, mean: float, sd: float) -> Belief:
        """The belief with its last unknown made new, independent of the others."""
        last = len(self.mean) - 1
        rows = tuple((*row[:last], 0.0) for row in self.spread[:last])
        return Belief((*self.mean[:last], mean), (*rows, (*((0.0,) * last), sd * sd)))


def belief(sds: Vector) -> Belief:
    """Independent unknowns with mean nothing and these standard deviations."""
    size = range(len(sds))
    rows = tuple(tuple(sds[a] ** 2 if a == b else 0.0 for b in size) for a in size)
    return Belief((0.0,) * len(sds), rows)


class Fit(NamedTuple):
    """How a belief meets one reading.

    Attributes:
        miss: Reading less prediction.
        variance: Of that miss.
        log_density: Natural log of the density of the reading.
        gain_row: Covariance of the unknowns with the reading.
    """

    miss: float
    variance: float
    log_density: float
    gain_row: Vector


def meet(known: Belief, reading: float, nominal: float, slopes: Vector, noise: float) -> Fit:
    """Hold a belief against a reading.

    Args:
        known: The belief before.
        reading: What was read.
        nominal: What the recorded figures predict.
        slopes: How the reading moves with each unknown.
        noise: Variance of a single reading.
    """
    predicted = nominal
    for mean, slope in zip(known.mean, slopes, strict=True):
        predicted += mean * slope
    # Lists and no generators, here and below: they cost half, and a reading is hundreds of these.
    row = tuple([sum(map(mul, cells, slopes)) for cells in known.spread])
    # What the unknowns add is never negative; at figures past all measure rounding makes it so.
    variance = noise + max(sum(map(mul, row, slopes)), 0.0)
    miss = reading - predicted
    return Fit(miss, variance, -0.5 * (miss * miss / variance + log(2.0 * pi * variance)), row)


def sharpened(known: Belief, fit: Fit) -> Belief:
    """The belief after the reading."""
    row, per = fit.gain_row, 1.0 / fit.variance
    step = fit.miss * per
    mean = tuple([m + g * step for m, g in zip(known.mean, row, strict=True)])
    spread = []
    for cells, gain in zip(known.spread, row, strict=True):
        share = gain * per
        spread.append(tuple([cell - share * g for cell, g in zip(cells, row, strict=True)]))
    return Belief(mean, tuple(spread))
