// SPDX-License-Identifier: GPL-3.0-or-later
/* Joints proposed from two places that were pointed at, and what goes with an entry that is taken out: each answer is a list of
 * changes that is made here and read back. */
#include "planned.h"

#include "begin/propose.h"
#include "job/written.h"
#include "piece/piece.h"

#define PIECES "job: stand\nunits: mm\npieces:\n" \
    "  post: {count: 2, length: 655, width: 110, thickness: 45, timber: \"Oak, white\"}\n" \
    "  rail: {count: 1, length: 900, width: 70, thickness: 28, timber: \"Oak, white\"}\n" \
    "  side: {count: 2, length: 420, width: 112, thickness: 16, timber: \"Oak, white\"}\n" \
    "  front: {count: 2, length: 260, width: 112, thickness: 16, timber: \"Oak, white\"}\n"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static tw_request request_of(const char *job)
{
    return (tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job.yaml", .shop = SHOP_MM,
        .shop_bytes = strlen(SHOP_MM), .shop_name = "shop.yaml" };
}

static const tw_proposal *proposed(const char *job, tw_pointed a, tw_pointed b, size_t *count)
{
    tw_request request = request_of(job);
    return tw_propose(&arena, &request, a, b, count);
}

static const tw_proposal *of_kind(const tw_proposal *items, size_t count, const char *kind)
{
    for (size_t i = 0; i < count; i++)
        if (strcmp(items[i].kind, kind) == 0) return &items[i];
    for (size_t i = 0; i < count; i++) print_error("%s: %s\n", items[i].label, items[i].halt);
    fail_msg("%s is not proposed", kind);
    return NULL;
}

static const char *changed_text(const char *job, const tw_change *changes, size_t count)
{
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = job, .bytes = strlen(job),
        .name = "job.yaml",
                                                               .changes = changes, .change_count = count });
    for (size_t i = 0; i < tw_changed_finding_count(changed); i++) print_error("%s\n", tw_changed_finding_at(changed, i).what);
    assert_true(tw_changed_is_good(changed));
    const char *text = tw_text_copy(&arena, tw_text_of(tw_changed_text(changed, NULL)));
    tw_changed_free(changed);
    return text;
}

static const tw_pointed RAIL_END = { "rail", TW_SIDE_RIGHT_END, 0.0, 0.0 };

static void an_end_at_a_side_takes_the_joints_of_an_end(void **state)
{
    (void)state;
    size_t count;
    const tw_proposal *items = proposed(PIECES, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.4, 54.0 }, &count);
    static const char *const kinds[] = { "mortise and tenon", "forked tusks", "single tusk", "slip tenon",
        "cross dowel and bolt" };
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) of_kind(items, count, kinds[i]);
    for (size_t i = 0; i < count; i++) assert_true(strcmp(items[i].kind, "edge lap") != 0 &&
        strcmp(items[i].kind, "finger joint") != 0);
}

static void a_proposal_made_reads_as_what_it_says(void **state)
{
    (void)state;
    size_t count;
    const tw_proposal *items = proposed(PIECES, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.4, 54.0 }, &count);
    const tw_proposal *one = of_kind(items, count, "mortise and tenon");
    assert_string_equal(one->name, "rail to post");
    CHECK_HOLDS(one->label, "both ends of rail in the back of post, 300 mm from its left end");
    const char *text = changed_text(PIECES, one->changes, one->change_count);
    CHECK_HOLDS(text, "rail to post:");
    CHECK_HOLDS(text, "at: 300 mm");
    CHECK_HOLDS(text, "ends: both");  // two posts for one rail: one for each end
    assert_null(strstr(text, "across"));  // pointed at near the middle
    assert_memory_equal(text, PIECES, strlen(PIECES));  // what stood there stands there
}

static void the_order_in_which_one_points_does_not_matter(void **state)
{
    (void)state;
    size_t count, turned;
    tw_pointed side = { "post", TW_SIDE_BACK, 300.0, 55.0 };
    const tw_proposal *items = proposed(PIECES, RAIL_END, side, &count), *other = proposed(PIECES, side, RAIL_END, &turned);
    assert_int_equal(count, turned);
    for (size_t i = 0; i < count; i++) assert_string_equal(items[i].label, other[i].label);
}

