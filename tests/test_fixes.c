// SPDX-License-Identifier: GPL-3.0-or-later
/* Remedies that can be made at once. The law: a fix that is offered and was proved, made by the public call that changes texts
 * and set out anew, leaves its finding behind and brings no new halt. It is held over the examples, the starting designs, the
 * combined jobs, and over jobs made wrong one amount at a time. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"

#include <dirent.h>

#include "../bench/many.h"
#include "begin/begin.h"
#include "planned.h"
#include "whole.h"

static tw_result *set_out(const char *job, const char *shop, bool prove)
{
    return tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = shop,
        .shop_bytes = strlen(shop),
                                     .shop_name = "shop.yaml", .prove_fixes = prove });
}

/* ---- the law ---- */

static size_t count_like(const tw_result *result, const char *code, const char *about, const char *level)
{
    size_t count = 0;
    for (size_t i = 0; i < tw_result_finding_count(result); i++) {
        tw_result_finding f = tw_result_finding_at(result, i);
        count += strcmp(f.code, code) == 0 && strcmp(f.about, about) == 0 && (!level || strcmp(f.level, level) == 0);
    }
    return count;
}

/* The text with the fix made; NULL when it cannot be. The caller's to free(). */
static char *fixed(const char *text, tw_file_kind file, const tw_fix *fix)
{
    tw_change changes[8];
    size_t count = 0;
    for (size_t i = 0; i < fix->change_count; i++)
        if (fix->changes[i].file == file) changes[count++] = fix->changes[i].change;
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = file, .text = text, .bytes = strlen(text), .name = "text",
        .changes = changes,
                                                               .change_count = count });
    char *copy = tw_changed_is_good(changed) ? strdup(tw_changed_text(changed, NULL)) : NULL;
    tw_changed_free(changed);
    return copy;
}

static void hold_fix(const char *whose, const char *job, const char *shop, const tw_result *before,
    const tw_result_finding *finding, const tw_fix *fix)
{
    char *job_after = fixed(job, TW_FILE_JOB, fix), *shop_after = fixed(shop, TW_FILE_SHOP, fix);
    if (!job_after || !shop_after) fail_msg("%s: \"%s\" cannot be made", whose, fix->label);
    tw_result *after = set_out(job_after, shop_after, false);
    if (tw_result_state(before) != TW_STATE_WRONG) assert_int_not_equal(tw_result_state(after), TW_STATE_WRONG);
    if (count_like(after, finding->code, finding->about, NULL) >= count_like(before, finding->code, finding->about, NULL))
        fail_msg("%s: \"%s\" leaves %s of %s: %s", whose, fix->label, finding->code, finding->about, finding->what);
    for (size_t i = 0; i < tw_result_finding_count(after); i++) {
        tw_result_finding f = tw_result_finding_at(after, i);
        if (tw_result_state(before) == TW_STATE_WRONG) break;  // nothing was known of halts
        if (strcmp(f.level, "halt") == 0 && count_like(after, f.code, f.about, "halt") > count_like(before, f.code, f.about,
            "halt"))
            fail_msg("%s: \"%s\" brings %s: %s", whose, fix->label, f.code, f.what);
    }
    tw_result_free(after);
    free(job_after);
    free(shop_after);
}

typedef struct tally { size_t jobs, halts, mended, fixes; } tally;

static void hold_job(const char *whose, const char *job, const char *shop, tally *t)
{
    tw_result *result = set_out(job, shop, true);
    t->jobs++;
    for (size_t i = 0; i < tw_result_finding_count(result); i++) {
        tw_result_finding finding = tw_result_finding_at(result, i);
        bool halt = strcmp(finding.level, "halt") == 0;
        t->halts += halt;
        t->mended += halt && finding.fix_count > 0;
        t->fixes += finding.fix_count;
        for (size_t k = 0; k < finding.fix_count; k++) {
            assert_true(finding.fixes[k].label[0] >= 'A' && finding.fixes[k].label[0] <= 'Z');  // an order
            assert_true(finding.fixes[k].change_count > 0);
            hold_fix(whose, job, shop, result, &finding, &finding.fixes[k]);
        }
    }
    tw_result_free(result);
}

static char *file_of(const char *path)
{
    char *text = many_file(path);
    if (!text) fail_msg("cannot read %s: tests run in the project's root folder", path);
    return text;
}

static void hold_files(const char *job_path, const char *shop_path, tally *t)
{
    char *job = file_of(job_path), *shop = file_of(shop_path);
    hold_job(job_path, job, shop, t);
    free(job);
    free(shop);
}

