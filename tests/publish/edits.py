"""Random edits of a tiny workspace: what people do to builds, parts, templates and settings, and
what they break.

An edit is a function of the sources and two small whole numbers that say which and how; one that
does not apply changes nothing.
"""

import copy
from collections.abc import Callable
from typing import Any

from builder.render.html.page import template_folder
from tests.publish.sources import Sources, Tree, first_build

Edit = Callable[[Sources, int, int], None]
_NAMES = ("wren", "robin", "dunnock", "siskin")
_WORDS = ("Reed", "Weir", "Barn", "Loft", "Bank")
_STATUS = ("planned", "on the bench", "flying", "retired")
_TEMPLATES = ("page.html", "front.html", "sheet.html", "table.html", "any.html")


def _pick(choices: Any, number: int) -> Any:
    listed = sorted(choices)
    return listed[number % len(listed)] if listed else None


def _build(s: Sources, number: int) -> Tree:
    return s.builds[_pick(s.builds, number)] if s.builds else {}


def _part(s: Sources, number: int) -> Tree:
    parts = s.parts()
    if not parts:
        return {}
    file, name = parts[number % len(parts)]
    return s.shelf[file][name]


def _turned(tree: Tree, by: int) -> Tree:
    """The same keys in another order."""
    keys = list(tree)
    by = by % len(keys) if keys else 0
    return {key: tree[key] for key in (*keys[by:], *keys[:by])}


def retitle(s: Sources, a: int, b: int) -> None:
    _build(s, a)["title"] = f"{_pick(_WORDS, b)} {b}"


def say(s: Sources, a: int, b: int) -> None:
    """Words of all kinds that only a sheet shows."""
    build = _build(s, a)
    build["summary"] = f"Looks under {_pick(_WORDS, b)}."
    build["questions"] = [{"ask": f"Why {b}?", "answer": "It was at hand."}]
    build.setdefault("setup", {})["notes"] = [f"Saved {b} times."] * (b % 3)


def set_status(s: Sources, a: int, b: int) -> None:
    _build(s, a)["status"] = _STATUS[b % 4]


def revise(s: Sources, a: int, b: int) -> None:
    _build(s, a)["revised"] = f"2026-10-{1 + b:02d}"


def log_a_change(s: Sources, a: int, b: int) -> None:
    _build(s, a)["changes"] = [
        {"date": f"2026-10-{n + 1:02d}", "text": f"Looked at, {n}."} for n in range(b)
    ]


def fly(s: Sources, a: int, b: int) -> None:
    flight = {"date": "2026-10-05", "pack": "small", "airborne": f"{3 + b} min", "used": "200 mAh"}
    _build(s, a)["flights"] = [flight] * (b % 3)


def weigh_build(s: Sources, a: int, b: int) -> None:
    _build(s, a)["weighed"] = [
        {"what": "dry", "mass": f"{36 + b / 10} g", "scale": "0.1 g", "date": "2026-10-05"}
    ]


def add_build(s: Sources, a: int, b: int) -> None:
    s.builds.setdefault(_NAMES[a % 4], first_build(f"{_pick(_WORDS, b)}"))


def remove_build(s: Sources, a: int, b: int) -> None:
    if len(s.builds) > 1:
        name = _pick(s.builds, a)
        del s.builds[name]
        s.pictures.pop(name, None)
        s.broken.discard(f"builds/{name}/build.yaml")


def rename_build(s: Sources, a: int, b: int) -> None:
    old, new = _pick(s.builds, a), _NAMES[b % 4]
    if new not in s.builds:
        s.builds[new] = s.builds.pop(old)
        if old in s.pictures:
            s.pictures[new] = s.pictures.pop(old)


def base_on(s: Sources, a: int, b: int) -> None:
    """Makes a build a variant of another (in a circle or on a missing one, too), or a build of its
    own again.
    """
    build, base = _build(s, a), _NAMES[b % 4]
    if "based_on" in build:
        build.clear()
        build.update(first_build("Own again"))
    else:
        motor = {"motor": {"use": "motor-tit", "count": 4}}
        build.clear()
        build.update(
            {"title": f"Like {base}", "based_on": base, "revised": "2026-10-09"}
            | ({"parts": motor} if b else {})
        )


