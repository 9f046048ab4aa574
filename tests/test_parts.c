// SPDX-License-Identifier: GPL-3.0-or-later
/* The parts that joints make, as solids where they sit: shapes by closed forms, none within the wood by more than its fit allows,
 * tusks that touch the surface they bear on, pegs and bolts that go through their bores. */
#include "planned.h"

#include "cut_law.h"
#include "sheet/explode.h"
#include "sheet/joint_picture.h"

static planned p;
static int finish(void **state) { (void)state; tw_arena_finish(&p.arena); return 0; }

static void place(const char *job)
{
    p = planned_of(job, SHOP_MM);
    plan(&p);
    for (size_t i = 0; i < p.findings.count; i++)
        if (p.findings.items[i].level == TW_HALT) fail_msg("%s: %s", p.findings.items[i].code, p.findings.items[i].what);
}

#define HEAD "job: test\nunits: mm\npieces:\n  post: {count: 2, length: 655, width: 110, thickness: 45}\n  rail: {count: 2, length: 1210, width: 70, thickness: 28}\njoints:\n  rail to post: "
#define FORKED HEAD "{kind: forked tusks, tenon: rail, through: post, from: back, at: [190, 480], beyond: 58, tenon width: 38, tenon thickness: 14, angle: 5 deg, tusk thickness: 12, slot: 8, ease: 0.8}\n"
#define SINGLE HEAD "{kind: single tusk, tenon: rail, through: post, from: back, at: [190, 480], tusk thickness: 14, angle: 5 deg, "
#define PEGGED "job: test\nunits: mm\npieces:\n  post: {length: 700, width: 90, thickness: 60}\n  rail: {length: 900, width: 80, thickness: 40}\njoints:\n" \
    "  rail to post: {kind: mortise and tenon, tenon: rail, ends: right, into: post, from: face edge, at: 300, depth: 60, tenon thickness: 13, tenon width: 60, peg: 8, pegs: 2, peg offset: 1, peg from shoulder: 20, "
#define SLIP "job: test\nunits: mm\npieces:\n  post: {length: 700, width: 90, thickness: 60}\n  rail: {length: 900, width: 80, thickness: 40}\njoints:\n" \
    "  rail to post: {kind: slip tenon, piece: rail, ends: left, into: post, from: face, at: 300, depth: 30, tenon thickness: 12, tenon width: 50, "
#define BOLTED "job: test\nunits: mm\npieces:\n  post: {length: 700, width: 90, thickness: 60}\n  rail: {length: 900, width: 80, thickness: 40}\njoints:\n" \
    "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: left, into: post, from: back, at: 300, bolt: 6, bolt length: 100, pegs: 2, peg: 8, peg spacing: 50, peg depth: 20, "

static int part_index(const char *name)
{
    for (size_t i = 0; i < p.plans[0].part_count; i++)
        if (strcmp(p.plans[0].parts[i].name, name) == 0) return (int)i;
    fail_msg("there is no part %s", name);
    return -1;
}

static const tw_solid *solid_of(int part)
{
    const tw_part *of = &p.plans[0].parts[part];
    tw_solid *solid = tw_solid_make(&p.arena, tw_part_blank(of), of->cuts, of->cut_count, 0.002);
    assert_true(solid->closed);
    return solid;
}

static double volume_of(const char *name) { return tw_solid_volume_mm3(solid_of(part_index(name))); }

/* ---- lodgings ---- */

static void expect_one_for_each_meeting(const char *name, int each)
{
    const tw_joint_plan *all = &p.plans[0];
    int part = part_index(name);
    assert_true(all->meeting_count > 0);
    for (size_t m = 0; m < all->meeting_count; m++) {
        int count = 0;
        for (size_t i = 0; i < all->lodging_count; i++) count += all->lodgings[i].part == part && all->lodgings[i].meeting == (int)m;
        assert_int_equal(count, each);
    }
    for (size_t i = 0; i < all->lodging_count; i++) {
        assert_true(tw_pose_is_rigid(all->lodgings[i].pose));
        CHECK_NEAR(tw_spot_size(all->lodgings[i].leaves), 1.0, 1e-12);
    }
}

