"""What would an old hand say: rules of practice that turn an Assessment into findings, and what to change first.

Holds what a rule is given and gives back (`rule`), one module of rules per topic (`parts`, `heat`, `air`, `faces`, `depth`,
`safety`), each with a tuple of its rules, and all findings worst first (`findings`). To add a rule, write one small function
and name it in the tuple of its topic. The ladder of changes (`ladder`, in words `ladder_words`) tries every change of `changes`:
what a change is given and gives back is in `change`, the changes by topic in `change_nose`, `change_shroud`, `change_places` and
`change_parts`, whether they can be built in `room`, what they are worth in `trial` and `side_effects`. To add a change, write one
small function and name it in the tuple of its topic. May import `assess` and below; never Qt or shapely.
"""
