#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Measures sample papers with other programs: PDF with poppler (pdftocairo, pdftotext, pdfinfo), DXF with ezdxf, SVG with
Python's XML reader.

    read_back.py SAMPLES     SAMPLES: the program built from samples.c

Debian packages: poppler-utils, python3-ezdxf. Outside figures: paper sizes ISO 216 and ANSI/ASME Y14.1 (checks 9-01,
9-02), PDF page sizes in points (9-03: A4 595.276 x 841.890, Letter 612 x 792), 1 in = 72 pt = 25.4 mm (9-06), SVG true
scale (9-07), bulges (9-08 to 9-11). All else is what samples.c draws.
"""
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

import ezdxf
import ezdxf.math

POINTS_PER_MM = 72 / 25.4
done = {"good": 0, "bad": 0}


def check(good, words):
    done["good" if good else "bad"] += 1
    if not good:
        print("not so: " + words)


def near(got, want, tolerance, words):
    check(abs(got - want) <= tolerance, f"{words}: got {got:.6f}, want {want:.6f} within {tolerance}")


def run(*command):
    return subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout.decode()


# ---- PDF -----------------------------------------------------------------------------------------------------------


def flatten(path, matrix, height):
    """Points of a path's d in mm, y up; curves in 16 steps."""
    tokens = re.findall(r"[MLCZHV]|-?[0-9.]+(?:e-?[0-9]+)?", path)
    points, at, i, verb = [], (0, 0), 0, ""
    while i < len(tokens):
        if tokens[i].isalpha():
            verb = tokens[i]
            i += 1
            if verb == "Z":
                continue
        count = {"M": 2, "L": 2, "C": 6}[verb]
        numbers = [float(t) for t in tokens[i:i + count]]
        i += count
        if verb == "M" and i < len(tokens) or verb != "M":
            if verb == "C":
                p = [at] + list(zip(numbers[0::2], numbers[1::2]))
                for k in range(1, 17):
                    t = k / 16
                    b = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3]
                    points.append(tuple(sum(b[j] * p[j][c] for j in range(4)) for c in (0, 1)))
            else:
                points.append(tuple(numbers))
        at = tuple(numbers[-2:])
    a, b, c, d, e, f = matrix
    return [((a * x + c * y + e) / POINTS_PER_MM, (height - (b * x + d * y + f)) / POINTS_PER_MM) for x, y in points]


def read_page(pdf, page):
    """Size in points, and the marks as (stroke width in mm or None, dashes, points in mm)."""
    text = run("pdftocairo", "-svg", "-noshrink", "-nocenter", "-f", str(page), "-l", str(page), pdf, "-")
    wide, high = (float(re.search(r'<svg[^>]* %s="([0-9.]+)' % side, text).group(1)) for side in ("width", "height"))
    marks = []
    for tag in re.findall(r"<path [^>]*>", re.sub(r"(?s)<defs>.*?</defs>", "", text)):
        matrix = re.search(r"matrix\(([^)]*)\)", tag)
        matrix = [float(v) for v in matrix.group(1).replace(",", " ").split()] if matrix else [1, 0, 0, 1, 0, 0]
        width = re.search(r'stroke-width[:=]"?([0-9.]+)', tag)
        stroke = float(width.group(1)) * math.hypot(matrix[0], matrix[1]) / POINTS_PER_MM if width else None
        points = flatten(re.search(r' d="([^"]*)"', tag).group(1), matrix, high)
        marks.append((stroke, points))
    return wide, high, marks


def box(points):
    xs, ys = zip(*points)
    return min(xs), min(ys), max(xs), max(ys)


def only(marks, width, words):
    found = [points for stroke, points in marks if (stroke is None) == (width is None)
             and (width is None or abs(stroke - width) < 0.003)]
    check(len(found) == 1, f"{words}: {len(found)} marks of this width")
    return found[0] if found else [(0, 0)]


def near_box(points, want, words):
    for got, wanted, side in zip(box(points), want, ("left", "lower", "right", "upper")):
        near(got, wanted, 0.01, f"{words}, {side} side")


