// SPDX-License-Identifier: GPL-3.0-or-later
/* Walks examples/joints: each folder is the worked example of one kind of joint. It is set out whole, with its papers, and
 * nothing halts it; docs/joints has its page and picture, and the page speaks of the kind that the example shows. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"

#include <dirent.h>
#include <sys/stat.h>

#include "../bench/many.h"
#include "tuskwright.h"

#define FOLDER "examples/joints"
#define EXAMPLES_MOST 100
#define NAME_MOST 100

static char names[EXAMPLES_MOST][NAME_MOST];
static int  name_count;

static int by_name(const void *a, const void *b) { return strcmp(a, b); }

static int find_examples(void **state)
{
    (void)state;
    DIR *folder = opendir(FOLDER);
    if (!folder) return -1;
    for (struct dirent *entry; (entry = readdir(folder)) && name_count < EXAMPLES_MOST;) {
        char path[512];
        struct stat about;
        snprintf(path, sizeof path, FOLDER "/%s", entry->d_name);
        if (entry->d_name[0] == '.' || stat(path, &about) != 0 || !S_ISDIR(about.st_mode)) continue;
        snprintf(names[name_count++], NAME_MOST, "%.*s", NAME_MOST - 1, entry->d_name);
    }
    closedir(folder);
    qsort(names, (size_t)name_count, sizeof *names, by_name);
    return 0;
}

static char *wanted_file(const char *path)
{
    char *text = many_file(path);
    if (!text) fail_msg("%s is not there", path);
    return text;
}

static tw_result *example(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, FOLDER "/%.99s/job.yaml", name);
    char *job = wanted_file(path), *shop_name = tw_shop_named_by(job, strlen(job));
    if (!shop_name) fail_msg("%s names no shop", path);
    char shop_path[1024];
    snprintf(shop_path, sizeof shop_path, FOLDER "/%.99s/%s", name, shop_name ? shop_name : "");
    char *shop = wanted_file(shop_path);
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = path, .shop = shop, .shop_bytes = strlen(shop), .shop_name = shop_path, .papers = true });
    free(job);
    free(shop);
    free(shop_name);
    return result;
}

static void every_example_of_a_joint_is_set_out_without_a_halt(void **state)
{
    (void)state;
    assert_true(name_count > 0);
    for (int i = 0; i < name_count; i++) {
        tw_result *result = example(names[i]);
        for (size_t j = 0; j < tw_result_finding_count(result); j++) {
            tw_result_finding finding = tw_result_finding_at(result, j);
            if (strcmp(finding.level, "halt") == 0 || strcmp(finding.level, "wrong") == 0)
                fail_msg("%s:%d:%d: %s: %s; %s", finding.file, finding.line, finding.column, finding.level, finding.what, finding.remedy);
        }
        assert_int_equal(tw_result_state(result), TW_STATE_GOOD);
        tw_result_free(result);
    }
}

static void every_example_of_a_joint_has_a_page_and_a_picture(void **state)
{
    (void)state;
    for (int i = 0; i < name_count; i++) {
        char path[512];
        snprintf(path, sizeof path, "docs/joints/%.99s.md", names[i]);
        char *page = wanted_file(path), picture[256];
        snprintf(picture, sizeof picture, "(%.99s.svg)", names[i]);
        CHECK_HOLDS(page, picture);
        free(page);
        snprintf(path, sizeof path, "docs/joints/%.99s.svg", names[i]);
        char *svg = wanted_file(path);
        CHECK_HOLDS(svg, "<svg");
        free(svg);
    }
}

typedef struct gathered { char bytes[1 << 19]; size_t count; } gathered;

static bool gather(void *context, const char *bytes, size_t count)
{
    gathered *all = context;
    if (all->count + count >= sizeof all->bytes) return false;
    memcpy(all->bytes + all->count, bytes, count);
    all->count += count;
    return true;
}

/* Two rails, both ends bolted: two joints of two bolts each. What is bought has no timber, and is no part that is sawn from a stick. */
static void hardware_of_a_joint_is_listed_to_be_bought(void **state)
{
    (void)state;
    tw_result *result = example("cross-dowel-and-bolt");
    static gathered csv;
    csv = (gathered){ .count = 0 };
    assert_true(tw_result_put(result, TW_OUTPUT_CUTTING_CSV, gather, &csv));
    CHECK_HOLDS(csv.bytes, "\"bolt\",bought,2,100,6,6,2,100,6,6,\"\",\"M6 x 100, hexagon socket head");
    CHECK_HOLDS(csv.bytes, "\"cross dowel\",bought,2,20,10,10,");
    CHECK_HOLDS(csv.bytes, "\"peg\",part,4,40,10,10,");
    tw_result_free(result);
}

/* Each way of working has its own word there, and a template says both cutters that run along it. */
static void job_json_tells_the_ways_and_both_cutters_of_a_sliding_dovetail(void **state)
{
    (void)state;
    static const char *const ways[] = { "measure", "mark", "copy", "table", "bandsaw", "fit" };
    tw_result *result = example("sliding-dovetail");
    static gathered json;
    json = (gathered){ .count = 0 };
    assert_true(tw_result_put(result, TW_OUTPUT_JSON, gather, &json));
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++) {
        char word[64];
        snprintf(word, sizeof word, "\"way\": \"%s\"", ways[i]);
        CHECK_HOLDS(json.bytes, word);
    }
    CHECK_HOLDS(json.bytes, "\"cutter\": \"spiral 9.5\"");
    CHECK_HOLDS(json.bytes, "\"other_cutter\": \"dovetail 12.7\"");
    assert_null(strstr(json.bytes, "\"way\": \"drill\""));
    tw_result_free(result);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_example_of_a_joint_is_set_out_without_a_halt),
        cmocka_unit_test(every_example_of_a_joint_has_a_page_and_a_picture),
        cmocka_unit_test(hardware_of_a_joint_is_listed_to_be_bought),
        cmocka_unit_test(job_json_tells_the_ways_and_both_cutters_of_a_sliding_dovetail),
    };
    return cmocka_run_group_tests_name("examples of joints", tests, find_examples, NULL);
}
