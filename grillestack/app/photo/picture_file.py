"""From a picture file to the picture that a project keeps: upright, reduced, without what the camera noted beside it."""

from __future__ import annotations

import base64
import binascii
import math
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize
from PySide6.QtGui import QImage, QImageReader, QImageWriter, QPainter

from grillestack.model.photo import MOST_LETTERS, MOST_PIXELS, PhotoImage
from grillestack.storage.trouble import shown_name, why_not_read

MOST_FILE_BYTES = 100_000_000
# 60 million pixels take 240 MB as long as they are not reduced; Qt refuses a little above that.
MOST_PIXELS_IN_FILE = 60_000_000
ENDINGS = ("jpg", "jpeg", "png", "webp")
_LEAST_SIDE_PX = 16
_QUALITIES = (85, 70, 50, 30)
_JPEG_BEGINS = b"\xff\xd8"


class PhotoFileError(ValueError):
    """A picture that cannot be used; the message is a sentence for the person at the bench."""


def read_photo(path: Path) -> PhotoImage:
    """Return the picture of the file, turned upright and reduced to what a project keeps.

    Raises
    ------
    PhotoFileError
        If there is none that can be used, or if it would take more memory than a photo ever needs.
    """
    content = _content(path)
    name = shown_name(path)
    buffer = _open(content)
    reader = QImageReader(buffer)
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)  # the turn that the camera noted (EXIF orientation)
    if bytes(reader.format().data()).decode("ascii", "replace") not in ENDINGS:
        raise PhotoFileError(f"{name} is no JPEG, PNG or WebP picture: choose a photo, or save it as JPEG first.")
    size = _size_within_bounds(reader.size(), name)
    if _breaks_off(content):
        raise PhotoFileError(f"{name} breaks off in the middle: copy the photo from the camera again.")
    reader.setScaledSize(size)
    image = reader.read()
    if image.isNull():
        raise PhotoFileError(f"{name} is damaged and cannot be read: copy the photo from the camera again.")
    return kept_picture(image)


def kept_picture(image: QImage) -> PhotoImage:
    """Return the picture as a project keeps it: a JPEG on white without notes, such as the place where it was taken."""
    size = reduced(image.size())
    plain = QImage(size, QImage.Format.Format_RGB32)
    plain.fill(0xFFFFFFFF)
    painter = QPainter(plain)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(plain.rect(), image)
    painter.end()
    text = ""
    for quality in _QUALITIES:
        text = base64.b64encode(_as_jpeg(plain, quality)).decode("ascii")
        if len(text) <= MOST_LETTERS:
            break
    return PhotoImage(data_base64=text, width_px=plain.width(), height_px=plain.height())


def pixels_of(picture: PhotoImage) -> QImage:
    """Return the picture's pixels; its file is looked at before it is unfolded.

    Raises
    ------
    PhotoFileError
        If it is damaged or not as large as it says.
    """
    damaged = "The photo in this project is damaged: load it again with “Trace photo”."
    try:
        buffer = _open(base64.b64decode(picture.data_base64, validate=True))
    except (binascii.Error, ValueError) as error:
        raise PhotoFileError(damaged) from error
    reader = QImageReader(buffer)
    reader.setDecideFormatFromContent(True)
    if reader.size() != QSize(picture.width_px, picture.height_px):
        raise PhotoFileError(damaged)
    image = reader.read()
    if image.isNull():
        raise PhotoFileError(damaged)
    return image.convertToFormat(QImage.Format.Format_ARGB32_Premultiplied)


def reduced(size: QSize) -> QSize:
    """Return the size of the same shape with as many pixels as a project keeps at most."""
    share = math.sqrt(MOST_PIXELS / max(1, size.width() * size.height()))
    return size if share >= 1.0 else QSize(math.floor(size.width() * share), math.floor(size.height() * share))


def _content(path: Path) -> bytes:
    name = shown_name(path)
    try:
        # Looked at before it is opened: opening a pipe would wait for ever.
        is_ordinary = path.is_file() or not path.exists()
        content = b"" if not is_ordinary else _beginning(path)
    except (OSError, ValueError) as error:
        raise PhotoFileError(why_not_read(path, error)) from error
    if not is_ordinary:
        raise PhotoFileError(f"{name} is no ordinary file: choose a photo.")
    if not content:
        raise PhotoFileError(f"{name} is empty: copy the photo from the camera again.")
    if len(content) > MOST_FILE_BYTES:
        raise PhotoFileError(f"{name} has more than {MOST_FILE_BYTES // 1_000_000} MB: save the photo smaller first.")
    return content


def _beginning(path: Path) -> bytes:
    with path.open("rb") as stream:
        return stream.read(MOST_FILE_BYTES + 1)


def _size_within_bounds(size: QSize, name: str) -> QSize:
    if not size.isValid():
        raise PhotoFileError(f"{name} does not say how large it is, so it may be damaged: copy the photo again.")
    wide, high = size.width(), size.height()
    if wide * high > MOST_PIXELS_IN_FILE:
        raise PhotoFileError(
            f"{name} has {wide * high / 1e6:.0f} megapixels and the most is {MOST_PIXELS_IN_FILE // 1_000_000}: "
            "save the photo smaller first."
        )
    kept = reduced(size)
    if min(kept.width(), kept.height()) < _LEAST_SIDE_PX:
        raise PhotoFileError(f"{name} is {wide} × {high} pixels, too narrow to trace: choose another photo.")
    return kept


def _breaks_off(content: bytes) -> bool:
    """Return whether a JPEG ends before its picture does; Qt would fill the rest with grey and say nothing.

    ITU-T T.81, annex B: segments with their length up to the scan, in whose data FF D9 cannot occur but at its end.
    """
    if not content.startswith(_JPEG_BEGINS):
        return False
    at = len(_JPEG_BEGINS)
    while at + 4 <= len(content) and content[at] == 0xFF:
        if content[at + 1] == 0xFF:  # fill bytes before a marker
            at += 1
            continue
        if content[at + 1] == 0xDA:
            return b"\xff\xd9" not in content[at:]
        at += 2 + int.from_bytes(content[at + 2 : at + 4], "big")
    return True


def _open(content: bytes) -> QBuffer:
    buffer = QBuffer()
    buffer.setData(QByteArray(content))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    return buffer


def _as_jpeg(image: QImage, quality: int) -> bytes:
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QImageWriter(buffer, QByteArray(b"jpeg"))
    writer.setQuality(quality)
    if not writer.write(image):
        raise PhotoFileError("This photo could not be reduced: save it as JPEG with another program first.")
    return bytes(buffer.data().data())
