"""Finds, in what a person wrote, what should not be published: the secret of a radio link, a serial
number, a home address.
"""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from builder.diagnostics.where import KeyPath

# A label and then a value, as people note such things down. The words are English, as the sources
# are. No two runs of blanks stand side by side: a long run could be shared out between them in
# millions of ways.
_ORDINARY = (
    r"(?:on|in|at|by|not|never|no|needed|set|kept|yours|private|secret|published|printed|the|an?|your|my|our|its|same|left"
    r"|asked|shown|stored|found|noted|written|different|too|to|up|under|below|for|from|as|that|what|only|also|like"
    r"|free|chosen|changed|required|wanted|given|taken|lost)\b"
)
_QUOTED = r"[\"'“”‘’‚„«»(\[{]"
_IS = rf"(?:\s*(?:is\b(?!\s+{_ORDINARY})|[:=→]|{_QUOTED})|\s+[-–—]+(?=\s)|[^\S\n]*\t)\s*\S+"
_WITH_A_DIGIT = r"\s+#?(?=[\w-]*\d)[\w-]{4,}"  # a value right behind its label
_VALUE = rf"(?:{_IS}|{_WITH_A_DIGIT})"
# A value with no mark before it: `password otter` opens its clause, or says whose it is, and one to
# three words end it. Words with which people speak about such a thing are none.
_ABOUT = (
    r"(?:protect\w*|manager|test|tests|prompt|field|box|page|file|list|hint|rules?|length|reset|change|sticker|label"
    r"|card|sheet|entry|check|policy|again|twice|once|first|later|now|here|there|slowly|regularly|carefully|then|when"
    r"|if|so|and|or|but|can|must|may|should|will|has|have|was|were|are|be|been|empty|none|unknown|missing|wrong|right"
    r"|correct|long|short|strong|weak|safe|public|default|optional|only|works?|working|fails?|failed|is|it"
    r"|before|after|with|without|both|ends?|boards?|itself|away|back|aside|ready|entered|typed|removed|cleared|hidden)\b"
)
_WORD = rf"(?!{_ORDINARY})(?!{_ABOUT})[\w-]{{3,40}}"
_BARE = rf"[ \t]{{1,3}}{_WORD}(?:[ \t]{_WORD}){{0,2}}(?=\s{{0,3}}(?:[.,;!?)\]/]|$))"
_WHOSE = (
    r"(?:wi-?fi|wlan|network|hotspot|access point|router|login|user|admin|account|goggles|camera|board|radio|video"
    r"|transmitter|unit|web|with|and|uses|use|its|my|our)"
)
_OPENS = rf"(?:(?:^|[.,;:!?(\[/])[ \t]{{0,3}}|\b{_WHOSE}[ \t]{{1,3}})"
_SECRET = r"(?:bind(?:ing)?|pair(?:ing)?|link)[ _-]?(?:phrase|code|secret|key|id|word)"
_LINK_SECRET = "the secret of a radio link"
_PASS = r"pass(?:word|phrase|code|key|wd)|pwd|pw|psk|wpa\d? ?key"
_BYTE = r"(?:0x[0-9a-f]{1,2}|\d{1,3})"
_DIGITS = r"\s*(?:(?:is|[:=#])\s*)?(?=[\w-]*\d)[A-Z0-9][\w-]{3,}"
_LONGER = r"(?=[\w-]*\d)[A-Z0-9][\w-]{4,}"
_PATTERNS = tuple(
    (what, re.compile(pattern, re.IGNORECASE))
    for what, pattern in (
        (_LINK_SECRET, rf"\b{_SECRET}\b{_VALUE}"),
        (
            _LINK_SECRET,
            rf"\b(?:phrase|code|secret|key|word) (?:for|of) (?:the )?(?:binding|pairing|link)\b{_VALUE}",
        ),
        (
            _LINK_SECRET,
            rf"\b(?:bound|bind|paired|pair) (?:with|by|under) (?:the |my )?(?:phrase|code|word|key)\s+(?!{_ORDINARY})\S+",
        ),
        (_LINK_SECRET, r"\bphrase\s*[:=]\s*\S+"),
        (
            _LINK_SECRET,
            r"\b(?:uid|bind(?:ing)?|pairing|link)\b[^\d.]{0,30}\d{1,3}(?:\s*[,;:-]\s*\d{1,3}){3,}(?!\d)",
        ),
        (_LINK_SECRET, rf"\buid\b[^\d.]{{0,30}}{_BYTE}(?:[\s,;:-]+{_BYTE}){{3,}}"),
        ("a serial number", rf"\b(?:serial (?:number|no\.?)|s/n){_DIGITS}"),
        ("a serial number", rf"\bserial\s*[:=#]\s*{_LONGER}"),
        ("a serial number", rf"\bSN\b[:=#]?\s*{_LONGER}"),
        ("an operator number", rf"\b(?:operator|registration|reg\.?) (?:number|id|no\.?){_VALUE}"),
        ("an operator number", rf"\be-?id\s*[:=]\s*{_LONGER}"),
        ("a password", rf"(?<!/)\b(?:{_PASS})\b{_IS}"),
        ("a password", rf"{_OPENS}(?<!/)\b(?:{_PASS})\b{_BARE}"),
        ("a password", r"\b(?:wi-?fi|wlan|network) pass\b(?:\s*[:=]\s*|\s+)(?!of\b|is\b|the\b)\S+"),
        (_LINK_SECRET, rf"{_OPENS}\b{_SECRET}\b{_BARE}"),
        ("a password", r"\bpin(?: code)?(?:\s*[:=]\s*|\s+)\d{4,8}\b"),
        ("a secret word", r"\bsecret(?: word)?\s*[:=]\s*\S+"),
        (
            "a home address",
            r"\bhome (?:address|is at|point)\s*(?:(?:is|[:=])\s*)?(?=\S)(?=[^.]*\d)\S+",
        ),
        (
            "exact co-ordinates",
            r"(?<![\d.])-?\d{1,2}\.\d{4,}\s*[NS]?\s*,\s*-?\d{1,3}\.\d{4,}(?!\d*\s*(?:[mk]?V|[mk]?A|[mc]m|g|ohm|s)\b)",
        ),
        ("exact co-ordinates", r"\b[NS]\s?\d{1,2}\.\d{4,}[\s,]{1,3}[EW]\s?\d{1,3}\.\d{4,}"),
        ("exact co-ordinates", r"\b\d{1,2}°\s?\d{1,2}['′]\s?[\d.]{0,8}[\"″]?\s?[NS]\b"),
        ("exact co-ordinates", r"\blat(?:itude)?\b[\s:=]{1,3}-?\d{1,2}\.\d{3,}"),
    )
)
# Without one of these no pattern finds anything, and most texts have none.
_NEAR = re.compile(
    r"bind|bound|pair|link|phrase|code|secret|key|word|uid|serial|s/n|\bsn\b|operator|regist|\breg\b|\be-?id\b"
    r"|pass|pwd|\bpw\b|psk|wpa|\bpin\b|home|\blat|°|\d\.\d{4}",
    re.IGNORECASE,
)
_SECRET_KEY = re.compile(_SECRET, re.IGNORECASE)
_KEYS = {
    "uid": _LINK_SECRET,
    "secret": "a secret word",
    "token": "a secret word",
    "passphrase": "a password",
    "pin": "a secret word",
    "link_secret": _LINK_SECRET,
    "serial_number": "a serial number",
    "home": "a home position",
    "home_position": "a home position",
    "password": "a password",
}


