// SPDX-License-Identifier: GPL-3.0-or-later
/* Reads the tables of published checks (tests/outside, data): tab-separated, one header line, lines that begin with #
 * are remarks. Tests run in the project's root folder. A missing file or column fails the test. */
#ifndef TW_TESTS_TABLES_H
#define TW_TESTS_TABLES_H

#include "check.h"

typedef struct table { tw_arena arena; char **cells; int rows, columns; } table;  // row 0 is the header

static inline char *table_file(tw_arena *arena, const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file) fail_msg("cannot open %s: tests run in the project's root folder", path);
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    char bytes[4096];
    for (size_t count; (count = fread(bytes, 1, sizeof bytes, file)) > 0;) tw_put(&sink, bytes, count);
    fclose(file);
    tw_gathered(&all);
    return all.bytes;
}

static inline int table_width(const char *line)
{
    int width = 1;
    for (; *line && *line != '\n'; line++) width += *line == '\t';
    return width;
}

static inline table table_read(const char *path)
{
    table all = {0};
    size_t room = 0, count = 0;
    for (char *line = table_file(&all.arena, path), *next; line && *line; line = next) {
        next = strchr(line, '\n');
        if (next) *next++ = '\0';
        if (*line == '#' || *line == '\0') continue;
        if (all.rows++ == 0) all.columns = table_width(line);
        if (table_width(line) != all.columns) fail_msg("%s: a row of other width: %s", path, line);
        for (int i = 0; i < all.columns; i++) {
            tw_array_make_room(&all.arena, &all.cells, count, &room, sizeof *all.cells);
            all.cells[count++] = line;
            line = strchr(line, '\t');
            if (line) *line++ = '\0';
        }
    }
    return all;
}

/// The cell of a row (1 is the first after the header) in the column of that name.
static inline const char *table_text(const table *all, int row, const char *column)
{
    for (int i = 0; i < all->columns; i++)
        if (strcmp(all->cells[i], column) == 0) return all->cells[row * all->columns + i];
    fail_msg("no column %s", column);
    return "";
}

/// The same as a number; an empty cell is NAN.
static inline double table_number(const table *all, int row, const char *column)
{
    const char *text = table_text(all, row, column);
    double value = NAN;
    if (*text && tw_read_number(tw_text_of(text), &value) != strlen(text)) fail_msg("%s: not a number: %s", column, text);
    return value;
}

static inline void table_finish(table *all) { tw_arena_finish(&all->arena); }

#endif
