"""Quantities at the edges: what did the user type, and how shall we show it.

Holds the parser, the formatter and the named conversions. May import pint (only here); nothing of ours.
"""
