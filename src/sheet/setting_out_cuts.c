// SPDX-License-Identifier: GPL-3.0-or-later
/* What is cut in one piece: its cuts in the job's order, which of them are alike, and where the piece is worth a section.
 *
 * The ends of all cuts along the piece part its length into stretches. All sections of one stretch meet the same cuts, so one
 * in its middle tells them all. Stretches whose cuts cover the same of the width and thickness, to the same depth, give one
 * section between them; one that looks like an end of the piece gives none, for that end is drawn. */
#include "sheet/setting_out.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define SAME_MM 0.01
#define SHORT_MM 0.3    // a stretch shorter than this is no place for a section
#define CUTS_MOST 600   // of one piece that are drawn and listed

int tw_cut_axis(const tw_cut *cut)
{
    switch (cut->face) {
    case TW_SIDE_FACE: case TW_SIDE_BACK: return 2;
    case TW_SIDE_FACE_EDGE: case TW_SIDE_BACK_EDGE: return 1;
    case TW_SIDE_LEFT_END: case TW_SIDE_RIGHT_END: return 0;
    }
    return 0;
}

bool tw_cut_is_hole(const tw_cut *cut)
{
    if (cut->outline.count != 1 || cut->outline.loops[0].count != 2) return false;
    const tw_vertex *v = cut->outline.loops[0].vertices;
    return fabs(fabs(v[0].bulge) - 1.0) < 1e-9 && fabs(fabs(v[1].bulge) - 1.0) < 1e-9;
}

/* The wood stays round: some edge of the outline bends into what is taken. */
bool tw_cut_is_rounding(const tw_cut *cut)
{
    for (int i = 0; i < cut->outline.count; i++)
        for (int k = 0; k < cut->outline.loops[i].count; k++)
            if (cut->outline.loops[i].vertices[k].bulge < -1e-6) return true;
    return false;
}

/* ---- gathering ---- */

static tw_block reach_of(tw_size size, const tw_cut *cut)
{
    tw_block all = tw_cut_block(size, cut, 0);
    for (int i = 1; i < cut->outline.count; i++) {
        tw_block more = tw_cut_block(size, cut, i);
        all.least = (tw_spot){ tw_min(all.least.x, more.least.x), tw_min(all.least.y, more.least.y), tw_min(all.least.z, more.least.z) };
        all.most = (tw_spot){ tw_max(all.most.x, more.most.x), tw_max(all.most.y, more.most.y), tw_max(all.most.z, more.most.z) };
    }
    return all;
}

static bool empty(tw_block block)
{
    return block.most.x - block.least.x < SAME_MM || block.most.y - block.least.y < SAME_MM || block.most.z - block.least.z < SAME_MM;
}

static bool has_holes(tw_outline outline)
{
    for (int i = 0; i < outline.count; i++)
        if (tw_loop_area_mm2(outline.loops[i]) < 0.0) return true;
    return false;
}

static void gather_one(tw_drawn_piece *s, const tw_cut *cut)
{
    tw_block reach = reach_of(s->size, cut);
    if (empty(reach) || s->cut_count >= CUTS_MOST) return;
    s->reaches[s->cut_count] = reach;
    s->cuts[s->cut_count++] = *cut;
}

/* Several outlines of one cut that lie side by side are as many cuts. */
static void gather_cut(tw_drawn_piece *s, tw_cut cut)
{
    tw_outline all = cut.outline;
    if (all.count <= 1 || has_holes(all) || tw_cut_is_rounding(&cut)) { gather_one(s, &cut); return; }
    for (int i = 0; i < all.count; i++) {
        cut.outline = (tw_outline){ &all.loops[i], 1 };
        gather_one(s, &cut);
    }
}

static void gather(tw_drawn_piece *s)
{
    size_t most = 0;
    for (int p = 0; p < s->in->plan_count; p++)
        for (size_t i = 0; i < s->in->plans[p].cut_count; i++)
            if (s->in->plans[p].cuts[i].piece == s->piece) most += (size_t)s->in->plans[p].cuts[i].outline.count;
    s->cuts = TW_NEW_ARRAY(s->arena, tw_cut, most);
    s->reaches = TW_NEW_ARRAY(s->arena, tw_block, most);
    for (int p = 0; p < s->in->plan_count; p++)
        for (size_t i = 0; i < s->in->plans[p].cut_count; i++) {
            const tw_cut *cut = &s->in->plans[p].cuts[i];
            if (cut->piece == s->piece && cut->outline.count > 0) gather_cut(s, *cut);
        }
}

