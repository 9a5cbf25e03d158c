"""What lens, sensor and file add to the light: glow, fall-off, grain, eight bits, JPEG."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

Array = NDArray[np.float32]


def expose(
    light: Array, *, seed: int, scale: float, grain: float = 2.2, fall_off: float = 0.10
) -> NDArray[np.uint8]:
    """sRGB picture of linear light."""
    glow = np.stack(
        [ndimage.gaussian_filter(light[..., c], 18 * scale, truncate=2.5) for c in range(3)],
        axis=-1,
    )
    light = 0.965 * light + 0.035 * glow
    rows, columns = light.shape[:2]
    y, x = np.ogrid[-1 : 1 : rows * 1j, -1 : 1 : columns * 1j]
    light = light * (1 - fall_off * (x**2 + y**2) / 2)[..., None].astype(np.float32)
    light = np.where(light > 0.7, 0.7 + 0.3 * np.tanh((light - 0.7) / 0.3), light)  # shoulder
    light = np.clip(light, 0, 1)
    srgb = (
        np.where(
            light <= 0.0031308, 12.92 * light, 1.055 * np.maximum(light, 1e-6) ** (1 / 2.4) - 0.055
        )
        * 255
    )
    rng = np.random.default_rng(seed)
    speckle = ndimage.gaussian_filter(rng.standard_normal((rows, columns)).astype(np.float32), 0.55)
    tint = rng.standard_normal((rows, columns, 3)).astype(np.float32)
    strength = grain * (1.15 - 0.5 * srgb / 255)
    srgb = srgb + strength * (speckle[..., None] * 2.0 + 0.35 * tint)
    return np.clip(srgb + 0.5, 0, 255).astype(np.uint8)


def write_jpeg(pixels: NDArray[np.uint8], path: Path, *, quality: int) -> None:
    """Write a JPEG that holds the picture and nothing else."""
    from PIL import Image

    Image.fromarray(pixels).save(path, format="JPEG", quality=quality, subsampling=2, optimize=True)
