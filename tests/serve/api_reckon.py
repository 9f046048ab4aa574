#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A job reckoned over HTTP: changes tried, drawings, the model, comparing, 3D, what is proposed and taken away. The same texts
are put before the command line too, which must say the same. Usage: api_reckon.py PROGRAM"""
import json
import os
import subprocess
import sys

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from desk import refused  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM = os.path.abspath(sys.argv[1])
cases = serving.Cases()
case = cases.case
JOB, SHOP = desk.example("reading-table")


def reckon(it, **more):
    return it.json("/api/reckon", {"text": JOB, "shop_text": SHOP, **more})


def set_to(path, value, **more):
    return {"kind": "set", "path": path, "value": value, **more}


def checked(text, shop_text, home):
    """The findings of `tuskwright check` about the same texts."""
    for name, said in (("job.yaml", text), ("shop.yaml", shop_text)):
        with open(os.path.join(home, name), "w", encoding="utf-8", newline="") as file:
            file.write(said)
    done = subprocess.run([PROGRAM, "check", "job.yaml", "--shop", "shop.yaml", "--json"], cwd=home, capture_output=True,
                          timeout=60, check=False)
    return json.loads(done.stdout)


@case
def findings_are_those_of_the_command_line():
    kept = ("level", "code", "about", "line", "column", "what", "remedy")
    with desk.opened(PROGRAM) as it:
        for text in (JOB, JOB.replace("thickness: 28", "thickness: 14"), JOB.replace("post:", "pst:", 1), "job: x\npieces: [",
                     ""):
            here, there = it.json("/api/reckon", {"text": text, "shop_text": SHOP}), checked(text, SHOP, it.home)
            same(here["state"], there["state"])
            same([[one[key] for key in kept] for one in here["findings"]],
                 [[one[key] for key in kept] for one in there["findings"]])
            same({one["file"] for one in here["findings"]} <= {"job", "shop"}, True)


@case
def a_change_is_tried_and_nothing_is_saved():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        got = it.json("/api/reckon", {"text": text, "shop": shop, "changes": [set_to("pieces/post/width", "115 mm")]})
        same((got["good"], got["state"]), (True, "good"))
        same(got["text"], text.replace("width: 110", "width: 115 mm"), "all else stays byte for byte")
        true("shop_text" not in got and "refused" not in got)
        same(it.json(f"/api/entry?shelf=jobs&id={job}")["text"], text)
        again = it.json("/api/reckon", {"text": got["text"], "shop": shop, "model": True})
        values = [one for piece in again["model"]["pieces"] for one in piece["values"]]
        width = [one for one in values if one["path"] == "pieces/post/width"][0]
        same((width["text"], width["written"], width["given"]), ("115.0 mm", "115 mm", True))


@case
def what_changes_nothing_brings_no_text():
    with desk.opened(PROGRAM) as it:
        got = reckon(it, changes=[set_to("pieces/post/width", "110")])
        same((got["good"], "text" in got), (True, False))
        same("text" in reckon(it), False)


@case
def changes_of_every_kind_and_of_both_files_are_made_together():
    with desk.opened(PROGRAM) as it:
        got = reckon(it, changes=[
            {"kind": "add", "path": "pieces/shelf", "entries": [{"key": "count", "value": "1"}, {"key": "length", "value": "900"},
                                                                 {"key": "width", "value": "200"}, {"key": "thickness",
                                                                     "value": "22"}]},
            {"kind": "rename", "path": "pieces/stretcher", "value": "rail"},
            {"kind": "set", "path": "joints/stretcher to post/at", "list": ["200", "470"]},
            set_to("shop", "The other shop", file="shop")])
        same((got["good"], got["state"]), (True, "good"), got)
        for part in ("  shelf:", "  rail:", "tenon: rail", "[200, 470]"):
            true(part in got["text"], (part, got["text"]))
        true("shop: The other shop" in got["shop_text"], got["shop_text"][:100])
        gone = it.json("/api/reckon", {"text": got["text"], "shop_text": SHOP, "changes": [{"kind": "remove",
            "path": "pieces/shelf"}]})
        true("shelf:" not in gone["text"])


@case
def changes_that_cannot_be_made_change_nothing_and_say_why():
    with desk.opened(PROGRAM) as it:
        for changes, word in (
                ([set_to("pieces/post/width", "about a hand")], "about a hand"),
                ([set_to("pieces/post/width", "115"), set_to("pieces/post/colour", "red")], "colour"),
                ([set_to("pieces/post/width", "115"), set_to("cutters/none/measured", "8", file="shop")], "none"),
                ([{"kind": "remove", "path": "pieces/nobody"}], "nobody"),
                ([{"kind": "rename", "path": "pieces/post", "value": "head"}], "head"),
                ([{"kind": "add", "path": "pieces/post", "entries": [{"key": "count", "value": "1"}]}], "post")):
            got = reckon(it, changes=changes)
            same((got["status"], got["good"]), (200, False), changes)
            true("text" not in got and "shop_text" not in got, changes)
            true(any(word in f"{one['what']} {one['remedy']}" for one in got["refused"]), (word, got["refused"]))
            same(got["state"], "good", "all else is told of the text as it was")


@case
def bodies_that_say_no_right_change_are_refused():
    with desk.opened(PROGRAM) as it:
        for change, word in (({"kind": "move", "path": "x"}, "set, remove, add or rename"),
                             ({"kind": "set", "path": "a//b", "value": "1"}, "a//b"),
                             ({"kind": "set", "path": "pieces/post/width"}, "changes/1/list"), ({"kind": "add",
                                 "path": "pieces/x"}, "changes/1/entries"),
                             ({"kind": "add", "path": "pieces/x", "entries": [{"value": "1"}]},
                              "changes/1/entries/1/key"), ({"path": "units"}, "changes/1/kind"),
                             ({"kind": "set", "path": "units", "value": 3}, "changes/1/value"), ({"kind": "set", "path": "units",
                                 "value": "mm", "file": "book"}, "file"),
                             ("set", "changes/1"), ({"kind": "set", "path": "~2", "value": "1"}, "~2")):
            refused(reckon(it, changes=[change]), 400, word)
        refused(reckon(it, changes={"kind": "set"}), 400, "changes", "list")
        refused(reckon(it, changes=[set_to("units", "mm")] * 201), 400, "201")


@case
def a_job_is_reckoned_with_the_shop_it_is_given():
    with desk.opened(PROGRAM) as it:
        refused(it.json("/api/reckon", {"text": JOB}), 400, "shop")
        refused(it.json("/api/reckon", {"text": JOB, "shop": 0}), 400, "shop")
        refused(it.json("/api/reckon", {"text": JOB, "shop": 5}), 404, "shop")
        refused(it.json("/api/reckon", {"shop_text": SHOP}), 400, "text")
        refused(it.json("/api/reckon", {"text": JOB, "shop_text": SHOP, "job": "1"}), 400, "job")
        _, shop, text, shop_text = desk.put_example(it)
        here = it.json("/api/reckon", {"text": text, "shop": shop})
        there = it.json("/api/reckon", {"text": text, "shop_text": shop_text})
        same({**here, "took_us": 0}, {**there, "took_us": 0})


@case
def figures_are_shown_in_the_units_asked_and_the_text_stays():
    with desk.opened(PROGRAM) as it:
        for figures, wanted in ((None, "110.0 mm"), ("mm 0.01", "110.00 mm"), ("in 0.001", "4.331 in"),
                                ("in 1/64", "4 21/64 in")):
            got = reckon(it, figures=figures, model=True, drawings=[{"what": "piece", "name": "post", "width_mm": 180}])
            width = [one for piece in got["model"]["pieces"] for one in piece["values"] if one["path"] == "pieces/post/width"][0]
            true(width["text"].startswith(wanted), (figures, width["text"]))
            same(width["written"], "110")
            true(wanted.split(" ")[0] in got["drawings"][0]["svg"], figures)
        got = reckon(it, figures="cubits")
        same(got["state"], "wrong")


@case
def the_model_has_all_parts_with_figures_that_have_ids_of_their_own():
    with desk.opened(PROGRAM) as it:
        model = reckon(it, model=True)["model"]
        same(model["job"]["title"], "Reading table of the travelling library")
        for part in ("pieces", "joints", "templates", "steps"):
            true(len(model[part]) > 2, part)
        ids = [value["id"] for part in ("pieces", "joints", "templates") for one in model[part] for value in one["values"]]
        same(len(ids), len(set(ids)))
        true("model" not in reckon(it))


@case
def a_drawing_is_sent_once_and_then_only_when_it_changes():
    with desk.opened(PROGRAM) as it:
        ask = {"what": "joint", "name": "stretcher to post", "width_mm": 180}
        first = reckon(it, drawings=[ask])["drawings"][0]
        true(first["svg"].startswith("<svg"), first["svg"][:80])
        true("data-from=" in first["svg"] and " style=" not in first["svg"] and "<style" not in first["svg"])
        known = reckon(it, drawings=[{**ask, "known": first["hash"]}])["drawings"][0]
        same((known["hash"], "svg" in known), (first["hash"], False))
        other = reckon(it, drawings=[{**ask, "known": first["hash"]}], changes=[set_to("pieces/post/thickness",
            "46")])["drawings"][0]
        true(other["hash"] != first["hash"] and other["svg"] != first["svg"])
        again = reckon(it, drawings=[{**ask, "known": other["hash"]}])["drawings"][0]
        same((again["hash"], again["svg"]), (first["hash"], first["svg"]), "and back to the same bytes")


@case
def drawings_that_are_not_there_have_no_picture():
    with desk.opened(PROGRAM) as it:
        for what, name in (("piece", "nobody"), ("joint", ""), ("sketch", "post"), ("card", "no such step"), ("template", "T99")):
            got = reckon(it, drawings=[{"what": what, "name": name, "width_mm": 180}])["drawings"][0]
            same((got["hash"], got.get("svg", "")), ("", ""), (what, name))
        for bad in ({"what": "piece", "name": "post"}, {"what": "piece", "name": "post", "width_mm": 20},
                    {"what": "piece", "name": "post", "width_mm": 5000},
                    {"name": "post", "width_mm": 180}, {"what": "piece", "name": 4, "width_mm": 180}):
            refused(reckon(it, drawings=[bad]), 400, "drawings/1/")
        refused(reckon(it, drawings=[{"what": "piece", "name": "post", "width_mm": 180}] * 101), 400, "101")


@case
def a_text_that_cannot_be_read_has_findings_and_no_pictures():
    with desk.opened(PROGRAM) as it:
        got = it.json("/api/reckon", {"text": "job: [", "shop_text": SHOP, "model": True,
                                      "drawings": [{"what": "whole", "width_mm": 180}],
                                      "compare_with": {"text": JOB}})
        same((got["state"], "model" in got, "drawings" in got, "moved" in got), ("wrong", False, False, False))
        true(got["findings"][0]["line"] >= 1)
        for path in ("/api/solids", "/api/removal", "/api/propose", "/api/trial"):
            body = {"text": "job: [", "shop_text": SHOP, "what": "pieces", "name": "x", "step": "x", "got": "1",
                    "first": {"piece": "a", "face": "face", "at": 0}, "second": {"piece": "b", "face": "face", "at": 0}}
            refused(it.json(path, body), 400, "cannot be read")


@case
def two_revisions_are_compared_figure_by_figure():
    with desk.opened(PROGRAM) as it:
        same(reckon(it, compare_with={"text": JOB})["moved"], [])
        moved = reckon(it, changes=[set_to("pieces/post/thickness", "46")], compare_with={"text": JOB})["moved"]
        by_id = {one["id"]: one for one in moved}
        same((by_id["pieces/post/thickness"]["before"], by_id["pieces/post/thickness"]["after"]), ("45.0 mm", "46.0 mm"))
        true(len(moved) > 3, "what is reckoned from it moves too")
        back = it.json("/api/reckon", {"text": JOB, "shop_text": SHOP, "compare_with": {"text": JOB.replace("thickness: 45",
            "thickness: 46")}})["moved"]
        same({one["id"]: (one["after"], one["before"]) for one in back}, {one["id"]: (one["before"],
            one["after"]) for one in moved}, "and the other way round")
        refused(reckon(it, compare_with={}), 400, "compare_with/text")
        refused(reckon(it, compare_with=JOB), 400, "compare_with")


@case
def an_offered_fix_is_made_as_it_is_offered_and_clears_its_finding():
    with desk.opened(PROGRAM) as it:
        fixed = 0
        for text in (JOB.replace("thickness: 28", "thickness: 14"), JOB.replace("angle: 5 deg", "angle: 20 deg"),
                     JOB.replace("length: 1210", "length: 700")):
            got = it.json("/api/reckon", {"text": text, "shop_text": SHOP})
            for finding in got["findings"]:
                for fix in finding["fixes"]:
                    mended = it.json("/api/reckon", {"text": text, "shop_text": SHOP, "changes": fix["changes"]})
                    same(mended["good"], True, (fix, mended.get("refused")))
                    true(not any((one["code"], one["about"]) == (finding["code"],
                                                                 finding["about"]) for one in mended["findings"]), fix["label"])
                    fixed += 1
        true(fixed > 0, "none was offered")


@case
def the_3d_view_has_each_kind_of_piece_where_it_stands():
    with desk.opened(PROGRAM) as it:
        solids = it.json("/api/solids", {"text": JOB, "shop_text": SHOP})
        same({one["piece"] for one in solids["kinds"] if "piece" in one}, {"post", "foot", "head", "stretcher"})
        same(len([one for one in solids["stood"] if one["number"] > 0]), 8)
        wider = it.json("/api/solids", {"text": JOB, "shop_text": SHOP, "changes": [set_to("pieces/post/width", "120")]})
        true(wider["kinds"] != solids["kinds"], "a change that is tried is shown")
        refused(it.json("/api/solids", {"text": JOB, "shop_text": SHOP, "changes": [set_to("pieces/post/width", "x")]}), 400)


@case
def a_joint_is_proposed_where_two_pieces_are_pointed_at():
    with desk.opened(PROGRAM) as it:
        plain = "\n".join(("job: Shelf", "units: mm", "pieces:",
                           "  side: {count: 2, length: 900, width: 250, thickness: 22, timber: \"Oak, white\"}",
                           "  shelf: {count: 1, length: 700, width: 250, thickness: 20, timber: \"Oak, white\"}", ""))
        ask = {"text": plain, "shop_text": SHOP, "first": {"piece": "shelf", "face": "left end", "at": 0},
               "second": {"piece": "side", "face": "face", "at": 300, "across": 10}}
        got = it.json("/api/propose", ask)["proposals"]
        true(any(one["kind"] == "housing" for one in got), [one["kind"] for one in got])
        for one in got:
            made = it.json("/api/reckon", {"text": plain, "shop_text": SHOP, "changes": one["changes"]})
            true(made["good"] and made["state"] != "wrong", (one["kind"], made))
        refused(it.json("/api/propose", {**ask, "first": {"piece": "nobody", "face": "face", "at": 0}}), 404, "nobody")
        refused(it.json("/api/propose", {**ask, "first": {"piece": "shelf", "face": "top", "at": 0}}), 400, "top", "left end")
        refused(it.json("/api/propose", {**ask, "second": {"piece": "side", "face": "face", "at": "here"}}), 400, "second/at")
        refused(it.json("/api/propose", {key: value for key, value in ask.items() if key != "second"}), 400, "second")


@case
def a_model_without_cards_is_the_same_but_for_what_they_say():
    with desk.opened(PROGRAM) as it:
        whole, brief = reckon(it, model=True)["model"], reckon(it, model=True, cards=False)["model"]
        told = ("key", "number", "name", "tally", "change")
        same([{key: step[key] for key in told} for step in whole["steps"]], brief["steps"])
        same({key: value for key, value in whole.items() if key != "steps"}, {key: value for key, value in brief.items() if key != "steps"})


@case
def a_piece_is_taken_away_with_its_joints():
    with desk.opened(PROGRAM) as it:
        got = it.json("/api/removal", {"text": JOB, "shop_text": SHOP, "what": "pieces", "name": "stretcher"})
        same([one["path"] for one in got["changes"]], ["joints/stretcher to post", "pieces/stretcher"])
        made = it.json("/api/reckon", {"text": JOB, "shop_text": SHOP, "changes": got["changes"]})
        true(made["good"] and "stretcher" not in made["text"].split("pieces:")[1], made.get("refused"))
        refused(it.json("/api/removal", {"text": JOB, "shop_text": SHOP, "what": "pieces", "name": "nobody"}), 404, "nobody")
        refused(it.json("/api/removal", {"text": JOB, "shop_text": SHOP, "what": "cutters", "name": "x"}), 400, "cutters")


@case
def reckoning_many_texts_does_not_grow_without_end():
    with desk.opened(PROGRAM) as it:
        def held():
            with open(f"/proc/{it.process.pid}/status", encoding="ascii") as file:
                return int([line for line in file if line.startswith("VmRSS")][0].split()[1])
        for number in range(40):
            reckon(it, changes=[set_to("pieces/post/width", f"{110 + number / 10:.1f}")], model=True)
        before = held()
        for number in range(120):
            reckon(it, changes=[set_to("pieces/post/width", f"{120 + number / 10:.1f}")], model=True)
        true(held() < before + 30000, f"from {before} to {held()} kB")


if __name__ == "__main__":
    cases.run()
