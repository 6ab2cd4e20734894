"""The filter of unknowns, against scipy's normal densities taken all at once."""

from __future__ import annotations

import random

import numpy as np
import pytest
from scipy.stats import multivariate_normal  # type: ignore[import-untyped]

from fieldbook.watch.listen.gaussian import belief, meet, sharpened


@pytest.mark.parametrize("seed", range(12))
def test_one_by_one_weighs_as_all_at_once(seed: int) -> None:
    draw = random.Random(seed)
    sds = tuple(draw.uniform(0.1, 5.0) for _ in range(4))
    slopes = [tuple(draw.gauss(0, 2) for _ in sds) for _ in range(6)]
    nominal = [draw.gauss(100, 20) for _ in slopes]
    noise = [draw.uniform(0.5, 9.0) for _ in slopes]
    read = [draw.gauss(100, 25) for _ in slopes]

    known, logs = belief(sds), 0.0
    for row in zip(read, nominal, slopes, noise, strict=True):
        fit = meet(known, *row)
        logs += fit.log_density
        known = sharpened(known, fit)

    matrix = np.array(slopes)
    spread = np.diag(np.square(sds))
    whole = matrix @ spread @ matrix.T + np.diag(noise)
    outside = multivariate_normal(nominal, whole)
    assert logs == pytest.approx(outside.logpdf(read), rel=1e-9)
    gain = spread @ matrix.T @ np.linalg.inv(whole)
    mean = gain @ (np.array(read) - np.array(nominal))
    assert known.mean == pytest.approx(mean, rel=1e-6, abs=1e-9)
    np.testing.assert_allclose(known.spread, spread - gain @ matrix @ spread, atol=1e-8)


def test_a_new_unknown_forgets_what_the_old_one_knew() -> None:
    known = belief((1.0, 2.0))
    known = sharpened(known, meet(known, 5.0, 0.0, (1.0, 1.0), 0.1))
    fresh = known.with_own(3.0, 4.0)

    assert fresh.mean == (known.mean[0], 3.0)
    assert fresh.spread == ((known.spread[0][0], 0.0), (0.0, 16.0))
