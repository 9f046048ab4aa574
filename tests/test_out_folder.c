// SPDX-License-Identifier: GPL-3.0-or-later
/* The folder of papers: whole or not at all, the old set kept until the new one is there, the maker's own files left. */
#define _GNU_SOURCE
#include "check.h"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cli/out_folder.h"

static tw_arena arena;
static char home[64];

static int begin(void **state)
{
    (void)state;
    strcpy(home, "/tmp/tw-out-XXXXXX");
    return mkdtemp(home) ? 0 : 1;
}

static int finish(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -rf %s", home);
    int code = system(command);
    tw_arena_finish(&arena);
    return code;
}

static const char *path(const char *name) { return tw_format(&arena, "%s/%s", home, name); }

static const char *content(const char *name)
{
    FILE *file = fopen(path(name), "rb");
    if (!file) return NULL;
    char *text = tw_arena_take(&arena, 4096, 1);
    text[fread(text, 1, 4095, file)] = '\0';
    fclose(file);
    return text;
}

static void put(const char *name, const char *text)
{
    FILE *file = fopen(path(name), "wb");
    assert_non_null(file);
    fputs(text, file);
    fclose(file);
}

/* Entries of the home folder: to see that nothing is left lying about. */
static int entries(void)
{
    DIR *list = opendir(home);
    int count = 0;
    for (struct dirent *entry; (entry = readdir(list)) != NULL;) count += entry->d_name[0] != '.';
    closedir(list);
    return count;
}

static bool write_set(const char *cards)
{
    tw_out_folder out;
    bool good = tw_out_begin(&out, &arena, path("papers")) && tw_out_write(&out, "cards.pdf", tw_text_of(cards)) &&
                tw_out_write(&out, "templates/T1.dxf", tw_text_of("dxf")) && tw_out_finish(&out);
    tw_out_drop(&out);
    return good;
}

static void set_appears_whole(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    assert_string_equal(content("papers/cards.pdf"), "one");
    assert_string_equal(content("papers/templates/T1.dxf"), "dxf");
    assert_int_equal(entries(), 1);
}

static void new_set_takes_the_place_of_the_old_one(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    tw_out_folder out;
    assert_true(tw_out_begin(&out, &arena, path("papers")));
    assert_string_equal(content("papers/cards.pdf"), "one");  // still the old one
    assert_true(tw_out_write(&out, "run.pdf", tw_text_of("run")));
    assert_true(tw_out_finish(&out));
    assert_null(content("papers/cards.pdf"));  // of the old set, and not of the new
    assert_string_equal(content("papers/run.pdf"), "run");
    assert_int_equal(entries(), 1);
}

static void makers_own_files_are_carried_over(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    put("papers/notes.txt", "glue on Tuesday");
    put("papers/templates/mine.dxf", "mine");
    assert_true(write_set("two"));
    assert_string_equal(content("papers/notes.txt"), "glue on Tuesday");
    assert_string_equal(content("papers/templates/mine.dxf"), "mine");
    assert_string_equal(content("papers/cards.pdf"), "two");
    assert_int_equal(entries(), 1);
}

static void own_file_that_would_be_overwritten_stays_in_the_old_folder(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    put("papers/run.pdf", "my own run");
    tw_out_folder out;
    assert_true(tw_out_begin(&out, &arena, path("papers")));
    assert_true(tw_out_write(&out, "run.pdf", tw_text_of("run")));
    assert_true(tw_out_finish(&out));
    CHECK_HOLDS(out.why, "files of yours from the earlier set stay in");
    assert_int_equal(entries(), 2);
}

static void folder_with_other_files_is_not_touched(void **state)
{
    (void)state;
    mkdir(path("papers"), 0755);
    put("papers/thesis.txt", "years of work");
    tw_out_folder out;
    assert_false(tw_out_begin(&out, &arena, path("papers")));
    CHECK_HOLDS(out.why, "name a new or an empty folder");
    assert_string_equal(content("papers/thesis.txt"), "years of work");
    put("file", "x");
    assert_false(tw_out_begin(&out, &arena, path("file")));
    CHECK_HOLDS(out.why, "is a file");
}

static void empty_folder_is_taken(void **state)
{
    (void)state;
    mkdir(path("papers"), 0755);
    assert_true(write_set("one"));
    assert_string_equal(content("papers/cards.pdf"), "one");
}

