"""Structured data for search engines in the words of schema.org: HowTo for a sheet, ItemList for a
table.
"""

import json
from collections.abc import Sequence

from markupsafe import Markup

from builder.pages.blocks import Page, Section, Step, Steps
from builder.pages.site.site_pages import SitePages


def _steps(sections: tuple[object, ...]) -> list[Step]:
    out: list[Step] = []
    for item in sections:
        if isinstance(item, Section):
            out += _steps(item.blocks)
        elif isinstance(item, Steps):
            out += [s for s in item.items if isinstance(s, Step)]
    return out


def _step(step: Step) -> dict[str, object]:
    """A step; its address hangs on that of the page (JSON-LD 1.1, 4.1.3 Base IRI, from memory:
    relative to the document). What the parts of a step add is read there: said twice, it was a
    twentieth of the page.
    """
    own = " ".join(getattr(p, "text", getattr(p, "value", "")) for p in step.text).strip()
    return {"@type": "HowToStep", "text": own, "url": f"#{step.anchor}"}


def _item(place: int, name: str, title: str, address: str) -> dict[str, object]:
    item: dict[str, object] = {"@type": "ListItem", "position": place, "name": title}
    return item | ({"url": f"{address}/{name}/"} if address else {})


def structured_data(page: Page, site: SitePages) -> Markup:
    """A JSON-LD block's text, safe inside a script element; empty for pages that have none."""
    if page.kind in ("sheet", "topic"):
        steps = [_step(s) for s in _steps(page.sections)]
        if not steps:
            return Markup("")
        tools: Sequence[str] = page.data.get("tools", ())  # type: ignore[assignment]
        supplies: Sequence[str] = page.data.get("supplies", ())  # type: ignore[assignment]
        data: dict[str, object] = {
            "@context": "https://schema.org",
            "@type": "HowTo",
            "name": page.title,
            "description": page.summary,
            "step": steps,
            "tool": [{"@type": "HowToTool", "name": n} for n in tools],
            "supply": [{"@type": "HowToSupply", "name": n} for n in supplies],
        }
        if page.revised:
            data["dateModified"] = page.revised
    elif page.kind in ("front", "table"):
        names: Sequence[tuple[str, str]] = page.data.get("builds", ())  # type: ignore[assignment]
        data = {
            "@context": "https://schema.org",
            "@type": "ItemList",
            "name": page.title,
            "itemListElement": [_item(i, *n, site.address) for i, n in enumerate(names, 1)],
        }
    else:
        return Markup("")
    return Markup(
        json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    )
