#!/usr/bin/python3
"""Draws the marks of our packet with ReportLab. usage: reportlab_marks.py MARKS.json OUT.pdf"""
import json
import sys

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen import canvas

FOLDERS = {"L": "/usr/share/fonts/truetype/lato/", "D": "/usr/share/fonts/truetype/dejavu/"}
marks = json.load(open(sys.argv[1]))
for face in marks["faces"]:
    pdfmetrics.registerFont(TTFont(face, FOLDERS[face[0]] + face + ".ttf"))
c = canvas.Canvas(sys.argv[2], pageCompression=1)
path, clip, first = None, None, True
for kind, a, text in marks["ops"]:
    if kind == "P":
        if not first:
            c.showPage()
        first = False
        c.setPageSize((a[0], a[1]))
    elif kind == "T":
        c.setFont(marks["faces"][int(a[3])], a[2])
        c.drawString(a[0], a[1], text)
    elif kind == "f":
        c.setFillColorRGB(*a)
    elif kind == "s":
        c.setStrokeColorRGB(*a)
    elif kind == "w":
        c.setLineWidth(a[0])
    elif kind == "d":
        c.setDash(a[1:])
    elif kind == "R":
        c.setLineCap(int(a[0]))
        c.setLineJoin(int(a[0]))
    elif kind == "q":
        c.saveState()
    elif kind == "Q":
        c.restoreState()
    elif kind == "r":
        clip = c.beginPath()
        clip.rect(*a)
        c.clipPath(clip, stroke=0, fill=0)
    elif kind in "mlch":
        path = path or c.beginPath()
        {"m": path.moveTo, "l": path.lineTo, "c": path.curveTo, "h": path.close}[kind](*a)
    else:
        c.drawPath(path, stroke=int(kind in "SB"), fill=int(kind in "FEB"), fillMode=0 if kind == "E" else 1)
        path = None
c.save()
