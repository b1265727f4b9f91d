"""Tracing a photo: from a picture file to a picture that lies true to scale under the nose.

Holds reading and reducing, straightening, and the panel on which corners are marked. May import `model`, `geometry` (late,
as it loads numpy), `units`, Qt and `app.panels`; never `app.canvas`, which draws what is made here.
"""
