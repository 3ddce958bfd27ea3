#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""run.py NODE REPORT.MJS PICTURES PROGRAM [SITE | PAGE COMMAND OPERAND...]: writes a page and opens it
in a browser. Without SITE the program is fake_files: a made-up design. The pictures stay in the build
folder."""
import os
import subprocess
import sys
import tempfile

node, script, pictures, program = sys.argv[1:5]
site = sys.argv[5] if len(sys.argv) > 5 else None
page = "report.html"
with tempfile.TemporaryDirectory(prefix="byssus-browser-") as folder:
    out = os.path.join(folder, "out")
    command = [program, "check", "--quiet", site, "--to", out] if site else [program, out, "12", "fail"]
    if len(sys.argv) > 6:
        page, command = site, [program, sys.argv[6], "--quiet", *sys.argv[7:], "--to", out]
    result = subprocess.run(command, stdout=subprocess.DEVNULL, check=False)
    if result.returncode not in (0, 1, 2):
        print(f"1..1\nnot ok 1 - no report: status {result.returncode}")
        sys.exit(1)
    result = subprocess.run([node, script, os.path.join(out, page), pictures], check=False)
sys.exit(0 if result.returncode == 77 else result.returncode)
