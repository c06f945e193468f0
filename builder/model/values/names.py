"""The one gate for names: what becomes an address, a file, an id or a key of figures passes here
and nowhere else.

What is printed on a board (pads, sockets, rails) is free: it names no file, and is made harmless
where it is an id.
"""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

# Names of devices on Windows, with or without an ending (Microsoft, Naming Files, Paths, and
# Namespaces): a site or a workspace with such a file cannot be copied there.
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{d}{n}" for d in ("com", "lpt") for n in "0123456789"))
)
# Addresses at the top of a site, those that are kept for later too.
_OF_SITE = frozenset(
    (
        *("404", "any", "assets", "compare", "feed", "fields", "index", "parts", "robots", "rules"),
        *("schema", "search", "shelf", "site", "sitemap", "units"),
    )
)
# Files and folders of one build, those that are kept for later too.
_OF_BUILD = frozenset(
    (
        *(
            "bench",
            "bench-sheet",
            "bench-sheet.pdf",
            "buy",
            "buy.csv",
            "card.png",
            "choose",
            "description.txt",
            "field-card.pdf",
            "files",
            "find.js",
            "flight",
            "gates.pdf",
            "guide",
        ),
        *(
            "index.html",
            "numbers",
            "parts",
            "parts.csv",
            "setup",
            "sheet.js",
            "sheet.json",
            "source.zip",
        ),
        *("widths", "wiring", "drawings", "work"),
    )
)
# Steps of the planner that have one word; a builder's step of that name would stand in its place.
# Others hold a blank.
_OF_PLAN = frozenset(
    (
        "balance",
        "close",
        "coat",
        "dry",
        "propellers",
        "rotation",
        "screws",
        "setup",
        "tie",
        "unplug",
        "weigh",
    )
)


@dataclass(frozen=True, slots=True)
class Naming:
    """What one kind of name may hold.

    `letters` are small (a to z), ascii (a to z, A to Z) or any of Unicode; `marks` may stand
    inside. What is a `file` is no device of Windows either. `taken` are names that are ours, `why`
    says whose.
    """

    what: str
    letters: str
    marks: str
    file: bool = False
    taken: frozenset[str] = frozenset()
    why: str = ""
    longest: int = 80  # bytes of UTF-8

    @property
    def hint(self) -> str:
        """What to write instead."""
        letters = {"small": "small letters", "ascii": "letters without accents", "any": "letters"}[
            self.letters
        ]
        words = {
            "-": "hyphens",
            "_": "underscores",
            ".": "points",
            " ": "blanks",
            "(": "brackets",
            "+": "plus signs",
        }
        listed = [letters, "digits", *(words[m] for m in self.marks if m in words)]
        return (
            f"Use {', '.join(listed[:-1])} and {listed[-1]}; begin and end with a letter or a"
            " digit."
        )

    def is_letter(self, c: str) -> bool:
        """Whether a letter or a digit may stand at either end."""
        if c.isascii():
            return c.isalnum() and not (self.letters == "small" and c.isupper())
        return self.letters == "any" and unicodedata.category(c)[0] in "LMN"


BUILD = Naming("build", "small", "-", True, _OF_SITE, "an address of the site has that name", 64)
SHELF = Naming(
    "part of the shelf",
    "ascii",
    "-_.",
    True,
    frozenset(("index.html",)),
    "the list of parts has that name",
)
PART = Naming("part", "any", "-_")
PACK = Naming(
    "pack", "any", "-_.", False, frozenset(("dry",)), "'dry' is the aircraft without a battery"
)
STEP = Naming(
    "step", "any", "-_.", False, _OF_PLAN, "a step that is planned by itself has that name"
)
QUESTION = Naming("question", "any", "-_.")
PICTURE = Naming(
    "picture", "any", "-_. ()+", True, _OF_BUILD, "another file of the build has that name"
)
CHAPTER = Naming(
    "chapter",
    "small",
    "-",
    True,
    frozenset(("index.html",)),
    "the table of contents has that name",
    64,
)
GIVEN = Naming(
    "file that is given along",
    "ascii",
    "-_.",
    True,
    frozenset(("index.html", "find.js")),
    "the site has a file of that name",
)
_FOLDER = Naming(
    "folder of pictures", "any", "-_", True, _OF_BUILD, "a page of the build has that name"
)


def folded_name(name: str) -> str:
    """A name without case and form of Unicode: two that are equal so are one file on some disks, or
    look alike.
    """
    return unicodedata.normalize("NFKC", unicodedata.normalize("NFKC", name).casefold())


