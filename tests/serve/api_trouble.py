#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What can go wrong with the book while the page is open: other programs, a full disk, a read-only one, a file that was moved.
Each is told in a sentence, and nothing that was acknowledged is lost. Usage: api_trouble.py PROGRAM NO_ROOM.so"""
import os
import shutil
import sqlite3
import subprocess
import sys
import threading

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from desk import refused  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM, NO_ROOM = (os.path.abspath(one) for one in sys.argv[1:3])
cases = serving.Cases()
case = cases.case


def stool(it):
    return it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "one"})["id"]


def save(it, job, expected, text="two"):
    return it.json("/api/save", {"shelf": "jobs", "id": job, "expected": expected, "text": text, "why": ""})


def newest(it, job):
    return it.json(f"/api/entry?shelf=jobs&id={job}")


@case
def another_program_that_writes_for_long_makes_the_book_busy():
    with desk.opened(PROGRAM) as it:
        job = stool(it)
        other = sqlite3.connect(os.path.join(it.home, "book.sqlite"), isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        refused(save(it, job, 1), 423, "another program")
        same(newest(it, job)["text"], "one", "reading goes on")
        other.execute("ROLLBACK")
        other.close()
        same(save(it, job, 1)["number"], 2, "and so does saving, once it is free")


@case
def two_programs_on_one_book_meet_in_a_conflict_not_in_a_loss():
    with desk.opened(PROGRAM) as it:
        job = stool(it)
        with serving.Program([PROGRAM, "serve", "--book", os.path.join(it.home, "book.sqlite")]) as other:
            other.get_in()
            same(save(other, job, 1, "theirs")["number"], 2)
            late = save(it, job, 1, "mine")
            refused(late, 409)
            same(late["newest"], 2)
            same(newest(it, job)["text"], "theirs")


@case
def many_saves_at_once_are_one_after_the_other_and_none_is_overwritten():
    with desk.opened(PROGRAM) as it:
        job, answers = stool(it), []
        def hand(name):
            expected = 1
            for number in range(10):
                got = save(it, job, expected, f"{name} {number}")
                answers.append((got["status"], got.get("number"), f"{name} {number}"))
                expected = got.get("number") or got.get("newest")
        hands = [threading.Thread(target=hand, args=(name,)) for name in "abcd"]
        for one in hands:
            one.start()
        for one in hands:
            one.join()
        same({status for status, _, _ in answers} <= {200, 409}, True)
        kept = {number: text for status, number, text in answers if status == 200}
        same(len(kept), len([1 for status, _, _ in answers if status == 200]), "no number was given twice")
        for number, text in kept.items():
            same(it.json(f"/api/text?shelf=jobs&id={job}&number={number}")["text"], text)


def with_no_room(why):
    """A program on a disk that takes no more: (the program, the file that says so)."""
    home = desk.folder()
    path = home.__enter__()
    flag = os.path.join(path, "flag")
    sanitized = os.environ.get("ASAN_OPTIONS", "")  # its library then wants to be told that it does not come first
    env = {"LD_PRELOAD": NO_ROOM, "NO_ROOM": flag, "ASAN_OPTIONS": f"{sanitized}:verify_asan_link_order=0".lstrip(":")}
    it = serving.Program([PROGRAM, "serve", "--book", os.path.join(path, "book.sqlite")], env=env)
    it.get_in()
    def say():
        with open(flag, "w", encoding="ascii") as file:
            file.write(why)
    return it, home, flag, say


@case
def a_full_disk_is_told_and_the_save_goes_through_once_there_is_room():
    it, home, flag, say = with_no_room("f")
    with it:
        job = stool(it)
        same(save(it, job, 1, "two")["number"], 2)
        say()
        for answer in (save(it, job, 2, "three"), it.json("/api/book/rename", {"shelf": "jobs", "id": job, "name": "x"}),
                       it.json("/api/tick", {"job": job, "step": "s", "done": True}), it.json("/api/book/copy",
                           {"shelf": "jobs", "id": job, "name": "x"}),
                       it.json("/api/book/begin", {"kind": "bench", "units": "mm"})):
            refused(answer, 507, "room")
            same(answer["error"]["code"], "full")
        entry = newest(it, job)
        same((entry["text"], entry["entry"]["name"], entry["ticks"]), ("two", "Stool", []),
             "what was acknowledged is there, and no more")
        got = it.json("/api/reckon", {"text": desk.example("reading-table")[0], "shop_text": desk.example("reading-table")[1]})
        same(got["state"], "good", "reckoning needs no disk")
        os.unlink(flag)
        same(save(it, job, 2, "three")["number"], 3)
        same(it.end()[0], 0)
    home.__exit__(None, None, None)


@case
def a_disk_that_became_read_only_is_told_and_nothing_is_lost():
    it, home, flag, say = with_no_room("r")
    with it:
        job = stool(it)
        say()
        answer = save(it, job, 1, "two")
        true((answer["status"], answer["error"]["code"]) in ((403, "read-only"), (500, "failed")),
             answer)  # which one SQLite lets us know
        true(answer["error"]["what"] and answer["error"]["remedy"], answer)
        same(newest(it, job)["text"], "one")
        os.unlink(flag)
        same(save(it, job, 1, "two")["number"], 2)
    home.__exit__(None, None, None)


@case
def nothing_is_saved_in_a_book_that_was_moved_away():
    with desk.opened(PROGRAM) as it:
        job = stool(it)
        path = os.path.join(it.home, "book.sqlite")
        os.rename(path, os.path.join(it.home, "elsewhere"))
        answer = save(it, job, 1)
        refused(answer, 403, "no longer where it was opened", "put it back")
        same(answer["error"]["code"], "read-only")
        os.rename(os.path.join(it.home, "elsewhere"), path)
        same(save(it, job, 1)["number"], 2)


@case
def a_book_that_cannot_be_opened_is_told_before_anything_is_served():
    with desk.folder() as home:
        def start(path):
            done = subprocess.run([PROGRAM, "serve", "--book", path], capture_output=True, timeout=30, check=False)
            same(done.stdout, b"", path)
            true(done.returncode in (2, 3), (path, done.returncode))
            true(done.stderr.startswith(b"tuskwright: ") and b"; " in done.stderr, done.stderr)
            return done.stderr.decode()
        no_book = os.path.join(home, "letter")
        with open(no_book, "w", encoding="ascii") as file:
            file.write("Dear maker, this is no book.\n" * 100)
        before = open(no_book, "rb").read()
        true("book" in start(no_book))
        same(open(no_book, "rb").read(), before, "a file that is no book stays as it was")
        start(home)
        start(os.path.join(home, "no", "such", "folder", "book.sqlite"))
        damaged = os.path.join(home, "damaged.sqlite")
        with desk.opened(PROGRAM) as it:
            for _ in range(20):
                it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": "x" * 5000})
            same(it.end()[0], 0)
            shutil.copy(os.path.join(it.home, "book.sqlite"), damaged)
        with open(damaged, "r+b") as file:
            file.seek(8192)
            file.write(b"\xa5" * 8192)
        start(damaged)


if __name__ == "__main__":
    cases.run()
