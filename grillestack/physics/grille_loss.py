"""What an opening with bars or mesh costs the air that enters."""

from __future__ import annotations

from typing import Final

from fluids.filters import square_edge_grill

CLEAN_MOUTH_LOSS: Final = 0.05
"""Loss coefficient that even an empty, rounded mouth has. From memory."""


def opening_loss_coefficient(free_area_frac: float) -> float:
    """Give the loss coefficient of an opening's bars or mesh, on the velocity ahead of them.

    Parameters
    ----------
    free_area_frac : open share of the opening, 1 when nothing crosses it

    Returns
    -------
    loss coefficient, at least `CLEAN_MOUTH_LOSS` [-]: pressure loss over half density times velocity squared,
    the velocity being flow over the whole opening

    Valid for: bars with square edges; round ones cost less.

    Source: [BLEVINS]

    Raises
    ------
    ValueError
        If the share is not above 0 and at most 1.
    """
    if not 0.0 < free_area_frac <= 1.0:
        raise ValueError(
            f"The open share of an opening is {free_area_frac:g}: it must be more than 0 and at most 1 (0.6 for usual bars)."
        )
    return max(float(square_edge_grill(free_area_frac)), CLEAN_MOUTH_LOSS)