static void every_fix_of_the_examples_clears_its_finding(void **state)
{
    (void)state;
    tally t = { 0 };
    hold_files("examples/reading-table/job.yaml", "examples/reading-table/shop.yaml", &t);
    hold_files("examples/plant-bench/job.yaml", "examples/plant-bench/shop.yaml", &t);
    hold_files("examples/shaped-foot/job.yaml", "examples/reading-table/shop.yaml", &t);
    DIR *folder = opendir("examples/joints");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder));) {
        char path[512];
        snprintf(path, sizeof path, "examples/joints/%s/job.yaml", entry->d_name);
        if (entry->d_name[0] == '.' || strstr(entry->d_name, ".yaml")) continue;
        char *job = file_of(path);
        hold_files(path, strstr(job, "shop-inches") ? "examples/joints/shop-inches.yaml" : "examples/joints/shop.yaml", &t);
        free(job);
    }
    closedir(folder);
    assert_true(t.jobs > 15);
}

static void every_fix_of_the_combined_jobs_clears_its_finding(void **state)
{
    (void)state;
    tally t = { 0 };
    DIR *folder = opendir("tests/combined");
    assert_non_null(folder);
    for (struct dirent *entry; (entry = readdir(folder));) {
        char path[512];
        snprintf(path, sizeof path, "tests/combined/%s", entry->d_name);
        if (strstr(entry->d_name, ".yaml")) hold_files(path, strstr(path, "inches") ? "examples/joints/shop-inches.yaml"
            : "examples/joints/shop.yaml", &t);
    }
    closedir(folder);
    assert_true(t.jobs > 5 && t.fixes > 0);
}

static void every_fix_of_the_starting_designs_clears_its_finding(void **state)
{
    (void)state;
    tally t = { 0 };
    for (size_t i = 0; i < tw_design_count; i++)
        for (int inches = 0; inches < 2; inches++) {
            tw_arena arena = {0};
            tw_gather job = { .arena = &arena }, shop = { .arena = &arena };
            tw_sink job_sink = tw_gather_sink(&job), shop_sink = tw_gather_sink(&shop);
            tw_design_put(tw_designs[i], inches == 1, &job_sink);
            tw_begin_shop_put(inches == 1, &shop_sink);
            hold_job(tw_designs[i]->kind, tw_gathered(&job).bytes, tw_gathered(&shop).bytes, &t);
            tw_arena_finish(&arena);
        }
    assert_int_equal(t.jobs, 2 * tw_design_count);
}

/* ---- jobs made wrong ---- */

static const char *amount_text(const tw_figure *figure, double factor, char text[64])
{
    double value = figure->value * factor;
    if (figure->row->kind == TW_KEY_ANGLE) snprintf(text, 64, "%.4f deg", tw_degrees(value));
    else if (figure->row->kind == TW_KEY_LENGTH) snprintf(text, 64, "%.4f mm", value);
    else snprintf(text, 64, "%.0f", value < 1.0 ? 1.0 : value);
    return text;
}

static void spoil(const char *job, const char *shop, const char *const *path, const char *value, tally *t)
{
    tw_change change = { .kind = TW_CHANGE_SET, .path = path, .path_count = 3, .value = value };
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = job, .bytes = strlen(job),
        .name = "job.yaml", .changes = &change,
                                                               .change_count = 1 });
    if (tw_changed_is_good(changed)) {
        char whose[300];
        snprintf(whose, sizeof whose, "%s / %s: %s", path[1], path[2], value);
        hold_job(whose, tw_changed_text(changed, NULL), shop, t);
    }
    tw_changed_free(changed);
}

