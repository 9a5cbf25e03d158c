"""Striped cloths rendered thread by thread, with all that makes a photograph hard to read."""

from __future__ import annotations

import io
from dataclasses import dataclass

import numpy as np
from PIL import Image
from scipy import ndimage
from skimage.color import lab2rgb

from palette.photo.photo import Photo
from palette.stripes.reading import read_cloth


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """How a cloth is woven and photographed."""

    stripes: tuple[int, int] = (10, 60)
    yarns: tuple[int, int] = (3, 7)
    picks: tuple[int, int] = (2, 16)
    colours: str = "any"  # any, near lightness, near hue, pale, dark
    warp_share: float = 0.12
    weave: str = "plain"  # plain, twill, faced
    unevenness: float = 0.07
    skew_degrees: float = 5.0
    perspective: float = 0.0
    shear_degrees: float = 0.0
    light_left: float = 0.5  # brightness at the darkest place as a part of the brightest
    light_shape: str = "any"
    margin: float = 0.0  # background round the cloth, as a part of the picture
    fringe: bool = False
    blur_px: float = 0.8
    noise: float = 2.0
    jpeg: int = 88
    size: tuple[int, int] = (1500, 1200)
    upright: bool = True
    wander: float = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloth:
    """A rendered photograph and what is truly in it."""

    pixels: np.ndarray
    sequence: tuple[int, ...]
    picks: tuple[float, ...]
    labs: np.ndarray
    skew_degrees: float
    px_per_pick: float

    def photo(self, name: str = "cloth.jpg") -> Photo:
        """Photo of the cloth, as read from a file."""
        return Photo(name=name, pixels=self.pixels, format="JPEG")


def _yarn_labs(rng: np.random.Generator, count: int, kind: str) -> np.ndarray:
    """Colours well apart in CIELAB, of a family where one is asked for."""
    apart = {"near lightness": 12.0, "near hue": 10.0}.get(kind, 14.0)
    labs: list[np.ndarray] = []
    base_l, base_h = rng.uniform(40, 65), rng.uniform(0, 2 * np.pi)
    for attempt in range(4000):
        lightness, chroma, hue = rng.uniform(22, 88), rng.uniform(3, 48), rng.uniform(0, 2 * np.pi)
        if kind == "near lightness":
            lightness = base_l + rng.uniform(-2, 2)
        if kind == "near hue":
            hue, chroma = base_h + rng.uniform(-0.15, 0.15), rng.uniform(15, 45)
        if kind == "pale":
            lightness, chroma = rng.uniform(68, 93), rng.uniform(2, 28)
        if kind == "dark":
            lightness, chroma = rng.uniform(16, 42), rng.uniform(3, 28)
        lab = np.array([lightness, chroma * np.cos(hue), chroma * np.sin(hue)])
        rgb = lab2rgb(lab[None])[0]
        shown = (rgb > 0.01).all() and (rgb < 0.97).all()
        if shown and all(np.linalg.norm(lab - other) >= apart for other in labs):
            labs.append(lab)
        if len(labs) == count:
            break
        if attempt % 400 == 399:
            apart *= 0.9
    return np.array(labs)


def _linear(srgb: np.ndarray) -> np.ndarray:
    return np.where(srgb <= 0.04045, srgb / 12.92, ((srgb + 0.055) / 1.055) ** 2.4)


