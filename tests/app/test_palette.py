"""Are words readable on their paper, and does lightness alone tell the order of shades."""

from __future__ import annotations

import itertools

import pytest
from PySide6.QtGui import QColor

from grillestack.app.palette import Palette, dark, high_contrast, light

ALL = [light(), dark(), high_contrast()]


def luminance(colour: QColor) -> float:
    """Relative luminance after WCAG 2.2 (W3C, definition of relative luminance; formula from memory)."""

    def linear(share: float) -> float:
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(colour.redF()) + 0.7152 * linear(colour.greenF()) + 0.0722 * linear(colour.blueF())


def contrast(a: QColor, b: QColor) -> float:
    """Contrast ratio after WCAG 2.2."""
    bright, dim = sorted((luminance(a), luminance(b)), reverse=True)
    return (bright + 0.05) / (dim + 0.05)


def lightness(colour: QColor) -> float:
    """CIE L* of a colour (CIE 15, D65)."""
    y = luminance(colour)
    return 116 * y ** (1 / 3) - 16 if y > 216 / 24389 else y * 24389 / 27


def without_green_cones(colour: QColor) -> tuple[float, float, float]:
    """What a deuteranope sees, linear sRGB (matrix of Machado, Oliveira & Fernandes 2009, severity 1, from memory)."""
    r, g, b = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4
        for share in (colour.redF(), colour.greenF(), colour.blueF())
    )
    return (
        0.367322 * r + 0.860646 * g - 0.227968 * b,
        0.280085 * r + 0.672501 * g + 0.047413 * b,
        -0.011820 * r + 0.042940 * g + 0.968881 * b,
    )


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_words_reach_the_contrast_that_wcag_asks_of_text(palette: Palette):
    for ink in ("ink", "faint_ink", "accent", "pass_ink", "close_ink", "fail_ink", "unknown_ink", "warning"):
        for paper in ("paper", "panel"):
            assert contrast(getattr(palette, ink), getattr(palette, paper)) >= 4.5, (ink, paper)
    assert contrast(palette.tag_ink, palette.tag_paper) >= 4.5


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_what_must_be_seen_reaches_the_contrast_that_wcag_asks_of_graphics(palette: Palette):
    """WCAG 2.1, success criterion 1.4.11 (from memory): 3:1 for parts of drawings and for the bounds of what is pressed."""
    grounds = {
        "edge": ("paper", "panel"),
        "accent": ("paper", "panel", "fresh", "behind_one"),
        "opening_ink": ("paper", "fresh", "behind_one", "behind_two"),
        "ink": ("paper", "fresh", "behind_one", "behind_two"),
        "obstruction_ink": ("paper",),
        "tank_ink": ("paper", "tank_wash"),
        "blocked_ink": ("paper", "blocked_wash"),
        "off_opening_ink": ("paper", "off_opening"),
    }
    for ink, papers in grounds.items():
        for paper in papers:
            assert contrast(getattr(palette, ink), getattr(palette, paper)) >= 3.0, (ink, paper)


def test_the_formula_of_contrast_gives_what_is_published_for_it():
    """Black on white is 21:1 and #767676 the lightest grey with 4.5:1 on white: well-known values of WCAG, from memory."""
    white = QColor("#ffffff")
    assert contrast(QColor("#000000"), white) == pytest.approx(21.0)
    assert contrast(QColor("#767676"), white) >= 4.5 > contrast(QColor("#777777"), white)


@pytest.mark.parametrize("palette", [light(), high_contrast()], ids=lambda p: p.name)
def test_what_is_selected_stands_out_from_the_darkest_shade_too(palette: Palette):
    assert contrast(palette.accent, palette.behind_two) >= 3.0


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_each_core_ahead_moves_the_shade_further_from_the_paper(palette: Palette):
    paper = lightness(palette.paper)
    away = [abs(lightness(palette.behind(cores)) - paper) for cores in (0, 1, 2)]
    assert all(later - earlier > 8 for earlier, later in itertools.pairwise(away))
    assert palette.behind(5) == palette.behind(2)


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_shades_stay_apart_for_an_eye_without_green_cones(palette: Palette):
    seen = [without_green_cones(palette.behind(cores)) for cores in (0, 1, 2)]
    for a, b in itertools.pairwise(seen):
        assert max(abs(x - y) for x, y in zip(a, b, strict=True)) > 0.05


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_hotter_air_is_always_further_from_the_paper(palette: Palette):
    paper = lightness(palette.paper)
    steps = [abs(lightness(palette.temperature(i / 24)) - paper) for i in range(25)]
    assert all(later > earlier for earlier, later in itertools.pairwise(steps))
    assert palette.temperature(-1) == palette.temperature(0)
    assert palette.temperature(2) == palette.temperature(1)


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_faster_air_is_always_further_from_the_paper_in_steps_that_look_alike(palette: Palette):
    paper = lightness(palette.paper)
    steps = [abs(lightness(palette.speed(i / 24)) - paper) for i in range(25)]
    assert all(later > earlier for earlier, later in itertools.pairwise(steps))
    assert palette.speed(-1) == palette.speed(0)
    assert palette.speed(2) == palette.speed(1)


@pytest.mark.parametrize("palette", ALL, ids=lambda p: p.name)
def test_fast_air_is_not_taken_for_hot_air(palette: Palette):
    hot, fast = without_green_cones(palette.temperature(0.75)), without_green_cones(palette.speed(0.75))
    assert max(abs(x - y) for x, y in zip(hot, fast, strict=True)) > 0.05