/* Each amount of each joint far too small or far too large, one in so many by lot. */
static void spoil_joints(const char *job_path, const char *shop_path, check_seed *seed, unsigned one_in, tally *t)
{
    static const double factors[] = { 0.25, 0.6, 1.7, 3.0 };
    char *job = file_of(job_path), *shop = file_of(shop_path);
    tw_result *sound = set_out(job, shop, false);
    assert_non_null(sound->job);
    for (int p = 0; p < tw_plan_count(sound->job); p++)
        for (size_t f = 0; f < sound->plans[p].figure_count; f++) {
            const tw_figure *figure = &sound->plans[p].figures[f];
            if (!figure->row || figure->row->kind == TW_KEY_LENGTHS || check_random(seed) % one_in != 0) continue;
            char text[64];
            const char *const path[] = { p < sound->job->joint_count ? "joints" : "profiles", sound->job->joints[p].name,
                figure->row->name };
            spoil(job, shop, path, amount_text(figure, factors[check_random(seed) % 4], text), t);
        }
    for (int p = 0; p < sound->job->piece_count; p++) {
        static const char *const sizes[] = { "length", "width", "thickness" };
        const tw_piece *piece = &sound->job->pieces[p];
        const double now[] = { piece->length.value, piece->width.value, piece->thickness.value };
        int size = (int)(check_random(seed) % 3);
        char text[64];
        if (check_random(seed) % one_in != 0) continue;
        snprintf(text, sizeof text, "%.3f mm", now[size] * (check_random(seed) % 2 ? 0.6 : 1.3));
        const char *const path[] = { "pieces", piece->name, sizes[size] };
        spoil(job, shop, path, text, t);
    }
    tw_result_free(sound);
    free(job);
    free(shop);
}

/* Seven in ten of the halts that come of one amount out of bounds can be mended by a click; what cannot are collisions and tools
 * that the shop does not have. */
static void most_halts_of_an_amount_out_of_bounds_come_with_a_fix_and_all_fixes_hold(void **state)
{
    (void)state;
    static const char *const joints[] = { "cross-dowel-and-bolt", "cross-lap", "drawbored-peg", "finger-joint", "housed-bridle",
        "housing", "mortise-and-tenon",
        "raked-post", "single-tusk", "sliding-dovetail", "slip-tenon", "through-dovetail" };
    check_seed seed = { 20261 };
    tally t = { 0 };
    spoil_joints("examples/reading-table/job.yaml", "examples/reading-table/shop.yaml", &seed, 2, &t);
    spoil_joints("examples/plant-bench/job.yaml", "examples/plant-bench/shop.yaml", &seed, 2, &t);
    for (size_t i = 0; i < sizeof joints / sizeof *joints; i++) {
        char path[256];
        snprintf(path, sizeof path, "examples/joints/%s/job.yaml", joints[i]);
        spoil_joints(path, "examples/joints/shop.yaml", &seed, 2, &t);
    }
    print_message("# %zu jobs, %zu halts of which %zu can be mended, %zu fixes\n", t.jobs, t.halts, t.mended, t.fixes);
    assert_true(t.jobs > 60 && t.fixes > 60);
    assert_true(t.mended * 10 >= t.halts * 7);
}

/* ---- single fixes ---- */

#define PIECES "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n" \
    "  rail: {count: 1, length: 1200, width: 70, thickness: 28}\njoints:\n"
#define MORTISED(more) PIECES "  rail to post:\n    kind: mortise and tenon\n    tenon: rail\n    ends: both\n    into: post\n" \
    "    from: back\n    at: 300\n" more

static const tw_finding *found(const tw_result *result, const char *code)
{
    for (size_t i = 0; i < result->findings.count; i++)
        if (strcmp(result->findings.items[i].code, code) == 0) return &result->findings.items[i];
    for (size_t i = 0; i < result->findings.count; i++) print_error("%s: %s\n", result->findings.items[i].code,
        result->findings.items[i].what);
    fail_msg("%s is not found", code);
    return NULL;
}

static const tw_fix *fix_labelled(const tw_finding *finding, const char *label)
{
    for (size_t i = 0; i < finding->fix_count; i++)
        if (strcmp(finding->fixes[i].label, label) == 0) return &finding->fixes[i];
    for (size_t i = 0; i < finding->fix_count; i++) print_error("%s\n", finding->fixes[i].label);
    fail_msg("\"%s\" is not offered", label);
    return NULL;
}

/* 28 thick: a third is 9.33, which must not grow: 9.3. */
static void a_tenon_too_thick_is_offered_a_third_and_the_proposed_value(void **state)
{
    (void)state;
    tw_result *result = set_out(MORTISED("    tenon thickness: 19\n"), SHOP_MM, true);
    const tw_finding *finding = found(result, "tenon-thick");
    const tw_fix *fix = fix_labelled(finding, "Make the tenon 9.3 mm thick");
    assert_int_equal(fix->change_count, 1);
    assert_int_equal(fix->changes[0].file, TW_FILE_JOB);
    assert_int_equal(fix->changes[0].change.kind, TW_CHANGE_SET);
    assert_int_equal(fix->changes[0].change.path_count, 3);
    assert_string_equal(fix->changes[0].change.path[2], "tenon thickness");
    assert_string_equal(fix->changes[0].change.value, "9.3 mm");
    bool removed = false;
    for (size_t i = 0; i < finding->fix_count; i++) removed = removed ||
        finding->fixes[i].changes[0].change.kind == TW_CHANGE_REMOVE;
    assert_true(removed);
    tw_result_free(result);
}