/* ---- alike cuts ---- */

static bool near_(double a, double b) { return fabs(a - b) < SAME_MM; }

/* The same outline on the same face, moved along the piece or not: a mirror image is another cut. */
static bool same_outline(const tw_drawn_piece *s, const tw_cut *a, const tw_cut *b)
{
    tw_box p = tw_outline_bounds(a->outline), q = tw_outline_bounds(b->outline);
    tw_outline moved = tw_outline_moved(s->arena, a->outline, q.x0 - p.x0, q.y0 - p.y0);
    return tw_outline_difference_mm(s->arena, moved, b->outline) < SAME_MM;
}

/* Alike: all but the place along the piece. Those that run out at an end lie where they do. */
static bool alike(const tw_drawn_piece *s, int a, int b)
{
    const tw_cut *c = &s->cuts[a], *d = &s->cuts[b];
    const tw_block *p = &s->reaches[a], *q = &s->reaches[b];
    bool at_end = p->least.x < SAME_MM || q->least.x < SAME_MM || p->most.x > s->size.length_mm - SAME_MM || q->most.x > s->size.length_mm - SAME_MM;
    return c->joint == d->joint && c->face == d->face && strcmp(c->name, d->name) == 0 && c->through == d->through && near_(c->start_mm, d->start_mm)
        && near_(c->depth_mm, d->depth_mm) && near_(c->lean_right, d->lean_right) && near_(c->lean_up, d->lean_up)
        && near_(p->most.x - p->least.x, q->most.x - q->least.x) && near_(p->least.y, q->least.y) && near_(p->most.y, q->most.y)
        && near_(p->least.z, q->least.z) && near_(p->most.z, q->most.z) && (!at_end || near_(p->least.x, q->least.x))
        && same_outline(s, c, d);
}

/* a, b, c ...: letters that cannot be taken for figures or for each other; then with a number. */
static const char *small_letter(tw_arena *arena, int i)
{
    static const char letters[] = "abcdefghjkmnpqrstuvwxyz";
    int count = (int)sizeof letters - 1;
    return i < count ? tw_format(arena, "%c", letters[i]) : tw_format(arena, "%c%d", letters[i % count], i / count + 1);
}

static void give_marks(tw_drawn_piece *s)
{
    s->mark_of = TW_NEW_ARRAY(s->arena, int, (size_t)s->cut_count);
    s->marks = TW_NEW_ARRAY(s->arena, tw_cut_mark, (size_t)s->cut_count);
    for (int i = 0; i < s->cut_count; i++) {
        int m = 0;
        while (m < s->mark_count && !alike(s, s->marks[m].cuts[0], i)) m++;
        if (m == s->mark_count)
            s->marks[s->mark_count++] = (tw_cut_mark){ .letter = small_letter(s->arena, m), .cuts = TW_NEW_ARRAY(s->arena, int, (size_t)s->cut_count),
                                                       .hole = tw_cut_is_hole(&s->cuts[i]) };
        s->mark_of[i] = m;
        s->marks[m].cuts[s->marks[m].count++] = i;
    }
}

/* ---- slices ---- */

static tw_across slice_at(const tw_drawn_piece *s, double at)
{
    tw_across slice = { .at_mm = at, .cuts = TW_NEW_ARRAY(s->arena, int, (size_t)s->cut_count) };
    for (int i = 0; i < s->cut_count; i++)
        if (s->reaches[i].least.x < at && s->reaches[i].most.x > at) slice.cuts[slice.count++] = i;
    return slice;
}

static bool covers_same(const tw_drawn_piece *s, int a, int b)
{
    const tw_block *p = &s->reaches[a], *q = &s->reaches[b];
    return near_(p->least.y, q->least.y) && near_(p->most.y, q->most.y) && near_(p->least.z, q->least.z) && near_(p->most.z, q->most.z)
        && tw_cut_is_hole(&s->cuts[a]) == tw_cut_is_hole(&s->cuts[b]);
}

