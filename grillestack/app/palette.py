"""Which colours the sheet is drawn in: light, dark and high contrast, and the map for the temperature of air.

Two habits hold in every palette: what the air has met stands out from the paper the more it has met, and hot air is
further from the paper than cool air. Lightness alone therefore tells the order, also to colour-blind eyes.
"""

from __future__ import annotations

import functools
import itertools
import math
from dataclasses import dataclass

from PySide6.QtGui import QColor

_STEPS_OF_MAP = 256
_STEPS_OF_PATH = 2048


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """All colours of canvas and panels; `rule` divides, `edge` bounds what is pressed or typed into; `temperature_map` runs from the coolest to the hottest air, `speed_map` from still air."""

    name: str
    paper: QColor
    panel: QColor
    rule: QColor
    edge: QColor
    ink: QColor
    faint_ink: QColor
    accent: QColor
    accent_wash: QColor
    opening_ink: QColor
    obstruction_ink: QColor
    obstruction_wash: QColor
    tank_ink: QColor
    tank_wash: QColor
    blocked_ink: QColor
    blocked_wash: QColor
    fresh: QColor
    behind_one: QColor
    behind_two: QColor
    off_opening: QColor
    off_opening_ink: QColor
    label_paper: QColor
    tag_paper: QColor
    tag_ink: QColor
    pass_ink: QColor
    close_ink: QColor
    fail_ink: QColor
    unknown_ink: QColor
    warning: QColor
    temperature_map: tuple[QColor, ...]
    speed_map: tuple[QColor, ...]

    def temperature(self, position_frac: float) -> QColor:
        """Return the colour of air at this place between coolest (0) and hottest (1); outside it is clamped."""
        return _at(self.temperature_map, position_frac)

    def speed(self, position_frac: float) -> QColor:
        """Return the colour of air at this place between still (0) and fastest (1); outside it is clamped."""
        return _at(self.speed_map, position_frac)

    def behind(self, cores_ahead: int) -> QColor:
        """Return the shade of a face behind so many cores; 0 is fresh air."""
        return (self.fresh, self.behind_one, self.behind_two)[min(2, max(0, cores_ahead))]


def light() -> Palette:
    """Return the palette of a white workshop sheet."""
    return Palette(
        name="light",
        paper=QColor("#fbfaf5"),
        panel=QColor("#f3f1ea"),
        rule=QColor("#d9d6cb"),
        edge=QColor("#828588"),
        ink=QColor("#20252a"),
        faint_ink=QColor("#686d70"),
        accent=QColor("#1f3fae"),
        accent_wash=QColor(31, 63, 174, 26),
        opening_ink=QColor("#20252a"),
        obstruction_ink=QColor("#4b4f52"),
        obstruction_wash=QColor(75, 79, 82, 46),
        tank_ink=QColor("#5c6165"),
        tank_wash=QColor("#e6e4dc"),
        blocked_ink=QColor("#6d5f5a"),
        blocked_wash=QColor("#efebe4"),
        fresh=QColor("#d3ebe8"),
        behind_one=QColor("#ecca8e"),
        behind_two=QColor("#c98b57"),
        off_opening=QColor("#e3e1dc"),
        off_opening_ink=QColor("#7b7d7a"),
        label_paper=QColor(251, 250, 245, 226),
        tag_paper=QColor("#20252a"),
        tag_ink=QColor("#fbfaf5"),
        pass_ink=QColor("#17694a"),
        close_ink=QColor("#8a5a00"),
        fail_ink=QColor("#ae2019"),
        unknown_ink=QColor("#5f656b"),
        warning=QColor("#8a5a00"),
        temperature_map=_map_through((0.945, -0.030, -0.018), (0.760, 0.035, 0.130), (0.360, 0.130, 0.055)),
        speed_map=_map_through((0.955, -0.006, 0.014), (0.740, -0.085, -0.020), (0.380, -0.030, -0.110)),
    )


