// SPDX-License-Identifier: GPL-3.0-or-later
// Lengths and reaches from stated pretensions.
//
// GIVEN     Site; each leg with a pretension leaves one value v open: a section's length or its
// reach RETURNED  v (m, as cut) and the tension at the leg's top that it gives NOTES     Unknowns
// of one island and one reference state (level, stage, slack water) are found
//           together. With f = ln(T/T_stated), J = df/dv and J'J = V diag(l) V' the step is
//             d = -sum over l_k > 4e-4 l_max of v_k (v_k' J'f) / l_k.
//           What is left out are the directions in which a line or a grid only shifts along itself:
//           its ends pull alike wherever it lies, and a shift of metres to mend a thousandth of a
//           tension is not what was asked for. J comes from differences, then by Broyden's update
//             J += (f_new - f_old - J d) d' / (d'd).
//           Where the stated values cannot all hold (two ends of one line with unlike values) the
//           best fit is kept when it is within 5 % and said in a warning; beyond that it is a
//           fault.
// SOURCE    derived; Broyden 1965, Jacobi 1846 (memory)
#include "tune/tune.h"
#include "base/codes.h"
#include "lease/expand.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double share_said = 1e-3, share_refused = 0.05;

/// The open values of one island in one reference state.
typedef struct {
    bys_network *net;
    bys_state *state;
    bys_solver *solver;
    bys_sea sea;
    int island;
    int n;
    int *legs;       ///< indices into net->legs
    double *v, *f;   ///< m; ln(T/T_stated)
    double *J;       ///< n x n, row-major
    double *scratch; ///< 2n*(n+2): differences, J'J, its vectors, trial values and misfits, step
    bool warm;
} problem;

/// A reference state: level and crop stage.
typedef struct {
    int level, stage;
} reference;

static int lowest_level(const bys_site *site) {
    int low = site->level_count > 0 ? 0 : -1;
    for (int i = 1; i < site->level_count; i++)
        if (site->levels[i].height < site->levels[low].height)
            low = i;
    return low;
}

static reference reference_of(const bys_site *site, const bys_leg_spec *spec) {
    const int level = *spec->pretension_level ? bys_site_level(site, spec->pretension_level) : -1;
    const int stage =
        bys_site_stage(site, *spec->pretension_stage ? spec->pretension_stage : "bare");
    return (reference){level >= 0 ? level : lowest_level(site), stage};
}

static bool any_pretension(const bys_site *site) {
    for (int i = 0; i < site->override_count; i++)
        if (isfinite(site->overrides[i].spec.pretension))
            return true;
    for (int b = 0; b < site->block_count; b++)
        for (int i = 0; i < site->blocks[b].leg_count; i++)
            if (isfinite(site->blocks[b].legs[i].pretension))
                return true;
    for (int c = 0; c < site->change_count; c++)
        for (int i = 0; i < site->changes[c].leg_count; i++)
            if (isfinite(site->changes[c].legs[i].pretension))
                return true;
    for (int g = 0; g < site->grid_count; g++)
        for (int i = 0; i < site->grids[g].leg_count; i++)
            if (isfinite(site->grids[g].legs[i].pretension))
                return true;
    return false;
}

static bys_sea slack_water(const bys_site *site, int level) {
    bys_sea sea = bys_sea_still(site->rho_water);
    sea.rho_air = site->rho_air;
    sea.gravity = site->gravity;
    sea.level = level >= 0 ? site->levels[level].height : 0.0;
    const double z = site->has_bed ? bys_bed_z(&site->bed, site->bed.x, site->bed.y) : 0.0;
    sea.depth = site->has_bed ? sea.level - z : 1.0;
    bys_sea_lay_bed(&sea, site);
    bys_sea_prepare(&sea);
    return sea;
}

// Section of the leg that has no stated length, -1: the reach is open.
static int open_section(const bys_leg *leg) {
    int line = 0;
    for (int i = 0; i < leg->spec->item_count; i++) {
        if (leg->spec->items[i].kind != BYS_LEG_LINE)
            continue;
        if (!isfinite(leg->spec->items[i].length))
            return leg->first_section + line;
        line++;
    }
    return -1;
}

static double grown(const bys_network *net, const bys_section *s) {
    const double share = net->stage >= 0 ? net->site->stages[net->stage].bedding_in : 0.0;
    return 1.0 + s->part->u.line.bedding_in * share;
}

