// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: the work, in the order that makers keep. Mortise first, then the shoulder line from the real
 * mortised piece, then the tenon, made to the mortise; ease, fit dry, glue last.
 *
 * A place in the mortised piece is stopped from the end that is nearer. Seen by the maker with the same side down, a
 * place near the left end cut from the mortised face has its stop at the left (a left hand); near the right end, or
 * from the opposite face, it is the mirror image (a right hand); both together are a left hand again. A mortise in the
 * middle of the piece has no hand: the piece may be turned end for end or rolled over. Cuts with the same stop, height
 * and hand are one setup. */
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#define SAME_MM 1e-6
#define LIMIT_SHARE 0.25        // of the clearance, for mortise and tenon each: the fit keeps half to one and a half of it
#define LIMIT_LEAST_MM 0.02
#define SHOULDER_LIMIT_MM 0.2   // of the length between shoulders: common practice

/* Works are added in layers; each work of a layer comes after all of the layer before. */
typedef struct builder {
    tw_joint_context *context;
    tw_joint_plan    *plan;
    const tw_mortise *m;
    int before, before_end;   // the layer before, as a span of the plan's works
    int now;                  // where this layer begins
} builder;

static const char *say(const builder *b, double length_mm) { return tw_mortise_say(b->context, length_mm); }

static void add(builder *b, tw_work work)
{
    int index = tw_plan_work(b->context, b->plan, work);
    for (int i = b->before; i < b->before_end; i++) tw_work_after(b->context, &b->plan->works[index], i);
}

static void close_layer(builder *b)
{
    if ((int)b->plan->work_count == b->now) return;
    b->before = b->now;
    b->now = b->before_end = (int)b->plan->work_count;
}

static double ratio(const builder *b) { return b->context->shop->machine.ratio.value; }
static double limit_mm(const builder *b) { return tw_max(LIMIT_LEAST_MM, LIMIT_SHARE * b->m->c); }

static const char *ends_text(const builder *b)
{
    const tw_mortise *m = b->m;
    int pieces = m->tenon_pieces;
    if (m->spec->ends.value == TW_TENON_LEFT) return tw_format(b->context->arena, "left end (%d)", pieces);
    if (m->spec->ends.value == TW_TENON_RIGHT) return tw_format(b->context->arena, "right end (%d)", pieces);
    return tw_format(b->context->arena, "left end (%d); right end (%d)", pieces, pieces);
}

/* ---- marking ---- */

static void mark_mortised(builder *b)
{
    const tw_mortise *m = b->m;
    add(b, (tw_work){ .name = "places of the mortises",
        .what = tw_format(b->context->arena, "%s the place%s of the mortise%s across the %s%s; strike the middle %s from the %s with a gauge.%s",
            m->into_pieces == 1 ? "Square" : "Lay the pieces side by side, left ends level, and square", m->spec->at.count == 1 ? "" : "s",
            m->spec->at.count == 1 && !m->pair ? "" : "s", tw_face_words[m->from], m->into_pieces == 1 ? "" : " of all at once",
            say(b, m->across), tw_face_words[m->down], tw_mortise_lean_mouth_words(b->context, m)),
        .way = TW_WAY_MARK, .piece = m->spec->into.index, .face = m->from, .down = tw_face_opposite(m->from),
        .count = m->into_pieces * m->spec->at.count, .pieces = m->into_pieces, .places = tw_format(b->context->arena, "%s, every place", tw_face_words[m->from]),
        .measure = "from the left end to the middle of the first place", .measure_mm = m->spec->at.items[0].value, .measure_under_mm = -0.3, .measure_over_mm = 0.3,
        .if_off = "mark the whole batch again from one piece",
        .state = "planed to its finished faces, to length", .marks = "face, face edge, left end, number of the joint", .stage = 20 });
}

