"""Which files become photos, how they are reduced and turned, and the sentence for each that cannot be used."""

from __future__ import annotations

import base64
import os
import struct
import zlib

import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QImage, QImageReader, QPainter

from grillestack.app.photo.picture_file import (
    MOST_PIXELS_IN_FILE,
    PhotoFileError,
    kept_picture,
    pixels_of,
    read_photo,
    reduced,
)
from grillestack.model.photo import MOST_LETTERS, MOST_PIXELS, PhotoImage
from tests.app.photo.drawn_photos import WIDE, a_camera, drawn_nose

pytestmark = pytest.mark.usefixtures("qapp")

# What row 0 and column 0 of the stored picture show of the upright one, after the table of the Exif standard (CIPA DC-008,
# tag 0112 Orientation; from memory).
ROW_AND_COLUMN_0 = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def corners():
    """Return an upright picture of 60 × 40 pixels whose quarters are red, green, blue and white."""
    image = QImage(60, 40, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    for place, colour in (((0, 0), "#e00000"), ((30, 0), "#00d000"), ((0, 20), "#0000e0"), ((30, 20), "#f0f0f0")):
        painter.fillRect(*place, 30, 20, QColor(colour))
    painter.end()
    return image


def stored_as(upright, orientation):
    """Return the picture as a camera would store it under that orientation: rows and columns after the standard."""
    wide, high = upright.width(), upright.height()
    along_row, along_column = ROW_AND_COLUMN_0[orientation]
    turned = along_row in ("left", "right")
    stored = QImage(high if turned else wide, wide if turned else high, QImage.Format.Format_RGB32)
    for row in range(stored.height()):
        for column in range(stored.width()):
            x, y = (row, column) if turned else (column, row)
            x = wide - 1 - x if "right" in (along_row, along_column) else x
            y = high - 1 - y if "bottom" in (along_row, along_column) else y
            stored.setPixel(column, row, upright.pixel(x, y))
    return stored


def with_orientation(jpeg, orientation):
    """Return the JPEG with an Exif segment right after its beginning: one entry, tag 0112, a short."""
    tiff = b"II*\0" + struct.pack("<IHHHIHHI", 8, 1, 0x0112, 3, 1, orientation, 0, 0)
    body = b"Exif\0\0" + tiff
    return jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + jpeg[2:]


def saved(image, path, quality=95):
    assert image.save(str(path), quality=quality)
    return path


@pytest.mark.parametrize("orientation", ROW_AND_COLUMN_0)
def test_a_photo_is_turned_as_the_camera_noted(tmp_path, orientation):
    plain = saved(stored_as(corners(), orientation), tmp_path / "plain.jpg", 100)
    path = tmp_path / "noted.jpg"
    path.write_bytes(with_orientation(plain.read_bytes(), orientation))
    kept = read_photo(path)
    assert (kept.width_px, kept.height_px) == (60, 40)
    pixels = pixels_of(kept)
    found = [QColor(pixels.pixel(x, y)) for x, y in ((14, 9), (45, 9), (14, 30))]
    strongest = [max(("red", "green", "blue"), key=lambda name, c=c: getattr(c, name)()) for c in found]
    assert strongest == ["red", "green", "blue"]


@pytest.mark.parametrize("ending", ["jpg", "png", "webp"])
def test_each_kind_of_photo_is_read_and_kept_as_jpeg(tmp_path, ending):
    if ending.encode() not in [bytes(kind.data()) for kind in QImageReader.supportedImageFormats()]:
        pytest.skip("this Qt reads no such picture")
    kept = read_photo(saved(drawn_nose(a_camera()).scaled(400, 300), tmp_path / f"a.{ending}"))
    assert (kept.width_px, kept.height_px) == (400, 300)
    assert base64.b64decode(kept.data_base64).startswith(b"\xff\xd8\xff")


def test_a_large_photo_is_reduced_to_two_megapixels_and_keeps_its_shape(tmp_path):
    path = saved(drawn_nose(a_camera()).scaled(4_000, 3_000), tmp_path / "large.jpg")
    kept = read_photo(path)
    assert 0.99 * MOST_PIXELS < kept.width_px * kept.height_px <= MOST_PIXELS
    assert kept.width_px / kept.height_px == pytest.approx(4 / 3, rel=2e-3)
    assert len(kept.data_base64) < 2_000_000


def test_even_noise_of_two_megapixels_fits_the_project(tmp_path):
    noise = QImage(os.urandom(1_600 * 1_250 * 4), 1_600, 1_250, QImage.Format.Format_RGB32)
    assert len(kept_picture(noise).data_base64) <= MOST_LETTERS


def test_what_the_camera_noted_beside_the_picture_is_not_kept(tmp_path):
    image = corners()
    image.setText("Place", "somewhere private")
    path = saved(image, tmp_path / "a.png")
    assert b"somewhere private" in path.read_bytes()
    assert b"somewhere private" not in base64.b64decode(read_photo(path).data_base64)


def test_what_can_be_seen_through_becomes_white(tmp_path):
    glass = QImage(64, 64, QImage.Format.Format_ARGB32)
    glass.fill(QColor(0, 0, 0, 0))
    assert QColor(pixels_of(read_photo(saved(glass, tmp_path / "glass.png"))).pixel(30, 30)).lightness() > 250


@pytest.mark.parametrize(
    ("size", "kept"), [((800, 600), (800, 600)), ((4_000, 2_000), (2_000, 1_000)), ((1_414, 1_414), (1_414, 1_414))]
)
def test_only_what_is_too_large_is_reduced(size, kept):
    assert reduced(QSize(*size)) == QSize(*kept)


def png_that_claims(wide, high):
    """Return a PNG of a few bytes whose header promises that many pixels (ISO/IEC 15948, IHDR)."""

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, 8, 2, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + header + chunk(b"IDAT", zlib.compress(b"\0" * 100)) + chunk(b"IEND", b"")


def test_a_small_file_that_unfolds_to_a_huge_picture_is_refused_by_its_header(tmp_path, monkeypatch):
    monkeypatch.setattr(QImageReader, "read", lambda _self: pytest.fail("it was unfolded"))
    path = tmp_path / "bomb.png"
    path.write_bytes(png_that_claims(60_000, 60_000))
    with pytest.raises(PhotoFileError, match=r"“bomb\.png” has 3600 megapixels and the most is 60"):
        read_photo(path)
    assert MOST_PIXELS_IN_FILE == 60_000_000


def _cut_jpeg(path):
    whole = saved(drawn_nose(a_camera()), path).read_bytes()
    path.write_bytes(whole[: len(whole) // 2])


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda path: path.write_bytes(b""), "is empty"),
        (lambda path: path.write_bytes(b"not a picture at all"), "no JPEG, PNG or WebP"),
        (lambda path: path.write_bytes(b"GIF89a" + bytes(40)), "no JPEG, PNG or WebP"),
        (lambda path: path.write_text("<svg xmlns='http://www.w3.org/2000/svg'/>"), "no JPEG, PNG or WebP"),
        (lambda path: path.mkdir(), "no ordinary file"),
        (lambda path: None, "there is no such file"),
        (_cut_jpeg, "breaks off in the middle"),
        (lambda path: path.write_bytes(png_that_claims(300, 200)[:-60]), "damaged|breaks off"),
        (lambda path: path.write_bytes(png_that_claims(9_000, 12)), "too narrow to trace"),
    ],
)
def test_what_is_no_photo_gives_one_sentence_that_names_the_file(tmp_path, make, words):
    path = tmp_path / "photo.jpg"
    make(path)
    with pytest.raises(PhotoFileError, match=words) as refused:
        read_photo(path)
    assert str(refused.value).startswith("“photo.jpg”")
    assert str(refused.value).count(".") <= 3


@pytest.mark.qt_log_ignore("JPEG")
def test_a_photo_in_a_project_that_is_not_what_it_says_is_refused():
    kept = kept_picture(drawn_nose(a_camera()))
    assert pixels_of(kept).width() == WIDE
    lying = PhotoImage(data_base64=kept.data_base64, width_px=800, height_px=600)
    cut = PhotoImage(data_base64=kept.data_base64[:40], width_px=kept.width_px, height_px=kept.height_px)
    for broken in (lying, cut):
        with pytest.raises(PhotoFileError, match="damaged: load it again"):
            pixels_of(broken)
