"""Every field of the document can be seen and changed on some card, so that a new one is not forgotten."""

import pytest
from msgspec.structs import fields, replace
from PySide6.QtWidgets import QCheckBox, QComboBox, QLineEdit, QPlainTextEdit

from grillestack.app.panels.part_card import PartCard
from grillestack.model.core_description import Construction, CoreType, InnerFin, MeasuredTable, RatingPoint, TablePoint
from grillestack.model.engine import (
    ConnectionPurpose,
    DutyCase,
    EngineConnection,
    EngineSheet,
    EngineSide,
    Environment,
    Seal,
)
from grillestack.model.outline import SidePoint
from grillestack.model.parts import Core, CoreRole, Fan, FanDrive, FanPoint, Placement, Shroud, TubeDirection, TubeFluid

# What is told by position, drawn on the nose, or changed by an act and not by a field.
NOT_ON_A_CARD = {"id", "own_sizes", "mounts", "role", "overall", "solids", "ports", "placement", "description"}


def sample(value, field):
    """Return another possible value of the field."""
    if field.startswith("seal"):
        return Seal.OPEN
    if field == "drive":
        return FanDrive.BELT
    if field == "tubes":
        return TubeDirection.DOWN_FLOW
    if field == "curve":
        return (FanPoint(flow_m3_s=0, pressure_pa=111), FanPoint(flow_m3_s=1, pressure_pa=0))
    if field == "connections":
        return (EngineConnection(purpose=ConnectionPurpose.CHARGE_OUT, side=EngineSide.LEFT),)
    if field == "tube_fluid":
        return TubeFluid.OIL
    if field == "quarter_turns":
        return 3
    if field == "passes":
        return 2
    if isinstance(value, bool):
        return not value
    if isinstance(value, str):
        return f"{value} other"
    return _number(value, field)


def _number(value, field):
    if field.endswith("_frac"):
        return 0.37
    if field == "air_loss_pa":
        return 77.0
    if field.endswith("_pa") and "limit" not in field and field != "pressure_rating_pa":
        return 123_000.0
    if field.endswith("_degc"):
        return 67.0 if field != "design_ambient_degc" else 41.0
    if field in ("coolant_flow_m3_s", "coolant_volume_m3", "tube_flow_m3_s"):
        return 0.0123
    if field == "exit_pressure_factor":
        return 0.37
    if field.endswith(("_w", "_pa")):
        return 4_321.0
    if field.endswith("_mm2"):
        return 54_300.0
    return (value or 1.0) + 2.0


def seen(card):
    """Return all that the card's widgets say."""
    content = card.widget()
    return [
        *[(line.accessibleName(), line.text(), line.placeholderText()) for line in content.findChildren(QLineEdit)],
        *[(text.accessibleName(), text.toPlainText()) for text in content.findChildren(QPlainTextEdit)],
        *[(box.accessibleName(), box.currentText()) for box in content.findChildren(QComboBox)],
        *[(box.accessibleName(), box.isChecked()) for box in content.findChildren(QCheckBox)],
    ]


@pytest.fixture
def card(qtbot, session):
    made = PartCard(session)
    qtbot.addWidget(made)
    return made


def changes_the_card(card, session, project):
    before = seen(card)
    session.try_project(project)
    after = seen(card)
    session.end_trial()
    return before != after


@pytest.mark.parametrize("field", [f.name for f in fields(EngineSheet)])
def test_every_line_of_the_engine_sheet_is_on_the_projects_card(card, session, field):
    engine = session.project.engine
    changed = replace(engine, **{field: sample(getattr(engine, field), field)})
    assert changes_the_card(card, session, replace(session.project, engine=changed))


@pytest.mark.parametrize("field", [f.name for f in fields(Environment)])
def test_all_surroundings_are_on_the_projects_card(card, session, field):
    here = session.project.environment
    changed = replace(here, **{field: sample(getattr(here, field), field)})
    assert changes_the_card(card, session, replace(session.project, environment=changed))


@pytest.mark.parametrize("field", [f.name for f in fields(DutyCase) if f.name != "id"])
def test_every_field_of_a_duty_case_is_on_the_projects_card(card, session, field):
    first, *others = session.project.cases
    value = 41.0 if field == "ambient_degc" else sample(getattr(first, field), field)
    changed = replace(first, **{field: value})
    assert changes_the_card(card, session, replace(session.project, cases=(changed, *others)))


