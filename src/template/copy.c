// SPDX-License-Identifier: GPL-3.0-or-later
/* The template of a cut, and the proof of it. The proof does not look at how the template was made: it takes the
 * template as an outline, runs the follower round it, divides by the ratio and sweeps the cutter. */
#include "template/copy.h"

#include <assert.h>
#include <math.h>

#define JUST_MM 1e-6          // a cutter passes a slot that is narrower than itself by no more than this: its own width
#define ALIKE_MM 1e-6         // paths whose vertices differ by less need no closer look
#define THIN_MM 1e-5          // a loop no wider than this is a path there and back
#define PATCH_LEAST_MM2 1e-5  // less wood than this is rounding
#define BLUNT_RAD (2.0 * TW_PI / 3.0)  // corners that turn more than this are cut off square
#define FOLLOWER_STEPS 16    // between r d and the follower
#define FOUND_MM 1e-5         // by no more than this the largest follower that is found is too small
#define SEARCH_STEPS 45       // halvings: a diameter is found to 1e-12 of its range

double tw_copy_width_mm(double width_mm, bool inside, double cutter_mm, double follower_mm, double ratio)
{
    return inside ? ratio * (width_mm - cutter_mm) + follower_mm : ratio * (width_mm + cutter_mm) - follower_mm;
}

double tw_copy_fit_mm(bool inside, double template_follower_mm, double used_follower_mm, double ratio)
{
    double change = (template_follower_mm - used_follower_mm) / ratio;
    return inside ? change : -change;
}

/* ---- shrinking with a just fit ---- */

/* Middle of the loop's vertices that lie about one end of it. */
static tw_vertex end_of(const tw_loop *loop, tw_vertex about)
{
    tw_vertex sum = { 0 };
    int count = 0;
    for (int i = 0; i < loop->count; i++) {
        tw_vertex v = loop->vertices[i];
        if (hypot(v.x - about.x, v.y - about.y) > THIN_MM) continue;
        sum.x += v.x;
        sum.y += v.y;
        count++;
    }
    return (tw_vertex){ sum.x / count, sum.y / count, 0.0 };
}

/* A loop no wider than THIN_MM becomes the line there and back between its two farthest vertices; a loop as small
 * as a point stays as it is. */
static void flatten(tw_loop *loop)
{
    int a = 0, b = 0;
    double longest = 0.0;
    for (int i = 0; i < loop->count; i++)
        for (int j = i + 1; j < loop->count; j++) {
            double length = hypot(loop->vertices[j].x - loop->vertices[i].x, loop->vertices[j].y - loop->vertices[i].y);
            if (length > longest) { longest = length; a = i; b = j; }
        }
    if (longest < 10.0 * THIN_MM) return;
    tw_vertex from = loop->vertices[a], to = loop->vertices[b];
    for (int i = 0; i < loop->count; i++) {
        tw_vertex v = loop->vertices[i];
        double off = ((to.x - from.x) * (v.y - from.y) - (to.y - from.y) * (v.x - from.x)) / longest;
        double sag = fabs(v.bulge) * longest / 2.0;
        bool short_end = hypot(loop->vertices[(i + 1) % loop->count].x - v.x, loop->vertices[(i + 1) % loop->count].y - v.y) < THIN_MM;
        if (fabs(off) > THIN_MM || (sag > THIN_MM && !short_end)) return;
    }
    from = end_of(loop, from);
    to = end_of(loop, to);
    double in_x = (to.x - from.x) / longest * JUST_MM, in_y = (to.y - from.y) / longest * JUST_MM;  // the lenient loop is so much too long
    loop->vertices[0] = (tw_vertex){ from.x + in_x, from.y + in_y, 0.0 };
    loop->vertices[1] = (tw_vertex){ to.x - in_x, to.y - in_y, 0.0 };
    loop->count = 2;
}

static tw_outline shrunk(tw_arena *arena, tw_outline region, double distance_mm)
{
    tw_outline strict = tw_outline_offset(arena, region, -distance_mm);
    if (distance_mm <= 2.0 * JUST_MM) return strict;
    tw_outline lenient = tw_outline_offset(arena, region, -(distance_mm - JUST_MM));
    if (lenient.count == strict.count) return strict;
    for (int i = 0; i < lenient.count; i++) flatten(&lenient.loops[i]);
    return lenient;
}

