"""What an old hand would say: rules of practice that turn an Assessment into findings.

May import `assess` and below; never Qt or shapely.
"""
