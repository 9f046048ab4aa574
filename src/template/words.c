// SPDX-License-Identifier: GPL-3.0-or-later
/* What a template's sheet says beside its outline: fits, straight guides, clearing passes, how it is made.
 *
 *   fit of another follower b' with the same template:  width (b - b')/r, a pocket wider, a tenon narrower     (1)
 *                                                     one guided wall (b - b')/(2 r) towards the wood that stays (2)
 *   two straight guides and two stops about the centre: r (w - d) + b apart                                      (3)
 *   a pocket keeps a middle when it shrinks by d and something is left; with R the radius of the largest circle that
 *   goes into the pocket, rounds = (R - d) / step rounded up, step = 3/4 d                                        (4)
 *   round a tenon, from the outside inward: passes = (waste - d) / step rounded up + 1                          (5)
 * The step of three quarters of the cutter is common practice. */
#include "template/parts.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define STEP_SHARE 0.75
#define SUM_MM 1e-3            // a sum is shown only if it gives the template's own width to this

static const char *say(const tw_template_context *context, double mm) { return tw_length_text(context->arena, mm, context->job->figures); }
static const char *bare(const tw_template_context *context, double mm) { return tw_length_bare(context->arena, mm, context->job->figures); }

/* ---- fits ---- */

static bool gets_everywhere(tw_arena *arena, const tw_template *t, double follower_mm)
{
    double half = t->ask.inside ? -(follower_mm / 2.0 - 1e-6) : follower_mm / 2.0;
    return tw_outline_offset(arena, t->copy.template_, half).count == t->copy.follower_path.count;
}

static void list_fits(const tw_template_context *context, tw_template *t)
{
    const tw_shop *shop = context->shop;
    t->fits = TW_NEW_ARRAY(context->arena, tw_fit, (size_t)shop->follower_count + 1);
    for (int i = 0; i < shop->follower_count; i++) {
        double b = t->ask.follower_mm, used = shop->followers[i].b_mm;
        t->fits[t->fit_count++] = (tw_fit){ .follower = i,
            .width_change_mm = tw_copy_fit_mm(t->ask.inside, b, used, t->ask.ratio),                    // (1)
            .wall_change_mm = (b - used) / (2.0 * t->ask.ratio),                                        // (2)
            .enters = i == t->follower || gets_everywhere(context->arena, t, used) };
    }
}

/* ---- straight guides ---- */

const char *tw_template_width_sum(tw_arena *arena, tw_figures figures, const tw_template *t, double wanted_mm)
{
    const tw_copy_ask *ask = &t->ask;
    const char *w = tw_length_bare(arena, wanted_mm, figures), *d = tw_length_bare(arena, ask->cutter_mm, figures);
    const char *b = tw_length_bare(arena, ask->follower_mm, figures);
    const char *play = t->copy.play_mm > 0.0 ? tw_format(arena, " + %s of play", tw_length_bare(arena, t->copy.play_mm, figures)) : "";
    return ask->inside ? tw_format(arena, "r(w - d) + b = %g x (%s - %s) + %s%s", ask->ratio, w, d, b, play)
                       : tw_format(arena, "r(w + d) - b = %g x (%s + %s) - %s", ask->ratio, w, d, b);
}

static const char *width_sum(const tw_template_context *context, const tw_template *t, double wanted_mm, double template_mm)
{
    return tw_format(context->arena, "%s = %s", tw_template_width_sum(context->arena, context->job->figures, t, wanted_mm), say(context, template_mm));
}

bool tw_template_sum_holds(const tw_template *t, double wanted_mm, double template_mm)
{
    double sum = tw_copy_width_mm(wanted_mm, t->ask.inside, t->ask.cutter_mm, t->ask.follower_mm, t->ask.ratio) + t->copy.play_mm;
    return fabs(sum - template_mm) <= SUM_MM;
}

static const char *guides_for_rectangle(const tw_template_context *context, const tw_template *t, tw_box opening, tw_box wanted)
{
    double across = opening.x1 - opening.x0, up = opening.y1 - opening.y0;
    double w = wanted.x1 - wanted.x0, h = wanted.y1 - wanted.y0;
    if (!tw_template_sum_holds(t, w, across) || !tw_template_sum_holds(t, h, up)) return "";
    bool upright = across < up;  // the guides run along the longer sides
    const char *narrow = width_sum(context, t, upright ? w : h, upright ? across : up);
    const char *long_ = width_sum(context, t, upright ? h : w, upright ? up : across);
    if (!t->ask.inside)
        return tw_format(context->arena, "A plain strip does the same: wide %s, long %s, its corners square, fixed equally about both centre lines.", narrow, long_);
    return tw_format(context->arena, "Two straight guides and two stops do the same. Guides, %s, apart: %s. Stops at their ends, apart: %s. "
                     "Both pairs equally about the centre lines, set with spacers of those sizes.", upright ? "upright" : "level", narrow, long_);
}

static double x_at(double x0, double x1, const tw_sides *s, double y) { return x0 + (x1 - x0) * (y - s->y0) / (s->y1 - s->y0); }

