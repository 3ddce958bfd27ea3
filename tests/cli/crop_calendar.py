#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""crop_calendar.py PROGRAM SOURCE_ROOT: the crop calendar through the real program.
Reserve by hand, derived: 100 panels of m kg in water on n floats that lift 55 x 1.025 - 3.5 = 52.9 kg each;
the backbone of polypropylene lifts 120 x 0.45 x (1025/rho - 1) = 7 kg, end floats hold their ends only."""
import json
import subprocess
import sys

from runs import Runs

runs = Runs(*sys.argv[1:3], "calendar")
few = ("--quiet", "--directions", "8")
demo, LIFT = runs.site("crop-calendar.xml"), 55 * 1.025 - 3.5


def program(*args):
    return json.loads(subprocess.run([runs.program, *args], capture_output=True, text=True, timeout=120,
                                     cwd=runs.here, check=False).stdout)


value = runs.parsed("the demo", runs.run("--json", *few, demo), 1)
months = [m["month"] for m in value["months"]]
runs.check("every month from 0 to 16", [months] * (months != list(range(17))))
mass = [0 if m < 6 else 5.2 + 0.26 * (m - 6) for m in months]
floats = {f["line"]: f for f in value["floats"]}
zones = {(z["line"], z["zone"]): z for z in value["zones"]}
by_line = {line: [min(zones[line, z][key][m] for z in ("S third", "middle", "N third")) for m in months]
           for line in floats for key in ("reserve",)}
runs.check("gear hangs from month 6 and grows evenly: reserve by hand", [
    f"{line} month {m}: {by_line[line][m]:.3f}" for line in floats for m in months[6:]
    if abs(by_line[line][m] - (1 - 100 * mass[m] / (floats[line]["row"][m] * LIFT))) > 0.02])
runs.check("before it hangs nothing changes", [by_line["L01"][:6]] * (max(by_line["L01"][:6])
                                                                      - min(by_line["L01"][:6]) > 1e-9))
runs.check("rows of floats by stage", [floats["L02"]["row"]] * (floats["L02"]["row"] != [15] * 12 + [20] * 5))


def wanted(row, m, kg):
    """Least number of floats by hand for a load of kg."""
    return next(n for n in range(row, 99) if 1 - kg / (n * LIFT) >= 0.25) - row


for line in floats:
    bad, before = [], 0
    for m in months:
        row, got = floats[line]["row"][m], floats[line]["added"][m]
        before = max(0, floats[line]["row"][m - 1] + before - row) if m else 0
        least = [max(before, wanted(row, m, 100 * mass[m] - rope)) if mass[m] else 0 for rope in (0, 10)]
        if not min(least) <= got <= max(least):
            bad.append(f"month {m}: {got}, by hand {least}")
        before = got
    runs.check(f"floats to add to {line} by hand, with and without the lift of the rope", bad)
runs.check("with them the reserve holds", [f"{z['line']} {z['zone']}: {r}" for z in value["zones"]
                                           if not z["at_end"] for r in z["reserve_added"] if r < 0.25 - 1e-9])
runs.check("no more than that is added: 10 % over the demand never happens on added floats", [
    f"{line} month {m}" for line in floats for m in months if floats[line]["added"][m] > 0
    and min(zones[line, z]["reserve_added"][m] for z in ("S third", "middle", "N third")) > 0.25 + 1 / 15])
runs.check("verdict by month, now and with them", [m for m in value["months"] if m["verdict_added"] != "pass" or (
    m["verdict"] == "fail") != (m["floats_to_add"] > 0)])

# One float fewer does not do: the same by checking two sites, of which one has one more.
def grown(count):
    return runs.reworked(f"grown{count}.xml", "floats-after.xml",
                         lambda t: t.replace('count="24"', f'count="{count}"'))
n = floats["L01"]["row"][16] + floats["L01"]["added"][16]
pair = program("compare", "--json", *few, grown(n - 1), grown(n))
reserve = {p["item"]: p for p in pair["float_reserve"]}["L05"]
runs.check("in month 16 one float fewer fails, by check", [reserve] * (
    not reserve["before"] < 25 <= reserve["after"]))

# The months of the stages together are what check finds over all stages.
bay = runs.site("floats-after.xml")
value = runs.parsed("dated stages only", runs.run("--json", *few, bay), 0)
runs.check("no month between", [value["months"]] * ([m["month"] for m in value["months"]] != [0, 6, 16]))
checked = {l["id"]: l["tension_kN"] for l in program("check", "--json", *few, bay)["legs"]}
runs.check("largest tension of each leg as by check", [
    f"{l['id']}: {max(l['tension_kN'])}, {checked[l['id']]}" for l in value["legs"]
    if abs(max(l["tension_kN"]) / checked[l["id"]] - 1) > 1e-6])
runs.check("no floats: the same with and without", [l["id"] for l in value["legs"]
                                                    if l["tension_kN"] != l["tension_added_kN"]])

value = runs.parsed("a reserve that no number of floats keeps", runs.run("--json", *few, bay, "--reserve", "95"), 1)
runs.check("is said", [value["headline"]] * (not value["short_of"] or "not every line" not in value["headline"]))
free = runs.changed("floats-after.xml", (
    '    <limit float-reserve="25 %" because="choice of this demo; no rule is known"/>\n', ""))
value = runs.parsed("no reserve demanded", runs.run("--json", *few, free), 0)
runs.check("nothing to add", [value["headline"]] * (value["floats_to_add"] != 0
                                                    or "No float reserve is demanded" not in value["headline"]))
value = runs.parsed("rafts have no floats", runs.run("--json", *few, runs.site("raft-grid.xml")), 0, 1, 2)
runs.check("but leg loads", [value["zones"]] * (value["zones"] != [] or not value["months"][0]["largest_tension_kN"]))

text = runs.run(*few, demo)
runs.expect("text", text, 1, "L01: 1 x crop55 before month 14")
runs.check("fits 80 columns", [l for l in text.stdout.splitlines() if len(l) > 80])
undated = runs.changed("floats-after.xml", *((f' month="{m}"', "") for m in ("0", "6", "16")))
runs.expect("no stage has a month", runs.run(undated), 65, "E0384")
runs.expect("a reserve that is none", runs.run(demo, "--reserve", "100"), 64, "--reserve wants a number")
runs.same_files(demo, "--directions", "8", files=("calendar.html", "calendar.json"))
runs.tap.done()
