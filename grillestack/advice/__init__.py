"""What would an old hand say: rules of practice that turn an Assessment into findings.

Holds what a rule is given and gives back (`rule`), one module of rules per topic (`parts`, `heat`, `air`, `faces`, `depth`,
`safety`), each with a tuple of its rules, and all findings worst first (`findings`). To add a rule, write one small function
and name it in the tuple of its topic. May import `assess` and below; never Qt or shapely.
"""