static double bearing_of(const bys_leg *leg, const bys_network *net) {
    const double *a = net->points[leg->foot].x, *t = leg->top_nominal;
    return atan2(a[0] - t[0], a[1] - t[1]);
}

static double value_of(const bys_network *net, const bys_leg *leg) {
    const int s = open_section(leg);
    const double *a = net->points[leg->foot].x, *t = leg->top_nominal;
    return s >= 0 ? net->sections[s].length / grown(net, &net->sections[s])
                  : hypot(a[0] - t[0], a[1] - t[1]);
}

static void put_value(problem *p, const bys_leg *leg, double v) {
    const int s = open_section(leg);
    if (s >= 0) {
        bys_section *section = &p->net->sections[s];
        section->length = v * grown(p->net, section);
        for (int e = 0; e < section->count; e++)
            p->net->elements[section->first + e].length = section->length / section->count;
        return;
    }
    const double bearing = bearing_of(leg, p->net);
    double *a = p->net->points[leg->foot].x;
    a[0] = leg->top_nominal[0] + v * sin(bearing);
    a[1] = leg->top_nominal[1] + v * cos(bearing);
    a[2] = bys_bed_z(&p->net->site->bed, a[0], a[1]);
    memcpy(p->state->x + 3 * leg->foot, a, 3 * sizeof(double));
}

static double top_tension(const problem *p, const bys_leg *leg) {
    return p->state->sections[leg->first_section + leg->section_count - 1].tension_b;
}

// A slack leg may drift sideways at no load: its tension is known all the same while values are
// still being sought.
static bool stands(const bys_outcome *o) {
    return o->status == BYS_STABLE || (o->status == BYS_INDETERMINATE && o->residual <= 0.01);
}

// f at v. False when the state does not stand.
static bool evaluate(problem *p, const double *v, double *f, bys_error *err) {
    for (int i = 0; i < p->n; i++)
        put_value(p, &p->net->legs[p->legs[i]], v[i]);
    const bys_start start = p->warm ? BYS_START_WARM : BYS_START_COLD;
    const bys_outcome *outcome = &p->state->islands[p->island];
    if (bys_solve_island(p->state, p->solver, &p->sea, NULL, start, err) != BYS_OK)
        return false;
    if (p->warm && !stands(outcome) &&
        bys_solve_island(p->state, p->solver, &p->sea, NULL, BYS_START_COLD, err) != BYS_OK)
        return false;
    p->warm = stands(outcome);
    for (int i = 0; p->warm && i < p->n; i++) {
        const bys_leg *leg = &p->net->legs[p->legs[i]];
        f[i] = log(fmax(top_tension(p, leg), 1e-3) / leg->spec->pretension);
    }
    return p->warm;
}

static double largest(const double *f, int n) {
    double most = 0.0;
    for (int i = 0; i < n; i++)
        most = fmax(most, fabs(f[i]));
    return most;
}

static bool differences(problem *p, double *v, const double *f, bys_error *err) {
    double *g = p->scratch;
    for (int j = 0; j < p->n; j++) {
        const double keep = v[j], h = 2e-4 * keep;
        v[j] = keep + h;
        const bool stood = evaluate(p, v, g, err);
        v[j] = keep;
        if (!stood)
            return false;
        for (int i = 0; i < p->n; i++)
            p->J[i * p->n + j] = (g[i] - f[i]) / h;
    }
    return true;
}

// One rotation of the symmetric A in the plane (p, q), carried into V (both n x n).
static void rotate(double *A, double *V, int n, int p, int q) {
    const double apq = A[p * n + q];
    if (fabs(apq) <= 1e-15 * sqrt(fabs(A[p * n + p] * A[q * n + q])))
        return;
    const double theta = (A[q * n + q] - A[p * n + p]) / (2.0 * apq);
    const double t = copysign(1.0, theta) / (fabs(theta) + sqrt(theta * theta + 1.0));
    const double c = 1.0 / sqrt(t * t + 1.0), s = t * c;
    for (int k = 0; k < n; k++) {
        const double akp = A[k * n + p], akq = A[k * n + q];
        A[k * n + p] = c * akp - s * akq;
        A[k * n + q] = s * akp + c * akq;
    }
    for (int k = 0; k < n; k++) {
        const double apk = A[p * n + k], aqk = A[q * n + k];
        A[p * n + k] = c * apk - s * aqk;
        A[q * n + k] = s * apk + c * aqk;
        const double vkp = V[k * n + p], vkq = V[k * n + q];
        V[k * n + p] = c * vkp - s * vkq;
        V[k * n + q] = s * vkp + c * vkq;
    }
}