static int outer_count(tw_outline outline)
{
    int count = 0;
    for (int i = 0; i < outline.count; i++) count += outline.loops[i].count == 2 || tw_loop_area_mm2(outline.loops[i]) > 0.0;
    return count;
}

/* ---- square corners ---- */

static bool is_vertex_of(tw_outline outline, tw_point point)
{
    for (int i = 0; i < outline.count; i++)
        for (int j = 0; j < outline.loops[i].count; j++)
            if (hypot(outline.loops[i].vertices[j].x - point.x, outline.loops[i].vertices[j].y - point.y) < 1e-6) return true;
    return false;
}

typedef struct tw_arc { tw_point centre; double radius, turn; } tw_arc;

static tw_arc arc_between(tw_vertex a, tw_vertex b)
{
    double chord = hypot(b.x - a.x, b.y - a.y), bulge = a.bulge;
    double to_centre = chord * (1.0 - bulge * bulge) / (4.0 * bulge);  // from the chord's middle, to its left
    tw_point left = { -(b.y - a.y) / chord, (b.x - a.x) / chord };
    return (tw_arc){ { (a.x + b.x) / 2.0 + left.x * to_centre, (a.y + b.y) / 2.0 + left.y * to_centre },
                     chord * (1.0 + bulge * bulge) / (4.0 * fabs(bulge)), 4.0 * atan(bulge) };
}

/* The tangent at an end of the arc from a, in the sense of travel. */
static tw_point tangent_at(tw_arc arc, tw_vertex at)
{
    double sign = arc.turn > 0.0 ? 1.0 : -1.0;
    return (tw_point){ -sign * (at.y - arc.centre.y) / arc.radius, sign * (at.x - arc.centre.x) / arc.radius };
}

static bool straight_at(tw_vertex before, tw_vertex at, tw_vertex after)
{
    if (before.bulge != 0.0 || at.bulge != 0.0) return false;
    double ax = at.x - before.x, ay = at.y - before.y, bx = after.x - at.x, by = after.y - at.y;
    return fabs(ax * by - ay * bx) <= 1e-9 * (hypot(ax, ay) * hypot(bx, by)) + 1e-12 && ax * bx + ay * by > 0.0;
}

static void drop_straight_vertices(tw_loop *loop)
{
    int kept = 0;
    for (int i = 0; i < loop->count; i++) {
        tw_vertex before = kept > 0 ? loop->vertices[kept - 1] : loop->vertices[loop->count - 1];
        if (!straight_at(before, loop->vertices[i], loop->vertices[(i + 1) % loop->count])) loop->vertices[kept++] = loop->vertices[i];
    }
    loop->count = kept;
}

/* Puts a square corner in place of each arc of the follower's radius about a sharp corner of its path. */
static tw_outline with_square_corners(tw_arena *arena, tw_outline rounded, tw_outline path, double radius_mm)
{
    tw_outline squared = { TW_NEW_ARRAY(arena, tw_loop, (size_t)rounded.count), rounded.count };
    for (int i = 0; i < rounded.count; i++) {
        tw_loop from = rounded.loops[i];
        tw_loop *to = &squared.loops[i];
        to->vertices = TW_NEW_ARRAY(arena, tw_vertex, 3 * (size_t)from.count);
        for (int j = 0; j < from.count; j++) {
            tw_vertex a = from.vertices[j], b = from.vertices[(j + 1) % from.count];
            to->vertices[to->count++] = a;
            if (a.bulge == 0.0) continue;
            tw_arc arc = arc_between(a, b);
            if (fabs(arc.radius - radius_mm) > 1e-6 || !is_vertex_of(path, arc.centre)) continue;
            double turn = fabs(arc.turn);
            bool blunt = turn > BLUNT_RAD;
            double reach = radius_mm * tan(blunt ? turn / 4.0 : turn / 2.0);
            tw_point ta = tangent_at(arc, a), tb = tangent_at(arc, b);
            to->vertices[to->count - 1].bulge = 0.0;
            to->vertices[to->count++] = (tw_vertex){ a.x + ta.x * reach, a.y + ta.y * reach, 0.0 };
            if (blunt) to->vertices[to->count++] = (tw_vertex){ b.x - tb.x * reach, b.y - tb.y * reach, 0.0 };
        }
        drop_straight_vertices(to);
    }
    return squared;
}

