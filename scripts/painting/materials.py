"""What things are made of: each material gives colour, height and gloss at points of a shape."""
import numpy as np

from .tracer import fbm, mix, noise, ramp, vec


def faces(p, n):
    """Across and up on whichever side of a box is seen."""
    side = np.abs(n[:, 0]) > 0.6
    return np.where(side, p[:, 2], p[:, 0]), p[:, 1]


def block(tint=(0.36, 0.355, 0.34), grid=(0.4, 0.2), start=(0, 0), stain=None):
    def material(p, n):
        u, v = faces(p, n)
        u, v = u + start[0], v + start[1]
        row = np.floor(v / grid[1])
        u = u + (row % 2) * grid[0] / 2
        du, dv = (
            np.abs(u / grid[0] - np.round(u / grid[0])) * grid[0],
            np.abs(v / grid[1] - np.round(v / grid[1])) * grid[1],
        )
        joint = 1 - ramp(np.minimum(du, dv) + 0.003 * (fbm(p * 90, 2) - 0.5), 0.004, 0.0075)
        unit_tone = noise(np.stack([np.floor(u / grid[0]) * 7.3, row * 3.7, row * 0], 1))
        pores = ramp(fbm(p * vec(170, 185, 160), 2) + 0.22 * (noise(p * 18) - 0.5), 0.66, 0.80)
        colour = mix(vec(*tint), vec(*tint) * 0.72, fbm(p * 9)) * (0.86 + 0.28 * unit_tone)[:, None]
        colour = colour * (0.9 + 0.2 * noise(p * 420))[:, None] * (1 - 0.38 * pores)[:, None]
        colour = mix(colour, vec(0.40, 0.39, 0.37) * (0.75 + 0.4 * fbm(p * 60, 2))[:, None], joint * 0.8)
        height = 0.0016 * fbm(p * 160, 2) - 0.0016 * pores - 0.004 * joint
        if stain:
            colour = stain(colour, p)
        return colour, height, 0.0

    return material


def soil(tint=(0.25, 0.175, 0.115), lumps=1.0):
    def material(p, n):
        big, small = fbm(p * 7), fbm(p * 45, 3)
        crumbs = ramp(noise(p * 130), 0.6, 0.9)
        colour = mix(vec(*tint) * 0.55, vec(*tint) * 1.35, 0.55 * big + 0.45 * small)
        colour = mix(colour, vec(*tint) * 1.7, crumbs * 0.35)
        return colour, lumps * (0.05 * big + 0.014 * small + 0.003 * crumbs), 0.0

    return material


def wood(
    light=(0.60, 0.44, 0.27), dark=(0.36, 0.23, 0.12), seed=0, worn=0.0, wet=None, eaten=None, shift=(0, 0, 0), fine=1.0
):
    """Grain runs along x; `shift` carries it on from one piece to the next. `wet` and `eaten` give 0 to 1 at points of the shape."""

    def material(p, n):
        q = p + vec(seed * 1.7, seed * 0.9, seed * 2.3) + vec(*shift)
        bend = fbm(q * vec(1.2, 5, 5), 2)
        rings = np.sin((q[:, 1] * 0.8 + q[:, 2] * 1.1) * 210 * fine + bend * 30)
        fibre = noise(q * vec(14, 420 * fine, 420 * fine))
        colour = mix(vec(*light), vec(*dark), 0.30 + 0.17 * rings + 0.34 * (fibre - 0.5))
        colour = colour * (0.72 + 0.56 * fbm(q * vec(1.5, 9, 9), 3))[:, None]
        grey = vec(0.36, 0.34, 0.31) * (0.7 + 0.6 * fibre)[:, None]
        colour = mix(colour, grey, worn * fbm(q * vec(3, 14, 14)) * 1.5)
        ends = np.abs(n[:, 0]) > 0.7
        circles = np.sin(np.hypot(q[:, 1] * 1.0 + 0.03, q[:, 2] + 0.05) * 900 + 2 * bend)
        colour[ends] = (mix(vec(*light) * 0.85, vec(*dark), 0.5 + 0.4 * circles))[ends]
        height, gloss = 0.0003 * rings + 0.0006 * fibre, np.full(len(p), 0.01)
        if wet:
            w = wet(p)
            edge = np.exp(-(((w - 0.35) / 0.16) ** 2))
            colour = mix(colour, colour * vec(0.12, 0.095, 0.08), ramp(w, 0.28, 0.55))
            colour = mix(colour, vec(0.55, 0.47, 0.34), edge * 0.3)
            mould = ramp(fbm(p * 60, 3) * ramp(w, 0.4, 0.7), 0.46, 0.6)
            colour, gloss = mix(colour, vec(0.012, 0.013, 0.012), 0.75 * mould), gloss + 0.035 * ramp(w, 0.4, 0.6)
        if eaten:
            e = eaten(p, n)
            mud = ramp(fbm(p * 70, 3), 0.42, 0.62)
            colour = mix(
                colour, mix(vec(0.085, 0.05, 0.028), vec(0.30, 0.20, 0.115), mud), np.clip(e * 1.15, 0, 1) * 0.93
            )
            height = height - 0.012 * e + 0.003 * e * mud
        return colour, height, gloss

    return material


