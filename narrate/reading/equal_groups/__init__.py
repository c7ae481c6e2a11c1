"""Stories of equal groups, arrays and prices, known by their rates: how many are in each group.

CCSSM (2010), glossary Table 2, equal groups and arrays. A sentence may tell a rate in any order of
words; what is asked, and the units of the rate and of the other amount, decide whether they are
multiplied or divided. Every number must have its place, and no word may say more.
"""
