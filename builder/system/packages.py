"""How this system's package manager brings what printing needs.

Names of packages are those of the distributions' own archives (from memory, but for Debian 12,
where the tests run).
"""

import platform
import sys
from collections.abc import Mapping

_SYSTEM: str = sys.platform
# By ID or ID_LIKE of os-release(5). {} takes the names that the caller knows, which are Debian's.
_BY_DISTRIBUTION: Mapping[str, str] = {
    "debian": "`apt-get install {}`",
    "ubuntu": "`apt-get install {}`",
    "fedora": "`dnf install pango harfbuzz fontconfig`",
    "rhel": "`dnf install pango harfbuzz fontconfig`",
    "suse": "`zypper install libpango-1_0-0 libharfbuzz-subset0 fontconfig`",
    "arch": "`pacman -S pango harfbuzz fontconfig`",
    "alpine": "`apk add pango harfbuzz-subset fontconfig`",
}
_BY_SYSTEM: Mapping[str, str] = {
    "darwin": "`brew install pango`",
    "win32": "the package `mingw-w64-x86_64-pango` of MSYS2, with its folder `bin` on the PATH",
}
_OTHERWISE = "the packages of your system for the libraries Pango, HarfBuzz and Fontconfig"


def install_words(debian_names: tuple[str, ...]) -> str:
    """What brings the libraries on this machine: a command, or what to look for."""
    if _SYSTEM in _BY_SYSTEM:
        return _BY_SYSTEM[_SYSTEM]
    for name in distribution():
        if name in _BY_DISTRIBUTION:
            return _BY_DISTRIBUTION[name].format(" ".join(debian_names))
    return _OTHERWISE


def distribution() -> tuple[str, ...]:
    """The names of this Linux and of those that it is like, the nearest first; none elsewhere."""
    try:
        release = platform.freedesktop_os_release()
    except OSError:
        return ()
    return (release.get("ID", ""), *release.get("ID_LIKE", "").split())
