"""Lay out the cooling pack in a vehicle's nose and see at once whether the heat goes away."""
