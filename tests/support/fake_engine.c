// SPDX-License-Identifier: GPL-3.0-or-later
// Stands in for reader and engine in tests of the command line: a "site file" is a text whose
// first word says what is to happen ("pass", "fail", "incomplete", "faulty", "broken",
// "unstable"), so that every exit status can be had without solving anything.
#include "support/fake_design.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct bys_site {
    char word[16];
};

bys_rc bys_site_read(bys_site **out, const char *path, const char *data_dir,
                     bys_messages *messages, bys_error *err)
{
    (void)data_dir;
    *out = NULL;
    FILE *file = fopen(path, "r");
    if (!file)
        return bys_error_set(err, BYS_ENOINPUT, 0, "%s: cannot be opened", path);
    bys_site *site = calloc(1, sizeof *site);
    if (!site || fscanf(file, "%15s", site->word) != 1)
        abort();
    fclose(file);
    const int name = bys_messages_file(messages, path);
    if (!strcmp(site->word, "faulty")) {
        bys_messages_add(messages, BYS_FAULT, 101, (bys_place){name, 2, 5}, "first fault");
        bys_messages_add(messages, BYS_WARNING, 102, (bys_place){name, 3, 1}, "a warning");
        bys_messages_add(messages, BYS_FAULT, 103, (bys_place){name, 3, 4}, "second fault");
        free(site);
        return bys_error_set(err, BYS_EINPUT, 0, "%s: faulty", path);
    }
    bys_messages_add(messages, BYS_WARNING, 102, (bys_place){name, 1, 1}, "a warning");
    *out = site;
    return BYS_OK;
}

void bys_site_free(bys_site *site)
{
    free(site);
}

const char *bys_site_name(const bys_site *site)
{
    return site->word;
}

const char *bys_site_template(const char *kind)
{
    return !strcmp(kind, "block") ? "pass\n" : NULL;
}

bys_rc bys_design_run(bys_design **out, const bys_site *site, const bys_check_options *options,
                      bys_messages *messages, bys_error *err)
{
    (void)messages;
    *out = NULL;
    if (!strcmp(site->word, "broken"))
        return bys_error_set(err, BYS_EINTERNAL, 0, "the engine broke");
    for (size_t i = 0; options->progress && i <= 4; i++)
        if (options->progress(options->user, i, 4, 0.5))
            return bys_error_set(err, BYS_ECANCEL, 0, "cancelled");
    *out = fake_design_new(&(fake_options){12, site->word, false});
    return BYS_OK;
}

bys_rc bys_design_profiles(bys_design *design, const char *path, const char *data_dir,
                           const bys_check_options *options, bys_error *err)
{
    (void)path;
    (void)data_dir;
    (void)options;
    (void)err;
    design->profile_count = 0;
    return BYS_OK;
}

bys_rc bys_design_lint(const bys_site *site, bys_messages *messages, bys_error *err)
{
    (void)site;
    (void)messages;
    (void)err;
    return BYS_OK;
}

void bys_design_free(bys_design *design)
{
    fake_design_free(design);
}

int bys_design_exit(const bys_design *design)
{
    return !strcmp(design->verdict, "pass") ? 0 : !strcmp(design->verdict, "fail") ? 1 : 2;
}

bys_rc bys_solution_friction(bys_solution **out, const bys_site *site, const char *case_id,
                             bys_messages *messages, bys_error *err)
{
    (void)messages;
    *out = NULL;
    if (!strcmp(case_id, "nowhere"))
        return bys_error_set(err, BYS_EUSAGE, 0, "there is no case \"%s\"", case_id);
    *out = fake_solution_new();
    if (!strcmp(site->word, "unstable")) {
        (*out)->status = BYS_UNSTABLE;
        (*out)->reason = "L05 would turn over";
    }
    return BYS_OK;
}

bys_rc bys_solution_run(bys_solution **out, const bys_site *site, const char *case_id,
                        bys_messages *messages, bys_error *err)
{
    const bys_rc rc = bys_solution_friction(out, site, case_id, messages, err);
    if (!rc)
        (*out)->friction = NULL;
    return rc;
}

