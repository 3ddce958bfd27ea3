#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""conditions.py PROGRAM SOURCE_ROOT: conditions by name, alone and in a check, and the cascade.

Invented data throughout. Expected values are relations derived from statics, or found by another
run of the program; each says which."""
import json
import math
import re
import sys

from runs import Runs

solve, check, cascade = (Runs(*sys.argv[1:3], c) for c in ("solve", "check", "cascade"))
solve.tap = cascade.tap = check.tap

LEG = '<leg at="{end}" reach="51 m"><rope part="warp" length="54 m"/><anchor part="{anchor}"/></leg>'
CONDITIONS = """
  <conditions>
    <vessel id="barge" to="L01" current-area="6 m2" because="invented"/>
    <lift id="star" to="L01" at="25 %" height="0.6 m" because="invented"/>
    <lift id="pull" to="L01" at="25 %" force="500 N" because="invented"/>
    <condition id="south" because="invented"><remove leg="L01/N"/></condition>
    <condition id="still" because="invented"><weather current="0 m/s" wind="0 m/s" hs="0 m"/></condition>
    <condition id="towed" because="invented"><load to="L02" east="1 kN"/></condition>
  </conditions>"""


def site(legs, lines=3, conditions=CONDITIONS, speed="0.6 m/s", weather="", parts="", slope="0 deg"):
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<site xmlns="urn:byssus:site:1" name="invented" notice="INVENTED TEST DATA">
  <frame kind="local"/>
  <water density="1025 kg/m3"><level name="LAT" height="0 m"/><level name="HAT" height="2 m"/></water>
  <seabed><plane depth="15 m" slope="{slope}" deepens-towards="0 deg"/><soil kind="sand" friction-angle="32 deg"/></seabed>
  <lease><corner x="-300 m" y="-300 m"/><corner x="-300 m" y="300 m"/><corner x="300 m" y="300 m"/><corner x="300 m" y="-300 m"/></lease>
  <weather directions="8"><current return="50 yr" speed="{speed}" at="surface"/>{weather}</weather>
  <parts>
    <rope id="pp32" material="polypropylene" diameter="32 mm" mass="0.45 kg/m" strength="94.1 kN" stiffness="565 kN"/>
    <rope id="warp" material="polyester" diameter="28 mm" mass="0.595 kg/m" strength="120 kN" stiffness="1.5 MN"/>
    <float id="f55" shape="sphere" volume="55 l" mass="3.5 kg"/>
    <gear id="panel" kind="panel" mass-in-water="7.8 kg" width="0.7 m" height="0.45 m" drag-coefficient="1.2" drop="1 m" orientation="along"/>
    <anchor id="A6" kind="screw" capacity="6 kN" capacity-kind="ultimate" capacity-basis="test" capacity-angle="90 deg"/>
    <anchor id="A12" kind="screw" capacity="12 kN" capacity-kind="ultimate" capacity-basis="test" capacity-angle="90 deg"/>{parts}
  </parts>
  <layout><block id="L" lines="{lines}" spacing="20 m" heading="0 deg" x="0 m" y="0 m">
    <backbone part="pp32" length="120 m"/><floats part="f55" every="4 m"/><gear part="panel" every="2.4 m"/>
    {legs}
  </block></layout>{conditions}
  <rules profile="ufc-4-159-03-2005"><factor for="screw" value="3.0" because="invented"/></rules>
</site>
"""


both = solve.put("both.xml", site(LEG.format(end="ends", anchor="A12")))
south = solve.put("south.xml", site(LEG.format(end="S", anchor="A12"), conditions=""))
states = {}


def state(condition, environment="50y/090/HAT/w000", file=both):
    key = (condition, environment, file)
    if key not in states:
        got = solve.run(file, "--json", "--quiet", "--case", f"{environment}:harvest:{condition}")
        try:
            states[key] = json.loads(got.stdout)
        except ValueError:
            states[key] = {"status": got.stderr, "spans": [], "supports": [], "nodes": [], "floats": []}
    return states[key]


def tension(value, start):
    return max([max(s["end_a"]["tension_kN"], s["end_b"]["tension_kN"]) for s in value["spans"]
                if s["id"].startswith(start)] or [math.nan])