def _named(key: str, value: Any) -> str | None:
    """What a key says that its value is, if that is private; pins of a part are a group or a list."""
    plain = key.casefold().replace("-", "_").replace(" ", "_")
    named = _KEYS.get(plain)
    if named is None and _SECRET_KEY.fullmatch(plain):
        named = _LINK_SECRET
    if named == "a secret word" and not isinstance(value, str):
        return None
    return named


def _beside_its_name(tree: Mapping[Any, Any]) -> str | None:
    """`{name: link secret, value: a word}`: the key of a value that stands beside its own name."""
    texts = {k: v for k, v in tree.items() if isinstance(v, str)}
    labels = [k for k, v in texts.items() if _SECRET_KEY.fullmatch(v.strip(" :="))]
    others = [k for k in tree if k not in (*labels, "id") and tree[k] not in (None, "", "none")]
    return str(others[0]) if labels and others else None


def private_in(tree: Any, path: KeyPath = ()) -> Iterator[tuple[KeyPath, str]]:
    """Each place in a tree of texts that would give something private away, and what it is."""
    if isinstance(tree, Mapping):
        for key, value in tree.items():
            named = _named(str(key), value)
            if named is not None and value not in (None, "", "none"):
                yield (*path, key), named
            else:
                yield from private_in(value, (*path, key))
        beside = _beside_its_name(tree)
        if beside is not None:
            yield (*path, beside), "the secret of a radio link"
    elif isinstance(tree, list | tuple):
        for i, value in enumerate(tree):
            yield from private_in(value, (*path, i))
    elif isinstance(tree, str) and _NEAR.search(tree):
        for what, pattern in _PATTERNS:
            if pattern.search(tree):
                yield path, what
                break
