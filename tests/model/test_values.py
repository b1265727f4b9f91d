"""What may not exist is refused with a sentence; what exists is finite, within limits and alike in every writing."""

from __future__ import annotations

import math

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from grillestack.model.core_description import Construction, MeasuredTable, TablePoint
from grillestack.model.engine import DutyCase, EngineSheet, Environment, usual_duty_cases
from grillestack.model.nose import Obstruction, Opening
from grillestack.model.outline import Point, Rect, centred_rect, rectangle_outline
from grillestack.model.parts import Placement, Port
from grillestack.model.project import Project
from grillestack.model.values import ModelError, UnknownIdError, field_unit, field_words
from tests.model.examples import a_charge_air_cooler, a_fan, a_nose, a_radiator


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf, 10**400])
def test_a_size_that_is_not_finite_is_refused_and_named(number):
    with pytest.raises(ModelError, match=r"^The core width must be a finite number: .+\.$") as refused:
        replace(a_radiator(), core_width_mm=number)
    assert refused.value.field == "core_width_mm"


@pytest.mark.parametrize("wrong", ["600", True, [600], object])
def test_what_is_no_number_is_refused_where_a_number_belongs(wrong):
    with pytest.raises(ModelError, match=r"^The depth must be a number"):
        replace(a_radiator(), depth_mm=wrong)


@pytest.mark.parametrize(("given_mm", "said"), [(0.0, "0 mm"), (-3.5, "-3.5 mm"), (5_000.001, "5000.001 mm")])
def test_a_size_past_its_limits_is_refused_with_figure_unit_and_limits(given_mm, said):
    with pytest.raises(ModelError) as refused:
        replace(a_radiator(), core_width_mm=given_mm)
    assert str(refused.value) == (
        f"The core width is {said}, but must be at least 0.001 mm and at most 5000 mm: correct the figure or its unit."
    )


def test_both_ends_of_a_closed_limit_are_allowed():
    assert [Placement(tilt_deg=t).tilt_deg for t in (-30, 30)] == [-30.0, 30.0]


@pytest.mark.parametrize("turns", [-1, 4, 10**30])
def test_quarter_turns_outside_nought_to_three_are_refused(turns):
    with pytest.raises(ModelError, match="quarter turns"):
        Placement(quarter_turns=turns)


def test_half_a_quarter_turn_is_refused():
    with pytest.raises(ModelError, match="whole number"):
        Placement(quarter_turns=1.0)


def test_minus_nought_and_nought_are_one_value_with_the_same_bytes():
    # IEEE 754: -0.0 == 0.0, but they are written differently.
    minus, plus = Placement(x_mm=-0.0), Placement(x_mm=0.0)
    assert msgspec.json.encode(minus) == msgspec.json.encode(plus)


@given(st.integers(-10_000, 10_000))
def test_a_whole_number_in_a_length_becomes_the_same_length_and_bytes(number):
    assert msgspec.json.encode(Placement(x_mm=number)) == msgspec.json.encode(Placement(x_mm=float(number)))


def test_an_empty_name_is_refused():
    with pytest.raises(ModelError, match=r"^The name is empty"):
        replace(a_fan(), name="")


def test_a_name_of_201_letters_is_refused_and_one_of_200_is_not():
    assert replace(a_fan(), name="x" * 200)
    with pytest.raises(ModelError, match="longer than 200 letters"):
        replace(a_fan(), name="x" * 201)


@pytest.mark.parametrize("identifier", ["Fan", "a b", "-a", "a_b", "fan-1\n", "ä"])
def test_an_id_with_other_than_small_letters_digits_and_hyphens_is_refused(identifier):
    with pytest.raises(ModelError, match="small letters, digits and hyphens"):
        replace(a_fan(), id=identifier)


def test_a_text_with_half_a_letter_is_refused_as_no_utf8_file_can_keep_it():
    # RFC 3629, section 3: UTF-8 prohibits U+D800 to U+DFFF.
    with pytest.raises(ModelError, match="half a letter"):
        Project(title="ab\ud83d")
    assert Project(title="ab\U0001f600").title == "ab\U0001f600"


@pytest.mark.parametrize("corners", [0, 1, 2, 201])
def test_an_outline_has_three_to_two_hundred_corners(corners):
    with pytest.raises(ModelError, match=f"has {corners} corners"):
        Opening(id="o", name="o", outline=(Point(0.0, 0.0),) * corners)


