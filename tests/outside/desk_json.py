#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the page is shown of the example jobs, held to job.json and to the texts.

usage: desk_json.py DESK_DUMP EXAMPLES        (prints TAP)

- The JSON is well-formed, without a name twice in one object, the same on a second run; every id stands once.
- Every sum of job.json is there with its words, and every figure of job.json with its value.
- Every path really writes its value: set through a change, the figure with that path comes out as the value that was set, as
  given, with the new words as written, and the comparing of the two results names it.
- In another unit every figure is the same length, and no figure has moved.
"""
import json
import math
import os
import re
import subprocess
import sys

STRINGS = ["id", "path", "label", "symbol", "text", "bare", "unit", "written", "shows", "sum", "rule"]
SHOWN = {"length", "angle", "number", "count", "word", "piece", "cutter", "follower", "text", "figures", "yes or no", "mass",
    "area", "volume"}
failures = []
tool = ""


def check(good, words):
    if not good:
        failures.append(words)
    return good


def once(pairs):
    names = [name for name, _ in pairs]
    check(len(set(names)) == len(names), f"a name twice in one object: {names}")
    return dict(pairs)


def run(job, shop, figures="", lines=()):
    done = subprocess.run([tool, job, shop] + ([figures] if figures else []),
        input="".join(line + "\n" for line in lines).encode(),
                          stdout=subprocess.PIPE, check=True)
    return [json.loads(part, object_pairs_hook=once) for part in done.stdout.decode().split("\0")[:-1]]


def jobs(examples):
    for folder, _, files in sorted(os.walk(examples)):
        if "job.yaml" not in files:
            continue
        job = os.path.join(folder, "job.yaml")
        named = re.search(r"^shop: *(\S+)", open(job, encoding="utf-8").read(), re.M)
        yield os.path.relpath(folder, examples), job, os.path.normpath(os.path.join(folder, named.group(1)))


def values_in(model):
    """All figures, in their order."""
    yield from model["job"]["values"]
    yield from model["amounts"]
    for piece in model["pieces"]:
        yield from piece["values"]
        yield from piece["facts"]
    for part in ("joints", "profiles", "templates", "steps"):
        for one in model[part]:
            yield from one["values"]


def by_id(model):
    return {value["id"]: value for value in values_in(model)}


def near(a, b):
    return math.isclose(a, b, rel_tol=1e-8, abs_tol=1e-8)


# ---- the shape ----

def hold_shape(name, model):
    seen = set()
    for value in values_in(model):
        check(all(isinstance(value[key], str) for key in STRINGS), f"{name}: {value['id']} has a text that is none")
        check(value["id"] not in seen, f"{name}: the id {value['id']} stands twice")
        seen.add(value["id"])
        check(value["shows"] in SHOWN, f"{name}: {value['id']} shows {value['shows']!r}")
        check(value["label"] != "", f"{name}: {value['id']} has no label")
        check(not value["given"] or value["path"], f"{name}: {value['id']} is given and has no path")
        check(bool(value["written"]) <= bool(value["path"]), f"{name}: {value['id']} is written and has no path")
        if value["text"] and value["shows"] in ("length", "angle", "number", "count", "mass", "area", "volume"):
            check(re.match(r"-?[0-9]", value["text"]) and value["text"].startswith(value["bare"].split(" ")[0]),
                f"{name}: {value['id']} is {value['text']!r}, bare {value['bare']!r}")
            check(bool(value["path"]) or value["sum"] != "", f"{name}: {value['id']} has no sum")
        if value["given"]:
            check(value["text"] != "" and value["sum"] != "", f"{name}: {value['id']} is given without words")
    keys = [step["key"] for step in model["steps"]]
    check(len(set(keys)) == len(keys), f"{name}: a step's key stands twice")
    for template in model["templates"]:
        check(set(template["serves"]) <= set(keys),
            f"{name}: template {template['name']} serves {template['serves']}, which are no steps")


# ---- job.json ----

def figure_value(joint, key):
    for name in (key, key + "_mm", key + "_deg"):
        if name in joint["figures"]:
            return joint["figures"][name]
    return None


def hold_joint(name, section, joint, values):
    keys = [entry["key"] for entry in joint["sums"]]
    for number, entry in enumerate(joint["sums"]):
        again = keys[:number].count(entry["key"])
        id_ = f"{section}/{joint['name']}/{entry['key']}" + (f" ({again + 1})" if again else "")
        if not check(id_ in values, f"{name}: {id_} is missing"):
            continue
        value = values[id_]
        check(value["given"] or value["sum"] == entry["sum"],
            f"{name}: the sum of {id_} is {value['sum']!r}, in job.json {entry['sum']!r}")
        check(value["label"] == entry["label"] and value["symbol"] == entry["symbol"], f"{name}: {id_} is named otherwise")
        if not again:
            check(near(value["value"], figure_value(joint, entry["key"])),
                f"{name}: {id_} is {value['value']}, in job.json {figure_value(joint, entry['key'])}")


def hold_piece(name, piece, values):
    at = f"pieces/{piece['name']}"
    pairs = [("length", "length_mm"), ("width", "width_mm"), ("thickness", "thickness_mm"), ("count", "count"),
        ("facts/volume", "volume_mm3"),
             ("facts/mass", "mass_kg")]
    for key, theirs in pairs:
        if piece[theirs] is not None:
            check(near(values[f"{at}/{key}"]["value"], piece[theirs]), f"{name}: {at}/{key} is not job.json's")
    check(near(values[f"{at}/facts/weakest_section"]["value"], piece["weakest_section"]["area_mm2"]),
        f"{name}: {at}: weakest section")
    if "shortest_run" in piece:
        check(near(values[f"{at}/facts/shortest_run"]["value"], piece["shortest_run"]["length_mm"]),
            f"{name}: {at}: shortest run")
    for key, theirs in (("along", "from_left_end_mm"), ("across", "from_face_edge_mm"), ("up", "from_back_mm")):
        check(near(values[f"{at}/facts/centre_{key}"]["value"], piece["centre_of_mass"][theirs]), f"{name}: {at}: centre of mass")


def hold_setups(name, job, model, values):
    """Every figure that is set at the machine, by its own setup of job.json."""
    cards = {step["card"]["setup"]: step for step in model["steps"] if step["card"]}
    for setup in job["setups"]:
        if not check(setup["name"] in cards, f"{name}: no step has setup {setup['name']}"):
            continue
        at = "steps/" + cards[setup["name"]]["key"]
        for key, theirs in (("shift", "shift"), ("table", "table_height"), ("stop", "stop"), ("depth", "depth"),
            ("baseline", "baseline")):
            setting = setup.get(theirs) or setup.get(key)
            if isinstance(setting, dict) and f"{at}/{key}" in values:
                check(near(values[f"{at}/{key}"]["value"], setting["value_mm"]), f"{name}: {at}/{key} is not job.json's")
                check(values[f"{at}/{key}"]["sum"] == setting["sum"], f"{name}: {at}/{key} has another sum")
            else:
                check(not isinstance(setting, dict), f"{name}: {at}/{key} is missing")


def hold_job(name, job, model):
    values = by_id(model)
    for section in ("joints", "profiles"):
        for joint in job[section]:
            hold_joint(name, section, joint, values)
    for piece in job["pieces"]:
        hold_piece(name, piece, values)
    hold_setups(name, job, model, values)


# ---- what a path writes ----

def tries_of(value):
    """Texts that may be set, with what the figure must then be; the first that the job takes counts."""
    now = value["value"]
    if value["choices"] and value["shows"] not in ("piece", "cutter", "follower"):
        return [[(word, word)] for word in value["choices"]]
    if value["shows"] in ("piece", "cutter", "follower"):
        return [[(word, word) for word in value["choices"] if word != value["text"]] + [(value["text"],
            value["text"])]] if value["choices"] else []
    if value["shows"] == "length":
        sizes = [now + 0.75, now - 0.75, now + 2.25, now * 0.9, now + 0.04, now * 1.1 + 0.5, now / 2, now]
        return [[(f"{size:.4f} mm", float(f"{size:.4f}")) for size in sizes]]
    if value["shows"] == "angle":
        return [[(f"{size:.3f} deg", float(f"{size:.3f}")) for size in (now + 0.5, now - 0.5, now / 2, now)]]
    if value["shows"] == "count":
        return [[(f"{now + 1:.0f}", now + 1), (f"{now:.0f}", now)]]
    if value["shows"] == "number":
        return [[(f"{size:.4f}", float(f"{size:.4f}")) for size in (now * 1.1, now * 0.9, now)]]
    if value["shows"] == "figures":
        return [[(words, words)] for words in ("mm 0.01", "in 1/32")]
    return [[("A new word", "A new word")]]


def hold_written(name, job, shop, model):
    """How many values were set, and how many could not be."""
    plan = [(value, group) for value in values_in(model) if value["path"] for group in tries_of(value)]
    answers = run(job, shop, lines=["\t".join([value["path"]] + [text for text, _ in group]) for value, group in plan])[1:]
    done = refused = 0
    for (value, group), answer in zip(plan, answers, strict=True):
        path = value["path"]
        if answer["refused"]:
            refused += 1
            # other units make a table of 640 m; a word that another key needs cannot be gone
            check(value["shows"] in ("word", "yes or no", "piece"), f"{name}: {path} takes none of {[text for text, _ in group]}")
            continue
        done += 1
        wanted = dict(group)[answer["set"]]
        if not check(len(answer["now"]) == 1, f"{name}: {path}: after setting it {len(answer['now'])} values have this path"):
            continue
        now = answer["now"][0]
        same = near(now["value"], wanted) if isinstance(wanted, (int, float)) else now["text"] == wanted
        check(same, f"{name}: {path} was set to {answer['set']}, and is {now['text']} ({now['value']})")
        check(now["given"] and now["written"] == answer["set"],
            f"{name}: {path} was set to {answer['set']}, and {now['written']!r} is written")
        if now["id"] == value["id"] and now["text"] != value["text"]:
            check(answer["moved"] == [value["text"], now["text"]],
                f"{name}: {path} moved from {value['text']} to {now['text']}, and comparing says {answer['moved']}")
    return done, refused


# ---- other units ----

def hold_units(name, job, shop, model):
    there = by_id(model)
    for figures, unit in (("in 1/64", "in"), ("in 0.001", "in"), ("mm 0.01", "mm")):
        other = by_id(run(job, shop, figures)[0]["model"])
        # areas of the bolt are told in square centimetres or inches: their figures are others
        own = {id_ for id_ in set(there) ^ set(other) if not re.search(r"_area_(cm2|in2)", id_)}
        check(not own, f"{name}: with {figures} other figures: {sorted(own)[:3]}")
        for id_ in there.keys() & other.keys() - {"figures"}:
            value = other[id_]
            check(near(value["value"], there[id_]["value"]),
                f"{name}: with {figures} {id_} is {value['value']}, not {there[id_]['value']}")
            check(value["shows"] != "length" or not value["text"] or value["unit"] == unit,
                f"{name}: with {figures} {id_} is in {value['unit']}")


def main():
    global tool
    tool, examples = sys.argv[1:]
    cases = list(jobs(examples))
    print(f"1..{4 * len(cases)}")
    number = bad = 0
    for name, job, shop in cases:
        first, again = run(job, shop), run(job, shop)
        model = first[0]["model"]
        done = refused = 0
        for what in ("shape", "job.json", "paths", "units"):
            failures.clear()
            if what == "shape":
                check(first == again, f"{name}: the second run differs")
                hold_shape(name, model)
            elif what == "job.json":
                hold_job(name, first[0]["job"], model)
            elif what == "paths":
                done, refused = hold_written(name, job, shop, model)
                check(done > 10, f"{name}: only {done} values could be set")
            else:
                hold_units(name, job, shop, model)
            number += 1
            bad += bool(failures)
            more = f", {done} values set, {refused} refused" if what == "paths" else ""
            print(f"{'not ok' if failures else 'ok'} {number} - {name}: {what}{more}")
            for words in failures[:12]:
                print(f"# {words}")
    sys.exit(bad > 0)


main()
