"""What the planner records: duty, setting, curve, cable and motor, and what a line's sheet says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import Question
from fieldbook.app.dialogs.asking import RecordingDialogs
from fieldbook.quantities.admit import CONFIRMED, SURE
from fieldbook.quantities.figures import figure
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.walk.entry.doubts import doubts_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.entry import Value
    from fieldbook.watch.planner.candidates import Candidate

_SHEETS = {
    "pvc": ("tension_rating", "fitting_rating", "pressure_rating", "joint_length",
            "coupling_weight"),
    "steel": ("steel_grade", "thread_design_factor", "fitting_rating", "joint_length",
              "coupling_weight", "flow_coefficient"),
    "hose": ("hose_bore", "hose_swell", "line_weight", "hose_density", "tension_rating",
             "fitting_rating", "pressure_rating", "flow_coefficient", "coldest", "hottest",
             "least_ph", "most_ph"),
}  # fmt: skip
_DUTY = ("duty_flow", "pumping_level", "specific_capacity", "discharge_pressure", "flow_sleeve")
_SUPPLY = {
    "pump": ("motor_power", "motor_voltage", "motor_phase", "service_amps", "motor_diameter"),
    "cable": ("allowed_drop",),
}


class PlannerDialogs(RecordingDialogs):
    """Each asks, records, and says what came of it."""

    async def sheet(self, candidate: Candidate) -> str:
        """Write what the sheet of a line says."""
        asks = _SHEETS[candidate.line]
        fixed = {"line": plain_value(candidate.line)}
        if candidate.nps:
            fixed |= {"nps": plain_value(candidate.nps)}
            fixed |= {"schedule": plain_value(candidate.schedule)}
        question = Question(
            f"{candidate.name}: maker's rating",
            "What you leave empty stays unknown. Ratings are the maker's, at the water's"
            " temperature; a fitting is the weakest valve or end fitting of this size.",
            asks,
            texts=_texts(candidate.values, asks),
            opened_by="y",
        )
        return await self._ask(
            question,
            lambda values: self._record("line_choice", fixed | values),
            said=f"{candidate.name}: sheet saved",
        )

    async def setting(self) -> str:
        """Write the setting to plan for."""
        asks = ("datum", "setting_depth")
        known = self._known("setting", asks) or self._known("well", ("datum",))
        question = Question(
            "Setting to plan for", "Depth of the intake.", asks, asks, texts=known, opened_by="s"
        )
        return await self._ask(
            question, lambda values: self._record("setting", values), said="setting saved"
        )

    async def duty(self) -> str:
        """Write what the pump must do."""
        question = Question(
            "What the pump must do", "", _DUTY, ("duty_flow",), texts=self._known("duty", _DUTY),
            opened_by="d",
        )  # fmt: skip
        return await self._ask(
            question, lambda values: self._record("duty", values), said="duty saved"
        )

    async def curve_point(self) -> str:
        """Write one point of the pump's curve."""
        asks = ("curve_flow", "curve_head", "curve_efficiency")
        question = Question(
            "A point of the pump's curve", "One point at a time; 0 flow is the closed valve.",
            asks, asks[:2], opened_by="k",
        )  # fmt: skip
        return await self._ask(
            question, lambda values: self._record("curve_point", values), said="point saved"
        )

    async def supply(self) -> str:
        """Write what cable and motor are."""
        asks = tuple(name for names in _SUPPLY.values() for name in names)
        texts = tuple(text for kind, names in _SUPPLY.items() for text in self._known(kind, names))
        question = Question("Motor and cable", "From the nameplate.", asks, texts=texts,
                            opened_by="c")  # fmt: skip

        def record(values: dict[str, Value]) -> None:
            for kind, names in _SUPPLY.items():
                if said := {name: values[name] for name in names if name in values}:
                    # Of two entries out of one form, the one that was asked about says so.
                    odd = SURE in values and doubts_of(self._session.job, Draft(kind, "", said))
                    self._record(kind, said | (CONFIRMED if odd else {}))

        return await self._ask(question, record, said="motor and cable saved")

    def _known(self, kind: str, names: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
        job = self._session.job
        found = {name: value for name in names if (value := job.value(kind, name)) is not None}
        return _texts(found, names)


def _texts(values: Mapping[str, Value], names: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    return tuple((name, figure(values[name])) for name in names if name in values)
