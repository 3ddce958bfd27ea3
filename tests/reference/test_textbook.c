// SPDX-License-Identifier: GPL-3.0-or-later
// Published and derived cables and nets as site files, through reader, expansion, cases and solver.
#include "lease/network.h"
#include "sea/sea.h"
#include "statics/state.h"
#include "support/suite.h"
#include "textbook_rows.h"
#include <byssus/site.h>

#include <stdio.h>
#include <string.h>

/// A solved file.
typedef struct {
    bys_messages *messages;
    bys_site *site;
    bys_network *net;
    bys_environments seas;
    bys_state *state;
} solved;

static void read_file(solved *s, const char *name) {
    char path[512];
    bys_error err = {0};
    snprintf(path, sizeof path, "%s/textbook/%s.xml", BYS_SITEFILES, name);
    ck_assert_int_eq(bys_messages_new(&s->messages), BYS_OK);
    ck_assert_msg(bys_site_read(&s->site, path, NULL, s->messages, &err) == BYS_OK, "%s: %s", path,
                  err.text);
}

/// Spans that carry a load of their own get `mesh` elements; weightless links stay whole.
static void refine(bys_site *site, int mesh) {
    for (int n = 0; mesh > 0 && n < site->network_count; n++) {
        for (int i = 0; i < site->networks[n].span_count; i++) {
            bys_free_span *span = &site->networks[n].spans[i];
            if (span->weight != 0.0 || span->load[1] != 0.0 || span->diameter > 0.0)
                span->elements = mesh;
        }
    }
}

static void solve_islands(solved *s, const bys_sea *sea) {
    for (int i = 0; i < s->net->island_count; i++) {
        bys_solver *solver = NULL;
        bys_error err = {0};
        bys_audit audit;
        ck_assert_int_eq(bys_solver_new(&solver, s->net, i, &err), BYS_OK);
        ck_assert_int_eq(bys_solve_island(s->state, solver, sea, NULL, BYS_START_COLD, &err),
                         BYS_OK);
        const bys_outcome *o = &s->state->islands[i];
        ck_assert_msg(o->status == BYS_STABLE, "island %d is %s: %s", i, bys_status_name(o->status),
                      o->reason);
        bys_audit_island(&audit, s->state, sea, NULL, i);
        ck_assert_msg(audit.worst_N <= 0.01, "audit of island %d: %g N", i, audit.worst_N);
        bys_solver_free(solver);
    }
}

static void solve_site(solved *s) {
    bys_error err = {0};
    ck_assert_msg(bys_network_expand(&s->net, s->site, -1, s->messages, &err) == BYS_OK, "%s",
                  err.text);
    ck_assert_int_eq(bys_environments_make(&s->seas, s->site, s->messages, &err), BYS_OK);
    ck_assert_int_ge(s->seas.count, 1);
    ck_assert_int_eq(bys_state_new(&s->state, s->net, &err), BYS_OK);
    solve_islands(s, &s->seas.items[0].sea);
}

static void drop(solved *s) {
    bys_state_free(s->state);
    bys_environments_free(&s->seas);
    bys_network_free(s->net);
    bys_site_free(s->site);
    bys_messages_free(s->messages);
}

static int point_at(const solved *s, const char *id) {
    for (int i = 0; i < s->net->point_count; i++)
        if (!strcmp(s->net->points[i].id, id))
            return i;
    ck_abort_msg("no point '%s'", id);
}

static int span_at(const solved *s, const char *id) {
    for (int i = 0; i < s->net->section_count; i++)
        if (!strcmp(s->net->sections[i].id, id))
            return i;
    ck_abort_msg("no span '%s'", id);
}

static double coordinate(const solved *s, const char *id, int axis) {
    return s->state->x[3 * point_at(s, id) + axis];
}

static double slack_spans(const solved *s) {
    double n = 0.0;
    for (int i = 0; i < s->net->section_count; i++)
        n += s->state->sections[i].tension_a < 1e-6;
    return n;
}

static double grounded_spans(const solved *s) {
    double sum = 0.0;
    for (int i = 0; i < s->net->section_count; i++)
        sum += s->state->sections[i].grounded;
    return sum;
}

