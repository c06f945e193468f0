"""One owner an output: which job may write which address, so that no two replace each other's
files.

Addresses are compared as the least of disks compares them: without case and form of Unicode; and
what is a file for one job is no folder for another.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from builder.diagnostics.finding import Finding, mistake
from builder.diagnostics.where import Where
from builder.model.values.names import folded_name
from builder.pages.page_map import ALL_PAGES
from builder.pages.paper.bench_sheet import PRINTED_FILES
from builder.pages.site.card import card_address
from builder.pages.site.part_page import part_file
from builder.pages.site.reference_page import MISSING_PAGE
from builder.render.data.schemas import SCHEMAS

_OF_TABLES = (
    "index.html",
    "compare/index.html",
    "compare/any/index.html",
    "search/index.html",
    "parts/index.html",
    "feed.xml",
    "sitemap.xml",
    "robots.txt",
)
_OF_REFERENCE = (
    "rules/index.html",
    "fields/index.html",
    "units/index.html",
    MISSING_PAGE,
    *(f"schema/{name}.json" for name in SCHEMAS),
)
_OF_BUILD = (
    *(page.file for page in ALL_PAGES),
    "parts.csv",
    "buy.csv",
    "description.txt",
    "sheet.json",
    "sheet.js",
    "find.js",
    "bench/away.js",
    "bench/away.webmanifest",
)

_OF_A_BUILD = ("build", "choose", "guide", "source", "given", "pdf", "pictures", "compare")


def addresses_of(job: str) -> tuple[str, ...]:
    """The addresses that a job writes, by its name; of pictures and assets nothing, which only
    their files say.
    """
    kind, _, rest = job.partition(":")
    if kind == "build":
        return tuple(f"{rest}/{file}" for file in _OF_BUILD)
    if kind == "pdf":
        return (*(f"{rest}/{file}" for file in PRINTED_FILES), card_address(rest))
    if kind == "source":
        return (f"{rest}/source.zip",)
    if kind == "choose":
        return (f"{rest}/choose/index.html",)
    if kind == "guide":
        return (f"{rest}/guide/index.html",)
    if kind == "compare":
        return (f"compare/{rest.replace(':', '/')}/index.html",)
    if kind == "part":
        return f"parts/{rest}/index.html", part_file(rest)
    return {"tables": _OF_TABLES, "reference": _OF_REFERENCE}.get(job, ())


@dataclass(frozen=True, slots=True)
class Clash:
    """An address that two jobs would write, and whose it is."""

    address: str
    owner: str


@dataclass(eq=False)
class Owners:
    """Whose each address is, while one publish runs. Local to a call."""

    _files: dict[str, str] = field(default_factory=dict)
    _folders: dict[str, str] = field(default_factory=dict)  # a job that writes below it

    def clash(self, job: str, addresses: Iterable[str]) -> Clash | None:
        """The first address that a job may not have: another's, a folder of anybody's, below a file
        of anybody's.
        """
        files: set[str] = set()
        folders: set[str] = set()
        for address in addresses:
            key = folded_name(address)
            above = _above(key)
            if key in files or key in folders or not files.isdisjoint(above):
                return Clash(address, job)
            owner = self._files.get(key, job)
            owner = owner if owner != job else self._folders.get(key, job)
            blocking = [f for f in above if f in self._files]
            if owner != job or key in self._folders or blocking:
                return Clash(address, self._files[blocking[0]] if blocking else owner)
            files.add(key)
            folders.update(above)
        return None

    def claim(self, job: str, addresses: Iterable[str]) -> Clash | None:
        """Gives a job all of these, or none and the reason."""
        listed = tuple(addresses)
        clash = self.clash(job, listed)
        for address in listed if clash is None else ():
            key = folded_name(address)
            self._files[key] = job
            for above in _above(key):
                self._folders.setdefault(above, job)
        return clash


def _above(key: str) -> tuple[str, ...]:
    """Every folder that an address lies in."""
    steps = key.split("/")
    return tuple("/".join(steps[:n]) for n in range(1, len(steps)))


def clash_mistake(job: str, clash: Clash) -> Finding:
    """Two jobs that would write one address, as a mistake that names both."""
    kind, _, rest = job.partition(":")
    build = rest.split(":")[0] if kind in _OF_A_BUILD else ""
    both = f"{words_of(job)} and {words_of(clash.owner)}"
    problem = (
        f"{both[0].upper()}{both[1:]} would have one address, {clash.address}; the first is not"
        " published."
    )
    hint = "Rename the one that you named: the build, the picture, the part or the file."
    return mistake(
        "data/address-taken", problem, hint, Where(f"{build}/build.yaml") if build else None, build
    )


def picture_in_words(rest: str) -> str:
    """The picture of a job as a person knows it, by what follows the job's kind."""
    build, _, name = rest.partition(":")
    if not name:
        return f"the pictures of {build}"
    return f"the picture {name} of {build}"


def words_of(job: str) -> str:
    """A job as a person knows it."""
    kind, _, rest = job.partition(":")
    build, _, file = rest.partition(":")
    words: Mapping[str, str] = {
        "build": f"the pages of {rest}",
        "choose": f"the swaps of {rest}",
        "guide": f"the guide of {rest}",
        "source": f"the source of {rest}",
        "given": f"the file {file} of {build}",
        "pdf": f"the bench sheet of {rest}",
        "pictures": picture_in_words(rest),
        "compare": f"the comparison of {rest.replace(':', ' and ')}",
        "part": f"the page of the part {rest}",
        "tables": "the pages over all builds",
        "reference": "the pages on rules and fields",
        "assets": "the files of templates/static",
    }
    return words.get(kind, job)
