"""How deep a file may nest its lists: one made to break the reader of it is refused instead."""

from __future__ import annotations

__all__ = ["MOST_NESTED", "too_deep"]

MOST_NESTED = 32
"""Lists and tables inside each other; what the program writes has five."""


def too_deep(content: object) -> bool:
    """Whether lists or tables lie inside each other more than `MOST_NESTED` times.

    Examples
    --------
    >>> too_deep({"cloth": [{"keep": ["moss"]}]})
    False
    """
    level = [content]
    for _ in range(MOST_NESTED + 1):
        level = [
            each
            for outer in level
            if isinstance(outer, dict | list | tuple)
            for each in (outer.values() if isinstance(outer, dict) else outer)
        ]
        if not level:
            return False
    return True
