"""Fetches one file from an address, for a person who asked for it: https, to the public network,
within bounds.

Plain http is for this machine only. The name is resolved once and the connection goes to the
address that was looked at, so that a name cannot mean something else a moment later. Redirects are
looked at again; one that leads to another host is followed only if somebody says so.
"""

import http.client
import ipaddress
import re
import socket
import ssl
from collections.abc import Callable
from contextlib import ExitStack, suppress
from dataclasses import dataclass, field
from email.message import Message
from threading import Thread
from urllib.parse import SplitResult, urljoin, urlsplit

from builder.load.archive import MOST_PACKED, NotTaken

SECONDS = 60.0  # for all of it: names, redirects, bytes
_MOST_REDIRECTS = 5
_PIECE = 2**16  # bytes
_REDIRECTS = (301, 302, 303, 307, 308)
_NAT64 = ipaddress.ip_network("64:ff9b::/96")  # RFC 6052: the last 32 bits are an IPv4 address
# RFC 4291 and the registry of IANA (from memory): nothing outside is handed out for the public network
_HANDED_OUT = ipaddress.ip_network("2000::/3")
_ISATAP = (0x00005EFE, 0x02005EFE)  # RFC 5214: before the IPv4 address in the last 64 bits
_ODD_IPV4 = tuple(
    ipaddress.ip_network(net) for net in ("192.0.0.0/24", "192.88.99.0/24")
)  # RFC 6890, RFC 7526: for protocols and relays, for no server
Ask = Callable[[str], bool]
_IpAddress = ipaddress.IPv4Address | ipaddress.IPv6Address


def is_web_address(text: str) -> bool:
    """Whether a text is meant as an address, not as a file."""
    return "://" in text


@dataclass(frozen=True, slots=True)
class _Place:
    """A looked-at place: the host as it was written, and the network address that it means."""

    scheme: str
    host: str
    port: int
    ip: str
    path: str

    @property
    def local(self) -> bool:
        return _is_here(ipaddress.ip_address(self.ip))

    @property
    def origin(self) -> tuple[str, str, int]:
        return self.scheme, self.host, self.port


def _plain(ip: _IpAddress) -> _IpAddress:
    """The IPv4 address inside an IPv6 one, where there is one."""
    if not isinstance(ip, ipaddress.IPv6Address):
        return ip
    if ip.ipv4_mapped is not None:
        return ip.ipv4_mapped
    if ip.sixtofour is not None:
        return ip.sixtofour
    inside = ipaddress.IPv4Address(int(ip) & 0xFFFFFFFF)
    before = (int(ip) >> 32) & 0xFFFFFFFF
    return inside if ip in _NAT64 or before in _ISATAP else ip


def _is_here(ip: _IpAddress) -> bool:
    """Whether an address is of this machine itself; through a relay it is not."""
    mapped = ip.ipv4_mapped if isinstance(ip, ipaddress.IPv6Address) else None
    return (mapped or ip).is_loopback


def _is_public(ip: _IpAddress) -> bool:
    plain = _plain(ip)
    if isinstance(plain, ipaddress.IPv6Address):
        return plain in _HANDED_OUT and plain.is_global
    odd = any(plain in net for net in _ODD_IPV4)
    return plain.is_global and not plain.is_multicast and not odd


def _parts(address: str) -> tuple[SplitResult, str, int]:
    """An address in its parts, with host and port. NotTaken for one that is not fetched."""
    if not address.isprintable() or " " in address:
        raise NotTaken("The address holds a character that no address has.")
    try:
        parts = urlsplit(address)
        host, port = parts.hostname or "", parts.port
        host = host if ":" in host else host.encode("idna").decode("ascii")
    except (ValueError, UnicodeError):
        raise NotTaken("The address cannot be read.") from None
    if parts.scheme not in ("https", "http"):
        raise NotTaken("Only addresses that begin with https:// are fetched.")
    if parts.username is not None or parts.password is not None:
        raise NotTaken("The address holds a name or a password; take it out.")
    if not host or port == 0:
        raise NotTaken("The address names no host.")
    return parts, host, port or (443 if parts.scheme == "https" else 80)


def _looked_at(address: str, *, may_be_local: bool) -> _Place:
    """Where an address leads. NotTaken for what is not of the public network, but for this machine
    itself where that was asked for.
    """
    parts, host, port = _parts(address)
    try:
        found = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    except (OSError, UnicodeError):
        raise NotTaken(f"There is no host {host[:100]!r} to be found.") from None
    ips = [ipaddress.ip_address(str(row[4][0]).partition("%")[0]) for row in found]
    local = all(map(_is_here, ips))
    if not (local and may_be_local) and not all(map(_is_public, ips)):
        raise NotTaken(f"{host[:100]!r} is an address of a private network.")
    if parts.scheme == "http" and not local:
        raise NotTaken("Plain http is for this machine only; use https.")
    path = parts.path or "/"
    whole = f"{path}?{parts.query}" if parts.query else path
    if not whole.isascii():
        raise NotTaken("The address holds letters that want to be written as %XX.")
    return _Place(parts.scheme, host, port, str(ips[0]), whole)


