"""Does this pack do the job, and why: the only place where geometry meets physics and mm meets SI.

Holds the defaults, the road from a Project to the physics inputs, and the frozen Assessment. May import everything below
and numpy; never Qt or files.
"""
