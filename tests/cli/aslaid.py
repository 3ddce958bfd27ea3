#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""aslaid.py PROGRAM SOURCE_ROOT: anchors as laid, through the real program. The small lease is that of
floats-after.xml: L04 to L06, anchors 51.8 m beyond the ends of 120 m, the lines 20 m apart about x = -60 m.
Offsets by hand: derived. Limits of a tenth and a fifth, box of 5 m: common practice, no source."""
import math
import re
import sys

from runs import Runs

runs = Runs(*sys.argv[1:3], "aslaid")
bay = runs.site("floats-after.xml")
few = ("--quiet", "--directions", "8")
HEAD = "id,x [m],y [m]\n"
X = {"L04": -50.0, "L05": -30.0, "L06": -10.0}  # six lines 20 m apart about -60 m: L04 is the fourth


def near(name, pairs, tol=1e-6):
    runs.check(name, [f"{what}: {got}, wanted {want}" for what, got, want in pairs
                      if got is None or abs(got - want) > tol])


def laid(name, *rows, site=bay, head=HEAD, statuses=(0, 1, 2), more=()):
    file = runs.put("laid.csv", head + "\n".join(rows) + "\n")
    value = runs.parsed(name, runs.run(site, file, "--json", *few, *more), *statuses)
    return value, {a["id"]: a for a in value["anchors"]}, {l["id"]: l for l in value["legs"]}


def places(moved=()):
    return [f"{line}/{end},{X[line] + dict(moved).get(f'{line}/{end}', (0, 0))[0]:.3f},"
            f"{sign * 111.8 + dict(moved).get(f'{line}/{end}', (0, 0))[1]:.3f}"
            for line in X for end, sign in (("N", 1), ("S", -1))]


value, anchors, legs = laid("all where they were to be", *places(), statuses=(0,))
near("all offsets are nought", [(i, a["offset_m"], 0) for i, a in anchors.items()])
near("and the loads those of the design", [(i, l["as_made"]["tension_kN"], l["design"]["tension_kN"])
                                           for i, l in legs.items()], 1e-9)
runs.check("nothing to adjust, to ask or to mind", [value["headline"]] * (
    value["adjusted"]["solved"] or any(l["measure"] for l in legs.values()) or value["unmatched"] != []
    or value["outside_box"] != 0))

# 2.4 m outward and 1 m to the east at L05/N. Outward is north there, so that east is to the right.
value, anchors, legs = laid("L05/N is 2.6 m off", *places({"L05/N": (1.0, 2.4)}.items()), statuses=(0, 1))
a, leg = anchors["L05/N/anchor"], legs["L05/N"]
near("offset, bearing, outward, right", [
    ("offset", a["offset_m"], 2.6), ("bearing", a["bearing_deg"], math.degrees(math.atan2(1, 2.4))),
    ("outward", a["outward_m"], 2.4), ("right", a["right_m"], 1.0),
    ("margin", a["lease_margin_m"], 150 - 114.2)])
runs.check("inside its box", [a] * (not a["inside_box"] or value["outside_box"] != 0))
runs.check("as made the line is tighter, adjusted as designed", [leg] * (
    not leg["as_made"]["tension_kN"] > 1.05 * leg["design"]["tension_kN"]
    or abs(leg["adjusted"]["tension_kN"] / leg["design"]["tension_kN"] - 1) > 0.01))
near("adjusted to the pretension of the design, both ends of the line", [
    (i, legs[i]["adjusted"]["pretension_kN"] / legs[i]["design"]["pretension_kN"], 1)
    for i in ("L05/N", "L05/S")], 2e-3)
# The straight leg from the top, 0.3 m under LAT, to the bed: its change is what is to be let out, but
# for the turning of the line by 1 m in 223.6 m.
drop = 15 + math.tan(math.radians(0.382)) * 113 - 0.3
out = math.hypot(math.hypot(54.2, 1.0), drop) - math.hypot(51.8, drop)
near("the warp of L05/N is let out by the leg's growth", [("by", leg["adjustment_m"], out)], 0.06)
runs.check("only that warp", [i for i, l in legs.items() if (l["adjustment_m"] is not None) != (i == "L05/N")])
runs.check("the other lines as designed", [i for i, l in legs.items() if not i.startswith("L05") and
           abs(l["as_made"]["tension_kN"] / l["design"]["tension_kN"] - 1) > 1e-9])
slack = (leg["as_made"]["pretension_kN"], leg["adjusted"]["pretension_kN"])
runs.check("a tension is asked for where the states differ", [l["id"] for l in legs.values() if l["measure"] != (
    abs(l["as_made"]["tension_kN"] - l["adjusted"]["tension_kN"])
    > 0.1 * min(l["as_made"]["tension_kN"], l["adjusted"]["tension_kN"]))] + (
        [] if leg["measure"] else ["not for L05/N"]))

rows = [r + "," for r in places({"L05/N": (1.0, 2.4)}.items())]
for measured, says in ((slack[0], "length as made"), (slack[1] * 1.02, "adjusted length"),
                       (5 * max(slack), "fits neither")):
    told = [r + f"{measured:.4f}" if r.startswith("L05/N") else r for r in rows]
    _, _, legs = laid(f"measured: {says}", *told, head="id,x [m],y [m],tension [kN]\n")
    runs.check(f"it says: {says}", [] if says in legs["L05/N"]["measured_says"]
               and not legs["L05/N"]["measure"] else [legs["L05/N"]["measured_says"]])

value, anchors, legs = laid("L05/N is 12 m too far out", "L05N,-30,123.8", statuses=(1,))
runs.check("as made it cannot be put together, and why", [value["as_made"]] * (
    value["as_made"]["solved"] or "L05/N is too short" not in value["as_made"]["why_not"]))
runs.check("yet the longer warp is found, and asked for", [legs["L05/N"]] * (
    not legs["L05/N"]["adjustment_m"] or not 11 < legs["L05/N"]["adjustment_m"] < 12.5
    or not legs["L05/N"]["measure"]))
runs.check("anchors without a position stay where designed", [value["headline"]] * (
    value["surveyed"] != 1 or sum(a["offset_m"] > 0 for a in value["anchors"]) != 1))
near("box and tolerance", [("box", anchors["L05/N/anchor"]["box_half_along_m"], 5.0)])
_, anchors, _ = laid("a tolerance of 13 m", "L05N,-30,123.8", statuses=(1,), more=("--tolerance", "13"))
runs.check("lets it be inside", [anchors["L05/N/anchor"]] * (not anchors["L05/N/anchor"]["inside_box"]))

value, _, _ = laid("a name that is none", "L04/N,-50,111.8", "L15/N,-29,111", "harbour,900,900", statuses=(2,))
stray = {s["name"]: s for s in value["unmatched"]}
runs.check("both are named, with the nearest name and anchor", [stray] * (
    stray["L15/N"]["nearest_name"] != "L05/N" or stray["L15/N"]["nearest_anchor"] != "L05/N/anchor"
    or not stray["harbour"]["matters"]))
near("the distance", [("m", stray["L15/N"]["distance_m"], math.hypot(1, 0.8))])
value, _, _ = laid("no anchor is without a position: a stray one does not matter", *places(), "harbour,900,900",
                   statuses=(0,))

# On the Earth. Near the origin, with the radii of curvature of WGS 84 (6378137 m, 1/298.257223563; from
# memory): north M = a (1 - e2) / (1 - e2 sin2)^1.5 a radian, east N cos = a cos / sqrt(1 - e2 sin2). Derived.
FRAME, LAT, LON = '<frame kind="local" north="grid"/>', -41.2, 173.1
A, E2 = 6378137.0, 2 / 298.257223563 - 298.257223563 ** -2
S2 = math.sin(math.radians(LAT)) ** 2
NORTH = A * (1 - E2) / (1 - E2 * S2) ** 1.5 * math.pi / 180
EAST = A / math.sqrt(1 - E2 * S2) * math.cos(math.radians(LAT)) * math.pi / 180
earth = runs.reworked("earth.xml", "floats-after.xml", lambda t: t.replace(
    FRAME, f'<frame kind="local" north="true" origin-lat="{LAT} deg" origin-lon="{LON} deg" datum="WGS 84"/>'))
spots = {f"{line}-{end}": (LAT + y / NORTH, LON + x / EAST) for line in X
         for end, x, y in (("N", X[line], 111.8), ("S", X[line], -111.8))}
spots["L05-N"] = (LAT + 114.2 / NORTH, LON - 29 / EAST)
rows = [f"{n},{lat:.9f},{lon:.9f}" for n, (lat, lon) in spots.items()]
_, anchors, _ = laid("latitude and longitude", *rows, site=earth, head="id,lat [deg],lon [deg]\n")
near("offsets by the radii of curvature", [
    (i, a["offset_m"], 2.6 if i.startswith("L05/N") else 0) for i, a in anchors.items()], 2e-3)
gpx = runs.put("boat.gpx", '<?xml version="1.0"?>\n<gpx version="1.1" creator="plotter (invented)" '
               'xmlns="http://www.topografix.com/GPX/1/1">\n<metadata><name>today</name></metadata>\n' + "".join(
                   f'<wpt lat="{lat:.9f}" lon="{lon:.9f}"><time>2026-11-25T08:00:00Z</time><name>{n}</name></wpt>\n'
                   for n, (lat, lon) in spots.items()) + "</gpx>\n")
other = runs.parsed("the same as waypoints", runs.run(earth, gpx, "--json", *few), 0, 1)
near("have the same offsets", [(a["id"], a["offset_m"], anchors[a["id"]]["offset_m"]) for a in other["anchors"]],
     1e-9)
runs.check("and their time", [a["time"] for a in other["anchors"] if a["time"] != "2026-11-25T08:00:00Z"])
_, shifted, _ = laid("the numbers on another datum", *rows, site=earth, head="# datum: NZGD49\nid,lat [deg],lon [deg]\n")
# NZGD49 lies about 190 m from WGS 84 in the north of the South Island (LINZ: "up to 200 m"; from memory)
runs.check("lie elsewhere", [a for a in shifted.values() if not 150 < a["offset_m"] < 230][:1])

# EPSG:2193 on its central meridian: 1 m of ground is 0.9996 m of the grid (LINZS25002; from memory).
def to_grid(text):
    text = text.replace(FRAME, '<frame kind="projected" epsg="2193" north="grid"/>')
    def shift(m):
        return f'x="{1600000 + float(m[1])} m" y="{5440000 + float(m[2])} m"'
    return re.sub(r'(?<= )x="(-?[0-9.]+) m" y="(-?[0-9.]+) m"', shift, text)
grid = runs.reworked("grid.xml", "floats-after.xml", to_grid)
rows = [f"{line}/{end},{1600000 + 0.9996 * (-60 / 0.9996 + X[line] + 60):.4f},{5440000 + s * 0.9996 * 111.8:.4f}"
        for line in X for end, s in (("N", 1), ("S", -1))]
_, anchors, _ = laid("easting and northing", *rows, site=grid)
near("offsets with the scale taken out", [(i, a["offset_m"], 0) for i, a in anchors.items()], 2e-3)

for name, place, text, want in (
        ("no place on the Earth", bay, "id,lat [deg],lon [deg]\nL05/N,-41,173\n", "no place on the Earth"),
        ("swapped", earth, "id,lat [deg],lon [deg]\nL05/N,173.1,-41.2\n", ":2:7: E0207"),
        ("far away", earth, "id,lat [deg],lon [deg]\nL05/N,-42.2,173.1\n", "km from its anchor"),
        ("both pairs", earth, "id,lat [deg],lon [deg],x [m],y [m]\n", "keep one pair"),
        ("lon missing", earth, "id,lat [deg]\n", "the column lon is missing"),
        ("unknown datum", earth, "# datum: GDA1820\nid,lat [deg],lon [deg]\nL05/N,-41.2,173.1\n", ":1:3: E0885"),
        ("datum for x and y", bay, "# datum: GDA2020\n" + HEAD + "L05/N,-30,111\n", "a datum is named"),
        ("XML, not GPX", earth, "<kml/>", "not GPX"),
        ("broken XML", earth, "<gpx><wpt>", "not well formed"),
        ("GPX without numbers", earth, "<gpx>\n<wpt lat='x' lon='1'/></gpx>", ":2:6: E0884"),
        ("GPX with a DOCTYPE", earth, "<!DOCTYPE gpx><gpx/>", "DOCTYPE")):
    runs.expect(f"fault: {name}", runs.run(place, runs.put("bad.csv", text), *few), 65, want, "byssus: bad.csv: ")

for name, text, want in (
        ("decimal comma", HEAD + "L05/N,-30,0,111\n", ":2:1: E0884"),
        ("semicolons", "id;x;y\n", ":1:1: E0884"),
        ("no unit", "id,x,y\nL05/N,-30,111\n", ":1:4: E0202"),
        ("bracket left open", "id,x [m],y [m\nL05/N,-30,111\n", ":1:10: E0202"),
        ("mass for a force", "id,x [m],y [m],tension [kg]\n", ":1:16: E0205"),
        ("unknown column", "id,x [m],y [m],tensoin [kN]\n", 'did you mean "tension"'),
        ("column missing", "id,x [m]\n", "the column y is missing"),
        ("two columns alike", "id,x [m],x [m],y [m]\n", "x is there twice"),
        ("no number", HEAD + "L05/N,-30,north\n", ":2:11: E0201"),
        ("id empty", HEAD + ",-30,111\n", ":2:1: E0884"),
        ("two positions", HEAD + "L05/N,-30,111\nL05N,-30,112\n", ":3:1: E0886"),
        ("two tensions", "id,x [m],y [m],tension [kN]\nL05/N,-30,111,1\nL05N,-30,111,1\n", ":3:1: E0886"),
        ("nothing known", HEAD + "Q7,-30,111\n", "E0887"),
        ("no row", HEAD, "E0887"), ("empty", "", "E0102"), ("no columns", "# remark\n", "E0885")):
    result = runs.run(bay, runs.put("bad.csv", text), *few)
    runs.expect(f"fault: {name}", result, 65, want, "byssus: bad.csv: ")
runs.expect("a missing file", runs.run(bay, "nowhere.csv", *few), 66, "nowhere.csv")
runs.expect("no positions", runs.run(bay), 64, "aslaid wants SITE POSITIONS")
runs.expect("no tolerance", runs.run(bay, "laid.csv", "--tolerance", "-1"), 64, "--tolerance wants a number")
runs.tap.done()
