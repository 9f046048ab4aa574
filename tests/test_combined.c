// SPDX-License-Identifier: GPL-3.0-or-later
/* Walks tests/combined: jobs in which several kinds of joints meet on one piece. What a job comes to stands at its head:
 *     # comes to: good            or halt
 *     # told: TEXT                a finding that holds this text, as many lines as wanted; all that halts must be among them
 *     # not told: TEXT            no finding holds it
 * Each is set out with its papers. Every skin closes, and the volume within the skin is that along the fibres, reckoned by
 * another route: they may differ by what lies between chord and arc, for which the whole skin is a generous bound. No
 * text lies on another, is crossed by a straight line or runs off its paper, and a second run gives the same bytes.
 * Given files as arguments, it only looks these over and says what it finds. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"

#include <dirent.h>

#include "../bench/many.h"
#include "sheet/bodies.h"
#include "sheet/writers.h"
#include "whole.h"

#define FOLDER "tests/combined"
#define SHOPS "examples/joints"
#define JOBS_MOST 100
#define NAME_MOST 100
#define CHORD_MM 0.02
#define EDGE_MM 3.0  // what a printer may leave white, at the least

static char names[JOBS_MOST][NAME_MOST];
static int  name_count;
static int  faults;

static int by_name(const void *a, const void *b) { return strcmp(a, b); }

static int find_jobs(void **state)
{
    (void)state;
    DIR *folder = opendir(FOLDER);
    if (!folder) return -1;
    for (struct dirent *entry; (entry = readdir(folder)) && name_count < JOBS_MOST;)
        if (strstr(entry->d_name, ".yaml")) snprintf(names[name_count++], NAME_MOST, "%.*s", NAME_MOST - 1, entry->d_name);
    closedir(folder);
    qsort(names, (size_t)name_count, sizeof *names, by_name);
    return 0;
}

static void fault(const char *job, const char *what, const char *about, const char *other)
{
    faults++;
    print_error("%s: %s: \"%s\"%s%s%s\n", job, what, about, other ? " \"" : "", other ? other : "", other ? "\"" : "");
}

static char *job_text(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s%s%.255s", strchr(name, '/') ? "" : FOLDER, strchr(name, '/') ? "" : "/", name);
    char *text = many_file(path);
    if (!text) fail_msg("%s is not there", path);
    return text;
}

static tw_result *set_out(const char *name, const char *job)
{
    char *named = tw_shop_named_by(job, strlen(job)), path[512];
    const char *file = named ? strrchr(named, '/') : NULL;
    snprintf(path, sizeof path, SHOPS "/%.255s", file ? file + 1 : named ? named : "shop.yaml");
    char *shop = many_file(path);
    if (!shop) fail_msg("%s is not there", path);
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = name, .shop = shop, .shop_bytes = strlen(shop), .shop_name = path, .papers = true });
    free(shop);
    free(named);
    return result;
}

/* ---- what it comes to ---- */

static bool job_tells(const char *job, const char *what)
{
    for (const char *line = strstr(job, "# told: "); line; line = strstr(line + 1, "# told: ")) {
        const char *text = line + strlen("# told: "), *end = strchr(text, '\n');
        size_t length = (size_t)(end - text);
        for (const char *at = what; *at; at++)
            if (strncmp(at, text, length) == 0) return true;
    }
    return false;
}

static bool result_tells(const tw_result *result, const char *text, size_t length)
{
    for (size_t i = 0; i < tw_result_finding_count(result); i++)
        for (const char *at = tw_result_finding_at(result, i).what; *at; at++)
            if (strncmp(at, text, length) == 0) return true;
    return false;
}

