// SPDX-License-Identifier: GPL-3.0-or-later
/* Reading an outline with jansson. Values of jansson do not know where they stand, so the place of a wrong one is found
 * afterwards by walking the text, which is known to be sound JSON by then, along the path that leads to it. */
#include "cli/outline_file.h"

#include "job/characters.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#define SHAPE "write {\"loops\": [[[x, y, bulge], ...], ...]} in mm, the first loop outside, others holes"

typedef struct {
    tw_arena   *arena;
    tw_text     text;
    tw_place   *place;  // its file is set
    const char **wrong, **right;
} reading;

/* ---- places ---- */

/* Line and column, in characters from 1, of a byte of the text. */
static void set_place(reading *here, size_t at)
{
    int line = 1, column = 1;
    for (size_t i = 0; i < at && i < here->text.length; i++) {
        unsigned char byte = (unsigned char)here->text.bytes[i];
        if (byte == '\n') { line++; column = 1; }
        else if ((byte & 0xC0) != 0x80) column++;
    }
    here->place->line = line;
    here->place->column = column;
}

static size_t skip_blanks(tw_text text, size_t at)
{
    while (at < text.length && strchr(" \t\r\n", text.bytes[at])) at++;
    return at;
}

static size_t skip_text(tw_text text, size_t at)  // at its opening quote
{
    for (at++; at < text.length && text.bytes[at] != '"'; at++)
        if (text.bytes[at] == '\\') at++;
    return at + 1;
}

/* Past the value at `at`. Brackets are counted, whatever their kind: the text is sound. */
static size_t skip_value(tw_text text, size_t at)
{
    int depth = 0;
    do {
        at = skip_blanks(text, at);
        if (at >= text.length) return at;
        char byte = text.bytes[at];
        if (byte == '"') at = skip_text(text, at);
        else if (strchr("[{", byte)) { depth++; at++; }
        else if (strchr("]}", byte)) { depth--; at++; }
        else if (strchr(",:", byte)) at++;
        else while (at < text.length && !strchr(" \t\r\n,:]}", text.bytes[at])) at++;
    } while (depth > 0);
    return at;
}

/* The start of item number `index` of the list at `at`. */
static size_t item_at(tw_text text, size_t at, size_t index)
{
    at = skip_blanks(text, at + 1);
    for (; index > 0; index--) {
        at = skip_blanks(text, skip_value(text, at));
        if (at < text.length && text.bytes[at] == ',') at++;
        at = skip_blanks(text, at);
    }
    return at;
}

/* The start of a key of the object at `at`, or of its value. */
static size_t key_at(tw_text text, size_t at, const char *key, bool value)
{
    at = skip_blanks(text, at + 1);
    while (at < text.length && text.bytes[at] == '"') {
        size_t end = skip_text(text, at), start = at;
        bool found = tw_text_is((tw_text){ text.bytes + at + 1, end - at - 2 }, key);
        at = skip_blanks(text, end);
        at = skip_blanks(text, at + 1);
        if (found) return value ? at : start;
        at = skip_blanks(text, skip_value(text, at));
        if (at < text.length && text.bytes[at] == ',') at = skip_blanks(text, at + 1);
    }
    return at;
}

static size_t start_of(tw_text text) { return skip_blanks(text, 0); }
static size_t loops_at(tw_text text) { return key_at(text, start_of(text), "loops", true); }
static size_t loop_at(tw_text text, size_t loop) { return item_at(text, loops_at(text), loop); }
static size_t vertex_at(tw_text text, size_t loop, size_t vertex) { return item_at(text, loop_at(text, loop), vertex); }

static bool refuse(reading *here, size_t at, const char *wrong, const char *right)
{
    set_place(here, at);
    *here->wrong = wrong;
    *here->right = right;
    return false;
}

/* ---- values ---- */

#define BULGE "write [x, y, bulge]; bulge is the tangent of a quarter of the arc's angle, 0 for a line"
#define TOO_MANY "leave out what lies closer together than a cutter can follow"

static const char *too_many(tw_arena *arena)
{
    return tw_format(arena, "the outline has more than %d vertices", TW_OUTLINE_MOST_VERTICES);
}

static const char *vertex_name(reading *here, size_t loop, size_t vertex)
{
    return tw_format(here->arena, "vertex %zu of loop %zu", vertex + 1, loop + 1);
}

static bool read_vertex(reading *here, const json_t *from, size_t loop, size_t index, tw_vertex *vertex)
{
    size_t count = json_array_size(from);
    double numbers[3] = {0};
    if (!json_is_array(from) || count < 2 || count > 3)
        return refuse(here, vertex_at(here->text, loop, index),
                      tw_format(here->arena, "%s is not a list of three numbers", vertex_name(here, loop, index)), BULGE);
    for (size_t i = 0; i < count; i++) {
        const json_t *number = json_array_get(from, i);
        if (!json_is_number(number))
            return refuse(here, item_at(here->text, vertex_at(here->text, loop, index), i),
                          tw_format(here->arena, "the %s of %s is not a number", i == 0 ? "x" : i == 1 ? "y" : "bulge",
                                    vertex_name(here, loop, index)),
                          "write plain numbers in mm, such as 12.5");
        numbers[i] = json_number_value(number);
    }
    *vertex = (tw_vertex){ numbers[0], numbers[1], numbers[2] };
    return true;
}

