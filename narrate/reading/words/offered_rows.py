"""The lines that situations let be right: a row for the roles of the amounts and what is asked.

A row is the roles of all amounts in the order of the alphabet, what must be asked or said (names of
`KINDS`, all of them; "a|b" one of two, "!a" not that), and its lines, the likeliest first. In a
line a role stands for its number (`{each}`; `{amount}`, `{amount2}` in the order of the words;
`{most}` and `{least}` of the plain amounts), `{sum}` for plain amounts put together as the words
say that they come and go. Situations as in CCSSM (2010), glossary, Tables 1 and 2.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """A situation: see the top of this file."""

    roles: str
    asked: str
    lines: tuple[str, ...]


_ROWS: tuple[tuple[str, str, str], ...] = (
    # -- a whole and how its two parts compare; more than a multiple; ways to choose
    ("amount more", "in_two", "{half_of}"),
    ("amount fewer", "in_two", "{half_of}"),
    ("amount times", "in_two", "{part_of}"),
    ("amount into", "in_two", "{part_of}"),
    ("amount more", "of_both", "({amount} + {more}) ÷ 2 ; ({amount} − {more}) ÷ 2"),
    ("amount fewer", "of_both", "({amount} − {fewer}) ÷ 2 ; ({amount} + {fewer}) ÷ 2"),
    ("amount times", "of_both !differ", ""),
    ("amount into more", "", "({amount} − {more}) ÷ {into}"),
    ("amount fewer into", "", "({amount} + {fewer}) ÷ {into}"),
    ("amount more times", "", "{times} × {amount} + {more}"),
    ("amount fewer times", "", "{times} × {amount} − {fewer}"),
    ("amount amount", "ways differing", "{amount} × {amount2}"),
    ("amount amount amount", "ways differing", "{amount} × {amount2} × {amount3}"),
    # -- lengths, areas
    ("round", "square", "{round} ÷ 4"),
    ("each", "around square", "4 × {each}"),
    ("each", "area square", "{each} × {each}"),
    ("each", "around triangle", "3 × {each}"),
    ("amount", "around square", "4 × {amount}"),
    ("amount", "area square", "{amount} × {amount}"),
    ("amount round", "", "{round} ÷ 2 − {amount}"),
    ("amount area", "!cost !left !total !around", "{area} ÷ {amount}"),
    ("amount amount area", "left|rest", "{amount} × {amount2} − {area}"),
    ("amount amount each", "lengths by_area", "{amount} × {amount2} × {each}"),
    ("area each", "by_area", "{area} × {each}"),
    ("amount amount amount", "volume lengths", "{amount} × {amount2} × {amount3}"),
    ("amount amount", "around lengths !fraction", "2 × ({amount} + {amount2})"),
    ("amount amount amount", "around lengths", "{amount} + {amount2} + {amount3}"),
    ("amount amount", "area lengths", "{amount} × {amount2}"),
    # -- parts of one whole, parts of a set
    ("part", "fraction|left|not", "1 − {part}"),
    ("part part", "of_rest", "{part2} × (1 − {part})"),
    ("part part", "of_it !left !total", "{part2} × {part}"),
    ("part part", "left|rest|not", "1 − {part} − {part2}"),
    ("part part", "changed|differ", "{highest} − {lowest}"),
    ("part part", "!differ", "{part} + {part2}"),
    ("part part part", "left|rest|not", "1 − {part} − {part2} − {part3}"),
    ("part part part", "total", "{part} + {part2} + {part3}"),
    ("amount part", "is_part", "{amount} ÷ {part}"),
    ("amount part", "left|rest|not|asks_unsaid", "{amount} − {part} × {amount}"),
    ("amount part part", "of_rest", "{part2} × ({amount} − {part} × {amount})"),
    ("amount amount part", "start part_first", "({sum}) ÷ (1 − {part})"),
    ("amount part part", "left|rest|not", "{amount} − {part} × {amount} − {part2} × {amount}"),
    ("amount part", "part_first part_gone", "{amount} ÷ (1 − {part})"),
    ("amount part part", "total !of_rest !of_it", "({part} + {part2}) × {amount}"),
    ("amount part", "total as_much", "{amount} + {part} × {amount}"),
    ("amount part", "total more_than", "{amount} + {part} × {amount}"),
    ("amount part", "asks_same", "{part} × {amount}"),
    ("amount part", "", "{part} × {amount} ; {amount} − {part} × {amount}"),
    ("amount amount", "fraction not", "1 − {least}/{most}"),
    ("amount amount", "some_of fraction", "{least}/{most}"),
    ("amount amount", "some_of not|left|unasked", "{most} − {least} ; {least}/{most}"),
    ("amount amount", "fraction left|rest", "1 − {least}/{most}"),
    ("amount amount", "fraction among_both !shared", "{asked_one}/({amount} + {amount2})"),
    ("amount amount", "fraction shared", "{shared} ÷ {sharers}"),
    ("amount amount", "fraction !left", "{least}/{most}"),
    ("amount amount amount", "fraction left|rest", "({apart}) ÷ {most}"),
    # -- percents
    ("amount amount amount", "percent left|rest", "({apart}) ÷ {most} × 100"),
    ("amount amount", "percent", "{least} ÷ {most} × 100"),
    ("amount percent", "is_part", "{amount} ÷ {percent}"),
    ("amount amount part", "left", "{most} − {part} × {most} − {least}"),
    ("amount amount each groups", "left", "{most} − {groups} × {each} − {least}"),
    ("amount amount each groups", "total", "{groups} × {each} + {amount} + {amount2}"),
    ("amount percent", "off original", "{amount} ÷ (1 − {percent})"),
    (
        "amount percent",
        "off|left|not|rest",
        "{amount} − {percent} × {amount} ; {percent} × {amount}",
    ),
    ("amount percent", "raised", "{amount} + {percent} × {amount} ; {percent} × {amount}"),
    ("amount percent", "asks_same", "{percent} × {amount}"),
    ("amount percent", "", "{percent} × {amount} ; {amount} − {percent} × {amount}"),
    # -- comparing
    ("amount amount", "times", "{most} ÷ {least}"),
    ("amount each", "times", "{most_of_all} ÷ {least_of_all}"),
    ("each each", "times", "{most_of_all} ÷ {least_of_all}"),
    ("each each", "differ|rest|left", "{most_of_all} − {least_of_all}"),
    ("amount more", "total", "{amount} + {amount} + {more}"),
    ("amount fewer", "total", "{amount} + {amount} − {fewer}"),
    ("amount more", "!of_side", "{amount} + {more} ; {amount} + {amount} + {more}"),
    ("amount more", "", "{amount} + {more}"),
    ("amount fewer", "", "{amount} − {fewer}"),
    ("amount times", "differ", "{times} × {amount} − {amount}"),
    ("amount times", "total", "{amount} + {times} × {amount}"),
    ("amount times", "!of_side", "{amount} + {times} × {amount} ; {times} × {amount}"),
    ("amount times", "", "{times} × {amount}"),
    ("amount into", "total", "{amount} + {amount} ÷ {into}"),
    ("amount into", "differ", "{amount} − {amount} ÷ {into}"),
    ("amount into", "", "{amount} ÷ {into}"),
    # -- equal groups
    ("each groups", "", "{groups} × {each}"),
    ("amount each", "containers|like", "{amount} ÷ {each}"),
    ("amount each", "", "{amount} × {each}"),
    ("amount amount", "each", "{shared} ÷ {sharers}"),
    ("amount each", "left containers|like", ""),
    ("amount groups", "each|shared", "{amount} ÷ {groups}"),
    ("amount groups", "", "{groups} × {amount}"),
    ("each each groups", "chained", "{groups} × {each} × {each2}"),
    ("each each groups", "profit|off|not|left|rest", "{groups} × ({most_each} − {least_each})"),
    ("each each groups", "", "{groups} × ({each} + {each2})"),
    ("amount amount each", "goal containers|like", "({gap}) ÷ {each}"),
    ("amount amount amount", "shared unlike !left", "{sum_shared} ÷ {sharers}"),
    ("amount amount groups", "each|shared says_rest", "({apart}) ÷ {groups}"),
    ("amount amount groups", "each|shared", "({sum}) ÷ {groups}"),
    ("amount groups groups", "each|shared", "{amount} ÷ ({groups} + {groups2})"),
    ("amount amount each", "containers|like", "({sum}) ÷ {each}"),
    ("amount each groups", "total adding|counts", "{groups} × {each} + {amount}"),
    ("amount each groups", "!adding !differ !need", "{groups} × {each}"),
    (
        "amount each groups",
        "left|differ|need|not",
        "{groups} × {each} − {amount} ; {amount} − {groups} × {each}",
    ),
    ("amount each groups", "each_goes", "{amount} − {groups} × {each}"),
    ("amount each groups", "goes", "{groups} × {each} − {amount}"),
    ("amount each groups", "total|now|start|cost", "{amount} + {groups} × {each}"),
    (
        "amount each groups",
        "",
        "{amount} + {groups} × {each} ; {groups} × {each} − {amount}",
    ),
    ("each groups groups", "left|differ", "({most_groups} − {least_groups}) × {each}"),
    ("each groups groups", "total", "({groups} + {groups2}) × {each}"),
    ("each each groups groups", "differ", "{pairs_apart}"),
    ("each each groups groups", "", "{pairs}"),
    # -- so much for so many: then how much for others?
    ("amount amount amount", "in_proportion !percent !fraction", "{of_first} ÷ {first} × {second}"),
    ("amount amount", "rate", "{asked_unit} ÷ {per_unit}"),
    ("amount amount", "shared unlike|differing !left !total", "{shared} ÷ {sharers}"),
    ("amount amount", "unlike !left !total", "{groups_of} × {size_of}"),
)
ROWS = tuple(Row(roles, asked, tuple(lines.split(" ; "))) for roles, asked, lines in _ROWS)
"""The situations, in the order they are tried."""
