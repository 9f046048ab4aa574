#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""At the machine over HTTP: ticks, measured sizes, trial cuts. Hand-worked figures stand beside their checks. Usage: api_run.py
PROGRAM"""
import os
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from desk import refused  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM = os.path.abspath(sys.argv[1])
cases = serving.Cases()
case = cases.case


def entry_of(it, job):
    return it.json(f"/api/entry?shelf=jobs&id={job}")


def model_of(it, job, shop, text, with_ledger=True):
    return it.json("/api/reckon", {"text": text, "shop": shop, "model": True, **({"job": job} if with_ledger else {})})["model"]


def figure(model, path):
    return [one for part in ("pieces",
                             "joints") for thing in model[part] for one in thing["values"] if one["path"] == path][0]["text"]


# ---- ticks ----

@case
def ticks_are_kept_and_taken_back_and_live_on_another_device():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it)
        steps = ["post to foot/mortises", "post to foot/mortises/box/2", "finish"]
        for step in steps:
            got = it.json("/api/tick", {"job": job, "step": step, "done": True})
        same([(one["step"], one["done"]) for one in got["ticks"]], [(step, True) for step in steps])
        got = it.json("/api/tick", {"job": job, "step": steps[1], "done": False})
        same([one["done"] for one in got["ticks"]], [True, False, True])
        with serving.Program([PROGRAM, "serve", "--book", os.path.join(it.home, "book.sqlite")]) as other:
            other.get_in()
            same([(one["step"], one["done"]) for one in entry_of(other, job)["ticks"]], list(zip(steps, [True, False, True])))


@case
def ticks_of_nothing_are_refused():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it)
        refused(it.json("/api/tick", {"job": job + 1, "step": "x", "done": True}), 404, "no such job")
        refused(it.json("/api/tick", {"job": job, "step": "", "done": True}), 400)
        refused(it.json("/api/tick", {"job": job, "step": "x", "done": "yes"}), 400, "done", "true or false")
        refused(it.json("/api/tick", {"job": job, "step": "x" * 1001, "done": True}), 400)
        same(entry_of(it, job)["ticks"], [])


# ---- measured sizes ----

@case
def a_measured_thickness_counts_from_then_on_in_this_job_alone():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        other = it.json("/api/book/copy", {"shelf": "jobs", "id": job, "name": "Another"})["id"]
        ask = {"job": job, "revision": 1, "key": "pieces/post/thickness", "file": "job", "value": "44.6", "note": "after planing"}
        tried = it.json("/api/measured", {**ask, "try": True})
        moved = {one["id"]: (one["before"], one["after"]) for one in tried["moved"]}
        same(moved["pieces/post/thickness"], ("45.0 mm", "44.6 mm"))
        true(len(moved) > 2, "what is reckoned from it moves too")
        same(entry_of(it, job)["ledger"], [], "only tried")
        same(figure(model_of(it, job, shop, text), "pieces/post/thickness"), "45.0 mm")
        kept = it.json("/api/measured", ask)
        same(kept["moved"], tried["moved"])
        line = entry_of(it, job)["ledger"][0]
        same((line["key"], line["file"], line["value"], line["text"], line["note"], line["revision"], line["drawn"]),
             ("pieces/post/thickness", "job", 44.6, "44.60 mm", "after planing", 1, False))
        same(figure(model_of(it, job, shop, text), "pieces/post/thickness"), "44.6 mm")
        same(figure(model_of(it, job, shop, text, with_ledger=False), "pieces/post/thickness"), "45.0 mm")
        same(figure(model_of(it, other, shop, text), "pieces/post/thickness"), "45.0 mm", "another job is as drawn")
        same(entry_of(it, job)["text"], text, "the text stays as drawn")


@case
def the_last_measured_value_counts_until_the_drawn_one_is_called_back():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        ask = {"job": job, "revision": 1, "key": "pieces/post/thickness"}
        for value, wanted in (("44.6", "44.6 mm"), ("1 3/4 in", "44.5 mm"), (" 44 mm ", "44.0 mm"), ("", "45.0 mm"),
                              ("44.8", "44.8 mm")):
            got = it.json("/api/measured", {**ask, "value": value})
            same(got["status"], 200, got)
            same(figure(model_of(it, job, shop, text), "pieces/post/thickness"), wanted, value)
        same([one["text"] for one in got["ledger"]], ["44.60 mm", "44.45 mm", "44.00 mm", "as drawn", "44.80 mm"],
             "nothing is forgotten")


@case
def a_measured_cutter_moves_what_is_set_for_it():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        places = {one["key"]: one for step in model_of(it, job, shop,
                                                       text)["steps"] for one in step["ledger"] if one["file"] == "shop"}
        key = "cutters/spiral 8/measured"
        same(places[key]["now"], "8.00 mm")
        got = it.json("/api/measured", {"job": job, "revision": 1, "key": key, "file": "shop", "value": "7.92 mm", "try": True})
        same((got["status"], got["ledger"]), (200, []), got)
        true(len(got["moved"]) > 0, "nothing moved")
        refused(it.json("/api/measured", {"job": job, "revision": 1, "key": key, "file": "shop", "value": "19 mm"}), 400, "19 mm")
        same(entry_of(it, job)["ledger"], [])


@case
def values_that_cannot_be_measured_are_refused_and_not_kept():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it)
        good = {"job": job, "revision": 1, "key": "pieces/post/thickness", "value": "44.6"}
        for change, status, word in (({"value": "thick"}, 400, "thick"), ({"value": "0"}, 400, "over nothing"),
                                     ({"value": "-3"}, 400, "-3"), ({"value": 44.6}, 400, "value"),
                                     ({"value": "5 deg"}, 400, "5 deg"), ({"value": "1e9"}, 400, "1e9"),
                                     ({"key": "pieces/nobody/thickness"}, 400, "nobody"), ({"key": ""}, 400,
                                         "key"), ({"key": "pieces//x"}, 400, "pieces//x"),
                                     ({"key": "cutters/none/measured", "file": "shop"}, 400, "none"), ({"file": "book"}, 400,
                                         "book"), ({"job": job + 9}, 404, "job"),
                                     ({"revision": 9}, 404, "revision 9"), ({"revision": 0}, 400,
                                         "revision"), ({"note": "n" * 1001}, 400, "note"), ({"try": 1}, 400, "try")):
            refused(it.json("/api/measured", {**good, **change}), status, word)
        said = it.json("/api/measured", {**good, "value": "thick"})["error"]
        same(said["what"], 'what was measured, "thick" is no length')
        refused(it.json("/api/measured", {**good, "value": "44,6"}), 400, '"44,6" is no length: a comma stands in the number')
        same(entry_of(it, job)["ledger"], [])


@case
def a_value_measured_in_an_inch_job_is_in_inches():
    with desk.opened(PROGRAM) as it:
        begun = it.json("/api/book/begin", {"kind": "trestle table", "units": "in"})
        text = entry_of(it, begun["id"])["text"]
        got = it.json("/api/measured", {"job": begun["id"], "revision": 1, "key": "amounts/stock", "value": "1 7/16"})
        same(got["status"], 200, got)
        same((got["ledger"][0]["text"], round(got["ledger"][0]["value"], 6)), ("1.4375 in", 36.5125))
        true(any(one["id"] == "amounts/stock" for one in got["moved"]), [one["id"] for one in got["moved"]][:5])
        true("stock: 1 1/2" in text)


# ---- trial cuts ----

def steps_with(model, key):
    return [one for one in model["steps"] if one[key]]


@case
def a_trial_cut_says_which_stop_to_move_and_how_far():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        steps = [one for one in model_of(it, job, shop, text)["steps"] if one["card"] and one["measure"]]
        true(len(steps) >= 5, len(steps))
        moved = 0
        for step in steps:
            ask = {"text": text, "shop": shop, "job": job, "step": step["key"]}
            wanted = step["measure"]["wanted_mm"]
            good = it.json("/api/trial", {**ask, "got": f"{wanted:.3f} mm"})
            same((good["status"], good["good"], good["moves"]), (200, True, []), step["key"])
            true(any(one["of"] == "measure" for one in good["dimensions"]), step["key"])
            off = it.json("/api/trial", {**ask, "got": f"{wanted + 1:.3f} mm"})
            same((off["status"], off["good"]), (200, False), step["key"])
            true(off["moves"] or off["notes"], step["key"])
            for move in off["moves"]:
                true(move["by_mm"] > 0 and move["by"] and move["way"] and move["sum"], move)
            moved += bool(off["moves"])
        true(moved > 0, "no trial had a move")


@case
def a_depth_that_came_out_shallow_goes_deeper_by_the_error_itself():
    """Design section 6: the ratio does not act on the depth, so the stop moves by the error: 0.4 mm."""
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        for step in model_of(it, job, shop, text)["steps"]:
            if not step["card"]:
                continue
            ask = {"text": text, "shop": shop, "job": job, "step": step["key"], "of": "depth"}
            depth = [one for one in it.json("/api/trial", {**ask, "got": "1"})["dimensions"] if one["of"] == "depth"]
            if not depth:
                continue
            got = it.json("/api/trial", {**ask, "wanted": "20", "got": "19.6"})
            same([(one["way"], round(one["by_mm"], 6)) for one in got["moves"]], [("deeper", 0.4)], step["key"])
            return
        raise AssertionError("no card has a depth")


@case
def the_flip_test_moves_half_of_the_difference():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        tried = 0
        for step in model_of(it, job, shop, text)["steps"]:
            if not (step["card"] and step["centred"]):
                continue
            got = it.json("/api/trial", {"text": text, "shop": shop, "job": job, "step": step["key"], "flip": ["18.0", "17.2"]})
            same(got["status"], 200, got)
            for move in got["moves"]:
                true(move["stop"] not in ("table", "stop") or abs(move["by_mm"] - 0.4) < 1e-6, move)  # half of 0.8
                tried += 1
            refused(it.json("/api/trial", {"text": text, "shop": shop, "step": step["key"], "flip": ["18.0"]}), 400, "two")
            refused(it.json("/api/trial", {"text": text, "shop": shop, "step": step["key"], "flip": ["18.0", "x"]}), 400, '"x"')
        true(tried > 0, "no card is centred")


@case
def trials_of_nothing_are_refused():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        step = steps_with(model_of(it, job, shop, text), "measure")[0]["key"]
        good = {"text": text, "shop": shop, "step": step, "got": "38"}
        for change, status, word in (({"step": "no such step"}, 404, "no such step"), ({"step": ""}, 404, "step"),
                                     ({"got": "wide"}, 400, "wide"), ({"got": 38}, 400, "got"),
                                     ({"wanted": "?"}, 400, "?"), ({"of": "width"}, 400, "measure"), ({"shop": 99}, 404, "shop")):
            refused(it.json("/api/trial", {**good, **change}), status, word)
        del good["got"]
        refused(it.json("/api/trial", good), 400, '"got" is missing')
        negative = it.json("/api/trial", {**good, "got": "-2"})
        true(negative["status"] == 400 or (not negative["moves"] and negative["notes"]), negative)


if __name__ == "__main__":
    cases.run()
