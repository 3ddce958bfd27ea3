#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""sheets.py PROGRAM SOURCE_ROOT: the papers for the yard and the boat, read back and compared with
legs.json and with the site file. Expected values are derived from them here, with the allowances that
src/write/cuts.c states (common practice, from memory)."""
import csv
import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections import defaultdict
from html.parser import HTMLParser

from tap import Tap

tap = Tap()
program, root = map(os.path.abspath, sys.argv[1:3])
here = tempfile.mkdtemp(prefix="byssus-sheets-")
COILS = {"rope": 220.0, "chain": 27.5}  # common practice, from memory
MILLIMETRES = {"warp32": 32.0, "chain20": 20.0}  # sitefiles/drag-pair.xml


def site_with(name, *changes):
    with open(os.path.join(root, "sitefiles", "drag-pair.xml"), encoding="utf-8") as file:
        text = file.read()
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    with open(os.path.join(here, name + ".xml"), "w", encoding="utf-8") as file:
        file.write(text)
    result = subprocess.run([program, "check", name + ".xml", "--to", name, "--directions", "2"],
                            capture_output=True, text=True, check=False, cwd=here)
    if result.returncode not in (0, 1, 2):
        sys.exit(result.stderr)
    with open(os.path.join(here, name, "legs.json"), encoding="utf-8") as file:
        return json.load(file)


def table(name, file):
    with open(os.path.join(here, name, file), encoding="utf-8", newline="") as rows:
        return list(csv.DictReader(rows))


def near(a, b, tolerance=1e-9):
    return abs(float(a) - b) <= tolerance


def same_as_json(rows, legs):
    wanted = [(leg["id"], p) for leg in legs["legs"] for p in leg["pieces"] if p["kind"] in COILS]
    faults = [] if len(rows) == len(wanted) else [f"{len(rows)} rows, {len(wanted)} pieces"]
    for row, (leg, piece) in zip(rows, wanted):
        if (row["leg"], row["piece"], row["part"], row["kind"]) != \
                (leg, piece["id"], piece["part"], piece["kind"]):
            faults.append(f"{row['piece']} instead of {piece['id']}")
        if not near(row["made_up_m"], piece["length_m"]) or not near(row["mass_kg"], piece["mass_kg"]):
            faults.append(f"{row['piece']}: {row['made_up_m']} m, {row['mass_kg']} kg")
    tap.check("cut list: made-up length and mass as in legs.json", faults)


def cut_lengths(name, rows, diameters, ends, bedding):
    """ends: diameters of rope that one end takes."""
    faults = []
    for row in rows:
        d = MILLIMETRES[row["part"]]
        extra = 2 * diameters * d / 1000 if row["kind"] == "rope" else 0.0
        if not near(row["diameter_mm"], d) or not near(row["allowance_m"], extra) or \
                not near(row["cut_m"], float(row["made_up_m"]) + extra):
            faults.append(f"{row['piece']}: cut {row['cut_m']} m, {extra} m for the ends")
        if row["kind"] == "rope" and ends not in row["ends"]:
            faults.append(f"{row['piece']}: {row['ends']}")
        share = bedding if row["kind"] == "rope" else 0.0
        if not near(row["bedding_in_m"], share * float(row["made_up_m"])):
            faults.append(f"{row['piece']}: {row['bedding_in_m']} m by bedding in")
    tap.check(f"cut list, {name}: diameter, ends, cut length, bedding in", faults)


def coils(name, rows):
    used, rest, faults = defaultdict(float), {}, []
    for row in rows:
        stock = COILS[row["kind"]]
        if row["coil"] == "to be ordered to length":
            faults += [] if float(row["cut_m"]) > stock else [f"{row['piece']} fits a coil"]
            continue
        used[row["coil"]] += float(row["cut_m"])
        rest[row["coil"]] = float(row["coil_waste_m"])
        faults += [] if near(row["coil_length_m"], stock) else [f"coil of {row['coil_length_m']} m"]
        faults += [] if row["coil"].startswith(row["part"] + " no. ") else [row["coil"]]
    for coil, metres in used.items():
        stock = COILS["chain" if coil.startswith("chain") else "rope"]
        if metres > stock + 1e-9 or not near(rest[coil], stock - metres):
            faults.append(f"{coil}: {metres} m of {stock} m, {rest[coil]} m left")
    tap.check(f"cut list, {name}: no coil is overdrawn, what is left is right", faults)
    return used


def cut_list():
    legs = site_with("plain")
    rows = table("plain", "cut-list.csv")
    same_as_json(rows, legs)
    cut_lengths("ends not stated", rows, 30, "not stated", 0.0)
    coils("ends not stated", rows)
    site_with("tied", ('id="warp32"', 'id="warp32" ends="bowline" bedding-in="2 %"'),
              ('stiffness="1.9 MN" efficiency="90 %"', 'stiffness="1.9 MN"'),
              ('part="chain20" length="40 m"', 'part="chain20" length="12 m"'),
              ('reach="115 m"', 'reach="88 m"'))
    rows = table("tied", "cut-list.csv")
    cut_lengths("bowlines", rows, 40, "bowline", 0.02)
    used = coils("bowlines", rows)
    # Four chains of 12 m: two from each shot of 27.5 m. Four warps of 87.56 m: two from a coil.
    tap.check("cut list: as few coils as can be", [] if sorted(used) == [
        "chain20 no. 1", "chain20 no. 2", "warp32 no. 1", "warp32 no. 2"] else sorted(used))


class Page(HTMLParser):
    """Cards of the deployment sheet: heading, rows of the table, boxes; outside addresses."""

    def __init__(self, text):
        super().__init__()
        self.cards, self.into, self.outside, self.open, self.policy = [], None, [], [], ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        self.outside += [v for v in attrs.values() if v and "//" in v]
        self.policy += attrs.get("content", "") if "http-equiv" in attrs else ""
        if tag == "article":
            self.cards.append({"h3": "", "th": [], "td": [], "li": []})
        if tag not in ("meta", "link", "br", "wbr", "img"):
            self.open.append(tag)
        if self.cards and tag in ("th", "td", "li"):
            self.cards[-1][tag].append("")

    def handle_endtag(self, tag):
        if not self.open or self.open.pop() != tag:
            self.outside.append(f"</{tag}> closes what is not open, line {self.getpos()[0]}")

    def handle_data(self, data):
        tag = self.open[-1] if self.open else ""
        if self.cards and tag == "h3":
            self.cards[-1]["h3"] += data
        elif self.cards and tag in ("th", "td", "li") and self.cards[-1][tag]:
            self.cards[-1][tag][-1] += data


def card_faults(card, anchor, legs):
    """A number that is not in its line as legs.json has it."""
    rows = dict(zip(card["th"], card["td"]))
    proof = next(r for r in table("boat", "proof-loads.csv") if anchor["id"] in r.values())
    leg = next(leg for leg in legs["legs"] if leg["id"] == anchor["legs"][0])
    wanted = {"Lift": [f"{anchor['mass_kg']:.0f} kg", anchor["part"]],
              "Heading": [f"{anchor['heading_deg']:.0f}"],
              "Tide window": [f"{leg['pretension_kN']:.1f} kN"],
              "Haul in, depth": [f"{anchor['setback_m']:.1f} m", f"{anchor['depth_m']:.1f} m"],
              "Test pull": [f"{float(proof['pull_kN']):.1f} kN"]}
    for line, place in (("Drop point", anchor["drop_point"]), ("Final point", anchor["place"])):
        wanted[line] = [place["name"] + ":", f"{place['x_m']:.2f} m", f"{place['y_m']:.2f} m",
                        f"{place['lat_deg']:.7f}", f"{place['lon_deg']:.7f}"]
    return [f"{anchor['id']}, {line}: no {word} in {rows.get(line)!r}"
            for line, words in wanted.items() for word in words if word not in rows.get(line, "")]


def deployment():
    legs = site_with("boat")
    with open(os.path.join(here, "boat", "deployment.html"), encoding="utf-8") as file:
        page = Page(file.read())
    tap.check("deployment: one file, closed to the outside, well nested", page.outside + page.open +
              ([] if "default-src 'none'" in page.policy else ["no content security policy"]))
    anchors = {a["id"]: a for a in legs["anchors"]}
    names = [card["h3"].split(" ")[1] for card in page.cards]
    tap.check("deployment: each anchor once, numbered", [
        n for n in anchors if names.count(n) != 1] + [
        card["h3"] for i, card in enumerate(page.cards) if not card["h3"].startswith(f"{i + 1}. ")])
    # The first current of the list runs north: the south end of each line lies up-current.
    tap.check("deployment: line by line, up-current end first", [] if [n[:5] for n in names] == [
        "M01/S", "M01/N", "M02/S", "M02/N"] else names)
    tap.check("deployment: numbers as in legs.json", [
        fault for card, name in zip(page.cards, names) for fault in card_faults(card, anchors[name], legs)])
    tap.check("deployment: nine boxes to fill on each card",
              [card["h3"] for card in page.cards if len(card["li"]) != 9])


try:
    cut_list()
    deployment()
finally:
    shutil.rmtree(here)
tap.done()
