"""The pack as air and tube fluid meet it: layers, pieces, zones and the paths between them, in SI."""

from __future__ import annotations

import enum
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from grillestack.physics.air_side import FINS_ALONE, AirSide
from grillestack.physics.construction import Construction
from grillestack.physics.core_loss import LossFit
from grillestack.physics.fan_curve import FanCurve
from grillestack.physics.oil import Oil
from grillestack.physics.tube_flow import Transition

IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]
FloatArray = NDArray[np.float64]

# Nodes of the air network: the plenum in the jet, the plenum beside it, then the chambers, then the engine bay.
PLENUM_IN_JET = 0
PLENUM_BESIDE_JET = 1
FIRST_CHAMBER = 2


class LayerDuty(enum.Enum):
    """How a core's heat is found."""

    RADIATOR = "coolant flow given, top tank temperature or heat follows"
    CHARGE_AIR = "charge flow and inlet temperature given"
    GIVEN_INLET = "tube flow and inlet temperature of a further cooler given"
    GIVEN_HEAT = "heat given, one wall temperature follows"


@dataclass(frozen=True, kw_only=True, eq=False)
class TubePass:
    """The cells that one pass of the tube fluid crosses, in strips along the tubes.

    Attributes
    ----------
    pieces
        Indices of the pieces, sorted by strip and then by step in the direction of flow.
    cell_starts
        For each cell, strip after strip, where its pieces begin in `pieces`.
    strip_share
        The share of the pass's tubes in each strip; sums to 1.
    """

    pieces: IntArray
    cell_starts: IntArray
    strip_share: FloatArray

    @property
    def strips(self) -> int:
        """Return the number of strips side by side."""
        return int(self.strip_share.size)

    @property
    def steps(self) -> int:
        """Return the number of cells along each strip."""
        return int(self.cell_starts.size // self.strip_share.size)

    @cached_property
    def cell_of_piece(self) -> IntArray:
        """Return for each piece, in the order of `pieces`, the cell it lies in."""
        counts = np.diff(np.append(self.cell_starts, self.pieces.size))
        return np.repeat(np.arange(self.cell_starts.size), counts)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layer:
    """One core of the stack.

    Attributes
    ----------
    area_factor
        True face area over projected area: 1/cos of the tilt.
    tube_length_m, tube_count
        Length of one tube and number of tubes side by side in one pass, all rows counted; a fraction counts.
    sub_rows
        Rows in depth over which the tube fluid stays unmixed: the tube rows of a radiator, four for inner fins.
    passes
        In the order of the tube fluid.
    air_side
        What is measured of its heat.
    oil
        The oil in its tubes; `None` for what its duty says, a further cooler's coolant included.
    """

    duty: LayerDuty
    construction: Construction
    transition: Transition
    loss: LossFit
    loss_factor: float
    projected_area_m2: float
    area_factor: float
    tube_length_m: float
    tube_count: float
    sub_rows: int
    passes: tuple[TubePass, ...]
    pieces: IntArray
    air_side: AirSide = FINS_ALONE
    oil: Oil | None = None

    @property
    def pass_length_m(self) -> float:
        """Return the length of one tube from tank to tank."""
        return self.tube_length_m / max(len(self.passes), 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class FanPath:
    """A fan between two nodes of the network.

    `number` is the fan's place among the document's fans.
    """

    curve: FanCurve
    upstream: int
    downstream: int
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FlapPath:
    """The relief flaps of a shroud: open from the chamber to the bay, shut the other way."""

    area_m2: float
    upstream: int
    downstream: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PassagePath:
    """The way under a shroud from the space beside the fans' rings, `upstream`, to the space before them; open both ways."""

    area_m2: float
    upstream: int
    downstream: int


@dataclass(frozen=True, kw_only=True, eq=False)
class PackLayout:
    """The geometry of one pack, ready for air and heat; Z zones, N pieces, C layers.

    Attributes
    ----------
    layers
        Cores from front to back.
    piece_zone, piece_share
        For each piece its zone and its share of that zone's area; shape (N,).
    zone_area_m2
        Projected areas; shape (Z,).
    zone_hit
        Which layers a zone crosses; shape (Z, C).
    zone_blocked_by
        Whose solids stand in a zone's way: one column per layer, then one for what is always there; shape (Z, C + 1).
    zone_upstream, zone_downstream
        Node indices; shape (Z,).
    chambers
        Number of chambers; the bay is node FIRST_CHAMBER + chambers.
    leak_area_m2, jet_leak_area_m2
        What leads past the pack into the bay from beside the jet, and from within it.
    """

    layers: tuple[Layer, ...]
    radiator: int | None
    piece_zone: IntArray
    piece_share: FloatArray
    zone_area_m2: FloatArray
    zone_hit: BoolArray
    zone_blocked_by: BoolArray
    zone_upstream: IntArray
    zone_downstream: IntArray
    chambers: int
    fans: tuple[FanPath, ...]
    opening_area_m2: FloatArray
    opening_loss: FloatArray
    lateral_area_m2: float
    leak_area_m2: float
    exit_area_m2: float
    flaps: tuple[FlapPath, ...] = ()
    passages: tuple[PassagePath, ...] = ()
    jet_leak_area_m2: float = 0.0

    @property
    def bay(self) -> int:
        """Return the node of the engine bay."""
        return FIRST_CHAMBER + self.chambers

    @property
    def nodes(self) -> int:
        """Return the number of nodes with unknown pressure."""
        return self.bay + 1

    @cached_property
    def mean_of_zone(self) -> FloatArray:
        """Return the matrix that takes pieces to the area-weighted means of their zones; shape (N, Z)."""
        matrix = np.zeros((self.piece_zone.size, self.zone_area_m2.size))
        matrix[np.arange(self.piece_zone.size), self.piece_zone] = self.piece_share
        return matrix

    @cached_property
    def layer_losses(self) -> tuple[FloatArray, FloatArray, FloatArray, FloatArray]:
        """Return per layer the a and b of its loss with dirt, its area factor and its free-flow share; shapes (C,)."""
        rows = [
            (
                layer.loss_factor * layer.loss.a_pa_s_per_m,
                layer.loss_factor * layer.loss.b_pa_s2_per_m2,
                layer.area_factor,
                layer.construction.free_flow_frac,
            )
            for layer in self.layers
        ]
        a, b, factor, free = np.array(rows, dtype=float).reshape(-1, 4).T
        return a, b, factor, free
