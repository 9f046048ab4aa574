// SPDX-License-Identifier: GPL-3.0-or-later
/* Sliding dovetail: the tongue, its notch, putting together.
 *
 * At a router table the piece stands on its end, its cheek against the fence. The dovetail cutter's tip is its upper end, so
 * it cuts the shoulder, and what it leaves above the table widens towards the end: the tongue. The cutter stands l above the
 * table, its tip as far out of the fence as the shoulder is wide.
 *
 *     the fence moved by x         neck thinner by n x, n the dovetailed cheeks: each is cut from it         (1)
 *     the cutter e higher          tongue e longer; its neck stays, for the tip cuts it                      (2)
 *     the depth of the housing e deeper, along the same path: narrower at its side by n e tan(angle)         (3) */
#include "joint/sliding_work.h"

#include <assert.h>
#include <math.h>

#define SAME_MM 1e-6
#define LENGTH_LIMIT_MM 0.2     // of the distance from shoulder to shoulder: common practice

tw_figures tw_sliding_finest(const tw_sliding_builder *b)
{
    tw_figures fine = b->context->job->figures;
    if (fine.style == TW_FIGURES_FRACTION) return (tw_figures){ TW_FIGURES_INCH, 3, 64 };
    if (fine.style == TW_FIGURES_MM) fine.decimals = 2;
    return fine;
}

const char *tw_sliding_ends_text(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    if (s->spec->ends.value == TW_SLIDING_LEFT) return tw_format(b->context->arena, "left end (%d)", s->housed_pieces);
    if (s->spec->ends.value == TW_SLIDING_RIGHT) return tw_format(b->context->arena, "right end (%d)", s->housed_pieces);
    return tw_format(b->context->arena, "left end (%d); right end (%d)", s->housed_pieces, s->housed_pieces);
}

static const char *cutter_name(const tw_sliding_builder *b) { return b->context->shop->cutters[b->s->cutter].name; }
static tw_face cheek_side(const tw_sliding *s) { return s->spec->sides.value == TW_SLIDING_SIDE_BACK ? TW_SIDE_BACK : TW_SIDE_FACE; }
static tw_face first_end(const tw_sliding *s) { return s->spec->ends.value == TW_SLIDING_LEFT ? TW_SIDE_LEFT_END : TW_SIDE_RIGHT_END; }

/* ---- what is measured ---- */

static void set_measure(const tw_sliding_builder *b, tw_work *work, const char *neck_remedy)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    double limit = tw_sliding_limit_mm(s);
    if (s->pin > 0.0) {
        const char *drill = tw_length_text(arena, s->pin, b->context->job->figures);
        work->measure = s->cheeks == 2 ? tw_format(arena, "over two drill shanks of %s, each pressed into the corner between shoulder and cheek", drill)
                                       : tw_format(arena, "from the bare cheek over a drill shank of %s, pressed into the corner between shoulder and slanting cheek", drill);
        work->measure_mm = s->over_pins;
    } else {
        work->measure = "thickness of the tongue at its end, arris to arris";
        work->measure_mm = s->tip;
    }
    work->measure_under_mm = -limit;
    work->measure_over_mm = limit;
    work->if_off = tw_format(arena, "%s; try it in the housing's test piece: it goes half a finger's length in by hand. The shoulder stays open: the tongue is too long, or the housing too shallow. And mind the housing's depth: %s",
        neck_remedy, tw_sliding_depth_words(b));
}

/* ---- at the router table ---- */

static void table_layer(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    const char *passes = s->cheeks == 2 ? "One pass with the face against the fence, one with the back: both cheeks from one setting"
                                        : tw_format(arena, "One pass, the %s against the fence; the other cheek stays bare", tw_face_words[cheek_side(s)]);
    tw_work work = { .name = "tongues, at the router table",
        .what = tw_format(arena, "The dovetail cutter, %s, stands %s above the table and its tip %s out of a high fence, the rest of it buried in the fence. Stand the piece on its end, the cheek against the fence, a square block behind it. "
            "%s. Fed from right to left, in first passes with the tip less far out, the last one a shaving.", cutter_name(b), tw_sliding_say(b, s->l), tw_sliding_say(b, s->shoulder), passes),
        .way = TW_WAY_TABLE, .piece = s->spec->housed.index, .face = first_end(s), .down = first_end(s), .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b),
        .test_piece = tw_format(arena, "an offcut of the same planed stock, %s thick, at least as wide, its end square", tw_sliding_say(b, s->t)), .state = "to length, ends square, housings cut",
        .marks = "face, face edge, both ends, number of the joint",
        .cautions = "The fence as high as half of the piece, a finger board holds the piece to it, the hands high above the cutter.\n"
                    "Speed by the diameter of the cutter's tip.", .stage = 22 };
    work.answer = (tw_answer){ TW_BY_FENCE, s->cheeks };
    set_measure(b, &work, s->cheeks == 2 ? "too thick: the tip out of the fence by half of the error more, for both cheeks are cut from it; too thin: half of it less" : "too thick: the tip out of the fence by the error more; too thin: as much less");
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- copied ---- */

