"""The chambers behind and before the pack, and the fans and flaps that join them to the rest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.fan_figures import fan_figures
from grillestack.geometry.fan_places import FanDuty
from grillestack.geometry.fan_rims import passages, swept_under_shroud
from grillestack.geometry.overlay import Overlay
from grillestack.model.project import Project, fans, shrouds
from grillestack.physics.layout import FIRST_CHAMBER, PLENUM_IN_JET, FanPath, FlapPath, PassagePath
from grillestack.units.convert import m2_from_mm2

IntArray = NDArray[np.intp]


class Chambers:
    """The nodes behind (or before) the pack, the bay last.

    A shroud with a fan has one chamber before its fans' rings, and one beside them if it covers a piece that no ring of its
    own sweeps, or has relief flaps: those sit in the plate beside the rings. What is swept leads straight to the fans, running
    or not; all other covered pieces lead into the chamber beside the rings and from there through the passage at the rims.
    A fan without a shroud, puller or pusher, has one chamber, its ring. A shroud without a fan has none.

    `undivided` leaves out the chambers beside the rings, as if the way to the fans were free.
    """

    def __init__(self, project: Project, overlay: Overlay, *, undivided: bool = False) -> None:
        node = FIRST_CHAMBER
        names = ["plenum in the jet", "plenum beside the jet"]
        part_names = {part.id: part.name for part in project.parts}
        of_shroud = np.full(len(overlay.shroud_ids) + 1, -1, dtype=np.intp)
        of_side = of_shroud.copy()
        of_fan = np.full(len(overlay.fan_ids) + 1, -1, dtype=np.intp)
        swept = swept_under_shroud(overlay)
        beside = set(overlay.shroud[~swept].tolist())
        beside |= {number for number, shroud in enumerate(shrouds(project)) if shroud.flap_area_mm2 > 0.0}
        for number in sorted({shroud for shroud in overlay.fan_shroud if shroud >= 0}):
            of_shroud[number] = of_side[number] = node
            names.append(part_names[overlay.shroud_ids[number]])
            node += 1
            if number in beside and not undivided:
                of_side[number] = node
                names.append(f"{part_names[overlay.shroud_ids[number]]}, beside the fan")
                node += 1
        for number, duty in enumerate(overlay.fan_duties):
            if duty in (FanDuty.PULLER, FanDuty.PUSHER):
                of_fan[number] = node
                names.append(part_names[overlay.fan_ids[number]])
                node += 1
        self.of_shroud, self.of_side, self.of_fan = of_shroud, of_side, of_fan
        self.bay = node
        self.count = node - FIRST_CHAMBER
        self.names = (*names, "engine bay")
        self._overlay, self._swept = overlay, swept

    def behind_pieces(self) -> IntArray:
        """Return the node behind every piece of the pack."""
        overlay = self._overlay
        bare = np.where(overlay.fan >= 0, self.of_fan[overlay.fan], self.bay)
        covered = np.where(self._swept, self.of_shroud[overlay.shroud], self.of_side[overlay.shroud])
        return np.where(overlay.shroud >= 0, covered, bare)

    def largest(self, overlay: Overlay, downstream: IntArray) -> int:
        """Return the chamber that covers most of the pack, the bay if there is none."""
        areas = np.bincount(downstream, weights=overlay.area_mm2, minlength=self.bay + 1)[: self.bay]
        return int(areas.argmax()) if areas.max(initial=0.0) > 0.0 else self.bay

    def paths(self, project: Project) -> list[tuple[str, FanPath]]:
        """Return the fans that stand in the network; one between two cores stands in none and is reported elsewhere."""
        found = []
        for number, fan in enumerate(fans(project)):
            curve, duty = fan_figures(fan).curve, self._overlay.fan_duties[number]
            if curve is None:
                continue
            if duty is FanDuty.PUSHER:
                path = FanPath(curve=curve, upstream=PLENUM_IN_JET, downstream=int(self.of_fan[number]), number=number)
            elif duty is FanDuty.PULLER:
                path = FanPath(curve=curve, upstream=int(self.of_fan[number]), downstream=self.bay, number=number)
            elif duty is FanDuty.IN_SHROUD:
                chamber = int(self.of_shroud[self._overlay.fan_shroud[number]])
                path = FanPath(
                    curve=curve,
                    upstream=chamber,
                    downstream=self.bay,
                    number=number,
                )
            else:
                continue
            found.append((fan.id, path))
        return found

    def flaps(self, project: Project) -> tuple[FlapPath, ...]:
        """Return the relief flaps of the shrouds that bound a chamber."""
        found = []
        for number, shroud in enumerate(shrouds(project)):
            if shroud.flap_area_mm2 > 0.0 and self.of_side[number] >= 0:
                area_m2 = m2_from_mm2(shroud.flap_area_mm2)
                found.append(FlapPath(area_m2=area_m2, upstream=int(self.of_side[number]), downstream=self.bay))
        return tuple(found)

    def passages(self, project: Project) -> tuple[PassagePath, ...]:
        """Return the ways from beside the rings to the fans."""
        return tuple(
            PassagePath(area_m2=m2_from_mm2(way.area_mm2), upstream=int(side), downstream=int(before_fans))
            for way, side, before_fans in zip(passages(project), self.of_side, self.of_shroud, strict=False)
            if side != before_fans
        )
