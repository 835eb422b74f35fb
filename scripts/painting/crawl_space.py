"""The pictures from under and inside an invented house."""
import numpy as np

from .materials import block, flat, mud, soil, wood
from .things import crawl_space, crumbs, near_path, on_wall, pebbles, pier, winding
from .tracer import Ball, F, Heap, Hull, Rod, SIX, Scene, box, chain, fbm, mix, noise, ramp, rotation, span, unit, vec


def tube_close():
    rng = np.random.default_rng(5)
    scene = Scene(
        (0.27, 0.30, 0.68), (0.02, 0.325, 0), view=51, torch=(-0.46, 0.16), reach=0.75, aim=(0.0, 0.02), fill=0.13
    )
    low = on_wall(winding(rng, (0.03, 0.0, 0), (0.012, 0.30, 0), 22, 0.10), 0.002)
    high = on_wall(winding(rng, (0.012, 0.375, 0), (-0.02, 0.62, 0), 18, 0.10), 0.002)
    branch = on_wall(winding(rng, low[9], (0.125, 0.40, 0), 16, 0.10), 0.002)
    twig = on_wall(winding(rng, branch[8], (0.15, 0.275, 0), 8, 0.10), 0.002)
    left = on_wall(winding(rng, high[5], (-0.13, 0.60, 0), 14, 0.10), 0.002)
    gap = np.array([low[-1], high[0]])
    wall = block(start=(0.16, 0.0), stain=near_path([low, high, branch, twig, left, gap], 0.019, (0.005, 0.255)))
    scene.add(span(wall, (-0.24, -0.1, -0.4), (0.25, 0.61, 0)))
    scene.add(span(wood((0.5, 0.38, 0.24), (0.32, 0.21, 0.12), worn=0.3), (-1.5, 0.612, -0.4), (1.5, 0.85, 0.02)))
    scene.add(span(soil(), (-4, -1, -3), (4, 0, 3)))
    scene.add(span(block((0.3, 0.29, 0.28)), (-4, 0, -2.5), (4, 0.9, -2.3)))
    for path, r in ((low, 0.0068), (high, 0.0064), (branch, 0.0050), (twig, 0.0038), (left, 0.0046)):
        scene.add(chain(mud(), path, r, rng, 0.5))
    for end, way in ((low[-1], 1), (high[0], -1)):  # the broken ends show how hollow they are
        scene.add(Ball(flat((0.02, 0.012, 0.008)), end + np.array([0, 0.0045 * way, 0.0025]), (0.0044, 0.0035, 0.0054)))
    scraps = [low[-1] + np.array([rng.normal(0, 0.006), rng.uniform(0.006, 0.07), 0.001]) for _ in range(16)]
    scene.add(Heap([Ball(mud(), s, rng.uniform(0.0012, 0.0034)) for s in scraps]))
    scene.add(crumbs(rng, (0.02, 0, 0.02), 0.025, 50), *pebbles(rng, 60, (-0.5, 0.02), (0.5, 0.5), (0.004, 0.018)))
    return scene


def tube_where():
    rng = np.random.default_rng(8)
    scene = Scene(
        (0.35, 0.50, 2.0), (-0.10, 0.44, -0.6), view=68, torch=(-0.28, 0.1), reach=2.2, aim=(-0.08, 0.0), power=1.2
    )
    crawl_space(scene, rng, 0.86)
    scene.add(span(wood((0.52, 0.38, 0.24), (0.34, 0.22, 0.12)), (-5, 0.62, -0.69), (5, 0.86, -0.55)))
    path = on_wall(winding(rng, (-0.30, 0.0, 0), (-0.36, 0.64, 0), 30, 0.12), -0.419)
    fork = on_wall(winding(rng, path[12], (-0.24, 0.62, 0), 18, 0.1), -0.419)
    stained = near_path([path, fork], 0.035, (-0.34, 0.31))
    for x in (-2.3, -0.34, 1.62):
        pier(scene, rng, x, -0.62, 0.62, block(start=(0.2, 0.31), stain=stained if x == -0.34 else None))
        pier(scene, rng, x - 0.1, -3.0, 0.86)
    scene.add(chain(mud(), path, 0.0095, rng, 0.4), chain(mud(), fork, 0.007, rng, 0.4))
    scene.add(span(block(), (-8, 0, -5.2), (8, 1.2, -5)))
    scene.add(crumbs(rng, (-0.3, 0, -0.4), 0.04, 40, (0.003, 0.010)))
    scene.add(Rod(flat((0.62, 0.6, 0.56), 0.1, 0.1), (1.0, 0.70, -4), (1.25, 0.70, 2), 0.042))
    scene.add(*pebbles(rng, 120, (-2, -1.5), (2, 1.4), (0.01, 0.045)))
    scene.add(box(wood(seed=4, worn=0.8), (0.75, 0.03, 0.1), (0.5, 0.03, 0.09), yaw=35))
    return scene


