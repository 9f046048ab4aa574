// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: the checks. Each says what is found with its figures, and what would be right.
 *
 * Limits are common practice, from memory, unless a comment names something better; t is the thickness of the tenon, tm
 * the mortise across its cheeks. A halt stands where the joint cannot be cut or would break in the making; a care
 * where makers would think twice. */
#include "joint/fix.h"
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#define HAIR_MM 1e-6              // sums of amounts as written come out this near
#define FLOOR_LEAST_MM 3.0        // thinner and the cutter or the tenon breaks through
#define FLOOR_GOOD_MM 6.0
#define SHOULDER_GOOD_MM 3.0      // in small work a fifth of the thickness
#define WALL_LEAST_MM 2.0
#define WALL_GOOD_MM 4.0
#define RELISH_LEAST_MM 3.0
#define RELISH_GOOD 1.5           // times tm
#define BETWEEN_LEAST_MM 3.0      // wood between two mortises
#define BODY_LEAST_MM 10.0        // between the shoulders of one piece
#define WIDE_GLUED_MM 75.0        // 3 in: wider, the grain of the two pieces works against the glue
#define CLEARANCE_LEAST_MM 0.03   // less, and a dry tenon does not go in by hand
#define CLEARANCE_MOST_MM 0.5     // more, and it rattles

typedef struct checker { tw_joint_context *context; tw_joint_plan *plan; const tw_mortise *m; } checker;

static bool in_mm(const checker *c) { return c->context->job->figures.style == TW_FIGURES_MM; }
static const char *say(const checker *c, double length_mm) { return tw_mortise_say(c->context, length_mm); }

static void find(const checker *c, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(c->context, c->plan, level, amount, code, what, remedy);
}

static void find_at(const checker *c, tw_level level, tw_place place, const char *code, const char *what, const char *remedy)
{
    tw_find(c->context->findings, level, place, code, c->plan->joint->name, what, remedy);
}

/* ---- fixes of the finding made last ---- */

static void fix(const checker *c, const tw_amount *amount, const char *order, double value_mm, const char *after,
    tw_rounding rounding)
{
    tw_plan_fix(c->context, c->plan, amount, order, value_mm, after, rounding);
}

static void fix_word(const checker *c, const char *key, const char *word,
    const char *order) { tw_plan_fix_word(c->context, c->plan, key, word, order); }
static void fix_without(const checker *c, const char *key)
{
    tw_plan_fix_without(c->context, c->plan, key, tw_format(c->context->arena, "Leave `%s` out", key));
}

static void fix_thickness(const checker *c, double value_mm) { fix(c, &c->m->spec->tenon_thickness, "Make the tenon", value_mm,
    "thick", TW_ROUND_DOWN); }
static void fix_width(const checker *c, double value_mm) { fix(c, &c->m->spec->tenon_width, "Make the tenon", value_mm, "wide",
    TW_ROUND_DOWN); }

static void fix_across_piece(const checker *c, double value_mm) { tw_piece_fix_across(c->context, c->m->spec->into.index,
    c->m->from, value_mm, TW_ROUND_UP); }

/* ---- what the job says ---- */

static void check_idle_key(const checker *c, const tw_amount *amount, bool used, const char *key, const char *when)
{
    if (!amount->given || used) return;
    find(c, TW_CARE, amount, "key-idle", tw_format(c->context->arena, "`%s` is given, but it has no meaning %s", key, when),
         tw_format(c->context->arena, "leave `%s` out", key));
    fix_without(c, key);
}

static void check_said(const checker *c)
{
    const tw_mortise_spec *spec = c->m->spec;
    tw_arena *arena = c->context->arena;
    if (c->m->through && spec->depth.given) {
        find(c, TW_HALT, &spec->depth, "depth-with-through",
             tw_format(arena, "a depth of %s is given for a tenon that goes through %s", say(c, spec->depth.value), say(c, c->m->d)),
             "leave `depth` out, or write `through: no`");
        fix_without(c, "depth");
        fix_word(c, "through", "no", "Let the tenon end inside");
    }
    check_idle_key(c, &spec->proud, c->m->through, "proud", "for a blind tenon");
    check_idle_key(c, &spec->bottom_room, !c->m->through, "bottom room", "for a through tenon");
    check_idle_key(c, &spec->gap, c->m->pair, "gap", "for a single tenon");
    check_idle_key(c, &spec->haunch_width, c->m->haunched, "haunch width", "without `haunch`");
    if (spec->beside.given)
        find_at(c, TW_HALT, spec->beside.place, "beside-old", tw_format(arena, "`beside: %s` is not read any more: the trade's word for two tenons in the %s is %s", spec->beside.value ? "thickness" : "width",
                spec->beside.value ? "thickness" : "width", spec->beside.value ? "twin" : "double"), tw_format(arena, "leave `beside` out and write `tenons: %s`", spec->beside.value ? "twin" : "double"));
    if (c->m->haunched && spec->tenons.value != TW_TENONS_SINGLE) {
        find_at(c, TW_HALT, spec->tenons.place, "haunch-pair", tw_format(arena, "%s with a haunch are not worked out", spec->tenons.value == TW_TENONS_TWIN ? "twin tenons" : "double tenons"), "leave `haunch` out, or write `tenons: single`");
        fix_without(c, "haunch");
        fix_word(c, "tenons", "single", "Make it a single tenon");
    }
    if (c->m->haunched && !c->m->along) {
        find(c, TW_HALT, &spec->haunch, "haunch-across", "a haunch runs towards the end of the mortised piece, but this tenon lies across it",
             "leave `haunch` out, or write `lies: along`");
        fix_without(c, "haunch");
        fix_word(c, "lies", "along", "Lay the tenon along the mortised piece");
    }
    if (c->m->haunched && spec->mortise_ends.given && spec->mortise_ends.value == 0) {
        find_at(c, TW_CARE, spec->mortise_ends.place, "haunch-square", "a haunched tenon is square where the haunch begins: its mortise is set out square",
                "write `mortise ends: square`");
        fix_word(c, "mortise ends", "square", "Cut the mortise with square ends");
    }
}