// A = J'J and its eigenvectors in the columns of V; the diagonal of A becomes the eigenvalues.
static void decompose(const double *J, double *A, double *V, int n) {
    for (int i = 0; i < n; i++)
        for (int j = 0; j < n; j++) {
            V[i * n + j] = i == j ? 1.0 : 0.0;
            A[i * n + j] = 0.0;
            for (int k = 0; k < n; k++)
                A[i * n + j] += J[k * n + i] * J[k * n + j];
        }
    for (int sweep = 0; sweep < 12; sweep++)
        for (int i = 0; i < n; i++)
            for (int j = i + 1; j < n; j++)
                rotate(A, V, n, i, j);
}

static void least_squares_step(problem *p, double *d) {
    const int n = p->n;
    double *A = p->scratch + n, *V = A + n * n, most = 0.0;
    decompose(p->J, A, V, n);
    for (int k = 0; k < n; k++) {
        most = fmax(most, A[k * n + k]);
        d[k] = 0.0;
    }
    for (int k = 0; k < n; k++) {
        double along = 0.0; // v_k' J'f
        if (A[k * n + k] <= 4e-4 * most)
            continue;
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++)
                along += V[j * n + k] * p->J[i * n + j] * p->f[i];
        for (int j = 0; j < n; j++)
            d[j] -= V[j * n + k] * along / A[k * n + k];
    }
}

static void broyden(problem *p, const double *d, const double *g) {
    const int n = p->n;
    double dd = 0.0;
    for (int j = 0; j < n; j++)
        dd += d[j] * d[j];
    for (int i = 0; dd > 0.0 && i < n; i++) {
        double miss = g[i] - p->f[i];
        for (int j = 0; j < n; j++)
            miss -= p->J[i * n + j] * d[j];
        for (int j = 0; j < n; j++)
            p->J[i * n + j] += miss * d[j] / dd;
    }
}

static double squares(const double *f, int n) {
    double sum = 0.0;
    for (int i = 0; i < n; i++)
        sum += f[i] * f[i];
    return sum;
}

// One step with halving. Returns the size of the step taken (m), 0 when none lowers the misfit.
static double take_step(problem *p, double *d, bys_error *err) {
    const int n = p->n;
    double *trial = p->scratch + n + 2 * n * n, *g = trial + n, cap = 1.0;
    for (int i = 0; i < n; i++)
        cap = fmin(cap, 0.05 * p->v[i] / fmax(fabs(d[i]), 1e-12));
    for (int half = 0; half < 8; half++, cap *= 0.5) {
        double step = 0.0;
        for (int i = 0; i < n; i++) {
            trial[i] = p->v[i] + cap * d[i];
            step = fmax(step, fabs(cap * d[i]));
        }
        if (!evaluate(p, trial, g, err) || !(squares(g, n) < squares(p->f, n)))
            continue;
        for (int i = 0; i < n; i++)
            d[i] *= cap;
        broyden(p, d, g);
        memcpy(p->v, trial, sizeof(double) * (size_t)n);
        memcpy(p->f, g, sizeof(double) * (size_t)n);
        return step;
    }
    return 0.0;
}

// Leaves v and f at the best fit. False when the reference state does not stand.
static bool find_values(problem *p, bys_error *err) {
    double *d = p->scratch + 3 * p->n + 2 * p->n * p->n;
    bool fresh = false;
    if (!evaluate(p, p->v, p->f, err))
        return false;
    for (int pass = 0; pass < 60 && largest(p->f, p->n) > 1e-6; pass++) {
        const double before = squares(p->f, p->n);
        if (!fresh && pass % 6 == 0) {
            if (!differences(p, p->v, p->f, err))
                return false;
            fresh = true;
        }
        least_squares_step(p, d);
        const double step = take_step(p, d, err);
        if (step > 1e-7 && squares(p->f, p->n) < 0.5 * before) {
            fresh = false;
            continue;
        }
        if (fresh && step < 1e-5)
            break; // a fresh tangent brings no more: this is the best fit
        if (!differences(p, p->v, p->f, err))
            return false;
        fresh = true;
    }
    return evaluate(p, p->v, p->f, err) && p->state->islands[p->island].status == BYS_STABLE;
}

