"""What a build sets in software, as lines that two builds can be compared by."""

from collections.abc import Iterator, Mapping

from builder.model.build import Build

PRIVATE = ("link_secret", "home")  # never leave the machine, so no comparison may show them


# Keys that are read as other words.
_READ = {"pack": "battery", "speaks": "protocol"}


def _key(key: object) -> str:
    return _READ.get(str(key), str(key))


def _words(value: object) -> str:
    if isinstance(value, Mapping):
        return ", ".join(f"{_key(k)} {_words(v)}" for k, v in value.items() if k not in PRIVATE)
    if isinstance(value, list | tuple):
        return " / ".join(_words(v) for v in value)
    return str(value)


def _lines(value: object, path: str) -> Iterator[str]:
    if isinstance(value, Mapping):
        for key, inner in value.items():
            if key not in PRIVATE:
                yield from _lines(inner, f"{path}, {_key(key)}" if path else _key(key))
    elif isinstance(value, list | tuple):
        for inner in value:
            yield f"{path}: {_words(inner)}"
    else:
        yield f"{path}: {value}"


def setup_lines(build: Build) -> tuple[str, ...]:
    """One line a setting, as the file says it, the base's settings included; nothing private."""
    return tuple(line.replace("_", " ") for line in _lines(build.tree.get("setup", {}), ""))
