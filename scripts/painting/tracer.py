"""A small ray tracer for painted "photos": noise for dirt, a torch or the sun for light.

Used by scripts/paint_photos.py. Needs python3-numpy and python3-pil. Lengths are in metres, y is up.
"""
import numpy as np
from PIL import Image, ImageDraw, ImageFilter

SIZE = (1120, 840)
OVERSAMPLE = 1.2
F = np.float32
LATTICE = np.random.default_rng(11).random((64, 64, 64)).astype(F)
vec = lambda *v: np.array(v, F)


# --- noise ---


def noise(p):
    """Value noise from 0 to 1 at points (N, 3)."""
    whole = np.floor(p)
    f = (p - whole).astype(F)
    f = f * f * (3 - 2 * f)
    i = whole.astype(np.int32) & 63
    j = (i + 1) & 63
    value = 0
    for a, wa in ((i[:, 0], 1 - f[:, 0]), (j[:, 0], f[:, 0])):
        for b, wb in ((i[:, 1], 1 - f[:, 1]), (j[:, 1], f[:, 1])):
            w = wa * wb
            value = value + w * ((1 - f[:, 2]) * LATTICE[a, b, i[:, 2]] + f[:, 2] * LATTICE[a, b, j[:, 2]])
    return value


def fbm(p, octaves=4):
    total, weight = 0, 0.5
    for _ in range(octaves):
        total = total + weight * noise(p)
        p, weight = p * F(2.03) + F(17.1), weight / 2
    return total / (1 - 0.5**octaves)


def dot(a, b):
    return np.einsum("ij,ij->i", a, b)


def ramp(x, low, high):
    x = np.clip((x - low) / (high - low), 0, 1)
    return x * x * (3 - 2 * x)


def mix(a, b, w):
    return a + (b - a) * np.asarray(w)[..., None]


# --- shapes: each has a middle, a radius around it, hit() and local() ---


class Hull:
    """What lies inside all of its planes; boxes and roofs are hulls."""

    def __init__(self, material, at, turn, normals, depths, radius):
        self.material, self.middle, self.turn, self.radius = material, vec(*at), turn, radius
        self.normals, self.depths = np.array(normals, F), np.array(depths, F)

    def hit(self, o, d):
        o, d = (o - self.middle) @ self.turn, d @ self.turn
        down, gap = self.normals @ d.T, self.depths[:, None] - self.normals @ o.T
        down = np.where(np.abs(down) < 1e-9, F(1e-9), down)
        t = gap / down
        enter = np.where(down < 0, t, -np.inf)
        side, near = enter.argmax(0), enter.max(0)
        far = np.where(down > 0, t, np.inf).min(0)
        return np.where((near < far) & (near > 1e-4), near, np.inf), (self.normals @ self.turn.T)[side]

    def local(self, p, n):
        return (p - self.middle) @ self.turn, n @ self.turn


class Ball:
    def __init__(self, material, at, size, holes=0):
        """With `holes` (their number in a metre) it is ragged, as leaves are."""
        self.material, self.middle, self.holes = material, vec(*at), holes
        self.size = np.broadcast_to(np.asarray(size, F), 3)
        self.radius = float(self.size.max())

    def hit(self, o, d):
        o, d = (o - self.middle) / self.size, d / self.size
        a, b, c = dot(d, d), dot(o, d), dot(o, o) - 1
        inside = b * b - a * c
        t = (-b - np.sqrt(np.maximum(inside, 0))) / a
        n = o + d * t[:, None]
        there = (inside > 0) & (t > 1e-4)
        if self.holes:
            there &= noise((n * self.size + self.middle) * self.holes) > 0.42
        return np.where(there, t, np.inf), unit(n / self.size)

    def local(self, p, n):
        return p - self.middle, n


