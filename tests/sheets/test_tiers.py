"""Linear dimensions beside a view: the small ones near, none through another."""

from __future__ import annotations

from grillestack.sheets.collisions import collisions
from grillestack.sheets.draw_list import Point
from grillestack.sheets.tiers import TierItem, Tiers, placed_tiers, tiers_reach_mm

ABOVE = Tiers(is_upright=False, edge_mm=100.0, outward=1, text_mm=2.5)


def item(low: float, high: float, text: str = "") -> TierItem:
    name = text or f"{high - low:g}"
    return TierItem(
        key=f"{low}-{high}", first=Point(low, 90.0), second=Point(high, 90.0), measured_mm=high - low, text=name
    )


def test_nested_sizes_stand_one_above_the_other_the_smallest_next_to_the_view():
    placed, left_out = placed_tiers([item(0, 100), item(20, 80), item(40, 60)], ABOVE)
    heights = {one.key: one.line_at.y_mm for one in placed}
    assert heights["40-60"] < heights["20-80"] < heights["0-100"]
    assert left_out == ()
    assert collisions(placed) == ()


def test_sizes_side_by_side_share_a_tier():
    placed, _ = placed_tiers([item(0, 40), item(50, 90)], ABOVE)
    assert len({one.line_at.y_mm for one in placed}) == 1


def test_a_small_size_carries_its_text_beside_its_arrows():
    (one,), _ = placed_tiers([item(50, 52)], ABOVE)
    assert one.arrows_outside
    assert not 50 < one.text_at.x_mm < 52


def test_sizes_that_would_cross_are_given_back():
    """Of two that overlap, the outer's extension line must cross the inner: one is left out and reported."""
    placed, left_out = placed_tiers([item(0, 60), item(30, 100)], ABOVE)
    assert [one.key for one in placed] == ["0-60"]
    assert [one.key for one in left_out] == ["30-100"]


def test_upright_sizes_are_read_from_the_right():
    tiers = Tiers(is_upright=True, edge_mm=50.0, outward=1, text_mm=2.5)
    tall = TierItem(key="h", first=Point(40.0, 0.0), second=Point(40.0, 60.0), measured_mm=60.0, text="60")
    (one,), _ = placed_tiers([tall], tiers)
    assert one.direction_deg == 90.0
    assert one.text_at.x_mm < one.line_at.x_mm
    assert tiers_reach_mm((one,), tiers) > one.line_at.x_mm - 50.0
