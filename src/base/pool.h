// SPDX-License-Identifier: GPL-3.0-or-later
// Threads: n jobs handed out by an atomic index; job i writes only slot i.
#ifndef BYS_POOL_H
#define BYS_POOL_H
#include <byssus/base.h>

/// One job. worker: 0..threads-1, so that each thread can own a workspace. Non-zero cancels the rest.
typedef int (*bys_job_fn)(void *user, size_t job, int worker);
/// Runs jobs 0..n-1 on `threads` threads (0: as many as the process may use; 1: in the caller).
/// `tick` (may be NULL) is called by the calling thread with (done, n); non-zero cancels.
bys_rc bys_pool_run(bys_job_fn job, void *user, size_t n, int threads,
                    int (*tick)(void *user, size_t done, size_t total), bys_error *err);
/// Threads that bys_pool_run would use for 0.
int bys_pool_threads(void);
#endif
