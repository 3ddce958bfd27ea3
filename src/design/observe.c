// SPDX-License-Identifier: GPL-3.0-or-later
// What one solved state says about lines, fittings and anchors. Writes only the job's own slot.
#include "design/judge.h"
#include "phys/phys.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// ---- tensions ------------------------------------------------------------------------------

static double fitting_tension(const bys_stage_set *set, const bys_state *state, int fitting)
{
    double most = 0.0;
    for (int k = set->first_of_fitting[fitting]; k < set->first_of_fitting[fitting + 1]; k++) {
        const int end = set->end_of_fitting[k];
        const bys_section_state *section = &state->sections[end / 2];
        if (section->active)
            most = fmax(most, end % 2 ? section->tension_b : section->tension_a);
    }
    return most;
}

typedef struct {
    double *most;  ///< N by piece
    int *lost_leg; ///< NULL when intact
    int lost;
} tension_record;

static void record(const tension_record *r, int piece, double tension)
{
    if (!(tension > r->most[piece]))
        return;
    r->most[piece] = tension;
    if (r->lost_leg)
        r->lost_leg[piece] = r->lost;
}

/// All pieces of one island except those of the lost leg; returns the largest leg tension.
static double look_at_pieces(const bys_stage_set *set, const bys_state *state, int island,
                             const tension_record *r, int *largest_leg)
{
    const bys_network *net = set->net;
    double largest = 0.0;
    for (int k = set->section_from[island]; k < set->section_from[island + 1]; k++) {
        const int s = set->section_list[k], leg = net->sections[s].leg;
        if (leg >= 0 && leg == r->lost)
            continue;
        const double tension = bys_section_tension(&state->sections[s]);
        record(r, set->piece_of_section[s], tension);
        if (leg >= 0 && tension > largest) {
            largest = tension;
            *largest_leg = leg;
        }
    }
    for (int k = set->fitting_from[island]; k < set->fitting_from[island + 1]; k++) {
        const int f = set->fitting_list[k];
        if (net->fittings[f].leg < 0 || net->fittings[f].leg != r->lost)
            record(r, set->piece_of_fitting[f], fitting_tension(set, state, f));
    }
    const bys_island *part = &net->islands[island];
    for (int k = 0; k < part->leg_count; k++) {
        const bys_leg *leg = &net->legs[part->legs[k]];
        const int piece = set->piece_of_foot[part->legs[k]];
        if (piece >= 0 && part->legs[k] != r->lost && leg->section_count > 0)
            record(r, piece, state->sections[leg->first_section].tension_a);
    }
    return largest;
}

void bys_observe_pieces(double *most, const bys_stage_set *set, const bys_state *state, int island)
{
    const tension_record r = {most, NULL, -1};
    int leg = -1;
    look_at_pieces(set, state, island, &r, &leg);
}

// ---- anchors -------------------------------------------------------------------------------

/// Line on the bed of the anchor's legs; grip: sliding friction of the chain in it.
static void grounded_of(const bys_stage_set *set, const bys_state *state, const bys_anchor *anchor,
                        int lost, double *grounded, double *grip)
{
    const bys_network *net = set->net;
    int standing = 0;
    *grounded = *grip = 0.0;
    for (int k = 0; k < anchor->leg_count; k++) {
        const bys_leg *leg = &net->legs[anchor->legs[k]];
        if (anchor->legs[k] == lost)
            continue;
        standing++;
        for (int s = leg->first_section; s < leg->first_section + leg->section_count; s++) {
            const bys_section *section = &net->sections[s];
            *grounded += state->sections[s].grounded;
            if (section->part && section->part->kind == BYS_PART_CHAIN)
                *grip += bys_bed_friction(true) * state->sections[s].grounded *
                         fmax(section->weight_dry - section->buoyancy, 0.0);
        }
    }
    if (standing != 1) // several legs pull in different directions: friction is not credited
        *grip = 0.0;
}

void bys_observe_keep(bys_anchor_seen *best, bys_anchor_seen *out, const bys_anchor_seen *seen)
{
    if (seen->trouble == BYS_SEEN_OK) {
        if (best->trouble == BYS_SEEN_NOTHING || seen->utilisation > best->utilisation)
            *best = *seen;
    } else if (out->trouble == BYS_SEEN_NOTHING || seen->characteristic > out->characteristic) {
        *out = *seen;
    }
}

