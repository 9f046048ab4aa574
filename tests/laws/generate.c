// SPDX-License-Identifier: GPL-3.0-or-later
#include "laws/generate.h"

#define MOST 64

#define AS_TEXT(name) #name,
const char *const generate_names[KIND_COUNT] = { EACH_KIND(AS_TEXT) };
#undef AS_TEXT

/* What is being made: loops of at most MOST vertices, in units of about 1, and a distance in the same units. */
typedef struct sketch {
    check_seed *seed;
    tw_vertex   vertices[4][MOST];
    int         counts[4], loops;
    double      distance;  // 0: to be chosen
} sketch;

static double between(sketch *s, double least, double most) { return check_between(s->seed, least, most); }
static int whole(sketch *s, int least, int most) { return least + (int)(check_random(s->seed) % (uint64_t)(most - least + 1)); }
static bool chance(sketch *s, double part) { return between(s, 0.0, 1.0) < part; }
/* From least to most, each power of ten as likely as another. */
static double any_size(sketch *s, double least, double most) { return least * pow(most / least, between(s, 0.0, 1.0)); }
static double either(sketch *s, double value) { return chance(s, 0.5) ? value : -value; }

static void put(sketch *s, double x, double y, double bulge)
{
    int loop = s->loops > 0 ? s->loops - 1 : 0;
    s->loops = loop + 1;
    if (s->counts[loop] < MOST) s->vertices[loop][s->counts[loop]++] = (tw_vertex){ x, y, bulge };
}

static void put_star(sketch *s, int count, double cx, double cy, double least, double most, double bulge)
{
    double phase = between(s, 0.0, 1.0);
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * (i + phase + between(s, -0.3, 0.3)) / count, radius = between(s, least, most);
        put(s, cx + radius * cos(angle), cy + radius * sin(angle), chance(s, 0.5) ? 0.0 : between(s, -bulge, bulge));
    }
}

static void star(sketch *s) { put_star(s, whole(s, 3, 20), 0.0, 0.0, 0.2, 1.0, 0.0); }
static void bulged(sketch *s) { put_star(s, whole(s, 2, 14), 0.0, 0.0, 0.3, 1.0, any_size(s, 1e-7, 2.0)); }

/* A rectangle with slots from above; some are exactly as wide as the offset's path, some a hair more or less. */
static void comb(sketch *s)
{
    int slots = whole(s, 1, 6);
    s->distance = 0.05 * whole(s, 1, 4);
    put(s, 0.0, 0.0, 0.0);
    double x = 0.0;
    double ys[12], xs[12];
    for (int i = 0; i < slots; i++) {
        double width = chance(s, 0.5) ? 2.0 * s->distance : between(s, 0.02, 0.5);
        if (chance(s, 0.2)) width += either(s, any_size(s, 1e-10, 1e-3));
        x += chance(s, 0.4) ? 2.0 * s->distance : between(s, 0.05, 0.6);
        xs[2 * i] = x;
        x += width;
        xs[2 * i + 1] = x;
        ys[2 * i] = chance(s, 0.5) ? 0.3 : between(s, 0.1, 0.9);
        ys[2 * i + 1] = chance(s, 0.7) ? ys[2 * i] : between(s, 0.1, 0.9);
    }
    x += between(s, 0.05, 0.6);
    put(s, x, 0.0, 0.0);
    put(s, x, 1.0, 0.0);
    for (int i = 2 * slots - 1; i > 0; i -= 2) {
        bool round = chance(s, 0.3) && ys[i] == ys[i - 1];
        put(s, xs[i], 1.0, 0.0);
        put(s, xs[i], ys[i], round ? -1.0 : 0.0);
        put(s, xs[i - 1], ys[i - 1], 0.0);
        put(s, xs[i - 1], 1.0, 0.0);
    }
    put(s, 0.0, 1.0, 0.0);
}

static void spiked(sketch *s)
{
    int count = whole(s, 3, 10);
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * i / count, width = any_size(s, 1e-7, 0.2), tip = between(s, 0.1, 2.0);
        put(s, cos(angle), sin(angle), 0.0);
        if (chance(s, 0.5)) continue;
        put(s, tip * cos(angle + width / 2.0), tip * sin(angle + width / 2.0), 0.0);
        put(s, cos(angle + width), sin(angle + width), 0.0);
    }
}