static void look_at_findings(const char *name, const char *job, const tw_result *result)
{
    bool good = strstr(job, "# comes to: good\n") != NULL;
    if (!good && !strstr(job, "# comes to: halt\n")) fault(name, "does not say what it comes to", "", NULL);
    if (tw_result_state(result) != (good ? TW_STATE_GOOD : TW_STATE_HALT)) fault(name, "comes to another state", good ? "good is expected" : "halt is expected", NULL);
    for (size_t i = 0; i < tw_result_finding_count(result); i++) {
        tw_result_finding finding = tw_result_finding_at(result, i);
        if (strcmp(finding.level, "halt") == 0 && !job_tells(job, finding.what)) fault(name, "halts", finding.what, NULL);
    }
    for (const char *line = strstr(job, "# told: "); line; line = strstr(line + 1, "# told: ")) {
        const char *text = line + strlen("# told: ");
        size_t length = (size_t)(strchr(text, '\n') - text);
        if (!result_tells(result, text, length)) fault(name, "is not told", tw_format((tw_arena *)&result->arena, "%.*s", (int)length, text), NULL);
    }
}

static void look_at_what_is_not_to_be_told(const char *name, const char *job, const tw_result *result)
{
    for (const char *line = strstr(job, "# not told: "); line; line = strstr(line + 1, "# not told: ")) {
        const char *text = line + strlen("# not told: ");
        size_t length = (size_t)(strchr(text, '\n') - text);
        if (result_tells(result, text, length)) fault(name, "is told", tw_format((tw_arena *)&result->arena, "%.*s", (int)length, text), NULL);
    }
}

/* ---- solids ---- */

static double skin_mm2(const tw_solid *solid)
{
    double area = 0;
    for (int i = 0; i < solid->triangle_count; i++) {
        const tw_spot *a = &solid->points[solid->triangles[i][0]], *b = &solid->points[solid->triangles[i][1]], *c = &solid->points[solid->triangles[i][2]];
        double u[3] = { b->x - a->x, b->y - a->y, b->z - a->z }, v[3] = { c->x - a->x, c->y - a->y, c->z - a->z };
        area += 0.5 * sqrt(pow(u[1] * v[2] - u[2] * v[1], 2) + pow(u[2] * v[0] - u[0] * v[2], 2) + pow(u[0] * v[1] - u[1] * v[0], 2));
    }
    return area;
}

static void look_at_solids(const char *name, const tw_result *result)
{
    tw_arena arena = {0};
    tw_paper_input input = tw_result_input(result);
    const tw_bodies *bodies = tw_bodies_make(&arena, result->job, input.plans, input.plan_count, CHORD_MM);
    for (int i = 0; i < result->job->piece_count; i++) {
        const tw_solid *solid = bodies->pieces[i];
        const char *piece = result->job->pieces[i].name;
        if (!solid->closed || solid->triangle_count == 0) { fault(name, "the skin does not close", piece, NULL); continue; }
        double within = tw_solid_volume_mm3(solid), fibres = result->woods[i].bulk.volume_mm3;
        if (fabs(within - fibres) > CHORD_MM * skin_mm2(solid)) fault(name, "skin and fibres hold other volumes", piece, tw_format(&arena, "%.0f and %.0f", within, fibres));
    }
    for (int i = 0; i < input.plan_count; i++)
        for (size_t k = 0; k < input.plans[i].part_count; k++)
            if (bodies->parts[i][k] && !bodies->parts[i][k]->closed) fault(name, "the skin of a part does not close", input.plans[i].parts[k].name, NULL);
    tw_arena_finish(&arena);
}

/* ---- papers ---- */

static void look_at_page(const char *name, const tw_sheet *page, tw_arena *arena)
{
    int count;
    const tw_overlap *overlaps = tw_sheet_overlaps(page, arena, &count);
    for (int i = 0; i < count; i++) fault(name, tw_format(arena, "%s: texts lie on each other", page->name), page->items[overlaps[i].first].text, page->items[overlaps[i].second].text);
    const tw_overlap *crossed = tw_sheet_crossed_texts(page, arena, &count);
    for (int i = 0; i < count && strncmp(page->name, "templates", 9) != 0; i++)  // there a line to cut along bears its name
        if (page->items[crossed[i].second].kind == TW_ITEM_LINE) fault(name, tw_format(arena, "%s: a line runs through", page->name), page->items[crossed[i].first].text, NULL);
    const int *off = tw_sheet_texts_off_paper(page, EDGE_MM, arena, &count);
    for (int i = 0; i < count; i++) fault(name, tw_format(arena, "%s: runs off the paper", page->name), page->items[off[i]].text, NULL);
}

