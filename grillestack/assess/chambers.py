"""The chambers behind and before the pack, and the fans and flaps that join them to the rest."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from grillestack.assess.fan_figures import fan_figures
from grillestack.geometry.fan_places import FanDuty
from grillestack.geometry.overlay import Overlay
from grillestack.model.project import Project, fans, shrouds
from grillestack.physics.layout import FIRST_CHAMBER, PLENUM_IN_JET, FanPath, FlapPath
from grillestack.units.convert import m2_from_mm2

IntArray = NDArray[np.intp]


class Chambers:
    """The nodes behind (or before) the pack: one per shroud with a fan, one per fan without a shroud, the bay last."""

    def __init__(self, project: Project, overlay: Overlay) -> None:
        node = FIRST_CHAMBER
        names = ["plenum in the jet", "plenum beside the jet"]
        part_names = {part.id: part.name for part in project.parts}
        of_shroud = np.full(len(overlay.shroud_ids) + 1, -1, dtype=np.intp)
        of_fan = np.full(len(overlay.fan_ids) + 1, -1, dtype=np.intp)
        for number in sorted({shroud for shroud in overlay.fan_shroud if shroud >= 0}):
            of_shroud[number] = node
            names.append(part_names[overlay.shroud_ids[number]])
            node += 1
        for number, duty in enumerate(overlay.fan_duties):
            if duty in (FanDuty.PULLER, FanDuty.PUSHER):
                of_fan[number] = node
                names.append(part_names[overlay.fan_ids[number]])
                node += 1
        self.of_shroud, self.of_fan = of_shroud, of_fan
        self.bay = node
        self.count = node - FIRST_CHAMBER
        self.names = (*names, "engine bay")
        self._overlay = overlay

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
            if shroud.flap_area_mm2 > 0.0 and self.of_shroud[number] >= 0:
                area_m2 = m2_from_mm2(shroud.flap_area_mm2)
                found.append(FlapPath(area_m2=area_m2, upstream=int(self.of_shroud[number]), downstream=self.bay))
        return tuple(found)