class Rod:
    """A cylinder with round ends."""

    def __init__(self, material, a, b, radius):
        self.material, self.a, self.r = material, vec(*a), radius
        self.axis = vec(*b) - self.a
        self.middle, self.radius = self.a + self.axis / 2, float(np.linalg.norm(self.axis)) / 2 + radius

    def hit(self, o, d):
        oa, ba, r2 = o - self.a, self.axis, self.r**2
        bb, bd, bo = ba @ ba, d @ ba, oa @ ba
        od, oo = dot(oa, d), dot(oa, oa)
        a, b, c = bb - bd * bd, bb * od - bo * bd, bb * oo - bo * bo - r2 * bb
        h = b * b - a * c
        t = (-b - np.sqrt(np.maximum(h, 0))) / np.maximum(a, 1e-12)
        y = bo + t * bd
        oc = np.where((y <= 0)[:, None], oa, oa - ba)
        b2, c2 = dot(d, oc), dot(oc, oc) - r2
        h2 = b2 * b2 - c2
        body = (y > 0) & (y < bb)
        t = np.where(body, t, -b2 - np.sqrt(np.maximum(h2, 0)))
        t = np.where((h > 0) & (body | (h2 > 0)) & (t > 1e-4), t, np.inf)
        p = oa + d * np.where(np.isfinite(t), t, 0)[:, None]
        along = np.clip(p @ ba / bb, 0, 1)
        return t, unit(p - along[:, None] * ba)

    def local(self, p, n):
        return p, n


class Heap:
    """Many shapes behind one quick question."""

    def __init__(self, shapes):
        self.shapes = shapes
        low = np.min([s.middle - s.radius for s in shapes], 0)
        high = np.max([s.middle + s.radius for s in shapes], 0)
        self.middle, self.radius = (low + high) / 2, float(np.linalg.norm(high - low)) / 2


def unit(v):
    return v / np.maximum(np.sqrt(np.einsum("...i,...i", v, v)), 1e-9)[..., None]


def rotation(yaw=0, pitch=0, roll=0):
    """Degrees: about y, then z, then x."""
    y, z, x = np.radians([yaw, pitch, roll])
    about_y = [[np.cos(y), 0, np.sin(y)], [0, 1, 0], [-np.sin(y), 0, np.cos(y)]]
    about_z = [[np.cos(z), -np.sin(z), 0], [np.sin(z), np.cos(z), 0], [0, 0, 1]]
    about_x = [[1, 0, 0], [0, np.cos(x), -np.sin(x)], [0, np.sin(x), np.cos(x)]]
    return (np.array(about_y) @ about_z @ about_x).astype(F)


SIX = [(1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)]


def box(material, at, size, yaw=0, pitch=0, roll=0):
    half = np.repeat(np.array(size, F) / 2, 2)
    return Hull(material, at, rotation(yaw, pitch, roll), SIX, half, float(np.linalg.norm(size)) / 2)


def span(material, low, high):
    """A box by two corners."""
    low, high = np.array(low, F), np.array(high, F)
    return box(material, (low + high) / 2, high - low)


def gable(material, at, size, yaw=0):
    """A roof whose ridge runs along x; `at` is the middle of its base."""
    length, rise, depth = size
    slope = unit(vec(0, depth / 2, rise))
    normals = [(1, 0, 0), (-1, 0, 0), (0, -1, 0), tuple(slope), (0, slope[1], -slope[2])]
    depths = [length / 2, length / 2, 0, slope[1] * rise, slope[1] * rise]
    return Hull(material, at, rotation(yaw), normals, depths, float(np.linalg.norm(size)))


def chain(material, points, radius, rng, wobble=0.25):
    """A mud tube along points, uneven as they are."""
    radii = radius * (1 + wobble * (rng.random(len(points)) - 0.5))
    return Heap([Rod(material, a, b, r) for a, b, r in zip(points, points[1:], radii)])


# --- light and camera ---


