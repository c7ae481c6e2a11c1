"""What speaks against the work of a reading, whoever made it: rows of what words do not let be.

    a text, its work ─▶ the story, the question, the sums and factors of the work ─▶ rows ─▶ why not

A veto looks at the text and the work alone, so it holds for every reader and for offered lines.
"""
