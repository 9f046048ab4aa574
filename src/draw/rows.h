// SPDX-License-Identifier: GPL-3.0-or-later
/* rows: dimensions set out in rows along one side of a view, so that nothing lies on a text.
 *
 * All places are in mm of paper. `along` runs with the side (x below and above a view, y to its left and right); `across`
 * is the other one. Measures stand in rows, each longer one farther out than the shorter ones that it spans or overlaps.
 * A run is a set of running dimensions (ISO 129-1): all from one origin, on one line, the figures beyond their extension
 * lines; it stands outside of all rows.
 *
 * What is promised, however many measures there are: no text lies on another, on an extension or dimension line or on an
 * arrow head of the same side; every measure is drawn. rows.c says how. */
#ifndef TW_ROWS_H
#define TW_ROWS_H

#include "draw/draw.h"

typedef enum tw_rows_side { TW_ROWS_BELOW, TW_ROWS_ABOVE, TW_ROWS_LEFT, TW_ROWS_RIGHT } tw_rows_side;

typedef struct tw_measure {
    double      from, to;            // along, from < to
    double      from_root, to_root;  // across: where the extension lines begin
    const char *text;
    int         row;                 // placed: 0 next to the view
    double      text_at;             // placed: along, where the text begins
    tw_source   source;              // of the text
} tw_measure;

/// One place of a run.
typedef struct tw_run_stop {
    double      at, root;  // along, across
    const char *text;
    double      text_at;   // placed: along, the middle of the text
    tw_source   source;    // of the text
} tw_run_stop;

typedef struct tw_rows {
    tw_arena    *arena;
    tw_rows_side side;
    double       border;        // across: where the view ends on this side
    double       first_mm;      // from there to the first row
    double       size_mm;       // lettering
    double       least, most;   // along: texts should stay within; least >= most: no such limit
    tw_measure  *measures;  size_t count, room;
    tw_run_stop *stops;     size_t stop_count, stop_room;  // the origin is the first added
    int          row_count;     // placed
    double       overrun_mm;    // placed: how far texts and lines leave least and most, 0 when they do not
    bool         proved;        // placed: no better arrangement exists; false when the search was ended by its limit
} tw_rows;

#define TW_ROWS_FIRST_MM 8.0   // usual distance of the first row (ISO 129-1 asks for a clear one)
#define TW_ROWS_PITCH_MM 7.0   // between rows
#define TW_ROWS_MOST 400       // measures of a side

/// Adds a measure; from and to may come in any order; one that stands there already (within 0.01 mm, same text) is not added.
void tw_rows_measure(tw_rows *rows, double from, double to, double from_root, double to_root, const char *text);
/// The same with what the text comes from; its texts must live as long as the sheet on which it is drawn is composed.
void tw_rows_measure_of(tw_rows *rows, double from, double to, double from_root, double to_root, const char *text,
    tw_source source);
/// Adds a place of the run; one that stands there already is not added. The first one is the origin.
void tw_rows_stop(tw_rows *rows, double at, double root, const char *text);
void tw_rows_stop_of(tw_rows *rows, double at, double root, const char *text, tw_source source);
/// Finds the rows and the places of texts.
void tw_rows_place(tw_rows *rows);
/// How far out from the border the placed rows and run reach, mm of paper; 0 without any.
double tw_rows_depth_mm(const tw_rows *rows);
/// From where to where they reach along the side; least > most when there is nothing.
void tw_rows_reach(const tw_rows *rows, double *least, double *most);
/// Draws what was placed.
void tw_rows_draw(const tw_rows *rows, tw_sheet *sheet);

/// Spreads marks that want to be at at[0] <= at[1] <= ... so that neighbours are at least apart_mm from each other, in the
/// same order, and stay within least and most (least >= most: no limit; it gives way when there is too little room). The sum
/// of the squares of the ways they are moved is the least there is. Example: 10, 10, 10 apart 4 gives 6, 10, 14.
void tw_spread(tw_arena *arena, const double at[], int count, double apart_mm, double least, double most, double out[]);

#endif
