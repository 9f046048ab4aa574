// SPDX-License-Identifier: GPL-3.0-or-later
/* Strips: templates with straight sides glued up from strips that were sawn straight. For each such template a picture of
 * the glue-up with its strips numbered in the order of gluing, and a table of what to saw. */
#include "sheet/pages.h"

#include <math.h>

#define PICTURE_HIGH_MM 120.0
#define NOTES_MM 2.3
#define TOP_AIR_MM 6.0  // for a number on its leader

/* The largest usual scale at which the box fits; factor is set. */
static const char *fitting_scale(tw_box box, double width_mm, double height_mm, double *factor)
{
    static const struct { const char *words; double factor; } scales[] = {
        { "1 : 1", 1.0 }, { "1 : 2", 0.5 }, { "1 : 5", 0.2 }, { "1 : 10", 0.1 }, { "1 : 20", 0.05 }, { "1 : 50", 0.02 } };
    int last = (int)(sizeof scales / sizeof *scales) - 1, i = 0;
    while (i < last && ((box.x1 - box.x0) * scales[i].factor > width_mm || (box.y1 - box.y0) * scales[i].factor > height_mm)) i++;
    *factor = scales[i].factor;
    return scales[i].words;
}

/* The number in the middle of a strip, or beside it on a leader when the strip is too narrow for it. */
static void draw_number(tw_sheet *sheet, tw_box strip, double middle_x, int number)
{
    const char *text = tw_format(sheet->arena, "%d", number);
    double x = (strip.x0 + strip.x1) / 2.0, y = (strip.y0 + strip.y1) / 2.0;
    double size = TW_LOUD_MM, room = tw_min(strip.x1 - strip.x0, strip.y1 - strip.y0);
    if (room > size * 2.0) { tw_draw_bold(sheet, x, y - size / 2.0, size, TW_ANCHOR_MIDDLE, text); return; }
    bool right = x >= middle_x;  // on the left stands the dimension of the height, 8 mm off
    tw_draw_leader(sheet, (tw_point){ x, y }, (tw_point){ right ? strip.x1 + 8.0 : strip.x0 - 2.0, y + 4.0 }, TW_BODY_MM, text);
}

static void draw_strips(tw_sheet *sheet, const tw_pages *pages, const tw_template *t, tw_box box, double factor, double width)
{
    double dx = width / 2.0 - (box.x0 + box.x1) / 2.0 * factor, dy = -TOP_AIR_MM - box.y1 * factor;
    for (int i = 0; i < t->strip_count; i++) {
        tw_outline shape = tw_outline_scaled(pages->arena, t->strips[i].shape, factor);
        shape = tw_outline_moved(pages->arena, shape, dx, dy);
        tw_draw_outline(sheet, TW_ROLE_VISIBLE, shape);
        draw_number(sheet, tw_outline_bounds(shape), width / 2.0, i + 1);
    }
    tw_draw_outline(sheet, TW_ROLE_CUT, tw_outline_moved(pages->arena, tw_outline_scaled(pages->arena, t->copy.template_, factor), dx, dy));
    tw_outline board = tw_outline_moved(pages->arena, tw_outline_scaled(pages->arena, t->board, factor), dx, dy);
    tw_box outer = tw_outline_bounds(board), opening = tw_outline_bounds(t->copy.template_);
    bool roomy = (opening.x1 - opening.x0) * factor > 24.0 && (opening.y1 - opening.y0) * factor > 6.0;
    if (roomy)
        tw_draw_text(sheet, (opening.x0 + opening.x1) / 2.0 * factor + dx, (opening.y0 + opening.y1) / 2.0 * factor + dy - 1.0, TW_SMALL_MM,
                     TW_ANCHOR_MIDDLE, "opening");
    tw_draw_dimension(sheet, (tw_point){ outer.x0, outer.y0 }, (tw_point){ outer.x1, outer.y0 }, 0.0, -8.0, TW_BODY_MM,
                      tw_paper_bare(pages, box.x1 - box.x0));
    tw_draw_dimension(sheet, (tw_point){ outer.x0, outer.y0 }, (tw_point){ outer.x0, outer.y1 }, TW_PI / 2.0, 8.0, TW_BODY_MM,
                      tw_paper_bare(pages, box.y1 - box.y0));
}

static const char *angle_words(tw_arena *arena, double angle_rad, const char *otherwise)
{
    return fabs(angle_rad) < 1e-9 ? otherwise : tw_angle_text(arena, fabs(angle_rad));
}

/* Both ends when they differ. */
static const char *ends_words(tw_arena *arena, const tw_strip *strip)
{
    const char *one = angle_words(arena, strip->end_angle_rad, "square");
    if (fabs(strip->end_angle_rad - strip->other_end_rad) < 1e-9) return one;
    return tw_format(arena, "%s, other end %s", one, angle_words(arena, strip->other_end_rad, "square"));
}

static const char *over_words(const tw_pages *pages, const tw_strip *strip)
{
    const char *length = strip->over_mm > 0.0 ? tw_format(pages->arena, "length + %s", tw_paper_bare(pages, strip->over_mm)) : "";
    const char *width = strip->over_width_mm > 0.0 ? tw_format(pages->arena, "width + %s", tw_paper_bare(pages, strip->over_width_mm)) : "";
    return *length && *width ? tw_format(pages->arena, "%s, %s", length, width) : *length ? length : *width ? width : "nothing";
}

