// SPDX-License-Identifier: GPL-3.0-or-later
/* SVG. The sheet's y runs up, the picture's down: y' = height - y; a counter-clockwise arc is then drawn with sweep flag 0.
 *
 * A text carries its reckoned width as textLength: where DejaVu Sans is not at hand, the reader's own font is fitted to
 * the same width, so nothing ever runs into anything; where it is, the fitting also takes back kerning, which the layout
 * does not know. Marks of one role that follow each other share a group. */
#include "sheet/writers.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "job/path.h"

typedef struct svg { const tw_sheet *sheet; tw_sink *sink; bool screen; } svg;

static double down(const svg *out, double y) { return out->sheet->height_mm - y; }

static void put_xml_text(tw_sink *sink, const char *text)
{
    for (; *text; text++) {
        switch (*text) {
        case '&': tw_put_text(sink, "&amp;"); break;
        case '<': tw_put_text(sink, "&lt;"); break;
        case '>': tw_put_text(sink, "&gt;"); break;
        case '"': tw_put_text(sink, "&quot;"); break;
        default: tw_put(sink, text, 1);
        }
    }
}

static void put_grey(tw_sink *sink, double grey)
{
    int level = (int)lround(255.0 * grey);
    tw_putf(sink, "#%02x%02x%02x", level, level, level);
}

static void open_group(const svg *out, tw_role role)
{
    const tw_role_look *look = tw_role_look_of(role);
    tw_sink *sink = out->sink;
    tw_put_text(sink, "<g");
    if (out->screen) tw_putf(sink, " class=\"r-%s\"", look->name);
    if (role == TW_ROLE_TEXT) {
        tw_put_text(sink, " fill=\"");
        put_grey(sink, look->grey);
        tw_put_text(sink, "\" font-family=\"DejaVu Sans, sans-serif\">\n");
        return;
    }
    if (look->filled) {
        tw_put_text(sink, " fill-rule=\"evenodd\" fill=\"");
        put_grey(sink, look->grey);
        tw_put_text(sink, "\">\n");
        return;
    }
    tw_put_text(sink, " fill=\"none\" stroke-linejoin=\"round\" stroke=\"");
    put_grey(sink, look->grey);
    tw_putf(sink, "\" stroke-width=\"%g\"", look->width_mm);
    for (int i = 0; i < look->dash_count; i++) tw_putf(sink, "%s%g", i ? " " : " stroke-dasharray=\"", look->dash_mm[i]);
    tw_put_text(sink, look->dash_count ? "\">\n" : " stroke-linecap=\"round\">\n");
}

static void put_arc_to(const svg *out, double radius, double sweep, tw_point to)
{
    tw_putf(out->sink, "A%g %g 0 %d %d %g %g", radius, radius, fabs(sweep) > TW_PI, sweep < 0, to.x, down(out, to.y));
}

static void put_outline(const svg *out, tw_outline outline)
{
    tw_put_text(out->sink, "<path d=\"");
    for (int k = 0; k < outline.count; k++) {
        tw_loop loop = outline.loops[k];
        if (loop.count == 0) continue;
        tw_putf(out->sink, "M%g %g", loop.vertices[0].x, down(out, loop.vertices[0].y));
        for (int i = 0; i < loop.count; i++) {
            tw_edge edge = tw_loop_edge(loop, i);
            if (!edge.straight) put_arc_to(out, edge.radius_mm, edge.sweep_rad, edge.to);
            else if (i + 1 < loop.count) tw_putf(out->sink, "L%g %g", edge.to.x, down(out, edge.to.y));
        }
        tw_put_text(out->sink, "Z");
    }
    tw_put_text(out->sink, "\"/>\n");
}

static void put_arc(const svg *out, const tw_item *item)
{
    tw_point c = item->from;
    if (fabs(item->sweep_rad) >= 2 * TW_PI - 1e-9) {
        tw_putf(out->sink, "<circle cx=\"%g\" cy=\"%g\" r=\"%g\"/>\n", c.x, down(out, c.y), item->radius_mm);
        return;
    }
    double end = item->start_rad + item->sweep_rad, r = item->radius_mm;
    tw_putf(out->sink, "<path d=\"M%g %g", c.x + r * cos(item->start_rad), down(out, c.y + r * sin(item->start_rad)));
    put_arc_to(out, r, item->sweep_rad, (tw_point){ c.x + r * cos(end), c.y + r * sin(end) });
    tw_put_text(out->sink, "\"/>\n");
}

/* ---- what a text comes from, on the screen ---- */

static bool is_number(const char *word)
{
    for (const char *at = word; *at; at++)
        if (*at < '0' || *at > '9') return false;
    return *word != '\0';
}

