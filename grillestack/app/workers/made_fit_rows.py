"""The search's answers as rows for the window. Loads the scientific core; called in the second process."""

from __future__ import annotations

import functools

import msgspec

from grillestack.app.own_parts import shelf_parts
from grillestack.app.workers.fit_rows import FitList, FitRow, NearRow
from grillestack.assess.assess import assess
from grillestack.fit.best_place import Known, best_place
from grillestack.fit.fits import body_for, room_for
from grillestack.fit.ranking import fit_order
from grillestack.fit.result import Fit
from grillestack.fit.search import first_look
from grillestack.fit.slots import Slot
from grillestack.fit.surroundings import surroundings
from grillestack.fit.trial import without_part
from grillestack.fit.ways import Way
from grillestack.fit.words import headline, margin_words, near_sentences, place_words, row_words, short_name, size_words
from grillestack.geometry.setting import Setting
from grillestack.geometry.taken_space import Pose
from grillestack.model.project import Project
from grillestack.units.display import UnitSystem


def fit_list(project: Project, slot: Slot, units: UnitSystem) -> FitList:
    """Return what fits into a slot and what nearly does, nothing assessed yet."""
    parts, _ = shelf_parts()
    found = first_look(project, parts, slot, units)
    setting = surroundings(project, slot)
    return FitList(
        headline=headline(found),
        remarks=(*found.refused, *found.remarks),
        rows=tuple(_row(setting, fit, units) for fit in found.fits),
        short_count=found.short_count,
        near=tuple(
            NearRow(name=short_name(near.part, slot.kind), size=size_words(near.part, units), said=near_sentences(near))
            for near in found.near
        ),
    )


def priced_row(project: Project, slot: Slot, units: UnitSystem, raw: msgspec.Raw) -> FitRow:
    """Return the part of such a row in its best place, with what it costs and the room it has."""
    fit = msgspec.json.decode(raw, type=Fit)
    setting = surroundings(project, slot)
    best = best_place(project, setting, slot, fit, _known(project, slot))
    return _row(setting, best, units, with_room=True)


@functools.lru_cache(maxsize=1)
def _known(project: Project, slot: Slot) -> Known:
    """Return what all parts of one search share, so that they can be asked about one by one."""
    empty = assess(without_part(project, slot))
    return Known(empty=empty, start=empty if slot.taken_out is None else assess(project))


def _row(setting: Setting, fit: Fit, units: UnitSystem, *, with_room: bool = False) -> FitRow:
    said, cost, at = row_words(fit, units), fit.cost, fit.placement
    pose = Pose(at.quarter_turns, at.flipped)
    box = body_for(setting, fit.part, pose).outline
    lost = (
        None if cost is None or cost.face_lost_mm2 is None or not cost.face_mm2 else cost.face_lost_mm2 / cost.face_mm2
    )
    x_mm = at.x_mm - setting.lean_frac * (at.z_mm - setting.lean_z_mm)
    room = room_for(setting, fit.part, Way(pose, x_mm, 0)) if with_room else None
    return FitRow(
        part=fit.part,
        placement=at,
        fit=msgspec.Raw(msgspec.json.encode(fit)),
        is_assessed=cost is not None,
        order_factor=fit_order(fit),
        name=said.name,
        size=said.size,
        way=said.way,
        place=place_words(at, units),
        margin=said.margin,
        margins=margin_words(fit.travel, units),
        hottest=said.hottest,
        lost=said.lost,
        charge=said.charge,
        loss=said.loss,
        ports=said.ports,
        verdict=said.verdict,
        within_limits=cost is None or cost.within_limits,
        margin_mm=fit.travel.least_mm,
        hottest_degc=None if cost is None else cost.hottest_degc,
        lost_frac=lost,
        charge_degc=None if cost is None else cost.charge_out_degc,
        loss_pa=None if cost is None else cost.charge_loss_pa,
        outline_mm=(box.y0_mm, box.z0_mm, box.y1_mm, box.z1_mm),
        room_mm=() if room is None else room.polygons_mm,
    )
