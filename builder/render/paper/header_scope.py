"""Which cells a header of a printed table is for.

WeasyPrint tags each cell with the headers that it has, and leaves out the scope of the headers (as of
version 70), which some readers go by: ISO 32000-1, table 349, `Scope`.
"""

from typing import Any


def _parent(pdf: Any, node: Any) -> Any:
    """The element above in the tree: its reference begins with its number."""
    return pdf.objects[int(node["P"].split()[0])]


def say_scope(_document: Any, pdf: Any) -> None:
    """Gives every header its scope: the column in the head of a table, else its row."""
    for node in pdf.objects:
        if not hasattr(node, "get") or node.get("S") != "/TH" or "A" not in node:
            continue
        group = _parent(pdf, _parent(pdf, node))
        node["A"]["Scope"] = "/Column" if group.get("S") == "/THead" else "/Row"
