"""The pictures from outside: two invented houses and the edge of a slab."""
import numpy as np

from .materials import block, flat, glass, lawn, leaves, shingles, siding, soil
from .things import pebbles
from .tracer import Ball, Heap, Rod, Scene, box, fbm, gable, grass, mix, noise, ramp, span, vec


def window(scene, x, y, z, wide, high, shutters=None):
    white = flat((0.86, 0.86, 0.84), 0.03)
    scene.add(
        span(
            white,
            (x - wide / 2 - 0.09, y - high / 2 - 0.09, z - 0.1),
            (x + wide / 2 + 0.09, y + high / 2 + 0.09, z + 0.04),
        )
    )
    for side in (-1, 1):
        scene.add(
            span(
                glass,
                (x + side * wide / 4 - wide / 4 + 0.03, y - high / 2, z),
                (x + side * wide / 4 + wide / 4 - 0.03, y + high / 2, z + 0.045),
            )
        )
        if shutters:
            middle = x + side * (wide / 2 + 0.32)
            scene.add(
                span(
                    siding(shutters, 0.09),
                    (middle - 0.2, y - high / 2 - 0.06, z - 0.1),
                    (middle + 0.2, y + high / 2 + 0.06, z + 0.05),
                )
            )
    scene.add(span(white, (x - wide / 2, y - 0.025, z), (x + wide / 2, y + 0.025, z + 0.055)))


def shrub(scene, rng, x, z, size, tint=(0.15, 0.26, 0.08), count=26):
    scene.add(
        Heap(
            [
                Ball(
                    leaves(vec(*tint) * rng.uniform(0.75, 1.25)),
                    (
                        x + rng.normal(0, 0.33) * size,
                        abs(rng.normal(0.45, 0.25)) * size,
                        z + rng.normal(0, 0.25) * size,
                    ),
                    rng.uniform(0.16, 0.36) * size,
                    22,
                )
                for _ in range(count)
            ]
        )
    )


def tree(scene, rng, x, z, height, spread):
    scene.add(Rod(flat((0.22, 0.16, 0.11), 0.4, 0, 6), (x, -0.2, z), (x + 0.2, height * 0.75, z), 0.05 * height * 0.5))
    balls = []
    for _ in range(320):
        q = rng.normal(0, 1, 3)
        q = q / np.linalg.norm(q) * rng.uniform(0.45, 1.0) ** 0.5
        balls.append(
            Ball(
                leaves(vec(0.17, 0.27, 0.08) * rng.uniform(0.7, 1.3), 9),
                (x + q[0] * spread, height + q[1] * spread * 0.75, z + q[2] * spread),
                rng.uniform(0.08, 0.19) * spread,
                9,
            )
        )
    scene.add(*[Heap(balls[i : i + 34]) for i in range(0, 320, 20)])


def mown(count, low, high, length):
    def draw(scene, image, rng):
        far = rng.random(count) ** 2
        roots = np.stack([rng.uniform(low[0], high[0], count), np.zeros(count), high[1] + (low[1] - high[1]) * far], 1)
        grass(scene, image, roots, length, rng)

    return draw


def yard(eye, target, view, sun):
    scene = Scene(eye, target, view=view, sun=sun, power=0.80)
    scene.add(span(lawn, (-70, -1, -70), (70, 0, 40)))
    return scene


