"""A publish that is killed at any instant: the site is the old or the new one, no worker lives on,
the next one heals.
"""

import os
import random
import re
import signal
import subprocess
import sys
import time
import uuid
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from shutil import copytree, rmtree

from builder.options import PublishOptions
from builder.publish.kept.stale import Lying
from builder.publish.swap import files_of, leftovers
from tests.publish.exactness import publish_here, read_manifest, site_files
from tests.publish.sources import Sources, first_build

ROOT = Path(__file__).resolve().parent.parent.parent
_HOSTILE_LINKS = (
    ".site-next",
    ".site-old",
    ".site-next-0123456789abcdef",
    ".site-old-0123456789abcdef",
)
_MARK = "BENCHLEAF_TEST_MARK"


def _second(sources: Sources) -> Sources:
    """The same workspace after an evening's work: every build changed, one gone, one new."""
    del sources.builds["robin"]
    for tree in sources.builds.values():
        tree["title"] += ", again"
    for n in range(3):
        sources.builds[f"new-{n}"] = first_build(f"New {n}")
    sources.site["compare"] = [["wren", "new-0"]]
    return sources


@dataclass
class Counts:
    """How the killed publishes came out."""

    old: int = 0
    new: int = 0
    ended: int = 0  # came to its end before it was to be killed
    left_over: int = 0  # left something that the next publish had to clean
    wrong: list[str] = field(default_factory=list)


class Stage:
    """A workspace published from one state of its sources and edited to the next, and the site due
    after each.
    """

    def __init__(self, folder: Path) -> None:
        self.folder, self.workspace = folder, folder / "workspace"
        self.ready, self.canary = folder / "ready", folder / "canary"
        Sources().write(self.ready)
        self.publish(self.ready)
        self.old = site_files(self.ready)
        _second(Sources()).write(self.ready)
        copytree(self.ready, self.workspace)
        start = time.perf_counter()
        subprocess.run(self.command(), cwd=ROOT, capture_output=True, check=True)
        self.seconds = time.perf_counter() - start
        self.new = site_files(self.workspace)
        assert self.old != self.new

    def reset(self) -> None:
        """Back to the old site with new sources, and with links and a pipe beside it that came from
        a stranger.
        """
        rmtree(self.workspace)
        copytree(self.ready, self.workspace)
        self.canary.mkdir(exist_ok=True)
        (self.canary / "kept.txt").write_text("kept")
        for name in _HOSTILE_LINKS:
            (self.workspace / name).symlink_to(self.canary)
        for name in (".site-known.new", ".site-seen.new"):
            (self.workspace / name).symlink_to(self.canary / "kept.txt")
        os.mkfifo(self.workspace / ".site-next-aaaaaaaaaaaaaaaa")

    def harmed(self) -> bool:
        """Whether anything was written or removed through one of them."""
        files = {p.name: p.read_text() for p in self.canary.iterdir()}
        links = all((self.workspace / name).readlink() == self.canary for name in _HOSTILE_LINKS)
        return files != {"kept.txt": "kept"} or not links

    def command(self, *before: str, workers: int = 2) -> list[str]:
        """The publish that is killed."""
        words = [
            "publish",
            "--no-pdf",
            "--workers",
            str(workers),
            "--workspace",
            str(self.workspace),
        ]
        return [sys.executable, *(before or ("-m", "builder")), *words]

    def publish(self, workspace: Path) -> None:
        """A publish that nobody disturbs; AssertionError if it fails."""
        assert publish_here(PublishOptions(workspace, pdf=False, workers=1)) == ()

    def judge(self, what: str, counts: Counts) -> None:
        """Looks at the site after a kill."""
        if self.harmed():
            counts.wrong.append(f"{what}: something outside was written or removed")
        now = site_files(self.workspace)
        if now == self.new:
            counts.new += 1
        elif now == self.old:
            counts.old += 1
        else:
            counts.wrong.append(f"{what}: the site is neither the old nor the new one")
            return
        manifest = read_manifest(self.workspace / "site")
        lying = Lying(self.workspace / "site", files_of(self.workspace / "site")[0])
        if not all(lying.holds_all(record, careful=True) for record in manifest.jobs.values()):
            counts.wrong.append(f"{what}: a file is not as the manifest says")

    def heal(self, what: str, counts: Counts) -> None:
        """The next publish succeeds, gives the new site and leaves nothing lying about."""
        lying = leftovers(self.workspace)
        counts.left_over += bool(lying)
        self.publish(self.workspace)
        if site_files(self.workspace) != self.new:
            counts.wrong.append(f"{what}: the next publish did not give the new site")
        if self.harmed():
            counts.wrong.append(f"{what}: the next publish wrote or removed something outside")
        still = leftovers(self.workspace)
        if still:
            counts.wrong.append(f"{what}: the next publish left {still}")


