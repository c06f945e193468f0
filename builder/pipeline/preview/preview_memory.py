"""What the preview holds in memory, and the processes that make it.

Pages are made in one process, sheets to print and pictures in another, each job within the bounds
that a publish sets. What cannot be read or made any more keeps the last that could be.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from threading import Condition
from typing import TypeVar

from builder.pages.site.site_pages import site_pages
from builder.pipeline.beside.guides import guide_source
from builder.pipeline.check import read
from builder.pipeline.job_bounds import too_much
from builder.pipeline.jobs import Job, Made
from builder.pipeline.preview.preview_sources import PreviewSources, is_other, preview_chapters
from builder.publish.workers.bounded import TooLong
from builder.publish.workers.one_at_a_time import OwnProcess
from builder.render.assets import asset_files
from builder.render.html.page import refuse_links, template_texts

NOTHING_MADE = Made({})
_ON_PAPER = ("pdf:", "pictures:")  # names of jobs that take long
_T = TypeVar("_T")


@dataclass(eq=False)
class PreviewMemory:
    """What was read last and made of it. Who waits for a job lets the others go on, with what is made or
    in other processes.
    """

    workspace: Path
    _lock: Condition = field(
        default_factory=Condition
    )  # let go while a job runs, however deep it is held
    _running: set[str] = field(default_factory=set)
    # A second one for pages starts when the first is at work: a page that hangs holds up no other.
    _pages: tuple[OwnProcess, ...] = field(default_factory=lambda: (OwnProcess(), OwnProcess()))
    _paper: OwnProcess = field(default_factory=OwnProcess)
    _made: dict[str, tuple[str, Made]] = field(default_factory=dict)
    _errors: dict[str, str] = field(default_factory=dict)
    _asked: list[str] = field(default_factory=list)
    _sources: PreviewSources | None = None

    def refresh(self) -> tuple[str, ...]:
        """Reads the sources again; gives the builds that became others, those last looked at first."""
        try:
            loaded, model = read(self.workspace, self._sources.loaded if self._sources else None)
            own = self.workspace / "templates"
            refuse_links(own)
            texts, assets = template_texts(own), asset_files(own / "static")
        except Exception as error:  # noqa: BLE001 - whatever a half-saved file does, the preview goes on
            with self._lock:
                self._errors["sources"] = f"reading: {type(error).__name__}: {error}"
            return ()
        with self._lock:
            old = self._sources
            self._errors.pop("sources", None)
            builds = {
                n: b
                for n, b in (old.builds if old else {}).items()
                if n in model.names or model.stops_all
            }
            builds.update(model.builds if not (old and model.stops_all) else {})
            site = old.site if old and model.stops_all else site_pages(model.site)
            guides = {
                n: guide_source(loaded.root, b.chain, loaded.limits) for n, b in builds.items()
            }
            new = PreviewSources(
                loaded,
                model,
                dict(sorted(builds.items())),
                site,
                texts,
                assets,
                old.turn + 1 if old else 0,
            )
            new = replace(new, guides=guides, chapters=preview_chapters(guides, old))
            self._sources = new
            changed = [n for n in builds if old is None or is_other(n, old, new)]
            if old and old.shared != new.shared:
                changed = list(builds)
            return tuple(
                sorted(changed, key=lambda n: (-self._asked.index(n) if n in self._asked else 1, n))
            )

    @property
    def sources(self) -> PreviewSources:
        """What was read last."""
        if self._sources is None:
            self.refresh()
        if self._sources is None:
            raise RuntimeError(self._errors["sources"])
        return self._sources

    def _of_one_reading(self, what: Callable[[], _T]) -> _T:
        """What is asked of the sources; asked again where they became others in the middle and what
        was there has gone.
        """
        with self._lock:
            while True:
                before = self.sources
                try:
                    return what()
                except KeyError:
                    if before is self.sources:
                        raise

    def close(self) -> None:
        """Ends the processes, whatever they do."""
        for process in self._pages:
            process.close()
        self._paper.close()

    def _make(self, name: str, digest: str, job: Job, *, here: bool = False) -> Made:
        """What a job makes, from memory where it was made of the same; where it fails, what it made
        last.
        """
        whole = f"{self.sources.shared} {digest}"
        while name in self._running:
            self._lock.wait()
        held = self._made.get(name)
        if held is not None and held[0] == whole:
            return held[1]
        kept = held[1] if held else NOTHING_MADE
        self._running.add(name)
        try:
            self._made[name] = (whole, job() if here else self._apart(name, job))
            self._errors.pop(name, None)
        except (TooLong, MemoryError) as error:
            kind = "time" if isinstance(error, TooLong) else "memory"
            stopped = too_much(name, kind, self.sources.loaded.limits)
            self._made[name] = (whole, replace(kept, findings=(stopped,)))
            self._errors.pop(name, None)
        except Exception as error:  # noqa: BLE001 - one page that cannot be made must not end the preview; it is said
            self._errors[name] = f"making {name}: {type(error).__name__}: {error}"
            self._made[name] = (whole, kept)
        finally:
            self._running.discard(name)
            self._lock.notify_all()
        return self._made[name][1]

    def _apart(self, name: str, job: Job) -> Made:
        """What a job makes in a process of its own; meanwhile others are served."""
        least_held_up = min(self._pages, key=lambda one: one.waiting)
        process = self._paper if name.startswith(_ON_PAPER) else least_held_up
        limits = self.sources.loaded.limits
        ended = process.submit(job, limits.seconds, limits.worker_megabytes)
        ended.add_done_callback(self._tell)
        while not ended.done():
            self._lock.wait()
        return ended.result()

    def _tell(self, ended: object) -> None:
        """Wakes all who wait for a job; the one whose it was looks."""
        with self._lock:
            self._lock.notify_all()