static void check_count(const checker *c)
{
    const tw_mortise *m = c->m;
    int places = m->into_pieces * m->spec->at.count;
    if (m->joints == places) return;
    tw_arena *arena = c->context->arena;
    const char *remedy = places % m->into_pieces == 0 && m->joints % m->into_pieces == 0
        ? tw_format(arena, "as many of one as of the other: %d place%s under `at`, or other counts", m->joints / m->into_pieces, m->joints / m->into_pieces == 1 ? "" : "s")
        : "as many of one as of the other: look at the counts, `ends` and `at`";
    find(c, TW_HALT, NULL, "counts-differ",
         tw_format(arena, "the count of tenons is %d (%d x %s, %d end%s each), of places %d (%d x %s, %d each)", m->joints, m->tenon_pieces, m->tenon->name,
                   m->ends, m->ends == 1 ? "" : "s", places, m->into_pieces, m->into->name, m->spec->at.count), remedy);
    tw_plan_fix_counts(c->context, m->spec->tenon.index, m->ends, m->spec->into.index, m->spec->at.count);
    if (m->ends == 1 && 2 * m->joints == places) fix_word(c, "ends", "both", "Give both ends a tenon");
}

/* ---- the tenon ---- */

static void check_thickness(const checker *c)
{
    const tw_mortise *m = c->m;
    const tw_amount *at = &m->spec->tenon_thickness;
    tw_arena *arena = c->context->arena;
    double thickness = m->a.thickness_mm, share = m->pair && !m->doubled ? 0.5 : 1.0;  // twins share it
    if (m->t <= 0.1 || m->over_t > thickness + HAIR_MM) {
        find(c, TW_HALT, at, m->t <= 0.1 ? "tenon-thin" : "tenon-thick",
             m->t <= 0.1 ? tw_format(arena, "the clearance of %s leaves nothing of the tenon", say(c, m->c))
                         : tw_format(arena, "the tenon is %s thick%s, its piece only %s", say(c, m->over_t), m->pair && !m->doubled ? " over both" : "", say(c, thickness)),
             tw_format(arena, "about %s", say(c, thickness * share / 3.0)));
        fix_thickness(c, thickness * share / 3.0);
        return;
    }
    if (m->t > 0.5 * share * thickness + HAIR_MM) {
        find(c, TW_CARE, at, "tenon-thick", tw_format(arena, "the tenon of %s is more than half of its piece's %s: the shoulders are small and the mortise is weak",
             say(c, m->t), say(c, thickness)), tw_format(arena, "about a third: %s", say(c, share * thickness / 3.0)));
        fix_thickness(c, share * thickness / 3.0);
    } else if (m->t < 0.22 * share * tw_min(thickness, m->along ? m->e : thickness)) {
        find(c, TW_CARE, at, "tenon-thin", tw_format(arena, "the tenon of %s is thin for a piece of %s", say(c, m->t), say(c, thickness)),
             tw_format(arena, "about a third: %s", say(c, share * thickness / 3.0)));
        fix_thickness(c, share * thickness / 3.0);
    }
}

