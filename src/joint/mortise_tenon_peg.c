// SPDX-License-Identifier: GPL-3.0-or-later
/* Mortise and tenon: the drawbored peg. A peg goes through both cheeks of the mortise and through the tenon, whose hole lies
 * nearer to the shoulder by the offset, so that the peg, tapered at its end, draws the shoulder home as it is driven.
 *
 *      from |        | mortised piece          s = peg from shoulder: the cheeks' hole from the side where the
 *     ------+----+   |                             shoulder stands
 *      body | (o)    |   tenon's hole at s - o     o = peg offset, 1/32 to 1/16 in (common practice)
 *     ------+----+   |                             relish beyond the peg = l - (s - o) - d/2 - chamfer  */
#include "joint/fix.h"
#include "joint/mortise_tenon.h"

#include <assert.h>
#include <math.h>

#include "joint/words.h"

#define HAIR_MM 1e-6
#define PEG_SHARE 0.6          // of the tenon's thickness: common practice
#define PEG_LEAST_MM 5.0       // 3/16 in
#define OFFSET_SHARE 0.125     // of the peg, between 1/32 and 1/16 in: common practice
#define OFFSET_LEAST_MM 0.8
#define OFFSET_MOST_MM 1.6
#define OFFSET_DRAWS_MM 0.4    // less, and the fit of the holes eats it up
#define DEPTH_SHARE (1.0 / 3.0)  // of the tenon, from the shoulder: common practice
#define PEGS_TWO_MM 60.0       // a tenon wider than this takes two
#define RELISH_GOOD 1.5        // pegs thick: common practice
#define LIMIT_MM 0.2           // of a hole's place: the offset lives on it

/* ---- proportions ---- */

static double rounded(const tw_joint_context *context, double length_mm)
{
    double step = tw_customary(context, 0.1, 1.0 / 64.0);
    return floor(length_mm / step + 0.5) * step;
}

static double peg_size(const tw_joint_context *context, const tw_mortise *m)
{
    double step = tw_customary(context, 1.0, 1.0 / 16.0);
    return tw_max(floor(PEG_SHARE * m->t / step + 0.5) * step, tw_customary(context, PEG_LEAST_MM, 3.0 / 16.0));
}

void tw_mortise_peg_propose(tw_joint_context *context, tw_joint_plan *plan, tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_mortise_spec *spec = m->spec;
    m->pegged = spec->peg.given || spec->pegs.given;
    if (!m->pegged) return;
    m->peg = tw_plan_amount(context, plan, &spec->peg, "peg", "peg, thick", "", TW_UNIT_MM, peg_size(context, m), tw_format(arena, "0.6 t = 0.6 x %s", tw_bare_fine(context, m->t)), "about six tenths of the tenon's thickness (common practice)");
    double two = tw_customary(context, PEGS_TWO_MM, 2.5);
    m->pegs = (int)tw_plan_amount(context, plan, &spec->pegs, "pegs", "pegs through each tenon", "", TW_UNIT_COUNT, m->w > two ? 2.0 : 1.0, tw_format(arena, "w = %s, two over %s", tw_bare_fine(context, m->w), tw_bare_fine(context, two)), "a wide tenon takes two (common practice)");
    double offset = tw_min(tw_max(OFFSET_SHARE * m->peg, OFFSET_LEAST_MM), OFFSET_MOST_MM);
    m->peg_offset = tw_plan_amount(context, plan, &spec->peg_offset, "peg_offset", "tenon's hole nearer to the shoulder by", "", TW_UNIT_MM, rounded(context, offset), tw_format(arena, "an eighth of the peg: %s", tw_bare_fine(context, OFFSET_SHARE * m->peg)),
        "1/32 to 1/16 in, the thicker the peg the more (common practice)");
    m->peg_from = tw_plan_amount(context, plan, &spec->peg_from_shoulder, "peg_from_shoulder", "middle of the cheeks' hole from the shoulder", "", TW_UNIT_MM, rounded(context, tw_max(1.5 * m->peg, DEPTH_SHARE * m->l)),
        tw_format(arena, "the most of 1 1/2 pegs and l/3 = %s", tw_bare_fine(context, DEPTH_SHARE * m->l)), "a third of the tenon, so that most of it stands beyond the peg (common practice)");
    m->peg_relish = m->l - (m->peg_from - m->peg_offset) - m->peg / 2.0 - m->chamfer;
    m->peg_length = m->e + 2.0 * TW_MORTISE_PEG_TAPER * m->peg;
    tw_note_length(context, plan, "peg_relish", "relish of the tenon beyond the peg", m->peg_relish,
        tw_format(arena, "l - (s - o) - d/2 - chamfer = %s - %s - %s - %s", tw_bare_fine(context, m->l), tw_bare_fine(context, m->peg_from - m->peg_offset), tw_bare_fine(context, m->peg / 2.0), tw_bare_fine(context, m->chamfer)), "at least one and a half pegs (common practice)");
    tw_note_length(context, plan, "peg_length", "peg, length", m->peg_length, tw_format(arena, "%s and two pegs for the taper, two for the head", tw_bare_fine(context, m->e)), "both are sawn off when it is home");
}

