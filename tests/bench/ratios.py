#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""ratios.py BYSSUS SOURCE_ROOT JSON PROGRAM...: runs the benchmark programs, shows what they print,
then one table of their numbers beside the targets, and writes them to JSON. A program whose peer is
not installed was not built and is not among them: its rows say "not measured". Fails when a program
breaks or a layout came out wrong; a missed target is told in the table, not by the exit status."""
import json
import os
import shutil
import subprocess
import sys
import tempfile
import time

ARGUMENTS = {"torture": [["10000", "1", "50"], ["insane", "1000"]]}
# key, what it is, target (None: told only)
ROWS = [
    ("torture_stable_share", "random layouts that end stable", (">=", 0.995)),
    ("torture_wrong", "random layouts that are wrong", ("<=", 0)),
    ("torture_per_second", "random layouts a second, one thread", (">=", 200)),
    ("torture_impossible_refused", "impossible layouts refused by name, of 1000", (">=", 1000)),
    ("cold_factorisations_median", "60 lines, factorisations from cold, median", ("<=", 20)),
    ("cold_factorisations_p95", "the same, 95 %", ("<=", 40)),
    ("warm_factorisations_median", "to the next 22.5 degrees, median", ("<=", 7)),
    ("on_axis_factorisations_median", "current along or square to the lines", None),
    ("lost_leg_factorisations_median", "one leg lost, from the intact state", None),
    ("tied_cold_factorisations_median", "60 lines tied to one matrix, from cold", None),
    ("tied_warm_factorisations_median", "60 lines tied, next 22.5 degrees", None),
    ("kinsol_ratio", "KINSOL's time over ours, where both solve", (">=", 1.3)),
    ("kinsol_factorisations_ratio", "KINSOL's factorisations over ours", (">=", 1.0)),
    ("kinsol_solved", "cases that KINSOL solves", None),
    ("kinsol_solved_by_us", "cases that we solve", None),
    ("kinsol_apart", "positions apart over the layout's size", ("<=", 1e-8)),
    ("calculix_ratio", "CalculiX's time over ours, net in air", (">=", 20)),
    ("calculix_apart", "forces apart between the two", ("<=", 1e-4)),
    ("klu_ratio", "KLU refactor and solve over ours, 60 lines", (">=", 2)),
    ("loads_over_factor", "loads and tangent over factor and solve", ("<=", 8)),
    ("total_over_factor", "solve over its factorisations and solves", ("<=", 12)),
    ("line_cost_1000_over_60", "cost of a line, 1000 lines over 60", ("<=", 1.3)),
    ("bytes_per_node", "bytes a node, 60 lines in one matrix", ("<=", 4000)),
    ("rectangle_spectrum_ms", "wave drift over one spectrum on a known hull, ms", ("<=", 1)),
    ("rectangle_setup_ms", "the hull's table before it, ms", None),
    ("demo_check_s", "check of the pearl block on 2 threads, s", ("<=", 15)),
    ("demo_threads_ratio", "the same on 1 thread over 2", None),
]


def run(command):
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    print("$ " + " ".join([os.path.basename(command[0]), *command[1:]]))
    print(done.stdout, end="")
    print(done.stderr, end="", file=sys.stderr)
    sys.stdout.flush()
    return done


def run_one(command, values, broken):
    done = run(command)
    if done.returncode != 0:
        broken.append(f"{' '.join(command)} ended with {done.returncode}")
    for line in done.stdout.splitlines():
        words = line.split()
        if len(words) == 3 and words[0] == "bench":
            values[words[1]] = float(words[2])


def check_demo(byssus, root, values):
    demo, seconds = os.path.join(root, "sitefiles", "pearl-block.xml"), {}
    for threads in (1, 2):
        with tempfile.TemporaryDirectory() as folder:
            start = time.perf_counter()
            done = subprocess.run([byssus, "check", demo, "--quiet", "--to", folder, "--threads",
                                   str(threads)], capture_output=True, check=False)
            seconds[threads] = time.perf_counter() - start
            if done.returncode not in (0, 1, 2):
                return False
    values["demo_check_s"] = round(seconds[2], 3)
    values["demo_threads_ratio"] = round(seconds[1] / seconds[2], 3)
    return True


def verdict(value, target):
    if target is None:
        return ""
    sign, limit = target
    met = value >= limit if sign == ">=" else value <= limit
    return f"{sign} {limit:g}  {'met' if met else 'MISSED'}"


def main():
    byssus, root, out, *programs = sys.argv[1:]
    values, broken = {}, []
    here, ccx = os.path.dirname(os.path.abspath(__file__)), shutil.which("ccx")
    for program in programs:
        if os.path.basename(program) == "bench_air":
            if ccx:
                run_one([sys.executable, os.path.join(here, "calculix.py"), program, ccx], values,
                        broken)
            continue
        for arguments in ARGUMENTS.get(os.path.basename(program), [[]]):
            run_one([program, *arguments], values, broken)
    if not check_demo(byssus, root, values):
        broken.append("check of the demo failed")
    print()
    for key, what, target in ROWS:
        told = f"{values[key]:12.4g}  {verdict(values[key], target)}" if key in values else \
            "not measured"
        print(f"{what:50} {told}")
    for key, _, _ in ROWS:
        values.setdefault(key, None)
    with open(out, "w", encoding="utf-8") as file:
        json.dump(dict(sorted(values.items())), file, indent=1, allow_nan=False)
        file.write("\n")
    for what in broken:
        print("broken: " + what)
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())