static void a_size_that_must_not_be_smaller_is_rounded_up(void **state)
{
    (void)state;
    static const char *const job = "job: test\nunits: in\npieces:\n"
        "  post: {count: 2, length: 26, width: 4 1/2, thickness: 1 3/4}\n"
        "  rail: {count: 1, length: 3 1/2, width: 2 3/4, thickness: 1 1/8}\njoints:\n"
        "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both,"
        // 3.4 in of tenons and 10 mm of body: 3.794 in; the next sixty-fourth is 3 51/64
        " into: post, from: back, at: 12, depth: 1.7 in}\n";
    tw_result *result = set_out(job, SHOP_MM, false);
    const tw_fix *fix = fix_labelled(found(result, "tenons-meet"), "Make rail 3 51/64 in long");
    assert_string_equal(fix->changes[0].change.value, "3 51/64 in");
    tw_result_free(result);
}

static void a_loop_that_stays_open_is_closed_to_a_hair(void **state)
{
    (void)state;
    char *job = file_of("examples/reading-table/job.yaml"), *shop = file_of("examples/reading-table/shop.yaml");
    const char *const path[] = { "pieces", "stretcher", "length" };
    (void)path;
    tw_result *sound = set_out(job, shop, false);
    assert_int_equal(count_like(sound, "loop-open", "stretcher to post", NULL), 0);
    tw_result_free(sound);
    static const char *const box = "job: frame\nunits: mm\npieces:\n  stile: {count: 2, length: 700, width: 60, thickness: 40}\n"
        "  high rail: {length: 500, width: 60, thickness: 30}\n  low rail: {length: 493.7, width: 60, thickness: 30}\njoints:\n"
        "  high rail to stile: {kind: mortise and tenon, tenon: high rail, ends: both, into: stile, from: face edge, "
        "at: 600, depth: 30}\n"
        "  low rail to stile: {kind: mortise and tenon, tenon: low rail, ends: both, into: stile, from: face edge, "
        "at: 100, depth: 30}\n";
    tw_result *open = set_out(box, SHOP_MM, true);
    const tw_finding *finding = found(open, "loop-open");
    assert_true(finding->fix_count >= 1);
    fix_labelled(finding, "Make low rail 500.0 mm long");  // 6.3 mm longer
    tw_result_free(open);
    free(job);
    free(shop);
}

static void a_timber_misspelt_is_offered_by_its_name(void **state)
{
    (void)state;
    static const char *const job = "job: test\npieces:\n  rail: {length: 900, width: 70, thickness: 28, timber: \"Oak, wite\"}\n";
    tw_result *result = set_out(job, SHOP_MM, true);
    const tw_fix *fix = fix_labelled(found(result, "timber-unknown"), "Write `timber: Oak, white`");
    assert_string_equal(fix->changes[0].change.value, "Oak, white");
    tw_result_free(result);
}

static void counts_that_differ_are_matched_on_either_side(void **state)
{
    (void)state;
    tw_result *result = set_out("job: test\nunits: mm\npieces:\n  post: {count: 3, length: 655, width: 110, thickness: 45}\n"
        "  rail: {count: 3, length: 1200, width: 70, thickness: 28}\njoints:\n"
        "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post,"
        " from: back, at: 300}\n", SHOP_MM, false);  // 6 ends in 3 places
    const tw_finding *finding = found(result, "counts-differ");
    fix_labelled(finding, "Make 6 of post");
    for (size_t i = 0; i < finding->fix_count; i++) assert_null(strstr(finding->fixes[i].label, "of rail"));  // 1.5 of them
    tw_result_free(result);
}

/* ---- texts that cannot be read ---- */

static void expect_offer(const char *job, const char *code, const char *label)
{
    tw_result *result = set_out(job, SHOP_MM, true);
    assert_int_equal(tw_result_state(result), TW_STATE_WRONG);
    tw_result_finding finding = { 0 };
    for (size_t i = 0; i < tw_result_finding_count(result) && !finding.code; i++)
        if (strcmp(tw_result_finding_at(result, i).code, code) == 0) finding = tw_result_finding_at(result, i);
    assert_non_null(finding.code);
    hold_fix(job, job, SHOP_MM, result, &finding, fix_labelled(found(result, code), label));
    tw_result_free(result);
}