static double span_value(const solved *s, const row *r) {
    const bys_section_state *span = &s->state->sections[span_at(s, r->id)];
    const double *a = span->force_a, *b = span->force_b;
    switch (r->kind) {
    case TENSION_A:
        return span->tension_a;
    case TENSION_B:
        return span->tension_b;
    case LEVEL_A:
        return hypot(a[0], a[1]);
    case LEVEL_B:
        return hypot(b[0], b[1]);
    case UPRIGHT_A:
        return fabs(a[2]);
    case UPRIGHT_B:
        return fabs(b[2]);
    case FORCE_X:
        return a[0];
    case FORCE_Y:
        return a[1];
    default:
        return span->grounded;
    }
}

static double value(const solved *s, const row *r) {
    switch (r->kind) {
    case AT_X:
    case AT_Y:
    case AT_Z:
        return coordinate(s, r->id, (int)r->kind - (int)AT_X);
    case MOVED_X:
        return coordinate(s, r->id, 0) - coordinate(s, r->id2, 0);
    case MOVED_Z:
        return coordinate(s, r->id, 2) - coordinate(s, r->id2, 2);
    case DOWN_ANGLE:
        return atan2(-coordinate(s, r->id, 2), coordinate(s, r->id, 0)) * 180.0 / acos(-1.0);
    case SLACK_COUNT:
        return slack_spans(s);
    case GROUNDED_ALL:
        return grounded_spans(s);
    default:
        return span_value(s, r);
    }
}

static bool published(const row *r) {
    return !strstr(r->source, "derived");
}

static bool force_like(const row *r) {
    return r->kind >= TENSION_A && r->kind < GROUNDED;
}

// Compares all rows; says every one that is off. `coarse`: the program's own mesh; derived forces
// within 0.1 % of the span's tension. The ends of a rounding interval belong to it.
static void compare(const solved *s, const problem *p, bool coarse) {
    bys_text off = {0};
    for (int i = 0; i < p->count; i++) {
        const row *r = &p->rows[i];
        const double got = value(s, r), size = fabs(r->want);
        double allowed = r->tolerance > 0.0 ? r->tolerance : -r->tolerance * size;
        if (coarse && (published(r) || !force_like(r) || r->want == 0.0))
            continue;
        if (coarse)
            allowed = 1e-3 * s->state->sections[span_at(s, r->id)].tension_b;
        if (!(fabs(got - r->want) <= allowed * (1.0 + 1e-4)))
            bys_text_addf(&off, "\n  %s%s kind %d: wanted %.10g, got %.10g, off by %.2g of it (%s)",
                          r->id, r->id2, (int)r->kind, r->want, got, (got - r->want) / size,
                          r->source);
        if (getenv("BYS_SHOW"))
            printf("# %s %s kind %d: %.10g, want %.10g, off %.2g\n", p->file, r->id, (int)r->kind,
                   got, r->want, (got - r->want) / size);
    }
    ck_assert_msg(off.length == 0, "%s%s", p->file, off.data);
    bys_text_free(&off);
}

START_TEST(refined_mesh) {
    const problem *p = &problems[_i];
    solved s = {0};
    read_file(&s, p->file);
    refine(s.site, p->mesh);
    solve_site(&s);
    compare(&s, p, false);
    drop(&s);
}
END_TEST

START_TEST(own_mesh) {
    const problem *p = &problems[_i];
    solved s = {0};
    read_file(&s, p->file);
    solve_site(&s);
    compare(&s, p, true);
    drop(&s);
}
END_TEST

// U1: with normal drag only, the tension differs by w times the height, whatever the current.
START_TEST(u1_weight_times_height) {
    solved s = {0};
    read_file(&s, "u4-subsurface-float");
    solve_site(&s);
    const bys_section_state *rope = &s.state->sections[span_at(&s, "b-rope")];
    const double height = coordinate(&s, "bF", 2);
    expect_close(rope->tension_b - rope->tension_a, 0.6 * height, 1e-3); // dT = w dz, closed form
    expect_close(0.6 * height, 26.53900429, 1e-3);                       // derived
    drop(&s);
}
END_TEST

