"""What else one does in the first hour: type, carry parts from the shelf, reorder, delete, begin anew, go by keys."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMenu

from grillestack.assess.assess import assess
from grillestack.model.parts import Core, CoreRole, Fan
from grillestack.model.project import cores, fans, stack
from tests.end_to_end.bench import ALT, CTRL, PRESS, RELEASE


def menu_named(window, words):
    return next(menu for menu in window.findChildren(QMenu) if menu.title().replace("&", "") == words)


@pytest.mark.parametrize("text", ["forty", "12 kW", "640 640", "nan", "", "-", "1e999"])
def test_what_cannot_be_a_length_stays_in_its_field_with_a_sentence_and_changes_nothing(failing, text):
    failing.session.select([failing.charge_air_cooler().id])
    before, figures = failing.session.project, failing.words()
    field = failing.field("Up")
    failing.type_in(field.line, text)
    assert failing.session.project is before
    assert failing.words() == figures
    assert failing.session.undo_stack.count() == 0
    assert field.line.text() == text
    assert field.complaint.isVisible()
    assert field.complaint.text().endswith(".")
    assert len(field.complaint.text()) > 15
    QTest.keyClick(field.line, Qt.Key.Key_Escape)
    assert field.line.text() == "700"
    assert not field.complaint.isVisible()


@pytest.mark.parametrize(
    ("text", "z_mm"), [("600", 600.0), ("23 5/8 in", 600.075), ("60 cm", 600.0), ("1' 11 5/8\"", 600.075)]
)
def test_what_is_on_the_tape_moves_the_part(failing, text, z_mm):
    failing.session.select([failing.charge_air_cooler().id])
    failing.type_in(failing.field("Up").line, text)
    assert failing.charge_air_cooler().placement.z_mm == pytest.approx(z_mm)
    assert failing.session.undo_stack.count() == 1


def test_a_part_dragged_off_the_shelf_shows_its_verdict_in_the_air_and_lands_in_one_step(failing):
    before, parts = failing.session.project, len(failing.session.project.parts)
    mime = failing.shelf_mime("Oil cooler 280")
    at = failing.middle_px(failing.charge_air_cooler().id)
    assert failing.carry("enter", mime, at)
    assert failing.carry("move", mime, at + QPointF(20, -60))
    assert len(failing.session.shown.parts) == parts + 1
    assert failing.session.in_trial
    failing.look()
    assert failing.carry("drop", mime, at + QPointF(20, -60))
    assert len(failing.session.project.parts) == parts + 1
    assert failing.session.undo_stack.count() == 1
    (new_id,) = {part.id for part in failing.session.project.parts} - {part.id for part in before.parts}
    assert failing.session.selection == (new_id,)
    assert new_id in failing.window.pack.order()
    assert failing.window.pack.count() == parts + 1
    # The pointer is over the part's middle; a snap line may have caught one of its edges 8 pixels away.
    placed, (y_mm, z_mm) = (
        failing.session.project.part(new_id).placement,
        failing.window.front.sheet_at(at + QPointF(20, -60)),
    )
    near_mm = 8 / failing.window.front.heights.px_per_mm + 0.5
    assert abs(placed.y_mm - y_mm) <= near_mm
    assert abs(placed.z_mm - z_mm) <= near_mm
    failing.key(Qt.Key.Key_Z, CTRL)
    assert failing.session.project is before


def test_a_part_carried_over_the_nose_and_away_again_leaves_no_trace(failing):
    before, figures = failing.session.project, failing.words()
    mime = failing.shelf_mime("radiator")
    at = failing.middle_px(failing.charge_air_cooler().id)
    failing.carry("enter", mime, at)
    failing.carry("move", mime, at + QPointF(5, 5))
    failing.carry("leave", mime, at)
    assert failing.session.shown is before
    assert failing.words() == figures
    assert failing.session.undo_stack.count() == 0


def test_what_is_no_part_is_not_taken_by_the_nose(failing):
    mime = QMimeData()
    mime.setText("a letter")
    assert not failing.carry("enter", mime, failing.middle_px(failing.charge_air_cooler().id))
    assert not failing.session.in_trial


def test_alt_and_arrows_move_a_part_through_the_pack_and_undo_brings_it_back(failing):
    order = [part.id for part in stack(failing.session.project)]
    failing.window.pack.setCurrentRow(1)
    moved = order[1]
    assert failing.session.selection == (moved,)
    failing.key(Qt.Key.Key_Up, ALT, on=failing.window.pack)
    assert [part.id for part in stack(failing.session.project)] == [moved, order[0], *order[2:]]
    assert failing.window.pack.order() == [moved, order[0], *order[2:]]
    assert failing.session.undo_stack.count() == 1
    assert failing.session.selection == (moved,)
    failing.key(Qt.Key.Key_Z, CTRL)
    assert [part.id for part in stack(failing.session.project)] == order


def test_a_radiator_moved_in_front_of_the_cooler_gets_all_its_fresh_air(failing):
    behind_before = failing.session.assessment.radiator.behind_mm2
    assert behind_before > 0
    failing.session.select([cores(failing.session.project, CoreRole.RADIATOR)[0].id])
    failing.key(Qt.Key.Key_Up, ALT)
    assert failing.session.assessment.radiator.behind_mm2 == 0


def test_delete_takes_the_selected_part_away_and_undo_brings_it_back_where_it_was(failing):
    before = failing.session.project
    at = failing.middle_px(failing.charge_air_cooler().id)
    failing.mouse(PRESS, at)
    failing.mouse(RELEASE, at)
    assert failing.session.selection == (failing.charge_air_cooler().id,)
    failing.key(Qt.Key.Key_Delete)
    assert not cores(failing.session.project, CoreRole.CHARGE_AIR_COOLER)
    assert len(failing.session.project.parts) == len(before.parts) - 1
    assert failing.session.selection == ()
    failing.look()
    failing.key(Qt.Key.Key_Z, CTRL)
    assert failing.session.project is before
    assert failing.verdict_word() == "Fail"


def test_a_new_project_asks_for_the_opening_and_the_depth_only(bench):
    bench.key(Qt.Key.Key_N, CTRL)
    fields = list(bench.window.card.draft.fields.values())
    assert [f.line.accessibleName() for f in fields] == ["Opening width", "Opening height", "Grille to fan or pulley"]
    for field, text in zip(fields, ("26 3/16", "400", "18 in"), strict=True):
        bench.type_in(field.line, text)
    nose = bench.session.project.nose
    ys, zs = ({getattr(p, axis) for p in nose.openings[0].outline} for axis in ("y_mm", "z_mm"))
    assert max(ys) - min(ys) == pytest.approx(26.1875)  # a bare number is in the unit beside the field, mm here
    assert max(zs) - min(zs) == 400.0
    assert nose.stations.pulley_x_mm == pytest.approx(457.2)
    assert bench.verdict_word() == "Not known"
    assert bench.window.isWindowModified()
    bench.look()


def test_a_new_project_with_a_bad_number_begins_nothing_until_it_is_mended(bench):
    before = bench.session.project
    bench.key(Qt.Key.Key_N, CTRL)
    width, height, depth = bench.window.card.draft.fields.values()
    bench.type_in(width.line, "wide")
    bench.type_in(height.line, "400")
    bench.type_in(depth.line, "450")
    assert bench.session.project is before
    assert width.complaint.isVisible()
    bench.type_in(width.line, "700")
    bench.type_in(depth.line, "450")
    assert bench.session.project.nose.openings


def test_every_demo_opens_from_its_menu_and_shows_the_verdict_of_its_name(bench):
    for number, word in enumerate(("Pass", "Close", "Fail")):
        menu = menu_named(bench.window, "Demos")
        menu.aboutToShow.emit()
        menu.actions()[number].trigger()
        assert bench.verdict_word() == word
        assert bench.session.assessment == assess(bench.session.project)
        assert bench.session.path is None
        bench.look()
    assert bench.person.asked == []


def test_the_parts_of_the_pack_are_walked_with_tab_and_each_shows_its_card(failing):
    failing.window.front.setFocus()
    seen = []
    for _ in failing.session.project.parts:
        QTest.keyClick(failing.window.front, Qt.Key.Key_Tab)
        (chosen,) = failing.session.selection
        seen.append(chosen)
    assert seen == [part.id for part in stack(failing.session.project)]
    assert isinstance(failing.session.project.part(seen[-1]), Fan)
    assert isinstance(failing.session.project.part(seen[0]), Core)
    assert len(fans(failing.session.project)) == 2


@pytest.mark.parametrize("where", ["on the card", "in the form of a new nose"])
def test_a_complaint_is_shown_in_full_however_many_lines_it_takes(failing, qapp, where):
    if where == "on the card":
        failing.session.select([failing.charge_air_cooler().id])
        field = failing.field("Up")
    else:
        failing.key(Qt.Key.Key_N, CTRL)
        field = failing.window.card.draft.fields["width_mm"]
    failing.type_in(field.line, "forty", end=None)
    field.take()
    qapp.processEvents()
    complaint = field.complaint
    assert complaint.height() >= complaint.heightForWidth(complaint.width())
    assert field.rect().contains(complaint.geometry())