@dataclass(eq=False)
class _Fetch:
    """One fetch while it runs in its own thread; local to a call."""

    address: str
    ask: Ask
    context: ssl.SSLContext | None
    most: int
    content: bytes | None = None
    error: NotTaken | None = None
    plugged: list[socket.socket] = field(default_factory=list)
    open: ExitStack = field(default_factory=ExitStack)

    def run(self) -> None:
        try:
            self.content = self._follow()
        except NotTaken as error:
            self.error = error
        except Exception as error:  # noqa: BLE001 - whatever it is, no file was given
            self.error = NotTaken(f"The address does not answer as it should: {_said(error)}.")
        finally:
            self.open.close()

    def stop(self) -> None:
        """From outside: what waits for bytes waits no more, and closes all of it."""
        for each in self.plugged:
            with suppress(OSError):
                each.shutdown(socket.SHUT_RDWR)

    def _follow(self) -> bytes:
        place = _looked_at(self.address, may_be_local=True)
        address, may_be_local = self.address, place.local
        for _ in range(_MOST_REDIRECTS + 1):
            answer = self._answer(place)
            if answer.status not in _REDIRECTS:
                return self._body(answer)
            onward = answer.headers.get("Location", "")
            if not onward:
                raise NotTaken("The address leads on and does not say where.")
            address = urljoin(address, onward)
            there = _looked_at(address, may_be_local=may_be_local)
            if place.scheme == "https" and there.scheme != "https":
                raise NotTaken("The address leads on to one without https.")
            if there.origin != place.origin and not self.ask(there.host):
                raise NotTaken(
                    f"The address leads on to another host, {there.host[:100]!r}.",
                    "Nothing was written. Give that address itself if you trust it.",
                )
            place = there
        raise NotTaken("The address leads on and on.")

    def _answer(self, place: _Place) -> http.client.HTTPResponse:
        plain = socket.create_connection((place.ip, place.port), timeout=SECONDS)
        self.open.callback(plain.close)
        self.plugged.append(plain)
        connection = http.client.HTTPConnection(place.host, place.port, timeout=SECONDS)
        connection.sock = plain
        if place.scheme == "https":
            context = self.context or ssl.create_default_context()
            connection.sock = context.wrap_socket(plain, server_hostname=place.host)
            self.open.callback(connection.sock.close)
            self.plugged.append(connection.sock)
        usual = place.port == (443 if place.scheme == "https" else 80)
        name = f"[{place.host}]" if ":" in place.host else place.host
        headers = {"Host": name if usual else f"{name}:{place.port}", "Connection": "close"}
        headers |= {"Accept-Encoding": "identity", "User-Agent": "benchleaf"}
        connection.request("GET", place.path, headers=headers)
        answer = connection.getresponse()
        self.open.callback(answer.close)
        return answer

    def _body(self, answer: http.client.HTTPResponse) -> bytes:
        if answer.status != 200:
            raise NotTaken(f"The address answers with status {answer.status}, not with a file.")
        if answer.headers.get("Content-Encoding", "identity") != "identity":
            raise NotTaken("The address answers with packed bytes that were not asked for.")
        length = _said_length(answer.headers)
        pieces, size = [], 0
        while piece := answer.read(_PIECE):
            size += len(piece)
            if size > self.most:
                raise NotTaken(f"The address gives more than {self.most // 2**20} MB.")
            pieces.append(piece)
        if length is not None and length != size:
            raise NotTaken("The answer was cut on the way.")
        return b"".join(pieces)


def _said_length(headers: Message) -> int | None:
    """The bytes that an answer says it has. NotTaken where it says two numbers, none that can be, or
    another coding than chunks: who reads on the way could read another file (RFC 9112, 6.3).
    """
    coded = [way.strip().lower() for way in headers.get_all("Transfer-Encoding", [])]
    said = set(headers.get_all("Content-Length", []))
    sound = all(re.fullmatch("[0-9]{1,18}", length.strip()) for length in said)
    if not sound or len(said) > 1 or coded not in ([], ["chunked"]) or (said and coded):
        raise NotTaken("The address does not say soundly how long its answer is.")
    return int(said.pop()) if said else None


def _said(error: Exception) -> str:
    if isinstance(error, ssl.SSLError):
        return "its certificate or its encryption is not sound"
    text = error.strerror if isinstance(error, OSError) else ""
    return text or type(error).__name__


def fetched(
    address: str,
    ask: Ask = lambda host: False,
    *,
    seconds: float = SECONDS,
    most: int = MOST_PACKED,
    context: ssl.SSLContext | None = None,
) -> bytes:
    """The bytes behind an address. NotTaken, in one sentence, for whatever keeps it from being
    fetched; `ask` is told the host that a redirect leads to.
    """
    _parts(address)
    fetch = _Fetch(address, ask, context, most)
    thread = Thread(target=fetch.run, daemon=True)
    thread.start()
    thread.join(seconds)
    if thread.is_alive():
        fetch.stop()
        thread.join(1.0)
        raise NotTaken(f"The address did not give the file within {seconds:g} s.")
    if fetch.error is not None:
        raise fetch.error
    if fetch.content is None:
        raise NotTaken("The address gave no file.")
    return fetch.content
