// SPDX-License-Identifier: GPL-3.0-or-later
/* A joint as a picture.
 *
 * The two pieces meet where their middle lines come nearest to each other; each is broken off beyond a reach from there that
 * holds the whole joint. The joint is looked at from that corner of the four from which most of its own edges are seen when it
 * is drawn apart; from one of the four below only where that shows much more, because from above a maker knows the whole again. */
#include "sheet/joint_picture.h"

#include <math.h>
#include <string.h>

#include "sheet/picture.h"

#define CAPTION_MM 2.5
#define CAPTION_HIGH_MM 6.0
#define BETWEEN_MM 6.0       // of paper between the two pictures
#define REACH 1.1            // of the two pieces' largest sizes across
#define BELOW_SHOWS 1.2      // so many times the edges
#define STACKED_MM 120.0     // in a room narrower than this one picture stands below the other

typedef struct scene {
    tw_arena            *arena;
    const tw_bodies     *bodies;
    const tw_joint_plan *plan;
    const tw_meeting    *meeting;
    tw_pose              base;       // of the base piece in the picture's frame
    tw_piece_cuts        cuts[2];    // 0 the base, 1 the mover: all cuts, then those that break it off
    int                  broken[2];  // index of the first of those
    int                  plan_index;
} scene;

/* ---- where they meet ---- */

static tw_spot middle_at(tw_size size, double x) { return (tw_spot){ x, size.width_mm / 2.0, size.thickness_mm / 2.0 }; }

static double within(double value, double most) { return tw_max(0.0, tw_min(most, value)); }

/* Places along both middle lines where they are nearest: base p + x u, mover q + y v; by turns, which comes to rest because the
 * lines are straight and bounded. */
static void nearest(tw_size base, tw_size mover, tw_pose pose, double *x, double *y)
{
    tw_pose back = tw_pose_inverse(pose);
    *x = base.length_mm / 2.0;
    *y = mover.length_mm / 2.0;
    for (int i = 0; i < 200; i++) {
        *y = within(tw_pose_apply(back, middle_at(base, *x)).x, mover.length_mm);
        *x = within(tw_pose_apply(pose, middle_at(mover, *y)).x, base.length_mm);
    }
}

static double across(tw_size size) { return tw_max(size.width_mm, size.thickness_mm); }

/* ---- pieces broken off ---- */

static tw_cut breaking(tw_arena *arena, tw_size size, tw_face end, double depth_mm)
{
    tw_size e = tw_face_extent(size, end);
    return (tw_cut){ .piece = -1, .joint = -1, .name = "broken off", .face = end, .depth_mm = depth_mm,
                     .outline = tw_outline_rectangle(arena, -1.0, -1.0, e.length_mm + 1.0, e.width_mm + 1.0) };
}

static void break_off(scene *s, int which, tw_size size, const tw_piece_cuts *of, double at_mm, double reach_mm)
{
    tw_piece_cuts *all = &s->cuts[which];
    all->cuts = TW_NEW_ARRAY(s->arena, tw_cut, (size_t)of->count + 2);
    if (of->count > 0) memcpy(all->cuts, of->cuts, (size_t)of->count * sizeof *of->cuts);
    all->count = s->broken[which] = of->count;
    double before = at_mm - reach_mm, after = size.length_mm - at_mm - reach_mm;
    if (before > reach_mm / 2.0) all->cuts[all->count++] = breaking(s->arena, size, TW_SIDE_LEFT_END, before);
    if (after > reach_mm / 2.0) all->cuts[all->count++] = breaking(s->arena, size, TW_SIDE_RIGHT_END, after);
}

/* ---- what stands where ---- */

typedef struct shown { tw_stood items[12]; int thin[12]; int count; } shown;

static void put(shown *all, const tw_solid *solid, tw_pose pose, int mark, int thin)
{
    if (all->count == (int)(sizeof all->items / sizeof *all->items)) return;
    all->items[all->count] = (tw_stood){ solid, pose, mark };
    all->thin[all->count++] = thin;
}

static tw_pose moved(tw_pose pose, tw_spot way, double by_mm)
{
    pose.at = tw_spot_plus(pose.at, tw_spot_times(way, by_mm));
    return pose;
}

static bool is_shown(const scene *s, const tw_lodging *lodging) { return &s->plan->meetings[lodging->meeting] == s->meeting; }

/* It comes out of the end towards the other piece. */
static bool between_both(const scene *s, const tw_lodging *lodging)
{
    return lodging->in_mover && !lodging->fast && tw_spot_product(lodging->leaves, s->meeting->leaves) < -0.99;
}

/* How far the mover is drawn off: what stands between both gets room. */
static double mover_off(const scene *s, double gap_mm)
{
    double between = 0.0;
    for (size_t i = 0; i < s->plan->lodging_count; i++)
        if (is_shown(s, &s->plan->lodgings[i]) && between_both(s, &s->plan->lodgings[i])) between = tw_max(between, s->plan->lodgings[i].travel_mm);
    return s->meeting->travel_mm + between + gap_mm;
}

static shown stand(const scene *s, const tw_solid *const solids[2], bool apart, double gap_mm)
{
    shown all = {0};
    tw_spot way = tw_pose_turn(s->base, s->meeting->leaves);
    double off = apart ? mover_off(s, gap_mm) : 0.0;
    put(&all, solids[0], s->base, 0, s->broken[0]);
    put(&all, solids[1], moved(tw_pose_compose(s->base, s->meeting->pose), way, off), 1, s->broken[1]);
    for (size_t i = 0; i < s->plan->lodging_count; i++) {
        const tw_lodging *lodging = &s->plan->lodgings[i];
        if (!is_shown(s, lodging)) continue;
        tw_pose pose = tw_pose_compose(s->base, lodging->pose);
        if (lodging->in_mover) pose = moved(pose, way, off);
        if (apart && !lodging->fast)
            pose = moved(pose, tw_pose_turn(s->base, lodging->leaves), lodging->travel_mm + (between_both(s, lodging) ? gap_mm / 2.0 : gap_mm));
        put(&all, tw_body_of_part(s->bodies, s->plan_index, lodging->part), pose, 2, -1);
    }
    return all;
}

