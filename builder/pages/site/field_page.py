"""The field reference: every key that a person may write, made from the model's own words."""

from collections.abc import Iterator

from builder.model.kinds import KINDS
from builder.model.site import Site
from builder.model.source.build_source import BuildSource
from builder.model.source.describe import (
    Choice,
    Either,
    Group,
    Key,
    ListOf,
    MapOf,
    OneText,
    Value,
    group,
)
from builder.pages.blocks import Cell, Page, Paragraph, Row, Section, Span, Table
from builder.pages.guide.guide_format import guide_format
from builder.pages.rows import table_columns, table_row
from builder.pages.rule_address import with_codes
from builder.pages.site.map_page import map_section
from builder.rules.field_register import markdown_in, read_by

_COLUMNS = table_columns("Key", "What it says", "Written as", "Read by")
_FILES = (
    (
        "site",
        "site.yaml",
        "Who publishes, and the settings that every build is checked with.",
        Site,
    ),
    (
        "build",
        "build.yaml",
        "One aircraft. A variant names its base and says only what differs.",
        BuildSource,
    ),
)


def _words(name: str) -> str:
    """`ExchangeRate` as people say it: exchange rate."""
    return "".join(f" {c.lower()}" if c.isupper() else c for c in name).strip()


def _read(name: str) -> str:
    """The same as it is read: the flight battery is called so, though its key is pack."""
    return _words(name).replace("pack", "battery")


def _anchor(name: str) -> str:
    return "keys-of-" + _words(name).replace(" ", "-")


def _one(value: OneText) -> tuple[Span, ...]:
    if not value.example:
        return (Span(value.what),)
    like = (Span(f"{value.what}, like "), Span(value.example, code=True))
    return (*like, Span(f"; taken is {value.bounds}: {value.why}")) if value.bounds else like


def _written(value: Value) -> tuple[Span, ...]:
    """What may stand there, in words."""
    if isinstance(value, OneText):
        return _one(value)
    if isinstance(value, Choice):
        words = [Span(w, code=True) for w in value.words]
        return tuple(
            piece for i, w in enumerate(words) for piece in ((Span(", "), w) if i else (w,))
        )
    if isinstance(value, ListOf):
        return (Span("one, or a list: " if value.or_one else "a list: "), *_written(value.item))
    if isinstance(value, MapOf):
        return (Span("by name: "), *_written(value.item))
    if isinstance(value, Either):
        pieces: tuple[Span, ...] = ()
        for each in value.values:
            pieces += ((Span("; or "),) if pieces else ()) + _written(each)
        return pieces
    link = Span(f"keys of {_read(value.name)}", "#" + _anchor(value.name))
    return (link, Span("; or "), *_written(value.short)) if value.short is not None else (link,)


def _row(owner: str, key: Key) -> Row:
    name = (Span(key.name, code=True), *((Span(" required"),) if key.required else ()))
    words = key.words[:1].upper() + key.words[1:]
    read = Cell(with_codes(read_by(owner, key.name)))
    prose = markdown_in(owner, key.name)
    written = (*_written(key.value), *((Span(f"; {prose}"),) if prose else ()))
    cells = (Cell(name), Cell(with_codes(words)), Cell(written), read)
    return Row(cells, anchor=f"field-{_words(owner).replace(' ', '-')}-{key.name}")


def _table(value: Group, keys: tuple[Key, ...], caption: str) -> Table:
    return Table(caption, _COLUMNS, tuple(_row(value.name, k) for k in keys), stack=True)


def _groups(value: Value) -> Iterator[Group]:
    """The groups inside a value, itself first."""
    if isinstance(value, Group):
        yield value
        for key in value.keys:
            yield from _groups(key.value)
    elif isinstance(value, ListOf | MapOf):
        yield from _groups(value.item)
    elif isinstance(value, Either):
        for each in value.values:
            yield from _groups(each)


def _sections(top: Group, shown: set[str]) -> Iterator[Section]:
    for found in _groups(top):
        if found.name not in shown:
            shown.add(found.name)
            about = Paragraph((Span(found.about),))
            title = _read(found.name).capitalize()
            body = (about, _table(found, found.keys, f"Keys of {_read(found.name)}"))
            yield Section(_anchor(found.name), title, body, 3)


