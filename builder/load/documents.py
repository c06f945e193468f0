"""The source files of a workspace as documents: each is parsed when first asked for, and builds are
let go again.

A workspace of a thousand builds is larger parsed than its pages; its text is small.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from builder.load.limits import Limits
from builder.load.lru_cache import LastFew
from builder.load.yaml_nodes import Document, read_yaml

_BUILDS_HELD = 64  # parsed at once; the shelf and the settings stay


@dataclass(frozen=True, slots=True)
class SourceText:
    """A source file as it was read: its text, the digest of its bytes, and what bounds it."""

    file: str
    text: str
    digest: str
    limits: Limits

    def parsed(self) -> Document:
        """The document of a file that was looked at when it was loaded, or is known to be sound."""
        return read_yaml(self.file, self.text, self.digest, self.limits, looked_at=True)[0]


@dataclass(frozen=True, slots=True)
class Sound:
    """Files that were parsed without a mistake under these limits, with the digest that they had."""

    limits: str = ""
    digests: Mapping[str, str] = field(default_factory=dict)

    def holds(self, text: SourceText) -> bool:
        """Whether a file is one of them, and as it was."""
        return self.digests.get(text.file) == text.digest and self.limits == str(text.limits)


class Documents(Mapping[str, Document]):
    """Documents by file, gathered while a workspace is loaded."""

    def __init__(self) -> None:
        self._texts: dict[str, SourceText] = {}
        self._shared: dict[str, Document] = {}
        self._builds: LastFew[Document] = LastFew(_BUILDS_HELD)
        self._empty: set[str] = set()

    def hold(
        self, text: SourceText, parsed: Document | None = None, *, wrong: bool = False
    ) -> None:
        """Takes a file in, with its document where it was parsed already; one that is wrong is not
        let go.
        """
        self._texts[text.file] = text
        if parsed is None:
            return
        if not isinstance(parsed.tree, dict):
            self._empty.add(text.file)
        if wrong:
            self._shared[text.file] = parsed
        else:
            self._keep(text.file, parsed)

    def _keep(self, file: str, document: Document) -> None:
        if file.endswith("/build.yaml"):
            self._builds.hold(file, document)
        else:
            self._shared[file] = document

    def __getitem__(self, file: str) -> Document:
        held = self.held(file)
        if held is None:
            held = self._texts[file].parsed()
            self._keep(file, held)
        return held

    def __iter__(self) -> Iterator[str]:
        return iter(self._texts)

    def __len__(self) -> int:
        return len(self._texts)

    def __contains__(self, file: object) -> bool:
        return file in self._texts

    def digest(self, file: str) -> str:
        """The digest of a file's bytes, without parsing it."""
        return self._texts[file].digest

    def holds_keys(self, file: str) -> bool:
        """Whether a file is a group of keys, as every sound one is, without parsing it again."""
        return file not in self._empty

    def held(self, file: str) -> Document | None:
        """A document that need not be parsed any more."""
        return self._shared.get(file) or self._builds.get(file)