def pull(value, start):
    """Horizontal force on the supports of a line, kN."""
    mine = [s for s in value["supports"] if s["id"].startswith(start)]
    return [sum(s[k] for s in mine) for k in ("fx_kN", "fy_kN")]


def near(name, got, want, within):
    check.check(name, [f"{got} is not {want} within {within}"] * (not abs(got - want) <= within))


ALL = ("lost:L01/N", "anchor:L01/N/anchor", "cut:L01@0.5", "cut:L01@1", "cut:L01/N@0.5", "float:L02/float07",
       "fouled:L01/N", "vessel:barge", "lift:star", "lift:pull", "own:south", "own:still", "own:towed")
check.check("all are stable and audited", [
    f"{c}: {state(c)['status']} {state(c).get('residual_N')}" for c in ALL
    if state(c)["status"] != "stable" or state(c)["residual_N"] > 0.01])

# ---- relations --------------------------------------------------------------------------------
same = [{k: v for k, v in state(c).items() if k not in ("case", "account")} for c in
        ("lost:L01/N", "anchor:L01/N/anchor", "own:south")]
check.check("one leg lost, its anchor lost, and the leg removed by hand are the same", [
    "differ"] * (not same[0]["spans"] == same[1]["spans"] == same[2]["spans"]))
near("a leg removed is a leg never laid", tension(state("own:south"), "L01/S"),
     tension(state("intact", file=south), "L01/S"), 1e-4)
intact, cut, end = state("intact"), state("cut:L01@0.5"), state("cut:L01@1")
check.check("a cut in the middle leaves each half to its own anchor", [
    s["id"] for s in cut["supports"] if s["id"].startswith("L01") and not s["fx_kN"] > 0.5])
# Derived: the halves turn along the current, where their ropes meet less of it; gear and floats stay.
check.check("and takes no load away but what the ropes turn out of the current", [pull(cut, "L01")[0]] * (
    not 0.5 < pull(cut, "L01")[0] / pull(intact, "L01")[0] < 1.0))
check.check("a cut at the end leaves that leg hanging alone", [tension(end, "L01/N")] * (
    not tension(end, "L01/N") < 0.5))
near("and the line to the other", tension(end, "L01/S"), tension(state("lost:L01/N"), "L01/S"),
     0.05 * tension(end, "L01/S"))

lost_float = state("float:L02/float07")
floats = {f["id"]: f for f in intact["floats"]}
after = {f["id"]: f for f in lost_float["floats"]}
check.check("a lost float is gone, and its neighbours have less in reserve", [
    k for k in ("L02/float06", "L02/float08") if not after[k]["reserve_N"] < floats[k]["reserve_N"]]
    + ["still there"] * ("L02/float07" in after))

# 1/2 rho CA U^2, derived: the anchors take it, but for what the line's own drag changes as it turns.
vessel = 0.5 * 1.025 * 6.0 * 0.6 ** 2
near("a vessel pulls with its own drag", pull(state("vessel:barge"), "L01")[0] - pull(intact, "L01")[0],
     vessel, 0.1 * vessel)
near("a load is carried by its line", pull(state("own:towed"), "L02")[0] - pull(intact, "L02")[0], 1.0, 0.1)
star = state("lift:star")
node = {n["id"]: n for n in star["nodes"]}
highest = max(n["z_m"] for n in star["nodes"] if n["id"].startswith("L01/"))
near("a lift to a height gets there: the water stands at 2 m", highest, 2.6, 2e-3)
check.check("and says with what force", [star["note"]] * (not re.fullmatch(r"lifted with [0-9.]+ kN", star["note"])))
near("other weather is that weather", tension(state("own:still"), "L02/N"),
     tension(state("intact", "slack/HAT"), "L02/N"), 1e-4)

# The neighbour carries both loads: horizontal balance, derived; its own drag changes as it turns.
reach = next((e for e in ("50y/000/LAT/w000", "50y/045/LAT/w000", "50y/045/HAT/w000", "50y/090/LAT/w000")
              for leg in ("L01/N",) if "lies against" in state(f"fouled:{leg}", e).get("note", "")), None)