/* Inside of what a list of cuts leaves, and at least `reach_mm` away from every wall of every cut. */
static bool deep_in_wood(tw_size size, const tw_cut *cuts, size_t count, int piece, tw_spot s, double reach_mm)
{
    if (s.x < reach_mm || s.y < reach_mm || s.z < reach_mm || s.x > size.length_mm - reach_mm || s.y > size.width_mm - reach_mm || s.z > size.thickness_mm - reach_mm) return false;
    for (size_t i = 0; i < count; i++) {
        const tw_cut *cut = &cuts[i];
        if (cut->piece != piece) continue;
        if (cut_law_takes(size, cut, s)) return false;
        tw_spot seen = cut_law_seen(size, cut->face, s);
        bool level = seen.z > cut->start_mm - reach_mm && (cut->through || seen.z < cut->depth_mm + reach_mm);
        if (level && tw_outline_distance(cut->outline, (tw_point){ seen.x - cut->lean_right * seen.z, seen.y - cut->lean_up * seen.z }) < reach_mm) return false;
    }
    return true;
}

/* Seeded points of every part in place. How many of them lie in the wood of base or mover, farther from its walls than allowed. */
static int points_in_wood(const char *name, double allowed_mm, int *asked)
{
    const tw_joint_plan *all = &p.plans[0];
    check_seed seed = { 71 };
    int part = part_index(name), within = 0;
    const tw_part *of = &all->parts[part];
    tw_size blank = tw_part_blank(of);
    *asked = 0;
    for (size_t i = 0; i < all->lodging_count; i++) {
        const tw_lodging *lodging = &all->lodgings[i];
        const tw_meeting *meeting = &all->meetings[lodging->meeting];
        if (lodging->part != part) continue;
        tw_size base = tw_piece_size(&p.job->pieces[meeting->base]), mover = tw_piece_size(&p.job->pieces[meeting->mover]);
        for (int k = 0; k < 3000; k++) {
            tw_spot own = { check_between(&seed, 0, blank.length_mm), check_between(&seed, 0, blank.width_mm), check_between(&seed, 0, blank.thickness_mm) };
            if (!deep_in_wood(blank, of->cuts, (size_t)of->cut_count, -1, own, 1e-4)) continue;
            tw_spot in_base = cut_law_moved(lodging->pose, own), in_mover = tw_pose_apply(tw_pose_inverse(meeting->pose), in_base);
            bool hit = deep_in_wood(base, all->cuts, all->cut_count, meeting->base, in_base, allowed_mm + 1e-4) ||
                       deep_in_wood(mover, all->cuts, all->cut_count, meeting->mover, in_mover, allowed_mm + 1e-4);
            within += hit;
            ++*asked;
        }
    }
    return within;
}

static void expect_free(const char *name, double allowed_mm)
{
    int asked, within = points_in_wood(name, allowed_mm, &asked);
    assert_true(asked > 500);
    if (within > 0) fail_msg("%d of %d places of the %s lie in wood", within, asked, name);
}

/* Pushed aside by so much in the base's frame it must be found in wood: the law can fail. */
static void expect_found_when_pushed(const char *name, tw_spot by)
{
    int asked;
    for (size_t i = 0; i < p.plans[0].lodging_count; i++) p.plans[0].lodgings[i].pose.at = tw_spot_plus(p.plans[0].lodgings[i].pose.at, by);
    assert_true(points_in_wood(name, 0.0, &asked) > 20);
}

/* ---- tusks ---- */

/* How far the points of the part stand out of the side opposite to the one where the tenon enters: from the back, so z = 45. */
static void expect_touches_the_surface(const char *name, double surface_z)
{
    const tw_joint_plan *all = &p.plans[0];
    int part = part_index(name);
    const tw_solid *solid = solid_of(part);
    for (size_t i = 0; i < all->lodging_count; i++) {
        if (all->lodgings[i].part != part) continue;
        double least = INFINITY;
        int touching = 0;
        for (int k = 0; k < solid->point_count; k++) {
            double u = tw_pose_apply(all->lodgings[i].pose, solid->points[k]).z - surface_z;
            least = tw_min(least, u);
            touching += fabs(u) < 1e-6;
        }
        CHECK_NEAR(least, 0.0, 1e-6);
        assert_true(touching >= 4);   // a whole side, not an edge
    }
}

