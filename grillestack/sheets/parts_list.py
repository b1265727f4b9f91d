"""The parts list, the cut list, the weights and the seals, as tables on one or more sheets."""

from __future__ import annotations

from collections.abc import Sequence

from grillestack.geometry.depth import DepthReport
from grillestack.model.parts import Core, Fan, Part
from grillestack.model.project import Project, stack
from grillestack.model.sheet_choices import DrawingUnits
from grillestack.sheets.compose_holes import further_sheets
from grillestack.sheets.datum import Datum, datum_of
from grillestack.sheets.lettering import one_line
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_hole, said_length
from grillestack.sheets.seals import seal_strips
from grillestack.sheets.sheet_body import SheetBody
from grillestack.sheets.tables import Table
from grillestack.sheets.weights import PackWeight, pack_weight
from grillestack.units.display import UnitSystem
from grillestack.units.quantity import Dimension
from grillestack.units.show import NOT_KNOWN, show_quantity

NOTES = (
    "Weights: given by the part, or estimated from its volume and so marked. Each part counts as evenly filled. REF: computed.",
    "Fluid: the clear tubes of the construction, or of one typical of the type, and 75 % of the tanks' boxes.",
    "Cut lengths of seals carry no allowance for corners. Prices as typed with the parts. VERIFY before ordering.",
)


def compose_parts_list(project: Project, report: DepthReport, made: Sequence[Table] = ()) -> tuple[SheetBody, ...]:
    """Return the sheets of the parts list; `made` are tables of what is to be made, by whoever draws it."""
    datum = datum_of(project)
    if datum is None:
        return ()
    weight = pack_weight(project)
    tables = [
        _bought(project),
        *made,
        _seals(project, report),
        _weights(project, weight),
        _centre(project, weight, datum),
    ]
    wanted = [table for table in tables if table.rows]
    return further_sheets(project, wanted, NOTES, ("parts-list", 1, "Cooling pack, parts list"))


def mass_words(mass_kg: float | None, units: DrawingUnits) -> str:
    """Return a weight in the units of the sheet."""
    system = UnitSystem.METRIC if units in (DrawingUnits.MILLIMETRES, DrawingUnits.BOTH) else UnitSystem.INCH
    return show_quantity(mass_kg, Dimension.MASS, system)


def _bought(project: Project) -> Table:
    tags, units = part_tags(project), project.sheet.units
    rows = [
        (
            f"{tags[part.id].item} {tags[part.id].tag}",
            one_line(part.name),
            _size(part, units),
            f"{one_line(part.supplier_text) or NOT_KNOWN}, {one_line(part.order_number_text) or NOT_KNOWN}",
            one_line(part.price_text) or NOT_KNOWN,
        )
        for part in stack(project)
    ]
    return Table(
        title="Parts list, from front to rear",
        heads=("Item", "Part", "Overall size", "Supplier, order number", "Price"),
        rows=tuple(rows),
    )


def _size(part: Part, units: DrawingUnits) -> str:
    if isinstance(part, Fan):
        return f"{said_hole(part.ring_diameter_mm, units)} × {said_length(part.depth_mm, units)}"
    if isinstance(part, Core):
        sizes = (part.overall.width_mm, part.overall.height_mm, part.depth_mm)
        core = f"{said_length(part.core_width_mm, units)} × {said_length(part.core_height_mm, units)}"
        return f"{' × '.join(said_length(size, units) for size in sizes)}, core {core}"
    return " × ".join(said_length(size, units) for size in (part.width_mm, part.height_mm, part.depth_mm))


def _seals(project: Project, report: DepthReport) -> Table:
    units = project.sheet.units
    strips = seal_strips(project, report)
    rows = [
        (
            f"S{number}",
            strip.where,
            f"{said_length(strip.length_mm, units)} REF",
            NOT_KNOWN if strip.gap_mm is None else f"{said_length(strip.gap_mm, units)} REF",
            strip.remark,
        )
        for number, strip in enumerate(strips, start=1)
    ]
    total = said_length(sum(strip.length_mm for strip in strips), units)
    return Table(
        title="Cut list: seals by length",
        heads=("Item", "Seal", "Length", "Gap", "Remark"),
        rows=tuple(rows),
        at_right=frozenset({2, 3}),
        total=("", "Together", f"{total} REF", "", "") if rows else (),
    )


def _weights(project: Project, weight: PackWeight) -> Table:
    tags, units = part_tags(project), project.sheet.units
    rows = [
        (
            tags[one.part.id].tag,
            mass_words(one.dry_kg, units),
            one.dry_basis,
            one.fluid_words,
            mass_words(one.wet_kg, units),
        )
        for one in weight.parts
    ]
    least = "at least " if weight.unknown else ""
    return Table(
        title="Weight",
        heads=("Part", "Dry", "Basis", "Filled with", "Wet"),
        rows=tuple(rows),
        at_right=frozenset({1, 4}),
        total=(
            "Pack",
            f"{least}{mass_words(weight.dry_kg, units)}",
            "REF",
            "",
            f"{least}{mass_words(weight.wet_kg, units)}",
        ),
    )


def _centre(project: Project, weight: PackWeight, datum: Datum) -> Table:
    units = project.sheet.units
    if weight.x_mm is None or weight.y_mm is None or weight.z_mm is None:
        return Table(title="", heads=(), rows=())
    tags = part_tags(project)
    without = ", ".join(tags[part.id].tag for part in weight.unknown)
    rows = (
        ("Across", f"{said_length(datum.y_mm - weight.y_mm, units)} REF"),
        ("Up", f"{said_length(weight.z_mm - datum.z_mm, units)} REF"),
        ("Rearward", f"{said_length(weight.x_mm - datum.x_mm, units)} REF"),
    )
    title = "Centre of gravity, filled, from the datum"
    return Table(
        title=f"{title}, without {without}" if without else title,
        heads=("Along", "Place"),
        rows=rows,
        at_right=frozenset({1}),
    )