/// Force (N) and moment about the origin (Nm) of the three legs of K10 on the body whose fairleads
/// are moved by d (m) and turned by r (rad, small: about x, y, z).
static void k10_load(double out[6], const double d[3], const double r[3]) {
    solved s = {0};
    read_file(&s, "k10-three-legs");
    refine(s.site, 512);
    double arm[3][3];
    for (int n = 0; n < 3; n++) {
        bys_free_point *f = &s.site->networks[n].points[1];
        ck_assert_int_eq(f->item.id[0], 'F');
        const double *x = f->x;
        const double turned[3] = {r[1] * x[2] - r[2] * x[1], r[2] * x[0] - r[0] * x[2],
                                  r[0] * x[1] - r[1] * x[0]};
        for (int k = 0; k < 3; k++)
            arm[n][k] = x[k] + turned[k];
        for (int k = 0; k < 3; k++)
            f->x[k] = arm[n][k] + d[k];
    }
    solve_site(&s);
    memset(out, 0, 6 * sizeof(double));
    for (int n = 0; n < 3; n++) {
        const double *f = s.state->sections[n].force_b, *a = arm[n];
        for (int k = 0; k < 3; k++) {
            out[k] += f[k];
            out[3 + k] += a[(k + 1) % 3] * f[(k + 2) % 3] - a[(k + 2) % 3] * f[(k + 1) % 3];
        }
    }
    drop(&s);
}

static double k10_difference(int row_, int column, double h) {
    const double zero[3] = {0, 0, 0};
    double step[3] = {0, 0, 0}, plus[6], minus[6];
    step[column % 3] = h;
    k10_load(plus, column < 3 ? step : zero, column < 3 ? zero : step);
    step[column % 3] = -h;
    k10_load(minus, column < 3 ? step : zero, column < 3 ? zero : step);
    return (minus[row_] - plus[row_]) / (2.0 * h);
}

// The step must move the point of touchdown over several elements (1.8 m), and its error in h2 is
// taken out by a second one of twice the size (Richardson).
static double k10_stiffness(int row_, int column) {
    const double h = column == 2 ? 4.0 : column < 3 ? 1.0 : 0.02;
    return (4.0 * k10_difference(row_, column, h) - k10_difference(row_, column, 2.0 * h)) / 3.0;
}

// Published: NREL/TP-500-47535 (2010), linearised restoring matrix, memory, to 0.5 %. Derived:
// closed form with central differences over small steps; 1e-4 here.
START_TEST(k10_restoring_matrix) {
    static const struct {
        int row, column;
        double published, own;
    } wanted[] = {{0, 0, 41180.0, 41181.2},         {1, 1, 41180.0, 41181.2},
                  {2, 2, 11940.0, 11941.5},         {0, 4, -2821000.0, -2815430.0},
                  {4, 0, -2816000.0, -2815430.0},   {3, 3, 311100000.0, 310785000.0},
                  {4, 4, 311100000.0, 310785000.0}, {5, 5, 11560000.0, 11566700.0}};
    double off = 0.0;
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        const double K = k10_stiffness(wanted[i].row, wanted[i].column);
        if (getenv("BYS_SHOW"))
            printf("# K10 K%d%d %.8g own %.8g\n", wanted[i].row + 1, wanted[i].column + 1, K,
                   wanted[i].own);
        off = fmax(off, fabs(K / wanted[i].own - 1.0));
        expect_close(K, wanted[i].published, 5e-3);
    }
    ck_assert_msg(off <= 1e-4, "largest difference from the derived matrix: %.2g", off);
}
END_TEST

START_TEST(k10_offsets) {
    const double zero[3] = {0, 0, 0}, out[3] = {5, 0, 0}, back[3] = {-5, 0, 0};
    double f[6];
    k10_load(f, zero, zero);
    expect_close(f[2], -1607000.0, 5e-4); // NREL/TP-500-47535, memory: four digits
    expect_close(f[2], -1607182.0, 1e-5); // derived
    expect_abs(f[0], 0.0, 1.0);           // symmetry
    k10_load(f, out, zero);
    expect_close(f[0], -196621.0, 1e-5);  // derived
    expect_close(f[2], -1612270.0, 1e-5); // derived
    k10_load(f, back, zero);
    expect_close(f[0], 218750.0, 1e-5);   // derived
    expect_close(f[2], -1612570.0, 1e-5); // derived
}
END_TEST

int main(void) {
    Suite *s = suite_create("textbook");
    TCase *each = tcase_create("each file");
    tcase_set_timeout(each, 120.0);
    tcase_add_loop_test(each, refined_mesh, 0, PROBLEM_COUNT);
    tcase_add_loop_test(each, own_mesh, 0, PROBLEM_COUNT);
    suite_add_tcase(s, each);
    suite_test(s, u1_weight_times_height);
    suite_test_limit(s, "k10_restoring_matrix", k10_restoring_matrix, 240.0);
    suite_test(s, k10_offsets);
    return suite_run(s, NULL);
}
