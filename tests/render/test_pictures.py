"""Published pictures tell nothing of the camera or the place; drawings run nothing. Pillow is the
reader of both.
"""

import io
from pathlib import Path

import pytest
from PIL import Image

from builder.load.limits import DEFAULT_LIMITS
from builder.load.one_file import NotRead
from builder.load.pictures import read_picture
from builder.render.pictures.published import (
    LONGEST_SIDE,
    BadPicture,
    published_in_widths,
    published_picture,
)

pytestmark = pytest.mark.slow  # takes long

GPS_INFO, MODEL, ORIENTATION = 0x8825, 0x0110, 0x0112  # tags of the Exif 2.3 standard


def _photo(kind: str, size: tuple[int, int] = (2400, 1200), orientation: int = 1) -> bytes:
    image = Image.new("RGB", size, (200, 30, 30))
    image.paste((30, 30, 200), (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[MODEL] = "A camera"
    exif[ORIENTATION] = orientation
    exif.get_ifd(GPS_INFO).update({1: "N", 2: (51.0, 30.0, 0.0)})
    out = io.BytesIO()
    image.save(out, kind, exif=exif)
    assert b"A camera" in out.getvalue()
    return out.getvalue()


@pytest.mark.parametrize(
    ("name", "kind"), [("a.jpg", "JPEG"), ("a.png", "PNG"), ("a.webp", "WEBP")]
)
def test_position_and_camera_are_gone_and_the_size_is_for_pages(name: str, kind: str) -> None:
    content = published_picture(name, _photo(kind))
    with Image.open(io.BytesIO(content)) as image:
        assert image.format == kind
        assert not dict(image.getexif())
        assert not dict(image.getexif().get_ifd(GPS_INFO))
        assert image.size == (LONGEST_SIDE, LONGEST_SIDE // 2)
    assert b"A camera" not in content
    assert content == published_picture(name, _photo(kind))


@pytest.mark.parametrize(
    ("name", "kind", "size", "widths"),
    [
        ("a.jpg", "JPEG", (4000, 3000), (480, 960, 1600)),
        ("a.png", "PNG", (700, 500), (480, 700)),
        ("a.webp", "WEBP", (300, 200), (300,)),
        ("a.jpg", "JPEG", (3000, 4000), (480, 960, 1200)),
    ],
)
def test_a_photograph_comes_in_widths_without_camera_and_place(
    name: str, kind: str, size: tuple[int, int], widths: tuple[int, ...]
) -> None:
    made = published_in_widths(name, _photo(kind, size))
    assert tuple(made.by_width) == widths
    assert made.content == published_picture(name, _photo(kind, size))
    for width, content in made.by_width.items():
        with Image.open(io.BytesIO(content)) as image:
            assert image.format == "WEBP"
            assert not dict(image.getexif())
            assert image.size == (width, round(width * size[1] / size[0]))
        assert b"A camera" not in content and b"EXIF" not in content
    assert made.size == (widths[-1], round(widths[-1] * size[1] / size[0]))
    smallest, largest = made.by_width[widths[0]], made.by_width[widths[-1]]
    assert len(smallest) <= len(largest)
    assert made == published_in_widths(name, _photo(kind, size))


def test_a_drawing_has_no_widths() -> None:
    made = published_in_widths("a.svg", b'<svg xmlns="http://www.w3.org/2000/svg"/>')
    assert made.size == (0, 0) and not made.by_width


def test_a_turned_photo_is_published_upright() -> None:
    content = published_picture(
        "a.png", _photo("PNG", (40, 20), orientation=6)
    )  # 6: turn it clockwise
    with Image.open(io.BytesIO(content)) as image:
        assert image.size == (20, 40)
        assert image.getpixel((10, 2)) == (30, 30, 200)  # the left half is on top now


@pytest.mark.parametrize(
    "inside",
    [
        "<script>alert(1)</script>",
        '<rect onload="alert(1)"/>',
        "<foreignObject/>",
        '<image href="https://evil.example/x.png"/>',
        '<a xmlns:x="http://www.w3.org/1999/xlink" x:href="javascript:alert(1)"/>',
        "<unclosed>",
        "<style>rect{fill:red}</style>",
        '<style>@import "https://evil.example/x.css"</style>',
        '<animateTransform attributeName="href"/>',
        '<a href="#x"/>',
        '<use href="data:image/svg+xml,x#y"/>',
        '<feImage href="#x"/>',
        '<rect fill="url(https://evil.example/x)"/>',
        '<rect style="fill:url(https://evil.example/x)"/>',
        "<rect style=\"fill:image-set('https://evil.example/x' 1x)\"/>",
        '<rect style="fill:u\\72l(https://evil.example/x)"/>',
        '<x:script xmlns:x="http://www.w3.org/1999/xhtml">alert(1)</x:script>',
        '<x:iframe xmlns:x="http://www.w3.org/1999/xhtml" src="javascript:alert(1)"/>',
        '<x:listener xmlns:x="http://www.w3.org/2001/xml-events"/>',
        "<g>" * 60 + "</g>" * 60,
        "<rect/>" * 6000,
    ],
)
def test_drawings_that_run_or_fetch_are_refused(inside: str) -> None:
    with pytest.raises(BadPicture):
        published_picture(
            "a.svg", f'<svg xmlns="http://www.w3.org/2000/svg">{inside}</svg>'.encode()
        )


def test_a_drawing_with_entities_is_refused() -> None:
    with pytest.raises(BadPicture, match="document type"):
        published_picture(
            "a.svg",
            b'<!DOCTYPE svg [<!ENTITY a "aaaa">]><svg xmlns="http://www.w3.org/2000/svg">&a;</svg>',
        )


def test_a_document_type_hides_in_no_encoding() -> None:
    text = (
        '<?xml version="1.0" encoding="utf-16"?><!DOCTYPE svg><svg'
        ' xmlns="http://www.w3.org/2000/svg"/>'
    )
    with pytest.raises(BadPicture, match="document type"):
        published_picture("a.svg", text.encode("utf-16"))


def test_a_drawing_keeps_its_shapes_and_loses_its_notes() -> None:
    """Comments, instructions and the notes of drawing programs go; what shows stays."""
    made = published_picture(
        "a.svg",
        b'<?xml-stylesheet href="https://evil.example/x.css"?><!-- by Quill --><svg'
        b' xmlns="http://www.w3.org/2000/svg" xmlns:i="urn:drawing" i:author="Quill" viewBox="0 0 9'
        b' 9"><metadata><i:home>hill</i:home></metadata><i:view/><g transform="translate(1'
        b' 2)"><path d="M0 0h3" style="fill:none;stroke:#c00;-i-x:y" i:label="x"/><text x="1">5'
        b" &lt; 6 &amp; \xce\xa9</text></g></svg>",
    ).decode()
    assert (
        made
        == '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g transform="translate(1'
        ' 2)"><path d="M0 0h3" style="fill:none;stroke:#c00"></path><text x="1">5 &lt; 6 &amp;'
        " Ω</text></g></svg>\n"
    )


def test_only_three_decoders_are_tried_whatever_the_bytes_say() -> None:
    """Some decoders start programs: one for PostScript does."""
    with pytest.raises(BadPicture):
        published_picture(
            "a.jpg", b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n%%EndComments\n"
        )
    out = io.BytesIO()
    Image.new("RGB", (9, 9)).save(out, "BMP")
    with pytest.raises(BadPicture):
        published_picture("a.png", out.getvalue())


def test_too_many_pixels_are_refused_before_they_are_read() -> None:
    out = io.BytesIO()
    Image.new("1", (9000, 9000)).save(out, "PNG")
    with pytest.raises(BadPicture, match="at most 40 million"):
        published_picture("a.png", out.getvalue())


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_broken_bytes_are_a_message(name: str) -> None:
    kind = {"a.jpg": "JPEG", "a.png": "PNG", "a.webp": "WEBP"}[name]
    whole = _photo(kind, (64, 48))
    for at in range(0, len(whole), max(1, len(whole) // 60)):
        for spoilt in (whole[:at], whole[:at] + b"\xff\x00\xff" + whole[at + 3 :]):
            try:
                assert published_picture(name, spoilt)
            except BadPicture as error:
                assert str(error)


def test_what_is_no_picture_is_refused() -> None:
    with pytest.raises(BadPicture):
        published_picture("a.jpg", b"not a picture")


def test_only_pictures_of_the_builds_own_folder_are_read(tmp_path: Path) -> None:
    (tmp_path / "dipper").mkdir()
    (tmp_path / "other.svg").write_text("<svg/>", "utf-8")
    (tmp_path / "dipper" / "top.svg").write_text("<svg/>", "utf-8")
    (tmp_path / "dipper" / "notes.txt").write_text("x", "utf-8")
    (tmp_path / "dipper" / "leads-out.svg").symlink_to(tmp_path / "other.svg")
    assert read_picture(tmp_path, "dipper", "top.svg", DEFAULT_LIMITS) == b"<svg/>"
    for name in (
        "../other.svg",
        str(tmp_path / "other.svg"),
        "leads-out.svg",
        "notes.txt",
        "gone.svg",
    ):
        with pytest.raises(NotRead):
            read_picture(tmp_path, "dipper", name, DEFAULT_LIMITS)
