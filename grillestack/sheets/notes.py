"""What is said in words on a drawing: datum, units, tolerances, REF, cautions, and what is to be verified."""

from __future__ import annotations

from grillestack.model.project import Project, stack
from grillestack.model.sheet_choices import DrawingUnits
from grillestack.sheets.datum import Datum
from grillestack.sheets.part_tags import part_tags
from grillestack.sheets.say_length import said_angle, said_length, units_note

# General tolerances in mm and degrees; common practice, no source: welded work in thin sheet, measured with a tape.
HOLES_MM, MATING_MM, OVERALL_MM, ANGLES_DEG = 1.0, 1.5, 3.0, 1.0


def tolerance_note(units: DrawingUnits) -> str:
    """Return the general tolerances in the units of the sheet."""
    holes, mating, overall = (_tolerance(mm, units) for mm in (HOLES_MM, MATING_MM, OVERALL_MM))
    return f"Tolerances unless stated: holes ±{holes}, mating faces ±{mating}, overall sizes ±{overall}, angles ±{ANGLES_DEG:g}°."


def pack_notes(project: Project, datum: Datum) -> tuple[str, ...]:
    """Return the notes of the pack sketch, one sentence group each."""
    leaning = _leaning(project)
    return (
        f"{units_note(project.sheet.units)} {tolerance_note(project.sheet.units)}",
        f"Datum 0/0/0: {datum.words}. Ordinates run to the left of the vehicle, up, and rearward; “−” is the other way.",
        "REF: computed from the layout. VERIFY ON VEHICLE before cutting: the nose was measured by hand.",
        "Double-dotted lines: the vehicle. Spouts of ports are drawn short. Core: the finned area only.",
        *((f"{leaning} Heights of what leans are those of its front face.",) if leaning else ()),
        (
            "CAUTION: bumper, beam and core support are crash structure: cut or drill only as local codes allow. Fans start by "
            "themselves. Hot coolant and charge pipes burn. Refrigerant is for licensed people only."
        ),
        "For building after checking, not a proof: follow the engine maker's limits, local codes, licensed practice.",
    )


def _leaning(project: Project) -> str:
    """Return which parts lean, and how far."""
    tags = part_tags(project)
    return " ".join(
        f"{tags[part.id].tag} leans {said_angle(abs(part.placement.tilt_deg))}, its top {'rearward' if part.placement.tilt_deg > 0 else 'forward'}."
        for part in stack(project)
        if part.placement.tilt_deg
    )


def _tolerance(length_mm: float, units: DrawingUnits) -> str:
    if units is DrawingUnits.INCH_FRACTIONS:
        # Finer than a sixteenth would not be read off a rule.
        return said_length(length_mm, DrawingUnits.INCH_DECIMALS)
    return said_length(length_mm, units) if units is not DrawingUnits.BOTH else f"{length_mm:g} mm"