static void check_width(const checker *c)
{
    const tw_mortise *m = c->m;
    const tw_amount *at = &m->spec->tenon_width;
    tw_arena *arena = c->context->arena;
    double whole = m->over_w + (m->haunched ? m->haunch_width : 0.0);
    if (whole > m->a.width_mm + HAIR_MM) {
        find(c, TW_HALT, at->given || !m->haunched ? at : &m->spec->haunch_width, "tenon-wide",
             tw_format(arena, "the tenon%s %s wide, its piece only %s", m->pair ? "s with their gap are" : m->haunched ? " with its haunch is" : " is", say(c, whole), say(c, m->a.width_mm)),
             tw_format(arena, "at most %s%s", say(c, m->a.width_mm - 2.0 * m->edge_shoulder), m->pair ? " over both" : m->haunched ? " with the haunch" : ""));
        double room = m->a.width_mm - 2.0 * m->edge_shoulder - (m->haunched ? m->haunch_width : 0.0);
        fix_width(c, m->doubled ? (room - m->gap) / 2.0 : room);
        tw_plan_fix_proposed(c->context, c->plan, &m->spec->gap);
        tw_plan_fix_proposed(c->context, c->plan, &m->spec->haunch_width);
        return;
    }
    double most = 6.0 * m->t;
    if (m->w < m->t - HAIR_MM && m->w > 0.0 && m->t > 0.0) {  // nothing at all is refused elsewhere
        find(c, TW_CARE, at, "tenon-narrow", tw_format(arena, "the tenon is %s wide, less than its thickness of %s: it twists off easily", say(c, m->w), say(c, m->t)),
             tw_format(arena, "%s or more", say(c, tw_min(2.0 * m->t, m->a.width_mm - 2.0 * m->edge_shoulder))));
        fix_width(c, tw_min(2.0 * m->t, m->a.width_mm - 2.0 * m->edge_shoulder));
    }
    if (m->w > most + 0.5) {
        find(c, TW_CARE, at, "tenon-broad", tw_format(arena, "the tenon is %s wide, more than six times its thickness of %s", say(c, m->w), say(c, m->t)),
             m->pair ? tw_format(arena, "at most %s each", say(c, most))
                     : tw_format(arena, "at most %s, or two in line: `tenons: double` with a width of %s each", say(c, most), say(c, tw_min(most, m->w / 3.0))));
        fix_width(c, most);
    }
    if (m->glued && m->along && m->over_w > WIDE_GLUED_MM + HAIR_MM) {
        find(c, TW_CARE, at, "glued-wide", tw_format(arena, "%s of tenon is glued across the grain of %s: as they swell and shrink the glue line works loose or the piece splits",
             say(c, m->over_w), m->into->name), tw_format(arena, "at most %s over all, or glue the middle third and leave the rest dry", say(c, WIDE_GLUED_MM)));
        if (!m->doubled) fix_width(c, WIDE_GLUED_MM);
        else if ((WIDE_GLUED_MM - m->gap) / 2.0 > m->t) fix_width(c, (WIDE_GLUED_MM - m->gap) / 2.0);
    }
}

typedef struct shoulder { const char *name; double size; bool cheek; } shoulder;

/* A tenon in the middle of its piece gives up as much at the side opposite. */
static void fix_shoulder(const checker *c, const shoulder *small, double good_mm)
{
    const tw_mortise *m = c->m;
    double less = 2.0 * (good_mm - small->size);
    if (small->cheek) fix_thickness(c, m->t - (m->pair && !m->doubled ? less / 2.0 : less));
    else fix_width(c, m->w - (m->doubled ? less / 2.0 : less));
}

static void check_shoulders(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    const shoulder all[] = { { "face", m->face_shoulder, true }, { "back", m->back_shoulder, true }, { "face edge", m->face_edge_shoulder, false },
                             { "back edge", m->back_edge_shoulder, false } };
    double good = tw_min(SHOULDER_GOOD_MM, m->a.thickness_mm / 5.0), largest = 0.0;
    if (m->over_t > m->a.thickness_mm + HAIR_MM || m->over_w > m->a.width_mm + HAIR_MM) return;  // already said
    for (int i = 0; i < 4; i++) {
        const tw_amount *at = all[i].cheek ? &m->spec->tenon_from_back : &m->spec->tenon_from_edge;
        bool at_haunch = m->haunched && !all[i].cheek && (m->spec->haunch_at.value == 0) == (i == 2);
        largest = tw_max(largest, all[i].size);
        if (all[i].size < -HAIR_MM) {
            find(c, TW_HALT, at, "tenon-off-piece", tw_format(arena, "the tenon stands %s outside of its piece at the %s", say(c, -all[i].size), all[i].name),
                 "its middle nearer to the middle of the piece");
            tw_plan_fix_proposed(c->context, c->plan, &m->spec->haunch_width);
            tw_plan_fix_proposed(c->context, c->plan, &m->spec->tenon_width);
            tw_plan_fix_proposed(c->context, c->plan, &m->spec->tenon_thickness);
        } else if (all[i].size < HAIR_MM && !at_haunch) {
            find(c, TW_CARE, at, "no-shoulder-side", tw_format(arena, "there is no shoulder at the %s: the mortise's edge shows there and nothing stops racking that way", all[i].name),
                 tw_format(arena, "a shoulder of %s, unless a bare-faced tenon is meant", say(c, good)));
            fix_shoulder(c, &all[i], good);
        } else if (all[i].size < good - HAIR_MM && !at_haunch) {
            find(c, TW_CARE, at, "shoulder-small", tw_format(arena, "the shoulder at the %s is only %s", all[i].name, say(c, all[i].size)),
                 tw_format(arena, "at least %s: it hides the mortise and stops racking", say(c, good)));
            fix_shoulder(c, &all[i], good);
        }
    }
    if (largest >= 1.0) return;
    find(c, TW_HALT, &m->spec->tenon_thickness, "no-shoulder",
        "the tenon is as large as its piece: there is no shoulder to stop it", "a thinner or narrower tenon");
    fix_thickness(c, m->a.thickness_mm / 3.0);
}

