#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""compare.py PROGRAM SOURCE_ROOT: the comparison of the demo before and after six floats were added."""
import sys

from runs import Runs

runs = Runs(*sys.argv[1:3], "compare")
few = ("--quiet", "--directions", "8")
before, after = runs.site("floats-before.xml"), runs.site("floats-after.xml")

result = runs.run("--quiet", before, after)
runs.expect("floats added: passes", result, 0, "FAIL -> PASS", "18 x crop55 -> 24 x crop55")
lines = result.stdout.splitlines()
runs.check("the story fits one screen: 24 lines of 80 columns",
           [f"{len(lines)} lines"] * (len(lines) > 24) + [l for l in lines if len(l) > 80])
# Reserve by hand, derived: 100 panels of 7.8 kg in water, the backbone near neutral, end floats not
# counted: 18 floats lift 18 x (55 x 1.025 - 3.5) = 952 kg, 24 lift 1269 kg; left 18 % and 39 %.
value = runs.parsed("as JSON", runs.run("--json", "--quiet", before, after), 0)
reserve = {p["item"]: p for p in value["float_reserve"]}
runs.check("float reserve by hand", [f"{k}: {reserve['L05'][k]}" for k, lift in
           (("before", 952.0), ("after", 1269.0)) if abs(reserve["L05"][k] - 100 * (1 - 780 / lift)) > 1.5])
runs.check("the mended line comes first", [reserve] * (value["float_reserve"][0]["item"] != "L05"))
runs.check("one failure is mended, none is new", [value["mended"]] * (
    [p["item"] for p in value["mended"]] != ["L05"] or value["new_failures"] != []))
legs = {l["id"]: l for l in value["legs"]}
runs.check("the legs of L05 change, the others do not", [
    i for i, l in legs.items()
    if (abs(l["after"]["tension_kN"] / l["before"]["tension_kN"] - 1) > 1e-3) != i.startswith("L05/")])

result = runs.run("--json", *few, after, before)
value = runs.parsed("the other way round: a new failure", result, 1)
runs.check("it is the float reserve of L05",
           [value["new_failures"]] * ([(p["kind"], p["item"]) for p in value["new_failures"]]
                                      != [("float reserve", "L05")]))
value = runs.parsed("a lease against itself", runs.run("--json", *few, before, before), 1)
runs.check("nothing is new, mended or changed",
           [k for k in ("new_failures", "mended", "no_longer_checked", "changes") if value[k]])

small = runs.changed("floats-after.xml", ('<remove line="L03"/>', ""),
                     ('<leg at="ends" reach="51.8 m">', '<leg at="ends" reach="52.3 m">'))
value = runs.parsed("a line more, legs longer", runs.run("--json", *few, after, small), 0, 1)
new = [l["id"] for l in value["legs"] if not l["before"]["there"]]
runs.check("new legs are told", [new] * (sorted(new) != ["L03/N", "L03/S"]))
places = [c for c in value["changes"] if c["what"] == "anchor" and c["before"] != "-"]
runs.check("moved anchors are told", [value["changes"]] * (len(places) == 0))

runs.expect("not two sites", runs.run(before), 64, "compare wants BEFORE AFTER")
runs.expect("three sites", runs.run(before, after, after), 64, "one too many")
bad = runs.put("bad.xml", "<site/>")
runs.expect("both files faulty: all faults at once", runs.run(bad, runs.put("worse.xml", "<x")), 65,
            "bad.xml:", "worse.xml:")
runs.expect("a file that is not there", runs.run(after, "nowhere.xml"), 66, "nowhere.xml")
runs.expect("strict", runs.run(*few, "--strict", before, after), 2, "INCOMPLETE")
runs.same_files(before, after, "--directions", "8", files=("compare.html", "compare.json"))
runs.tap.done()