/* The wedge less its slot: below the ramp, (tip + head end)/2 long x wide; the slot is a rectangle of height z and a half round
 * whose height is that of the ramp over its middle of area, 4 r / 3 pi beyond its middle. */
static void forked_tusk_has_the_volume_of_a_wedge_less_its_slot(void **state)
{
    (void)state;
    place(FORKED);
    const tw_part *tusk = &p.plans[0].parts[part_index("tusk")];
    double slope = tan(TW_PI / 36.0), length = figure(&p, 0, "tusk_length"), wide = tusk->finished.width_mm, tip = figure(&p, 0, "tip_thickness");
    double r = 4.0, straight = figure(&p, 0, "slot_length") - r;
    double wedge = wide * length * (tip + slope * length / 2.0), slot = 2.0 * r * straight * (tip + slope * straight / 2.0);
    double round = TW_PI * r * r / 2.0 * (tip + slope * (straight + 4.0 * r / (3.0 * TW_PI)));
    CHECK_NEAR(volume_of(tusk->name), wedge - slot - round, 2.0);   // the half round in chords of 0.002 mm
}

static void forked_tusks_bear_on_the_outer_surface(void **state)
{
    (void)state;
    place(FORKED);
    const char *name = p.plans[0].parts[0].name;
    expect_one_for_each_meeting(name, 1);
    assert_int_equal(p.plans[0].meeting_count, 4);
    expect_touches_the_surface(name, 45.0);
    expect_free(name, 0.0);
    expect_found_when_pushed(name, (tw_spot){ 0, 0, -1.0 });   // into the post
}

/* The wedge: (tip + head)/2 of its thickness, times length and breadth. */
static void single_tusk_has_the_volume_of_a_wedge(void **state)
{
    (void)state;
    place(SINGLE "tusk stands: upright}\n");
    double length = figure(&p, 0, "tusk_length"), tip = figure(&p, 0, "tip_thickness"), slope = tan(TW_PI / 36.0);
    CHECK_NEAR(volume_of("tusk"), length * figure(&p, 0, "tusk_breadth") * (tip + slope * length / 2.0), 0.2);   // the ramp within 3e-4 mm, where points are one
}

static void single_tusks_bear_on_the_outer_surface_upright_and_level(void **state)
{
    (void)state;
    static const char *const ways[] = { "tusk stands: upright, heads to: back edge}\n", "tusk stands: upright, heads to: face edge}\n",
                                        "tusk stands: level, heads to: face, tusk thickness: 12}\n", "tusk stands: level, heads to: back, tusk thickness: 12}\n" };
    for (int i = 0; i < 4; i++) {
        char job[1000];
        snprintf(job, sizeof job, i < 2 ? SINGLE "%s" : HEAD "{kind: single tusk, tenon: rail, through: post, from: back, at: [190, 480], angle: 5 deg, %s", ways[i]);
        place(job);
        expect_one_for_each_meeting("tusk", 1);
        expect_touches_the_surface("tusk", 45.0);
        expect_free("tusk", 0.0);
        expect_found_when_pushed("tusk", (tw_spot){ 0, 0, -1.0 });
        tw_arena_finish(&p.arena);
    }
    p = (planned){0};
}

/* Its tip stands tip proud below the tenon, its head z + head proud above; the tenon is D = w deep, its middle the rail's. */
static void single_tusk_stands_as_far_through_the_tenon_as_its_figures_say(void **state)
{
    (void)state;
    place(SINGLE "tusk stands: upright, heads to: back edge}\n");
    const tw_joint_plan *all = &p.plans[0];
    double low = 35.0 - figure(&p, 0, "tenon_width") / 2.0 - figure(&p, 0, "tip_proud");
    for (size_t i = 0; i < all->lodging_count; i++) {
        tw_pose in_rail = tw_pose_compose(tw_pose_inverse(all->meetings[all->lodgings[i].meeting].pose), all->lodgings[i].pose);
        CHECK_NEAR(in_rail.at.y, low, 1e-9);
        CHECK_NEAR(in_rail.x.y, 1.0, 1e-12);
    }
}

/* ---- pegs ---- */

