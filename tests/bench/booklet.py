#!/usr/bin/env python3
"""Times a whole booklet beside a general typesetter, groff, that sets the same text, tables and
figures, both in one run on this machine. Prints Markdown.

    tests/bench/booklet.py [--runs N] [PATTERN SIZE]    harbor-lights lap, 7 runs

groff gets its text finished and its figures drawn: they are taken from the booklet's own page for
screens and turned into EPS beforehand, which is not timed; it writes PostScript, which is not yet a
PDF. dogear's time is that of its whole run, from reading the pattern to writing the PDF: fit, sewing
order, cutting, cloth, figures, pages.
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
import xml.etree.ElementTree as tree

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = ROOT / "build/release/tools/dogear"
XHTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
POINTS_A_PIXEL = 0.75
SKIPPED = {"script", "style", "nav", "head", "form", "button", "input", "select", "title"}
FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
             "⅓": "1/3", "⅔": "2/3", "⁄": "/", "→": "->", "\u2009": " ", "\u202f": " "}


def build():
    script = ". tools/prepare.sh; install_packages; configure release; build release dogear"
    subprocess.run(["bash", "-euo", "pipefail", "-c", script], cwd=ROOT, check=True,
                   stdout=sys.stderr)
    if not shutil.which("groff"):
        sys.exit("this needs Debian's package groff: apt-get install groff")


class Page:
    """The page for screens as input for groff's ms macros and one EPS file a figure."""

    def __init__(self, folder, root):
        self.folder = folder
        self.out = [".nr PS 10.5p", ".nr VS 15p"]
        self.figures = 0
        # What the pictures share: each figure takes of it what it names.
        self.shared = {e.get("id"): e for e in root.iter() if e.get("id")}

    def words(self, node):
        text = "".join(self.inner(node)) if node is not None else ""
        for sign, plain in FRACTIONS.items():
            text = text.replace(sign, plain)
        text = re.sub(r"\s+", " ", text).strip().replace("\\", "\\e")
        return "\\&" + text if text[:1] in ".'" else text

    def inner(self, node):
        yield node.text or ""
        for child in node:
            if not child.tag.startswith(SVG) and child.tag.removeprefix(XHTML) not in SKIPPED:
                yield from self.inner(child)
            yield " " + (child.tail or "")

    def figure(self, svg):
        self.figures += 1
        name = self.folder / f"figure{self.figures}"
        picture = tree.Element(SVG + "svg", {k: v for k, v in svg.attrib.items()
                                             if k in ("viewBox", "width", "height")})
        # Drawn at the size of its box in points.
        box = [float(v) for v in svg.get("viewBox").split()]
        picture.set("width", f"{box[2]}pt")
        picture.set("height", f"{box[3]}pt")
        defs = tree.SubElement(picture, SVG + "defs")
        wanted, seen = [svg], set()
        while wanted:
            for part in wanted.pop().iter():
                for value in part.attrib.values():
                    for name_of in re.findall(r"^#(.+)$|url\(#([^)]+)\)", value):
                        ref = name_of[0] or name_of[1]
                        if ref in self.shared and ref not in seen:
                            seen.add(ref)
                            defs.append(self.shared[ref])
                            wanted.append(self.shared[ref])
        picture.extend(list(svg))
        name.with_suffix(".svg").write_bytes(tree.tostring(picture))
        subprocess.run(["rsvg-convert", "-f", "eps", "-o", name.with_suffix(".eps"),
                        name.with_suffix(".svg")], check=True)
        width = min(box[2], 460)
        self.out.append(f".PSPIC -C {name.with_suffix('.eps')} {width}p")

    def table(self, node):
        rows = [[self.words(c) for c in row if c.tag in (XHTML + "td", XHTML + "th")]
                for row in node.iter(XHTML + "tr")]
        columns = max((len(r) for r in rows), default=0)
        if columns == 0:
            return
        self.out += [".TS", "tab(\t);", " ".join("l" * columns) + "."]
        for row in rows:
            cells = row + [""] * (columns - len(row))
            self.out.append("\t".join(f"T{{\n{c}\nT}}" if len(c) > 24 else c for c in cells))
        self.out.append(".TE")

    def walk(self, node):
        tag = node.tag.removeprefix(XHTML)
        if tag in SKIPPED or "defs" in (node.get("class") or "").split():
            return
        if node.tag == SVG + "svg":
            if node.get("viewBox"):
                self.figure(node)
            return
        if tag == "table":
            self.table(node)
            for svg in node.iter(SVG + "svg"):
                self.figure(svg)
            return
        if tag in ("h1", "h2", "h3"):
            self.out += [".SH", self.words(node)]
        elif tag in ("p", "figcaption", "dt", "dd") or (tag == "li" and not node.findall(".//")):
            self.out += [".LP", self.words(node)]
        elif node.text and node.text.strip():
            self.out += [".LP", node.text.strip()]
        for child in node:
            if tag not in ("p", "figcaption", "h1", "h2", "h3") or child.tag == SVG + "svg":
                self.walk(child)


def seconds(command):
    begin = time.perf_counter()
    run = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, cwd=ROOT)
    taken = time.perf_counter() - begin
    if run.returncode != 0:
        sys.exit(f"{command} failed:\n{run.stderr.decode()[-2000:]}")
    return taken


def pages(made):
    if made.suffix == ".ps":
        return int(re.search(r"^%%Pages: (\d+)", made.read_text("latin-1"), re.M)[1])
    info = subprocess.run(["pdfinfo", made], check=True, capture_output=True, text=True).stdout
    return int(re.search(r"Pages:\s+(\d+)", info)[1])


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n\n")[0])
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("pattern", nargs="?", default="harbor-lights")
    parser.add_argument("size", nargs="?", default="lap")
    given = parser.parse_args()
    build()
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        pattern = ROOT / "patterns" / given.pattern
        ours = [PROGRAM, "build", pattern, "--size", given.size, "-o", folder]
        subprocess.run([*ours, "--as", "html"], check=True, stdout=subprocess.DEVNULL)
        root = tree.parse(folder / f"{given.pattern}.html").getroot()
        page = Page(folder, root)
        page.walk(root.find(XHTML + "body"))
        source, theirs_ps = folder / "booklet.ms", folder / "groff.ps"
        source.write_text("\n".join(page.out) + "\n")
        theirs = ["sh", "-c", f"groff -K utf8 -t -ms -U -Tps {source} >{theirs_ps}"]
        times = {"dogear": [], "groff": []}
        for _ in range(given.runs):  # by turns, so that neither has the quieter machine
            times["dogear"].append(seconds(ours))
            times["groff"].append(seconds(theirs))
        made = {"dogear": folder / f"{given.pattern}-{given.size}.pdf", "groff": theirs_ps}
        print(f"{given.pattern}, {given.size}: {page.figures} figures; {given.runs} runs by turns\n")
        print("| program | median | least | pages | size |\n|---|--:|--:|--:|--:|")
        for name, taken in times.items():
            print(f"| {name} | {statistics.median(taken):.2f} s | {min(taken):.2f} s | "
                  f"{pages(made[name])} | {made[name].stat().st_size / 1e6:.2f} MB |")


main()
