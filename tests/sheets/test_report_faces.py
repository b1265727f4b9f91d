"""Pictures of the faces: what is hatched has the area that the assessment counts."""

from __future__ import annotations

import pytest
import shapely
from msgspec.structs import replace

from grillestack.assess.assess import assess
from grillestack.sheets.draw_list import OUTLINE, Hatch, Polyline
from grillestack.sheets.report_faces import faces_figure
from tests.sheets.drawn import demo


@pytest.mark.parametrize("number", [1, 2, 3])
def test_hatched_areas_are_the_shares_that_see_no_fresh_air(number):
    assessment = assess(demo(number))
    figure = faces_figure(assessment, 180.0, 2.5)
    frames = [m for m in figure.marks if isinstance(m, Polyline) and m.stroke == OUTLINE]
    hatches = [shapely.Polygon([(p.x_mm, p.y_mm) for p in m.points]) for m in figure.marks if isinstance(m, Hatch)]
    for face, frame in zip(assessment.faces.values(), frames, strict=True):
        box = shapely.Polygon([(p.x_mm, p.y_mm) for p in frame.points])
        hatched = sum(h.area for h in hatches if box.buffer(0.01).contains(h))
        # Slivers thinner than 0.05 mm on paper are not drawn.
        assert hatched / box.area == pytest.approx(1 - face.exposed_mm2 / face.core_mm2, abs=0.01)


def test_a_pack_without_cores_has_no_picture():
    project = replace(demo(1), parts=())
    assert faces_figure(assess(project), 180.0, 2.5) is None


def test_the_figure_is_as_wide_as_it_may_be():
    figure = faces_figure(assess(demo(2)), 180.0, 2.5)
    xs = [p.x_mm for m in figure.marks if isinstance(m, Polyline) for p in m.points]
    assert max(xs) <= 180.0 + 1e-6
    assert min(xs) >= 0.0
