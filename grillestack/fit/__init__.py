"""Which part fits, which way round, and what it costs: the search over catalogues (not built yet).

May import `advice` and below; never Qt, sheets or storage.
"""
