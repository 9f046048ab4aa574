// SPDX-License-Identifier: GPL-3.0-or-later
/* Pieces that are alike, mirror images or neither: by hand, and by turning seeded pieces about. */
#include "check.h"

#include "piece/alike.h"

static tw_arena arena;
static int finish(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size BOARD = { 400, 100, 40 };

static tw_cut cut_of(tw_face face, tw_outline outline, double depth) { return (tw_cut){ .face = face, .outline = outline, .depth_mm = depth }; }
static tw_cut rectangle(tw_face face, double x0, double y0, double x1, double y1, double depth) { return cut_of(face, tw_outline_rectangle(&arena, x0, y0, x1, y1), depth); }

static tw_likeness likeness(tw_size size, const tw_cut *a, int count_a, const tw_cut *b, int count_b, tw_symmetry *how)
{
    return tw_pieces_alike(&arena, (tw_cut_list){ size, a, count_a }, (tw_cut_list){ size, b, count_b }, how);
}

static void same_cuts_are_alike_as_they_lie(void **state)
{
    (void)state;
    tw_cut a = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, &a, 1, &how), TW_ALIKE);
    assert_string_equal(tw_symmetry_words(how), "");
}

/* A mortise off the middle in every way. Left side: 30..90, y 10..30. The right side has it as in a mirror. */
static void left_and_right_side_are_mirror_images(void **state)
{
    (void)state;
    tw_cut left = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20), right = rectangle(TW_SIDE_FACE, 30, 70, 90, 90, 20);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &left, 1, &right, 1, &how), TW_MIRRORED);
}

/* The same mortise at the other end and the other edge: the board turned about, face up. */
static void board_turned_end_for_end_is_alike(void **state)
{
    (void)state;
    tw_cut a = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20), b = rectangle(TW_SIDE_FACE, 310, 70, 370, 90, 20);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, &b, 1, &how), TW_ALIKE);
    assert_string_equal(tw_symmetry_words(how), "turned end for end");
}

/* From the back: its frame is that of the board rolled over, so the same numbers there are the same piece. */
static void cut_in_the_back_is_the_cut_in_the_face_of_a_board_rolled_over(void **state)
{
    (void)state;
    tw_cut a = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20), b = rectangle(TW_SIDE_BACK, 30, 10, 90, 30, 20);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, &b, 1, &how), TW_ALIKE);
    assert_string_equal(tw_symmetry_words(how), "rolled over, face down");
}

static void housing_across_the_whole_width_has_no_hand(void **state)
{
    (void)state;
    tw_cut a = rectangle(TW_SIDE_FACE, 100, 0, 120, 100, 10), b = rectangle(TW_SIDE_FACE, 280, 0, 300, 100, 10);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, &b, 1, &how), TW_ALIKE);
}

/* One hole, cut from the face or from the back, in one go or in two halves: the wood is the same. */
static void wood_counts_and_not_the_list_of_cuts(void **state)
{
    (void)state;
    tw_cut a = cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 60, 20 }, 8), 40);
    tw_cut b[] = { cut_of(TW_SIDE_BACK, tw_outline_circle(&arena, (tw_point){ 60, 80 }, 8), 25), cut_of(TW_SIDE_FACE, tw_outline_circle(&arena, (tw_point){ 60, 20 }, 8), 15) };
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, b, 2, &how), TW_ALIKE);
    assert_string_equal(tw_symmetry_words(how), "");
}

static void small_peg_hole_makes_a_piece_another(void **state)
{
    (void)state;
    tw_cut a[] = { rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20), cut_of(TW_SIDE_FACE_EDGE, tw_outline_circle(&arena, (tw_point){ 60, 30 }, 2), 35) };
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, a, 2, a, 1, &how), TW_UNLIKE);
    assert_int_equal(likeness(BOARD, a, 1, a, 2, &how), TW_UNLIKE);
}

static void depth_that_differs_makes_a_piece_another(void **state)
{
    (void)state;
    tw_cut a = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20), b = rectangle(TW_SIDE_FACE, 30, 10, 90, 30, 20.1);
    tw_symmetry how;
    assert_int_equal(likeness(BOARD, &a, 1, &b, 1, &how), TW_UNLIKE);
    b.depth_mm = 20.01;
    assert_int_equal(likeness(BOARD, &a, 1, &b, 1, &how), TW_ALIKE);
}

/* A square post: the mortise in its face or in its face edge. Seen on that edge, right is along and up is z. */
static void square_post_can_be_turned_by_a_quarter(void **state)
{
    (void)state;
    const tw_size post = { 700, 50, 50 };
    tw_cut in_face = rectangle(TW_SIDE_FACE, 30, 10, 90, 25, 20), in_edge = rectangle(TW_SIDE_FACE_EDGE, 30, 10, 90, 25, 20), mirrored = rectangle(TW_SIDE_FACE_EDGE, 30, 25, 90, 40, 20);
    tw_symmetry how;
    assert_int_equal(likeness(post, &in_face, 1, &in_edge, 1, &how), TW_ALIKE);  // a frame of a face is right-handed on every face
    assert_string_equal(tw_symmetry_words(how), "turned by a quarter about its length");
    assert_int_equal(likeness(post, &in_face, 1, &mirrored, 1, &how), TW_MIRRORED);
}

