"""Stories of one measure read sentence by sentence: how old, how tall, how heavy, then and now.

    sentences ─▶ clauses, each one row of a table ─▶ amounts and how they are related ─▶ one answer

The rows of `../words` look for what a story tells among words that they need not know. Here every
word of every sentence must stand in its place in one row of the tables of `told` and `asked`, else
nothing is read: so a row may say much with few words ("12 years older", "fell by $8 to $32").
"""