/* ---- there and back ---- */

static tw_outline template_of(tw_arena *arena, tw_outline follower_path, bool inside, double follower_mm)
{
    // a body has to have wood in it: no just fit here
    return tw_outline_offset(arena, follower_path, inside ? follower_mm / 2.0 : -follower_mm / 2.0);
}

static tw_outline follower_path_in(tw_arena *arena, tw_outline template_, bool inside, double follower_mm)
{
    return inside ? shrunk(arena, template_, follower_mm / 2.0) : tw_outline_offset(arena, template_, follower_mm / 2.0);
}

/* The path that a template can give at best: where b > r d, corners that the follower cannot turn round are rounded. */
static tw_outline path_to_expect(tw_arena *arena, tw_outline cutter_path, const tw_copy_ask *ask, double follower_mm)
{
    double round = follower_mm / (2.0 * ask->ratio);
    if (round <= ask->cutter_mm / 2.0) return cutter_path;
    if (ask->inside) return shrunk(arena, tw_outline_offset(arena, cutter_path, round), round);
    return tw_outline_offset(arena, shrunk(arena, cutter_path, round), round);
}

/* The greatest distance between two paths. Most are alike vertex for vertex: their arcs then lie as near as their
 * vertices and their middles do, twice told for safety. */
static double path_error_mm(tw_arena *arena, tw_outline a, tw_outline b)
{
    double apart = 0.0;
    bool alike = a.count == b.count;
    for (int i = 0; i < a.count && alike; i++) {
        alike = a.loops[i].count == b.loops[i].count;
        for (int j = 0; j < a.loops[i].count && alike; j++) {
            tw_vertex u = a.loops[i].vertices[j], v = b.loops[i].vertices[j], next = a.loops[i].vertices[(j + 1) % a.loops[i].count];
            double sag = fabs(u.bulge - v.bulge) * hypot(next.x - u.x, next.y - u.y);
            apart = tw_max(apart, 2.0 * (hypot(u.x - v.x, u.y - v.y) + sag));
            alike = apart < ALIKE_MM;
        }
    }
    return alike ? apart : tw_outline_difference_mm(arena, a, b);
}

static void reckon_back(tw_arena *arena, const tw_copy_ask *ask, double follower_mm, tw_copy *copy)
{
    tw_outline follower_path = follower_path_in(arena, copy->template_, ask->inside, follower_mm);
    tw_outline cutter_path = tw_outline_scaled(arena, follower_path, 1.0 / ask->ratio);
    copy->achieved = tw_outline_offset(arena, cutter_path, ask->inside ? ask->cutter_mm / 2.0 : -ask->cutter_mm / 2.0);
    copy->error_mm = path_error_mm(arena, cutter_path, path_to_expect(arena, copy->cutter_path, ask, follower_mm));
}

/* A slot of the template that is as narrow as the follower: with a follower a hair larger the path falls apart. */
static bool is_tight(tw_arena *arena, tw_outline follower_path, tw_outline template_, double follower_mm)
{
    double hair_mm = 0.01;
    tw_outline larger = tw_outline_offset(arena, template_, -(follower_mm / 2.0 + hair_mm));
    return outer_count(larger) != outer_count(follower_path);
}

static void make_template(tw_arena *arena, const tw_copy_ask *ask, double follower_mm, tw_copy *copy)
{
    tw_outline rounded = template_of(arena, copy->follower_path, ask->inside, follower_mm);
    copy->template_ = with_square_corners(arena, rounded, copy->follower_path, follower_mm / 2.0);
    tw_outline tidy;
    tw_point where;
    if (tw_outline_tidy(arena, copy->template_, &tidy, &where) == TW_OUTLINE_GOOD) {
        reckon_back(arena, ask, follower_mm, copy);
        if (copy->error_mm <= TW_COPY_TRUE_MM) return;
    }
    copy->template_ = rounded;  // square corners would meet another wall: the rounded ones serve
    reckon_back(arena, ask, follower_mm, copy);
}

