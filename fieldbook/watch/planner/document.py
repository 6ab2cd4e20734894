"""The plan as a plain JSON document."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from calc.units import magnitude
from fieldbook.watch.document import check_document
from fieldbook.watch.planner.anchors import ANGLES

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.watch.planner.deepest import Limit
    from fieldbook.watch.planner.known import Known
    from fieldbook.watch.planner.plan import AtSetting, Plan, PlanRow
    from fieldbook.watch.planner.supply import Supply


def plan_document(plan: Plan) -> dict[str, Any]:
    """The whole plan; every figure with its unit, `null` where it is not known."""
    return {
        "possible": plan.possible,
        "lift_now": check_document(plan.stopped) if plan.stopped is not None else None,
        "setting": _known(plan.setting, "ft"),
        "well_allows": {
            "least": _known(plan.room.least, "ft"),
            "most": _known(plan.room.most, "ft"),
        },
        "duty": {
            "flow": _known(plan.duty.flow, "gpm"),
            "pumping_level": _known(plan.duty.level, "ft"),
            "pressure_at_the_top": _known(plan.duty.head_pressure, "psi"),
        },
        "missing_for_every_line": list(plan.common),
        "cable": _supply(plan.supply) if plan.supply is not None else None,
        "cooling": check_document(plan.cooling),
        "lines": [_row(row) for row in plan.rows],
    }


def _row(row: PlanRow) -> dict[str, Any]:
    candidate = row.candidate
    return {
        "line": candidate.line,
        "nps": candidate.nps,
        "schedule": candidate.schedule,
        "name": candidate.name,
        "verdict": row.verdict.value,
        "governs": row.governs.name if row.governs is not None else None,
        "missing": list(row.missing),
        "limits": [_limit(limit) for limit in row.limits],
        "at_setting": _at(row.at) if row.at is not None else None,
    }


def _limit(limit: Limit) -> dict[str, Any]:
    return {
        "name": limit.name,
        "deepest": _figure(limit.setting, "ft"),
        "line_length": {"value": limit.length, "unit": "ft"} if limit.length is not None else None,
        "caution_from": {"value": limit.caution, "unit": "ft"}
        if limit.caution is not None
        else None,
        "beyond": limit.beyond,
        "governs": limit.check.governs,
        "missing": list(limit.missing),
        "formula": limit.check.formula,
        "source": limit.check.source,
    }


def _at(at: AtSetting) -> dict[str, Any]:
    loads = at.trial.lift.loads
    point = at.flowing.point
    return {
        "line_length": {"value": round(at.trial.length, 3), "unit": "ft"},
        "checks": [check_document(check) for check in at.trial.limits.values()],
        "hook_load": None
        if loads is None
        else {
            "full": _figure(loads.full, "lbf"),
            "drained": _figure(loads.drained, "lbf"),
            "design": _figure(loads.design, "lbf"),
        },
        "standing_pressure": _figure(at.gross.standing, "psi") if at.gross is not None else None,
        "dead_head": _figure(at.gross.dead_head, "psi") if at.gross is not None else None,
        "velocity": _known(at.flowing.velocity, "ft/s"),
        "friction": _known(at.flowing.friction, "ft"),
        "total_head": _known(at.flowing.total_head, "ft"),
        "operating_point": None
        if point.value is None
        else {
            "flow": _figure(point.value.flow, "gpm"),
            "head": _figure(point.value.head, "ft"),
            "how": point.how,
        },
        "operating_point_missing": list(point.missing),
        "motor_load": check_document(at.motor),
        "minutes": {
            "least": round(at.time.least, 1),
            "most": round(at.time.most, 1),
            "joints": at.time.joints,
            "source": "our estimate, no published source",
        },
        "anchors": [
            {
                "name": anchor.name,
                "turn": _figure(anchor.turn, "degree"),
                "load": _figure(anchor.load, "lbf"),
                "by_angle": {
                    str(angle): round(magnitude(load, "lbf", "anchor"), 1)
                    for angle, load in zip(ANGLES, anchor.by_angle, strict=True)
                },
            }
            for anchor in at.anchors
        ],
    }


def _supply(supply: Supply) -> dict[str, Any]:
    size = supply.size.value
    return {
        "length": _figure(supply.length, "ft"),
        "allowed": supply.allowed,
        "allowed_by": supply.allowed_by,
        "size": size.size if size is not None else None,
        "missing": list(supply.size.missing),
        "drop": {step.size: round(step.drop, 4) for step in supply.steps.value or ()},
    }


def _known(figure: Known[Quantity], unit: str) -> dict[str, Any]:
    found = _figure(figure.value, unit) or {"value": None, "unit": unit}
    return found | {"how": figure.how, "missing": list(figure.missing)}


def _figure(value: Quantity | None, unit: str) -> dict[str, Any] | None:
    if value is None:
        return None
    return {"value": round(magnitude(value, unit, "figure"), 3) + 0.0, "unit": unit}
