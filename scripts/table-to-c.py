#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Turns data/wood.tsv into a C table: table-to-c.py wood.tsv timbers.c

Columns are found by their names in the header line. An empty figure becomes NAN. A line that does not fit stops the build."""
import sys

TEXTS = ["name", "group"]
FIGURES = ["specific_gravity_12", "mor_mpa", "moe_mpa", "compression_parallel_mpa", "compression_perpendicular_mpa",
           "shear_parallel_mpa", "tension_perpendicular_mpa", "hardness_n", "change_radial", "change_tangential"]


def c_text(text):
    if not text.isascii() or '"' in text or "\\" in text:
        raise ValueError(f"cannot write {text!r} as a C text")
    return f'"{text}"'


def c_figure(text):
    if text == "":
        return "NAN"
    if float(text) <= 0:
        raise ValueError(f"{text} is not over nothing")
    return text if "." in text else text + ".0"


def row(columns, line):
    cells = dict(zip(columns, line.split("\t"), strict=True))
    if not cells["name"]:
        raise ValueError("no name")
    values = [f".{key} = {c_text(cells[key])}" for key in TEXTS] + [f".{key} = {c_figure(cells[key])}" for key in FIGURES]
    return cells["name"], "    { " + ", ".join(values) + " },\n"


def main(source, target):
    with open(source, encoding="utf-8") as file:
        lines = file.read().splitlines()
    columns, names, rows = lines[0].split("\t"), set(), []
    for number, line in enumerate(lines[1:], start=2):
        try:
            name, text = row(columns, line)
            if name.lower() in names:
                raise ValueError(f"{name} stands twice")
        except (ValueError, KeyError) as fault:
            sys.exit(f"{source}:{number}: {fault}")
        names.add(name.lower())
        rows.append(text)
    with open(target, "w", encoding="utf-8") as file:
        file.write("/* Made from data/wood.tsv by scripts/table-to-c.py when the program is built. */\n"
                   '#include "mech/mech.h"\n\n#include <math.h>\n\n'
                   "const tw_timber tw_timbers[] = {\n" + "".join(rows) +
                   "};\nconst size_t tw_timber_count = sizeof tw_timbers / sizeof tw_timbers[0];\n")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit("table-to-c.py TABLE.tsv OUT.c")
    main(sys.argv[1], sys.argv[2])
