#!/usr/bin/python3
"""Paints the photos of the invented examples.

    scripts/paint_photos.py [--scale 0.4] [--out FOLDER] [name ...]

Needs python3-numpy and python3-pil; all of them take about fifteen minutes. The same versions of both give the
same bytes. All things, places and damages are made up.
"""
import argparse
import pathlib
import sys
import zlib

sys.dont_write_bytecode = True  # no folder of compiled scripts in the repository
from painting import crawl_space, outside
from painting.tracer import develop

ROOT = pathlib.Path(__file__).resolve().parent.parent / "examples"

PICTURES = {
    "heron-lane/photos/1-close.jpg": crawl_space.tube_close,
    "heron-lane/photos/1-where.jpg": crawl_space.tube_where,
    "heron-lane/photos/2-close.jpg": crawl_space.sill_close,
    "heron-lane/photos/2-where.jpg": crawl_space.sill_where,
    "heron-lane/photos/3-close.jpg": crawl_space.scraps,
    "heron-lane/photos/4-close.jpg": crawl_space.damp,
    "heron-lane/photos/5-close.jpg": crawl_space.hollowed,
    "heron-lane/photos/6-where.jpg": crawl_space.low_duct,
    "heron-lane/photos/front.jpg": outside.ranch_house,
    "quarry-row/photos/front.jpg": outside.slab_house,
    "quarry-row/photos/slab-edge.jpg": outside.slab_edge,
}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--scale", type=float, default=1.0, help="smaller is quicker")
    parser.add_argument("--out", type=pathlib.Path, default=ROOT, help="folder to write into")
    parser.add_argument("names", nargs="*", help="parts of file names; all when there are none")
    options = parser.parse_args()
    for name, picture in PICTURES.items():
        if options.names and not any(part in name for part in options.names):
            continue
        target = options.out / name
        target.parent.mkdir(parents=True, exist_ok=True)
        develop(picture(), options.scale, zlib.crc32(name.encode())).save(target, quality=80, optimize=True)
        print(f"{target}: {target.stat().st_size // 1024} KB", file=sys.stderr)


if __name__ == "__main__":
    main()
