"""The two hedge banks: what grows where, and the picture a camera makes of it."""

# ruff: noqa: E501 - a plant is a row of a table, and reads best on one line
from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from hedge_bank import AMBIENT, SUN, Array, Layer, classes_after_blur, defocus, linear, noise
from leaf_shapes import Shape
from numpy.typing import NDArray
from scipy import ndimage

WIDTH, HEIGHT = 2160, 1440
UP = -np.pi / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """Something that grows: its colour in full sun, and the true colours it counts towards."""

    name: str
    lit: str
    class_lit: str
    class_shade: str
    kind: str = "hazel"
    size: tuple[float, float] = (90, 150)
    ratio: float = 0.36
    gloss: float = 0.1
    down: float = 1.4
    spread: float = 0.7


@dataclass(frozen=True, slots=True, kw_only=True)
class Bank:
    """A hedge bank: plants by layer, flowers, ground, and the seed of all chance."""

    seed: int
    plants: dict[str, Plant]
    far: tuple[tuple[str, int, float, float], ...]
    middle: tuple[tuple[str, int, float, float], ...]
    front: tuple[tuple[str, int, float, float], ...]
    flowers: tuple[tuple[str, int, float, float], ...]
    near: tuple[tuple[str, int, float, float], ...]
    void: str
    ground: str = "#172118"
    shade_amount: float = 0.0


def _tint(rng: np.random.Generator, plant: Plant, vary: float) -> Array:
    base = linear(plant.lit) / (AMBIENT + SUN)
    return (
        base * np.exp(rng.normal(0, vary)) * np.exp(rng.normal(0, vary * 0.5, 3)).astype(np.float32)
    )


def _one(rng: np.random.Generator, plant: Plant, x: float, y: float, grow: float) -> Shape:
    length = rng.uniform(*plant.size) * grow
    return Shape(
        kind=plant.kind,
        x=float(x),
        y=float(y),
        angle=float(plant.down + rng.normal(0, plant.spread)),
        length=float(length),
        ratio=float(plant.ratio * rng.uniform(0.6, 1.08)),
        bend=float(rng.normal(0, 0.13 if plant.kind != "strap" else 0.22)),
        fold=float(rng.normal(0, 0.05)),
        turn=float(rng.uniform(0, 2 * np.pi)),
        seed=int(rng.integers(1 << 20)),
    )


