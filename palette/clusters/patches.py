"""Joined patches of a picture: what lies together in it, and what is mere speckle."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

__all__ = ["SMALLEST_PATCH", "SMALLEST_STREWN", "Ground", "ground_of"]

SMALLEST_PATCH = 0.001
"""Least part of the picture that one joined patch must cover."""

SMALLEST_STREWN = 0.003
"""Least part of the picture that several blobs of one colour must cover together."""

_BLOB, _BLOB_POINTS = 0.0001, 12  # of several blobs, the least that each must cover
_MAP_POINTS = 100_000  # as many points of a picture tell its patches well enough
_IN_BLOBS = 0.3  # least part of a colour that lies in its blobs; speckle has next to none there

Mask = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """The lattice on which patches are looked for.

    Attributes
    ----------
    where : ndarray of shape (rows, columns), int
        Box of each point; -1 where nothing counts.
    boxes : int
    counting : int
        How many points count.
    core : int
        Side of the square that a piece must hold somewhere, so as not to be speckle.
    """

    where: NDArray[np.int32]
    boxes: int
    counting: int
    core: int = 3

    def tally(self, wanted: Mask) -> NDArray[np.float64]:
        """How many points each wanted box holds, speckle not counted.

        Parameters
        ----------
        wanted : ndarray of shape (boxes,), bool

        Returns
        -------
        ndarray of shape (boxes,)

        Notes
        -----
        Speckle is what an opening by the square of the core takes away (Serra 1982).
        """
        mask = _spread(_shrunk(self._mask(wanted), self.core), self.core)
        return np.bincount(self.where[mask], minlength=self.boxes).astype(float)

    def patch(self, alike: Mask) -> NDArray[np.float64] | None:
        """Points in each box of the joined pieces of some boxes, if they are a patch.

        Parameters
        ----------
        alike : ndarray of shape (boxes,), bool

        Returns
        -------
        ndarray of shape (boxes,), or None
            None where they are neither one patch nor blobs enough.

        Notes
        -----
        A joined piece counts, with its edge, where the core fits into it somewhere (opening by
        reconstruction, Vincent 1993). One piece of 0.1 % of the picture is a patch; smaller
        ones are blobs, and make a patch together where they cover 0.3 % and hold a good part of
        the colour: flowers strewn over a bank do, speckle does not.
        """
        from scipy.ndimage import label

        mask = self._mask(alike)
        pieces, count = label(mask, structure=np.ones((3, 3), dtype=int))
        piece = pieces[mask]
        sizes = np.bincount(piece, minlength=count + 1)
        cored = np.bincount(pieces[_shrunk(mask, self.core)], minlength=count + 1) > 0
        blobs = cored & (sizes >= max(_BLOB * self.counting, _BLOB_POINTS))
        whole = cored & (sizes >= max(SMALLEST_PATCH * self.counting, 1))
        strewn = sizes[blobs].sum() >= max(SMALLEST_STREWN * self.counting, _IN_BLOBS * sizes.sum())
        if not (whole.any() or strewn):
            return None
        inside = self.where[mask][(blobs | whole)[piece]]
        return np.bincount(inside, minlength=self.boxes).astype(float)

    def _mask(self, wanted: Mask) -> Mask:
        return np.take(np.append(wanted, False), self.where)


def ground_of(where: NDArray[np.int32], boxes: int) -> Ground:
    """Ground of a picture, thinned to some 100,000 points.

    Examples
    --------
    >>> ground = ground_of(np.zeros((4, 5), dtype=np.int32), 1)
    >>> ground.tally(np.array([True])).tolist()
    [20.0]
    """
    step = max(1, round(np.sqrt(where.size / _MAP_POINTS)))
    thinned = where[::step, ::step]
    return Ground(
        where=np.ascontiguousarray(thinned),
        boxes=boxes,
        counting=int(np.count_nonzero(thinned >= 0)),
        core=3 if step == 1 else 2,
    )


def _shrunk(mask: Mask, core: int) -> Mask:
    """Where a square of so many points a side fits in; its lower right point is told."""
    for _ in range(core - 1):
        mask = mask.copy()
        mask[1:] &= mask[:-1].copy()
        mask[0] = False
        mask[:, 1:] &= mask[:, :-1].copy()
        mask[:, 0] = False
    return mask


def _spread(mask: Mask, core: int) -> Mask:
    """All points of the squares whose lower right points are told."""
    for _ in range(core - 1):
        mask = mask.copy()
        mask[:-1] |= mask[1:].copy()
        mask[:, :-1] |= mask[:, 1:].copy()
    return mask