static void add_table(tw_pages *pages, const tw_template *t)
{
    const tw_column columns[] = {
        { "", 8, TW_ANCHOR_LEFT, true }, { "Strip", 42, TW_ANCHOR_LEFT, false }, { "Length", 25, TW_ANCHOR_LEFT, true },
        { "Width", 42, TW_ANCHOR_LEFT, true }, { "Ripped side", 22, TW_ANCHOR_LEFT, false }, { "Ends, from square", 32, TW_ANCHOR_LEFT, false },
        { "Leave over", 36, TW_ANCHOR_LEFT, false }, { "Step", 17, TW_ANCHOR_MIDDLE, false } };
    enum { COLUMNS = sizeof columns / sizeof *columns };
    tw_arena *arena = pages->arena;
    const char **cells = TW_NEW_ARRAY(arena, const char *, (size_t)t->strip_count * COLUMNS);
    for (int i = 0; i < t->strip_count; i++) {
        const tw_strip *strip = &t->strips[i];
        const char **cell = cells + i * COLUMNS;
        bool tapered = fabs(strip->width_mm - strip->narrow_mm) > 1e-9;
        cell[0] = tw_format(arena, "%d", i + 1);
        cell[1] = strip->name;
        cell[2] = tw_paper_bare(pages, strip->length_mm);
        cell[3] = tapered ? tw_format(arena, "%s, other end %s", tw_paper_bare(pages, strip->width_mm), tw_paper_bare(pages, strip->narrow_mm))
                          : tw_paper_bare(pages, strip->width_mm);
        cell[4] = angle_words(arena, strip->angle_rad, "parallel");
        cell[5] = ends_words(arena, strip);
        cell[6] = over_words(pages, strip);
        cell[7] = tw_format(arena, "%d", strip->step);
    }
    tw_pages_table(pages, columns, COLUMNS, TW_BODY_MM, cells, t->strip_count);
}

static void add_notes(tw_pages *pages, const tw_template *t)
{
    for (int i = 0; i < t->strip_count; i++)
        if (t->strips[i].note && *t->strips[i].note)
            tw_pages_text(pages, NOTES_MM, false, tw_format(pages->arena, "Strip %d, %s: %s", i + 1, t->strips[i].name, t->strips[i].note));
    tw_pages_text(pages, NOTES_MM, false,
                  "Glue in the order of the steps, on a flat board with paper under the joints. The edges that the follower "
                  "runs along are left as sawn and jointed: no sanding, no glue on them. Trim what was left over after the glue has "
                  "set. Check the opening against the printed template before it is used.");
    tw_pages_text(pages, NOTES_MM, true,
                  "Saw the strips from stuff long enough to hold: rip first, crosscut after, push stick in hand, no narrow strip between "
                  "blade and fence without a pusher that covers it.");
}

/* The strips are named in the template's own frame, as one looks along the cutter at the work. */
static const char *seen_words(const tw_machine *machine)
{
    bool turned = machine->copy.value == 1, back = machine->seen_from.value == 1;
    if (turned && back) return "At the machine you see its other side, turned half round.";
    if (turned) return "At the machine this side faces you, turned half round.";
    return back ? "At the machine you see its other side." : "At the machine this side faces you.";
}

static void add_template(tw_pages *pages, const tw_template *t)
{
    tw_arena *arena = pages->arena;
    double width = pages->room.x1 - pages->room.x0, factor;
    tw_box box = tw_outline_bounds(t->board);
    const char *scale = fitting_scale(box, width - 40.0, PICTURE_HIGH_MM - TOP_AIR_MM - 16.0, &factor);
    tw_pages_new(pages, tw_format(arena, "%s: %s, from strips", t->name, t->title), scale);
    tw_pages_text(pages, TW_TITLE_MM, true, tw_format(arena, "%s from strips: %s", t->name, t->title));
    tw_pages_text(pages, TW_BODY_MM, false,
                  tw_format(arena, "Stuff %s thick. %s All sizes in %s, finished.", tw_paper_length(pages, t->thickness_mm),
                            seen_words(&pages->in->shop->machine), tw_paper_unit_word(pages->in->job->figures)));
    tw_sheet *picture = tw_scratch(arena);
    draw_strips(picture, pages, t, box, factor, width);
    tw_pages_place(pages, picture, (box.y1 - box.y0) * factor + TOP_AIR_MM + 16.0);
    add_table(pages, t);
    add_notes(pages, t);
}

tw_paper_pages tw_paper_strips(tw_arena *arena, const tw_paper_input *in)
{
    tw_pages pages = tw_pages_begin(arena, in, "strips", "Templates from strips", "Strips",
                                    "how the templates with straight sides are glued up from strips");
    for (int i = 0; i < in->templates->count; i++)
        if (in->templates->items[i].straight && in->templates->items[i].strip_count > 0) add_template(&pages, &in->templates->items[i]);
    tw_paper_pages paper = tw_pages_finish(&pages);
    return pages.count > 0 ? paper : (tw_paper_pages){ .page_count = 0 };
}
