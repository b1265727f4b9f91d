"""What a search for parts found, as JSON for other programs; what is not known is null."""

from __future__ import annotations

from typing import Any

from grillestack.cli.fit import Found
from grillestack.fit.result import Cost, Fit, Near, PortMatch
from grillestack.fit.words import headline


def fit_dict(found: Found) -> dict[str, Any]:
    """Return everything found; lengths in mm, temperatures in °C, pressures in Pa."""
    slot = found.look.slot
    return {
        "title": found.project.title,
        "slot": {
            "kind": slot.kind.value,
            "number": slot.number or None,
            "words": slot.words,
            "taken_out": slot.taken_out,
        },
        "headline": headline(found.look),
        "remarks": [*found.look.refused, *found.look.remarks],
        "fits": [_fit(fit) for fit in found.fits],
        "near": [_near(near) for near in found.look.near],
    }


def _fit(fit: Fit) -> dict[str, Any]:
    at, travel = fit.placement, fit.travel
    return {
        "part": fit.part.id,
        "name": fit.part.name,
        "placement": {
            "x_mm": at.x_mm,
            "y_mm": at.y_mm,
            "z_mm": at.z_mm,
            "quarter_turns": at.quarter_turns,
            "flipped": at.flipped,
            "tilt_deg": at.tilt_deg,
        },
        "margin": {
            "left_mm": travel.left_mm,
            "right_mm": travel.right_mm,
            "down_mm": travel.down_mm,
            "up_mm": travel.up_mm,
        },
        "ports": None if fit.ports is None else _ports(fit.ports),
        "cost": None if fit.cost is None else _cost(fit.cost),
    }


def _ports(ports: PortMatch) -> dict[str, Any]:
    return {
        "on_side_count": ports.on_side_count,
        "of_count": ports.of_count,
        "bend_deg": ports.bend_deg,
        "pipe_mm": ports.pipe_mm,
    }


def _cost(cost: Cost) -> dict[str, Any]:
    return {
        "verdict": cost.verdict.value,
        "hottest_degc": cost.hottest_degc,
        "margin_k": cost.margin_k,
        "face_lost_mm2": cost.face_lost_mm2,
        "face_mm2": cost.face_mm2,
        "tanks_mm2": cost.tanks_mm2,
        "charge_out_degc": cost.charge_out_degc,
        "charge_out_limit_degc": cost.charge_out_limit_degc,
        "charge_loss_pa": cost.charge_loss_pa,
        "charge_loss_limit_pa": cost.charge_loss_limit_pa,
    }


def _near(near: Near) -> dict[str, Any]:
    return {
        "part": near.part.id,
        "name": near.part.name,
        "stops": [{"words": s.words, "thing": s.thing_id or None, "amount_mm": s.amount_mm} for s in near.stops],
        "changes": [{"words": c.words, "caution": c.caution or None, "amount_mm": c.amount_mm} for c in near.changes],
    }
