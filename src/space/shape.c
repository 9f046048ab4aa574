// SPDX-License-Identifier: GPL-3.0-or-later
/* The wood of a piece as blocks, from its cuts.
 *
 * The borders of the cuts divide the blank into cells; a cell is wood unless a cut takes it. For each of the six orders of the
 * three directions, from each cell of wood that no block of that order holds yet, a block grows as far as there is wood, one
 * direction after the other; what comes out twice is kept once. So the wood is covered six times over, by blocks that overlap:
 * together they are all of it, and where the blocks of one order meet those of another run through.
 *
 * An edge of a cell is an edge of the wood when of the four cells around it one, three, or two opposite ones are wood. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "space/parts.h"

#define SAME_MM 1e-6         // borders nearer than this are one
#define ORDERS 6
#define CELLS_MOST 60000     // a piece of more is taken as its blank
#define BLOCKS_MOST 128      // more blocks of one piece are not kept apart: the blank is taken

typedef struct grid {
    double *at[3];           // borders along x, y, z
    int     cells[3];
    bool   *wood;            // [cells x * y * z], x fastest
    unsigned char *held;     // likewise: bit k set when a block of order k holds the cell
} grid;

static int cell_index(const grid *g, const int c[3]) { return c[0] + g->cells[0] * (c[1] + g->cells[1] * c[2]); }

static bool is_wood(const grid *g, const int c[3])
{
    for (int i = 0; i < 3; i++)
        if (c[i] < 0 || c[i] >= g->cells[i]) return false;
    return g->wood[cell_index(g, c)];
}

static void coordinates(tw_spot spot, double of[3]) { of[0] = spot.x; of[1] = spot.y; of[2] = spot.z; }
static tw_spot spot_of(const double of[3]) { return (tw_spot){ of[0], of[1], of[2] }; }

/* ---- cells ---- */

