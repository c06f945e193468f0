"""Pictures as they are published: made anew at a size for pages, without position or camera data."""

import io

from builder.load.limits import DEFAULT_LIMITS, Limits
from builder.render.pictures.bad_picture import BadPicture
from builder.render.pictures.drawing_files import clean_drawing

__all__ = ["LONGEST_SIDE", "BadPicture", "published_picture"]

LONGEST_SIDE = 1600  # pixels
_FORMATS = (
    "JPEG",
    "PNG",
    "WEBP",
)  # no other decoder is tried, whatever the bytes say: some start programs


def _photo(content: bytes, kind: str, megapixels: int) -> bytes:
    from PIL import Image, ImageOps  # slow to import, needed only here

    with Image.open(io.BytesIO(content), formats=_FORMATS) as image:
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
    clean = Image.new(upright.mode, upright.size)
    clean.paste(upright)  # pixels alone: no position, no camera, no thumbnail
    out = io.BytesIO()
    clean.save(out, kind, **({"quality": 85} if kind != "PNG" else {"optimize": True}))
    return out.getvalue()


def published_picture(name: str, content: bytes, limits: Limits = DEFAULT_LIMITS) -> bytes:
    """The bytes to publish under the same name. BadPicture says why not."""
    suffix = name.rsplit(".", 1)[-1].casefold()
    if suffix == "svg":
        return clean_drawing(content, limits.drawing_shapes, limits.drawing_drawn)
    kind = {"png": "PNG", "webp": "WEBP"}.get(suffix, "JPEG")
    try:
        return _photo(content, kind, limits.picture_megapixels)
    except BadPicture:
        raise
    except Exception as error:
        raise BadPicture(f"it cannot be read as a picture ({type(error).__name__})") from error