static void away_from_the_middle_the_place_across_is_kept(void **state)
{
    (void)state;
    size_t count;
    const tw_proposal *items = proposed(PIECES, RAIL_END, (tw_pointed){ "post", TW_SIDE_FACE, 300.0, 30.2 }, &count);
    const char *text = changed_text(PIECES, of_kind(items, count, "mortise and tenon")->changes, 1);
    CHECK_HOLDS(text, "across: 30 mm");
}

static void one_piece_for_one_end_is_joined_at_the_end_pointed_at(void **state)
{
    (void)state;
    static const char *const job = "job: stand\nunits: mm\npieces:\n  post: {length: 655, width: 110, thickness: 45}\n"
        "  rail: {length: 900, width: 70, thickness: 28}\n";
    size_t count;
    const tw_proposal *items = proposed(job, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.0, 55.0 }, &count);
    CHECK_HOLDS(changed_text(job, of_kind(items, count, "mortise and tenon")->changes, 1), "ends: right");
}

static void two_sides_cross_in_laps_and_two_edges_in_edge_laps(void **state)
{
    (void)state;
    size_t count;
    const tw_proposal *items = proposed(PIECES, (tw_pointed){ "rail", TW_SIDE_BACK, 450.0, 35.0 },
        (tw_pointed){ "post", TW_SIDE_FACE, 300.0, 55.0 }, &count);
    const tw_proposal *lap = of_kind(items, count, "cross lap");
    const char *text = changed_text(PIECES, lap->changes, 1);
    CHECK_HOLDS(text, "over at: 450 mm");
    CHECK_HOLDS(text, "under at: 300 mm");
    CHECK_HOLDS(text, "under side: face");
    items = proposed(PIECES, (tw_pointed){ "side", TW_SIDE_FACE_EDGE, 200.0, 8.0 },
        (tw_pointed){ "front", TW_SIDE_BACK_EDGE, 130.0, 8.0 }, &count);
    of_kind(items, count, "edge lap");
}

static void two_ends_meet_in_the_corners_of_a_box(void **state)
{
    (void)state;
    size_t count;
    const tw_proposal *items = proposed(PIECES, (tw_pointed){ "side", TW_SIDE_RIGHT_END, 0.0, 0.0 },
        (tw_pointed){ "front", TW_SIDE_LEFT_END, 0.0, 0.0 }, &count);
    const tw_proposal *finger = of_kind(items, count, "finger joint");
    CHECK_HOLDS(finger->label, "all corners of a box");
    CHECK_HOLDS(changed_text(PIECES, finger->changes, 1), "into ends: both");
    of_kind(items, count, "through dovetail");
}

static void a_name_that_is_taken_gets_a_number(void **state)
{
    (void)state;
    static const char *const job = PIECES "joints:\n"
        "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: face, at: 100}\n";
    size_t count;
    const tw_proposal *items = proposed(job, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.0, 55.0 }, &count);
    assert_string_equal(of_kind(items, count, "slip tenon")->name, "rail to post 2");
}

/* Two posts, a rail with two ends: a second place in each post wants a second rail. */
static void a_joint_that_is_there_can_get_one_more_place_with_the_pieces_that_it_wants(void **state)
{
    (void)state;
    static const char *const job = PIECES "joints:\n"
        "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: face, at: 50 * 2}  # low\n";
    size_t count;
    const tw_proposal *items = proposed(job, RAIL_END, (tw_pointed){ "post", TW_SIDE_FACE, 400.3, 55.0 }, &count);
    assert_string_equal(items[0].label, "One more place of rail to post, 400 mm from the left end of post, and 2 of rail");
    assert_string_equal(items[0].halt, "");
    assert_int_equal(items[0].change_count, 2);
    const char *text = changed_text(job, items[0].changes, 2);
    CHECK_HOLDS(text, "at: [50 * 2, 400 mm]}  # low");
    CHECK_HOLDS(text, "rail: {count: 2,");
    // another side
    const tw_proposal *other = proposed(job, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 400.0, 55.0 }, &count);
    for (size_t i = 0; i < count; i++) assert_null(strstr(other[i].label, "One more place"));
}

static void what_brings_no_halt_stands_before_what_brings_one(void **state)
{
    (void)state;
    size_t count, halts = 0;
    const tw_proposal *items = proposed(PIECES, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.0, 55.0 }, &count);
    for (size_t i = 0; i < count; i++) {
        if (items[i].halt[0]) halts++;
        else assert_int_equal(halts, 0);
    }
    items = proposed(PIECES, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 650.0, 55.0 }, &count);  // over the end of the post
    assert_true(items[count - 1].halt[0] != '\0');
}

