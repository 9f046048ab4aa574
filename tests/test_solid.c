// SPDX-License-Identifier: GPL-3.0-or-later
/* Solids: volumes by closed forms, closed skins over seeded cuts, places asked one by one; what is seen of them and what is
 * hidden; STL to the byte. The layout and size of binary STL are those published (84 + 50 n bytes; 684 for a box). */
#include "check.h"

#include "solid/solid.h"

static tw_arena arena;
static int new_arena(void **state) { (void)state; arena = (tw_arena){0}; return 0; }
static int end_arena(void **state) { (void)state; tw_arena_finish(&arena); return 0; }

static const tw_size board = { 400, 100, 40 };

static tw_cut pocket(tw_face face, double x0, double y0, double x1, double y1, double depth_mm)
{
    return (tw_cut){ .face = face, .outline = tw_outline_rectangle(&arena, x0, y0, x1, y1), .depth_mm = depth_mm };
}

static tw_solid *solid_of(const tw_cut *cuts, int count) { return tw_solid_make(&arena, board, cuts, count, TW_SOLID_CHORD_MM); }

static void expect_closed(const tw_solid *solid, double volume_mm3, int facets)
{
    assert_true(solid->closed);
    CHECK_NEAR(tw_solid_volume_mm3(solid), volume_mm3, 1e-6 * volume_mm3);
    if (facets >= 0) assert_int_equal(solid->facet_count, facets);
}

static void a_blank_has_six_faces_and_twelve_triangles(void **state)
{
    (void)state;
    tw_solid *solid = solid_of(NULL, 0);
    expect_closed(solid, 400.0 * 100 * 40, 6);
    assert_int_equal(solid->triangle_count, 12);
    assert_int_equal(solid->crease_count, 12);
    assert_int_equal(solid->point_count, 8);
}

static void a_blind_mortise_adds_four_walls_and_a_bottom(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_FACE, 100, 30, 160, 42, 25);
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 25, 11);
}

static void a_mortise_through_has_no_bottom(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_BACK, 100, 30, 160, 42, 40);
    cut.through = true;
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 40, 10);
    cut.through = false;   // a depth that is the whole thickness goes through as well
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 40, 10);
}

/* A circle of n chords has the area n/2 R^2 sin(2 pi / n). */
static void a_round_hole_takes_the_area_of_its_chords(void **state)
{
    (void)state;
    tw_cut cut = { .face = TW_SIDE_FACE, .outline = tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), .through = true };
    tw_solid *solid = solid_of(&cut, 1);
    int n = solid->facet_count - 6;
    expect_closed(solid, 1600000.0 - 40.0 * n / 2 * 100 * sin(2 * TW_PI / n), -1);
    CHECK_NEAR(tw_solid_volume_mm3(solid), 1600000.0 - 40.0 * TW_PI * 100, 40.0 * 2 * TW_PI * 10 * TW_SOLID_CHORD_MM);
    int smooth = 0;
    for (int i = 0; i < solid->crease_count; i++) smooth += solid->creases[i].smooth;
    assert_int_equal(smooth, n);   // none of the lines along the hole is an edge
}

static void two_mortises_that_meet_in_the_middle_are_one_hole(void **state)
{
    (void)state;
    tw_cut cuts[] = { pocket(TW_SIDE_FACE, 100, 30, 160, 42, 20), pocket(TW_SIDE_BACK, 100, 58, 160, 70, 20) };  // 100 - 30 = 70: the same place
    expect_closed(solid_of(cuts, 2), 1600000.0 - 60 * 12 * 40, 10);
}

static void housings_side_by_side_are_one_trench(void **state)
{
    (void)state;
    tw_cut cuts[] = { pocket(TW_SIDE_FACE, 100, -5, 120, 105, 10), pocket(TW_SIDE_FACE, 120, -5, 150, 105, 10) };
    expect_closed(solid_of(cuts, 2), 1600000.0 - 50 * 100 * 10, 10);
}

static void a_cut_within_a_cut_takes_no_more(void **state)
{
    (void)state;
    tw_cut cuts[] = { pocket(TW_SIDE_FACE, 100, 20, 150, 80, 10), pocket(TW_SIDE_FACE, 110, 20, 130, 80, 10), pocket(TW_SIDE_FACE, 100, 20, 150, 80, 10) };
    expect_closed(solid_of(cuts, 3), 1600000.0 - 50 * 60 * 10, 11);
}

