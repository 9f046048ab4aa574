# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of `tuskwright serve` share: start it, get in, ask, and say in TAP how it went.

    with serving.Program([program, "serve", "--book", path]) as desk:
        desk.get_in()
        status, headers, body = desk.ask("GET", "/api/book?shelf=jobs")
        answer = desk.json("/api/save", {...})          # POST; {"error": ...} too

Requests go over plain sockets, so that nothing but what is written here is sent."""
import json
import os
import re
import select
import signal
import socket
import subprocess
import sys
import time

ADDRESS = re.compile(r"^http://127\.0\.0\.1:(\d+)/\?token=([0-9a-f]{32})$")


class Program:
    def __init__(self, arguments, env=None, before=None):
        started = dict(os.environ, **(env or {}))
        self.process = subprocess.Popen(arguments, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                                        env=started, preexec_fn=before)
        self.line = self.read_line(30)
        found = ADDRESS.match(self.line)
        if not found:
            self.process.kill()
            said = self.process.communicate()[1].decode()
            raise RuntimeError(f"no address but {self.line!r}, standard error {said!r}, ended with {self.process.returncode}")
        self.port, self.token = int(found.group(1)), found.group(2)
        self.host = f"127.0.0.1:{self.port}"
        self.cookie = None

    def read_line(self, seconds):
        line, until = b"", time.monotonic() + seconds
        while not line.endswith(b"\n") and time.monotonic() < until:
            if select.select([self.process.stdout], [], [], 0.1)[0]:
                byte = os.read(self.process.stdout.fileno(), 1)
                if not byte:
                    break
                line += byte
        return line.decode().rstrip("\n")

    def __enter__(self):
        return self

    def __exit__(self, *_):
        if self.process.poll() is None:
            self.process.kill()
        self.process.communicate()

    def end(self, with_signal=signal.SIGTERM, seconds=20):
        """Ends it kindly: (what it ended with, rest of standard output, standard error)."""
        self.process.send_signal(with_signal)
        out, err = self.process.communicate(timeout=seconds)
        return self.process.returncode, out.decode(), err.decode()

    def get_in(self):
        status, headers, _ = self.ask("GET", f"/?token={self.token}", cookie=None)
        if status != 303:
            raise RuntimeError(f"the token is answered with {status}")
        self.cookie = headers["set-cookie"].split(";")[0]
        return headers

    def ask(self, method, path, body=None, headers=None, cookie="own", host=None):
        """One request on a connection of its own: (status, headers, body). headers: more of them, None leaves one out."""
        lines = {"Host": host or self.host, "Connection": "close"}
        if cookie == "own":
            cookie = self.cookie
        if cookie:
            lines["Cookie"] = cookie
        if isinstance(body, (dict, list)):
            body = json.dumps(body).encode()
        if body is not None:
            lines.update({"Content-Length": str(len(body)), "Content-Type": "application/json", "Origin": f"http://{self.host}"})
        lines.update(headers or {})
        return self.send(head_of(method, path, lines) + (body or b""), method)

    def json(self, path, body=None):
        status, _, answer = self.ask("GET" if body is None else "POST", path, body)
        got = json.loads(answer)
        if isinstance(got, dict):
            got["status"] = status
        return got

    def connect(self, seconds=20):
        return socket.create_connection(("127.0.0.1", self.port), timeout=seconds)

    def send(self, request, method="GET", seconds=60):
        with self.connect(seconds) as one:
            try:
                one.sendall(request)
            except OSError:
                pass  # it may be shut out while it still speaks
            return read_reply(one, method)


def head_of(method, path, lines):
    """The head of a request; a header whose value is None is left out."""
    text = f"{method} {path} HTTP/1.1\r\n"
    for name, value in lines.items():
        if value is not None:
            text += f"{name}: {value}\r\n"
    return text.encode() + b"\r\n"


def read_all(one):
    said = b""
    try:
        while True:
            more = one.recv(65536)
            if not more:
                return said
            said += more
    except ConnectionResetError:
        return said


def parse_reply(said):
    head, _, body = said.partition(b"\r\n\r\n")
    lines = head.decode("latin-1").split("\r\n")
    status = int(lines[0].split(" ")[1]) if lines[0].startswith("HTTP/") else 0
    headers = {}
    for line in lines[1:]:
        name, _, value = line.partition(":")
        headers[name.lower()] = value.strip()
    return status, headers, body


def read_reply(one, method="GET"):
    """The reply up to its length; status 0 when the connection ends without one."""
    said = bytearray()
    wanted = None  # bytes of the whole reply, once its head is there
    while wanted is None or len(said) < wanted:
        try:
            more = one.recv(1 << 20)
        except ConnectionResetError:
            more = b""
        if not more:
            break
        said += more
        while wanted is None and b"\r\n\r\n" in said:
            status, headers, _ = parse_reply(bytes(said))
            head = said.index(b"\r\n\r\n") + 4
            if status == 100:
                del said[:head]
                continue
            wanted = head + (int(headers.get("content-length", 0)) if method != "HEAD" and status not in (304, 204) else 0)
    return parse_reply(bytes(said[:wanted])) if said else (0, {}, b"")


class Cases:
    """Runs functions as cases, named after what they show."""

    def __init__(self):
        self.all = []

    def case(self, function):
        self.all.append(function)
        return function

    def run(self):
        print(f"1..{len(self.all)}", flush=True)
        failed = 0
        for number, function in enumerate(self.all, start=1):
            name = function.__name__.replace("_", " ")
            try:
                function()
                print(f"ok {number} - {name}", flush=True)
            except Exception as fault:  # pylint: disable=broad-except
                failed += 1
                print(f"not ok {number} - {name}", flush=True)
                where = fault.__traceback__
                while where.tb_next:
                    where = where.tb_next
                for line in f"{type(fault).__name__}, line {where.tb_lineno}: {fault}".splitlines():
                    print(f"# {line}", flush=True)
        sys.exit(1 if failed else 0)


def same(got, wanted, about=""):
    if got != wanted:
        raise AssertionError(f"{about}: {got!r}, not {wanted!r}")


def true(holds, about=""):
    if not holds:
        raise AssertionError(about)