/* Random pieces; each cut laid over by a turn of the board, worked out here face by face. */
static tw_cut turned_about(tw_cut cut, int way)
{
    static const tw_face about_z[] = { TW_SIDE_FACE, TW_SIDE_BACK, TW_SIDE_BACK_EDGE, TW_SIDE_FACE_EDGE, TW_SIDE_RIGHT_END, TW_SIDE_LEFT_END };
    static const tw_face about_x[] = { TW_SIDE_BACK, TW_SIDE_FACE, TW_SIDE_BACK_EDGE, TW_SIDE_FACE_EDGE, TW_SIDE_LEFT_END, TW_SIDE_RIGHT_END };
    tw_size e = tw_face_extent(BOARD, cut.face);
    tw_outline half = tw_outline_moved(&arena, tw_outline_turned(&arena, cut.outline, TW_PI), e.length_mm, e.width_mm);
    bool end = cut.face >= TW_SIDE_LEFT_END;
    tw_cut to = cut;
    to.face = way ? about_x[cut.face] : about_z[cut.face];
    // about z what was right is left on every side, and edges, whose up is z on one and -z on the other, stand on their heads; an end is
    // carried over as it is. About x an end is turned before our eyes, and the sides are carried over
    if (way ? end : !end) {
        to.outline = half;
        to.lean_right = -cut.lean_right;
        to.lean_up = -cut.lean_up;
    }
    return to;
}

static tw_cut seeded_cut(check_seed *seed)
{
    tw_face face = (tw_face)(check_random(seed) % TW_FACE_COUNT);
    tw_size e = tw_face_extent(BOARD, face);
    double x = check_between(seed, 0.05, 0.6) * e.length_mm, y = check_between(seed, 0.05, 0.6) * e.width_mm, w = check_between(seed, 0.1, 0.4) * e.length_mm, h = check_between(seed, 0.1, 0.4) * e.width_mm;
    const tw_vertex v[] = { { x, y, 0 }, { x + w, y + 0.3 * h, 0.3 }, { x + 0.7 * w, y + h, 0 } };
    tw_cut cut = cut_of(face, tw_outline_of_loop(&arena, v, 3), e.thickness_mm * check_between(seed, 0.1, 0.7));
    if (check_random(seed) % 3 == 0) cut.lean_right = check_between(seed, -0.2, 0.2);
    return cut;
}

static void seeded_pieces_turned_about_stay_alike_and_mirrored_ones_do_not(void **state)
{
    (void)state;
    check_seed seed = { 61 };
    for (int round = 0; round < 60; round++) {
        tw_cut cuts[3], turned[3], mirrored[3];
        int way = round % 2;
        for (int i = 0; i < 3; i++) {
            cuts[i] = seeded_cut(&seed);
            turned[2 - i] = turned_about(cuts[i], way);
        }
        tw_symmetry how;
        assert_int_equal(likeness(BOARD, cuts, 3, turned, 3, &how), TW_ALIKE);
        assert_string_equal(tw_symmetry_words(how), way ? "rolled over, face down" : "turned end for end");
        for (int i = 0; i < 3; i++) {  // in a mirror held to the right end: x to L - x. Ends change, and right and left on all faces
            mirrored[i] = cuts[i];
            mirrored[i].outline = tw_outline_moved(&arena, tw_outline_mirrored(&arena, cuts[i].outline), tw_face_extent(BOARD, cuts[i].face).length_mm, 0.0);
            mirrored[i].lean_right = -cuts[i].lean_right;
            if (cuts[i].face >= TW_SIDE_LEFT_END) mirrored[i].face = tw_face_opposite(cuts[i].face);
        }
        assert_int_equal(likeness(BOARD, cuts, 3, mirrored, 3, &how), TW_MIRRORED);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(same_cuts_are_alike_as_they_lie),
        cmocka_unit_test(left_and_right_side_are_mirror_images),
        cmocka_unit_test(board_turned_end_for_end_is_alike),
        cmocka_unit_test(cut_in_the_back_is_the_cut_in_the_face_of_a_board_rolled_over),
        cmocka_unit_test(housing_across_the_whole_width_has_no_hand),
        cmocka_unit_test(wood_counts_and_not_the_list_of_cuts),
        cmocka_unit_test(small_peg_hole_makes_a_piece_another),
        cmocka_unit_test(depth_that_differs_makes_a_piece_another),
        cmocka_unit_test(square_post_can_be_turned_by_a_quarter),
        cmocka_unit_test(seeded_pieces_turned_about_stay_alike_and_mirrored_ones_do_not),
    };
    return cmocka_run_group_tests_name("alike", tests, NULL, finish);
}
