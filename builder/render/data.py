"""sheet.json for people's own programs, and sheet.js, the same data as a classic script for pages."""

import json
from collections.abc import Mapping


def data_files(name: str, data: Mapping[str, object]) -> dict[str, bytes]:
    """Both files of a build. The script escapes `<` and the two line separators that JSON allows and scripts do not."""
    text = json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False).encode()
    safe = text
    for letter in "<\u2028\u2029":
        safe = safe.replace(letter.encode(), f"\\u{ord(letter):04x}".encode())
    call = b"benchleafSheet(%s,%s);\n" % (json.dumps(name).encode(), safe)
    return {f"{name}/sheet.json": text + b"\n", f"{name}/sheet.js": call}