def ranch_house():
    rng = np.random.default_rng(81)
    scene = yard((-4.6, 1.85, 16.2), (-0.2, 1.95, 0), 57, (-0.55, 0.75, 0.75))
    wall, white = siding((0.62, 0.68, 0.66)), flat((0.88, 0.88, 0.86), 0.03)
    scene.add(
        span(block((0.42, 0.41, 0.40)), (-6.5, -0.2, -4), (6.5, 0.55, 3)),
        span(wall, (-6.55, 0.55, -4.05), (6.55, 3.0, 3.05)),
    )
    scene.add(gable(shingles(), (0, 3.0, -0.5), (14.2, 2.0, 8.6)), span(white, (-7.0, 2.92, 3.55), (7.0, 3.1, 3.72)))
    scene.add(
        span(flat((0.5, 0.48, 0.45), 0.1), (-2.3, 0, 3), (2.9, 0.48, 5.2)),
        span(white, (-2.5, 2.72, 5.1), (3.1, 2.95, 5.35)),
    )
    scene.add(box(shingles(), (0.3, 3.17, 4.35), (5.9, 0.12, 2.2), roll=11))
    for x in (-2.25, -0.55, 1.15, 2.85):
        scene.add(span(white, (x - 0.08, 0.48, 5.05), (x + 0.08, 2.75, 5.21)))
    for a, b in ((-2.25, -0.55), (1.15, 2.85)):
        scene.add(span(white, (a, 1.28, 5.09), (b, 1.36, 5.17)))
        scene.add(
            Heap([span(white, (x - 0.02, 0.5, 5.11), (x + 0.02, 1.3, 5.15)) for x in np.arange(a + 0.15, b, 0.15)])
        )
    for i in range(3):
        scene.add(span(flat((0.52, 0.50, 0.47), 0.1), (-0.5, 0, 5.2 + 0.3 * i), (1.1, 0.48 - 0.16 * i, 5.5 + 0.3 * i)))
    scene.add(
        span(white, (-0.25, 0.5, 3), (0.85, 2.65, 3.09)),
        span(flat((0.36, 0.10, 0.08), 0.05, 0.1), (-0.16, 0.5, 3), (0.76, 2.56, 3.12)),
    )
    scene.add(
        span(glass, (0.05, 1.9, 3), (0.55, 2.35, 3.13)), Ball(flat((0.7, 0.6, 0.3), 0, 0.5), (0.66, 1.45, 3.15), 0.04)
    )
    for x, wide in ((-4.4, 1.5), (-1.3, 1.0), (1.9, 1.1), (4.8, 1.5)):
        window(scene, x, 1.85, 3.05, wide, 1.2, (0.16, 0.22, 0.27) if abs(x) > 4 else None)
    scene.add(span(block((0.42, 0.22, 0.17), (0.2, 0.07)), (3.2, 3.6, -0.9), (4.1, 5.6, -0.2)))
    for x in (-5.0, 3.9, 5.6):  # vents of the crawl space
        scene.add(span(flat((0.08, 0.08, 0.08), 0.1), (x - 0.2, 0.2, 3), (x + 0.2, 0.4, 3.02)))
    scene.add(span(flat((0.60, 0.58, 0.54), 0.12, 0, 3), (-0.45, -0.02, 6.0), (1.05, 0.015, 40)))
    for x in (-6.0, -5.1, -4.0, -3.1, 3.6, 4.4, 5.4, 6.2):
        shrub(scene, rng, x, 3.75, rng.uniform(0.55, 0.8))
    tree(scene, rng, 8.6, -4.5, 5.2, 2.6)
    tree(scene, rng, -10.0, -7, 6.0, 3.2)
    scene.after.append(mown(60000, (-16, 3.9), (14, 15.2), 0.06))
    return scene


