"""Anchors as they stand on a page."""


def anchor_on_page(anchor: str, build: str) -> str:
    """An anchor without the name of the build whose page it is on: `/mass/dry`. A slash leads, so
    none are mixed up.
    """
    return anchor[len(build) :] if build and anchor.startswith(build + "/") else anchor