def galleries(length, middle, spread, seed, rows=60):
    """Channels along the grain of a board: 0 to 1 at its points."""

    def eaten(p, n):
        q = p + seed
        lines = noise(q * vec(9, rows * 2.6, 60)) * 0.62 + noise(q * vec(26, rows * 4, 90)) * 0.38
        place = np.exp(-((((p[:, 0] - middle[0]) / length) ** 2 + ((p[:, 1] - middle[1]) / spread) ** 2) ** 2))
        return ramp(lines + 0.30 * place, 0.66, 0.78) * ramp(place, 0.15, 0.5)

    return eaten


def sill_close():
    rng = np.random.default_rng(21)
    scene = Scene((0.10, 0.335, 0.66), (0.0, 0.29, 0), view=52, torch=(-0.22, 0.16), reach=0.7)
    scene.add(span(block(start=(0.12, 0.0)), (-3, -0.5, -0.4), (3, 0.2, 0)))
    sill = wood((0.55, 0.41, 0.26), (0.34, 0.22, 0.12), 3, 0.5, eaten=galleries(0.19, (0.02, -0.005), 0.034, 3.0))
    scene.add(span(sill, (-3, 0.203, -0.2), (3, 0.292, -0.004)))
    rim = wood((0.62, 0.47, 0.30), (0.40, 0.27, 0.15), 9, 0.25, eaten=galleries(0.10, (-0.06, -0.075), 0.03, 8.0, 45))
    scene.add(span(rim, (-3, 0.296, -0.15), (3, 0.53, -0.035)))
    scene.add(span(wood(seed=2), (-3, 0.535, -1), (3, 0.6, 1)))
    dry = mud((0.40, 0.31, 0.22))
    pieces = [
        ((0.02, -0.02), (0.03, 0.065)),
        ((0.034, 0.10), (0.03, 0.205)),
        ((0.125, 0.02), (0.11, 0.085)),
        ((0.105, 0.135), (0.095, 0.205)),
        ((-0.14, 0.115), (-0.125, 0.20)),
        ((0.03, 0.21), (0.05, 0.262)),
    ]
    for (ax, ay), (bx, by) in pieces:
        path = on_wall(winding(rng, (ax, ay, 0), (bx, by, 0), 10, 0.12), 0.001)
        scene.add(chain(dry, path, 0.0058, rng, 0.4))
        for end in (path[0], path[-1]):
            scene.add(
                Ball(
                    flat((0.03, 0.02, 0.014)),
                    end + np.array([0, np.sign(end[1] - path[5][1]) * 0.004, 0.002]),
                    (0.0036, 0.003, 0.0046),
                )
            )
    scene.add(
        Heap(
            [
                Ball(dry, (rng.normal(0.0, 0.09), 0.2925, -rng.uniform(0.004, 0.03)), rng.uniform(0.001, 0.004))
                for _ in range(50)
            ]
        )
    )
    return scene