def _kinds(shown: set[str]) -> Section:
    """The shelf: what every part may say, then what each kind adds."""
    common = group(KINDS["other"])
    shared = {k.name for k in common.keys}
    words = (
        "Parts by name, each described once. All keys but kind and name may be left out; a rule"
        " that lacks one says so."
    )
    inside: list[Section] = [
        Section(
            _anchor("Part"), "Every part", (_table(common, common.keys, "Keys of every part"),), 3
        )
    ]
    shown.add(common.name)
    kinds = [(kind, group(cls)) for kind, cls in KINDS.items() if kind != "other"]
    for kind, found in kinds:
        own = tuple(k for k in found.keys if k.name not in shared)
        shown.add(found.name)
        body = (_table(found, own, f"Keys of {kind}"),) if own else ()
        inside.append(
            Section(_anchor(found.name), kind, (Paragraph((Span(found.about),)), *body), 3)
        )
    for _, found in [("other", common), *kinds]:
        inside += _sections(found, shown)
    return Section("file-shelf", "shelf/*.yaml", (Paragraph((Span(words),)), *inside))


def field_page() -> Page:
    """Every key of the three files."""
    shown: set[str] = set()
    files = []
    for name, file, words, model in _FILES:
        inside = tuple(_sections(group(model), shown))
        files.append(Section(f"file-{name}", file, (Paragraph((Span(words),)), *inside)))
        if name == "site":
            files.append(_kinds(shown))
    schemas = [Span("The same as JSON Schema, for editors: ")]
    for name in ("build", "shelf", "site", "sheet"):
        schemas += [
            Span(f"{name}.json", f"schema/{name}.json"),
            Span(", " if name != "sheet" else "."),
        ]
    about = Section("about", "How values are written", (_HOW, Paragraph(tuple(schemas))))
    count = sum(len(_rows(s)) for s in files)
    changed = Section("what-changed", "What changed in the format", (_CHANGED,))
    summary = f"The {count} keys that build files, shelf files and site settings may hold."
    crumbs = (Span("All builds", "index.html"),)
    return Page(
        "fields/index.html",
        "fields",
        "File format",
        summary,
        (about, guide_format(), map_section(), changed, *files),
        breadcrumbs=crumbs,
    )


def _change(old: str, new: str, why: str) -> Row:
    return table_row(Cell((Span(old, code=True),)), Cell((Span(new, code=True),)), why)


_CHANGED = Table(
    "Keys that are written in another way now",
    table_columns("Before", "Now", "Why"),
    (
        _change(
            "accept: {pack/discharge-limit: why}",
            "accept: [{rule: pack/discharge-limit, at: pack-6s-1100-old, up_to: 90 A, because: why}]",
            "What is accepted holds at one place and up to one figure; the finding says both.",
        ),
        _change(
            "fail_safe: {does: motors stop, until ...}",
            "fail_safe: {does: motors stop, note: until ...}",
            "What it does is one of four words, so that it can be checked; the rest is a note.",
        ),
        _change(
            "material: nylon 6 (of hardware)",
            "material: nylon",
            "What holds a motor or a propeller is checked by its material.",
        ),
        _change(
            "covers: [controller] (of a coating)",
            "coats: [controller]",
            "What is coated is named, and not read out of the text of the step.",
        ),
        _change(
            "idle_throttle: 5 percent",
            "idle_throttle: 5 %",
            "Motors that turn fast at rest cut a hand, so it is checked.",
        ),
        _change(
            "name: Shrink sleeve (of hardware)",
            "form: sleeve",
            "A sleeve, a nut and a strap are told by their form, not by their name.",
        ),
        _change(
            "replaced: [rear arm] (of incidents, maintenance)",
            "replaced: [frame]",
            "What was replaced is a part of the build, a piece of one, or a part of the shelf; the rest is a note.",
        ),
    ),
    stack=True,
)


def _rows(section: Section) -> list[Row]:
    found: list[Row] = []
    for block in section.blocks:
        if isinstance(block, Section):
            found += _rows(block)
        elif isinstance(block, Table):
            found += block.rows
    return found


_HOW = Paragraph(
    (
        Span("Quantities are text with a unit, and may state a spread of one standard deviation: "),
        Span("14.3 ± 0.2 g", code=True),
        Span(". A mass or resistance may say its basis: "),
        Span("{maker: 16.0 g, measured: 16.4 g}", code=True),
        Span(
            "; what was measured wins, and both are shown. What lies outside what is taken is a"
            " mistake at its place."
        ),
    ),
    lead=True,
)
