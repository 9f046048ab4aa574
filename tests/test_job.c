// SPDX-License-Identifier: GPL-3.0-or-later
/* Reading whole jobs and shops that are right, and the limits of what is read. What is wrong in a file, line by line, is in
 * tests/cases. */
#include "check.h"
#include "formats.h"

#include <time.h>

static tw_arena arena;
static tw_findings findings;

static int finish(void **state)
{
    (void)state;
    tw_arena_finish(&arena);
    findings = (tw_findings){ 0 };
    return 0;
}

static const char *said(void)
{
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_findings_put(&findings, TW_NOTE, &sink);
    tw_gathered(&all);
    return all.bytes ? all.bytes : "";
}

static const tw_job *job_of(tw_text text)
{
    findings = (tw_findings){ .arena = &arena };
    return tw_job_read(&arena, text, "job.yaml", test_formats, TEST_FORMATS, &findings);
}

static const tw_job *good_job(const char *text)
{
    const tw_job *job = job_of(tw_text_of(text));
    if (!job) print_error("%s", said());
    assert_non_null(job);
    assert_int_equal(findings.count, 0);
    return job;
}

/* The job is refused, and one of the lines says this. */
static void refused_job(const char *text, const char *line)
{
    assert_null(job_of(tw_text_of(text)));
    CHECK_HOLDS(said(), line);
}

static const tw_shop *shop_of(const char *text)
{
    findings = (tw_findings){ .arena = &arena };
    return tw_shop_read(&arena, tw_text_of(text), "shop.yaml", &findings);
}

static char *file_text(const char *path)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *bytes = tw_arena_take(&arena, 1 << 18, 1);
    size_t count = fread(bytes, 1, (1 << 18) - 1, file);
    fclose(file);
    assert_true(count > 0);
    return bytes;
}

static const char small_job[] = "job: Bench\npieces:\n  leg: {length: 420, width: 70, thickness: 45}\n";

/* ---- jobs ---- */

static void a_small_job_takes_the_defaults(void **state)
{
    (void)state;
    const tw_job *job = good_job(small_job);
    assert_string_equal(job->title.text, "Bench");
    assert_string_equal(job->revision.text, "1");
    assert_false(job->revision.given);
    assert_string_equal(job->shop.text, "");
    assert_int_equal(job->units.value, 0);
    assert_int_equal(job->figures.style, TW_FIGURES_MM);
    assert_int_equal(job->figures.decimals, 1);
    assert_int_equal(job->paper.value, TW_PAPER_A4);
    CHECK_NEAR(job->sets.value, 1.0, 0.0);
    assert_int_equal(job->piece_count, 1);
    assert_int_equal(job->joint_count, 0);
    assert_string_equal(job->pieces[0].name, "leg");
    CHECK_NEAR(job->pieces[0].count.value, 1.0, 0.0);
    assert_false(job->pieces[0].count.given);
    CHECK_NEAR(job->pieces[0].length.value, 420.0, 0.0);
    assert_int_equal(job->pieces[0].place.line, 3);
    assert_int_equal(job->pieces[0].place.column, 3);
    assert_int_equal(job->pieces[0].length.place.column, 17);
    assert_string_equal(job->pieces[0].timber.text, "");
}

