"""A part is measured with a tape: what was measured, the part that follows from it, a picture of it, and the form that asks.

May import everything of the window but the window itself.
"""