static int by_size(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

static int without_twins(double *at, int count)
{
    int kept = 0;
    qsort(at, (size_t)count, sizeof *at, by_size);
    for (int i = 0; i < count; i++)
        if (kept == 0 || at[i] - at[kept - 1] > SAME_MM) at[kept++] = at[i];
    return kept;
}

static grid grid_of(tw_arena *arena, tw_block blank, const tw_block *taken, int count)
{
    grid g = { .wood = NULL };
    for (int axis = 0; axis < 3; axis++) {
        g.at[axis] = TW_NEW_ARRAY(arena, double, (size_t)(2 * count + 2));
        for (int i = 0; i <= count; i++) {
            double least[3], most[3];
            coordinates(i < count ? taken[i].least : blank.least, least);
            coordinates(i < count ? taken[i].most : blank.most, most);
            g.at[axis][2 * i] = least[axis];
            g.at[axis][2 * i + 1] = most[axis];
        }
        g.cells[axis] = without_twins(g.at[axis], 2 * count + 2) - 1;
    }
    return g;
}

static int border_of(const grid *g, int axis, double value)
{
    int i = 0;
    while (i < g->cells[axis] && g->at[axis][i] < value - SAME_MM) i++;
    return i;
}

static void take(grid *g, tw_block block)
{
    double least[3], most[3];
    int from[3], to[3], c[3];
    coordinates(block.least, least);
    coordinates(block.most, most);
    for (int i = 0; i < 3; i++) {
        from[i] = border_of(g, i, least[i]);
        to[i] = border_of(g, i, most[i]);
    }
    for (c[2] = from[2]; c[2] < to[2]; c[2]++)
        for (c[1] = from[1]; c[1] < to[1]; c[1]++)
            for (c[0] = from[0]; c[0] < to[0]; c[0]++) g->wood[cell_index(g, c)] = false;
}

/* ---- blocks ---- */

/* True when the layer of cells next to the range, on one side of it, is all wood. */
static bool layer_is_wood(const grid *g, const int from[3], const int to[3], int axis, int layer)
{
    int a = (axis + 1) % 3, b = (axis + 2) % 3, c[3];
    c[axis] = layer;
    for (c[a] = from[a]; c[a] < to[a]; c[a]++)
        for (c[b] = from[b]; c[b] < to[b]; c[b]++)
            if (!is_wood(g, c)) return false;
    return true;
}

static tw_block grown(const grid *g, const int cell[3], int order)
{
    static const int orders[ORDERS][3] = { { 0, 1, 2 }, { 0, 2, 1 }, { 1, 0, 2 }, { 1, 2, 0 }, { 2, 0, 1 }, { 2, 1, 0 } };
    int from[3], to[3], c[3];
    double least[3], most[3];
    for (int i = 0; i < 3; i++) { from[i] = cell[i]; to[i] = cell[i] + 1; }
    for (int k = 0; k < 3; k++) {
        int axis = orders[order][k];
        while (layer_is_wood(g, from, to, axis, from[axis] - 1)) from[axis]--;
        while (layer_is_wood(g, from, to, axis, to[axis])) to[axis]++;
    }
    for (c[2] = from[2]; c[2] < to[2]; c[2]++)
        for (c[1] = from[1]; c[1] < to[1]; c[1]++)
            for (c[0] = from[0]; c[0] < to[0]; c[0]++) g->held[cell_index(g, c)] |= (unsigned char)(1u << order);
    for (int i = 0; i < 3; i++) { least[i] = g->at[i][from[i]]; most[i] = g->at[i][to[i]]; }
    return (tw_block){ spot_of(least), spot_of(most) };
}

static bool is_same(tw_block a, tw_block b) { return memcmp(&a, &b, sizeof a) == 0; }

static void keep_block(tw_arena *arena, tw_shape *shape, size_t *room, tw_block block)
{
    for (int i = 0; i < shape->block_count; i++)
        if (is_same(shape->blocks[i], block)) return;
    tw_array_make_room(arena, &shape->blocks, (size_t)shape->block_count, room, sizeof block);
    shape->blocks[shape->block_count++] = block;
}

static void find_blocks(tw_arena *arena, const grid *g, tw_shape *shape)
{
    size_t room = 0;
    int c[3];
    for (c[2] = 0; c[2] < g->cells[2]; c[2]++)
        for (c[1] = 0; c[1] < g->cells[1]; c[1]++)
            for (c[0] = 0; c[0] < g->cells[0]; c[0]++)
                for (int i = 0; i < ORDERS && is_wood(g, c) && shape->block_count <= BLOCKS_MOST; i++)
                    if (!(g->held[cell_index(g, c)] & 1u << i)) keep_block(arena, shape, &room, grown(g, c, i));
}

/* ---- pieces ---- */

static tw_shape shape_of(tw_arena *arena, tw_block blank, const tw_block *taken, int count);

static tw_shape blank_shape(tw_arena *arena, tw_block blank)
{
    tw_shape shape = shape_of(arena, blank, NULL, 0);
    shape.blank = true;
    return shape;
}

static tw_shape shape_of(tw_arena *arena, tw_block blank, const tw_block *taken, int count)
{
    grid g = grid_of(arena, blank, taken, count);
    double cells = (double)g.cells[0] * g.cells[1] * g.cells[2];
    if (cells > CELLS_MOST) return blank_shape(arena, blank);
    g.wood = TW_NEW_ARRAY(arena, bool, (size_t)cells);
    g.held = TW_NEW_ARRAY(arena, unsigned char, (size_t)cells);
    for (size_t i = 0; i < (size_t)cells; i++) g.wood[i] = true;
    for (int i = 0; i < count; i++) take(&g, taken[i]);
    tw_shape shape = { .block_count = 0 };
    find_blocks(arena, &g, &shape);
    if (shape.block_count > BLOCKS_MOST) return blank_shape(arena, blank);
    return shape;
}

typedef struct removed { tw_block *blocks; size_t count, room; } removed;

static void put_removed(tw_arena *arena, removed *r, tw_block block)
{
    bool flat = block.most.x - block.least.x < SAME_MM || block.most.y - block.least.y < SAME_MM || block.most.z - block.least.z < SAME_MM;
    if (flat) return;
    tw_array_make_room(arena, &r->blocks, r->count, &r->room, sizeof block);
    r->blocks[r->count++] = block;
}

/* A box that lies within a cut that leans, of four straight sides: between the second and the third of its corners each way, drawn
 * in by its lean. Returns false when that is none, or its corners do not lie in the outline. */
static bool box_within(const tw_cut *cut, double deep_mm, tw_box *box)
{
    double x[4], y[4], right = cut->lean_right * deep_mm, up = cut->lean_up * deep_mm;
    if (cut->outline.count != 1 || cut->outline.loops[0].count != 4 || cut->start_mm > 0.0 || (right == 0.0 && up == 0.0)) return false;
    for (int i = 0; i < 4; i++) {
        tw_vertex v = cut->outline.loops[0].vertices[i];
        if (v.bulge != 0.0) return false;
        x[i] = v.x;
        y[i] = v.y;
    }
    qsort(x, 4, sizeof *x, by_size);
    qsort(y, 4, sizeof *y, by_size);
    *box = (tw_box){ x[1] + tw_max(0.0, right), y[1] + tw_max(0.0, up), x[2] + tw_min(0.0, right), y[2] + tw_min(0.0, up) };
    if (box->x1 <= box->x0 || box->y1 <= box->y0) return false;
    for (int i = 0; i < 4; i++)
        if (tw_outline_side(cut->outline, (tw_point){ x[i % 2 + 1], y[i / 2 + 1] }) < 0) return false;
    return true;
}

/* What of a cut that is no block is gone for sure; nothing when no box is known within it. */
static void gather_within(tw_arena *arena, tw_size size, const tw_cut *cut, removed *sure)
{
    tw_box box;
    double deep = tw_cut_depth_mm(size, cut);
    if (!box_within(cut, deep, &box)) return;
    tw_cut straight = *cut;
    straight.lean_right = straight.lean_up = 0.0;
    straight.outline = tw_outline_rectangle(arena, box.x0, box.y0, box.x1, box.y1);
    put_removed(arena, sure, tw_cut_block(size, &straight, 0));
}

/* A loop that runs clockwise is a hole in what the cut removes: nothing of it is counted. Returns false when some of the cut is
 * not known as blocks. */
static bool gather_cut(tw_arena *arena, tw_size size, const tw_cut *cut, removed *sure, removed *all)
{
    bool known = true;
    for (int i = 0; i < cut->outline.count; i++) {
        tw_block block = tw_cut_block(size, cut, i);
        if (tw_loop_area_mm2(cut->outline.loops[i]) <= 0.0) continue;
        bool is_block = tw_cut_is_block(cut, i) && cut->outline.count == 1;
        if (is_block) put_removed(arena, sure, block);
        else gather_within(arena, size, cut, sure);
        known = known && is_block;
        put_removed(arena, all, block);
    }
    return known;
}

void tw_shapes_make(tw_placing *p)
{
    int pieces = p->job->piece_count;
    removed *sure = TW_NEW_ARRAY(p->arena, removed, (size_t)pieces), *all = TW_NEW_ARRAY(p->arena, removed, (size_t)pieces);
    bool *rough = TW_NEW_ARRAY(p->arena, bool, (size_t)pieces);  // some of its cuts are no blocks
    for (int i = 0; i < p->plan_count; i++)
        for (size_t k = 0; k < p->plans[i].cut_count; k++) {
            const tw_cut *cut = &p->plans[i].cuts[k];
            rough[cut->piece] |= !gather_cut(p->arena, tw_piece_size(&p->job->pieces[cut->piece]), cut, &sure[cut->piece], &all[cut->piece]);
        }
    p->space->shapes = TW_NEW_ARRAY(p->arena, tw_shape, (size_t)pieces);
    p->space->lean = TW_NEW_ARRAY(p->arena, tw_shape, (size_t)pieces);
    for (int i = 0; i < pieces; i++) {
        tw_block blank = tw_piece_block(tw_piece_size(&p->job->pieces[i]));
        p->space->shapes[i] = shape_of(p->arena, blank, sure[i].blocks, (int)sure[i].count);
        p->space->lean[i] = !rough[i] ? p->space->shapes[i] : shape_of(p->arena, blank, all[i].blocks, (int)all[i].count);
    }
}
