"""Style sheet, scripts, icon and fonts as files under `assets/`. Fonts come from packages, never
from the system.
"""

import re
from base64 import b64encode
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

from builder.render.html.page import template_folder
from builder.system.links import leads_elsewhere

_FONTS = {
    "leaf-regular.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-Regular.ttf"),
    "leaf-italic.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-Italic.ttf"),
    "leaf-bold.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-SemiBold.ttf"),
    "leaf-mono.ttf": ("fontpkg_ibm_plex_mono", "IBMPlexMono-Regular.ttf"),
}
# What the cut fonts in templates/static hold (.ci/cut_fonts.py): Latin letters of the west,
# punctuation, raised and lowered digits, arrows, operators, Greek. The style sheet says the same
# ranges; other letters come from the whole fonts.
CUT_RANGES = (
    "20-7E, A0-FF, 304, 370-3FF, 2010-2026, 2030-2044, 2070-2094, 20AC, 2122, 2190-2193, 2202-2265"
)
_LICENCE = ("leaf-fonts-licence.txt", "fontpkg_ibm_plex_sans_condensed", "LICENSE")
_KINDS = {".css", ".js", ".svg", ".png", ".webp", ".jpg", ".ico", ".txt", ".woff2", ".ttf"}


def package_folder(package: str) -> Path:
    """Where an installed font package lies; FileNotFoundError where it is not."""
    spec = find_spec(package)
    if spec is None or spec.origin is None:
        raise FileNotFoundError(f"The font package {package} is not installed; run `make setup`.")
    return Path(spec.origin).parent


def font_files() -> dict[str, bytes]:
    """The fonts by the name under which the style sheets know them, with their licence."""
    files = {
        name: (package_folder(p) / "files" / f).read_bytes() for name, (p, f) in _FONTS.items()
    }
    files[_LICENCE[0]] = (package_folder(_LICENCE[1]) / _LICENCE[2]).read_bytes()
    return files


def _static(folder: Path) -> Iterator[tuple[str, bytes]]:
    if folder.is_dir():
        for path in sorted(folder.rglob("*")):
            if path.is_file() and not leads_elsewhere(path) and path.suffix.casefold() in _KINDS:
                yield path.relative_to(folder).as_posix(), path.read_bytes()


def _with_cut_fonts(files: dict[str, bytes]) -> dict[str, bytes]:
    """The cut fonts go into the style sheet instead of beside it.

    A font that is fetched by itself comes after the first lines are laid out, and those move when
    it does; a hint to fetch it early (a preload) is refused with a complaint when a page is opened
    as a file.
    """
    style = files["assets/sheet.css"]
    for name in [name for name in files if name.endswith(".woff2")]:
        address = f'url("{name.removeprefix("assets/")}")'.encode()
        if address in style:
            style = style.replace(
                address, b'url("data:font/woff2;base64,' + b64encode(files.pop(name)) + b'")'
            )
    return {**files, "assets/sheet.css": style}


_TYPE = re.compile(rb"/\*\* @[^*]*\*/ ?")  # what a name is, said for the type checker alone


def lean_script(text: bytes) -> bytes:
    """A script of ours as it is published: without indentation, without types, and without lines
    that are a comment alone. Lines stay lines, so that nothing is joined; a text in backticks stays
    on one line.
    """
    lines = (_TYPE.sub(b"", line).strip() for line in text.splitlines())
    return b"\n".join(line for line in lines if line and not line.startswith(b"//")) + b"\n"


def asset_files(workspace_static: Path | None = None) -> dict[str, bytes]:
    """All assets by address; a workspace's own files take the place of ours."""
    files = {f"assets/{name}": content for name, content in font_files().items()}
    for name, content in _static(template_folder() / "static"):
        files[f"assets/{name}"] = lean_script(content) if name.endswith(".js") else content
    if workspace_static is not None:
        files.update({f"assets/{name}": content for name, content in _static(workspace_static)})
    return _with_cut_fonts(files)
