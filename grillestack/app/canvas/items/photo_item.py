"""The photo under everything on the front view: straightened once, then one picture that is only laid on the sheet."""

from __future__ import annotations

from msgspec.structs import replace
from PySide6.QtCore import QObject, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QGraphicsItem, QGraphicsScene, QStyleOptionGraphicsItem, QWidget

from grillestack.app.photo.picture_file import PhotoFileError, pixels_of
from grillestack.app.photo.straightening import (
    MOST_PIXELS,
    PREVIEW_PIXELS,
    Straightened,
    StraighteningError,
    straightened,
)
from grillestack.app.session import Session
from grillestack.model.photo import FourCorners, Photo, PhotoImage, TwoPoints

_Z_PHOTO = -10.0
_AROUND_MM = 500.0


class PhotoItem(QGraphicsItem):
    """Lays the straightened picture on the sheet."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self.setZValue(_Z_PHOTO)
        self._flat: Straightened | None = None

    @property
    def flat(self) -> Straightened | None:
        """Return the picture that is drawn."""
        return self._flat

    def show_flat(self, flat: Straightened | None) -> None:
        """Draw this picture from now on."""
        if flat is not self._flat:
            self.prepareGeometryChange()
            self._flat = flat
            self.update()

    def boundingRect(self) -> QRectF:
        """Return what the picture covers."""
        return QRectF() if self._flat is None else self._flat.rect_mm

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:  # noqa: ARG002  Qt's signature
        """Lay the picture down; the sheet's axes run against a picture's on both sides."""
        if self._flat is None:
            return
        painter.save()
        painter.translate(self._flat.left_y_mm, self._flat.top_z_mm)
        painter.scale(-self._flat.mm_per_px, -self._flat.mm_per_px)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(0, 0, self._flat.pixmap)
        painter.restore()


class PhotoLayer(QObject):
    """Keeps the item in step with the document, or with a photo that is still being marked."""

    def __init__(self, session: Session, scene: QGraphicsScene) -> None:
        super().__init__(scene)
        self._session = session
        self._scene = scene
        self._preview: Photo | None = None
        self._image: PhotoImage | None = None
        self._pixels = QImage()
        self._drawn: FourCorners | TwoPoints | None = None
        self._drawn_quick = False
        self.trouble = ""
        self.item = PhotoItem()
        scene.addItem(self.item)
        session.project_changed.connect(lambda _old, _new: self._show())
        self._show()

    def may_be_pushed(self, y_mm: float, z_mm: float) -> bool:
        """Return whether the document's photo lies there and is not locked."""
        photo = self._session.project.nose.photo
        if photo is None or photo.locked or photo.hidden or self._preview is not None:
            return False
        return self.item.contains(self.item.mapFromScene(QPointF(y_mm, z_mm)))

    def preview(self, photo: Photo | None, *, quick: bool = False) -> None:
        """Show this photo in the place of the document's, coarsely while a mark moves; nothing ends the preview."""
        self._preview = photo
        self._show(quick=quick)
        for view in self._scene.views():
            view.viewport().update()

    def _show(self, *, quick: bool = False) -> None:
        photo = self._session.shown.nose.photo if self._preview is None else self._preview
        self.item.setVisible(photo is not None and not photo.hidden)
        if photo is None:
            self._image, self._pixels, self._drawn, self.trouble = None, QImage(), None, ""
            self.item.show_flat(None)
            return
        self.item.setOpacity(photo.opacity_frac)
        if photo.hidden:
            return
        same_picture = photo.image is self._image and quick == self._drawn_quick
        if same_picture and self._drawn is not None and _at_nought(photo.tied) == _at_nought(self._drawn):
            # Only pushed over the sheet: the picture stays as it is drawn.
            self.item.setPos(_place(photo.tied) - _place(self._drawn))
            return
        self._drawn, self._drawn_quick = photo.tied, quick
        self.item.setPos(0.0, 0.0)
        try:
            if photo.image is not self._image:
                self._image, self._pixels = photo.image, QImage()
                self._pixels = pixels_of(photo.image)
            self.trouble = ""
            self.item.show_flat(self._straightened(photo, quick=quick))
        except (PhotoFileError, StraighteningError) as error:
            self.item.show_flat(None)
            if str(error) != self.trouble and self._preview is None:
                self._session.message.emit(str(error))
            self.trouble = str(error)

    def _straightened(self, photo: Photo, *, quick: bool) -> Straightened | None:
        if self._pixels.isNull():
            return None
        size = QSize(photo.image.width_px, photo.image.height_px)
        return straightened(self._pixels, size, photo.tied, PREVIEW_PIXELS if quick else MOST_PIXELS)


def photo_bounds(photo: Photo) -> QRectF:
    """Return what is worth seeing of a photo under an empty nose: the marked thing with half a metre around it."""
    tied = photo.tied
    at = _place(tied)
    if isinstance(tied, FourCorners):
        marked = QRectF(at.x() - tied.width_mm / 2, at.y(), tied.width_mm, tied.height_mm)
    else:
        marked = QRectF(
            at.x() - tied.distance_mm, at.y() - tied.distance_mm, 2 * tied.distance_mm, 2 * tied.distance_mm
        )
    return marked.adjusted(-_AROUND_MM, -_AROUND_MM, _AROUND_MM, _AROUND_MM)


def _place(tied: FourCorners | TwoPoints) -> QPointF:
    if isinstance(tied, FourCorners):
        return QPointF(tied.middle_y_mm, tied.bottom_z_mm)
    return QPointF(tied.first_y_mm, tied.first_z_mm)


def _at_nought(tied: FourCorners | TwoPoints) -> FourCorners | TwoPoints:
    if isinstance(tied, FourCorners):
        return replace(tied, middle_y_mm=0.0, bottom_z_mm=0.0)
    return replace(tied, first_y_mm=0.0, first_z_mm=0.0)
