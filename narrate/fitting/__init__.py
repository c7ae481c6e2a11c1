"""A lesson fitted to what was really said: timelines from noted times, sound and recorded decks.

    noted     times of beats, from the run-through page
    table     times of lines as a table that the teacher can correct
    deck      how long each slide of a recorded deck was shown
    sound     levels of a recording  ─▶ speech (stretches of it) ─▶ aligning (lines to stretches)
    fitted    the `Timeline` that comes of them, and a part spliced in
    pace      the teacher's own pace

Every fit ends as `Fitted`: a timeline, how sure each line is, and what a person should look at.
"""
