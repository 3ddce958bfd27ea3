#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""aslaid_demo.py PROGRAM SOURCE_ROOT: the demo with one anchor 9 m off is named, solved and judged."""
import sys

from runs import Runs

runs = Runs(*sys.argv[1:3], "aslaid")
demo, boat = runs.site("pearl-block.xml"), runs.site("pearl-block-laid.csv")
runs.same_files(demo, boat, "--directions", "8", files=("aslaid.html", "aslaid.json"))
result = runs.run(demo, boat, "--quiet", "--directions", "8")
runs.expect("named and judged", result, 1, "L08/N/anchor       9.0", "OUT", "measure L08/N")
runs.check("fits 80 columns", [l for l in result.stdout.splitlines() if len(l) > 80])
result.stdout = runs.read("t1", "aslaid.json").decode()
value = runs.parsed("aslaid.json keeps its schema", result, 1)
runs.check("one of 24 is outside its box", [value["headline"]] * (
    [a["id"] for a in value["anchors"] if not a["inside_box"]] != ["L08/N/anchor"] or value["surveyed"] != 24))
runs.check("solved both ways", [value["as_made"], value["adjusted"]] * (
    not value["as_made"]["solved"] or not value["adjusted"]["solved"]))
runs.check("as made L08 fails, adjusted not", [value["new_failures_as_made"]] * (
    [f["item"] for f in value["new_failures_as_made"]] != ["L08"] or value["new_failures_adjusted"] != []))
runs.tap.done()