class Painter:
    """Paints plants into layers, and keeps the list of classes."""

    def __init__(self, bank: Bank, scale: float) -> None:
        self.bank = bank
        self.scale = scale
        self.shape = (round(HEIGHT * scale), round(WIDTH * scale))
        self.rng = np.random.default_rng(bank.seed)
        self.names = list(bank.plants)
        grain = self.rng.standard_normal((512, 512)).astype(np.float32)
        coarse = ndimage.gaussian_filter(grain, 5, mode="wrap") * 14
        self.mottle = coarse * 0.75 + ndimage.gaussian_filter(grain, 1.6, mode="wrap") * 3
        self.fields = {name: noise(self.rng, 7, (144, 216)) for name in self.names}

    def grow(
        self,
        layer: Layer,
        what: tuple[tuple[str, int, float, float], ...],
        enlarge: float,
        fall: float,
        even: bool,
    ) -> None:
        """Place the plants of a layer: each entry is a plant, how many, the top and bottom of its band."""
        places = [
            (name, *self._place(name, top, bottom, even))
            for name, count, top, bottom in what
            for _ in range(count)
        ]
        order = self.rng.permutation(len(places))
        for index in order:
            name, x, y = places[index]
            self.leaf(layer, name, x, y, enlarge, fall)

    def _place(self, name: str, top: float, bottom: float, even: bool) -> tuple[float, float]:
        field = self.fields[name]
        for _ in range(12):
            x, y = self.rng.uniform(-0.04, 1.04), self.rng.uniform(top, bottom)
            row = int(np.clip(y, 0, 0.999) * field.shape[0])
            column = int(np.clip(x, 0, 0.999) * field.shape[1])
            if field[row, column] > self.rng.normal(0.25, 0.35) or even:
                break
        return x * WIDTH, y * HEIGHT

    def leaf(
        self, layer: Layer, name: str, x: float, y: float, enlarge: float, fall: float
    ) -> None:
        plant = self.bank.plants[name]
        shape = _one(self.rng, plant, x, y, enlarge)
        layer.shade(shape, (fall * 0.55, fall), max(3.0, fall * 0.45))
        colour = _tint(self.rng, plant, 0.07).astype(np.float32)
        lit = 1.0 if self.rng.uniform() > self.bank.shade_amount else 0.0
        layer.paint(
            shape, colour, self.names.index(name), lit=lit, gloss=plant.gloss, mottle=self.mottle
        )

    def flower(self, layer: Layer, name: str, x: float, y: float, enlarge: float) -> None:
        """A bloom, with its eye, turned towards the light."""
        plant = self.bank.plants[name]
        if "stem" in self.bank.plants:
            lean = self.rng.normal(0, 0.25)
            length = self.rng.uniform(240, 400)
            stem = self.bank.plants["stem"]
            stalk = Shape(
                kind="strap",
                x=x + lean * length,
                y=y + length,
                angle=UP - lean,
                length=length,
                ratio=0.009,
                bend=self.rng.normal(0, 0.1),
                seed=int(self.rng.integers(1 << 20)),
            )
            layer.shade(stalk, (8, 12), 5, 0.8)
            layer.paint(
                stalk,
                _tint(self.rng, stem, 0.1),
                self.names.index("stem"),
                lit=1,
                gloss=0,
                mottle=self.mottle,
            )
        shape = _one(self.rng, plant, x, y, enlarge)
        layer.shade(shape, (9 * enlarge, 16 * enlarge), 7, 0.9)
        colour = _tint(self.rng, plant, 0.04)
        layer.paint(shape, colour, self.names.index(name), lit=1, gloss=0, mottle=self.mottle)
        if plant.kind != "round":
            eye = Shape(
                kind="round",
                x=x,
                y=y,
                angle=0,
                length=shape.length * 0.13,
                ratio=0.5,
                seed=shape.seed,
            )
            layer.paint(
                eye,
                colour * np.array([0.75, 0.9, 0.45], np.float32),
                self.names.index(name),
                lit=1,
                gloss=0,
                mottle=self.mottle,
            )

    def flowers(self, layer: Layer, enlarge: float) -> None:
        """Flowers in loose drifts, bigger ones in front."""
        for name, count, top, bottom in self.bank.flowers:
            drifts = [
                (self.rng.uniform(0.05, 0.95), self.rng.uniform(top, bottom))
                for _ in range(max(3, count // 9))
            ]
            for _ in range(count):
                cx, cy = drifts[self.rng.integers(len(drifts))]
                x = (cx + self.rng.normal(0, 0.055)) * WIDTH
                y = (cy + self.rng.normal(0, 0.05)) * HEIGHT
                self.flower(layer, name, x, y, enlarge)


def render(bank: Bank, scale: float = 1.0) -> tuple[Array, NDArray[np.int16], list[str]]:
    """Linear picture, class of each pixel, and names of the classes."""
    painter = Painter(bank, scale)
    rng = painter.rng
    classes = sorted(
        {c for plant in bank.plants.values() for c in (plant.class_lit, plant.class_shade)}
        | {bank.void}
    )
    low = np.linspace(0, 1, painter.shape[0], dtype=np.float32)[:, None]
    sunny = 1.35 + 2.6 * np.clip((low - 0.5) / 0.35, 0, 1)  # the foot of the bank lies open
    dapple = 1 / (
        1
        + np.exp(-7 * (noise(rng, 6, painter.shape) + 0.5 * noise(rng, 17, painter.shape) + sunny))
    )
    picture = np.empty((*painter.shape, 3), np.float32)
    haze = 1 + 0.10 * noise(rng, 9, painter.shape)
    picture[:] = linear(bank.ground) * haze[..., None]
    label = np.full(painter.shape, classes.index(bank.void), np.int16)
    settings = (
        (bank.far, 0.9, 26.0, 15.0, 0.12),
        (bank.middle, 0.95, 17.0, 3.4, 0.0),
        (bank.front, 1.12, 15.0, 0.0, 0.0),
        (bank.near, 2.1, 20.0, 13.0, 0.0),
    )
    for number, (what, enlarge, fall, blur, depth) in enumerate(settings):
        layer = Layer(painter.shape, scale)
        painter.grow(layer, what, enlarge, fall, number == 0)
        if number == 2:
            painter.flowers(layer, 1.0)
        light, sun = layer.develop(dapple.astype(np.float32), depth)
        own = _classes(bank, painter.names, classes, layer.material, sun)
        cover = defocus(layer.cover, blur * scale)
        for channel in range(3):
            blurred = defocus(light[..., channel], blur * scale)
            picture[..., channel] = picture[..., channel] * (1 - cover) + blurred
        own = classes_after_blur(own, blur * scale, len(classes))
        label = np.where(own >= 0, own, label)
    return picture, label, classes


def _classes(
    bank: Bank, names: list[str], classes: list[str], material: NDArray[np.int16], sun: Array
) -> NDArray[np.int16]:
    lit = np.array([classes.index(bank.plants[n].class_lit) for n in names], np.int16)
    shade = np.array([classes.index(bank.plants[n].class_shade) for n in names], np.int16)
    own = np.where(sun > 0.45, lit[material], shade[material])
    return np.where(material >= 0, own, np.int16(-1))


SPRING = Bank(
    seed=41,
    ground="#121b14",
    void="deep shade",
    plants={
        "hazel": Plant(name="hazel", lit="#a9c24e", class_lit="young hazel in the sun", class_shade="mid green", kind="hazel", size=(80, 150), ratio=0.40, gloss=0.12, spread=0.8),
        "nettle": Plant(name="nettle", lit="#5f7d36", class_lit="mid green", class_shade="dark green", kind="nettle", size=(70, 125), ratio=0.3, gloss=0.1, down=1.2, spread=1.3),
        "ivy": Plant(name="ivy", lit="#34553c", class_lit="dark green", class_shade="deep shade", kind="ivy", size=(52, 92), ratio=0.45, gloss=0.1, down=1.5, spread=0.9),
        "grass": Plant(name="grass", lit="#a9bb93", class_lit="pale grass in the sun", class_shade="dark green", kind="strap", size=(230, 430), ratio=0.019, gloss=0.1, down=UP, spread=0.35),
        "earth": Plant(name="earth", lit="#94714d", class_lit="earth in the sun", class_shade="earth in shade", kind="stone", size=(12, 46), ratio=0.4, gloss=0.0, down=0, spread=3),
        "stem": Plant(name="stem", lit="#5f7d36", class_lit="mid green", class_shade="dark green", kind="strap", size=(150, 260), ratio=0.013, down=UP, spread=0.25),
        "campion": Plant(name="campion", lit="#e0609c", class_lit="campion", class_shade="campion in shade", kind="campion", size=(24, 38), ratio=0.5, gloss=0, down=UP, spread=0.5),
        "stitchwort": Plant(name="stitchwort", lit="#f4f5ee", class_lit="stitchwort", class_shade="stitchwort in shade", kind="stitchwort", size=(20, 34), ratio=0.55, gloss=0, down=UP, spread=0.6),
        "celandine": Plant(name="celandine", lit="#f4d02a", class_lit="celandine", class_shade="celandine in shade", kind="celandine", size=(20, 30), ratio=0.5, gloss=0, down=UP, spread=0.5),
    },
    far=(("ivy", 620, -0.05, 1.05), ("hazel", 60, -0.05, 0.7)),
    middle=(("earth", 1100, 0.8, 1.03), ("ivy", 480, 0.15, 0.98), ("nettle", 420, 0.05, 0.9), ("hazel", 130, -0.05, 0.5)),
    front=(("ivy", 330, 0.3, 0.97), ("nettle", 190, 0.25, 0.97), ("hazel", 215, -0.08, 0.5), ("grass", 720, 0.83, 1.25)),
    flowers=(("campion", 34, 0.32, 0.8), ("stitchwort", 60, 0.5, 0.92), ("celandine", 30, 0.75, 0.95)),
    near=(("grass", 6, 1.1, 1.3),),
)  # fmt: skip

AUTUMN = Bank(
    seed=23,
    void="deep shade",
    plants={
        "maple": Plant(name="maple", lit="#e3ab3c", class_lit="field maple in the sun", class_shade="bronze", kind="maple", size=(70, 120), ratio=0.45, gloss=0.12, spread=0.9),
        "hornbeam": Plant(name="hornbeam", lit="#b06035", class_lit="hornbeam in the sun", class_shade="dark red-brown", kind="hazel", size=(80, 135), ratio=0.34, gloss=0.15, spread=1.0),
        "dogwood": Plant(name="dogwood", lit="#972840", class_lit="dogwood in the sun", class_shade="dark red-brown", kind="smooth", size=(80, 130), ratio=0.30, gloss=0.22, spread=0.9),
        "ivy": Plant(name="ivy", lit="#3a5733", class_lit="dark green", class_shade="deep shade", kind="ivy", size=(52, 92), ratio=0.45, gloss=0.3, down=1.5, spread=0.9),
        "bindweed": Plant(name="bindweed", lit="#a9ad4a", class_lit="last green leaves", class_shade="last green leaves in shade", kind="nettle", size=(60, 100), ratio=0.36, gloss=0.1, down=1.2, spread=1.3),
        "straw": Plant(name="straw", lit="#dcc49a", class_lit="straw", class_shade="straw in shade", kind="strap", size=(240, 430), ratio=0.012, gloss=0.1, down=UP, spread=0.45),
        "earth": Plant(name="earth", lit="#61392b", class_lit="dark red-brown", class_shade="deep shade", kind="stone", size=(12, 46), ratio=0.4, gloss=0.0, down=0, spread=3),
        "hip": Plant(name="hip", lit="#dd3a22", class_lit="rose hips", class_shade="rose hips in shade", kind="round", size=(11, 16), ratio=0.42, gloss=0.6, down=1.4, spread=0.4),
        "spindle": Plant(name="spindle", lit="#e8709f", class_lit="spindle berries", class_shade="spindle berries in shade", kind="campion", size=(16, 23), ratio=0.55, gloss=0, down=1.4, spread=0.5),
    },
    far=(("ivy", 620, -0.05, 1.05), ("hornbeam", 90, 0, 1.0), ("maple", 80, -0.05, 0.8)),
    middle=(("earth", 1200, 0.8, 1.03), ("ivy", 430, 0.15, 0.98), ("hornbeam", 260, 0.05, 1.0), ("maple", 130, -0.05, 0.6), ("dogwood", 55, 0.1, 0.9)),
    front=(("ivy", 280, 0.3, 0.97), ("hornbeam", 210, 0.3, 1.05), ("maple", 250, -0.08, 0.6), ("dogwood", 105, 0.1, 0.85), ("bindweed", 26, 0.3, 0.9), ("straw", 170, 0.84, 1.25)),
    flowers=(("hip", 95, 0.2, 0.8), ("spindle", 50, 0.25, 0.75)),
    near=(("straw", 6, 1.1, 1.3), ("maple", 2, 0.9, 1.0)),
)  # fmt: skip