check.check("somewhere the drifting line reaches a neighbour", [] if reach else ["nowhere"])
if reach:
    fouled, lost, whole = (state(c, reach) for c in ("fouled:L01/N", "lost:L01/N", "intact"))
    line = fouled["note"].split()[-1][:3]
    both_loads = [a + b for a, b in zip(pull(whole, line), pull(lost, "L01"))]
    got = pull(fouled, line)
    size = math.hypot(*both_loads)
    check.check(f"{line} carries the load of two", [f"{got} is not {both_loads}"] * (
        math.dist(got, both_loads) > 0.12 * size))
    near("the drifting line itself is as lost", tension(fouled, "L01/S"), tension(lost, "L01/S"), 1e-6)

# ---- in a check -------------------------------------------------------------------------------
few = ("--quiet", "--json")
plain, every = check.run(both and solve.here + "/" + both, *few), None
where = solve.here + "/" + both
every = check.run(where, *few, "--conditions", "all", "--threads", "2")
again = check.run(where, *few, "--conditions", "all", "--threads", "1")
check.check("threads change no byte", ["differ"] * (every.stdout != again.stdout))
a, b = json.loads(plain.stdout), json.loads(every.stdout)
check.check("the verdict and every check are untouched", [
    x["id"] for x, y in zip(a["legs"], b["legs"]) if x["line"] != y["line"] or x["anchor"] != y["anchor"]]
    + [f"status {every.returncode}"] * (every.returncode != plain.returncode))
kinds = [k["kind"] for k in b["conditions"]]
check.check("all kinds are reported", [kinds] * (kinds != ["anchor", "cut", "float", "fouled", "vessel",
                                                           "lift", "own"]))
with open(check.site("legs.schema.json"), encoding="utf-8") as file:
    schema = json.load(file)
try:
    import jsonschema
    check.check("legs.json by its schema", [e.message[:200] for e in jsonschema.Draft7Validator(schema).iter_errors(b)])
except ImportError:
    pass
leg = b["legs"][0]
for kind in ("anchor", "cut", "fouled", "vessel"):
    row = leg["reported"].get(kind) or {"case": "", "tension_kN": math.nan}
    alone = solve.run(both, "--json", "--quiet", "--case", row["case"])
    value = json.loads(alone.stdout) if alone.returncode in (0, 2) else {"spans": []}
    near(f"reported {kind} is what its case gives alone", row["tension_kN"], tension(value, leg["id"] + "/"),
         1e-6 * max(1.0, tension(value, leg["id"] + "/")))
result = check.run(where, "--quiet", "--conditions", "cut,vessel")
check.expect("on the terminal", result, plain.returncode, "Other conditions", "cut: L0", "vessel: L01")
only = json.loads(check.run(where, *few, "--conditions", "intact").stdout)
check.check("intact alone", [only["cases"]] * (only["legs"][0]["reported"]["lost"]["tension_kN"] is not None))
check.expect("an unknown kind", check.run(where, "--conditions", "cut,lose"), 64, "no kind of condition")
solve.expect("an unknown name", solve.run(both, "--case", "50y/090/HAT/w000:harvest:cut:L09@0.5"), 64, "no case")
solve.expect("a share beyond the end", solve.run(both, "--case", "50y/090/HAT/w000:harvest:cut:L01@1.5"), 64)
listed = solve.run(both, "--list-conditions").stdout.split()
check.check("the list names them", [c for c in ("intact", "lost:L01/N", "cut:L01@0.5", "own:towed")
                                    if c not in listed])
wrong = solve.put("wrong.xml", site(LEG.format(end="ends", anchor="A12"), conditions="""
  <conditions><vessel id="b" to="L9" current-area="1 m2" because="invented"/>
    <condition id="c" because="invented"><remove leg="L01/M"/><cut line="L1"/><load to="L01" up="1 N"/></condition>
  </conditions>"""))
solve.expect("what the layout does not have", solve.run(wrong), 65, "E0422", "'L9'", "'L01/M'", "'L1'",
             "did you mean 'L01")

# ---- the cascade ------------------------------------------------------------------------------
# Current along the line: the leg up-current takes all, the other is slack. Its anchor holds 6 kN or
# 12 kN as the resultant; the one left takes all after the first has slipped.
along = ("--quiet", "--json", "--case", "50y/000/LAT/w000:harvest")
text = site(LEG.format(end="S", anchor="A6") + LEG.format(end="N", anchor="A12"), lines=1, conditions="")
value = cascade.parsed("along the line", cascade.run(cascade.put("along.xml", text), *along), 0, 1)
steps = value["cascade"][0]["steps"]
check.check("the weak one first, then the other", [steps] * (
    [(s["item"], s["kind"], s["held"]) for s in steps] != [("L01/S/anchor", "slips", 1), ("L01/N/anchor", "slips", 0)]))
