#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""weather.py PROGRAM SOURCE_ROOT: cases listed, added and left out, through the real program."""
import json
import os
import subprocess
import sys
import tempfile

from tap import Tap

program, root = map(os.path.abspath, sys.argv[1:3])
tap = Tap()
SITE = os.path.join(root, "sitefiles", "open-arm.xml")
holder = tempfile.TemporaryDirectory(prefix="byssus-weather-")
here = holder.name


def run(*args, status=None):
    result = subprocess.run([program, *args], capture_output=True, text=True, timeout=280, cwd=here,
                            stdin=subprocess.DEVNULL, check=False)
    if status is not None and result.returncode not in status:
        print("# " + result.stderr.replace("\n", "\n# "))
    return result


def changed(name, *swaps):
    with open(SITE, encoding="utf-8") as file:
        text = file.read()
    for old, new in swaps:
        assert old in text, old
        text = text.replace(old, new)
    with open(os.path.join(here, name), "w", encoding="utf-8") as file:
        file.write(text)
    return name


plan = json.loads(run("check", SITE, "--list-cases", "--json", status=(0,)).stdout)
words = run("check", SITE, "--list-cases", "--quiet", status=(0,)).stdout
ids = [e["id"] for e in plan["environments"]]
wrong = []
if len(set(ids)) != len(ids):
    wrong.append("an environment is listed twice")
# counted by hand: 8 directions less one left out, 2 levels, 2 laws; the gale; slack at 2 levels
if len(ids) != 7 * 2 * 2 + 1 + 2:
    wrong.append(f"{len(ids)} environments")
if [d["count"] for d in plan["left_out"]] != [2 * 8, 4 * 2 - 2]:
    wrong.append(f"left out {plan['left_out']}")
# all at two stages, less the bare ones at low water
if plan["cases"] != 2 * len(ids) - 14:
    wrong.append(f"{plan['cases']} cases")
tap.check("cases are counted before anything is solved", wrong)
tap.check("the list says what acts and why it was changed",
          [t for t in ("50y/090/high/w000-cem-751", "fetch 9.0 km", "own/gale  (reported)",
                       "comes off the hill", "at the surface") if t not in words])

by_id = {e["id"]: e for e in plan["environments"]}
near = by_id["50y/270/low/w000-young-verhagen"]
# derived: tide 0.5 and wind drift 2 % of 24 m/s to the west, 0.05 m/s to the south
side = (0.5 + 0.02 * 24.0, 0.05)
speed = (side[0] ** 2 + side[1] ** 2) ** 0.5
wrong = []
if abs(near["current_m_s"] - speed) > 1e-6 * speed:
    wrong.append(f"surface current {near['current_m_s']}, wanted {speed}")
if any(abs(near[k] - v) > 1e-9 * v
       for k, v in (("wind_from_deg", 90), ("fetch_m", 9000), ("waves_from_deg", 90))):
    wrong.append(f"wind or fetch {near}")
north = by_id["50y/000/low/w000-cem-751"]
if min(north["current_towards_deg"], 360 - north["current_towards_deg"]) > 1e-9 \
        or abs(north["current_m_s"] - (0.02 * 24.0 - 0.05)) > 1e-6:
    wrong.append("no tide northward at low water: the drift alone runs north")
tap.check("tide, residual and wind drift add as vectors", wrong)

results = []
for threads in ("1", "2"):
    out = os.path.join(here, "out" + threads)
    result = run("check", SITE, "--to", out, "--threads", threads, "--quiet", status=(0, 1, 2))
    with open(os.path.join(out, "legs.json"), encoding="utf-8") as file:
        results.append(file.read())
tap.check("threads change no byte", [] if results[0] == results[1] else ["legs.json differs"])
legs = json.loads(results[0])
wrong = []
if legs["cases"]["total"] != plan["cases"] + plan["lost_leg_cases"]:
    wrong.append(f"{legs['cases']} cases, listed {plan['cases']} and {plan['lost_leg_cases']}")
if legs["cases"]["stable"] != legs["cases"]["total"]:
    wrong.append(f"not stable: {legs['not_stable']}")
if [e["id"] for e in legs["environments"]] != ids or legs["left_out"] != plan["left_out"]:
    wrong.append("other environments than listed")
wrong += [f"account gap {a['gap']}" for a in legs["accounts"] if a["gap"] > 1e-6]
shelter = by_id and [e["least_shelter"] for e in legs["environments"]
                     if e["id"].startswith("50y/090/high")]
if not shelter or not all(0.5 < s < 1.0 for s in shelter):
    wrong.append(f"shelter {shelter}")
tap.check("what was listed is what was solved, and its loads add up", wrong)
with open(os.path.join(here, "out1", "report.html"), encoding="utf-8") as file:
    report = file.read()
tap.check("the report shows every reason",
          [t for t in ("comes off the hill", "with the water half still", "of a gauge near by",
                       "lie bare at high water", "young-verhagen, fetch 9.0 km",
                       "Shelter is counted") if t not in report])

# Less current for those behind, never more load on the first; without shelter all are alike or worse.
open_site = changed("open.xml", (' shielding="block"', ""))
os.makedirs(os.path.join(here, "catalogue"), exist_ok=True)
with open(os.path.join(root, "sitefiles", "catalogue", "open-standard.xml"), encoding="utf-8") as f:
    catalogue = f.read()
with open(os.path.join(here, "catalogue", "open-standard.xml"), "w", encoding="utf-8") as f:
    f.write(catalogue)


def leg_tensions(site, case):
    result = run("solve", site, "--case", case, "--json", "--quiet", status=(0,))
    state = json.loads(result.stdout)
    return {s["id"]: s["end_b"]["tension_kN"] for s in state["spans"] if "/rope" in s["id"]}


case = "50y/090/high/w000-cem-751:harvest:intact"
with_shelter, without = leg_tensions(SITE, case), leg_tensions(open_site, case)
wrong = [k for k in without if k.startswith("L01/") and abs(with_shelter[k] / without[k] - 1) > 1e-9]
wrong += [k for k in without if k.startswith("L03/") and not with_shelter[k] < 0.999 * without[k]]
tap.check("the up-current line has no shelter, the last one has", wrong)
bad = changed("bad.xml", ("50y/315/*", "50y/316/*"))
result = run("check", bad)
tap.check("a drop that fits nothing is a fault",
          [] if result.returncode == 65 and "E0661" in result.stderr else [result.stderr])
tap.done()
