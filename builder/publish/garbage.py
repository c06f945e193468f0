"""When Python looks for circular garbage."""

import gc


def collect_seldom() -> None:
    """Lets Python look for circular garbage seldom: a build is a million small objects without circles.

    Looking through them again and again took longer than making them.
    """
    gc.freeze()
    gc.set_threshold(200_000, 20, 20)