void bys_solution_free(bys_solution *solution)
{
    fake_solution_free(solution);
}

bys_rc bys_case_list(bys_text *out, const bys_site *site, bys_messages *messages, bys_error *err)
{
    (void)site;
    (void)messages;
    (void)err;
    bys_text_add(out, "50y/090/LAT/w0:harvest:intact\n50y/090/LAT/w0:harvest:lost:L05/S\n");
    return BYS_OK;
}

bys_rc bys_case_plan_make(bys_case_plan **out, const bys_site *site, bys_messages *messages,
                          bys_error *err)
{
    static const char *stages[1] = {"harvest"};
    (void)messages;
    (void)err;
    bys_case_plan *plan = calloc(1, sizeof *plan);
    bys_environment_row *row = calloc(1, sizeof *row);
    if (!plan || !row)
        abort();
    *row = (bys_environment_row){.id = "50y/090/LAT/w0", .level = "LAT", .demanded = true,
                                 .current_m_s = 0.5, .law = "", .because = "as a try"};
    *plan = (bys_case_plan){.site = site->word, .environments = row, .environment_count = 1,
                            .stages = stages, .stage_count = 1, .cases = 1};
    *out = plan;
    return BYS_OK;
}

void bys_case_plan_free(bys_case_plan *plan)
{
    free(plan->environments);
    free(plan);
}

int bys_cascade_exit(const bys_design *design)
{
    return design->cascade_count ? 0 : 2;
}

bys_rc bys_condition_list(bys_text *out, const bys_site *site, bys_messages *messages,
                          bys_error *err)
{
    (void)site;
    (void)messages;
    (void)err;
    bys_text_add(out, "intact\nlost:L05/S\n");
    return BYS_OK;
}

bys_rc bys_comparison_run(bys_comparison **out, const bys_site *before, const bys_site *after,
                          const bys_check_options *options, bys_messages *messages,
                          bys_error *err)
{
    *out = NULL;
    bys_design *old = NULL, *now = NULL;
    bys_rc rc = bys_design_run(&old, before, options, messages, err);
    if (!rc)
        rc = bys_design_run(&now, after, options, messages, err);
    if (rc)
        bys_design_free(old);
    else
        *out = fake_comparison_new(old, now);
    return rc;
}

void bys_comparison_free(bys_comparison *comparison)
{
    fake_comparison_free(comparison);
}

int bys_comparison_exit(const bys_comparison *comparison)
{
    return bys_design_exit(comparison->after);
}

bys_rc bys_aslaid_run(bys_aslaid **out, const bys_site *site, const char *path,
                      const bys_aslaid_options *options, bys_messages *messages, bys_error *err)
{
    bys_design *design = NULL;
    *out = NULL;
    FILE *file = fopen(path, "r");
    if (!file)
        return bys_error_set(err, BYS_ENOINPUT, 0, "%s: cannot be opened", path);
    fclose(file);
    const bys_rc rc = bys_design_run(&design, site, &options->check, messages, err);
    if (!rc)
        *out = fake_aslaid_new(design);
    return rc;
}

void bys_aslaid_free(bys_aslaid *result)
{
    fake_aslaid_free(result);
}

int bys_aslaid_exit(const bys_aslaid *result)
{
    return bys_design_exit(result->design);
}

bys_rc bys_calendar_run(bys_calendar **out, const bys_site *site,
                        const bys_calendar_options *options, bys_messages *messages,
                        bys_error *err)
{
    (void)options;
    (void)messages;
    *out = NULL;
    if (!strcmp(site->word, "broken"))
        return bys_error_set(err, BYS_EINTERNAL, 0, "the engine broke");
    *out = fake_calendar_new(site->word);
    return BYS_OK;
}

void bys_calendar_free(bys_calendar *calendar)
{
    fake_calendar_free(calendar);
}

int bys_calendar_exit(const bys_calendar *calendar)
{
    return !strcmp(calendar->verdict, "pass") ? 0 : !strcmp(calendar->verdict, "fail") ? 1 : 2;
}
