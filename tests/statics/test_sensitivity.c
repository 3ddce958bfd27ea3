// SPDX-License-Identifier: GPL-3.0-or-later
// Sensitivities by the transpose against re-solves down to rounding: central differences at two
// steps, extrapolated to none (Richardson). No number is expected but this agreement [derived].
#include "num/vec3.h"
#include "statics/hand_net.h"
#include "statics/onesided.h"
#include "statics/sensitivity.h"
#include "statics/solver.h"
#include "support/suite.h"
#include "tune/tune.h"

#include <byssus/site.h>

#include <string.h>

typedef struct { bys_network *net; bys_state *state, *base; bys_solver *solver; } rig;
enum { EAST, NORTH, LENGTH, CURRENT, KINDS };

static rig rig_of(bys_network *net)
{
    rig r = {.net = net};
    ck_assert_int_eq(bys_state_new(&r.state, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_state_new(&r.base, net, NULL), BYS_OK);
    ck_assert_int_eq(bys_solver_new(&r.solver, net, 0, NULL), BYS_OK);
    return r;
}

static void rig_free(rig *r)
{
    bys_solver_free(r->solver);
    bys_state_free(r->state);
    bys_state_free(r->base);
    bys_network_free(r->net);
}

static void solve(rig *r, const bys_sea *sea, bys_start start)
{
    ck_assert_int_eq(bys_solve_island(r->state, r->solver, sea, NULL, start, NULL), BYS_OK);
    ck_assert_msg(r->state->islands[0].status == BYS_STABLE, "%s", r->state->islands[0].reason);
}

static double tension_at(const rig *r, bys_section_end at)
{
    const bys_section_state *s = &r->state->sections[at.section];
    return at.at_b ? s->tension_b : s->tension_a;
}

static void move_foot(rig *r, const bys_sea *sea, int leg, double east, double north)
{
    const int foot = r->net->legs[leg].foot;
    double *x = r->net->points[foot].x;
    const double *n = sea->bed_normal;
    x[0] += east, x[1] += north;
    x[2] -= (n[0] * east + n[1] * north) / n[2];
    memcpy(r->state->x + 3 * foot, x, 3 * sizeof *x);
}

static void lengthen(rig *r, int section, double more)
{
    bys_section *sec = &r->net->sections[section];
    for (int k = sec->first; k < sec->first + sec->count; k++)
        r->net->elements[k].length *= 1.0 + more / sec->length;
    sec->length += more;
}

/// Move of a point along the solver's step.
static void step_at(double out[3], const rig *r, int p)
{
    const bys_solver *s = r->solver;
    const int b = s->block_of_point[p];
    memset(out, 0, 3 * sizeof *out);
    if (b == -1)
        return;
    const double *d = s->step + 3 * (b >= 0 ? b : s->block_of_body[-2 - b]);
    memcpy(out, d, 3 * sizeof *out);
    double arm[3], turned[3];
    for (int c = 0; c < 3 && b < -1; c++)
        arm[c] = r->state->x[3 * p + c] - r->state->body_x[3 * (-2 - b) + c];
    if (b < -1) {
        bys_cross(turned, d + 3, arm);
        bys_axpy(out, 1.0, turned);
    }
}

/// Tensions and bed pushes of the linearised laws after the step.
static void follow(rig *r, const bys_sea *sea, double share)
{
    bys_solver *s = r->solver;
    double da[3], db[3];
    for (int i = 0; i < s->island->element_count; i++) {
        const bys_element *e = &r->net->elements[s->island->elements[i]];
        step_at(da, r, e->a);
        step_at(db, r, e->b);
        bys_axpy(db, -1.0, da);
        const double T = s->pulled_eff[i] + s->pulled_k[i] * bys_dot(s->pulled_dir[i], db);
        s->pulled[i] = fmax(0.02 * s->pulled[i], s->pulled[i] + share * (T - s->pulled[i]));
    }
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        step_at(da, r, p);
        const double N = s->pressed_eff[p] - s->pressed_k[p] * bys_dot(sea->bed_normal, da);
        if (s->bed_stiffness[p] > 0.0)
            s->pressed[p] = fmax(0.02 * s->pressed[p], s->pressed[p] + share * (N - s->pressed[p]));
    }
}

/// What the laws give at the base state.
static void take_forces(rig *r, const bys_sea *sea)
{
    bys_solver *s = r->solver;
    double slope;
    s->mixed = false;
    s->barrier = BYS_BARRIER;
    bys_solver_condition(s, r->base, sea, NULL);
    bys_assemble(s, r->base, sea, false);
    for (int i = 0; i < s->island->element_count; i++)
        s->pulled[i] = r->base->tension[s->island->elements[i]];
    for (int i = 0; i < s->island->point_count; i++) {
        const int p = s->island->points[i];
        s->pressed[p] = bys_onesided_force(s->bed_stiffness[p] *
                                               bys_bed_depth(r->base->x + 3 * p, sea),
                                           s->barrier, &slope);
    }
}