static void mark_shoulders(builder *b)
{
    const tw_mortise *m = b->m;
    bool both = m->ends == 2;
    add(b, (tw_work){ .name = "shoulder lines",
        .what = m->lean.leans ? tw_mortise_lean_shoulder_words(b->context, m) : m->through
            ? tw_format(b->context->arena, "Hold %s itself to the end and strike the shoulder line with a knife all round, %s from the end: its real thickness counts, not the drawn one.", m->into->name, say(b, m->l))
            : tw_format(b->context->arena, "Strike the shoulder lines with a knife all round, %s from the end; check against the real mortise that the tenon ends %s short of its bottom.", say(b, m->l), say(b, m->room)),
        .way = TW_WAY_MARK, .piece = m->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = m->joints, .pieces = m->tenon_pieces,
        .places = ends_text(b), .hand = tw_mortise_lean_hand(m),
        .measure = m->lean.leans ? (both ? "from shoulder to shoulder, through the middle of the piece" : "from the shoulder to the other end, through the middle of the piece")
                                 : both ? "from shoulder to shoulder" : "from the shoulder to the other end", .measure_mm = m->body,
        .measure_under_mm = -SHOULDER_LIMIT_MM, .measure_over_mm = SHOULDER_LIMIT_MM,
        .if_off = "strike the whole batch from one piece, ends level: like shoulders matter more than the figure",
        .state = tw_format(b->context->arena, "planed square, to its finished length of %s, tenons included", say(b, m->a.length_mm)),
        .marks = "face, face edge, both ends, number of the joint", .stage = 20 });
}

/* ---- mortises ---- */

/* One plunge group: what is cut with one setting of stop, height and hand. */
typedef struct hit { tw_face end, face, down; double to_end, up; bool right_hand; int mortises; const char *places; } hit;

static bool is_centred(const tw_mortise *m, double up) { return !m->lean.leans && fabs(up - m->e / 2.0) < SAME_MM; }

static const char *place_text(const builder *b, tw_face end, double to_end, tw_face face)
{
    return tw_format(b->context->arena, "%s from the %s, %s (%d)", say(b, to_end), tw_face_words[end], tw_face_words[face], b->m->into_pieces);
}

/* Adds one cut to the group that it can share a setup with, or opens a new group. */
static void gather(const builder *b, hit *hits, int *count, tw_mortise_site site, tw_face face, double to_left)
{
    const tw_mortise *m = b->m;
    bool right_end = to_left > m->b.length_mm / 2.0 + SAME_MM;
    double up = site.turned ? m->e - site.up : site.up;  // turned round, the other side lies down
    hit now = { .end = right_end ? TW_SIDE_RIGHT_END : TW_SIDE_LEFT_END, .face = face, .down = site.turned ? tw_face_opposite(m->down) : m->down,
                .to_end = right_end ? m->b.length_mm - to_left : to_left, .up = up,
                .right_hand = !is_centred(m, up) && ((right_end != (face != m->from)) != site.turned), .mortises = 1 };
    now.places = place_text(b, now.end, now.to_end, face);
    for (int i = 0; i < *count; i++) {
        hit *known = &hits[i];
        if (fabs(known->to_end - now.to_end) > SAME_MM || fabs(known->up - now.up) > SAME_MM || known->right_hand != now.right_hand) continue;
        known->places = tw_format(b->context->arena, "%s; %s", known->places, now.places);
        known->mortises++;
        return;
    }
    hits[(*count)++] = now;
}

static bool has_both_hands(const hit *hits, int count)
{
    bool left = false, right = false;
    for (int i = 0; i < count; i++) *(hits[i].right_hand ? &right : &left) = true;
    return left && right;
}

static const char *mortise_cautions(const builder *b)
{
    return b->m->through && !b->m->two_faced ? "A backing board is clamped behind: the cutter comes out there." : "";
}

static tw_copy_want pocket_want(const builder *b, const hit *at, tw_outline cut, double depth_mm)
{
    const tw_mortise *m = b->m;
    bool serves = m->cutter_reach >= depth_mm - 1e-9 && m->tm <= m->wm + SAME_MM;  // its diameter is the mortise's width
    bool named = m->cutter && (m->spec->cutter.given || serves);
    tw_box box = tw_outline_bounds(cut);
    return (tw_copy_want){ .cut = cut, .inside = true, .depth_mm = depth_mm, .cutter = named ? m->cutter : NULL,
        .follower = m->spec->follower.given ? m->spec->follower.text : NULL, .cutter_most_mm = tw_min(m->tm, m->wm),
        .corner_most_mm = m->round ? tw_min(m->tm, m->wm) / 2.0 : 0.0, .locate = TW_LOCATE_CENTRED,
        .stop_end = at->end, .stop_to_origin_mm = at->to_end, .stop_word = tw_face_words[at->end],
        .down_to_origin_mm = at->up, .overhang_low_mm = -(at->up + box.y0), .wall_word = "",
        .corner_word = m->round ? NULL : "they are chopped square afterwards, on a card of their own" };
}

