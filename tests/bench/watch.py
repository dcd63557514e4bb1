#!/usr/bin/env python3
"""Times how long a save takes to be seen in the browser that watches a pattern. Prints Markdown.

    tests/bench/watch.py [--runs N] [PATTERN]    harbor-lights, 9 runs

The pattern is copied and changed to and fro: one word of its prose, and the width of a border,
which changes cuts, cloth, figures and pages. A change is seen when the browser has loaded the
first picture that differs: of a word a page, of a number a figure; and it is whole when all pages
and quantities are those of the change.
"""

import argparse
import pathlib
import re
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = ROOT / "build/release/tools/dogear"
sys.path.insert(0, str(ROOT / "tests/command"))
from browser import Browser  # noqa: E402

# Resolves when a picture of a column differs from those given and is loaded.
SEEN = """new Promise(function (done) {
  var before = BEFORE;
  (function look() {
    var all = Array.from(document.querySelectorAll('COLUMN img'));
    var some = all.some(function (i) {
      return before.indexOf(i.dataset.picture) < 0 && i.complete && i.naturalWidth > 0; });
    if (some) { done(1); } else { setTimeout(look, 2); }
  }()); })"""
WHOLE = """new Promise(function (done) { (function look() {
  if (document.documentElement.dataset.state === 'fresh') { done(1); } else { setTimeout(look, 2); }
}()); })"""


def measure(browser, path, texts, column, runs):
    seen, whole = [], []
    for run in range(runs + 2):  # the first two warm up, one each way
        before = browser.value(
            f"Array.from(document.querySelectorAll('{column} img')).map(i => i.dataset.picture)")
        begin = time.perf_counter()
        path.write_text(texts[(run + 1) % 2], encoding="utf-8")
        browser.value(SEEN.replace("BEFORE", str(before)).replace("COLUMN", column))
        seen.append((time.perf_counter() - begin) * 1000)
        browser.value(WHOLE)
        whole.append((time.perf_counter() - begin) * 1000)
        time.sleep(0.3)
    return seen[2:], whole[2:]


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("pattern", nargs="?", default="harbor-lights")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / given.pattern
        shutil.copytree(ROOT / "patterns" / given.pattern, folder)
        watch = subprocess.Popen([PROGRAM, "watch", folder], stdout=subprocess.PIPE, text=True)
        try:
            browser = Browser(pathlib.Path(scratch) / "profile")
            browser.open(watch.stdout.readline().strip())
            browser.value(WHOLE)
            prose = sorted(folder.glob("prose/*.md"))[0]
            words = prose.read_text(encoding="utf-8")
            pattern = folder / "pattern.yaml"
            text = pattern.read_text(encoding="utf-8")
            border = re.search(r"(borders:\s*\n?\s*-? *\[?\{fabric: [\w-]+, width: )(\d+) in", text)
            number = text.replace(border[0], f"{border[1]}{border[2]} 1/2 in", 1)
            print("| change | first picture, median | least | whole, median | least |\n|---|--:|--:|--:|--:|")
            for name, path, texts, column in (
                    ("one word of a paragraph", prose,
                     (words, re.sub(r"^(\w.*?) the ", r"\1 that ", words, count=1, flags=re.M)), "#pages"),
                    ("the width of a border", pattern, (text, number), "#figures")):
                seen, whole = measure(browser, path, texts, column, given.runs)
                print(f"| {name} | {statistics.median(seen):.0f} ms | {min(seen):.0f} ms | "
                      f"{statistics.median(whole):.0f} ms | {min(whole):.0f} ms |")
            browser.close()
        finally:
            watch.kill()


main()