def mud(tint=(0.215, 0.135, 0.08)):
    def material(p, n):
        grains, lumps = noise(p * 520), fbm(p * 150, 3)
        colour = mix(vec(*tint) * 0.55, vec(*tint) * 1.4, 0.5 * grains + 0.5 * lumps)
        return colour, 0.0042 * lumps + 0.0014 * grains, 0.0

    return material


def flat(tint, rough=0.0, gloss=0.0, grain=40):
    def material(p, n):
        f = fbm(p * grain, 3)
        return vec(*tint) * (1 - rough + 2 * rough * f)[:, None], 0.002 * rough * f, gloss

    return material


def siding(tint, lap=0.16):
    def material(p, n):
        across = (p[:, 1] + 40) / lap % 1
        colour = vec(*tint) * (0.93 + 0.14 * fbm(p * 3, 3))[:, None] * (0.62 + 0.38 * ramp(across, 0, 0.22))[:, None]
        return colour, 0.0, 0.0

    return material


def shingles(tint=(0.24, 0.22, 0.21)):
    def material(p, n):
        row = np.floor(p[:, 1] / 0.09)
        tab = np.floor(p[:, 0] / 0.26 + row * 0.5)
        tone = noise(np.stack([tab * 5.1, row * 3.3, row * 0 + np.sign(n[:, 2])], 1))
        edge = ramp(p[:, 1] / 0.09 - row, 0.0, 0.18)
        colour = vec(*tint) * (0.62 + 0.6 * tone + 0.25 * fbm(p * 4, 2))[:, None] * (0.6 + 0.4 * edge)[:, None]
        return colour, -0.006 * (p[:, 1] / 0.09 - row), 0.0

    return material


def leaves(tint=(0.16, 0.27, 0.08), fine=14):
    def material(p, n):
        f, g = fbm(p * fine, 3), noise(p * fine * 4)
        return mix(vec(*tint) * 0.35, vec(*tint) * 1.7, 0.6 * f + 0.4 * g), 0.25 / fine * 4 * f + 0.05 * g, 0.0

    return material


def lawn(p, n):
    f, g = fbm(p * 1.3, 3), noise(p * vec(25, 0, 10))
    return mix(vec(0.15, 0.24, 0.065), vec(0.33, 0.40, 0.13), 0.55 * f + 0.45 * g), 0.03 * g, 0.0


def glass(p, n):
    f = ramp(fbm(p * 1.6 + 5, 3) + p[:, 1] * 0.35, 0.35, 0.75)
    return mix(vec(0.03, 0.04, 0.05), vec(0.30, 0.38, 0.45), f), 0.0, 0.3
