"""A start for a pack that differs a little from one just solved: what its zones have in common is carried over."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.layout import IntArray, PackLayout
from grillestack.physics.solve import State

FloatArray = NDArray[np.float64]


def carry_over(old_layout: PackLayout, old: State, layout: PackLayout) -> State | None:
    """Return the old state in the new layout's shapes, or nothing where cores or nodes differ.

    A zone that meets the same cores between the same nodes keeps its temperatures, a new one takes the mean of its layers.
    """
    if (
        len(old_layout.layers) != len(layout.layers)
        or old_layout.nodes != layout.nodes
        or [layer.duty for layer in old_layout.layers] != [layer.duty for layer in layout.layers]
        or old_layout.zone_area_m2.size == 0
    ):
        return None
    match = _same_zones(old_layout, layout)
    return State(
        ambient_degc=old.ambient_degc,
        top_tank_degc=old.top_tank_degc,
        node_degc=old.node_degc,
        zone_in_degc=_carried(old.zone_in_degc, match),
        zone_out_degc=_carried(old.zone_out_degc, match),
        tube_mean_degc=old.tube_mean_degc,
        reversed_in_degc=_carried_pieces(old_layout, old.reversed_in_degc, layout, match),
        pressure_pa=old.pressure_pa,
    )


def _keys(layout: PackLayout) -> list[bytes]:
    table = np.column_stack(
        [layout.zone_hit, layout.zone_blocked_by, layout.zone_upstream, layout.zone_downstream]
    ).astype(np.int16)
    return [row.tobytes() for row in table]


def _same_zones(old_layout: PackLayout, layout: PackLayout) -> IntArray:
    known = {key: number for number, key in enumerate(_keys(old_layout))}
    return np.array([known.get(key, -1) for key in _keys(layout)], dtype=np.intp)


def _carried(old: FloatArray, match: IntArray) -> FloatArray:
    carried: FloatArray = np.where((match >= 0)[None, :, None], old[:, match, :], old.mean(axis=1, keepdims=True))
    return carried


def _carried_pieces(old_layout: PackLayout, old: FloatArray, layout: PackLayout, match: IntArray) -> FloatArray:
    by_zone = old @ old_layout.mean_of_zone
    carried: FloatArray = np.where(
        (match >= 0)[None, None, :], by_zone[:, :, match], by_zone.mean(axis=2, keepdims=True)
    )
    return carried[:, :, layout.piece_zone]
