"""Pictures as they are published: made anew at a size for pages, without position or camera data."""

import io
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from builder.load.limits import DEFAULT_LIMITS, Limits
from builder.pages.site.picture_files import picture_widths
from builder.render.pictures.bad_picture import BadPicture
from builder.render.pictures.drawing_files import clean_drawing

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = [
    "LONGEST_SIDE",
    "BadPicture",
    "PictureMade",
    "published_in_widths",
    "published_picture",
]

LONGEST_SIDE = 1600  # pixels
_FORMATS = (
    "JPEG",
    "PNG",
    "WEBP",
)  # no other decoder is tried, whatever the bytes say: some start programs


@dataclass(frozen=True, slots=True)
class PictureMade:
    """A picture as it is published: its bytes, its width and height in pixels (0 for a drawing),
    and the same as WebP by width.
    """

    content: bytes
    size: tuple[int, int] = (0, 0)
    by_width: Mapping[int, bytes] = field(default_factory=dict)


def _bytes_of(image: "Image", kind: str) -> bytes:
    out = io.BytesIO()
    image.save(out, kind, **({"quality": 85} if kind != "PNG" else {"optimize": True}))
    return out.getvalue()


def _narrowed(image: "Image", width: int) -> bytes:
    """The picture as WebP, so wide."""
    height = max(1, round(image.height * width / image.width))
    narrow = image if width == image.width else image.resize((width, height))
    out = io.BytesIO()
    narrow.save(out, "WEBP", quality=80)
    return out.getvalue()


def _photo(content: bytes, kind: str, megapixels: int) -> "Image":
    from PIL import Image as Pillow
    from PIL import ImageOps  # slow to import, needed only here

    with Pillow.open(io.BytesIO(content), formats=_FORMATS) as image:
        most = megapixels * (2 if image.format == "JPEG" else 1)  # which need not be held whole
        if image.width * image.height > most * 1_000_000:
            raise BadPicture(
                f"it has {image.width} x {image.height} pixels; at most {most} million are taken"
            )
        image.draft(
            "RGB", (LONGEST_SIDE, LONGEST_SIDE)
        )  # a JPEG is read at a smaller size from the start
        image.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
        upright = ImageOps.exif_transpose(image)
    clear = kind != "JPEG" and (upright.mode in ("RGBA", "LA", "PA", "P"))
    upright = upright.convert("RGBA" if clear else "RGB")
    clean = Pillow.new(upright.mode, upright.size)
    clean.paste(upright)  # pixels alone: no position, no camera, no thumbnail
    return clean


def published_picture(name: str, content: bytes, limits: Limits = DEFAULT_LIMITS) -> bytes:
    """The bytes to publish under the same name. BadPicture says why not."""
    return _published(name, content, limits, in_widths=False).content


def published_in_widths(name: str, content: bytes, limits: Limits = DEFAULT_LIMITS) -> PictureMade:
    """The same, and a photograph as WebP in the widths for pages too. BadPicture says why not."""
    return _published(name, content, limits, in_widths=True)


def _published(name: str, content: bytes, limits: Limits, *, in_widths: bool) -> PictureMade:
    suffix = name.rsplit(".", 1)[-1].casefold()
    if suffix == "svg":
        return PictureMade(clean_drawing(content, limits.drawing_shapes, limits.drawing_drawn))
    kind = {"png": "PNG", "webp": "WEBP"}.get(suffix, "JPEG")
    try:
        clean = _photo(content, kind, limits.picture_megapixels)
        widths = picture_widths(clean.width) if in_widths else ()
        by_width = {width: _narrowed(clean, width) for width in widths}
        return PictureMade(_bytes_of(clean, kind), clean.size, by_width)
    except BadPicture:
        raise
    except Exception as error:
        raise BadPicture(f"it cannot be read as a picture ({type(error).__name__})") from error