static bool open_problem(problem *p, bys_network *net, bys_state *state, const bys_sea *sea,
                         int island, const reference *ref, bys_error *err) {
    const bys_island *is = &net->islands[island];
    const size_t most = (size_t)is->leg_count;
    *p = (problem){.net = net, .state = state, .sea = *sea, .island = island};
    p->legs = malloc(sizeof(int) * (most + 1));
    p->v = calloc(most * 2 + 1, sizeof(double));
    p->J = calloc(most * most + 1, sizeof(double));
    p->scratch = calloc(2 * most * most + 4 * most + 1, sizeof(double));
    if (!p->legs || !p->v || !p->J || !p->scratch)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in tuning") == BYS_OK;
    p->f = p->v + most;
    for (int i = 0; i < is->leg_count; i++) {
        const bys_leg *leg = &net->legs[is->legs[i]];
        const reference own = reference_of(net->site, leg->spec);
        if (!isfinite(leg->spec->pretension) || own.level != ref->level || own.stage != ref->stage)
            continue;
        p->v[p->n] = value_of(net, leg);
        p->legs[p->n++] = is->legs[i];
    }
    return p->n == 0 || bys_solver_new(&p->solver, net, island, err) == BYS_OK;
}

static void close_problem(problem *p) {
    bys_solver_free(p->solver);
    free(p->legs);
    free(p->v);
    free(p->J);
    free(p->scratch);
}

/// The tuning as it grows.
typedef struct {
    bys_tuning *out;
    bys_messages *messages;
    double moved; ///< m, largest change of a value in this round
    bool last;    ///< say what was missed
} work;

static bys_tuned *slot_of(work *w, const bys_leg *leg) {
    for (int i = 0; i < w->out->count; i++)
        if (!strcmp(w->out->items[i].leg, leg->id))
            return &w->out->items[i];
    bys_tuned *slot = &w->out->items[w->out->count];
    slot->leg = bys_arena_copy(w->out->arena, leg->id);
    slot->is_reach = open_section(leg) < 0;
    slot->value = INFINITY;
    w->out->count += slot->leg != NULL;
    return slot->leg ? slot : NULL;
}

static void say_missed(const work *w, const bys_leg *leg, const bys_tuned *t) {
    const double off = fabs(t->pretension / leg->spec->pretension - 1.0);
    if (!w->last || off <= share_said || !w->messages)
        return;
    const bool refused = off > share_refused;
    bys_messages_add(w->messages, refused ? BYS_FAULT : BYS_WARNING,
                     refused ? BYS_M_pretension_range : BYS_M_pretension_share, leg->place,
                     "%s: pretension %.3f kN is stated, %.3f kN is the nearest that %s %.3f m "
                     "gives together with the other legs of its part",
                     leg->id, leg->spec->pretension / 1000.0, t->pretension / 1000.0,
                     t->is_reach ? "a reach of" : "a length of", t->value);
}

static bool keep_values(work *w, const problem *p) {
    for (int i = 0; i < p->n; i++) {
        const bys_leg *leg = &p->net->legs[p->legs[i]];
        bys_tuned *t = slot_of(w, leg);
        if (!t)
            return false;
        w->moved = fmax(w->moved, fabs(t->value - p->v[i]));
        t->value = p->v[i];
        t->pretension = top_tension(p, leg);
        say_missed(w, leg, t);
    }
    return true;
}

static void say_unstable(const work *w, const problem *p) {
    const bys_leg *leg = &p->net->legs[p->legs[0]];
    const bys_outcome *o = &p->state->islands[p->island];
    if (w->messages)
        bys_messages_add(w->messages, BYS_FAULT, BYS_M_pretension_state, leg->place,
                         "%s: no length can be found for its pretension, because slack water at "
                         "the stated level and stage is %s: %s",
                         leg->id, bys_status_name(o->status), o->reason);
}

static bys_rc tune_island(work *w, bys_network *net, bys_state *state, const bys_sea *sea,
                          int island, const reference *ref, bys_error *err) {
    problem p;
    bys_rc rc = BYS_OK;
    if (!open_problem(&p, net, state, sea, island, ref, err))
        rc = err && err->rc ? err->rc : BYS_ENOMEM;
    else if (p.n > 0 && !find_values(&p, err)) {
        say_unstable(w, &p);
        rc = bys_error_set(err, BYS_EINPUT, BYS_M_pretension_state,
                           "the reference state of a pretension has no equilibrium");
    } else if (p.n > 0 && !keep_values(w, &p)) {
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory in tuning");
    }
    close_problem(&p);
    return rc;
}