/// Newton steps at the final barrier from the base state's forces down to rounding: the solver's
/// own limit of 0.01 N is too coarse for differences over a millimetre.
static void polish(rig *r, const bys_sea *sea)
{
    bys_solver *s = r->solver;
    bys_pivots pivots;
    double size = INFINITY;
    take_forces(r, sea);
    bys_solver_condition(s, r->state, sea, NULL);
    s->guard = 0.0;
    for (int k = 0; k < 100 && size > 1e-11; k++) {
        s->mixed = true;
        bys_assemble(s, r->state, sea, true);
        memcpy(s->factor, s->tangent, bys_pattern3_values(s->pattern) * sizeof *s->factor);
        bys_block_factor(s->pattern, s->factor, &pivots);
        bys_block_solve(s->pattern, s->factor, s->residual, s->step, s->work);
        size = bys_step_size(s);
        const double share = fmin(1.0, 0.1 / size);
        follow(r, sea, share);
        bys_solver_move(s, r->state, s->step, share);
    }
    s->mixed = false;
    const double worst = bys_assemble(s, r->state, sea, false);
    ck_assert_double_lt(worst, 1e-5); // rounding: 1e-14 m times up to 1e8 N/m
    bys_recover(s, r->state, sea);
}

/// Tension after a change of the kind by h, solved from the base state.
static double changed(rig *r, bys_sea sea, int leg, bys_section_end at, int kind, double h)
{
    const int warp = bys_leg_warp(r->net, &r->net->legs[leg]);
    bys_state_copy(r->state, r->base);
    if (kind <= NORTH)
        move_foot(r, &sea, leg, kind == EAST ? h : 0.0, kind == NORTH ? h : 0.0);
    else if (kind == LENGTH)
        lengthen(r, warp, h);
    else
        sea.current_speed *= 1.0 + h;
    polish(r, &sea);
    if (kind == LENGTH)
        lengthen(r, warp, -h);
    if (kind <= NORTH)
        move_foot(r, &sea, leg, kind == EAST ? -h : 0.0, kind == NORTH ? -h : 0.0);
    return tension_at(r, at);
}

static double by_solves(rig *r, const bys_sea *sea, int leg, bys_section_end at, int kind, double h)
{
    double d[2];
    for (int k = 0; k < 2; k++, h *= 0.5) {
        const double up = changed(r, *sea, leg, at, kind, h);
        d[k] = (up - changed(r, *sea, leg, at, kind, -h)) / (2.0 * h);
    }
    return (4.0 * d[1] - d[0]) / 3.0;
}

/// step: m, or share of the current.
static void expect_sensitive(rig *r, const bys_sea *sea, int leg, bys_section_end at, double step)
{
    bys_sensitivity s;
    bys_state_copy(r->state, r->base);
    bys_sensitivity_find(&s, r->solver, r->state, sea, NULL, leg, at);
    ck_assert_double_eq_tol(s.tension, tension_at(r, at), 1e-9 * s.tension);
    const double found[KINDS] = {s.per_east, s.per_north, s.per_length, s.per_current};
    for (int kind = 0; kind < KINDS; kind++) {
        const double solved = by_solves(r, sea, leg, at, kind, step);
        const double scale = kind <= NORTH ? hypot(s.per_east, s.per_north) : fabs(found[kind]);
        // rounding: 1 ulp of 60 m is 7e-15 m, times the 2.4e7 N/m of an element of chain
        ck_assert_msg(fabs(found[kind] - solved) <= 1e-4 * scale + 5e-7 / step,
                      "leg %d (%.1f N) kind %d: %.8g by the transpose, %.8g by re-solves", leg,
                      s.tension, kind, found[kind], solved);
    }
}

/// Anchor end, top end and the join of chain and rope of each leg.
static void expect_all(rig *r, const bys_sea *sea, double step)
{
    solve(r, sea, BYS_START_COLD);
    bys_state_copy(r->base, r->state);
    polish(r, sea);
    bys_state_copy(r->base, r->state);
    for (int l = 0; l < r->net->leg_count; l++) {
        const bys_leg *leg = &r->net->legs[l];
        const int last = leg->first_section + leg->section_count - 1;
        expect_sensitive(r, sea, l, (bys_section_end){leg->first_section, false}, step);
        expect_sensitive(r, sea, l, (bys_section_end){last, true}, step);
        if (leg->section_count > 1)
            expect_sensitive(r, sea, l, (bys_section_end){leg->first_section, true}, step);
    }
}

