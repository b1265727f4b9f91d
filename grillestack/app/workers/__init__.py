"""What a drag does not wait for: waterfall, band, ladder, course over time, better places, worked out in a second process.

`messages` is what both sides say, `answers` and `serve` run in the second process and know nothing of Qt, `process` keeps that
process alive and ends it, `further` decides when to ask and which answers are still current, `places` does so for the map of better places.
"""