/* A cutter as wide as the mortise: the follower then only runs, and the cutter alone makes the width. */
static bool width_is_cutters(const builder *b)
{
    const tw_shop *shop = b->context->shop;
    for (int i = 0; i < shop->cutter_count; i++)
        if (b->m->cutter && tw_text_is(tw_text_of(shop->cutters[i].name), b->m->cutter)) return fabs(shop->cutters[i].d_mm - tw_min(b->m->tm, b->m->wm)) < SAME_MM;
    return false;
}

static const char *mortise_words(const builder *b, const hit *at, bool both)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    const char *how = !m->through ? tw_format(arena, "Cut the mortise %s deep", say(b, m->depth))
                    : both ? "Cut the mortise from both sides, so that the halves meet in the middle: all from one side first; then roll every piece over about its length, its other side down, the same end at the same stop"
                    : m->two_faced ? "Cut the mortise half through from this side, the other half with the other hand"
                    : "Cut the mortise through, into a backing board";
    const char *turn = at->mortises == 1 ? "."
        : m->lean.half_turn && !is_centred(m, at->up) ? tw_format(arena, "; for a place that is turned round turn the piece end for end, its %s down: the same stop, height%s serve.",
              tw_face_words[tw_face_opposite(at->down)], m->lean.leans ? " and cradle" : "")
        : is_centred(m, at->up) ? tw_format(arena, "; for the other end turn the piece end for end, its other side down: the other end is then at the stop, and the pieces must be planed true.")
                        : tw_format(arena, "; the same stop and height serve all places named, always with the %s down.", tw_face_words[m->down]);
    return tw_format(arena, "%s%s", how, turn);
}

static void add_mortise(builder *b, const hit *at, bool hands, int group, int groups)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    bool both = m->two_faced && is_centred(m, at->up);
    double half_x = (m->along ? m->wm : m->tm) / 2.0, half_y = (m->along ? m->tm : m->wm) / 2.0;
    tw_outline cut = tw_outline_rounded(arena, -half_x, -half_y, half_x, half_y, m->round ? tw_min(half_x, half_y) : 0.0);
    double depth = !m->through ? m->depth : m->two_faced ? m->d / 2.0 + TW_THROUGH_OVER_MM : m->d + TW_THROUGH_OVER_MM;
    if (m->lean.leans) depth = m->depth + (m->through ? TW_THROUGH_OVER_MM : 0.0) + tw_mortise_lean_touch_mm(m);
    tw_hand hand = !hands ? TW_HAND_NONE : at->right_hand ? TW_HAND_RIGHT : TW_HAND_LEFT;
    const char *side = hand == TW_HAND_NONE ? "" : hand == TW_HAND_RIGHT ? ", right hand" : ", left hand";
    tw_work work = { .name = groups == 1 ? "mortises" : tw_format(arena, "mortises, %d of %d%s", group, groups, side),
        .what = mortise_words(b, at, both), .way = TW_WAY_COPY, .piece = m->spec->into.index, .face = at->face, .down = at->down, .hand = hand,
        .count = at->mortises * m->into_pieces, .pieces = m->into_pieces, .places = at->places, .copied = true, .copy = pocket_want(b, at, cut, depth),
        .test_piece = tw_format(arena, "an offcut planed with the pieces, %s thick", say(b, m->d)),
        .measure = "width of the mortise, cheek to cheek", .measure_mm = m->tm, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .answer = { width_is_cutters(b) ? TW_BY_CUTTER : TW_BY_WIDTH, 1.0 },
        .if_off = width_is_cutters(b)
            ? "too narrow or too wide: another cutter, the mortise is as wide as the cutter; or leave it, and make the tenons to it"
            : tw_format(arena, "too narrow: a follower smaller by %g times the error, too wide: larger by as much", ratio(b)),
        .state = "planed to its finished faces, to length, places marked", .marks = "face, face edge, left end, number of the joint",
        .cautions = mortise_cautions(b), .stage = 20 };
    work.copy.both_faces = both;
    if (m->lean.leans) tw_mortise_lean_in_cradle(b->context, m, &work);
    add(b, work);
}