/* A path in words: "thickness of post"; an item of a list: "at 2 of stretcher to post"; a key of the whole: "units". */
static const char *path_words(tw_arena *arena, const char *path)
{
    size_t count;
    const char *const *words = tw_path_split(arena, path, &count);
    if (!words) return path;
    const char *key = words[count - 1];
    if (count > 3 && is_number(key)) key = tw_format(arena, "%s %s", words[count - 2], key);
    return count > 2 ? tw_format(arena, "%s of %s", key, words[1]) : key;
}

static void put_attribute(tw_sink *sink, const char *name, const char *text)
{
    if (!text) return;
    tw_putf(sink, " %s=\"", name);
    put_xml_text(sink, text);
    tw_put_text(sink, "\"");
}

/* The whole box of the text takes the pointer: letters are thin. */
static void put_source(const svg *out, const tw_item *item)
{
    const tw_source *source = &item->source;
    if (!out->screen || (!source->from && !source->why)) return;
    tw_putf(out->sink, " class=\"%s\"", source->from ? "t-from" : "t-why");
    put_attribute(out->sink, "data-from", source->from);
    put_attribute(out->sink, "data-why", source->why);
    tw_put_text(out->sink, " tabindex=\"0\" role=\"button\" pointer-events=\"bounding-box\"");
    tw_arena scratch = { .out_of_memory = out->sheet->arena->out_of_memory };
    put_attribute(out->sink, "aria-label", tw_format(&scratch, "%s, %s", item->text,
        path_words(&scratch, source->from ? source->from : source->why)));
    tw_arena_finish(&scratch);
}

static void put_text(const svg *out, const tw_item *item)
{
    static const char *const anchors[] = { "", " text-anchor=\"middle\"", " text-anchor=\"end\"" };
    tw_sink *sink = out->sink;
    double x = item->from.x, y = down(out, item->from.y);
    tw_putf(sink, "<text x=\"%g\" y=\"%g\" font-size=\"%g\"%s%s", x, y, item->size_mm * TW_EM_PER_CAPITAL,
            anchors[item->anchor], item->bold ? " font-weight=\"bold\"" : "");
    tw_putf(sink, " textLength=\"%g\" lengthAdjust=\"spacingAndGlyphs\"", tw_text_width(item->size_mm, item->bold, item->text));
    if (item->turn_rad != 0.0) tw_putf(sink, " transform=\"rotate(%g %g %g)\"", -tw_degrees(item->turn_rad), x, y);
    put_source(out, item);
    tw_put_text(sink, ">");
    put_xml_text(sink, item->text);
    tw_put_text(sink, "</text>\n");
}

static void put_item(const svg *out, const tw_item *item)
{
    switch (item->kind) {
    case TW_ITEM_LINE:
        tw_putf(out->sink, "<path d=\"M%g %gL%g %g\"/>\n", item->from.x, down(out, item->from.y), item->to.x, down(out, item->to.y));
        break;
    case TW_ITEM_ARC: put_arc(out, item); break;
    case TW_ITEM_OUTLINE: put_outline(out, item->outline); break;
    case TW_ITEM_TEXT: put_text(out, item); break;
    }
}

/* Marks of one role that follow each other share a group. */
static void put_items(const svg *out)
{
    const tw_sheet *sheet = out->sheet;
    for (size_t i = 0; i < sheet->count; i++) {
        bool first = i == 0 || sheet->items[i - 1].role != sheet->items[i].role;
        bool last = i + 1 == sheet->count || sheet->items[i + 1].role != sheet->items[i].role;
        if (first) open_group(out, sheet->items[i].role);
        put_item(out, &sheet->items[i]);
        if (last) tw_put_text(out->sink, "</g>\n");
    }
    tw_put_text(out->sink, "</svg>\n");
}

void tw_svg_put(const tw_sheet *sheet, tw_sink *sink)
{
    tw_putf(sink, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%gmm\" height=\"%gmm\" viewBox=\"0 0 %g %g\" xml:space=\"preserve\">\n",
            sheet->width_mm, sheet->height_mm, sheet->width_mm, sheet->height_mm);
    tw_put_text(sink, "<title>");
    put_xml_text(sink, tw_text_shown(sheet->arena, false, sheet->title));
    tw_putf(sink, "</title>\n<path fill=\"#fff\" d=\"M0 0H%gV%gH0Z\"/>\n", sheet->width_mm, sheet->height_mm);
    put_items(&(svg){ sheet, sink, false });
}

/* Its name is an attribute: a title element would come up as a tip wherever the pointer rests. */
void tw_svg_put_screen(const tw_sheet *sheet, tw_sink *sink)
{
    tw_putf(sink, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %g %g\" class=\"drawing\" role=\"group\"",
        sheet->width_mm, sheet->height_mm);
    put_attribute(sink, "aria-label", tw_text_shown(sheet->arena, false, sheet->title));
    tw_put_text(sink, " xml:space=\"preserve\">\n");
    put_items(&(svg){ sheet, sink, true });
}
