"""The yarns of stripes whose colours have been unmixed: clear stripes first, then the smeared."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from palette.perception.spaces import linear_srgb_to_lab
from palette.stripes.reading_settle import Explanation, joined
from palette.stripes.reading_yarns import same_yarns, yarn_distance

__all__ = ["told_apart"]

Array = NDArray[np.float64]

_CLEAR = 0.45  # variance, in units of a pick's, up to which a stripe's own colour is clear


def told_apart(
    colours: Array, spread: Array, edges: Array, noise: Array, grounds: tuple[bool, bool]
) -> Explanation:
    """Yarns of the stripes: clear stripes first, then those that lens and file have smeared."""
    every = np.arange(len(colours))
    cloth = every[int(grounds[0]) : len(every) - int(grounds[1])]
    labs = linear_srgb_to_lab(colours)
    weights = 1 / (spread + 0.05)
    bound = max(_CLEAR, float(np.quantile(spread[cloth], 0.3)))
    clear = cloth[spread[cloth] <= bound]
    found, limit = same_yarns(labs[clear], weights[clear])
    owner = np.full(len(labs), -1)
    owner[clear] = found
    means = _by_yarn(labs[clear], weights[clear], found)
    strange = []
    for k in cloth[owner[cloth] < 0]:
        apart = yarn_distance(np.vstack([labs[k], means]))[0, 1:]
        allowed = max(limit, 3 * float(np.linalg.norm(noise)) * np.sqrt(spread[k]))
        if apart.min() < allowed:
            owner[k] = int(apart.argmin())
        else:
            strange.append(k)
    if strange:
        more, _ = same_yarns(labs[strange], weights[strange], limit)
        owner[strange] = np.array(more) + len(means)
    yarns = owner.tolist()
    yarn_light = {
        yarn: np.average(colours[owner == yarn], axis=0, weights=weights[owner == yarn])
        for yarn in sorted(set(yarns))
        if yarn >= 0
    }
    own = (1 / (1 + 3 * spread))[:, None]
    typical = np.array([yarn_light.get(yarn, colours[k]) for k, yarn in enumerate(yarns)])
    if grounds[1]:
        yarns[-1] = -2
    start = Explanation(
        edges=edges,
        yarns=yarns,
        colours=own * colours + (1 - own) * typical,
        yarn_light=yarn_light,
    )
    return joined(start)


def _by_yarn(labs: Array, widths: Array, yarns: list[int]) -> Array:
    """Colour of each yarn: mean over its stripes, wide ones counting more."""
    owner = np.array(yarns)
    return np.array(
        [
            np.average(labs[owner == yarn], axis=0, weights=widths[owner == yarn])
            for yarn in range(owner.max() + 1)
        ]
    )