static void the_example_job_is_read(void **state)
{
    (void)state;
    const tw_job *job = good_job(
        "job: Reading table\nrevision: \"2\"\nunits: mm\nfigures: mm 0.01\npaper: A3\nshop: shop.yaml\nsets: 3\nnote: >\n  two\n  lines\n"
        "joints:\n"
        "  post to foot: {kind: mortise and tenon, tenon: post, ends: left, into: foot, from: back edge, at: foot.length / 2,\n"
        "                 depth: 50, fit: glued, through: no, share: 1/3, tenons: 2, cutter: spiral 9.5, follower: 3/4 bush}\n"
        "  stretcher to post:\n    kind: forked tusks\n    tenon: stretcher\n    through: post\n    at: [190, 1 ft, post.length - 2 in]\n"
        "    tenon width: 38\n    beyond: 58\n    note: drive by hand\n"
        "pieces:\n"
        "  foot: {count: 2, length: 640, width: 75, thickness: 60, timber: \"Oak, white\"}\n"
        "  post: {count: 2, length: 655, width: 110, thickness: 45}\n"
        "  stretcher:\n    count: 2\n    length: 2 * (12 + 45 + stretcher to post.beyond) + 980  # two tenons\n    width: 70\n    thickness: 28\n");
    assert_string_equal(job->note.text, "two lines");
    assert_string_equal(job->revision.text, "2");
    assert_string_equal(job->shop.text, "shop.yaml");
    assert_int_equal(job->paper.value, TW_PAPER_A3);
    assert_int_equal(job->figures.decimals, 2);
    CHECK_NEAR(job->sets.value, 3.0, 0.0);
    CHECK_NEAR(job->pieces[2].length.value, 1210.0, 1e-12);  // 2 * (12 + 45 + 58) + 980
    assert_string_equal(job->pieces[0].timber.text, "Oak, white");
    assert_int_equal(job->joint_count, 2);
    const test_mortise *mortise = job->joints[0].spec;
    assert_int_equal(job->joints[0].kind, 0);
    assert_int_equal(mortise->tenon.index, 1);
    assert_int_equal(mortise->into.index, 0);
    assert_int_equal(mortise->ends.value, 0);
    assert_int_equal(mortise->from.value, 3);
    assert_int_equal(mortise->fit.value, 1);
    assert_true(mortise->through.given);
    assert_int_equal(mortise->through.value, 0);
    assert_int_equal(mortise->at.count, 1);
    CHECK_NEAR(mortise->at.items[0].value, 320.0, 0.0);
    CHECK_NEAR(mortise->share.value, 1.0 / 3.0, 1e-15);
    CHECK_NEAR(mortise->tenons.value, 2.0, 0.0);
    assert_string_equal(mortise->cutter.text, "spiral 9.5");
    assert_string_equal(mortise->follower.text, "3/4 bush");
    assert_string_equal(mortise->glue.text, "");
    const test_tusks *tusks = job->joints[1].spec;
    assert_int_equal(job->joints[1].kind, 1);
    assert_string_equal(job->joints[1].note.text, "drive by hand");
    assert_int_equal(tusks->at.count, 3);
    CHECK_NEAR(tusks->at.items[1].value, 304.8, 1e-12);
    CHECK_NEAR(tusks->at.items[2].value, 604.2, 1e-12);
    assert_int_equal(tusks->at.items[2].place.line, 18);
    assert_int_equal(tusks->at.items[2].place.column, 21);
    assert_int_equal(tusks->ends.value, 2);
    assert_false(tusks->ends.given);
    CHECK_NEAR(tusks->angle.value, 5.0 * TW_PI / 180.0, 1e-15);
    assert_false(tusks->angle.given);
    assert_false(tusks->reserve.given);
}

static void a_job_in_inches_writes_fractions(void **state)
{
    (void)state;
    const tw_job *job = good_job("job: Bench\nunits: in\npieces:\n  leg: {length: 16-1/2, width: 2 3/4, thickness: 45 mm}\n");
    assert_int_equal(job->figures.style, TW_FIGURES_FRACTION);
    assert_int_equal(job->figures.parts, 64);
    CHECK_NEAR(job->pieces[0].length.value, 419.1, 1e-12);
    CHECK_NEAR(job->pieces[0].width.value, 69.85, 1e-12);
    CHECK_NEAR(job->pieces[0].thickness.value, 45.0, 0.0);
}

