# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of the desk's answers share: a program on a book of its own, and texts of examples.

    with desk.opened(program) as it:                # a new book in a folder that goes away again
        answer = it.json("/api/book?shelf=jobs")
"""
import contextlib
import os
import shutil
import tempfile

import serving

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")


def example(name):
    """The texts of an example job and of its shop."""
    folder = os.path.join(ROOT, "examples", name)
    with open(os.path.join(folder, "job.yaml"), encoding="utf-8") as file:
        job = file.read()
    for shop in (os.path.join(folder, "shop.yaml"), os.path.join(folder, "..", "shop.yaml")):
        if os.path.exists(shop):
            with open(shop, encoding="utf-8") as file:
                return job, file.read()
    raise RuntimeError(f"{name} has no shop")


@contextlib.contextmanager
def folder():
    path = tempfile.mkdtemp(prefix="desk-")
    try:
        yield path
    finally:
        shutil.rmtree(path, ignore_errors=True)


@contextlib.contextmanager
def opened(program, *more, **how):
    with folder() as home:
        with serving.Program([program, "serve", "--book", os.path.join(home, "book.sqlite"), *more], **how) as it:
            it.get_in()
            it.home = home
            yield it


def put_example(it, name="reading-table"):
    """The example in the book: (id of the job, id of the shop, text, text of the shop)."""
    job, shop = example(name)
    shop_id = it.json("/api/book/import", {"shelf": "shops", "text": shop})["id"]
    job_id = it.json("/api/book/import", {"shelf": "jobs", "text": job, "shop": shop_id})["id"]
    return job_id, shop_id, job, shop


def refused(answer, status, *words):
    """The answer is a refusal with that status, whose sentences hold the words."""
    serving.same(answer["status"], status, answer)
    said = f"{answer['error']['what']}; {answer['error']['remedy']}"
    for word in words:
        serving.true(word in said, f"{word!r} is not in {said!r}")
    serving.true(answer["error"]["what"] and not answer["error"]["what"].endswith("."), said)