/* A cylinder: e = 60 long where both ends are sawn level; 2 x 8 longer where the head stays. */
static void peg_is_a_cylinder_as_long_as_its_joint_wants(void **state)
{
    (void)state;
    place(PEGGED "fit: glued}\n");
    CHECK_NEAR(volume_of("peg"), TW_PI * 16.0 * 60.0, 8.0);   // chords within 0.002 mm of a girth of 25 mm over 60 mm, and a little
    tw_arena_finish(&p.arena);
    place(PEGGED "fit: dry}\n");
    CHECK_NEAR(volume_of("peg"), TW_PI * 16.0 * 76.0, 8.0);
}

/* Its axis is that of the cheeks' holes, 20 from the face edge and 15 to both sides of 300; the tenon's holes lie 1 nearer. */
static void pegs_go_through_both_bores(void **state)
{
    (void)state;
    place(PEGGED "fit: dry}\n");
    const tw_joint_plan *all = &p.plans[0];
    expect_one_for_each_meeting("peg", 2);
    int left = 0, right = 0;
    for (size_t i = 0; i < all->lodging_count; i++) {
        tw_pose pose = all->lodgings[i].pose;
        tw_spot axis = tw_pose_apply(pose, (tw_spot){ 0, 4, 4 }), end = tw_pose_apply(pose, (tw_spot){ 60 + 4 * 8, 4, 4 });
        CHECK_NEAR(axis.y, 20.0, 1e-9);
        CHECK_NEAR(end.y, 20.0, 1e-9);
        CHECK_NEAR(axis.x, end.x, 1e-9);
        CHECK_NEAR(tw_min(axis.z, end.z), -16.0, 1e-9);   // the blank's two ends, before they are sawn off
        CHECK_NEAR(tw_max(axis.z, end.z), 76.0, 1e-9);
        left += fabs(axis.x - 285.0) < 1e-9;
        right += fabs(axis.x - 315.0) < 1e-9;
        tw_spot in_rail = tw_pose_apply(tw_pose_inverse(all->meetings[0].pose), axis);
        CHECK_NEAR(in_rail.x, 900.0 - 60.0 + 20.0, 1e-9);
    }
    assert_int_equal(left, 1);
    assert_int_equal(right, 1);
    expect_free("peg", 1.0);   // by the offset the tenon's hole is out of line
    int asked;
    assert_true(points_in_wood("peg", 0.8, &asked) > 0);    // and it does press there, by all of it
}

static void pegs_stand_in_the_bores_whichever_side_is_mortised(void **state)
{
    (void)state;
    static const char *const sides[] = { "face", "back", "face edge", "back edge" };
    for (int i = 0; i < 4; i++) {
        char job[1000];
        snprintf(job, sizeof job, "job: test\nunits: mm\npieces:\n  post: {length: 700, width: 80, thickness: 70}\n  rail: {length: 900, width: 80, thickness: 40}\njoints:\n"
            "  rail to post: {kind: mortise and tenon, tenon: rail, ends: both, into: post, from: %s, at: [200, 480], across: 38, depth: 50, tenon thickness: 13, tenon width: 56, peg: 8, peg offset: 1, peg from shoulder: 18}\n", sides[i]);
        place(job);
        expect_one_for_each_meeting("peg", 1);
        expect_free("peg", 1.0);
        tw_arena_finish(&p.arena);
    }
    p = (planned){0};
}

/* ---- slip tenons ---- */

/* Round edges: a block (50 - 12) x 12 and a circle of 12, 60 long. Square ones: a block. */
static void slip_tenon_is_a_block_with_round_edges(void **state)
{
    (void)state;
    place(SLIP "mortise ends: round}\n");
    CHECK_NEAR(volume_of("slip tenon"), 60.0 * (38.0 * 12.0 + TW_PI * 36.0), 10.0);
    tw_arena_finish(&p.arena);
    place(SLIP "mortise ends: square}\n");
    CHECK_NEAR(volume_of("slip tenon"), 60.0 * 50.0 * 12.0, 1e-3);
}

