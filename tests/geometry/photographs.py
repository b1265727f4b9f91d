"""A pinhole camera of the tests' own: where points of the nose are seen in a photo, by projection and nothing else."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np


@dataclass(frozen=True)
class Camera:
    """A camera ahead of the nose; rows of `turn` are its right, down and looking directions in (viewer's right, up, ahead)."""

    place_mm: np.ndarray
    turn: np.ndarray
    focal_px: float
    middle_px: tuple[float, float]

    def sees(self, y_mm, z_mm, ahead_mm=0.0):
        """Return the pixel at which a point of the vehicle is seen; +y is at the viewer's left."""
        right, down, deep = self.turn @ (np.array([-y_mm, z_mm, ahead_mm]) - self.place_mm)
        assert deep > 0
        return (
            self.middle_px[0] + self.focal_px * right / deep,
            self.middle_px[1] + self.focal_px * down / deep,
        )


def camera(*, yaw_deg=0.0, pitch_deg=0.0, roll_deg=0.0, distance_mm=2_500.0, aims_at=(0.0, 700.0), focal_px=1_200.0):
    """Return a camera at that distance from a place (y, z) of the nose, which it sees in the middle of 1600 × 1200 pixels."""
    yaw, pitch, roll = np.radians([yaw_deg, pitch_deg, roll_deg])
    looks = -np.array([np.sin(yaw) * np.cos(pitch), np.sin(pitch), np.cos(yaw) * np.cos(pitch)])
    level = np.cross(looks, [0.0, 1.0, 0.0])
    level /= np.linalg.norm(level)
    down = np.cross(looks, level)
    right = np.cos(roll) * level + np.sin(roll) * down
    turn = np.array([right, np.cross(looks, right), looks])
    target = np.array([-aims_at[0], aims_at[1], 0.0])
    return Camera(target - distance_mm * looks, turn, focal_px, (800.0, 600.0))
