"""How much a hot cooler grows between its fixed end and its free one, and how long a slot lets it."""

from __future__ import annotations

from grillestack.assess.defaults import engine_value
from grillestack.model.project import Project

# Aluminium between 20 and 100 °C; from memory of handbook tables (23 to 24 · 10⁻⁶ per K).
ALUMINIUM_PER_K_FACTOR = 23e-6
# The bench on which it is put together
COLD_DEGC = 20.0
# "A CAC grows up to 6 mm hot": a published figure, seen in summary. A slot lets it at least so much either way.
LEAST_PLAY_MM = 6.0


def growth_mm(length_mm: float, rise_k: float) -> float:
    """Return how much aluminium of that length grows: α · L · ΔT.

    Valid for
        About −50 to 200 °C with a mean coefficient.
    Source
        Linear thermal expansion; coefficient from memory.
    """
    return ALUMINIUM_PER_K_FACTOR * length_mm * rise_k


def charge_rise_k(project: Project) -> float:
    """Return how much warmer than the bench the charge-air cooler may get: its whole body as hot as the charge air."""
    return max(engine_value(project.engine, "charge_inlet_degc") - COLD_DEGC, 0.0)


def slot_length_mm(hole_mm: float, growth: float) -> float:
    """Return the length over all of a slot that lets a bolt move either way by the growth, and by 6 mm at least."""
    return hole_mm + 2 * max(LEAST_PLAY_MM, growth)
