"""Every number with a fraction that a value stores or gives says its unit in its name."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil
import re
import sys
import types
import typing
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path

import msgspec
import pytest

import grillestack

# One unit (pixels of the screen among them) or several in a row: `_kg_s`, `_w_per_m2_k`, `_pa_s2_per_m6`; a number without dimension says so.
_UNIT = r"(?:mm|m|kg|s|w|j|pa|k|degc|deg|rad|rpm|v|a|px)[2-9]?"
ENDS_IN_ITS_UNIT = re.compile(rf"_(?:frac|factor|count|(?:per_)?{_UNIT}(?:_(?:per_)?{_UNIT})*)$")

# Numbers that have no one unit, each with the reason; the list is short and stays so.
WITHOUT_ONE_UNIT = {
    "grillestack.app.panels.draft.Wanted.initial": "in the unit of the dimension beside it",
    "grillestack.assess.figure.Quantity.value": "in the unit of the dimension beside it",
    "grillestack.assess.defaults.Default.value": "in the unit of the field that it stands in for",
    **{
        f"grillestack.assess.uncertain.Uncertain.{name}": "a factor, or a shift in the unit of what is uncertain"
        for name in ("p5", "p95")
    },
    **{
        f"grillestack.assess.comparison.{name}": "in the unit of the dimension beside it"
        for name in ("Amount.value", "Amount.limit", "Figure.difference")
    },
    "grillestack.physics.oil.Oil.walther_terms": "coefficients between double logarithms",
    **{
        f"grillestack.physics.coolant.Coolant.{name}_terms": "coefficients of a polynomial, each in another unit"
        for name in ("conductivity", "density", "heat_capacity", "ln_viscosity")
    },
    **{
        f"grillestack.physics.louvred_fin.LouvredSurface.{name}": "lengths in any one unit, as only ratios enter"
        for name in (
            "fin_height",
            "fin_pitch",
            "fin_thickness",
            "flow_depth",
            "hydraulic_diameter",
            "louvre_length",
            "louvre_pitch",
            "tube_pitch",
            "tube_thickness",
        )
    },
}

PACKAGES = sorted(
    entry.name for entry in Path(grillestack.__file__).parent.iterdir() if (entry / "__init__.py").is_file()
)


def _modules(package: str) -> Iterator[types.ModuleType]:
    root = importlib.import_module(f"grillestack.{package}")
    yield root
    for found in pkgutil.walk_packages(root.__path__, f"{root.__name__}."):
        yield importlib.import_module(found.name)


def _value_types(package: str) -> set[type]:
    found = set()
    for module in _modules(package):
        for thing in vars(module).values():
            is_value = inspect.isclass(thing) and (dataclasses.is_dataclass(thing) or issubclass(thing, msgspec.Struct))
            if is_value and thing.__module__.startswith(f"grillestack.{package}"):
                found.add(thing)
    return found


def _holds_floats(hint: object) -> bool:
    """Return whether the hint is a float, may be one, or is a collection or an array of them."""
    origin, arguments = typing.get_origin(hint), typing.get_args(hint)
    if origin is typing.Annotated:
        return _holds_floats(arguments[0])
    if origin in (typing.Union, types.UnionType):
        return any(_holds_floats(member) for member in arguments)
    if inspect.isclass(origin) and issubclass(origin, Mapping):
        return _holds_floats(arguments[-1])
    if inspect.isclass(origin) and issubclass(origin, Collection):
        return any(_holds_floats(member) for member in arguments)
    if getattr(origin or hint, "__name__", "") == "ndarray":
        return "bool" not in str(hint) and "int" not in str(hint)
    return hint is float


def _hint(cls: type, annotation: object) -> object:
    if not isinstance(annotation, str):
        return annotation
    try:
        return eval(annotation, vars(sys.modules[cls.__module__]))
    except NameError:
        # Imported for the type checker only; whether it holds floats can still be read off the text.
        return float if re.search(r"\bfloat\b", annotation) and "Callable" not in annotation else None


def _numbers_without_unit(cls: type) -> list[str]:
    named = {}
    for base in reversed(cls.__mro__):
        named.update(vars(base).get("__annotations__", {}))
    fields = cls.__struct_fields__ if issubclass(cls, msgspec.Struct) else [f.name for f in dataclasses.fields(cls)]
    named = {name: named[name] for name in fields}
    for name, given in inspect.getmembers(cls, lambda member: isinstance(member, property)):
        if not name.startswith("_") and given.fget is not None:
            named[name] = given.fget.__annotations__.get("return")
    return [
        f"{cls.__module__}.{cls.__name__}.{name}"
        for name, annotation in named.items()
        if _holds_floats(_hint(cls, annotation)) and not ENDS_IN_ITS_UNIT.search(name)
    ]


@pytest.mark.parametrize("package", PACKAGES)
def test_every_number_that_a_value_of_this_package_holds_ends_in_its_unit(package):
    found = {name for cls in _value_types(package) for name in _numbers_without_unit(cls)}
    offenders = sorted(found - WITHOUT_ONE_UNIT.keys())
    assert not offenders, "these numbers do not say their unit: " + ", ".join(offenders)


def test_each_exception_is_still_there_and_still_needed():
    packages = {name.split(".")[1] for name in WITHOUT_ONE_UNIT}
    found = {name for package in packages for cls in _value_types(package) for name in _numbers_without_unit(cls)}
    assert WITHOUT_ONE_UNIT.keys() <= found


@pytest.mark.parametrize(
    ("name", "good"),
    [
        ("width_mm", True),
        ("flow_m3_s", True),
        ("c2_pa_s2_per_m6", True),
        ("film_w_per_m2_k", True),
        ("scale_factor", True),
        ("glycol_frac", True),
        ("width", False),
        ("tubes_per_pass", False),
        ("cos_tilt", False),
        ("mm", False),
        ("flow_per", False),
    ],
)
def test_what_counts_as_a_unit(name, good):
    assert bool(ENDS_IN_ITS_UNIT.search(name)) == good


def test_the_walk_reaches_the_values_of_the_document():
    names = {cls.__name__ for cls in _value_types("model")}
    assert {"Project", "Core", "Placement", "DutyCase", "RatingPoint", "Point"} <= names


def test_the_walk_catches_a_number_without_a_unit_wherever_it_hides():
    @dataclasses.dataclass
    class Careless:
        depth: float
        depth_mm: float
        heat: float | None
        sizes: tuple[float, ...]
        by_part: dict[str, float]
        count: int
        words: tuple[str, ...]

        @property
        def area(self) -> float:
            return 1.0

        @property
        def area_mm2(self) -> float:
            return 1.0

    found = [name.rpartition(".")[2] for name in _numbers_without_unit(Careless)]
    assert found == ["depth", "heat", "sizes", "by_part", "area"]


def test_the_walk_catches_a_struct_too():
    careless = msgspec.defstruct("Careless", [("depth", float), ("depth_mm", float)])
    assert [name.rpartition(".")[2] for name in _numbers_without_unit(careless)] == ["depth"]
