"""What tests start besides Benchleaf gets the machine's own environment."""

import os


def own_environment() -> dict[str, str]:
    """Without what hides the machine's fonts from a process that printed a PDF: a browser without
    any ends at once.
    """
    return {name: value for name, value in os.environ.items() if name != "FONTCONFIG_FILE"}
