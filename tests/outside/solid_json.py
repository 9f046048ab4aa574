#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the 3D view is shown of example jobs, read with Python's own base64 and numpy and held to job.json and to itself.

    solid_json.py DUMP JOB.yaml...        prints TAP. DUMP prints {"job": job.json, "chord_mm": n, "solids": ...}

The skin of each kind is closed: every edge of its triangles is met by one that runs back. The volume within, by the divergence
theorem (sum of a . (b x c) / 6 over the triangles), is the volume in job.json, which is reckoned along the fibres; a chord lies
within chord_mm of its arc, so that the two may differ by chord_mm times the area. A triangle of a side of the blank lies in that
side. Poses are those of job.json; what a step moves, and that it moves at least as far as it must, is what job.json's orders of
taking apart say.
"""
import base64
import json
import subprocess
import sys
from collections import Counter

import numpy as np

FACES = ["face", "back", "face edge", "back edge", "left end", "right end"]


def case(good, words):
    print(f"{'ok' if good else 'not ok'} - {words}")


def numbers(text, kind, across=1):
    flat = np.frombuffer(base64.b64decode(text, validate=True), kind)
    return flat.reshape(-1, across) if across > 1 else flat


def read_kind(kind):
    return (numbers(kind["points"], "<f4", 3).astype(float), numbers(kind["triangles"], "<u4", 3).astype(int),
            numbers(kind["source"], "<u2").astype(int), numbers(kind["face"], "u1").astype(int),
            numbers(kind["edges"], "<u4", 2).astype(int))


def is_closed(triangles):
    edges = Counter((int(t[k]), int(t[(k + 1) % 3])) for t in triangles for k in range(3))
    return all(edges[(b, a)] == count for (a, b), count in edges.items())


def normals(points, triangles):
    a, b, c = (points[triangles[:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    return across, np.linalg.norm(across, axis=1)


def sides_are_sides(kind, points, triangles, source, face):
    """Triangles of the blank's own sides lie in them and look out of them."""
    axis, far = [2, 2, 1, 1, 0, 0], [1, 0, 0, 1, 0, 1]
    across, size = normals(points, triangles)
    for i in np.nonzero(source == 0)[0]:
        k, wanted = axis[face[i]], far[face[i]] * kind["size"][axis[face[i]]]
        if np.abs(points[triangles[i], k] - wanted).max() > 5e-3:
            return False
        if size[i] > 1e-2 and across[i, k] * (1 if far[face[i]] else -1) < 0.99 * size[i]:
            return False
    return True


def edges_are_edges(triangles, edges):
    """Each line that is drawn runs along edges of triangles: from its one point to its other."""
    known = {(int(t[k]), int(t[(k + 1) % 3])) for t in triangles for k in range(3)}
    return all((a, b) in known or (b, a) in known for a, b in edges.tolist())


def look_over_kind(kind, volume, chord):
    points, triangles, source, face, edges = read_kind(kind)
    name = kind["name"]
    case(kind["closed"] and is_closed(triangles) and len(set(triangles.ravel())) == len(points),
        f"{name}: the skin is closed and has no loose point")
    case(len(source) == len(face) == len(triangles) > 0 and source.max() <= len(kind["cuts"]) and face.max() < 6,
        f"{name}: every triangle has its source and face")
    case(sides_are_sides(kind, points, triangles, source, face), f"{name}: what is of the blank lies in the blank's sides")
    case(len(edges) > 0 and edges_are_edges(triangles, edges), f"{name}: lines run along edges")
    case(points.min() > -5e-3 and np.all(points.max(axis=0) < np.array(kind["size"]) + 5e-3),
        f"{name}: nothing stands out of the blank")
    _, size = normals(points, triangles)
    a, b, c = (points[triangles[:, k]] - points[0] for k in range(3))
    within = np.einsum("ij,ij->", a, np.cross(b, c)) / 6
    if volume is not None:
        case(abs(within - volume) < chord * size.sum() / 2,
            f"{name}: skin and fibres hold the same volume: {within:.0f} and {volume:.0f} mm3")
    else:
        case(0 < within < np.prod(kind["size"]) * 1.0001, f"{name}: a part holds no more than its blank")


def look_over_short_grain(kind, told):
    same = len(kind["short"]) == len(told)
    for short, other in zip(kind["short"], told):
        boxes = numbers(short["boxes"], "<f4", 6).astype(float)
        least, most = (np.array([other[k][c] for c in ("from_left_end_mm", "from_face_edge_mm", "from_back_mm")])
            for k in ("least", "most"))
        volume = np.prod(boxes[:, 3:] - boxes[:, :3], axis=1).sum()
        same = same and abs(volume - other["volume_mm3"]) < 1e-3 * other["volume_mm3"] + 0.1
        same = same and np.abs(boxes[:, :3].min(axis=0) - least).max() < 1e-3
        same = same and np.abs(boxes[:, 3:].max(axis=0) - most).max() < 1e-3
        same = same and other["from"] in short["words"] and other["to"] in short["words"]
    case(same, f"{kind['name']}: its {len(told)} places of short grain are those of job.json, box by box")


