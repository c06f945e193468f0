"""Where the rules page speaks of a rule or a mistake."""


def rule_anchor(code: str) -> str:
    """The anchor of its section."""
    return "rule-" + code.replace("/", "-")


def rule_address(code: str) -> str:
    """Its address under the site's root."""
    return f"rules/index.html#{rule_anchor(code)}"
