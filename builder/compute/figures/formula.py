"""What a formula's docstring says: its symbols, units, limits and source, as frozen objects."""

import inspect
import re
from collections.abc import Callable
from functools import cache

from builder.frozen import value_class

_ENTRY = re.compile(r"(?P<symbol>[^,\s][^,]*), (?P<words>.+) \[(?P<unit>[^\[\]]+)\]")


@value_class(frozen=True, slots=True)
class Symbol:
    """One quantity of a formula: the argument's name, its symbol, what it is, its unit."""

    name: str
    symbol: str
    words: str
    unit: str


@value_class(frozen=True, eq=False)
class FormulaText:
    """All that a formula's docstring says, ready to be shown beside a figure."""

    title: str
    formula: str
    arguments: tuple[Symbol, ...]
    gives: Symbol
    limits: str
    source: str


@cache
def formula_text(function: Callable[..., object]) -> FormulaText:
    """Read the docstring of a formula.

    The lines are, in this order: one sentence; a blank line; `Formula:`; one line for each
    argument as `name: SYMBOL, words [unit]`, in the order of the signature; `Gives:`; `Limits:`;
    `Source:`. A line set in further goes on from the line above it. Examples stand after a blank
    line and are not read here.

    Raises ValueError that names the function and the line at fault.
    """
    lines = _joined_lines(function)
    title = lines[0]
    if not title.endswith("."):
        raise _fault(function, title, "the first line is one sentence and ends with a full stop")
    if len(lines) < 2 or lines[1]:
        raise _fault(
            function,
            lines[1] if len(lines) > 1 else title,
            "a blank line is below the first sentence",
        )
    body = lines[2 : lines.index("", 2)] if "" in lines[2:] else lines[2:]
    names = list(inspect.signature(function).parameters)
    labels = ["Formula", *names, "Gives", "Limits", "Source"]
    entries = [_labelled(function, label, body, at) for at, label in enumerate(labels)]
    if len(body) > len(labels):
        raise _fault(function, body[len(labels)], "nothing stands between Source and the example")
    written, *given, gives, limits, source = entries
    named = zip(names, given, strict=True)
    arguments = tuple(_symbol(function, name, entry) for name, entry in named)
    result = _symbol(function, "Gives", gives)
    return FormulaText(title, written, arguments, result, limits, source)


def _joined_lines(function: Callable[..., object]) -> list[str]:
    """The docstring's lines, each joined with the lines set in below it."""
    text = inspect.getdoc(function)
    if not text:
        raise _fault(function, "", "there is no docstring")
    joined: list[str] = []
    for line in text.splitlines():
        if line.startswith(" ") and joined and joined[-1]:
            joined[-1] += " " + line.strip()
        else:
            joined.append(line.strip())
    return joined


def _labelled(function: Callable[..., object], label: str, body: list[str], at: int) -> str:
    """The text behind the label that is due at this place of the body."""
    line = body[at] if at < len(body) else ""
    found, colon, text = line.partition(": ")
    if found != label or not colon or not text.strip():
        raise _fault(function, line, f"'{label}: ...' is due here")
    return text.strip()


def _symbol(function: Callable[..., object], name: str, entry: str) -> Symbol:
    match = _ENTRY.fullmatch(entry)
    if match is None:
        raise _fault(function, f"{name}: {entry}", "'SYMBOL, words [unit]' is due here")
    return Symbol(name, match["symbol"], match["words"], match["unit"])


def _fault(function: Callable[..., object], line: str, why: str) -> ValueError:
    name = getattr(function, "__qualname__", repr(function))
    module = getattr(function, "__module__", "?")
    return ValueError(f"docstring of {module}.{name}, line {line!r}: {why}")
