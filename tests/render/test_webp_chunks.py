"""What a published WebP file holds, read chunk by chunk (RFC 9649, section 2.3 and 2.7: `EXIF`, `XMP `
and `ICCP` are its meta data, `VP8X` with three flags for them): pixels, and nothing beside them.
"""

import io
from collections.abc import Iterator

import pytest
from PIL import Image, ImageCms, PngImagePlugin

from builder.render.pictures.published import published_in_widths, published_picture

PIXELS = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH"}
META_FLAGS = 0b00101100  # of VP8X: ICC profile, Exif, XMP
XMP = b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><place>hill</place></x:xmpmeta>'
ICC = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()


def _exif() -> Image.Exif:
    exif = Image.Exif()
    exif[0x0110] = "A camera"  # the model, Exif 2.3
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0)})
    return exif


def _photo(kind: str, mode: str) -> bytes:
    image, out = Image.new(mode, (1000, 700), (90, 110, 140, 60)[: len(mode)]), io.BytesIO()
    said = PngImagePlugin.PngInfo()
    said.add_text("Author", "Quill")
    more = {"pnginfo": said} if kind == "PNG" else {"xmp": XMP}
    image.save(out, kind, exif=_exif(), icc_profile=ICC, **more)
    assert b"A camera" in out.getvalue()
    return out.getvalue()


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Name and content of each chunk: four letters, a length, and a byte more where it is odd."""
    assert (content[:4], content[8:12]) == (b"RIFF", b"WEBP")
    assert int.from_bytes(content[4:8], "little") == len(content) - 8
    at = 12
    while at < len(content):
        size = int.from_bytes(content[at + 4 : at + 8], "little")
        yield content[at : at + 4], content[at + 8 : at + 8 + size]
        at += 8 + size + size % 2


@pytest.mark.parametrize(
    ("name", "kind", "mode"),
    [
        ("a.jpg", "JPEG", "RGB"),
        ("a.png", "PNG", "RGBA"),
        ("a.webp", "WEBP", "RGB"),
        ("a.webp", "WEBP", "RGBA"),
    ],
)
def test_a_webp_file_holds_pixels_alone(name: str, kind: str, mode: str) -> None:
    photo = _photo(kind, mode)
    made = list(published_in_widths(name, photo).by_width.values())
    made += [published_picture(name, photo)] if kind == "WEBP" else []
    assert len(made) >= 3
    for content in made:
        chunks = dict(_chunks(content))
        assert set(chunks) <= PIXELS
        assert not chunks.get(b"VP8X", b"\0")[0] & META_FLAGS
    with_all = {name for name, _ in _chunks(_photo("WEBP", "RGB"))}
    assert {b"EXIF", b"XMP ", b"ICCP"} <= with_all, "else the check could see none"
