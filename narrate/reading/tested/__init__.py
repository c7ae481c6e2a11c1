"""Questions whose choices are tested one by one: which equation is true, which list is in order.

`read.py` joins them; `rows.py` has the questions, the other modules what makes a choice right.
"""