def alive(mark: str) -> list[int]:
    """Processes that were started, by whomever, with this mark in their environment."""
    found = []
    for entry in Path("/proc").iterdir():
        try:
            if (
                entry.name.isdigit()
                and f"{_MARK}={mark}\0".encode() in (entry / "environ").read_bytes()
            ):
                state = (entry / "stat").read_text().rpartition(")")[2].split()[0]
                if state not in "ZX":
                    found.append(int(entry.name))
        except OSError:
            continue
    return found


def _gone(mark: str, seconds: float = 10.0) -> bool:
    """Whether all marked processes end by themselves; those that do not are ended here."""
    until = time.monotonic() + seconds
    while alive(mark):
        if time.monotonic() > until:
            for pid in alive(mark):
                os.kill(pid, signal.SIGKILL)
            return False
        time.sleep(0.02)
    return True


def kill_by_clock(stage: Stage, chance: random.Random, counts: Counts) -> None:
    """Starts a publish with two workers and kills its main process after a random time; one time in
    three, twice.
    """
    stage.reset()
    for _ in range(chance.choice((1, 1, 2))):
        mark, after = uuid.uuid4().hex, chance.uniform(0.2, 1.1) * stage.seconds
        words, env = stage.command(), os.environ | {_MARK: mark}
        child = subprocess.Popen(
            words, cwd=ROOT, env=env, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        try:
            child.wait(after)
            counts.ended += 1
        except subprocess.TimeoutExpired:
            child.kill()
            child.wait()
        what = f"killed after {after:.3f} s"
        if not _gone(mark):
            counts.wrong.append(f"{what}: a worker lived on")
        stage.judge(what, counts)
    stage.heal(what, counts)


def touches(stage: Stage) -> tuple[int, int]:
    """How many times a publish touches the disk, and at which of them the site is exchanged."""
    stage.reset()
    words = stage.command("tests/publish/dies_at.py", "0", workers=1)
    out = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True).stdout
    found = re.search(r"touches: (\d+), exchange: (\d+)", out)
    assert found is not None and found[2] != "0"
    return int(found[1]), int(found[2])


def kill_by_touch(stage: Stage, number: int, counts: Counts) -> None:
    """Starts a publish that dies before its n-th touch of the disk."""
    stage.reset()
    words = stage.command("tests/publish/dies_at.py", str(number), workers=1)
    done = subprocess.run(words, cwd=ROOT, capture_output=True, check=False)
    what = f"killed before touch {number}"
    if done.returncode != -signal.SIGKILL:
        counts.wrong.append(f"{what}: it was not killed but ended with {done.returncode}")
    stage.judge(what, counts)
    stage.heal(what, counts)


def kill_many(folder: Path, by_clock: int, by_touch: int, seed: int) -> Iterator[Counts]:
    """So many kills of either kind; gives the counts after each."""
    chance, counts, stage = random.Random(seed), Counts(), Stage(folder)
    for _ in range(by_clock):
        kill_by_clock(stage, chance, counts)
        yield counts
    total, exchange = touches(stage) if by_touch else (0, 0)
    around = [
        n for n in range(exchange - 2, exchange + 3) if 0 < n <= total
    ]  # each of them is tried first
    spread = [chance.randint(1, total) for _ in range(max(by_touch - len(around), 0))]
    for number in (*around, *spread)[:by_touch]:
        kill_by_touch(stage, number, counts)
        yield counts
