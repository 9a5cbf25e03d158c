"""Leafweft: from a photograph to a cloth that can be woven.

In the order in which the work flows: `read_photo` opens a photograph, `extract` takes a
palette from it, `plan_stripes` turns the palette into whole picks, `woven_colour` says what
a weft will look like across a warp, `yarn_amounts` says how much yarn to have ready.

Names are loaded when they are first used, so that ``import palette`` costs nothing; the list
of them is ``__init__.pyi``.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
