#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Makes amounts.tsv: amounts as makers write them, and what GNU units (Debian package `units`) makes of them.

Each amount is put together twice from the same random choices: once in our way of writing, once in that of GNU units
(fractions as 3|8, every product and bracket written out). Run by hand when the way of writing grows:

    python3 tests/outside/amounts.py > tests/outside/amounts.tsv
"""
import random
import subprocess

SEED = 20240611
COUNT = 600


def number(r):
    """A number: our writing, that of GNU units, whether it is a fraction with nothing before it."""
    kind = r.randrange(7)
    n = r.randrange(1, 99)
    d = r.choice([2, 4, 8, 16, 32, 64])
    m = r.randrange(1, d)
    if kind == 0:
        return str(n), str(n), False
    if kind == 1:
        text = "%d.%d" % (n, r.randrange(1, 999))
        return text, text, False
    if kind == 2:
        return "%d/%d" % (m, d), "(%d|%d)" % (m, d), True
    if kind == 3:
        return "%d %d/%d" % (n, m, d), "(%d+%d|%d)" % (n, m, d), False
    if kind == 4:
        return "%d-%d/%d" % (n, m, d), "(%d+%d|%d)" % (n, m, d), False
    if kind == 5:
        text = ".%d" % r.randrange(1, 999)
        return text, "0" + text, False
    sign, value = r.choice([("½", "1|2"), ("¼", "1|4"), ("¾", "3|4"), ("⅛", "1|8"), ("⅜", "3|8"), ("⅝", "5|8"), ("⅞", "7|8")])
    return "%d%s%s" % (n, r.choice(["", " "]), sign), "(%d+%s)" % (n, value), False


def length(r):
    ours, theirs, fraction = number(r)
    if r.randrange(5) == 0:
        feet = r.randrange(1, 9)
        foot, inch = r.choice([(" ft", " in"), ("'", '"'), ("ft", "in"), ("′", "″")])
        return "%d%s%s%s%s" % (feet, foot, r.choice([" ", " ", "-"]), ours, inch), "(%d*foot+%s*inch)" % (feet, theirs), False
    word, unit = r.choice([(" mm", "mm"), ("mm", "mm"), (" cm", "cm"), (" m", "m"), (" in", "inch"), ('"', "inch"), (" ft", "foot")])
    return ours + word, "(%s*%s)" % (theirs, unit), fraction


def ratio(r, depth):
    kind = r.randrange(4)
    if depth > 0 and kind == 0:
        a, b = length_sum(r, depth - 1), length_sum(r, depth - 1)
        return "(%s) / (%s)" % (a[0], b[0]), "((%s)/(%s))" % (a[1], b[1])
    if kind == 1:
        n = r.randrange(1, 200)
        return "%d %%" % n, "(%d*0.01)" % n
    ours, theirs, _ = number(r)
    return "(%s)" % ours, theirs


def length_sum(r, depth):
    if depth == 0 or r.randrange(3) == 0:
        ours, theirs, _ = length(r)
        return ours, theirs
    kind = r.randrange(4)
    a = length_sum(r, depth - 1)
    if kind < 2:
        b = length_sum(r, depth - 1)
        sign = "+-"[kind]
        return "%s %s (%s)" % (a[0], sign, b[0]), "(%s %s (%s))" % (a[1], sign, b[1])
    b = ratio(r, depth)
    sign = "*/"[kind - 2]
    ours = {"*": r.choice(["*", "×"]), "/": "/"}[sign]
    return "(%s) %s (%s)" % (a[0], ours, b[0]), "((%s) %s (%s))" % (a[1], sign, b[1])


def angle(r):
    if r.randrange(2):
        a, b = number(r), number(r)
        return "%s:%s" % (a[0], b[0]), "(atan((%s)/(%s)))" % (a[1], b[1])
    ours, theirs, _ = number(r)
    return ours + r.choice([" deg", "°", " °"]), "(%s*degree)" % theirs


def units(expression, unit):
    done = subprocess.run(["units", "-t", "-o", "%.17g", expression, unit], capture_output=True, text=True, check=True)
    return done.stdout.strip()


def main():
    r = random.Random(SEED)
    version = subprocess.run(["units", "--version"], capture_output=True, text=True, check=True).stdout.splitlines()[0]
    print("# made by amounts.py with %s: amount, kind (length in mm, angle in degrees), value" % version)
    for i in range(COUNT):
        is_angle = i % 6 == 5
        ours, theirs = angle(r) if is_angle else length_sum(r, i % 4)
        value = units(theirs, "degree" if is_angle else "mm")
        if len(ours.encode()) <= 400 and abs(float(value)) < 1e6:
            print("%s\t%s\t%s" % (ours, "angle" if is_angle else "length", value))


main()
