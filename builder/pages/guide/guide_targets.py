"""What the chapters of a build may name, and where each name leads: steps, parts, files, figures."""

from builder.compute.order.work_order import Plan
from builder.model.build import Build
from builder.pages.guide.whose_words import writer_of
from builder.pages.page_map import WORK, address_of, page_address
from builder.pages.sheet_input import SheetInput
from builder.pages.tables.part_numbers import pack_key, part_anchor, part_numbers
from builder.pages.work.step_anchors import step_anchors
from builder.rules.data._guide_names import GuideNames


def _steps(sheet: SheetInput) -> dict[str, str]:
    """The address of each step by its name, and by its name with hyphens for blanks."""
    plan = sheet.results.order
    if not isinstance(plan, Plan):
        return {}
    page = page_address(sheet.build.name, WORK)
    there = {step: f"{page}#{anchor}" for step, anchor in step_anchors(plan).items()}
    there |= _gates(sheet, page)
    return {name.replace(" ", "-"): link for name, link in there.items()} | there


def _gates(sheet: SheetInput, page: str) -> dict[str, str]:
    """The address of each gate, which is a procedure of its own; the last one has two names."""
    gates = sheet.results.gates
    found = {f"gate {g.letter}": f"{page}#gate-{g.letter.lower()}" for g in gates}
    if not found:
        return {}
    *_, last = found.values()
    return {**found, "last gate": last}


def _parts(sheet: SheetInput) -> dict[str, str]:
    """The page of each part by its key in the build, and of each battery."""
    build = sheet.build
    packs = {key: f"parts/{pack.shelf}/index.html" for key, pack in build.packs.items()}
    return packs | {key: f"parts/{f.shelf}/index.html" for key, f in build.parts.items()}


def part_rows(sheet: SheetInput) -> dict[str, str]:
    """The anchor of the row of each part and battery in the table of parts."""
    numbers = part_numbers(sheet.build)
    keys = {key: key for key in sheet.build.parts} | {k: pack_key(k) for k in sheet.build.packs}
    return {key: part_anchor(numbers[key_there]) for key, key_there in keys.items()}


def _figures(sheet: SheetInput) -> dict[str, str]:
    """The whole key of each figure by that key, and without the build's name."""
    keys = [*sheet.keys, *(u.key for u in sheet.unknown)]
    start = f"{sheet.build.name}/"
    return {key.removeprefix(start): key for key in keys} | {key: key for key in keys}


def _files(build: Build) -> dict[str, str]:
    """The address of each file that a build gives along."""
    return {f.name: f"{build.name}/files/{f.name}" for f in build.source.files}


def guide_names(sheet: SheetInput) -> GuideNames:
    """All names that there are."""
    chapters = {c.name: c.page for c in sheet.guide}
    files = _files(writer_of(sheet)) | _files(sheet.build)
    by_kind = {
        "figure": _figures(sheet),
        "step": _steps(sheet),
        "part": _parts(sheet),
        "chapter": chapters,
        "files": files,
    }
    return GuideNames(by_kind, {c.name: [h.anchor for h in c.headings] for c in sheet.guide})


def changes_address(build: str) -> str:
    """Where the changes of a build are listed."""
    return address_of(build, "changes")