def repeat_of_base(s: Sources, a: int, b: int) -> None:
    """Writes into a variant what its base says: the value is the same, where it stands is not."""
    build = _build(s, a)
    base = s.builds.get(build.get("based_on", ""), {})
    if "parts" in base:
        key = _pick(base["parts"], b)
        build.setdefault("parts", {})[key] = copy.deepcopy(base["parts"][key])


def swap_part(s: Sources, a: int, b: int) -> None:
    use = ("motor-wren", "motor-tit", "motor-none", "prop-wren", "prop-large", "prop-wren")[b % 6]
    _build(s, a).setdefault("parts", {})[{"m": "motor", "p": "propeller"}[use[0]]] = {
        "use": use,
        "count": 4,
    }


def take_part_out(s: Sources, a: int, b: int) -> None:
    parts = _build(s, a).get("parts", {})
    if len(parts) > 1:
        parts.pop(_pick(parts, b))


def add_pack(s: Sources, a: int, b: int) -> None:
    _build(s, a).setdefault("packs", {})["large" if b % 2 else "small"] = {
        "use": ("pack-tit", "pack-wren")[b % 2]
    }


def turn_parts(s: Sources, a: int, b: int) -> None:
    build = _build(s, a)
    build["parts"] = _turned(build.get("parts", {}), b)


def weigh_part(s: Sources, a: int, b: int) -> None:
    _part(s, a)["mass"] = {"measured": f"{3 + b} g"} if b % 2 else {"maker": f"{3 + b} g"}


def price_part(s: Sources, a: int, b: int) -> None:
    _part(s, a)["price"] = {"each": f"{b}.50 EUR", "seen": "2026-09-01"}


def name_part(s: Sources, a: int, b: int) -> None:
    _part(s, a)["name"] = f"{_pick(_WORDS, b)} part"


def turn_part(s: Sources, a: int, b: int) -> None:
    part = _part(s, a)
    turned = _turned(part, b)
    part.clear()
    part.update(turned)


def turn_shelf(s: Sources, a: int, b: int) -> None:
    name = _pick(s.shelf, a)
    s.shelf[name] = _turned(s.shelf[name], b)


def move_part(s: Sources, a: int, b: int) -> None:
    """Moves a part to another file of the shelf, a new one perhaps."""
    parts = s.parts()
    if parts:
        file, name = parts[a % len(parts)]
        s.shelf.setdefault(("air.yaml", "bench.yaml", "more.yaml")[b % 3], {})[name] = s.shelf[
            file
        ].pop(name)


def add_to_shelf(s: Sources, a: int, b: int) -> None:
    extra = {
        "kind": "pack",
        "name": f"Extra {b}",
        "mass": {"measured": f"{5 + b} g"},
        "cells": "2S",
    }
    s.shelf.setdefault("more.yaml", {})[f"pack-extra-{a % 2}"] = extra | {
        "capacity": f"{200 + b} mAh"
    }


def remove_from_shelf(s: Sources, a: int, b: int) -> None:
    parts = s.parts()
    if parts and b % 2:
        file, name = parts[a % len(parts)]
        del s.shelf[file][name]


def rename_on_shelf(s: Sources, a: int, b: int) -> None:
    """Renames a part; the builds follow or, one time in two, do not."""
    parts = s.parts()
    if not parts:
        return
    file, old = parts[a % len(parts)]
    new = f"{old.split('-')[0]}-new-{b % 3}"
    if new not in s.shelf[file]:
        s.shelf[file] = {new if n == old else n: t for n, t in s.shelf[file].items()}
        uses = [
            u for t in s.builds.values() for g in ("parts", "packs") for u in t.get(g, {}).values()
        ]
        for use in uses if b % 2 else ():
            if use["use"] == old:
                use["use"] = new


def alternatives(s: Sources, a: int, b: int) -> None:
    motor = _build(s, a).get("parts", {}).get("motor")
    if motor:
        motor["alternatives"] = [["motor-tit"], ["motor-wren"], []][b % 3]


def set_site(s: Sources, a: int, b: int) -> None:
    key, values = (
        ("title", ["Wren sheets", "Other sheets"]),
        ("about", ["Small ones.", "Smaller ones."]),
        ("paper", ["A4", "Letter"]),
        ("currency", ["EUR", "USD"]),
        ("as_of", ["2026-11-01", "2027-11-01"]),
        ("author", ["A bench group", "Another"]),
        ("spreads", [{"maker_mass": "3 %"}, {"maker_mass": "9 %"}]),
        ("address", ["https://wren.example/", "https://tit.example/sheets/"]),
    )[a % 8]
    s.site[key] = values[b % 2]