static int gather_all(const builder *b, hit *hits)
{
    const tw_mortise *m = b->m;
    int site_count, count = 0;
    tw_mortise_site *sites = tw_mortise_sites(b->context->arena, m, &site_count);
    for (int i = 0; i < site_count; i++) {
        gather(b, hits, &count, sites[i], m->from, sites[i].x);
        if (m->two_faced && !is_centred(m, sites[i].up)) gather(b, hits, &count, sites[i], tw_face_opposite(m->from), sites[i].x);
    }
    return count;
}

static void mortise_layer(builder *b)
{
    const tw_mortise *m = b->m;
    hit *hits = TW_NEW_ARRAY(b->context->arena, hit, (size_t)m->spec->at.count * 4);
    int count = gather_all(b, hits);
    bool hands = has_both_hands(hits, count);
    for (int i = 0; i < count; i++) add_mortise(b, &hits[i], hands, i + 1, count);
    close_layer(b);
}

/* ---- the haunch's groove: the mortise's own template, the stop moved, a shallower depth ---- */

/* A template as long as the mortise's where that is long enough, so that it serves both. */
static double groove_length(const tw_mortise *m, const tw_haunch_groove *groove)
{
    double over = groove->open ? m->tm : 0.0;
    return tw_max(m->wm, groove->start - groove->end + over + m->tm / 2.0);
}

static void add_groove(builder *b, const hit *at, bool hands, int group, int groups)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    tw_haunch_groove groove = tw_mortise_groove(m, at->end == TW_SIDE_RIGHT_END ? m->b.length_mm - at->to_end : at->to_end);
    double length = groove_length(m, &groove), from = groove.open ? -m->tm : groove.end;
    hit moved = *at;
    moved.to_end = from + length / 2.0;
    tw_outline cut = tw_outline_rounded(arena, -length / 2.0, -m->tm / 2.0, length / 2.0, m->tm / 2.0, 0.0);
    tw_hand hand = !hands ? TW_HAND_NONE : at->right_hand ? TW_HAND_RIGHT : TW_HAND_LEFT;
    add(b, (tw_work){ .name = groups == 1 ? "grooves of the haunches" : tw_format(arena, "grooves of the haunches, %d of %d", group, groups),
        .what = tw_format(arena, "Run the mortise out %s deep towards the nearest end%s%s.", say(b, m->groove_depth),
            groove.open ? ", past its end" : tw_format(arena, ", to %s from it, and chop that end square", say(b, groove.end)),
            length < m->wm + SAME_MM ? "; the mortise's template serves, only stop and depth change" : ""),
        .way = TW_WAY_COPY, .piece = m->spec->into.index, .face = m->from, .down = m->down, .hand = hand, .count = at->mortises * m->into_pieces, .pieces = m->into_pieces,
        .places = at->places, .copied = true, .copy = pocket_want(b, &moved, cut, m->groove_depth),
        .test_piece = "the mortise's test piece", .measure = "depth of the groove", .measure_mm = m->groove_depth, .measure_under_mm = 0.0, .measure_over_mm = 0.5,
        .answer = { TW_BY_DEPTH, 1.0 }, .if_off = "the depth stop by the error", .state = "mortised", .marks = "face, number of the joint", .cautions = groove.open ? "The cutter leaves the wood at the end: a strip is clamped there, level with the face." : "",
        .stage = 20 });
}

static void groove_layer(builder *b)
{
    const tw_mortise *m = b->m;
    if (!m->haunched) return;
    hit *hits = TW_NEW_ARRAY(b->context->arena, hit, (size_t)m->spec->at.count);
    int site_count, count = 0;
    tw_mortise_site *sites = tw_mortise_sites(b->context->arena, m, &site_count);
    for (int i = 0; i < site_count; i++) gather(b, hits, &count, sites[i], m->from, sites[i].x);
    bool hands = has_both_hands(hits, count);
    for (int i = 0; i < count; i++) add_groove(b, &hits[i], hands, i + 1, count);
    close_layer(b);
}