def check_marks(marks, words):
    near_box(only(marks, 0.5, words), (20, 30, 120, 30), words + ": line of 100 mm")
    near_box(only(marks, 0.35, words), (20, 50, 95, 90), words + ": rectangle of 75 x 40 mm")
    arc = only(marks, 0.7, words)
    for x, y in arc:
        near(math.hypot(x - 100, y - 150), 35, 0.003, words + ": arc of radius 35 mm")
    for (x, y), degrees in ((arc[0], 20), (arc[-1], 220)):
        near(math.dist((x, y), (100 + 35 * math.cos(math.radians(degrees)), 150 + 35 * math.sin(math.radians(degrees)))), 0, 0.01,
             words + ": ends of the arc")
    for x, y in only(marks, 0.18, words):
        near(math.hypot(x - 160, y - 60), 19.05, 0.003, words + ": circle of radius 19.05 mm")


def words_of(pdf):
    """Pages as (width, height, [(word, x0, y0, x1, y1) in points])."""
    pages = []
    for page in re.findall(r"(?s)<page (.*?)</page>", run("pdftotext", "-bbox", pdf, "-")):
        wide, high = (float(v) for v in re.match(r'width="([0-9.]+)" height="([0-9.]+)"', page).groups())
        found = re.findall(r'<word xMin="([-0-9.]+)" yMin="([-0-9.]+)" xMax="([-0-9.]+)" yMax="([-0-9.]+)">(.*?)</word>', page)
        pages.append((wide, high, [(w, *(float(v) for v in (a, b, c, d))) for a, b, c, d, w in found]))
    return pages


def check_pdf(folder, widths):
    pdf = folder + "/sizes.pdf"
    sizes = [("A4", 595.276, 841.890, 210, 297), ("A3", 841.890, 1190.551, 297, 420), ("Letter", 612, 792, 215.9, 279.4)]
    for page, (name, wide, high, wide_mm, high_mm) in enumerate(sizes, 1):
        got_wide, got_high, marks = read_page(pdf, page)
        near(got_wide, wide, 0.01, name + " width in points")
        near(got_high, high, 0.01, name + " height in points")
        near(got_wide / POINTS_PER_MM, wide_mm, 0.005, name + " width in mm")
        near(got_high / POINTS_PER_MM, high_mm, 0.005, name + " height in mm")
        check_marks(marks, "PDF " + name)
    for wide, high, words in words_of(pdf):
        lengths = {word: x1 - x0 for word, x0, y0, x1, y1 in words}
        for word, width in widths.items():
            near(lengths.get(word, 0) / POINTS_PER_MM, width, 0.05, "PDF width of the text " + word)  # there in 1/1000 em
    check("Reading table: samples" in run("pdfinfo", pdf), "PDF title")
    outline = run("pdftohtml", "-xml", "-i", "-stdout", pdf)
    for name in ("A4", "A3", "Letter"):
        check(f">Sample on {name}</item>" in outline, "PDF outline entry of " + name)


def check_tiles(folder):
    pages = words_of(folder + "/tiles.pdf")
    check(len(pages) == 6, f"6 pages of the template, got {len(pages)}")
    seen = []
    for wide, high, words in pages:
        check(len(words) > 15, "a page has its texts")
        for word, x0, y0, x1, y1 in words:
            check(x0 >= 0 and x1 <= wide and y0 >= 0 and y1 <= high, "text inside the page: " + word)
        texts = [w[0] for w in words]
        check("100" in texts and "Print" in texts, "the words on printing are on each page")
        seen += [t for t in texts if t.startswith("figure")]
    check(sorted(seen) == sorted(f"figure{i}" for i in range(40)), "each text of the template on exactly one page")
    for page in range(1, 7):
        _, _, marks = read_page(folder + "/tiles.pdf", page)
        bars = [box(p) for stroke, p in marks if stroke and abs(stroke - 0.35) < 0.003 and len(p) == 2]
        lengths = sorted(round(b[2] - b[0], 2) for b in bars)
        check(100.0 in lengths and 101.6 in lengths, f"bars of 100 mm and 4 in on page {page}: {lengths}")


