"""A story read from its own words: tokens, quantities, clauses, the question, one composer.

    plain text ─▶ tokens ─▶ clauses with quantities ─▶ the question ─▶ rows tried ─▶ one reading

A reading stands only where one and only one interpretation uses the question. No word stands for
an operation: who has what, what changes and what is asked decide.
"""
