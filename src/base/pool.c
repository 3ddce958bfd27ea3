// SPDX-License-Identifier: GPL-3.0-or-later
// Threads that take the next job by an atomic index. The caller works as worker 0.
#include "base/pool.h"

#include <pthread.h>
#include <sched.h>
#include <stdatomic.h>
#include <stdlib.h>

typedef struct {
    bys_job_fn job;
    void *user;
    size_t n;
    atomic_size_t next, done;
    atomic_bool stop;
} run_state;

typedef struct {
    run_state *run;
    int worker;
    pthread_t thread;
} worker_state;

static bool take_one(run_state *run, int worker)
{
    if (atomic_load(&run->stop))
        return false;
    size_t i = atomic_fetch_add(&run->next, 1);
    if (i >= run->n)
        return false;
    if (run->job(run->user, i, worker) != 0)
        atomic_store(&run->stop, true);
    else
        atomic_fetch_add(&run->done, 1);
    return true;
}

static void *work(void *argument)
{
    worker_state *w = argument;
    while (take_one(w->run, w->worker)) {
    }
    return NULL;
}

int bys_pool_threads(void)
{
    cpu_set_t set;
    if (sched_getaffinity(0, sizeof set, &set) != 0)
        return 1;
    int n = CPU_COUNT(&set);
    return n > 0 ? n : 1;
}

bys_rc bys_pool_run(bys_job_fn job, void *user, size_t n, int threads,
                    int (*tick)(void *user, size_t done, size_t total), bys_error *err)
{
    run_state run = {.job = job, .user = user, .n = n};
    if (threads <= 0)
        threads = bys_pool_threads();
    if ((size_t)threads > n)
        threads = n > 0 ? (int)n : 1;
    worker_state *workers = calloc((size_t)threads, sizeof *workers);
    if (!workers)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory for %d threads", threads);
    int started = 1;
    for (; started < threads; started++) {
        workers[started] = (worker_state){.run = &run, .worker = started};
        // Fewer threads than asked for change the time, not the result.
        if (pthread_create(&workers[started].thread, NULL, work, &workers[started]) != 0)
            break;
    }
    while (take_one(&run, 0))
        if (tick && tick(user, atomic_load(&run.done), n) != 0)
            atomic_store(&run.stop, true);
    for (int i = 1; i < started; i++)
        pthread_join(workers[i].thread, NULL);
    free(workers);
    if (atomic_load(&run.stop))
        return bys_error_set(err, BYS_ECANCEL, 0, "cancelled after %zu of %zu",
                             atomic_load(&run.done), n);
    if (tick && n > 0 && tick(user, n, n) != 0)
        return bys_error_set(err, BYS_ECANCEL, 0, "cancelled");
    return BYS_OK;
}
