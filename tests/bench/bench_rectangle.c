// SPDX-License-Identifier: GPL-3.0-or-later
// Time of the exact fixed rectangle: table of one hull, and drift over one full spectrum by it.
#include "bench/bench_net.h"
#include "phys/sea_loads.h"

#include <math.h>
#include <stdio.h>

enum { SPECTRA = 100 };

int main(void)
{
    static bys_rectangle hull;
    double setup = INFINITY, spectrum = INFINITY, sum = 0.0;
    for (int k = 0; k < 3; k++) {
        double from = bench_now();
        bys_rectangle_set(&hull, 18.0, 0.95, 20.0);
        setup = fmin(setup, bench_now() - from);
        from = bench_now();
        for (int i = 0; i < SPECTRA; i++)
            sum += bys_rectangle_drift(&hull, 1025.0, 0.5 + 0.001 * i, 3.0, 3.3, 0.0);
        spectrum = fmin(spectrum, (bench_now() - from) / SPECTRA);
    }
    printf("bench rectangle_setup_ms %.4g\n", 1e3 * setup);
    printf("bench rectangle_spectrum_ms %.4g\n", 1e3 * spectrum);
    return sum > 0.0 ? 0 : 1;
}
