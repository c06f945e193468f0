"""Makes a workspace of any size out of five of the demo builds: the same size and seed give the same
files.

    .venv/bin/python -m tests.benchmarks.make_workspace DIR --builds 1000 --seed 1

Each build is one of the demo's with other parts of the same make, other weights, prices, wires,
spares, flights and notes; every seventh is a variant of an earlier one. Build n is the same in a
workspace of any size that holds it, and all builds share one shelf, which grows with them.
Everything in it is as invented as the demo is.
"""

import argparse
import random
import re
import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
SOURCE = "build.yaml"
BASES = ("dipper", "pipit", "redshank", "curlew")
VARIANT = "dipper-light"
_VARIANT_EVERY = 7
_BUILDS_A_BATCH = 40  # of so many builds, one brings a new batch of the parts that come in batches
# Parts that a bench table or a rule knows by name (propellers, screws) keep theirs.
_IN_BATCHES = ("frame-", "motor-", "pack-", "cam-", "vtx-", "rx-", "cap-", "pigtail-")
_WORDS = (
    "weir",
    "barn",
    "bank",
    "roof",
    "reed",
    "sluice",
    "culvert",
    "meadow",
    "tide",
    "loft",
    "ditch",
    "bridge",
)


@dataclass(frozen=True, eq=False)
class Demo:
    """The texts that the variations start from."""

    builds: Mapping[str, str]
    shelf_files: Mapping[str, str]
    site: str

    @cached_property
    def shelf(self) -> Mapping[str, str]:
        """The parts of the shelf, each as its own text."""
        return {
            name: text
            for file in self.shelf_files.values()
            for name, text in _entries(file).items()
        }


def _entries(text: str) -> dict[str, str]:
    """The parts of a shelf file, each as its own text."""
    starts = list(re.finditer(r"^([\w-]+):", text, re.MULTILINE))
    ends = [m.start() for m in starts[1:]] + [len(text)]
    return {
        m.group(1): text[m.start() : end].rstrip() + "\n"
        for m, end in zip(starts, ends, strict=True)
    }


def read_demo(root: Path = ROOT) -> Demo:
    """The demo workspace's texts."""
    builds = root / "builds"
    texts = {n: (builds / n / "build.yaml").read_text("utf-8") for n in (*BASES, VARIANT)}
    shelf = {p.name: p.read_text("utf-8") for p in sorted((builds / "shelf").glob("*.yaml"))}
    return Demo(texts, shelf, (builds / "site.yaml").read_text("utf-8"))


def _scaled(chance: random.Random, share: float, digits: int) -> Callable[[re.Match[str]], str]:
    """Replaces a pattern's second group, a number, by one that is off by up to `share`."""

    def replace(match: re.Match[str]) -> str:
        value = float(match.group(2)) * (1 + chance.uniform(-share, share))
        return f"{match.group(1)}{value:.{digits}f}{match.group(3)}"

    return replace


def _batch_name(part: str, batch: int) -> str:
    return f"{part}-b{batch}" if batch else part


def _comes_in_batches(demo: Demo, name: str) -> bool:
    return name in demo.shelf and name.startswith(_IN_BATCHES)


def batch_text(demo: Demo, seed: int, batch: int) -> str:
    """One more batch of every part that comes so: another weight, another price."""
    out = ["# A generated batch. Everything in it is invented.\n"]
    for name, text in demo.shelf.items():
        if _comes_in_batches(demo, name):
            chance = random.Random(f"{seed}/{name}/{batch}")
            new = text.replace(f"{name}:", f"{_batch_name(name, batch)}:", 1)
            new = re.sub(
                r"^(  name: )([^#\n]*?)(\s*)$",
                rf"\1\2, batch {batch}\3",
                new,
                count=1,
                flags=re.MULTILINE,
            )
            new = re.sub(r"(mass: \{maker: )([\d.]+)( g)", _scaled(chance, 0.01, 1), new, count=1)
            out.append(
                re.sub(r"(price: \{each: )([\d.]+)( )", _scaled(chance, 0.25, 2), new, count=1)
            )
    return "\n".join(out)


def _part_of_a_batch(
    demo: Demo, chance: random.Random, batches: int
) -> Callable[[re.Match[str]], str]:
    def replace(match: re.Match[str]) -> str:
        part = match.group(1)
        return (
            f"use: {_batch_name(part, chance.randint(0, batches))}"
            if _comes_in_batches(demo, part)
            else match[0]
        )

    return replace


def _longer(chance: random.Random) -> Callable[[re.Match[str]], str]:
    return lambda match: f"{match[1]}{int(match[2]) + chance.randint(0, 8)}{match[3]}"