static void link_is_followed_to_its_folder(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    assert_int_equal(rename(path("papers"), path("elsewhere")), 0);
    put("elsewhere/notes.txt", "glue on Tuesday");
    assert_int_equal(symlink("elsewhere", path("papers")), 0);
    assert_true(write_set("two"));
    struct stat there;
    assert_true(lstat(path("papers"), &there) == 0 && S_ISLNK(there.st_mode));
    assert_string_equal(content("elsewhere/cards.pdf"), "two");
    assert_string_equal(content("elsewhere/notes.txt"), "glue on Tuesday");
    assert_int_equal(entries(), 2);
}

static void link_to_nowhere_is_refused(void **state)
{
    (void)state;
    assert_int_equal(symlink("nowhere", path("papers")), 0);
    tw_out_folder out;
    assert_false(tw_out_begin(&out, &arena, path("papers")));
    CHECK_HOLDS(out.why, "is a link to nothing");
    assert_int_equal(entries(), 1);
}

static void folder_in_which_one_stands_is_refused(void **state)
{
    (void)state;
    mkdir(path("papers"), 0755);
    int before = open(".", O_RDONLY | O_DIRECTORY);
    assert_int_equal(chdir(path("papers")), 0);
    tw_out_folder out;
    bool begun = tw_out_begin(&out, &arena, ".");
    assert_int_equal(fchdir(before), 0);
    close(before);
    assert_false(begun);
    CHECK_HOLDS(out.why, "the folder in which you stand");
    assert_int_equal(entries(), 1);
}

/* A full disk, played by a limit on the size of files. */
static void full_disk_leaves_the_old_set(void **state)
{
    (void)state;
    assert_true(write_set("one"));
    signal(SIGXFSZ, SIG_IGN);
    struct rlimit before, small;
    getrlimit(RLIMIT_FSIZE, &before);
    small = before;
    small.rlim_cur = 10;
    setrlimit(RLIMIT_FSIZE, &small);
    bool good = write_set("a set that is larger than the disk has room for");
    setrlimit(RLIMIT_FSIZE, &before);
    assert_false(good);
    assert_string_equal(content("papers/cards.pdf"), "one");
    assert_int_equal(entries(), 1);
}

/* Killed at any moment, the folder holds one whole set: each set writes its number into twenty files. */
static void write_numbered(int number)
{
    tw_out_folder out;
    if (!tw_out_begin(&out, &arena, path("papers"))) _exit(1);
    for (int i = 0; i < 20; i++)
        if (!tw_out_write(&out, tw_format(&arena, "f%d", i), tw_text_of(tw_format(&arena, "%d", number)))) _exit(1);
    tw_out_finish(&out);
}

static void kill_in_the_middle_leaves_one_whole_set(void **state)
{
    (void)state;
    write_numbered(0);
    for (int round = 1; round <= 40; round++) {
        pid_t child = fork();
        if (child == 0) {
            for (int number = round * 1000;; number++) write_numbered(number);
        }
        usleep((useconds_t)(500 + round * 311));
        kill(child, SIGKILL);
        waitpid(child, NULL, 0);
        const char *first = content("papers/f0");
        assert_non_null(first);
        for (int i = 1; i < 20; i++) assert_string_equal(content(tw_format(&arena, "papers/f%d", i)), first);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(set_appears_whole, begin, finish),
        cmocka_unit_test_setup_teardown(new_set_takes_the_place_of_the_old_one, begin, finish),
        cmocka_unit_test_setup_teardown(makers_own_files_are_carried_over, begin, finish),
        cmocka_unit_test_setup_teardown(own_file_that_would_be_overwritten_stays_in_the_old_folder, begin, finish),
        cmocka_unit_test_setup_teardown(folder_with_other_files_is_not_touched, begin, finish),
        cmocka_unit_test_setup_teardown(empty_folder_is_taken, begin, finish),
        cmocka_unit_test_setup_teardown(link_is_followed_to_its_folder, begin, finish),
        cmocka_unit_test_setup_teardown(link_to_nowhere_is_refused, begin, finish),
        cmocka_unit_test_setup_teardown(folder_in_which_one_stands_is_refused, begin, finish),
        cmocka_unit_test_setup_teardown(full_disk_leaves_the_old_set, begin, finish),
        cmocka_unit_test_setup_teardown(kill_in_the_middle_leaves_one_whole_set, begin, finish),
    };
    return cmocka_run_group_tests_name("folder of papers", tests, NULL, NULL);
}
