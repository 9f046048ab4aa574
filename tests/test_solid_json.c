// SPDX-License-Identifier: GPL-3.0-or-later
/* What the page is shown of the solids: bytes as text held to the published vectors, and small jobs whose places are known by
 * hand. Whole jobs are read with another program's base64 in outside/solid_json.py. */
#include "planned.h"

#include "base/bytes.h"
#include "sheet/bodies.h"
#include "sheet/solid_json.h"

static planned p;
static tw_space space;
static const char *told;   // what was written last
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); p = (planned){0}; return 0; }

static const char *tell(const tw_paper_input *input)
{
    tw_gather all = { .arena = &p.arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_solids_json_put(&p.arena, input, 0.05, &sink);
    return told = tw_gathered(&all).bytes;
}

static tw_paper_input placed(const char *job)
{
    p = planned_of(job, SHOP_MM);
    plan(&p);
    space = tw_space_make(&p.arena, p.job, p.plans, tw_plan_count(p.job));
    return (tw_paper_input){ .job = p.job, .shop = p.shop, .plans = p.plans, .plan_count = tw_plan_count(p.job),
        .space = &space };
}

/* ---- bytes as text ---- */

static const char *as_base64(const char *bytes, size_t count)
{
    tw_gather all = { .arena = &p.arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_base64(&sink, (tw_text){ bytes, count });
    return tw_gathered(&all).bytes;
}

/* RFC 4648 section 10. */
static void base64_is_that_of_the_published_vectors(void **state)
{
    (void)state;
    static const char *const pairs[][2] = { { "", "" }, { "f", "Zg==" }, { "fo", "Zm8=" }, { "foo", "Zm9v" },
        { "foob", "Zm9vYg==" }, { "fooba", "Zm9vYmE=" },
                                            { "foobar", "Zm9vYmFy" } };
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++)
        assert_string_equal(as_base64(pairs[i][0], strlen(pairs[i][0])), pairs[i][1]);
}

/* Table 1 there: 62 is +, 63 is /. Bytes above 127 are bytes too. */
static void base64_takes_every_byte(void **state)
{
    (void)state;
    assert_string_equal(as_base64("\xfb\xef\xbe\xff\xff\xff", 6), "++++////");
    assert_string_equal(as_base64("\0\0\0", 3), "AAAA");
}

/* IEEE 754: 1 is 3f800000, -2.5 is c0200000; minus nothing is nothing. */
static void numbers_stand_with_their_least_byte_first(void **state)
{
    (void)state;
    tw_gather all = { .arena = &p.arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_float(&sink, 1.0);
    tw_put_float(&sink, -2.5);
    tw_put_float(&sink, -0.0);
    tw_put_u32(&sink, 0x01020304u);
    tw_put_u16(&sink, 0xABCDu);
    assert_int_equal(all.count, 18);
    assert_memory_equal(all.bytes, "\0\0\x80\x3f" "\0\0\x20\xc0" "\0\0\0\0" "\4\3\2\1" "\xcd\xab", 18);
}

/* ---- reading back ---- */

static int digit_of(char c)
{
    static const char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    const char *at = strchr(digits, c);
    return c && at ? (int)(at - digits) : -1;
}

/* The bytes of a list of the n-th kind. */
static const unsigned char *list_of(const char *key, int kind, size_t *count)
{
    const char *mark = tw_format(&p.arena, "\"%s\": \"", key), *at = strstr(told, mark);
    for (int i = 0; at && i < kind; i++) at = strstr(at + 1, mark);
    if (!at) fail_msg("no %s", key);
    at += strlen(mark);
    unsigned char *bytes = tw_arena_take(&p.arena, strlen(at) + 1, 1);
    unsigned bits = 0, held = 0;
    for (*count = 0; digit_of(*at) >= 0; at++) {
        bits = bits << 6 | (unsigned)digit_of(*at);
        held += 6;
        if (held >= 8) bytes[(*count)++] = (unsigned char)(bits >> (held -= 8) & 255);
    }
    return bytes;
}

#define BLOCK "job: test\nunits: mm\npieces:\n  block: {length: 300, width: 80, thickness: 20}\n"

/* ---- kinds ---- */

/* A brick has 8 corners, 12 edges and 6 sides of two triangles each, none of them of a cut. */
static void piece_without_cuts_is_a_brick(void **state)
{
    (void)state;
    tw_paper_input input = placed(BLOCK);
    tell(&input);
    size_t points, triangles, edges, sources, faces;
    list_of("points", 0, &points);
    list_of("triangles", 0, &triangles);
    list_of("edges", 0, &edges);
    const unsigned char *source = list_of("source", 0, &sources), *face = list_of("face", 0, &faces);
    assert_int_equal(points, 8 * 3 * 4);
    assert_int_equal(triangles, 12 * 3 * 4);
    assert_int_equal(edges, 12 * 2 * 4);
    assert_int_equal(sources, 12 * 2);
    assert_int_equal(faces, 12);
    int of[TW_FACE_COUNT] = { 0 };
    for (size_t i = 0; i < faces; i++) of[face[i]]++;
    for (int i = 0; i < TW_FACE_COUNT; i++) assert_int_equal(of[i], 2);
    for (size_t i = 0; i < sources; i++) assert_int_equal(source[i], 0);
    CHECK_HOLDS(told, "\"closed\": true");
}

#define RAILED "job: test\nunits: mm\npieces:\n  post: {count: 1, length: 700, width: 70, thickness: 60}\n" \
    "  rail: {length: 900, width: 60, thickness: 40}\njoints:\n" \
    "  rail to post: {kind: mortise and tenon, tenon: rail, ends: left, into: post, from: face, at: 300, depth: 40, fit: dry}\n"

/* A mortise has four walls and a bottom; its walls go in from the face. */
static void walls_of_a_mortise_name_their_cut_and_the_face_it_goes_in_from(void **state)
{
    (void)state;
    tw_paper_input input = placed(RAILED);
    tell(&input);
    size_t count, faces;
    const unsigned char *source = list_of("source", 0, &count), *face = list_of("face", 0, &faces);
    int of_cut = 0;
    for (size_t i = 0; i < faces; i++) {
        if (source[2 * i] == 0) continue;
        assert_int_equal(source[2 * i], 1);
        assert_int_equal(face[i], TW_SIDE_FACE);
        of_cut++;
    }
    assert_true(of_cut >= 10);
    CHECK_HOLDS(told, "\"the mortise of rail to post\"");
}

/* ---- places ---- */

/* The matrix of the n-th thing that stands. */
static tw_pose matrix_of(int thing)
{
    const char *at = told;
    for (int i = 0; i <= thing; i++) {
        at = strstr(at + 1, "\"matrix\": [");
        if (!at) fail_msg("no thing %d", thing);
    }
    double n[12];
    at += strlen("\"matrix\": [");
    for (int i = 0; i < 12; i++) {
        char *end;
        n[i] = strtod(at, &end);
        assert_true(end > at);
        at = end + 1;
    }
    return (tw_pose){ { n[0], n[1], n[2] }, { n[3], n[4], n[5] }, { n[6], n[7], n[8] }, { n[9], n[10], n[11] } };
}

/* By hand: the rail stands square on the post's face, its middle 300 from the post's left end and in the middle of the face,
 * 70/2 = 35; its 60 of width run along the post, its 40 of thickness across. Its right end is 900 less the tenon away from the
 * face, which is at 60. */
static void corners_come_out_where_the_joint_says(void **state)
{
    (void)state;
    tw_paper_input input = placed(RAILED);
    tell(&input);
    tw_pose in_post = tw_pose_compose(tw_pose_inverse(matrix_of(0)), matrix_of(1));
    const tw_figure *tenon = tw_plan_find(&p.plans[0], "tenon_length");
    assert_non_null(tenon);
    double least[3] = { INFINITY, INFINITY, INFINITY }, most[3] = { -INFINITY, -INFINITY, -INFINITY };
    for (int i = 0; i < 4; i++) {
        tw_spot corner = tw_pose_apply(in_post, (tw_spot){ 900, i & 1 ? 60 : 0, i & 2 ? 40 : 0 });
        double at[3] = { corner.x, corner.y, corner.z };
        for (int k = 0; k < 3; k++) {
            least[k] = tw_min(least[k], at[k]);
            most[k] = tw_max(most[k], at[k]);
        }
    }
    CHECK_NEAR(least[0], 270, 1e-6);
    CHECK_NEAR(most[0], 330, 1e-6);
    CHECK_NEAR(least[1], 15, 1e-6);
    CHECK_NEAR(most[1], 55, 1e-6);
    CHECK_NEAR(least[2], 960 - tenon->value, 1e-6);
    CHECK_NEAR(most[2], 960 - tenon->value, 1e-6);
}

static void without_space_nothing_stands_and_it_is_said(void **state)
{
    (void)state;
    tw_paper_input input = placed(RAILED);
    input.space = NULL;
    tell(&input);
    CHECK_HOLDS(told, "\"stood\": []");
    CHECK_HOLDS(told, "\"steps\": []");
    CHECK_HOLDS(told, "nothing stands together");
    input.space = &(tw_space){ .too_many = true };
    tell(&input);
    CHECK_HOLDS(told, "too many pieces");
}

static void a_piece_alone_has_no_steps_and_no_note(void **state)
{
    (void)state;
    tw_paper_input input = placed(BLOCK);
    tell(&input);
    CHECK_HOLDS(told, "\"moves\": []");
    CHECK_HOLDS(told, "\"step\": 0");
    CHECK_HOLDS(told, "\"note\": \"\"");
    assert_null(strstr(told, "\"words\""));
}

static void piece_of_which_nothing_is_left_is_told(void **state)
{
    (void)state;
    tw_paper_input input = placed(BLOCK);
    tw_bodies bodies = *tw_bodies_make(&p.arena, p.job, p.plans, input.plan_count, 0.05);
    const tw_solid *none = tw_solid_make(&p.arena, (tw_size){ 300, 80, 20 }, &(tw_cut){ .face = TW_SIDE_FACE, .through = true,
                                         .outline = tw_outline_rectangle(&p.arena, -1, -1, 301, 81) }, 1, 0.05);
    bodies.pieces = &none;
    input.bodies = &bodies;
    tell(&input);
    CHECK_HOLDS(told, "nothing is left of block");
    CHECK_HOLDS(told, "\"triangles\": \"\"");
}

/* ---- a sink that takes no more ---- */

static bool take_nothing(void *context, const char *bytes, size_t count)
{
    (void)context; (void)bytes; (void)count;
    return false;
}

static void sink_that_fails_stays_failed(void **state)
{
    (void)state;
    tw_paper_input input = placed(BLOCK);
    tw_sink sink = { .write = take_nothing };
    tw_solids_json_put(&p.arena, &input, 0.05, &sink);
    assert_true(sink.failed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(base64_is_that_of_the_published_vectors, finish),
        cmocka_unit_test_teardown(base64_takes_every_byte, finish),
        cmocka_unit_test_teardown(numbers_stand_with_their_least_byte_first, finish),
        cmocka_unit_test_teardown(piece_without_cuts_is_a_brick, finish),
        cmocka_unit_test_teardown(walls_of_a_mortise_name_their_cut_and_the_face_it_goes_in_from, finish),
        cmocka_unit_test_teardown(corners_come_out_where_the_joint_says, finish),
        cmocka_unit_test_teardown(without_space_nothing_stands_and_it_is_said, finish),
        cmocka_unit_test_teardown(a_piece_alone_has_no_steps_and_no_note, finish),
        cmocka_unit_test_teardown(piece_of_which_nothing_is_left_is_told, finish),
        cmocka_unit_test_teardown(sink_that_fails_stays_failed, finish),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
