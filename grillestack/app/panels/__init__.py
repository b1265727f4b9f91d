"""The columns beside the canvas: shelf, pack list, part card, the sheets of the project, the verdict.

Each panel takes the session, shows what it says and turns what is typed into edits. Panels never know the canvas.
"""
