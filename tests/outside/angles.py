#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reckons joints out of square again with numpy, from job.json alone.        (prints TAP)

usage: angles.py TUSKWRIGHT JOB...

For each joint that leans: the axis of the tenoned piece, as it is placed, against the normal of the side that it stands on
gives rake, splay and resultant by projection; turning the mortised piece by the cradle's roll and swing, as plain rotation
matrices, brings that axis in line with the plunge; the shoulder, known from three corners of the cheeks' prisms, is the
side's plane; the saw's plane, set over by mitre and bevel, is parallel to it. Points of the end are wood of one piece at most.
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


def frame(face):
    return [np.array(v, float) for v in FACES[face]]


def size_of(data, piece):
    row = next(p for p in data["pieces"] if p["name"] == piece)
    return np.array([row["length_mm"], row["width_mm"], row["thickness_mm"]], float)


def pose_of(instance):
    turn = np.array([instance["x_axis"], instance["y_axis"], instance["z_axis"]]).T
    return turn, np.array(instance["at_mm"])


def turn_about(axis, degrees):
    """Rodrigues: a turn by the right hand about a unit vector."""
    a, r = np.asarray(axis, float), np.radians(degrees)
    k = np.array([[0, -a[2], a[1]], [a[2], 0, -a[0]], [-a[1], a[0], 0]])
    return np.eye(3) + np.sin(r) * k + (1 - np.cos(r)) * k @ k


def removed(cut, size, spots):
    """Which of the spots of a piece a cut takes: even-odd against its outline, moved by the lean."""
    right, up, out, corner = frame(cut["face"])
    seen = spots - corner * size
    deep = -seen @ out
    x = seen @ right - cut.get("lean_right", 0.0) * deep
    y = seen @ up - cut.get("lean_up", 0.0) * deep
    most = 1e9 if cut["through"] else cut["depth_mm"]
    inside = np.zeros(len(spots), bool)
    for loop in cut["outline"]:
        points = np.array([v[:2] for v in loop])
        for (ax, ay), (bx, by) in zip(points, np.roll(points, -1, axis=0)):
            crosses = (ay > y) != (by > y)
            if ay != by:
                inside ^= crosses & (x < ax + (y - ay) * (bx - ax) / (by - ay))
    return inside & (deep >= cut["start_mm"]) & (deep <= most)


def wood(data, piece, spots):
    size = size_of(data, piece)
    left = np.all((spots > 0) & (spots < size), axis=1)
    for cut in data["cuts"]:
        if cut["piece"] == piece:
            left &= ~removed(cut, size, spots)
    return left


def leaning_ties(data):
    """Each joint in space that leans: its figures, cradle work, cuts, and both pieces as they are placed."""
    instances = {i["name"]: i for i in data["space"]["pieces"]}
    joints = {j["name"]: j for j in data["joints"]}
    for tie in data["space"]["joints"]:
        joint = joints[tie["joint"]]
        works = [w for w in joint["works"] if "cradle" in w]
        if not works:
            continue
        cuts = [c for c in data["cuts"] if c["joint"] == tie["joint"]]
        mortise = [c for c in cuts if c["name"] == "mortise"][tie["place"] - 1]
        yield tie, joint["figures"], works[0], cuts, mortise, instances[tie["brought"]], instances[tie["into"]]


def axis_in_base(tie, mover, base):
    turn, _ = pose_of(mover)
    away = turn[:, 0] if tie["end"] == "left end" else -turn[:, 0]
    return pose_of(base)[0].T @ away


def check_angles(data):
    seen = 0
    for tie, figures, _, _, mortise, mover, base in leaning_ties(data):
        away = axis_in_base(tie, mover, base)
        out = frame(mortise["face"])[2]
        across = np.array([0, 1, 0] if "edge" not in mortise["face"] else [0, 0, 1], float)
        rake, splay = (np.degrees(np.arctan2(away @ d, away @ out)) for d in (np.array([1.0, 0, 0]), across))
        told = np.array([figures["rake_deg"], figures["splay_deg"]])
        turned = -1.0 if tie["place"] % 2 == 0 else 1.0  # `half turn`: every second place leans the other way
        assert np.allclose([rake, splay], turned * told, atol=1e-7), (tie, rake, splay)
        assert abs(np.degrees(np.arccos(away @ out)) - figures["tilt_deg"]) < 1e-7, tie
        seen += 1
    assert seen > 0