bool tw_mortise_peg_possible(const tw_mortise *m)
{
    return m->pegged && m->along && m->peg > 0.5 && m->peg_offset > 0.0 && m->peg_offset < m->peg / 2.0 && m->peg_from - m->peg_offset > m->peg / 2.0 && m->peg_relish > 0.0 && m->pegs * m->peg < m->w / 2.0 + HAIR_MM;
}

/* ---- checks ---- */

static void find(tw_joint_context *context, tw_joint_plan *plan, tw_level level, const tw_amount *amount, const char *code, const char *what, const char *remedy)
{
    tw_plan_finding(context, plan, level, amount, code, what, remedy);
}

static void check_idle(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    const struct { const tw_amount *amount; const char *key; } idle[] = { { &m->spec->peg_offset, "peg offset" }, { &m->spec->peg_from_shoulder, "peg from shoulder" } };
    for (int i = 0; i < 2; i++)
        if (idle[i].amount->given) {
            find(context, plan, TW_CARE, idle[i].amount, "key-idle", tw_format(context->arena, "`%s` is given, but it has no meaning without `peg`", idle[i].key), tw_format(context->arena, "add `peg`, or leave `%s` out", idle[i].key));
            tw_plan_fix_without(context, plan, idle[i].key, tw_format(context->arena, "Leave `%s` out", idle[i].key));
        }
}

static void check_size(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_amount *at = m->spec->peg.given ? &m->spec->peg : &m->spec->pegs;
    const char *remedy = tw_format(arena, "a peg of about %s%s", tw_say_fine(context, peg_size(context, m)), m->pegs > 1 ? ", or fewer" : "");
    double taken = m->pegs * m->peg;
    if (taken > m->w / 2.0 + HAIR_MM)
        find(context, plan, TW_HALT, at, "peg-thick", tw_format(arena, "%d peg%s of %s take%s more than half of a tenon %s wide: it breaks there", m->pegs, m->pegs == 1 ? "" : "s", tw_say_fine(context, m->peg), m->pegs == 1 ? "s" : "", tw_say_fine(context, m->w)), remedy);
    else if (m->peg > m->t + HAIR_MM || taken > m->w / 3.0 + HAIR_MM)
        find(context, plan, TW_CARE, at, "peg-thick", tw_format(arena, "a peg of %s is thick for a tenon %s thick and %s wide", tw_say_fine(context, m->peg), tw_say_fine(context, m->t), tw_say_fine(context, m->w)), remedy);
    else if (m->peg < 4.0)
        find(context, plan, TW_CARE, at, "peg-thin", tw_format(arena, "a peg of %s bends and breaks as it is driven over the offset", tw_say_fine(context, m->peg)), remedy);
    else return;
    tw_plan_fix(context, plan, &m->spec->peg, "Take a peg of", peg_size(context, m), "", TW_ROUND_NEAREST);
    if (m->pegs > 1) tw_plan_fix(context, plan, &m->spec->pegs, "Drive", 1.0, "peg through each tenon", TW_ROUND_NEAREST);
}

static void check_offset(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_amount *at = &m->spec->peg_offset;
    const char *usual = "0.8 to 1.6 mm (1/32 to 1/16 in)";
    if (m->peg_offset > m->peg / 3.0 + HAIR_MM)
        find(context, plan, TW_HALT, at, "peg-offset-large", tw_format(arena, "an offset of %s is more than a third of the peg's %s: the peg cannot find the hole of the tenon", tw_say_fine(context, m->peg_offset), tw_say_fine(context, m->peg)), usual);
    else if (m->peg_offset > OFFSET_MOST_MM + 0.02)
        find(context, plan, TW_CARE, at, "peg-offset-large", tw_format(arena, "an offset of %s bends the peg hard and may split out the tenon's end", tw_say_fine(context, m->peg_offset)), usual);
    else if (m->peg_offset < OFFSET_DRAWS_MM)
        find(context, plan, TW_CARE, at, "peg-offset-small", tw_format(arena, "an offset of %s is eaten up by the play of the holes: the peg draws nothing", tw_say_fine(context, m->peg_offset)), usual);
}

