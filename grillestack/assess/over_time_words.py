"""What to know beside the curves of the coolant over time: what is peculiar about these duty cases, and what it all rests on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grillestack.assess.asked import AskedCase
from grillestack.assess.defaults import FAN_ON_DEGC, default_for, engine_value
from grillestack.assess.heat_shed import CORNERS, HeatShed
from grillestack.assess.heat_stored import Store
from grillestack.assess.result import Basis
from grillestack.model.project import Project


def notes_over_time(
    cases: Sequence[AskedCase | None], shed: Sequence[HeatShed | None], thermostat_degc: float
) -> tuple[str, ...]:
    """Return the notes on the case before the step, the one after it and the idling one, each case once."""
    notes: list[str] = []
    told: set[str] = set()
    for number, one in enumerate(cases):
        if one is None:
            notes.append("No duty case stands still: add one to see how the coolant cools after the load.")
        elif one.case.id not in told:
            told.add(one.case.id)
            notes.extend(_case_notes(one, shed[number], thermostat_degc))
    return tuple(notes)


def basis_over_time(project: Project, stores: Sequence[Store]) -> tuple[Basis, ...]:
    """Return what the curves rest on."""
    opening_degc, default = engine_value(project.engine, "thermostat_degc"), default_for("thermostat_degc")
    guessed = project.engine.thermostat_degc is None
    return (
        Basis(
            figure="top tank temperature over time",
            method="coolant, block, head and radiator as one lump; heat shed solved at "
            f"{CORNERS} top tank temperatures, first order in closed form between them",
            source="INCROPERA in SOURCES.md",
        ),
        Basis(
            figure="thermostat",
            method=f"shut below {opening_degc:.0f} °C, fully open above; a real one needs some 10 K more to open fully, "
            "so the coolant may start warmer and reach the limit sooner",
            source=f"default: {default.source}" if guessed and default is not None else "engine sheet",
        ),
        Basis(
            figure=f"time to {FAN_ON_DEGC:.0f} °C",
            method="where a fan switch usually closes; the fans run throughout as the duty case says",
            source="a published or maker's figure, seen in summary",
        ),
        *(
            Basis(
                figure=f"heat stored in {store.name}",
                method=f"{store.capacity_j_per_k / 1e3:.1f} kJ/K",
                source=store.source,
            )
            for store in stores
        ),
    )


def _case_notes(one: AskedCase, found: HeatShed | None, thermostat_degc: float) -> Iterator[str]:
    name = one.case.name
    if found is None:
        yield f"Air and heat of “{name}” did not settle: how the coolant moves there is not known."
    elif found.steady_degc is None:
        yield f"In “{name}” no top tank temperature sheds the heat: the coolant warms until it boils."
    elif found.steady_degc < thermostat_degc:
        yield f"In “{name}” the thermostat holds the coolant at {thermostat_degc:.0f} °C."
    elif found.steady_degc >= found.corner_degc[-1]:
        yield (
            f"“{name}” would lead to {found.steady_degc:.0f} °C: above {found.corner_degc[-1]:.0f} °C coolant is near "
            "boiling, and no curve is drawn."
        )
    elif found.steady_degc >= one.top_tank_limit_degc:
        yield f"“{name}” by itself leads to {found.steady_degc:.1f} °C, above the limit."
