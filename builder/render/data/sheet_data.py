"""sheet.json for people's own programs, and sheet.js, what the page for any two builds reads of it,
as a script.
"""

import json
from collections.abc import Mapping

from builder.render.data.in_script import in_script
from builder.render.html.escaped import unit_bound

# What the script of that page looks at; all of sheet.json is eleven times as much.
_READ_BY_SCRIPT = ("build", "compare")


def _json(data: Mapping[str, object]) -> bytes:
    return json.dumps(
        data, ensure_ascii=False, sort_keys=True, separators=(",", ":"), allow_nan=False
    ).encode()


def data_files(name: str, data: Mapping[str, object]) -> dict[str, bytes]:
    """Both files of a build. The script holds its words as pages show them: no unit parts from its
    number.
    """
    text = _json(data)
    shown = _json({key: data[key] for key in _READ_BY_SCRIPT})
    safe = in_script(unit_bound(shown.decode())).encode()
    call = b"benchleafSheet(%s,%s);\n" % (json.dumps(name).encode(), safe)
    return {f"{name}/sheet.json": text + b"\n", f"{name}/sheet.js": call}
