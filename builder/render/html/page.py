"""A page as HTML bytes: the frame is a Jinja template, its blocks come from block_html."""

import os
from collections.abc import Mapping
from functools import lru_cache
from pathlib import Path

from jinja2 import (
    DictLoader,
    Environment,
    StrictUndefined,
    TemplateError,
    TemplateSyntaxError,
    select_autoescape,
)
from markupsafe import Markup

import builder
from builder.pages.blocks import Page, Section
from builder.pages.site.card import card_address
from builder.pages.site.site_pages import SitePages
from builder.render.html.block_html import blocks_html
from builder.render.html.drawn_once import drawn_once
from builder.render.html.escaped import attribute, bound
from builder.render.html.inline_html import HtmlContext
from builder.render.html.json_ld import structured_data
from builder.render.html.policy import POLICY
from builder.render.html.title_block import title_block
from builder.system.links import leads_elsewhere

# What the code in a template may raise: it divides by nothing, adds words to numbers, includes
# itself.
_ERRORS_OF_CODE = (
    ArithmeticError,
    AttributeError,
    LookupError,
    RecursionError,
    TypeError,
    ValueError,
)
PAGES_IN = "en"  # the language of all that the program says (BCP 47)
_OF_BUILD = (
    "sheet",
    "topic",
    "buy",
    "guide",
    "chapter",
    "bench",
    "paper",
)  # kinds of pages whose numbers open on the page of numbers
_LARGEST = 40 * 2**20  # bytes of a file in a workspace's templates, fonts and pictures among them


def template_folder() -> Path:
    """Where our templates lie: inside the package when installed, beside it in a checkout."""
    inside = Path(builder.__file__).resolve().parent / "templates"
    return inside if inside.is_dir() else inside.parent.parent / "templates"


class BadTemplate(ValueError):
    """A template that cannot be used, and why. A workspace's own templates are code, so they can be
    wrong as code is.
    """


def _read_template(path: Path) -> str:
    try:
        if not path.is_file():  # a folder, or a pipe that would be waited for
            raise BadTemplate(f"templates/{path.name} is no plain file")
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadTemplate(f"templates/{path.name} cannot be read: {error}") from error


def check_templates(texts: Mapping[str, str]) -> None:
    """BadTemplate for one that is not written as templates are."""
    for name in texts:
        try:
            environment(texts).get_template(name)
        except TemplateSyntaxError as error:
            raise BadTemplate(
                f"templates/{error.name}, line {error.lineno}: {error.message}"
            ) from error


def refuse_links(own: Path) -> None:
    """BadTemplate where a workspace's templates, or one of them, is a link out of the workspace or
    too large to be read.

    What it leads to would be published; a workspace may come from a stranger, with a file of a
    terabyte that holds nothing.
    """
    home = os.path.join(os.path.realpath(own.parent), "")  # noqa: PTH118 - with its last slash
    for path in (own, own / "static", *sorted(own.glob("*.html"))):
        if leads_elsewhere(path) and not os.path.realpath(path).startswith(home):
            name = "templates" if path == own else f"templates/{path.name}"
            raise BadTemplate(
                f"{name} is a link that leads out of the workspace; put the files themselves there"
            )
    try:
        sizes = {p: p.stat().st_size for p in sorted(own.rglob("*")) if p.is_file()}
    except OSError as error:  # folders so deep that no name reaches them
        raise BadTemplate(f"templates cannot be read: {error.strerror}") from error
    for path, size in sizes.items():
        if size > _LARGEST:
            name = path.relative_to(own).as_posix()
            raise BadTemplate(
                f"templates/{name} is {size} bytes long; at most {_LARGEST} are taken"
            )


def template_texts(workspace: Path | None) -> dict[str, str]:
    """All templates by name; a workspace's own ones take the place of ours. BadTemplate for one
    that cannot be read.
    """
    texts: dict[str, str] = {}
    for folder in (template_folder(), workspace):
        if folder is not None and folder.is_dir():
            for path in sorted(folder.glob("*.html")):
                texts[path.name] = _read_template(path)
    return texts