static void slip_tenons_lie_half_in_each_mortise(void **state)
{
    (void)state;
    static const char *const ends[] = { "mortise ends: round}\n", "mortise ends: square}\n", "mortise ends: round, lies: across}\n" };
    for (int i = 0; i < 3; i++) {
        char job[1000];
        snprintf(job, sizeof job, SLIP "%s", ends[i]);
        place(job);
        expect_one_for_each_meeting("slip tenon", 1);
        for (size_t k = 0; k < p.plans[0].lodging_count; k++) {
            tw_spot middle = tw_pose_apply(p.plans[0].lodgings[k].pose, (tw_spot){ 30, 25, 6 });
            CHECK_NEAR(middle.x, 300.0, 1e-9);
            CHECK_NEAR(middle.y, 45.0, 1e-9);
            CHECK_NEAR(middle.z, 60.0, 1e-9);   // on the face
        }
        expect_free("slip tenon", 0.0);
        expect_found_when_pushed("slip tenon", (tw_spot){ 0, 0, -3.0 });
        tw_arena_finish(&p.arena);
    }
    p = (planned){0};
}

/* ---- bolts ---- */

/* M6 x 100: shank 6 x 100; socket head 9.6 x 6 less a hexagon of 4.8 (area sqrt(3)/2 of its square) 3 deep; hexagon head of 10, 4 high.
 * Washer 18 x 1.6 with a hole of 6.4. Two solids that cross at right angles through their middles do not make a closed form here:
 * the thread through the cross dowel is held between what a round rod loses to a hole as long as its chord at the hole's rim and at
 * its middle. */
static void bolts_and_washers_have_the_volumes_of_their_cylinders(void **state)
{
    (void)state;
    place(BOLTED "head: socket}\n");
    double shank = TW_PI * 9.0 * 100.0, key = sqrt(3.0) / 2.0 * 4.8 * 4.8 * 3.0;
    CHECK_NEAR(volume_of("bolt"), shank + TW_PI * 4.8 * 4.8 * 6.0 - key, 8.0);
    CHECK_NEAR(volume_of("washer"), 1.6 * TW_PI * (81.0 - 3.2 * 3.2), 2.0);
    CHECK_NEAR(volume_of("peg"), TW_PI * 16.0 * 40.0, 8.0);
    const tw_part *dowel = &p.plans[0].parts[part_index("cross dowel")];
    double r = dowel->finished.width_mm / 2.0, rod = TW_PI * r * r * dowel->finished.length_mm, slot = 2.0 * r / 6.0 * 2.0 * r * 2.0 * r / 8.0;
    double most = TW_PI * 9.0 * 2.0 * r, least = TW_PI * 9.0 * 2.0 * sqrt(r * r - 9.0), lost = rod - volume_of("cross dowel");
    assert_true(lost > least && lost < most + slot + 4.0);
    tw_arena_finish(&p.arena);
    place(BOLTED "head: hexagon}\n");
    CHECK_NEAR(volume_of("bolt"), shank + sqrt(3.0) / 2.0 * 100.0 * 4.0, 8.0);
}

/* From the back of a post 60 thick, so the head is at the face: the washer on the counterbore's bottom, the head on the washer, the
 * tip 100 below; the cross dowel's middle on the bolt's axis, which is that of the rail. */
static void bolt_goes_through_washer_post_and_cross_dowel(void **state)
{
    (void)state;
    place(BOLTED "head: socket}\n");
    const tw_joint_plan *all = &p.plans[0];
    double k = figure(&p, 0, "counterbore");
    static const char *const names[] = { "bolt", "washer", "cross dowel" };
    for (int i = 0; i < 3; i++) {
        expect_one_for_each_meeting(names[i], 1);
        expect_free(names[i], 0.0);
    }
    expect_one_for_each_meeting("peg", 2);
    expect_free("peg", 0.0);
    for (size_t i = 0; i < all->lodging_count; i++) {
        const tw_lodging *lodging = &all->lodgings[i];
        tw_size blank = tw_part_blank(&all->parts[lodging->part]);
        const char *name = all->parts[lodging->part].name;
        tw_spot first = tw_pose_apply(lodging->pose, (tw_spot){ 0, blank.width_mm / 2.0, blank.thickness_mm / 2.0 });
        tw_spot middle = tw_pose_apply(lodging->pose, (tw_spot){ blank.length_mm / 2.0, blank.width_mm / 2.0, blank.thickness_mm / 2.0 });
        if (strcmp(name, "peg") != 0) CHECK_NEAR(middle.x, 300.0, 1e-9);
        if (strcmp(name, "peg") != 0) CHECK_NEAR(middle.y, 45.0, 1e-9);
        if (strcmp(name, "washer") == 0) CHECK_NEAR(first.z, 60.0 - k, 1e-9);
        if (strcmp(name, "bolt") == 0) CHECK_NEAR(first.z, 60.0 - k + 1.6 - 100.0, 1e-9);
        if (strcmp(name, "cross dowel") == 0) CHECK_NEAR(middle.z, -figure(&p, 0, "dowel_from_end"), 1e-9);
        if (strcmp(name, "peg") == 0) CHECK_NEAR(middle.z, 0.0, 1e-9);   // half in each
        if (strcmp(name, "peg") == 0) CHECK_NEAR(fabs(middle.x - 300.0), 25.0, 1e-9);
    }
}

