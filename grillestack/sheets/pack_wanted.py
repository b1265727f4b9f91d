"""What the pack sketch must show, and the ways in which its dimensions may be laid out, best first."""

from __future__ import annotations

import enum
import itertools
from dataclasses import dataclass

from grillestack.geometry.depth import DepthReport
from grillestack.model.project import Project
from grillestack.model.sheet_choices import DrawingUnits, Paper, Projection
from grillestack.sheets.datum import Datum
from grillestack.sheets.dimension_wishes import Ordinate, depth_wishes, front_wishes, ordinates
from grillestack.sheets.draw_list import Axis
from grillestack.sheets.ordinate_rows import broken
from grillestack.sheets.paper import paper_form
from grillestack.sheets.say_length import said_length
from grillestack.sheets.vehicle_lines import Bounds
from grillestack.sheets.view_faces import Looking
from grillestack.sheets.view_marks import Picture, picture_of

# How much of the vehicle is shown around the pack, on paper
_AROUND_MM = 2.0
_LONG_FRAC, _SHORT_FRAC = 13.0, 9.5
# Inches in brackets behind the millimetres make a label so much longer.
_TWO_UNITS_FRAC = 1.5


class GapsAt(enum.Enum):
    """Where the gaps between the parts are written."""

    PLAN = "beside the plan view"
    SIDE = "at the side view"
    NOTES = "in the notes"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to lay the dimensions out.

    Depths stand at the right of the plan view, with the dimensions of the side view turned away from it, or at its left
    above the heights; labels are long, or broken early; the side view reaches to the planes of grille and pulley or not.
    """

    depths_at_right: bool
    gaps: GapsAt
    short_labels: bool
    to_planes: bool

    @property
    def cost_factor(self) -> float:
        """Return how much worse it reads than the best way; judged by eye on the demos."""
        gaps = {GapsAt.PLAN: 0.0, GapsAt.SIDE: 0.5, GapsAt.NOTES: 2.0}[self.gaps]
        return gaps + 3.0 * self.short_labels + 1.5 * (not self.to_planes) + 0.2 * (not self.depths_at_right)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What is to be drawn, apart from where."""

    project: Project
    report: DepthReport
    datum: Datum
    across: tuple[Ordinate, ...]
    up: tuple[Ordinate, ...]
    depth: tuple[Ordinate, ...]

    @property
    def paper(self) -> Paper:
        """Return the paper of the project's choice."""
        return self.project.sheet.paper

    @property
    def text_mm(self) -> float:
        """Return the height of its lettering."""
        return paper_form(self.paper).text_mm

    @property
    def is_third_angle(self) -> bool:
        """Return whether the plan stands above the front view."""
        return self.project.sheet.projection is Projection.THIRD_ANGLE

    def text(self, ordinate: Ordinate, *, is_short: bool) -> str:
        """Return what is written at an ordinate."""
        units = self.project.sheet.units
        longest = (_SHORT_FRAC if is_short else _LONG_FRAC) * (_TWO_UNITS_FRAC if units is DrawingUnits.BOTH else 1.0)
        return broken(f"{said_length(ordinate.value_mm, units)}  {ordinate.label}".rstrip(), self.text_mm, longest)


@dataclass(frozen=True, slots=True, kw_only=True)
class Views:
    """The three pictures at full size and the bounds they have in common: across (front, plan), up (front, side), along."""

    front: Picture
    plan: Picture
    side: Picture
    across: Bounds
    along_plan: Bounds
    along_side: Bounds


def wanted_of(project: Project, report: DepthReport, datum: Datum) -> Wanted:
    """Return what the sketch of this pack must show."""
    front = front_wishes(project, datum)
    return Wanted(
        project=project,
        report=report,
        datum=datum,
        across=ordinates(front, Axis.ACROSS),
        up=ordinates(front, Axis.UP),
        depth=ordinates(depth_wishes(project, datum), Axis.UP),
    )


def ways() -> tuple[Way, ...]:
    """Return the ways in which the dimensions may be laid out, best first."""
    found = [
        Way(depths_at_right=at_right, gaps=gaps, short_labels=short, to_planes=to_planes)
        for to_planes, gaps, short, at_right in itertools.product((True, False), GapsAt, (False, True), (True, False))
    ]
    return tuple(sorted(found, key=lambda way: way.cost_factor))


def views_of(wanted: Wanted, way: Way, scale_factor: float) -> Views:
    """Return the three pictures for a scale."""
    around = _AROUND_MM * scale_factor
    looking = Looking.LEFT if wanted.is_third_angle else Looking.RIGHT
    front = picture_of(wanted.project, Looking.AHEAD, around)
    plan = picture_of(wanted.project, Looking.ABOVE, 0.0)
    side = picture_of(wanted.project, looking, around, to_planes=way.to_planes)
    f, p, s = front.bounds, plan.bounds, side.bounds
    u0, u1 = min(f.u0_mm, p.u0_mm), max(f.u1_mm, p.u1_mm)
    v0, v1 = min(f.v0_mm, s.v0_mm), max(f.v1_mm, s.v1_mm)
    return Views(
        front=front,
        plan=plan,
        side=side,
        across=Bounds(u0, v0, u1, v1),
        along_plan=Bounds(u0, p.v0_mm, u1, p.v1_mm),
        along_side=Bounds(s.u0_mm, v0, s.u1_mm, v1),
    )
