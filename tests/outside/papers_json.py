#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads job.json and cutting-list.csv with Python's own json and csv modules, and holds the cards to job.json.

usage: papers_json.py PAPERS_DUMP        (prints TAP)

- job.json is well-formed, without a name twice in one object and without NaN or Infinity; the same on a second run.
- Every figure on a card (sizes, limits, depths, counts, speeds) is a number of job.json, rounded as the card writes it,
  or stands in one of its sentences.
- Keys of lengths say mm, of angles deg.
- The CSV has one row for each piece and part and the same figures.
"""
import csv
import io
import json
import math
import re
import subprocess
import sys

failures = []


def once(pairs):
    names = [name for name, _ in pairs]
    twice = {name for name in names if names.count(name) > 1}
    if twice:
        raise ValueError(f"twice in one object: {sorted(twice)}")
    return dict(pairs)


def refuse(word):
    raise ValueError(f"{word} is no JSON")


def read(text):
    return json.loads(text, object_pairs_hook=once, parse_constant=refuse)


def dump(sample):
    done = subprocess.run([sys.argv[1], str(sample)], stdout=subprocess.PIPE, check=True)
    return done.stdout.decode("utf-8")


def gather(value, numbers, texts):
    if isinstance(value, dict):
        for part in value.values():
            gather(part, numbers, texts)
    elif isinstance(value, list):
        for part in value:
            gather(part, numbers, texts)
    elif isinstance(value, bool):
        pass
    elif isinstance(value, (int, float)):
        numbers.append(float(value))
    else:
        texts.append(value)


NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?![\w]|\.\d)")


def rounded_alike(word, numbers, scales):
    """Is there a number of job.json that is written so with that many decimals?"""
    decimals = len(word.partition(".")[2])
    half = 0.5 * 10.0 ** -decimals + 1e-9
    wanted = float(word)
    return any(abs(abs(number) / scale - wanted) <= half for number in numbers for scale in scales)


def check_cards(data):
    numbers, texts = [], []
    gather(data["job"], numbers, texts)
    steps = [float(step["number"]) for step in data["job"]["run"]] + [float(len(data["job"]["run"]))]
    said = " ".join(texts)
    words_said = set(NUMBER.findall(said))
    scales = (1.0,) if data["job"]["job"]["figures"] == "mm" else (1.0, 25.4)
    # said by the cards themselves, of no job: the distances of the cautions, the number of pages
    of_cards = {"300", "12", "100", "4"} | {str(n) for n in range(1, len(data["cards"]) + 1)}
    missing, seen = [], 0
    for page in data["cards"]:
        for text in page:
            for word in NUMBER.findall(text):
                seen += 1
                if word in words_said or word in of_cards or float(word) in steps:
                    continue
                if not rounded_alike(word, numbers, scales):
                    missing.append((word, text))
    assert seen > 20, f"only {seen} figures found on the cards"
    assert not missing, f"on a card, not in job.json: {missing[:5]}"


def check_large(data):
    """The settings themselves, the other way round: each is on the cards."""
    cards = [" ".join(page) for page in data["cards"]]
    inches = data["job"]["job"]["figures"] != "mm"
    decimals = int(data["job"]["job"]["decimals"])
    for setup in data["job"]["setups"]:
        for key in ("shift", "table", "stop", "depth"):
            if key in setup:
                word = f"{setup[key]['value_mm'] / (25.4 if inches else 1.0):.{decimals}f}"
                assert any(word in card for card in cards), f"{setup['name']}: {key} {word} is on no card"


def check_units(value, path=""):
    if isinstance(value, dict):
        for key, part in value.items():
            if isinstance(part, float) and not key.endswith(("_mm", "_mm2", "_mm3", "_mm4", "_kg", "_kg_m3", "_deg", "_rpm")):
                assert key in ("ratio", "draw_per_mm") or part == int(part) or path.endswith("figures"), f"{path}.{key} has no unit"
            check_units(part, f"{path}.{key}")
    elif isinstance(value, list):
        for part in value:
            check_units(part, path)


def check_whole(data):
    job = data["job"]
    for key in ("job", "shop", "pieces", "joints", "cuts", "space", "templates", "setups", "run", "cutting_list", "findings", "papers"):
        assert key in job, f"no {key}"
    names = {template["name"] for template in job["templates"]}
    for template in job["templates"]:
        for loop in template["template"]:
            assert len(loop) >= 2 and all(len(vertex) == 3 and all(map(math.isfinite, vertex)) for vertex in loop)
    for setup in job["setups"]:
        assert setup["template"] in names
        stack = setup.get("depth", {}).get("stack")
        if stack and stack["within_tolerance"]:
            total = sum(part["size_mm"] * part["count"] for part in stack["spacers"])
            assert abs(total - stack["total_mm"]) < 1e-6
    for finding in job["findings"]:
        assert finding["level"] in ("note", "care", "halt") and finding["what"] and finding["code"]
    assert [paper["name"] for paper in job["papers"]][0] == "overview"
    assert len(job["papers"][[p["name"] for p in job["papers"]].index("cards")]["pages"]) == len(data["cards"])


def check_csv(data):
    assert "\r\n" in data["csv"] and "\n" not in data["csv"].replace("\r\n", "")
    rows = list(csv.DictReader(io.StringIO(data["csv"], newline=""), strict=True))
    wanted = data["job"]["cutting_list"]["rows"]
    assert len(rows) == len(wanted)
    unit, scale = ("mm", 1.0) if data["job"]["job"]["figures"] == "mm" else ("in", 25.4)
    for row, want in zip(rows, wanted):
        assert row["name"] == want["name"] and int(row["count"]) == want["count"]
        for side in ("length", "width", "thickness"):
            assert abs(float(row[f"{side}_{unit}"]) * scale - want["finished"][f"{side}_mm"]) < 2e-5
            assert abs(float(row[f"rough_{side}_{unit}"]) * scale - want["rough"][f"{side}_mm"]) < 2e-5
    assert rows[0]["note"] == "'=straight grain, no sapwood"  # a text, never a sum of a spreadsheet


def check(name, test):
    try:
        test()
        print(f"ok - {name}")
    except Exception as why:  # an exception of any kind is a failure of the case
        print(f"not ok - {name}\n# {why}")
        failures.append(name)


def main():
    cases = 0
    for sample in range(4):
        text = dump(sample)
        data = read(text)
        checks = [("is the same on a second run", lambda: dump(sample) == text or refuse("another text")),
                  ("has every part", lambda: check_whole(data)),
                  ("says units in its keys", lambda: check_units(data["job"])),
                  ("gives the cutting list as CSV", lambda: check_csv(data))]
        if sample < 3:
            checks += [("has every figure of the cards", lambda: check_cards(data)),
                       ("has its settings on the cards", lambda: check_large(data))]
        for name, test in checks:
            check(f"sample {sample}: job.json {name}", test)
            cases += 1
    print(f"1..{cases}")
    return 1 if failures else 0


sys.exit(main())