static void mortises_from_three_sides_that_cross_are_taken_once(void **state)
{
    (void)state;
    tw_cut cuts[] = { pocket(TW_SIDE_FACE, 195, 45, 205, 55, 40), pocket(TW_SIDE_FACE_EDGE, 195, 15, 205, 25, 100), pocket(TW_SIDE_LEFT_END, 45, 15, 55, 25, 300) };
    // bars 10 x 10 along the three axes: each pair shares the cube in the middle
    expect_closed(solid_of(cuts, 3), 1600000.0 - 100.0 * (40 + 100 + 300) + 2 * 1000.0, -1);
}

/* Cavalieri: a leaning prism has the volume of the straight one. */
static void a_leaning_mortise_takes_as_much_as_a_straight_one(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_FACE, 100, 40, 160, 52, 25);
    cut.lean_right = 0.3;
    cut.lean_up = -0.2;
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 25, 11);
    cut.through = true;
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 40, 10);
}

static void a_prism_that_begins_below_its_face_is_a_hollow(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_FACE, 100, 30, 160, 42, 25);
    cut.start_mm = 10;
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 12 * 15, 12);
}

/* A dovetail groove across the face: a trapezium 12 wide at the face, 16 below, 8 deep, seen from the edge. */
static void a_dovetail_groove_is_a_prism_from_the_edge(void **state)
{
    (void)state;
    tw_vertex v[] = { { 100, 40, 0 }, { 98, 32, 0 }, { 114, 32, 0 }, { 112, 40, 0 } };
    tw_cut cut = { .face = TW_SIDE_FACE_EDGE, .outline = tw_outline_of_loop(&arena, v, 4), .through = true };
    expect_closed(solid_of(&cut, 1), 1600000.0 - 14 * 8 * 100, 10);
}

static void a_piece_parted_by_its_cuts_is_two_bodies(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_FACE, 100, -5, 160, 105, 40);
    expect_closed(solid_of(&cut, 1), 1600000.0 - 60 * 100 * 40, 12);
    cut = pocket(TW_SIDE_FACE, -5, -5, 405, 105, 40);
    tw_solid *nothing = solid_of(&cut, 1);
    assert_true(nothing->closed);
    assert_int_equal(nothing->facet_count, 0);
}

/* ---- over seeded cuts ---- */

static tw_outline seeded_outline(check_seed *seed, tw_size extent)
{
    double x = check_between(seed, -10, extent.length_mm), y = check_between(seed, -10, extent.width_mm);
    double w = check_between(seed, 2, 60), h = check_between(seed, 2, 40);
    if (check_random(seed) % 3 == 0) { x = floor(x / 10) * 10; y = floor(y / 10) * 10; w = ceil(w / 10) * 10; h = ceil(h / 10) * 10; }
    switch (check_random(seed) % 3) {
    case 0: return tw_outline_rectangle(&arena, x, y, x + w, y + h);
    case 1: return tw_outline_rounded(&arena, x, y, x + w, y + h, tw_min(w, h) * check_between(seed, 0.1, 0.5));
    default: {
        tw_vertex v[] = { { x, y, 0 }, { x + w, y + h / 5, 0 }, { x + w / 2, y + h / 2, 0 }, { x + w / 3, y + h, 0 } };
        return tw_outline_of_loop(&arena, v, 4);
    }
    }
}

static tw_cut seeded_cut(check_seed *seed)
{
    tw_cut cut = { .face = (tw_face)(check_random(seed) % TW_FACE_COUNT) };
    tw_size extent = tw_face_extent(board, cut.face);
    cut.outline = seeded_outline(seed, extent);
    cut.depth_mm = check_random(seed) % 2 ? ceil(check_between(seed, 1, extent.thickness_mm)) : check_between(seed, 1, tw_min(60, extent.thickness_mm));
    cut.through = check_random(seed) % 4 == 0;
    if (check_random(seed) % 4 == 0) { cut.lean_right = check_between(seed, -0.4, 0.4); cut.lean_up = check_between(seed, -0.4, 0.4); }
    if (check_random(seed) % 6 == 0) cut.start_mm = cut.depth_mm / 3;
    return cut;
}

