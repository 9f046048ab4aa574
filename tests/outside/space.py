#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reckons the placing in space again with numpy, from job.json alone.        (prints TAP)

usage: space.py TUSKWRIGHT JOB...

Frames of the faces are written down here from the words of docs and piece.h, not taken from the program. For each joint of a
set: the tenon's middle line, known from its cheeks and edge shoulders, goes through the middle of a mortise of the other
piece, square to its face, and the shoulder lies in that face. Poses are turns (orthonormal, determinant 1). The box around
all corners is the size that is told.
"""
import json
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


def read(program, job):
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run([program, "setout", job, "-o", folder + "/out"], stdout=subprocess.DEVNULL, check=False)
        assert done.returncode == 0, f"setout says {done.returncode}"
        with open(folder + "/out/job.json", encoding="utf-8") as file:
            return json.load(file)


def size_of(data, piece):
    row = next(p for p in data["pieces"] if p["name"] == piece)
    return np.array([row["length_mm"], row["width_mm"], row["thickness_mm"]], float)


def pose_of(instance):
    turn = np.array([instance["x_axis"], instance["y_axis"], instance["z_axis"]]).T
    assert np.allclose(turn.T @ turn, np.eye(3), atol=1e-9) and abs(np.linalg.det(turn) - 1) < 1e-9, instance["name"]
    return turn, np.array(instance["at_mm"])


def outline_box(cut):
    points = np.array([vertex[:2] for loop in cut["outline"] for vertex in loop])
    return points.min(axis=0), points.max(axis=0)


def on_face(face, size, right, up, deep=0.0):
    r, u, out, corner = (np.array(v, float) for v in FACES[face])
    return corner * size + right * r + up * u - deep * out


def tenon_line(data, joint, piece, end):
    """The tenon's middle and shoulder in the piece's frame, from the cuts at that end."""
    size = size_of(data, piece)
    least, most, shoulder = np.zeros(3), size.copy(), None
    for cut in data["cuts"]:
        if cut["joint"] != joint or cut["piece"] != piece or cut["name"] not in ("cheek", "edge shoulder"):
            continue
        low, high = outline_box(cut)
        a, b = on_face(cut["face"], size, *low), on_face(cut["face"], size, *high, cut["depth_mm"])
        x0, x1 = sorted((a[0], b[0]))
        if (x1 > size[0] - 1e-6) != (end == "right end"):
            continue
        shoulder = x0 if end == "right end" else x1
        if cut["face"] == "face": most[2] = size[2] - cut["depth_mm"]
        if cut["face"] == "back": least[2] = cut["depth_mm"]
        if cut["face"] == "face edge": least[1] = cut["depth_mm"]
        if cut["face"] == "back edge": most[1] = size[1] - cut["depth_mm"]
    assert shoulder is not None, (joint, piece, end)
    return np.array([shoulder, (least[1] + most[1]) / 2, (least[2] + most[2]) / 2])


def mortises(data, joint, piece):
    """Middle on the face, and the way out of it, of each mortise in the piece's frame."""
    size = size_of(data, piece)
    for cut in data["cuts"]:
        if cut["joint"] == joint and cut["piece"] == piece and cut["name"] == "mortise":
            low, high = outline_box(cut)
            yield on_face(cut["face"], size, *((low + high) / 2)), np.array(FACES[cut["face"]][2], float)


def check_joints(data):
    instances = {i["name"]: i for i in data["space"]["pieces"]}
    taken = set()
    for tie in data["space"]["joints"]:
        mover, base = instances[tie["brought"]], instances[tie["into"]]
        (turn, at), (base_turn, base_at) = pose_of(mover), pose_of(base)
        shoulder = turn @ tenon_line(data, tie["joint"], mover["piece"], tie["end"]) + at
        along = turn @ np.array(FACES[tie["end"]][2], float)
        found = list(mortises(data, tie["joint"], base["piece"]))
        place_count = max(t["place"] for t in data["space"]["joints"] if t["joint"] == tie["joint"])
        twins = len(found) // place_count  # twin tenons have two mortises at each place
        mine = found[(tie["place"] - 1) * twins:tie["place"] * twins]
        middle, out = sum(m for m, _ in mine) / twins, mine[0][1]
        assert np.linalg.norm(base_turn @ middle + base_at - shoulder) < 1e-6, tie
        assert abs(np.dot(along, base_turn @ out) + 1) < 1e-9, tie
        spot = (tie["joint"], tie["into"], tie["place"])
        assert spot not in taken, spot
        taken.add(spot)
    assert len(taken) == len(data["space"]["joints"]) > 0


def check_size(data):
    corners = []
    for instance in data["space"]["pieces"]:
        turn, at = pose_of(instance)
        size = size_of(data, instance["piece"])
        for k in range(8):
            corners.append(turn @ (size * [(k >> i) & 1 for i in range(3)]) + at)
    reach = np.ptp(np.array(corners), axis=0)
    told = [data["space"][key] for key in ("width_mm", "depth_mm", "height_mm")]
    assert np.allclose(reach, told, atol=1e-6), (reach, told)


def check_loops(data):
    for loop in data["space"]["loops"]:
        assert loop["open_mm"] < 1e-6 and loop["open_deg"] < 1e-6, loop
    assert len(data["space"]["loops"]) == len(data["space"]["joints"]) - len(data["space"]["pieces"]) + len(data["space"]["groups"])


number, failed = 0, False
for job in sys.argv[2:]:
    data = read(sys.argv[1], job)
    for what, check in (("tenons stand in their mortises", check_joints), ("the size is that of all corners", check_size), ("loops close", check_loops)):
        number += 1
        try:
            check(data)
            print(f"ok {number} - {data['job']['title']}: {what}")
        except AssertionError as why:
            failed = True
            print(f"not ok {number} - {data['job']['title']}: {what}\n# {why}")
print(f"1..{number}")
sys.exit(failed)