/* A rounded slot or rectangle; the radius and the width are often those that the offset uses up. */
static void slotted(sketch *s)
{
    double width = between(s, 0.1, 1.0), length = width + (chance(s, 0.2) ? any_size(s, 1e-9, 1e-2) : between(s, 0.0, 1.0));
    double radius = width * (chance(s, 0.4) ? 0.5 : between(s, 0.01, 0.5)), b = tan(TW_PI / 8.0);
    if (chance(s, 0.3)) b += either(s, any_size(s, 1e-15, 1e-3));
    s->distance = chance(s, 0.6) ? -radius : -width / 2.0;
    if (chance(s, 0.4)) s->distance += either(s, any_size(s, 1e-12, 1e-3));
    if (chance(s, 0.3)) s->distance = -s->distance;
    double hollow = chance(s, 0.3) ? -1.0 : 1.0;
    put(s, 0.0, radius, hollow * b);
    put(s, radius, 0.0, 0.0);
    put(s, length - radius, 0.0, hollow * b);
    put(s, length, radius, 0.0);
    put(s, length, width - radius, hollow * b);
    put(s, length - radius, width, 0.0);
    put(s, radius, width, hollow * b);
    put(s, 0.0, width - radius, 0.0);
}

/* A chain that goes on from edge to edge almost smoothly, and is closed by two lines. */
static void tangent(sketch *s)
{
    double x = 0.0, y = 0.0, angle = 0.0, miss = any_size(s, 1e-16, 1e-3);
    int count = whole(s, 2, 12);
    for (int i = 0; i < count; i++) {
        double length = chance(s, 0.2) ? any_size(s, 1e-6, 0.3) : between(s, 0.05, 0.4);
        double bulge = chance(s, 0.4) ? 0.0 : chance(s, 0.5) ? between(s, -0.4, 0.4) : either(s, any_size(s, 1e-9, 0.1));
        double chord = angle + 2.0 * atan(bulge);
        put(s, x, y, bulge);
        x += length * cos(chord);
        y += length * sin(chord);
        angle = chord + 2.0 * atan(bulge) + either(s, miss);
    }
    put(s, x, y, 0.0);
    put(s, x / 2.0 + between(s, -0.3, 0.3), y + between(s, 1.0, 2.0), 0.0);
}

static void collinear(sketch *s)
{
    double corners[5][2] = { { 0, 0 }, { 1, 0 }, { 1, 0.4 }, { 0.5, between(s, 0.1, 1.0) }, { 0, 1 } };
    double noise = chance(s, 0.5) ? 0.0 : any_size(s, 1e-15, 1e-5);
    for (int i = 0; i < 5; i++) {
        double *a = corners[i], *b = corners[(i + 1) % 5];
        int parts = whole(s, 1, 6);
        for (int k = 0; k < parts; k++) {
            double t = (double)k / parts;
            put(s, a[0] + (b[0] - a[0]) * t + between(s, -noise, noise), a[1] + (b[1] - a[1]) * t + between(s, -noise, noise), 0.0);
        }
    }
}

static void tiny_edges(sketch *s)
{
    int count = whole(s, 3, 8);
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * (i + between(s, -0.2, 0.2)) / count, radius = between(s, 0.4, 1.0), size = any_size(s, 1e-6, 1e-2);
        double x = radius * cos(angle), y = radius * sin(angle);
        put(s, x, y, chance(s, 0.7) ? 0.0 : between(s, -1.0, 1.0));
        for (int k = whole(s, 0, 3); k > 0; k--) put(s, x += between(s, -size, size), y += between(s, -size, size), chance(s, 0.8) ? 0.0 : between(s, -1.0, 1.0));
    }
}

/* Everything on whole numbers, with quarter and half circles, and distances that are whole or half: nothing but ties. */
static void grid(sketch *s)
{
    static const double bulges[] = { 0.0, 0.0, 0.41421356237309503, -0.41421356237309503, 1.0, -1.0 };
    int count = whole(s, 3, 12);
    for (int i = 0; i < count; i++) put(s, 0.1 * whole(s, -6, 6), 0.1 * whole(s, -6, 6), bulges[whole(s, 0, 5)]);
    s->distance = 0.05 * whole(s, -5, 5);
    if (chance(s, 0.5))  // sorted by angle: more likely to be tidy
        for (int i = 1; i < s->counts[0]; i++)
            for (int k = i; k > 0; k--) {
                tw_vertex *a = &s->vertices[0][k - 1], *b = &s->vertices[0][k], kept = *a;
                if (atan2(a->y, a->x) <= atan2(b->y, b->x)) break;
                *a = *b;
                *b = kept;
            }
}

