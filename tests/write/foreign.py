#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""foreign.py PROGRAM SOURCE_ROOT: what a check writes for plotters, maps and drawings, read back by
programs that know nothing of byssus (xmllint, gpsbabel, ogr2ogr, ezdxf, cs2cs) and compared with
legs.json. A reader that is not installed is skipped; tests/run installs them all."""
import csv
import io
import json
import math
import os
import shutil
import subprocess
import sys
import tempfile

from tap import Tap

tap = Tap()
program, root = map(os.path.abspath, sys.argv[1:3])
here = tempfile.mkdtemp(prefix="byssus-foreign-")
MILLIMETRE_DEG = 2e-8  # 8 decimals of a degree are written: half of the last is 0.6 mm


def run(*command, **more):
    return subprocess.run(command, capture_output=True, text=True, check=False, cwd=here, **more)


def check(site, out, *more):
    return run(program, "check", site, "--to", out, "--directions", "4", *more)


def path(*names):
    return os.path.join(here, *names)


def wanted_places(legs):
    """name -> (lat, lon, x, y, easting, northing) of anchors and drop points in legs.json."""
    places = {}
    for anchor in legs["anchors"]:
        for key in ("place", "drop_point"):
            p = anchor[key]
            places[p["name"]] = (p["lat_deg"], p["lon_deg"], p["x_m"], p["y_m"], p.get("easting_m"),
                                 p.get("northing_m"))
    return places


def compare(name, got, wanted, tolerance):
    """got, wanted: name -> pair of numbers; corners of the lease may be more."""
    faults = [f"{key} is missing" for key in wanted if key not in got]
    for key, pair in wanted.items():
        for a, b in zip(got.get(key, ()), pair):
            if not abs(a - b) <= tolerance:
                faults.append(f"{key}: {a!r} instead of {b!r}")
    tap.check(name, faults)


def have(reader, name):
    if shutil.which(reader):
        return True
    tap.skip(name, f"no {reader}")
    return False


def layer(file, name):
    """Points of a layer by ogr2ogr: name -> (lat, lon)."""
    result = run("ogr2ogr", "-f", "CSV", "/vsistdout/", file, name, "-lco", "GEOMETRY=AS_XY")
    rows = csv.DictReader(io.StringIO(result.stdout))
    return {row.get("name") or row.get("Name"): (float(row["Y"]), float(row["X"])) for row in rows}


def xml_files(out):
    if not have("xmllint", "well-formed XML"):
        return
    for file in ("places.gpx", "places.kml", "plan.svg"):
        result = run("xmllint", "--noout", "--nonet", path(out, file))
        tap.check(f"{file} is well-formed XML", result.stderr.splitlines())


def gpx(out, wanted):
    pairs = {name: place[:2] for name, place in wanted.items()}
    names = list(pairs)
    tap.check("names have 12 characters at most and differ",
              [n for n in names if len(n) > 12] + [n for n in names if names.count(n) > 1])
    if have("gpsbabel", "GPX by gpsbabel"):
        result = run("gpsbabel", "-i", "gpx", "-f", path(out, "places.gpx"), "-o", "unicsv", "-F", "-")
        rows = list(csv.DictReader(io.StringIO(result.stdout)))
        got = {r["Name"]: (float(r["Latitude"]), float(r["Longitude"])) for r in rows}
        compare("GPX by gpsbabel (6 decimals)", got, pairs, 6e-7)
    if have("ogr2ogr", "GPX by ogr2ogr"):
        compare("GPX by ogr2ogr", layer(path(out, "places.gpx"), "waypoints"), pairs, MILLIMETRE_DEG)


def kml(out, wanted):
    if not have("ogr2ogr", "KML by ogr2ogr"):
        return
    got = {}
    for name in ("anchors", "drop points"):
        got.update(layer(path(out, "places.kml"), name))
    compare("KML by ogr2ogr", got, {n: p[:2] for n, p in wanted.items()}, MILLIMETRE_DEG)


def geojson(out, wanted, legs):
    with open(path(out, "places.geojson"), encoding="utf-8") as file:
        text = json.load(file)
    faults = [] if text["type"] == "FeatureCollection" else [text["type"]]
    faults += ["crs is no longer a member (RFC 7946, 4)"] if "crs" in text else []
    rings = [f["geometry"]["coordinates"] for f in text["features"] if f["geometry"]["type"] == "Polygon"]
    for (ring,) in rings:
        area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:]))
        faults += [] if ring[0] == ring[-1] else ["a ring is open (3.1.6)"]
        faults += [] if area > 0 else ["an outer ring runs clockwise (3.1.6)"]
    faults += [] if len(rings) == 1 else [f"{len(rings)} polygons"]
    tap.check("GeoJSON keeps RFC 7946", faults)
    points = {f["properties"]["name"]: f["properties"] for f in text["features"]
              if f["geometry"]["type"] == "Point"}
    compare("GeoJSON: x and y as in legs.json", {n: (p["x_m"], p["y_m"]) for n, p in points.items()},
            {n: p[2:4] for n, p in wanted.items()}, 6e-4)
    tap.check("GeoJSON: use and verdict as in legs.json", [
        a["id"] for a in legs["anchors"]
        if (points[a["place"]["name"]]["verdict"] != a["verdict"] or
            (points[a["place"]["name"]]["utilisation"] or 0) != round(a["utilisation"] or 0, 11) and
            abs(points[a["place"]["name"]]["utilisation"] - a["utilisation"]) > 1e-9)])
    if have("ogr2ogr", "GeoJSON by ogr2ogr"):
        result = run("ogr2ogr", "-f", "CSV", "/vsistdout/", path(out, "places.geojson"), "-lco",
                     "GEOMETRY=AS_WKT")
        got = {}
        for row in csv.DictReader(io.StringIO(result.stdout)):
            if row["WKT"].startswith("POINT"):
                lon, lat = row["WKT"].strip("POINT ()").split()
                got[row["name"]] = (float(lat), float(lon))
        compare("GeoJSON by ogr2ogr", got, {n: p[:2] for n, p in wanted.items()}, MILLIMETRE_DEG)


READ_DXF = """
import ezdxf, json, sys
d = ezdxf.readfile(sys.argv[1])
m = d.modelspace()
a = d.audit()
print(json.dumps({
    "errors": [str(e.message) for e in a.errors], "version": d.dxfversion,
    "layers": sorted({e.dxf.layer for e in m}),
    "points": [[e.dxf.layer, *e.dxf.location] for e in m.query("POINT")],
    "texts": [[e.dxf.layer, e.dxf.text, *e.dxf.insert] for e in m.query("TEXT")],
    "lines": [[e.dxf.layer, *e.dxf.start, *e.dxf.end] for e in m.query("LINE")],
    "polylines": [[e.dxf.layer, len(e), bool(e.is_closed)] for e in m.query("POLYLINE")]}))