def sill_where():
    rng = np.random.default_rng(33)
    scene = Scene(
        (-0.75, 0.40, 1.05), (0.50, 0.53, -1.2), view=70, torch=(-0.25, 0.06), reach=2.2, power=1.25, aim=(0.0, 0.0)
    )
    scene.add(span(soil(), (-8, -1, -9), (8, 0, 4)))
    wall = block(start=(0.1, 0.3))
    scene.add(span(wall, (-6, 0, -1.4), (1.2, 0.6, -1.2)), span(wall, (1.0, 0, -1.4), (1.2, 0.6, 4)))
    hurt = wood((0.56, 0.42, 0.27), (0.34, 0.22, 0.12), 3, 0.5, eaten=galleries(0.42, (3.0, 0.0), 0.06, 3.0, 22))
    scene.add(span(hurt, (-6, 0.60, -1.36), (1.16, 0.69, -1.22)))
    scene.add(box(wood((0.56, 0.42, 0.27), (0.34, 0.22, 0.12), 4, 0.5), (1.1, 0.645, 1.39), (5.2, 0.09, 0.14), yaw=90))
    scene.add(span(wood(seed=6, worn=0.3), (-6, 0.69, -1.36), (1.16, 0.93, -1.315)))
    scene.add(box(wood(seed=7, worn=0.3), (1.14, 0.81, 1.35), (5.4, 0.24, 0.045), yaw=90))
    for i, x in enumerate(np.arange(-3.4, 0.9, 0.41)):
        scene.add(box(wood(seed=i + 11, worn=0.3), (x, 0.81, 1.3), (5.2, 0.24, 0.042), yaw=90))
    scene.add(span(wood((0.45, 0.33, 0.21), (0.3, 0.2, 0.11), fine=0.12), (-6, 0.93, -1.4), (1.2, 1.0, 4)))
    dry = mud((0.38, 0.29, 0.20))
    for a, b in (((0.52, 0.2), (0.53, 0.42)), ((0.54, 0.47), (0.52, 0.60)), ((0.70, 0.38), (0.69, 0.60))):
        scene.add(chain(dry, on_wall(winding(rng, (*a, 0), (*b, 0), 12, 0.1), -1.199), 0.012, rng, 0.4))
    scene.add(*pebbles(rng, 120, (-1.6, -1.15), (0.95, 1.2), (0.01, 0.05)))
    return scene


def scraps():
    rng = np.random.default_rng(41)
    scene = Scene((0.0, 0.72, 1.15), (0.03, 0.02, -0.12), view=62, torch=(-0.3, 0.12), reach=1.05, power=1.1)
    scene.add(span(soil(), (-8, -1, -9), (8, 0, 4)))
    scene.add(span(block(start=(0, 0)), (-6, 0, -1.75), (6, 1.2, -1.5)))
    form = wood((0.50, 0.44, 0.36), (0.33, 0.27, 0.21), 3, 1.0)
    scene.add(box(form, (-0.08, 0.06, -0.50), (1.9, 0.14, 0.028), yaw=7, roll=-38))
    boards = [
        (0.12, 0.022, -0.02, 0.62, 0.09, 24, 0, 0),
        (-0.36, 0.022, 0.14, 0.5, 0.14, -36, 0, 4),
        (0.45, 0.03, 0.20, 0.30, 0.09, 70, 3, 0),
        (0.05, 0.058, 0.05, 0.44, 0.09, -18, 3, 2),
        (-0.13, 0.024, 0.38, 0.24, 0.09, 9, 0, 0),
        (0.62, 0.022, -0.26, 0.5, 0.14, -12, 0, 5),
        (-0.62, 0.022, -0.12, 0.4, 0.065, 62, 0, 0),
    ]
    for i, (x, y, z, length, wide, yaw, pitch, roll) in enumerate(boards):
        tone = rng.uniform(0.75, 1.1)
        look = wood(vec(0.66, 0.50, 0.31) * tone, vec(0.42, 0.28, 0.15) * tone, i * 3 + 1, rng.uniform(0.1, 0.9))
        scene.add(box(look, (x, y, z), (length, 0.038, wide), yaw, pitch, roll))
    for _ in range(5):
        x, z, a = rng.uniform(-0.5, 0.5), rng.uniform(-0.2, 0.5), rng.uniform(0, 6)
        scene.add(box(wood(seed=int(a * 9), worn=0.6), (x, 0.012, z), (0.11, 0.02, 0.045), yaw=a * 57))
    scene.add(*pebbles(rng, 140, (-1.2, -1.3), (1.2, 0.8), (0.006, 0.035)))
    return scene