void bys_observe_anchor(bys_anchor_seen *seen, const bys_judge *judge, const bys_job *job,
                        const bys_state *state, int anchor, int lost)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_anchor *a = &set->net->anchors[anchor];
    const bys_sea *sea = &bys_job_environment(judge, job)->sea;
    const double *at = set->net->points[a->point].x;
    double grounded, grip, normal[3];
    grounded_of(set, state, a, lost, &grounded, &grip);
    bys_sea_bed_normal(normal, sea, at[0], at[1]);
    bys_anchor_look(seen, lost < 0 ? &judge->rules[anchor] : &judge->rules_lost[anchor],
                    state->reaction + 3 * a->point, a->heading, grounded, grip, normal);
}

static int first_standing(const bys_anchor *anchor, int lost)
{
    for (int k = 0; k < anchor->leg_count; k++)
        if (anchor->legs[k] != lost)
            return anchor->legs[k];
    return -1;
}

/// Room for one more pull in the job's own list; NULL if there is none.
static bys_anchor_pull *next_pull(bys_job *job)
{
    if (job->pull_count == job->pull_capacity) {
        const int capacity = job->pull_capacity ? 2 * job->pull_capacity : 64;
        bys_anchor_pull *grown = realloc(job->pulls, (size_t)capacity * sizeof *grown);
        job->pulls_failed |= !grown;
        if (!grown)
            return NULL;
        job->pulls = grown;
        job->pull_capacity = capacity;
    }
    return &job->pulls[job->pull_count++];
}

static void keep_pull(bys_job *job, int anchor, int lost, const double force[3],
                      const double normal[3], double heading, double grounded, double chain_grip)
{
    bys_anchor_pull *pull = next_pull(job);
    if (!pull)
        return;
    *pull = (bys_anchor_pull){.anchor = anchor, .lost = lost, .heading = heading,
                              .grounded = grounded, .chain_grip = chain_grip};
    memcpy(pull->force, force, sizeof pull->force);
    memcpy(pull->normal, normal, sizeof pull->normal);
}

static void look_at_anchors(const bys_judge *judge, bys_job *job, const bys_state *state,
                            int island, int lost, bys_anchor_seen *best, bys_anchor_seen *out)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const bys_network *net = set->net;
    for (int k = 0; k < net->islands[island].leg_count; k++) {
        const int leg = net->islands[island].legs[k], a = net->legs[leg].anchor;
        if (a < 0 || first_standing(&net->anchors[a], lost) != leg)
            continue;
        double normal[3];
        const double *at = net->points[net->anchors[a].point].x;
        bys_sea_bed_normal(normal, &bys_job_environment(judge, job)->sea, at[0], at[1]);
        double grounded, grip;
        bys_anchor_seen seen;
        const double *force = state->reaction + 3 * net->anchors[a].point;
        grounded_of(set, state, &net->anchors[a], lost, &grounded, &grip);
        bys_anchor_look(&seen, lost < 0 ? &judge->rules[a] : &judge->rules_lost[a], force,
                        net->anchors[a].heading, grounded, grip, normal);
        if (judge->keep_pulls)
            keep_pull(job, a, lost, force, normal, net->anchors[a].heading, grounded, grip);
        seen.lost = lost;
        bys_observe_keep(&best[a], &out[a], &seen);
    }
}

// ---- one state -----------------------------------------------------------------------------

void bys_observe_intact(bys_judge *judge, bys_job *job, const bys_state *state)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const tension_record r = {job->piece, NULL, -1};
    for (int i = 0; i < set->net->island_count; i++) {
        if (job->island[i] != BYS_STABLE)
            continue;
        int leg = -1;
        const double largest = look_at_pieces(set, state, i, &r, &leg);
        if (leg >= 0 && largest > job->intact.largest) {
            job->intact.largest = largest;
            job->intact.largest_leg = leg;
        }
        look_at_anchors(judge, job, state, i, -1, job->anchor, job->anchor_out);
        bys_observe_depth(judge, job, state, i, -1);
    }
}

void bys_observe_lost(bys_judge *judge, bys_job *job, const bys_state *state, int lost)
{
    const bys_stage_set *set = bys_job_stage(judge, job);
    const int island = set->island_of_leg[lost];
    const tension_record r = {job->piece_lost, job->piece_lost_leg, lost};
    int leg = -1;
    job->lost[lost].largest = look_at_pieces(set, state, island, &r, &leg);
    job->lost[lost].largest_leg = leg;
    look_at_anchors(judge, job, state, island, lost, job->anchor_lost, job->anchor_lost_out);
    bys_observe_depth(judge, job, state, island, lost);
    bys_observe_sweep(judge, job, state, lost);
}