/* Between twins stands a wall, held at both ends. Between the mortises of a double tenon stands short grain where they lie along
 * the piece: held by the walls beside it, and as long as the tenon is thick it does not roll out (common practice). */
static void check_pair_gap(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    if (!m->pair) return;
    double between = m->gap - (m->doubled ? m->cw : m->c);
    bool short_grain = m->doubled && m->along;
    double least = tw_max(BETWEEN_LEAST_MM, m->tm / (short_grain ? 2.0 : 3.0)), good = tw_max(WALL_GOOD_MM, short_grain ? m->t - m->cw : m->tm * 2.0 / 3.0);
    double wanted = tw_max(m->tm, good) + m->gap - between;
    const char *which = m->doubled ? "two mortises of the double tenon" : "twin mortises";
    if (between < least - HAIR_MM)
        find(c, TW_HALT, &m->spec->gap, "gap-narrow", tw_format(arena, "only %s of wood stands between the %s: it breaks out", say(c, tw_max(between, 0.0)), which),
             tw_format(arena, "a gap of %s", say(c, wanted)));
    else if (between < good - HAIR_MM)
        find(c, TW_CARE, &m->spec->gap, "gap-narrow", tw_format(arena, "the wood between the %s is %s, %s beside mortises of %s", which, say(c, between), short_grain ? "short grain" : "thin", say(c, m->tm)),
             tw_format(arena, "a gap of %s", say(c, wanted)));
    else return;
    fix(c, &m->spec->gap, "Leave a gap of", wanted, "", TW_ROUND_UP);
}

static void check_haunch(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    if (!m->haunched) return;
    double usual = tw_min(m->t, m->l / 3.0);
    if (m->haunch >= m->l - HAIR_MM) {
        find(c, TW_HALT, &m->spec->haunch, "haunch-deep", tw_format(arena, "the haunch goes %s deep, as deep as the tenon's %s: it is no haunch", say(c, m->haunch), say(c, m->l)),
             tw_format(arena, "about as deep as the tenon is thick: %s", say(c, usual)));
        fix(c, &m->spec->haunch, "Make the haunch", usual, "deep", TW_ROUND_DOWN);
    } else if (m->haunch > m->l / 2.0) {
        find(c, TW_CARE, &m->spec->haunch, "haunch-deep", tw_format(arena, "the haunch of %s is more than half of the tenon's length of %s: its groove weakens the end of %s", say(c, m->haunch),
             say(c, m->l), m->into->name), tw_format(arena, "about as deep as the tenon is thick: %s", say(c, usual)));
        fix(c, &m->spec->haunch, "Make the haunch", usual, "deep", TW_ROUND_DOWN);
    }
    if (m->haunch_width > m->a.width_mm / 2.0) {
        find(c, TW_CARE, &m->spec->haunch_width, "haunch-wide", tw_format(arena, "the haunch takes %s of the piece's width of %s: little is left for the tenon", say(c, m->haunch_width),
             say(c, m->a.width_mm)), tw_format(arena, "about a third: %s", say(c, m->a.width_mm / 3.0)));
        fix(c, &m->spec->haunch_width, "Make the haunch", m->a.width_mm / 3.0, "wide", TW_ROUND_DOWN);
    }
}

/* ---- depth ---- */

static void fix_depth(const checker *c, double value_mm)
{
    fix(c, &c->m->spec->depth, "Make the tenon", value_mm, "long", TW_ROUND_DOWN);
    if (c->m->floor < FLOOR_GOOD_MM - HAIR_MM) fix_word(c, "through", "yes", "Let the tenon go through");
}

