#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""schema.py FAKE_FILES SITEFILES: applies the published JSON schemas to what the writers write, and
shows that the schemas refuse what they must."""
import copy
import csv
import json
import os
import subprocess
import sys
import tempfile

from tap import Tap

try:
    import jsonschema
except ImportError:
    print("1..0 # SKIP python3-jsonschema is not installed")
    sys.exit(0)

program, sitefiles = sys.argv[1:]
tap = Tap()


def load(*path):
    with open(os.path.join(*path), encoding="utf-8") as file:
        return json.load(file)


def faults(schema, value):
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
            for e in jsonschema.Draft7Validator(schema).iter_errors(value)]


legs, state = load(sitefiles, "legs.schema.json"), load(sitefiles, "state.schema.json")
for name, schema in (("legs", legs), ("state", state)):
    try:
        jsonschema.Draft7Validator.check_schema(schema)
        tap.check(f"{name}.schema.json is a schema", [])
    except jsonschema.SchemaError as why:
        tap.check(f"{name}.schema.json is a schema", [str(why)])

sample = None
for arguments in (["12", "fail"], ["1", "pass"], ["60", "incomplete"], ["12", "fail", "hostile"]):
    with tempfile.TemporaryDirectory(prefix="byssus-schema-") as folder:
        out = os.path.join(folder, "out")
        subprocess.run([program, out, *arguments], check=True, stdout=subprocess.DEVNULL)
        value = load(out, "legs.json")
        tap.check(f"legs.json: {' '.join(arguments)}", faults(legs, value))
        tap.check(f"state.json: {' '.join(arguments)}", faults(state, load(out, "state.json")))
        with open(os.path.join(out, "legs.csv"), encoding="utf-8", newline="") as file:
            rows = list(csv.DictReader(file))
        differ = [f"{r['id']}: {r['line_utilisation']}" for r, l in zip(rows, value["legs"])
                  if r["id"].lstrip("'") != l["id"] or
                  (float(r["line_utilisation"]) if r["line_utilisation"] else None)
                  != l["line"]["utilisation"]]
        tap.check(f"legs.csv says the same: {' '.join(arguments)}",
                  differ if len(rows) == len(value["legs"]) else [f"{len(rows)} rows"])
        sample = sample or value


def refused(name, change):
    value = copy.deepcopy(sample)
    change(value)
    tap.check(f"refused: {name}", [] if faults(legs, value) else ["the schema let it through"])


refused("no legs", lambda v: v.pop("legs"))
refused("unknown verdict", lambda v: v.update(verdict="maybe"))
refused("another version", lambda v: v.update(schema="byssus.legs/2"))
refused("number as text", lambda v: v["legs"][0].update(tension_kN="12.3"))
refused("anchor check without its case", lambda v: v["legs"][0]["anchor"].pop("case"))
refused("pass although incomplete", lambda v: v.update(verdict="pass", incomplete=True))
refused("unstable without a reason", lambda v: v["not_stable"][0].update(reason=""))
tap.done()
