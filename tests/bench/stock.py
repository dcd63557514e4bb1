#!/usr/bin/env python3
"""Measures the cutting-stock solver on published instances beside GLPK, both in one run on this
machine, and on problems of a quilt's size. Prints Markdown.

    tests/bench/stock.py [--limit SECONDS] [NAME...]    20 seconds for GLPK on each, all instances

GLPK gets the arc-flow formulation (J. M. Valério de Carvalho, "Exact solution of bin-packing
problems using column generation and branch-and-bound", Annals of Operations Research 86, 1999):
one whole variable for every place on a roll at which a length may begin when lengths lie from the
longest to the shortest. Its relaxation is as strong as that of all cutting patterns, and it needs
no list of patterns. Time for GLPK is that of its whole run, reading the problem included.
"""

import argparse
import pathlib
import re
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = ROOT / "build/release/tests/bench_stock"


def build():
    script = ". tools/prepare.sh; install_packages; configure release; build release bench_stock"
    subprocess.run(["bash", "-euo", "pipefail", "-c", script], cwd=ROOT, check=True,
                   stdout=sys.stderr)


def read(name):
    capacity, lengths = 0, []
    for line in (ROOT / f"tests/stock/published/{name}.txt").read_text().splitlines():
        first, second = line.split()
        if first == "capacity":
            capacity = int(second)
        elif first.isdigit():
            lengths.append((int(first), int(second)))
    return capacity, sorted(lengths, reverse=True)


def arcs_of(capacity, lengths):
    """Every (from, to, length) that some pattern with its lengths in falling order can have."""
    reached = {0}
    arcs = []
    for length, count in lengths:
        ends = set(reached)
        for start in sorted(reached):
            for n in range(count):
                begin = start + n * length
                if begin + length > capacity:
                    break
                if (begin, length) not in ends:
                    ends.add((begin, length))
                    arcs.append((begin, begin + length, length))
        reached = {e for e in ends if isinstance(e, int)}
        reached |= {e[0] + e[1] for e in ends if not isinstance(e, int)}
    return arcs


def write_lp(path, capacity, lengths):
    arcs = arcs_of(capacity, lengths)
    into, out, of = {}, {}, {}
    for begin, end, length in arcs:
        name = f"x{begin}_{length}"
        out.setdefault(begin, []).append(name)
        into.setdefault(end, []).append(name)
        of.setdefault(length, []).append(name)
    nodes = sorted(set(into) | set(out) | {capacity})
    for here, there in zip(nodes, nodes[1:]):  # what is left of a roll
        if here == 0:
            continue
        name = f"w{here}"
        out.setdefault(here, []).append(name)
        into.setdefault(there, []).append(name)
    with open(path, "w", encoding="ascii") as lp:
        def total(names, sign):
            return "".join(f" {sign} {n}" + ("\n" if i % 8 == 7 else "")
                           for i, n in enumerate(names))
        lp.write("Minimize\n rolls: z\nSubject To\n")
        for node in nodes:
            lp.write(f" n{node}:" + total(into.get(node, []), "+") + total(out.get(node, []), "-"))
            lp.write(" + z = 0\n" if node == 0 else " - z = 0\n" if node == capacity else " = 0\n")
        for length, count in lengths:
            lp.write(f" d{length}:" + total(of[length], "+") + f" >= {count}\n")
        lp.write("General\n z\n" + "".join(f" x{b}_{l}\n" for b, _, l in arcs))
        lp.write("".join(f" {n}\n" for here in nodes for n in out.get(here, []) if n[0] == "w"))
        lp.write("End\n")
    return len(arcs)


def glpk(name, limit):
    """Rolls GLPK found (or None), whether it proved them least, seconds, arcs."""
    capacity, lengths = read(name)
    with tempfile.TemporaryDirectory() as folder:
        problem, answer = pathlib.Path(folder, "p.lp"), pathlib.Path(folder, "answer.txt")
        arcs = write_lp(problem, capacity, lengths)
        start = time.monotonic()
        said = subprocess.run(["glpsol", "--lp", problem, "--tmlim", str(limit), "-o", answer],
                              capture_output=True, text=True, check=False)
        seconds = time.monotonic() - start
        if said.returncode != 0 or not answer.exists():
            return None, False, seconds, arcs
        text = answer.read_text()
        status = re.search(r"^Status:\s+(.*)$", text, re.M)
        rolls = re.search(r"^Objective:\s+rolls = ([-+\d.e]+)", text, re.M)
        status = status[1].strip() if status else ""
        if status not in ("INTEGER OPTIMAL", "INTEGER NON-OPTIMAL") or not rolls:
            return None, False, seconds, arcs
        return round(float(rolls[1])), status == "INTEGER OPTIMAL", seconds, arcs


def main():
    parser = argparse.ArgumentParser(description=__doc__,
                                     formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--limit", type=int, default=20, help="seconds for GLPK on each instance")
    parser.add_argument("names", nargs="*", help="how the names of wanted instances begin")
    words = parser.parse_args()
    build()
    version = subprocess.run(["glpsol", "--version"], capture_output=True, text=True, check=True)
    version = re.search(r"\d+\.\d+", version.stdout)[0]
    print(f"GLPK {version}, arc-flow formulation, stopped after {words.limit} s.\n")
    print("| instance | lengths | pieces | optimum | rolls | bound | proved | time | first fit | "
          "GLPK's rolls | proved | time | arcs |\n" + "|---" * 13 + "|")
    ours, theirs, count = 0, 0, 0
    lines = subprocess.run([PROGRAM, "instances", *words.names], capture_output=True, text=True,
                           check=True).stdout.splitlines()
    for line in lines:
        name, kinds, pieces, optimum, rolls, bound, first_fit, ms = line.split("\t")
        found, proved, seconds, arcs = glpk(name, words.limit)
        count += 1
        ours += rolls == bound
        theirs += proved
        print(f"| {name} | {kinds} | {pieces} | {optimum} | {rolls} | {bound} | "
              f"{'yes' if rolls == bound else 'no'} | {float(ms) / 1000:.3f} s | {first_fit} | "
              f"{'none' if found is None else found} | {'yes' if proved else 'no'} | "
              f"{seconds:.1f} s | {arcs} |", flush=True)
    print(f"\nProved least: dogear {ours} of {count}, GLPK {theirs} of {count}.\n")
    print("Problems of a quilt's size, cloth of 42 in sold by 1/8 yd:\n")
    subprocess.run([PROGRAM, "quilts"], check=True)


if __name__ == "__main__":
    main()
