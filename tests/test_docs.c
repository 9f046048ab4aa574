// SPDX-License-Identifier: GPL-3.0-or-later
/* The pages of docs/ are what the key tables print, so a key cannot change without its page. After a change:
 *     build/tests/print_docs job > docs/job-file.md; build/tests/print_docs shop > docs/shop-file.md */
#include "check.h"

#include "job/job.h"
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
        cmocka_unit_test_teardown(the_examples_can_be_read, finish),
    };
    return cmocka_run_group_tests_name("docs", tests, NULL, NULL);
}