static bool all_met(const tw_drawn_piece *s, const tw_across *a, const tw_across *b)
{
    for (int i = 0; i < a->count; i++) {
        bool met = false;
        for (int k = 0; k < b->count && !met; k++) met = covers_same(s, a->cuts[i], b->cuts[k]);
        if (!met) return false;
    }
    return true;
}

static bool looks_alike(const tw_drawn_piece *s, const tw_across *a, const tw_across *b) { return all_met(s, a, b) && all_met(s, b, a); }

/* A hole that is not bored along the piece. */
static bool round_as_seen_across(const tw_cut *cut) { return tw_cut_is_hole(cut) && tw_cut_axis(cut) != 0; }

static int ascending(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static bool known(const tw_drawn_piece *s, const tw_across *slice)
{
    if (slice->count == 0 || looks_alike(s, slice, &s->ends[0]) || looks_alike(s, slice, &s->ends[1])) return true;
    for (int i = 0; i < s->slice_count; i++)
        if (looks_alike(s, slice, &s->slices[i])) return true;
    return false;
}

/* In the order of their places. */
static void add_slice(tw_drawn_piece *s, double at)
{
    tw_across slice = slice_at(s, at);
    if (known(s, &slice)) return;
    if (s->slice_count == TW_SECTIONS_MOST) { s->more_slices = true; return; }
    int i = s->slice_count++;
    for (; i > 0 && s->slices[i - 1].at_mm > at; i--) s->slices[i] = s->slices[i - 1];
    s->slices[i] = slice;
}

/* The outermost stretches of the piece, up to where the first cut begins or ends. */
static void find_ends(tw_drawn_piece *s, const double *at, int count)
{
    double first = s->size.length_mm, last = 0.0;
    for (int i = 0; i < count; i++) {
        if (at[i] > SHORT_MM) first = tw_min(first, at[i]);
        if (at[i] < s->size.length_mm - SHORT_MM) last = tw_max(last, at[i]);
    }
    s->ends[0] = slice_at(s, first / 2.0);
    s->ends[1] = slice_at(s, (last + s->size.length_mm) / 2.0);
}

/* Holes are cut through their middle; a stretch does not end at the rim of a hole. */
static void find_slices(tw_drawn_piece *s)
{
    double *at = TW_NEW_ARRAY(s->arena, double, 2 * (size_t)s->cut_count + 2);
    int count = 2;
    at[1] = s->size.length_mm;
    for (int i = 0; i < s->cut_count; i++) {
        if (round_as_seen_across(&s->cuts[i])) continue;
        at[count++] = s->reaches[i].least.x;
        at[count++] = s->reaches[i].most.x;
    }
    qsort(at, (size_t)count, sizeof *at, ascending);
    find_ends(s, at, count);
    s->slices = TW_NEW_ARRAY(s->arena, tw_across, TW_SECTIONS_MOST);
    for (int i = 0; i < s->cut_count; i++)
        if (round_as_seen_across(&s->cuts[i])) add_slice(s, (s->reaches[i].least.x + s->reaches[i].most.x) / 2.0);
    for (int i = 0; i + 1 < count; i++)
        if (at[i + 1] - at[i] >= SHORT_MM) add_slice(s, (at[i] + at[i + 1]) / 2.0);
    for (int i = 0; i < s->slice_count; i++) s->slices[i].letter = tw_format(s->arena, "%c", "ABCDEFGH"[i]);
}

tw_drawn_piece tw_drawn_piece_cuts(tw_arena *arena, const tw_paper_input *in, int piece)
{
    tw_drawn_piece s = { .arena = arena, .in = in, .figures = in->job->figures, .piece = piece, .size = tw_piece_size(&in->job->pieces[piece]) };
    gather(&s);
    return s;
}

tw_drawn_piece tw_drawn_piece_make(tw_arena *arena, const tw_paper_input *in, int piece)
{
    tw_drawn_piece s = tw_drawn_piece_cuts(arena, in, piece);
    give_marks(&s);
    find_slices(&s);
    return s;
}
