#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""planted.py LEGS_JSON: are the faults that were planted in the pearl block demo found and named?

Prints each with what was found; exit status 1 if one was missed. Also a short example of reading
legs.json."""
import json
import sys


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        result = json.load(file)
    missed = []

    small = [leg for leg in result["legs"] if leg["anchor"]["verdict"] == "fail"]
    small.sort(key=lambda leg: -leg["anchor"]["utilisation"])
    if small:
        worst = small[0]
        anchor = worst["anchor"]
        print(f"found: anchor too small on {len(small)} of {len(result['legs'])} legs; worst "
              f"{worst['id']}: {anchor['design_kN']:.1f} kN times {anchor['resistance_factor']:.2f} "
              f"against {anchor['capacity_kN']:.1f} kN that it holds, in {anchor['case']}")
    else:
        missed.append("an anchor that is too small")

    outside = [a for a in result["anchors"] if not a["inside_lease"]]
    if any("L12/N" in anchor["legs"] for anchor in outside):
        for anchor in outside:
            print(f"found: anchor {anchor['id']} stands outside the lease, by "
                  f"{-anchor['lease_margin_m']:.1f} m")
    else:
        missed.append("the anchor of L12/N outside the lease")

    for what in missed:
        print(f"MISSED: {what}")
    return 1 if missed or result["verdict"] != "fail" else 0


if __name__ == "__main__":
    sys.exit(main())
