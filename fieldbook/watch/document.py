"""What the book sees, as plain JSON documents for the command line and the job file."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.units import magnitude
from fieldbook.watch.text import unit_of

if TYPE_CHECKING:
    from calc.check import Check
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.depth.reconcile import Depth
    from fieldbook.watch.gauge.next_reading import Ahead
    from fieldbook.watch.state.water_level import Outside
    from fieldbook.watch.watcher import Look


def check_document(check: Check) -> dict[str, Any]:
    """One check; figures in the unit the check was made in."""
    return {
        "name": check.name,
        "verdict": check.verdict.value,
        "demand": _figure(check.demand),
        "allowable": _figure(check.allowable),
        "share": round(check.share, 4) if check.share is not None else None,
        "governs": check.governs,
        "missing": list(check.missing),
        "formula": check.formula,
        "source": check.source,
        "note": check.note,
    }


def look_document(look: Look) -> dict[str, Any]:
    """Every live check, the loads, the readings to expect and never to pass, the depth."""
    loads = look.lift.loads
    readings = look.readings
    return {
        "verdict": look.verdict.value,
        "out": {
            "joints": look.now.joints_out,
            "joints_of": len(look.now.record.joint_ends),
            "footage": _figure(look.now.footage_out),
            "hanging": {"value": round(look.now.hanging_ft, 3), "unit": "ft"},
        },
        "draining": {
            "proved": look.draining.proved,
            "words": look.draining.words,
            "fall": _figure(look.draining.fall),
            "expected": _figure(look.draining.expected),
        },
        "hook_load": None
        if loads is None
        else {
            "full": _figure(loads.full),
            "drained": _figure(loads.drained),
            "design": _figure(loads.design),
            "worst": _figure(loads.worst),
            "worst_case": loads.worst_case,
        },
        "in_service": check_document(look.lift.served) if look.lift.served is not None else None,
        "gauge": {
            "read": _figure(readings.read),
            "means": _band(readings.hook_load),
            "expect_full": _band(readings.expect_full),
            "expect_drained": _band(readings.expect_drained),
            "expected_with": _outside(look.now.outside),
            "never": _figure(readings.never),
            "never_of": readings.never_of,
            "next": _next(readings.ahead),
        },
        "telling": look.telling.document(),
        "depth": _depth(look.depth),
        "checks": [check_document(check) for check in look.checks],
        "links": [check_document(link.check) for link in look.lift.links],
    }


def _depth(deep: Depth) -> dict[str, Any] | None:
    found = deep.found
    if found is None:
        return None
    return {
        "datum": deep.datum,
        "intake": _figure(found.depth),
        "uncertainty": _figure(found.uncertainty),
        "agree": found.agree,
        "odd": found.odd.way.name if found.odd is not None else None,
        "ways": [
            {
                "name": each.way.name,
                "depth": _figure(each.way.depth),
                "uncertainty": _figure(each.way.uncertainty),
                "weight": round(each.weight, 4),
                "difference": _figure(each.difference),
            }
            for each in found.ways
        ],
    }


def _outside(water: Outside | None) -> dict[str, Any] | None:
    return {"level": _figure(water.level), "state": water.state} if water is not None else None


def _next(ahead: Ahead) -> dict[str, Any]:
    travel = ahead.travel
    inches = round(magnitude(travel, "in", "travel"), 3) if travel is not None else None
    return {
        "at": ahead.at,
        "expect_full": _band(ahead.full),
        "expect_drained": _band(ahead.drained),
        "overpull": _figure(ahead.overpull),
        "overpull_reading": _figure(ahead.overpull_reading),
        "travel_to_limit": {"value": inches, "unit": "in"} if inches is not None else None,
        "warning": ahead.warning,
    }


def _figure(quantity: Quantity | None) -> dict[str, Any] | None:
    if quantity is None:
        return None
    unit = unit_of(quantity)
    share = unit == "dimensionless"
    number = round(magnitude(quantity, unit, "figure"), 5 if share else 3) + 0.0  # no -0.0
    return {"value": number, "unit": "" if share else unit}


def _band(band: Band | None) -> dict[str, Any] | None:
    if band is None:
        return None
    low, high = (round(magnitude(end, "lbf", "band"), 1) + 0.0 for end in (band.low, band.high))
    return {"low": low, "high": high, "unit": "lbf", "missing": list(band.missing)}
