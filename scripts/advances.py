#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Prints src/draw/advances.c: widths and ink heights of DejaVu Sans and DejaVu Sans Bold.

    scripts/advances.py /usr/share/fonts/truetype/dejavu > src/draw/advances.c

Run it again only when the font of Debian's package fonts-dejavu-core changes (2.37 here); tests/test_print.c holds the
table to the installed font through pango. Needs nothing but Python: the four tables of the font file that are read
(cmap format 4 or 12, hmtx, loca, glyf) are described in the OpenType specification (ISO/IEC 14496-22).
"""
import struct
import sys

RANGES = [  # what a joiner's papers and names in Latin, Greek and Cyrillic letters use
    (0x0020, 0x007E), (0x00A0, 0x00AC), (0x00AE, 0x017F), (0x0218, 0x021B), (0x0300, 0x030C), (0x0370, 0x03FF), (0x0400, 0x045F),
    (0x0490, 0x0491), (0x1E80, 0x1E85), (0x1EA0, 0x1EF9), (0x2010, 0x2026), (0x2030, 0x203A), (0x2044, 0x2044),
    (0x2070, 0x2079), (0x2080, 0x2089), (0x20AC, 0x20AC), (0x2116, 0x2116), (0x2122, 0x2122), (0x2126, 0x2126),
    (0x2150, 0x215F), (0x2190, 0x2199), (0x21BA, 0x21BB), (0x2200, 0x2265), (0x2300, 0x2300), (0x25A0, 0x25A1),
    (0x25B2, 0x25C7), (0x25CB, 0x25CF), (0x2610, 0x2612), (0x2713, 0x2714), (0x2717, 0x2717),
]


class Font:
    def __init__(self, path):
        self.data = open(path, "rb").read()
        count = struct.unpack(">H", self.data[4:6])[0]
        self.tables = {}
        for i in range(count):
            tag, _, start, length = struct.unpack(">4sIII", self.data[12 + 16 * i:28 + 16 * i])
            self.tables[tag.decode()] = (start, length)
        self.em = self.at("head", ">H", 18)
        self.long_loca = self.at("head", ">h", 50)
        self.metrics = self.at("hhea", ">H", 34)
        self.glyph_of = self.read_cmap()

    def at(self, tag, form, offset):
        return struct.unpack_from(form, self.data, self.tables[tag][0] + offset)[0]

    def read_cmap(self):
        for i in range(self.at("cmap", ">H", 2)):
            platform = self.at("cmap", ">H", 4 + 8 * i)
            start = self.at("cmap", ">I", 4 + 8 * i + 4)
            if platform in (0, 3) and self.at("cmap", ">H", start) == 4:
                return self.read_format_4(start)
        raise SystemExit("the font has no cmap of format 4")

    def read_format_4(self, start):
        twice = self.at("cmap", ">H", start + 6)
        glyph_of = {}
        for i in range(0, twice, 2):
            last = self.at("cmap", ">H", start + 14 + i)
            first = self.at("cmap", ">H", start + 16 + twice + i)
            delta = self.at("cmap", ">h", start + 16 + 2 * twice + i)
            place = start + 16 + 3 * twice + i
            offset = self.at("cmap", ">H", place)
            for code in range(first, last + 1):
                glyph = code if offset == 0 else self.at("cmap", ">H", place + offset + 2 * (code - first))
                if offset == 0 or glyph != 0:
                    glyph = (glyph + delta) & 0xFFFF
                if glyph != 0 and code != 0xFFFF:
                    glyph_of[code] = glyph
        return glyph_of

    def row(self, code):
        glyph = self.glyph_of[code]
        advance = self.at("hmtx", ">H", 4 * min(glyph, self.metrics - 1))
        if self.long_loca:
            start, end = (self.at("loca", ">I", 4 * (glyph + k)) for k in (0, 1))
        else:
            start, end = (2 * self.at("loca", ">H", 2 * (glyph + k)) for k in (0, 1))
        if start == end:
            return advance, 0, 0
        return advance, self.at("glyf", ">h", start + 4), self.at("glyf", ">h", start + 8)


def runs(font):
    """Runs of code points that the font has, inside RANGES."""
    for first, last in RANGES:
        run = []
        for code in range(first, last + 2):
            if code <= last and code in font.glyph_of:
                run.append(code)
            elif run:
                yield run
                run = []


def put_face(name, font):
    print(f"static const tw_glyph {name}_glyphs[] = {{")
    for run in runs(font):
        cells = ["{%d,%d,%d}," % font.row(code) for code in run]
        line = ""
        for cell in cells:
            if len(line) + len(cell) > 114:
                print("    " + line)
                line = ""
            line += cell
        print("    " + line + f"  // U+{run[0]:04X}")
    print("};")
    print(f"static const tw_glyph_run {name}_runs[] = {{")
    start, line = 0, ""
    for run in runs(font):
        cell = "{0x%04X, 0x%04X, %d}, " % (run[0], run[-1], start)
        if len(line) + len(cell) > 114:
            print("    " + line.rstrip())
            line = ""
        line += cell
        start += len(run)
    print("    " + line.rstrip())
    print("};")
    print()


def main(folder):
    faces = [("plain", Font(folder + "/DejaVuSans.ttf")), ("bold", Font(folder + "/DejaVuSans-Bold.ttf"))]
    for _, font in faces:
        assert font.em == 2048 and font.row(ord("H"))[2] == 1493, "the capital height is no longer 1493 of 2048"
    print("// SPDX-License-Identifier: GPL-3.0-or-later")
    print("/* Advance width, lowest and highest ink of each character, in 1/2048 of the em, from DejaVu Sans and DejaVu Sans")
    print(" * Bold 2.37. Printed by scripts/advances.py: do not edit by hand. */")
    print('#include "draw/advances.h"')
    print()
    for name, font in faces:
        put_face(name, font)
    print("const tw_glyph_face tw_glyph_faces[2] = {")
    for name, _ in faces:
        print(f"    {{ {name}_runs, (int)(sizeof {name}_runs / sizeof *{name}_runs), {name}_glyphs }},")
    print("};")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        raise SystemExit(__doc__)
    main(sys.argv[1])