def look_over_poses(solids, space):
    pieces = [s for s in solids["stood"] if s["number"] > 0]
    told = {p["name"]: p for p in space["pieces"]}
    good = sorted(p["name"] for p in pieces) == sorted(told)
    for s in pieces:
        other, matrix = told[s["name"]], np.array(s["matrix"]).reshape(4, 3)
        good = good and s["number"] == other["number"] and s["group"] == other["group"]
        good = good and solids["kinds"][s["kind"]]["piece"] == other["piece"]
        wanted = np.array([other[key] for key in ("x_axis", "y_axis", "z_axis", "at_mm")])
        good = good and np.abs(matrix - wanted).max() < 1e-6
    case(good, "pieces stand where job.json says")
    turns = [np.array(s["matrix"]).reshape(4, 3)[:3] for s in solids["stood"]]
    case(all(np.abs(m @ m.T - np.eye(3)).max() < 1e-8 and np.linalg.det(m) > 0 for m in turns),
        "nothing is mirrored or stretched")
    corners = []
    for s in pieces:
        matrix, size = np.array(s["matrix"]).reshape(4, 3), np.array(solids["kinds"][s["kind"]]["size"])
        corners += [size * [i >> 2 & 1, i >> 1 & 1, i & 1] @ matrix[:3] + matrix[3] for i in range(8)]
    case(np.abs(np.min(corners, axis=0)).max() < 1e-4 and np.abs(np.max(corners, axis=0) - solids["size"]).max() < 1e-4,
        "the box around all pieces is `size`")


def look_over_moves(solids, space):
    stood, steps, good, before = solids["stood"], [], True, 0
    for g, group in enumerate(space["groups"]):
        for k, move in enumerate(group["taken_apart"]):
            steps.append({"number": k + 1, "group": g + 1, "words": move["text"]})
            gone = {s["name"]: np.array(m["by"]) for s in stood for m in s["moves"] if m["step"] == before + k + 1
                and s["number"] > 0}
            good = good and sorted(gone) == sorted(set(move["moved"]))
            good = good and all(np.linalg.norm(by) >= move["travel_mm"] + 15 for by in gone.values())
            good = good and all(np.abs(by - list(gone.values())[0]).max() < 1e-9 for by in gone.values())
        before += len(group["taken_apart"])
    case(good, "each step moves just what job.json says, together, and farther than it must to be free")
    case(solids["steps"] == steps, f"{len(steps)} steps in the words of job.json")
    case(all(np.abs(np.sum([m["by"] for m in s["moves"]] or [[0, 0, 0]], axis=0) - s["apart"]).max() < 1e-6 for s in stood),
        "moves add up to where it is drawn apart")
    case(all(s["step"] == (s["moves"][0]["step"] if s["moves"] else 0)
        and [m["step"] for m in s["moves"]] == sorted({m["step"] for m in s["moves"]})
             for s in stood), "moves are in order, and the first is the step")


def look_over_parts(solids):
    """A part that leaves does so before or when what carries it goes, and in a step that says so."""
    parts = [s for s in solids["stood"] if s["number"] == 0]
    case(all("part" in solids["kinds"][s["kind"]] and solids["kinds"][s["kind"]]["joint"] for s in parts),
        f"{len(parts)} parts say their joint")
    words = ("knock out", "unscrew")
    freed = [s for s in parts if s["moves"] and solids["steps"][s["step"] - 1]["words"].startswith(words)]
    held = {solids["kinds"][s["kind"]]["joint"] for s in freed}
    case(all(any(joint in t["words"] for joint in held) for t in solids["steps"] if t["words"].startswith(words)),
        f"{len(freed)} parts come out in the steps that free them")


def look_over(dump, path):
    print(f"# {path}")
    told = json.loads(subprocess.run([dump, path], capture_output=True, check=True).stdout)
    solids, job = told["solids"], told["job"]
    again = subprocess.run([dump, path], capture_output=True, check=True).stdout
    case(json.loads(again) == told, "the same again")
    pieces = {p["name"]: p for p in job["pieces"]}
    case([k["piece"] for k in solids["kinds"] if "piece" in k] == list(pieces), "every piece of the job is there, in its order")
    for kind in solids["kinds"]:
        piece = pieces.get(kind.get("piece"))
        look_over_kind(kind, piece and piece["volume_mm3"], told["chord_mm"])
        if piece:
            look_over_short_grain(kind, piece["short_grain"])
    look_over_poses(solids, job["space"])
    look_over_moves(solids, job["space"])
    look_over_parts(solids)


def refuses(dump, *words):
    return subprocess.run([dump, *words], capture_output=True).returncode == 2


def main():
    dump, jobs = sys.argv[1], sys.argv[2:]
    for path in jobs:
        look_over(dump, path)
    case(refuses(dump) and refuses(dump, "/nowhere/job.yaml"), "no job, no solids")


main()
