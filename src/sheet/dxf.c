// SPDX-License-Identifier: GPL-3.0-or-later
/* DXF R2000 (AC1015), ASCII: the oldest version that says its unit ($INSUNITS 4 = mm), and that nearly every reader takes.
 *
 * A file is a list of pairs: a group code line and a value line. Sections in order: HEADER, CLASSES, TABLES, BLOCKS,
 * ENTITIES, OBJECTS. Everything has a handle (5, hexadecimal, each once) and an owner (330). Handles up to FIRST_FREE - 1
 * are fixed ones of the tables; the entities count on from there, so $HANDSEED is known before they are written.
 * LWPOLYLINE groups (check 9-11): 90 vertices, 70 = 1 closed, 43 width, then 10, 20 and 42 (bulge) for each vertex.
 * Bulges are ours (check 9-08). Arcs always run counter-clockwise there, in degrees. A text's height (40) is that of a
 * capital, as ours. What is not ASCII goes as \U+XXXX, and %% starts a control sign, so the second % goes so too. */
#include "sheet/writers.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum {  // handles; 0 owns the tables
    NO_HANDLE = 0,
    TABLE_VPORT = 0x1, TABLE_LTYPE, TABLE_LAYER, TABLE_STYLE, TABLE_VIEW, TABLE_UCS, TABLE_APPID, TABLE_DIMSTYLE, TABLE_BLOCK,
    VPORT_ACTIVE = 0x10, STYLE_PLAIN, STYLE_BOLD, APPID_ACAD, DIMSTYLE_STANDARD,
    MODEL = 0x18, MODEL_BEGIN, MODEL_END, PAPER, PAPER_BEGIN, PAPER_END,
    ROOT = 0x20, GROUPS, LAYOUTS, LAYOUT_MODEL, LAYOUT_PAPER,
    FIRST_LINE_TYPE = 0x30, FIRST_LAYER = 0x40,
    FIRST_FREE = 0x100
};

typedef struct dxf { tw_sink *sink; unsigned next; } dxf;

/* ---- pairs ---------------------------------------------------------------------------------------------------- */

static void word(const dxf *out, int code, const char *value) { tw_putf(out->sink, "%d\n%s\n", code, value); }
static void whole(const dxf *out, int code, int value) { tw_putf(out->sink, "%d\n%d\n", code, value); }
static void real(const dxf *out, int code, double value) { tw_putf(out->sink, "%d\n%g\n", code, value); }

/* As fine as reals need where a figure is multiplied by a length: bulges, angles. */
static void fine(const dxf *out, int code, double value)
{
    tw_putf(out->sink, "%d\n", code);
    tw_put_json_number(out->sink, value);
    tw_put_text(out->sink, "\n");
}

static void handle(const dxf *out, int code, unsigned value)
{
    static const char digits[] = "0123456789ABCDEF";
    char text[9];
    int at = 8;
    text[at] = '\0';
    do text[--at] = digits[value % 16]; while ((value /= 16) != 0);
    word(out, code, text + at);
}

/* Group codes code, code + 10, code + 20. */
static void point(const dxf *out, int code, double x, double y)
{
    real(out, code, x);
    real(out, code + 10, y);
    real(out, code + 20, 0.0);
}

static uint32_t code_of(const char **at)
{
    const unsigned char *b = (const unsigned char *)*at;  // texts on a sheet are valid UTF-8
    int more = b[0] < 0x80 ? 0 : b[0] < 0xE0 ? 1 : b[0] < 0xF0 ? 2 : 3;
    uint32_t code = more == 0 ? b[0] : b[0] & (0x3Fu >> more);
    for (int i = 1; i <= more; i++) code = code << 6 | (b[i] & 0x3Fu);
    *at += more + 1;
    return code;
}

static void put_text_value(const dxf *out, int group, const char *text)
{
    static const char digits[] = "0123456789ABCDEF";
    tw_putf(out->sink, "%d\n", group);
    char before = '\0';
    while (*text) {
        char lead = *text;
        uint32_t code = code_of(&text);
        bool escaped = code < 0x20 || code > 0x7E || code == '\\' || code == '^' || (code == '%' && before == '%');
        if (!escaped) tw_put(out->sink, &lead, 1);
        else {
            char hex[] = { digits[code >> 12 & 15], digits[code >> 8 & 15], digits[code >> 4 & 15], digits[code & 15] };
            tw_put_text(out->sink, "\\U+");
            tw_put(out->sink, hex, sizeof hex);
        }
        before = escaped ? '\0' : lead;
    }
    tw_put_text(out->sink, "\n");
}

