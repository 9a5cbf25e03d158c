"""Render the sample images and write down what is truly in them.

Run ``python sample_images/render.py`` to make every picture again beside this file, together with
``truth.json``; ``--into FOLDER`` writes elsewhere, ``--scale 0.25`` makes small ones.
"""

from __future__ import annotations

import argparse
import hashlib
import json
from collections.abc import Callable
from pathlib import Path

import banks
import camera
import numpy as np
import readme_truth
import woven_cloth
from numpy.typing import NDArray
from PIL import Image

HERE = Path(__file__).parent
Scene = Callable[[float], tuple[NDArray[np.float32], NDArray[np.int16], list[str]]]

PICTURES: dict[str, tuple[Scene, int, int]] = {  # scene, seed of the grain, JPEG quality
    "spring-hedge-bank.jpg": (lambda scale: banks.render(banks.SPRING, scale), 11, 90),
    "autumn-hedge-bank.jpg": (lambda scale: banks.render(banks.AUTUMN, scale), 12, 90),
    "striped-cloth.jpg": (woven_cloth.render, 13, 93),
}
# CIE 15:2018 and IEC 61966-2-1: sRGB to XYZ, white D65
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])


def to_lab(pixels: NDArray[np.uint8]) -> NDArray[np.float64]:
    """CIELAB (D65, 2 degree observer) of 8 bit sRGB."""
    value = pixels.astype(np.float64) / 255
    light = np.where(value <= 0.04045, value / 12.92, ((value + 0.055) / 1.055) ** 2.4)
    ratio = light @ TO_XYZ.T / TO_XYZ.sum(axis=1)
    f = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.stack(
        [116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])], axis=1
    )


def hex_of(lab: NDArray[np.float64]) -> str:
    """Nearest ``#rrggbb`` of one CIELAB colour."""
    fy = (lab[0] + 16) / 116
    f = np.array([fy + lab[1] / 500, fy, fy - lab[2] / 200])
    ratio = np.where(f > 6 / 29, f**3, 3 * (6 / 29) ** 2 * (f - 4 / 29))
    light = np.linalg.inv(TO_XYZ) @ (ratio * TO_XYZ.sum(axis=1))
    light = np.clip(light, 0, 1)
    srgb = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    return "#" + "".join(f"{round(channel * 255):02x}" for channel in srgb)


def true_colours(
    pixels: NDArray[np.uint8], label: NDArray[np.int16], names: list[str]
) -> list[dict[str, object]]:
    """Mean CIELAB, sRGB and share of every class, largest first."""
    colours = []
    for number, name in enumerate(names):
        own = pixels[label == number]
        if len(own):
            lab = to_lab(own)
            mean, spread = lab.mean(axis=0), lab.std(axis=0)
            colours.append(
                {
                    "name": name,
                    "hex": hex_of(mean),
                    "lab": [round(float(value), 2) for value in mean],
                    "spread_lab": [round(float(value), 2) for value in spread],
                    "share": round(len(own) / label.size, 5),
                }
            )
    return sorted(colours, key=lambda colour: -float(str(colour["share"])))


def cloth_truth() -> dict[str, object]:
    """Stripes of the cloth as woven, from the top of the picture down."""
    stripes, first = [], 1
    for name, picks in woven_cloth.STRIPES:
        stripes.append(
            {"colour": name, "hex": woven_cloth.YARNS[name], "picks": picks, "first_pick": first}
        )
        first += picks
    return {
        "picks_per_cm": woven_cloth.PICKS_PER_CM,
        "length_mm": round((first - 1) / woven_cloth.PICKS_PER_CM * 10, 2),
        "width_mm": woven_cloth.CLOTH_WIDTH_MM,
        "skew_degrees": woven_cloth.SKEW_DEGREES,
        "repeat_stripes": len(woven_cloth.REPEAT),
        "stripes": stripes,
    }


def render(name: str, scale: float = 1.0) -> tuple[NDArray[np.uint8], list[dict[str, object]]]:
    """Pixels of a picture, before it becomes a JPEG, and its true colours."""
    scene, seed, _ = PICTURES[name]
    light, label, names = scene(scale)
    pixels = camera.expose(light, seed=seed, scale=scale)
    return pixels, true_colours(pixels, label, names)


def main() -> None:
    """Write every picture, and the truth of all of them."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--into", type=Path, default=HERE)
    parser.add_argument("--scale", type=float, default=1.0)
    parser.add_argument("--only", choices=PICTURES, help="render one picture, keep the others")
    asked = parser.parse_args()
    listed = asked.into / "truth.json"
    truth = json.loads(listed.read_text(encoding="utf-8")) if asked.only else {}
    for name in [asked.only] if asked.only else list(PICTURES):
        quality = PICTURES[name][2]
        pixels, colours = render(name, asked.scale)
        path = asked.into / name
        camera.write_jpeg(pixels, path, quality=quality)
        data = path.read_bytes()
        with Image.open(path) as picture:
            size = picture.size
        truth[name] = {
            "sha256": hashlib.sha256(data).hexdigest(),
            "bytes": len(data),
            "width_px": size[0],
            "height_px": size[1],
            "colours": colours,
        }
        print(f"{name}: {size[0]} x {size[1]}, {len(data) / 1e6:.2f} MB")
    truth["striped-cloth.jpg"]["cloth"] = cloth_truth()
    listed.write_text(json.dumps(truth, indent=1) + "\n", encoding="utf-8")
    if asked.into == HERE:
        readme_truth.update_readme(HERE)


if __name__ == "__main__":
    main()
