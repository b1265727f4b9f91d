"""Which figures are shown, and what is said of one when somebody asks why: frozen values, nothing computed."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from grillestack.units.quantity import Dimension


class FigureName(enum.Enum):
    """A figure on the screen, by its name there."""

    HOTTEST_DAY = "Hottest day"
    DESIGN_DAY = "Design day"
    MARGIN = "Margin"
    TOP_TANK = "Top tank"
    HEAT_TARGET = "Heat to shed"
    HEAT_CAPACITY = "Heat it can shed"
    AIR = "Air through radiator"
    FACE_VELOCITY = "Face velocity"
    CHARGE_OUT = "Charge air out"
    CHARGE_LOSS = "Charge loss, core"
    CONDENSING = "Condensing"
    RECIRCULATED = "Air drawn round again"
    BYPASSED = "Air past the radiator"
    CORE_FACE = "Core"
    EFFECTIVE_FACE = "Effective face"
    REQUIRED_FACE = "Required face"
    EXPOSED_FACE = "Exposed face"
    BAND = "Band of the hottest day"
    CHANCE = "Chance of meeting the design day"
    DRIVER = "Share of the band"
    STEP = "Step"
    GAIN = "What a change buys"
    OVER_TIME = "Over time"


@dataclass(frozen=True, slots=True)
class Subject:
    """One figure that is asked about: which, of which duty case, and which of several of its kind."""

    figure: FigureName
    case_id: str = ""
    place: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """A value with what it measures, or words in its place; neither is *not known*.

    A fine one is shown with more digits than a verdict needs, so that differences can be followed.
    """

    value: float | None = None
    dimension: Dimension | None = None
    words: str = ""
    is_fine: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Input:
    """One thing that enters a figure: its value and where that comes from; a default is marked as one."""

    name: str
    quantity: Quantity = Quantity()
    origin: str = ""

    @property
    def is_default(self) -> bool:
        """Return whether nobody typed it."""
        return self.origin.startswith("default")


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """What one figure is, how it comes about, what enters, which sources stand behind it, how far it may be out.

    `sources` are short ids of the list of sources, `source_words` says what stands behind it where that is no id.
    """

    title: str
    quantity: Quantity
    says: str
    method: str
    inputs: tuple[Input, ...] = ()
    sources: tuple[str, ...] = ()
    source_words: str = ""
    spread: str = ""
