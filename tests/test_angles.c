// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon out of square: rake and splay. Compound angles against closed forms with figures worked by hand; the cuts
 * of both pieces as solids, put together; hands; the cradle; loops of pieces that lean; refusals. */
#include "joined.h"

#include "joint/mortise_tenon.h"
#include "piece/fibres.h"
#include "space/space.h"

#define PIECES(seat, leg) "job: test\nunits: mm\nbase: seat\npieces:\n  seat: " seat "\n  leg: " leg "\njoints:\n"
#define JOINT "  leg to seat:\n    kind: mortise and tenon\n    tenon: leg\n    into: seat\n"
#define SEAT "{length: 460, width: 280, thickness: 40}"
#define LEG "{length: 420, width: 44, thickness: 38}"
#define STOOL(more) PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 90\n    across: 75\n" more

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void plan_text(const char *text)
{
    p = planned_of(text, SHOP_MM);
    plan(&p);
}

static void expect(const char *text, const char *code, tw_level level, const char *what, const char *remedy)
{
    plan_text(text);
    expect_finding(&p, code, level, what, remedy);
    tw_arena_finish(&p.arena);
}

static double degrees(const char *key) { return tw_degrees(figure(&p, 0, key)); }

/* ---- angles ---- */

/* tan 20 = 0.3639702, tan 10 = 0.1763270: the resultant is atan sqrt(0.1324743 + 0.0310912) = atan 0.4044323 = 22.0200 degrees, the
 * sight line atan(0.1763270 / 0.3639702) = 25.8481; chair makers' tables have 22 and 26 there (from memory). Swing: atan(0.3639702 x
 * cos 10) = atan 0.3584408 = 19.7197. */
