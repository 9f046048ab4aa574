// SPDX-License-Identifier: GPL-3.0-or-later
/* The pages of docs/ are what the key tables print, so a key cannot change without its page. After a change:
 *     build/tests/print_docs job > docs/job-file.md; build/tests/print_docs shop > docs/shop-file.md */
#include "check.h"

#include "job/job.h"
#include "job/tables.h"
#include "joint/joint.h"

#define PAGE_MOST ((size_t)1 << 18)

static tw_arena arena;
static int finish(void **state)
{
    (void)state;
    tw_arena_finish(&arena);
    return 0;
}

static char *file_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) print_error("%s is not there\n", path);
    assert_non_null(file);
    char *bytes = tw_arena_take(&arena, PAGE_MOST, 1);
    size_t count = fread(bytes, 1, PAGE_MOST - 1, file);
    fclose(file);
    assert_true(count < PAGE_MOST - 1);
    return bytes;
}

/* The page in docs is this one, to the byte; else the first line that differs is shown. */
static void want_page(const char *path, const char *printed)
{
    const char *held = file_text(path);
    int line = 1;
    size_t at = 0;
    for (; held[at] && held[at] == printed[at]; at++) line += held[at] == '\n';
    if (held[at] != printed[at]) print_error("%s:%d is not what the tables print; print it again with print_docs\n", path, line);
    assert_true(held[at] == printed[at]);
}

static const tw_joint_format *const *formats(void) { return (const tw_joint_format *const *)tw_joint_formats(&arena); }

static void the_page_of_the_job_is_what_the_tables_print(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_job_docs_put(formats(), tw_joint_kind_count, &sink);
    want_page("docs/job-file.md", tw_gathered(&all).bytes);
}

static void the_page_of_the_shop_is_what_the_tables_print(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_shop_docs_put(&sink);
    want_page("docs/shop-file.md", tw_gathered(&all).bytes);
}

/* Every block of YAML that begins with `job:` or `shop:` is a whole file and can be read. */
static int read_examples(const char *page, const char *first_key)
{
    static const char fence[] = "```yaml\n";
    int read = 0;
    for (const char *at = strstr(page, fence); at; at = strstr(at, fence)) {
        at += strlen(fence);
        const char *end = strstr(at, "```");
        assert_non_null(end);
        if (strncmp(at, first_key, strlen(first_key)) != 0) continue;
        tw_text text = { at, (size_t)(end - at) };
        tw_findings findings = { .arena = &arena };
        bool job = first_key[0] == 'j';
        bool good = job ? tw_job_read(&arena, text, "example", formats(), tw_joint_kind_count, &findings) != NULL
                        : tw_shop_read(&arena, text, "example", &findings) != NULL;
        if (!good) print_error("%.*s\n%s\n", (int)text.length, at, findings.items[0].what);
        assert_true(good);
        read++;
    }
    return read;
}

static void whole_examples_of_the_pages_can_be_read(void **state)
{
    (void)state;
    assert_true(read_examples(file_text("docs/job-file.md"), "job:") >= 1);
    assert_true(read_examples(file_text("docs/shop-file.md"), "shop:") >= 1);
}

/* ---- rows ---- */

static bool is_one_of(const char *word, const char *const *choices)
{
    for (int i = 0; choices[i]; i++)
        if (strcmp(word, choices[i]) == 0) return true;
    return false;
}

/* Is the example an amount that the row takes? Its own range is looked at; the kind's is wide. */
static bool amount_fits(const tw_key *key)
{
    double value;
    const char *why;
    bool angle = key->kind == TW_KEY_ANGLE, own = key->least != 0.0 || key->most != 0.0;
    bool good = angle ? tw_angle_read(&arena, tw_text_of(key->example), &value, &why)
                      : tw_length_read(&arena, tw_text_of(key->example), "mm", &value, &why);
    return good && (!own || (value >= key->least && value <= key->most));
}

static bool example_fits(const tw_key *key)
{
    switch (key->kind) {
    case TW_KEY_CHOICE: return !key->choices || is_one_of(key->example, key->choices);
    case TW_KEY_YES_NO: return strcmp(key->example, "yes") == 0 || strcmp(key->example, "no") == 0;
    case TW_KEY_LENGTH: case TW_KEY_ANGLE: case TW_KEY_NUMBER: case TW_KEY_COUNT: return amount_fits(key);
    case TW_KEY_LENGTHS: return key->example[0] == '[' || amount_fits(key);
    default: return key->example[0] != '\0';
    }
}

/* What is said to hold when a choice is left out is what the reader then takes. */
static bool otherwise_fits(const tw_key *key)
{
    if (key->kind != TW_KEY_CHOICE || !key->choices || !key->otherwise || !is_one_of(key->otherwise, key->choices)) return true;
    return strcmp(key->otherwise, key->choices[key->fallback]) == 0;
}

static void check_rows(const char *of, const tw_key *keys, int count)
{
    for (int i = 0; i < count; i++) {
        const tw_key *key = &keys[i];
        bool good = key->meaning && key->example && example_fits(key) && otherwise_fits(key);
        if (!good) print_error("%s: the row of `%s` is not right\n", of, key->name);
        assert_true(good);
        for (int j = 0; j < i; j++) assert_string_not_equal(key->name, keys[j].name);
    }
}

static void every_row_has_a_meaning_and_an_example_that_it_takes(void **state)
{
    (void)state;
    const tw_layout *layouts[] = { &tw_job_layout, &tw_shop_layout };
    for (int i = 0; i < 2; i++) {
        check_rows("the file itself", layouts[i]->keys, layouts[i]->count);
        for (int j = 0; j < layouts[i]->section_count; j++)
            check_rows(layouts[i]->sections[j].name, layouts[i]->sections[j].keys, layouts[i]->sections[j].count);
    }
    for (int i = 0; i < tw_joint_kind_count; i++) check_rows(formats()[i]->kind, formats()[i]->keys, formats()[i]->key_count);
}

static void the_examples_can_be_read(void **state)
{
    (void)state;
    tw_findings findings = { .arena = &arena };
    tw_text job = tw_text_of(file_text("examples/reading-table/job.yaml"));
    bool good = tw_job_read(&arena, job, "job.yaml", formats(), tw_joint_kind_count, &findings) != NULL;
    if (!good) print_error("%s\n", findings.items[0].what);
    assert_true(good);
    tw_text shop = tw_text_of(file_text("examples/reading-table/shop.yaml"));
    assert_non_null(tw_shop_read(&arena, shop, "shop.yaml", &findings));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(the_page_of_the_job_is_what_the_tables_print, finish),
        cmocka_unit_test_teardown(the_page_of_the_shop_is_what_the_tables_print, finish),
        cmocka_unit_test_teardown(whole_examples_of_the_pages_can_be_read, finish),
        cmocka_unit_test_teardown(every_row_has_a_meaning_and_an_example_that_it_takes, finish),
        cmocka_unit_test_teardown(the_examples_can_be_read, finish),
    };
    return cmocka_run_group_tests_name("docs", tests, NULL, NULL);
}
