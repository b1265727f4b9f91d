"""Front view and side strip: the sheet on which the pack is drawn and moved by hand.

Holds the two views, what they draw (`items`) and what hands do on them (`gestures`). Lengths are mm; the only flips are
the views' transforms. May import geometry's results and everything below; never shapely, panels or the main window.
"""