def damp():
    scene = Scene((-0.13, 0.60, 0.60), (0.0, 0.685, 0), view=56, torch=(-0.22, 0.10), reach=0.72, power=1.05)
    wet = lambda p: np.clip(
        1.2 - np.hypot((p[:, 0] - 0.02) / 0.34, (p[:, 1] + 0.12) / 0.20) * 0.72 + 0.42 * (fbm(p * vec(14, 9, 9)) - 0.5),
        0,
        1,
    )
    scene.add(span(wood((0.58, 0.43, 0.27), (0.38, 0.25, 0.14), 5, 0.2, wet), (-4, 0.70, -0.044), (4, 0.94, 0)))
    for i, z in enumerate((-0.46, -0.88, -1.3, -1.72)):
        scene.add(span(wood(seed=i + 8, worn=0.3), (-4, 0.70, z - 0.044), (4, 0.94, z)))
    scene.add(span(wood((0.50, 0.37, 0.23), (0.33, 0.22, 0.12), fine=0.12), (-4, 0.94, -4), (4, 1, 3)))
    scene.add(span(soil(), (-8, -1, -9), (8, 0, 4)), span(block(), (-8, 0, -3.2), (8, 1, -3)))
    yellow, black = flat((0.86, 0.60, 0.04), 0.03, 0.25), flat((0.035, 0.035, 0.038), 0.2, 0.2)
    x, z = 0.035, -0.02
    scene.add(
        Heap(
            [
                span(yellow, (x - 0.035, 0.515, z - 0.014), (x + 0.035, 0.662, z + 0.014)),
                Rod(yellow, (x - 0.035, 0.529, z), (x - 0.035, 0.648, z), 0.014),
                Rod(yellow, (x + 0.035, 0.529, z), (x + 0.035, 0.648, z), 0.014),
                span(black, (x - 0.030, 0.66, z - 0.012), (x + 0.030, 0.672, z + 0.012)),
                span(black, (x - 0.030, 0.606, z), (x + 0.030, 0.652, z + 0.0152)),
                span(flat((0.50, 0.57, 0.47), 0.04, 0.25), (x - 0.025, 0.611, z), (x + 0.025, 0.647, z + 0.0160)),
            ]
        )
    )
    for dx, dy in ((-0.016, 0.585), (0.016, 0.585)):
        scene.add(Ball(black, (x + dx, dy, z + 0.014), (0.009, 0.009, 0.004)))
    for y in (0.532, 0.542, 0.552):
        scene.add(Rod(black, (x - 0.024, y, z + 0.0125), (x + 0.024, y, z + 0.0125), 0.0026))
    for dx in (-0.013, 0.013):
        scene.add(Rod(flat((0.75, 0.75, 0.73), 0.0, 0.6), (x + dx, 0.668, z), (x + dx, 0.705, z), 0.0016))
    return scene


def eaten_layer(y, thick, start, end, step=0.006):
    """One layer along a girder, from x = start to end, bitten from the front; whole stretches stay one piece."""
    x = np.append(np.arange(start, end, step), end)
    where = np.exp(-(((x - 0.04) / 0.24) ** 4) - ((y - 0.595) / 0.082) ** 4)
    hollow = fbm(np.stack([x * 9 + 4, x * 0 + y * 34, x * 0 + 0.5], 1).astype(F), 3)
    deep = 0.150 * where * np.clip((hollow - 0.41) * 4.2, 0, 1)
    deep[deep < 0.002] = 0
    cuts = [k for k in range(len(x)) if k in (0, len(x) - 1) or deep[k - 1 : k + 2].any()]
    pieces = []
    for k, after in zip(cuts, cuts[1:]):
        if min(deep[k], deep[after]) > 0.085:
            continue
        wide, mean = x[after] - x[k], (deep[k] + deep[after]) / 2
        half = (0.14 - mean) / 2
        at = vec((x[k] + x[after]) / 2, y + thick / 2, half - 0.14)
        mud_at = lambda p, n, at=at, mean=mean: min(mean * 18, 0.75) * ramp(fbm((p + at) * vec(18, 70, 70)), 0.36, 0.6)
        look = wood((0.56, 0.41, 0.255), (0.34, 0.225, 0.12), 5, 0.2, shift=at, eaten=mud_at)
        front = unit(vec((deep[after] - deep[k]) / wide, 0, 1))
        depths = [wide / 2, wide / 2, thick / 2, thick / 2, front[2] * half, half]
        pieces.append(
            Hull(look, at, rotation(), [*SIX[:4], tuple(front), SIX[5]], depths, float(np.hypot(half, wide / 2)) + 0.02)
        )
    return [Heap([Heap(pieces[i : i + 6]) for i in range(0, len(pieces), 6)])]


