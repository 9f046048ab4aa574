// SPDX-License-Identifier: GPL-3.0-or-later
/* Two pieces of a joint as solids, put together by a meeting of the plan: a point is wood of a piece when it lies in its
 * blank and in none of its cuts. Knows nothing of how the kinds reckon: blanks, cuts, faces and poses alone. */
#ifndef TW_TESTS_JOINED_H
#define TW_TESTS_JOINED_H

#include "planned.h"
#include "piece/pose.h"

static inline double on_axis(tw_spot spot, tw_spot axis, tw_size size)
{
    double along = tw_spot_product(spot, axis);
    return along + (axis.x < 0 ? size.length_mm : axis.y < 0 ? size.width_mm : axis.z < 0 ? size.thickness_mm : 0.0);
}

static inline bool in_cut(tw_size size, const tw_cut *cut, tw_spot spot)
{
    tw_frame f = tw_face_frame(cut->face);
    tw_spot inward = { -f.out.x, -f.out.y, -f.out.z };
    double deep = on_axis(spot, inward, size) - cut->start_mm, most = cut->through ? 1e9 : cut->depth_mm - cut->start_mm;
    if (deep < 0.0 || deep > most) return false;
    double below = deep + cut->start_mm;  // the outline moves with the depth where the cut leans
    return tw_outline_side(cut->outline, (tw_point){ on_axis(spot, f.right, size) - cut->lean_right * below, on_axis(spot, f.up, size) - cut->lean_up * below }) > 0;
}

static inline bool in_blank(tw_size s, tw_spot p)
{
    return p.x > 0 && p.y > 0 && p.z > 0 && p.x < s.length_mm && p.y < s.width_mm && p.z < s.thickness_mm;
}

static inline bool is_wood(const planned *p, int plan, int piece, tw_spot spot)
{
    tw_size size = tw_piece_size(&p->job->pieces[piece]);
    if (!in_blank(size, spot)) return false;
    for (size_t i = 0; i < p->plans[plan].cut_count; i++)
        if (p->plans[plan].cuts[i].piece == piece && in_cut(size, &p->plans[plan].cuts[i], spot)) return false;
    return true;
}

/// Volume of the cuts of a piece, each outline's area times its depth.
static inline double cut_volume(const planned *p, int plan, int piece)
{
    double sum = 0.0;
    for (size_t i = 0; i < p->plans[plan].cut_count; i++) {
        const tw_cut *cut = &p->plans[plan].cuts[i];
        if (cut->piece == piece) sum += tw_outline_area_mm2(cut->outline) * (cut->depth_mm - cut->start_mm);
    }
    return sum;
}

typedef struct clash { int both, neither, points; bool out_of_blank; } clash;

/// Looks at points of a box in the base's frame, the mover moved from home by `shift`: how many are wood of both, of neither.
static inline clash look_in(const planned *p, int plan, const tw_meeting *m, tw_spot shift, tw_block box, int count, uint64_t seed_number)
{
    check_seed seed = { seed_number };
    tw_pose pose = m->pose;
    pose.at = tw_spot_plus(pose.at, shift);
    tw_pose back = tw_pose_inverse(pose);
    tw_size mover = tw_piece_size(&p->job->pieces[m->mover]), base = tw_piece_size(&p->job->pieces[m->base]);
    clash c = { .points = count, .out_of_blank = true };
    for (int i = 0; i < count; i++) {
        tw_spot spot = { check_between(&seed, box.least.x, box.most.x), check_between(&seed, box.least.y, box.most.y), check_between(&seed, box.least.z, box.most.z) };
        tw_spot own = tw_pose_apply(back, spot);
        bool a = is_wood(p, plan, m->base, spot), b = is_wood(p, plan, m->mover, own);
        c.both += a && b;
        c.neither += !a && !b;
        if (in_blank(base, spot) && in_blank(mover, own)) c.out_of_blank = false;
    }
    return c;
}

/// The box in the base's frame around a cut of the base, and `past` beyond it.
static inline tw_block around_cut(const planned *p, int plan, int piece, int nth, double past)
{
    for (size_t i = 0; i < p->plans[plan].cut_count; i++) {
        const tw_cut *cut = &p->plans[plan].cuts[i];
        if (cut->piece != piece || nth-- > 0) continue;
        tw_block b = tw_cut_block(tw_piece_size(&p->job->pieces[piece]), cut, 0);
        return (tw_block){ { b.least.x - past, b.least.y - past, b.least.z - past }, { b.most.x + past, b.most.y + past, b.most.z + past } };
    }
    fail_msg("piece %d has no such cut", piece);
    return (tw_block){ { 0, 0, 0 }, { 0, 0, 0 } };
}

static inline double block_volume(tw_block b) { return (b.most.x - b.least.x) * (b.most.y - b.least.y) * (b.most.z - b.least.z); }

