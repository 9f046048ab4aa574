#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The book over HTTP: lists, beginning, import, copies, the bin, texts, saving, conflicts. Usage: api_book.py PROGRAM"""
import json
import os
import sys
import urllib.parse

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from desk import refused  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM = os.path.abspath(sys.argv[1])
cases = serving.Cases()
case = cases.case


def listed(it, shelf="jobs", **words):
    query = urllib.parse.urlencode({"shelf": shelf, **words})
    return it.json(f"/api/book?{query}")["entries"]


@case
def a_new_book_is_empty():
    with desk.opened(PROGRAM) as it:
        same(listed(it), [])
        same(listed(it, "shops"), [])


@case
def a_job_is_begun_from_each_starting_design_and_reads_as_it_is():
    with desk.opened(PROGRAM) as it:
        designs = it.json("/api/words")["designs"]
        true(len(designs) >= 7, designs)
        shops = set()
        for number, design in enumerate(designs):
            units = ("mm", "in")[number % 2]
            begun = it.json("/api/book/begin", {"kind": design["kind"], "units": units})
            shops.add(begun["shop"])
            entry = it.json(f"/api/entry?shelf=jobs&id={begun['id']}")
            same(entry["entry"]["name"], design["title"])
            true(f"units: {units}" in entry["text"], entry["text"][:200])
            got = it.json("/api/reckon", {"text": entry["text"], "shop": begun["shop"]})
            same(got["state"], "good", (design["kind"], got["findings"]))
        same(len(shops), 1, "one starting shop serves all")
        same(len(listed(it, "shops")), 1)


@case
def a_job_begun_under_a_name_has_it_as_its_title():
    with desk.opened(PROGRAM) as it:
        name = "Table: “nine” # feet, 2 × 3"
        begun = it.json("/api/book/begin", {"kind": "bench", "units": "mm", "name": name})
        entry = it.json(f"/api/entry?shelf=jobs&id={begun['id']}")
        same(entry["entry"]["name"], name)
        got = it.json("/api/reckon", {"text": entry["text"], "shop": begun["shop"], "model": True})
        same(got["model"]["job"]["title"], name)


@case
def a_design_that_is_not_there_is_refused_with_the_nearest():
    with desk.opened(PROGRAM) as it:
        refused(it.json("/api/book/begin", {"kind": "trestel table", "units": "mm"}), 400, "trestel table", "trestle table")
        refused(it.json("/api/book/begin", {"kind": "bench", "units": "cubits"}), 400, "units", "mm or in")
        refused(it.json("/api/book/begin", {"kind": 7, "units": "mm"}), 400, "kind", "text")
        same(listed(it), [])
        same(listed(it, "shops"), [], "a refusal leaves no shop behind")


@case
def what_is_imported_comes_back_byte_for_byte_whatever_it_is():
    texts = ["", "job: x\n", "no job at all: [", "tab\tquote\" back\\slash\r\n\u00e9\u2028\U0001f600 end without line end",
             "#" * 100000]
    with desk.opened(PROGRAM) as it:
        for number, text in enumerate(texts):
            made = it.json("/api/book/import", {"shelf": "jobs", "name": f"n {number}", "text": text})
            same(it.json(f"/api/entry?shelf=jobs&id={made['id']}")["text"], text)
            same(it.json(f"/api/text?shelf=jobs&id={made['id']}&number=1")["text"], text)


@case
def an_import_without_a_name_takes_the_title_of_the_text():
    with desk.opened(PROGRAM) as it:
        job, shop, text, shop_text = desk.put_example(it)
        same(listed(it)[0]["name"], "Reading table of the travelling library")
        same(listed(it, "shops")[0]["name"], "The shop behind the reading room")
        entry = it.json(f"/api/entry?shelf=jobs&id={job}")
        same((entry["text"], entry["shop_text"], entry["shop"], entry["number"]), (text, shop_text, shop, 1))
        nameless = it.json("/api/book/import", {"shelf": "jobs", "text": "pieces: {}"})
        same(it.json(f"/api/entry?shelf=jobs&id={nameless['id']}")["entry"]["name"], "A job without a title")
        same(nameless["shop"], shop, "the shop that the book has")
        for title in ('"a\\tb"', '"  "', "x" * 1001, "[1, 2]"):
            made = it.json("/api/book/import", {"shelf": "jobs", "text": f"job: {title}\n"})
            same(it.json(f"/api/entry?shelf=jobs&id={made['id']}")["entry"]["name"], "A job without a title", title[:20])


