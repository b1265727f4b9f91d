"""What a finished drawing becomes: an opening, an obstruction, the support window or the bonnet line."""

from __future__ import annotations

import enum
from collections.abc import Sequence

from msgspec.structs import replace

from grillestack.app.canvas.gestures.place_corner import Place
from grillestack.app.nose_things import add_thing
from grillestack.app.session import SUPPORT_WINDOW_ID, Session
from grillestack.model.edits import set_nose
from grillestack.model.mirrored import whole_of_half
from grillestack.model.nose import Obstruction, Opening, SupportWindow
from grillestack.model.outline import Point, SidePoint
from grillestack.model.values import ModelError

# What an obstruction takes of the depth until somebody says or pulls it; marked in its name's card by both ends.
DRAWN_DEPTH_MM = 30.0


class Drawn(enum.Enum):
    """What is drawn: the words for it and how many corners it needs."""

    OPENING = ("opening", 3)
    OBSTRUCTION = ("obstruction", 3)
    SUPPORT_WINDOW = ("support window", 3)
    BONNET_LINE = ("bonnet line", 2)

    @property
    def words(self) -> str:
        """Return what it is called."""
        return self.value[0]

    @property
    def fewest(self) -> int:
        """Return how many corners it needs."""
        return self.value[1]

    @property
    def is_outline(self) -> bool:
        """Return whether it closes."""
        return self is not Drawn.BONNET_LINE


def whole_outline(corners: Sequence[Place], *, mirrored: bool) -> tuple[Place, ...]:
    """Return the corners of the whole outline, with those that mirroring about the centre adds."""
    if not mirrored or not corners:
        return tuple(corners)
    whole = whole_of_half([Point(y, z) for y, z in corners])
    return tuple((corner.y_mm, corner.z_mm) for corner in whole.corners)


def finish_drawing(session: Session, drawn: Drawn, corners: Sequence[Place]) -> None:
    """Add the drawn thing in one undo step and select it.

    Raises
    ------
    ModelError
        If it has too few corners, or the document cannot hold it.
    """
    if len(corners) < drawn.fewest:
        raise ModelError(
            "outline",
            f"The {drawn.words} needs at least {drawn.fewest} corners and has {len(corners)}: click the missing ones.",
        )
    if drawn is Drawn.BONNET_LINE:
        _lay_bonnet_line(session, corners)
        return
    outline = tuple(Point(y, z) for y, z in corners)
    project, nose = session.project, session.project.nose
    grille_mm = nose.stations.grille_x_mm
    if drawn is Drawn.SUPPORT_WINDOW:
        there = nose.support_window
        window = SupportWindow(outline=outline, x_mm=grille_mm if there is None else there.x_mm)
        session.apply("draw support window", set_nose(project, replace(nose, support_window=window)))
        session.select([SUPPORT_WINDOW_ID])
        return
    thing: Opening | Obstruction
    if drawn is Drawn.OPENING:
        thing = Opening(id="new", name="Grille opening", outline=outline, x_mm=grille_mm)
    else:
        thing = Obstruction(
            id="new",
            name="Obstruction",
            outline=outline,
            x_front_mm=grille_mm - DRAWN_DEPTH_MM,
            x_rear_mm=grille_mm,
        )
    project, identifier = add_thing(project, thing)
    session.apply(f"draw {drawn.words}", project)
    session.select([identifier])
    if drawn is Drawn.OBSTRUCTION:
        session.message.emit(
            "The obstruction stands right ahead of the grille plane until you say where: pull its front and rear in the "
            "side view, or type them on its card."
        )


def _lay_bonnet_line(session: Session, corners: Sequence[Place]) -> None:
    nose = session.project.nose
    line = [SidePoint(x, z) for x, z in corners]
    if line[0].x_mm > line[-1].x_mm:
        line.reverse()  # the document keeps it from front to back
    stations = replace(nose.stations, bonnet_line=tuple(line))
    session.apply("draw bonnet line", set_nose(session.project, replace(nose, stations=stations)))
