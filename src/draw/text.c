// SPDX-License-Identifier: GPL-3.0-or-later
/* Text widths, wrapping and ink boxes, from the compiled-in table of DejaVu Sans.
 *
 * A text's size is the height h of its capitals (ISO 3098). In both faces a capital is 1493 units of 2048 high, so
 *     em = h * 2048 / 1493,   width = sum of advances * h / 1493.                                            (1)
 * Kerning and ligatures are not used, here or in the writers: (1) is then the true width in every one of them.
 * Lines break at spaces and after the hyphen of a compound, greedily; a word wider than the line is broken where it must be. */
#include "draw/advances.h"
#include "draw/draw.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define BOX_CODE UINT32_C(0x25A1)  // an empty square: stands for what the table does not have
#define BOX_TEXT "\xE2\x96\xA1"
#define NO_BREAK_SPACE UINT32_C(0xA0)
#define SOFT_HYPHEN UINT32_C(0xAD)
#define BROKEN UINT32_C(0xFFFFFFFF)  // bytes that are not UTF-8
#define ELLIPSIS "\xE2\x80\xA6"

/* Number of bytes of a sequence that starts so; 0 for a byte that cannot start one. */
static int bytes_of_start(unsigned char start)
{
    if (start < 0x80) return 1;
    if (start >= 0xC2 && start <= 0xDF) return 2;
    if ((start & 0xF0) == 0xE0) return 3;
    return start >= 0xF0 && start <= 0xF4 ? 4 : 0;
}

static bool out_of_range(uint32_t code, int bytes)
{
    static const uint32_t least[] = { 0, 0, 0x80, 0x800, 0x10000 };
    return code < least[bytes] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF);
}

/* The character at *at, which is not at the end; moves *at behind it. A broken sequence counts one byte. */
static uint32_t next_code(const char **at)
{
    const unsigned char *byte = (const unsigned char *)*at;
    int bytes = bytes_of_start(byte[0]);
    uint32_t code = bytes <= 1 ? byte[0] : byte[0] & (0x7Fu >> bytes);
    for (int i = 1; i < bytes; i++) {
        if ((byte[i] & 0xC0) != 0x80) bytes = 0;
        else code = code << 6 | (byte[i] & 0x3Fu);
    }
    if (bytes == 0 || out_of_range(code, bytes)) {
        ++*at;
        return BROKEN;
    }
    *at += bytes;
    return code;
}

static const tw_glyph *glyph_in_table(uint32_t code, bool bold)
{
    const tw_glyph_face *face = &tw_glyph_faces[bold ? 1 : 0];
    for (int low = 0, high = face->run_count - 1; low <= high;) {
        int middle = (low + high) / 2;
        const tw_glyph_run *run = &face->runs[middle];
        if (code < run->first) high = middle - 1;
        else if (code > run->last) low = middle + 1;
        else return &face->glyphs[run->start + (int)(code - run->first)];
    }
    return NULL;
}

static const tw_glyph *glyph_of(uint32_t code, bool bold)
{
    const tw_glyph *glyph = glyph_in_table(code, bold);
    if (!glyph) glyph = glyph_in_table(BOX_CODE, bold);
    assert(glyph);
    return glyph;
}

/* Any sort of blank becomes one that the font has; other characters stay. */
static uint32_t plain_blank(uint32_t code)
{
    if (code == '\t' || code == '\n' || code == '\r' || code == 0x0B || code == 0x0C) return ' ';
    if (code >= 0x2000 && code <= 0x200A) return ' ';
    if (code == 0x0085 || code == 0x2028 || code == 0x2029) return ' ';
    return code == 0x202F || code == 0x2007 ? NO_BREAK_SPACE : code;
}

const char *tw_text_shown(tw_arena *arena, bool bold, const char *text)
{
    char *shown = tw_arena_take(arena, 3 * strlen(text) + 1, 1);  // a box is three bytes, whatever it stands for
    char *to = shown;
    for (const char *at = text; *at;) {
        const char *start = at;
        uint32_t code = next_code(&at), blank = plain_blank(code);
        if (code == SOFT_HYPHEN) continue;
        if (blank == ' ') *to++ = ' ';
        else if (blank == NO_BREAK_SPACE) { memcpy(to, "\xC2\xA0", 2); to += 2; }
        else if (!glyph_in_table(code, bold)) { memcpy(to, BOX_TEXT, 3); to += 3; }
        else { memcpy(to, start, (size_t)(at - start)); to += at - start; }
    }
    return shown;
}

static double width_of_bytes(double size_mm, bool bold, const char *text, const char *end)
{
    double units = 0;
    while (text < end) {
        uint32_t code = next_code(&text);
        if (code != SOFT_HYPHEN) units += glyph_of(plain_blank(code), bold)->advance;
    }
    return units * size_mm / TW_FONT_CAPITAL_UNITS;
}

double tw_text_width(double size_mm, bool bold, const char *text)
{
    return width_of_bytes(size_mm, bold, text, text + strlen(text));
}

/* ---- lines of a paragraph ------------------------------------------------------------------------------------- */