static void look_at_papers(const char *name, tw_result *result)
{
    for (int i = 0; i < result->papers.count; i++)
        for (int k = 0; k < result->papers.items[i].page_count; k++) look_at_page(name, result->papers.items[i].pages[k], &result->arena);
}

/* ---- the walk ---- */

static void on_each_job(void (*look)(const char *name, const char *job, tw_result *result))
{
    assert_true(name_count > 0);
    faults = 0;
    for (int i = 0; i < name_count; i++) {
        char *job = job_text(names[i]);
        tw_result *result = set_out(names[i], job);
        if (tw_result_state(result) == TW_STATE_WRONG) fault(names[i], "cannot be read", tw_result_finding_at(result, 0).what, NULL);
        else look(names[i], job, result);
        tw_result_free(result);
        free(job);
    }
    assert_int_equal(faults, 0);
}

static void findings_of(const char *name, const char *job, tw_result *result) 
{
    look_at_findings(name, job, result);
    look_at_what_is_not_to_be_told(name, job, result);
}

static void solids_of(const char *name, const char *job, tw_result *result) { (void)job; look_at_solids(name, result); }
static void papers_of(const char *name, const char *job, tw_result *result) { (void)job; look_at_papers(name, result); }

static bool gather(void *context, const char *bytes, size_t count)
{
    tw_gather *all = context;
    tw_sink sink = tw_gather_sink(all);
    return sink.write(sink.context, bytes, count);
}

static const char *all_of(const tw_result *result, tw_arena *arena)
{
    tw_gather all = { .arena = arena };
    assert_true(tw_result_put(result, TW_OUTPUT_JSON, gather, &all));
    tw_sink sink = tw_gather_sink(&all);
    for (int i = 0; i < result->papers.count; i++)
        for (int k = 0; k < result->papers.items[i].page_count; k++) tw_svg_put(result->papers.items[i].pages[k], &sink);
    return tw_gathered(&all).bytes;
}

static void same_of(const char *name, const char *job, tw_result *result)
{
    tw_arena arena = {0};
    tw_result *again = set_out(name, job);
    if (strcmp(all_of(result, &arena), all_of(again, &arena)) != 0) fault(name, "a second run gives other bytes", "", NULL);
    tw_result_free(again);
    tw_arena_finish(&arena);
}

static void jobs_with_several_joints_on_one_piece_come_to_what_is_expected(void **state) { (void)state; on_each_job(findings_of); }
static void their_solids_close_and_hold_the_volume_of_the_fibres(void **state) { (void)state; on_each_job(solids_of); }
static void no_text_of_their_papers_is_covered_crossed_or_off_the_paper(void **state) { (void)state; on_each_job(papers_of); }
static void a_second_run_gives_the_same_papers(void **state) { (void)state; on_each_job(same_of); }

static int look_over(int count, char **files)
{
    for (int i = 0; i < count; i++) {
        char *job = job_text(files[i]);
        tw_result *result = set_out(files[i], job);
        if (tw_result_state(result) == TW_STATE_WRONG) print_error("%s: wrong\n", files[i]);
        else { look_at_solids(files[i], result); look_at_papers(files[i], result); }
        tw_result_free(result);
        free(job);
    }
    return faults > 0;
}

int main(int count, char **arguments)
{
    if (count > 1) return look_over(count - 1, arguments + 1);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(jobs_with_several_joints_on_one_piece_come_to_what_is_expected),
        cmocka_unit_test(their_solids_close_and_hold_the_volume_of_the_fibres),
        cmocka_unit_test(no_text_of_their_papers_is_covered_crossed_or_off_the_paper),
        cmocka_unit_test(a_second_run_gives_the_same_papers),
    };
    return cmocka_run_group_tests_name("joints together", tests, find_jobs, NULL);
}
