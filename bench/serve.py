#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the program takes for one request while a value is dragged: the figures alone, with the model, with each kind of drawing
of the demo job. The first column is the ratio to the figures alone; milliseconds are the median and the least of 20, as the
program tells them. bench/serve.py BUILD/tuskwright"""
import os
import statistics
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "tests", "serve"))
import desk  # noqa: E402

ROUNDS = 20
DRAWINGS = (("piece", "post"), ("piece", "stretcher"), ("joint", "stretcher to post"), ("template", "T7"), ("grain", "post"),
            ("whole", ""),
            ("picture", ""), ("apart", ""), ("card", "stretcher to post/housings, right hand"))


def main():
    with desk.opened(os.path.abspath(sys.argv[1])) as it:
        _, shop, text, _ = desk.put_example(it)
        width = 110.0

        def took_ms(**more):
            """Each time another width of the post, so that nothing is found again but what it leaves as it was."""
            nonlocal width
            took = []
            for _ in range(ROUNDS):
                width += 0.01
                change = {"kind": "set", "path": "pieces/post/width", "value": f"{width:.2f} mm"}
                took.append(it.json("/api/reckon", {"text": text, "shop": shop, "changes": [change], **more})["took_us"] / 1000)
            return took

        plain = took_ms()
        least = min(plain)

        def tell(name, took):
            print(f"{min(took) / least:6.1f}  {statistics.median(took):7.1f} {min(took):7.1f} ms  {name}")

        tell("the figures alone", plain)
        tell("with the model", took_ms(model=True))
        for what, name in DRAWINGS:
            tell(f"with {what} {name}".rstrip(), took_ms(drawings=[{"what": what, "name": name, "width_mm": 180}]))


if __name__ == "__main__":
    main()