def _sequence(
    rng: np.random.Generator, setting: Setting, yarns: int
) -> tuple[list[int], list[int]]:
    count = int(rng.integers(setting.stripes[0], setting.stripes[1] + 1))
    if rng.uniform() < 0.5:  # a repeat, with a part of one at the end
        period = int(rng.integers(4, max(5, count // 2)))
        unit = _run(rng, setting, yarns, period)
        colours = [unit[0][i % period] for i in range(count)]
        picks = [unit[1][i % period] for i in range(count)]
        if unit[0][0] != unit[0][-1]:
            return colours, picks
    return _run(rng, setting, yarns, count)


def _run(
    rng: np.random.Generator, setting: Setting, yarns: int, count: int
) -> tuple[list[int], list[int]]:
    colours: list[int] = []
    for _ in range(count):
        choices = [yarn for yarn in range(yarns) if not colours or yarn != colours[-1]]
        colours.append(int(rng.choice(choices)))
    low, high = setting.picks
    picks = np.exp(rng.uniform(np.log(low), np.log(high), count)).round().astype(int)
    return colours, [int(max(low, value)) for value in picks]


def _field(rng: np.random.Generator, cells: int, shape: tuple[int, int]) -> np.ndarray:
    grid = rng.standard_normal((cells + 3, cells + 3))
    y = np.linspace(1, cells + 1, shape[0])[:, None] * np.ones(shape[1])
    x = np.linspace(1, cells + 1, shape[1])[None, :] * np.ones(shape[0])[:, None]
    return ndimage.map_coordinates(grid, [y, x], order=3, mode="nearest")


def _place(
    rng: np.random.Generator, setting: Setting, skew: float
) -> tuple[np.ndarray, np.ndarray]:
    """Cloth coordinates of every pixel: across and along, each -1 to 1 over the short half."""
    width, height = setting.size
    y, x = np.mgrid[0:height, 0:width].astype(float)
    half = height / 2
    u, v = (x - width / 2 + 0.5) / half, (y - height / 2 + 0.5) / half
    px, py = rng.uniform(-1, 1, 2) * setting.perspective
    slant = 1 + px * u + py * v
    u, v = u / slant, v / slant
    c, s = np.cos(skew), np.sin(skew)
    across, along = u * c + v * s, v * c - u * s
    return across, along + np.tan(np.deg2rad(rng.uniform(-1, 1) * setting.shear_degrees)) * across


def _light(rng: np.random.Generator, setting: Setting) -> np.ndarray:
    width, height = setting.size
    y, x = np.mgrid[-1 : 1 : height * 1j, -1 : 1 : width * 1j]
    turn = rng.uniform(0, 2 * np.pi)
    if setting.light_shape == "corner" or (setting.light_shape == "any" and rng.uniform() < 0.4):
        field = -(np.hypot(x - np.cos(turn), y - np.sin(turn)) ** 1.5)
    else:
        field = x * np.cos(turn) + y * np.sin(turn)
    field = (field - field.min()) / (field.max() - field.min())
    return setting.light_left + (1 - setting.light_left) * field


def _threads(rng: np.random.Generator, count: int, unevenness: float) -> np.ndarray:
    """Edges of threads with mean thickness 1, every thread uneven, the sum kept."""
    thickness = np.clip(rng.normal(1, unevenness, count), 0.6, 1.5)
    return np.concatenate([[0.0], np.cumsum(thickness)]) * (count / thickness.sum())


def _over(setting: Setting, pick: np.ndarray, end: np.ndarray) -> np.ndarray:
    if setting.weave == "twill":
        return (pick + end) % 4 < 2
    if setting.weave == "faced":
        return (pick + end) % 2 == 0
    return (pick + end) % 2 == 0


def _weave(
    rng: np.random.Generator,
    setting: Setting,
    edges: np.ndarray,
    weft: np.ndarray,
    warp: np.ndarray,
    pick_at: np.ndarray,
    end_at: np.ndarray,
) -> np.ndarray:
    pick = np.clip(np.searchsorted(edges, pick_at, side="right") - 1, 0, len(weft) - 1)
    f = np.clip((pick_at - edges[pick]) / np.diff(edges)[pick], 0, 1)
    end = np.floor(end_at).astype(int)
    g = end_at - end
    over = _over(setting, pick, end)
    lift = rng.normal(0, 0.03, len(weft))[pick]
    colour = weft[pick] * (1 + lift)[..., None]
    bump = (
        0.72
        + 0.34 * np.sqrt(np.clip(1 - (2 * f - 1) ** 2, 0, 1))
        + np.where(over, 0.08, -0.06) * np.cos((g - 0.5) * np.pi)
    )
    fibre = ndimage.gaussian_filter(rng.standard_normal(pick.shape), (0.6, 1.8))
    bump = bump + 0.06 * fibre / fibre.std()
    shows = np.where(over, 0.0, np.exp(-(((g - 0.5) / 0.3) ** 2) - ((f - 0.5) / 0.4) ** 2))
    shows = shows * setting.warp_share / max(shows.mean(), 1e-6)
    mixed = colour + np.clip(shows, 0, 1)[..., None] * (warp - colour)
    return mixed * bump[..., None]


def _ground(rng: np.random.Generator, shape: tuple[int, int]) -> np.ndarray:
    lab = np.array([rng.uniform(25, 85), rng.uniform(-4, 8), rng.uniform(-6, 18)])
    grain = ndimage.gaussian_filter(
        rng.standard_normal(shape), (1.2, 25) if rng.uniform() < 0.5 else (3, 3)
    )
    tone = 1 + 0.05 * grain / grain.std()
    return _linear(np.clip(lab2rgb(lab[None])[0], 0, 1)) * tone[..., None]


def _fringed(
    rng: np.random.Generator,
    picture: np.ndarray,
    across: np.ndarray,
    beyond: np.ndarray,
    half_width: float,
    colour: np.ndarray,
) -> np.ndarray:
    bundle = half_width / 22
    slot = np.floor(across / bundle)
    inside = np.abs(across) < half_width
    reach = 0.07 + 0.01 * np.sin(slot * 12.9)
    off = (across / bundle - slot - 0.5) + np.sin(slot * 7.1) * beyond * 2
    cover = inside & (beyond > 0) & (beyond < reach) & (np.abs(off) < 0.30)
    shade = 0.85 + 0.15 * np.cos(off * 9)
    return np.where(cover[..., None], colour * shade[..., None], picture)


def render(  # noqa: PLR0915 - one long list of steps
    seed: int, setting: Setting
) -> Cloth:
    """One cloth of a setting; the seed decides everything else."""
    rng = np.random.default_rng(seed)
    labs = _yarn_labs(
        rng, int(rng.integers(setting.yarns[0], setting.yarns[1] + 1)), setting.colours
    )
    sequence, picks = _sequence(rng, setting, len(labs))
    weft_rgb = _linear(np.clip(lab2rgb(labs), 0, 1))
    warp_lab = np.array([rng.uniform(35, 85), rng.uniform(-5, 8), rng.uniform(-5, 20)])
    warp = _linear(np.clip(lab2rgb(warp_lab[None])[0], 0, 1))
    weft = np.repeat(np.array(sequence), picks)
    total = len(weft)
    skew = np.deg2rad(rng.uniform(-1, 1) * setting.skew_degrees)
    across, along = _place(rng, setting, skew)
    wander = setting.wander / setting.size[1] * 12
    along = along + wander * _field(rng, 3, along.shape)
    aspect = setting.size[0] / setting.size[1]
    if setting.margin:
        half_length, half_width = 1 - 2 * setting.margin, aspect - 2 * setting.margin
    else:  # the cloth runs out of the picture at the sides, and just fills it along
        half_length, half_width = 1.0, aspect * 2
    position = (along / half_length + 1) / 2 * total
    pixel_per_pick = setting.size[1] * half_length / total
    spare = 0 if setting.margin else total // 2  # a tight picture may show more of the end stripes
    weft = np.concatenate([np.full(spare, weft[0]), weft, np.full(spare, weft[-1])])
    ends = across / half_length / 2 * total * 0.9
    edges = _threads(rng, len(weft), setting.unevenness)
    cloth = _weave(rng, setting, edges, weft_rgb[weft], warp, position + spare, ends)
    if setting.margin:
        inside = (np.abs(along) < half_length) & (np.abs(across) < half_width)
        ground = _ground(rng, inside.shape)
        if setting.fringe:
            ground = _fringed(rng, ground, across, np.abs(along) - half_length, half_width, warp)
        cloth = np.where(inside[..., None], cloth, ground)
    else:
        middle = position[:, position.shape[1] // 2] + spare
        picks = _seen(picks, np.interp(middle, edges, np.arange(len(edges))) - spare)
    light = _light(rng, setting)[: cloth.shape[0]]
    picture = cloth * light[..., None] * rng.uniform(0.75, 1.05)
    return _develop(
        rng,
        setting,
        picture,
        tuple(sequence),
        tuple(picks),
        labs,
        float(np.rad2deg(skew)),
        pixel_per_pick,
    )


def _seen(picks: list[int], middle: np.ndarray) -> list[float]:
    """Picks of each stripe that the picture shows in its middle column: it may cut the end ones."""
    edges = np.concatenate([[0], np.cumsum(picks)]).astype(float)
    edges[0], edges[-1] = middle[0], middle[-1]  # more of the end stripes may show
    edges = np.clip(edges, middle[0], middle[-1])
    return list(np.diff(edges))


def _develop(rng, setting, picture, sequence, picks, labs, skew, pixel_per_pick) -> Cloth:
    blurred = np.stack(
        [ndimage.gaussian_filter(picture[..., c], setting.blur_px) for c in range(3)], axis=-1
    )
    blurred = np.clip(blurred, 0, 1)
    srgb = (
        np.where(
            blurred <= 0.0031308,
            12.92 * blurred,
            1.055 * np.maximum(blurred, 1e-9) ** (1 / 2.4) - 0.055,
        )
        * 255
    )
    srgb = srgb + rng.normal(0, setting.noise, srgb.shape)
    pixels = np.clip(srgb + 0.5, 0, 255).astype(np.uint8)
    if not setting.upright:
        pixels = np.ascontiguousarray(np.rot90(pixels))
    store = io.BytesIO()
    Image.fromarray(pixels).save(store, format="JPEG", quality=setting.jpeg)
    pixels = np.asarray(Image.open(io.BytesIO(store.getvalue())).convert("RGB"))
    return Cloth(
        pixels=pixels,
        sequence=sequence,
        picks=picks,
        labs=labs,
        skew_degrees=skew,
        px_per_pick=pixel_per_pick,
    )


def _canonical(sequence) -> list[int]:
    seen: dict[object, int] = {}
    return [seen.setdefault(item, len(seen)) for item in sequence]


def verdict(cloth: Cloth) -> tuple[bool, str]:
    """Whether a cloth is read right: its sequence, and every width within a pick or 3 per cent."""
    reading = read_cloth(cloth.photo())
    shown = [k for k, picks in enumerate(cloth.picks) if picks > 0.7]
    picks = np.array([cloth.picks[k] for k in shown])
    true = picks / picks.sum()
    stripes = reading.stripes
    if reading.upright and not _same_order(cloth, stripes, shown):
        stripes = stripes[::-1]  # the picture was turned to the left
    if not _same_order(cloth, stripes, shown):
        return False, f"{len(stripes)} stripes read, {len(shown)} true"
    off = np.array([stripe.share for stripe in stripes]) - true
    wrong = (np.abs(off) * picks.sum() > 1) & (np.abs(off) / true > 0.03)
    return not wrong.any(), f"widest error {np.abs(off).max() * picks.sum():.2f} picks"


def _same_order(cloth: Cloth, stripes, shown: list[int]) -> bool:
    return _canonical(stripe.colour for stripe in stripes) == _canonical(
        cloth.sequence[k] for k in shown
    )