static void corner_layer(builder *b)
{
    const tw_mortise *m = b->m;
    if (m->round) return;
    add(b, (tw_work){ .name = "corners of the mortises",
        .what = m->lean.leans ? tw_format(b->context->arena, "Chop the four round corners of each mortise along its own lean, never square to the %s: the chisel against a block that was sawn in the cradle's angles.", tw_face_words[m->from])
              : m->through ? "Chop the four round corners of each mortise square, from both sides towards the middle, to knife lines on both sides."
                           : "Chop the four round corners of each mortise square, down to its bottom.",
        .way = TW_WAY_CHISEL, .piece = m->spec->into.index, .face = m->from, .down = tw_face_opposite(m->from),
        .count = m->joints * (m->pair ? 2 : 1), .pieces = m->into_pieces, .places = "every mortise",
        .measure = "length of the mortise, along the tenon's width", .measure_mm = m->wm, .measure_under_mm = -0.2, .measure_over_mm = 0.3,
        .if_off = "pare to the knife line", .state = "mortised", .marks = "number of the joint",
        .cautions = "", .stage = 20 });
    close_layer(b);
}

/* ---- the drawbored peg: cheeks before the tenon is fitted, the tenon's hole from the cheeks', drawn towards the shoulder ---- */

static void peg_layer(builder *b, tw_peg_step step)
{
    if (!tw_mortise_peg_possible(b->m)) return;
    if (step == TW_PEG_MAKE) {
        tw_part part = tw_mortise_peg_part(b->context, b->m);
        tw_mortise_peg_shape(b->context->arena, b->m, &part);
        tw_plan_part(b->context, b->plan, part);
    }
    add(b, tw_mortise_peg_work(b->context, b->m, step));
    close_layer(b);
}

/* ---- tenons ---- */

static double whole_width(const tw_mortise *m) { return m->over_w + (m->haunched ? m->haunch_width : 0.0); }

/* Middle of the tenon and its haunch, from the face edge. */
static double whole_middle(const tw_mortise *m)
{
    if (!m->haunched) return m->y;
    return m->y + (m->spec->haunch_at.value == 0 ? -0.5 : 0.5) * m->haunch_width;
}

/* What stays when the end is copied, about the middle: one island, or two side by side or one above the other. */
static tw_outline tenon_outline(tw_arena *arena, const tw_mortise *m)
{
    double half_w = (m->pair ? m->w : whole_width(m)) / 2.0, half_t = m->t / 2.0, radius = m->round ? tw_min(half_w, half_t) : 0.0;
    if (!m->pair) return tw_outline_rounded(arena, -half_w, -half_t, half_w, half_t, radius);
    double dx = m->doubled ? (m->w + m->gap) / 2.0 : 0.0, dy = m->doubled ? 0.0 : (m->t + m->gap) / 2.0;
    tw_outline first = tw_outline_rounded(arena, -dx - half_w, -dy - half_t, -dx + half_w, -dy + half_t, radius);
    tw_outline second = tw_outline_rounded(arena, dx - half_w, dy - half_t, dx + half_w, dy + half_t, radius);
    tw_outline both = { TW_NEW_ARRAY(arena, tw_loop, 2), 2 };
    both.loops[0] = first.loops[0];
    both.loops[1] = second.loops[0];
    return both;
}

static tw_copy_want tenon_want(const builder *b)
{
    const tw_mortise *m = b->m;
    double waste = tw_max(tw_max(m->face_shoulder, m->back_shoulder), tw_max(m->face_edge_shoulder, m->back_edge_shoulder));
    return (tw_copy_want){ .cut = tenon_outline(b->context->arena, m), .inside = false, .depth_mm = m->l,
        .cutter = m->spec->tenon_cutter.given ? m->spec->tenon_cutter.text : NULL, .follower = m->spec->tenon_follower.given ? m->spec->tenon_follower.text : NULL,
        .cutter_most_mm = m->pair ? m->gap : 0.0, .locate = TW_LOCATE_CENTRED,
        .stop_end = TW_SIDE_FACE_EDGE, .stop_to_origin_mm = whole_middle(m), .stop_word = "face edge",
        .down_to_origin_mm = m->z, .overhang_low_mm = tw_max(0.0, m->tenon_cutter - m->back_shoulder), .waste_mm = waste, .wall_word = "" };
}

