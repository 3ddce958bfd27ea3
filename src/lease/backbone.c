// SPDX-License-Identifier: GPL-3.0-or-later
// One backbone: where its points stand, and what hangs at them.
//
// Points stand where floats hang (patterns at least 2 m apart), points closer than a quarter of the
// wanted element are merged, and gaps are filled so that no element is longer than 5 m. What hangs
// between two points is shared between them by the lever rule, so that its moment is kept.
// A two-strand backbone is two sections through the same points: each strand keeps its own
// stiffness, weight and drag, and both share floats, gear and position.
#include "lease/expand.h"

#include <math.h>
#include <stdlib.h>

static const double longest_element = 5.0; // m
static const double hang_apart = 2.0;      // m

/// A pattern with the stage's override in it: pieces at first + i*step, i < n, m as cut.
typedef struct {
    const bys_pattern *pattern;
    double first, step;
    int n;
} row;

static bool same_text(const char *a, const char *b) {
    while (*a && *a == *b) {
        a++;
        b++;
    }
    return *a == *b;
}

// The override with the closest target counts: a line before its block before everything.
static const bys_stage_floats *stage_override(const bys_expansion *x, const bys_line_plan *plan,
                                              const bys_pattern *pattern) {
    const bys_stage_floats *best = NULL;
    int best_rank = 0;
    for (int i = 0; x->stage && i < x->stage->float_count; i++) {
        const bys_stage_floats *f = &x->stage->floats[i];
        if (!same_text(f->pattern, pattern->id))
            continue;
        const int rank = same_text(f->target, plan->id)               ? 3
                         : same_text(f->target, plan->block->item.id) ? 2
                         : !*f->target                                ? 1
                                                                      : 0;
        if (rank > 0 && rank >= best_rank) {
            best = f;
            best_rank = rank;
        }
    }
    return best;
}

static row row_of(bys_expansion *x, const bys_line_plan *plan, const bys_pattern *p) {
    const bys_stage_floats *over = stage_override(x, plan, p);
    const double every = over ? over->every : p->every;
    const int count = over ? over->count : p->count;
    const double from = isfinite(p->from) ? p->from : 0.0;
    const double to = isfinite(p->to) ? p->to : plan->length;
    row r = {.pattern = p, .n = count};
    if (p->at_ends)
        return r;
    if (!(from >= 0.0 && to > from && to <= plan->length + 1e-6)) {
        bys_expand_fault(x, BYS_M_pattern_range, p->place,
                         "%s: pattern '%s' runs from %g m to %g m, but the backbone is %g m long",
                         plan->id, p->id, from, to, plan->length);
        r.n = 0;
        return r;
    }
    if (isfinite(every) && every > 0.0) {
        r.step = every;
        r.n = (int)floor((to - from) / every + 0.5 + 1e-9);
    } else {
        r.step = count > 0 ? (to - from) / count : 0.0;
    }
    r.first = from + 0.5 * r.step;
    return r;
}

