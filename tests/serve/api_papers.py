#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Papers over HTTP: made beside the page, with progress and a stop; the same bytes as `setout` writes. Usage: api_papers.py
PROGRAM"""
import os
import subprocess
import sys
import time
import urllib.parse

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from desk import refused  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM = os.path.abspath(sys.argv[1])
SMALL = "joints/housing"  # a job of few pages
SIZE, OTHER_SIZE = "thickness: 13", "thickness: 14"
cases = serving.Cases()
case = cases.case


def made(it, job, seconds=60, **more):
    """Has the papers made; every state that was seen on the way."""
    work, seen = it.json("/api/booklet", {"job": job, **more})["work"], []
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        seen.append(it.json(f"/api/work?id={work}"))
        if seen[-1]["state"] != "working":
            return seen
        time.sleep(0.02)
    raise AssertionError(f"not done in {seconds} s: {seen[-1]}")


def papers(it, job, **more):
    return it.json(f"/api/papers?{urllib.parse.urlencode({'job': job, **more})}")


def paper(it, job, name, **more):
    return it.ask("GET", f"/papers?{urllib.parse.urlencode({'job': job, 'name': name, **more})}")


def set_out(home, text, shop_text):
    """What `setout` makes of the same texts: {name: bytes}."""
    for name, said in (("job.yaml", text), ("shop.yaml", shop_text)):
        with open(os.path.join(home, name), "w", encoding="utf-8", newline="") as file:
            file.write(said)
    subprocess.run([PROGRAM, "setout", "job.yaml", "--shop", "shop.yaml", "-o", "out"], cwd=home, capture_output=True,
                   timeout=120, check=False)
    files = {}
    for folder, _, names in os.walk(os.path.join(home, "out")):
        for name in names:
            path = os.path.join(folder, name)
            with open(path, "rb") as file:
                files[os.path.relpath(path, os.path.join(home, "out"))] = file.read()
    del files["papers.list"]
    return files


@case
def the_papers_are_those_of_the_command_line_byte_for_byte():
    with desk.opened(PROGRAM) as it:
        job, _, text, shop_text = desk.put_example(it)
        same(papers(it, job)["ready"], False)
        seen = made(it, job)
        same(seen[-1]["state"], "done", seen[-1])
        got = papers(it, job)
        same(got["ready"], True)
        wanted = set_out(it.home, text, shop_text)
        wanted["booklet.pdf"] = wanted.pop("all-papers.pdf")
        names = [one["name"] for one in got["files"]]
        same(sorted(names), sorted([*wanted, "job.yaml", "shop.yaml"]))
        same(names[0], "booklet.pdf", "the booklet first")
        wanted.update({"job.yaml": text.encode(), "shop.yaml": shop_text.encode()})
        for one in got["files"]:
            status, _, body = paper(it, job, one["name"])
            same(status, 200, one["name"])
            true(body == wanted[one["name"]], f"{one['name']} has other bytes")
            same(len(body), one["bytes"], one["name"])
        same(paper(it, job, "all-papers.pdf")[2], wanted["booklet.pdf"], "by its other name too")


@case
def every_file_says_what_it_is_and_how_it_is_to_be_kept():
    types = {"pdf": "application/pdf", "svg": "image/svg+xml", "dxf": "image/vnd.dxf", "stl": "model/stl",
             "csv": "text/csv; charset=utf-8", "json": "application/json",
             "yaml": "application/yaml"}
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it, SMALL)
        made(it, job)
        files = papers(it, job)["files"]
        same({one["kind"] for one in files}, set(types))
        for one in files:
            true(one["title"], one)
            true(one["true_size"] or one["kind"] not in ("dxf", "stl"), one)
            true((one["pages"] > 0) == (one["kind"] in ("pdf", "svg")), one)
            status, headers, _ = paper(it, job, one["name"])
            same((status, headers["content-type"]), (200, types[one["kind"]]), one["name"])
            name = "jar-rack-of-the-dye-house-" + one["name"].split("/")[-1]
            true("attachment" in headers["content-disposition"] and name in headers["content-disposition"],
                 headers["content-disposition"])
            shown = paper(it, job, one["name"], show=1)[1]
            true("attachment" not in shown.get("content-disposition", ""), shown)
        by_name = {one["name"]: one for one in files}
        true(by_name["templates.pdf"]["true_size"] and not by_name["cards.pdf"]["true_size"])
        same(by_name["booklet.pdf"]["pages"], sum(one["pages"] for one in files if one["kind"] == "svg") + 2,
             "cover and contents")


@case
def progress_goes_up_to_all_pages_and_ends():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it)
        seen = made(it, job)
        counted = [one for one in seen if one["of"] > 0]
        true(len(counted) > 3, seen)
        same([one["done"] for one in counted], sorted(one["done"] for one in counted))
        same(len({one["of"] for one in counted}), 1, "all of them, from the first")
        true(all(one["done"] <= one["of"] for one in counted))
        true(len({one["what"] for one in seen if one["what"]}) > 1, "it says what it is at")


@case
def the_page_is_served_while_papers_are_made():
    with desk.opened(PROGRAM) as it:
        job, shop, text, _ = desk.put_example(it)
        work = it.json("/api/booklet", {"job": job})["work"]
        same(it.json("/api/booklet", {"job": job})["work"], work, "the same papers are not made twice")
        for number in range(5):
            same(it.json("/api/reckon", {"text": text, "shop": shop, "changes": [{"kind": "set", "path": "pieces/post/width",
                "value": str(111 + number)}]})["state"], "good")
        other = it.json("/api/book/copy", {"shelf": "jobs", "id": job, "name": "Another"})["id"]
        it.json("/api/save", {"shelf": "jobs", "id": other, "expected": 1, "text": text + "# another\n", "why": ""})
        going = it.json(f"/api/work?id={work}")["state"] == "working"
        answer = it.json("/api/booklet", {"job": other})
        if going and answer["status"] != 200:
            refused(answer, 409, "another job")


@case
def a_work_can_be_stopped_and_begun_again():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it, SMALL)
        work = it.json("/api/booklet", {"job": job})["work"]
        same(it.json("/api/work/stop", {"id": work})["status"], 200)
        until = time.monotonic() + 20
        while it.json(f"/api/work?id={work}")["state"] == "working" and time.monotonic() < until:
            time.sleep(0.02)
        same(it.json(f"/api/work?id={work}")["state"], "stopped")
        same(papers(it, job)["ready"], False)
        same(made(it, job)[-1]["state"], "done")
        same(papers(it, job)["ready"], True)
        same(it.json("/api/work/stop", {"id": work + 1})["status"], 200, "one that has ended needs no stopping")
        refused(it.json("/api/work/stop", {"id": 99}), 404)
        refused(it.json("/api/work?id=99"), 404)
        refused(it.json("/api/work?id=x"), 400)


@case
def a_program_that_is_ended_does_not_wait_for_its_papers():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it)
        it.json("/api/booklet", {"job": job})
        begun = time.monotonic()
        same(it.end()[0], 0)
        true(time.monotonic() - begun < 5, "it took long")


@case
def papers_belong_to_the_texts_and_sizes_they_were_made_of():
    with desk.opened(PROGRAM) as it:
        job, shop, text, shop_text = desk.put_example(it, SMALL)
        made(it, job)
        it.json("/api/save", {"shelf": "jobs", "id": job, "expected": 1, "text": text.replace(SIZE, OTHER_SIZE), "why": ""})
        same(papers(it, job)["ready"], False, "the job was changed")
        same(papers(it, job, number=1)["ready"], True, "those of its first revision are still there")
        refused(it.json("/papers?job=1&name=cards.pdf"), 404, "not made yet")
        same(paper(it, job, "job.yaml")[2], text.replace(SIZE, OTHER_SIZE).encode(), "its text needs no making")
        same(paper(it, job, "job.yaml", number=1)[2], text.encode())
        made(it, job)
        same(papers(it, job)["ready"], True)
        it.json("/api/save", {"shelf": "shops", "id": shop, "expected": 1, "text": shop_text + "# new\n", "why": ""})
        same(papers(it, job)["ready"], False, "its shop was changed")
        same(papers(it, job, number=1)["ready"], True, "an older revision keeps the shop it had")
        made(it, job)
        it.json("/api/measured", {"job": job, "revision": 2, "key": "pieces/shelf/thickness", "value": "12.8"})
        same(papers(it, job)["ready"], False, "a piece was measured")


@case
def papers_of_nothing_are_refused():
    with desk.opened(PROGRAM) as it:
        job, _, _, _ = desk.put_example(it, SMALL)
        for body, status in (({"job": job + 9}, 404), ({}, 400), ({"job": job, "number": 7}, 404), ({"job": "1"}, 400)):
            refused(it.json("/api/booklet", body), status)
        for query, status in (("job=9", 404), ("", 400), ("job=1&number=7", 404), ("job=1&number=x", 400)):
            refused(it.json(f"/api/papers?{query}"), status)
            refused(it.json(f"/papers?{query}&name=cards.pdf"), status)
        refused(it.json(f"/papers?job={job}"), 400, "name")
        made(it, job)
        for name in ("nothing.pdf", "../job.yaml", "/etc/passwd", "svg", "templates/", ""):
            refused(it.json(f"/papers?job={job}&name={urllib.parse.quote(name, safe='')}"), 404)
        unreadable = it.json("/api/book/import", {"shelf": "jobs", "name": "x", "text": "job: ["})["id"]
        last = made(it, unreadable)[-1]
        same(last["state"], "failed")
        true("cannot be read" in last["error"], last)
        same(papers(it, unreadable)["ready"], False)


if __name__ == "__main__":
    cases.run()