/* By the definition of a cut, one place at a time. near: within reach_mm of the wall of a cut, where chords may differ. */
static bool is_wood(const tw_cut *cuts, int count, tw_spot spot, double reach_mm, bool *near)
{
    bool wood = true;
    for (int i = 0; i < count; i++) {
        tw_spot p = tw_face_place(board, cuts[i].face, spot);
        tw_point q = { p.x - cuts[i].lean_right * p.z, p.y - cuts[i].lean_up * p.z };
        if (tw_outline_distance(cuts[i].outline, q) < reach_mm) *near = true;
        if (fabs(p.z - cuts[i].start_mm) < reach_mm || fabs(p.z - cuts[i].depth_mm) < reach_mm) *near = true;
        bool deep = (cuts[i].start_mm <= 0.0 || p.z > cuts[i].start_mm) && (cuts[i].through || p.z < cuts[i].depth_mm);
        if (deep && tw_outline_side(cuts[i].outline, q) > 0) wood = false;
    }
    return wood;
}

/* Crossings of a ray along a skew direction with the triangles: odd within. */
static bool within_skin(const tw_solid *solid, tw_spot from)
{
    const tw_spot way = { 0.8017, 0.26713, 0.53461 };
    int crossings = 0;
    for (int i = 0; i < solid->triangle_count; i++) {
        tw_spot a = tw_spot_less(solid->points[solid->triangles[i][0]], from), b = tw_spot_less(solid->points[solid->triangles[i][1]], from);
        tw_spot c = tw_spot_less(solid->points[solid->triangles[i][2]], from);
        double u = tw_spot_product(way, tw_spot_cross(a, b)), v = tw_spot_product(way, tw_spot_cross(b, c)), w = tw_spot_product(way, tw_spot_cross(c, a));
        if (!((u > 0 && v > 0 && w > 0) || (u < 0 && v < 0 && w < 0))) continue;
        tw_spot normal = tw_spot_cross(tw_spot_less(b, a), tw_spot_less(c, a));
        if (tw_spot_product(a, normal) / tw_spot_product(way, normal) > 0.0) crossings++;
    }
    return crossings % 2 == 1;
}

static void seeded_cuts_leave_a_closed_skin_with_the_wood_inside(void **state)
{
    (void)state;
    check_seed seed = { 2026 };
    int asked = 0, wood = 0;
    for (int round = 0; round < 150; round++) {
        tw_cut cuts[9];
        int count = 1 + (int)(check_random(&seed) % 9);
        for (int i = 0; i < count; i++) cuts[i] = seeded_cut(&seed);
        tw_solid *solid = solid_of(cuts, count);
        if (!solid->closed) print_message("round %d of %d cuts is open\n", round, count);
        assert_true(solid->closed);
        for (int k = 0; k < 40; k++) {
            tw_spot spot = { check_between(&seed, 0.5, 399.5), check_between(&seed, 0.5, 99.5), check_between(&seed, 0.5, 39.5) };
            bool near = false, want = is_wood(cuts, count, spot, 0.05, &near);
            if (near) continue;
            asked++;
            wood += want;
            if (within_skin(solid, spot) != want) print_message("round %d: at %g %g %g\n", round, spot.x, spot.y, spot.z);
            assert_int_equal(within_skin(solid, spot), want);
        }
        tw_arena_finish(&arena);
    }
    assert_true(asked > 4500 && wood > 1000 && asked - wood > 250);
}

/* ---- views ---- */

static size_t strokes_of(const tw_strokes *strokes, bool hidden)
{
    size_t count = 0;
    for (size_t i = 0; i < strokes->count; i++) count += strokes->items[i].hidden == hidden;
    return count;
}

static double length_of(const tw_strokes *strokes, bool hidden)
{
    double sum = 0.0;
    for (size_t i = 0; i < strokes->count; i++)
        if (strokes->items[i].hidden == hidden)
            sum += hypot(strokes->items[i].to.x - strokes->items[i].from.x, strokes->items[i].to.y - strokes->items[i].from.y);
    return sum;
}

static tw_strokes view_of(tw_solid *solid, tw_sight sight)
{
    tw_stood stood = { solid, tw_pose_home(), 0 };
    return tw_view_make(&arena, sight, &stood, 1, true);
}

