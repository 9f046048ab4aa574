#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds scripts/count-tests to what it promises: count_tests.py PROJECT. Writes TAP."""
import json
import os
import subprocess
import sys
import tempfile


def run(name, stdout, result="OK", code=0):
    return json.dumps({"name": name, "stdout": stdout, "result": result, "returncode": code})


CASES = [
    ("cases that pass are counted", [[run("saw", "1..2\nok 1 - cuts\nok 2 - stops\n")]], "2 passed, 0 failed", 0),
    ("case that fails is counted as failed", [[run("saw", "1..2\nok 1 - cuts\nnot ok 2 - stops\n", "FAIL", 1)]], "1 passed, 1 failed", 1),
    ("case that passes in one run and fails in another has failed",
     [[run("saw", "1..1\nok 1 - cuts\n")], [run("saw", "1..1\nnot ok 1 - cuts\n", "FAIL", 1)]], "0 passed, 1 failed", 1),
    ("case that passes in two runs counts once", [[run("saw", "1..1\nok 1 - cuts\n")], [run("saw", "1..1\nok 1 - cuts\n")]], "1 passed, 0 failed", 0),
    ("crash after good cases is a failure", [[run("saw", "1..3\nok 1 - cuts\n", "ERROR", -11)]], "1 passed, 2 failed", 1),
    ("crash after the last case is a failure", [[run("saw", "1..1\nok 1 - cuts\n", "FAIL", 99)]], "1 passed, 1 failed", 1),
    ("program that runs out of time is a failure", [[run("saw", "", "TIMEOUT", -9)]], "0 passed, 1 failed", 1),
    ("test without TAP lines is one case", [[run("saw", "fine\n")]], "1 passed, 0 failed", 0),
    ("skipped case is neither passed nor failed", [[run("saw", "1..2\nok 1 - cuts\nok 2 # SKIP no saw\n")]], "1 passed, 0 failed", 0),
    ("no case at all is a failure", [[]], "0 passed, 0 failed", 1),
    ("two cases of one name are two", [[run("saw", "1..2\nok 1 - cuts\nok 2 - cuts\n")]], "2 passed, 0 failed", 0),
]


def outcome(project, runs):
    with tempfile.TemporaryDirectory() as folder:
        paths = []
        for number, lines in enumerate(runs):
            paths.append(os.path.join(folder, f"{number}.json"))
            with open(paths[-1], "w", encoding="utf-8") as file:
                file.write("".join(line + "\n" for line in lines))
        done = subprocess.run([os.path.join(project, "scripts", "count-tests"), *paths], capture_output=True, text=True, check=False)
        return done.stdout.splitlines()[-1] if done.stdout else "", done.returncode


def main(project):
    print(f"1..{len(CASES)}")
    failed = 0
    for number, (name, runs, line, code) in enumerate(CASES, start=1):
        got = outcome(project, runs)
        failed += got != (line, code)
        print(f"{'ok' if got == (line, code) else 'not ok'} {number} - {name}")
        if got != (line, code):
            print(f"# {got}, not {(line, code)}")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
