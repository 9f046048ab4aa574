#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A tablet in the shop's network gets in by a code, and in no other way: door_pairing.py DOOR_ECHO. Writes TAP.

The tablet is played by a connection to this computer's own address in its network; without a network those cases are left
out."""
import re
import socket
import sys

import serving
from serving import same, true

ECHO = sys.argv[1]
cases = serving.Cases()
desk = serving.Program([ECHO, "--on-network"])
desk.get_in()


def network():
    return desk.json("/api/network")


ADDRESSES = [re.fullmatch(r"http://([0-9.]+):\d+/pair", text).group(1) for text in network()["addresses"]]


def new_code():
    answer = desk.json("/api/network/code", {})
    same(answer["status"], 200, "a new code")
    return answer["code"]


class Tablet:
    """A device that asks by an address of the network."""

    def __init__(self, address):
        self.host, self.address, self.cookie = f"{address}:{desk.port}", address, None

    def ask(self, method, path, body=None, headers=None, kind="application/json", cookie="own"):
        lines = {"Host": self.host, "Connection": "close", "Cookie": self.cookie if cookie == "own" else cookie}
        if body is not None:
            lines.update({"Origin": f"http://{self.host}", "Content-Type": kind, "Content-Length": str(len(body))})
        lines.update(headers or {})
        with socket.create_connection((self.address, desk.port), timeout=20) as one:
            one.sendall(serving.head_of(method, path, lines) + (body or b""))
            return serving.read_reply(one, method)

    def pair(self, code, **more):
        status, headers, body = self.ask("POST", "/pair", f"code={code}".encode(), kind="application/x-www-form-urlencoded",
                                         **more)
        if status == 303:
            self.cookie = headers["set-cookie"].split(";")[0]
        return status, headers, body


def tablets():
    return [Tablet(address) for address in ADDRESSES[:1]] + [Tablet("127.0.0.1")]


def wrong_of(code):
    return f"{(int(code) + 1) % 1000000:06d}"


@cases.case
def desk_sees_addresses_and_a_code_of_six_digits():
    got = network()
    same((got["status"], got["on"], got["desk"]), (200, True, True))
    true(re.fullmatch(r"\d{6}", got["code"]) and 500 < got["expires_s"] <= 600, got)
    true("127.0.0.1" not in str(got["addresses"]), got["addresses"])


@cases.case
def form_is_shown_to_strangers_and_works_without_a_script():
    for tablet in tablets():
        status, headers, body = tablet.ask("GET", "/pair")
        same((status, headers["referrer-policy"]), (200, "same-origin"))  # with no-referrer a browser would send Origin: null
        true(b'<form method="post" action="/pair">' in body and b"<script" not in body and b"style=" not in body, "the form")
        same(tablet.ask("GET", "/door.css")[0], 200)


@cases.case
def code_lets_one_device_in_and_is_used_up():
    for tablet in tablets():
        code = new_code()
        same(tablet.ask("GET", "/api/echo")[0], 403, "before")
        status, headers, _ = tablet.pair(code)
        same((status, headers["location"]), (303, "/"))
        true(re.fullmatch(rf"tuskwright-{desk.port}=[0-9a-f]{{32}}; Path=/; HttpOnly; SameSite=Strict; Max-Age=\d+",
                          headers["set-cookie"]), headers["set-cookie"])
        status, _, body = tablet.ask("GET", "/api/echo")
        same(status, 200)
        true(b'"paired":true' in body, body)
        same(tablet.ask("GET", "/")[0], 200)
        same(tablet.ask("POST", "/api/echo", b"{}")[0], 200)
        true(network()["code"] is None, "the code is still shown")
        same(Tablet(tablet.address).pair(code)[0], 403, "a second device with the same code")


@cases.case
def code_may_be_typed_with_spaces():
    for written in (lambda code: f"{code[:3]}+{code[3:]}", lambda code: "%20".join(code), lambda code: f"+{code}+"):
        same(Tablet("127.0.0.1").pair(written(new_code()))[0], 303)


@cases.case
def five_wrong_tries_end_the_code():
    code = new_code()
    tablet = Tablet("127.0.0.1")
    for _ in range(5):
        status, headers, body = tablet.pair(wrong_of(code))
        same(status, 403)
        true("set-cookie" not in headers and b"<form" in body, "it cannot be tried again")
    true(network()["code"] is None, "the code is still shown")
    true(tablet.pair(code)[0] in (403, 429), "the right one after five wrong ones")


@cases.case
def tries_from_one_address_are_slowed_down():
    tablet = Tablet("127.0.0.1")
    seen = set()
    for _ in range(14):
        seen.add(tablet.pair(wrong_of(new_code()))[0])
    true(429 in seen and 303 not in seen, seen)
    for address in ADDRESSES[:1]:
        same(Tablet(address).pair(new_code())[0], 303, "from another address meanwhile")


@cases.case
def crooked_codes_are_refused():
    if not ADDRESSES:
        return
    tablet = Tablet(ADDRESSES[0])
    new_code()
    form = "application/x-www-form-urlencoded"
    for body, status in ((b"", 400), (b"code", 403), (b"kode=123456", 400), (b"code=%", 400), (b"code=%00", 400),
                         (b"x" * 257, 413), (b"code=" + b"\xff", 400)):
        true(tablet.ask("POST", "/pair", body, kind=form)[0] in (status, 429), f"{body[:20]}: {status}")
    same(tablet.ask("POST", "/pair", b"code=1", kind="application/json")[0], 415)
    same(tablet.ask("POST", "/pair", b"code=1", {"Origin": "http://example.invalid"}, form)[0], 403)
    same(tablet.ask("POST", "/pair", b"code=1", {"Origin": "null"}, form)[0], 403)
    same(tablet.ask("POST", "/pair", b"code=1", {"Origin": None}, form)[0], 403)
    same(tablet.ask("DELETE", "/pair")[0], 405)
    true(network()["code"] is not None, "what came to no try used the code up")


@cases.case
def paired_device_sees_no_code_and_makes_none():
    tablet = Tablet("127.0.0.1")
    desk_cookie = desk.cookie
    if ADDRESSES:
        tablet = Tablet(ADDRESSES[0])
        true(tablet.pair(new_code())[0] == 303, "pairing")
        new_code()
        status, _, body = tablet.ask("GET", "/api/network")
        same(status, 200)
        true(b'"code":null' in body and b'"desk":false' in body, body)
        status, _, body = tablet.ask("POST", "/api/network/code", b"{}")
        same(status, 403)
        true(b"desk-only" in body, body)
        same(tablet.ask("GET", "/api/network", cookie=desk_cookie)[0], 403, "the desk's cookie from the network")
        true(tablet.ask("GET", f"/?token={desk.token}", cookie=None)[0] in (403, 429), "the token from the network")
    same(tablet.ask("GET", "/api/network", cookie=None)[0], 403)
    same(tablet.ask("POST", "/api/network/code", b"{}", cookie=None)[0], 403)


@cases.case
def only_the_address_asked_for_is_a_name_in_the_network():
    for address in ADDRESSES[:1]:
        tablet = Tablet(address)
        for host in (f"localhost:{desk.port}", f"127.0.0.1:{desk.port}", f"[::1]:{desk.port}", address,
                     f"{address}:{desk.port + 1}", f"shop.example:{desk.port}"):
            same(tablet.ask("GET", "/pair", headers={"Host": host})[0], 403, host)
        same(desk.ask("GET", "/api/echo", host=f"{address}:{desk.port}")[0], 403,
             "the address of the network, asked on this computer")


@cases.case
def without_the_network_there_is_no_pairing():
    with serving.Program([ECHO]) as alone:
        same(alone.ask("GET", "/pair")[0], 404)
        form = {"Content-Type": "application/x-www-form-urlencoded"}
        same(alone.ask("POST", "/pair", b"code=123456", form)[0], 404)
        alone.get_in()
        got = alone.json("/api/network")
        same((got["on"], got["addresses"], got["code"]), (False, [], None))
        same(alone.json("/api/network/code", {})["error"]["code"], "not-on-network")
        for address in ADDRESSES:
            try:
                socket.create_connection((address, alone.port), timeout=5).close()
                raise AssertionError(f"it listens on {address}")
            except OSError:
                pass
        same(alone.end()[0], 0)


@cases.case
def it_ends_without_a_word():
    same(desk.end(), (0, "", ""))


cases.run()