def test_a_list_that_could_change_under_the_document_is_refused():
    with pytest.raises(ModelError, match="must be a list of entries"):
        Project(parts=[])


def test_a_measured_table_of_one_line_is_refused():
    line = TablePoint(face_velocity_m_s=2.0, heat_w=1_000.0, air_loss_pa=0.0)
    with pytest.raises(ModelError, match="needs at least 2"):
        MeasuredTable(inlet_difference_k=60.0, tube_flow_kg_s=1.0, points=(line,))


def test_values_cannot_be_changed_in_place():
    with pytest.raises(AttributeError):
        a_fan().name = "other"


def test_equal_values_are_equal_wherever_they_were_made_and_can_be_looked_up():
    assert a_radiator() == a_radiator()
    assert hash(a_radiator()) == hash(a_radiator())
    assert a_radiator() != a_radiator(x_mm=121.0)


@pytest.mark.parametrize(
    ("field", "words", "unit"),
    [
        ("core_width_mm", "core width", "mm"),
        ("road_speed_m_s", "road speed", "m/s"),
        ("free_flow_m3_s", "free flow", "m³/s"),
        ("coolant_volume_m3", "coolant volume", "m³"),
        ("thermostat_degc", "opening temperature of the thermostat", "°C"),
        ("tube_flow_kg_s", "tube flow", "kg/s"),
        ("design_ambient_degc", "design ambient", "°C"),
        ("inlet_difference_k", "inlet difference", "K"),
        ("conductance_w_per_k", "conductance", "W/K"),
        ("core_mm2", "core", "mm²"),
        ("face_m2", "face", "m²"),
        ("altitude_m", "altitude", "m"),
        ("running_current_a", "running current", "A"),
        ("notes_text", "notes", ""),
        ("bay_loss_factor", "bay loss", ""),
        ("passes", "passes", ""),
    ],
)
def test_fields_are_named_as_a_person_would(field, words, unit):
    assert (field_words(field), field_unit(field)) == (words, unit)


def test_an_unknown_id_says_what_was_looked_for():
    assert str(UnknownIdError("part", "fan-9")).startswith("There is no part with the id “fan-9”")


def test_a_rectangle_needs_its_right_edge_right_of_the_left_and_its_top_above_the_bottom():
    with pytest.raises(ModelError, match="width must be above 0"):
        Rect(u_min_mm=5, v_min_mm=0, u_max_mm=5, v_max_mm=1)
    with pytest.raises(ModelError, match="height must be above 0"):
        Rect(u_min_mm=0, v_min_mm=2, u_max_mm=1, v_max_mm=1)


def test_a_centred_rectangle_has_its_size_and_the_origin_in_its_middle():
    rect = centred_rect(600.0, 400.0)
    assert (rect.width_mm, rect.height_mm) == (600.0, 400.0)
    assert (rect.u_min_mm + rect.u_max_mm, rect.v_min_mm + rect.v_max_mm) == (0.0, 0.0)


@pytest.mark.parametrize(
    ("other", "inside", "overlapping"),
    [
        (Rect(u_min_mm=-50, v_min_mm=-50, u_max_mm=50, v_max_mm=50), True, True),  # identical
        (Rect(u_min_mm=-10, v_min_mm=-10, u_max_mm=10, v_max_mm=10), True, True),  # contained
        (Rect(u_min_mm=50, v_min_mm=-50, u_max_mm=90, v_max_mm=50), False, False),  # touching
        (Rect(u_min_mm=40, v_min_mm=40, u_max_mm=90, v_max_mm=90), False, True),  # crossing
        (Rect(u_min_mm=60, v_min_mm=60, u_max_mm=90, v_max_mm=90), False, False),  # apart
        (Rect(u_min_mm=-50.005, v_min_mm=-50, u_max_mm=50, v_max_mm=50), True, True),  # within the slack
    ],
)
def test_rectangles_tell_inside_touching_and_overlapping_apart(other, inside, overlapping):
    rect = centred_rect(100.0, 100.0)
    assert (rect.contains(other), rect.overlaps(other)) == (inside, overlapping)


