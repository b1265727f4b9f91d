"""The JSON Schemas of our files, made from the model, for people who write or check such files with other tools."""

from __future__ import annotations

import json
from typing import Any

import msgspec

from grillestack.model.values import field_unit, field_words
from grillestack.storage.catalogue import CatalogueFile
from grillestack.storage.migrations import CATALOGUE_FORMAT, PROJECT_FORMAT
from grillestack.storage.project_file import ProjectFile

DRAFT = "https://json-schema.org/draft/2020-12/schema"


def project_schema() -> dict[str, Any]:
    """Return the schema of a project file."""
    return _schema(
        ProjectFile,
        f"grillestack project, format {PROJECT_FORMAT}",
        "The layout of one cooling pack in the nose of one vehicle. Lengths are mm, angles degrees, the rest SI with °C. "
        "x runs rearward from the grille plane, y to the vehicle's right, z up. null means not given. "
        "The program also checks what a schema cannot say: ids used once, a core inside its overall size.",
    )


def catalogue_schema() -> dict[str, Any]:
    """Return the schema of a parts catalogue."""
    return _schema(
        CatalogueFile,
        f"grillestack parts, format {CATALOGUE_FORMAT}",
        "Parts for the shelf. The id of a part is its catalogue number and is used once over all catalogues; "
        "its placement stays as the default.",
    )


def schema_bytes(schema: dict[str, Any]) -> bytes:
    """Return the bytes that a file of this schema holds."""
    return (json.dumps(schema, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def _schema(file: type[msgspec.Struct], title: str, description: str) -> dict[str, Any]:
    (reference,), definitions = msgspec.json.schema_components([file], ref_template="#/$defs/{name}")
    top = definitions.pop(reference["$ref"].rpartition("/")[2])
    # A default lets the program leave them out when it makes a file; a reader insists on them.
    top["required"] = sorted({"kind", "format", *top["required"]})
    for definition in definitions.values():
        _say_units(definition.get("properties", {}))
    return {"$schema": DRAFT, **top, "title": title, "description": description, "$defs": definitions}


def _say_units(properties: dict[str, Any]) -> None:
    for name, schema in properties.items():
        if field_unit(name):
            schema["description"] = f"{field_words(name)} in {field_unit(name)}"