#define JOINED(lines) PIECES "  rail to post:\n" lines

static void words_misspelt_are_offered_as_they_are_spelt(void **state)
{
    (void)state;
    static const char *const rest = "    ends: both\n    into: post\n    from: back\n    at: 300\n";
    tw_arena arena = {0};
    expect_offer(tw_format(&arena, JOINED("    kind: mortise and tennon\n    tenon: rail\n%s"), rest), "joint-kind",
        "Write `kind: mortise and tenon`");
    expect_offer(tw_format(&arena, JOINED("    kind: mortise and tenon\n    tenon: rial\n%s"), rest), "piece-unknown",
        "Write `tenon: rail`");
    expect_offer(tw_format(&arena, JOINED("    kind: mortise and tenon\n    tenon: rail\n    fitt: glued\n%s"), rest),
        "key-unknown", "Write `fit` for `fitt`");
    expect_offer(tw_format(&arena, JOINED("    kind: mortise and tenon\n    tenon: rail\n    fit: gleud\n%s"), rest), "choice",
        "Write `fit: glued`");
    expect_offer(tw_format(&arena, JOINED("    kind: mortise and tenon\n    tenon: rail\n    cutter: eihgt\n%s"), rest),
        "cutter-unknown", "Write `cutter: eight`");
    expect_offer("job: test\npieces:\n  post: {lenght: 655, width: 110, thickness: 45}\n", "key-unknown",
        "Write `length` for `lenght`");
    expect_offer("job: test\nunits: nm\npieces:\n  post: {length: 655, width: 110, thickness: 45}\n", "choice",
        "Write `units: mm`");
    tw_arena_finish(&arena);
}

static void a_choice_that_is_missing_is_offered_word_by_word(void **state)
{
    (void)state;
    static const char *const job = JOINED("    kind: mortise and tenon\n    tenon: rail\n    into: post\n    from: back\n"
        "    at: 300\n");
    expect_offer(job, "key-missing", "Write `ends: both`");
    expect_offer(job, "key-missing", "Write `ends: left`");
}

static void of_several_faults_each_is_mended_alone(void **state)
{
    (void)state;
    static const char *const job = "job: test\npieces:\n  post: {lenght: 655, width: 110, thickness: 45}\n"
        "  rail: {length: 655, widht: 110, thickness: 45}\n";
    expect_offer(job, "key-unknown", "Write `length` for `lenght`");
    tw_result *result = set_out(job, SHOP_MM, true);
    size_t offered = 0;
    for (size_t i = 0; i < result->findings.count; i++) offered += result->findings.items[i].fix_count;
    assert_int_equal(offered, 2);
    tw_result_free(result);
}

/* ---- what is not offered ---- */

static void a_fix_that_does_not_hold_is_dropped_when_proved(void **state)
{
    (void)state;
    // no cutter is so small, whatever is left out
    static const char *const job = MORTISED("    cutter: eight\n    tenon thickness: 3\n");
    tw_result *offered = set_out(job, SHOP_MM, false), *proved = set_out(job, SHOP_MM, true);
    size_t before = 0, after = 0;
    for (size_t i = 0; i < offered->findings.count; i++) before += offered->findings.items[i].fix_count;
    for (size_t i = 0; i < proved->findings.count; i++) after += proved->findings.items[i].fix_count;
    assert_int_equal(offered->findings.count, proved->findings.count);
    assert_true(after < before);
    tw_result_free(offered);
    tw_result_free(proved);
}

static void a_value_that_was_measured_is_not_to_be_mended_in_the_text(void **state)
{
    (void)state;
    static const char *const job = MORTISED("    tenon thickness: 19\n");
    const char *const path[] = { "joints", "rail to post", "tenon thickness" };
    const tw_measured measured = { TW_FILE_JOB, path, 3, 18.6 };
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = SHOP_MM,
        .shop_bytes = strlen(SHOP_MM),
        .shop_name = "shop.yaml", .measured = &measured, .measured_count = 1 });
    assert_int_equal(found(result, "tenon-thick")->fix_count, 0);
    tw_result_free(result);
}