/* Length of the edges seen that the joint itself has made; twice more those of the piece that shows less of them, so that
 * tenon and mortise are both seen where that can be. */
static double own_length(const scene *s, const shown *all, tw_sight sight)
{
    tw_strokes strokes = tw_view_make(s->arena, sight, all->items, all->count, false);
    double seen[2] = { 0.0, 0.0 };
    for (size_t i = 0; i < strokes.count; i++) {
        const tw_stroke *t = &strokes.items[i];
        const tw_stood *stood = &all->items[t->stood];
        if (stood->mark > 1) continue;
        const tw_piece_cuts *cuts = &s->cuts[stood->mark];
        int left = stood->solid->facets[t->left].source, right = stood->solid->facets[t->right].source;
        bool own = (left >= 0 && cuts->cuts[left].joint == s->plan_index) || (right >= 0 && cuts->cuts[right].joint == s->plan_index);
        if (own) seen[stood->mark] += hypot(t->to.x - t->from.x, t->to.y - t->from.y);
    }
    return seen[0] + seen[1] + 2.0 * tw_min(seen[0], seen[1]);
}

/* From the same corner, but from below. */
static tw_sight from_below(tw_sight sight)
{
    sight.up = (tw_spot){ -sight.up.x, -sight.up.y, sight.up.z };
    sight.toward.z = -sight.toward.z;
    return sight;
}

static tw_sight best_of(const scene *s, const shown *apart, tw_sight first, double *most)
{
    tw_sight best = first;
    *most = -1.0;
    for (int i = 0; i < 4; i++) {
        tw_sight sight = tw_sight_turned(first, i);
        double length = own_length(s, apart, sight);
        if (length > *most * 1.05 + 1e-6) { *most = length; best = sight; }
    }
    return best;
}

static tw_sight best_sight(const scene *s, const shown *apart, bool *below)
{
    double above_mm, below_mm;
    tw_sight above = best_of(s, apart, tw_sight_pictorial(), &above_mm), under = best_of(s, apart, from_below(tw_sight_pictorial()), &below_mm);
    *below = below_mm > BELOW_SHOWS * above_mm;
    return *below ? under : above;
}

/* ---- the drawing ---- */

/* As the joint stands in space, when it is placed there: the first place of its first meeting. */
static tw_pose base_pose(const tw_space *space, int plan, const tw_meeting **meeting)
{
    for (size_t i = 0; space && i < space->tie_count; i++)
        if (space->ties[i].plan == plan && space->instances[space->ties[i].base].net >= 0) {
            *meeting = space->ties[i].meeting;
            return space->instances[space->ties[i].base].pose;
        }
    return tw_pose_home();
}

static void draw_one(tw_sheet *sheet, const shown *all, tw_sight sight, tw_box room, const char *caption)
{
    tw_picture picture = { .sight = sight, .list = all->items, .count = all->count, .role = TW_ROLE_FRAME, .thin_source = all->thin };
    tw_draw_text(sheet, room.x0, room.y1 - CAPTION_MM, CAPTION_MM, TW_ANCHOR_LEFT, caption);
    tw_picture_draw(sheet, &picture, (tw_box){ room.x0, room.y0, room.x1, room.y1 - CAPTION_HIGH_MM });
}

bool tw_joint_picture_draw(tw_sheet *sheet, const tw_bodies *bodies, const tw_space *space, int plan, tw_box room)
{
    scene s = { .arena = sheet->arena, .bodies = bodies, .plan = &bodies->plans[plan], .plan_index = plan };
    if (s.plan->meeting_count == 0) return false;
    s.meeting = &s.plan->meetings[0];
    s.base = base_pose(space, plan, &s.meeting);
    const tw_job *job = bodies->job;
    tw_size base = tw_piece_size(&job->pieces[s.meeting->base]), mover = tw_piece_size(&job->pieces[s.meeting->mover]);
    double x, y, reach = REACH * (across(base) + across(mover));
    nearest(base, mover, s.meeting->pose, &x, &y);
    break_off(&s, 0, base, &bodies->cuts[s.meeting->base], x, reach);
    break_off(&s, 1, mover, &bodies->cuts[s.meeting->mover], y, reach);
    const tw_solid *const solids[2] = { tw_body_make(bodies, s.arena, base, s.cuts[0].cuts, s.cuts[0].count),
                                        tw_body_make(bodies, s.arena, mover, s.cuts[1].cuts, s.cuts[1].count) };
    shown home = stand(&s, solids, false, 0.0), apart = stand(&s, solids, true, reach / 8.0);
    bool below;
    tw_sight sight = best_sight(&s, &apart, &below);
    tw_box left = room, right = room;
    if (room.x1 - room.x0 < STACKED_MM) {
        left.y0 = room.y1 - 0.42 * (room.y1 - room.y0) + BETWEEN_MM / 2.0;
        right.y1 = left.y0 - BETWEEN_MM;
    } else {
        left.x1 = room.x0 + 0.42 * (room.x1 - room.x0) - BETWEEN_MM / 2.0;
        right.x0 = left.x1 + BETWEEN_MM;
    }
    draw_one(sheet, &home, sight, left, below ? "Home, seen from below" : "Home");
    draw_one(sheet, &apart, sight, right, below ? "Drawn apart, seen from below" : "Drawn apart");
    return true;
}
