// SPDX-License-Identifier: GPL-3.0-or-later
// Quadrature over a JONSWAP spectrum, shared by the files of this folder.
#ifndef BYS_PHYS_WAVE_RULE_H
#define BYS_PHYS_WAVE_RULE_H

enum { BYS_WAVE_PANELS = 16, BYS_WAVE_NODES = 16 * BYS_WAVE_PANELS };

/// One node: integral of S f dw = sum of weight * f(omega).
typedef struct {
    double omega;  ///< rad/s
    double weight; ///< S dw, m2
} bys_wave_node;

/// Fills BYS_WAVE_NODES nodes. hs, tp > 0.
void bys_wave_rule(bys_wave_node *node, double hs, double tp, double gamma);

/// 1 + 2kh/sinh(2kh): 2 in shallow, 1 in deep water.
double bys_wave_depth_factor(double k, double depth);

#endif
