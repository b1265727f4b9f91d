"""What the charge air loses in pressure across its cooler: the core, and the step into and out of its tanks."""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from grillestack.model.parts import Core, PortPurpose
from grillestack.physics.air import density_kg_m3
from grillestack.physics.layout import Layer
from grillestack.physics.tube_side import charge_core_loss_pa
from grillestack.units.convert import m_from_mm

FloatArray = NDArray[np.float64]

# A pipe that ends in a tank loses its dynamic head, a sharp entrance into the outlet about half of it: handbook values.
_INTO_TANK: Final = 1.0
_OUT_OF_TANK: Final = 0.5


def charge_loss_pa(
    core: Core,
    layer: Layer,
    flow_kg_s: FloatArray,
    inlet_degc: FloatArray,
    outlet_degc: FloatArray,
    pressure_pa: FloatArray,
) -> FloatArray:
    """Return the pressure loss of the charge air across core and ports, charge pipes not counted [Pa]; shape (B,).

    Not finite where the flow would not pass at this pressure. Ports without a stated bore add nothing.
    """
    across = charge_core_loss_pa(
        layer.construction, flow_kg_s / layer.tube_count, layer.tube_length_m, inlet_degc, outlet_degc, pressure_pa
    )
    into = _INTO_TANK * _dynamic_pa(core, PortPurpose.INLET, flow_kg_s, inlet_degc, pressure_pa)
    behind_pa = pressure_pa - across - into
    passes = np.isfinite(behind_pa) & (behind_pa > 0.5 * pressure_pa)
    out_of = _OUT_OF_TANK * _dynamic_pa(
        core, PortPurpose.OUTLET, flow_kg_s, outlet_degc, np.where(passes, behind_pa, pressure_pa)
    )
    loss: FloatArray = np.where(passes, across + into + out_of, np.inf)
    return loss


def _dynamic_pa(
    core: Core, purpose: PortPurpose, flow_kg_s: FloatArray, degc: FloatArray, pressure_pa: FloatArray
) -> FloatArray:
    bore_mm = next((port.bore_mm for port in core.ports if port.purpose is purpose), None)
    if bore_mm is None:
        return np.zeros_like(flow_kg_s)
    area_m2 = math.pi / 4.0 * m_from_mm(bore_mm) ** 2
    dynamic: FloatArray = (flow_kg_s / area_m2) ** 2 / (2.0 * density_kg_m3(degc, pressure_pa))
    return dynamic
