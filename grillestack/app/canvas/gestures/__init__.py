"""What hands do on the sheet: each gesture is an object that begins, follows the pointer, and finishes or is cancelled.

A gesture previews with trial projects and finishes with exactly one edit. May import the session, model, geometry's
results and units; never the views that feed it.
"""
