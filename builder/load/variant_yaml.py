"""A choice of swaps as the file of a variant, to be kept as `builds/NAME/build.yaml`."""

from collections.abc import Mapping
from typing import Any

import yaml


def variant_yaml(tree: Mapping[str, Any]) -> str:
    """The tree of a variant as YAML, its keys in the order that they have."""
    return str(yaml.safe_dump(dict(tree), sort_keys=False, allow_unicode=True, width=1000))
