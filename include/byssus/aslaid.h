// SPDX-License-Identifier: GPL-3.0-or-later
// byssus: where the anchors really went, and what that does. The positions from the boat are
// matched to anchors; the lease is solved with them twice: with all ropes as they were made, and
// with the warps of moved anchors adjusted to their design pretension.
// Everything inside a bys_aslaid belongs to it and is constant; NAN means "does not apply or not
// known"; strings are never NULL.
#ifndef BYSSUS_ASLAID_H
#define BYSSUS_ASLAID_H

#include <byssus/compare.h>

#ifdef __cplusplus
extern "C" {
#endif

/// Options of bys_aslaid_run. Start from BYS_ASLAID_OPTIONS_INIT.
typedef struct {
    bys_check_options check;
    double tolerance_m; ///< radius of the box of every anchor; 0: 5 m, and for drag anchors 12.2 m
                        ///< along the leg by 6.1 m across it
} bys_aslaid_options;
#define BYS_ASLAID_OPTIONS_INIT {BYS_CHECK_OPTIONS_INIT, 0.0}

/// One anchor: where it was to be and where it is.
typedef struct {
    const char *id, *kind;
    bool surveyed;         ///< has a position; otherwise it is taken to stand where it was to be
    const char *name;      ///< as in the file of positions; ""
    int line;              ///< its line there; 0
    const char *time;      ///< as written; ""
    double design_x_m, design_y_m, x_m, y_m;
    double offset_m;       ///< from design, in plan
    double bearing_rad;    ///< of the offset; NAN below 1 mm
    double along_m, across_m; ///< offset away from the gear, and to the right of that
    bool round;            ///< the box is a circle of half_along_m
    double half_along_m, half_across_m; ///< m from its middle to its sides
    bool inside_box;
    double lease_margin_m; ///< distance to the boundary, negative outside; NAN without a lease
    bool inside_lease;     ///< with the margin that the site demands
    int *legs; int leg_count;
} bys_laid_anchor;

/// A leg in one of the three states.
typedef struct {
    double tension_N, pretension_N, line_use, anchor_use;
    bys_verdict verdict;
    bool known; ///< that state could be built and solved
} bys_laid_side;

typedef struct {
    const char *id;
    int anchor;                   ///< index
    bys_laid_side design, made, adjusted;
    bool no_longer;               ///< passes as designed and not as made
    bool still;                   ///< and not with its warp adjusted either
    const char *piece, *part;     ///< what is to be adjusted; "" if nothing
    double cut_m, adjusted_m;     ///< its length as cut, and as it is to be
    double measured_N;            ///< tension from the boat
    const char *measured_says;    ///< what that tells; ""
    bool ask;                     ///< a measured tension would decide
    const char *ask_why;
} bys_laid_leg;

/// A position that belongs to no anchor.
typedef struct {
    const char *name;
    int line;
    double x_m, y_m;
    const char *near_name;  ///< anchor or leg of the nearest name; ""
    const char *near_place; ///< nearest anchor
    double near_m;          ///< how far that is
    bool matters;           ///< some anchor has no position: this may be its
} bys_laid_stray;

typedef struct {
    const char *file, *sha256;        ///< of the positions
    bys_design *design;
    bys_design *made, *adjusted;      ///< NULL: see the reason
    const char *made_why, *adjusted_why; ///< why it could not be built; ""
    bys_comparison *change, *remains; ///< design against made and against adjusted; NULL
    bys_laid_anchor *anchors; int anchor_count;
    int *by_offset;                   ///< indices of anchors, farthest from design first
    int surveyed, outside_box, outside_lease;
    bys_laid_leg *legs; int leg_count;
    bys_laid_stray *strays; int stray_count;
    const char *verdict;              ///< "pass", "fail" or "incomplete", as made
    const char *headline;
} bys_aslaid;

/// `path`: CSV with the columns id, x [m], y [m] and, if there, tension [kN], time.
/// BYS_EINPUT with messages when the positions or the layout are faulty.
bys_rc bys_aslaid_run(bys_aslaid **out, const bys_site *site, const char *path,
                      const bys_aslaid_options *options, bys_messages *messages, bys_error *err);
void bys_aslaid_free(bys_aslaid *result);
/// 0 pass, 1 fail, 2 incomplete, by the lengths as made.
int bys_aslaid_exit(const bys_aslaid *result);

void bys_write_aslaid_text(bys_text *out, const bys_aslaid *result, int width, bool colour);
/// "byssus.aslaid/1".
void bys_write_aslaid_json(bys_text *out, const bys_aslaid *result);
/// One HTML page without any outside address or script.
void bys_write_aslaid_html(bys_text *out, const bys_aslaid *result);
/// aslaid.html and aslaid.json in `dir`, which is made if it is not there.
bys_rc bys_write_aslaid_directory(const bys_aslaid *result, const char *dir, bys_error *err);

#ifdef __cplusplus
}
#endif
#endif