static void every_way_of_writing_figures_is_known(void **state)
{
    (void)state;
    static const struct { const char *words; tw_figures figures; } known[] = {
        { "mm 1", { TW_FIGURES_MM, 0, 0 } }, { "mm 0.1", { TW_FIGURES_MM, 1, 0 } }, { "mm 0.01", { TW_FIGURES_MM, 2, 0 } },
        { "in 0.001", { TW_FIGURES_INCH, 3, 0 } }, { "in 1/2", { TW_FIGURES_FRACTION, 0, 2 } }, { "in 1/64", { TW_FIGURES_FRACTION, 0, 64 } },
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        const tw_job *job = good_job(tw_format(&arena, "figures: %s\n%s", known[i].words, small_job));
        assert_int_equal(job->figures.style, known[i].figures.style);
        assert_int_equal(job->figures.decimals, known[i].figures.decimals);
        if (known[i].figures.parts) assert_int_equal(job->figures.parts, known[i].figures.parts);
    }
    refused_job(tw_format(&arena, "figures: in 1/3\n%s", small_job), "job.yaml:1:10: figures cannot be written as `in 1/3`");
    refused_job(tw_format(&arena, "figures: mm 0.5\n%s", small_job), "job.yaml:1:10: figures cannot be written as `mm 0.5`");
}

static void amounts_lean_on_each_other_in_any_order(void **state)
{
    (void)state;
    const tw_job *job = good_job(
        "job: Bench\nunits: in\n"
        "pieces:\n"
        "  front rail:\n    length: back rail.length - 2 * gap\n    width: half * back rail.width\n    thickness: max(3/4, back rail.thickness)\n"
        "  back rail: {length: 24, width: 3, thickness: slope free, count: 2 * legs}\n"
        "  leg: {count: legs, length: back rail.count * 2, width: back rail.length / legs, thickness: 1}\n"
        "amounts:\n  slope free: gap + 1/4\n  gap: 1/2\n  half: 50 %\n  legs: 4\n");
    CHECK_NEAR(job->pieces[0].length.value, 23.0 * 25.4, 1e-9);
    CHECK_NEAR(job->pieces[0].width.value, 1.5 * 25.4, 1e-9);
    CHECK_NEAR(job->pieces[0].thickness.value, 0.75 * 25.4, 1e-9);
    CHECK_NEAR(job->pieces[1].count.value, 8.0, 0.0);
    CHECK_NEAR(job->pieces[2].count.value, 4.0, 0.0);
    CHECK_NEAR(job->pieces[2].length.value, 16.0 * 25.4, 1e-9);
    CHECK_NEAR(job->pieces[2].width.value, 6.0 * 25.4, 1e-9);
}

static void amounts_need_no_quotes_between_braces(void **state)
{
    (void)state;
    const tw_job *job = good_job("job: B\npieces:\n  leg: {length: 1-1/2 in, width: 5 % * leg.length, thickness: -3 mm + 6}\n  post: {length: 1, width: 1½\", thickness: 1}\n"
                                 "joints:\n  t: {kind: forked tusks, tenon: leg, through: post, at: 3/8\", angle: 1:12, beyond: 2' 3\", reserve: (3 + 4) * 2}\n");
    CHECK_NEAR(job->pieces[0].width.value, 1.905, 1e-12);
    CHECK_NEAR(job->pieces[0].thickness.value, 3.0, 1e-12);
    CHECK_NEAR(job->pieces[1].width.value, 38.1, 1e-12);
    const test_tusks *tusks = job->joints[0].spec;
    CHECK_NEAR(tusks->at.items[0].value, 9.525, 1e-12);
    CHECK_NEAR(tusks->beyond.value, 685.8, 1e-12);
    CHECK_NEAR(tusks->reserve.value, 14.0, 1e-12);
    // published ramp tables give a slope of 1:12 as 4.76 degrees (common practice)
    CHECK_NEAR(tw_degrees(tusks->angle.value), 4.76, 0.005);
}

static void a_ratio_of_two_lengths_is_no_length(void **state)
{
    (void)state;
    refused_job("job: B\npieces:\n  leg: {length: 420, width: leg.length / leg.thickness, thickness: 45}\n",
                "job.yaml:3:29: this is a ratio; a length is wanted, for instance 75 mm");
}

