#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""commands.py PROGRAM MANUAL: the command line with a made-up engine: usage, messages, exit statuses,
standard output against standard error. The engine is tests/support/fake_engine.c."""
import json
import os
import pty
import re
import subprocess
import sys
import tempfile

from tap import Tap

program, manual = map(os.path.abspath, sys.argv[1:])
tap = Tap()
COMMANDS = ("check", "solve", "lint", "compare", "aslaid", "calendar", "new", "explain")
folder = tempfile.TemporaryDirectory(prefix="byssus-cli-")
here = folder.name
usual = {k: v for k, v in os.environ.items() if k != "NO_COLOR"} | {"TERM": "xterm"}


def run(*args, **more):
    return subprocess.run([program, *args], capture_output=True, text=True, timeout=60, cwd=here,
                          stdin=subprocess.DEVNULL, check=False, **more)


def site(word):
    name = f"{word}.xml"
    with open(os.path.join(here, name), "w", encoding="utf-8") as file:
        file.write(f"{word}\n   <second line=\"2\"/>\n\t<third/>\n")
    return name


def expect(name, result, status, out=None, err=None, no_out=False):
    """out, err: what must be found there (regular expressions)."""
    faults = []
    if result.returncode != status:
        faults.append(f"status {result.returncode}, not {status}: {result.stderr.strip()[:200]}")
    if out and not re.search(out, result.stdout):
        faults.append(f"standard output lacks {out!r}: {result.stdout[:200]!r}")
    if err and not re.search(err, result.stderr):
        faults.append(f"standard error lacks {err!r}: {result.stderr[:300]!r}")
    if no_out and result.stdout:
        faults.append(f"standard output is not empty: {result.stdout[:100]!r}")
    tap.check(name, faults)


def expect_json(name, result, status, looks):
    try:
        value = json.loads(result.stdout)
        faults = [] if looks(value) else [f"unexpected: {result.stdout[:200]}"]
    except ValueError as why:
        faults = [f"no JSON: {why}: {result.stdout[:200]!r}"]
    if result.returncode != status:
        faults.append(f"status {result.returncode}, not {status}")
    tap.check(name, faults)


def usage():
    expect("no command", run(), 64, err="say a command", no_out=True)
    expect("unknown command, near", run("chekc", "x"), 64, err='did you mean "check"', no_out=True)
    expect("unknown command, far", run("zzzzzzz"), 64, err="--help lists them", no_out=True)
    expect("unknown option, near", run("check", "--thread", "2", "x"), 64,
           err='no option "--thread"; did you mean "--threads"', no_out=True)
    expect("unknown option, far", run("check", "--zzzzzzzz", "x"), 64, err="check --help lists them")
    expect("option of another command", run("lint", "--to", "d", "x"), 64, err='no option "--to"')
    expect("no number", run("check", "--threads", "two", "x"), 64, err="whole number from 1 to 1024")
    expect("number too small", run("check", "--threads", "0", "x"), 64, err="from 1 to 1024")
    expect("number with a sign", run("check", "--threads=+2", "x"), 64, err="from 1 to 1024")
    expect("value missing", run("check", "x", "--to"), 64, err="--to wants a value: --to DIR")
    expect("value empty", run("check", "x", "--to="), 64, err="--to is empty")
    expect("switch with a value", run("check", "x", "--json=yes"), 64, err="takes no value")
    expect("site missing", run("check", "--json"), 64, err="check wants a SITE", no_out=True)
    expect("one operand too many", run("check", "a", "b"), 64, err='"b" is one too many')
    expect("a second operand missing", run("compare", "a"), 64, err="compare wants BEFORE AFTER")
    expect("a third operand", run("compare", "a", "b", "c"), 64, err='takes BEFORE AFTER; "c" is one')
    expect("operand after --", run("check", "--", "--no-such-file"), 66, err="cannot be opened")


def helps():
    result = run("--help")
    expect("--help", result, 0, out="Exit status")
    tap.check("--help names every command", [c for c in COMMANDS
                                             if f"\n  {c} " not in result.stdout])
    tap.check("--help fits 80 columns", [l for l in result.stdout.splitlines() if len(l) > 80])
    expect("--version", run("--version"), 0, out=r"^byssus \d+\.\d+\.\d+\n$")
    for command in COMMANDS:
        result = run(command, "--help")
        expect(f"{command} --help has examples first", result, 0, out=r"^Examples\n  byssus ")
        tap.check(f"{command} --help fits 80 columns",
                  [l for l in result.stdout.splitlines() if len(l) > 80])
        expect(f"help {command} is the same", run("help", command), 0,
               out="^" + re.escape(result.stdout) + "$")
    expect("help of nothing known", run("help", "chek"), 64, err='did you mean "check"')


def statuses():
    expect("pass", run("check", site("pass")), 0, out="^PASS", err="W0102")
    expect("fail", run("check", site("fail")), 1, out="^FAIL")
    expect("incomplete", run("check", site("incomplete")), 2, out="^INCOMPLETE")
    expect("engine breaks", run("check", site("broken")), 70, err="the engine broke", no_out=True)
    expect("site not there", run("check", "nowhere.xml"), 66, err="nowhere.xml", no_out=True)
    expect("quiet", run("check", "--quiet", site("pass")), 0, out="^PASS")
    tap.check("quiet says nothing", [run("check", "--quiet", site("pass")).stderr] if
              run("check", "--quiet", site("pass")).stderr else [])
    with open("/dev/full", "w", encoding="utf-8") as full:
        result = subprocess.run([program, "check", site("pass")], stdout=full, check=False,
                                stderr=subprocess.PIPE, text=True, cwd=here)
    tap.check("standard output full", [] if result.returncode == 74 else [str(result.returncode)])
    expect("solve", run("solve", site("pass")), 0, out="^stable")
    expect("solve, not stable", run("solve", site("unstable")), 2, out="would turn over")
    expect("solve, unknown case", run("solve", site("pass"), "--case", "nowhere"), 64, err="nowhere")
    expect("cases before solving", run("check", site("pass"), "--list-cases"), 0,
           out="added because: as a try\n")
    expect("list of cases", run("solve", site("pass"), "--list-cases"), 0, out="harvest:intact\n")
    for before, after, status in (("pass", "fail", 1), ("fail", "pass", 0), ("fail", "incomplete", 2)):
        expect(f"compare {before} {after}", run("compare", site(before), site(after)), status,
               out=f"^{before.upper()} -> {after.upper()}")
    expect("compare, the second breaks", run("compare", site("pass"), site("broken")), 70, no_out=True)
    expect("compare, the first is not there", run("compare", "nowhere.xml", site("pass")), 66, no_out=True)
    for word, status in (("pass", 0), ("fail", 1), ("incomplete", 2), ("broken", 70)):
        expect(f"aslaid {word}", run("aslaid", site(word), "pass.xml"), status)
        expect(f"calendar {word}", run("calendar", site(word)), status)
    expect("calendar, no reserve", run("calendar", site("pass"), "--reserve", "0"), 64, no_out=True)
    expect("aslaid, no positions", run("aslaid", site("pass"), "nowhere.csv"), 66, no_out=True)
    expect("lint", run("lint", site("pass")), 0, out="no fault, 1 to mind", err="W0102")
    expect("lint, quiet", run("lint", "--quiet", site("pass")), 0, no_out=True)
    expect("lint, not there", run("lint", "nowhere.xml"), 66, no_out=True)
    expect("new", run("new", "block"), 0, out="^pass\n$")
    expect("new, near", run("new", "blok"), 64, err='did you mean "block"', no_out=True)
    expect("new, far", run("new", "zzzzzzzz"), 64, err="say block, raft-grid or network")
    expect("explain, unknown", run("explain", "E9998"), 64, err="lists them all", no_out=True)
    expect("explain, no code", run("explain", "hello"), 64, err='no message "hello"')
    expect("explain, all", run("explain"), 0, out=r"(?m)^\d{4}  \S")
    first = run("explain").stdout.split()[0]
    for spelling in (first, f"E{first}", f"w{int(first)}"):
        expect(f"explain {spelling}", run("explain", spelling), 0, out=r"\S.*\n$")


def faults():
    result = run("check", site("faulty"), "--to", "never")
    expect("faults", result, 65, err="2 faults", no_out=True)
    wanted = ("faulty.xml:2:5: E0101: first fault\n"
              "       <second line=\"2\"/>\n        ^\n"
              "faulty.xml:3:1: W0102: a warning\n    \t<third/>\n    ^\n"
              "faulty.xml:3:4: E0103: second fault\n    \t<third/>\n    \t  ^\n"
              "byssus: faulty.xml: 2 faults\n")
    tap.check("each with its line and a caret",
              [] if result.stderr == wanted else [repr(result.stderr), repr(wanted)])
    with open(os.path.join(here, "bytes.xml"), "wb") as file:
        file.write(b"faulty\n\xff\x1b[31m\xc3\xa9<second/>\n\xe2\x82\n")
    result = run("check", "bytes.xml")  # strict decoding: bad bytes would raise here
    expect("bad bytes and control codes do not reach the terminal", result, 65,
           err=r"    \? \[31m\u00e9<second/>\n        \^\n")
    tap.check("nothing is written", [] if not os.path.exists(os.path.join(here, "never")) else ["never"])
    expect("quiet leaves the warnings out", run("check", "--quiet", site("faulty")), 65,
           err="first fault\n(.|\n)*second fault")
    tap.check("and only them", [l for l in run("check", "--quiet", site("faulty")).stderr.splitlines()
                                if "W0102" in l])


def as_json():
    expect_json("check --json", run("check", "--json", site("fail")), 1,
                lambda v: v["schema"] == "byssus.legs/1" and len(v["legs"]) == 24)
    expect_json("solve --json", run("solve", "--json", site("pass")), 0,
                lambda v: v["schema"] == "byssus.state/1")
    expect_json("solve --list-cases --json", run("solve", "--json", "--list-cases", site("pass")), 0,
                lambda v: len(v) == 2 and v[0] == "50y/090/LAT/w0:harvest:intact")
    expect_json("lint --json", run("lint", "--json", site("pass")), 0,
                lambda v: [m["code"] for m in v] == ["W0102"])
    for command in ("lint", "check", "solve"):
        expect_json(f"{command} --json, faults", run(command, "--json", site("faulty")), 65,
                    lambda v: [(m["code"], m["line"], m["column"]) for m in v] ==
                    [("E0101", 2, 5), ("W0102", 3, 1), ("E0103", 3, 4)])
    expect_json("compare --json", run("compare", "--json", site("fail"), site("pass")), 0,
                lambda v: v["schema"] == "byssus.compare/1" and len(v["legs"]) == 24)
    expect_json("calendar --json", run("calendar", "--json", site("fail")), 1,
                lambda v: v["schema"] == "byssus.calendar/1" and v["floats"][0]["added"] == [0, 2, 4])
    expect_json("aslaid --json", run("aslaid", "--json", site("fail"), "pass.xml"), 1,
                lambda v: v["schema"] == "byssus.aslaid/1" and v["legs"][0]["adjustment_m"] > 3)
    expect_json("new --json", run("new", "--json", "block"), 0, lambda v: v["text"] == "pass\n")
    expect_json("explain --json", run("explain", "--json"), 0, lambda v: all("text" in m for m in v))
    number = run("explain").stdout.split()[0]
    expect_json("explain CODE --json", run("explain", "--json", number), 0,
                lambda v: v["number"] == int(number))


def directories():
    expect("--to", run("check", site("fail"), "--to", "out"), 1, out="^FAIL", err="wrote into out: legs.csv cut-list.csv legs.json deployment.html")
    wanted = ["cut-list.csv", "deployment.html", "legs.csv", "legs.json", "places.geojson",
              "places.gpx", "places.kml",
              "plan.dxf", "plan.svg", "proof-loads.csv", "proof-loads.txt", "report.html"]
    tap.check("its files", [] if sorted(os.listdir(os.path.join(here, "out"))) == wanted
              else os.listdir(os.path.join(here, "out")))
    with open(os.path.join(here, "out", "legs.json"), encoding="utf-8") as file:
        written = file.read()
    tap.check("legs.json is what --json prints",
              [] if written == run("check", "--json", site("fail")).stdout else ["they differ"])
    expect("compare --to", run("compare", site("fail"), site("pass"), "--to", "both"), 0,
           err="both/compare.html, both/compare.json")
    tap.check("compare writes two files", [] if sorted(os.listdir(os.path.join(here, "both"))) ==
              ["compare.html", "compare.json"] else os.listdir(os.path.join(here, "both")))
    expect("--to with no parent", run("check", site("pass"), "--to", "a/b/c"), 73, no_out=True)
    expect("--to a file", run("check", site("pass"), "--to", "pass.xml"), 73,
           err="is not a directory", no_out=True)


def on_terminal(env, *args):
    """Output of the program when all of its streams are a terminal."""
    master, slave = pty.openpty()
    process = subprocess.Popen([program, *args], stdin=slave, stdout=slave, stderr=slave, cwd=here,
                               env=env)
    os.close(slave)
    data = b""
    while True:
        try:
            piece = os.read(master, 65536)
        except OSError:
            break
        if not piece:
            break
        data += piece
    process.wait()
    os.close(master)
    return data.decode()


def terminal():
    text = on_terminal(usual, "check", site("fail"))
    tap.check("colour and progress on a terminal",
              [w for w in ("\x1b[1;31mFAIL", "of 4, ", "worst use so far 0.50") if w not in text])
    for name, env in (("NO_COLOR", usual | {"NO_COLOR": "1"}), ("a dumb terminal", usual | {"TERM": "dumb"})):
        text = on_terminal(env, "check", "--quiet", site("fail"))
        tap.check(f"no colour with {name}", ["colour"] if "\x1b[" in text or "FAIL" not in text else [])
    result = run("check", site("fail"), env=usual)
    tap.check("neither in a pipe", [w for w in ("\x1b", "\r") if w in result.stdout + result.stderr])


def pages():
    with open(manual, encoding="utf-8") as file:
        page = file.read()
    told = {(c, o) for c in COMMANDS
            for o in re.findall(r"(?m)^  --([a-z-]+)", run(c, "--help").stdout)}
    synopsis = page.partition(".Sh SYNOPSIS")[2].partition(".Sh DESCRIPTION")[0]
    parts = {p.split("\n")[0]: p for p in re.split(r"(?m)^\.Cm ", synopsis)}
    tap.check("the manual has every option of every command, and no other",
              [f"{c} --{o} is not in the synopsis" for c, o in sorted(told)
               if o != "help" and f"Fl -{o}" not in parts[c]]
              + [f"{c} has no --{o}" for c in parts for o in re.findall(r"Fl -([a-z-]+)", parts[c])
                 if c in {c for c, _ in told} and (c, o) not in told and o != "version"])
    tap.check("the manual has every exit status of --help",
              [s for s in re.findall(r"\b(\d+) +[a-z]", run("--help").stdout.partition("Exit status")[2])
               if f".It {s}\n" not in page])


for part in (pages, usage, helps, statuses, faults, as_json, directories, terminal):
    part()
tap.done()
