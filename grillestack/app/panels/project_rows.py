"""The rows of the project itself: title, engine sheet, duty cases, the day and what the air meets besides the pack."""

from __future__ import annotations

from grillestack.app.panels.form import Form
from grillestack.app.panels.slots import case_slot, engine_slot, environment_slot, project_slot
from grillestack.app.panels.stand_ins import of_case, of_engine
from grillestack.app.session import Session
from grillestack.assess.defaults import DEFAULT_SEAL, default_for
from grillestack.model.edits import add_case, remove_case
from grillestack.model.engine import DutyCase, Seal
from grillestack.units.quantity import Dimension

_ENGINE = (
    ("Rated power", Dimension.POWER, "rated_power_w"),
    ("Heat to coolant", Dimension.POWER, "heat_to_coolant_w"),
    ("Coolant flow", Dimension.COOLANT_FLOW, "coolant_flow_m3_s"),
    ("Top tank limit", Dimension.TEMPERATURE, "top_tank_limit_degc"),
    ("Glycol share", Dimension.FRACTION, "glycol_frac"),
    ("Charge air flow", Dimension.MASS_FLOW, "charge_flow_kg_s"),
    ("Charge air into CAC", Dimension.TEMPERATURE, "charge_inlet_degc"),
    ("at ambient of", Dimension.TEMPERATURE, "charge_reference_ambient_degc"),
    ("Charge pressure, abs.", Dimension.PRESSURE, "charge_inlet_pa"),
    ("Charge out, at most", Dimension.TEMPERATURE, "charge_out_limit_degc"),
    ("Charge loss, at most", Dimension.PRESSURE, "charge_loss_limit_pa"),
    ("Condenser heat", Dimension.POWER, "condenser_heat_w"),
    ("Coolant, in all", Dimension.VOLUME, "coolant_volume_m3"),
    ("Engine, dry", Dimension.MASS, "engine_mass_kg"),
    ("Thermostat opens", Dimension.TEMPERATURE, "thermostat_degc"),
)
_SURROUNDINGS = (
    ("Design day", Dimension.TEMPERATURE, "design_ambient_degc"),
    ("Altitude", Dimension.ALTITUDE, "altitude_m"),
    ("Ram recovery", Dimension.FRACTION, "ram_recovery_frac"),
    ("Exit pressure factor", Dimension.COUNT, "exit_pressure_factor"),
    ("Bay loss factor", Dimension.COUNT, "bay_loss_factor"),
    ("Jet spread, half angle", Dimension.ANGLE, "jet_spread_deg"),
    ("Heat from hot surfaces", Dimension.POWER, "surface_heat_w"),
    ("Voltage at the fans", Dimension.VOLTAGE, "supply_voltage_v"),
)
_OF_THE_DAY = (
    ("Ambient", Dimension.TEMPERATURE, "ambient_degc"),
    ("Altitude", Dimension.ALTITUDE, "altitude_m"),
)
_SHARES = (("Heat share", "heat_frac"), ("Coolant share", "coolant_frac"), ("Charge share", "charge_frac"))
_SEALS = (
    (f"default ({DEFAULT_SEAL.value})", None),
    *((seal.value, seal) for seal in Seal),
)
_EDGES = (
    ("Upper edge", "seal_top"),
    ("Lower edge", "seal_bottom"),
    ("Left edge", "seal_left"),
    ("Right edge", "seal_right"),
)
_EDGE_SEALS = (("as all edges", None), *((seal.value, seal) for seal in Seal))


def sheet_label(field: str) -> str:
    """Return the label of a line of the engine sheet, or nothing if there is no such line."""
    return next((label for label, _dimension, name in _ENGINE if name == field), "")


def title_form(session: Session) -> Form:
    """Return the row of the title."""
    form = Form(session)
    form.text("Title", project_slot("title"))
    form.paragraph("Notes", project_slot("notes_text"))
    return form


def engine_form(session: Session) -> Form:
    """Return the rows of the engine sheet, all at full load."""
    form = Form(session)
    form.note("At full load, from the maker's installation sheet. Leave empty what it does not say.")
    form.text("Engine", engine_slot("name"))
    for label, dimension, field in _ENGINE:
        form.quantity(label, dimension, engine_slot(field), optional=True, default=of_engine(field))
    form.paragraph("Notes", engine_slot("notes_text"))
    return form


def case_form(session: Session, case: DutyCase) -> Form:
    """Return the rows of one duty case."""
    form = Form(session)
    form.text("Name", case_slot(case.id, "name"))
    form.quantity("Road speed", Dimension.SPEED, case_slot(case.id, "road_speed_m_s"))
    for label, field in _SHARES:
        form.quantity(label, Dimension.FRACTION, case_slot(case.id, field))
    for label, dimension, field in _OF_THE_DAY:
        form.quantity(label, dimension, case_slot(case.id, field), optional=True, default=of_case(field))
    form.quantity("Engine, rev/min", Dimension.COUNT, case_slot(case.id, "engine_speed_rpm"), optional=True)
    form.switch("A/C on", case_slot(case.id, "air_conditioning_on"))
    form.switch("Electric fans on", case_slot(case.id, "fans_on"))
    form.act("Remove this case", lambda: session.apply("remove duty case", remove_case(session.project, case.id)))
    return form


def more_cases_form(session: Session) -> Form:
    """Return the row that adds a duty case: full load at a standing vehicle, to be changed."""

    def add() -> None:
        case = DutyCase(id="new", name="New case", road_speed_m_s=0.0, heat_frac=1.0, coolant_frac=1.0, charge_frac=1.0)
        session.apply("add duty case", add_case(session.project, case))

    form = Form(session)
    form.act("Add a duty case", add)
    return form


def surroundings_form(session: Session) -> Form:
    """Return the rows of the day and of what the air meets besides the pack."""
    form = Form(session)
    for label, dimension, field in _SURROUNDINGS:
        form.quantity(label, dimension, environment_slot(field), optional=True, default=default_for(field))
    form.choice("Edges of the pack", _SEALS, environment_slot("seal"))
    for label, field in _EDGES:
        form.choice(label, _EDGE_SEALS, environment_slot(field))
    form.switch("Openings closed off", environment_slot("opening_closed_off"))
    form.switch("Dirty cores", environment_slot("dirty_core"))
    return form