static void a_box_seen_square_is_four_lines(void **state)
{
    (void)state;
    for (int face = 0; face < TW_FACE_COUNT; face++) {
        tw_strokes seen = view_of(solid_of(NULL, 0), tw_sight_of_face((tw_face)face));
        assert_int_equal(strokes_of(&seen, false), 4);
        assert_int_equal(strokes_of(&seen, true), 0);
    }
}

static void a_box_in_the_pictorial_shows_nine_edges_and_hides_three(void **state)
{
    (void)state;
    tw_strokes seen = view_of(solid_of(NULL, 0), tw_sight_pictorial());
    assert_int_equal(strokes_of(&seen, false), 9);
    assert_int_equal(strokes_of(&seen, true), 3);
    // isometric: each edge is shown sqrt(2/3) of its length (ISO 5456-3)
    CHECK_NEAR(length_of(&seen, false), 3 * (400 + 100 + 40) * sqrt(2.0 / 3.0), 1e-6);
    CHECK_NEAR(length_of(&seen, true), (400 + 100 + 40) * sqrt(2.0 / 3.0), 1e-6);
}

static void a_mortise_is_seen_on_its_face_and_hidden_from_the_edge(void **state)
{
    (void)state;
    tw_cut cut = pocket(TW_SIDE_FACE, 100, 30, 160, 42, 25);
    tw_strokes face = view_of(solid_of(&cut, 1), tw_sight_of_face(TW_SIDE_FACE));
    CHECK_NEAR(length_of(&face, false), 2 * 500 + 2 * 72, 1e-6);
    assert_int_equal(strokes_of(&face, true), 0);
    tw_strokes edge = view_of(solid_of(&cut, 1), tw_sight_of_face(TW_SIDE_FACE_EDGE));
    CHECK_NEAR(length_of(&edge, false), 2 * 440, 1e-6);
    CHECK_NEAR(length_of(&edge, true), 2 * 25 + 60, 1e-6);
    tw_strokes back = view_of(solid_of(&cut, 1), tw_sight_of_face(TW_SIDE_BACK));
    CHECK_NEAR(length_of(&back, true), 2 * 72, 1e-6);
}

/* Of two boards one before the other, the far one shows only where it stands out; the rest is hidden. */
static void a_board_hides_what_stands_behind_it(void **state)
{
    (void)state;
    tw_solid *solid = solid_of(NULL, 0);
    tw_pose behind = tw_pose_home();
    behind.at = (tw_spot){ 50, 20, -200 };
    tw_stood both[] = { { solid, tw_pose_home(), 0 }, { solid, behind, 1 } };
    tw_strokes seen = tw_view_make(&arena, tw_sight_of_face(TW_SIDE_FACE), both, 2, true);
    CHECK_NEAR(length_of(&seen, false), 1000 + 1000 - (350 + 80), 1e-6);
    CHECK_NEAR(length_of(&seen, true), 350 + 80, 1e-6);
    tw_strokes clean = tw_view_make(&arena, tw_sight_of_face(TW_SIDE_FACE), both, 2, false);
    assert_int_equal(strokes_of(&clean, true), 0);
    CHECK_NEAR(length_of(&clean, false), 1570, 1e-6);
}

static void a_round_hole_is_drawn_as_one_circle_and_two_hidden_lines(void **state)
{
    (void)state;
    tw_cut cut = { .face = TW_SIDE_FACE, .outline = tw_outline_circle(&arena, (tw_point){ 200, 50 }, 10), .through = true };
    tw_solid *solid = solid_of(&cut, 1);
    tw_strokes face = view_of(solid, tw_sight_of_face(TW_SIDE_FACE));
    tw_sheet *sheet = tw_sheet_new(&arena, "view", "", 297, 210);
    tw_view_draw(sheet, &face, 0.5, (tw_point){ 10, 10 }, TW_ROLE_VISIBLE, TW_ROLE_HIDDEN);
    assert_int_equal(sheet->count, 5);
    int arcs = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        if (sheet->items[i].kind != TW_ITEM_ARC) continue;
        arcs++;
        CHECK_NEAR(sheet->items[i].radius_mm, 5.0, 1e-3);
        CHECK_NEAR(fabs(sheet->items[i].sweep_rad), 2 * TW_PI, 1e-6);
        CHECK_NEAR(sheet->items[i].from.x, 110, 1e-3);
        CHECK_NEAR(sheet->items[i].from.y, 35, 1e-3);
    }
    assert_int_equal(arcs, 1);
    tw_strokes edge = view_of(solid, tw_sight_of_face(TW_SIDE_FACE_EDGE));
    assert_int_equal(strokes_of(&edge, true), 2);
    CHECK_NEAR(length_of(&edge, true), 2 * 40, 1e-6);
}

