#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Sets out example jobs with the program and looks over every STL file that comes out.

    solids.py TUSKWRIGHT JOB.yaml...        prints TAP

Watertight: admesh (Debian: admesh) finds every facet joined to three others and has nothing to mend. Layout of binary STL
as published: 84 + 50 n bytes, a head that does not begin with "solid", corners counter-clockwise from outside, unit normals
by the rule of the right hand. The volume within, summed here from the triangles, is the volume in job.json, which the
program reckons along the fibres, by another route; a chord lies within 0.02 mm of its arc, so that the two may differ by
0.02 mm times the area of the curved walls, for which the whole area is a generous bound. The solid fills the piece's blank
where an end or side is left of it, and never reaches beyond.
"""
import json
import os
import re
import subprocess
import sys
import tempfile

import numpy as np


def case(good, words):
    print(f"{'ok' if good else 'not ok'} - {words}")


def read_stl(path):
    data = open(path, "rb").read()
    count = int.from_bytes(data[80:84], "little")
    layout = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("nothing", "<u2")])
    good = len(data) == 84 + 50 * count and not data.startswith(b"solid")
    return good, np.frombuffer(data[84:], layout) if good else None


def mended(path):
    """What admesh had to do, each of which must be nothing."""
    said = subprocess.run(["admesh", path], capture_output=True, text=True).stdout
    found = re.findall(r"^\s*(Total disconnected facets|Degenerate facets|Edges fixed|Facets removed|Facets added|Facets reversed|"
                       r"Backwards edges|Normals fixed)\s*:\s*(\d+)(?:\s+(\d+))?", said, re.M)
    return len(found) >= 7 and all(int(a) == 0 and int(b or 0) == 0 for _, a, b in found), said


def look_over(folder, name, piece=None):
    path = os.path.join(folder, "solids", name)
    good, facets = read_stl(path)
    case(good, f"{name} has the size and head of binary STL")
    if not good:
        return
    tight, said = mended(path)
    case(tight, f"{name} is watertight")
    if not tight:
        print("\n".join("# " + line for line in said.splitlines()))
    a, b, c = (facets["corners"][:, k, :].astype(float) for k in range(3))
    across = np.cross(b - a, c - a)
    size = np.linalg.norm(across, axis=1)
    wide = size > 1e-2  # of slivers 32-bit corners tell no direction
    case(np.allclose(across[wide] / size[wide, None], facets["normal"][wide], atol=2e-3), f"{name}: normals look out by the right hand")
    volume = np.einsum("ij,ij->", a - a[0, 0], np.cross(b - a[0, 0], c - a[0, 0])) / 6
    case(volume > 0, f"{name}: outside is outside")
    if piece is None:
        return
    area = size.sum() / 2
    case(abs(volume - piece["volume_mm3"]) <= 0.02 * area, f"{name}: {volume:.0f} mm3 as along the fibres, {piece['volume_mm3']:.0f} mm3")
    most = np.array([piece["length_mm"], piece["width_mm"], piece["thickness_mm"]])
    points = facets["corners"].reshape(-1, 3)
    case((points.min(axis=0) > -1e-3).all() and (points.max(axis=0) < most + 1e-3).all(), f"{name} lies within its blank")


def main():
    program, jobs = sys.argv[1], sys.argv[2:]
    for job in jobs:
        with tempfile.TemporaryDirectory() as folder:
            out = os.path.join(folder, "out")
            done = subprocess.run([program, "setout", job, "-o", out], capture_output=True, text=True)
            label = os.path.basename(os.path.dirname(job))
            case(done.returncode == 0, f"{label} is set out")
            if done.returncode != 0:
                print("# " + done.stderr.replace("\n", "\n# "))
                continue
            result = json.load(open(os.path.join(out, "job.json"), encoding="utf-8"))
            for piece in result["pieces"]:
                look_over(out, "piece-" + piece["name"].replace(" ", "-") + ".stl", piece)
            for template in result["templates"]:
                look_over(out, template["name"] + ".stl")
            made = len(os.listdir(os.path.join(out, "solids")))
            case(made == len(result["pieces"]) + len(result["templates"]), f"{label}: a solid for each piece and template")


main()
