"""Links: what leads elsewhere, and a second name for a file."""

import errno
import os
import shutil
import stat

_REPARSE = getattr(stat, "FILE_ATTRIBUTE_REPARSE_POINT", 0x400)
# What a file system without links, or a system that has none, answers.
_NO_LINKS = (errno.EPERM, errno.EACCES, errno.ENOTSUP, errno.ENOSYS, errno.EINVAL, errno.EMLINK)


def leads_elsewhere(path: str | os.PathLike[str]) -> bool:
    """Whether a link lies there: on Windows a junction or a mount point is one as well."""
    try:
        lies = os.lstat(path)
    except (OSError, ValueError):
        return False
    attributes: int = getattr(lies, "st_file_attributes", 0)
    return stat.S_ISLNK(lies.st_mode) or bool(attributes & _REPARSE)


def second_name(there: str | os.PathLike[str], new: str | os.PathLike[str]) -> bool:
    """Gives a file a second name, which is not yet taken: FileExistsError else.

    False where this file system knows no second names.
    """
    if not hasattr(os, "link"):
        return False
    try:
        os.link(there, new, follow_symlinks=False)
    except NotImplementedError:
        return False
    except OSError as error:
        if isinstance(error, FileExistsError) or error.errno not in (*_NO_LINKS, errno.EXDEV):
            raise
        return False
    return True


def second_name_or_copy(there: str, new: str) -> None:
    """The same file under a new name, or a copy of it with its dates."""
    try:
        named = second_name(there, new)
    except OSError:
        named = False
    if not named:
        shutil.copy2(there, new, follow_symlinks=False)
