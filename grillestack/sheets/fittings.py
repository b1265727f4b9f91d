"""Holes and ports of the pack by number, and the schedules that list them."""

from __future__ import annotations

from dataclasses import dataclass

from grillestack.geometry.port_axes import port_step
from grillestack.geometry.projection import placed_point
from grillestack.model.parts import Mount, Part, Port
from grillestack.model.project import Project, stack
from grillestack.sheets.datum import Datum
from grillestack.sheets.lettering import one_line
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_angle, said_hole, said_length
from grillestack.sheets.tables import Table

NOT_KNOWN = "not known"
# A direction is named after an axis if it lies within this share of it.
_ALONG = 0.999


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """One hole (H1, H2 …) or port (P1, P2 …) and where it is in the nose."""

    name: str
    part: Part
    place: int
    x_mm: float
    y_mm: float
    z_mm: float
    hole: Mount | None = None
    port: Port | None = None

    @property
    def diameter_mm(self) -> float:
        """Return the hole, or the bore."""
        return self.hole.hole_mm if self.hole is not None else self.port.bore_mm if self.port is not None else 0.0

    @property
    def key(self) -> str:
        """Return the stable name of the feature."""
        return f"{self.part.id}:{'hole' if self.hole is not None else 'port'}-{self.place + 1}"


def fittings_of(project: Project) -> tuple[Fitting, ...]:
    """Return all holes, then all ports, from the front part to the rear one."""
    holes = [(part, k, mount) for part in stack(project) for k, mount in enumerate(part.mounts)]
    ports = [(part, k, port) for part in stack(project) for k, port in enumerate(part.ports)]
    found: list[Fitting] = []
    for number, (part, k, mount) in enumerate(holes, start=1):
        x, y, z = placed_point(part, mount.u_mm, mount.v_mm, mount.w_mm)
        found.append(Fitting(name=f"H{number}", part=part, place=k, x_mm=x, y_mm=y, z_mm=z, hole=mount))
    for number, (part, k, port) in enumerate(ports, start=1):
        x, y, z = placed_point(part, port.u_mm, port.v_mm, port.w_mm)
        found.append(Fitting(name=f"P{number}", part=part, place=k, x_mm=x, y_mm=y, z_mm=z, port=port))
    return tuple(found)


def hole_schedule(project: Project, datum: Datum) -> Table:
    """Return the table of holes: place from the datum, size, what stands in it."""
    rows = []
    tags, units = part_tags(project), project.sheet.units
    for fitting in fittings_of(project):
        if fitting.hole is not None:
            words = one_line(fitting.hole.kind_text) or NOT_KNOWN
            size = said_hole(fitting.hole.hole_mm, units)
            rows.append((fitting.name, tags[fitting.part.id].tag, size, *_places(fitting, datum, project), words))
    return Table(
        title="Hole schedule",
        heads=("No.", "Part", "Hole", "Across", "Up", "Rear", "Kind"),
        rows=tuple(rows),
        at_right=frozenset({2, 3, 4, 5}),
    )


def port_schedule(project: Project, datum: Datum) -> Table:
    """Return the table of ports: bore, outside, bead, place from the datum, where each points and how it is turned."""
    rows = []
    tags, units = part_tags(project), project.sheet.units
    for fitting in fittings_of(project):
        port = fitting.port
        if port is None:
            continue
        outside = NOT_KNOWN if port.outside_mm is None else said_hole(port.outside_mm, units)
        bead = NOT_KNOWN if port.bead_mm is None else said_length(port.bead_mm, units) if port.bead_mm else "plain end"
        rows.append(
            (
                fitting.name,
                f"{tags[fitting.part.id].tag} {port.purpose.value}",
                said_hole(port.bore_mm, units),
                outside,
                bead,
                *_places(fitting, datum, project),
                f"{_direction(port_step(fitting.part, port))}, {said_angle(port.clock_deg)}",
                one_line(port.fitting_text) or NOT_KNOWN,
            )
        )
    return Table(
        title="Port schedule",
        heads=("No.", "Port", "Bore", "Outside", "Bead", "Across", "Up", "Rear", "Points, clocked", "Fitting"),
        rows=tuple(rows),
        at_right=frozenset({2, 5, 6, 7}),
    )


def _places(fitting: Fitting, datum: Datum, project: Project) -> tuple[str, str, str]:
    units = project.sheet.units
    return (
        said_length(datum.y_mm - fitting.y_mm, units),
        said_length(fitting.z_mm - datum.z_mm, units),
        said_length(fitting.x_mm - datum.x_mm, units),
    )


def _direction(step: tuple[float, float, float]) -> str:
    """Return where a port points, in the words of the vehicle; between two of them both are said, the nearer first."""
    words = (("rear", "front"), ("right", "left"), ("up", "down"))
    named = [(abs(part), pair[0] if part > 0 else pair[1]) for part, pair in zip(step, words, strict=True)]
    named.sort(reverse=True)
    if named[0][0] >= _ALONG:
        return named[0][1]
    return " and ".join(word for share, word in named if share > 1 - _ALONG)