/* Where the widest start of text that fits the width ends; at least one character. */
static const char *end_that_fits(double width_mm, double size_mm, bool bold, const char *text, const char *end)
{
    const char *at = text;
    double units = 0, room = width_mm * TW_FONT_CAPITAL_UNITS / size_mm + 1e-6;
    while (at < end) {
        const char *next = at;
        uint32_t code = next_code(&next);
        if (code != SOFT_HYPHEN) units += glyph_of(plain_blank(code), bold)->advance;
        if (units > room && at > text) break;
        at = next;
    }
    return at;
}

/* A line may end here, between end[-1] and *end: after a blank, or after the hyphen of a compound word (not in 1-1/2). */
static bool may_break(const char *text, const char *end)
{
    if (end[-1] == ' ') return true;
    if (end[-1] != '-' || end - 1 == text || end[-2] == ' ') return false;
    unsigned char next = (unsigned char)*end;
    return next >= 'A';
}

/* The line that starts at text: sets where its last word ends, returns where the next line starts. */
static const char *line_at(double width_mm, double size_mm, bool bold, const char *text, const char **line_end)
{
    const char *stop = text + strcspn(text, "\n");
    const char *fits = end_that_fits(width_mm, size_mm, bold, text, stop);
    const char *end = fits;
    if (fits < stop && *fits != ' ') {
        while (end > text && !may_break(text, end)) end--;
        if (end == text) end = fits;  // one long word
    }
    const char *next = end;
    while (*next == ' ') next++;
    if (*next == '\n' && next >= stop) next++;
    while (end > text && end[-1] == ' ') end--;
    *line_end = end;
    return next;
}

int tw_text_lines(double width_mm, double size_mm, bool bold, const char *text)
{
    assert(width_mm > 0 && size_mm > 0);
    int lines = 0;
    for (const char *end; *text; lines++) text = line_at(width_mm, size_mm, bold, text, &end);
    return lines;
}

double tw_draw_paragraph(tw_sheet *sheet, double x, double y, double width_mm, double size_mm, bool bold, const char *text)
{
    return tw_draw_lines(sheet, x, y, width_mm, size_mm, TW_ANCHOR_LEFT, bold, text);
}

double tw_draw_lines(tw_sheet *sheet, double x, double y, double width_mm, double size_mm, tw_anchor anchor, bool bold,
                     const char *text)
{
    assert(width_mm > 0 && size_mm > 0);
    while (*text) {
        const char *end, *start = text;
        text = line_at(width_mm, size_mm, bold, start, &end);
        const char *line = tw_text_copy(sheet->arena, (tw_text){ start, (size_t)(end - start) });
        (bold ? tw_draw_bold : tw_draw_text)(sheet, x, y, size_mm, anchor, line);
        y -= TW_LEADING * size_mm;
    }
    return y;
}

const char *tw_text_fitted(tw_arena *arena, double width_mm, double size_mm, bool bold, const char *text)
{
    if (tw_text_width(size_mm, bold, text) <= width_mm + 1e-6) return text;
    double room = width_mm - tw_text_width(size_mm, bold, ELLIPSIS);
    if (room <= 0) return "";
    const char *end = end_that_fits(room, size_mm, bold, text, text + strlen(text));
    if (width_of_bytes(size_mm, bold, text, end) > room + 1e-6) end = text;
    while (end > text && end[-1] == ' ') end--;
    return tw_format(arena, "%.*s" ELLIPSIS, (int)(end - text), text);
}

/* ---- ink ------------------------------------------------------------------------------------------------------ */

static double anchor_share(tw_anchor anchor)
{
    return anchor == TW_ANCHOR_LEFT ? 0.0 : anchor == TW_ANCHOR_MIDDLE ? 0.5 : 1.0;
}

tw_box tw_text_ink(const tw_item *item)
{
    assert(item->kind == TW_ITEM_TEXT);
    double low = INFINITY, high = -INFINITY;
    for (const char *at = item->text; *at;) {
        const tw_glyph *glyph = glyph_of(plain_blank(next_code(&at)), item->bold);
        if (glyph->low == glyph->high) continue;  // a blank
        low = tw_min(low, glyph->low);
        high = tw_max(high, glyph->high);
    }
    double width = tw_text_width(item->size_mm, item->bold, item->text);
    double left = -anchor_share(item->anchor) * width, scale = item->size_mm / TW_FONT_CAPITAL_UNITS;
    if (low > high) return (tw_box){ 1, 1, 0, 0 };
    return (tw_box){ left, low * scale, left + width, high * scale };
}

tw_point tw_text_point(const tw_item *item, double x, double y)
{
    double c = cos(item->turn_rad), s = sin(item->turn_rad);
    return (tw_point){ item->from.x + x * c - y * s, item->from.y + x * s + y * c };
}

tw_box tw_text_box(const tw_item *item)
{
    tw_box ink = tw_text_ink(item);
    if (ink.x0 > ink.x1) return ink;
    tw_box box = { INFINITY, INFINITY, -INFINITY, -INFINITY };
    for (int corner = 0; corner < 4; corner++) {
        tw_point p = tw_text_point(item, corner & 1 ? ink.x1 : ink.x0, corner & 2 ? ink.y1 : ink.y0);
        box = (tw_box){ tw_min(box.x0, p.x), tw_min(box.y0, p.y), tw_max(box.x1, p.x), tw_max(box.y1, p.y) };
    }
    return box;
}
