"""What is drawn: parts, nose, the radiator's painted face, and the words and sizes laid over them.

Items live in mm; words are laid in pixels of the view. May import the palette, model, geometry's results and units; never
gestures or the session.
"""