static void bolts_sit_in_their_bores_from_every_side(void **state)
{
    (void)state;
    static const char *const sides[] = { "face", "back", "face edge", "back edge" };
    static const char *const dowels[] = { "face", "back", "face edge", "back edge" };
    for (int i = 0; i < 16; i++) {
        char job[1000];
        snprintf(job, sizeof job, "job: test\nunits: mm\npieces:\n  post: {length: 700, width: 70, thickness: 60}\n  rail: {length: 900, width: 60, thickness: 40}\njoints:\n"
            "  rail to post: {kind: cross dowel and bolt, rail: rail, ends: right, into: post, from: %s, at: 300, bolt: 6, dowel from: %s, let in: 5}\n", sides[i / 4], dowels[i % 4]);
        place(job);
        expect_free("bolt", 0.0);
        expect_free("washer", 0.0);
        expect_free("cross dowel", 0.0);
        tw_arena_finish(&p.arena);
    }
    p = (planned){0};
}

/* ---- in the pictures ---- */

static tw_space space;
static const tw_bodies *bodies;

static tw_standing_list stand(const char *job, bool apart)
{
    place(job);
    space = tw_space_make(&p.arena, p.job, p.plans, p.job->joint_count);
    bodies = tw_bodies_make(&p.arena, p.job, p.plans, p.job->joint_count, 0.1);
    return tw_standing_of(&p.arena, bodies, &space, 0, apart);
}

/* One bolt, one washer, one cross dowel, two pegs: the bolt alone has a number, that of the step that frees it. */
static void what_holds_a_joint_has_the_number_of_its_step_once(void **state)
{
    (void)state;
    tw_standing_list all = stand(BOLTED "head: socket}\n", true);
    int parts = 0, numbers = 0;
    for (int i = 0; i < all.count; i++) {
        if (all.items[i].mark >= 0) continue;
        parts++;
        if (all.step_of[i] == 0) continue;
        numbers++;
        assert_true(space.nets[0].apart[all.step_of[i] - 1].frees);
        assert_ptr_equal(all.items[i].solid, bodies->parts[0][part_index("bolt")]);
    }
    assert_int_equal(parts, 5);
    assert_int_equal(numbers, 1);
}

static tw_pose pose_of(const tw_standing_list *all, const tw_solid *solid)
{
    for (int i = 0; i < all->count; i++)
        if (all->items[i].solid == solid) return all->items[i].pose;
    fail_msg("it does not stand there");
    return tw_pose_home();
}

/* The first solid of the kind as the rail has it: drawn apart as at home for a peg glued in; away from it for the cross dowel. */
static void pegs_glued_in_go_with_their_rail_and_the_cross_dowel_comes_out_of_it(void **state)
{
    (void)state;
    tw_spot at[2][2];
    for (int apart = 0; apart < 2; apart++) {
        tw_standing_list all = stand(BOLTED "head: socket}\n", apart == 1);
        tw_pose to_rail = tw_pose_inverse(pose_of(&all, bodies->pieces[1]));
        at[apart][0] = tw_pose_apply(to_rail, pose_of(&all, bodies->parts[0][part_index("peg")]).at);
        at[apart][1] = tw_pose_apply(to_rail, pose_of(&all, bodies->parts[0][part_index("cross dowel")]).at);
        if (apart == 0) tw_arena_finish(&p.arena);
    }
    CHECK_NEAR(tw_spot_size(tw_spot_less(at[1][0], at[0][0])), 0.0, 1e-9);
    assert_true(tw_spot_size(tw_spot_less(at[1][1], at[0][1])) > figure(&p, 0, "dowel_depth"));
    CHECK_NEAR(at[1][1].x, at[0][1].x, 1e-9);   // square to the rail's length
}