@case
def bad_imports_are_refused_and_leave_nothing():
    with desk.opened(PROGRAM) as it:
        refused(it.json("/api/book/import", {"shelf": "jobs"}), 400, '"text" is missing')
        refused(it.json("/api/book/import", {"shelf": "drawers", "text": "x"}), 400, "drawers", "jobs or shops")
        refused(it.json("/api/book/import", {"shelf": "jobs", "text": ["x"]}), 400, "list", "text")
        refused(it.json("/api/book/import", {"shelf": "jobs", "text": "x", "name": "a\nb"}), 400, "name")
        refused(it.json("/api/book/import", {"shelf": "jobs", "text": "x", "name": "n" * 1001}), 400, "name")
        refused(it.json("/api/book/import", {"shelf": "jobs", "text": "x", "shop": 99}), 404, "shop")
        refused(it.json("/api/book/import", {"shelf": "jobs", "text": "x", "shop": -1}), 400, "shop")
        status, _, body = it.ask("POST", "/api/book/import", b'{"shelf": "jobs", "text": "a\\u0000b"}')
        same(status, 400, body)
        same([one["name"] for one in listed(it)], [])


@case
def bodies_that_are_no_object_are_refused():
    with desk.opened(PROGRAM) as it:
        for body in (b"", b"{", b"[]", b"7", b'"x"', b"null", b'{"a": 1, "a": 2}', b'{"id": 1e400}', b"\xff", b"{} {}",
                     b"[" * 5000, b'{"x":' * 30 + b"1" + b"}" * 30,
                     b'{"x": [' + b"1," * 30000 + b"1]}"):
            status, _, answer = it.ask("POST", "/api/book/rename", body)
            same(status, 400, (body[:40], answer))
            true(json.loads(answer)["error"]["what"], body[:40])


@case
def ids_that_are_none_are_refused():
    with desk.opened(PROGRAM) as it:
        for body in ({}, {"id": None}, {"id": "1"}, {"id": 0}, {"id": -1}, {"id": 1.5}, {"id": 2 ** 63 - 1}, {"id": True}):
            answer = it.json("/api/book/bin", {"shelf": "jobs", **body})
            refused(answer, 404 if body.get("id") == 2 ** 63 - 1 else 400)
        for query in ("", "?shelf=jobs", "?shelf=jobs&id=x", "?shelf=jobs&id=0", "?id=1", "?shelf=books&id=1"):
            refused(it.json(f"/api/entry{query}"), 400)
        refused(it.json("/api/entry?shelf=jobs&id=7"), 404, "no such job")
        refused(it.json("/api/entry?shelf=shops&id=7"), 404, "no such shop")
        refused(it.json("/api/text?shelf=jobs&id=7&number=1"), 404)
        refused(it.json("/api/text?shelf=jobs&id=7&number=one"), 400, "number")


@case
def the_list_finds_words_of_names_and_texts():
    with desk.opened(PROGRAM) as it:
        for name, text in (("Cider press", "oak beam"), ("Stool", "ash legs"), ("Bench", "oak legs")):
            it.json("/api/book/import", {"shelf": "jobs", "name": name, "text": text})
        same([one["name"] for one in listed(it, words="OAK")], ["Bench", "Cider press"])
        same([one["name"] for one in listed(it, words="stool")], ["Stool"])
        same(listed(it, words="walnut"), [])
        same(len(listed(it, words="")), 3)


