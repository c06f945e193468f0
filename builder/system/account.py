"""Whose a file is. Windows tells by lists of rights: a folder of the person's profile is theirs."""

import os
import stat

_OTHERS_WRITE = stat.S_IWGRP | stat.S_IWOTH
_OTHERS = stat.S_IRWXG | stat.S_IRWXO


def is_mine(lies: os.stat_result) -> bool:
    """Whether this account owns a file or folder, and nobody else may write to it."""
    if not hasattr(os, "geteuid"):
        return True
    return lies.st_uid == os.geteuid() and not lies.st_mode & _OTHERS_WRITE


def is_mine_alone(lies: os.stat_result) -> bool:
    """The same, and nobody else may read it either."""
    if not hasattr(os, "geteuid"):
        return True
    return lies.st_uid == os.geteuid() and not lies.st_mode & _OTHERS