/* Drawn apart, a slip tenon stays in the rail: nothing holds it there that would have to be freed. */
static void slip_tenons_come_off_with_the_end_that_they_stand_in(void **state)
{
    (void)state;
    tw_standing_list all = stand(SLIP "fit: dry}\n", true);
    for (int i = 0; i < all.count; i++)
        if (all.items[i].mark < 0) assert_int_equal(all.step_of[i], 0);
    tw_pose in_rail = tw_pose_compose(tw_pose_inverse(pose_of(&all, bodies->pieces[1])), pose_of(&all, bodies->parts[0][0]));
    CHECK_NEAR(in_rail.at.x, -30.0, 1e-9);   // at the left end, half of its 60 out of it
}

static bool picture_says(const char *job, const char *words)
{
    stand(job, false);
    tw_sheet sheet = { .arena = &p.arena };
    assert_true(tw_joint_picture_draw(&sheet, bodies, &space, 0, (tw_box){ 0, 0, 180, 72 }));
    bool said = false;
    for (size_t i = 0; i < sheet.count; i++) said = said || (sheet.items[i].kind == TW_ITEM_TEXT && strstr(sheet.items[i].text, words) != NULL);
    tw_arena_finish(&p.arena);
    p = (planned){0};
    return said;
}

#define STOOL "job: test\nunits: mm\nbase: seat\nup: %s\npieces:\n  seat: {length: 400, width: 300, thickness: 45}\n  leg: {length: 420, width: 40, thickness: 40}\njoints:\n" \
    "  leg to seat: {kind: mortise and tenon, tenon: leg, ends: left, into: seat, from: back, at: 200, depth: 30}\n"

static void joint_under_a_wide_board_is_shown_from_below(void **state)
{
    (void)state;
    char job[1000];
    snprintf(job, sizeof job, STOOL, "face");
    assert_true(picture_says(job, "from below"));
    snprintf(job, sizeof job, STOOL, "back");   // turned over: it stands on the board
    assert_false(picture_says(job, "from below"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_teardown(forked_tusk_has_the_volume_of_a_wedge_less_its_slot, finish),
        cmocka_unit_test_teardown(forked_tusks_bear_on_the_outer_surface, finish),
        cmocka_unit_test_teardown(single_tusk_has_the_volume_of_a_wedge, finish),
        cmocka_unit_test_teardown(single_tusks_bear_on_the_outer_surface_upright_and_level, finish),
        cmocka_unit_test_teardown(single_tusk_stands_as_far_through_the_tenon_as_its_figures_say, finish),
        cmocka_unit_test_teardown(peg_is_a_cylinder_as_long_as_its_joint_wants, finish),
        cmocka_unit_test_teardown(pegs_go_through_both_bores, finish),
        cmocka_unit_test_teardown(pegs_stand_in_the_bores_whichever_side_is_mortised, finish),
        cmocka_unit_test_teardown(slip_tenon_is_a_block_with_round_edges, finish),
        cmocka_unit_test_teardown(slip_tenons_lie_half_in_each_mortise, finish),
        cmocka_unit_test_teardown(bolts_and_washers_have_the_volumes_of_their_cylinders, finish),
        cmocka_unit_test_teardown(bolt_goes_through_washer_post_and_cross_dowel, finish),
        cmocka_unit_test_teardown(bolts_sit_in_their_bores_from_every_side, finish),
        cmocka_unit_test_teardown(what_holds_a_joint_has_the_number_of_its_step_once, finish),
        cmocka_unit_test_teardown(pegs_glued_in_go_with_their_rail_and_the_cross_dowel_comes_out_of_it, finish),
        cmocka_unit_test_teardown(slip_tenons_come_off_with_the_end_that_they_stand_in, finish),
        cmocka_unit_test_teardown(joint_under_a_wide_board_is_shown_from_below, finish),
    };
    return cmocka_run_group_tests_name("parts of joints", tests, NULL, NULL);
}