def environment(texts: Mapping[str, str]) -> Environment:
    """The template engine over these texts; what a template does not define is an error."""
    return _environment(tuple(sorted(texts.items())))


@lru_cache(maxsize=4)
def _environment(texts: tuple[tuple[str, str], ...]) -> Environment:
    """Kept, because compiling the templates takes longer than most pages."""
    made = Environment(
        loader=DictLoader(dict(texts)),
        autoescape=select_autoescape(default=True),
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
    )
    made.filters["bound"] = lambda words: Markup(bound(words))
    return made


def language_of_writer(site: SitePages) -> str:
    """The language of the writer's own text where it is another than that of the pages; else ''."""
    return "" if site.language.casefold().split("-")[0] == PAGES_IN else site.language


def _is_written(page: Page) -> bool:
    """Whether the lines under the title are the writer's: on the sheet and the front page."""
    return page.kind in ("front", "chapter") or page.address == f"{page.build}/index.html"


def contents_of(page: Page) -> tuple[tuple[str, str, int], ...]:
    """Anchor, heading and depth of what a page lists at its head: its sections, and on a topic page
    those within them.
    """
    out: list[tuple[str, str, int]] = []
    for section in page.sections:
        if section.role == "moved" or not section.heading:
            continue
        out.append((section.anchor, section.heading, 0))
        within = (b for b in section.blocks if isinstance(b, Section) and b.level == 3)
        if page.kind in ("topic", "chapter"):
            out += [(b.anchor, b.heading, 1) for b in within]
    return tuple(out)


class Renderer:
    """Renders pages with one set of templates."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self._environment = environment(texts)

    def page(
        self,
        page: Page,
        site: SitePages,
        lacks: frozenset[str] = frozenset(),
        sizes: Mapping[str, tuple[int, int]] | None = None,
    ) -> bytes:
        """One page as UTF-8 bytes. Nothing leads to the addresses that the site `lacks`; photographs
        of which the width and height are known come in more than one width.
        """
        # A page for wrong addresses is served at any depth, so only a full path leads out of it.
        missing = page.kind == "missing"
        root = site.path if missing else "../" * page.address.count("/")
        deeper = "../" * (page.address.count("/") - 1)  # out of a folder below the build's
        numbers = f"{deeper}numbers/index.html" if page.kind in _OF_BUILD else ""
        language = language_of_writer(site)
        where = HtmlContext(
            root,
            page.build,
            numbers,
            kind=page.kind,
            language=language,
            lacks=lacks,
            sizes=sizes or {},
        )
        template = (
            f"{page.kind}.html"
            if f"{page.kind}.html" in self._environment.list_templates()
            else "page.html"
        )
        canonical = (
            f"{site.address}/{page.address.removesuffix('index.html')}" if site.address else ""
        )
        card = (
            f"{site.address}/{card_address(page.build)}"
            if site.address and page.kind in _OF_BUILD
            else ""
        )
        body = drawn_once(blocks_html(page.sections, where))
        structured = structured_data(page, site)
        try:
            text = self._environment.get_template(template).render(
                page=page,
                links=[link for link in page.links if link.link not in lacks],
                site=site,
                root=root,
                canonical=canonical,
                picture=card,
                href=where.href,
                body=body,
                contents=contents_of(page),
                structured=structured,
                policy=POLICY,
                title_block=title_block(page, site),
                language_of_writer=Markup(attribute("lang", language)),
                summary_is_written=_is_written(page),
            )
        except TemplateError as error:
            raise BadTemplate(f"templates/{template}: {error}") from error
        except _ERRORS_OF_CODE as error:
            raise BadTemplate(f"templates/{template}: {type(error).__name__}: {error}") from error
        return text.encode()
