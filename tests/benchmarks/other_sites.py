"""Sites of the same number of pages and bytes, made by two general site generators that are
installed for it.
"""

import sys
from collections.abc import Iterator
from pathlib import Path
from shutil import rmtree

from tests.benchmarks.measured import ROOT, Line, Took, at_most, took

BENCH = ROOT / ".venv-bench" / "bin"
_PARAGRAPH = (
    "The weir stands *low* in a dry summer and **high** after rain; see [the log](index.html) for"
    " the day. "
)
_ROW = "| motor screw | M2 x 6 | 16 | 0.21 g | 3.36 g |\n"
_HEAD = "| what | size | count | each | all |\n|---|---|---|---|---|\n"


def _body(size: int) -> str:
    """Text of about so many bytes of HTML: a third of prose, the rest rows of tables, as a sheet
    has them.
    """
    prose = max(size // 3 // len(_PARAGRAPH), 1)
    rows = max(2 * size // 3 // 125, 1)  # a row becomes about 125 bytes of HTML
    text = "".join(f"## Part {n}\n\n{_PARAGRAPH * 4}\n\n" for n in range(prose // 4 + 1))
    return text + "".join("\n" + _HEAD + _ROW * 20 for _ in range(rows // 20 + 1))


def _pelican(folder: Path, pages: int, size: int) -> Took:
    content = folder / "content"
    content.mkdir(parents=True)
    for n in range(pages):
        (content / f"page-{n}.md").write_text(
            f"Title: Page {n}\nDate: 2026-10-01\nSlug: page-{n}\n\n{_body(size)}"
        )
    settings = [
        "SITENAME='x'",
        "DEFAULT_PAGINATION=False",
        "FEED_ALL_ATOM=None",
        "CATEGORY_FEED_ATOM=None",
    ]
    settings += [
        "THEME='simple'",
        "DIRECT_TEMPLATES=['index']",
        "AUTHOR_SAVE_AS=''",
        "TIMEZONE='UTC'",
        "PATH='content'",
    ]
    settings += ["TRANSLATION_FEED_ATOM=None", "CATEGORY_SAVE_AS=''"]
    (folder / "conf.py").write_text("\n".join(settings) + "\n")
    return took([str(BENCH / "pelican"), "-q", "-s", "conf.py", "-o", "out", "content"], cwd=folder)


def _hugo(folder: Path, pages: int, size: int) -> Took:
    content, layouts = folder / "content", folder / "layouts" / "_default"
    content.mkdir(parents=True)
    layouts.mkdir(parents=True)
    for n in range(pages):
        (content / f"page-{n}.md").write_text(
            f"---\ntitle: Page {n}\ndate: 2026-10-01\n---\n{_body(size)}"
        )
    page = "<!doctype html><title>{{ .Title }}</title><h1>{{ .Title }}</h1>{{ .Content }}"
    (layouts / "single.html").write_text(page)
    (layouts / "list.html").write_text(
        "<!doctype html><ul>{{ range .Pages }}<li>{{ .Title }}</li>{{ end }}</ul>"
    )
    (folder / "hugo.toml").write_text(
        "baseURL='https://x.example/'\ntitle='x'\ndisableKinds=['taxonomy','term','RSS']\n"
    )
    return took(
        (
            [str(BENCH / "python"), "-m", "hugo"]
            if not (BENCH / "hugo").exists()
            else [str(BENCH / "hugo")]
        ),
        cwd=folder,
    )


def _made(folder: Path) -> tuple[int, int]:
    pages = [p.stat().st_size for p in folder.rglob("*.html")]
    return len(pages), sum(pages)


def side_by_side(folder: Path, site: Path, clean: float, one_edit: float) -> Iterator[Line]:
    """Both generators on as many pages and bytes as our site has; `clean` and `one_edit` are our
    seconds.
    """
    if not (BENCH / "pelican").exists():
        yield Line("Pelican and Hugo", "not installed", "make bench installs them")
        return
    pages, size = _made(site)
    yield Line("our site: HTML pages, bytes", f"{pages}, {size / 1e6:.0f} MB")
    for name, make, out in (("Pelican", _pelican, "out"), ("Hugo", _hugo, "public")):
        home = folder / name
        did = make(home, pages, size // pages)
        got_pages, got_size = _made(home / out)
        yield Line(
            f"{name}: pages, bytes, wall", f"{got_pages}, {got_size / 1e6:.0f} MB, {did.wall:.1f} s"
        )
        if name == "Pelican":
            yield at_most("our clean time over Pelican's", clean / did.wall, 0.25, "x", 3)
        else:
            yield at_most("one build edited over Hugo's whole site", one_edit / did.wall, 1, "x", 3)
            yield Line("our clean time over Hugo's", f"{clean / did.wall:.1f} x")
        rmtree(home)
    sys.stdout.flush()