static void rake_and_splay_give_the_resultant_and_sight_line_of_chair_makers(void **state)
{
    (void)state;
    plan_text(PIECES("{length: 460, width: 280, thickness: 60}",
        LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 20 deg\n    splay: 10 deg\n");
    CHECK_NEAR(degrees("tilt"), 22.0200, 1e-4);
    CHECK_NEAR(degrees("sight_line"), 25.8481, 1e-4);
    CHECK_NEAR(degrees("cradle_roll"), 10.0, 1e-9);
    CHECK_NEAR(degrees("cradle_swing"), 19.7197, 1e-4);
    CHECK_NEAR(degrees("shoulder_mitre"), 19.7197, 1e-4);
    CHECK_NEAR(degrees("shoulder_bevel"), 10.0, 1e-9);
}

/* t 12.7 - 0.2; w 44 - 2 x 5; cw 0.2 + 34/200 down to 0.05; ny = sin 9.9463 cos 6 = 0.171784, nz = sin 6 = 0.104528: corner (34.35 ny +
 * 12.7 nz)/2 = 3.6141; l = (26.6667 - 3.6141)/0.979574 = 23.533, down to 23.5; floor 40 - 25.5 x 0.979574 - 3.6141 = 11.4068. */
static void leaning_leg_has_the_sizes_worked_by_hand(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n"));
    CHECK_NEAR(figure(&p, 0, "tenon_thickness"), 12.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_width"), 34.0, 1e-9);
    CHECK_NEAR(figure(&p, 0, "tenon_length"), 23.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "mortise_depth"), 25.5, 1e-9);
    CHECK_NEAR(figure(&p, 0, "floor"), 11.4068, 1e-3);
    CHECK_NEAR(degrees("tilt"), 11.6003, 1e-4);
    CHECK_NEAR(degrees("sight_line"), -149.2019, 1e-4);
    assert_int_equal(p.findings.count, 0);
    for (size_t i = 0; i < p.plans[0].figure_count; i++) assert_true(p.plans[0].figures[i].sum[0] != '\0');
}

static tw_spot rolled(tw_spot a, double rad) { return (tw_spot){ a.x, a.y * cos(rad) - a.z * sin(rad),
    a.y * sin(rad) + a.z * cos(rad) }; }
static tw_spot swung(tw_spot a, double rad) { return (tw_spot){ a.x * cos(rad) - a.z * sin(rad), a.y,
    a.x * sin(rad) + a.z * cos(rad) }; }

/* x along the piece, y up, z towards the cutter: (tan r, tan s, 1) turned by two plain turns comes to lie along z. */
static void cradle_brings_the_tenons_axis_in_line_with_the_plunge(void **state)
{
    (void)state;
    for (int i = -25; i <= 25; i += 5)
        for (int k = -15; k <= 15; k += 5) {
            tw_mortise_spec spec = { .rake = { .value = tw_radians(i) }, .splay = { .value = tw_radians(k) } };
            tw_mortise m = { .spec = &spec };
            tw_mortise_lean_begin(&m);
            tw_spot axis = { tan(tw_radians(i)), tan(tw_radians(k)), 1.0 };
            tw_spot turned = swung(rolled(axis, m.lean.roll), m.lean.swing);
            CHECK_NEAR(turned.x, 0.0, 1e-12);
            CHECK_NEAR(turned.y, 0.0, 1e-12);
            CHECK_NEAR(turned.z * cos(m.lean.tilt), 1.0, 1e-12);
        }
}

/* Only rake: the shoulder is a plain mitre. Only splay, the tenon along: square on the face, the blade tilted by the splay. */
static void lean_in_one_view_makes_a_plain_mitre_or_a_plain_bevel(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: 12 deg\n"));
    CHECK_NEAR(degrees("shoulder_mitre"), 12.0, 1e-9);
    CHECK_NEAR(degrees("shoulder_bevel"), 0.0, 1e-9);
    CHECK_HOLDS(work_that_is(&p, "shoulders of the tenons")->what, "gauge set 12.0° off square, the blade upright");
    tw_arena_finish(&p.arena);
    plan_text(STOOL("    splay: 12 deg\n"));
    CHECK_NEAR(degrees("shoulder_mitre"), 0.0, 1e-9);
    CHECK_NEAR(degrees("shoulder_bevel"), 12.0, 1e-9);
    CHECK_HOLDS(work_that_is(&p, "shoulders of the tenons")->what, "gauge square, the blade tilted by 12.0°");
    tw_arena_finish(&p.arena);
    plan_text(STOOL("    lies: across\n    splay: 12 deg\n"));
    CHECK_NEAR(degrees("shoulder_mitre"), 12.0, 1e-9);
    CHECK_NEAR(degrees("shoulder_bevel"), 0.0, 1e-9);
}

static void square_joint_is_the_same_with_angles_of_nothing(void **state)
{
    (void)state;
    planned plain = planned_of(STOOL(""), SHOP_MM);
    plan(&plain);
    plan_text(STOOL("    rake: 0 deg\n    splay: 0 deg\n"));
    assert_int_equal(p.plans[0].cut_count, plain.plans[0].cut_count);
    assert_int_equal(p.plans[0].figure_count, plain.plans[0].figure_count);
    for (size_t i = 0; i < p.plans[0].work_count; i++) {
        assert_string_equal(p.plans[0].works[i].what, plain.plans[0].works[i].what);
        assert_false(p.plans[0].works[i].cradle.used);
    }
    for (size_t i = 0; i < p.plans[0].cut_count; i++) assert_true(p.plans[0].cuts[i].lean_right == 0.0
        && p.plans[0].cuts[i].lean_up == 0.0);
    tw_arena_finish(&plain.arena);
}

/* ---- both pieces as solids ---- */

/* Sideways along the side, square to the tenon's edges: from cheek to cheek, the shoulder sliding on the side. */
static void check_solids(uint64_t seed)
{
    const tw_joint_plan *one = &p.plans[0];
    const tw_mortise *own = one->own;
    tw_spot out = tw_face_frame(own->from).out;
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    double play = (figure(&p, 0, "mortise_width") - figure(&p, 0, "tenon_thickness")) / 2.0;
    for (size_t i = 0; i < one->meeting_count; i++) {
        const tw_meeting *m = &one->meetings[i];
        tw_block box = around_cut(&p, 0, m->base, m->place, 8.0);
        tw_spot along = tw_spot_less(m->pose.z, tw_spot_times(m->leaves, tw_spot_product(m->pose.z,
            out) / tw_spot_product(m->leaves, out)));
        double size = tw_spot_size(along);
        check_joined(&p, 0, m, box, tw_spot_times(along, 1.0 / size), play * size, 0.0, seed + 20 * i);
    }
}

static void leaning_joint_comes_together_without_a_clash_whatever_side_it_stands_on(void **state)
{
    (void)state;
    static const char *const sides[] = { "face", "back", "face edge", "back edge" }, *const lies[] = { "along", "across" },
        *const ends[] = { "left", "right" };
    static const int leans[][2] = { { 10, 0 }, { 0, 8 }, { -12, 7 }, { 9, -11 }, { 14, 14 } };
    for (int s = 0; s < 4; s++)
        for (int l = 0; l < 2; l++)
            for (int e = 0; e < 2; e++)
                for (int i = 0; i < 5; i++) {
                    char text[1000];
                    snprintf(text, sizeof text, PIECES("{length: 460, width: 120, thickness: 110}",
                        "{length: 300, width: 40, thickness: 36}") JOINT
                        "    ends: %s\n    from: %s\n    at: 200\n    lies: %s\n    rake: %d deg\n    splay: %d deg\n    depth: 32\n    tenon width: 26\n",
                        ends[e], sides[s], lies[l], leans[i][0], leans[i][1]);
                    plan_text(text);
                    check_solids((uint64_t)(1000 * s + 100 * l + 10 * e + i));
                    tw_arena_finish(&p.arena);
                }
}

/* The shoulder touches all over: a hair above the side of the seat there is wood of the leg all round the tenon, a hair below it
 * none but in the mortise. */
static void shoulder_lies_on_the_side_all_round(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n"));
    const tw_meeting *m = &p.plans[0].meetings[0];
    tw_pose back = tw_pose_inverse(m->pose);
    int wood = 0;
    for (int i = 0; i < 240; i++)
        for (int k = 0; k < 240; k++) {
            tw_spot above = { 90.0 - 30.0 + 0.25 * i, 75.0 - 30.0 + 0.25 * k, -1e-6 }, below = { above.x, above.y, 1e-6 };
            tw_spot own = tw_pose_apply(back, above);
            bool in_leg = own.y > 0.0 && own.y < 44.0 && own.z > 0.0 && own.z < 38.0;
            assert_int_equal(is_wood(&p, 0, m->mover, own), in_leg);
            wood += in_leg;
            if (is_wood(&p, 0, m->mover, tw_pose_apply(back, below))) assert_false(is_wood(&p, 0, m->base, below));
        }
    // the section of 44 x 38 meets the side in 44 x 38 / cos 11.6003 = 1706.9 mm2
    CHECK_NEAR(wood / 16.0, 1706.9, 20.0);
}

/* Wood that goes from the end, by fibres: the section less the tenon, on average as long as the tenon's middle:
 * (44 x 38 - 34 x 12.5) x 23.5 = 29304.5. Half of a millimetre of grid lies on every border. */
static void waste_of_the_leg_is_its_section_less_the_tenon_times_the_length(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n"));
    tw_cut own[8];
    int count = 0;
    for (size_t i = 0; i < p.plans[0].cut_count; i++)
        if (p.plans[0].cuts[i].piece == p.plans[0].meetings[0].mover) own[count++] = p.plans[0].cuts[i];
    assert_int_equal(count, 4);
    double left = 0.0;
    const double step = 0.25;
    for (double y = step / 2.0; y < 44.0; y += step)
        for (double z = step / 2.0; z < 38.0; z += step) {
            int runs;
            tw_fibre_run *run = tw_fibre_runs(&p.arena, (tw_size){ 420.0, 44.0, 38.0 }, own, count, y, z, &runs);
            for (int i = 0; i < runs; i++) left += (run[i].to_mm - run[i].from_mm) * step * step;
        }
    CHECK_NEAR(420.0 * 44.0 * 38.0 - left, 29304.5, 1.0);
}

/* Every spot of the end is taken by one cut at most. */
static void cuts_of_the_leg_do_not_overlap(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n    through: yes\n"));
    check_seed seed = { 7 };
    tw_size leg = { 420.0, 44.0, 38.0 };
    for (int i = 0; i < 20000; i++) {
        tw_spot spot = { check_between(&seed, 0.0, 70.0), check_between(&seed, 0.0, 44.0), check_between(&seed, 0.0, 38.0) };
        int taken = 0;
        for (size_t k = 0; k < p.plans[0].cut_count; k++)
            taken += p.plans[0].cuts[k].piece == p.plans[0].meetings[0].mover && in_cut(leg, &p.plans[0].cuts[k], spot);
        assert_true(taken <= 1);
    }
}

/* Through the seat of 40: 40 / cos 11.6003 = 40.834 along the middle, and (34 x 0.171784 + 12.5 x 0.104528)/2 / 0.979574 = 3.648 for
 * the short corner: 44.482 as sawn. Planed flush, its end lies in the far side, and fills the mortise there. */
static void through_tenon_is_planed_flush_with_the_far_side(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n    through: yes\n"));
    CHECK_NEAR(figure(&p, 0, "tenon_length"), 44.482, 1e-3);
    check_solids(77);
    assert_true(work_of(&p, "ends of the tenons, flush") != NULL);
    const tw_meeting *m = &p.plans[0].meetings[0];
    tw_pose back = tw_pose_inverse(m->pose);
    double foot_x = 90.0 + 40.0 * tan(tw_radians(10.0)), foot_y = 75.0 + 40.0 * tan(tw_radians(6.0));
    int wood = 0;
    for (int i = -120; i < 120; i++)
        for (int k = -120; k < 120; k++) {
            tw_spot in = { foot_x + 0.25 * i + 0.1, foot_y + 0.25 * k + 0.1, 40.0 - 1e-6 }, out = { in.x, in.y, 40.0 + 1e-6 };
            wood += is_wood(&p, 0, m->mover, tw_pose_apply(back, in));
            assert_false(is_wood(&p, 0, m->mover, tw_pose_apply(back, out)));
        }
    CHECK_NEAR(wood / 16.0, 34.0 * 12.5 / cos(tw_radians(11.6003)), 9.0);
}

/* ---- hands ---- */

#define FOUR_LEGS \
    "job: test\nunits: mm\nbase: seat\npieces:\n  seat: " SEAT "\n  left: {count: 2, length: 420, width: 44, thickness: 38}\n  right: {count: 2, length: 420, width: 44, thickness: 38}\njoints:\n" \
    "  one: {kind: mortise and tenon, tenon: left, ends: left, into: seat, from: back, at: [90, 370], across: 75, rake: -10 deg, splay: -6 deg, half turn: yes}\n" \
    "  other: {kind: mortise and tenon, tenon: right, ends: left, into: seat, from: back, at: [370, 90], across: 75, rake: 10 deg, splay: -6 deg, half turn: yes}\n"

static void legs_at_opposite_corners_are_one_piece_turned_half_round(void **state)
{
    (void)state;
    plan_text(FOUR_LEGS);
    assert_int_equal(p.findings.count, 0);
    tw_pose first = p.plans[0].meetings[0].pose, second = p.plans[0].meetings[1].pose;
    const tw_spot axes[2][3] = { { first.x, first.y, first.z }, { second.x, second.y, second.z } };
    for (int i = 0; i < 3; i++) {
        CHECK_NEAR(axes[1][i].x, -axes[0][i].x, 1e-12);
        CHECK_NEAR(axes[1][i].y, -axes[0][i].y, 1e-12);
        CHECK_NEAR(axes[1][i].z, axes[0][i].z, 1e-12);
    }
    CHECK_NEAR(second.at.x, 460.0 - first.at.x, 1e-9);
    CHECK_NEAR(second.at.y, 280.0 - first.at.y, 1e-9);
    check_solids(5);
}

/* Mirrored in the seat's length, a leg's width runs the other way: a spot (x, y, z) of the one is (x, 44 - y, z) of the other. */
static void signs_of_the_angles_make_two_hands_of_legs(void **state)
{
    (void)state;
    plan_text(FOUR_LEGS);
    check_seed seed = { 3 };
    for (int i = 0; i < 5000; i++) {
        tw_spot spot = { check_between(&seed, 0.0, 40.0), check_between(&seed, 0.0, 44.0), check_between(&seed, 0.0, 38.0) },
            mirrored = { spot.x, 44.0 - spot.y, spot.z };
        assert_int_equal(is_wood(&p, 0, 1, spot), is_wood(&p, 1, 2, mirrored));
    }
    const char *const works[] = { "shoulder lines", "shoulders of the tenons", "mortises" };
    for (int i = 0; i < 3; i++) {
        tw_hand hands[2] = { TW_HAND_NONE, TW_HAND_NONE };
        for (int k = 0; k < 2; k++)
            for (size_t w = 0; w < p.plans[k].work_count; w++)
                if (strcmp(p.plans[k].works[w].name, works[i]) == 0) hands[k] = p.plans[k].works[w].hand;
        assert_true(hands[0] != TW_HAND_NONE && hands[1] != TW_HAND_NONE && hands[0] != hands[1]);
    }
}

/* ---- work ---- */

/* From the back, the face edge down, right is towards the left end: rake -10 leans there, so the right side comes forward. Splay -6
 * leans towards the face edge, down: the top goes back. The wedge lifts the arris at the back face: 75 cos 6 + 40 sin 6 = 78.770. The
 * cutter's rim touches 6.35 tan 11.6003 = 1.3035 above the middle: 25.5 + 1.3035. */
static void cradle_of_the_seat_and_its_depth_are_worked_by_hand(void **state)
{
    (void)state;
    plan_text(FOUR_LEGS);
    const tw_work *work = work_that_is(&p, "mortises");
    assert_true(work->cradle.used);
    CHECK_NEAR(tw_degrees(work->cradle.roll_rad), -6.0, 1e-9);
    CHECK_NEAR(tw_degrees(work->cradle.swing_rad), 9.9463, 1e-4);
    CHECK_NEAR(work->copy.down_to_origin_mm, 78.770, 1e-3);
    CHECK_NEAR(work->copy.depth_mm, 26.8035, 1e-3);
    CHECK_HOLDS(work->cradle.words, "its top away from the cutter");
    CHECK_HOLDS(work->cradle.words, "its right end as you look at it towards the cutter");
    CHECK_HOLDS(work->what, "turn the piece end for end, its back edge down");
    tw_box box = tw_outline_bounds(work->copy.cut);  // the plain mortise
    CHECK_NEAR(box.x1 - box.x0, 34.35, 1e-9);
    CHECK_NEAR(box.y1 - box.y0, 12.7, 1e-9);
    for (size_t w = 0; w < p.plans[1].work_count; w++)
        if (p.plans[1].works[w].cradle.used) CHECK_NEAR(tw_degrees(p.plans[1].works[w].cradle.swing_rad), -9.9463, 1e-4);
}

/* The shoulder at the left end is x = 23.5 + k_y (y - 22) + k_z (z - 19), from the plane z = 0 of the seat's back in the leg's frame.
 * On the face (z = 38) in the middle it is 19 k_z away, |k_z| = tan 6 / cos 9.9463 = 0.106708: 23.5 -+ 2.0275. */
static void shoulder_lines_say_where_the_face_and_the_back_are_met(void **state)
{
    (void)state;
    plan_text(STOOL("    rake: -10 deg\n    splay: -6 deg\n"));
    const tw_meeting *m = &p.plans[0].meetings[0];
    tw_spot n = tw_pose_turn(tw_pose_inverse(m->pose), (tw_spot){ 0, 0, -1 });
    double face = 23.5 - n.z / n.x * 19.0, back = 23.5 + n.z / n.x * 19.0;
    CHECK_NEAR(fabs(face - 23.5), 2.0275, 1e-3);
    char words[100];
    snprintf(words, sizeof words, "%.1f mm from the left end in the tenon's middle on the face and %.1f mm on the back", face,
        back);
    CHECK_HOLDS(work_that_is(&p, "shoulder lines")->what, words);
    CHECK_HOLDS(work_that_is(&p, "shoulder lines")->what, n.y / n.x < 0.0 ? "nearer to the end at the face edge"
        : "nearer to the end at the back edge");
    CHECK_NEAR(work_that_is(&p, "shoulders of the tenons")->measure_mm, face, 1e-9);
}

static void drawing_of_a_leaning_joint_is_clear(void **state)
{
    (void)state;
    static const char *const jobs[] = { STOOL("    rake: -10 deg\n    splay: -6 deg\n"),
        STOOL("    rake: 20 deg\n    through: yes\n"),
        STOOL("    splay: 15 deg\n    lies: across\n    through: yes\n    proud: 9\n"),
                                        FOUR_LEGS };
    for (int i = 0; i < 4; i++) {
        plan_text(jobs[i]);
        assert_false(tw_findings_have(&p.findings, TW_HALT));
        check_drawing(&p, 0);
        tw_arena_finish(&p.arena);
    }
}

/* ---- space ---- */

/* Two legs under a beam, raked outward by 10 degrees, and a rail between them: at 250 from the legs' upper ends their middle lines
 * are 200 + 2 (250 - l) sin 10 apart, less the legs' width across, 60 cos 10. Both ends of the rail lean by the same 10. */
static tw_space frame_with_rail(double rail_mm)
{
    char text[1400];
    snprintf(text, sizeof text,
        "job: test\nunits: mm\nbase: beam\npieces:\n  beam: {length: 600, width: 70, thickness: 60}\n  leg: {count: 2, length: 600, width: 60, thickness: 40}\n"
        "  rail: {length: %.9f, width: 40, thickness: 30}\njoints:\n"
        "  leg to beam: {kind: mortise and tenon, tenon: leg, ends: left, into: beam, from: back, at: [200, 400], rake: -10 deg, half turn: yes, depth: 30}\n"
        "  rail to leg: {kind: mortise and tenon, tenon: rail, ends: both, into: leg, from: back edge, at: 250, rake: -10 deg, depth: 25}\n", rail_mm);
    plan_text(text);
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    return tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
}

static void loop_of_leaning_pieces_closes_with_the_length_worked_by_hand(void **state)
{
    (void)state;
    double between = 200.0 + 2.0 * (250.0 - 30.0) * sin(tw_radians(10.0)) - 60.0 * cos(tw_radians(10.0));
    tw_space space = frame_with_rail(between + 2.0 * 25.0);
    assert_int_equal(space.ring_count, 1);
    CHECK_NEAR(space.rings[0].open_mm, 0.0, 1e-6);
    CHECK_NEAR(space.rings[0].open_rad, 0.0, 1e-6);
    tw_arena_finish(&p.arena);
    space = frame_with_rail(between + 2.0 * 25.0 + 3.0);
    assert_true(space.rings[0].open_mm > 2.9);
    CHECK_HOLDS(space.rings[0].remedy, "make rail 3.0 mm shorter");
}

static void stool_stands_on_four_legs_that_clear_each_other(void **state)
{
    (void)state;
    plan_text(FOUR_LEGS);
    tw_space space = tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
    assert_int_equal(space.net_count, 1);
    assert_true(space.nets[0].clear && space.nets[0].closed && space.nets[0].ordered);
    assert_int_equal(space.clash_count, 0);
    assert_int_equal(space.nets[0].stuck_count, 0);
}

/* ---- refusals ---- */

static void what_leans_too_far_is_refused(void **state)
{
    (void)state;
    expect(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 31 deg\n", "lean-steep", TW_HALT,
        "leans 31.0°", "at most 30 degrees");
    expect(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 24 deg\n    splay: 24 deg\n",
        "lean-steep", TW_HALT, "out of square to seat", "a lap at an angle");
    expect(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 22 deg\n", "lean-short-grain",
        TW_CARE, "short grain", "at most 20 degrees");
    plan_text(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 20 deg\n");
    assert_null(finding(&p, "lean-short-grain"));
}

static void mortise_that_leans_out_of_its_piece_is_refused(void **state)
{
    (void)state;
    // below the mouth the mortise runs 25 tan 15 = 7 nearer to the face edge, which is 12 from its cheek
    expect(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 90\n    across: 18\n    splay: 28 deg\n",
        "mortise-off-piece", TW_HALT, "over the face edge of seat", "less splay");
    expect(PIECES(SEAT, LEG) JOINT "    ends: left\n    from: back\n    at: 24\n    rake: 15 deg\n", "mortise-off-piece",
        TW_HALT, "past the end of seat", "between");
    plan_text(PIECES(SEAT,
        LEG) JOINT "    ends: left\n    from: back\n    at: 40\n    rake: -15 deg\n");  // it leans the other way there
    assert_null(finding(&p, "mortise-off-piece"));
    tw_arena_finish(&p.arena);
    expect(STOOL("    rake: -20 deg\n    depth: 36\n"), "tenon-deep", TW_HALT, "break through seat", "a tenon of at most");
}

static void shoulder_that_runs_off_its_piece_is_refused(void **state)
{
    (void)state;
    // a piece 100 wide at 25 degrees: 50 tan 25 = 23.3 to either side of the middle
    expect(PIECES(SEAT, "{length: 420, width: 100, thickness: 38}") JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 25 deg\n    depth: 15\n", "shoulder-off-blank", TW_HALT,
           "runs 8.3 mm past the end of its tenon", "a tenon at least");
}

static void what_is_not_worked_out_out_of_square_is_refused(void **state)
{
    (void)state;
    expect(STOOL("    rake: 5 deg\n    tenons: double\n"), "lean-not-with", TW_HALT, "twin or double tenons", "`tenons: single`");
    expect(STOOL("    rake: 5 deg\n    haunch: 6\n"), "lean-not-with", TW_HALT, "haunch", "leave `haunch` out");
    expect(STOOL("    rake: 5 deg\n    peg: 6\n"), "lean-not-with", TW_HALT, "pegs", "leave `peg` and `pegs` out");
    expect(STOOL("    rake: 5 deg\n    mortise ends: round\n"), "lean-not-with", TW_HALT, "set out square",
        "`mortise ends: square`");
    expect(STOOL("    rake: 5 deg\n    tenon by: copy\n"), "lean-not-with", TW_HALT, "copying on the end", "`tenon by: saw`");
}

static void reach_and_proud_ends_are_looked_at(void **state)
{
    (void)state;
    // 62 thick: 62 / cos 10 + 2 x 3 is over the longest cutter's 63
    expect(PIECES("{length: 460, width: 280, thickness: 62}",
        LEG) JOINT "    ends: left\n    from: back\n    at: 200\n    rake: 10 deg\n    through: yes\n", "lean-reach", TW_HALT,
        "reaches 63.0 mm", "a longer cutter");
    expect(STOOL("    rake: 10 deg\n    through: yes\n    proud: 1\n"), "proud-slanted", TW_CARE, "its short corner stays",
        "planed flush");
    expect(STOOL("    half turn: yes\n"), "key-idle", TW_CARE, "only one", "a second place");
}

static void angles_may_be_slopes_and_the_job_in_inches(void **state)
{
    (void)state;
    plan_text("job: test\nunits: in\nfigures: in 1/64\npieces:\n  seat: {length: 18, width: 11, thickness: 1-1/2}\n  leg: {length: 16, width: 1-3/4, thickness: 1-1/2}\njoints:\n"
              "  leg to seat: {kind: mortise and tenon, tenon: leg, ends: left, into: seat, from: back, at: 4, across: 3, rake: '1:6', splay: '1:8'}\n");
    assert_false(tw_findings_have(&p.findings, TW_HALT));
    CHECK_NEAR(tan(figure(&p, 0, "rake")), 1.0 / 6.0, 1e-12);
    CHECK_NEAR(tan(figure(&p, 0, "tilt")), 5.0 / 24.0, 1e-12);  // 3-4-5: 1/6 = 4/24, 1/8 = 3/24
    CHECK_NEAR(tw_degrees(figure(&p, 0, "sight_line")), 36.8699, 1e-4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(rake_and_splay_give_the_resultant_and_sight_line_of_chair_makers, finish),
        cmocka_unit_test_teardown(leaning_leg_has_the_sizes_worked_by_hand, finish),
        cmocka_unit_test(cradle_brings_the_tenons_axis_in_line_with_the_plunge),
        cmocka_unit_test_teardown(lean_in_one_view_makes_a_plain_mitre_or_a_plain_bevel, finish),
        cmocka_unit_test_teardown(square_joint_is_the_same_with_angles_of_nothing, finish),
        cmocka_unit_test(leaning_joint_comes_together_without_a_clash_whatever_side_it_stands_on),
        cmocka_unit_test_teardown(shoulder_lies_on_the_side_all_round, finish),
        cmocka_unit_test_teardown(waste_of_the_leg_is_its_section_less_the_tenon_times_the_length, finish),
        cmocka_unit_test_teardown(cuts_of_the_leg_do_not_overlap, finish),
        cmocka_unit_test_teardown(through_tenon_is_planed_flush_with_the_far_side, finish),
        cmocka_unit_test_teardown(legs_at_opposite_corners_are_one_piece_turned_half_round, finish),
        cmocka_unit_test_teardown(signs_of_the_angles_make_two_hands_of_legs, finish),
        cmocka_unit_test_teardown(cradle_of_the_seat_and_its_depth_are_worked_by_hand, finish),
        cmocka_unit_test_teardown(shoulder_lines_say_where_the_face_and_the_back_are_met, finish),
        cmocka_unit_test(drawing_of_a_leaning_joint_is_clear),
        cmocka_unit_test_teardown(loop_of_leaning_pieces_closes_with_the_length_worked_by_hand, finish),
        cmocka_unit_test_teardown(stool_stands_on_four_legs_that_clear_each_other, finish),
        cmocka_unit_test_teardown(what_leans_too_far_is_refused, finish),
        cmocka_unit_test_teardown(mortise_that_leans_out_of_its_piece_is_refused, finish),
        cmocka_unit_test(shoulder_that_runs_off_its_piece_is_refused),
        cmocka_unit_test(what_is_not_worked_out_out_of_square_is_refused),
        cmocka_unit_test(reach_and_proud_ends_are_looked_at),
        cmocka_unit_test_teardown(angles_may_be_slopes_and_the_job_in_inches, finish),
    };
    return cmocka_run_group_tests_name("mortise and tenon out of square", tests, NULL, NULL);
}
