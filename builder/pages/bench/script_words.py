"""What the script of the page at the bench says, by the names that it has there."""

from collections.abc import Mapping

from builder.compute.power_up.gate_power import UNDER_SAFE_VOLTS

WORDS: Mapping[str, str] = {
    "right": "Right",
    "doubtful": "Doubtful",
    "wrong": "Wrong",
    "negative": "ohms are never below zero; is there power on it?",
    "all": "type all readings, with a space between them",
    "charges": "something charges here; wait, and measure again",
    "short": "a beep that stays is a short; if it ended, type short beep",
    "apart": "these two must not be joined",
    "lowJoined": "this low, the two are joined",
    "someBeep": "some meters beep at this value; measure the ohms again",
    "joined": "these two must be joined",
    "high": "high for a joint; subtract the leads and measure again",
    "differ": "they differ; measure again",
    "low": "kept; normally low, compare it with its like",
    "one": "one number is expected",
    "lower": "lower than expected",
    "higher": "higher than expected",
    "kept": "kept; not checked",
    "alien": "not understood; type a number with its unit, beep, no beep or OL",
    "away": "This page is kept for where there is no network.",
    "http": "This address is not https: the page is not kept here and needs its network.",
    "newer": "There is a newer revision of this page: load it again.",
    "unknown": "How long this battery lasts is not known: land by the volts.",
    "fly": "Fly by the timer first: it gives the battery and the time.",
    "flight": "Kept; export it, and it goes into the log.",
    "nothing": "This browser keeps nothing here: export a copy before you close the page.",
    "aside": "What was kept here cannot be read; it was set aside, and this starts from nothing.",
    "full": "This browser has no room, or keeps nothing: export a copy before you close the page.",
    "lasting": "This browser may clear what is kept here when it runs short of room: export a copy after each gate.",
    "room": "This photograph cannot be kept on this device: export the photographs before you close the page.",
    "noPicture": "This file is no picture that this browser can read; nothing was changed.",
    "left": "These are left. Take the power off and look at each:",
    "mend": "This is left. Fix it with the power off. Then pass the last gate again:",
    "alike": "No measurement here tells these apart. Look at each, with the power off:",
    "look": (
        f"Everything unplugged, plus to minus {UNDER_SAFE_VOLTS}: look with a lens. Then tap here"
        " what you see."
    ),
    "unseen": "I see none of these",
    "ask": "What do you see?",
    "strange": "This file is not a copy from this page; nothing was changed.",
    "other": "This file is of another build; nothing was changed.",
    "unread": "This file cannot be read; nothing was changed.",
    "changed": "This step has changed since you did it. Look at it again, then tap Done.",
    "measure": "This one is passed only by measuring right: type what you read.",
    "shut": ": this one is passed only by measuring right. Find the cause with the power off.",
    "why": ": measure again, or write why it may stand.",
    "reason": "Why it may stand ",
    "oneOpen": " box is open. Tick it when it is done.",
    "someOpen": " boxes are open. Tick each as it is done.",
    "oneChanged": " done step has changed in this revision; the list marks it.",
    "someChanged": " done steps have changed in this revision; the list marks them.",
    "early": "Not yet: put no power on. First finish ",
    "ended": " is done. Save a copy now: tap Export below. Photographs have a file of their own.",
    "asleep": (
        "This browser cannot keep the screen awake here. Set a longer time-out in the device's"
        " settings."
    ),
    "asleepHttp": (
        "This address is not https: the page cannot keep the screen awake. Set a longer time-out in"
        " the device's settings."
    ),
    "taken": "Entries taken in: ",
    "differs": ". Different, left as they are here: ",
    "shows": "What it shows ",
    "photo": "Photograph ",
    "photos": "Export photographs: ",
    "out": "Take out",
    "sure": "Take out for good?",
    "many": "At most 60 photographs are kept: export them, and take some out.",
    "photosTaken": "Photographs taken in: ",
    "photosLost": ". No picture, or no room for it: ",
    "stopwatch": "Stopwatch: iron on ",
    "tooLong": ": too long, iron off",
    "enough": ": take it off",
    "atMost": "at most ",
}