for step, capacity in zip(steps, (6.0, 12.0)):
    near(f"{step['item']} slips at its holding power", step["load_kN"], capacity, 1e-3 * capacity)
# Forces are multiplied: the same site in a current faster by the root must bring that anchor to 6 kN.
m = steps[0]["multiplier"]
fast = solve.put("fast.xml", site(LEG.format(end="S", anchor="A6") + LEG.format(end="N", anchor="A12"), lines=1,
                                  conditions="", speed=f"{0.6 * math.sqrt(m):.12f} m/s"))
foot = next(s for s in state("intact", "50y/000/LAT/w000", fast)["supports"] if s["id"] == "L01/S/anchor")
near("the root of it in the current does the same",
     math.hypot(foot["fx_kN"], foot["fy_kN"], foot["fz_kN"]), 6.0, 6e-3)
# Twice the holding power, twice the load, derived, but for the slack leg and the pull's rise.
near("the other holds twice as long", steps[1]["multiplier"] / m, 2.0, 0.25)
check.check("nothing is held at the end", [value["cascade"][0]] * (
    value["cascade"][0]["gone"] != steps[1]["multiplier"]))

# Two lines side by side with anchors of 6 and 12 kN, current across: each line's two anchors share
# alike on a level bed, so they go together, and one line holds longer than the other.
text = site(LEG.format(end="ends", anchor="A6"), lines=2, conditions="").replace(
    "</block>", '</block><change line="L02">' + LEG.format(end="N", anchor="A12") +
    LEG.format(end="S", anchor="A12") + "</change>")
across = ("--quiet", "--json", "--case", "50y/090/LAT/w000:harvest")
file = cascade.put("across.xml", text)
value = cascade.parsed("two lines side by side", cascade.run(file, *across), 0, 1)
c = value["cascade"][0]
check.check("ties go together", [c["steps"]] * ([(s["item"], s["held"]) for s in c["steps"]] != [
    ("L01/N/anchor", 2), ("L01/S/anchor", 2), ("L02/N/anchor", 0), ("L02/S/anchor", 0)] and
    [(s["item"], s["held"]) for s in c["steps"]] != [
    ("L01/S/anchor", 2), ("L01/N/anchor", 2), ("L02/S/anchor", 0), ("L02/N/anchor", 0)]))
check.check("at the same multiplier", [c["steps"]] * (
    c["steps"][0]["multiplier"] != c["steps"][1]["multiplier"] or c["adrift"] != c["first"]
    or c["gone"] != c["steps"][3]["multiplier"] or not c["gone"] > 1.5 * c["first"]))
check.check("threads change no byte of it", ["differ"] * (
    cascade.run(file, "--quiet", "--json", "--threads", "1").stdout
    != cascade.run(file, "--quiet", "--json", "--threads", "2").stdout))
result = cascade.run(file, "--quiet", "--to", "out")
cascade.expect("for people, and as files", result, 1, "times the loads of the case", "anchors held")
svg = cascade.read("out", "cascade.svg").decode()
check.check("the chart names the anchors", [svg[:200]] * ("L02/N/anchor" not in svg or "<svg" not in svg))
cascade.expect("an unknown weather", cascade.run(file, "--case", "60y"), 64, "no case")
weak = cascade.put("weak.xml", text.replace(' capacity="6 kN" capacity-kind="ultimate" capacity-basis="test"', ""))
value = cascade.parsed("a holding power that is not known", cascade.run(weak, *across), 2)
check.check("its line is not run, and says why", [value["cascade"][0]["parts"]] * (
    value["cascade"][0]["parts"][0]["end"] != "not run" or not value["cascade"][0]["parts"][0]["reason"]))
result = check.run(cascade.here + "/" + file, "--json", "--quiet", "--cascade")
value = json.loads(result.stdout)
check.check("and in a check", [] if value.get("cascade") else ["no cascade in legs.json"])
try:
    check.check("by its schema", [e.message[:200] for e in jsonschema.Draft7Validator(schema).iter_errors(value)])
except NameError:
    pass
check.tap.done()
