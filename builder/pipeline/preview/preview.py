"""The site as it would be published now, each file made when it is asked for and held in memory;
nothing is written.

Pages are made in one process, sheets to print and pictures in another, each job within the bounds
that a publish sets.

What cannot be read or made any more keeps the last pages that could be, and the reason is said
beside them.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace

from builder.diagnostics.finding import Finding
from builder.pages.site.card import card_address
from builder.pages.site.reference_page import MISSING_PAGE, missing_page
from builder.pipeline.jobs import Made
from builder.pipeline.preview.preview_jobs import PreviewJobs
from builder.pipeline.preview.preview_state import State
from builder.pipeline.table_jobs import ReferenceJob
from builder.render.html.page import Renderer

_STOPPED = ("data/too-slow", "data/too-large")


@dataclass(eq=False)
class Preview(PreviewJobs):
    """Serves any number of threads."""

    def file(self, address: str) -> bytes | None:
        """The bytes of a file of the site; None where there is none."""
        return self._of_one_reading(
            lambda: next(
                (made.files[address] for made in self._may_hold(address) if address in made.files),
                None,
            )
        )

    def missing(self) -> bytes:
        """The page for an address that does not exist; the preview lies at the top of its address."""
        with self._lock:
            site, texts = replace(self.sources.site, address=""), self.sources.texts
            made = self._make(
                "missing",
                "",
                lambda: Made({MISSING_PAGE: Renderer(texts).page(missing_page(), site)}),
                here=True,
            )
            return made.files.get(MISSING_PAGE, b"")

    def state(self, address: str) -> State:
        """What stands at an address, and what is to be said of it."""
        return self._of_one_reading(lambda: self._state(address))

    def _state(self, address: str) -> State:
        content = self.file(address) or self.missing()
        name = address.split("/")[0]
        if name in self.sources.builds:
            self._asked = [*(n for n in self._asked if n != name), name]
        found = [*self.sources.model.findings]
        found += self.sources.guides[name].findings if name in self.sources.guides else ()
        for kind in ("sheet", "guide", "pictures", "build", "pdf"):
            made = self._made.get(f"{kind}:{name}") if name in self.sources.builds else None
            stopped_only = kind in ("build", "pdf")  # what else they find the sheet finds as well
            found += (
                [f for f in made[1].findings if not stopped_only or f.code in _STOPPED]
                if made
                else []
            )
        page = hashlib.sha256(content)
        for asset, held in sorted(self.sources.assets.items()):
            page.update(asset.encode() + hashlib.sha256(held).digest())
        return State(
            page.hexdigest()[:16], tuple(dict.fromkeys(found)), tuple(self._errors.values())
        )

    def findings(self, build: str) -> tuple[Finding, ...]:
        """What the rules find in one build; nothing where it has gone."""
        return self._of_one_reading(
            lambda: (
                (*self._sheet(build).findings, *self._pictures(build).findings)
                if build in self.sources.builds
                else ()
            )
        )

    def _may_hold(self, address: str) -> Iterator[Made]:
        """What may hold a file, made one after the other; no address leads to the disk."""
        sources, steps = self.sources, address.split("/")
        if steps[0] == "assets":
            yield Made(sources.assets)
        elif steps[0] == "compare" and len(steps) == 4:
            yield self._compare(steps[1], steps[2])
        elif steps[0] == "parts" and len(steps) == 3:
            yield self._part(steps[1])
        elif steps[0] in sources.builds and (
            steps[-1].endswith(".pdf") or address == card_address(steps[0])
        ):
            yield self._pdf(steps[0])
        elif steps[0] in sources.builds and steps[1:2] == ["guide"] and steps[-1] == "index.html":
            yield self._guide(steps[0])
        elif steps[0] in sources.builds and steps[1:] == ["choose", "index.html"]:
            yield self._choose(steps[0])
        elif steps[0] in sources.builds and steps[1:2] == ["files"]:
            yield self._given(steps[0])
        elif steps[0] in sources.builds and steps[1:] == ["source.zip"]:
            yield self._source(steps[0])
        elif steps[0] in sources.builds:
            yield self._sheet(steps[0])
            yield self._pictures(steps[0])
            yield self._build(steps[0])
        else:
            yield self._make("reference", "", ReferenceJob(sources.site, sources.texts))
            yield self._tables()