static void circles_are_shown_with_their_path(void **state)
{
    (void)state;
    refused_job("job: B\npieces:\n  post: {length: 1, width: rail.width, thickness: 1}\n  rail: {length: 1, width: 2 * post.width, thickness: 1}\n",
                "job.yaml:3:28: these amounts lean on each other in a circle: post.width -> rail.width -> post.width; give one of them in figures\n");
    assert_int_equal(findings.count, 1);
    refused_job("job: B\namounts:\n  gap: gap + 1\npieces:\n  post: {length: gap, width: 1, thickness: 1}\n",
                "job.yaml:3:8: these amounts lean on each other in a circle: gap -> gap; give one of them in figures\n");
    assert_int_equal(findings.count, 1);
    refused_job("job: B\namounts:\n  a: b\n  b: c\n  c: d\n  d: b\npieces:\n  post: {length: 1, width: 1, thickness: 1}\n",
                "job.yaml:4:6: these amounts lean on each other in a circle: b -> c -> d -> b; give");
    assert_int_equal(findings.count, 1);
}

static void letters_of_three_scripts_make_names(void **state)
{
    (void)state;
    const tw_job *job = good_job("job: Bänk für Żółw, Ελιά, Берёза\namounts:\n  Höhe 2: 5\npieces:\n"
                                 "  Füße: {length: Höhe 2 + 1, width: стойка.width, thickness: 45}\n  стойка: {length: 1, width: 7, thickness: 1}\n"
                                 "  κολώνα: {length: Füße.length, width: 7, thickness: 1}\n");
    CHECK_NEAR(job->pieces[0].length.value, 6.0, 0.0);
    CHECK_NEAR(job->pieces[0].width.value, 7.0, 0.0);
    CHECK_NEAR(job->pieces[2].length.value, 6.0, 0.0);
}

static void a_byte_order_mark_and_carriage_returns_do_not_matter(void **state)
{
    (void)state;
    const tw_job *job = good_job("\xEF\xBB\xBFjob: Bench\r\npieces:\r\n  leg:\r\n    length: 420\r\n    width: 70\r\n    thickness: 45\r\n");
    assert_string_equal(job->title.text, "Bench");
    assert_int_equal(job->pieces[0].thickness.place.line, 6);
    assert_int_equal(job->pieces[0].thickness.place.column, 16);
}

static void a_document_mark_and_a_directive_are_allowed(void **state)
{
    (void)state;
    good_job("%YAML 1.2\n---\njob: Bench\npieces:\n  leg: {length: 420, width: 70, thickness: 45}\n...\n");
}

/* ---- refusals that a folder of files cannot hold well ---- */

static void a_name_of_ten_thousand_characters_is_refused_in_few_words(void **state)
{
    (void)state;
    char *name = tw_arena_take(&arena, 10001, 1);
    memset(name, 'a', 10000);
    refused_job(tw_format(&arena, "job: B\npieces:\n  ? %s\n  : {length: 1, width: 1, thickness: 1}\n", name),
                "job.yaml:3:5: the name of a piece has 10000 characters; 60 at most");
    refused_job(tw_format(&arena, "job: B\npieces:\n  %s: {length: 1, width: 1, thickness: 1}\n  b: {length: 1, width: 1, thickness: 1}\n", name),
                "a key stands here that is longer than 1024 characters; a name has at most 60");
    refused_job(tw_format(&arena, "job: B\npieces:\n  a: {length: 1, width: %s, thickness: 1}\n", name),
                "job.yaml:3:25: the amount is longer than 400 bytes");
    refused_job(tw_format(&arena, "job: %s\npieces:\n  a: {length: 1, width: 1, thickness: 1}\n", name),
                "job.yaml:1:6: `job` has 10000 characters; 120 at most");
    assert_true(strlen(said()) < 200);
}