/* What stays at the shoulder, as one sees the end with the back down; past the edges and the bare cheek by a little. */
static tw_copy_want tongue_want(const tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    const double past = 2.0;
    double y0 = s->lean0 > 0.0 ? s->q0 : -s->t / 2.0 - past, y1 = s->lean1 > 0.0 ? s->q1 : s->t / 2.0 + past, half = s->wide / 2.0 + past;
    return (tw_copy_want){ .cut = tw_outline_rectangle(b->context->arena, -half, y0, half, y1), .inside = false, .depth_mm = s->l, .cutter = cutter_name(b), .dovetail_rad = s->angle,
        .locate = TW_LOCATE_CENTRED, .stop_end = TW_SIDE_FACE_EDGE, .stop_to_origin_mm = s->wide / 2.0, .stop_word = "face edge", .down_to_origin_mm = s->t / 2.0,
        .overhang_low_mm = s->lean0 > 0.0 ? tw_max(0.0, s->cutter_d - s->shoulder) : s->cutter_d + past, .waste_mm = s->shoulder, .wall_word = "" };
}

static void copied_layer(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_work work = { .name = "tongues",
        .what = tw_format(arena, "Cut the tongue %s long on the end of the piece, which points at the cutter with its back down%s. In from the side, at the full length in one pass; a light cut last.", tw_sliding_say(b, s->l),
            s->ends == 2 ? "; at the other end the back edge stands at the stop" : ", the face edge at the stop"),
        .way = TW_WAY_COPY, .piece = s->spec->housed.index, .face = first_end(s), .down = TW_SIDE_BACK, .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b), .copied = true,
        .copy = tongue_want(b), .test_piece = tw_format(arena, "an offcut of the same planed stock, %s thick, end sawn square", tw_sliding_say(b, s->t)), .state = "to length, ends square, housings cut",
        .marks = "face, face edge, both ends, number of the joint", .cautions = "The piece points at the cutter: clamped at two places, and its far end held up level; hands behind the clamps.", .stage = 22 };
    work.answer = (tw_answer){ TW_BY_WIDTH, 1.0 };
    set_measure(b, &work, tw_format(arena, "too thick: a follower smaller by %g times the error, too thin: larger by as much", b->context->shop->machine.ratio.value));
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- sawn ---- */

static void sawn_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    tw_work work = { .name = "shoulders of the tongues",
        .what = tw_format(arena, "Strike the shoulder with a knife %s from the end, and the tongue on both edges from its housing. Saw the shoulder %s deep, square, to the line.", tw_sliding_say(b, s->l), tw_sliding_say(b, s->shoulder)),
        .way = TW_WAY_CHISEL, .piece = s->spec->housed.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b), .test_piece = "an offcut of the same board",
        .measure = "from the end to the shoulder", .measure_mm = s->l, .measure_under_mm = -0.1, .measure_over_mm = 0.0, .if_off = "shy: pare the shoulder back", .state = "to length, ends square, housings cut",
        .marks = "face, face edge, both ends, number of the joint", .cautions = "The piece is clamped flat; the saw starts against a batten.", .stage = 22 };
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
    work.name = "cheeks of the tongues";
    work.what = tw_format(arena, "Pare the cheeks with a chisel laid on a block planed to %s, then with a shoulder plane tilted alike, down to the scribed lines; the last shavings by trial in the housing.", tw_angle_text(arena, s->angle));
    work.state = "shoulders sawn";
    work.cautions = "The piece is clamped; both hands behind the edge.";
    set_measure(b, &work, "too thick: a shaving more off each dovetailed cheek; too thin: a shaving of the same wood glued on, and pared again");
    tw_sliding_add(b, work);
    tw_layers_close(&b->layers);
}

