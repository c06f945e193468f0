"""sheet.json for people's own programs, and sheet.js, the same data as a classic script for pages."""

import json
from collections.abc import Mapping


def data_files(name: str, data: Mapping[str, object]) -> dict[str, bytes]:
    """Both files of a build. The script escapes `<` and the two line separators that JSON allows and scripts do not."""
    text = json.dumps(data, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False)
    safe = text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    call = f"benchleafSheet({json.dumps(name)},{safe});\n"
    return {f"{name}/sheet.json": (text + "\n").encode(), f"{name}/sheet.js": call.encode()}
