#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Values changed in place, read by another reader of YAML: that of Python (Debian: python3-yaml, its parser in Python).

usage: changes.py CHANGE_TEXT FILE...        (prints TAP)

Each file is changed in many ways, by seed. Whatever came of it is read with yaml.BaseLoader, which leaves every value a text,
and must be the old file's data with just that change. So quotes, braces and line ends are judged by rules that are not ours.
"""
import copy
import random
import subprocess
import sys

import yaml

VALUES = ["38", "2 * 38 mm", "1-1/2 in", "Oak, white", "a: b", "x #y", "- a", "* both *", "'t is", '"big" one', "[a]", "{", "}", "%d", "end:",
          "2' 3\"", "?", "? a", "a ? b", "--- a", "...", "yes", "~", "null", "|", "> a", "\\n", "it's \"so\" \\", "µ ½ ° ß", "a , b", ":", "a:b", "1:12",
          "@", "`a`", "!x", "&x y", "#", "a#", "-", "-3", "= b", "<<", "0x1F", "2026-01-01", "max(1, 2)"]


def leaves(data, path=()):
    if isinstance(data, str):
        yield path
    elif isinstance(data, dict):
        for key, value in data.items():
            yield from leaves(value, path + (key,))
    else:
        for number, value in enumerate(data, 1):
            yield from leaves(value, path + (str(number),))


def step(data, word):
    return data[word] if isinstance(data, dict) else data[int(word) - 1]


def holder(data, path):
    for word in path[:-1]:
        data = step(data, word)
    return data


def put(data, path, value):
    inner = holder(data, path)
    inner[path[-1] if isinstance(inner, dict) else int(path[-1]) - 1] = value


def in_order(data):
    """Keys in their order: dicts alone compare without it."""
    if isinstance(data, dict):
        return [(key, in_order(value)) for key, value in data.items()]
    return [in_order(item) for item in data] if isinstance(data, list) else data


def change(tool, kind, text, how, value, path):
    done = subprocess.run([tool, kind, how, value, *path], input=text.encode(), stdout=subprocess.PIPE, check=False)
    return done.stdout.decode() if done.returncode == 0 else None


def any_change(seed, data):
    """How, value, path, and the data that must come of it."""
    path = seed.choice(list(leaves(data)))
    value, want = seed.choice(VALUES), copy.deepcopy(data)
    how = seed.choice(["set", "set", "set", "note", "list", "remove", "top"])
    if how == "set":
        put(want, path, value)
    elif how == "note" and len(path) > 2 and path[0] in ("pieces", "joints", "profiles"):
        how, path = "set", (path[0], path[1], "note")
        put(want, path, value)
    elif how == "list" and "at" in path:
        path = path[:path.index("at") + 1]
        value = "|".join(str(seed.randrange(30, 90)) for _ in range(seed.randrange(1, 5)))
        put(want, path, value.split("|"))
    elif how == "remove" and isinstance(holder(want, path), dict):
        del holder(want, path)[path[-1]]
    else:
        how, path = "set", ("note",)
        put(want, path, value)
    return how, value, path, want


def trial(tool, name, text, seed):
    """A fault in words, None when all is well, False when the change was refused."""
    kind = "shop" if "shop" in name.rsplit("/", 1)[-1] else "job"
    how, value, path, want = any_change(seed, yaml.load(text, yaml.BaseLoader))
    new = change(tool, kind, text, how, value, path)
    if new is None:
        return False
    try:
        got = yaml.load(new, yaml.BaseLoader)
    except yaml.YAMLError as error:
        return f"{how} {value!r} at {path}: {error}"
    return None if in_order(got) == in_order(want) else f"{how} {value!r} at {path}: read as something else"


def main():
    tool, names = sys.argv[1], sys.argv[2:]
    print(f"1..{len(names)}")
    bad = 0
    for number, name in enumerate(names, 1):
        with open(name, encoding="utf-8") as file:
            text = file.read()
        seed, faults, made = random.Random(number), [], 0
        for _ in range(60):
            fault = trial(tool, name, text, seed)
            made += fault is None
            faults += [fault] if fault else []
            fault = trial(tool, name, text.replace("\n", "\r\n"), seed) if not fault else None
            faults += [fault] if fault else []
        good = not faults and made >= 5
        bad += not good
        print(f"{'ok' if good else 'not ok'} {number} - {made} of 60 changes read back as they should, the rest refused: {name.rsplit('/', 2)[-2]}")
        for fault in faults:
            print("#", fault)
    return 1 if bad else 0


sys.exit(main())