/* ---- when there is none ---- */

static bool cutter_enters(tw_arena *arena, const tw_copy_ask *ask, double cutter_mm)
{
    return shrunk(arena, ask->cut, cutter_mm / 2.0).count > 0;
}

/* Does a follower of this size leave the path in as many loops as it has? */
static bool keeps_loops(tw_arena *arena, const tw_copy_ask *ask, tw_outline follower_path, double follower_mm)
{
    tw_outline template_ = template_of(arena, follower_path, ask->inside, follower_mm);
    if (!ask->inside) return template_.count == follower_path.count;
    return follower_path_in(arena, template_, true, follower_mm).count == follower_path.count;
}

/* The first size, growing from r d, at which the path loses a part, splits or grows together; the follower's own size
 * when none does. Up to r d nothing can happen: the path has no corner sharper than that. A part that splits off may
 * vanish again a little later, so that the size has to be approached in steps. */
static double first_bad_follower_mm(tw_arena *arena, const tw_copy_ask *ask, tw_outline follower_path)
{
    double good = tw_min(ask->ratio * ask->cutter_mm, ask->follower_mm), step = (ask->follower_mm - good) / FOLLOWER_STEPS;
    for (int i = 1; i <= FOLLOWER_STEPS && step > 0.0; i++) {
        double next = i == FOLLOWER_STEPS ? ask->follower_mm : good + step;
        if (!keeps_loops(arena, ask, follower_path, next)) return next;
        good = next;
    }
    return ask->follower_mm;
}

static bool follower_serves(tw_arena *arena, const tw_copy_ask *ask, tw_outline follower_path)
{
    if (ask->follower_mm <= ask->ratio * ask->cutter_mm) return true;
    return first_bad_follower_mm(arena, ask, follower_path) == ask->follower_mm && keeps_loops(arena, ask, follower_path, ask->follower_mm);
}

static double largest_cutter_mm(tw_arena *arena, const tw_copy_ask *ask)
{
    double good = 0.0, bad = ask->cutter_mm;
    for (int i = 0; i < SEARCH_STEPS; i++) {
        double middle = (good + bad) / 2.0;
        *(cutter_enters(arena, ask, middle) ? &good : &bad) = middle;
    }
    return good;
}

static double largest_follower_mm(tw_arena *arena, const tw_copy_ask *ask, tw_outline follower_path)
{
    double bad = first_bad_follower_mm(arena, ask, follower_path);
    double good = tw_max(ask->ratio * ask->cutter_mm, bad - (ask->follower_mm - ask->ratio * ask->cutter_mm) / FOLLOWER_STEPS);
    for (int i = 0; i < SEARCH_STEPS; i++) {
        double middle = (good + bad) / 2.0;
        *(keeps_loops(arena, ask, follower_path, middle) ? &good : &bad) = middle;
    }
    tw_copy_ask named = *ask;  // asked for in turn, the steps fall elsewhere: what is named must do then as well
    named.follower_mm = good - 1e-5;
    return good <= ask->ratio * ask->cutter_mm + 1e-4 || follower_serves(arena, &named, follower_path) ? good : largest_follower_mm(arena, &named, follower_path);
}

/* ---- lengths in words ---- */

static bool in_mm(const tw_copy_ask *ask) { return !ask->figures || ask->figures->style == TW_FIGURES_MM; }

/* A size: as the job writes it, "4.0 mm", "3/16 in"; without a job "4 mm". */
static const char *size_text(tw_arena *arena, const tw_copy_ask *ask, double value_mm)
{
    return ask->figures ? tw_length_text(arena, value_mm, *ask->figures) : tw_format(arena, "%g mm", value_mm);
}

/* A small length, finer than sizes are written. */
static const char *fine_text(tw_arena *arena, const tw_copy_ask *ask, double value_mm)
{
    return in_mm(ask) ? tw_format(arena, "%.3f mm", value_mm) : tw_format(arena, "%.4f in", value_mm / TW_MM_PER_INCH);
}