class Scene:
    def __init__(
        self, eye, target, view=60, torch=(-0.18, 0.12), power=1.0, reach=1.0, sun=None, aim=(0, 0), fill=0.10
    ):
        self.eye, self.shapes, self.sun, self.power, self.reach, self.fill = vec(*eye), [], sun, power, reach, fill
        self.ahead = unit(vec(*target) - self.eye)
        self.right = unit(np.cross(self.ahead, vec(0, 1, 0)))
        self.up = np.cross(self.right, self.ahead)
        self.zoom = np.tan(np.radians(view / 2))
        self.torch = self.eye + self.right * F(torch[0]) + self.up * F(torch[1])
        self.beam = unit(self.ahead + self.right * F(aim[0]) + self.up * F(aim[1]))
        self.after = []

    def add(self, *shapes):
        self.shapes += shapes

    def trace(self, o, d, far, shapes=None, best=None):
        """The nearest hit before `far`: distance, normal and shape number (-1 for none)."""
        if best is None:
            best = [far.astype(F).copy(), np.zeros_like(d), np.full(len(d), -1), []]
        od, oo = dot(o, d), dot(o, o)
        for shape in self.shapes if shapes is None else shapes:
            middle = shape.middle.astype(F)
            along = d @ middle - od
            aside = middle @ middle - 2 * (o @ middle) + oo - along * along
            reach = shape.radius * 1.01 + 0.002
            m = np.flatnonzero((aside < reach * reach) & (along > -reach) & (along - reach < best[0]))
            if not len(m):
                continue
            if isinstance(shape, Heap):
                part = [best[0][m], best[1][m], best[2][m], best[3]]
                self.trace(o[m], d[m], far, shape.shapes, part)
                best[0][m], best[1][m], best[2][m] = part[:3]
                continue
            t, n = shape.hit(o[m], d[m])
            closer = t < best[0][m]
            m = m[closer]
            best[0][m], best[1][m], best[2][m] = t[closer], n[closer], len(best[3])
            best[3].append(shape)
        return best

    def blocked(self, p, to, distance):
        return self.trace(p, to, distance)[2] >= 0

    def surface(self, p, n, ids, shapes):
        """Colour, gloss and bumped normal at each hit."""
        colour, gloss, bumped = np.zeros_like(p), np.zeros(len(p), F), n.copy()
        for k in np.unique(ids[ids >= 0]):
            m, shape = ids == k, shapes[k]
            q, normal = p[m], n[m]
            c, h, g = shape.material(*shape.local(q, normal))
            colour[m], gloss[m] = c, g
            side = unit(np.cross(normal, vec(0.31, 0.83, 0.46)))
            step = F(0.0012 * (0.5 + np.linalg.norm(q - self.eye, axis=1).mean()))
            for t in (side, np.cross(normal, side)):
                rise = (shape.material(*shape.local(q + t * step, normal))[1] - h) / step
                bumped[m] -= t * np.broadcast_to(np.clip(rise, -2.5, 2.5), len(t))[:, None]
        return colour, gloss, unit(bumped)

    def openness(self, p, flat, rng):
        """How much of the light and of the surroundings reaches each point, roughly: smoothed afterwards."""
        start = p + flat * F(0.0015)
        room = np.full(len(p), F(1.5 if self.sun else 0.16))
        around = [
            ~self.blocked(start, unit(flat + unit(rng.normal(size=p.shape)).astype(F) * F(0.95)), room)
            for _ in range(3)
        ]
        free = []
        for _ in range(2):
            wobble = rng.normal(size=p.shape).astype(F) * F(0.02 if self.sun else 0.010)
            to = unit(vec(*self.sun)) + wobble if self.sun else self.torch + wobble - p
            distance = np.linalg.norm(to, axis=1).astype(F)
            free.append(~self.blocked(start, to / distance[:, None], np.full(len(p), F(60)) if self.sun else distance))
        return np.mean(around, 0), np.mean(free, 0)

    def lit(self, p, n, d, colour, gloss, around, free):
        to = np.broadcast_to(unit(vec(*self.sun)), p.shape) if self.sun else self.torch - p
        distance = np.linalg.norm(to, axis=1)
        to = to / distance[:, None]
        strength = free * (1 if self.sun else self.beam_at(to, distance))
        direct = strength * np.maximum(dot(n, to), 0)
        shine = strength * np.maximum(dot(n, unit(to - d)), 0) ** 40
        if self.sun:
            sky = vec(0.55, 0.68, 0.9) * 0.62 * (0.6 + 0.4 * n[:, 1:2]) + vec(0.5, 0.45, 0.3) * 0.16 * (
                0.5 - n[:, 1:2] / 2
            )
            light = direct[:, None] * vec(1.25, 1.15, 0.98) + sky * (0.22 + 0.78 * around[:, None])
        else:
            near = self.beam_at(-self.beam[None], np.linalg.norm(p - self.eye, axis=1))
            soft = self.fill * near * (0.35 + 0.65 * np.abs(dot(n, d))) * (0.25 + 0.75 * around)
            light = (direct * (0.45 + 0.55 * around))[:, None] * vec(1.06, 1.0, 0.88) + soft[:, None] * vec(
                1, 0.95, 0.85
            )
        return (colour * light + (shine * gloss)[:, None]) * self.power

    def beam_at(self, to, distance):
        """A torch: bright in the middle, fading outward and with distance."""
        off = np.arccos(np.clip(-(to @ self.beam), -1, 1))
        cone = 0.16 + 0.62 * np.exp(-((off / 0.42) ** 2)) + 0.35 * np.exp(-((off / 0.2) ** 2))
        return cone * 1.9 / (0.35 + (distance / self.reach) ** 1.7)

    def sky(self, d):
        """Sky with clouds over a far line of trees."""
        height = d[:, 1]
        clouds = ramp(
            fbm(np.stack([d[:, 0] / (height + 0.12) * 1.1, height * 0 + 3, 0.8 / (height + 0.12)], 1)), 0.5, 0.75
        )
        blue = mix(vec(0.72, 0.82, 0.92), vec(0.28, 0.5, 0.82), ramp(height, 0, 0.45))
        sky = mix(blue, vec(0.97, 0.97, 0.97), clouds * 0.75 * ramp(height, 0, 0.1))
        p = np.stack([d[:, 0] * 30, height * 40, d[:, 2] * 0], 1)
        trees = mix(vec(0.10, 0.17, 0.07), vec(0.25, 0.33, 0.14), fbm(p * 3, 3))
        return mix(sky, trees, ramp(0.035 + 0.11 * fbm(p * vec(0.45, 0, 0), 4) - height, 0, 0.008))

    def rays(self, width, height):
        x, y = np.meshgrid((np.arange(width) + 0.5) / width * 2 - 1, 1 - (np.arange(height) + 0.5) / height * 2)
        across = self.right * (x * self.zoom)[..., None] + self.up * (y * self.zoom * height / width)[..., None]
        return unit(self.ahead + across).astype(F)

    def paint(self, width, height, seed):
        rng = np.random.default_rng(seed)
        d = self.rays(width, height)
        plane = lambda *shape: np.zeros((height, width, *shape), F)
        colour, flat, bumped, gloss, open_to = plane(3), plane(3), plane(3), plane(), plane(2)
        self.depth = np.full((height, width), np.inf, F)
        for y in range(0, height, 120):
            for x in range(0, width, 120):
                tile = (slice(y, y + 120), slice(x, x + 120))
                rays = d[tile].reshape(-1, 3)
                t, n, ids, shapes = self.trace(np.broadcast_to(self.eye, rays.shape), rays, np.full(len(rays), 80, F))
                hit = (ids >= 0).reshape(d[tile].shape[:2])
                self.depth[tile] = np.where(hit, t.reshape(hit.shape), np.inf)
                if not hit.any():
                    continue
                m = hit.ravel()
                p = self.eye + rays[m] * t[m, None]
                colour[tile][hit], gloss[tile][hit], bumped[tile][hit] = self.surface(p, n[m], ids[m], shapes)
                flat[tile][hit] = n[m]
                open_to[tile][hit] = np.stack(self.openness(p, n[m], rng), 1)
        hit = np.isfinite(self.depth)
        open_to = smooth(open_to, np.where(hit, self.depth, 99), flat)[hit]
        p = self.eye + d[hit] * self.depth[hit][:, None]
        colour[hit] = self.lit(p, bumped[hit], d[hit], colour[hit], gloss[hit], open_to[:, 0], open_to[:, 1])
        if self.sun:
            colour[~hit] = self.sky(d[~hit]) * self.power
        return colour

    def project(self, p):
        """Where points (N, 3) lie in the picture, from 0 to 1, and how far away they are."""
        q = p - self.eye
        z = q @ self.ahead
        return np.stack(
            [0.5 + q @ self.right / z / self.zoom / 2, 0.5 - q @ self.up / z / self.zoom / 2 * SIZE[0] / SIZE[1]], 1
        ), np.linalg.norm(q, axis=1)