static void check_depth(const checker *c)
{
    const tw_mortise *m = c->m;
    const tw_amount *at = &m->spec->depth;
    tw_arena *arena = c->context->arena;
    if (m->through) return;
    double most = tw_max(m->d - FLOOR_GOOD_MM - m->room, m->d / 2.0);
    const char *remedy = tw_format(arena, "a tenon of at most %s, or `through: yes`", say(c, most));
    if (m->floor <= HAIR_MM)
        find(c, TW_HALT, at, "tenon-deep", tw_format(arena, "a tenon of %s and %s of room below it break through %s, which is %s thick there", say(c, m->l), say(c, m->room),
             m->into->name, say(c, m->d)), remedy);
    else if (m->floor < FLOOR_LEAST_MM - HAIR_MM)
        find(c, TW_HALT, at, "floor-thin", tw_format(arena, "only %s of wood stays under the mortise in %s: it breaks through", say(c, m->floor), m->into->name), remedy);
    else if (m->floor < FLOOR_GOOD_MM - HAIR_MM)
        find(c, TW_CARE, at, "floor-thin", tw_format(arena, "the wood under the mortise in %s is %s, less than the usual %s", m->into->name, say(c, m->floor), say(c, FLOOR_GOOD_MM)), remedy);
    if (m->floor < FLOOR_GOOD_MM - HAIR_MM) fix_depth(c, most);
    if (m->l < m->t || (m->l < m->d / 3.0 && m->l < 2.0 * m->t)) {
        find(c, TW_CARE, at, "tenon-short", tw_format(arena, "the tenon is only %s long, for a thickness of %s: it holds little", say(c, m->l), say(c, m->t)),
             tw_format(arena, "two thirds of the mortised piece: %s; a longer cutter, or deepen by drill and chisel", say(c, m->d * 2.0 / 3.0)));
        fix(c, at, "Make the tenon", m->d * 2.0 / 3.0, "long", TW_ROUND_DOWN);
    }
}

static void check_clearance(const checker *c)
{
    const tw_mortise *m = c->m;
    const tw_amount *at = &m->spec->clearance;
    if (m->c < CLEARANCE_LEAST_MM - HAIR_MM)
        find(c, TW_CARE, at, "clearance-small", tw_format(c->context->arena, "a clearance of %s is less than wood and saw hold: the tenon will not go in by hand", say(c, m->c)),
             m->glued ? (in_mm(c) ? "0.1 mm" : "0.004 in") : (in_mm(c) ? "0.2 mm" : "0.008 in"));
    else if (m->c > CLEARANCE_MOST_MM + HAIR_MM)
        find(c, TW_CARE, at, "clearance-large", tw_format(c->context->arena, "a clearance of %s is loose: %s", say(c, m->c), m->glued ? "glue does not fill it" : "the tenon rattles"),
             m->glued ? (in_mm(c) ? "0.1 mm" : "0.004 in") : (in_mm(c) ? "0.2 mm" : "0.008 in"));
}

/* ---- the mortise in its piece ---- */

static double half_along(const tw_mortise *m) { return (m->along ? m->wm + m->over_w - m->w : m->tm + m->over_t - m->t) / 2.0; }
static double half_across(const tw_mortise *m) { return (m->along ? m->tm + m->over_t - m->t : m->wm + m->over_w - m->w) / 2.0; }

/* In the middle; else with good walls on both sides: a tenon as thick as leaves them, or a piece that has them. */
static void fix_wall(const checker *c)
{
    const tw_mortise *m = c->m;
    if (m->spec->across.given) {
        fix(c, &m->spec->across, "Put the middle at", m->e / 2.0, "across", TW_ROUND_NEAREST);
        return;
    }
    double wide = 2.0 * half_across(m), good = tw_max(WALL_GOOD_MM, m->tm * 2.0 / 3.0);
    if (m->along && !m->pair) fix_thickness(c, tw_min(m->e - 2.0 * WALL_GOOD_MM, m->e * 3.0 / 7.0) - m->c);
    fix_across_piece(c, wide + 2.0 * good);
}

static void check_walls(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    tw_box reach = tw_mortise_reach(m, (tw_mortise_site){ .up = m->across });
    double low = m->lean.leans ? reach.y0 : m->across - half_across(m), high = m->e - (m->lean.leans ? reach.y1 : m->across + half_across(m)), thinner = tw_min(low, high);
    tw_face side = low <= high ? m->down : tw_face_opposite(m->down);
    const char *remedy = m->lean.leans ? "its middle nearer to the middle of the piece, a shallower mortise, or less splay"
                       : m->spec->across.given ? tw_format(arena, "the middle: across %s", say(c, m->e / 2.0)) : "a thinner tenon or a thicker piece";
    const tw_amount *at = m->spec->across.given ? &m->spec->across : &m->spec->tenon_thickness;
    if (thinner < -HAIR_MM) {
        find(c, TW_HALT, at, "mortise-off-piece", tw_format(arena, "the mortise stands %s over the %s of %s", say(c, -thinner), tw_face_words[side], m->into->name), remedy);
        fix_wall(c);
        return;
    }
    double least = tw_max(WALL_LEAST_MM, m->tm / 3.0), good = tw_max(WALL_GOOD_MM, m->tm * 2.0 / 3.0);
    if (thinner < least - HAIR_MM)
        find(c, TW_HALT, at, "mortise-wall-thin", tw_format(arena, "the wall of the mortise towards the %s of %s is only %s, less than a third of its width of %s: it breaks out",
             tw_face_words[side], m->into->name, say(c, thinner), say(c, m->tm)), remedy);
    else if (thinner < good - HAIR_MM)
        find(c, TW_CARE, at, "mortise-wall-thin", tw_format(arena, "the wall of the mortise towards the %s of %s is %s, thin beside a mortise of %s", tw_face_words[side],
             m->into->name, say(c, thinner), say(c, m->tm)), remedy);
    if (thinner < good - HAIR_MM) fix_wall(c);
    if (!m->along && m->over_w > 0.7 * m->e) {
        find(c, TW_CARE, &m->spec->tenon_width, "mortise-cuts-grain", tw_format(arena, "the mortise cuts through %s of the %s across the grain of %s", say(c, 2.0 * half_across(m)), say(c, m->e),
             m->into->name), "a narrower tenon, or `lies: along`");
        fix_width(c, m->doubled ? (0.7 * m->e - m->gap) / 2.0 : 0.7 * m->e);
        fix_word(c, "lies", "along", "Lay the tenon along the mortised piece");
    }
}

