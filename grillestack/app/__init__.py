"""Show the pack and let hands move it: the Qt window, its canvas, panels, gestures and undo.

The only package that imports Qt; never shapely or a writer directly.
"""
