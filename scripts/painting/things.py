"""Things that several pictures show, and the wandering paths of insects."""
import numpy as np

from .materials import block, flat, mud, soil, wood
from .tracer import Ball, Heap, box, fbm, mix, ramp, span, vec


def pebbles(rng, count, low, high, sizes=(0.008, 0.04), material=None):
    made = []
    for _ in range(count):
        r = sizes[0] + (sizes[1] - sizes[0]) * rng.random() ** 3
        at = (rng.uniform(low[0], high[0]), r * 0.15, rng.uniform(low[1], high[1]))
        tone = rng.uniform(0.7, 1.3)
        made.append(Ball(material or flat(vec(0.215, 0.165, 0.12) * tone, 0.4, 0, 60), at, vec(1.1, 0.6, 0.8) * r))
    return [Heap(made[i : i + 20]) for i in range(0, count, 20)]


def winding(rng, a, b, steps, sway):
    """A path from a to b that wanders as insects do."""
    a, b = np.array(a, float), np.array(b, float)
    t = np.linspace(0, 1, steps)[:, None]
    drift = np.cumsum(rng.normal(0, 1, (steps, 3)), 0)
    drift = (drift - drift[0]) - (drift[-1] - drift[0]) * t
    return a + (b - a) * t + drift * sway * np.linalg.norm(b - a) / np.sqrt(steps) * (np.abs(b - a).max() > 0)


def on_wall(path, z):
    path[:, 2] = z
    return path


def crumbs(rng, middle, spread, count, sizes=(0.002, 0.006)):
    return Heap(
        [
            Ball(
                mud(),
                (middle[0] + rng.normal(0, spread), middle[1] + 0.001, middle[2] + abs(rng.normal(0, spread))),
                rng.uniform(*sizes),
            )
            for _ in range(count)
        ]
    )


def near_path(paths, reach, middle):
    """Mud smeared on a wall along paths; `middle` is that of the wall's shape."""
    points = np.concatenate([np.linspace(a, b, 4) for path in paths for a, b in zip(path, path[1:])])[:, :2] - middle

    def stain(colour, p):
        nearest = np.full(len(p), 9.0)
        for q in points:
            nearest = np.minimum(nearest, np.hypot(p[:, 0] - q[0], p[:, 1] - q[1]))
        w = (1 - ramp(nearest + reach * 1.3 * (fbm(p * 55, 3) - 0.5), reach * 0.2, reach)) * 0.6
        return mix(colour, vec(0.17, 0.125, 0.085), w)

    return stain


def crawl_space(scene, rng, height=0.95, joists=True, depth=(-6, 2)):
    """Soil, joists along z, boards above them, a block wall far behind."""
    scene.add(span(soil(), (-8, -1, -9), (8, 0, 4)))
    scene.add(
        span(wood((0.42, 0.31, 0.2), (0.27, 0.18, 0.1), fine=0.12), (-8, height + 0.24, -9), (8, height + 0.3, 4))
    )
    for i, x in enumerate(np.arange(-4.2, 4.3, 0.42) if joists else []):
        length = depth[1] - depth[0]
        scene.add(box(wood(seed=i, worn=0.5), (x, height + 0.12, sum(depth) / 2), (length, 0.24, 0.042), yaw=90))


def pier(scene, rng, x, z, height, material=None):
    scene.add(box(material or block(start=(0.2, height / 2)), (x, height / 2, z), (0.4, height, 0.4)))
