"""Where the degrees go: from the radiator behind an open nose to the pack as it stands, in steps that add up exactly."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from typing import Final

from grillestack.assess.asked import AskedCase, asked_cases
from grillestack.assess.assess import further_heat_w, pack_overlay
from grillestack.assess.case_results import limiting_ambient_degc
from grillestack.assess.pack_layout import AS_IT_STANDS, Ideal, lay_out
from grillestack.assess.problems import Problem, conditions_of
from grillestack.geometry.overlay import Overlay
from grillestack.model.parts import Core, CoreRole
from grillestack.model.project import Project, cores
from grillestack.physics.conditions import Ask
from grillestack.physics.solve import solve

_NO_NOSE: Final = Ideal(open_nose=True, no_tanks=True, full_shroud=True, no_leak=True)
_NO_TANKS: Final = Ideal(no_tanks=True, full_shroud=True, no_leak=True)
_FULL_SHROUD: Final = Ideal(full_shroud=True, no_leak=True)
_NO_LEAK: Final = Ideal(no_leak=True)
SHROUD_STEP: Final = "Bare face and way to the fan"


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterfallStep:
    """One thing that is added to the pack, and the hottest day after it; `None` where there is none."""

    name: str
    before_degc: float | None
    after_degc: float | None

    @property
    def change_k(self) -> float | None:
        """Return what this step does to the hottest day; negative costs degrees, `None` is no answer."""
        if self.before_degc is None or self.after_degc is None:
            return None
        return self.after_degc - self.before_degc


@dataclass(frozen=True, slots=True, kw_only=True)
class Waterfall:
    """The steps of one duty case, first to last; the end of the last is the case's hottest day."""

    case_name: str
    start_degc: float | None
    steps: tuple[WaterfallStep, ...]

    @property
    def end_degc(self) -> float | None:
        """Return the hottest day of the pack as it stands."""
        return self.steps[-1].after_degc if self.steps else self.start_degc


def waterfall(project: Project, case_id: str) -> Waterfall | None:
    """Return where the degrees of this duty case go, or nothing if the case cannot be judged.

    The order is fixed: opening and grille (with obstructions and support plate), condenser, charge-air cooler and further
    coolers, tanks and side plates, face left uncovered by the shroud and the way under it to its fans, leaks. Steps may have
    either sign.
    """
    asked = next((one for one in asked_cases(project) if one.case.id == case_id), None)
    stack = cores(project)
    if asked is None or not asked.answerable:
        return None
    overlay = pack_overlay(project)
    levels = [
        (name, _hottest_day_degc(project, overlay, stack, asked, ideal, present))
        for name, ideal, present in _levels(stack)
    ]
    steps = tuple(
        WaterfallStep(name=name, before_degc=before, after_degc=after)
        for (_, before), (name, after) in itertools.pairwise(levels)
    )
    return Waterfall(case_name=asked.case.name, start_degc=levels[0][1], steps=steps)


def in_words(result: Waterfall) -> str:
    """Return the waterfall as one paragraph."""
    if result.start_degc is None:
        sentences = [f"{result.case_name}: even the radiator alone in an open nose has no hottest day."]
    else:
        sentences = [
            f"{result.case_name}: the radiator alone in an open nose would stand a day of {result.start_degc:.1f} °C."
        ]
    sentences += [_step_in_words(step) for step in result.steps]
    end = result.end_degc
    sentences.append("The pack as it stands has no hottest day." if end is None else f"That leaves {end:.1f} °C.")
    return " ".join(sentences)


def _step_in_words(step: WaterfallStep) -> str:
    change, name = step.change_k, step.name[0].lower() + step.name[1:]
    if change is None:
        return f"For {name} there is no answer."
    if abs(change) < 0.05:
        return f"Nothing goes to {name}."
    return f"{-change:.1f} K go to {name}." if change < 0.0 else f"{change:.1f} K come back from {name}."


def _levels(stack: tuple[Core, ...]) -> list[tuple[str, Ideal, tuple[bool, ...]]]:
    radiator = next(core for core in stack if core.role is CoreRole.RADIATOR)
    alone = tuple(core is radiator for core in stack)
    cooled = tuple(core is radiator or core.role is CoreRole.CONDENSER for core in stack)
    everything = (True,) * len(stack)
    return [
        ("Open nose", _NO_NOSE, alone),
        ("Opening and grille", _NO_TANKS, alone),
        ("Condenser", _NO_TANKS, cooled),
        ("Charge-air cooler and further coolers", _NO_TANKS, everything),
        ("Tanks and side plates", _FULL_SHROUD, everything),
        (SHROUD_STEP, _NO_LEAK, everything),
        ("Leaks", AS_IT_STANDS, everything),
    ]


def _hottest_day_degc(
    project: Project,
    overlay: Overlay,
    stack: tuple[Core, ...],
    asked: AskedCase,
    ideal: Ideal,
    present: tuple[bool, ...],
) -> float | None:
    laid_out = lay_out(project, overlay, stack, ideal)
    conditions = conditions_of(project, laid_out.layout, [Problem(asked, Ask.AMBIENT, present)], further_heat_w(stack))
    return limiting_ambient_degc(solve(laid_out.layout, conditions), conditions, 0)
