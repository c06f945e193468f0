"""Mistakes in a value, and the text that a value is read from."""

from typing import Any

from pydantic_core import PydanticCustomError

LONGEST = 200  # characters of a quantity; the patterns below are quick on so many
_SHAPES = {dict: "a group of keys", list: "a list", type(None): "nothing"}


def wrong(code: str, message: str, hint: str, offset: int = 0) -> PydanticCustomError:
    """A mistake in a value: the code it is listed under, what was found, how to mend it, and where
    in the text.
    """
    return PydanticCustomError(
        "benchleaf", "{message}", {"code": code, "message": message, "hint": hint, "offset": offset}
    )


def text_of(value: Any, article: str, example: str) -> str:
    """The value as text, or a mistake that says what was due."""
    if isinstance(value, str) and (len(value) <= LONGEST or article == "text"):
        return value.strip()
    if isinstance(value, str):
        problem = f"Here {article} is due, found a text of {len(value)} characters."
        raise wrong("data/wrong-shape", problem, f"Write it like {example!r}.")
    found = _SHAPES.get(type(value), type(value).__name__)
    raise wrong(
        "data/wrong-shape", f"Here {article} is due, found {found}.", f"Write it like {example!r}."
    )