def dark() -> Palette:
    """Return the palette for a dim workshop."""
    return Palette(
        name="dark",
        paper=QColor("#1b1e21"),
        panel=QColor("#24282c"),
        rule=QColor("#3a4046"),
        edge=QColor("#747b81"),
        ink=QColor("#e8e5dc"),
        faint_ink=QColor("#9aa1a6"),
        accent=QColor("#a9c4ff"),
        accent_wash=QColor(169, 196, 255, 34),
        opening_ink=QColor("#f4f1e8"),
        obstruction_ink=QColor("#b9bec2"),
        obstruction_wash=QColor(185, 190, 194, 44),
        tank_ink=QColor("#a3a9ae"),
        tank_wash=QColor("#33383d"),
        blocked_ink=QColor("#b3a29a"),
        blocked_wash=QColor("#2b2a2a"),
        fresh=QColor("#1f4d50"),
        behind_one=QColor("#80622f"),
        behind_two=QColor("#b0743f"),
        off_opening=QColor("#34373a"),
        off_opening_ink=QColor("#7d8286"),
        label_paper=QColor(27, 30, 33, 222),
        tag_paper=QColor("#f4f1e8"),
        tag_ink=QColor("#1b1e21"),
        pass_ink=QColor("#6fcf9d"),
        close_ink=QColor("#e9b949"),
        fail_ink=QColor("#ff8a7a"),
        unknown_ink=QColor("#aab1b7"),
        warning=QColor("#e9b949"),
        temperature_map=_map_through((0.300, -0.020, -0.055), (0.560, 0.085, 0.010), (0.900, 0.030, 0.110)),
        speed_map=_map_through((0.290, 0.000, -0.010), (0.560, -0.085, -0.030), (0.920, -0.050, 0.070)),
    )


def high_contrast() -> Palette:
    """Return black on white with the strongest lines, for glare and weak eyes."""
    black, white = QColor("#000000"), QColor("#ffffff")
    usual = light()
    return Palette(
        name="high contrast",
        paper=white,
        panel=white,
        rule=QColor("#555555"),
        edge=black,
        ink=black,
        faint_ink=QColor("#333333"),
        accent=QColor("#00148c"),
        accent_wash=QColor(0, 20, 140, 30),
        opening_ink=black,
        obstruction_ink=black,
        obstruction_wash=QColor(0, 0, 0, 40),
        tank_ink=black,
        tank_wash=QColor("#e0e0e0"),
        blocked_ink=black,
        blocked_wash=white,
        fresh=QColor("#d9f4f0"),
        behind_one=QColor("#f0bd5e"),
        behind_two=QColor("#b56a2b"),
        off_opening=QColor("#d0d0d0"),
        off_opening_ink=QColor("#404040"),
        label_paper=white,
        tag_paper=black,
        tag_ink=white,
        pass_ink=QColor("#00502f"),
        close_ink=QColor("#6b4300"),
        fail_ink=QColor("#9b0000"),
        unknown_ink=QColor("#333333"),
        warning=QColor("#6b4300"),
        temperature_map=usual.temperature_map,
        speed_map=usual.speed_map,
    )


Lab = tuple[float, float, float]


def _at(colours: tuple[QColor, ...], position_frac: float) -> QColor:
    return colours[round(min(1.0, max(0.0, position_frac)) * (len(colours) - 1))]


@functools.cache
def _map_through(cool: Lab, middle: Lab, hot: Lab) -> tuple[QColor, ...]:
    """Return equal steps of perceived difference along a curve through OKLab from cool to hot air."""
    path = [_on_curve(cool, middle, hot, i / _STEPS_OF_PATH) for i in range(_STEPS_OF_PATH + 1)]
    walked = list(itertools.accumulate((math.dist(a, b) for a, b in itertools.pairwise(path)), initial=0.0))
    colours = []
    at = 0
    for step in range(_STEPS_OF_MAP):
        wanted = walked[-1] * step / (_STEPS_OF_MAP - 1)
        while at < _STEPS_OF_PATH and walked[at] < wanted:
            at += 1
        colours.append(_colour_of_oklab(path[at]))
    return tuple(colours)


def _on_curve(a: Lab, b: Lab, c: Lab, t: float) -> Lab:
    s = 1.0 - t
    return (
        s * s * a[0] + 2 * s * t * b[0] + t * t * c[0],
        s * s * a[1] + 2 * s * t * b[1] + t * t * c[1],
        s * s * a[2] + 2 * s * t * b[2] + t * t * c[2],
    )


def _colour_of_oklab(lab: Lab) -> QColor:
    """Return the sRGB colour of a place in OKLab (Ottosson 2020), clipped to what a screen can show."""
    lightness, a, b = lab
    long = (lightness + 0.3963377774 * a + 0.2158037573 * b) ** 3
    medium = (lightness - 0.1055613458 * a - 0.0638541728 * b) ** 3
    short = (lightness - 0.0894841775 * a - 1.2914855480 * b) ** 3
    red = 4.0767416621 * long - 3.3077115913 * medium + 0.2309699292 * short
    green = -1.2684380046 * long + 2.6097574011 * medium - 0.3413193965 * short
    blue = -0.0041960863 * long - 0.7034186147 * medium + 1.7076147010 * short
    return QColor.fromRgbF(_display(red), _display(green), _display(blue))


def _display(linear: float) -> float:
    clipped = min(1.0, max(0.0, linear))
    return 12.92 * clipped if clipped <= 0.0031308 else 1.055 * clipped ** (1 / 2.4) - 0.055