static void check_shoulder_bears(const checker *c)
{
    const tw_mortise *m = c->m;
    double half = (m->along ? m->a.thickness_mm : m->a.width_mm) / 2.0;
    double off = m->along ? fabs(m->z - m->a.thickness_mm / 2.0) : fabs(m->y - m->a.width_mm / 2.0);
    double over = half - off - tw_min(m->across, m->e - m->across);  // whichever way the piece is turned
    if (over < 0.5) return;
    find(c, TW_CARE, m->spec->across.given ? &m->spec->across : NULL, "shoulder-overhangs", tw_format(c->context->arena, "the shoulder of %s stands %s over the side of %s",
         m->tenon->name, say(c, over), m->into->name), "a thicker mortised piece, or the tenon out of the middle");
    if (!m->spec->across.given) fix_across_piece(c, 2.0 * (half - off));
}

static void fix_place(const checker *c, const tw_amount *at, double least_mm)
{
    tw_plan_fix_place(c->context, c->plan, at, least_mm, c->m->spec->into.index);
}

static void check_place(const checker *c, const tw_amount *at)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    tw_mortise_site site = { .x = at->value, .turned = m->lean.half_turn && (at - m->spec->at.items) % 2 == 1 };
    tw_box reach = tw_mortise_reach(m, site);
    double half = m->lean.leans ? tw_max(at->value - reach.x0, reach.x1 - at->value) : half_along(m);
    double relish = m->lean.leans ? tw_min(reach.x0, m->b.length_mm - reach.x1) : tw_min(at->value, m->b.length_mm - at->value) - half;
    if (relish < -HAIR_MM || at->value > m->b.length_mm) {
        double least = half + RELISH_GOOD * m->tm;
        find(c, TW_HALT, at, "mortise-off-piece", tw_format(arena, "the mortise at %s runs %s past the end of %s", say(c, at->value), say(c, -relish), m->into->name),
             2.0 * least <= m->b.length_mm ? tw_format(arena, "between %s and %s", say(c, least), say(c, m->b.length_mm - least))
                                           : tw_format(arena, "a piece at least %s long, or a smaller tenon", say(c, 2.0 * least)));
        fix_place(c, at, least);
        return;
    }
    if (relish < RELISH_LEAST_MM - HAIR_MM) {
        find(c, TW_HALT, at, "relish-short", tw_format(arena, "only %s of %s is left between the mortise at %s and its end: it splits out", say(c, relish), m->into->name, say(c, at->value)),
             tw_format(arena, "at least %s, and a haunch", say(c, RELISH_GOOD * m->tm)));
        fix_place(c, at, half + RELISH_GOOD * m->tm);
    } else if (relish < RELISH_GOOD * m->tm - HAIR_MM && !m->haunched) {
        find(c, TW_CARE, at, "relish-short", tw_format(arena, "%s of %s is left between the mortise at %s and its end: short grain that may split", say(c, relish), m->into->name, say(c, at->value)),
             tw_format(arena, "at least %s; or a haunch; or leave a horn of %s on the piece until the joint is made", say(c, RELISH_GOOD * m->tm), in_mm(c) ? "20 mm" : "3/4 in"));
        fix_place(c, at, half + RELISH_GOOD * m->tm);
    }
    if (m->haunched) {
        tw_haunch_groove groove = tw_mortise_groove(m, at->value);
        if (!groove.open && groove.end < RELISH_GOOD * m->tm)
            find(c, TW_CARE, at, "haunch-near-end", tw_format(arena, "the groove of the haunch at %s stops %s short of the end of %s: what stands there breaks off", say(c, at->value),
                 say(c, groove.end), m->into->name), "a haunch that runs out at the end, or a place farther from it");
    }
}

/* ---- what other joints take of the same wood ---- */

/* One tenon and the mortise about it, as boxes in the frame of the mortised piece. */
typedef struct room { tw_spot low, high; struct room *next; const char *joint; double room_mm; int axis; bool deep_is_high, leans; double at_mm; } room;

