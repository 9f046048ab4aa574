#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the program on cases and says in TAP what came out: run-cli.py PROGRAM PROJECT FILE.cases ...

A case begins with a line `== what it shows`. Then, in any order:
    run: ARGUMENTS           as in a shell: words, quotes; {project} is the project's folder
    exit: N                  0 when not given
    stdin: TEXT              given to the program; repeated for more lines
    file NAME: TEXT          a file in the folder where it runs; repeated for more lines
    stdout to: PATH          where standard output goes instead
    json: {...}              standard output is this object: the same keys in the same order, numbers within 1e-6
    json part: {...}         standard output is an object that has these keys, with these values
    out: TEXT, err: TEXT     the whole of standard output (error), line by line
    out has: TEXT            a part of it; err has: likewise
    out lacks: TEXT
When nothing is said of standard error, it must be empty after exit 0, and hold something after 2 and 3."""
import json
import math
import os
import shlex
import subprocess
import sys
import tempfile

TIME_LIMIT_S = 120


def read_cases(path):
    cases = []
    with open(path, encoding="utf-8") as lines:
        for number, line in enumerate(lines, start=1):
            line = line.rstrip("\n")
            if line.startswith("== "):
                cases.append({"name": line[3:], "at": f"{path}:{number}", "exit": 0, "file": {}})
            elif line.strip() and not line.startswith("#"):
                key, _, value = line.partition(":")
                read_line(cases[-1], key, value[1:] if value.startswith(" ") else value)
    return cases


def read_line(case, key, value):
    if key.startswith("file "):
        case["file"].setdefault(key[5:], []).append(value)
    elif key == "exit":
        case["exit"] = int(value)
    elif key in ("run", "stdout to", "json", "json part"):
        case[key] = value
    elif key in ("stdin", "out", "err", "out has", "err has", "out lacks"):
        case.setdefault(key, []).append(value)
    else:
        raise ValueError(f"{case['at']}: no key {key!r}")


def same(got, want):
    if isinstance(want, bool) or not isinstance(want, (int, float)):
        if isinstance(want, dict):
            return isinstance(got, dict) and list(got) == list(want) and all(same(got[key], want[key]) for key in want)
        if isinstance(want, list):
            return isinstance(got, list) and len(got) == len(want) and all(map(same, got, want))
        return type(got) is type(want) and got == want
    return isinstance(got, (int, float)) and not isinstance(got, bool) and math.isclose(got, want, rel_tol=0, abs_tol=1e-6)


def no_doubles(pairs):
    if len({key for key, _ in pairs}) != len(pairs):
        raise ValueError("a key stands twice")
    return dict(pairs)


def json_faults(out, want, is_part):
    try:
        got = json.loads(out, object_pairs_hook=no_doubles)
    except ValueError as fault:
        yield f"no JSON: {fault}"
        return
    if is_part and isinstance(got, dict):
        got = {key: got[key] for key in want if key in got}
    if not same(got, want):
        yield "the JSON object is not as written"


def faults_of(case, status, out, err):
    if status != case["exit"]:
        yield f"ended with {status}, not {case['exit']}"
    for name, text in (("out", out), ("err", err)):
        if name in case and text != "".join(line + "\n" for line in case[name]):
            yield f"std{name} is not as written"
        for part in case.get(name + " has", []):
            if part not in text:
                yield f"std{name} has no {part!r}"
        for part in case.get(name + " lacks", []):
            if part in text:
                yield f"std{name} has {part!r}"
    if "err" not in case and "err has" not in case and (err != "") != (case["exit"] in (2, 3)):
        yield "standard error is not as it should be"
    for key in {"json", "json part"} & case.keys():
        yield from json_faults(out, json.loads(case[key]), key == "json part")


def run_case(case, program, project):
    with tempfile.TemporaryDirectory() as folder:
        for name, lines in case["file"].items():
            with open(os.path.join(folder, name), "w", encoding="utf-8") as file:
                file.write("\n".join(lines) + "\n")
        words = shlex.split(case["run"].replace("{project}", shlex.quote(project)))
        out = open(case["stdout to"], "wb") if "stdout to" in case else subprocess.PIPE
        done = subprocess.run([program] + words, input="\n".join(case.get("stdin", [])).encode(), stdout=out, stderr=subprocess.PIPE,
                              cwd=folder, timeout=TIME_LIMIT_S, check=False)
        return done.returncode, (done.stdout or b"").decode("utf-8", "replace"), done.stderr.decode("utf-8", "replace")


def main(program, project, paths):
    cases = [case for path in paths for case in read_cases(path)]
    print(f"1..{len(cases)}")
    failed = 0
    for number, case in enumerate(cases, start=1):
        try:
            status, out, err = run_case(case, program, project)
            faults = list(faults_of(case, status, out, err))
        except subprocess.TimeoutExpired:
            status, out, err, faults = None, "", "", [f"took more than {TIME_LIMIT_S} s"]
        print(f"{'not ok' if faults else 'ok'} {number} - {case['name']}")
        failed += bool(faults)
        for line in faults and [case["at"], *faults, "stdout: " + out, "stderr: " + err]:
            print("\n".join("# " + part for part in line.splitlines()))
    return 1 if failed else 0


if __name__ == "__main__":
    if len(sys.argv) < 4:
        sys.exit(__doc__)
    sys.exit(main(os.path.abspath(sys.argv[1]), os.path.abspath(sys.argv[2]), sys.argv[3:]))