static bys_rc tune_reference(work *w, const bys_site *site, const reference *ref, bys_error *err) {
    bys_network *net = NULL;
    bys_state *state = NULL;
    const bys_sea sea = slack_water(site, ref->level);
    bys_rc rc = bys_network_tuned(&net, site, ref->stage, w->out, NULL, err);
    if (rc == BYS_OK)
        rc = bys_state_new(&state, net, err);
    for (int i = 0; rc == BYS_OK && i < net->island_count; i++)
        rc = tune_island(w, net, state, &sea, i, ref, err);
    bys_state_free(state);
    bys_network_free(net);
    return rc;
}

// All reference states that legs of the site name, each once.
static bool references_of(work *w, reference **out, int *count, const bys_network *net) {
    *out = bys_arena_get(w->out->arena, sizeof(reference) * (size_t)(net->leg_count + 1));
    w->out->items = bys_arena_get(w->out->arena, sizeof(bys_tuned) * (size_t)(net->leg_count + 1));
    *count = 0;
    for (int i = 0; *out && i < net->leg_count; i++) {
        if (!isfinite(net->legs[i].spec->pretension))
            continue;
        const reference r = reference_of(net->site, net->legs[i].spec);
        bool known = false;
        for (int k = 0; k < *count; k++)
            known |= (*out)[k].level == r.level && (*out)[k].stage == r.stage;
        if (!known)
            (*out)[(*count)++] = r;
    }
    return *out && w->out->items;
}

// Rounds over the reference states until no value moves; one round when there is one state.
static bys_rc tune_rounds(work *w, const bys_site *site, const reference *refs, int count,
                          bys_error *err) {
    const int rounds = count > 1 ? 12 : 1;
    bys_rc rc = BYS_OK;
    for (int round = 0; rc == BYS_OK && round < rounds && !w->last; round++) {
        w->last = round + 1 == rounds || (round > 0 && w->moved < 1e-4);
        w->moved = 0.0;
        for (int i = 0; rc == BYS_OK && i < count; i++)
            rc = tune_reference(w, site, &refs[i], err);
    }
    return rc;
}

bys_rc bys_tuning_find(bys_tuning *out, const bys_site *site, bys_messages *messages,
                       bys_error *err) {
    *out = (bys_tuning){NULL, 0, NULL};
    if (!any_pretension(site))
        return BYS_OK;
    out->arena = bys_arena_new();
    if (!out->arena)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in tuning");
    work w = {.out = out, .messages = messages};
    reference *refs;
    int count = 0;
    bys_network *net = NULL;
    const size_t before = messages ? bys_messages_faults(messages) : 0;
    const int bare = bys_site_stage(site, "bare");
    bys_rc rc = bys_network_expand(&net, site, bare, NULL, err);
    if (rc == BYS_EINPUT) // once more, to say why
        rc = bys_network_expand(&net, site, bare, messages, err);
    if (rc == BYS_OK && !references_of(&w, &refs, &count, net))
        rc = bys_error_set(err, BYS_ENOMEM, 0, "out of memory in tuning");
    bys_network_free(net);
    if (rc == BYS_OK)
        rc = tune_rounds(&w, site, refs, count, err);
    if (rc == BYS_OK && messages && bys_messages_faults(messages) > before)
        rc = bys_error_set(err, BYS_EINPUT, BYS_M_pretension_range,
                           "no length or place gives a stated pretension");
    if (rc != BYS_OK)
        bys_tuning_free(out);
    return rc;
}

void bys_tuning_free(bys_tuning *tuning) {
    if (!tuning)
        return;
    bys_arena_free(tuning->arena);
    *tuning = (bys_tuning){NULL, 0, NULL};
}

bys_rc bys_network_tuned(bys_network **out, const bys_site *site, int stage,
                         const bys_tuning *tuning, bys_messages *messages, bys_error *err) {
    const int n = tuning ? tuning->count : 0;
    *out = NULL;
    bys_found *found = malloc(sizeof(bys_found) * (size_t)(n + 1));
    if (!found)
        return bys_error_set(err, BYS_ENOMEM, 0, "out of memory in tuning");
    for (int i = 0; i < n; i++)
        found[i] =
            (bys_found){tuning->items[i].leg, tuning->items[i].is_reach, tuning->items[i].value};
    const bys_rc rc = bys_network_expand_found(out, site, stage, found, n, messages, err);
    free(found);
    return rc;
}