def _some_flights(text: str, chance: random.Random) -> str:
    """The build's log with other figures, some flights twice, some not at all."""

    def block(match: re.Match[str]) -> str:
        lines = [
            x
            for line in match[2].splitlines()
            for x in [line] * chance.choice((1, 1, 2, 3))
            if line.strip()
        ]
        lines = [re.sub(r"(used: )(\d+)( mAh)", _scaled(chance, 0.03, 0), line) for line in lines]
        lines = [
            re.sub(r"( min )(\d+)( s, gr)", lambda m: f"{m[1]}{chance.randint(0, 59)}{m[3]}", x)
            for x in lines
        ]
        return match[1] + "\n".join(lines) + "\n"

    return re.sub(r"(^flights:\n)((?:  - .*\n?)+)", block, text, flags=re.MULTILINE)


def build_text(demo: Demo, seed: int, number: int) -> tuple[str, str]:
    """The demo build that build `number` is made from, and its text."""
    chance = random.Random(f"{seed}/build/{number}")
    base, based_on = base_of(seed, number), variant_of(seed, number)
    text = demo.builds[base]
    batches = number // _BUILDS_A_BATCH
    word = chance.choice(_WORDS)
    text = re.sub(
        r"^(title: )(.*)$", rf"\g<1>\g<2>, {word} {number}", text, count=1, flags=re.MULTILINE
    )
    if based_on:
        text = re.sub(r"^based_on: .*$", f"based_on: {based_on}", text, count=1, flags=re.MULTILINE)
    text = re.sub(r"use: ([\w-]+)(?=[,}])", _part_of_a_batch(demo, chance, batches), text)
    text = re.sub(r"(colour: .*length: )(\d+)( mm)", _longer(chance), text)
    text = re.sub(r"(spares: )(\d+)()", lambda m: f"{m[1]}{int(m[2]) + chance.randint(0, 4)}", text)
    text = re.sub(r"(what: [\w ',]+, mass: )([\d.]+)( g, scale)", _scaled(chance, 0.001, 1), text)
    text = _some_flights(text, chance)
    notes = "".join(
        f"  - {{date: 2026-10-{day:02d}, text: 'Looked over after the {chance.choice(_WORDS)};"
        f" {chance.randint(1, 9)} screws locked again.'}}\n"
        for day in sorted(chance.sample(range(11, 31), chance.randint(0, 4)))
    )
    return base, re.sub(r"^(changes:\n)", rf"\g<1>{notes}", text, count=1, flags=re.MULTILINE)


def base_of(seed: int, number: int) -> str:
    """The demo build that a build starts from."""
    if variant_of(seed, number):
        return VARIANT
    return random.Random(f"{seed}/base/{number}").choice(BASES)


def variant_of(seed: int, number: int) -> str:
    """The build that a build is based on, or nothing: every seventh is a variant, of the last
    dipper before it.
    """
    if number % _VARIANT_EVERY != _VARIANT_EVERY - 1:
        return ""
    earlier = (n for n in range(number - 1, -1, -1) if base_of(seed, n) == "dipper")
    return next((build_name(seed, n) for n in earlier), "")


def build_name(seed: int, number: int) -> str:
    """The folder of a build."""
    return f"{base_of(seed, number)}-{number:04d}"


def site_text(demo: Demo, seed: int, builds: int) -> str:
    """The settings, with one pair to compare for every fifty builds."""
    head = demo.site.split("\ncompare:")[0]
    pairs = [
        f"  - [{build_name(seed, n)}, {build_name(seed, n + 1)}]" for n in range(0, builds - 1, 50)
    ]
    return head + ("\ncompare:\n" + "\n".join(pairs) if pairs else "") + "\n"


def make_workspace(folder: Path, builds: int, seed: int = 1) -> Path:
    """Writes a workspace of so many builds into a folder, which must not hold one yet."""
    demo, target = read_demo(), folder / "builds"
    (target / "shelf").mkdir(parents=True)
    (target / "site.yaml").write_text(site_text(demo, seed, builds), "utf-8")
    for name, shelf in demo.shelf_files.items():
        (target / "shelf" / name).write_text(shelf, "utf-8")
    for batch in range(1, builds // _BUILDS_A_BATCH + 1):
        (target / "shelf" / f"batch-{batch:02d}.yaml").write_text(
            batch_text(demo, seed, batch), "utf-8"
        )
    for number in range(builds):
        base, text = build_text(demo, seed, number)
        home = target / build_name(seed, number)
        home.mkdir()
        (home / "build.yaml").write_text(text, "utf-8")
        for given in (p for p in (ROOT / "builds" / base).iterdir() if p.name != SOURCE):
            copy = shutil.copytree if given.is_dir() else shutil.copyfile
            copy(given, home / given.name)
    return folder


def main() -> None:
    """The command."""
    parser = argparse.ArgumentParser(
        description="Makes a workspace of any size out of five of the demo builds."
    )
    parser.add_argument("folder", type=Path)
    parser.add_argument("--builds", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    make_workspace(options.folder, options.builds, options.seed)


if __name__ == "__main__":
    main()