static void check_wood(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    tw_arena *arena = context->arena;
    const tw_amount *at = m->spec->peg_from_shoulder.given ? &m->spec->peg_from_shoulder : &m->spec->peg;
    double before = m->peg_from - m->peg / 2.0, good = RELISH_GOOD * m->peg;
    if (m->peg_relish < good - HAIR_MM) {
        find(context, plan, m->peg_relish < m->peg ? TW_HALT : TW_CARE, at, "peg-relish-short", tw_format(arena, "only %s of the tenon stands beyond the peg: it shears out as the peg draws", tw_say_fine(context, tw_max(m->peg_relish, 0.0))),
             tw_format(arena, "at least %s: a longer tenon, a thinner peg, or the peg nearer to the shoulder", tw_say_fine(context, good)));
        double over = good - m->peg_relish;
        if (m->peg_from - over >= 1.5 * m->peg) tw_plan_fix(context, plan, &m->spec->peg_from_shoulder, "Set the peg",
            m->peg_from - over, "from the shoulder", TW_ROUND_DOWN);
        if (!m->through) tw_plan_fix(context, plan, &m->spec->depth, "Make the tenon", m->l + over, "long", TW_ROUND_UP);
    }
    if (before < m->peg - HAIR_MM) {
        find(context, plan, before < m->peg / 2.0 ? TW_HALT : TW_CARE, at, "peg-near-side", tw_format(arena, "only %s of the cheek stands between the peg and the side of %s: it splits out", tw_say_fine(context, tw_max(before, 0.0)), m->into->name),
             tw_format(arena, "the peg at least %s from the shoulder", tw_say_fine(context, 1.5 * m->peg)));
        tw_plan_fix(context, plan, &m->spec->peg_from_shoulder, "Set the peg", 1.5 * m->peg, "from the shoulder", TW_ROUND_UP);
    }
}

void tw_mortise_peg_check(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    if (!m->pegged) {
        check_idle(context, plan, m);
        return;
    }
    if (!m->along) {
        find(context, plan, TW_HALT, m->spec->peg.given ? &m->spec->peg : &m->spec->pegs, "peg-along-grain", tw_format(context->arena, "the tenon lies across %s: a peg through its cheeks would have to run along the grain", m->into->name),
             "leave `peg` out, or write `lies: along`");
        tw_plan_fix_without(context, plan, "peg", "Leave the peg out");
        tw_plan_fix_word(context, plan, "lies", "along", "Lay the tenon along the mortised piece");
        return;
    }
    check_size(context, plan, m);
    check_offset(context, plan, m);
    check_wood(context, plan, m);
}

/* ---- where the pegs stand ---- */

int tw_mortise_peg_spots(const tw_mortise *m, double along[TW_MORTISE_PEGS_MOST])
{
    int count = 0, tenons = m->pair && m->doubled ? 2 : 1;
    for (int i = 0; i < tenons; i++)
        for (int j = 0; j < m->pegs; j++) {
            double tenon = tenons == 1 ? 0.0 : (i - 0.5) * (m->w + m->gap);
            assert(count < TW_MORTISE_PEGS_MOST);
            along[count++] = tenon + (m->pegs == 1 ? 0.0 : (j - 0.5) * m->w / 2.0);
        }
    return count;
}

tw_face tw_mortise_peg_face(const tw_mortise *m) { return tw_face_opposite(m->down); }

tw_point tw_mortise_peg_place(const tw_mortise *m, double at_mm, double along)
{
    return (tw_point){ at_mm + along, tw_face_below(tw_mortise_peg_face(m)) == m->from ? m->peg_from : m->d - m->peg_from };
}

/* ---- cuts ---- */

