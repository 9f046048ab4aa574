// SPDX-License-Identifier: GPL-3.0-or-later
/* Walks tests/cases: each folder is one case, named after what it shows. It holds job.yaml, shop.yaml or both, and
 * expect.txt with the exact lines that are said of them, job first. An empty expect.txt: all is read and nothing is said.
 * A case that is new or changed shows the lines that it gives. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"
#include "formats.h"

#include <dirent.h>

#define FOLDER "tests/cases"
#define CASES_MOST 500
#define FILE_MOST ((size_t)1 << 16)

/* The file's bytes, or {NULL, 0} when it is not there. */
static tw_text file_text(tw_arena *arena, const char *folder, const char *name)
{
    FILE *file = fopen(tw_format(arena, FOLDER "/%s/%s", folder, name), "rb");
    if (!file) return (tw_text){ NULL, 0 };
    char *bytes = tw_arena_take(arena, FILE_MOST + 1, 1);
    size_t count = fread(bytes, 1, FILE_MOST, file);
    fclose(file);
    return (tw_text){ bytes, count };
}

/* All lines that are said of a case. */
static const char *said_of(tw_arena *arena, const char *folder, bool *read)
{
    tw_findings findings = { .arena = arena };
    tw_text job = file_text(arena, folder, "job.yaml"), shop = file_text(arena, folder, "shop.yaml");
    *read = true;
    if (job.bytes) *read = tw_job_read(arena, job, "job.yaml", test_formats, TEST_FORMATS, &findings) != NULL;
    if (shop.bytes) *read = tw_shop_read(arena, shop, "shop.yaml", &findings) != NULL && *read;
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_findings_put(&findings, TW_NOTE, &sink);
    tw_gathered(&all);
    return all.bytes ? all.bytes : "";
}

static void says_what_is_expected(void **state)
{
    const char *folder = *state;
    tw_arena arena = { 0 };
    bool read;
    const char *said = said_of(&arena, folder, &read);
    tw_text expect = file_text(&arena, folder, "expect.txt");
    bool same = expect.bytes && tw_text_is(expect, said) && read == (said[0] == '\0');
    if (!same) print_error("%s/%s says:\n%s", FOLDER, folder, said);
    tw_arena_finish(&arena);
    assert_true(same);
}

static int only_folders(const struct dirent *entry) { return entry->d_name[0] != '.'; }

int main(void)
{
    static struct CMUnitTest tests[CASES_MOST];
    struct dirent **entries;
    int count = scandir(FOLDER, &entries, only_folders, alphasort);
    if (count < 1 || count > CASES_MOST) {
        fprintf(stderr, "%s holds no cases, or more than %d\n", FOLDER, CASES_MOST);
        return 1;
    }
    for (int i = 0; i < count; i++)
        tests[i] = (struct CMUnitTest){ entries[i]->d_name, says_what_is_expected, NULL, NULL, entries[i]->d_name };
    int failed = _cmocka_run_group_tests("cases", tests, (size_t)count, NULL, NULL);
    for (int i = 0; i < count; i++) free(entries[i]);
    free(entries);
    return failed;
}