/* One guide, upright or leaning by an angle: where it crosses the level centre line, measured level.
 * a: the cut's wall there, outward from the upright centre line; edge: the template's. NULL if the sum does not give it. */
static const char *guide_words(const tw_template_context *context, const tw_template *t, const char *side, double a, double edge, double lean)
{
    const tw_copy_ask *ask = &t->ask;
    double cutter = ask->cutter_mm / 2.0 / cos(lean), follower = (ask->follower_mm + t->copy.play_mm) / 2.0 / cos(lean);
    if (fabs(ask->ratio * (a - cutter) + follower - edge) > SUM_MM) return NULL;
    const char *how = lean == 0.0 ? "upright" : tw_format(context->arena, "leaning %s from upright", tw_angle_text(context->arena, lean));
    const char *other = strcmp(side, "left") == 0 ? "right" : "left";
    return tw_format(context->arena, "%s guide %s, %s to the %s of the upright centre line where it crosses the level one: %s = %g x (%s - %s) + %s", side, how,
        say(context, fabs(edge)), edge >= 0.0 ? side : other,
        lean == 0.0 ? "r(a - d/2) + b/2" : tw_format(context->arena, "r(a - d/2 / cos %s) + b/2 / cos %s", tw_angle_text(context->arena, lean), tw_angle_text(context->arena, lean)),
        ask->ratio, bare(context, a), bare(context, cutter), bare(context, follower));
}

/* One or both sides lean, or the opening does not lie about the centre lines. */
static const char *guides_one_by_one(const tw_template_context *context, const tw_template *t, const tw_sides *s)
{
    tw_sides cut;
    if (!tw_four_sides(t->ask.cut, &cut) || !tw_template_sum_holds(t, cut.y1 - cut.y0, s->y1 - s->y0)) return "";
    const char *left = guide_words(context, t, "left", -x_at(cut.left_x0, cut.left_x1, &cut, 0.0), -x_at(s->left_x0, s->left_x1, s, 0.0), tw_sides_lean_left(s));
    const char *right = guide_words(context, t, "right", x_at(cut.right_x0, cut.right_x1, &cut, 0.0), x_at(s->right_x0, s->right_x1, s, 0.0), tw_sides_lean_right(s));
    if (!left || !right) return "";
    return tw_format(context->arena, "Two straight guides and two level stops do the same. The %s. The %s. Stops %s above and %s below the level centre line, apart: %s.",
                     left, right, say(context, s->y1), say(context, -s->y0), width_sum(context, t, cut.y1 - cut.y0, s->y1 - s->y0));
}

static bool is_rectangle(tw_outline outline)
{
    tw_sides s;
    return tw_four_sides(outline, &s) && tw_sides_lean_left(&s) == 0.0 && tw_sides_lean_right(&s) == 0.0;
}

/* A tenon's body comes out with corners of radius (r d - b)/2, but square ones guide the same flanks: the cutter only goes
 * further round the corner. So a plain strip serves wherever b <= r d. */
static const char *guides_of(const tw_template_context *context, const tw_template *t)
{
    tw_outline shape = t->copy.template_;
    tw_sides sides;
    bool plain = t->ask.inside ? is_rectangle(shape) : is_rectangle(t->ask.cut) && t->ask.follower_mm <= t->ask.ratio * t->ask.cutter_mm + 1e-9;
    if (plain) {
        tw_box box = tw_outline_bounds(shape);
        bool centred = fabs(box.x0 + box.x1) < SUM_MM && fabs(box.y0 + box.y1) < SUM_MM;
        if (centred) return guides_for_rectangle(context, t, box, tw_outline_bounds(t->ask.cut));
    }
    return t->ask.inside && tw_four_sides(shape, &sides) ? guides_one_by_one(context, t, &sides) : "";
}

/* ---- clearing ---- */

/* The largest circle that goes into the cut: halved until it is known to a hundredth of a millimetre. */
static double inner_radius_mm(tw_arena *arena, tw_outline cut, double at_least_mm)
{
    tw_box box = tw_outline_bounds(cut);
    double good = at_least_mm, bad = tw_min(box.x1 - box.x0, box.y1 - box.y0) / 2.0 + 1e-3;
    while (bad - good > 0.01) {
        double middle = (good + bad) / 2.0;
        *(tw_outline_offset(arena, cut, -middle).count > 0 ? &good : &bad) = middle;
    }
    return good;
}

static const char *clearing_of_pocket(const tw_template_context *context, const tw_template *t)
{
    double d = t->ask.cutter_mm, step = STEP_SHARE * d;
    tw_outline middle = tw_outline_offset(context->arena, t->ask.cut, -d);
    if (middle.count == 0 || tw_outline_area_mm2(middle) < 1e-6) return "";
    int rounds = (int)ceil((inner_radius_mm(context->arena, t->ask.cut, d) - d) / step - 1e-9);  // (4)
    if (rounds < 1) rounds = 1;
    return tw_format(context->arena, "The pocket is wider than two cutters: clear its middle first in %d round%s, each %s from the last at the cutter (%s at the template), then go once round "
                     "with the follower against the edge. The opening holds the follower captive all the while: it cannot reach past the edge, so the walls are safe.",
                     rounds, rounds == 1 ? "" : "s", say(context, step), say(context, t->ask.ratio * step));
}

