#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""program.py PROGRAM SOURCE_ROOT [SITE[:DIRECTIONS]...]: the real program on the named demo sites; without
names on a small one, on the templates and on faulty files."""
import glob
import json
import os
import subprocess
import sys
import tempfile

from tap import Tap

try:
    import jsonschema
except ImportError:
    jsonschema = None

program, root = map(os.path.abspath, sys.argv[1:3])
sites = sys.argv[3:]


class OneLine(Tap):
    """Faults with line breaks in them, told on one line."""

    def check(self, name, faults):
        super().check(name, [str(f).replace("\n", " | ") for f in faults])


tap = OneLine()
sitefiles = os.path.join(root, "sitefiles")
holder = tempfile.TemporaryDirectory(prefix="byssus-program-")
here = holder.name


def run(*args):
    return subprocess.run([program, *args], capture_output=True, text=True, timeout=600, cwd=here,
                          stdin=subprocess.DEVNULL, check=False)


def site(name):
    return os.path.join(sitefiles, name)


def parsed(text):
    try:
        return json.loads(text)
    except ValueError:
        return None


def schema_faults(name, value):
    if jsonschema is None:
        return []
    with open(site(f"{name}.schema.json"), encoding="utf-8") as file:
        schema = json.load(file)
    return [f"{'/'.join(map(str, e.absolute_path))}: {e.message[:200]}"
            for e in jsonschema.Draft7Validator(schema).iter_errors(value)]


def templates():
    for kind in ("block", "raft-grid", "network"):
        text = run("new", kind)
        name = os.path.join(here, f"{kind}.xml")
        with open(name, "w", encoding="utf-8") as file:
            file.write(text.stdout)
        result = run("lint", name)
        tap.check(f"new {kind} is sound", [] if text.returncode == 0 and text.stdout and
                  result.returncode == 0 else [f"{text.returncode}, {result.returncode}", result.stderr])


def lint():
    for name in sorted(glob.glob(os.path.join(sitefiles, "*.xml"))
                       + glob.glob(os.path.join(sitefiles, "textbook", "*.xml"))):
        result = run("lint", "--json", name)
        value = parsed(result.stdout)
        tap.check(f"lint {os.path.relpath(name, root)}",
                  [] if result.returncode == 0 and isinstance(value, list)
                  else [str(result.returncode), result.stderr[:500]])
    wrong = []
    for name in sorted(glob.glob(os.path.join(root, "tests", "badinput", "*.xml"))):
        result = run("check", "--json", name, "--to", "never")
        value = parsed(result.stdout)
        if result.returncode != 65 or not value or \
                not any(m["severity"] == "fault" for m in value) or "Sanitizer" in result.stderr:
            wrong.append(f"{os.path.basename(name)}: status {result.returncode}: {result.stdout[:150]!r}")
        if os.path.exists(os.path.join(here, "never")):
            wrong.append(f"{os.path.basename(name)}: wrote something")
    tap.check("every faulty file: status 65, faults as JSON, nothing written", wrong)
    one = os.path.join(root, "tests", "badinput", "ten-faults.xml")
    if os.path.exists(one):
        value = parsed(run("lint", "--json", one).stdout) or []
        faults = [m for m in value if m["severity"] == "fault"]
        tap.check("ten faults: ten messages, each with line and column",
                  [] if len(faults) == 10 and all(m["line"] > 0 and m["column"] > 0 for m in faults)
                  else [f"{len(faults)} faults"])


def read(*path):
    with open(os.path.join(here, *path), "rb") as file:
        return file.read()


def check(name, directions=None):
    runs = {}
    more = ["--directions", directions] if directions else []
    for threads in ("1", "2"):
        result = run("check", "--quiet", site(name), "--threads", threads, "--to", f"{name}-{threads}", *more)
        runs[threads] = result
    statuses = {r.returncode for r in runs.values()}
    value = parsed(read(f"{name}-1", "legs.json").decode()) if statuses <= {0, 1, 2} else None
    if value is None:
        tap.check(f"check {name}", [f"status {statuses}", runs["1"].stderr[:500]])
        return
    wanted = {"pass": 0, "fail": 1, "incomplete": 2}[value["verdict"]]
    tap.check(f"check {name}: status says the verdict", [] if statuses == {wanted} else [str(statuses)])
    for file in sorted(os.listdir(os.path.join(here, f"{name}-1"))):
        tap.check(f"check {name}: {file} is the same for 1 and 2 threads",
                  [] if read(f"{name}-1", file) == read(f"{name}-2", file) else ["bytes differ"])
    tap.check(f"check {name}: the table too",
              [] if runs["1"].stdout == runs["2"].stdout else ["it differs"])
    tap.check(f"check {name}: legs.json keeps its schema", schema_faults("legs", value))
    tap.check(f"check {name}: the table fits 80 columns",
              [line for line in runs["1"].stdout.splitlines() if len(line) > 80])
    tap.check(f"check {name}: use = design x resistance factor / capacity", [
        f"{leg['id']} {part}" for leg in value["legs"] for part in ("line", "anchor")
        for c in [leg[part]]
        if None not in (c["utilisation"], c["design_kN"], c["resistance_factor"], c["capacity_kN"])
        and c["capacity_kN"] > 0 and abs(c["design_kN"] * c["resistance_factor"] / c["capacity_kN"]
                                         - c["utilisation"]) > 1e-9 * max(1.0, c["utilisation"])])
    governing = {leg[part]["case"] for leg in value["legs"] for part in ("line", "anchor")} - {""}
    solve(name, sorted(governing)[:1])


def solve(name, more=()):
    listed = run("solve", site(name), "--list-cases")
    ids = listed.stdout.splitlines()
    tap.check(f"solve {name} --list-cases",
              [] if listed.returncode == 0 and ids and len(set(ids)) == len(ids) else [listed.stderr[:300]])
    tap.check(f"solve {name}: the governing case is in the list", [c for c in more if c not in ids])
    for case in [None, *more]:
        result = run("solve", "--json", site(name), *(["--case", case] if case else []))
        value = parsed(result.stdout)
        faults = schema_faults("state", value) if value else [result.stderr[:300]]
        if value and result.returncode != (0 if value["status"] == "stable" else 2):
            faults.append(f"status {result.returncode} for {value['status']}")
        tap.check(f"solve {name} {case or ''}", faults)
    tap.check(f"solve {name}: unknown case", [] if run("solve", site(name), "--case", "nowhere").returncode
              == 64 else [str(run("solve", site(name), "--case", "nowhere").returncode)])


if sites:
    for each in sites:
        check(*each.split(":"))
else:
    templates()
    lint()
    check("floats-after.xml")
tap.done()