def hollowed():
    rng = np.random.default_rng(61)
    scene = Scene((0.22, 0.55, 0.74), (-0.03, 0.625, 0), view=52, torch=(-0.25, 0.14), reach=0.78, power=1.1)
    scene.add(
        span(
            wood((0.58, 0.43, 0.27), (0.36, 0.24, 0.13), 5, 0.3, eaten=galleries(0.3, (-1.86, -0.01), 0.03, 2, 34)),
            (-4, 0.68, -0.14),
            (0.26, 0.76, 0),
        )
    )
    scene.add(span(mud((0.10, 0.065, 0.04)), (-4, 0.50, -0.15), (0.20, 0.68, -0.100)))
    y = 0.50
    while y < 0.677:  # hard layers of the rings still stand, the soft wood between them is gone
        thick = min(rng.uniform(0.0035, 0.009), 0.68 - y)
        scene.add(*eaten_layer(y, thick, -0.30 - rng.uniform(0, 0.006), 0.26 - rng.uniform(0, 0.05) ** 1.3))
        y += thick + rng.uniform(0.0003, 0.0020)
    scene.add(span(wood((0.56, 0.41, 0.255), (0.34, 0.225, 0.12), 5, 0.2), (-4, 0.50, -0.14), (-0.3, 0.68, 0)))
    lumps = [
        Ball(
            mud(),
            (min(rng.normal(0.03, 0.10), 0.2), rng.normal(0.59, 0.03), -0.1 + abs(rng.normal(0, 0.004))),
            vec(1.5, 0.9, 1) * rng.uniform(0.0015, 0.006),
        )
        for _ in range(90)
    ]
    scene.add(Heap(lumps[:45]), Heap(lumps[45:]))
    scene.add(box(block(start=(0.2, 0.0)), (-0.02, 0.245, -0.08), (0.4, 0.49, 0.2)))
    scene.add(span(soil(), (-8, -1, -9), (8, 0, 4)), span(block(), (-8, 0, -2.6), (8, 1, -2.4)))
    for i, x in enumerate((-1.2, -0.79, -0.38, 0.03, 0.44, 0.85)):
        scene.add(box(wood(seed=i, worn=0.3), (x, 0.88, -0.6), (4, 0.24, 0.042), yaw=90))
    scene.add(
        Heap(
            [
                Ball(
                    mud(),
                    (np.clip(rng.normal(0.0, 0.08), -0.2, 0.16), 0.492, rng.uniform(-0.02, 0.018)),
                    rng.uniform(0.001, 0.004),
                )
                for _ in range(70)
            ]
        ),
        span(wood((0.42, 0.31, 0.2), (0.27, 0.18, 0.1), fine=0.12), (-5, 1.0, -4), (5, 1.1, 3)),
    )
    return scene


def low_duct():
    rng = np.random.default_rng(71)
    scene = Scene((0.25, 0.36, 1.9), (0.0, 0.29, 0), view=66, torch=(-0.25, 0.12), reach=1.75, power=1.1)
    crawl_space(scene, rng, 0.80)

    def jacket(p, n):
        folds = 0.7 * fbm(p * vec(12, 6, 6), 3) + 0.25 * np.abs(np.sin(p[:, 0] * 38 + 4 * noise(p * 6)))
        seam = np.exp(-(((p[:, 1] - 0.36 - 0.01 * noise(p * 6)) / 0.006) ** 2))
        dust = ramp(n[:, 1], 0.2, 1.0) * 0.6
        colour = mix(vec(0.50, 0.50, 0.51) * (0.8 + 0.3 * fbm(p * 12))[:, None], vec(0.33, 0.28, 0.22), dust)
        return colour * (1 - 0.4 * seam)[:, None], 0.016 * folds, 0.25

    scene.add(Rod(jacket, (-4, 0.37, -0.1), (4, 0.33, -0.35), 0.255))
    for x in (-1.0, 0.1, 1.2):
        y, z = 0.35 - 0.005 * x, -0.225 - 0.031 * x
        strap = flat((0.16, 0.16, 0.17), 0.2, 0.2)
        scene.add(Rod(strap, (x - 0.022, y, z), (x + 0.022, y, z), 0.259))
        scene.add(span(strap, (x - 0.02, y, z + 0.245), (x + 0.02, 1.0, z + 0.252)))
    scene.add(Rod(flat((0.75, 0.74, 0.70), 0.08, 0.2), (-1.75, 0.68, -4), (-1.2, 0.70, 2), 0.04))
    pier(scene, rng, 1.6, -1.6, 0.80)
    scene.add(span(block(), (-8, 0, -3.7), (8, 1.2, -3.5)), *pebbles(rng, 140, (-1.6, 0), (1.6, 1.3), (0.008, 0.045)))
    return scene
