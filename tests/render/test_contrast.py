"""Text against its ground in light and dark: at least 4.5 to 1 (WCAG 2.2, success criterion 1.4.3,
level AA).
"""

import re

import pytest

from builder.render.html.page import template_folder

ON_PAPER = ("ink", "soft", "accent", "good", "bad", "danger", "warning", "caution", "notice")
PAIRS = (
    *((name, "paper") for name in ON_PAPER),
    *((name, "raised") for name in ("ink", "soft", "accent")),
    *(("ink", f"{s}-soft") for s in ("danger", "warning", "caution", "notice", "accent")),
    *(("soft", f"{s}-soft") for s in ("danger", "warning", "caution", "notice", "accent")),
    *(("accent", f"{s}-soft") for s in ("danger", "warning", "caution", "notice", "accent")),
)


def _variables(text: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{3,6});", text))


def _schemes() -> dict[str, dict[str, str]]:
    style = (template_folder() / "static" / "sheet.css").read_text("utf-8")
    light = style[style.index(":root {") : style.index("@media (prefers-color-scheme: dark)")]
    dark = style[style.index("@media (prefers-color-scheme: dark)") : style.index("* { box-sizing")]
    return {"light": _variables(light), "dark": {**_variables(light), **_variables(dark)}}


def luminance(colour: str) -> float:
    """Relative luminance of an sRGB colour, as WCAG 2.2 defines it."""
    digits = colour[1:] if len(colour) == 7 else "".join(c * 2 for c in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    r, g, b = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(a: str, b: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it, 1 to 21."""
    high, low = sorted((luminance(a), luminance(b)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_ratio_is_that_of_the_standard() -> None:
    assert contrast("#000", "#fff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(
        4.48, abs=0.005
    )  # a grey just short of AA (from memory)


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), PAIRS)
def test_text_reads_on_its_ground(scheme: str, text: str, ground: str) -> None:
    colours = _schemes()[scheme]
    assert contrast(colours[text], colours[ground]) >= 4.5