def slab_house():
    rng = np.random.default_rng(91)
    scene = yard((4.6, 1.75, 15.6), (0.0, 1.85, 0), 56, (0.5, 0.8, 0.7))
    wall, white = siding((0.74, 0.66, 0.50), 0.2), flat((0.88, 0.87, 0.84), 0.03)
    concrete = flat((0.55, 0.54, 0.51), 0.12, 0, 5)
    scene.add(span(concrete, (-6.5, -0.2, -4), (2.2, 0.2, 2)), span(wall, (-6.5, 0.2, -4), (2.2, 2.75, 2)))
    scene.add(
        gable(shingles((0.29, 0.21, 0.17)), (-2.1, 2.72, -1), (9.8, 1.8, 7.2)),
        span(white, (-6.9, 2.62, 2.5), (2.5, 2.8, 2.62)),
    )
    scene.add(span(concrete, (2.2, -0.2, -3.4), (6.4, 0.12, 3.6)), span(wall, (2.2, 0.12, -3.4), (6.4, 2.72, 3.6)))
    scene.add(gable(shingles((0.29, 0.21, 0.17)), (4.3, 2.70, 0.1), (7.8, 1.5, 5.1), yaw=90))
    scene.add(gable(wall, (4.3, 2.62, 0.1), (7.88, 1.36, 4.75), yaw=90))
    scene.add(span(white, (2.8, 0.1, 3.5), (5.8, 2.42, 3.66)))
    for row in range(4):
        scene.add(
            Heap(
                [
                    span(
                        flat((0.82, 0.81, 0.78), 0.02),
                        (2.98 + 0.68 * i, 0.18 + 0.54 * row, 3.6),
                        (3.60 + 0.68 * i, 0.66 + 0.54 * row, 3.685),
                    )
                    for i in range(4)
                ]
            )
        )
    scene.add(
        span(white, (0.2, 0.15, 2), (1.4, 2.45, 2.08)),
        span(flat((0.12, 0.22, 0.30), 0.05, 0.1), (0.32, 0.18, 2), (1.28, 2.36, 2.11)),
    )
    scene.add(
        Ball(flat((0.7, 0.6, 0.3), 0, 0.5), (0.45, 1.25, 2.14), 0.04), span(concrete, (-0.1, 0, 2), (1.7, 0.12, 3.3))
    )
    window(scene, -1.4, 1.6, 2, 1.5, 1.15)
    window(scene, -4.6, 1.6, 2, 1.7, 1.15)
    scene.add(span(flat((0.56, 0.55, 0.52), 0.14, 0, 2), (2.6, -0.02, 3.6), (6.0, 0.012, 40)))
    scene.add(
        span(flat((0.58, 0.56, 0.53), 0.12, 0, 3), (0.1, -0.02, 3.3), (1.5, 0.012, 5.6)),
        span(flat((0.58, 0.56, 0.53), 0.12, 0, 3), (0.1, -0.02, 4.7), (2.7, 0.013, 5.7)),
    )
    for x in (-6.0, -5.2, -3.4, -2.6, -0.7):
        shrub(scene, rng, x, 2.75, rng.uniform(0.5, 0.7), (0.19, 0.28, 0.10))
    tree(scene, rng, -8.6, -3.5, 4.8, 2.5)
    tree(scene, rng, 10.0, -8, 5.5, 3.0)
    scene.after.append(mown(60000, (-14, 3.2), (16, 14.6), 0.06))
    return scene


def slab_edge():
    rng = np.random.default_rng(95)
    scene = yard((-0.55, 0.42, 1.25), (0.20, 0.165, 0), 56, (-0.35, 0.9, 0.75))

    def slab(p, n):
        lines = np.abs(p[:, 0] / 0.61 - np.round(p[:, 0] / 0.61)) * 0.61
        holes = ramp(noise(p * 75), 0.80, 0.93) * ramp(noise(p * 8), 0.4, 0.7)
        colour = mix(vec(0.50, 0.49, 0.46), vec(0.66, 0.65, 0.61), fbm(p * 7)) * (0.92 + 0.16 * noise(p * 300))[:, None]
        damp_foot = 1 - ramp(p[:, 1] + 0.03 * fbm(p * 9), -0.10, -0.045)
        return (
            colour * (1 - 0.5 * holes)[:, None] * (1 - 0.33 * damp_foot)[:, None],
            -0.004 * holes + 0.001 * noise(p * 220) - 0.002 * (lines < 0.003),
            0.0,
        )

    scene.add(
        span(slab, (-6, -0.2, -4), (6, 0.2, 0)), span(siding((0.74, 0.66, 0.50), 0.2), (-6, 0.215, -4), (6, 3, 0.018))
    )
    scene.add(span(flat((0.82, 0.81, 0.78), 0.03, 0.15), (-6, 0.202, -1), (6, 0.226, 0.030)))
    scene.add(span(soil((0.30, 0.22, 0.15), 0.5), (-6, -1, -1), (6, 0.004, 0.16)))
    scene.add(*pebbles(rng, 120, (-1.2, 0.01), (2.5, 0.15), (0.004, 0.016)))
    scene.after.append(mown(45000, (-2.2, 0.17), (3.5, 1.05), 0.05))
    return scene