static void a_section_shows_the_wood_that_the_plane_cuts(void **state)
{
    (void)state;
    tw_cut cuts[] = { pocket(TW_SIDE_FACE, 100, 30, 160, 42, 25), pocket(TW_SIDE_BACK, 300, 0, 320, 100, 8) };
    tw_outline section;
    tw_solid *rest = tw_solid_cut_open(&arena, board, cuts, 2, TW_SIDE_FACE, 20, TW_SOLID_CHORD_MM, false, &section);
    assert_true(rest->closed);
    CHECK_NEAR(tw_outline_area_mm2(section), 400 * 100 - 60 * 12, 1e-3);
    rest = tw_solid_cut_open(&arena, board, cuts, 2, TW_SIDE_FACE_EDGE, 36, TW_SOLID_CHORD_MM, false, &section);
    CHECK_NEAR(tw_outline_area_mm2(section), 400 * 40 - 60 * 25 - 20 * 8, 1e-3);
    CHECK_NEAR(tw_solid_volume_mm3(rest), 400.0 * 64 * 40 - 60 * 6 * 25 - 20.0 * 64 * 8, 1e-3);
}

/* ---- what rays see ---- */

static tw_pose seeded_pose(check_seed *seed)
{
    double a = check_between(seed, 0, 2 * TW_PI), b = check_between(seed, 0, TW_PI);
    tw_spot x = { cos(a) * sin(b), sin(a) * sin(b), cos(b) }, y = { -sin(a), cos(a), 0 };
    if (check_random(seed) % 2) { x = (tw_spot){ 1, 0, 0 }; y = (tw_spot){ 0, 1, 0 }; }
    tw_spot at = { check_between(seed, -150, 150), check_between(seed, -150, 150), check_between(seed, -80, 80) };
    return (tw_pose){ x, y, tw_spot_cross(x, y), at };
}

/* How far along a way the first triangle is met, beyond free_mm; infinity when none is. */
static double first_wood_mm(const tw_stood *list, int count, tw_spot from, tw_spot way, double free_mm)
{
    double first = INFINITY;
    for (int k = 0; k < count; k++) {
        const tw_solid *solid = list[k].solid;
        tw_pose back = tw_pose_inverse(list[k].pose);
        tw_spot origin = tw_pose_apply(back, from), along = tw_pose_turn(back, way);
        for (int i = 0; i < solid->triangle_count; i++) {
            const int *t = solid->triangles[i];
            tw_spot a = tw_spot_less(solid->points[t[0]], origin), b = tw_spot_less(solid->points[t[1]], origin), c = tw_spot_less(solid->points[t[2]], origin);
            double u = tw_spot_product(along, tw_spot_cross(a, b)), v = tw_spot_product(along, tw_spot_cross(b, c)), w = tw_spot_product(along, tw_spot_cross(c, a));
            if (!((u > 0 && v > 0 && w > 0) || (u < 0 && v < 0 && w < 0))) continue;
            tw_spot normal = tw_spot_cross(tw_spot_less(b, a), tw_spot_less(c, a));
            double far = tw_spot_product(a, normal) / tw_spot_product(along, normal);
            if (far > free_mm) first = tw_min(first, far);
        }
    }
    return first;
}

static bool ray_is_stopped(const tw_stood *list, int count, tw_spot from, tw_spot way, double free_mm)
{
    return isfinite(first_wood_mm(list, count, from, way, free_mm));
}

static bool is_drawn(const tw_strokes *strokes, tw_point p)
{
    for (size_t i = 0; i < strokes->count; i++) {
        const tw_stroke *s = &strokes->items[i];
        double dx = s->to.x - s->from.x, dy = s->to.y - s->from.y;
        double t = ((p.x - s->from.x) * dx + (p.y - s->from.y) * dy) / (dx * dx + dy * dy);
        t = tw_max(0.0, tw_min(1.0, t));
        if (!s->hidden && hypot(s->from.x + t * dx - p.x, s->from.y + t * dy - p.y) < 0.02) return true;
    }
    return false;
}