static void bytes_that_are_no_text_are_refused(void **state)
{
    (void)state;
    static const char with_zero[] = "job: B\0ench\npieces:\n  leg: {length: 1, width: 1, thickness: 1}\n";
    assert_null(job_of((tw_text){ with_zero, sizeof with_zero - 1 }));
    assert_string_equal(said(), "job.yaml:1:7: U+0000 is a zero; take it out\n");
    refused_job("job: B\npieces:\n  le\xC3g: {length: 1, width: 1, thickness: 1}\n", "job.yaml:3:5: byte C3 is no character of UTF-8; save the file as UTF-8\n");
    refused_job("job: B\xC2\x85pieces: x\n", "job.yaml:1:7: U+0085 is a line end that editors do not show; take it out\n");
    refused_job("job: B\xE2\x80\xA8pieces: x\n", "job.yaml:1:7: U+2028 is a line end");
    refused_job("job: B\x1B[2J\n", "job.yaml:1:7: U+001B is a control character");
    refused_job("job: \xEF\xBB\xBF""B\n", "job.yaml:1:6: U+FEFF is a byte-order mark in the middle of the text");
    refused_job("\xFF\xFEj\1o\1b\1", "job.yaml:1:1: the file is written in UTF-16; save it as UTF-8\n");
    refused_job("job: \xED\xA0\x80\n", "job.yaml:1:6: byte ED is no character of UTF-8");
    refused_job("job: \xC0\xAF\n", "job.yaml:1:6: byte C0 is no character of UTF-8");
    refused_job("job: \xF4\x90\x80\x80\n", "job.yaml:1:6: byte F4 is no character of UTF-8");
}

static void an_empty_file_says_so(void **state)
{
    (void)state;
    refused_job("", "job.yaml:1:1: there is nothing in the file\n");
    refused_job("\n\n", "job.yaml:1:1: there is nothing in the file\n");
    refused_job("# only a remark\n", "job.yaml:1:1: there is nothing in the file\n");
    refused_job("\xEF\xBB\xBF", "job.yaml:1:1: there is nothing in the file\n");
    assert_null(job_of((tw_text){ NULL, 0 }));
    refused_job("---\n", "a job is written as keys with values, and nothing stands here");
}

static void a_file_over_the_limit_is_refused(void **state)
{
    (void)state;
    size_t count = TW_TEXT_MOST_BYTES + 1;
    char *bytes = tw_arena_take(&arena, count, 1);
    memset(bytes, '#', count);
    assert_null(job_of((tw_text){ bytes, count }));
    assert_string_equal(said(), "job.yaml:1:1: the file has 4194305 bytes; at most 4194304 are read; share the work out over several jobs\n");
}

static char *repeated(const char *begin, const char *middle, size_t times, const char *end)
{
    size_t before = strlen(begin), step = strlen(middle);
    char *bytes = tw_arena_take(&arena, before + step * times + strlen(end) + 1, 1), *to = bytes + before;
    memcpy(bytes, begin, before);
    for (size_t i = 0; i < times; i++, to += step) memcpy(to, middle, step);
    memcpy(to, end, strlen(end));
    return bytes;
}

static void a_fault_far_down_is_found_soon(void **state)
{
    (void)state;
    refused_job(repeated("", "\n", 2000000, "a: @\n"), "job.yaml:2000001:4: a value cannot begin with `@`");
    refused_job(repeated("job: B\n", "\ta: 1\n", 100000, ""), "job.yaml:40:1: a tab stands where the line is indented");
    refused_job(repeated("job: B\n", "a: b: c\n", 100000, ""), "job.yaml:2:5: a second colon");
    assert_true(findings.count <= 41);
}

static void lines_of_nothing_but_tabs_do_not_matter(void **state)
{
    (void)state;
    good_job("\t\njob: Bench\n \t\npieces:\n\t\t\n  leg: {length: 420,\t width: 70, thickness: 45}\t\n\t");
}

static void more_values_than_the_limit_are_refused(void **state)
{
    (void)state;
    refused_job(repeated("job: B\nnote: [", "1,", TW_VALUES_MOST, "]\n"), "job.yaml:1:1: the file holds more than 1000000 keys and values");
}

static void nesting_over_the_limit_is_refused_wherever_it_stands(void **state)
{
    (void)state;
    char deep[600];
    memset(deep, '[', sizeof deep - 1);
    deep[sizeof deep - 1] = '\0';
    refused_job(tw_format(&arena, "job: B\nnote: %s\n%s", deep, "pieces:\n  leg: {length: 3 +, width: 1, thickness: 1}\n"),
                "job.yaml:2:22: lists and maps are nested more than 16 deep");
    CHECK_HOLDS(said(), "job.yaml:4:20: an amount is missing here");
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    for (int i = 0; i < 500; i++) tw_putf(&sink, "%*sa:\n", i, "");
    tw_gathered(&all);
    refused_job(all.bytes, "nested more than 16 deep");
}