def limit_mass(s: Sources, a: int, b: int) -> None:
    s.site["limits"] = [
        {"name": f"{n} g class", "mass": f"{n} g", "strict": "yes"}
        for n in (40 + 4 * b, 90)[: a % 3]
    ]


def compare(s: Sources, a: int, b: int) -> None:
    pairs = [[_NAMES[n], _NAMES[m]] for n in range(4) for m in range(n + 1, 4)]
    s.site["compare"] = [p for p in pairs[a % 3 : b] if set(p) <= set(s.builds)]


def turn_site(s: Sources, a: int, b: int) -> None:
    s.site = _turned(s.site, b)


def own_template(s: Sources, a: int, b: int) -> None:
    """A template of the workspace's own in place of ours, changed, or ours again."""
    name = _TEMPLATES[a % 5]
    if b % 3:
        text = (template_folder() / name).read_text("utf-8")
        s.templates[name] = text.replace("<", f"<!-- {b} --><", 1)
    else:
        s.templates.pop(name, None)


def own_asset(s: Sources, a: int, b: int) -> None:
    name = ("static/sheet.css", "static/club.css", "static/more/club.svg")[a % 3]
    if b % 3:
        s.templates[name] = f"/* {b} */\n"
    else:
        s.templates.pop(name, None)


def picture(s: Sources, a: int, b: int) -> None:
    """A picture that is drawn, drawn anew, taken away with its mention, or missing."""
    name = _pick(s.builds, a)
    build = s.builds[name]
    build.pop("hero", None)
    s.pictures.pop(name, None)
    if b % 4:
        build["hero"] = {"file": "top.svg", "alt": "Top view"}
    if b % 4 > 1:
        s.pictures[name] = b


def comment(s: Sources, a: int, b: int) -> None:
    paths = [p for p in s.files() if p.endswith(".yaml")]
    s.comments[paths[a % len(paths)]] = b


def break_syntax(s: Sources, a: int, b: int) -> None:
    """One build, rarely a file of the shelf or the settings, cannot be read any more."""
    shelf = [f"builds/shelf/{f}" for f in sorted(s.shelf)]
    s.broken.add(
        _pick([f"builds/{n}/build.yaml" for n in s.builds], a)
        if b % 4
        else (*shelf, "builds/site.yaml")[a % 3]
    )


def break_build(s: Sources, a: int, b: int) -> None:
    _build(s, a)["titel"] = "what is this"


def break_part(s: Sources, a: int, b: int) -> None:
    _part(s, a)["mess"] = "12 g"


def mend(s: Sources, a: int, b: int) -> None:
    """Mends one thing, or everything."""
    if s.broken:
        s.broken.discard(_pick(s.broken, a))
    if b % 2:
        s.broken.clear()
    for tree in (*s.builds.values(), *(p for f in s.shelf.values() for p in f.values())):
        tree.pop("titel", None)
        tree.pop("mess", None)


def draft(s: Sources, a: int, b: int) -> None:
    s.draft = bool(b % 2)


def keep_source_back(s: Sources, a: int, b: int) -> None:
    tree = _build(s, a) if b % 3 else s.site
    tree["give_source"] = "no" if b % 2 else "yes"


def sub_folder(s: Sources, a: int, b: int) -> None:
    s.base = "/sheets" if b % 2 else ""


EDITS: tuple[Edit, ...] = (
    *(
        retitle,
        say,
        set_status,
        revise,
        log_a_change,
        fly,
        weigh_build,
        add_build,
        remove_build,
        rename_build,
        base_on,
    ),
    *(
        repeat_of_base,
        swap_part,
        take_part_out,
        add_pack,
        turn_parts,
        weigh_part,
        price_part,
        name_part,
        turn_part,
    ),
    *(
        turn_shelf,
        move_part,
        add_to_shelf,
        remove_from_shelf,
        rename_on_shelf,
        alternatives,
        set_site,
        limit_mass,
    ),
    *(
        compare,
        turn_site,
        own_template,
        own_asset,
        picture,
        comment,
        break_syntax,
        break_build,
        break_part,
        mend,
        mend,
    ),
    *(draft, sub_folder, keep_source_back),
)
