#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The command serve, from its start to its end: serve_command.py PROGRAM JOB. Writes TAP."""
import contextlib
import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile

import serving
from serving import same, true

PROGRAM, JOB = sys.argv[1:3]
cases = serving.Cases()
folder = tempfile.TemporaryDirectory()


def at(name):
    return os.path.join(folder.name, name)


def serve(*arguments, **more):
    return serving.Program([PROGRAM, "serve", "--book", at("book"), *arguments], **more)


def refused(*arguments, env=None):
    done = subprocess.run([PROGRAM, "serve", *arguments], stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=60,
                          check=False, env=dict(os.environ, **(env or {})))
    same(done.stdout, "", "standard output")
    true(done.stderr.startswith("tuskwright: ") or re.match(r".*:\d+:\d+: ", done.stderr), done.stderr)
    return done.returncode, done.stderr


def whole(book):
    with contextlib.closing(sqlite3.connect(book)) as opened:
        return opened.execute("PRAGMA integrity_check").fetchone()[0]


@cases.case
def one_line_leads_to_the_page_and_nothing_else_is_said():
    with serve() as desk:
        same(desk.get_in()["location"], "/")
        status, headers, body = desk.ask("GET", "/")
        same((status, headers["content-type"]), (200, "text/html; charset=utf-8"))
        true(b"<script" in body and b"http://" not in body.replace(b"http://www.w3.org/", b"") and b"https://" not in body,
             "the page")
        for path in sorted(set(re.findall(rb'(?:src|href)="(/[^"#]*)"', body))):
            same(desk.ask("GET", path.decode())[0], 200, path)
        same(desk.end(), (0, "", ""))
    true(not os.path.exists(at("book-wal")), "the book is not closed")
    same(whole(at("book")), "ok")


@cases.case
def each_start_has_new_keys():
    keys = set()
    cookie = None
    for _ in range(3):
        with serve() as desk:
            if cookie:
                same(desk.ask("GET", "/", cookie=cookie.replace(cookie.split("=")[0], f"tuskwright-{desk.port}"))[0], 403,
                     "the cookie of the last start")
            desk.get_in()
            cookie = desk.cookie
            keys.update((desk.token, cookie.split("=")[1]))
    same(len(keys), 6)


@cases.case
def it_ends_cleanly_by_each_signal_also_in_the_middle():
    for number in (signal.SIGTERM, signal.SIGINT, signal.SIGHUP):
        with serve() as desk:
            desk.get_in()
            half = desk.connect()
            half.sendall(b"POST /api/save HTTP/1.1\r\nHost: ")
            same(desk.ask("GET", "/api/book?shelf=jobs")[0], 200)
            same(desk.end(number), (0, "", ""), number)
            half.close()
        same(whole(at("book")), "ok")


@cases.case
def signal_that_was_to_be_ignored_is_ignored():
    with serve(before=lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN)) as desk:
        desk.process.send_signal(signal.SIGHUP)
        desk.get_in()
        same(desk.ask("GET", "/api/book?shelf=jobs")[0], 200)
        same(desk.end(), (0, "", ""))


@cases.case
def port_in_use_is_said():
    with serve() as desk:
        code, said = refused("--book", at("other"), "--port", str(desk.port))
        same(code, 3)
        true(f"port {desk.port} is in use by another program" in said, said)
        same(desk.ask("GET", "/", cookie=None)[0], 403, "the first one still answers")


@cases.case
def port_is_free_again_at_once():
    with serve() as desk:
        port = desk.port
        desk.get_in()
        desk.end()
    with serve("--port", str(port)) as again:
        same(again.port, port)
        again.get_in()
        same(again.end()[0], 0)


@cases.case
def wrong_arguments_are_refused():
    for arguments, words in ((["--port", "70000"], "65535"), (["--port", "-1"], "65535"), (["--port", "x"], "number"),
                             (["--port", "80.5"], "whole"), (["--port", ""], "value"), (["a", "b"], "too many"),
                             (["--network"], "--on-network"), (["--book"], "value"), (["--on-network=1"], "no value")):
        code, said = refused(*arguments, env={"XDG_DATA_HOME": folder.name})
        same(code, 2, arguments)
        true(words in said, f"{arguments}: {said}")


@cases.case
def book_that_is_none_is_refused_and_left_alone():
    with open(at("letter"), "w", encoding="ascii") as file:
        file.write("dear reader\n" * 100)
    code, said = refused("--book", at("letter"))
    same(code, 2)
    true("letter" in said, said)
    with open(at("letter"), encoding="ascii") as file:
        same(file.read(), "dear reader\n" * 100)
    code, said = refused("--book", at("nowhere/book"))
    same(code, 3)
    code, said = refused("--book", folder.name)
    true(code in (2, 3), said)


