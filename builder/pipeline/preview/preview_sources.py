"""What the preview read last."""

import hashlib
from dataclasses import dataclass, field
from functools import cached_property

from builder.diagnostics.finding import Finding
from builder.load.files import Loaded
from builder.model.build import Build
from builder.model.guide.chapter import GuideChapter
from builder.model.read.workspace import Workspace
from builder.pages.compare.pairs import pairs_to_compare
from builder.pages.site.site_pages import SitePages
from builder.pipeline.beside.guides import GuideSource


@dataclass(frozen=True, eq=False)
class PreviewSources:
    """What was read last; builds that cannot be read now are those that could be read before."""

    loaded: Loaded
    model: Workspace
    builds: dict[str, Build]
    site: SitePages
    texts: dict[str, str]
    assets: dict[str, bytes]
    turn: int  # how often the sources were read
    guides: dict[str, GuideSource] = field(default_factory=dict)
    chapters: dict[str, tuple[GuideChapter, ...]] = field(default_factory=dict)

    @cached_property
    def shared(self) -> str:
        """What every page depends on besides its own."""
        return hashlib.sha256(repr((self.site, sorted(self.texts.items()))).encode()).hexdigest()

    @cached_property
    def pairs(self) -> tuple[tuple[str, str], ...]:
        """Which builds are put side by side."""
        return pairs_to_compare(
            self.builds,
            {n: b.source.based_on or "" for n, b in self.builds.items()},
            self.model.site.compare,
        )


def preview_chapters(
    guides: dict[str, GuideSource], old: PreviewSources | None
) -> dict[str, tuple[GuideChapter, ...]]:
    """The chapters of each build; one with a mistake as it was before it had that."""
    made: dict[str, tuple[GuideChapter, ...]] = {}
    for name, source in guides.items():
        before = old.chapters.get(name, ()) if old is not None else ()
        held = {chapter.file: chapter for chapter in before}
        held |= {chapter.file: chapter for chapter in source.chapters}
        there = [each.file for each in source.files]
        there += [_file(each) for each in source.unread]
        named = sorted(set(there))
        made[name] = tuple(held[file] for file in named if file in held)
    return made


def is_other(name: str, old: PreviewSources, new: PreviewSources) -> bool:
    """Whether a build or its chapters are not as they were."""
    if name not in old.builds:
        return True
    was, now = old.builds[name], new.builds[name]
    if was.digest != now.digest:
        return True
    before, after = old.guides[name], new.guides[name]
    return before.digest != after.digest


def _file(finding: Finding) -> str:
    return finding.where.file if finding.where is not None else ""
