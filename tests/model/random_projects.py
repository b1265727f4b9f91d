"""Random projects for hypothesis, built from the limits that the model itself states."""

from __future__ import annotations

import enum
import functools
import types
import typing
from typing import Annotated, Any

import msgspec
from hypothesis import strategies as st
from msgspec import Meta

from grillestack.model.core_description import CoreDescription
from grillestack.model.nose import Obstruction, Opening, SupportWindow
from grillestack.model.outline import Rect
from grillestack.model.parts import Core, Fan, Shroud, Solid, SolidKind
from grillestack.model.photo import Mark, PhotoImage
from grillestack.model.project import Project, Variant
from tests.model.examples import GREY_PNG

_LETTERS = st.characters(codec="utf-8")


def projects() -> st.SearchStrategy[Project]:
    """Return projects of every kind the model allows, small enough to be quick."""
    return _structs(Project)


def parts() -> st.SearchStrategy[Core | Shroud | Fan]:
    """Return single parts."""
    return st.one_of(_cores(), _structs(Shroud), _structs(Fan))


@functools.cache
def _structs(cls: type[msgspec.Struct]) -> st.SearchStrategy[Any]:
    if cls is Rect:
        return _rects()
    if cls is Core:
        return _cores()
    if cls is PhotoImage:
        return st.builds(PhotoImage, data_base64=st.just(GREY_PNG), width_px=st.just(32), height_px=st.just(24))
    if cls is Mark:
        return st.builds(Mark, st.floats(0, 32), st.floats(0, 24))  # in the picture, as the photo insists on it
    if cls is Obstruction:
        return _fields(Obstruction).map(_a_radius_for_each_corner).map(_front_before_rear)
    if cls in (Opening, SupportWindow):
        return _fields(cls).map(_a_radius_for_each_corner).map(lambda given: cls(**given))
    return _fields(cls).map(lambda given: cls(**given))


def _fields(cls: type[msgspec.Struct], *, without: tuple[str, ...] = ()) -> st.SearchStrategy[dict[str, Any]]:
    hints = typing.get_type_hints(cls, include_extras=True)
    named = {name: _values(name, hints[name]) for name in cls.__struct_fields__ if name not in without}
    made = st.fixed_dictionaries(named)
    return made.map(_own_ids) if cls is Project else made.map(_own_part_ids) if cls is Variant else made


def _values(name: str, hint: Any, meta: Meta | None = None) -> st.SearchStrategy[Any]:
    origin = typing.get_origin(hint)
    if origin is Annotated:
        base, *extras = typing.get_args(hint)
        return _values(name, base, next(m for m in extras if isinstance(m, Meta)))
    if origin in (typing.Union, types.UnionType):
        return st.one_of([_values(name, member, meta) for member in typing.get_args(hint)])
    if origin is tuple:
        least = (meta.min_length if meta else None) or 0
        most = min(least + 2, (meta.max_length if meta else None) or least + 2)
        return st.lists(_values(name, typing.get_args(hint)[0]), min_size=least, max_size=most).map(tuple)
    if hint is type(None):
        return st.none()
    if hint is bool:
        return st.booleans()
    if hint is float:
        return _numbers(meta)
    if hint is int:
        return st.integers(int(meta.ge), int(meta.le))
    if hint is str:
        return _texts(meta)
    if issubclass(hint, enum.Enum):
        return st.sampled_from(hint)
    return _structs(hint)


def _numbers(meta: Meta | None) -> st.SearchStrategy[float]:
    low, high = (meta.ge if meta.gt is None else meta.gt), (meta.le if meta.lt is None else meta.lt)
    return st.floats(low, high, exclude_min=meta.gt is not None, exclude_max=meta.lt is not None)


def _texts(meta: Meta | None) -> st.SearchStrategy[str]:
    if meta is not None and meta.pattern is not None:
        return st.from_regex(r"[a-z0-9][a-z0-9-]{0,8}", fullmatch=True)
    return st.text(_LETTERS, min_size=(meta.min_length or 0) if meta else 0, max_size=6)


def _own_ids(project: dict[str, Any]) -> dict[str, Any]:
    """Give everything that random drawing may have named alike an id of its own."""
    nose = project["nose"]
    openings = tuple(msgspec.structs.replace(o, id=f"o-{n}") for n, o in enumerate(nose.openings))
    obstructions = tuple(msgspec.structs.replace(o, id=f"x-{n}") for n, o in enumerate(nose.obstructions))
    mounts = tuple(msgspec.structs.replace(m, id=f"m-{n}") for n, m in enumerate(nose.mounts))
    project["nose"] = msgspec.structs.replace(nose, openings=openings, obstructions=obstructions, mounts=mounts)
    project["cases"] = tuple(msgspec.structs.replace(p, id=f"{p.id}-{n}") for n, p in enumerate(project["cases"]))
    project["variants"] = tuple(
        msgspec.structs.replace(v, name=f"{v.name}{n}") for n, v in enumerate(project["variants"], start=1)
    )
    project["variant_name"] += "0"
    return _own_part_ids(project)


def _own_part_ids(holder: dict[str, Any]) -> dict[str, Any]:
    holder["parts"] = tuple(msgspec.structs.replace(p, id=f"{p.id}-{n}") for n, p in enumerate(holder["parts"]))
    return holder


def _a_radius_for_each_corner(given: dict[str, Any]) -> dict[str, Any]:
    radii, corners = given["corner_radii_mm"], len(given["outline"])
    return given | {"corner_radii_mm": (radii * corners)[:corners]}


def _front_before_rear(given: dict[str, Any]) -> Obstruction:
    front, rear = sorted((given.pop("x_front_mm"), given.pop("x_rear_mm")))
    return Obstruction(x_front_mm=front, x_rear_mm=rear, **given)


def _spans() -> st.SearchStrategy[tuple[float, float]]:
    return st.tuples(st.floats(-9_000, 9_000), st.floats(0.5, 900)).map(lambda at: (at[0], at[0] + at[1]))


def _rects() -> st.SearchStrategy[Rect]:
    return st.tuples(_spans(), _spans()).map(
        lambda s: Rect(u_min_mm=s[0][0], u_max_mm=s[0][1], v_min_mm=s[1][0], v_max_mm=s[1][1])
    )


@st.composite
def _cores(draw: st.DrawFn) -> Core:
    given = draw(_fields(Core, without=("overall", "core_width_mm", "core_height_mm", "solids", "description")))
    width, height = draw(st.floats(10, 3_000)), draw(st.floats(10, 3_000))
    left, right, below, above = (draw(st.floats(0, 500)) for _ in range(4))
    u, v = width / 2, height / 2
    overall = Rect(u_min_mm=-u - left, u_max_mm=u + right, v_min_mm=-v - below, v_max_mm=v + above)
    tank = Rect(u_min_mm=-u - left, u_max_mm=-u, v_min_mm=-v - below, v_max_mm=v + above) if left > 0.1 else None
    kind, depth = draw(st.sampled_from(SolidKind)), draw(st.floats(1, 300))
    return Core(
        overall=overall,
        core_width_mm=width,
        core_height_mm=height,
        solids=(Solid(kind=kind, rect=tank, depth_mm=depth),) if tank is not None else (),
        description=draw(_structs(CoreDescription)),
        **given,
    )