/* A place on an edge. The two spots beside it, each a little off the edge within one of its facets, tell whether it is seen:
 * when both are stopped it is hidden, when one that looks at the eye is free it is seen. */
static void edges_are_seen_where_rays_reach_the_eye(void **state)
{
    (void)state;
    check_seed seed = { 77 };
    int seen = 0, hidden = 0;
    for (int round = 0; round < 60; round++) {
        tw_cut cuts[6];
        int count = (int)(check_random(&seed) % 6);
        for (int i = 0; i < count; i++) cuts[i] = seeded_cut(&seed);
        tw_solid *solid = solid_of(cuts, count), *plain = solid_of(NULL, 0);
        tw_pose away = tw_pose_home();
        away.at.z = 400;   // so that the two never stand in each other
        tw_stood list[] = { { solid, seeded_pose(&seed), 0 }, { plain, away, 1 } };
        tw_sight sight = round % 2 ? tw_sight_turned(tw_sight_pictorial(), round / 2) : tw_sight_of_face((tw_face)(round / 2 % TW_FACE_COUNT));
        tw_strokes strokes = tw_view_make(&arena, sight, list, 2, true);
        for (int k = 0; k < 60 && solid->crease_count > 0; k++) {
            tw_crease crease = solid->creases[check_random(&seed) % (uint64_t)solid->crease_count];
            if (crease.smooth) continue;
            double t = check_between(&seed, 0.1, 0.9);
            tw_spot a = tw_pose_apply(list[0].pose, solid->points[crease.from]), b = tw_pose_apply(list[0].pose, solid->points[crease.to]);
            tw_spot at = tw_spot_plus(a, tw_spot_times(tw_spot_less(b, a), t));
            tw_point pa = tw_sight_place(sight, a), pb = tw_sight_place(sight, b);
            if (hypot(pb.x - pa.x, pb.y - pa.y) < 1.0) continue;
            bool free = false, stopped = true;
            const int facets[] = { crease.left, crease.right };
            for (int f = 0; f < 2; f++) {
                tw_spot out = tw_pose_turn(list[0].pose, solid->facets[facets[f]].out), way = tw_spot_less(b, a);
                tw_spot in = tw_spot_times(tw_spot_cross(out, way), (f == 0 ? 0.2 : -0.2) / tw_spot_size(way));
                if (tw_spot_product(out, sight.toward) < 0.05) continue;   // it does not look at the eye
                bool stop = ray_is_stopped(list, 2, tw_spot_plus(at, in), sight.toward, 1e-6);
                free |= !stop && !ray_is_stopped(list, 2, tw_spot_plus(at, tw_spot_times(in, 0.2)), sight.toward, 1e-6);
                stopped &= stop;
            }
            bool near = ray_is_stopped(list, 2, at, sight.toward, 0.5);
            if (free && !near) { seen++; assert_true(is_drawn(&strokes, tw_sight_place(sight, at))); }
            if (stopped && near) hidden++;
        }
        tw_arena_finish(&arena);
    }
    assert_true(seen > 500 && hidden > 300);
}

/* Height over the plane through 0, along the sight, of the wood that is seen just beside a place on paper; -infinity: none. */
static double height_seen(const tw_stood *list, int count, tw_sight sight, double x, double y)
{
    const double from_mm = 5000.0;
    tw_spot from = tw_spot_plus(tw_spot_plus(tw_spot_times(sight.right, x), tw_spot_times(sight.up, y)), tw_spot_times(sight.toward, from_mm));
    return from_mm - first_wood_mm(list, count, from, tw_spot_times(sight.toward, -1.0), 0.0);
}

/* Height of a stroke's middle, from the plane of the facet at its left; NAN when that is seen edge on. */
static double height_of_stroke(const tw_stood *stood, tw_sight sight, const tw_stroke *s)
{
    const tw_facet *facet = &stood->solid->facets[s->left];
    tw_spot out = tw_pose_turn(stood->pose, facet->out), on = tw_pose_apply(stood->pose, stood->solid->points[facet->wires[0].points[0]]);
    tw_spot line = tw_spot_plus(tw_spot_times(sight.right, (s->from.x + s->to.x) / 2), tw_spot_times(sight.up, (s->from.y + s->to.y) / 2));
    double toward = tw_spot_product(out, sight.toward);
    return fabs(toward) < 0.05 ? NAN : tw_spot_product(out, tw_spot_less(on, line)) / toward;
}

