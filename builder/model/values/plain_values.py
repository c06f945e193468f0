"""Text to values without a unit: counts, yes and no, days, texts, addresses, names of pictures."""

import re
from datetime import date
from typing import Any

from builder.load.characters import unfit
from builder.model.values.mistaken import text_of, wrong
from builder.model.values.names import GIVEN, name_mistake, picture_mistake

_PICTURE = re.compile(r"(?:[\w-]+/)*\w[\w .()+-]*\.(?:svg|png|jpe?g|webp)", re.IGNORECASE)
_ADDRESS = re.compile(r"https?://[^\s<>\"'`{}|\\^]+")


def parse_count(value: Any) -> int:
    """A whole number of pieces, 0 or more."""
    text = text_of(value, "a whole number", "4")
    if not re.fullmatch(r"\d{1,6}", text):
        raise wrong(
            "data/not-a-number", f"{text!r} is not a whole number.", "Write digits, like '4'."
        )
    return int(text)


def parse_at_least_one(value: Any) -> int:
    """A whole number of 1 or more."""
    count = parse_count(value)
    if count == 0:
        raise wrong(
            "data/absurd", "'0' cannot be right here.", "Write a whole number of 1 or more."
        )
    return count


def parse_yes(value: Any) -> bool:
    """`yes` or `no`; `true` and `false` are understood."""
    if isinstance(value, bool):
        return value
    text = text_of(value, "yes or no", "yes").casefold()
    if text not in ("yes", "no", "true", "false"):
        raise wrong("data/not-a-choice", f"{text!r} is neither yes nor no.", "Write 'yes' or 'no'.")
    return text in ("yes", "true")


def parse_date(value: Any) -> date:
    """A day in ISO 8601: 2026-10-04."""
    if isinstance(value, date):
        return value
    text = text_of(value, "a date", "2026-10-04")
    try:
        if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            raise ValueError
        return date.fromisoformat(text)
    except ValueError:
        raise wrong(
            "data/not-a-date",
            f"{text!r} is not a date.",
            "Write year-month-day, like '2026-10-04'.",
        ) from None


def parse_text(value: Any) -> str:
    """One piece of text; control characters and those that turn the direction of reading are
    refused.
    """
    text = text_of(value, "text", "a few words")
    bad = unfit(text)
    if bad is not None:
        raise wrong("data/not-text", f"This text holds {bad[1]}.", "Take it out.")
    return text


def parse_address(value: Any) -> str:
    """An address of the web: http or https, nothing that a browser would run or read from a disk."""
    text = parse_text(value)
    if not _ADDRESS.fullmatch(text):
        hint = "Write it whole, like 'https://shop.example/part'; a blank is %20."
        raise wrong("data/not-an-address", f"{text!r} is not an address of http or https.", hint)
    return text


def parse_picture_name(value: Any) -> str:
    """A file of the build's own folder, by a name that can stand in an address."""
    text = text_of(value, "a picture's file name", "wedge.jpg")
    if not _PICTURE.fullmatch(text):
        hint = (
            "Name a file of the build's own folder: letters, digits, spaces; ending in .svg, .png,"
            " .jpg or .webp."
        )
        raise wrong("data/picture", f"{text!r} cannot name a picture.", hint)
    bad = picture_mistake(text)
    if bad is not None:
        raise wrong("data/picture", *bad)
    return text


# Data that no browser shows as a page or runs, whatever is written in it.
_GIVEN_ENDS = (
    *("txt", "csv", "log", "json", "yaml", "toml", "ini", "cfg", "conf", "bin", "hex"),
    *("stl", "3mf", "obj", "step", "stp", "dxf", "gcode", "scad", "zip", "gz"),
)
GIVEN_END = rf".+\.(?:{'|'.join(_GIVEN_ENDS)})"


def parse_given_name(value: Any) -> str:
    """The name of a file that is given along, by an ending that no browser shows as a page."""
    text = text_of(value, "a file's name", "settings.txt")
    if text.rpartition(".")[2] not in _GIVEN_ENDS or "." not in text:
        hint = f"End it with one of: {', '.join(_GIVEN_ENDS)}."
        raise wrong("data/bad-name", f"{text!r} cannot name a file that is given along.", hint)
    bad = name_mistake(text, GIVEN)
    if bad is not None:
        raise wrong("data/bad-name", *bad)
    return text