static void add_copied_tenon(builder *b, tw_face end, tw_hand hand, bool both_ends)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    const char *where = both_ends ? ends_text(b) : tw_format(arena, "%s (%d)", tw_face_words[end], m->tenon_pieces);
    add(b, (tw_work){ .name = hand == TW_HAND_NONE ? "tenons" : hand == TW_HAND_RIGHT ? "tenons, right hand" : "tenons, left hand",
        .what = tw_format(arena, "Cut the tenon%s %s long on the end of the piece, which points at the cutter with its back down%s. From the outside inward, a light cut at the knife line last.",
            m->pair ? "s" : "", say(b, m->l), both_ends ? "; at the other end the back edge stands at the stop" : ", the face edge at the stop"),
        .way = TW_WAY_COPY, .piece = m->spec->tenon.index, .face = end, .down = TW_SIDE_BACK, .hand = hand,
        .count = both_ends ? m->joints : m->tenon_pieces, .pieces = m->tenon_pieces, .places = where, .copied = true, .copy = tenon_want(b),
        .test_piece = tw_format(arena, "an offcut of the same planed stock, %s thick, end sawn square", say(b, m->a.thickness_mm)),
        .measure = "thickness of the tenon, cheek to cheek", .measure_mm = m->t, .measure_under_mm = -limit_mm(b), .measure_over_mm = limit_mm(b),
        .answer = { TW_BY_WIDTH, 1.0 }, .if_off = tw_format(arena, "too thick: a follower smaller by %g times the error, too thin: larger by as much", ratio(b)),
        .state = "planed, to length, shoulder lines struck with a knife", .marks = "face, face edge, number of the joint",
        .cautions = "The piece points at the cutter: clamped at two places, and its far end held up level; hands behind the clamps.",
        .stage = 22 });
}

static void copied_layer(builder *b)
{
    const tw_mortise *m = b->m;
    bool centred = fabs(whole_middle(m) - m->a.width_mm / 2.0) < SAME_MM, both = m->ends == 2;
    bool left = m->spec->ends.value != TW_TENON_RIGHT, right = m->spec->ends.value != TW_TENON_LEFT;
    if (both && centred) add_copied_tenon(b, TW_SIDE_RIGHT_END, TW_HAND_NONE, true);
    else {
        if (right) add_copied_tenon(b, TW_SIDE_RIGHT_END, both ? TW_HAND_RIGHT : TW_HAND_NONE, false);
        if (left) add_copied_tenon(b, TW_SIDE_LEFT_END, both ? TW_HAND_LEFT : TW_HAND_NONE, false);
    }
    close_layer(b);
}

static void sawn_layers(builder *b)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    add(b, (tw_work){ .name = "shoulders of the tenons", .hand = tw_mortise_lean_hand(m),
        .what = tw_format(arena, "Saw the shoulders to the knife line with the crosscut gauge, the end against a stop block that ends short of the blade: %s deep at the face, %s at the back, %s at the face edge, %s at the back edge.%s",
            say(b, m->face_shoulder), say(b, m->back_shoulder), say(b, m->face_edge_shoulder), say(b, m->back_edge_shoulder), tw_mortise_lean_saw_words(b->context, m)),
        .way = TW_WAY_SAW, .piece = m->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_FACE, .count = m->joints, .pieces = m->tenon_pieces, .places = ends_text(b),
        .test_piece = "an offcut of the same stock, planed with it",
        .measure = m->lean.leans ? "from the end to the shoulder, in the middle of the tenon on the face" : "length of the tenon, from the end to the shoulder",
        .measure_mm = m->lean.leans ? tw_mortise_lean_face_mm(m) : m->l, .measure_under_mm = -SHOULDER_LIMIT_MM,
        .measure_over_mm = SHOULDER_LIMIT_MM, .answer = { TW_BY_FENCE, 1.0 }, .if_off = "move the stop block by the error", .state = "planed, to length, shoulder lines struck with a knife", .marks = "face, face edge, number of the joint",
        .cautions = "The loose offcut must not be caught between blade and fence: no fence beside the blade, and a stop block clear of it. Blade only as high as the shoulder is deep.", .stage = 22 });
    close_layer(b);
    add(b, (tw_work){ .name = "cheeks of the tenons",
        .what = tw_format(arena, "Saw the cheeks at the bandsaw against a fence, the face to the fence for one and the back for the other, then the edges, up to the shoulder cut; leave a shaving for the shoulder plane."),
        .way = TW_WAY_BANDSAW, .piece = m->spec->tenon.index, .face = TW_SIDE_RIGHT_END, .down = TW_SIDE_FACE_EDGE, .count = m->joints, .pieces = m->tenon_pieces, .places = ends_text(b),
        .test_piece = "the same offcut", .measure = "thickness of the tenon, cheek to cheek", .measure_mm = m->t, .measure_under_mm = -limit_mm(b), .measure_over_mm = tw_max(0.1, limit_mm(b)),
        .answer = { TW_BY_FENCE, fabs(m->face_shoulder - m->back_shoulder) < SAME_MM ? 2.0 : 1.0 },
        .if_off = fabs(m->face_shoulder - m->back_shoulder) < SAME_MM ? "move the fence by half of the error: both cheeks are cut from it" : "move the fence by the error for the cheek that is off",
        .state = "shoulders sawn", .marks = "face, number of the joint",
        .cautions = "Guide close above the wood; a push block, no finger in line with the blade. A long piece gets a stand beneath its far end.", .stage = 22 });
    close_layer(b);
}

