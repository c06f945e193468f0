"""When Python looks for circular garbage."""

import gc


def collect_seldom() -> None:
    """Lets Python look for circular garbage seldom: a build is a million small objects without
    circles.

    Looking through them again and again took longer than making them.
    """
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)


def collect_printed() -> None:
    """Lets go of a printed sheet: what the PDF library lays out is full of circles, half a gigabyte
    after a few.

    What is alive still is not looked through again: fonts, style sheets and our own objects, which
    have no circles.
    """
    gc.collect()
    gc.freeze()