def _odd(name: str, naming: Naming) -> str:
    """What a name holds that it may not, in words; empty for nothing."""
    for c in name:
        if naming.is_letter(c) or c in naming.marks:
            continue
        plain = c.isascii() and c.isprintable()
        return f"holds {c!r}" if plain else f"holds the character U+{ord(c):04X}"
    if not naming.is_letter(name[0]):
        return f"begins with {name[0]!r}"
    if not naming.is_letter(name[-1]):
        return f"ends with {name[-1]!r}"
    return ""


def name_mistake(name: str, naming: Naming) -> tuple[str, str] | None:
    """What is wrong with a name, and how to mend it; None for one that may be used."""
    cannot = f"{name!r} cannot name a {naming.what}"
    if not name:
        return f"{cannot}: it is empty.", naming.hint
    if len(name.encode("utf-8", "surrogatepass")) > naming.longest:
        return f"{cannot}: it is longer than {naming.longest} bytes.", "Shorten it."
    odd = _odd(name, naming)
    if odd:
        return f"{cannot}: it {odd}.", naming.hint
    if unicodedata.normalize("NFC", name) != name:
        hint = "Type it again, each letter with its accent as one (Unicode NFC)."
        return f"{cannot}: a letter of it is not in its common form.", hint
    if naming.file and folded_name(name).partition(".")[0].rstrip() in _DEVICES:
        return f"{cannot}: Windows has a device of that name.", "Choose another name."
    if folded_name(name) in naming.taken:
        return f"{cannot}: {naming.why}.", "Choose another name."
    return None


def picture_mistake(path: str) -> tuple[str, str] | None:
    """What is wrong with the path of a picture below its build's folder, and how to mend it; None
    for a sound one.
    """
    *folders, file = path.split("/")
    steps = ((f, _FOLDER) for f in folders)
    return next(
        (
            w
            for n, naming in (*steps, (file, PICTURE))
            if (w := name_mistake(n, naming)) is not None
        ),
        None,
    )


_GUIDE = "guide/"


def shown_picture_mistake(path: str) -> tuple[str, str] | None:
    """The same for a picture that a chapter shows, which may lie beside the chapters."""
    return picture_mistake(path.removeprefix(_GUIDE))


_OTHER_ROOTS = frozenset("\\:")  # what leads to another root on Windows
_NO_FILE_HAS = frozenset('\\:*?"<>|')


def path_mistake(path: str) -> str:
    """Why a path that a stranger wrote is refused, in words behind its name; '' for one that every
    disk can hold, below the folder that it is meant for. Whether it is wanted is another question.
    """
    if path.startswith("/") or not _OTHER_ROOTS.isdisjoint(path):
        return "is no path below a folder"
    size = len(path.encode("utf-8", "surrogatepass"))
    if size > _LONGEST_PATH or not path.isprintable():
        return "has a name that is too long or cannot be shown"
    if unicodedata.normalize("NFC", path) != path:
        return "has a letter that is not in its common form (Unicode NFC)"
    return next((wrong for step in path.split("/") if (wrong := _step_mistake(step))), "")


_LONGEST_PATH = 240  # bytes


def _step_mistake(step: str) -> str:
    if step in ("", ".", ".."):
        return "leads out of its folder"
    if step != step.strip(" ").rstrip("."):
        return "has a name that not every disk takes"
    if not _NO_FILE_HAS.isdisjoint(step):
        return "has a name that not every disk takes"
    stem = folded_name(step).partition(".")[0]
    if stem.rstrip() in _DEVICES:
        return "has the name of a device of Windows"
    return ""


def same_on_some_disk(paths: Iterable[str]) -> tuple[str, str] | None:
    """Two paths that some disks take for one, or of which one is a file and a folder; None for
    none.
    """
    seen: dict[str, str] = {}
    listed = tuple(paths)
    for path in listed:
        other = seen.setdefault(folded_name(path), path)
        if other != path:
            return other, path
    for path in listed:
        steps = folded_name(path).split("/")
        above = ("/".join(steps[:n]) for n in range(1, len(steps)))
        blocked = next((seen[a] for a in above if a in seen), None)
        if blocked is not None:
            return blocked, path
    return None


def like_another(name: str, others: Iterable[str]) -> str:
    """One of the others that differs from a name by case or form of Unicode only; empty where none
    does.
    """
    mine = folded_name(name)
    return next((o for o in others if o != name and folded_name(o) == mine), "")