def check_cradle(data):
    for tie, figures, work, _, mortise, mover, base in leaning_ties(data):
        if tie["place"] != 1:
            continue
        away, out, up = axis_in_base(tie, mover, base), frame(mortise["face"])[2], -frame(work["down"])[2]
        right = np.cross(up, out)
        seen = np.array([away @ right, away @ up, away @ out])
        turned = turn_about((0, 1, 0), -work["cradle"]["swing_deg"]) @ turn_about((1, 0, 0), work["cradle"]["roll_deg"]) @ seen
        assert np.allclose(turned, (0, 0, 1), atol=1e-9), (tie, turned)
        assert abs(abs(work["cradle"]["roll_deg"]) - figures["cradle_roll_deg"]) < 1e-9, tie


def shoulder_spots(data, tie, cuts):
    """Three spots of the shoulder: both inner corners of the cheek at the face, and one of them a millimetre deeper."""
    cheek = next(c for c in cuts if c["name"] == "cheek" and c["face"] == "face")
    size = size_of(data, cheek["piece"])
    corners = sorted((v[:2] for v in cheek["outline"][0]), reverse=tie["end"] == "left end")[:2]
    right, up, out, corner = frame("face")
    lean_right, lean_up = cheek.get("lean_right", 0.0), cheek.get("lean_up", 0.0)

    def at(x, y, deep):
        return corner * size + (x + lean_right * deep) * right + (y + lean_up * deep) * up - deep * out

    return np.array([at(*corners[0], 0.0), at(*corners[1], 0.0), at(*corners[0], 1.0)])


def check_shoulder(data):
    for tie, figures, _, cuts, mortise, mover, base in leaning_ties(data):
        spots = shoulder_spots(data, tie, cuts)
        turn, at = pose_of(mover)
        base_turn, base_at = pose_of(base)
        right, up, out, corner = frame(mortise["face"])
        there = (spots @ turn.T + at - base_at) @ base_turn
        assert np.allclose((there - corner * size_of(data, mortise["piece"])) @ out, 0.0, atol=1e-6), (tie, there)
        normal = np.cross(spots[1] - spots[0], spots[2] - spots[0])
        normal /= np.linalg.norm(normal)
        best = 0.0
        for hand in (1, -1):
            for side in (1, -1):
                gauge = turn_about((0, 0, 1), hand * figures["shoulder_mitre_deg"])
                blade = turn_about(gauge @ (0, 1, 0), side * figures["shoulder_bevel_deg"]) @ gauge @ (1, 0, 0)
                best = max(best, abs(blade @ normal))
        assert best > 1.0 - 1e-10, (tie, best)


def check_wood(data):
    random = np.random.default_rng(11)
    for tie, _, _, _, mortise, mover, base in leaning_ties(data):
        right, up, out, corner = frame(mortise["face"])
        size = size_of(data, mortise["piece"])
        points = np.array([v[:2] for v in mortise["outline"][0]])
        low, high = points.min(axis=0) - 15.0, points.max(axis=0) + 15.0
        uvw = random.uniform([*low, -10.0], [*high, mortise["depth_mm"] + 5.0], (60000, 3))
        spots = corner * size + np.outer(uvw[:, 0], right) + np.outer(uvw[:, 1], up) - np.outer(uvw[:, 2], out)
        base_turn, base_at = pose_of(base)
        turn, at = pose_of(mover)
        own = (spots @ base_turn.T + base_at - at) @ turn
        in_base, in_mover = wood(data, mortise["piece"], spots), wood(data, mover["piece"], own)
        assert in_base.any() and in_mover.any() and not (in_base & in_mover).any(), (tie, int((in_base & in_mover).sum()))
        assert (in_mover & (uvw[:, 2] > 1.0)).sum() > 500, tie  # the tenon is in the mortise


def main():
    number, failed = 0, False
    checks = (("rake, splay and resultant are those of the axes in space", check_angles),
              ("the cradle's two turns bring the axis in line with the plunge", check_cradle),
              ("the shoulder lies in the side, and the saw's two angles cut it", check_shoulder),
              ("no spot is wood of both pieces", check_wood))
    for job in sys.argv[2:]:
        data = read(sys.argv[1], job)
        for what, check in checks:
            number += 1
            try:
                check(data)
                print(f"ok {number} - {data['job']['title']}: {what}")
            except AssertionError as why:
                failed = True
                print(f"not ok {number} - {data['job']['title']}: {what}\n# {why}")
    print(f"1..{number}")
    return failed


if __name__ == "__main__":
    sys.exit(main())
