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


def _words(step: Step) -> str:
    return " ".join(getattr(p, "text", getattr(p, "value", "")) for p in step.text).strip()


def structured_data(page: Page, site: SitePages, canonical: str) -> Markup:
    """A JSON-LD block's text, safe inside a script element; empty for pages that have none."""
    if page.kind in ("sheet", "topic"):
        steps = [
            {
                "@type": "HowToStep",
                "name": f"Step {s.number}",
                "text": _words(s),
                "url": f"{canonical}#{s.anchor}",
            }
            for s in _steps(page.sections)
        ]
        if not steps:
            return Markup("")
        data: dict[str, object] = {
            "@context": "https://schema.org",
            "@type": "HowTo",
            "name": page.title,
            "description": page.summary,
            "step": steps,
            "tool": [{"@type": "HowToTool", "name": n} for n in page.data.get("tools", ())],  # type: ignore[attr-defined]
            "supply": [{"@type": "HowToSupply", "name": n} for n in page.data.get("supplies", ())],  # type: ignore[attr-defined]
        }
        if page.revised:
            data["dateModified"] = page.revised
    elif page.kind in ("front", "table"):
        names: Sequence[tuple[str, str]] = page.data.get("builds", ())  # type: ignore[assignment]
        data = {
            "@context": "https://schema.org",
            "@type": "ItemList",
            "name": page.title,
            "itemListElement": [
                {"@type": "ListItem", "position": i, "name": title}
                | ({"url": f"{site.address}/{name}/"} if site.address else {})
                for i, (name, title) in enumerate(names, 1)
            ],
        }
    else:
        return Markup("")
    return Markup(
        json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    )