@case
def what_is_binned_leaves_the_list_and_comes_back():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "x"})
        same(it.json("/api/book/bin", {"shelf": "jobs", "id": made["id"]})["status"], 200)
        same(listed(it), [])
        binned = listed(it, binned=1)
        same([(one["id"], one["binned"]) for one in binned], [(made["id"], True)])
        same(it.json(f"/api/entry?shelf=jobs&id={made['id']}")["text"], "x", "it can still be read")
        same(it.json("/api/book/unbin", {"shelf": "jobs", "id": made["id"]})["status"], 200)
        same([one["id"] for one in listed(it)], [made["id"]])
        refused(it.json("/api/book/unbin", {"shelf": "jobs", "id": 99}), 404)


@case
def an_entry_is_renamed_and_copied_from_any_revision():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]
        same(it.json("/api/save", {"shelf": "jobs", "id": made, "expected": 1, "text": "two", "why": "w"})["number"], 2)
        same(it.json("/api/book/rename", {"shelf": "jobs", "id": made, "name": "Low stool"})["status"], 200)
        old = it.json("/api/book/copy", {"shelf": "jobs", "id": made, "number": 1, "name": "Old"})["id"]
        new = it.json("/api/book/copy", {"shelf": "jobs", "id": made, "name": "New"})["id"]
        entry = it.json(f"/api/entry?shelf=jobs&id={old}")
        same((entry["text"], entry["entry"]["from"], entry["entry"]["from_number"]), ("one", made, 1))
        same(it.json(f"/api/entry?shelf=jobs&id={new}")["text"], "two")
        same(sorted(one["name"] for one in listed(it)), ["Low stool", "New", "Old"])
        refused(it.json("/api/book/rename", {"shelf": "jobs", "id": made, "name": "  "}), 400, "name")
        refused(it.json("/api/book/copy", {"shelf": "jobs", "id": made, "number": 9, "name": "x"}), 404, "revision 9")
        refused(it.json("/api/book/copy", {"shelf": "jobs", "id": made}), 400, '"name" is missing')


@case
def every_save_is_a_revision_with_its_reason_and_keeps_the_shop():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        for number in range(1, 6):
            got = it.json("/api/save", {"shelf": "jobs", "id": job, "expected": number, "text": f"{text}# {number}\n",
                                        "why": f"change {number}"})
            same(got["number"], number + 1)
        entry = it.json(f"/api/entry?shelf=jobs&id={job}")
        same([one["number"] for one in entry["revisions"]], [6, 5, 4, 3, 2, 1])
        same(entry["revisions"][0]["why"], "change 5")
        same(entry["shop"], shop)
        for number in range(2, 7):
            old = it.json(f"/api/text?shelf=jobs&id={job}&number={number}")
            same((old["text"], old["number"], old["why"]), (f"{text}# {number - 1}\n", number, f"change {number - 1}"))
        same(it.json("/api/save", {"shelf": "jobs", "id": job, "expected": 6, "text": "t", "why": "", "shop": 0})["number"], 7)
        same(it.json(f"/api/entry?shelf=jobs&id={job}")["shop_text"], "", "told to have none")


@case
def a_save_over_a_newer_revision_is_a_conflict_that_says_the_newest():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]
        first = {"shelf": "jobs", "id": made, "expected": 1, "text": "mine", "why": "a"}
        same(it.json("/api/save", first)["number"], 2)
        late = it.json("/api/save", {**first, "text": "theirs"})
        refused(late, 409)
        same((late["error"]["code"], late["newest"]), ("conflict", 2))
        same(it.json(f"/api/entry?shelf=jobs&id={made}")["text"], "mine", "nothing was overwritten")
        kept = it.json("/api/branch", {"shelf": "jobs", "id": made, "number": 1, "name": "Stool, mine", "text": "theirs",
                                       "why": "kept beside"})
        entry = it.json(f"/api/entry?shelf=jobs&id={kept['id']}")
        same((entry["text"], [one["number"] for one in entry["revisions"]]), ("theirs", [2, 1]))
        same(it.json("/api/save", {**first, "expected": 2, "text": "theirs"})["number"], 3, "over it, knowingly")


