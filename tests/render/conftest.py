"""A made-up page that holds every kind of block, and a site for it. Everything on it is invented."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from builder.diagnostics.finding import Signal
from builder.pages.blocks import (
    Block,
    Bullets,
    Cell,
    ChapterText,
    Column,
    Facts,
    Fold,
    Forward,
    Forwards,
    GateBar,
    Illustration,
    Markdown,
    Notice,
    Number,
    Page,
    Paragraph,
    Picture,
    Prose,
    Row,
    Section,
    Side,
    Span,
    Step,
    Steps,
    Swatch,
    Table,
    Thumbnail,
    Tick,
    TwoStacks,
    WriteIn,
)
from builder.pages.drawing import Circle, Drawing, Line, Rectangle, Shape, Words
from builder.pages.paper.bench_sheet import bench_sheet
from builder.pages.site.site_pages import SitePages, site_pages
from builder.pipeline.check import Checked
from builder.render.html.page import Renderer, template_texts
from builder.render.paper.pdf import bench_sheet_pdf
from tests.made_once import made_once

PAYLOAD = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>&amp;"


def made_up_drawing(name: str, words: str) -> Drawing:
    """A board with two wires, holding every kind of shape."""
    items = (
        Rectangle(6, 6, 38, 30, "fill", 2.0, title=f"board {words}"),
        Rectangle(10, 10, 4, 2, "pad", link="#pins"),
        Circle(25, 21, 3, "accent", title="middle"),
        Line(((12, 11), (60, 11), (60, 24)), colour="red", width=0.9, title="red wire"),
        Line(((44, 30), (70, 30)), colour="black", width=0.9, dash="2 1"),
        Line(((44, 33), (70, 33)), colour="white", width=0.9),
        Shape("M 25 6 L 23 3 L 27 3 Z", "accent"),
        Words(47, 10, words, 3.0),
        Words(3, 36, "GND1", 2.4, "middle", "mono", -90, "#pins"),
    )
    return Drawing(name, 90, 42, items, f"A board seen from above, its arrow up. {words}")


def _notices(words: str) -> tuple[Block, ...]:
    signals = tuple(
        Notice(
            s,
            f"Hot iron, {s.value.casefold()} {words}",
            (Span("Set it down in its stand. "), Span(words)),
            f"c-{s}",
        )
        for s in Signal
    )
    fault = Notice(
        None, f"Transmit meets transmit {words}", (Span(words),), "f-1", "wiring/tx-to-tx", "fault"
    )
    accepted = Notice(
        None,
        "Over its rating",
        (Span("Accepted by the builder: gently."),),
        code="pack/x",
        tone="accepted",
    )
    return (*signals, fault, accepted, Notice(None, "Worth knowing", (), tone="remark"))


def _weights(words: str) -> Table:
    columns = (
        Column("Part"),
        Column("Pieces", align="right", narrow=True),
        Column("Together", "g", "right"),
        Column("Basis"),
    )
    rows = (
        Row((Cell((Span("Propulsion"),)),), "group"),
        Row(
            (
                Cell((Span(f"Motor {words}", "parts/motor/index.html"),), note=words),
                Cell((Span("4"),), sort=4),
                Cell((Number("36.4", "", "± 0.3", "n-motor", "computed"),), sort=0.0364),
                Cell((Span("measured"),), tone="good"),
            ),
            anchor="motor",
            data={"key": words},
        ),
        Row(
            (
                Cell((Span("propulsion"),)),
                Cell(),
                Cell((Number("36.4"),)),
                Cell((Span("over"),), tone="bad"),
            ),
            "subtotal",
        ),
        Row(
            (
                Cell((Span("Dry weight"),)),
                Cell(),
                Cell((Number("176.5", prefix="at least"),)),
                Cell(),
            ),
            "total",
        ),
    )
    return Table(
        f"Weight by part {words}",
        columns,
        rows,
        "weights",
        True,
        f"A spread is one sigma. {words}",
        True,
    )


def _pins(words: str) -> Table:
    columns = (
        Column("Pin"),
        Column("Role"),
        Column("Level", "V", "centre"),
        Column("Wire"),
        Column("Done"),
    )
    rows = tuple(
        Row(
            (
                Cell((Span(pin, code=True),)),
                Cell((Span("sends to the receiver's listening pad"),), tone="quiet"),
                Cell((Number("3.3", "V", anchor="n-level", basis="maker", build="other"),)),
                Cell(
                    (
                        Swatch(colour, letters),
                        Thumbnail("dipper/wedge.svg", f"The wedge, small {words}"),
                    )
                ),
                Cell((Tick(f"pin-{pin}", f"{pin} {words}"),)),
            )
        )
        for pin, colour, letters in (
            ("TX2", "yellow", "YE"),
            ("RX2", "green", "GN"),
            ("GND1", "black", "BK"),
            ("5V1", "red", "RD"),
        )
    )
    return Table("Pins", columns, rows, "pins", True)


def _work(words: str) -> Steps:
    caution = Notice(Signal.WARNING, f"Propellers off {words}", (Span("A motor may turn."),))
    return Steps(
        (
            Step(
                "1",
                "step-one",
                (Span(f"Tin pad VIN {words} "), Markdown(f"with **fresh** solder {words}")),
                (("side", (Span("top"),)), ("", (Span(f"wide tip {words}"),))),
                f"Heat spreads {words}",
                (WriteIn("v-5", f"5V rail {words}", "V", "4.85 to 5.15 V"),),
                "step-one",
                Picture("dipper/wedge.svg", f"The wedge {words}", f"Slide it in {words}", 640, 480),
                (caution,),
            ),
            GateBar(
                f"Gate 1 {words}",
                "Limited to 200 mA. Nothing goes on below before this has passed.",
                "gate-1",
            ),
            Step("2", "step-two", (Span("Plug the pack in."),)),
        )
    )


def made_up_page(words: str = "", kind: str = "sheet") -> Page:
    """A page with every block; `words` is put wherever text may come from a person."""
    first = (
        Facts(
            (
                ("Dry weight", Cell((Number("176.5", "g", "± 0.2", "n-dry"),))),
                (
                    "All-up, small",
                    Cell((Number("249.0", "g", "± 0.1", "n-all"),), note=f"0.9 g left {words}"),
                ),
                ("Flight, small", Cell((Number("6.4", "min", "± 0.5", "n-air"),))),
                ("Parts", Cell((Span("312.40 EUR"),))),
            ),
            large=True,
        ),
        Facts(
            (
                ("Frame", Cell((Span(f"Slip 3 {words}"),), tone="quiet")),
                ("Rotors", Cell((Span("4"),))),
            )
        ),
        Paragraph((Span(f"A lead paragraph {words}", strong=True),), lead=True),
        Paragraph(
            (Span("Quiet words with "), Span("a link", "https://shop.example/a", rel="sponsored")),
            quiet=True,
        ),
        *_notices(words),
    )
    drawing = Illustration(
        made_up_drawing("board", words), f"The board {words}", "drawing", wide=True
    )
    wiring = (
        drawing,
        Side(Illustration(made_up_drawing("second", words), "Beside its pins"), _pins(words)),
        TwoStacks((Paragraph((Span(words),)),), (Paragraph((Span("second stack"),)),)),
        Section(
            "cut",
            f"Cut list {words}",
            (Prose(f"Cut **long** ends.\n\n- one\n- two\n\n{words}"),),
            3,
            True,
        ),
    )
    lists = (
        Bullets(((Span(f"one {words}"),), (Markdown(f"*two* {words}"),)), ordered=True),
        Bullets(((Span("open"),),)),
        ChapterText(
            f"## Why {words}\n\nDry {{figure:mass/dry}}, [a step](step:tin) {words}\n",
            {"mass/dry": Number("176.5", "g", "", "n-dry")},
            {"step:tin": "dipper/work/index.html#step-one"},
        ),
        Fold(f"More {words}", (Paragraph((Span(words or "folded"),)),)),
        Forwards(
            (
                Forward("upkeep", f"Upkeep {words}", "dipper/flight/index.html#upkeep"),
                Forward("setup", "Setup", "dipper/setup/index.html#setup", ("setup-", "radio-")),
            )
        ),
        Picture("dipper/top.svg", f"Top view {words}"),
    )
    sections = (
        Section("glance", f"At a glance {words}", first),
        Section("weight", "Weight", (_weights(words),)),
        Section("wiring", "Wiring", wiring),
        Section("work", "Order of work", (_work(words),)),
        Section("rest", "Questions", lists),
    )
    return Page(
        "dipper/index.html",
        kind,  # type: ignore[arg-type]
        f"Dipper 3 {words}",
        f"A small camera aircraft for looking into weirs, kept under 250 g. {words}",
        sections,
        "dipper",
        "2026-10-04",
        "flying",
        True,
        breadcrumbs=(Span(f"All builds {words}", "index.html"),),
        links=(Span("Bench sheet (PDF)", "dipper/bench-sheet.pdf"),),
        data={
            "bench": {"words": words},
            "tools": (f"iron {words}",),
            "supplies": ("solder",),
            "builds": (("dipper", f"Dipper {words}"),),
        },
    )


@pytest.fixture
def site() -> SitePages:
    return SitePages(
        title="Quill bench",
        author="The bench group",
        address="https://quill.example/b",
        language="en",
        invented=True,
        disclosure="Links to shops lead nowhere.",
        about="Who we are.",
        paper="A4",
        currency="EUR",
        generator="Benchleaf 0",
        navigation=(
            ("Builds", "index.html"),
            ("Compare", "compare/index.html"),
            ("Rules", "rules/index.html"),
        ),
    )


@pytest.fixture
def payload() -> str:
    return PAYLOAD


@pytest.fixture
def page_of() -> Callable[..., Page]:
    return made_up_page


@pytest.fixture
def drawing_of() -> Callable[[str, str], Drawing]:
    return made_up_drawing


@pytest.fixture
def renderer() -> Renderer:
    return Renderer(template_texts(None))


@pytest.fixture(scope="session")
def printed_sheet(
    tmp_path_factory: pytest.TempPathFactory, demo: Checked
) -> Callable[[str, str], bytes]:
    """The bench sheet of a demo build on some paper, without its photographs: each is printed once
    for all workers of a run.
    """

    def printed(name: str, paper: str) -> bytes:
        def make(folder: Path) -> None:
            sheet = demo.sheets[name]
            site = replace(site_pages(demo.workspace.site), paper=paper)
            page = bench_sheet(sheet, site, sheet.build.digest)
            (folder / "sheet.pdf").write_bytes(bench_sheet_pdf(page, site, template_texts(None)))

        return (made_once(tmp_path_factory, f"{name}-{paper}", make) / "sheet.pdf").read_bytes()

    return printed