static void two_hundred_errors_are_said_and_no_more(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "job: B\npieces:\n");
    for (int i = 0; i < 1000; i++) tw_putf(&sink, "  leg %d: {length: 1, widht: 1, thickness: nowhere %d}\n", i, i);
    tw_gathered(&all);
    assert_null(job_of(tw_text_of(all.bytes)));
    assert_int_equal(findings.count, TW_FINDINGS_MOST);
    assert_null(job_of(tw_text_of(all.bytes)));
}

static void a_reading_after_a_full_list_is_not_called_good(void **state)
{
    (void)state;
    findings = (tw_findings){ .arena = &arena };
    for (int i = 0; i < TW_FINDINGS_MOST; i++) tw_find(&findings, TW_WRONG, (tw_place){ "x", 1, 1 }, "x", "", "x", "");
    assert_null(tw_job_read(&arena, tw_text_of("job: B\n"), "job.yaml", test_formats, TEST_FORMATS, &findings));
}

static void errors_of_another_file_do_not_spoil_this_one(void **state)
{
    (void)state;
    findings = (tw_findings){ .arena = &arena };
    tw_find(&findings, TW_WRONG, (tw_place){ "other.yaml", 9, 9 }, "x", "", "x", "");
    assert_non_null(tw_job_read(&arena, tw_text_of(small_job), "job.yaml", test_formats, TEST_FORMATS, &findings));
}

/* ---- shops ---- */

static void the_example_shop_is_read(void **state)
{
    (void)state;
    const tw_shop *shop = shop_of(file_text("examples/reading-table/shop.yaml"));
    if (!shop) print_error("%s", said());
    assert_non_null(shop);
    CHECK_NEAR(shop->machine.ratio.value, 2.0, 0.0);
    assert_int_equal(shop->machine.turns_over.value, 1);
    CHECK_NEAR(shop->machine.play.value, 0.1, 0.0);
    assert_int_equal(shop->cutter_count, 3);
    assert_string_equal(shop->cutters[1].name, "spiral 9.5");
    CHECK_NEAR(shop->cutters[1].diameter.value, 9.525, 0.0);
    CHECK_NEAR(shop->cutters[1].d_mm, 9.52, 0.0);
    CHECK_NEAR(shop->cutters[0].d_mm, 8.0, 0.0);
    assert_int_equal(shop->follower_count, 4);
    CHECK_NEAR(shop->followers[2].b_mm, 19.05, 0.0);
    assert_int_equal(shop->pin_count, 2);
    assert_int_equal(shop->spacer_count, 12);
    CHECK_NEAR(shop->spacers[1].size.value, 0.1, 0.0);
    CHECK_NEAR(shop->spacers[1].count.value, 2.0, 0.0);
}

static void a_shop_in_inches_takes_the_defaults(void **state)
{
    (void)state;
    const tw_shop *shop = shop_of(
        "shop: Shed\nunits: in\nmachine: {ratio: 2, travel across: 6, travel up: 4, travel in: 2-1/2, holder across: 14, holder up: 9,\n"
        "  table lowest: 4-1/2, table highest: 1/4, nut radius: 7/8, top speed: 22000}\n"
        "cutters: {'3/8 spiral': {diameter: 3/8, cutting length: 1-1/2}}\nfollowers: {'bush 3/4\"': {diameter: 3/4, measured: 0.748}}\n"
        "spacers: {drill 3/16: {size: 3/16}}\n");
    if (!shop) print_error("%s", said());
    assert_non_null(shop);
    CHECK_NEAR(shop->machine.low_speed.value, 22000.0, 0.0);
    CHECK_NEAR(shop->machine.clamp_zone.value, 40.0, 0.0);
    CHECK_NEAR(shop->machine.smallest_piece.value, 150.0, 0.0);
    CHECK_NEAR(shop->machine.spacer_tolerance.value, 0.05, 0.0);
    CHECK_NEAR(shop->machine.table_step.value, 0.0, 0.0);
    assert_int_equal(shop->machine.turns_over.value, 0);
    CHECK_NEAR(shop->saw_kerf.value, 3.0, 0.0);
    CHECK_NEAR(shop->strip_thickness.value, 12.0, 0.0);
    CHECK_NEAR(shop->cutters[0].d_mm, 9.525, 1e-12);
    CHECK_NEAR(shop->cutters[0].shank.value, 9.525, 1e-12);
    CHECK_NEAR(shop->cutters[0].top_speed.value, 0.0, 0.0);
    assert_int_equal(shop->cutters[0].plunges.value, 0);
    CHECK_NEAR(shop->followers[0].b_mm, 18.9992, 1e-9);
    CHECK_NEAR(shop->followers[0].length.value, 12.0, 0.0);
    CHECK_NEAR(shop->spacers[0].size.value, 4.7625, 1e-12);
    assert_string_equal(shop->spacers[0].name, "drill 3/16");
    assert_int_equal(shop->pin_count, 0);
}

