"""How long a chapter takes to read."""

from collections.abc import Iterable
from math import ceil

from builder.model.guide.chapter import GuideChapter

# Readers of English non-fiction take 238 words a minute (Brysbaert 2019, a review of 190 studies; from
# memory); who reads a second language takes longer. A picture is looked at.
_WORDS_A_MINUTE, _SECONDS_A_PICTURE = 180, 12


def minutes_to_read(chapters: Iterable[GuideChapter]) -> int:
    """Whole minutes, at least one."""
    listed = tuple(chapters)
    words = sum(len(chapter.text.split()) for chapter in listed)
    pictures = sum(len(chapter.pictures) for chapter in listed)
    return max(1, ceil(words / _WORDS_A_MINUTE + pictures * _SECONDS_A_PICTURE / 60))


def time_words(chapters: Iterable[GuideChapter]) -> str:
    """`4 min to read`."""
    return f"{minutes_to_read(chapters)} min to read"
