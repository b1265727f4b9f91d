"""The same answers as the window, from a terminal.

Holds the verbs (`main`), an assessment as plain values (`assessment_json`) and as a page of text (`assessment_text`,
`detail_text`, `text_table`), and the sentences of `explain` (`explain`, `explain_text`, `explain_air`, `explain_trust`).
May import everything but `app`; never Qt.
"""