/* The cheeks are walls and, between twins, what stands there: so that no cut takes what the mortise took. */
static void cheek_holes(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, tw_point hole)
{
    tw_face face = tw_mortise_peg_face(m);
    double half = (m->tm + m->over_t - m->t) / 2.0, high = m->e - m->across - half, low = m->across - half;
    const double spans[3][2] = { { 0.0, high }, { m->e - low, m->e }, { high + m->tm, m->e - low - m->tm } };
    for (int i = 0; i < (m->pair && !m->doubled ? 3 : 2); i++)
        tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->into.index, .name = "hole of the peg", .face = face, .start_mm = spans[i][0], .depth_mm = spans[i][1],
            .outline = tw_outline_circle(context->arena, hole, m->peg / 2.0) });
}

static void tenon_hole(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m, bool right_end, double y)
{
    double from_shoulder = m->peg_from - m->peg_offset, x = right_end ? m->a.length_mm - m->l + from_shoulder : m->l - from_shoulder;
    tw_outline hole = tw_outline_circle(context->arena, (tw_point){ x, y }, m->peg / 2.0);
    bool pair = m->pair && !m->doubled;
    for (int i = 0; i < (pair ? 2 : 1); i++) {
        double start = m->face_shoulder + i * (m->t + m->gap);
        tw_plan_cut(context, plan, (tw_cut){ .piece = m->spec->tenon.index, .name = "hole of the peg", .face = TW_SIDE_FACE, .start_mm = start, .depth_mm = start + m->t, .outline = hole });
    }
}

void tw_mortise_peg_cuts(tw_joint_context *context, tw_joint_plan *plan, const tw_mortise *m)
{
    double along[TW_MORTISE_PEGS_MOST];
    int count = tw_mortise_peg_spots(m, along);
    for (int i = 0; i < m->spec->at.count; i++)
        for (int j = 0; j < count; j++) cheek_holes(context, plan, m, tw_mortise_peg_place(m, m->spec->at.items[i].value, along[j]));
    for (int end = 0; end < 2; end++)
        for (int j = 0; j < count && (m->spec->ends.value == TW_TENON_BOTH || m->spec->ends.value == end); j++) tenon_hole(context, plan, m, end == 1, m->y + along[j]);
}

/* ---- work ---- */

static const char *say(const tw_joint_context *context, double length_mm) { return tw_say_fine(context, length_mm); }

static int pegs_in_all(const tw_mortise *m)
{
    double along[TW_MORTISE_PEGS_MOST];
    return m->joints * tw_mortise_peg_spots(m, along);
}

tw_part tw_mortise_peg_part(const tw_joint_context *context, const tw_mortise *m)
{
    const tw_shop *shop = context->shop;
    double kerf = shop->saw_kerf.given ? shop->saw_kerf.value : 3.0, over = 2.0, stick = 300.0;
    int fit = tw_max(1.0, floor(stick / (m->peg_length + kerf))) > pegs_in_all(m) ? pegs_in_all(m) : (int)tw_max(1.0, floor(stick / (m->peg_length + kerf)));
    return (tw_part){ .name = "peg", .count = pegs_in_all(m), .finished = { m->peg_length, m->peg, m->peg }, .per_stick = fit,
                      .stick = { tw_max(stick, fit * (m->peg_length + kerf)), m->peg + over, m->peg + over }, .timber = m->spec->peg_timber.given ? m->spec->peg_timber.text : m->tenon->timber.text };
}

static tw_work cheeks_work(const tw_joint_context *context, const tw_mortise *m)
{
    return (tw_work){ .name = "holes of the pegs through the cheeks",
        .what = tw_format(context->arena, "Drill %s through both cheeks of every mortise, from the %s, an offcut as thick as the tenon in the mortise so that nothing breaks out inside.", say(context, m->peg), tw_face_words[tw_mortise_peg_face(m)]),
        .way = TW_WAY_DRILL, .piece = m->spec->into.index, .face = tw_mortise_peg_face(m), .down = m->down, .count = m->into_pieces * m->spec->at.count * (pegs_in_all(m) / m->joints), .pieces = m->into_pieces,
        .places = tw_format(context->arena, "every mortise, %s from the %s", say(context, m->peg_from), tw_face_words[m->from]), .test_piece = "the mortise's test piece",
        .measure = tw_format(context->arena, "from the %s to the middle of the hole", tw_face_words[m->from]), .measure_mm = m->peg_from, .measure_under_mm = -LIMIT_MM, .measure_over_mm = LIMIT_MM,
        .answer = { TW_BY_FENCE, 1.0 }, .if_off = "the fence of the drill press by the error", .state =
            "mortised, not yet fitted", .marks = "number of the joint",
        .cautions = "Against a fence, clamped, on a backing board; a brad-point drill, lifted often.", .stage = 21 };
}