/* ---- docs ---- */

static void the_page_of_a_joint_shows_its_keys(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_job_docs_put(test_formats, TEST_FORMATS, &sink);
    tw_gathered(&all);
    CHECK_HOLDS(all.bytes, "### `kind: forked tusks`\n\nA through tenon held by forked tusks.\n\n```yaml\njoints:\n  NAME:\n    kind: forked tusks\n"
                           "    tenon: stretcher\n    through: post\n    at: [190, 480]\n```\n");
    CHECK_HOLDS(all.bytes, "| `angle` | an angle, 0.572958 deg to 45.836624 deg | 5 deg | Of the ramp. For instance `1:12`. |\n");
    CHECK_HOLDS(all.bytes, "| `from` | `face`, `back`, `face edge` or `back edge` | back | Where it enters. |\n");
    CHECK_HOLDS(all.bytes, "| `1-1/2 in` | 38.1 mm |\n");
}

/* ---- size ---- */

static char *large_job(int pieces)
{
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "job: Large\npieces:\n  leg 0: {length: 420, width: 70, thickness: 45}\n");
    for (int i = 1; i < pieces; i++)
        tw_putf(&sink, "  leg %d: {length: leg %d.length, width: leg %d.width + 0 * 2, thickness: 1-1/2 in}\n", i, i - 1, i - 1);
    tw_put_text(&sink, "joints:\n");
    for (int i = 1; i < pieces; i++)
        tw_putf(&sink, "  at leg %d: {kind: mortise and tenon, tenon: leg %d, ends: both, into: leg %d, at: leg %d.length / 2}\n", i, i, i - 1, i);
    tw_gathered(&all);
    return all.bytes;
}

static double seconds_to_read(int pieces)
{
    const char *text = large_job(pieces);
    clock_t start = clock();
    const tw_job *job = good_job(text);
    double seconds = (double)(clock() - start) / CLOCKS_PER_SEC;
    assert_int_equal(job->piece_count, pieces);
    CHECK_NEAR(job->pieces[pieces - 1].length.value, 420.0, 0.0);
    return seconds;
}

static void a_chain_of_ten_thousand_pieces_is_read_in_about_linear_time(void **state)
{
    (void)state;
    double small = seconds_to_read(1000), large = seconds_to_read(10000);
    print_message("# 1000 pieces and joints: %.1f ms, 10 000: %.1f ms\n", small * 1e3, large * 1e3);
    assert_true(large < 40.0 * (small + 0.001));  // linear is 10, quadratic is 100
}

static void too_many_pieces_are_refused(void **state)
{
    (void)state;
    tw_gather all = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "job: B\npieces:\n");
    for (int i = 0; i <= TW_PIECES_MOST; i++) tw_putf(&sink, "  leg %d: {length: 1, width: 1, thickness: 1}\n", i);
    tw_gathered(&all);
    refused_job(all.bytes, "job.yaml:2:1: `pieces:` has 20001 entries; 20000 at most");
}