static bool read_loop(reading *here, const json_t *from, size_t index, tw_loop *loop)
{
    size_t count = json_array_size(from);
    if (!json_is_array(from) || count < 2)
        return refuse(here, loop_at(here->text, index), tw_format(here->arena, "loop %zu is not a list of vertices", index + 1),
                      "write at least three vertices, or two with bulges for a circle: [[0, 0, 1], [10, 0, 1]]");
    *loop = (tw_loop){ TW_NEW_ARRAY(here->arena, tw_vertex, count), (int)count };
    for (size_t i = 0; i < count; i++)
        if (!read_vertex(here, json_array_get(from, i), index, i, &loop->vertices[i])) return false;
    return true;
}

static bool check_keys(reading *here, const json_t *root)
{
    const char *key;
    json_t *value;
    json_object_foreach((json_t *)root, key, value)
        if (strcmp(key, "loops") != 0)
            return refuse(here, key_at(here->text, start_of(here->text), key, false),
                          tw_format(here->arena, "the key %s is unknown", tw_shown(here->arena, tw_text_of(key))), SHAPE);
    return true;
}

/* jansson bounds the vertices only by the size of the text: count before anything is built. */
static bool check_count(reading *here, const json_t *loops)
{
    size_t vertices = 0;
    for (size_t i = 0; i < json_array_size(loops); i++) {
        vertices += json_array_size(json_array_get(loops, i));
        if (vertices > TW_OUTLINE_MOST_VERTICES || i >= TW_OUTLINE_MOST_VERTICES)
            return refuse(here, loop_at(here->text, i), too_many(here->arena), TOO_MANY);
    }
    return true;
}

static bool read_loops(reading *here, const json_t *root, tw_outline *raw)
{
    const json_t *loops = json_object_get(root, "loops");
    if (!json_is_object(root)) return refuse(here, start_of(here->text), "this is no JSON object", SHAPE);
    if (!check_keys(here, root)) return false;
    if (!loops) return refuse(here, start_of(here->text), "there is no key \"loops\"", SHAPE);
    size_t count = json_array_size(loops);
    if (!json_is_array(loops) || count == 0) return refuse(here, loops_at(here->text), "\"loops\" is not a list of loops", SHAPE);
    if (!check_count(here, loops)) return false;
    *raw = (tw_outline){ TW_NEW_ARRAY(here->arena, tw_loop, count), (int)count };
    for (size_t i = 0; i < count; i++)
        if (!read_loop(here, json_array_get(loops, i), i, &raw->loops[i])) return false;
    return true;
}

/* ---- the outline ---- */

/* The vertex nearest to a point, so that a fault of the geometry has a place in the text. */
static size_t nearest_vertex(tw_text text, tw_outline raw, tw_point point)
{
    double least = INFINITY;
    size_t at = loops_at(text);
    int loop = -1, vertex = -1;
    for (int i = 0; i < raw.count; i++)
        for (int j = 0; j < raw.loops[i].count; j++) {
            double distance = hypot(raw.loops[i].vertices[j].x - point.x, raw.loops[i].vertices[j].y - point.y);
            if (!(distance < least)) continue;
            least = distance;
            loop = i;
            vertex = j;
        }
    return loop < 0 ? at : vertex_at(text, (size_t)loop, (size_t)vertex);
}

static bool tidy(reading *here, tw_outline raw, tw_outline *outline)
{
    tw_point where = {0};
    tw_outline_fault fault = tw_outline_tidy(here->arena, raw, outline, &where);
    if (fault == TW_OUTLINE_GOOD) return true;
    size_t at = nearest_vertex(here->text, raw, where);
    const char *near = tw_format(here->arena, "near (%.3f, %.3f)", where.x, where.y);
    switch (fault) {
    case TW_OUTLINE_NOT_FINITE:
        return refuse(here, at, tw_format(here->arena, "a number is larger than %g", TW_OUTLINE_MOST_MM), "write millimetres");
    case TW_OUTLINE_TOO_MANY:
        return refuse(here, loops_at(here->text), too_many(here->arena), TOO_MANY);
    case TW_OUTLINE_FLAT: return refuse(here, at, tw_format(here->arena, "a loop %s has no area", near), "give every loop an inside");
    case TW_OUTLINE_CROSSES:
        return refuse(here, at, tw_format(here->arena, "the outline crosses itself %s", near), "order the vertices so that they go round once");
    case TW_OUTLINE_HOLE_OUTSIDE:
        return refuse(here, at, tw_format(here->arena, "a hole lies outside of the first loop %s", near),
                      "the first loop is the outside, all others are holes in it");
    default: return refuse(here, at, "the outline is empty", SHAPE);
    }
}

bool tw_outline_read(tw_arena *arena, tw_text text, const char *file, tw_outline *outline, tw_place *place, const char **wrong,
                     const char **right)
{
    *place = (tw_place){ .file = file };
    reading here = { .arena = arena, .text = text, .place = place, .wrong = wrong, .right = right };
    if (text.length >= 3 && memcmp(text.bytes, "\xEF\xBB\xBF", 3) == 0) here.text = text = (tw_text){ text.bytes + 3, text.length - 3 };  // a byte-order mark
    json_error_t error;
    json_t *root = json_loadb(text.bytes, text.length, JSON_REJECT_DUPLICATES, &error);
    if (!root) {
        size_t at = error.position > 0 ? (size_t)error.position - 1 : 0;
        return refuse(&here, at, tw_format(arena, "this is no sound JSON: %s", tw_text_copy(arena, tw_text_of(error.text))), SHAPE);
    }
    tw_outline raw;
    bool good = read_loops(&here, root, &raw) && tidy(&here, raw, outline);
    json_decref(root);
    return good;
}
