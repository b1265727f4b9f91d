"""The photo laid on the nose is where geometry says, pixel for pixel, and at the right place and scale."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage, QPolygonF, QTransform

from grillestack.app.photo.straightening import StraighteningError, map_of, qt_transform, straightened
from grillestack.geometry.homography import homography, inverse, mapped
from grillestack.model.photo import FourCorners, Mark, TwoPoints
from tests.app.photo.drawn_photos import BLACK, OPENING, PLATE, RED, WHITE, a_camera, drawn_nose
from tests.geometry.photographs import camera
from tests.geometry.test_homography import corners

pytestmark = pytest.mark.usefixtures("qapp")


def tied_by(taken):
    return FourCorners(
        corners=tuple(Mark(*taken.sees(*place)) for place in PLATE), width_mm=520, height_mm=110, bottom_z_mm=420
    )


@settings(max_examples=50, deadline=None)
@given(corners())
def test_qt_and_geometry_agree_on_the_map_through_four_points(seen):
    matrix = homography(seen, PLATE)
    ours = qt_transform(matrix)
    theirs = QTransform()
    done = QTransform.quadToQuad(
        QPolygonF([QPointF(*p) for p in seen]), QPolygonF([QPointF(*p) for p in PLATE]), theirs
    )
    assert done is not False
    for place in ((800.0, 600.0), (700.0, 500.0), (870.0, 690.0)):
        a, b, c = ours.map(QPointF(*place)), theirs.map(QPointF(*place)), mapped(matrix, [place])[0]
        assert (a.x(), a.y()) == pytest.approx((b.x(), b.y()), abs=1e-3)
        assert (a.x(), a.y()) == pytest.approx(tuple(c), abs=1e-6)


def test_the_drawn_picture_shows_every_outline_where_it_is_on_the_vehicle_to_a_pixel():
    taken = a_camera()
    image = drawn_nose(taken)
    flat = straightened(image, image.size(), tied_by(taken))
    picture = flat.pixmap.toImage()

    def colour_at(y_mm, z_mm):
        x, y = (flat.left_y_mm - y_mm) / flat.mm_per_px, (flat.top_z_mm - z_mm) / flat.mm_per_px
        return QColor(picture.pixel(int(x), int(y)))

    near = 2.5 * flat.mm_per_px
    for outline, inside in ((OPENING, BLACK), (PLATE, WHITE)):
        (left, bottom), (right, _), (_, top), _ = outline
        middle_y, middle_z = (left + right) / 2, (bottom + top) / 2
        for edge, y, z in (
            ("left", left, middle_z),
            ("right", right, middle_z),
            ("bottom", middle_y, bottom),
            ("top", middle_y, top),
        ):
            dy = near * {"left": -1, "right": 1}.get(edge, 0)
            dz = near * {"bottom": 1, "top": -1}.get(edge, 0)
            for found, meant in ((colour_at(y + dy, z + dz), inside), (colour_at(y - dy, z - dz), RED)):
                assert abs(found.red() - meant.red()) + abs(found.green() - meant.green()) < 60, edge


def test_the_picture_is_what_the_inverse_map_says_even_close_to_the_horizon():
    # A chequer seen from so far aside that the plane's horizon lies inside the photo.
    taken = camera(yaw_deg=68, distance_mm=1_500, aims_at=(0, 480), focal_px=700)
    across, down = np.meshgrid(np.arange(1_600) // 100, np.arange(1_200) // 100)
    dark = ((across + down) % 2 == 0).astype(np.uint32) * 0x808080 + 0xFF404040
    chequer = QImage(dark.astype(np.uint32).tobytes(), 1_600, 1_200, QImage.Format.Format_RGB32)
    tied = tied_by(taken)
    flat = straightened(chequer, chequer.size(), tied)
    back = inverse(map_of(tied))
    picture = flat.pixmap.toImage().convertToFormat(QImage.Format.Format_ARGB32)
    rng = np.random.default_rng(5)
    checked = 0
    for column, row in zip(
        rng.integers(0, picture.width(), 3_000), rng.integers(0, picture.height(), 3_000), strict=True
    ):
        place = (
            flat.left_y_mm - (column + 0.5) * flat.mm_per_px,
            flat.top_z_mm - (row + 0.5) * flat.mm_per_px,
        )
        (x, y), found = mapped(back, [place])[0], QColor.fromRgba(picture.pixel(int(column), int(row)))
        away = min(abs(x % 100 - 50), 50), min(abs(y % 100 - 50), 50)
        if found.alpha() < 255 or max(away) > 42:
            continue
        assert 0 <= x <= 1_600
        assert 0 <= y <= 1_200
        assert abs(found.red() - (0xC0 if (x // 100 + y // 100) % 2 == 0 else 0x40)) < 12
        checked += 1
    assert checked > 300


def test_a_coarse_preview_lies_where_the_fine_picture_lies():
    taken = a_camera()
    image = drawn_nose(taken)
    fine = straightened(image, image.size(), tied_by(taken))
    coarse = straightened(image.scaled(image.size() / 2), image.size(), tied_by(taken), most_pixels=200_000)
    assert coarse.pixmap.width() * coarse.pixmap.height() < 210_000
    assert coarse.left_y_mm == pytest.approx(fine.left_y_mm, abs=coarse.mm_per_px)
    assert coarse.top_z_mm == pytest.approx(fine.top_z_mm, abs=coarse.mm_per_px)
    assert coarse.rect_mm.contains(fine.rect_mm.center())


def test_two_points_only_scale_the_photo():
    image = drawn_nose(camera())
    tied = TwoPoints(first=Mark(400, 800), second=Mark(1_000, 800), distance_mm=300, first_y_mm=150, first_z_mm=400)
    flat = straightened(image, image.size(), tied)
    assert flat.mm_per_px == pytest.approx(0.5)
    # The whole photo of 1600 × 1200 pixels at half a millimetre each; its first mark at y 150, z 400.
    assert (flat.left_y_mm, flat.top_z_mm) == pytest.approx((150 + 200, 400 + 400))
    assert (flat.pixmap.width(), flat.pixmap.height()) == (1_600, 1_200)


def test_marks_that_make_no_map_are_refused_in_their_sentence():
    tied = FourCorners(corners=(Mark(0, 0), Mark(100, 0), Mark(200, 0), Mark(0, 90)), width_mm=520, height_mm=110)
    image = drawn_nose(camera())
    with pytest.raises(StraighteningError, match="on one line"):
        straightened(image, image.size(), tied)
