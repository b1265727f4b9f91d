"""Which part fits, which way round, and what it costs the radiator: the search over catalogues.

From the slot and the catalogue to the parts that fit (`slots`, `candidates`, `fits`), from those to the best place of
each (`places`, `trial`, `pipes`, `ranking`), to why the others do not (`nearly`, `words`); `search` leads through it all.
May import `advice` and below; never Qt, sheets or storage. Catalogue parts are handed in.
"""
