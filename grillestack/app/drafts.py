"""The forms for something new in the nose: a new nose, an opening, an obstruction, the support window, all typed as rectangles."""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Mapping
from typing import Any

from msgspec.structs import replace

from grillestack.app.landing import nose_centre
from grillestack.app.nose_things import free_id
from grillestack.app.panels.draft import DraftForm, Wanted
from grillestack.app.panels.nose_rows import typed_rectangle
from grillestack.app.panels.slots import put_window
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.edits import set_nose
from grillestack.model.nose import DepthStations, Nose, Obstruction, Opening, SupportWindow
from grillestack.model.project import Project
from grillestack.model.values import SizeMm, Value
from grillestack.units.quantity import Dimension

NEW_LOWER_EDGE_MM = 500.0  # above the ground, a usual grille; common practice, no source

_WIDTH = Wanted(key="width_mm", label="Width", dimension=Dimension.LENGTH)
_HEIGHT = Wanted(key="height_mm", label="Height", dimension=Dimension.LENGTH)


class _Room(Value, frozen=True, kw_only=True):
    """The depth of the nose, so that an impossible one is refused in the model's words."""

    depth_mm: SizeMm


def new_nose(session: Session, begin: Callable[[Project], None]) -> DraftForm:
    """Return the form that asks only for the opening and the depth; everything else has a marked default."""

    def take(values: Mapping[str, Any]) -> None:
        outline = typed_rectangle(values["width_mm"], values["height_mm"], 0.0, NEW_LOWER_EDGE_MM)
        depth_mm = _Room(depth_mm=values["depth_mm"]).depth_mm
        nose = Nose(
            openings=(Opening(id="opening-1", name="Grille opening", outline=outline),),
            stations=DepthStations(pulley_x_mm=depth_mm),
        )
        begin(Project(title="New nose", nose=nose, next_number=2))

    wanted = (
        dataclasses.replace(_WIDTH, label="Opening width"),
        dataclasses.replace(_HEIGHT, label="Opening height"),
        Wanted(key="depth_mm", label="Grille to fan or pulley", dimension=Dimension.LENGTH),
    )
    note = "Measure the grille opening, and from the grille back to the engine's fan or pulley. All else has a default you can change later."
    return DraftForm("New nose", wanted, session.units, take, words_to_take="Begin", note=note)


def new_opening(session: Session) -> DraftForm:
    """Return the form for one more grille opening."""

    def take(values: Mapping[str, Any]) -> None:
        project = session.project
        identifier, number = free_id(project, "opening")
        opening = Opening(id=identifier, name=values["name"], outline=_outline(values), x_mm=values["x_mm"])
        nose = replace(project.nose, openings=(*project.nose.openings, opening))
        session.apply("add opening", set_nose(replace(project, next_number=number), nose))
        session.select([identifier])

    name = Wanted(key="name", label="Name", initial="Grille opening")
    rearward = Wanted(key="x_mm", label="Rearward", dimension=Dimension.LENGTH, initial=_grille(session))
    return DraftForm("New opening", (name, *_rectangle(session), rearward), session.units, take)


def new_obstruction(session: Session) -> DraftForm:
    """Return the form for something solid in the nose."""

    def take(values: Mapping[str, Any]) -> None:
        project = session.project
        identifier, number = free_id(project, "obstruction")
        obstruction = Obstruction(
            id=identifier,
            name=values["name"],
            outline=_outline(values),
            x_front_mm=values["x_front_mm"],
            x_rear_mm=values["x_rear_mm"],
        )
        nose = replace(project.nose, obstructions=(*project.nose.obstructions, obstruction))
        session.apply("add obstruction", set_nose(replace(project, next_number=number), nose))
        session.select([identifier])

    wanted = (
        Wanted(key="name", label="Name", initial="Obstruction"),
        *_rectangle(session),
        Wanted(key="x_front_mm", label="Front at", dimension=Dimension.LENGTH, initial=_grille(session)),
        Wanted(key="x_rear_mm", label="Rear at", dimension=Dimension.LENGTH),
    )
    note = "Anything solid that is no part of the pack: beam, lamp, winch, latch."
    return DraftForm("New obstruction", wanted, session.units, take, note=note)


def new_window(session: Session) -> DraftForm:
    """Return the form for the support window; it takes the place of one that is there."""

    def take(values: Mapping[str, Any]) -> None:
        window = SupportWindow(outline=_outline(values), x_mm=values["x_mm"])
        session.apply("set support window", put_window(session.project, window))
        session.select([SUPPORT_WINDOW_ID])

    there = session.project.nose.support_window is not None
    note = "The hole in the core support; outside it no air passes." + (" It replaces the one there." if there else "")
    rearward = Wanted(key="x_mm", label="Rearward", dimension=Dimension.LENGTH)
    return DraftForm("Support window", (*_rectangle(session), rearward), session.units, take, note=note)


def _rectangle(session: Session) -> tuple[Wanted, ...]:
    middle, _ = nose_centre(session.project)
    return (
        _WIDTH,
        _HEIGHT,
        Wanted(key="centre_mm", label="Centre to the right", dimension=Dimension.LENGTH, initial=middle),
        Wanted(key="bottom_mm", label="Lower edge at", dimension=Dimension.LENGTH, initial=_lowest(session)),
    )


def _outline(values: Mapping[str, Any]) -> Any:
    return typed_rectangle(values["width_mm"], values["height_mm"], values["centre_mm"], values["bottom_mm"])


def _lowest(session: Session) -> float:
    heights = [p.z_mm for o in session.project.nose.openings for p in o.outline]
    return min(heights, default=NEW_LOWER_EDGE_MM)


def _grille(session: Session) -> float:
    return session.project.nose.stations.grille_x_mm
