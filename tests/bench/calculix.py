#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""calculix.py BENCH_AIR CCX [N]: a flat pretensioned net in air under small loads, as bench_net.c
makes it, solved by us and by CalculiX with truss elements and geometric nonlinearity. Strains stay
below 3e-5, so that its strain measure and ours agree. Compares the force on every held crossing
and the time; CalculiX's is that of its whole process on one thread, less that of a net of 3 x 3
(start, reading)."""
import os
import subprocess
import sys
import tempfile
import time

AREA, MODULUS, STRAIN = 1e-4, 2e11, 2e-5


def bars(n):
    rim = lambda i, j: i in (0, n - 1) or j in (0, n - 1)
    for i in range(n):
        for j in range(n):
            for di, dj in ((1, 0), (0, 1)):
                a, b = i + di, j + dj
                if a < n and b < n and not (rim(i, j) and rim(a, b)):
                    yield i * n + j, a * n + b, di == 1


def write_input(path, n):
    rim = [i * n + j for i in range(n) for j in range(n) if i in (0, n - 1) or j in (0, n - 1)]
    inner = sorted(set(range(n * n)) - set(rim))
    all_bars = list(bars(n))
    used = {p for a, b, _ in all_bars for p in (a, b)}
    held = [p for p in rim if p in used]
    stress = MODULUS * STRAIN
    out = ["*NODE,NSET=NALL"]
    out += [f"{p + 1},{p // n},{p % n},0." for p in sorted(used)]
    out += ["*ELEMENT,TYPE=T3D2,ELSET=E"]
    out += [f"{k + 1},{a + 1},{b + 1}" for k, (a, b, _) in enumerate(all_bars)]
    out += ["*NSET,NSET=HELD"] + [f"{p + 1}" for p in held]
    out += ["*MATERIAL,NAME=M", "*ELASTIC", f"{MODULUS},0.", "*SOLID SECTION,ELSET=E,MATERIAL=M",
            f"{AREA}", "*BOUNDARY", "HELD,1,3", "*INITIAL CONDITIONS,TYPE=STRESS"]
    for k, (_, _, along_x) in enumerate(all_bars):
        s = f"{stress},0.,0.,0.,0.,0." if along_x else f"0.,{stress},0.,0.,0.,0."
        out += [f"{k + 1},{i},{s}" for i in range(1, 9)]
    out += ["*STEP,NLGEOM,INC=100", "*STATIC", "1.,1."]
    out += ["*CLOAD"] + [f"{p + 1},3,-1." for p in inner]
    out += ["*NODE PRINT,NSET=HELD", "RF", "*END STEP"]
    with open(path, "w", encoding="ascii") as file:
        file.write("\n".join(out) + "\n")


def calculix(ccx, n):
    """Seconds and {point: force}."""
    with tempfile.TemporaryDirectory() as folder:
        write_input(os.path.join(folder, "net.inp"), n)
        start = time.perf_counter()
        done = subprocess.run([ccx, "net"], cwd=folder, capture_output=True, text=True, check=False,
                              env={**os.environ, "OMP_NUM_THREADS": "1"})
        seconds = time.perf_counter() - start
        forces = {}
        with open(os.path.join(folder, "net.dat"), encoding="ascii") as file:
            for line in file:
                words = line.split()
                if len(words) == 4 and words[0].isdigit():
                    fx, fy, fz = map(float, words[1:])
                    forces[int(words[0]) - 1] = (fx * fx + fy * fy + fz * fz) ** 0.5
        if not forces:
            sys.exit(done.stdout[-2000:])
        return seconds, forces


def main():
    program, ccx = sys.argv[1:3]
    n = int(sys.argv[3]) if len(sys.argv) > 3 else 30
    done = subprocess.run([program, str(n)], capture_output=True, text=True, check=True)
    ours, seconds = {}, 0.0
    for line in done.stdout.splitlines():
        words = line.split()
        if words[0] == "seconds":
            seconds = float(words[1])
        else:
            ours[int(words[1])] = float(words[2])
    empty = min(calculix(ccx, 3)[0] for _ in range(3))
    theirs_seconds, theirs = min((calculix(ccx, n) for _ in range(2)), key=lambda r: r[0])
    apart = max(abs(ours[p] - theirs[p]) / theirs[p] for p in theirs)
    ratio = (theirs_seconds - empty) / seconds
    print(f"net in air, {n} x {n}: ours {1e3 * seconds:.2f} ms, "
          f"CalculiX {1e3 * theirs_seconds:.0f} ms "
          f"({1e3 * empty:.0f} ms of it start and reading), ratio {ratio:.1f}; "
          f"{len(theirs)} held points, forces apart {apart:.2e}")
    print(f"bench calculix_ratio {ratio:.2f}\nbench calculix_apart {apart:.3g}")
    return 0 if apart <= 1e-4 and len(theirs) == len(ours) else 1


if __name__ == "__main__":
    sys.exit(main())
