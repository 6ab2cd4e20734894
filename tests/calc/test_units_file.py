"""The units of the trade against the whole of pint's own file: the same names, the same numbers."""

from __future__ import annotations

import pint
import pytest

from calc.units import quantity, ureg
from fieldbook.quantities.definition import definitions, units_of

OURS = {"gpm": "gallon / minute", "Mohm": "megaohm", "NTU": "[]"}


@pytest.fixture(scope="module")
def whole() -> pint.UnitRegistry[float]:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for name, meaning in OURS.items():
        registry.define(f"{name} = {meaning}")
    return registry


def test_each_name_means_what_pint_means_by_it(whole: pint.UnitRegistry[float]) -> None:
    names = list(ureg._units)
    assert len(names) > 100
    for name in names:
        ours, theirs = ureg.Quantity(1.0, name), whole.Quantity(1.0, name)
        assert str(ours.units) == str(theirs.units), name
        assert f"{ours.units:~}" == f"{theirs.units:~}", name
        root, same = ours.to_root_units(), theirs.to_root_units()
        assert (root.magnitude, str(root.units)) == (same.magnitude, str(same.units)), name


def test_each_unit_that_can_be_written_is_known(whole: pint.UnitRegistry[float]) -> None:
    written = {
        unit
        for known in definitions().values()
        for unit in (known.unit, known.metric, *units_of(known.dimension))
    }
    assert len(written) > 40
    for unit in filter(None, written):
        base = quantity(1.0, unit).to_root_units()
        assert base.magnitude == whole.Quantity(1.0, unit).to_root_units().magnitude, unit