/* ---- cut back at the stop ---- */

static void notch_layer(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    double notch = tw_max(s->notch_low, s->notch_high);
    if (notch <= 0.0) return;
    const char *list = "";
    for (int end = 0; end < 2; end++) {
        if (s->spec->ends.value != TW_SLIDING_BOTH && s->spec->ends.value != end) continue;
        list = tw_format(arena, "%s%s%s end, %s (%d)", list, list[0] ? "; " : "", end == 0 ? "left" : "right",
            tw_sliding_notch_at_face_edge(s, s->notch_low > 0.0, end == 1) ? "face edge" : "back edge", s->housed_pieces);
    }
    tw_sliding_add(b, (tw_work){ .name = "tongues cut back at the stop",
        .what = tw_format(arena, "Strike with a knife %s from the edge, and saw the tongue off there, a shaving off the shoulder line; pare the shoulder: it closes the joint where it shows.", tw_sliding_say(b, notch)),
        .way = TW_WAY_BANDSAW, .piece = s->spec->housed.index, .face = TW_SIDE_FACE, .down = TW_SIDE_BACK, .count = s->joints, .pieces = s->housed_pieces, .places = list, .test_piece = "the offcut with the trial tongue",
        .measure = "from the edge to the tongue", .measure_mm = notch, .measure_under_mm = 0.0, .measure_over_mm = 0.5, .if_off = "shy: pare it back, or the edges do not come level", .state = "tongues cut",
        .marks = "face, face edge, both ends, number of the joint", .cautions = "A long piece gets a stand beneath its far end; the last of the cut with a pusher.", .stage = 23 });
    tw_layers_close(&b->layers);
}

void tw_sliding_tongue_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    if (s->tongue_way == TW_TONGUE_TABLE) table_layer(b);
    else if (s->tongue_way == TW_TONGUE_COPY) copied_layer(b);
    else sawn_layers(b);
    notch_layer(b);
}

/* ---- together ---- */

void tw_sliding_fit_layers(tw_sliding_builder *b)
{
    const tw_sliding *s = b->s;
    tw_arena *arena = b->context->arena;
    const char *from = tw_sliding_stopped(s) ? tw_format(arena, "in from the %s", tw_face_words[tw_face_opposite(tw_sliding_stop_side(s))]) : "in from one edge";
    tw_sliding_add(b, (tw_work){ .name = "tongues into their housings, dry",
        .what = tw_format(arena, "Chamfer the leading corners of each tongue a little and slide it %s: two thirds of the way by hand, the rest with light blows on a block. Where it sticks it shines: pare the tongue there, never the housing. Number both pieces.", from),
        .way = TW_WAY_FIT, .piece = s->spec->housed.index, .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b), .measure = s->ends == 2 ? "from shoulder to shoulder" : "from the shoulder to the other end",
        .measure_mm = s->body, .measure_under_mm = -LENGTH_LIMIT_MM, .measure_over_mm = LENGTH_LIMIT_MM, .if_off = "pare the shoulders of the long ones back together, all pieces of one length alike", .state = "housings and tongues cut, faces finished",
        .marks = "number of the joint on both", .stage = 40 });
    tw_layers_close(&b->layers);
    if (!s->glued) return;
    tw_sliding_add(b, (tw_work){ .name = "glue up", .what = tw_format(arena, "A film of glue on the last third of the tongue's way alone: on the housing at its far end and on the tongue at the edge that goes in last. Slide it %s without a stop, and clamp across only to close the shoulder.", from),
        .way = TW_WAY_GLUE, .piece = s->spec->housed.index, .count = s->joints, .pieces = s->housed_pieces, .places = tw_sliding_ends_text(b), .measure = "difference between the two diagonals", .measure_mm = 0.0, .measure_under_mm = -1.0,
        .measure_over_mm = 1.0, .if_off = "set the clamps askew towards the longer diagonal, before the glue takes", .state = "fitted dry, numbered, clean", .marks = "number of the joint on both",
        .cautions = "Mallet, block and clamps lie ready: a pause half way, and it stays there.", .stage = 45 });
    tw_layers_close(&b->layers);
}
