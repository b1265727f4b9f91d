"""How nothing is ever lost: project files, catalogues, autosave and recovery, recent files, settings, locks.

From the ground up: `atomic` replaces files whole, `json_text` and `misfit` say what is wrong with them, `envelope` reads
and writes every kind of file of ours, and the other modules are one kind of file each.
May import `model`, `units`, `assets` and msgspec; never assess, geometry, physics or Qt.
"""
