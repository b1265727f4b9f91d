"""The rows about what a part weighs, stands, costs, and where to order it."""

from __future__ import annotations

from grillestack.app.panels.form import Form
from grillestack.app.panels.slots import part_slot
from grillestack.app.session import Session
from grillestack.units.quantity import Dimension


def buying_form(session: Session, part_id: str) -> Form:
    """Return the rows about weight, price and order of one part."""
    form = Form(session)
    form.quantity("Dry weight", Dimension.MASS, part_slot(part_id, "weight_kg"), optional=True)
    form.quantity("Pressure rating", Dimension.PRESSURE, part_slot(part_id, "pressure_rating_pa"), optional=True)
    form.text("Price", part_slot(part_id, "price_text"))
    form.text("Supplier", part_slot(part_id, "supplier_text"))
    form.text("Order number", part_slot(part_id, "order_number_text"))
    form.paragraph("Notes", part_slot(part_id, "notes_text"))
    return form
