"""What brings the print libraries is said in the words of this system's package manager.

The os-release texts are shortened from those of the distributions' own base systems (from memory;
format: os-release(5)).
"""

import platform
from pathlib import Path

import pytest

from builder.system import packages

RELEASES = {
    "ID=debian\n": "`apt-get install liba libb`",
    "ID=ubuntu\nID_LIKE=debian\n": "`apt-get install liba libb`",
    'ID=linuxmint\nID_LIKE="ubuntu debian"\n': "`apt-get install liba libb`",
    "ID=fedora\n": "`dnf install",
    'ID="rocky"\nID_LIKE="rhel centos fedora"\n': "`dnf install",
    "ID=arch\n": "`pacman -S",
    "ID=alpine\n": "`apk add",
    'ID="opensuse-leap"\nID_LIKE="suse opensuse"\n': "`zypper install",
    "ID=nothing-known\n": "the packages of your system",
}


@pytest.mark.parametrize("text", RELEASES)
def test_a_distribution_is_known_by_its_name_or_by_what_it_is_like(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "os-release"
    file.write_text(text, "utf-8")
    monkeypatch.setattr(platform, "_os_release_candidates", (str(file),))
    monkeypatch.setattr(platform, "_os_release_cache", None)
    assert packages.install_words(("liba", "libb")).startswith(RELEASES[text])


@pytest.mark.parametrize(("system", "said"), [("darwin", "brew"), ("win32", "MSYS2")])
def test_other_systems_have_their_own_words(
    system: str, said: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(packages, "_SYSTEM", system)
    assert said in packages.install_words(("liba",))


def test_a_system_that_does_not_say_what_it_is_gets_the_libraries(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(platform, "_os_release_candidates", ())
    monkeypatch.setattr(platform, "_os_release_cache", None)
    assert "Pango" in packages.install_words(("liba",))