static int ascending(const void *a, const void *b) {
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/// Positions along the backbone, m as cut.
typedef struct {
    double *s;
    int n;
} stations;

// Is there a leg nearer than `apart` to s?
static bool near_joint(const bys_line_plan *plan, double s, double apart) {
    for (int i = 0; i < plan->joint_count; i++)
        if (fabs(plan->joints[i].at[0] - s) < apart || fabs(plan->joints[i].at[1] - s) < apart)
            return true;
    return false;
}

// Where legs are made fast a point stands, whatever hangs near it.
static void put_joints(const bys_line_plan *plan, stations *out) {
    for (int i = 0; i < 2 * plan->joint_count; i++) {
        const double s = plan->joints[i / 2].at[i % 2];
        bool known = s < 1e-6 || s > plan->length - 1e-6;
        for (int k = 0; k < out->n; k++)
            known |= fabs(out->s[k] - s) < 1e-6;
        if (!known)
            out->s[out->n++] = s;
    }
    qsort(out->s, (size_t)out->n, sizeof(double), ascending);
}

static bool hang_stations(bys_expansion *x, const bys_line_plan *plan, const row *rows, int n,
                          stations *out) {
    const double length = plan->length;
    size_t most = 2 + 2 * (size_t)plan->joint_count;
    for (int i = 0; i < n; i++)
        most += (size_t)rows[i].n;
    out->s = bys_arena_get(x->scratch, most * sizeof(double));
    if (!out->s)
        return false;
    out->n = 0;
    for (int i = 0; i < n; i++)
        for (int k = 0; rows[i].step >= hang_apart && k < rows[i].n; k++)
            out->s[out->n++] = rows[i].first + k * rows[i].step;
    qsort(out->s, (size_t)out->n, sizeof(double), ascending);
    // Merge: keep a station only if it is far enough from the one kept before and from the ends.
    int kept = 0;
    double before = 0.0;
    for (int k = 0; k < out->n; k++) {
        const double s = out->s[k];
        if (s - before < 0.25 * longest_element || length - s < 0.25 * longest_element ||
            near_joint(plan, s, 0.25 * longest_element))
            continue;
        out->s[kept++] = before = s;
    }
    out->n = kept;
    put_joints(plan, out);
    return true;
}

static bool fill_stations(bys_expansion *x, const stations *hang, double length, stations *out) {
    const size_t most = (size_t)(hang->n + 3) + (size_t)ceil(length / longest_element);
    out->s = bys_arena_get(x->scratch, most * sizeof(double));
    if (!out->s)
        return false;
    out->n = 0;
    out->s[out->n++] = 0.0;
    for (int k = 0; k <= hang->n; k++) {
        const double from = out->s[out->n - 1], to = k < hang->n ? hang->s[k] : length;
        const int parts = (int)fmax(1.0, ceil((to - from) / longest_element - 1e-9));
        for (int i = 1; i < parts; i++)
            out->s[out->n++] = from + (to - from) * i / parts;
        out->s[out->n++] = to;
    }
    return true;
}

static bool add_points(bys_expansion *x, const bys_line_plan *plan, const stations *at,
                       int *points) {
    const double e = sin(plan->heading), n = cos(plan->heading);
    for (int i = 0; i < at->n; i++) {
        const double s = at->s[i] - 0.5 * plan->length;
        const double where[3] = {plan->x + s * e, plan->y + s * n, x->surface - BYS_START_DRAFT};
        const char *id = bys_arena_format(x->scratch, "%s/b%02d", plan->id, i);
        points[i] = id ? bys_network_point(x->net, id, BYS_POINT_FREE, where) : -1;
        if (points[i] < 0)
            return false;
        x->net->points[points[i]].place = plan->place;
    }
    return true;
}

static bool add_strands(bys_expansion *x, const bys_line_plan *plan, const stations *at,
                        const int *points, int line) {
    bys_section like = bys_section_of_part(x, plan->block->backbone, plan->length);
    const double grown = like.length / plan->length;
    double *lengths = bys_arena_get(x->scratch, (size_t)at->n * sizeof(double));
    if (!lengths)
        return false;
    for (int i = 0; i + 1 < at->n; i++)
        lengths[i] = (at->s[i + 1] - at->s[i]) * grown;
    like.line = line;
    like.place = plan->block->item.place;
    const int strands = plan->block->strands == 2 ? 2 : 1;
    for (int k = 0; k < strands; k++) {
        like.strand = strands == 2 ? k : -1;
        const char *id = bys_arena_format(x->scratch, k ? "%s/backbone2" : "%s/backbone", plan->id);
        if (!id || bys_network_section_through(x->net, id, points, at->n, lengths, &like) < 0)
            return false;
    }
    return true;
}

// Lever rule: `share[i]` gets what of the row's pieces the point i carries.
static void share_out(double *share, const stations *at, const row *r) {
    for (int i = 0; i < at->n; i++)
        share[i] = 0.0;
    int i = 0;
    for (int k = 0; k < r->n; k++) {
        const double s = r->first + k * r->step;
        while (i + 2 < at->n && at->s[i + 1] <= s)
            i++;
        const double t = fmin(1.0, fmax(0.0, (s - at->s[i]) / (at->s[i + 1] - at->s[i])));
        // A distance under a micrometre is rounding, not a share.
        const double far = t < 1e-7 ? 0.0 : t > 1.0 - 1e-7 ? 1.0 : t;
        share[i] += 1.0 - far;
        share[i + 1] += far;
    }
}

static bool add_end_floats(bys_expansion *x, const bys_line_plan *plan, const bys_pattern *p, int n,
                           const int *ends, int line, int serial) {
    for (int k = 0; n > 0 && k < 2; k++) {
        const double outward = plan->heading + (k ? 0.0 : 3.14159265358979323846);
        const char *id = bys_arena_format(x->scratch, serial ? "%s/float-%s%d" : "%s/float-%s",
                                          plan->id, bys_compass_name(outward), serial + 1);
        const int f = id ? bys_network_float(x->net, id, p->part, ends[k], n) : -1;
        if (f < 0)
            return false;
        x->net->floats[f].line = line;
        x->net->floats[f].at_end = true;
        x->net->floats[f].axis[0] = sin(plan->heading);
        x->net->floats[f].axis[1] = cos(plan->heading);
        bys_float_grow(x, &x->net->floats[f]);
    }
    return true;
}

static bool add_floats(bys_expansion *x, const bys_line_plan *plan, const row *rows,
                       const stations *at, const int *points, int line) {
    int number = 0, at_ends = 0;
    double *share = bys_arena_get(x->scratch, (size_t)at->n * sizeof(double));
    if (!share)
        return false;
    for (int r = 0; r < plan->float_count; r++) {
        const int ends[2] = {points[0], points[at->n - 1]};
        const bys_pattern *p = rows[r].pattern;
        if (p->at_ends) {
            if (!add_end_floats(x, plan, p, rows[r].n, ends, line, at_ends++))
                return false;
            continue;
        }
        share_out(share, at, &rows[r]);
        for (int i = 0; i < at->n; i++) {
            if (share[i] <= 0.0)
                continue;
            const char *id = bys_arena_format(x->scratch, "%s/float%02d", plan->id, ++number);
            const int f = id ? bys_network_float(x->net, id, p->part, points[i], share[i]) : -1;
            if (f < 0)
                return false;
            x->net->floats[f].line = line;
            x->net->floats[f].axis[0] = sin(plan->heading);
            x->net->floats[f].axis[1] = cos(plan->heading);
            bys_float_grow(x, &x->net->floats[f]);
        }
    }
    return true;
}

static bool add_gear(bys_expansion *x, const bys_line_plan *plan, const stations *at,
                     const int *points, int line) {
    int number = 0;
    double *share = bys_arena_get(x->scratch, (size_t)at->n * sizeof(double));
    if (!share)
        return false;
    for (int k = 0; k < plan->gear_count; k++) {
        const bys_pattern *p = &plan->gear[k];
        const row r = row_of(x, plan, p);
        const bys_gear_part *gear = &p->part->u.gear;
        const bys_gear_values *values =
            bys_expand_gear(x, gear, plan->id, plan->block->item.id);
        if (!values)
            return false;
        const bys_drag_law law = bys_gear_law(gear, values);
        const double file = p->shelter ? bys_gear_file_relief(&law, values, r.n, r.step) : 0.0;
        share_out(share, at, &r);
        for (int i = 0; i < at->n; i++) {
            if (share[i] <= 0.0)
                continue;
            const bys_gear_set set = {
                .id = bys_arena_format(x->scratch, "%s/gear%02d", plan->id, ++number),
                .part = p->part,
                .values = values,
                .point = points[i],
                .count = share[i],
                .axis = {sin(plan->heading), cos(plan->heading)},
                .line = line,
                .lawful = true,
                .law = law,
                .swing_relief = bys_gear_swing_relief(gear),
                .file_relief = file};
            if (!set.id || bys_network_gear(x->net, &set) < 0)
                return false;
        }
    }
    return true;
}

bool bys_expand_backbone(bys_expansion *x, const bys_line_plan *plan, int *out) {
    const int line = x->net->line_count, first = x->net->section_count;
    row *rows = bys_arena_get(x->scratch, (size_t)(plan->float_count + 1) * sizeof(row));
    if (!rows)
        return false;
    for (int i = 0; i < plan->float_count; i++)
        rows[i] = row_of(x, plan, &plan->floats[i]);
    stations hang, at;
    if (!hang_stations(x, plan, rows, plan->float_count, &hang) ||
        !fill_stations(x, &hang, plan->length, &at))
        return false;
    int *points = bys_arena_get(x->scratch, (size_t)at.n * sizeof(int));
    if (!points || !add_points(x, plan, &at, points) || !add_strands(x, plan, &at, points, line) ||
        !add_floats(x, plan, rows, &at, points, line) || !add_gear(x, plan, &at, points, line))
        return false;
    for (int i = 0; i < 2 * plan->joint_count; i++)
        for (int k = 0; k < at.n; k++)
            if (fabs(at.s[k] - plan->joints[i / 2].at[i % 2]) < 1e-6)
                plan->joints[i / 2].point[i % 2] = points[k];
    const bys_line made = {.id = plan->id,
                           .block = (int)(plan->block - x->site->blocks),
                           .first_section = first,
                           .section_count = x->net->section_count - first,
                           .points = points,
                           .point_count = at.n,
                           .heading = plan->heading,
                           .length = x->net->sections[first].length,
                           .legs = {-1, -1},
                           .island = -1,
                           .place = plan->place};
    *out = bys_network_line(x->net, &made);
    return *out >= 0;
}
