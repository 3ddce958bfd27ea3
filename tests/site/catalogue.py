#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""catalogue.py CATALOGUE: the parts of the catalogue against the open tables and forms that they name.

Values: standards note 3.1 to 3.5. Tables of rope and of short and long links: read in reprints. Stud-link
form: ISO 1704, IACS UR A1, memory. Older metric rope: BS 4928 and ISO 1346, 1140, 1141, memory. Fits and mean
stresses: computed apart from this program."""
import math
import re
import sys
import xml.etree.ElementTree as tree

sys.path.insert(0, sys.argv[2])
from tap import Tap  # noqa: E402

tap = Tap()
parts = {}
for node in tree.parse(sys.argv[1]).getroot():
    parts[node.get("id")] = {k: float(v.split()[0]) if re.match(r"[\d.]+ ", v) else v
                             for k, v in node.attrib.items()}


def rows(prefix, ending=r"\d+$"):
    return {int(re.sub(r"\D", "", i[len(prefix):])): p for i, p in parts.items()
            if i.startswith(prefix) and re.fullmatch(ending.rstrip("$"), i[len(prefix):])}


def off(found, table, key, tolerance=1e-9):
    return [f"{d} mm: {found.get(d, {}).get(key)}, wanted {v}" for d, v in table.items()
            if d not in found or abs(found[d][key] - v) > tolerance * v]


INCH = {12: 1 / 2, 16: 5 / 8, 18: 3 / 4, 22: 7 / 8, 24: 1, 28: 9 / 8, 32: 21 / 16, 36: 3 / 2, 40: 13 / 8, 48: 2}
CI = {  # nominal mm: kN, kg/m
    "pp-": {12: (16.8, .07), 16: (24.8, .11), 18: (34.0, .15), 22: (46.0, .21), 24: (57.0, .27), 28: (71.2, .34),
            32: (94.1, .45), 36: (122, .59), 40: (142, .68), 48: (208, 1.03)},
    "pa-": {12: (25.2, .094), 16: (39.6, .147), 18: (56.8, .213), 22: (76.9, .290), 24: (98.9, .377),
            28: (126, .479), 32: (170, .650), 36: (216, .848), 40: (255, 1.00), 48: (376, 1.49)},
    "dual-": {12: (19.6, .092), 16: (27.1, .141), 18: (37.4, .201), 22: (49.5, .268), 24: (58.6, .324),
              28: (73, .403), 32: (98, .543), 36: (126, .699), 40: (147, .818), 48: (214, 1.21)}}
FIT = {"pp-": (0.160, 1.822, 0.022), "pa-": (0.180, 1.951, 0.018), "dual-": (0.229, 1.731, 0.053)}
for prefix, table in CI.items():
    found = rows(prefix, r"\d+-inch$")
    tap.check(f"{prefix} inch sizes: strength", off(found, {d: v[0] for d, v in table.items()}, "strength"))
    tap.check(f"{prefix} inch sizes: mass", off(found, {d: v[1] for d, v in table.items()}, "mass"))
    a, b, most = FIT[prefix]
    wrong = {d: v[0] / (a * (25.4 * INCH[d]) ** b) - 1 for d, v in table.items()}
    tap.check(f"{prefix} fit a d^b within {100 * most} %",
              [f"{d}: {e:.4f}" for d, e in wrong.items() if abs(e) > most + 0.0015])

METRIC = {  # mm: kN, kg/100 m
    "pp-": {12: (19.9, 6.5), 16: (34.3, 11.5), 20: (52.7, 18.0), 24: (74.5, 26.0), 28: (99.0, 35.5),
            32: (126, 46.0), 36: (158, 58.5), 40: (190, 72.0), 48: (267, 104), 56: (353, 142), 64: (457, 185)},
    "pa-": {12: (29.4, 8.9), 16: (52.0, 15.8), 20: (81.4, 24.5), 24: (118, 35.5), 28: (155, 48.5),
            32: (196, 63.0), 36: (243, 80.0), 40: (294, 99.0), 48: (412, 142), 56: (549, 193), 64: (706, 252)},
    "pes-": {12: (22.3, 11.0), 16: (39.8, 19.5), 20: (62.3, 30.3), 24: (89.6, 43.7), 28: (120, 59.5),
             32: (154, 77.7), 36: (189, 98.5), 40: (234, 121), 48: (329, 175), 56: (439, 238), 64: (568, 310)}}
UNIT = {"pp-": 0.451, "pa-": 0.616, "pes-": 0.760}  # g/m/mm2, within 1 %
for prefix, table in METRIC.items():
    found = rows(prefix)
    tap.check(f"{prefix} metric: strength", off(found, {d: v[0] for d, v in table.items()}, "strength", 1e-6))
    tap.check(f"{prefix} metric: mass", off(found, {d: v[1] / 100 for d, v in table.items()}, "mass", 6e-3))
    tap.check(f"{prefix} metric: mass over d2", [
        d for d, v in table.items() if abs(10 * v[1] / d ** 2 / UNIT[prefix] - 1) > 0.0151])


def stress(p):
    return 1e3 * p["strength"] / (math.pi / 2 * p["diameter"] ** 2)


LINKS = {  # mm: break kN, mass kg/m
    "short-g30-": ({6: (18, .80), 7: (25, 1.15), 8: (32, 1.40), 10: (50, 2.2), 12: (71, 3.25), 13: (80, 3.9),
                    14: (100, 4.25), 16: (125, 5.8)}, 301, 325),
    "short-g40-": ({6: (20, .80), 7: (30, 1.15), 8: (40, 1.40), 10: (63, 2.2), 14: (121, 4.25)}, 390, 401),
    "short-g80-": ({6: (45.2, .79), 8: (80.4, 1.38), 10: (125, 2.2), 12: (181, 3.1), 13: (214, 3.8),
                    14: (250, 4.13), 16: (320, 5.63)}, 796, 806),
    "long-": ({6: (12.5, .63), 7: (19, .86), 8: (25, 1.10), 10: (40, 1.75), 13: (63, 2.95), 16: (100, 4.45)},
              221, 255)}
for prefix, (table, low, high) in LINKS.items():
    found = rows(prefix)
    tap.check(f"{prefix} break and mass", off(found, {d: v[0] for d, v in table.items()}, "strength") +
              off(found, {d: v[1] for d, v in table.items()}, "mass"))
    tap.check(f"{prefix} mean stress {low} to {high} N/mm2", [
        f"{d}: {stress(found[d]):.0f}" for d in table
        if not low - 0.5 <= stress(found[d]) <= high + 0.5
        and (prefix, d) not in (("short-g40-", 6), ("short-g80-", 14))])
# Two rows stand out: 6 mm grade 40 is lower (354, as noted); 14 mm grade 80 gives 812 (computed here).
for part, wanted in (("short-g40-6", 354), ("short-g80-14", 812)):
    tap.check(f"{part} stands out at {wanted}", [stress(parts[part])] * (abs(stress(parts[part]) - wanted) > 0.5))

for grade, factor in (("u1", 0.00981), ("u2", 0.01373), ("u3", 0.01961)):
    found = rows(f"stud-{grade}-")
    form = {d: factor * d ** 2 * (44 - 0.08 * d) for d in found}
    tap.check(f"stud-link {grade} by the form", [len(found)] * (len(found) < 10) +
              off(found, form, "strength", 3e-3))
    tap.check(f"stud-link {grade} mass 0.0219 d2", off(found, {d: 0.0219 * d ** 2 for d in found if d >= 19},
                                                      "mass", 3e-3))

# RR-C-271D: 1/2, 5/8, 3/4 in bow shackles break at 20 000, 32 500, 47 500 lbf, working loads 2, 3.25, 4.75 short
# tons, a fifth (read); the others: working load (t, memory) x 5 x 9.80665
for d, pounds, tons in ((13, 20000, 2), (16, 32500, 3.25), (19, 47500, 4.75)):
    tap.check(f"shackle {d}", [parts[f"shackle-{d}"]] * (
        abs(parts[f"shackle-{d}"]["strength"] - pounds * 4.4482216e-3) > 0.5 or pounds / 5 / 2000 != tons))
for d, load in ((22, 6.5), (25, 8.5), (28, 9.5), (32, 12), (35, 13.5), (38, 17)):
    tap.check(f"shackle {d}", off({d: parts[f"shackle-{d}"]}, {d: 5 * 9.80665 * load}, "strength", 2e-4))
tap.check("what was not seen does not claim to be", [
    i for i, p in parts.items() if p["basis"] == "read" and "memory" in p["source"]])
tap.done()
