"""What cannot be so in what was measured: for each field one sentence that says what is wrong and how to measure it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from grillestack.app.tape.taped import Taped, TapedMount, TapedPort
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import show_quantity

MISSING: Final = {
    "core_width_mm": "The core's width is missing: lay the tape across the fins only, without tanks and plates.",
    "core_height_mm": "The core's height is missing: lay the tape up the fins only, without tanks and plates.",
    "depth_mm": "The core's depth is missing: push the tape's end through beside a tube, or measure at the side plate.",
    "overall_width_mm": "The overall width is missing: measure over everything but ports and pins.",
    "overall_height_mm": "The overall height is missing: measure over everything but ports and pins.",
    "across_mm": "The distance across is missing: measure from the corner sideways to the middle of it.",
    "along_mm": "The distance up or down is missing: measure from the corner to the middle of it.",
    "bore_mm": "The bore is missing: measure inside the tube, or take the hose's size.",
    "hole_mm": "The size of the hole or pin is missing.",
}
_SLACK_MM: Final = 0.5  # what two readings of a tape may differ by; common practice, no source


def faults(taped: Taped, units: UnitSystem) -> dict[str, str]:
    """Return the sentence for each field that cannot stay as it is; a field in a list is named as `ports.0.bore_mm`."""
    return dict(_faults(taped, units))


def _faults(taped: Taped, units: UnitSystem) -> Iterator[tuple[str, str]]:
    sizes = ("core_width_mm", "core_height_mm", "depth_mm", "overall_width_mm", "overall_height_mm")
    for name in sizes:
        yield from _size(name, getattr(taped, name), must=True)
    yield from _size("tank_depth_mm", taped.tank_depth_mm)
    if taped.weight_kg is not None and taped.weight_kg <= 0:
        yield "weight_kg", "A weight must be above 0: leave it empty if you cannot weigh the part."
    for core, whole, gap, edge in (
        ("core_width_mm", "overall_width_mm", "core_right_mm", "right"),
        ("core_height_mm", "overall_height_mm", "core_low_mm", "lower"),
    ):
        yield from _inside(taped, units, (core, whole, gap), edge)
    lists: tuple[tuple[str, tuple[TapedPort | TapedMount, ...]], ...] = (
        ("ports", taped.ports),
        ("mounts", taped.mounts),
    )
    for kind, things in lists:
        for number, one in enumerate(things):
            for name, words in _of_thing(taped, one, units):
                yield f"{kind}.{number}.{name}", words


def _size(name: str, value: float | None, *, must: bool = False) -> Iterator[tuple[str, str]]:
    if value is None:
        if must:
            yield name, MISSING[name]
    elif value <= 0:
        yield name, "This must be above 0: measure it again."


def _inside(taped: Taped, units: UnitSystem, names: tuple[str, str, str], edge: str) -> Iterator[tuple[str, str]]:
    """Find a core that is larger than the whole, or lies partly outside it."""
    core, whole, gap = (getattr(taped, name) for name in names)
    if core is None or whole is None or core <= 0 or whole <= 0:
        return
    if whole < core - _SLACK_MM:
        yield (
            names[1],
            (
                f"Over everything it measures {_said(whole, units)}, less than the core's {_said(core, units)}: measure over the "
                "tanks and plates, or the core without them."
            ),
        )
    elif gap is not None and not -_SLACK_MM <= gap <= whole - core + _SLACK_MM:
        yield (
            names[2],
            (
                f"Beside the core there are {_said(max(0.0, whole - core), units)} in all, so the core cannot begin "
                f"{_said(gap, units)} from the {edge} edge: measure from that edge to the first fin."
            ),
        )


def _of_thing(taped: Taped, one: TapedPort | TapedMount, units: UnitSystem) -> Iterator[tuple[str, str]]:
    bore = "bore_mm" if isinstance(one, TapedPort) else "hole_mm"
    for name in ("across_mm", "along_mm", bore):
        if getattr(one, name) is None:
            yield name, MISSING[name]
    value = getattr(one, bore)
    if value is not None and value <= 0:
        yield bore, "This must be above 0: measure it again."
    for name, whole in (("across_mm", taped.overall_width_mm), ("along_mm", taped.overall_height_mm)):
        measured = getattr(one, name)
        if measured is not None and whole is not None and measured > whole + _SLACK_MM:
            yield (
                name,
                (
                    f"{_said(measured, units)} from the {one.corner.value} corner is beyond the other edge of the part, which is "
                    f"{_said(whole, units)} away: check the corner."
                ),
            )


def _said(value_mm: float, units: UnitSystem) -> str:
    return show_quantity(value_mm, Dimension.LENGTH, units)
