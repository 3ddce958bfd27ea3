#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""pulltest.py PROGRAM SOURCE_ROOT: records of pull tests through the real program."""
import json
import os
import subprocess
import sys
import tempfile

from tap import Tap

program, root = map(os.path.abspath, sys.argv[1:3])
tap = Tap()
holder = tempfile.TemporaryDirectory(prefix="byssus-pull-")
here = holder.name
HEAD = ("# anchor: {a}\n# anchor-mass: {m} kg\n# soil: sand\n# tackle: winch\n# scope: 6\n"
        "# load-rate: 0.02 m/s\n# load-cell: link\n# calibration-date: 2025-01-01\n")


def run(*args):
    return subprocess.run([program, "pulltest", *args], capture_output=True, text=True, timeout=60,
                          cwd=here, stdin=subprocess.DEVNULL, check=False)


def record(name, rows, anchor="a", mass=100, more="", columns="drag [m],load [kgf]", head=HEAD):
    with open(os.path.join(here, name), "w", encoding="utf-8") as file:
        file.write(head.format(a=anchor, m=mass) + more + columns + "\n" + "\n".join(rows) + "\n")
    return name


def reduced(*names):
    result = run("--json", *names)
    return json.loads(result.stdout) if result.returncode in (0, 1, 2) else {"tests": [], "err": result.stderr}


def near(name, got, want, tol=0.006):
    bad = [f"{k}: wanted {v}, got {got.get(k)}" for k, v in want.items()
           if (got.get(k) != v if isinstance(v, (bool, str)) or v is None or got.get(k) is None
               else abs(got[k] - v) > tol * max(abs(v), 1e-9))]
    tap.check(name, bad)


KN = 0.00980665
# Loads, drags and efficiencies: common practice, no source. Readings past the peak of the second
# and third are made up, to give the peak an end.
block = record("block", ["1,850", "2,1155", "3,1310", "3.5,1200", "4,1285"], "block", 1000)
stock = record("stock", ["1,260", "2,500", "4,550", "4.6,545"], "stockless", 180)
fluke = record("fluke", ["1,140", "2,420", "3,550", "4.5,570", "4.8,90"], "fluke", 28)
near("1,000 kg block", reduced(block)["tests"][0], {
    "peak_kN": 1310 * KN, "peak_drag_m": 3.0, "lower_bound": False, "efficiency": 1.31,
    "steady_low_kN": 1200 * KN, "steady_high_kN": 1285 * KN, "rolled_out": False, "set50_m": None,
    "set90_m": 2 + (1179 - 1155) / 155, "capacity_kN": 1155 * KN, "first_drag_m": 1.0})
near("180 kg stockless", reduced(stock)["tests"][0], {
    "peak_kN": 550 * KN, "efficiency": 3.06, "lower_bound": False, "capacity_kN": 500 * KN,
    "set50_m": 1 + 15 / 240})
near("28 kg hinged fluke", reduced(fluke)["tests"][0], {
    "peak_kN": 570 * KN, "peak_drag_m": 4.5, "efficiency": 20.36, "rolled_out": True,
    "steady_low_kN": None, "residual_kN": 0, "capacity_kN": 420 * KN})
rising = record("rising", ["1,200", "2,400", "3,500"])
near("stopped while rising: a lower bound", reduced(rising)["tests"][0], {
    "lower_bound": True, "peak_kN": 500 * KN, "residual_kN": 0, "capacity_is_lower_bound": False})
short = record("short", ["0.5,200", "1.5,400"])
near("ends before the permitted drag", reduced(short)["tests"][0], {
    "capacity_is_lower_bound": True, "capacity_kN": 400 * KN})
value = reduced(block, stock, fluke)
tap.check("three anchors compare", [] if value.get("comparable") else [str(value.get("why_not"))])
other = record("other", ["1,2", "2,3"], head=HEAD.replace("sand", "mud"))
value = reduced(block, other)
tap.check("other soil does not", [] if not value["comparable"] and "soil" in value["why_not"][0] else [str(value)])
out = run(block, other, "--to", "out")
tap.check("and gets no chart", [] if not os.path.exists(os.path.join(here, "out", "pulltest.svg"))
          and os.path.exists(os.path.join(here, "out", "pulltest.json")) else [out.stderr])
out = run(block, stock, "--to", "chart")
tap.check("the others get one", [] if os.path.exists(os.path.join(here, "chart", "pulltest.svg")) else [out.stderr])

hold = HEAD + "# hold-load: 4 kN\n# hold-time: 3 min\n"
COLS = "time [s],drag [m],load [kN]"
ROWS = ["0,1,4.2", "200,1,4.1", "210,1,0"]
place = "# offset-along: 1 m\n# offset-across: {} m\n"
for name, rows, more, status in (("held", ROWS, place.format(1), 0), ("outside", ROWS, place.format(4), 1),
                                 ("no place", ROWS, "", 2), ("let go", ["0,1,4.2", "100,1,4.1", "110,1,0"],
                                                             place.format(1), 1)):
    got = run(record("hold", rows, columns=COLS, head=hold, more=more))
    tap.check(f"hold test: {name}", [] if got.returncode == status else [f"{got.returncode} {got.stderr}"])
tap.check("kinds are not mixed", [] if run("hold", "--kind", "ultimate").returncode == 65
          and run(block, "--kind", "proof").returncode == 65 else ["taken"])

for name, rows, more, columns, want in (
        ("decimal comma", ["1,5,200", "2,5,300"], "", "drag [m],load [kgf]", ":10:1: E0805"),
        ("mass for a force", ["1,2", "2,3"], "", "drag [m],load [kg]", ":9:10: E0205"),
        ("misspelled key", ["1,2", "2,3"], "# bed-slop: 1 deg\n", "drag [m],load [kgf]", "did you mean \"bed-slope\""),
        ("no unit", ["1,2", "2,3"], "", "drag,load [kgf]", ":9:1: E0202"),
        ("backwards", ["2,2", "1,3"], "", "drag [m],load [kgf]", "E0806")):
    got = run(record("bad", rows, more=more, columns=columns))
    tap.check(f"fault: {name}", [] if got.returncode == 65 and want in got.stderr else [got.stderr[:300].replace("\n", " ")])
tap.check("a missing file", [] if run("nowhere.csv").returncode == 66 else ["not 66"])

folder = os.path.join(root, "sitefiles", "pulltests")
demo = run("--json", *sorted(os.path.join(folder, n) for n in os.listdir(folder)))
faults = [] if demo.returncode == 0 else [demo.stderr]
try:
    import jsonschema
    with open(os.path.join(root, "sitefiles", "pulltest.schema.json"), encoding="utf-8") as file:
        faults += [e.message[:200] for e in jsonschema.Draft7Validator(json.load(file)).iter_errors(
            json.loads(demo.stdout))]
except ImportError:
    pass
tap.check("the invented records, by the schema", faults)
tap.done()