/* What the kind remembers of one piece. */
typedef struct piece_memory { room *rooms; int room_count; double tenon_mm[2]; const char *tenon_joint[2]; } piece_memory;

#define ROOMS_MOST 256  // mortises in one piece that are compared with each other; more would be no furniture

static piece_memory *memory_of(const checker *c, int piece)
{
    void **kept = &c->context->kept[c->plan->joint->kind];
    if (!*kept) *kept = TW_NEW_ARRAY(c->context->arena, piece_memory, (size_t)c->context->job->piece_count);
    return (piece_memory *)*kept + piece;
}

static room room_of(const tw_mortise *m, tw_mortise_site site, const char *joint)
{
    double deep = tw_min(tw_mortise_deep_mm(m), m->d);
    tw_box all = tw_mortise_reach(m, site);
    room r = { .joint = joint, .room_mm = m->through ? 0.0 : m->room, .leans = m->lean.leans, .at_mm = m->spec->at.items[site.place].value };
    r.low.x = all.x0;
    r.high.x = all.x1;
    bool from_high = m->from == TW_SIDE_FACE || m->from == TW_SIDE_BACK_EDGE;
    double inner[2] = { from_high ? m->d - deep : 0.0, from_high ? m->d : deep };
    double up[2] = { all.y0, all.y1 };
    bool in_z = m->from <= TW_SIDE_BACK;
    r.low.z = in_z ? inner[0] : up[0];
    r.high.z = in_z ? inner[1] : up[1];
    r.low.y = in_z ? up[0] : inner[0];
    r.high.y = in_z ? up[1] : inner[1];
    r.axis = in_z ? 2 : 1;
    r.deep_is_high = !from_high;
    return r;
}

/* The box of the tenon alone: the mortise's less the room below. */
static room tenon_of(room r)
{
    double *low = r.axis == 2 ? &r.low.z : &r.low.y, *high = r.axis == 2 ? &r.high.z : &r.high.y;
    if (r.deep_is_high) *high -= r.room_mm;
    else *low += r.room_mm;
    return r;
}

/* Wood between two boxes, 0 when they touch, negative when they meet. */
static double between(const room *a, const room *b)
{
    double x = tw_max(a->low.x - b->high.x, b->low.x - a->high.x);
    double y = tw_max(a->low.y - b->high.y, b->low.y - a->high.y);
    double z = tw_max(a->low.z - b->high.z, b->low.z - a->high.z);
    if (x < 0.0 && y < 0.0 && z < 0.0) return tw_max(x, tw_max(y, z));
    return sqrt(tw_square(tw_max(x, 0.0)) + tw_square(tw_max(y, 0.0)) + tw_square(tw_max(z, 0.0)));
}

/* Farther apart along the piece, or not so deep: as much as their boxes lack. */
static void fix_meeting(const checker *c, const room *mine, const room *other, const tw_amount *at)
{
    double along = tw_max(mine->low.x - other->high.x, other->low.x - mine->high.x), apart =
        fabs(mine->at_mm - other->at_mm) + BETWEEN_LEAST_MM - along;
    double lack = BETWEEN_LEAST_MM - between(mine, other);
    tw_plan_fix_apart(c->context, c->plan, at, other->at_mm, apart, c->m->b.length_mm);
    if (!c->m->through) fix(c, &c->m->spec->depth, "Make the tenon", c->m->l - lack, "long", TW_ROUND_DOWN);
}

static void check_pair(const checker *c, const room *mine, const room *other)
{
    tw_arena *arena = c->context->arena;
    const tw_mortise *m = c->m;
    double wood = between(mine, other);
    if (wood >= BETWEEN_LEAST_MM - HAIR_MM) return;
    room mine_tenon = tenon_of(*mine), other_tenon = tenon_of(*other);
    const tw_amount *at = &m->spec->at.items[0];
    for (int i = 0; i < m->spec->at.count; i++)
        if (m->spec->at.items[i].value == mine->at_mm) at = &m->spec->at.items[i];
    const char *whose = other->joint == c->plan->joint->name ? "another of this joint" : other->joint;
    bool boxes = mine->leans || other->leans;  // a leaning one takes less than its box
    if (between(&mine_tenon, &other_tenon) < -HAIR_MM && boxes) {
        find(c, TW_CARE, at, "mortises-meet", tw_format(arena, "in %s the tenon at %s may run into the one of %s: at least one of them leans", m->into->name, say(c, mine->at_mm), whose),
             "lay both out on the rod at full size, or places farther apart");
        fix_meeting(c, mine, other, at);
    } else if (between(&mine_tenon, &other_tenon) < -HAIR_MM) {
        find(c, TW_HALT, at, "mortises-meet", tw_format(arena, "in %s the tenon at %s runs into the one of %s", m->into->name, say(c, mine->at_mm), whose),
             "shallower mortises, or places farther apart");
        fix_meeting(c, mine, other, at);
    } else {
        find(c, TW_CARE, at, "mortises-meet", wood <= 0.0
             ? tw_format(arena, "in %s the mortise at %s meets the one of %s, though the tenons do not touch", m->into->name, say(c, mine->at_mm), whose)
             : tw_format(arena, "in %s only %s of wood stands between the mortise at %s and the one of %s", m->into->name, say(c, wood), say(c, mine->at_mm), whose),
             "shallower mortises, or places farther apart");
        fix_meeting(c, mine, other, at);
    }
}

