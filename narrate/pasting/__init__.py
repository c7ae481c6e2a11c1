"""Pasted text made items: characters, the answer list, numbers, choices, and what is no question.

`characters` gives plain lines, `answer_lists` takes the answers off the end, `numbers` finds where
items begin, `besides` what stands between them, `letters` the choices, `papers` joins it all.
Nothing is thrown away: what is not understood stands in the notes of its item.
"""
