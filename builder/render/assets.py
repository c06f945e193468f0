"""Style sheet, scripts, icon and fonts as files under `assets/`. Fonts come from packages, never from the system."""

from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

from builder.render.html import template_folder

_FONTS = {
    "leaf-regular.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-Regular.ttf"),
    "leaf-italic.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-Italic.ttf"),
    "leaf-bold.ttf": ("fontpkg_ibm_plex_sans_condensed", "IBMPlexSansCondensed-SemiBold.ttf"),
    "leaf-mono.ttf": ("fontpkg_ibm_plex_mono", "IBMPlexMono-Regular.ttf"),
}
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
    files = {name: (package_folder(p) / "files" / f).read_bytes() for name, (p, f) in _FONTS.items()}
    files[_LICENCE[0]] = (package_folder(_LICENCE[1]) / _LICENCE[2]).read_bytes()
    return files


def _static(folder: Path) -> Iterator[tuple[str, bytes]]:
    if folder.is_dir():
        for path in sorted(folder.rglob("*")):
            if path.is_file() and not path.is_symlink() and path.suffix.casefold() in _KINDS:
                yield path.relative_to(folder).as_posix(), path.read_bytes()


def asset_files(workspace_static: Path | None = None) -> dict[str, bytes]:
    """All assets by address; a workspace's own files take the place of ours."""
    files = {f"assets/{name}": content for name, content in font_files().items()}
    for folder in (template_folder() / "static", workspace_static):
        if folder is not None:
            files.update({f"assets/{name}": content for name, content in _static(folder)})
    return files
