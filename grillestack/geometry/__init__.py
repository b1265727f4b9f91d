"""Which part of which face sees what, and where things may stand: exact polygons in mm.

Holds the projected outlines, the overlay of the pack, the face states and the depth report. May import `model`, numpy
and shapely (only here); never physics or Qt.
"""
