#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Knocks at the door in every bad way: door_abuse.py DOOR_ECHO. Writes TAP.

Each hostile request must be refused with the status that RFC 9110 and 9112 (or the issue's own rules) have for it, or the
connection ended; after each group a good request must be answered, and at the end the door must close without a word, so
that under sanitizers nothing was out of place."""
import itertools
import json
import re
import signal
import socket
import sys
import threading
import time

import serving
from serving import same, true

ECHO = sys.argv[1]
cases = serving.Cases()
desk = serving.Program([ECHO])
SECURITY = {
    "x-content-type-options": "nosniff", "referrer-policy": "no-referrer", "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


def still_answers():
    same(desk.ask("GET", "/api/echo?a=1")[0], 200, "a good request afterwards")


def raw(text, method="GET"):
    return desk.send(text if isinstance(text, bytes) else text.encode("latin-1"), method)


def request(line="GET /api/echo HTTP/1.1", headers=(), body=b"", host=True, cookie=True):
    lines = [line] + ([f"Host: {desk.host}"] if host else []) + ([f"Cookie: {desk.cookie}"] if cookie else []) + list(headers)
    return "\r\n".join(lines).encode("latin-1") + b"\r\n\r\n" + body


def post(headers=(), body=b"{}", path="/api/echo", origin=True, kind=True, length=True):
    more = ([f"Origin: http://{desk.host}"] if origin else []) + (["Content-Type: application/json"] if kind else [])
    more += [f"Content-Length: {len(body)}"] if length else []
    return request(f"POST {path} HTTP/1.1", more + list(headers), body)


def refused(answer, statuses, about):
    """Refused with one of the statuses; 0 among them: the connection may be ended without a word."""
    status, headers, body = answer
    true(status in statuses, f"{about}: {status}, not one of {statuses}")
    true("access-control-allow-origin" not in headers, f"{about}: it is opened to other origins")
    true(b"echo" not in body or b"error" in body or b"<" in body, f"{about}: it was served")


# ---- getting in ----

@cases.case
def without_token_or_cookie_it_is_told_how_to_get_in():
    for path in ("/", "/page.css", "/nothing", "/pair.css", "/index.html"):
        status, headers, body = desk.ask("GET", path, cookie=None)
        same(status, 403, path)
        true(b"tuskwright serve" in body and b"token=" in body, f"{path}: it is not said how to get in")
        same(headers["content-type"], "text/html; charset=utf-8", path)
    status, _, body = desk.ask("GET", "/api/echo", cookie=None)
    same((status, json.loads(body)["error"]["code"]), (403, "not-let-in"))


@cases.case
def wrong_tokens_do_not_open():
    good = desk.token
    for token in ("", "0" * 32, good[:-1], good + "0", good.upper() if good.upper() != good else good[::-1],
                  good[1:] + good[0], "%" + good):
        status, headers, _ = desk.ask("GET", f"/?token={token}", cookie=None)
        true(status in (400, 403), f"{token}: {status}")
        true("set-cookie" not in headers, f"{token}: a cookie is set")


@cases.case
def token_is_changed_for_a_cookie_and_leaves_the_address():
    headers = desk.get_in()
    same(headers["location"], "/#/job/12")
    cookie = headers["set-cookie"]
    true(re.fullmatch(rf"tuskwright-{desk.port}=[0-9a-f]{{32}}; Path=/; HttpOnly; SameSite=Strict", cookie), cookie)
    true(desk.token not in cookie, "the cookie holds the token")
    same(headers["cache-control"], "no-store")
    same(desk.ask("GET", "/")[0], 200)


@cases.case
def token_opens_at_the_first_page_only():
    for path in (f"/api/echo?token={desk.token}", f"/page.css?token={desk.token}", f"/pair?token={desk.token}"):
        true(desk.ask("GET", path, cookie=None)[0] in (403, 404), path)


@cases.case
def wrong_cookies_do_not_open():
    name, value = desk.cookie.split("=")
    for cookie in (f"{name}={desk.token}", f"{name}=", f"{name}", f"{name}={value[:-1]}", f"{name}={value}0", f"other={value}",
                   f"{name}x={value}",
                   f"{name}=\"{value}\"", f"{name} = {value}x", f"{name}={'0' * 32}", f"{name.upper()}={value}"):
        same(desk.ask("GET", "/api/echo", cookie=cookie)[0], 403, cookie)
    same(desk.ask("GET", "/api/echo", cookie=f"{name}=wrong; {desk.cookie}")[0], 200,
         "a cookie of our name that another page set")
    same(desk.ask("GET", "/api/echo", cookie=f"a=b; {desk.cookie}; c=d")[0], 200)


@cases.case
def stale_token_with_a_good_cookie_leads_to_the_page():
    status, headers, _ = desk.ask("GET", f"/?token={'1' * 32}")
    same((status, headers["location"]), (303, "/"))


# ---- what is sent along ----

@cases.case
def every_reply_carries_the_headers_that_protect_it():
    for method, path in (("GET", "/"), ("GET", "/page.css"), ("GET", "/api/echo"), ("GET", "/nothing"), ("HEAD", "/"),
                         ("OPTIONS", "/"), ("GET", "/door.css")):
        status, headers, _ = desk.ask(method, path)
        for name, value in SECURITY.items():
            same(headers.get(name), value, f"{method} {path} ({status}), {name}")
        true("content-security-policy" in headers and "cache-control" in headers, path)
        true("server" not in headers, "the server is named")


@cases.case
def page_may_load_from_nowhere_else_and_be_framed_by_nobody():
    policy = desk.ask("GET", "/")[1]["content-security-policy"]
    parts = dict((part.strip().split(" ", 1) + [""])[:2] for part in policy.split(";"))
    same(parts["default-src"], "'none'")
    same(parts["script-src"], "'self' 'wasm-unsafe-eval'")
    same(parts["style-src"], "'self'")
    same(parts["frame-ancestors"], "'none'")
    same(parts["base-uri"], "'none'")
    true("unsafe-inline" not in policy and "*" not in policy and "http" not in policy, policy)


@cases.case
def page_is_kept_by_the_browser_and_answers_with_kept_to_its_mark():
    status, headers, body = desk.ask("GET", "/")
    same((status, headers["etag"], headers["cache-control"]), (200, '"0123abcd"', "private, no-cache"))
    for mark in ('"0123abcd"', 'W/"0123abcd"', '"other", "0123abcd"', "*", '"a",W/"0123abcd"'):
        status, headers, body = desk.ask("GET", "/", headers={"If-None-Match": mark})
        same((status, body), (304, b""), mark)
    for mark in ('"0123abc"', "0123abcd", '""', '"', "W/", ", ,", '"0123abcd', "x" * 3000):
        same(desk.ask("GET", "/", headers={"If-None-Match": mark})[0], 200, mark)


@cases.case
def head_gives_the_head_alone():
    status, headers, body = desk.ask("HEAD", "/")
    same((status, headers["content-length"], body), (200, "34", b""))
    with desk.connect() as one:
        one.sendall(request("HEAD /api/echo HTTP/1.1", ["Connection: close"]))
        said = serving.read_all(one)
    true(said.endswith(b"\r\n\r\n"), "a body follows")
    same(desk.ask("HEAD", "/api/small")[0], 405)


@cases.case
def file_names_are_safe_in_a_header():
    _, headers, _ = desk.ask("GET", "/api/file?name=" + "%C3%A4%22%5C%3B%25b.pdf")
    same(headers["content-disposition"], "attachment; filename=\"____;_b.pdf\"; filename*=UTF-8''%C3%A4%22%5C%3B%25b.pdf")
    same(desk.ask("GET", "/api/file?name=a%0d%0aX-Y:1")[0], 400)


# ---- addresses ----

BAD_PATHS = [
    "/../etc/passwd", "/..", "/.", "/./", "/api/../api/echo", "/api/./echo", "//", "//api/echo", "/api//echo", "/%2e%2e/",
    "/%2E%2E/etc", "/api/echo%00", "/%00", "/api%2Fecho", "/api/echo%20", "/%", "/%zz", "/%c0%af", "/%ff", "/api\\echo",
    "/api/echo;a=1", "/api/echo:80", "/~root", "/api/echo\xff", "/\xc3\xa4", "/api/echo\x01", "/api/echo\x7f", "/api/echo'",
    "/api/echo\"", "/<script>", "/api/{echo}", "/api/echo*", "/$HOME", "/api/echo|x", "/...", "/api/...", "/a/..../b",
    "/api/@echo", "/api/echo,", "/api/[echo]", "/^", "/`id`", "/api/ec!ho", "/api/(echo)", "/=", "/api+echo",
]
UNKNOWN_PATHS = [
    "/api", "/api/", "/api/echo/", "/API/ECHO", "/api/echo.json", "/api/ech", "/api/echoo", "/index.html", "/favicon.ico",
    "/.git/config", "/.env", "/page.css/", "/robots.txt", "/admin", "/api/network/", "/api/network/code/x",
    "/a/b/c/d/e/f/g/h", "/-", "/_", "/door.css.map", "/" + "a" * 2000,
]
BAD_QUERIES = [
    "%", "a=%", "a=%1", "a=%zz", "a=%00", "%00=a", "a=%0a", "a=%0d%0ab", "a=%ff", "a=%c0%80", "a=%ed%a0%80", "a=%f4%90%80%80",
    "a=%c3", "a=%7f", "a=%c2%80", "a=\xff", "a=%u0041", "a=1&b=%", "a=%1g", "a=%e2%82", "a=%1b%5b2J",
]
BAD_TARGETS = [
    "http://127.0.0.1/", "api/echo", "*", "?a=1", "http:/api/echo", "@/api/echo", "https://example.invalid/", "\\api", "#",
    "127.0.0.1:80",
]


def refuse_paths(paths, statuses):
    for path in paths:
        refused(raw(request(f"GET {path} HTTP/1.1")), statuses, path)
        refused(raw(request(f"GET {path} HTTP/1.1", cookie=False)), statuses + (403,), f"{path} of a stranger")
    still_answers()


@cases.case
def crooked_paths_are_refused():
    refuse_paths(BAD_PATHS, (400,))


@cases.case
def unknown_paths_are_not_there():
    refuse_paths(UNKNOWN_PATHS, (404,))


@cases.case
def targets_that_are_no_path_are_refused():
    refuse_paths(BAD_TARGETS, (400,))


@cases.case
def queries_that_are_not_plain_text_are_refused():
    refuse_paths([f"/api/echo?{query}" for query in BAD_QUERIES], (400,))


@cases.case
def queries_are_read_as_forms_write_them():
    for query, value in (("a=1", "1"), ("a=", ""), ("a", ""), ("b=1", None), ("", None), ("a=%C3%A4+b%2Bc", "\u00e4 b+c"),
                         ("b=2&a=x&a=y", "x"), ("%61=q", "q"),
                         ("a=a=b", "a=b"), ("&&a=1&&", "1"), ("a=%F0%9F%AA%B5", "\U0001fab5"), ("A=1", None), ("a=%22%3C%26",
                                 "\"<&"), ("a=?", "?")):
        same(desk.json(f"/api/echo?{query}")["a"], value, query)
    for query, value in (("a=0", 0), ("a=1000", 1000), ("a=1001", -1), ("a=-1", -1), ("a=+1", -1), ("a=1.0", -1), ("a=", -1),
                         ("a=%201", -1), ("a=1x", -1),
                         ("a=0x10", -1), ("a=99999999999999999999", -1), ("a=007", 7)):
        same(desk.json(f"/api/echo?{query}")["whole"], value, query)


@cases.case
def long_addresses_are_refused():
    for length in (4097, 5000, 20000, 31000, 40000, 200000):
        refused(raw(request(f"GET /{'a' * length} HTTP/1.1")), (414, 431, 413, 0), f"{length} characters")
    refused(raw(request(f"GET /api/echo?a={'b' * 9000} HTTP/1.1")), (414,), "a long query")
    same(len(desk.json(f"/api/echo?a={'b' * 4000}")["a"]), 4000)
    still_answers()


# ---- methods and lines ----

@cases.case
def methods_that_it_does_not_know_are_refused():
    for method in ("PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "get", "Get", "BREW", "PROPFIND", "X" * 300, "GE",
                   "GETT", "-", "G\xffT", "POST/"):
        for path in ("/", "/api/echo", "/nothing"):
            refused(raw(request(f"{method} {path} HTTP/1.1"), "GET"), (405, 501, 400, 404), f"{method[:9]} {path}")
    status, headers, _ = raw(request("DELETE /api/echo HTTP/1.1"))
    same((status, headers["allow"]), (405, "GET, HEAD, POST"))
    status, headers, _ = raw(post(path="/api/large"))
    same((status, headers["allow"]), (405, "GET, HEAD"))
    status, headers, _ = raw(post(path="/page.css"))
    same((status, headers["allow"]), (405, "GET, HEAD"))
    status, headers, _ = raw(request("GET /api/small HTTP/1.1"))
    same((status, headers["allow"]), (405, "POST"))
    still_answers()


@cases.case
def other_versions_and_broken_lines_are_refused():
    for line in ("GET /api/echo", "GET /api/echo HTTP/0.9", "GET /api/echo HTTP/2.0", "GET /api/echo HTTP/1.2",
                 "GET /api/echo http/1.1", "GET /api/echo HTTP/1.1 x",
                 "GET  /api/echo HTTP/1.1 ", "GET", "", " GET /api/echo HTTP/1.1", "GET\t/api/echo\tHTTP/9",
                 "GET /api/echo HTTP/11", "GET /api/echo HTTP/1.",
                 "PRI * HTTP/2.0", "\x16\x03\x01\x02", "SSH-2.0-x", "\xff" * 40, "GET /api/echo FTP/1.1", "HTTP/1.1 200 OK",
                 "GET /a b HTTP/1.1"):
        with desk.connect() as one:
            one.sendall(request(line))
            one.shutdown(socket.SHUT_WR)
            refused(serving.read_reply(one), (400, 405, 404, 501, 505, 0), repr(line))
    still_answers()


@cases.case
def old_version_works_and_ends_the_connection():
    with desk.connect() as one:
        one.sendall(request("GET /api/echo?a=7 HTTP/1.0"))
        said = serving.read_all(one)
    true(b" 200 " in said and b'"a":"7"' in said, said[:80])


# ---- whom it is for, and where it comes from ----

@cases.case
def foreign_hosts_are_refused():
    port = desk.port
    for host in ("example.invalid", f"example.invalid:{port}", "127.0.0.1", f"127.0.0.1:{port + 1}", f"127.0.0.2:{port}",
                 f"127.0.0.1.example.invalid:{port}",
                 f"localhost.example.invalid:{port}", f"LOCALHOST.:{port}", f"0.0.0.0:{port}", f"[::]:{port}",
                 f"[::ffff:127.0.0.1]:{port}", f"127.1:{port}",
                 f"2130706433:{port}", f"0x7f.1:{port}", "", ":", f":{port}", f"user@127.0.0.1:{port}", f"127.0.0.1:{port}/",
                 f"127.0.0.1:{port},x", f"127.0.0.1:0{port}",
                 f"127.0.0.1:{port} x", "a" * 3000, f"127.0.0.1:{port}:1", f"127.0.0.1:{port + 65536}",
                 f"http://127.0.0.1:{port}", "\xff", f"%31:{port}"):
        answer = desk.ask("GET", "/api/echo?a=1", host=host) if host else raw(request(headers=["Host:"], host=False))
        refused(answer, (403, 400), f"Host: {host[:60]}")
        answer = desk.ask("GET", f"/?token={desk.token}", host=host, cookie=None) if host else (403, {}, b"")
        refused(answer, (403, 400), f"the token, Host: {host[:60]}")
    still_answers()


@cases.case
def own_names_are_let_in():
    for host in (f"127.0.0.1:{desk.port}", f"localhost:{desk.port}", f"[::1]:{desk.port}"):
        same(desk.ask("GET", "/api/echo", host=host)[0], 200, host)
        same(desk.ask("POST", "/api/echo", b"{}", host=host, headers={"Origin": f"http://{host}"})[0], 200, host)


@cases.case
def host_must_stand_exactly_once():
    refused(raw(request(host=False)), (400,), "none")
    refused(raw(request("GET /api/echo HTTP/1.0", host=False)), (400,), "none in HTTP/1.0")
    for more in (f"Host: {desk.host}", "Host: example.invalid", f"host: {desk.host}", "HOST:", "Host: \t"):
        refused(raw(request(headers=[more])), (400,), f"twice: {more}")
    refused(raw(request(headers=[f"Host: {desk.host}", "X: y", f"Host: {desk.host}"])), (400,), "three times")
    refused(raw(request(headers=["X-Forwarded-Host: example.invalid", f"Host: {desk.host}"])), (400,), "with a forwarded one")
    still_answers()


@cases.case
def posts_of_other_origins_are_refused():
    port = desk.port
    for origin in ("null", "http://example.invalid", f"https://127.0.0.1:{port}", f"http://127.0.0.1:{port + 1}",
                   "http://127.0.0.1", f"http://localhost:{port}", "",
                   f"http://127.0.0.1:{port}/", f"http://127.0.0.1:{port}.example.invalid", f"HTTP://127.0.0.1:{port}",
                   "file://", f"http://a@127.0.0.1:{port}",
                   f"http://127.0.0.1:{port} http://example.invalid", "*", "127.0.0.1"):
        refused(raw(post(headers=[f"Origin: {origin}"], origin=False)), (403,), f"Origin: {origin}")
    refused(raw(post(origin=False)), (403,), "no Origin")
    refused(raw(post(headers=[f"Origin: http://{desk.host}"])), (400,), "two Origins")
    refused(raw(post(headers=[f"Referer: http://{desk.host}/"], origin=False)), (403,), "a Referer instead")
    same(raw(post())[0], 200, "our own")
    still_answers()


@cases.case
def pages_of_other_sites_are_refused():
    for site in ("cross-site", "same-site", "", "None", "SAME-ORIGIN", "same-origin, none", "x" * 500):
        refused(raw(request(headers=[f"Sec-Fetch-Site: {site}"])), (403,), site)
        refused(raw(post(headers=[f"Sec-Fetch-Site: {site}"])), (403,), site)
        refused(desk.ask("GET", f"/?token={desk.token}", cookie=None, headers={"Sec-Fetch-Site": site}), (403,),
                f"{site} with the token")
    for site in ("same-origin", "none"):
        same(raw(request(headers=[f"Sec-Fetch-Site: {site}"]))[0], 200, site)


@cases.case
def nothing_is_opened_to_other_origins():
    status, headers, _ = raw(request("OPTIONS /api/echo HTTP/1.1", ["Origin: http://example.invalid",
                                                                    "Access-Control-Request-Method: POST",
                                                                    "Access-Control-Request-Headers: content-type"]))
    same(status, 405)
    true(not any(name.startswith("access-control") for name in headers), headers)


# ---- bodies ----

@cases.case
def bodies_come_through_byte_for_byte():
    for body in (b"", b"{}", bytes(range(256)), b"\0" * 70000, b"x" * 1000003, bytes(range(256)) * 16384):
        status, _, back = raw(post(body=body), "POST")
        same((status, back == body), (200, True), f"{len(body)} bytes")


@cases.case
def bodies_in_many_small_parts_come_through():
    body = bytes(range(256)) * 8
    whole = post(body=body)
    for size in (1, 7, 333):
        with desk.connect() as one:
            one.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            for at in range(0, len(whole), size):
                one.sendall(whole[at:at + size])
            same(serving.read_reply(one)[2], body, f"in parts of {size}")


@cases.case
def bodies_without_a_plain_length_are_refused():
    chunk = b"2\r\n{}\r\n0\r\n\r\n"
    refused(raw(post(length=False)), (411,), "no length")
    refused(raw(post(["Transfer-Encoding: chunked"], chunk, length=False)), (411,), "chunked")
    for coding in ("Transfer-Encoding: chunked", "transfer-encoding: CHUNKED", "Transfer-Encoding: gzip, chunked",
                   "Transfer-Encoding: identity", "Transfer-Encoding:",
                   "Transfer-Encoding: chunked, chunked", "Transfer-Encoding: xchunked", "Transfer-Encoding:\tchunked"):
        refused(raw(post([coding], chunk, length=True)), (400, 411), f"both: {coding}")
        refused(raw(post([coding, "Transfer-Encoding: identity"], chunk, length=False)), (400, 411), f"two: {coding}")
    for length in ("-1", "+2", "2 2", "2, 2", "0x2", "2a", "two", "", "99999999999999999999999999", "1e1", "2;", "\xb2",
                   "18446744073709551618", " ", "2.0"):
        refused(raw(post([f"Content-Length: {length}"], length=False)), (400, 413, 411), f"Content-Length: {length}")
    refused(raw(post(["Content-Length: 2"])), (400,), "the length twice")
    refused(raw(post(["Content-Length: 3"])), (400,), "two lengths")
    refused(raw(request(headers=["Transfer-Encoding: chunked"], body=chunk)), (411, 400), "chunked GET")
    still_answers()


@cases.case
def bodies_that_are_too_large_are_refused_before_they_are_sent():
    most = 4 * 1024 * 1024 + 65536
    for length in (most + 1, 10 ** 9, 10 ** 15, 10 ** 18):
        refused(raw(post([f"Content-Length: {length}"], b"", length=False)), (413, 400), str(length))
    refused(raw(post(body=b"x" * 101, path="/api/small")), (413,), "larger than this one takes")
    same(raw(post(body=b"x" * 100, path="/api/small"))[0], 200)
    same(raw(post(body=b"x" * most))[0], 200)
    status, _, body = raw(post([f"Content-Length: {most + 1}"], b"", length=False))
    error = json.loads(body)["error"]
    same((status, error["code"]), (413, "too-large"))
    still_answers()


@cases.case
def bodies_of_another_type_are_refused():
    for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/jsonp",
                 "application/json+x", "json", "", "*/*",
                 "application", "text/plain; application/json"):
        refused(raw(post([f"Content-Type: {kind}"], kind=False)), (415,), kind)
    refused(raw(post(kind=False)), (415,), "none")
    refused(raw(post(["Content-Type: text/plain"])), (400,), "two types")
    for kind in ("application/json; charset=utf-8", "Application/JSON", "application/json;charset=x"):
        same(raw(post([f"Content-Type: {kind}"], kind=False))[0], 200, kind)


@cases.case
def bodies_of_those_who_only_ask_are_refused():
    refused(raw(request(headers=["Content-Length: 5"], body=b"hello")), (400,), "GET")
    refused(raw(request("HEAD /api/echo HTTP/1.1", ["Content-Length: 5"], b"hello"), "HEAD"), (400,), "HEAD")
    refused(raw(request(headers=[f"Content-Length: {10 ** 10}"])), (413,), "large GET")
    same(raw(request(headers=["Content-Length: 0"]))[0], 200)
    still_answers()


@cases.case
def only_the_usual_expectation_is_met():
    for expect in ("200-ok", "100-continue, x", "", "x"):
        refused(raw(post([f"Expect: {expect}"])), (417,), expect)
    with desk.connect() as one:
        one.sendall(post(["Expect: 100-continue"], b"", length=False).replace(b"\r\n\r\n", b"\r\nContent-Length: 2\r\n\r\n"))
        true(one.recv(100).startswith(b"HTTP/1.1 100 "), "it is not asked for the body")
        one.sendall(b"{}")
        same(serving.read_reply(one)[2], b"{}")
    refused(raw(post([f"Expect: 100-continue", f"Content-Length: {10 ** 9}"], b"", length=False)), (413,), "too large to go on")


@cases.case
def requests_that_break_off_are_not_served():
    whole = post(body=b"x" * 1000)
    for at in itertools.chain(range(1, len(whole) - 1, 67), (len(whole) - 1,)):
        with desk.connect(0.2) as one:
            one.sendall(whole[:at])
            if at % 2:
                continue
            one.shutdown(socket.SHUT_WR)
            try:
                true(serving.read_reply(one)[0] in (0, 400, 408), f"cut at {at}: served")
            except TimeoutError:
                pass  # the rest is waited for until its time is over
    still_answers()


# ---- headers ----

@cases.case
def crooked_headers_are_refused():
    for header in ("no colon", ": empty name", "Host : x", "\xff\xfe: x", "A\0B: x", f"Cookie: {desk.cookie}\0",
                   "Origin: a\0b", "Sec-Fetch-Site: none\0x"):
        answer = raw(request(headers=[header]))
        true(answer[0] in (0, 200, 400), f"{header!r}: {answer[0]}")
    for header in ("Host\0: x", f"Host: example.invalid\0{desk.host}", f"Host: {desk.host}\r", f"Host:\0{desk.host}"):
        refused(raw(request(headers=[header], host=False)), (400, 403, 0), repr(header))
    for text in (b"GET /api/echo HTTP/1.1\nHost: " + desk.host.encode() + b"\n\n", b"\r\n\r\n\r\n", b"\0" * 1000,
                 b"GET /api/echo\0 HTTP/1.1\r\n\r\n", b"\n" * 3000,
                 b"GET /api/echo HTTP/1.1\r\n Host: x\r\n\r\n", b"GET /api/echo HTTP/1.1\r\nHost: x\r\n folded\r\n\r\n"):
        with desk.connect(0.5) as one:
            one.sendall(text)
            one.shutdown(socket.SHUT_WR)
            try:
                true(serving.read_reply(one)[0] in (0, 400, 403), repr(text[:40]))
            except TimeoutError:
                pass  # the rest is waited for until its time is over
    still_answers()


@cases.case
def headers_that_must_stand_once_are_refused_twice():
    for header in (f"Cookie: {desk.cookie}", "Cookie: a=b"):
        refused(raw(request(headers=[header])), (400,), header)
    for header in ("Sec-Fetch-Site: none", "If-None-Match: *", "Expect: 100-continue"):
        refused(raw(request(headers=[header, header])), (400,), header)


@cases.case
def floods_of_headers_are_refused():
    for count, size in ((50, 1000), (2000, 20), (20000, 2), (1, 40000), (1, 1000000), (100000, 0)):
        headers = [f"X-{number}: {'y' * size}" for number in range(count)]
        refused(raw(request(headers=headers)), (431, 413, 400, 0), f"{count} of {size}")
    same(raw(request(headers=[f"X-{number}: y" for number in range(50)]))[0], 200, "fifty small ones")
    refused(raw(request(headers=["Cookie: " + "; ".join(f"a{n}=b" for n in range(1500))], cookie=False)), (403, 431, 0),
            "many cookies")
    still_answers()


# ---- connections ----

@cases.case
def requests_on_one_connection_are_answered_in_order():
    with desk.connect() as one:
        one.sendall(b"".join(request(f"GET /api/echo?a={number} HTTP/1.1") for number in range(60)))
        said = b""
        while said.count(b'"whole":') < 60:
            said += one.recv(65536)
    same(re.findall(rb'"whole":(\d+)', said), [str(number).encode() for number in range(60)])


@cases.case
def what_follows_a_refused_body_is_not_taken_for_a_request():
    hidden = request("GET /api/echo?a=999 HTTP/1.1")
    for first in (post([f"Content-Length: {len(hidden)}"], b"", length=False, origin=False),
                  post(["Transfer-Encoding: chunked"], b"", length=False),
                  request(headers=[f"Content-Length: {len(hidden)}"]),
                  post(["Transfer-Encoding: chunked", f"Content-Length: {len(hidden)}"], b"", length=False)):
        with desk.connect() as one:
            one.sendall(first + hidden)
            said = serving.read_all(one)
        same(said.count(b"HTTP/1.1"), 1, first[:60])
        true(b"999" not in said, first[:60])


@cases.case
def large_replies_come_whole_to_slow_readers():
    with desk.connect() as one:
        one.sendall(request("GET /api/large HTTP/1.1", ["Connection: close"]))
        said = bytearray()
        while more := one.recv(1 << 18):
            said += more
            time.sleep(0.005)
            if len(said) < 1 << 20:
                still_answers()
    same(len(said) - said.index(b"\r\n\r\n") - 4, 20 << 20)


@cases.case
def readers_who_leave_early_do_no_harm():
    for _ in range(20):
        with desk.connect() as one:
            one.sendall(request("GET /api/large HTTP/1.1"))
            one.recv(100)
    still_answers()


@cases.case
def crowd_of_silent_strangers_keeps_nobody_out():
    crowd = []
    try:
        for _ in range(150):
            crowd.append(desk.connect())
        started = time.monotonic()
        for _ in range(5):
            still_answers()
        true(time.monotonic() - started < 5, "it takes too long to get in")
    finally:
        for one in crowd:
            one.close()


# ---- time: at a door that waits a twentieth as long as usual; each waits on its own thread ----

def seconds_until_ended(hasty, text, every):
    """Sends text byte by byte, then more of its last one; how long until the door ends it."""
    started = time.monotonic()
    with hasty.connect(60) as one:
        one.settimeout(every)
        try:
            for at in itertools.count():
                if at < len(text) or text:
                    one.sendall(text[at:at + 1] or text[-1:])
                try:
                    if not one.recv(100):
                        break
                except TimeoutError:
                    pass
                if time.monotonic() - started > 20:
                    break
        except OSError:
            pass
    return time.monotonic() - started


def bytes_for_a_sleeping_reader(hasty, seconds):
    with hasty.connect(60) as one:
        one.sendall(own_to(hasty, request("GET /api/large HTTP/1.1")))
        time.sleep(seconds)
        return len(serving.read_all(one))


def own_to(other, text):
    return text.replace(desk.host.encode(), other.host.encode()).replace(desk.cookie.encode(), other.cookie.encode())


@cases.case
def slow_drips_and_silence_are_ended():
    with serving.Program([ECHO, "--hasty"]) as hasty:
        hasty.get_in()
        head, kept, body = own_to(hasty, request())[:-2], own_to(hasty, request()), own_to(hasty, post([], b"x" * 100000))
        slow = {
            "silence": (b"", 0.1, 0.4, 3), "a dripping line": (b"GET /", 0.1, 0.4, 3),
            "a dripping header": (head[:60], 0.005, 0.4, 4), "silence after a request": (kept, 0.0005, 3.5, 7),
            "a dripping body": (body, 0.002, 1.4, 7),
        }
        took = {}

        def wait(name):
            text, every = slow[name][:2]
            took[name] = seconds_until_ended(hasty, text, every)

        def read():
            took["sleeper"] = bytes_for_a_sleeping_reader(hasty, 6.5)

        threads = [threading.Thread(target=wait, args=(name,)) for name in slow] + [threading.Thread(target=read)]
        for one in threads:
            one.start()
        time.sleep(0.5)
        same(hasty.ask("GET", "/api/echo")[0], 200, "meanwhile")
        for one in threads:
            one.join()
        for name, (_, _, least, most) in slow.items():
            true(least < took[name] < most, f"{name} is ended after {took[name]:.1f} s")
        true(0 < took["sleeper"] < 20 << 20, f"who does not read for 6.5 s gets {took['sleeper']} bytes")
        same(hasty.ask("GET", "/api/echo")[0], 200, "afterwards")
        same(hasty.end()[0], 0)


@cases.case
def time_that_the_door_itself_needs_counts_against_nobody():
    with serving.Program([ECHO, "--hasty"]) as hasty:
        hasty.get_in()
        answers = []

        def ask(path):
            answers.append(hasty.ask("GET", path)[0])

        threads = [threading.Thread(target=ask, args=(path,)) for path in ("/api/slow", "/api/slow", "/api/echo", "/api/echo",
            "/api/echo")]
        for one in threads:
            one.start()
            time.sleep(0.1)
        for one in threads:
            one.join()
        same(answers, [200] * 5)


@cases.case
def more_guests_than_there_is_room_for_wait_their_turn():
    crowd = []
    for _ in range(100):
        crowd.append(desk.connect())
        crowd[-1].sendall(request("GET /api/echo?a=3 HTTP/1.1"))
    answered = 0
    for one in crowd:
        answered += b'"a":"3"' in one.recv(4096)
        one.close()
    same(answered, 100)
    still_answers()


@cases.case
def flood_of_a_stranger_is_slowed_down_and_the_desk_still_gets_in():
    seen = {desk.ask("GET", "/api/echo", cookie=None)[0] for _ in range(400)}
    same(seen, {403, 429})
    status, headers, _ = desk.ask("GET", "/", cookie=None)
    true(status == 429 and int(headers["retry-after"]) > 0, f"{status}")
    still_answers()
    same(desk.ask("GET", f"/?token={desk.token}", cookie=None)[0], 303, "the right token")


@cases.case
def flood_with_the_cookie_is_slowed_down_too():
    seen = set()
    with desk.connect() as one:
        for _ in range(40):
            one.sendall(request() * 60)
            said = b""
            while said.count(b"HTTP/1.1 ") < 60 or not said.endswith(b"}"):
                more = one.recv(1 << 20)
                if not more:
                    break
                said += more
            seen.update(re.findall(rb"HTTP/1\.1 (\d+)", said))
            if b"429" in seen:
                break
    same(seen, {b"200", b"429"})
    time.sleep(2)
    still_answers()


@cases.case
def it_ends_at_once_and_without_a_word():
    waiting = desk.connect()
    ended, out, err = desk.end(signal.SIGTERM)
    waiting.close()
    same((ended, out, err), (0, "", ""))


cases.run()
