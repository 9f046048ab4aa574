#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The program is killed (SIGKILL) at random moments while a page saves: after each start the book is sound, and holds every
revision that was acknowledged, byte for byte. At least 200 saves, ticks and measured values among them. Usage: crash.py PROGRAM
[seed]"""
import json
import os
import random
import signal
import sqlite3
import sys
import threading
import time

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import desk  # noqa: E402
import serving  # noqa: E402
from serving import same, true  # noqa: E402

PROGRAM = os.path.abspath(sys.argv[1])
SEED = int(sys.argv[2]) if len(sys.argv) > 2 else 20
SAVES, KILLS = 200, 12
cases = serving.Cases()


def text_of(job, number):
    """From the number alone, so that a mixed-up revision shows; small ones and large ones."""
    dice = random.Random(f"{job}/{number}")
    return "".join(dice.choice("abcdefgh \n") for _ in range(dice.choice((20, 400, 3000, 40000))))


def save_until_killed(it, job, acknowledged, ticks):
    """What the page does: saves, and ticks now and then. Ends when the program is gone."""
    number = max(acknowledged)
    try:
        while True:
            body = {"shelf": "jobs", "id": job, "expected": number, "text": text_of(job, number + 1),
                    "why": f"change {number + 1}"}
            status, _, said = it.ask("POST", "/api/save", body)
            if status == 0:
                return
            answer = json.loads(said)
            if status == 409:           # the save before was kept, and its answer cut off
                number = answer["newest"]
                continue
            same((status, answer.get("number")), (200, number + 1), said)
            number += 1
            acknowledged[number] = text_of(job, number)
            if number % 5 == 0:
                status, _, _ = it.ask("POST", "/api/tick", {"job": job, "step": f"step {number}", "done": True})
                if status == 200:
                    ticks.add(f"step {number}")
    except (OSError, ValueError):
        return                          # refused, reset or cut off: it was killed


def sound(path):
    book = sqlite3.connect(path)
    try:
        whole = book.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        return whole and book.execute("PRAGMA foreign_key_check").fetchall() == []
    finally:
        book.close()


def hold_to(it, job, acknowledged, ticks):
    entry = it.json(f"/api/entry?shelf=jobs&id={job}")
    numbers = [one["number"] for one in entry["revisions"]]
    same(numbers, list(range(max(numbers), 0, -1)), "no gap")
    true(max(numbers) - max(acknowledged) in (0, 1), f"{max(numbers)} stand, {max(acknowledged)} acknowledged")
    for number in numbers:
        wanted = acknowledged.setdefault(number, text_of(job, number))
        same(it.json(f"/api/text?shelf=jobs&id={job}&number={number}")["text"], wanted, f"revision {number}")
    true(ticks <= {one["step"] for one in entry["ticks"]}, "ticks that were acknowledged")


@cases.case
def no_acknowledged_save_is_lost_when_the_program_is_killed():
    dice = random.Random(SEED)
    with desk.folder() as home:
        path = os.path.join(home, "book.sqlite")
        start = [PROGRAM, "serve", "--book", path]
        job, acknowledged, ticks, kills = 0, {}, set(), 0
        until = time.monotonic() + 60
        while (len(acknowledged) < SAVES or kills < KILLS) and time.monotonic() < until:
            with serving.Program(start) as it:
                it.get_in()
                if not job:
                    acknowledged[1] = text_of("new", 1)
                    job = it.json("/api/book/import", {"shelf": "jobs", "name": "Stool", "text": acknowledged[1]})["id"]
                hand = threading.Thread(target=save_until_killed, args=(it, job, acknowledged, ticks))
                hand.start()
                time.sleep(dice.uniform(0.02, 0.5))
                it.process.send_signal(signal.SIGKILL)
                it.process.wait()
                hand.join()
                kills += 1
            if kills % 4 == 0:
                true(sound(path), f"after kill {kills}")
        true(len(acknowledged) >= SAVES and kills >= KILLS, f"{len(acknowledged)} saves, {kills} kills in a minute")
        with serving.Program(start) as it:
            it.get_in()
            hold_to(it, job, acknowledged, ticks)
        true(sound(path))
        print(f"# {len(acknowledged)} saves, {kills} kills, seed {SEED}")


if __name__ == "__main__":
    cases.run()