static void inch_jobs_get_places_in_eighths(void **state)
{
    (void)state;
    static const char *const job = "job: stand\nunits: in\npieces:\n"
        "  post: {count: 2, length: 26, width: 4 1/2, thickness: 1 3/4}\n  rail: {length: 36, width: 2 3/4, thickness: 1 1/8}\n";
    size_t count;
    const tw_proposal *items = proposed(job, RAIL_END, (tw_pointed){ "post", TW_SIDE_BACK, 300.0, 57.0 }, &count);
    // 300 mm = 11.811 in
    CHECK_HOLDS(changed_text(job, of_kind(items, count, "mortise and tenon")->changes, 1), "at: 11 3/4 in");
}

static void nothing_is_proposed_where_nothing_can_be(void **state)
{
    (void)state;
    size_t count;
    tw_pointed side = { "post", TW_SIDE_BACK, 300.0, 55.0 }, same = { "post", TW_SIDE_RIGHT_END, 0.0, 0.0 }, unknown =
        { "leg", TW_SIDE_RIGHT_END, 0.0, 0.0 };
    assert_null(proposed(PIECES, same, side, &count));
    assert_int_equal(count, 0);
    assert_null(proposed(PIECES, unknown, side, &count));
    assert_null(proposed("job: [", RAIL_END, side, &count));
    assert_null(proposed(PIECES, (tw_pointed){ "rail", 9, 0.0, 0.0 }, side, &count));
    assert_null(proposed(PIECES, (tw_pointed){ "rail", TW_SIDE_RIGHT_END, 0.0, 0.0 },
        (tw_pointed){ "post", TW_SIDE_BACK, NAN, 0.0 }, &count));
    assert_null(proposed(PIECES, (tw_pointed){ "rail", TW_SIDE_BACK, 450.0, 35.0 },
        (tw_pointed){ "post", TW_SIDE_FACE_EDGE, 300.0, 22.0 }, &count));
}

/* ---- removal ---- */

static const char *const JOINED = PIECES
    "base: rail\n"
    "amounts: {play: 2}\n"
    "joints:\n"
    "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: face, at: 100}  # low\n"
    "  corners: {kind: finger joint, fingers: side, into: front}\n"
    "profiles:\n"
    "  eased rail: {kind: chamfer, piece: rail, arrises: all, width: 3}\n";

static const tw_change *removed(const char *text, const char *section, const char *name, size_t *count)
{
    tw_findings findings = { .arena = &arena };
    const tw_job *job = tw_job_read(&arena, tw_text_of(text), "job.yaml", tw_joint_formats(&arena), tw_joint_kind_count,
        &findings);
    if (!job) fail_msg("%s", findings.items[0].what);
    return tw_removal(&arena, job, section, name, count);
}

static void a_piece_goes_with_its_joints_its_profiles_and_its_being_the_base(void **state)
{
    (void)state;
    size_t count;
    const tw_change *changes = removed(JOINED, "pieces", "rail", &count);
    assert_int_equal(count, 4);
    const char *text = changed_text(JOINED, changes, count);
    assert_null(strstr(text, "rail"));
    CHECK_HOLDS(text, "corners: {kind: finger joint, fingers: side, into: front}");
    CHECK_HOLDS(text, "post: {count: 2");
}

static void a_joint_a_profile_and_an_amount_go_alone(void **state)
{
    (void)state;
    static const char *const names[][2] = { { "joints", "corners" }, { "profiles", "eased rail" }, { "amounts", "play" } };
    for (size_t i = 0; i < 3; i++) {
        size_t count;
        const tw_change *changes = removed(JOINED, names[i][0], names[i][1], &count);
        assert_int_equal(count, 1);
        const char *text = changed_text(JOINED, changes, count);
        assert_null(strstr(text, names[i][1]));
        CHECK_HOLDS(text, "rail to post");
    }
}

static void what_is_not_there_takes_nothing_out(void **state)
{
    (void)state;
    static const char *const names[][2] = { { "pieces", "corners" }, { "joints", "rail" }, { "joints", "eased rail" },
        { "spacers", "rail" }, { "pieces", "" } };
    for (size_t i = 0; i < 5; i++) {
        size_t count = 7;
        assert_null(removed(JOINED, names[i][0], names[i][1], &count));
        assert_int_equal(count, 0);
    }
}

