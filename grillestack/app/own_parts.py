"""What is on the shelf: the bundled parts, the user's own, and starters for parts made to own sizes."""

from __future__ import annotations

from collections.abc import Callable

from grillestack.app.resize import with_tanks
from grillestack.model.core_description import CoreDescription, CoreType
from grillestack.model.outline import centred_rect
from grillestack.model.parts import Core, CoreRole, Part, Shroud, TubeFluid
from grillestack.storage.catalogue import CatalogueFileError, bundled_parts, own_parts

# Sizes to begin with, in mm: width, height, depth, tank, side plate. Common practice, from memory; all are to be changed.
_STARTERS = (
    (CoreRole.RADIATOR, "Radiator to own sizes", CoreType.ALUMINIUM_TWO_ROW, (600.0, 420.0, 50.0, 55.0, 8.0)),
    (
        CoreRole.CHARGE_AIR_COOLER,
        "Charge-air cooler to own sizes",
        CoreType.BAR_AND_PLATE_CHARGE_AIR,
        (550.0, 300.0, 64.0, 60.0, 5.0),
    ),
    (CoreRole.CONDENSER, "Condenser to own sizes", CoreType.PARALLEL_FLOW_CONDENSER, (580.0, 360.0, 20.0, 25.0, 5.0)),
    (CoreRole.COOLER, "Oil cooler to own sizes", CoreType.PLATE_OIL_COOLER, (280.0, 160.0, 32.0, 20.0, 0.0)),
)
_SHROUD_MM = (600.0, 420.0, 80.0)


def shelf_parts() -> tuple[tuple[Part, ...], list[str]]:
    """Return the parts that could be had, and a sentence for each file that could not be read."""
    parts: list[Part] = []
    complaints: list[str] = []
    sources: tuple[Callable[[], tuple[Part, ...]], ...] = (bundled_parts, own_parts)
    for source in sources:
        try:
            found = source()
        except CatalogueFileError as error:
            complaints.append(str(error))
            continue
        # A second part under an id could never be asked for, so the first one keeps it.
        taken = {part.id for part in parts}
        parts += [part for part in found if part.id not in taken]
    return tuple(parts), complaints


def own_size_starters() -> tuple[Part, ...]:
    """Return one part of each kind that can be made to own sizes, to be stretched and filled in."""
    cores = []
    for role, name, core_type, (width, height, depth, tank, plate) in _STARTERS:
        core = Core(
            id=f"own-size-{role.value}",
            name=name,
            role=role,
            overall=centred_rect(width, height),
            core_width_mm=width,
            core_height_mm=height,
            depth_mm=depth,
            own_sizes=True,
            description=CoreDescription(core_type=core_type),
            tube_fluid=TubeFluid.OIL if core_type is CoreType.PLATE_OIL_COOLER else None,
        )
        cores.append(with_tanks(core, tank, plate, at_the_sides=True))
    width, height, depth = _SHROUD_MM
    shroud = Shroud(
        id="own-size-shroud",
        name="Shroud to own sizes",
        width_mm=width,
        height_mm=height,
        depth_mm=depth,
        own_sizes=True,
    )
    return (*cores, shroud)
