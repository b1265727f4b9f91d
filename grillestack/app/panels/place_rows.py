"""The rows that say where a part is put, measured from the nose or from another part or opening."""

from __future__ import annotations

from grillestack.app.panels.form import Form, Slot
from grillestack.app.panels.quiet_box import QuietBox
from grillestack.app.panels.slots import part_slot, placement_slot
from grillestack.app.said import said
from grillestack.app.session import Session
from grillestack.model.outline import Point
from grillestack.model.project import Project, stack
from grillestack.units.quantity import Dimension

_NOSE = ("zero lines of the nose", "")
_TURNS = (("as drawn", 0), ("a quarter turn", 1), ("upside down", 2), ("three quarter turns", 3))


class PlaceForm(Form):
    """Place and pose of one part; what it is measured from is a matter of this card, not of the document."""

    def __init__(self, session: Session, part_id: str) -> None:
        super().__init__(session)
        self._part_id = part_id
        self._reference = ""
        self._box = QuietBox()
        self._box.setAccessibleName("Measured from")
        self._box.setToolTip("Sideways and up count between the centres, rearward from its rear.")
        self._box.activated.connect(self._choose)
        self.row("Measured from", self._box)
        self.quantity("To the right", Dimension.LENGTH, self._along("y_mm"))
        self.quantity("Up", Dimension.LENGTH, self._along("z_mm"))
        self.quantity("Rearward", Dimension.LENGTH, self._along("x_mm"))
        self.choice("Turned", _TURNS, placement_slot(part_id, "quarter_turns"))
        self.quantity("Top leans back", Dimension.ANGLE, placement_slot(part_id, "tilt_deg"))
        self.switch("Flipped front to back", placement_slot(part_id, "flipped"))
        self.switch("Locked: not moved by hand", part_slot(part_id, "locked"))
        self.switch("Hidden: not drawn, but counted", part_slot(part_id, "hidden"))

    def refresh(self) -> None:
        """Show the place and the things it may be measured from."""
        project = self._session.shown
        names = [(said(_NOSE[0]), _NOSE[1]), *((o.name, f"opening {o.id}") for o in project.nose.openings)]
        names += [(p.name, f"part {p.id}") for p in stack(project) if p.id != self._part_id]
        if [(self._box.itemText(i), self._box.itemData(i)) for i in range(self._box.count())] != names:
            self._box.clear()
            for words, key in names:
                self._box.addItem(words, key)
        keys = [key for _, key in names]
        if self._reference not in keys:
            self._reference = ""
        self._box.setCurrentIndex(keys.index(self._reference))
        super().refresh()

    def _choose(self, index: int) -> None:
        self._reference = str(self._box.itemData(index))
        self.refresh()

    def _along(self, axis: str) -> Slot:
        place = placement_slot(self._part_id, axis)
        return Slot(
            lambda project: place.read(project) - reference_place(project, self._reference)[axis],
            lambda project, value: place.write(project, value + reference_place(project, self._reference)[axis]),
        )


def reference_place(project: Project, key: str) -> dict[str, float]:
    """Return the point that lengths count from: centre sideways and up, rear along the depth."""
    kind, _, identifier = key.partition(" ")
    for opening in project.nose.openings:
        if kind == "opening" and opening.id == identifier:
            y_mm, z_mm = outline_centre(opening.outline)
            return {"x_mm": opening.x_mm, "y_mm": y_mm, "z_mm": z_mm}
    for part in project.parts:
        if kind == "part" and part.id == identifier:
            at = part.placement
            return {"x_mm": at.x_mm + part.depth_mm, "y_mm": at.y_mm, "z_mm": at.z_mm}
    return {"x_mm": project.nose.stations.grille_x_mm, "y_mm": 0.0, "z_mm": 0.0}


def outline_centre(outline: tuple[Point, ...]) -> tuple[float, float]:
    """Return the middle of the outline's outer bounds."""
    ys, zs = [p.y_mm for p in outline], [p.z_mm for p in outline]
    return (min(ys) + max(ys)) / 2, (min(zs) + max(zs)) / 2