static void add_by_hand(builder *b, const char *name, const char *what, tw_way way, const char *state, const char *cautions)
{
    const tw_mortise *m = b->m;
    add(b, (tw_work){ .name = name, .what = what, .way = way, .piece = m->spec->tenon.index, .face = m->spec->ends.value == TW_TENON_LEFT ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END, .down = TW_SIDE_BACK, .count = m->joints, .pieces = m->tenon_pieces,
        .places = ends_text(b), .state = state, .marks = "number of the joint", .cautions = cautions, .stage = 23 });
}

static void shaping_layer(builder *b)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    const char *saw_caution = "Guide close above the wood; fingers never in line with the blade.";
    if (m->haunched)
        add_by_hand(b, "haunches", tw_format(arena, "Saw the haunch at the %s back to %s from the shoulder, over a width of %s.", m->spec->haunch_at.value == 0 ? "face edge" : "back edge",
            say(b, m->haunch), say(b, m->haunch_width)), TW_WAY_BANDSAW, "tenons cut over their whole width", saw_caution);
    if (m->pair && m->sawn)
        add_by_hand(b, "gaps between the tenons", tw_format(arena, "Saw both sides of the gap of %s down to the shoulder, and chop its ground level with the shoulder from both faces.", say(b, m->gap)),
            TW_WAY_BANDSAW, "cheeks sawn", saw_caution);
    if (m->round && m->sawn)
        add_by_hand(b, "arrises of the tenons", "Round the four long arrises of each tenon to the ends of the mortise with a rasp, tried in a test mortise.", TW_WAY_PLANE, "cheeks sawn",
            "The piece is clamped; rasp away from the hand that steadies.");
    close_layer(b);
    add_by_hand(b, "lead-in on the tenons", tw_format(arena, "Chamfer the arrises of each tenon's end by %s, from the corners inward so that nothing breaks out.", say(b, m->chamfer)),
        TW_WAY_PLANE, "tenons cut", "");
    close_layer(b);
}

/* ---- together ---- */

static void fit_layer(builder *b)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    const char *goes = m->glued ? "It goes in by hand with a push, not by the mallet, and lifts its own piece when it is drawn"
                                : "It slides in and out by hand, slightly loose";
    add(b, (tw_work){ .name = "tenons into their mortises, dry",
        .what = tw_format(arena, "Put each tenon into its own mortise until the shoulder is tight all round. %s; plane the cheeks where they shine, never widen the mortise. Number both pieces.", goes),
        .way = TW_WAY_FIT, .piece = m->spec->tenon.index, .count = m->joints, .pieces = m->tenon_pieces, .places = ends_text(b),
        .measure = "gap at the shoulder, with a feeler", .measure_mm = 0.0, .measure_under_mm = 0.0, .measure_over_mm = 0.1,
        .if_off = m->through ? "undercut the shoulder's inner part a hair, never its rim" : "if it stops before the shoulder closes, the mortise is shy: deepen it; else undercut the shoulder's inner part a hair",
        .state = "tenons eased, mortises finished, faces planed and sanded where the shoulder stands", .marks = "number of the joint on both", .stage = 40 });
    close_layer(b);
}

/* The end of a tenon that leans is sawn square to its own piece and comes out slanted. */
static void add_flush(builder *b)
{
    const tw_mortise *m = b->m;
    add(b, (tw_work){ .name = "ends of the tenons, flush",
        .what = tw_format(b->context->arena, "With the joint together saw off what stands out of %s and plane it flush, from the edge of the tenon inward.", m->into->name),
        .way = TW_WAY_PLANE, .piece = m->spec->tenon.index, .face = m->spec->ends.value == TW_TENON_LEFT ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END, .down = TW_SIDE_BACK,
        .count = m->joints, .pieces = m->tenon_pieces, .places = ends_text(b), .state = "together", .marks = "number of the joint on both", .cautions = "", .stage = 46 });
    close_layer(b);
}

