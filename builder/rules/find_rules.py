"""Finds the rules: every module in a family folder that has a check. Refuses one without its
documentation.
"""

import importlib
import pkgutil
import re
from functools import cache
from types import ModuleType

from builder import rules
from builder.rules.rule import Rule, RuleText

FAMILIES = ("wiring", "power", "fit", "pack", "radio", "law", "setup", "bench", "data")
_LABELS = ("Checks", "Why", "Example", "Mend", "Source")


def rule_text(docstring: str, name: str) -> RuleText:
    """The parts of a rule's docstring. ValueError names what is missing."""
    title, _, body = docstring.strip().partition("\n\n")
    parts: dict[str, str] = {}
    for label in _LABELS:
        match = re.search(rf"^{label}:\s*(.+?)(?=^(?:{'|'.join(_LABELS)}):|\Z)", body, re.M | re.S)
        if match is None:
            raise ValueError(f"The rule {name} does not say '{label}:' in its docstring.")
        parts[label.casefold()] = " ".join(match[1].split())
    return RuleText(
        " ".join(title.split()),
        parts["checks"],
        parts["why"],
        parts["example"],
        parts["mend"],
        parts["source"],
    )


def _rule(family: str, module: ModuleType) -> Rule:
    name = module.__name__.rsplit(".", 1)[1].replace("_", "-")
    text = rule_text(module.__doc__ or "", f"{family}/{name}")
    return Rule(
        f"{family}/{name}",
        module.SEVERITY,
        getattr(module, "SIGNAL", None),
        text,
        module.check,
        getattr(module, "YIELDS_TO", ()),
        getattr(module, "OF_ONE_COPY", False),
        getattr(module, "OF_EACH_PART", False),
    )


@cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule, by family in the order of FAMILIES, then by name."""
    found: list[Rule] = []
    for family in FAMILIES:
        try:
            package = importlib.import_module(f"{rules.__name__}.{family}")
        except ModuleNotFoundError:
            continue
        for info in sorted(pkgutil.iter_modules(package.__path__), key=lambda m: m.name):
            if info.name.startswith("_"):  # shared by the family's rules, not a rule
                continue
            found.append(_rule(family, importlib.import_module(f"{package.__name__}.{info.name}")))
    return tuple(found)