static void proving_changes_nothing_but_the_fixes(void **state)
{
    (void)state;
    static const char *const job = MORTISED("    tenon thickness: 19\n    depth: 44\n");
    tw_result *plain = set_out(job, SHOP_MM, false), *proved = set_out(job, SHOP_MM, true);
    assert_int_equal(plain->findings.count, proved->findings.count);
    for (size_t i = 0; i < plain->findings.count; i++) {
        assert_string_equal(plain->findings.items[i].what, proved->findings.items[i].what);
        assert_true(proved->findings.items[i].fix_count <= plain->findings.items[i].fix_count);
    }
    tw_result_free(plain);
    tw_result_free(proved);
}

/* ---- the list itself ---- */

static void a_fix_belongs_to_the_last_finding_and_is_offered_once(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_findings findings = { .arena = &arena };
    char word[] = "post";
    const char *const path[] = { "pieces", word, "width" };
    tw_find(&findings, TW_CARE, (tw_place){ 0 }, "a", "", "a", "");
    tw_find(&findings, TW_CARE, (tw_place){ 0 }, "b", "", "b", "");
    tw_find_fix(&findings, "Make post 60 mm wide", TW_FILE_JOB, path, 3, "60 mm");
    tw_find_fix(&findings, "Make it 60 mm wide", TW_FILE_JOB, path, 3, "60 mm");  // the same change
    tw_find_fix(&findings, "Make post 50 mm wide", TW_FILE_JOB, path, 3, "50 mm");
    tw_find_fix(&findings, "Make it so in the shop", TW_FILE_SHOP, path, 3, "50 mm");
    tw_find_fix_also(&findings, TW_FILE_JOB, (tw_change){ .kind = TW_CHANGE_REMOVE, .path = path, .path_count = 2 });
    memset(word, 'x', 4);  // all texts were copied
    assert_int_equal(findings.items[0].fix_count, 0);
    assert_int_equal(findings.items[1].fix_count, 3);
    const tw_fix *fixes = findings.items[1].fixes;
    assert_string_equal(fixes[0].label, "Make post 60 mm wide");
    assert_string_equal(fixes[1].changes[0].change.path[1], "post");
    assert_int_equal(fixes[1].change_count, 1);
    assert_int_equal(fixes[2].change_count, 2);
    assert_int_equal(fixes[2].changes[0].file, TW_FILE_SHOP);
    assert_int_equal(fixes[2].changes[1].change.kind, TW_CHANGE_REMOVE);
    tw_arena_finish(&arena);
}

static void a_finding_that_is_not_kept_takes_no_fix(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_findings findings = { .arena = &arena };
    const char *const path[] = { "pieces", "post", "width" };
    for (int i = 0; i < TW_FINDINGS_MOST + 3; i++) {
        tw_find(&findings, TW_WRONG, (tw_place){ 0 }, "a", "", "a", "");
        tw_find_fix(&findings, "Make post 60 mm wide", TW_FILE_JOB, path, 3, "60 mm");
    }
    assert_int_equal(findings.count, TW_FINDINGS_MOST);
    assert_int_equal(findings.items[findings.count - 1].fix_count, 1);
    tw_arena_finish(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_fix_of_the_examples_clears_its_finding),
        cmocka_unit_test(every_fix_of_the_combined_jobs_clears_its_finding),
        cmocka_unit_test(every_fix_of_the_starting_designs_clears_its_finding),
        cmocka_unit_test(most_halts_of_an_amount_out_of_bounds_come_with_a_fix_and_all_fixes_hold),
        cmocka_unit_test(a_tenon_too_thick_is_offered_a_third_and_the_proposed_value),
        cmocka_unit_test(a_size_that_must_not_be_smaller_is_rounded_up),
        cmocka_unit_test(a_loop_that_stays_open_is_closed_to_a_hair),
        cmocka_unit_test(a_timber_misspelt_is_offered_by_its_name),
        cmocka_unit_test(counts_that_differ_are_matched_on_either_side),
        cmocka_unit_test(words_misspelt_are_offered_as_they_are_spelt),
        cmocka_unit_test(a_choice_that_is_missing_is_offered_word_by_word),
        cmocka_unit_test(of_several_faults_each_is_mended_alone),
        cmocka_unit_test(a_fix_that_does_not_hold_is_dropped_when_proved),
        cmocka_unit_test(a_value_that_was_measured_is_not_to_be_mended_in_the_text),
        cmocka_unit_test(proving_changes_nothing_but_the_fixes),
        cmocka_unit_test(a_fix_belongs_to_the_last_finding_and_is_offered_once),
        cmocka_unit_test(a_finding_that_is_not_kept_takes_no_fix),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
