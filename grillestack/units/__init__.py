"""What did the user type, and how shall we show it: quantities at the edges of the program.

Holds the kinds of quantity a field can take (`quantity`), reading of typed text (`parse`), writing of values
(`show`) and the plain factors between mm and SI (`convert`). May import pint, in `factors` only and late; nothing
of ours.
"""