/* A size that is still good when it is written with two decimals of a mm (three of an inch), or more where it is small. */
static const char *down_text(tw_arena *arena, const tw_copy_ask *ask, double value_mm)
{
    int decimals = (value_mm >= 1.0 ? 2 : value_mm >= 0.01 ? 4 : 6) + !in_mm(ask);
    double step = pow(10.0, -decimals), value = value_mm / (in_mm(ask) ? 1.0 : TW_MM_PER_INCH);
    return tw_format(arena, "%.*f %s", decimals, floor(value / step + 1e-6) * step, in_mm(ask) ? "mm" : "in");
}

static const char *area_text(tw_arena *arena, const tw_copy_ask *ask, double area_mm2)
{
    return in_mm(ask) ? tw_format(arena, "%.2f mm2", area_mm2) : tw_format(arena, "%.4f sq in", area_mm2 / tw_square(TW_MM_PER_INCH));
}

/* ---- refusals ---- */

static void refuse_cutter(tw_arena *arena, const tw_copy_ask *ask, tw_copy *copy)
{
    copy->cutter_most_mm = largest_cutter_mm(arena, ask);
    copy->why = tw_format(arena, "a cutter of %s does not go into this pocket", size_text(arena, ask, ask->cutter_mm));
    copy->remedy = tw_format(arena, "a cutter of at most %s", down_text(arena, ask, copy->cutter_most_mm));
}

static void refuse_follower(tw_arena *arena, const tw_copy_ask *ask, tw_copy *copy)
{
    copy->follower_most_mm = largest_follower_mm(arena, ask, copy->follower_path);
    copy->why = ask->inside
        ? tw_format(arena, "a follower of %s leaves nothing of what stands inside the template", size_text(arena, ask, ask->follower_mm))
        : tw_format(arena, "a follower of %s leaves no template, or one in pieces: where the path is narrowest nothing remains inside it", size_text(arena, ask, ask->follower_mm));
    copy->remedy = tw_format(arena, "a follower under %s, or a larger cutter or ratio", down_text(arena, ask, copy->follower_most_mm + FOUND_MM));
}

/* ---- notes ---- */

static void add_note(tw_arena *arena, tw_copy *copy, const char *text)
{
    const char **notes = TW_NEW_ARRAY(arena, const char *, (size_t)copy->note_count + 1);
    for (int i = 0; i < copy->note_count; i++) notes[i] = copy->notes[i];
    notes[copy->note_count++] = text;
    copy->notes = notes;
}

static void note_wood(tw_arena *arena, const tw_copy_ask *ask, tw_copy *copy)
{
    if (copy->left_count > 0)
        add_note(arena, copy, tw_format(arena, "wood is left in %d place%s, %s in all: hollow corners keep a radius of %s; notch or round the mating corners, "
            "chisel them, or take a smaller cutter", copy->left_count, copy->left_count == 1 ? "" : "s", area_text(arena, ask, copy->left_area_mm2), size_text(arena, ask, copy->corner_radius_mm)));
    if (copy->lost_count > 0)
        add_note(arena, copy, tw_format(arena, "wood is lost in %d place%s, %s in all: outward corners are rounded to a radius of %s; a follower of at most %s loses nothing",
            copy->lost_count, copy->lost_count == 1 ? "" : "s", area_text(arena, ask, copy->lost_area_mm2), size_text(arena, ask, copy->lost_radius_mm),
            size_text(arena, ask, ask->ratio * ask->cutter_mm)));
}

static void note_path(tw_arena *arena, const tw_copy_ask *ask, tw_copy *copy)
{
    int wanted = outer_count(ask->cut), got = outer_count(copy->cutter_path);
    if (got != wanted)
        add_note(arena, copy, tw_format(arena, "the cutter's path falls into %d parts where the cut has %d: the cutter of %s does not pass every neck", got, wanted, size_text(arena, ask, ask->cutter_mm)));
    if (copy->error_mm > TW_COPY_TRUE_MM)
        add_note(arena, copy, tw_format(arena, "the path that this template gives differs from the wanted one by up to %s", fine_text(arena, ask, copy->error_mm)));
    if (copy->tight && copy->play_mm > 0.0)
        add_note(arena, copy, tw_format(arena, "the template has a slot as narrow as the follower; it is made %s wider for play, so the cut may come %s wider", in_mm(ask) ? tw_format(arena, "%g mm", copy->play_mm) : fine_text(arena, ask, copy->play_mm), fine_text(arena, ask, copy->play_mm / ask->ratio)));
    else if (copy->tight)
        add_note(arena, copy, tw_format(arena, "the template has a slot as narrow as the follower: give it a little play, %s or so", in_mm(ask) ? "0.1 mm" : "0.004 in"));
    if (fabs(ask->ratio * ask->cutter_mm - ask->follower_mm) < 1e-9)
        add_note(arena, copy, tw_format(arena, "the follower is the ratio times the cutter: the template is %g times the cut, less what the cutter cannot reach", ask->ratio));
}

