"""The fonts of PDFs: those of the pages, and the Greek letters and Ω that the condensed family
lacks.

They are cut out of the variable font of the same family as a font of their own that does not vary:
a variable font would be embedded with the time of day in it, and the same sheet would have other
bytes every time.
"""

import io
from functools import cache

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont
from fontTools.varLib.instancer import instantiateVariableFont

from builder.render.assets import font_files, package_folder

_FAMILY = ("fontpkg_ibm_plex_sans", "IBMPlexSans[wdth,wght].ttf")
_GREEK = (0x20, 0xA0, *range(0x0370, 0x0400))  # a space after a letter is set in the letter's font
_STYLE = {"wght": 400, "wdth": 85}


def _greek() -> bytes:
    package, file = _FAMILY
    font = TTFont(package_folder(package) / "files" / file, recalcTimestamp=False)
    options = Options()
    options.notdef_outline = True
    cutter = Subsetter(options)
    cutter.populate(unicodes=_GREEK)
    cutter.subset(font)
    fixed = instantiateVariableFont(font, _STYLE)
    fixed.recalcTimestamp = False
    out = io.BytesIO()
    fixed.save(out)
    return out.getvalue()


@cache
def paper_fonts() -> dict[str, bytes]:
    """All fonts that are set into PDFs, by name; the same bytes in every process."""
    own = {name: content for name, content in font_files().items() if name.endswith(".ttf")}
    return {**own, "leaf-greek.ttf": _greek()}