/// Home, on its way out and shifted sideways or inward within its room nothing clashes; shifted a little more it does; and
/// after its travel the mover is free. sideways: unit vector in the base's frame; play: how far it may go that way;
/// inward: how far it may go on in.
static inline void check_joined(const planned *p, int plan, const tw_meeting *m, tw_block box, tw_spot sideways, double play, double inward, uint64_t seed)
{
    enum { POINTS = 4000 };
    assert_true(tw_pose_is_rigid(m->pose));
    CHECK_NEAR(tw_spot_size(m->leaves), 1.0, 1e-12);
    for (int i = 0; i <= 4; i++)
        assert_int_equal(look_in(p, plan, m, tw_spot_times(m->leaves, m->travel_mm * i / 4.0), box, POINTS, seed + (uint64_t)i).both, 0);
    for (int i = -1; i <= 1; i += 2) {
        assert_int_equal(look_in(p, plan, m, tw_spot_times(sideways, i * (play - 1e-6)), box, POINTS, seed + 9).both, 0);
        assert_true(look_in(p, plan, m, tw_spot_times(sideways, i * (play + 0.4)), box, 4 * POINTS, seed + 10).both > 0);
    }
    assert_int_equal(look_in(p, plan, m, tw_spot_times(m->leaves, -inward + 1e-6), box, POINTS, seed + 11).both, 0);
    assert_true(look_in(p, plan, m, tw_spot_times(m->leaves, -inward - 0.4), box, 4 * POINTS, seed + 11).both > 0);
    assert_true(look_in(p, plan, m, tw_spot_times(m->leaves, m->travel_mm + 1e-6), box, POINTS, seed + 12).out_of_blank);
}

/// Every cut lies within its face and leaves wood behind it (but for one that goes through); every work has its count, and
/// what comes before it is there. True of any plan, halted or not.
static inline void check_plan_is_sane(const planned *p, int plan)
{
    const tw_joint_plan *one = &p->plans[plan];
    for (size_t i = 0; i < one->cut_count; i++) {
        const tw_cut *cut = &one->cuts[i];
        tw_size extent = tw_face_extent(tw_piece_size(&p->job->pieces[cut->piece]), cut->face);
        tw_box box = tw_outline_bounds(cut->outline);
        assert_true(box.x0 > -1e-6 && box.y0 > -1e-6 && box.x1 < extent.length_mm + 1e-6 && box.y1 < extent.width_mm + 1e-6);
        assert_true(tw_outline_area_mm2(cut->outline) > 0.0 && (cut->through || cut->depth_mm < extent.thickness_mm));
    }
    for (size_t i = 0; i < one->work_count; i++) {
        assert_true(one->works[i].count > 0 && one->works[i].pieces > 0);
        for (int k = 0; k < one->works[i].after_count; k++) assert_true(one->works[i].after[k] >= 0 && one->works[i].after[k] < (int)i);
    }
    for (size_t i = 0; i < one->meeting_count; i++) assert_true(tw_pose_is_rigid(one->meetings[i].pose) && one->meetings[i].travel_mm > 0.0);
    bool halted = tw_findings_have(&p->findings, TW_HALT);
    if (!halted) assert_true(one->cut_count > 0 && one->work_count > 0 && one->meeting_count > 0);
}

/// An amount between the least and the most, all sizes alike often: for jobs that nobody would write.
static inline double check_size(check_seed *seed, double least, double most) { return least * pow(most / least, check_between(seed, 0.0, 1.0)); }

/// The drawing of a joint: in a room of the sheet's size no text lies on another or on an outline.
static inline void check_drawing(planned *p, int plan)
{
    tw_joint_context context = { .arena = &p->arena, .job = p->job, .shop = p->shop, .findings = &p->findings };
    const tw_joint_plan *one = &p->plans[plan];
    tw_sheet *sheet = tw_sheet_new(&p->arena, "joint", "joint", 190.0, 190.0);
    const char *scale = tw_joint_kinds[one->joint->kind]->draw(&context, one, sheet, (tw_box){ 0.0, 0.0, 190.0, 190.0 });
    assert_true(scale && scale[0]);
    int count;
    const tw_overlap *overlaps = tw_sheet_overlaps(sheet, &p->arena, &count);
    if (count) print_error("\"%s\" lies on \"%s\"\n", sheet->items[overlaps[0].first].text, sheet->items[overlaps[0].second].text);
    assert_int_equal(count, 0);
    tw_sheet_texts_off_paper(sheet, 0.0, &p->arena, &count);
    if (count) print_error("%s: %d texts run out of the room\n", one->joint->name, count);
    assert_int_equal(count, 0);
    for (size_t i = 0; i < sheet->count; i++)
        for (size_t k = 0; sheet->items[i].kind == TW_ITEM_TEXT && k < sheet->count; k++) {
            const tw_item *line = &sheet->items[k];
            if (line->kind != TW_ITEM_LINE || (line->role != TW_ROLE_VISIBLE && line->role != TW_ROLE_CUT)) continue;
            tw_box t = tw_text_box(&sheet->items[i]);
            for (int step = 0; step <= 200; step++) {
                double x = line->from.x + (line->to.x - line->from.x) * step / 200.0, y = line->from.y + (line->to.y - line->from.y) * step / 200.0;
                if (x > t.x0 + 0.1 && x < t.x1 - 0.1 && y > t.y0 + 0.1 && y < t.y1 - 0.1) fail_msg("\"%s\" lies on an outline", sheet->items[i].text);
            }
        }
}

#endif