static void begin_section(const dxf *out, const char *name) { word(out, 0, "SECTION"); word(out, 2, name); }
static void end_section(const dxf *out) { word(out, 0, "ENDSEC"); }

/* ---- header and tables ---------------------------------------------------------------------------------------- */

static unsigned entity_count(const tw_sheet *sheet)
{
    unsigned count = 0;
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        bool several = item->kind == TW_ITEM_OUTLINE && !tw_role_look_of(item->role)->filled;
        count += several ? (unsigned)item->outline.count : 1u;
    }
    return count;
}

static void put_header(const dxf *out, const tw_sheet *sheet)
{
    begin_section(out, "HEADER");
    word(out, 9, "$ACADVER"); word(out, 1, "AC1015");
    word(out, 9, "$DWGCODEPAGE"); word(out, 3, "ANSI_1252");
    word(out, 9, "$INSUNITS"); whole(out, 70, 4);
    word(out, 9, "$MEASUREMENT"); whole(out, 70, 1);
    word(out, 9, "$LUNITS"); whole(out, 70, 2);
    word(out, 9, "$LTSCALE"); real(out, 40, 1.0);
    word(out, 9, "$EXTMIN"); point(out, 10, 0.0, 0.0);
    word(out, 9, "$EXTMAX"); point(out, 10, sheet->width_mm, sheet->height_mm);
    word(out, 9, "$HANDSEED"); handle(out, 5, FIRST_FREE + entity_count(sheet));
    end_section(out);
    begin_section(out, "CLASSES");
    end_section(out);
}

static void begin_table(const dxf *out, const char *name, unsigned own, int rows)
{
    word(out, 0, "TABLE");
    word(out, 2, name);
    handle(out, 5, own);
    handle(out, 330, NO_HANDLE);
    word(out, 100, "AcDbSymbolTable");
    whole(out, 70, rows);
}

static void end_table(const dxf *out) { word(out, 0, "ENDTAB"); }

static void begin_row(const dxf *out, const char *kind, int handle_code, unsigned own, unsigned table, const char *subclass, const char *name)
{
    word(out, 0, kind);
    handle(out, handle_code, own);
    handle(out, 330, table);
    word(out, 100, "AcDbSymbolTableRecord");
    word(out, 100, subclass);
    word(out, 2, name);
}

static void put_view_table(const dxf *out, const tw_sheet *sheet)
{
    begin_table(out, "VPORT", TABLE_VPORT, 1);
    begin_row(out, "VPORT", 5, VPORT_ACTIVE, TABLE_VPORT, "AcDbViewportTableRecord", "*ACTIVE");
    whole(out, 70, 0);
    real(out, 10, 0); real(out, 20, 0);
    real(out, 11, 1); real(out, 21, 1);
    real(out, 12, sheet->width_mm / 2); real(out, 22, sheet->height_mm / 2);
    real(out, 40, 1.1 * tw_max(sheet->width_mm, sheet->height_mm));
    real(out, 41, 1);
    end_table(out);
}

static void put_line_type(const dxf *out, unsigned own, const char *name, const tw_role_look *look)
{
    double total = 0;
    int count = look ? look->dash_count : 0;
    for (int i = 0; i < count; i++) total += look->dash_mm[i];
    begin_row(out, "LTYPE", 5, own, TABLE_LTYPE, "AcDbLinetypeTableRecord", name);
    whole(out, 70, 0);
    word(out, 3, "");
    whole(out, 72, 65);
    whole(out, 73, count);
    real(out, 40, total);
    for (int i = 0; i < count; i++) {
        real(out, 49, i % 2 ? -look->dash_mm[i] : look->dash_mm[i]);
        whole(out, 74, 0);
    }
}

static void put_line_types(const dxf *out)
{
    int dashed = 0;
    for (int role = 0; role < TW_ROLE_COUNT; role++) dashed += tw_role_look_of((tw_role)role)->dash_count > 0;
    begin_table(out, "LTYPE", TABLE_LTYPE, dashed + 3);
    unsigned own = FIRST_LINE_TYPE;
    put_line_type(out, own++, "BYBLOCK", NULL);
    put_line_type(out, own++, "BYLAYER", NULL);
    put_line_type(out, own++, "CONTINUOUS", NULL);
    for (int role = 0; role < TW_ROLE_COUNT; role++) {
        const tw_role_look *look = tw_role_look_of((tw_role)role);
        if (look->dash_count > 0) put_line_type(out, own++, look->dxf_line, look);
    }
    end_table(out);
}

