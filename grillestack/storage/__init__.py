"""How nothing is ever lost: project files, catalogues, autosave and recovery.

May import `model`, `units`, `assets` and msgspec; never assess, geometry, physics or Qt.
"""