@pytest.mark.parametrize("field", [f.name for f in fields(Placement)])
def test_place_and_pose_are_on_the_parts_card(card, session, field):
    session.select(["radiator-3"])
    part = session.project.part("radiator-3")
    changed = replace(part.placement, **{field: sample(getattr(part.placement, field), field)})
    assert changes_the_card(card, session, with_part(session.project, replace(part, placement=changed)))


def with_part(project, part):
    return replace(project, parts=tuple(part if p.id == part.id else p for p in project.parts))


def _fields_of(kind):
    return [f.name for f in fields(kind) if f.name not in NOT_ON_A_CARD]


@pytest.mark.parametrize(
    ("part_id", "field"),
    [("radiator-3", f) for f in _fields_of(Core)]
    + [("shroud-6", f) for f in _fields_of(Shroud)]
    + [("fan-7", f) for f in _fields_of(Fan)],
)
def test_every_field_of_a_part_is_on_its_card(card, session, part_id, field):
    part = replace(session.project.part(part_id), own_sizes=True)
    if field in ("drive_ratio_factor", "curve_speed_rpm", "clutch_slip_frac"):
        part = replace(part, drive=FanDrive.BELT)
    if field == "given_heat_w" or field.startswith("tube_"):
        part = replace(part, role=CoreRole.COOLER)
    session.apply("as it is", with_part(session.project, part))
    session.select([part_id])
    value = getattr(part, field)
    changed = value - 5.0 if field in ("core_width_mm", "core_height_mm") else sample(value, field)
    assert changes_the_card(card, session, with_part(session.project, replace(part, **{field: changed})))


CONSTRUCTION = Construction(
    tube_pitch_mm=9.6,
    tube_thickness_mm=1.8,
    tube_depth_mm=26,
    tube_wall_mm=0.25,
    fin_height_mm=7.8,
    fin_pitch_mm=1.3,
    fin_thickness_mm=0.08,
    louvre_pitch_mm=1.1,
    louvre_length_mm=6.5,
    louvre_angle_deg=27,
)


def test_everything_known_of_a_core_is_on_its_card(card, session):
    session.select(["radiator-3"])
    part = session.project.part("radiator-3")
    rating = RatingPoint(heat_w=50e3, face_velocity_m_s=4, air_inlet_degc=25, tube_inlet_degc=90, tube_flow_kg_s=1.5)
    points = (
        TablePoint(face_velocity_m_s=2, heat_w=30e3, air_loss_pa=40),
        TablePoint(face_velocity_m_s=4, heat_w=48e3, air_loss_pa=120),
    )
    table = MeasuredTable(inlet_difference_k=60, tube_flow_kg_s=1.5, points=points)
    full = replace(part.description, construction=CONSTRUCTION, rating=rating, table=table)
    session.apply("know", with_part(session.project, replace(part, description=full)))
    part = session.project.part("radiator-3")
    missing = []
    for outer in ("construction", "rating", "table"):
        value = getattr(full, outer)
        for field in (f.name for f in fields(value)):
            if field == "inner_fin":
                new = InnerFin(spacing_mm=2, height_mm=8, thickness_mm=0.2, strip_length_mm=3)
            elif field == "metal":
                new = type(value.metal).COPPER_BRASS
            elif field == "points":
                new = points[::-1]
            elif field == "tube_rows":
                new = 2
            else:
                new = sample(getattr(value, field), field)
            known = replace(full, **{outer: replace(value, **{field: new})})
            if not changes_the_card(card, session, with_part(session.project, replace(part, description=known))):
                missing.append(f"{outer}.{field}")
    known = replace(full, core_type=CoreType.COPPER_BRASS)
    assert changes_the_card(card, session, with_part(session.project, replace(part, description=known)))
    assert missing == []


def test_the_noses_own_lines_are_on_the_projects_card(card, session):
    nose = session.project.nose
    stations = nose.stations
    for changed in (
        replace(nose, name="Other"),
        replace(nose, about_text="About"),
        replace(nose, stations=replace(stations, grille_x_mm=5)),
        replace(nose, stations=replace(stations, pulley_x_mm=5)),
        replace(nose, stations=replace(stations, bonnet_line=(SidePoint(0, 1), SidePoint(5, 6)))),
    ):
        assert changes_the_card(card, session, replace(session.project, nose=changed))