# ---- SVG -----------------------------------------------------------------------------------------------------------


def check_svg(folder):
    root = xml.parse(folder + "/sheet.svg").getroot()
    space = "{http://www.w3.org/2000/svg}"
    check(root.tag == space + "svg", "SVG root")
    check((root.get("width"), root.get("height"), root.get("viewBox")) == ("210mm", "297mm", "0 0 210 297"), "SVG size")
    paths = {}
    for group in root.findall(space + "g"):
        for path in group.findall(space + "path"):
            paths.setdefault(group.get("stroke-width"), []).append(path.get("d"))
    line = [float(v) for v in re.findall(r"-?[0-9.]+", paths["0.5"][0])]
    near(math.dist(line[0:2], line[2:4]), 100, 1e-6, "SVG line")
    rectangle = [float(v) for v in re.findall(r"-?[0-9.]+", paths["0.35"][0])]
    near(max(rectangle[0::2]) - min(rectangle[0::2]), 75, 1e-6, "SVG rectangle, width")
    near(max(rectangle[1::2]) - min(rectangle[1::2]), 40, 1e-6, "SVG rectangle, height")
    x0, y0, r, r2, _, large, sweep, x1, y1 = (float(v) for v in re.findall(r"-?[0-9.]+", paths["0.7"][0]))
    check((r, r2, large, sweep) == (35, 35, 1, 0), "SVG arc: radius, the long way, counter-clockwise")
    near(math.dist((x0, y0), (100, 297 - 150)), 35, 1e-5, "SVG arc starts on its circle")
    near(math.dist((x1, y1), (100, 297 - 150)), 35, 1e-5, "SVG arc ends on its circle")
    texts = {t.text: t for t in root.iter(space + "text")}
    near(float(texts["Stretcher"].get("font-size")) * 1493 / 2048, 5, 1e-5, "SVG capital height")
    check("5° → ½" in texts, "SVG text with signs")


# ---- DXF -----------------------------------------------------------------------------------------------------------


def area(entity):
    """Of a polyline, from the lines and arcs into which ezdxf takes it apart, arcs within 0.1 µm of their chords."""
    points = [(v[0], v[1]) for v in entity.get_points("xy")][:1]
    for part in entity.virtual_entities():
        steps = [part.dxf.start, part.dxf.end] if part.dxftype() == "LINE" else list(part.flattening(1e-4))
        steps = [(p.x, p.y) for p in steps]
        if math.dist(steps[0], points[-1]) > 1e-6:
            steps.reverse()
        check(math.dist(steps[0], points[-1]) < 1e-6, "DXF polyline: the parts join")
        points += steps[1:]
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:]))) / 2


def segment(chord, bulge):
    """Area between an arc and its chord."""
    angle = 4 * math.atan(bulge)
    radius = chord * (1 + bulge * bulge) / (4 * bulge)
    return radius * radius * (angle - math.sin(angle)) / 2


