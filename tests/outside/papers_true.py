#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Sets out the example jobs with the program and measures the templates that come out with other programs: the PDF with
poppler (pdftocairo), the DXF with ezdxf. What they must measure is in job.json ("as_seen"), reckoned here from its arcs.

    papers_true.py TUSKWRIGHT JOB.yaml...        prints TAP

The issue asks for 0.05 mm in the PDF; the DXF is held to 0.001 mm and its areas to 0.01 mm2. Templates that run over
several pages are measured in the DXF, and in the PDF by their scale bars alone (read_back.py measures joined pages).
"""
import json
import math
import os
import subprocess
import sys
import tempfile

import ezdxf
import ezdxf.math

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from read_back import box, read_page  # noqa: E402

cases = []


def case(good, words):
    cases.append(good)
    print(f"{'ok' if good else 'not ok'} - {words}")


def edge_points(a, b, steps=720):
    """Points along an edge from vertex a to b, whose bulge is a's: the arc turns by 4 atan(bulge)."""
    (x0, y0, bulge), (x1, y1, _) = a, b
    if abs(bulge) < 1e-12:
        return [(x0, y0), (x1, y1)]
    turn = 4 * math.atan(bulge)
    along = (1 - bulge * bulge) / (4 * bulge)
    cx, cy = (x0 + x1) / 2 - (y1 - y0) * along, (y0 + y1) / 2 + (x1 - x0) * along
    dx, dy = x0 - cx, y0 - cy
    return [(cx + dx * math.cos(turn * k / steps) - dy * math.sin(turn * k / steps),
             cy + dx * math.sin(turn * k / steps) + dy * math.cos(turn * k / steps)) for k in range(steps + 1)]


def outline_points(loops):
    return [p for loop in loops for k in range(len(loop)) for p in edge_points(loop[k], loop[(k + 1) % len(loop)])]


def outline_area(loops):
    """Shoelace, and for each arc its segment R^2 (t - sin t) / 2."""
    area = 0.0
    for loop in loops:
        for k, (x0, y0, bulge) in enumerate(loop):
            x1, y1, _ = loop[(k + 1) % len(loop)]
            area += (x0 * y1 - x1 * y0) / 2
            if bulge:
                turn = 4 * math.atan(bulge)
                radius = math.hypot(x1 - x0, y1 - y0) * (1 + bulge * bulge) / (4 * abs(bulge))
                area += radius * radius * (turn - math.sin(turn)) / 2
    return area


def size(points):
    x0, y0, x1, y1 = box(points)
    return x1 - x0, y1 - y0


def alike(got, want, within):
    return all(abs(g - w) <= within for g, w in zip(got, want))


def level_lines(marks):
    """Lengths of the level strokes of a page."""
    return [size(points)[0] for _, points in marks if len(points) == 2 and size(points)[1] < 1e-3]


def check_pdf(folder, job):
    names = next(paper["pages"] for paper in job["papers"] if paper["name"] == "templates")
    whole = 0
    for page, name in enumerate(names, 1):
        _, _, marks = read_page(f"{folder}/templates.pdf", page)
        lines = level_lines(marks)
        case(any(abs(line - 100) < 0.05 for line in lines) and any(abs(line - 101.6) < 0.05 for line in lines),
             f"{name}: the bars measure 100 mm and 4 in")
        if not name.split("-")[1:] == [name.split("-")[-1]]:
            continue  # one of several pages, or words alone
        template = job["templates"][int(name.split("-")[1]) - 1]
        heavy = [points for stroke, points in marks if stroke is not None and abs(stroke - 0.7) < 0.003]
        want = size(outline_points(template["as_seen"]))
        case(len(heavy) == 1 and alike(size(heavy[0]), want, 0.05), f"{name}: the edge measures {want[0]:.2f} x {want[1]:.2f} mm")
        board = size(outline_points(template["board_as_seen"]))
        case(any(alike(size(points), board, 0.05) for _, points in marks), f"{name}: the board measures {board[0]:.2f} x {board[1]:.2f} mm")
        whole += 1
    case(whole >= 4, f"{whole} templates lie whole on one page")


def check_dxf(folder, job):
    for template in job["templates"]:
        drawing = ezdxf.readfile(f"{folder}/templates/{template['name']}.dxf")
        case(not drawing.audit().errors, f"{template['name']}.dxf: no errors for its reader")
        loops = [[(x, y, bulge) for x, y, bulge in line.get_points("xyb")] for line in drawing.modelspace().query("LWPOLYLINE[layer=='cut']")]
        want = template["as_seen"]
        case(len(loops) == len(want) and alike(box(outline_points(loops)), box(outline_points(want)), 0.001),
             f"{template['name']}.dxf: the edge lies where it must")
        case(abs(abs(outline_area(loops)) - abs(outline_area(want))) < 0.01, f"{template['name']}.dxf: area {abs(outline_area(want)):.2f} mm2")


def main(program, jobs):
    for path in jobs:
        with tempfile.TemporaryDirectory() as folder:
            out = folder + "/papers"
            done = subprocess.run([program, "setout", path, "-o", out], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            case(done.returncode == 0, f"{path} is set out without a halt")
            with open(out + "/job.json", encoding="utf-8") as file:
                job = json.load(file)
            check_pdf(out, job)
            check_dxf(out, job)
    print(f"1..{len(cases)}")
    return 0 if all(cases) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2:]))
