"""Which materials are plastics, by the words that builders write for them."""

import re

# Trade names of the materials of frames and printed parts (common practice, no source); carbon
# plate is not among them: its screws go from metal into metal.
_PLASTICS = (
    "plastic",
    "nylon",
    "polyamide",
    "polycarbonate",
    "polypropylene",
    "polyurethane",
    "polylactide",
    "polyester",
    "acrylic",
    "abs",
    "petg",
    "pla",
    "tpu",
    "pa",
    "pc",
    "pp",
    "printed",
    "moulded",
    "molded",
)


def is_plastic(material: str) -> bool:
    """Whether a material is a plastic: not whether it may be one.

    >>> is_plastic("moulded nylon"), is_plastic("carbon plate")
    (True, False)
    """
    words = re.findall(r"[a-z]+", material.casefold())
    return any(w in _PLASTICS for w in words)
