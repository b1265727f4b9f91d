"""Several layouts of one pack in one nose: copied, taken in hand, renamed, dropped; each a pure function of the project."""

from __future__ import annotations

import string

from msgspec.structs import replace

from grillestack.model.project import Project, Variant
from grillestack.model.values import ModelError


def layout_names(project: Project) -> tuple[str, ...]:
    """Return the names of all layouts, the one in hand among them, in an order that stays when another is taken in hand."""
    return tuple(sorted((project.variant_name, *(v.name for v in project.variants)), key=str.casefold))


def free_layout_name(project: Project) -> str:
    """Return the first of "Layout A", "Layout B" ... that no layout has."""
    taken = {name.casefold() for name in layout_names(project)}
    # A project holds fewer layouts than there are letters.
    return next(name for letter in string.ascii_uppercase if (name := f"Layout {letter}").casefold() not in taken)


def duplicate_variant(project: Project, name: str = "") -> Project:
    """Return the project with a copy of the layout in hand, in hand under that or the next free name; the first is put aside.

    The parts keep their ids, so that the copy can be compared with what it was copied from.
    """
    aside = Variant(name=project.variant_name, parts=project.parts, note_text=project.variant_note_text)
    return replace(project, variant_name=name or free_layout_name(project), variants=(*project.variants, aside))


def switch_variant(project: Project, name: str) -> Project:
    """Return the project with that layout in hand, and the one that was in hand in its place."""
    if name == project.variant_name:
        return project
    wanted = _variant(project, name)
    aside = Variant(name=project.variant_name, parts=project.parts, note_text=project.variant_note_text)
    return replace(
        project,
        parts=wanted.parts,
        variant_name=wanted.name,
        variant_note_text=wanted.note_text,
        variants=tuple(aside if v is wanted else v for v in project.variants),
    )


def rename_variant(project: Project, name: str, new_name: str) -> Project:
    """Return the project with that layout under another name."""
    if name == project.variant_name:
        return replace(project, variant_name=new_name)
    wanted = _variant(project, name)
    renamed = replace(wanted, name=new_name)
    return replace(project, variants=tuple(renamed if v is wanted else v for v in project.variants))


def note_variant(project: Project, note_text: str) -> Project:
    """Return the project with this note on the layout in hand."""
    return replace(project, variant_note_text=note_text)


def remove_variant(project: Project, name: str) -> Project:
    """Return the project without that layout; if it was in hand, its neighbour by name is taken in hand."""
    if not project.variants:
        raise ModelError("variant_name", f"“{name}” is the only layout: make a copy of it before you remove it.")
    if name == project.variant_name:
        names = layout_names(project)
        here = names.index(name)
        project = switch_variant(project, names[here - 1] if here else names[1])
    gone = _variant(project, name)
    return replace(project, variants=tuple(v for v in project.variants if v is not gone))


def adopt_variant(project: Project, name: str) -> Project:
    """Return the project with that layout in hand and no other."""
    return replace(switch_variant(project, name), variants=())


def _variant(project: Project, name: str) -> Variant:
    for variant in project.variants:
        if variant.name == name:
            return variant
    there = ", ".join(f"“{known}”" for known in layout_names(project))
    raise ModelError("variant_name", f"There is no layout “{name}” in this project: it has {there}.")
