"""Cuts the letters that pages mostly use out of the fonts' packages: small files that are there before the first line.

Writes templates/static/leaf-*.woff2, which are kept in the repository, since cutting takes seconds at every publish.
Run it after a new version of a font package; tests/render/test_fonts.py holds the files to the packages. A cut font is a
modified one in the words of the SIL Open Font License, so it does not keep the reserved name.
"""

import io
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent))

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

from builder.render.assets import CUT_RANGES, font_files
from builder.render.paper.paper_fonts import paper_fonts

TARGET = Path(__file__).resolve().parent.parent / "templates" / "static"
NAME_RECORDS = (
    1,
    3,
    4,
    6,
    16,
)  # family, unique, full, PostScript and typographic family name (OpenType, name table)


def characters() -> list[int]:
    """The code points of the ranges."""
    ends = [[int(end, 16) for end in piece.split("-")] for piece in CUT_RANGES.split(", ")]
    return [code for end in ends for code in range(end[0], end[-1] + 1)]


def cut(content: bytes, family: str) -> bytes:
    """The font with these characters only, without hints, as WOFF2."""
    font = TTFont(io.BytesIO(content), recalcTimestamp=False)
    options = Options()
    options.hinting = False
    options.notdef_outline = True
    options.layout_features = ["kern", "mark", "tnum", "lnum"]
    options.drop_tables += ["meta"]
    cutter = Subsetter(options)
    cutter.populate(unicodes=characters())
    cutter.subset(font)
    for record in font["name"].names:
        if record.nameID in NAME_RECORDS:
            record.string = family.replace(" ", "") if record.nameID == 6 else family
    font.flavor = "woff2"
    out = io.BytesIO()
    font.save(out)
    return out.getvalue()


def main() -> None:
    """Writes every cut font and says its size."""
    fonts = {**font_files(), "leaf-greek.ttf": paper_fonts()["leaf-greek.ttf"]}
    for name in sorted(fonts):
        if name.endswith(".ttf"):
            path = TARGET / name.replace(".ttf", ".woff2")
            path.write_bytes(cut(fonts[name], path.stem.replace("-", " ").title()))
            print(f"{path.name} {path.stat().st_size}")


if __name__ == "__main__":
    main()