def check_dxf(folder):
    drawing = ezdxf.readfile(folder + "/sheet.dxf")
    audit = drawing.audit()
    check(not audit.errors and not audit.fixes, f"DXF audit: {[e.message for e in audit.errors + audit.fixes]}")
    check(drawing.dxfversion == "AC1015" and drawing.units == 4, "DXF version and unit mm")
    space = drawing.modelspace()
    cut = [e for e in space.query("LWPOLYLINE") if e.dxf.layer == "cut"]
    check(len(cut) == 3 and all(e.closed for e in cut), "DXF outlines are closed polylines")
    start, end, bulge = (0, 0), (100, 0), cut[0].get_points("xyb")[0][2]
    near(bulge, 0.414214, 1e-6, "9-08 bulge of 90 degrees")
    near(ezdxf.math.bulge_radius(start, end, bulge), 70.7107, 1e-4, "9-09 radius")
    near(area(cut[0]), segment(100, bulge), 0.02, "area of the arc's segment")
    bulge = cut[1].get_points("xyb")[0][2]
    centre, a, b, radius = ezdxf.math.bulge_to_arc((0, 0), (2, 0), bulge)
    near(math.degrees(b - a) % 360, 106.2602, 1e-4, "9-10 angle")
    near(radius, 1.25, 1e-4, "9-10 radius")
    near(radius - centre.y, 0.5, 1e-4, "9-10 sagitta, below the chord: the arc turns counter-clockwise")
    near(cut[2].get_points("xyb")[0][2], -0.414214, 1e-6, "9-08 bulge of -90 degrees")
    near(cut[2].get_points("xyb")[1][2], 1, 1e-6, "9-08 bulge of a half circle")
    near(cut[2].get_points("xyb")[0][0], 10.123457, 1e-6, "coordinate")
    plate, hole = [e for e in space.query("LWPOLYLINE") if e.dxf.layer == "dimension"]
    want = [(140, 100, 0), (180, 100, 0.5), (182, 100, 0), (190, 130, -0.41421356), (140, 130, 0)]
    for got, wanted in zip(plate.get_points("xyb"), want):
        for g, w in zip(got, wanted):
            near(g, w, 1e-6, "DXF vertex of the plate")
    chords = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(want, want[1:] + want[:1]))) / 2
    near(area(plate), chords + segment(2, 0.5) - segment(50, 0.41421356), 0.01, "DXF area of the plate")
    near(area(hole), math.pi * 16, 0.005, "DXF area of the hole")
    line, = space.query("LINE")
    near((line.dxf.end - line.dxf.start).magnitude, 100, 1e-6, "DXF line")
    arc, = space.query("ARC")
    for got, wanted in zip((arc.dxf.center.x, arc.dxf.center.y, arc.dxf.radius, arc.dxf.start_angle, arc.dxf.end_angle), (100, 150, 35, 20, 220)):
        near(got, wanted, 1e-6, "DXF arc")
    circle, = space.query("CIRCLE")
    near(circle.dxf.radius, 19.05, 1e-6, "DXF circle")
    texts = {ezdxf.tools.text.plain_text(e.dxf.text): e for e in space.query("TEXT")}
    near(texts["Stretcher"].dxf.height, 5, 1e-6, "DXF text height is that of a capital")
    decoded = [re.sub(r"\\U\+([0-9A-F]{4})", lambda m: chr(int(m.group(1), 16)), t) for t in texts]
    check("5° → ½" in decoded and "Übergröße" in decoded, "DXF texts with signs")
    filled, = space.query("HATCH")
    check(filled.dxf.layer == "shade" and filled.dxf.solid_fill == 1, "DXF filled area")
    corners = filled.paths[0].vertices
    near(max(c[0] for c in corners) - min(c[0] for c in corners), 50, 1e-6, "DXF filled area, width")
    check(drawing.layers.get("cut").dxf.lineweight == 70 and drawing.layers.get("hidden").dxf.linetype == "TW_DASHED", "DXF layers")


def check_without_fonts(samples, folder):
    with open(folder + "/fonts.conf", "w") as conf:
        conf.write("<fontconfig></fontconfig>\n")
    bare = dict(os.environ, FONTCONFIG_FILE=folder + "/fonts.conf")
    result = subprocess.run([samples, folder], env=bare, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    check(result.returncode == 3 and b"install the package fonts-dejavu-core" in result.stderr, "no fonts: refused, with the package")


def main(samples):
    with tempfile.TemporaryDirectory() as folder:
        lines = run(samples, folder).splitlines()
        widths = {line.split(" ", 1)[1]: float(line.split(" ", 1)[0]) for line in lines}
        check(len(widths) == 6, "widths of the sample texts")
        check_pdf(folder, widths)
        check_tiles(folder)
        check_svg(folder)
        check_dxf(folder)
        check_without_fonts(samples, folder)
    print("%(good)d passed, %(bad)d failed" % done)
    return 1 if done["bad"] else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
