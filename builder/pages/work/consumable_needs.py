"""Consumables that have to lie on the bench: what the steps of the work ask for besides the builder's
own.

Needs are common practice, no source.
"""

from collections.abc import Iterator

from builder.compute.joints.bench_pieces import sleeved
from builder.model.build import Build
from builder.model.kinds import Connector, Receiver
from builder.pages.work.need import Need, asks_by_name, asks_by_words, either, takes_iron


def _sleeves(build: Build) -> str:
    """Where shrink sleeve goes that is no part of the build."""
    cups = [f"cups of {f.key}" for f in build.of_kind(Connector)]
    legs = [f"legs of {f.key}" for f in build.parts.values() if f.part.KIND == "capacitor"]
    radios = [f.part.name for f in build.of_kind(Receiver) if sleeved(build, f)]
    return ", ".join((*cups, *legs, *radios))


def consumables_needed(build: Build) -> Iterator[Need]:
    """Consumables that the steps of this build ask for."""
    soldered = takes_iron
    sleeves = _sleeves(build)
    locked = any(s.screw.lock for s in build.screws)
    yield Need("solder", True, "Solder wire with a flux core", "", ("solder",), soldered)
    yield Need("flux", True, "Flux", "", ("flux",), soldered)
    if sleeves:
        yield Need(
            "sleeve",
            True,
            "Shrink sleeve",
            sleeves,
            ("shrink", "sleeve"),
            asks_by_name("cut ", "legs ", "slide "),
        )
    tape = "insulating; heat does not lift it"
    yield Need("tape", True, "Tape", tape, ("tape",), asks_by_name("tape ", "lay "))
    if locked:
        yield Need("lock", True, "Thread lock", "", ("thread lock",), asks_by_name("mount motor"))
    clean = "for flux, before the boards are looked over"
    yield Need(
        "cleaner",
        True,
        "Cleaner and brush",
        clean,
        ("cleaner", "alcohol"),
        asks_by_name("inspect ", "look over "),
    )
    yield Need(
        "ties",
        True,
        "Small cable ties",
        "",
        ("ties?",),
        either(asks_by_name("tie", "mount receiver"), asks_by_words(r"\bties?\b")),
    )
    bags = "a bag for the screws of each place"
    marks = asks_by_name("dry fit", "screws")
    yield Need("marker", True, "Marker and small bags", bags, ("marker",), marks)
    coat = "optional; with a mask for what stays bare"
    yield Need(
        "coating",
        True,
        "Coating for boards",
        coat,
        ("coating", "lacquer", "varnish"),
        asks_by_name("coat"),
    )
    yield Need(
        "glue",
        True,
        "Glue that stays soft",
        "for what a tie does not hold",
        ("glue", "adhesive"),
        asks_by_name("coat"),
    )
