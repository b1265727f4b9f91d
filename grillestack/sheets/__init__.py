"""What must be on the paper: drawings as data, one writer per format (not built yet).

May import `advice` and below; never Qt, fit or storage.
"""
