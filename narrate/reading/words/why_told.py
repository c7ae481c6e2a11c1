"""Why a reading does not stand, in a teacher's words: what is unclear, with the words quoted.

Readers give short reasons; a row here says each one out. What to do about it is said behind it
(`declining`).
"""

from __future__ import annotations

import re

_TOLD: dict[str, str] = {
    "it would be below zero": "as I read it, the answer would be below zero",
    "it divides by zero": "as I read it, something would be divided by zero",
    "the question says not": "the question says “not”, and I cannot tell what is not meant",
    r"it does not use (.*)": "I cannot tell what “{0}” is for",
    "it happens again and again": "something is told to happen again and again, and I cannot tell "
    "how many times",
    r"it leaves out (.*)": "I cannot tell what “{0}” changes",
    "a sentence is left out": "a sentence without a number may change the amounts",
    "the question asks for something else": "I cannot match what the question asks for with what "
    "the story tells",
    "it would be no whole number": "the answer would be no whole number of things, or amounts in "
    "different units would be joined",
    # -- parts
    "a part is of less than the whole": "I cannot tell what a fraction is a part of, of all or "
    "only of some",
    "a part is added to its own whole": "a fraction seems to be a part of an amount that is told, "
    "so the two are not simply added",
    "a part is not added to what it is a part of": "a fraction seems to be a part of an amount "
    "that is told, so the two are not simply added",
    "the question asks for the rest, not for the part": "the question seems to ask for the rest, "
    "and I cannot tell how much that is",
    "what it can hold is not what is in it": "an amount tells how much there is room for, not how "
    "much is there",
    "something is done to a number that is not told": "something is done to a number that nobody "
    "tells",
    "it is not told whether each costs so much, or all": "a price is told, and I cannot tell "
    "whether each costs so much or all of them together",
    "whose some of them are is told": "some of them are somebody's, and I cannot tell whether they "
    "count",
    "there are several of one kind": "there seem to be several of one kind, and I cannot tell "
    "whether an amount is of one or of all",
    "some came or went after the day that is asked for": "some came or went after the day that "
    "the question asks about",
    "more of them at work do not take more time": "more of them do not take more time for the same "
    "work",
    "what is moved neither comes nor goes": "some are only moved from place to place",
    "the part itself is told": "an amount may already be the part that the fraction tells of",
    "the amount that is told is the part itself": "an amount seems to be the part, not the whole",
    "a part of one of them is no part of all": "a fraction is of one of them, not of all",
    "it may be no part, but so much of the measure": "I cannot tell whether a fraction is a "
    "measure of its own or a part of an amount",
    "it would be more than the whole": "the parts would come to more than the whole",
    "it is one of the parts that is left out": "the question leaves one of the parts out",
    "the question asks for a part, not for how many": "the question asks which part it is, not "
    "how many",
    r"the (.*) would not be whole": "the answer would be no whole number ({0}), and the words do "
    "not say what to do with what is over",
    r"it comes out in parts of a (.*)": "the answer would come out in parts of a {0}",
    # -- what came, went and is left
    "it is only planned": "something is only planned or wanted, and I cannot tell whether it "
    "happened",
    "it is so only if something else happens": "something happens only if something else does",
    "what is still to do is not done": "I cannot tell what is done already and what is still to do",
    "what was done is not certain": "somebody “had” done something, and I cannot tell when",
    "what is missing is not there": "some are missing, and I cannot tell whether they are counted",
    "what went is not added, what came is not taken away": "I cannot tell for certain what came "
    "and what went",
    "one amount is some of the other": "one amount seems to be some of another, so the two are "
    "not simply added",
    "an amount may be some of another": "one amount may be some of another, and would be counted "
    "twice",
    "an amount is of another one": "one amount is told as some of another",
    "what is not left is what went": "I cannot tell whether the question asks for what went or "
    "for what is left",
    "the question asks for what is left": "the question asks for what is left, and I cannot tell "
    "what went",
    "the question asks for what was there before": "the question asks for what was there before, "
    "and I cannot tell all that changed since",
    "what is broken is still there": "I cannot tell whether some of them still count",
    "some of them went": "I cannot tell how many of “them” went",
    "nobody says how many came or went in between": "some came or went in between, and how many "
    "is not told",
    "some came or went after the time that is asked for": "some came or went after the time that "
    "the question asks about",
    "what all went is not what there was": "an amount that went is all that there was before, or "
    "only some of it: I cannot tell which",
    "the amounts are the two ends of a change": "the amounts tell what there was before and after, "
    "so they are not added",
    "what is told then is of something else": "an amount seems to be about something else than "
    "the question",
    "less is there though some came, or more though some went": "the question asks what came, and "
    "less is there than before, or what went, and more is there",
    "what went is something else than what was there": "what went is told as something else than "
    "what was there",
    "all of them together are so long": "a length is told of all of them together",
    "what is in the container is weighed with it": "a container is weighed with what is in it, and "
    "what it weighs by itself has to be taken off",
    "some are left out": "some are left out (“except”, “not counting”)",
    # -- who and where
    "who is meant is not certain": "I cannot tell whom “he”, “she”, “it” or “they” means",
    "somebody else is asked for": "the question seems to ask about somebody of whom nothing is "
    "told",
    "an amount is somebody else's": "an amount seems to be somebody else's than the question asks "
    "about",
    "whose the first amount is, is not told": "I cannot tell whose the first amount is",
    "whose amount it is, and to whom some went, are mistaken": "I cannot tell whose an amount is, "
    "or to whom some went",
    "the price is told of somebody else": "I cannot tell who paid which price",
    "what somebody has is not what was done": "I cannot tell whether the question asks for what "
    "somebody has or for what was done",
    "what was done to one is not what was done to the other": "different things were done, and I "
    "cannot tell which of them the question means",
    "what is in one place is not what is in another": "amounts are told in different places, and I "
    "cannot tell which place is meant",
    "it is asked for each of some who are not told of": "the question asks for each of them, and "
    "how many they are is not told",
    # -- compared
    "an amount is held against two": "one amount is compared with two others",
    "what is longer by so much is no amount of its own": "an amount tells how much longer or more "
    "something is, and I cannot tell than what",
    "so much more or less is neither multiplied nor divided": "an amount tells how much more or "
    "less something is, and it would be multiplied or divided",
    "so much more or less is of something else": "I cannot tell what an amount is more or less "
    "than",
    "so much more or less is no amount of its own": "an amount tells how much more or less "
    "something is, and I cannot tell than what",
    "more than another has is no amount of its own": "an amount is told as more than somebody "
    "else's, and I cannot tell whose",
    "how much is too much is no amount of its own": "an amount tells how much is too much",
    "what became less was more before": "something became less or more, and I cannot tell from "
    "what",
    "what both have is not held against what one has": "I cannot tell whether an amount is of one "
    "or of both together",
    "it is the other amount that is multiplied": "I cannot tell which amount is so many times the "
    "other",
    "who is faster takes less time": "times are compared, and who is faster takes less",
    "what rises from below is less deep": "something rises or sinks below a surface",
    # -- groups
    "one of the groups is told by itself": "one of the groups is told apart from the others",
    "the groups are not alike": "the groups are told not to be equal",
    "the groups counted are of another sort": "the groups that are counted seem to be others than "
    "those of which it is told how much is in each",
    r"the (.*) are counted already": "I cannot tell how the number of pieces and the {0} go "
    "together",
    "the question asks for each": "the question asks for each, and I cannot tell of how many",
    "the question asks for one day": "the question asks for one day, and I cannot tell which "
    "amounts are of that day",
    "the question asks for an earlier day": "the question asks for an earlier day than the last "
    "amount tells of",
    "not all of what is shared is read": "all of it is shared, and I cannot tell how much that is",
    "more is told of the part than is asked": "more is told of the part than the question asks for",
    # -- units and numbers
    "the units do not come out as asked": "the units of the amounts do not lead to the unit that "
    "is asked for",
    "the question asks in another unit": "the question asks in another unit than the amounts are "
    "told in",
    "an amount is told in two units": "one amount is told in two units",
    "lengths and areas are told in unlike units": "lengths and areas are told in different units",
    "ages are told in unlike units": "ages are told in different units",
    "a count is not taken from a measure": "a number of things and a measure are not joined",
    "a percent is not added to what is counted": "a percent is not added to a number of things",
    "a number is below zero": "a number is below zero, and such stories are not read",
    "two numbers tell one amount": "two numbers seem to tell one amount (a range or a size)",
    "it is only about so much": "an amount is told only as about, at least or at most so much",
    "it is not quite so": "an amount is told as almost or not quite so much",
    "it is the one or the other": "the story says “or”, and I cannot tell which is so",
    "the words work with a number": "the words say to do something with a number of their own",
    "how long it took is not told": "how long it took is not told",
    "the one was so until the other": "something was so only until something else happened",
    "the question asks for one of the ways": "several ways are told, and the question asks for "
    "one of them",
    "the question asks in how many ways, or how likely": "the question asks in how many ways, or "
    "how likely it is",
}
_ROWS = [(re.compile(reason), told) for reason, told in _TOLD.items()]


def told_plainly(reason: str) -> str:
    """A reason as a teacher reads it; a reason without a row as it is."""
    for pattern, told in _ROWS:
        if (found := pattern.fullmatch(reason)) is not None:
            return told.format(*found.groups())
    return reason
