"""What a job on another machine gives, as bytes and back. Plain records and a digest: none of ours
is unpickled here.
"""

import hashlib
import json
from collections.abc import Callable
from typing import Any

from builder.diagnostics.finding import as_plain, from_plain
from builder.pages.summaries.summary import Summary
from builder.pipeline.jobs import Made
from builder.publish.kept.manifest import is_below
from builder.publish.kept.shape import fits
from builder.render.html.page import BadTemplate
from builder.render.paper.pdf_libraries import LibrariesLacking

_DIGEST = 64  # hexadecimal digits of SHA-256
_LENGTH = 8  # bytes of the length of the head
_WHERE = (str, [frozenset({str, int})], bool, int)
_AMOUNT = (int, frozenset({int, float}), str, str, str, str, str)
_AMOUNTS = ([_AMOUNT], [_AMOUNT])  # of the message, of the hint
_FINDING = (str, str, str, str, str, frozenset({str, type(None)}), bool, [_WHERE], _AMOUNTS)
_MADE = {"files": [(str, int)], "plain": dict, "findings": [_FINDING]}
_FAILED = {"error": str, "text": str, "words": [str]}


class BadAnswer(Exception):
    """What came back is not what a job gives."""


class FailedThere(Exception):
    """A job that failed on another machine, in the words of its error."""


def answer(job: Callable[[], Made]) -> bytes:
    """On the other machine: does a job and gives what it made, or how it failed, as bytes."""
    try:
        made = job()
    except Exception as error:  # noqa: BLE001 - it is said by who asked for the job
        words = error.names if isinstance(error, LibrariesLacking) else (str(error),)
        return _bytes({"error": type(error).__name__, "text": str(error), "words": list(words)})
    head = {
        "files": [[path, len(content)] for path, content in made.files.items()],
        "plain": made.plain,
        "findings": [as_plain(f) for f in made.findings],
    }
    return _bytes(head, *made.files.values())


def _bytes(head: dict[str, Any], *files: bytes) -> bytes:
    text = json.dumps(head).encode()
    body = b"".join((len(text).to_bytes(_LENGTH, "big"), text, *files))
    return hashlib.sha256(body).hexdigest().encode() + body


def opened(content: object) -> Made:
    """What a job made there. Raises the error that it failed with, or BadAnswer for what is no
    answer.
    """
    if type(content) is not bytes:
        raise BadAnswer("an answer came back that is not bytes")
    digest, body = content[:_DIGEST], content[_DIGEST:]
    if hashlib.sha256(body).hexdigest().encode() != digest:
        raise BadAnswer("an answer came back cut or altered")
    start = _LENGTH + int.from_bytes(body[:_LENGTH], "big")
    try:
        head = json.loads(body[_LENGTH:start])
        if fits(head, _FAILED):
            raise _error(head)
        return _made(head, body[start:])
    except (ValueError, LookupError, TypeError, AttributeError, RecursionError) as error:
        if isinstance(error, BadTemplate):
            raise
        raise BadAnswer("an answer came back that no job gives") from error


def _made(head: Any, body: bytes) -> Made:
    """ValueError and the like for what no job gives, addresses that lead out of the site among
    them.
    """
    if not fits(head, _MADE) or not all(
        size >= 0 and is_below(path) for path, size in head["files"]
    ):
        raise ValueError
    if "summary" in head["plain"]:
        Summary.from_plain(head["plain"]["summary"])
    files, at = {}, 0
    for path, size in head["files"]:
        files[path] = body[at : at + size]
        at += size
    if at != len(body):
        raise ValueError
    return Made(files, head["plain"], tuple(from_plain(f) for f in head["findings"]))


def _error(head: dict[str, Any]) -> Exception:
    """The error of a job, as one of those that a publish tells apart."""
    if head["error"] == LibrariesLacking.__name__:
        return LibrariesLacking(tuple(head["words"]))
    if head["error"] == BadTemplate.__name__:
        return BadTemplate(head["text"])
    if head["error"] == MemoryError.__name__:
        return MemoryError()
    return FailedThere(f"{head['error']}: {head['text']}")
