#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""bed.py PROGRAM SOURCE_ROOT: a sloping bed given as a plane, as soundings and as a grid gives the
same answers; a textbook chain on a slope through a grid; nothing is guessed beyond the data."""
import json
import math
import os
import random
import re
import shutil
import subprocess
import sys
import tempfile

from tap import Tap

tap = Tap()
program, root = map(os.path.abspath, sys.argv[1:3])
here = tempfile.mkdtemp(prefix="byssus-bed-")
SLOPE, TOWARDS, DEPTH = math.radians(3), math.radians(30), 18.0


def run(*command):
    return subprocess.run([program, *command], capture_output=True, text=True, check=False, cwd=here)


def put(name, text):
    with open(os.path.join(here, name), "w", encoding="utf-8") as file:
        file.write(text)
    return name


def depth(x, y):
    return DEPTH + math.tan(SLOPE) * (x * math.sin(TOWARDS) + y * math.cos(TOWARDS))


def local_site():
    """The demo with drag anchors in local metres, its bed a plane of 3 deg."""
    with open(os.path.join(root, "sitefiles", "drag-pair.xml"), encoding="utf-8") as file:
        text = file.read()
    text = text.replace('kind="projected" epsg="2193" north="true"', 'kind="local"')
    for written, local in (("1639860", "-140"), ("1640140", "140"), ("1640000", "0"),
                           ("5459800", "-200"), ("5460200", "200"), ("5460000", "0")):
        text = text.replace(f'"{written} m"', f'"{local} m"')
    return text.replace('slope="0.5 deg"', 'slope="3 deg"')


def with_bed(text, bed):
    return re.sub(r"<plane [^>]*/>", bed, text)


def grid(name, half, cell, value):
    n = int(2 * half / cell) + 1
    rows = [" ".join(repr(value(-half + cell * i, -half + cell * j)) for i in range(n))
            for j in range(n - 1, -1, -1)]
    put(name, f"ncols {n}\nnrows {n}\nxllcenter {-half}\nyllcenter {-half}\ncellsize {cell}\n"
        "NODATA_value -9999\n" + "\n".join(rows) + "\n")


def far_apart(a, b, path=""):
    """Paths of numbers that differ by more than 1e-9: of 1, or of their size, or for lengths on the
    bed of the leg's 125 m (they follow from the bed's push, 5e6 N/m times a depth)."""
    if isinstance(a, dict):
        return [f for k in a if k not in ("sha256", "solves", "accounts", "audit", "notice", "text", "cautions")
                for f in far_apart(a[k], b.get(k), f"{path}/{k}")]
    if isinstance(a, list):
        return ([f"{path}: other length"] if len(a) != len(b or []) else
                [f for i, (x, y) in enumerate(zip(a, b)) for f in far_apart(x, y, f"{path}/{i}")])
    if isinstance(a, float) and isinstance(b, (int, float)):
        size = 125.0 if path.endswith("grounded_m") else max(1.0, abs(a))
        return [] if abs(a - b) <= 1e-9 * size else [f"{path}: {a!r}, {b!r}"]
    return [] if a == b or isinstance(a, str) or isinstance(a, (int, float)) and abs(a - b) < 1e-9 \
        else [f"{path}: {a!r}, {b!r}"]


def checked(site, *more):
    result = run("check", site, "--json", "--directions", "4", *more)
    try:
        return json.loads(result.stdout)
    except ValueError:
        return {"stderr": result.stderr}


def planes():
    text = local_site()
    wanted = checked(put("plane.xml", text))
    random.seed(3)
    places = [(-420, -420), (420, -420), (420, 420), (-420, 420)] + [
        (random.uniform(-400, 400), random.uniform(-400, 400)) for _ in range(400)]
    put("bed.csv", "# invented\nx [m],y [m],depth [m]\n" +
        "".join(f"{x!r},{y!r},{depth(x, y)!r}\n" for x, y in places))
    got = checked(put("soundings.xml", with_bed(
        text, '<soundings href="bed.csv" values="depths" datum="chart datum" zero="0 m"/>')))
    tap.check("a plane as soundings gives the plane's answers to 1e-9", far_apart(wanted, got))
    # heights above a level that lies 1.5 m above chart datum
    grid("bed.asc", 420.0, 10.0, lambda x, y: -depth(x, y) - 1.5)
    got = checked(put("grid.xml", with_bed(
        text, '<grid href="bed.asc" values="heights" datum="mean sea level" zero="1.5 m"/>')))
    tap.check("a plane as a grid gives the plane's answers to 1e-9", far_apart(wanted, got))
    one, two = (run("check", "grid.xml", "--json", "--directions", "4", "--threads", n).stdout
                for n in ("1", "2"))
    tap.check("the same bytes for 1 and 2 threads", [] if one == two and one else ["they differ"])


def uneven():
    """Hollows of 1 m: every demanded case settles, and the independent audit agrees."""
    grid("hollows.asc", 400.0, 5.0, lambda x, y: 18.0 + math.sin(x / 6.0) * math.cos(y / 7.0))
    got = checked(put("hollows.xml", with_bed(
        local_site(), '<grid href="hollows.asc" values="depths" datum="chart datum" zero="0 m"/>')))
    tap.check("on hollows of 1 m all demanded cases are stable", [
        f"{c['case']}: {c['reason']}" for c in got.get("not_stable", [got]) if c.get("demanded", True)])
    tap.check("the audit's worst force is below 0.01 N", [] if got["audit"]["worst_residual_N"] < 0.01
              else [str(got["audit"])])


def textbook():
    """Chain on a bed that deepens by 3 deg; closed form (derived), as in tests/reference: within
    1e-3 on the mesh that the program chooses."""
    with open(os.path.join(root, "sitefiles", "textbook", "s2-slope.xml"), encoding="utf-8") as file:
        text = file.read()
    slope = math.tan(math.radians(3))
    grid("slope.asc", 120.0, 4.0, lambda x, y: -0.000005 + slope * x)
    put("slope.xml", with_bed(
        text, '<grid href="slope.asc" values="depths" datum="chart datum" zero="0 m"/>'))
    result = run("solve", "slope.xml", "--json")
    try:
        state = json.loads(result.stdout)
    except ValueError:
        tap.check("textbook slope through a grid", [result.stderr])
        return
    spans = {s["id"].split("/")[-1]: s for s in state["spans"]}
    got = {"fairlead": (spans["chain"]["end_b"]["tension_kN"], 11.18730901),
           "anchor": (spans["lying"]["end_a"]["tension_kN"], 8.12730901),
           "level part": (abs(spans["chain"]["end_b"]["fx_kN"]), 7.758998392),
           "on the bed": (sum(s["grounded_m"] for s in spans.values()), 40.199850)}
    tap.check("textbook slope through a grid", [f"{k}: {a} instead of {b}" for k, (a, b) in got.items()
                                                if abs(a - b) > 1e-3 * b])


def refused():
    grid("small.asc", 140.0, 5.0, lambda x, y: 18.0)
    result = run("check", put("small.xml", with_bed(
        local_site(), '<grid href="small.asc" values="depths" datum="chart datum" zero="0 m"/>')))
    told = re.search(r"E0477: (\S+) \(x \S+ m, y (\S+) m\) lies (\S+) m beyond", result.stderr)
    tap.check("an anchor beyond the grid is refused, with the distance", [
        result.stderr] if result.returncode != 65 or not told or
        abs(float(told[3]) - (abs(float(told[2])) - 140.0)) > 0.06 else [])


def on_the_earth():
    """The same plane about an origin, with soundings in latitude and longitude."""
    text = local_site().replace(
        'kind="local"', 'kind="local" north="true" datum="WGS 84" origin-lat="-41 deg" '
        'origin-lon="173 deg"')
    wanted = checked(put("plane-earth.xml", text))
    # Radii of curvature at 41 S on WGS 84 (a = 6378137 m, e2 = 0.00669437999), [memory]: good to
    # 1 mm of depth within 600 m of the origin on this slope.
    e2, lat0 = 0.00669437999, math.radians(-41.0)
    w2 = 1.0 - e2 * math.sin(lat0) ** 2
    north, east = 6378137.0 * (1 - e2) / w2 ** 1.5, 6378137.0 / w2 ** 0.5 * math.cos(lat0)
    rows = [f"{-41.0 + math.degrees(y / north):.10f},{173.0 + math.degrees(x / east):.10f},"
            f"{depth(x, y)!r}\n" for x in range(-400, 401, 50) for y in range(-400, 401, 50)]
    put("earth.csv", "lat [deg],lon [deg],depth [m]\n" + "".join(rows))
    got = checked(put("earth.xml", with_bed(
        text, '<soundings href="earth.csv" values="depths" datum="chart datum" zero="0 m"/>')))
    tap.check("soundings by latitude and longitude: depths of the anchors to 2 cm", [
        f"{a['id']}: {b['depth_m']} instead of {a['depth_m']}"
        for a, b in zip(wanted["anchors"], got.get("anchors", []))
        if abs(a["depth_m"] - b["depth_m"]) > 0.02] + ([] if "anchors" in got else [str(got)[:300]]))


try:
    planes()
    uneven()
    textbook()
    refused()
    on_the_earth()
finally:
    shutil.rmtree(here)
tap.done()
