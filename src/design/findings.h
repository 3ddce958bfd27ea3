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

typedef enum { BYS_CASES_DEMANDED, BYS_CASES_ALL, BYS_CASES_SLACK } bys_cases;

bool bys_job_counts(const bys_judge *judge, const bys_job *job, bys_cases cases);
/// False if no case gave a value.
bool bys_group_least(const bys_judge *judge, int group, double (*value)(const bys_group_seen *),
                     bys_cases cases, bys_group_worst *worst);
/// First of those cases that is not stable in the group's connected part; NULL if all are.
const bys_job *bys_group_unstable(const bys_judge *judge, int group, bys_cases cases);
bys_finding bys_finding_start(bys_judge *judge, const char *kind, const bys_group_worst *worst);
/// Verdict of a finding that has a limit.
void bys_finding_judge(bys_judge *judge, bys_finding *finding, int group, bool holds);
void bys_judge_float_findings(bys_judge *judge); // float_findings.c

#endif
