"""What fits here: the panel beside the nose, the search it follows, and the room drawn on the sheet.

The search runs in a second process of its own (`workers`), which hands over rows in words. May import all that `app` may.
"""
