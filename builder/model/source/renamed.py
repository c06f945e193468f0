"""Keys that had another name before, each with the name that it has now, and keys that are gone."""

from types import MappingProxyType

SECRET = "link_secret"  # whose presence is a fault, under whatever name
RENAMED = MappingProxyType(
    {
        "bind_phrase": SECRET,
        "binding_phrase": SECRET,
        "board_target": "software_for",
        "current_scale": "current_sensitivity",
        "sense_scale": "sensitivity",
        "volts_scale": "volts_divider",
    }
)
# What a key that is gone said, and where that is now.
REMOVED = MappingProxyType(
    {"derivations_on_paper": "How each number was made is on the page of numbers, never on paper."}
)