"""


def dxf(out, wanted, legs, grid):
    for python in (sys.executable, "/usr/bin/python3"):
        if run(python, "-c", "import ezdxf").returncode == 0:
            break
    else:
        tap.skip("DXF by ezdxf", "no ezdxf")
        return
    result = run(python, "-c", READ_DXF, path(out, "plan.dxf"))
    if result.returncode:
        tap.check("DXF by ezdxf", result.stderr.splitlines())
        return
    got = json.loads(result.stdout)
    tap.check("DXF by ezdxf: sound, release 12, with layers",
              got["errors"] + ([] if got["version"] == "AC1009" else [got["version"]]) +
              [n for n in ("ANCHORS", "BACKBONES", "LEASE", "LEGS", "NAMES") if n not in got["layers"]])
    # A name stands 2 m to the right of its point and 1 m above it.
    names = {}
    for _, text, x, y, _ in (t for t in got["texts"] if t[0] == "NAMES"):
        at = [p for p in got["points"] if math.dist(p[1:3], (x - 2.0, y - 1.0)) < 1e-3]
        if len(at) == 1:
            names[text] = at[0][1:3]
    compare("DXF by ezdxf: places", names, {n: p[4:6] if grid else p[2:4] for n, p in wanted.items()},
            1e-4)
    tap.check("DXF by ezdxf: a line a leg", [] if len(legs["legs"]) == sum(
        1 for p in got["polylines"] if p[0] == "LEGS") else got["polylines"])
    scale = legs["frame"].get("scale", 1.0)
    back = [a["setback_m"] for a in legs["anchors"] if a["setback_m"] > 0]
    tap.check("DXF by ezdxf: set-backs have their length", [] if len(got["lines"]) == len(back) and all(
        abs(math.dist(p[1:3], p[4:6]) - s * scale) < 1e-3 for p, s in zip(got["lines"], back))
        else got["lines"])


def geodesy(wanted, frame):
    """Easting and northing by cs2cs; distances on a sphere of the local radius of curvature."""
    if have("cs2cs", "easting and northing by cs2cs"):
        lines = "".join(f"{p[0]:.12f} {p[1]:.12f}\n" for p in wanted.values())
        result = run("cs2cs", "-f", "%.5f", "EPSG:4167", f"EPSG:{frame['epsg']}", input=lines)
        pairs = [line.split()[:2] for line in result.stdout.splitlines()]
        # The axes of EPSG:2193 are northing, easting.
        got = {n: (float(e), float(nn)) for n, (nn, e) in zip(wanted, pairs)}
        compare("easting and northing by cs2cs", got, {n: p[4:6] for n, p in wanted.items()}, 1e-3)
    faults = []
    places = list(wanted.values())
    for a, b in zip(places, places[1:]):
        lat = math.radians((a[0] + b[0]) / 2)
        e2 = 0.00669437999
        w = math.sqrt(1 - e2 * math.sin(lat) ** 2)
        north = math.radians(b[0] - a[0]) * 6378137 * (1 - e2) / w ** 3
        east = math.radians(b[1] - a[1]) * 6378137 / w * math.cos(lat)
        on_paper = math.hypot(a[2] - b[2], a[3] - b[3])
        if abs(math.hypot(north, east) - on_paper) > 1e-3:
            faults.append(f"{math.hypot(north, east)} m on the Earth, {on_paper} m in the plane")
    tap.check("distances on the Earth are those in the plane, to 1 mm", faults)


def on_the_earth():
    site = os.path.join(root, "sitefiles", "drag-pair.xml")
    first, second = check(site, "a"), check(site, "b", "--threads", "1")
    tap.check("the check runs", [] if first.returncode in (0, 1, 2) else [first.stderr])
    files = sorted(os.listdir(path("a")))
    tap.check("it names all files that it wrote", [f for f in files if f not in first.stderr])
    tap.check("two runs write the same bytes", [
        f for f in files if open(path("a", f), "rb").read() != open(path("b", f), "rb").read()]
        + ([] if second.returncode == first.returncode else ["another status"]))
    with open(path("a", "legs.json"), encoding="utf-8") as file:
        legs = json.load(file)
    wanted = wanted_places(legs)
    tap.check("each drag anchor has a drop point", [] if len(wanted) == 2 * len(legs["anchors"])
              else sorted(wanted))
    tap.check("drop point = place - set-back x (sin, cos) of the heading", [
        a["id"] for a in legs["anchors"] for h in [math.radians(a["heading_deg"])]
        if math.hypot(a["drop_point"]["x_m"] - a["x_m"] + a["setback_m"] * math.sin(h),
                      a["drop_point"]["y_m"] - a["y_m"] + a["setback_m"] * math.cos(h)) > 1e-9])
    xml_files("a")
    gpx("a", wanted)
    kml("a", wanted)
    geojson("a", wanted, legs)
    dxf("a", wanted, legs, True)
    geodesy(wanted, legs["frame"])
    with open(site, encoding="utf-8") as file:
        return file.read()


def without_a_place(text):
    """The same lease in local metres: no positions for plotters, and old ones are taken away."""
    text = text.replace('kind="projected" epsg="2193" north="true"', 'kind="local"')
    for written, local in (("1639860", "-140"), ("1640140", "140"), ("1640000", "0"),
                           ("5459800", "-200"), ("5460200", "200"), ("5460000", "0")):
        text = text.replace(f'"{written} m"', f'"{local} m"')
    with open(path("local.xml"), "w", encoding="utf-8") as file:
        file.write(text)
    result = check(path("local.xml"), "a")
    files = sorted(os.listdir(path("a")))
    tap.check("without a place on the Earth: the rest is written, and it says so",
              ([] if files == ["cut-list.csv", "deployment.html", "legs.csv", "legs.json", "plan.dxf", "plan.svg",
                            "proof-loads.csv", "proof-loads.txt", "report.html"] else files)
              + ([] if "no place on the Earth" in result.stderr else [result.stderr]))
    with open(path("a", "legs.json"), encoding="utf-8") as file:
        legs = json.load(file)
    wanted = {p["name"]: (0, 0, p["x_m"], p["y_m"]) for a in legs["anchors"]
              for p in (a["place"], a["drop_point"])}
    dxf("a", wanted, legs, False)


try:
    without_a_place(on_the_earth())
finally:
    shutil.rmtree(here)
tap.done()