@cases.case
def own_book_lies_where_data_of_the_user_lie():
    with serving.Program([PROGRAM, "serve"], env={"XDG_DATA_HOME": at("data/deep")}) as desk:
        same(desk.end()[0], 0)
    true(os.path.exists(at("data/deep/tuskwright/book.sqlite")), "XDG_DATA_HOME")
    same(os.stat(at("data/deep/tuskwright")).st_mode & 0o777, 0o700)
    with serving.Program([PROGRAM, "serve"], env={"XDG_DATA_HOME": "", "HOME": at("home")},
                         before=lambda: os.makedirs(at("home"), exist_ok=True)) as desk:
        same(desk.end()[0], 0)
    true(os.path.exists(at("home/.local/share/tuskwright/book.sqlite")), "HOME")
    code, said = refused(env={"XDG_DATA_HOME": "relative", "HOME": ""})
    same(code, 2)
    true("--book FILE" in said, said)


@cases.case
def job_is_put_in_the_book_once_and_opened():
    places = set()
    for _ in range(2):
        with serve(JOB) as desk:
            places.add(desk.get_in()["location"])
            jobs = desk.json("/api/book?shelf=jobs")["entries"]
            same(len(jobs), 1)
            got = desk.json(f"/api/entry?shelf=jobs&id={jobs[0]['id']}")
            with open(JOB, encoding="utf-8") as file:
                same(got["text"], file.read())
            with open(os.path.join(os.path.dirname(JOB), "shop.yaml"), encoding="utf-8") as file:
                same(got["shop_text"], file.read())
    same(places, {f"/#/job/{jobs[0]['id']}"})


@cases.case
def job_that_cannot_be_read_is_refused():
    code, said = refused("--book", at("book"), at("no-such-job.yaml"))
    same(code, 3)
    true("no-such-job.yaml" in said, said)
    with open(at("shopless.yaml"), "w", encoding="ascii") as file:
        file.write("shop: not-there.yaml\n")
    code, said = refused("--book", at("book"), at("shopless.yaml"))
    same(code, 3)
    true("not-there.yaml" in said, said)


@cases.case
def network_is_a_choice_that_says_how_to_get_in():
    with serve("--on-network") as desk:
        desk.get_in()
        code = desk.json("/api/network")["code"]
        ended, out, said = desk.end()
    same((ended, out), (0, ""))
    true(f"{code[:3]} {code[3:]}" in said, said)
    for address in re.findall(r"http://(\S+)/pair", said):
        true(address.endswith(f":{desk.port}"), said)


@cases.case
def line_that_nobody_reads_is_a_failure():
    with open("/dev/full", "wb") as full:
        done = subprocess.run([PROGRAM, "serve", "--book", at("book")], stdin=subprocess.DEVNULL, stdout=full,
                              stderr=subprocess.PIPE, timeout=60, check=False)
    same(done.returncode, 3)
    true(b"standard output" in done.stderr, done.stderr)


@cases.case
def it_runs_without_more_rights_than_a_user_has():
    if os.getuid() != 0:
        return

    def become_nobody():
        os.setgid(65534)
        os.setuid(65534)

    os.chmod(folder.name, 0o755)
    os.makedirs(at("mine"))
    os.chown(at("mine"), 65534, 65534)
    with serving.Program([PROGRAM, "serve", "--book", at("mine/book")], before=become_nobody) as desk:
        desk.get_in()
        same(desk.ask("GET", "/api/book?shelf=jobs")[0], 200)
        same(desk.end()[0], 0)
    same(os.stat(at("mine/book")).st_uid, 65534)


@cases.case
def it_listens_on_this_computer_alone():
    with serve() as desk:
        with open("/proc/net/tcp", encoding="ascii") as file:
            mine = [line.split()[1] for line in file if line.split()[3] == "0A" and line.split()[1].endswith(f":{desk.port:04X}")]
        same(mine, [f"0100007F:{desk.port:04X}"])
        with open("/proc/net/tcp6", encoding="ascii") as file:
            true(f":{desk.port:04X} " not in file.read(), "IPv6")
        try:
            socket.create_connection(("::1", desk.port), timeout=5).close()
            raise AssertionError("it listens on ::1")
        except OSError:
            pass


cases.run()
