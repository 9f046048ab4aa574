#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Weighs the pieces of job.json again with numpy, from their cuts as points.        (prints TAP)

usage: wood.py TUSKWRIGHT JOB...

Each piece is a lattice of points. A point is wood when no cut takes it: seen from the cut's face, at its depth, it lies in the
outline, whose arcs are laid out in chords here, by counting how often a ray from it crosses them. Volume, centre of mass and the
section at the weakest place are then counts. Frames of the faces are written down here from the words of piece.h.
The weight is volume x specific gravity of data/wood.tsv x 1.12 (GTR-282, equation 4-14, at 12 %).
"""
import json
import math
import pathlib
import subprocess
import sys
import tempfile

import numpy as np

# right, up, out of each face as seen from outside, and the corner from which right and up are measured (share of L, W, T)
FACES = {
    "face": ((1, 0, 0), (0, 1, 0), (0, 0, 1), (0, 0, 1)),
    "back": ((1, 0, 0), (0, -1, 0), (0, 0, -1), (0, 1, 0)),
    "face edge": ((1, 0, 0), (0, 0, 1), (0, -1, 0), (0, 0, 0)),
    "back edge": ((1, 0, 0), (0, 0, -1), (0, 1, 0), (0, 1, 1)),
    "left end": ((0, -1, 0), (0, 0, 1), (-1, 0, 0), (0, 1, 0)),
    "right end": ((0, 1, 0), (0, 0, 1), (1, 0, 0), (1, 0, 0)),
}
ROOT = pathlib.Path(__file__).resolve().parents[2]
POINTS = (200, 50, 30)  # along length, width, thickness
CHORDS = 24             # of an arc


def chords(loop):
    """Corners of the loop with its arcs as chords."""
    points = []
    for (x, y, bulge), (nx, ny, _) in zip(loop, loop[1:] + loop[:1]):
        if bulge == 0:
            points.append((x, y))
            continue
        turn, chord = 4 * math.atan(bulge), complex(nx - x, ny - y)
        radius = abs(chord) / (2 * math.sin(abs(turn) / 2))
        centre = complex(x, y) + chord / 2 + 1j * chord / abs(chord) * math.copysign(radius * math.cos(turn / 2), bulge)
        arm = complex(x, y) - centre
        for k in range(CHORDS):
            p = centre + arm * complex(math.cos(turn * k / CHORDS), math.sin(turn * k / CHORDS))
            points.append((p.real, p.imag))
    return points


def inside(outline, right, up):
    """Even-odd over all loops: holes come out as holes."""
    odd = np.zeros(right.shape, bool)
    for loop in outline:
        corners = chords([tuple(v) for v in loop])
        for (x0, y0), (x1, y1) in zip(corners, corners[1:] + corners[:1]):
            if y0 == y1:
                continue
            crosses = (up >= min(y0, y1)) & (up < max(y0, y1))
            odd ^= crosses & (right < x0 + (up - y0) * (x1 - x0) / (y1 - y0))
    return odd


def taken(cut, size, spots):
    right, up, out, corner = (np.array(v, float) for v in FACES[cut["face"]])
    seen = spots - corner * size
    deep = -(seen @ out)
    bottom = abs(out @ size) if cut["through"] else cut["depth_mm"]
    band = (deep >= cut["start_mm"]) & (deep <= bottom)
    result = np.zeros(len(spots), bool)
    r = (seen @ right)[band] - cut.get("lean_right", 0.0) * deep[band]
    u = (seen @ up)[band] - cut.get("lean_up", 0.0) * deep[band]
    result[band] = inside(cut["outline"], r, u)
    return result


def lattice(size, counts):
    axes = [(np.arange(n) + 0.5) / n * s for n, s in zip(counts, size)]
    return np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)


def wood_of(cuts, size, spots):
    wood = np.ones(len(spots), bool)
    for cut in cuts:
        wood &= ~taken(cut, size, spots)
    return wood


def gravity(timber):
    for line in (ROOT / "data/wood.tsv").read_text(encoding="utf-8").splitlines():
        cells = line.split("\t")
        if cells[0] == timber:
            return float(cells[2])
    return None


def check_piece(piece, cuts):
    size = np.array([piece["length_mm"], piece["width_mm"], piece["thickness_mm"]], float)
    spots = lattice(size, POINTS)
    wood = everywhere = wood_of(cuts, size, spots)
    volume = wood.mean() * size.prod()
    assert abs(piece["volume_mm3"] - volume) <= 0.004 * size.prod(), (piece["name"], "volume", piece["volume_mm3"], volume)
    said, found = piece["centre_of_mass"], spots[wood].mean(axis=0)
    for key, value, length in zip(("from_left_end_mm", "from_face_edge_mm", "from_back_mm"), found, size):
        assert abs(said[key] - value) <= 0.004 * length, (piece["name"], key, said[key], value)
    g = gravity(piece["timber"])
    if g is not None:
        assert abs(piece["mass_kg"] - piece["volume_mm3"] * 1e-6 * g * 1.12) < 1e-6, (piece["name"], "mass")
    weak = piece["weakest_section"]
    across = lattice(np.array([1.0, size[1], size[2]]), (1, 200, 120))
    across[:, 0] = weak["from_left_end_mm"]
    wood = wood_of(cuts, size, across)
    full = size[1] * size[2]
    assert abs(weak["area_mm2"] - wood.mean() * full) <= 0.01 * full, (piece["name"], "weakest section", weak["area_mm2"], wood.mean() * full)
    spread = ((across[wood, 2] - across[wood, 2].mean()) ** 2).sum() * full / len(across)
    assert abs(weak["second_moment_flat_mm4"] - spread) <= 0.015 * full * size[2] ** 2 / 12, (piece["name"], "second moment", weak["second_moment_flat_mm4"], spread)
    # nowhere along the length is there clearly less wood than at the place that is told, but at ends that slope or are rounded
    counts = everywhere.reshape(POINTS).mean(axis=(1, 2)) * full
    inner = counts[POINTS[0] // 20: -POINTS[0] // 20]
    assert inner.min() >= weak["area_mm2"] - 0.03 * full, (piece["name"], "a weaker section", inner.min(), weak["area_mm2"])


def main():
    program, jobs = sys.argv[1], sys.argv[2:]
    print(f"1..{len(jobs)}")
    failed = 0
    for number, job in enumerate(jobs, 1):
        name = pathlib.Path(job).parent.name
        with tempfile.TemporaryDirectory() as folder:
            subprocess.run([program, "setout", job, "-o", folder + "/out"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
            data = json.loads(pathlib.Path(folder + "/out/job.json").read_text(encoding="utf-8"))
        try:
            for piece in data["pieces"]:
                check_piece(piece, [cut for cut in data["cuts"] if cut["piece"] == piece["name"]])
            assert len(data["pieces"]) > 0
            print(f"ok {number} - pieces_of_{name.replace('-', '_')}_weigh_what_points_say")
        except AssertionError as error:
            failed += 1
            print(f"not ok {number} - pieces_of_{name.replace('-', '_')}_weigh_what_points_say\n# {error}")
    print(f"# {len(jobs) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