static double sum_area(const tw_patch *patches, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++) sum += patches[i].area_mm2;
    return sum;
}

/* The least patch that is worth a word: above what a path that was found by a just fit is off along its sides. */
static double least_patch_mm2(const tw_copy_ask *ask, const tw_copy *copy)
{
    for (int i = 0; i < copy->cutter_path.count; i++)
        if (copy->cutter_path.loops[i].count == 2) return PATCH_LEAST_MM2 + 4.0 * JUST_MM * tw_outline_length_mm(ask->cut);
    return PATCH_LEAST_MM2;
}

/* A follower of at most r d loses nothing but what a just fit in some neck lets the cutter off its path. */
static double least_lost_mm2(const tw_copy_ask *ask, double least_mm2)
{
    if (ask->follower_mm > ask->ratio * ask->cutter_mm) return least_mm2;
    return tw_max(least_mm2, 4.0 * JUST_MM * tw_outline_length_mm(ask->cut));
}

static void compare_with_wanted(tw_arena *arena, const tw_copy_ask *ask, tw_copy *copy)
{
    double least_left = least_patch_mm2(ask, copy), least_lost = least_lost_mm2(ask, least_left);
    bool inside = ask->inside;
    tw_patch *short_ = tw_outline_patches(arena, ask->cut, copy->achieved, inside ? least_left : least_lost, inside ? &copy->left_count : &copy->lost_count);
    tw_patch *over = tw_outline_patches(arena, copy->achieved, ask->cut, inside ? least_lost : least_left, inside ? &copy->lost_count : &copy->left_count);
    copy->left = ask->inside ? short_ : over;
    copy->lost = ask->inside ? over : short_;
    copy->left_area_mm2 = sum_area(copy->left, copy->left_count);
    copy->lost_area_mm2 = sum_area(copy->lost, copy->lost_count);
}

tw_copy tw_copy_reckon(tw_arena *arena, tw_copy_ask ask)
{
    assert(ask.cutter_mm > 0.0 && ask.follower_mm > 0.0 && ask.ratio > 0.0 && ask.play_mm >= 0.0);
    tw_copy copy = { .why = "", .remedy = "", .corner_radius_mm = ask.cutter_mm / 2.0,
                     .lost_radius_mm = tw_max(0.0, (ask.follower_mm - ask.ratio * ask.cutter_mm) / (2.0 * ask.ratio)) };
    copy.cutter_path = ask.inside ? shrunk(arena, ask.cut, ask.cutter_mm / 2.0) : tw_outline_offset(arena, ask.cut, ask.cutter_mm / 2.0);
    if (copy.cutter_path.count == 0) {
        refuse_cutter(arena, &ask, &copy);
        return copy;
    }
    copy.follower_path = tw_outline_scaled(arena, copy.cutter_path, ask.ratio);
    if (!follower_serves(arena, &ask, copy.follower_path)) {
        refuse_follower(arena, &ask, &copy);
        return copy;
    }
    make_template(arena, &ask, ask.follower_mm, &copy);
    copy.tight = ask.inside && is_tight(arena, copy.follower_path, copy.template_, ask.follower_mm);
    if (copy.tight && ask.play_mm > 0.0) {
        copy.play_mm = ask.play_mm;
        make_template(arena, &ask, ask.follower_mm + ask.play_mm, &copy);  // proved with the play taken up
    }
    copy.ok = true;
    compare_with_wanted(arena, &ask, &copy);
    note_wood(arena, &ask, &copy);
    note_path(arena, &ask, &copy);
    return copy;
}