def test_a_rectangle_outline_has_the_area_of_the_rectangle_and_runs_one_way_round():
    # Shoelace formula (Gauss), by hand for 700 × 300: positive means anticlockwise in the y-z plane.
    corners = rectangle_outline(-350.0, 500.0, 350.0, 800.0)
    doubled = sum(a.y_mm * b.z_mm - b.y_mm * a.z_mm for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    assert doubled / 2 == 700.0 * 300.0


def test_a_core_larger_than_its_overall_size_is_refused_with_both_sizes():
    with pytest.raises(ModelError, match=r"600 × 400 mm\) is larger than its overall size \(500 × 420 mm"):
        replace(a_radiator(), overall=centred_rect(500.0, 420.0), solids=())


def test_a_tank_over_its_own_core_or_outside_the_overall_size_is_refused():
    tank = a_radiator().solids[0]
    over = replace(tank, rect=Rect(u_min_mm=-350, v_min_mm=-210, u_max_mm=-290, v_max_mm=210))
    outside = replace(tank, rect=Rect(u_min_mm=-360, v_min_mm=-210, u_max_mm=-300, v_max_mm=210))
    with pytest.raises(ModelError, match="tank of “Invented radiator” lies over its own core"):
        replace(a_radiator(), solids=(over,))
    with pytest.raises(ModelError, match=r"tank of “Invented radiator”.*reaches outside"):
        replace(a_radiator(), solids=(outside,))


def test_an_obstruction_that_ends_ahead_of_its_front_is_refused_by_name():
    beam = a_nose().obstructions[0]
    with pytest.raises(ModelError, match="“Beam” ends ahead of where it begins"):
        replace(beam, x_rear_mm=beam.x_front_mm - 1.0)
    assert isinstance(replace(beam, x_rear_mm=beam.x_front_mm), Obstruction)


def test_absurd_temperatures_speeds_and_altitudes_are_refused():
    case = usual_duty_cases()[0]
    with pytest.raises(ModelError, match=r"road speed is 100\.5 m/s"):
        replace(case, road_speed_m_s=100.5)
    with pytest.raises(ModelError, match="ambient is 71 °C"):
        replace(case, ambient_degc=71)
    with pytest.raises(ModelError, match="altitude is 5001 m"):
        Environment(altitude_m=5_001)
    with pytest.raises(ModelError, match=r"top tank limit is 140\.1 °C"):
        EngineSheet(top_tank_limit_degc=140.1)


def test_the_hottest_and_coldest_air_on_record_may_be_a_design_day():
    # World Meteorological Organization, World Weather and Climate Extremes Archive (from memory):
    # 56.7 °C, Death Valley, 1913. The coldest engine tests are run near -40 °C (common practice, no source).
    assert Environment(design_ambient_degc=56.7).design_ambient_degc == 56.7
    assert Environment(design_ambient_degc=-40.0).design_ambient_degc == -40.0


def test_a_fin_pitch_from_fins_per_inch_is_within_limits_over_the_range_of_the_trade():
    # 8 to 30 fins per inch (common practice, no source); 1 in = 25.4 mm exactly (international yard, 1959).
    construction = a_charge_air_cooler().description.construction
    assert isinstance(construction, Construction)
    for per_inch in (8, 12, 19.5, 30):
        assert replace(construction, fin_pitch_mm=25.4 / per_inch).fin_pitch_mm == 25.4 / per_inch


def test_the_usual_duty_cases_are_legal_and_each_has_its_own_name():
    cases = usual_duty_cases()
    assert len({case.id for case in cases}) == len({case.name for case in cases}) == 4
    assert all(isinstance(case, DutyCase) for case in cases)
    # 110 km/h by hand: 110 000 m / 3600 s = 30.56 m/s.
    assert cases[2].road_speed_m_s == pytest.approx(30.56, abs=0.005)


def test_a_port_keeps_what_the_fitting_is_called():
    port = a_radiator().ports[0]
    assert isinstance(port, Port)
    assert replace(port, fitting_text="1 1/2 in hose").fitting_text == "1 1/2 in hose"


def test_a_figure_that_must_be_there_may_not_be_left_out():
    with pytest.raises(ModelError, match=r"^The core width is missing: type one\.$") as refused:
        replace(a_radiator(), core_width_mm=None)
    assert refused.value.field == "core_width_mm"


def test_a_figure_that_may_be_unknown_may_be_left_out():
    assert replace(a_radiator(), weight_kg=None).weight_kg is None
