"""Finds the bundled files: resources and demo projects, from a checkout and from an installed package.

Imports nothing of ours.
"""
