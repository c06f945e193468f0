"""The JSON Schemas by name: of the three files that a person writes, and of the data that a sheet
gives.
"""

import json
from collections.abc import Callable
from typing import Any

from builder.render.data.sheet_schema import sheet_schema
from builder.render.data.source_schema import build_schema, shelf_schema, site_schema

SCHEMAS: dict[str, Callable[[], dict[str, Any]]] = {
    "build": build_schema,
    "shelf": shelf_schema,
    "site": site_schema,
    "sheet": sheet_schema,
}


def schema_text(name: str, indent: int | None = None) -> str:
    """One of them as text."""
    return json.dumps(SCHEMAS[name](), indent=indent, ensure_ascii=False) + "\n"


def schema_files() -> dict[str, bytes]:
    """All of them by address."""
    return {f"schema/{name}.json": schema_text(name).encode() for name in SCHEMAS}