START_TEST(a_longline_follows_its_anchors)
{
    for (int chain = 0; chain < 2; chain++) {
        rig r = rig_of(hand_longline(51.8, 55.0, chain ? 12.5 : 0.0, PLACED_PLAIN));
        for (int k = 0; k < 8; k++) {
            const bys_sea sea = hand_sea(0.6, 20.0 + 45.0 * k, 20.0, 0.8, 4.5, PLACED_PLAIN);
            expect_all(&r, &sea, 1e-3);
        }
        rig_free(&r);
    }
}
END_TEST

START_TEST(a_longline_of_curved_ropes_follows_its_anchors)
{
    const double x[4] = {0.0, 0.03, 0.07, 0.15}, T[4] = {0.0, 5e3, 3e4, 1e5}; // invented
    double m[4];
    bys_stretch_slopes(m, x, T, 4);
    rig r = rig_of(hand_longline(51.8, 55.0, 0.0, PLACED_PLAIN));
    for (int i = 0; i < r.net->section_count; i++)
        r.net->sections[i].law[0] = (bys_stretch){1e5, x, T, m, 4};
    for (int k = 0; k < 3; k++) {
        const bys_sea sea = hand_sea(0.6, 20.0 + 75.0 * k, 20.0, 0.8, 4.5, PLACED_PLAIN);
        expect_all(&r, &sea, 1e-3);
    }
    rig_free(&r);
}
END_TEST

START_TEST(a_slack_line_on_the_bed_follows_its_anchors)
{
    rig r = rig_of(hand_longline(48.0, 55.0, 12.5, PLACED_PLAIN));
    for (int k = 0; k < 4; k++) {
        const bys_sea sea = hand_sea(0.25, 35.0 + 90.0 * k, 0.0, 0.0, 4.5, PLACED_PLAIN);
        expect_all(&r, &sea, 1e-3);
    }
    rig_free(&r);
}
END_TEST

START_TEST(a_raft_follows_its_anchors)
{
    rig r = rig_of(hand_raft());
    for (int k = 0; k < 3; k++) {
        const bys_sea sea = hand_sea(0.5, 55.0 + 100.0 * k, 15.0, 0.6, 0.0, PLACED_PLAIN);
        expect_all(&r, &sea, 2e-4);
    }
    rig_free(&r);
}
END_TEST

/// The demo grid as `byssus check` builds it, in a case across it; legs that bear.
START_TEST(a_raft_grid_follows_its_anchors)
{
    bys_site *site = NULL;
    bys_messages *messages = NULL;
    bys_tuning tuning;
    bys_network *net = NULL;
    bys_environments seas;
    ck_assert_int_eq(bys_messages_new(&messages), BYS_OK);
    const char *path = BYS_SITEFILES "/raft-grid.xml";
    ck_assert_int_eq(bys_site_read(&site, path, NULL, messages, NULL), BYS_OK);
    ck_assert_int_eq(bys_tuning_find(&tuning, site, messages, NULL), BYS_OK);
    ck_assert_int_eq(bys_network_tuned(&net, site, 0, &tuning, messages, NULL), BYS_OK);
    ck_assert_int_eq(bys_environments_make(&seas, site, messages, NULL), BYS_OK);
    rig r = rig_of(net);
    const bys_sea *sea = &seas.items[seas.count / 3].sea;
    int checked = 0;
    ck_assert_int_eq(net->island_count, 1);
    solve(&r, sea, BYS_START_COLD);
    bys_state_copy(r.base, r.state);
    polish(&r, sea);
    bys_state_copy(r.base, r.state);
    for (int l = 0; l < net->leg_count && checked < 4; l++) {
        const bys_leg *leg = &net->legs[l];
        const int last = leg->first_section + leg->section_count - 1;
        if (r.base->sections[last].tension_b < 5e3)
            continue;
        expect_sensitive(&r, sea, l, (bys_section_end){last, true}, 1e-3);
        checked++;
    }
    ck_assert_int_eq(checked, 4);
    rig_free(&r);
    bys_environments_free(&seas);
    bys_tuning_free(&tuning);
    bys_site_free(site);
    bys_messages_free(messages);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("sensitivity");
    suite_test(s, a_longline_follows_its_anchors);
    suite_test(s, a_longline_of_curved_ropes_follows_its_anchors);
    suite_test(s, a_slack_line_on_the_bed_follows_its_anchors);
    suite_test(s, a_raft_follows_its_anchors);
    suite_test(s, a_raft_grid_follows_its_anchors);
    return suite_run(s, NULL);
}