def smooth(values, depth, flat):
    """A mean over the neighbours that lie on the same surface."""
    total, weight = np.zeros_like(values), np.zeros_like(depth)
    for dy in range(-4, 5, 2):
        for dx in range(-4, 5, 2):
            moved = lambda a: np.roll(a, (dy, dx), (0, 1))
            w = (
                np.exp(-(((moved(depth) - depth) / (0.012 * depth)) ** 2))
                * np.maximum(np.einsum("ijk,ijk->ij", moved(flat), flat), 0) ** 6
            )
            w = w * np.exp(-(dx * dx + dy * dy) / F(18)) + (1e-6 if dx == dy == 0 else 0)
            total, weight = total + moved(values) * w[..., None], weight + w
    return total / weight[..., None]


def grass(scene, image, roots, length, rng, lean=0.5):
    """Blades of the colour that the ground under them has, so they share its light and shadow."""
    tips = (
        roots
        + np.stack([rng.normal(0, lean, len(roots)), np.full(len(roots), 1.0), rng.normal(0, lean, len(roots))], 1)
        * (length * (0.5 + rng.random(len(roots))))[:, None]
    )
    (a, far), (b, _) = scene.project(roots), scene.project(tips)
    size = np.array(image.size)
    pixels, draw = np.asarray(image).astype(F), ImageDraw.Draw(image)
    for k in np.argsort(-far):
        x, y = (a[k] * size).astype(int)
        if not (0 <= x < size[0] and 0 <= y < size[1]) or far[k] > scene.depth[y, x] + 0.06:
            continue
        if pixels[y, x, 1] < pixels[y, x, 0] * 1.04:  # no lawn
            continue
        shade = pixels[y, x] * (0.6 + 0.7 * rng.random()) * np.array([0.82 + 0.25 * rng.random(), 1.0, 0.85])
        width = max(1, int(size[0] * 0.0035 / far[k]))
        draw.line([tuple(a[k] * size), tuple(b[k] * size)], fill=tuple(int(min(c, 255)) for c in shade), width=width)


def develop(scene, scale, seed):
    """Linear light to a picture as a small camera gives it."""
    size = [int(s * scale) for s in SIZE]
    linear = scene.paint(*[int(s * OVERSAMPLE) for s in size], seed)
    film = (1 - np.exp(-(1.35 if scene.sun else 2.2) * linear)) ** (1 / 2.2)
    image = Image.fromarray((np.clip(film, 0, 1) * 255).astype(np.uint8))
    rng = np.random.default_rng(seed + 1)
    for draw in scene.after:
        draw(scene, image, rng)
    image = image.resize(size, Image.LANCZOS).filter(ImageFilter.GaussianBlur(0.5 * scale))
    film = np.asarray(image).astype(F) / 255
    y, x = np.mgrid[-1 : 1 : size[1] * 1j, -1 : 1 : size[0] * 1j]
    film = film * (1 - (0.10 if scene.sun else 0.24) * (x * x + y * y))[..., None]
    grain = rng.normal(0, 1, film.shape[:2])[..., None] + 0.5 * rng.normal(0, 1, film.shape)
    film = film + grain * (0.010 if scene.sun else 0.014)
    return Image.fromarray((np.clip(film, 0, 1) * 255).astype(np.uint8))
