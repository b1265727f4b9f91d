"""Which gaps are written in the side strip."""

from __future__ import annotations

import pytest

from grillestack.app.canvas.items.gap_sizes import gap_sizes
from grillestack.geometry.depth import depth_report


def test_gaps_stand_between_the_planes_they_name(project):
    sizes = gap_sizes(project, depth_report(project))
    for size in sizes:
        assert size.to_x_mm - size.from_x_mm == pytest.approx(size.room_mm)


def test_grille_pulley_and_neighbours_are_all_written(project):
    rooms = [round(size.room_mm, 1) for size in gap_sizes(project, depth_report(project))]
    # Grille to condenser 40; condenser to CAC core 20 (the tanks stand beside the condenser); fan rear 300 to pulley 420.
    assert 40 in rooms
    assert 20 in rooms
    assert 120 in rooms


def test_gaps_come_from_front_to_rear(project):
    starts = [size.from_x_mm for size in gap_sizes(project, depth_report(project))]
    assert starts == sorted(starts)