@case
def a_save_whose_answer_was_lost_is_no_conflict_with_itself():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]
        once = {"shelf": "jobs", "id": made, "expected": 1, "text": "two", "why": "a"}
        same([it.json("/api/save", once).get("number") for _ in range(3)], [2, 2, 2])
        same(len(it.json(f"/api/entry?shelf=jobs&id={made}")["revisions"]), 2)
        refused(it.json("/api/save", {**once, "text": "TWO"}), 409)
        same(it.json("/api/save", {**once, "expected": 2, "text": "three"})["number"], 3)
        refused(it.json("/api/save", {**once, "text": "three"}), 409)  # it is the newest text, but made from another one


@case
def saves_that_cannot_be_are_refused():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]
        good = {"shelf": "jobs", "id": made, "expected": 1, "text": "two", "why": ""}
        refused(it.json("/api/save", {**good, "id": 99}), 404, "no such job")
        refused(it.json("/api/save", {**good, "expected": 0}), 400, "expected")
        late = it.json("/api/save", {**good, "expected": 7})
        same((late["status"], late["newest"]), (409, 1), "a revision that is not there")
        refused(it.json("/api/save", {**good, "why": "w" * 1001}), 400, "reason")
        refused(it.json("/api/save", {**good, "shop": 55}), 404, "shop")
        refused(it.json("/api/branch", {**good, "number": 4, "name": "x"}), 404)
        same(len(it.json(f"/api/entry?shelf=jobs&id={made}")["revisions"]), 1)


@case
def a_text_larger_than_a_file_may_be_is_told_so():
    with desk.opened(PROGRAM) as it:
        made = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]
        answer = it.json("/api/save", {"shelf": "jobs", "id": made, "expected": 1, "text": "x" * (4 * 1024 * 1024 + 1),
                                       "why": ""})
        refused(answer, 413, "4194304")
        same(it.json("/api/save", {"shelf": "jobs", "id": made, "expected": 1, "text": "x" * (4 * 1024 * 1024),
                                   "why": ""})["number"], 2)


@case
def a_job_named_when_the_program_starts_is_put_in_once():
    path = os.path.join(desk.ROOT, "examples", "reading-table", "job.yaml")
    with desk.folder() as home:
        start = [PROGRAM, "serve", path, "--book", os.path.join(home, "book.sqlite")]
        for _ in range(2):
            with serving.Program(start) as it:
                headers = it.get_in()
                same(headers["location"], "/#/job/1")
                entries = listed(it)
                same([(one["id"], one["name"]) for one in entries], [(1, "Reading table of the travelling library")])
                same(it.json("/api/entry?shelf=jobs&id=1")["shop_text"], desk.example("reading-table")[1])
        with serving.Program(start) as it:
            it.get_in()
            it.json("/api/save", {"shelf": "jobs", "id": 1, "expected": 1, "text": "job: changed\n", "why": "at the desk"})
        with serving.Program(start) as it:
            it.get_in()
            same(len(listed(it)), 1, "its first revision had this text")
            same(it.json("/api/entry?shelf=jobs&id=1")["text"], "job: changed\n", "and what was saved since stays the newest")


@case
def a_job_file_that_is_no_text_is_not_put_in():
    import subprocess
    with desk.folder() as home:
        path = os.path.join(home, "job.yaml")
        with open(path, "wb") as file:
            file.write(b"job: \xff\xfe\n")
        done = subprocess.run([PROGRAM, "serve", path, "--book", os.path.join(home, "book.sqlite")], capture_output=True,
                              timeout=30, check=False)
        same((done.returncode, done.stdout), (2, b""), done.stderr)
        true(b"UTF-8" in done.stderr, done.stderr)


if __name__ == "__main__":
    cases.run()