static const char *clearing_of_outside(const tw_template_context *context, const tw_template *t)
{
    double d = t->ask.cutter_mm, r = t->ask.ratio, step = STEP_SHARE * d, waste = 0.0;
    for (int i = 0; i < t->work_count; i++)
        waste = tw_max(waste, tw_template_work(context, t->works[2 * i], t->works[2 * i + 1])->copy.waste_mm);
    if (waste <= 0.0) return "Go round from the outside inward, lightly, until the follower runs along the body all the way: the body keeps the cutter off the wood that stays.";
    int passes = waste > d ? (int)ceil((waste - d) / step - 1e-9) + 1 : 1;  // (5)
    double off = tw_max(0.0, r * (waste - d));
    const char *start = passes == 1 ? "One pass clears the waste: go round with the follower against the body."
        : tw_format(context->arena, "The waste is %s wide: clear it from the outside inward in %d passes, the first with the follower's edge %s off the body, each next one %s nearer, "
                    "the last against the body.", say(context, waste), passes, say(context, off), say(context, tw_min(r * step, off)));
    const char *stop = t->rim_mm > 0.0
        ? tw_format(context->arena, "a rim on the carrier, %s clear all round the body, keeps the follower from straying further out than the waste", say(context, t->rim_mm))
        : "the machine's own stops must keep it from straying further out than the waste: set them before the first pass";
    return tw_format(context->arena, "%s The body keeps the cutter off the wood that stays; %s.", start, stop);
}

/* ---- making ---- */

static const char *holes_words(const tw_template_context *context, const tw_template *t)
{
    tw_box box = tw_outline_bounds(t->board_view);
    return tw_format(context->arena, "%d holes of %s, centres %s from its edges, counterbored %s wide and %s deep%s",
        t->hole_count, say(context, t->hole_mm), say(context, t->holes[0].x - box.x0), say(context, t->counterbore_mm), say(context, t->counterbore_deep_mm),
        t->turned_over ? " on both faces, for it is turned over for the other hand" : "");
}

static const char *making_of(const tw_template_context *context, const tw_template *t, const char *mirror_of)
{
    tw_box board = tw_outline_bounds(t->board);
    const char *size = tw_format(context->arena, "%s by %s", say(context, board.x1 - board.x0), say(context, board.y1 - board.y0));
    const char *centred = fabs(board.x0 + board.x1) + fabs(board.y0 + board.y1) > 1e-6
        ? tw_format(context->arena, " The centre lines are not its middle: they lie %s from its left edge and %s from its lower edge.", say(context, -board.x0), say(context, -board.y0))
        : " The centre lines are its middle.";
    const char *mirror = mirror_of ? tw_format(context->arena, " It is the mirror image of %s: saw the two together, face to face.", mirror_of) : "";
    if (t->ask.inside)
        return tw_format(context->arena, "Board %s, %s thick; %s.%s%s", size, say(context, t->thickness_mm), holes_words(context, t), centred, mirror);
    return tw_format(context->arena, "Body %s thick, screwed to a carrier board %s from behind, the heads sunk; carrier with %s.%s%s%s", say(context, t->thickness_mm), size,
        holes_words(context, t), centred, t->turned_over ? " For the other hand the body is screwed to the carrier's other face." : "", mirror);
}

/* ---- title ---- */

/* "mortises at 190.0 mm" and "mortises, 1 of 2" without what tells one of several works that a template serves. */
static const char *without_place(const tw_template_context *context, const char *name)
{
    const char *at = strstr(name, " at "), *end = at ? at : name + strlen(name);
    for (const char *comma = strchr(name, ','); comma && comma < end; comma = strchr(comma + 1, ','))
        if (comma[1] == ' ' && comma[2] >= '0' && comma[2] <= '9') end = comma;
    return tw_format(context->arena, "%.*s", (int)(end - name), name);
}

static const char *title_of(const tw_template_context *context, const tw_template *t)
{
    const tw_joint *joint = context->plans[t->works[0]].joint;
    const char *name = tw_template_first_work(context, t)->name, *hand = strstr(name, " hand");
    if (t->work_count > 1) name = without_place(context, name);
    if (t->turned_over && hand && hand[5] == '\0' && strchr(name, ','))
        name = tw_format(context->arena, "%.*s", (int)(strrchr(name, ',') - name), name);
    return tw_format(context->arena, "%s: %s", joint->name, name);
}

void tw_template_words(const tw_template_context *context, tw_template *template_, const char *mirror_of)
{
    assert(template_->work_count > 0 && template_->hole_count > 0);
    template_->title = title_of(context, template_);
    list_fits(context, template_);
    template_->guides = guides_of(context, template_);
    template_->clearing = template_->ask.inside ? clearing_of_pocket(context, template_) : clearing_of_outside(context, template_);
    template_->making = making_of(context, template_, mirror_of);
}