static tw_work marks_work(const tw_joint_context *context, const tw_mortise *m)
{
    return (tw_work){ .name = "marks of the pegs on the tenons",
        .what = tw_format(context->arena, "With the joint together dry and its shoulder tight, turn the same drill by hand in the cheek until its point marks the tenon. Draw the tenon out and make a new mark %s nearer to the shoulder.", say(context, m->peg_offset)),
        .way = TW_WAY_MARK, .piece = m->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = pegs_in_all(m), .pieces = m->tenon_pieces, .places = "every tenon, in its own mortise",
        .measure = "from the drill's mark to the new mark, towards the shoulder", .measure_mm = m->peg_offset, .measure_under_mm = -LIMIT_MM, .measure_over_mm = LIMIT_MM,
        .if_off = "strike it again: away from the shoulder the peg would push the joint open", .state = "tenons fitted dry, cheeks drilled", .marks = "number of the joint on both", .stage = 41 };
}

static tw_work tenons_work(const tw_joint_context *context, const tw_mortise *m)
{
    return (tw_work){ .name = "holes of the pegs through the tenons", .what = tw_format(context->arena, "Drill %s through each tenon at the new mark, square to its cheek.", say(context, m->peg)), .way = TW_WAY_DRILL,
        .piece = m->spec->tenon.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = pegs_in_all(m), .pieces = m->tenon_pieces, .places = "every tenon, at the new mark",
        .measure = "from the shoulder to the middle of the hole", .measure_mm = m->peg_from - m->peg_offset, .measure_under_mm = -LIMIT_MM, .measure_over_mm = LIMIT_MM,
        .if_off = "too near to the shoulder: ease the hole towards the end with a rasp; too far: plug it and drill again", .state = "marked through its own mortise", .marks = "number of the joint",
        .cautions = "The tenon lies packed beneath, level; clamped, never held in the hand.", .stage = 42 };
}

static tw_work make_work(const tw_joint_context *context, const tw_mortise *m)
{
    tw_part part = tw_mortise_peg_part(context, m);
    return (tw_work){ .name = "pegs",
        .what = tw_format(context->arena, "Split sticks along the grain, never sawn across it, and whittle or plane them eight-sided to %s; saw them to %s and taper the last %s of each to half.", say(context, m->peg), say(context, m->peg_length), say(context, TW_MORTISE_PEG_TAPER * m->peg)),
        .way = TW_WAY_PLANE, .piece = -1, .part = part.name, .count = part.count, .places = "each peg", .measure = "thickness, through a hole of the same drill in hard wood", .measure_mm = m->peg, .measure_under_mm = -0.1, .measure_over_mm = 0.1,
        .if_off = "plane it, or take the next", .state = "split, dry", .cautions = "Whittle on a block, away from the hand that holds.", .stage = 43 };
}

static tw_work drive_work(const tw_joint_context *context, const tw_mortise *m)
{
    return (tw_work){ .name = "pegs driven",
        .what = tw_format(context->arena, "%s Drive each peg from the %s, taper first, until its full thickness shows on the far side; hear when it is home, and stop. Saw both ends level%s.", m->glued ? "As soon as the glue is on and the joint together:" : "With the joint together:",
            tw_face_words[tw_mortise_peg_face(m)], m->glued ? "" : ", or leave the head long where it is to be knocked out again"),
        .way = TW_WAY_FIT, .piece = m->spec->tenon.index, .count = pegs_in_all(m), .pieces = m->tenon_pieces, .places = "every joint", .measure = "gap at the shoulder, with a feeler", .measure_mm = 0.0, .measure_under_mm = 0.0, .measure_over_mm = 0.05,
        .if_off = "a gap that stays: the offset was light; a peg that breaks: knock it out and ease the tenon's hole", .state = m->glued ? "glued, clamped" : "fitted dry", .marks = "number of the joint on both", .stage = 46 };
}

tw_work tw_mortise_peg_work(const tw_joint_context *context, const tw_mortise *m, tw_peg_step step)
{
    switch (step) {
    case TW_PEG_CHEEKS: return cheeks_work(context, m);
    case TW_PEG_MARKS: return marks_work(context, m);
    case TW_PEG_TENONS: return tenons_work(context, m);
    case TW_PEG_MAKE: return make_work(context, m);
    case TW_PEG_DRIVE: return drive_work(context, m);
    }
    return (tw_work){ 0 };
}