static void put_layer(const dxf *out, unsigned own, const char *name, int colour, const char *line, int weight)
{
    begin_row(out, "LAYER", 5, own, TABLE_LAYER, "AcDbLayerTableRecord", name);
    whole(out, 70, 0);
    whole(out, 62, colour);
    word(out, 6, line);
    whole(out, 370, weight);
}

static void put_layers(const dxf *out)
{
    begin_table(out, "LAYER", TABLE_LAYER, TW_ROLE_COUNT + 1);
    put_layer(out, FIRST_LAYER, "0", 7, "CONTINUOUS", 25);
    for (int role = 0; role < TW_ROLE_COUNT; role++) {
        const tw_role_look *look = tw_role_look_of((tw_role)role);
        int colour = look->grey == 0.0 ? 7 : look->grey < 0.7 ? 8 : 254;  // 7 black on white, 8 grey, 254 light grey
        put_layer(out, FIRST_LAYER + 1u + (unsigned)role, look->name, colour, look->dxf_line, (int)lround(100 * look->width_mm));
    }
    end_table(out);
}

static void put_style(const dxf *out, unsigned own, const char *name, const char *font)
{
    begin_row(out, "STYLE", 5, own, TABLE_STYLE, "AcDbTextStyleTableRecord", name);
    whole(out, 70, 0);
    real(out, 40, 0); real(out, 41, 1); real(out, 50, 0);
    whole(out, 71, 0);
    real(out, 42, 2.5);
    word(out, 3, font);
    word(out, 4, "");
}

static void put_small_tables(const dxf *out)
{
    begin_table(out, "STYLE", TABLE_STYLE, 2);
    put_style(out, STYLE_PLAIN, "STANDARD", "DejaVuSans.ttf");
    put_style(out, STYLE_BOLD, "BOLD", "DejaVuSans-Bold.ttf");
    end_table(out);
    begin_table(out, "VIEW", TABLE_VIEW, 0);
    end_table(out);
    begin_table(out, "UCS", TABLE_UCS, 0);
    end_table(out);
    begin_table(out, "APPID", TABLE_APPID, 1);
    begin_row(out, "APPID", 5, APPID_ACAD, TABLE_APPID, "AcDbRegAppTableRecord", "ACAD");
    whole(out, 70, 0);
    end_table(out);
    begin_table(out, "DIMSTYLE", TABLE_DIMSTYLE, 1);
    word(out, 100, "AcDbDimStyleTable");
    begin_row(out, "DIMSTYLE", 105, DIMSTYLE_STANDARD, TABLE_DIMSTYLE, "AcDbDimStyleTableRecord", "STANDARD");
    whole(out, 70, 0);
    end_table(out);
}

static void put_block_table(const dxf *out)
{
    begin_table(out, "BLOCK_RECORD", TABLE_BLOCK, 2);
    begin_row(out, "BLOCK_RECORD", 5, MODEL, TABLE_BLOCK, "AcDbBlockTableRecord", "*Model_Space");
    handle(out, 340, LAYOUT_MODEL);
    begin_row(out, "BLOCK_RECORD", 5, PAPER, TABLE_BLOCK, "AcDbBlockTableRecord", "*Paper_Space");
    handle(out, 340, LAYOUT_PAPER);
    end_table(out);
}

static void put_tables(const dxf *out, const tw_sheet *sheet)
{
    begin_section(out, "TABLES");
    put_view_table(out, sheet);
    put_line_types(out);
    put_layers(out);
    put_small_tables(out);
    put_block_table(out);
    end_section(out);
}

/* ---- blocks and objects: the empty house that an R2000 file must have ------------------------------------------ */

