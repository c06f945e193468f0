"""Modules of the standard library that only some systems have."""

from importlib import import_module
from typing import Any


def optional(name: str) -> Any:
    """The module, or None where this system has none of that name."""
    try:
        return import_module(name)
    except ImportError:
        return None
