"""What has been decided: the document as frozen values, and pure edits of it.

Holds the nose, the parts, the engine sheet, the duty cases and the environment. May import `units` and msgspec;
never numpy, shapely, Qt or files. Lengths are mm, angles degrees, everything else SI with °C for temperatures.
`None` in a field means *not given*: what follows from it (a marked default, or *not known*) is decided in `assess`.
"""