static void put_block(const dxf *out, const char *name, unsigned owner, unsigned begin, unsigned end, bool paper)
{
    for (int part = 0; part < 2; part++) {
        word(out, 0, part == 0 ? "BLOCK" : "ENDBLK");
        handle(out, 5, part == 0 ? begin : end);
        handle(out, 330, owner);
        word(out, 100, "AcDbEntity");
        if (paper) whole(out, 67, 1);
        word(out, 8, "0");
        word(out, 100, part == 0 ? "AcDbBlockBegin" : "AcDbBlockEnd");
        if (part == 1) continue;
        word(out, 2, name);
        whole(out, 70, 0);
        point(out, 10, 0, 0);
        word(out, 3, name);
        word(out, 1, "");
    }
}

static void put_blocks(const dxf *out)
{
    begin_section(out, "BLOCKS");
    put_block(out, "*Model_Space", MODEL, MODEL_BEGIN, MODEL_END, false);
    put_block(out, "*Paper_Space", PAPER, PAPER_BEGIN, PAPER_END, true);
    end_section(out);
}

static void begin_dictionary(const dxf *out, unsigned own, unsigned owner)
{
    word(out, 0, "DICTIONARY");
    handle(out, 5, own);
    handle(out, 330, owner);
    word(out, 100, "AcDbDictionary");
    whole(out, 281, 1);
}

static void put_member(const dxf *out, const char *name, unsigned value) { word(out, 3, name); handle(out, 350, value); }

static void put_layout(const dxf *out, unsigned own, const char *name, unsigned block, int order, const tw_sheet *sheet)
{
    word(out, 0, "LAYOUT");
    handle(out, 5, own);
    handle(out, 330, LAYOUTS);
    word(out, 100, "AcDbPlotSettings");
    word(out, 1, "");
    word(out, 2, "");
    word(out, 4, "");
    word(out, 6, "");
    for (int code = 40; code <= 43; code++) real(out, code, 0);  // margins
    real(out, 44, sheet->width_mm); real(out, 45, sheet->height_mm);
    for (int code = 46; code <= 49; code++) real(out, code, 0);
    real(out, 140, 0); real(out, 141, 0); real(out, 142, 1); real(out, 143, 1);
    whole(out, 70, order == 0 ? 1712 : 688);
    whole(out, 72, 1); whole(out, 73, 0); whole(out, 74, 5);
    word(out, 7, "");
    whole(out, 75, 16);
    real(out, 147, 1); real(out, 148, 0); real(out, 149, 0);
    word(out, 100, "AcDbLayout");
    word(out, 1, name);
    whole(out, 70, 1);
    whole(out, 71, order);
    real(out, 10, 0); real(out, 20, 0);
    real(out, 11, sheet->width_mm); real(out, 21, sheet->height_mm);
    point(out, 12, 0, 0);
    point(out, 14, 0, 0);
    point(out, 15, sheet->width_mm, sheet->height_mm);
    real(out, 146, 0);
    point(out, 13, 0, 0);
    real(out, 16, 1); real(out, 26, 0); real(out, 36, 0);
    real(out, 17, 0); real(out, 27, 1); real(out, 37, 0);
    whole(out, 76, 0);
    handle(out, 330, block);
}

static void put_objects(const dxf *out, const tw_sheet *sheet)
{
    begin_section(out, "OBJECTS");
    begin_dictionary(out, ROOT, NO_HANDLE);
    put_member(out, "ACAD_GROUP", GROUPS);
    put_member(out, "ACAD_LAYOUT", LAYOUTS);
    begin_dictionary(out, GROUPS, ROOT);
    begin_dictionary(out, LAYOUTS, ROOT);
    put_member(out, "Model", LAYOUT_MODEL);
    put_member(out, "Layout1", LAYOUT_PAPER);
    put_layout(out, LAYOUT_MODEL, "Model", MODEL, 0, sheet);
    put_layout(out, LAYOUT_PAPER, "Layout1", PAPER, 1, sheet);
    end_section(out);
}

/* ---- entities ------------------------------------------------------------------------------------------------- */

static void begin_entity(dxf *out, const char *kind, tw_role role, const char *subclass)
{
    word(out, 0, kind);
    handle(out, 5, out->next++);
    handle(out, 330, MODEL);
    word(out, 100, "AcDbEntity");
    word(out, 8, tw_role_look_of(role)->name);
    word(out, 100, subclass);
}

static void put_vertex(const dxf *out, tw_vertex vertex, bool even_if_straight)
{
    real(out, 10, vertex.x);
    real(out, 20, vertex.y);
    if (vertex.bulge != 0.0 || even_if_straight) fine(out, 42, vertex.bulge);
}

