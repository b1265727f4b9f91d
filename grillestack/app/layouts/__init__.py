"""Several layouts of one pack: the button that takes one in hand, what can be done with them, and two side by side.

Everything goes through the session. May import the canvas's sheet and the panels' small pieces; never the main window.
"""