static void put_hole(sketch *s, double x, double y, double size)
{
    s->counts[s->loops++] = 0;
    put_star(s, whole(s, 2, 6), x, y, 0.5 * size, size, chance(s, 0.5) ? 0.0 : 1.0);
}

static void holed(sketch *s)
{
    put_star(s, whole(s, 3, 10), 0.0, 0.0, 0.6, 1.0, 0.2);
    int holes = whole(s, 1, 3);
    for (int i = 0; i < holes; i++) put_hole(s, between(s, -0.6, 0.6), between(s, -0.6, 0.6), between(s, 0.02, 0.3));
}

/* All arcs, of every size of bulge. */
static void flower(sketch *s)
{
    int count = whole(s, 2, 10);
    double bulge = chance(s, 0.2) ? 1.0 : any_size(s, 1e-9, 8.0), sign = either(s, 1.0);
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * i / count, radius = chance(s, 0.5) ? 1.0 : between(s, 0.8, 1.0);
        put(s, radius * cos(angle), radius * sin(angle), chance(s, 0.7) ? sign * bulge : either(s, bulge * between(s, 0.0, 1.0)));
    }
}

/* A circle or a square with many small dents: loops that split and vanish. */
static void dented(sketch *s)
{
    int count = whole(s, 8, 30);
    double deep = any_size(s, 1e-6, 0.3);
    for (int i = 0; i < count; i++) {
        double angle = 2.0 * TW_PI * i / count, radius = 1.0 - (i & 1 ? deep : 0.0);
        put(s, radius * cos(angle), radius * sin(angle), chance(s, 0.5) ? 0.0 : between(s, -0.5, 0.5));
    }
}

typedef void (*maker)(sketch *s);
#define AS_MAKER(name) name,
static const maker makers[KIND_COUNT] = { EACH_KIND(AS_MAKER) };
#undef AS_MAKER

static tw_outline finished(tw_arena *arena, const sketch *s, double scale, double turn, tw_point at)
{
    tw_outline raw = { TW_NEW_ARRAY(arena, tw_loop, (size_t)s->loops), s->loops };
    double c = cos(turn) * scale, n = sin(turn) * scale;
    for (int i = 0; i < s->loops; i++) {
        raw.loops[i] = (tw_loop){ TW_NEW_ARRAY(arena, tw_vertex, (size_t)s->counts[i]), s->counts[i] };
        for (int j = 0; j < s->counts[i]; j++) {
            tw_vertex v = s->vertices[i][j];
            raw.loops[i].vertices[j] = (tw_vertex){ v.x * c - v.y * n + at.x, v.x * n + v.y * c + at.y, v.bulge };
        }
    }
    return raw;
}

generated generate(tw_arena *arena, check_seed *seed, generate_kind kind, double size_mm, int *tries)
{
    for (;;) {
        sketch s = { .seed = seed };
        makers[kind](&s);
        double scale = size_mm > 0.0 ? size_mm * between(&s, 0.5, 1.0) : any_size(&s, 1e-3, 1e4);
        if (kind == KIND_grid || kind == KIND_comb) scale = size_mm > 0.0 ? size_mm : pow(10.0, whole(&s, -2, 4));
        double turn = chance(&s, 0.5) ? 0.0 : between(&s, 0.0, 2.0 * TW_PI);
        tw_point at = { 0.0, 0.0 };
        if (chance(&s, 0.5)) at = (tw_point){ between(&s, -3.0, 3.0) * scale, between(&s, -3.0, 3.0) * scale };
        if (chance(&s, 0.1)) at = (tw_point){ between(&s, -1e4, 1e4), between(&s, -1e4, 1e4) };
        double distance = s.distance != 0.0 ? s.distance : either(&s, any_size(&s, 1e-3, 1.0));
        if (s.distance != 0.0 && chance(&s, 0.3)) distance = either(&s, distance);
        ++*tries;
        generated made = { .distance_mm = distance * scale, .size_mm = scale };
        tw_point where;
        if (tw_outline_tidy(arena, finished(arena, &s, scale, turn, at), &made.outline, &where) == TW_OUTLINE_GOOD) return made;
    }
}
