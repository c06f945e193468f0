"""A drawing file (SVG) written anew: known shapes and attributes stay, whatever could run or fetch
is refused.

A page shows it as a picture, where nothing in it runs; but its address may be opened by itself, and
then it is a page.
"""

import re
from html import escape
from typing import Any
from xml.parsers import expat

from builder.render.pictures.bad_picture import BadPicture
from builder.render.pictures.drawing_reach import DrawingReach

_SPACE = "http://www.w3.org/2000/svg"
_DEEPEST = 40
_SHAPES_TEXT = (
    "svg g defs symbol use title desc path rect circle ellipse line polyline polygon text tspan"
    " linearGradient radialGradient stop clipPath mask pattern marker switch metadata"
)
_SHAPES = frozenset(_SHAPES_TEXT.split())
_DROPPED = frozenset(("metadata",))  # what drawing programs note about themselves
_ATTRIBUTES_TEXT = (
    "id class d x y x1 y1 x2 y2 cx cy r rx ry fx fy dx dy width height points viewBox"
    " preserveAspectRatio transform fill fill-opacity fill-rule stroke stroke-width stroke-opacity"
    " stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin stroke-miterlimit opacity"
    " color display visibility overflow vector-effect paint-order font-family font-size font-style"
    " font-weight font-variant letter-spacing word-spacing text-anchor text-decoration"
    " dominant-baseline alignment-baseline baseline-shift rotate textLength lengthAdjust"
    " writing-mode offset stop-color stop-opacity gradientUnits gradientTransform spreadMethod"
    " clip-path clip-rule clipPathUnits mask maskUnits maskContentUnits patternUnits"
    " patternContentUnits patternTransform marker-start marker-mid marker-end markerWidth"
    " markerHeight markerUnits orient refX refY href version role aria-label aria-labelledby"
    " aria-hidden lang shape-rendering text-rendering image-rendering color-interpolation"
    " baseProfile"
)
_ATTRIBUTES = frozenset(_ATTRIBUTES_TEXT.split())
_NAMED = re.compile(
    r"#[^\s%]*"
)  # to a browser the same name as to us (WHATWG URL, fragments; SVG 2, 16.1.5)
_WORDS = frozenset(("aria-label", "class", "id", "lang"))  # attributes that hold no value of CSS
_PLAIN = re.compile(
    r"(?:url\(#[\w-]+\)|(?:rgba?|hsla?|matrix|translate|rotate|scale|skew[XY])\([-+\w\s.,%]*\)|[^()\\@;{}<>])*"
)


class _Writer:
    """Writes the drawing out while it is parsed; local to a call."""

    def __init__(self, most: int) -> None:
        self.out: list[str] = []
        self.reach = DrawingReach()
        self.most, self.count, self.depth, self.dropped = most, 0, 0, 0
        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.last = (1, 1)  # where the last element begins

    def place(self) -> tuple[int, int]:
        """Line and column of what is read just now, from 1."""
        return self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1

    def start(self, name: str, attributes: dict[str, str]) -> None:
        self.last = self.place()
        self.depth += 1
        self.count += 1
        if self.count > self.most:
            raise BadPicture(f"it holds over {self.most} elements")
        if self.depth > _DEEPEST:
            raise BadPicture("it is nested too deep")
        space, _, local = name.rpartition(" ")
        if (
            self.dropped
            or local in _DROPPED
            or (space not in (_SPACE, "") and _is_foreign_note(space))
        ):
            self.dropped += 1
            return
        if (
            space != _SPACE
            or local not in _SHAPES
            or (self.depth == 1) != (local == "svg" and self.count == 1)
        ):
            raise BadPicture(f"it holds <{local}>, which drawings here do without")
        said_once = _said_once(attributes)
        written = "".join(_attribute(local, k, v) for k, v in said_once.items())
        start = f'<{local} xmlns="{_SPACE}"' if self.depth == 1 else f"<{local}"
        self.out.append(f"{start}{written}>")
        self.reach.start(local, _kept(said_once), self.last)

    def end(self, name: str) -> None:
        self.depth -= 1
        if self.dropped:
            self.dropped -= 1
            return
        self.out.append(f"</{name.rpartition(' ')[2]}>")
        self.reach.end()

    def text(self, text: str) -> None:
        if not self.dropped:
            self.out.append(escape(text, quote=False))
            self.reach.text(len(text))

    def doctype(self, *_: Any) -> None:
        raise BadPicture("it declares a document type")