static void check_meeting(const checker *c)
{
    const tw_mortise *m = c->m;
    piece_memory *memory = memory_of(c, m->spec->into.index);
    int count;
    tw_mortise_site *sites = tw_mortise_sites(c->context->arena, m, &count);
    for (int i = 0; i < count && memory->room_count < ROOMS_MOST; i++) {
        room *mine = TW_NEW(c->context->arena, room);
        *mine = room_of(m, sites[i], c->plan->joint->name);
        for (const room *other = memory->rooms; other; other = other->next) {
            bool own_pair = other->joint == mine->joint && other->at_mm == mine->at_mm && m->pair;  // the gap is checked by itself
            if (!own_pair) check_pair(c, mine, other);
        }
        mine->next = memory->rooms;
        memory->rooms = mine;
        memory->room_count++;
    }
}

static void check_ends(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    piece_memory *memory = memory_of(c, m->spec->tenon.index);
    for (int end = 0; end < 2; end++) {
        if (m->spec->ends.value != TW_TENON_BOTH && m->spec->ends.value != end) continue;
        if (memory->tenon_joint[end])
            find(c, TW_HALT, NULL, "end-taken", tw_format(arena, "the %s end of %s already carries the tenon of %s", end == 0 ? "left" : "right", m->tenon->name, memory->tenon_joint[end]),
                 "another end, or another piece");
        memory->tenon_joint[end] = c->plan->joint->name;
        memory->tenon_mm[end] = m->l;
    }
    double taken = memory->tenon_mm[0] + memory->tenon_mm[1];
    if (taken > m->a.length_mm - BODY_LEAST_MM + HAIR_MM)
        find(c, TW_HALT, NULL, "tenons-meet", tw_format(arena, "tenons of %s in all leave no body in %s, which is %s long", say(c, taken), m->tenon->name, say(c, m->a.length_mm)),
             tw_format(arena, "a length of at least %s: it is measured with the tenons", say(c, taken + BODY_LEAST_MM)));
    else return;
    tw_piece_fix_size(c->context, m->spec->tenon.index, "length", taken + BODY_LEAST_MM, TW_ROUND_UP);
}

static void check_tools(const checker *c)
{
    const tw_mortise *m = c->m;
    tw_arena *arena = c->context->arena;
    if (m->sawn || m->tenon_cutter > 0.0) return;
    find_at(c, TW_HALT, m->spec->tenon_by.place, "tenon-reach", tw_format(arena,
        "no cutter%s is long enough to copy a tenon %s long%s", m->spec->tenon_cutter.given ? " of that name" : "",
                say(c, m->l), m->pair ? " and slim enough to pass between the two" : ""), "write `tenon by: saw`");
    fix_word(c, "tenon by", "saw", "Saw the tenons");
    fix_without(c, "tenon cutter");
}

/* Whatever is too small to be cut and has not been refused for a better reason. */
static void check_size(const checker *c, size_t halts_before)
{
    const tw_mortise *m = c->m;
    if (tw_mortise_possible(m) || tw_findings_count(c->context->findings, TW_HALT) > halts_before) return;
    find(c, TW_HALT, NULL, "joint-small", tw_format(c->context->arena, "a tenon %s thick, %s wide and %s long%s is too small to be cut", say(c, m->t), say(c, m->w), say(c, m->l),
         m->haunched ? tw_format(c->context->arena, ", with a haunch %s wide and %s deep,", say(c, m->haunch_width), say(c, m->haunch)) : ""),
         "sizes that a cutter can make: some millimetres each way");
}

void tw_mortise_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    assert(plan->joint->kind >= 0 && plan->joint->kind < TW_JOINT_KINDS_MOST);
    const checker c = { context, plan, m };
    size_t halts_before = tw_findings_count(context->findings, TW_HALT);
    check_said(&c);
    check_count(&c);
    check_thickness(&c);
    check_width(&c);
    check_shoulders(&c);
    check_pair_gap(&c);
    check_haunch(&c);
    check_depth(&c);
    check_clearance(&c);
    check_walls(&c);
    check_shoulder_bears(&c);
    for (int i = 0; i < m->spec->at.count; i++) check_place(&c, &m->spec->at.items[i]);
    check_meeting(&c);
    check_ends(&c);
    check_tools(&c);
    tw_mortise_peg_check(context, plan, m);
    tw_mortise_lean_check(context, plan, m);
    check_size(&c, halts_before);
}
