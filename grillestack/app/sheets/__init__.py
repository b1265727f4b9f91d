"""The drawings in the window: the sheet itself to look at, its choices, dimensions under the hand, export and print.

Everything goes through the session; sheets are made in a second process. May import `sheets` as far as it needs neither
numbers nor writers, and the panels' small pieces; never the main window.
"""
