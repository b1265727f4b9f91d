"""The same answers as the window, from a terminal.

May import everything but `app`; never Qt.
"""