def _is_foreign_note(space: str) -> bool:
    """Whether a name space is that of a drawing program's own notes: not SVG, not HTML, nothing
    that runs.
    """
    return (
        "w3.org/1999/xhtml" not in space
        and "w3.org/2000/svg" not in space
        and "events" not in space
    )


def _quoted(value: str) -> str:
    """A value as it stands in a tag (xml.sax.saxutils would bring urllib and ssl with it)."""
    text = escape(value)
    for c in "\t\n\r":
        text = text.replace(c, f"&#{ord(c)};")
    return f'"{text}"'


def _said_once(attributes: dict[str, str]) -> dict[str, str]:
    """Attributes with one `href` only: where the old form (xlink) stands beside the new one, the
    new one holds (SVG 2).
    """
    old_forms = [name for name in attributes if name.endswith(" href")]
    if "href" not in attributes:
        old_forms = old_forms[1:]
    for name in old_forms:
        _attribute("", name, attributes[name])  # refused if it leads elsewhere
    return {name: value for name, value in attributes.items() if name not in old_forms}


def _attribute(element: str, name: str, value: str) -> str:
    space, _, local = name.rpartition(" ")
    if local.casefold().startswith("on"):
        raise BadPicture(f"it holds the attribute {local}, which runs")
    if local == "href":
        if not value.startswith("#"):
            raise BadPicture("it refers to another file")
        if not _NAMED.fullmatch(
            value
        ):  # a browser takes blanks and escapes away, and finds an element that we do not
            raise BadPicture("it refers to an element by a name with blanks or percent signs")
        return f" href={_quoted(value)}"
    if local == "style" and not space:
        return f" style={_quoted(_style(value))}"
    if space or local not in _ATTRIBUTES:
        return ""  # notes of a drawing program; nothing that shows
    if local not in _WORDS and not _PLAIN.fullmatch(value):
        raise BadPicture(f"its {local} refers to another file, or is no plain value")
    return f" {local}={_quoted(value)}"


def _style(declarations: str) -> str:
    """Declarations whose properties are known attributes; the others show nothing that matters
    here.
    """
    kept = []
    for declaration in declarations.split(";"):
        name, _, value = (piece.strip() for piece in declaration.partition(":"))
        if name not in _ATTRIBUTES:
            continue
        if not _PLAIN.fullmatch(value):
            raise BadPicture(f"its {name} refers to another file, or is no plain value")
        kept.append(f"{name}:{value}")
    return ";".join(kept)


def _kept(attributes: dict[str, str]) -> dict[str, str]:
    """Attributes that stay and the declarations among them, by their plain names."""
    found: dict[str, str] = {}
    for name, value in attributes.items():
        space, _, local = name.rpartition(" ")
        if local == "href" or (not space and local in _ATTRIBUTES):
            found[local] = value
    for declaration in attributes.get("style", "").split(";"):
        name, _, value = (piece.strip() for piece in declaration.partition(":"))
        if name in _ATTRIBUTES:
            found[name] = (
                f"{found[name]} {value}" if name in found else value
            )  # either counts: which wins is not asked
    return found


def clean_drawing(content: bytes, shapes: int = 5_000, drawn: int = 20_000) -> bytes:
    """The drawing as UTF-8, written anew: of so many elements, that draw so many. BadPicture says
    why not.
    """
    writer = _Writer(shapes)
    parser = writer.parser
    parser.buffer_text = True
    parser.StartDoctypeDeclHandler = writer.doctype
    parser.StartElementHandler = writer.start
    parser.EndElementHandler = writer.end
    parser.CharacterDataHandler = writer.text
    try:
        parser.Parse(content, True)
        if not writer.out:
            raise BadPicture("it holds no drawing")
        writer.reach.check(drawn)
    except BadPicture as error:
        raise BadPicture(str(error), error.place or writer.last) from error
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise BadPicture(f"it is not well-formed ({error})") from error
    return ("".join(writer.out) + "\n").encode()