static void put_loop(dxf *out, tw_role role, tw_loop loop)
{
    begin_entity(out, "LWPOLYLINE", role, "AcDbPolyline");
    whole(out, 90, loop.count);
    whole(out, 70, 1);
    real(out, 43, 0);
    for (int i = 0; i < loop.count; i++) put_vertex(out, loop.vertices[i], false);
}

static void put_filling(dxf *out, tw_role role, tw_outline outline)
{
    begin_entity(out, "HATCH", role, "AcDbHatch");
    point(out, 10, 0, 0);
    real(out, 210, 0); real(out, 220, 0); real(out, 230, 1);
    word(out, 2, "SOLID");
    whole(out, 70, 1);
    whole(out, 71, 0);
    whole(out, 91, outline.count);
    for (int k = 0; k < outline.count; k++) {
        whole(out, 92, 2 | (k == 0 ? 1 : 0));  // a polyline; the first one outside
        whole(out, 72, 1);
        whole(out, 73, 1);
        whole(out, 93, outline.loops[k].count);
        for (int i = 0; i < outline.loops[k].count; i++) put_vertex(out, outline.loops[k].vertices[i], true);
        whole(out, 97, 0);
    }
    whole(out, 75, 0);  // odd parity
    whole(out, 76, 1);
    whole(out, 98, 0);
}

static void put_arc(dxf *out, const tw_item *item)
{
    bool full = fabs(item->sweep_rad) >= 2 * TW_PI - 1e-9;
    begin_entity(out, full ? "CIRCLE" : "ARC", item->role, "AcDbCircle");
    point(out, 10, item->from.x, item->from.y);
    real(out, 40, item->radius_mm);
    if (full) return;
    double start = item->sweep_rad >= 0 ? item->start_rad : item->start_rad + item->sweep_rad;
    word(out, 100, "AcDbArc");
    fine(out, 50, tw_degrees(start));
    fine(out, 51, tw_degrees(start + fabs(item->sweep_rad)));
}

/* Group 10 is the left end of the base line, 11 the anchor; 72: 0 left, 1 middle, 2 right. */
static void put_text(dxf *out, const tw_item *item)
{
    double width = tw_text_width(item->size_mm, item->bold, item->text);
    double back = item->anchor == TW_ANCHOR_LEFT ? 0.0 : item->anchor == TW_ANCHOR_MIDDLE ? width / 2 : width;
    begin_entity(out, "TEXT", item->role, "AcDbText");
    point(out, 10, item->from.x - back * cos(item->turn_rad), item->from.y - back * sin(item->turn_rad));
    real(out, 40, item->size_mm);
    put_text_value(out, 1, item->text);
    if (item->turn_rad != 0.0) fine(out, 50, tw_degrees(item->turn_rad));
    word(out, 7, item->bold ? "BOLD" : "STANDARD");
    if (item->anchor != TW_ANCHOR_LEFT) {
        whole(out, 72, item->anchor == TW_ANCHOR_MIDDLE ? 1 : 2);
        point(out, 11, item->from.x, item->from.y);
    }
    word(out, 100, "AcDbText");
}

static void put_item(dxf *out, const tw_item *item)
{
    switch (item->kind) {
    case TW_ITEM_LINE:
        begin_entity(out, "LINE", item->role, "AcDbLine");
        point(out, 10, item->from.x, item->from.y);
        point(out, 11, item->to.x, item->to.y);
        break;
    case TW_ITEM_ARC: put_arc(out, item); break;
    case TW_ITEM_TEXT: put_text(out, item); break;
    case TW_ITEM_OUTLINE:
        if (tw_role_look_of(item->role)->filled) { put_filling(out, item->role, item->outline); break; }
        for (int k = 0; k < item->outline.count; k++) put_loop(out, item->role, item->outline.loops[k]);
        break;
    }
}

void tw_dxf_put(const tw_sheet *sheet, tw_sink *sink)
{
    dxf out = { sink, FIRST_FREE };
    put_header(&out, sheet);
    put_tables(&out, sheet);
    put_blocks(&out);
    begin_section(&out, "ENTITIES");
    for (size_t i = 0; i < sheet->count; i++) put_item(&out, &sheet->items[i]);
    end_section(&out);
    assert(out.next == FIRST_FREE + entity_count(sheet));
    put_objects(&out, sheet);
    word(&out, 0, "EOF");
}