static void last_layer(builder *b)
{
    const tw_mortise *m = b->m;
    if (m->lean.leans && m->through && m->proud <= 0.0 && !m->glued) add_flush(b);
    if (!m->glued) return;
    add(b, (tw_work){ .name = "glue up",
        .what = "Glue on the mortise's walls and a film on the cheeks, little at the end; clamp in line with the tenoned piece, without twist. Compare both diagonals before the glue takes; wipe off what comes out.",
        .way = TW_WAY_GLUE, .piece = m->spec->tenon.index, .count = m->joints, .pieces = m->tenon_pieces, .places = ends_text(b),
        .measure = "difference between the two diagonals", .measure_mm = 0.0, .measure_under_mm = -1.0, .measure_over_mm = 1.0,
        .if_off = "set the clamps askew towards the longer diagonal, before the glue takes", .state = "fitted dry, numbered, clean", .marks = "number of the joint on both",
        .cautions = "Dry run with all clamps first.", .stage = 45 });
    close_layer(b);
    if (m->lean.leans && m->through && m->proud <= 0.0) add_flush(b);
}

static void say_order(builder *b)
{
    const tw_mortise *m = b->m;
    tw_arena *arena = b->context->arena;
    tw_plan_advice(b->context, b->plan, tw_format(arena, "Plane and sand the %s of %s before anything is fitted: what is taken off there later opens the shoulder.", tw_face_words[m->from], m->into->name));
    tw_plan_advice(b->context, b->plan, "Mortise first, then the tenon to the mortise: a tenon is planed thinner more easily than a mortise is made wider. Try the tenon's test piece in the mortise's.");
    if (m->through) tw_plan_advice(b->context, b->plan, "Strike knife lines for the mortise on both sides, so that the far side does not break out where it shows.");
    if (m->glued) tw_plan_advice(b->context, b->plan, tw_format(arena, "The glue line takes up about %s; the room at the bottom is for what is too much. Glue only after every joint of the frame has been together dry.", say(b, m->c)));
    else tw_plan_advice(b->context, b->plan, "Without glue the shoulder does the work: something must keep it closed (a tusk, a peg, the weight on it). Leave the tenon and the mortise without finish, or wax them.");
    if (tw_mortise_peg_possible(m)) tw_plan_advice(b->context, b->plan, "Drill the cheeks before the joint is fitted and the tenon only from its own cheeks: the offset is measured from the real hole. Try one peg in a test joint; a peg that is sawn across its grain breaks.");
    if (m->lean.leans) tw_plan_advice(b->context, b->plan, "Saw one cradle for all places of one lean, and its mirror image for the other hand; try it with an offcut and two bevels before the first piece goes in. "
        "Draw the two views on the rod at full size: lengths of pieces that lean are measured along them.");
    if (m->lean.leans && m->ends == 1) tw_plan_advice(b->context, b->plan, tw_format(arena, "Leave %s long at its other end: with the joint together stand it on a flat board, scribe all round at one height and saw to the line.", m->tenon->name));
    if (m->haunched) tw_plan_advice(b->context, b->plan, "Leave a horn on the mortised piece until the joint is together, then saw it off: it keeps the short grain beside the haunch from breaking.");
}

void tw_mortise_works(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    assert(tw_mortise_possible(m));
    builder b = { .context = context, .plan = plan, .m = m };
    b.now = b.before = b.before_end = (int)plan->work_count;
    mark_mortised(&b);
    close_layer(&b);
    mortise_layer(&b);
    groove_layer(&b);
    corner_layer(&b);
    peg_layer(&b, TW_PEG_CHEEKS);
    mark_shoulders(&b);
    close_layer(&b);
    if (m->sawn) sawn_layers(&b);
    else copied_layer(&b);
    shaping_layer(&b);
    fit_layer(&b);
    peg_layer(&b, TW_PEG_MARKS);
    peg_layer(&b, TW_PEG_TENONS);
    peg_layer(&b, TW_PEG_MAKE);
    last_layer(&b);
    peg_layer(&b, TW_PEG_DRIVE);
    say_order(&b);
}