static void what_others_reckon_with_is_not_taken_out_in_silence(void **state)
{
    (void)state;
    static const char *const job = "job: stand\npieces:\n  post: {length: 655, width: 110, thickness: 45}\n"
        "  rail: {length: post.length, width: 70, thickness: 28}\n";
    size_t count;
    const tw_change *changes = removed(job, "pieces", "post", &count);
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = job, .bytes = strlen(job),
        .name = "job.yaml", .changes = changes, .change_count = count });
    assert_false(tw_changed_is_good(changed));
    CHECK_HOLDS(tw_changed_finding_at(changed, 0).what, "post");
    tw_changed_free(changed);
}

/* ---- amounts as written ---- */

static void lengths_are_written_as_the_job_gives_sizes_and_to_the_side_asked(void **state)
{
    (void)state;
    tw_job mm = { .figures = { TW_FIGURES_MM, 1, 64 } }, parts = { .figures = { TW_FIGURES_FRACTION, 0, 64 },
        .inch_sizes = true },
           inch = { .figures = { TW_FIGURES_INCH, 3, 64 }, .inch_sizes = true }, shown_in_inches =
               { .figures = { TW_FIGURES_INCH, 3, 64 } };
    assert_string_equal(tw_job_written_length(&arena, &mm, 13.912, TW_ROUND_UP), "14 mm");
    assert_string_equal(tw_job_written_length(&arena, &mm, 13.912, TW_ROUND_DOWN), "13.9 mm");
    assert_string_equal(tw_job_written_length(&arena, &mm, 13.90000001, TW_ROUND_UP), "13.9 mm");
    assert_string_equal(tw_job_written_length(&arena, &shown_in_inches, 13.94, TW_ROUND_NEAREST), "13.9 mm");
    assert_string_equal(tw_job_written_length(&arena, &parts, 14.0, TW_ROUND_UP), "9/16 in");     // 14.2875
    assert_string_equal(tw_job_written_length(&arena, &parts, 14.0, TW_ROUND_DOWN), "35/64 in");  // 13.89
    assert_string_equal(tw_job_written_length(&arena, &parts, 50.8, TW_ROUND_DOWN), "2 in");
    assert_string_equal(tw_job_written_length(&arena, &inch, 14.0, TW_ROUND_UP), "0.552 in");
    assert_string_equal(tw_job_written_angle(&arena, tw_radians(4.83), TW_ROUND_DOWN), "4.8 deg");
    assert_string_equal(tw_job_written_angle(&arena, tw_radians(5.0), TW_ROUND_DOWN), "5 deg");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(an_end_at_a_side_takes_the_joints_of_an_end, finish),
        cmocka_unit_test_teardown(a_proposal_made_reads_as_what_it_says, finish),
        cmocka_unit_test_teardown(the_order_in_which_one_points_does_not_matter, finish),
        cmocka_unit_test_teardown(away_from_the_middle_the_place_across_is_kept, finish),
        cmocka_unit_test_teardown(one_piece_for_one_end_is_joined_at_the_end_pointed_at, finish),
        cmocka_unit_test_teardown(two_sides_cross_in_laps_and_two_edges_in_edge_laps, finish),
        cmocka_unit_test_teardown(two_ends_meet_in_the_corners_of_a_box, finish),
        cmocka_unit_test_teardown(a_name_that_is_taken_gets_a_number, finish),
        cmocka_unit_test_teardown(a_joint_that_is_there_can_get_one_more_place_with_the_pieces_that_it_wants, finish),
        cmocka_unit_test_teardown(what_brings_no_halt_stands_before_what_brings_one, finish),
        cmocka_unit_test_teardown(inch_jobs_get_places_in_eighths, finish),
        cmocka_unit_test_teardown(nothing_is_proposed_where_nothing_can_be, finish),
        cmocka_unit_test_teardown(a_piece_goes_with_its_joints_its_profiles_and_its_being_the_base, finish),
        cmocka_unit_test_teardown(a_joint_a_profile_and_an_amount_go_alone, finish),
        cmocka_unit_test_teardown(what_is_not_there_takes_nothing_out, finish),
        cmocka_unit_test_teardown(what_others_reckon_with_is_not_taken_out_in_silence, finish),
        cmocka_unit_test_teardown(lengths_are_written_as_the_job_gives_sizes_and_to_the_side_asked, finish),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
