"""Pictures as they are published: re-encoded at a size for pages, without position or camera data."""

import io
import re
from xml.etree import ElementTree

LONGEST_SIDE = 1600  # pixels
_RUNS = {"script", "foreignObject", "iframe", "handler", "set", "animate"}


class BadPicture(ValueError):
    """A picture that cannot be published, and why."""


def _drawing(content: bytes) -> bytes:
    if re.search(rb"<!(DOCTYPE|ENTITY)", content, re.I):
        raise BadPicture("it declares a document type")
    try:
        tree = ElementTree.fromstring(content)
    except ElementTree.ParseError as error:
        raise BadPicture(f"it is not well-formed ({error})") from error
    for element in tree.iter():
        name = str(element.tag).rsplit("}", 1)[-1]
        if name in _RUNS or any(a.rsplit("}", 1)[-1].casefold().startswith("on") for a in element.attrib):
            raise BadPicture(f"it holds <{name}>, or an attribute that runs")
        for attribute, value in element.attrib.items():
            if attribute.rsplit("}", 1)[-1] == "href" and not value.startswith("#"):
                raise BadPicture("it refers to another file")
    return content


def _photo(content: bytes, kind: str) -> bytes:
    from PIL import Image, ImageOps, UnidentifiedImageError  # slow to import, needed only here

    try:
        with Image.open(io.BytesIO(content)) as opened:
            image = ImageOps.exif_transpose(opened)
            image.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
            image = image.convert("RGB" if kind == "JPEG" or image.mode not in ("RGBA", "LA", "PA", "P") else "RGBA")
            clean = Image.new(image.mode, image.size)
            clean.paste(image)  # pixels alone: no position, no camera, no thumbnail
            out = io.BytesIO()
            clean.save(out, kind, **({"quality": 85} if kind != "PNG" else {"optimize": True}))
            return out.getvalue()
    except (UnidentifiedImageError, OSError, Image.DecompressionBombError) as error:
        raise BadPicture(f"it cannot be read as a picture ({error})") from error


def published_picture(name: str, content: bytes) -> bytes:
    """The bytes to publish under the same name. BadPicture says why not."""
    suffix = name.rsplit(".", 1)[-1].casefold()
    if suffix == "svg":
        return _drawing(content)
    return _photo(content, {"png": "PNG", "webp": "WEBP"}.get(suffix, "JPEG"))
