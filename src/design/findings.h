// SPDX-License-Identifier: GPL-3.0-or-later
// Shared by the files that make findings.
#ifndef BYS_FINDINGS_H
#define BYS_FINDINGS_H

#include "design/judge.h"

/// The least value of a group over the cases, and where.
typedef struct {
    double value;
    const bys_job *job;
    const bys_group_seen *seen;
    int group;
} bys_group_worst;

/// False if no case gave a value. all_cases: those that are not demanded too.
bool bys_group_least(const bys_judge *judge, int group, double (*value)(const bys_group_seen *),
                     bool all_cases, bys_group_worst *worst);
bys_finding bys_finding_start(bys_judge *judge, const char *kind, const bys_group_worst *worst);
/// Verdict of a finding that has a limit.
void bys_finding_judge(bys_judge *judge, bys_finding *finding, int group, bool holds);

#endif
