"""Numbers in, numbers out: how much air, how much heat, how much pressure. SI throughout, temperatures in °C.

Holds properties, correlations, the air network, the march and their common fixed point. May import numpy and `fluids`;
never the document, geometry or Qt. SOURCES.md lists where every relation comes from.
"""