/* On one side of every visible stroke at least, the wood that the eye meets is not nearer than the edge itself: 2 mm are left for
 * the slope of the facets over the 0.05 mm beside it. */
static void no_stroke_is_drawn_where_wood_stands_before_it(void **state)
{
    (void)state;
    check_seed seed = { 78 };
    int asked = 0;
    for (int round = 0; round < 40; round++) {
        tw_cut cuts[6];
        int count = (int)(check_random(&seed) % 6);
        for (int i = 0; i < count; i++) cuts[i] = seeded_cut(&seed);
        tw_pose away = tw_pose_home();
        away.at.z = 400;
        tw_stood list[] = { { solid_of(cuts, count), seeded_pose(&seed), 0 }, { solid_of(NULL, 0), away, 1 } };
        tw_sight sight = tw_sight_turned(tw_sight_pictorial(), round);
        tw_strokes strokes = tw_view_make(&arena, sight, list, 2, false);
        for (size_t i = 0; i < strokes.count; i++) {
            const tw_stroke *s = &strokes.items[i];
            double length = hypot(s->to.x - s->from.x, s->to.y - s->from.y), height = height_of_stroke(&list[s->stood], sight, s);
            if (length < 2.0 || isnan(height)) continue;
            double x = (s->from.x + s->to.x) / 2, y = (s->from.y + s->to.y) / 2;
            double dx = -(s->to.y - s->from.y) / length * 0.05, dy = (s->to.x - s->from.x) / length * 0.05;
            double lower = tw_min(height_seen(list, 2, sight, x + dx, y + dy), height_seen(list, 2, sight, x - dx, y - dy));
            asked++;
            assert_true(height >= lower - 2.0);
        }
        tw_arena_finish(&arena);
    }
    assert_true(asked > 400);
}

/* ---- STL ---- */

static void the_stl_of_a_box_has_684_bytes(void **state)
{
    (void)state;
    tw_gather bytes = { .arena = &arena };
    tw_sink sink = tw_gather_sink(&bytes);
    tw_stl_put(solid_of(NULL, 0), "box", &sink);
    tw_text text = tw_gathered(&bytes);
    assert_int_equal(text.length, 684);
    assert_memory_not_equal(text.bytes, "solid", 5);
    assert_memory_equal(text.bytes + 80, "\x0c\0\0\0", 4);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, new_arena, end_arena)
    const struct CMUnitTest cases[] = {
        CASE(a_blank_has_six_faces_and_twelve_triangles), CASE(a_blind_mortise_adds_four_walls_and_a_bottom),
        CASE(a_mortise_through_has_no_bottom), CASE(a_round_hole_takes_the_area_of_its_chords),
        CASE(two_mortises_that_meet_in_the_middle_are_one_hole), CASE(housings_side_by_side_are_one_trench),
        CASE(a_cut_within_a_cut_takes_no_more), CASE(mortises_from_three_sides_that_cross_are_taken_once),
        CASE(a_leaning_mortise_takes_as_much_as_a_straight_one), CASE(a_prism_that_begins_below_its_face_is_a_hollow),
        CASE(a_dovetail_groove_is_a_prism_from_the_edge), CASE(a_piece_parted_by_its_cuts_is_two_bodies),
        CASE(seeded_cuts_leave_a_closed_skin_with_the_wood_inside), CASE(a_box_seen_square_is_four_lines),
        CASE(a_box_in_the_pictorial_shows_nine_edges_and_hides_three), CASE(a_mortise_is_seen_on_its_face_and_hidden_from_the_edge),
        CASE(a_board_hides_what_stands_behind_it), CASE(a_round_hole_is_drawn_as_one_circle_and_two_hidden_lines),
        CASE(a_section_shows_the_wood_that_the_plane_cuts), CASE(edges_are_seen_where_rays_reach_the_eye),
        CASE(no_stroke_is_drawn_where_wood_stands_before_it), CASE(the_stl_of_a_box_has_684_bytes),
    };
    return cmocka_run_group_tests(cases, NULL, NULL);
}