static void the_same_text_gives_the_same_words(void **state)
{
    (void)state;
    const char *text = "job: B\nunits: furlong\npieces:\n  a: {length: b.length, width: x, thickness: -1}\n  b: {length: a.length, widht: 1, thickness: [1]}\n";
    assert_null(job_of(tw_text_of(text)));
    char *first = tw_text_copy(&arena, tw_text_of(said()));
    assert_null(job_of(tw_text_of(text)));
    assert_string_equal(first, said());
}

#define CASE(name) cmocka_unit_test_teardown(name, finish)
/* 12.7 at the tip, 14 degrees, 10 above it: 12.7 - 20 tan 14 = 12.7 - 20 x 0.2493280 = 7.713440, by hand; tan from a table.
 * A slope of 1:8 is an angle too: atan(1/8) = 7.125 degrees. */
static void a_dovetail_cutter_narrows_from_its_tip_and_others_are_straight(void **state)
{
    (void)state;
    const tw_shop *shop = shop_of(
        "shop: Shed\nmachine: {ratio: 2, travel across: 150, travel up: 90, travel in: 70, holder across: 360, holder up: 220, table lowest: 110,\n"
        "  table highest: 5, nut radius: 22, top speed: 22000}\ncutters:\n  tail: {diameter: 12.7, cutting length: 12, dovetail: 14 deg}\n"
        "  slope: {diameter: 12.7, cutting length: 12, dovetail: 1:8}\n  spiral 8: {diameter: 8, cutting length: 32, plunges: yes}\nfollowers: {bush 16: {diameter: 16}}\n");
    if (!shop) print_error("%s", said());
    assert_non_null(shop);
    assert_false(tw_cutter_is_straight(&shop->cutters[0]));
    CHECK_NEAR(shop->cutters[0].dovetail.value, tw_radians(14.0), 1e-12);
    CHECK_NEAR(tw_cutter_diameter_at_mm(&shop->cutters[0], 0.0), 12.7, 1e-12);
    CHECK_NEAR(tw_cutter_diameter_at_mm(&shop->cutters[0], 10.0), 7.713440, 1e-6);
    CHECK_NEAR(tw_degrees(shop->cutters[1].dovetail.value), 7.125, 1e-3);
    assert_true(tw_cutter_is_straight(&shop->cutters[2]));
    CHECK_NEAR(tw_cutter_diameter_at_mm(&shop->cutters[2], 20.0), 8.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        CASE(a_small_job_takes_the_defaults),
        CASE(the_example_job_is_read),
        CASE(a_job_in_inches_writes_fractions),
        CASE(every_way_of_writing_figures_is_known),
        CASE(amounts_lean_on_each_other_in_any_order),
        CASE(amounts_need_no_quotes_between_braces),
        CASE(a_ratio_of_two_lengths_is_no_length),
        CASE(circles_are_shown_with_their_path),
        CASE(letters_of_three_scripts_make_names),
        CASE(a_byte_order_mark_and_carriage_returns_do_not_matter),
        CASE(a_document_mark_and_a_directive_are_allowed),
        CASE(a_name_of_ten_thousand_characters_is_refused_in_few_words),
        CASE(bytes_that_are_no_text_are_refused),
        CASE(an_empty_file_says_so),
        CASE(a_file_over_the_limit_is_refused),
        CASE(a_fault_far_down_is_found_soon),
        CASE(lines_of_nothing_but_tabs_do_not_matter),
        CASE(more_values_than_the_limit_are_refused),
        CASE(nesting_over_the_limit_is_refused_wherever_it_stands),
        CASE(two_hundred_errors_are_said_and_no_more),
        CASE(a_reading_after_a_full_list_is_not_called_good),
        CASE(errors_of_another_file_do_not_spoil_this_one),
        CASE(the_example_shop_is_read),
        CASE(a_shop_in_inches_takes_the_defaults),
        CASE(a_dovetail_cutter_narrows_from_its_tip_and_others_are_straight),
        CASE(the_page_of_a_joint_shows_its_keys),
        CASE(a_chain_of_ten_thousand_pieces_is_read_in_about_linear_time),
        CASE(too_many_pieces_are_refused),
        CASE(the_same_text_gives_the_same_words),
    };
    return cmocka_run_group_tests_name("job", tests, NULL, NULL);
}
