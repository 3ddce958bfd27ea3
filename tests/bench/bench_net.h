// SPDX-License-Identifier: GPL-3.0-or-later
// Networks and weather of the benchmarks, and a clock. All numbers invented.
#ifndef BYS_BENCH_NET_H
#define BYS_BENCH_NET_H

#include "statics/state.h"

/// Longlines side by side along y: 120 m of backbone in 40 elements, floats, gear, a leg of chain
/// and rope at each end; about 50 points a line. Tied to each other near both ends if `tied`: one
/// island.
bys_network *bench_block(int lines, bool tied);
/// Flat net in air, n x n, pitch 1 m, rim held, cables of EA 20 MN strained by 2e-5, 1 N down at
/// each inner crossing. Points in rows: point i * n + j stands at (i, j).
bys_network *bench_air_net(int n);
/// 0.6 m/s towards `degrees`, 20 m/s of wind and 1 m waves the same way, 15 m of water.
bys_sea bench_sea(double degrees);
bys_sea bench_air(void);

/// Seconds of a clock that only runs forward.
double bench_now(void);
double bench_median(double *values, int n);

#endif
