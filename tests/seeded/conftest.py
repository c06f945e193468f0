"""The table of seeded faults at the end of a run: rule, seeded, found, false alarms."""

from collections import defaultdict

import pytest

from tests.seeded.seeds import SCORES


def pytest_configure(config: pytest.Config) -> None:
    config.stash[SCORES] = []


def pytest_terminal_summary(
    terminalreporter: pytest.TerminalReporter, config: pytest.Config
) -> None:
    scores = config.stash.get(SCORES, [])
    if not scores:
        return
    rows: dict[str, list[int]] = defaultdict(lambda: [0, 0, 0])
    for rule, found, alarms in scores:
        rows[rule] = [n + m for n, m in zip(rows[rule], (1, int(found), alarms), strict=True)]
    rows["all"] = [sum(r[i] for r in rows.values()) for i in range(3)]
    terminalreporter.section("seeded faults")
    terminalreporter.write_line(f"{'rule':<36}{'seeded':>8}{'found':>8}{'false alarms':>14}")
    for rule, (seeded, caught, alarms) in rows.items():
        terminalreporter.write_line(f"{rule:<36}{seeded:>8}{caught:>8}{alarms:>14}")
