"""narrate: test items in, worked-solution lessons out.

The map of the house. Data goes one way, from room to room; each room imports only rooms above it.

    problems/*.yaml
      │
      ▼  items/      what a teacher writes: `Item`, `Part`; loading; every fault with its place
      ▼  reading/    what the words say: what to work out, and the `Goal`, the form of the question
      ▼  solution/   `Solution`: steps, facts, figures, slips, choices ruled out
         kinds/      one file = one kind of problem, solved in the moves of `solution`
      ▼  lesson/     what is said and what appears, moment by moment; wording, times, pages
      ▼  outputs/    one file = one output; sees only the lesson and its timeline
         fitting/    the timeline of what was recorded: noted times, her voice, a recorded deck
         voices/     one file = one voice that reads a lesson aloud, for who has not recorded
         twins/      the same item with fresh numbers, for what is still in use as a test
      │
      ▼
    out/<review>/    the deck, the script, the captions and the rest

Under all of them lies `exact/`: exact numbers and expressions, and the ways they are spoken and
written. `errors` is open to all. Sentences are not code: they are templates, in `templates/`, by
language.

Outside the rooms: `pipeline` joins them, on one screen; `recording` fits a review to what was
recorded; `catch_up` puts together what each pupil missed, of what `shelf` finds `built` or tells,
with what is heard by `hearing`; `writing` makes a lesson's files, `leftover` names what an earlier
build left beside them, and `saving` puts each in place whole or not at all; `report` is
what is printed; `draft` makes a review file of pasted text, whose items `pasting/` finds; `cli` is
the command line, with its `arguments`.

Read next: `pipeline`, then any one file of `kinds/`.
"""
