// SPDX-License-Identifier: GPL-3.0-or-later
/* base: what every stage stands on: the arena, texts, bytes out, findings, lengths as written.
 *
 * Nothing here opens a file, reads a clock or a locale, or keeps state between calls. */
#ifndef TW_BASE_H
#define TW_BASE_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "tuskwright.h"

#define TW_PI 3.14159265358979323846
#define TW_MM_PER_INCH 25.4

/* ---- arena ------------------------------------------------------------------------------ */

typedef struct tw_arena_chunk tw_arena_chunk;

/// Memory that is given out piece by piece and freed all at once. Starts as {0}.
typedef struct tw_arena {
    tw_arena_chunk *newest;
    size_t          bytes_given;      // all that was asked for, for the bench
    size_t          bytes_held;       // all that is taken from the system
    void (*out_of_memory)(void);      // called when the system has no more; must not return. NULL: abort()
} tw_arena;

/// Zeroed memory of count * size bytes, aligned for any type; never NULL. It lives until tw_arena_finish().
void *tw_arena_take(tw_arena *arena, size_t count, size_t size);
/// Frees everything that came from the arena; the arena can be used again.
void tw_arena_finish(tw_arena *arena);

#define TW_NEW(arena, type) ((type *)tw_arena_take((arena), 1, sizeof(type)))
#define TW_NEW_ARRAY(arena, type, count) ((type *)tw_arena_take((arena), (count), sizeof(type)))

/// Makes room for one more item in a growing array that lives in an arena.
/// items: address of the pointer to the first item; count: items in use; room: address of the room, 0 at first.
void tw_array_make_room(tw_arena *arena, void *items, size_t count, size_t *room, size_t item_size);

/* ---- text ------------------------------------------------------------------------------- */

/// A view of bytes in UTF-8, not ended by a zero. bytes may be NULL only if length is 0.
typedef struct tw_text { const char *bytes; size_t length; } tw_text;

tw_text tw_text_of(const char *zero_ended);
bool    tw_text_is(tw_text text, const char *zero_ended);
/// A copy ended by a zero, in the arena.
char *tw_text_copy(tw_arena *arena, tw_text text);

/// Text put together in the arena: like printf, but with a point in every locale.
/// Takes %s %d %u %zu %c %% %.*s and %.Nf, %.*f, %g (%g writes at most 6 decimals and drops trailing zeros);
/// flags and widths as in printf for all but %g.
char *tw_format(tw_arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *tw_format_list(tw_arena *arena, const char *format, va_list list) __attribute__((format(printf, 2, 0)));

/// Reads a plain decimal number (digits, one point, an exponent, a sign) in any locale.
/// Returns the number of bytes read, 0 if there is no number. An overlarge number gives infinity.
size_t tw_read_number(tw_text text, double *value);

/// How unlike two words are: insertions, deletions, changes and swaps of neighbours, case ignored.
int tw_word_distance(const char *a, const char *b);
/// The known word nearest to the one written, or NULL when none is near (more than a third of it differs).
const char *tw_nearest_word(const char *written, const char *const *known, size_t count);

/* ---- bytes out -------------------------------------------------------------------------- */

/// Where bytes go. write returns false when it cannot take them; after that the sink takes no more.
typedef struct tw_sink {
    bool (*write)(void *context, const char *bytes, size_t count);
    void *context;
    bool  failed;
} tw_sink;

void tw_put(tw_sink *sink, const char *bytes, size_t count);
void tw_put_text(tw_sink *sink, const char *zero_ended);
void tw_putf(tw_sink *sink, const char *format, ...) __attribute__((format(printf, 2, 3)));  // as tw_format
/// A JSON string with its quotes; what is not valid UTF-8 becomes U+FFFD.
void tw_put_json_text(tw_sink *sink, const char *zero_ended);
/// A JSON number: the shortest of at most 9 decimals, never -0. value must be finite.
void tw_put_json_number(tw_sink *sink, double value);

/// A sink that gathers bytes in an arena.
typedef struct tw_gather { tw_arena *arena; char *bytes; size_t count, room; } tw_gather;
tw_sink tw_gather_sink(tw_gather *gather);
/// What has been gathered, ended by a zero that is not counted.
tw_text tw_gathered(tw_gather *gather);

/* ---- findings --------------------------------------------------------------------------- */

/// A place in a text: line and column counted from 1, column in characters; line 0 = no place.
typedef struct tw_place { const char *file; int line, column; } tw_place;

typedef enum tw_level {
    TW_NOTE,   // worth knowing
    TW_CARE,   // think before you cut
    TW_HALT,   // do not cut this
    TW_WRONG   // the text cannot be read as a job or a shop
} tw_level;

typedef struct tw_finding {
    tw_level    level;
    tw_place    place;
    const char *code;    // stable, words joined by hyphens: "wedge-steep"
    const char *about;   // the piece or joint it concerns, "" for the whole
    const char *what;    // what is found, a sentence without its full stop, with figures and units
    const char *remedy;  // what would be right, or ""
    tw_fix     *fixes;   // [fix_count] remedies that can be made at once: each clears the finding alone
    size_t      fix_count, fix_room;
} tw_finding;

/// The list of findings of one job, in the order found.
typedef struct tw_findings {
    tw_arena   *arena;
    tw_finding *items;
    size_t      count, room;
    bool        full;    // the last one found was not kept
} tw_findings;

#define TW_FINDINGS_MOST 200  // further ones of level TW_WRONG are counted, not kept: a list that long helps nobody

/// Adds a finding; all texts are copied.
void tw_find(tw_findings *findings, tw_level level, tw_place place, const char *code, const char *about,
             const char *what, const char *remedy);
/// Offers a fix of the finding that was found last: `value` is set at the path, as the maker would write it. The label is an
/// order: "Make the tenon 14.0 mm thick". All texts are copied.
void tw_find_fix(tw_findings *findings, const char *label, tw_file_kind file, const char *const *path, size_t path_count,
                 const char *value);
/// The same with any change. What the finding offers already is not offered twice.
void tw_find_fix_by(tw_findings *findings, const char *label, tw_file_kind file, tw_change change);
/// One more change of the fix that was offered last, and is no other's alone.
void tw_find_fix_also(tw_findings *findings, tw_file_kind file, tw_change change);
/// A copy of a change in the arena.
tw_change tw_change_copy(tw_arena *arena, tw_change change);
bool tw_findings_have(const tw_findings *findings, tw_level level);
size_t tw_findings_count(const tw_findings *findings, tw_level level);
const char *tw_level_word(tw_level level);  // "note", "care", "halt", "wrong"
/// FILE:LINE:COLUMN: what; remedy  -- one line each, in the order of the list.
void tw_findings_put(const tw_findings *findings, tw_level least, tw_sink *sink);

/* ---- lengths as written ----------------------------------------------------------------- */

typedef enum tw_figure_style { TW_FIGURES_MM, TW_FIGURES_INCH, TW_FIGURES_FRACTION } tw_figure_style;

/// How the job wants its lengths written.
typedef struct tw_figures {
    tw_figure_style style;
    int             decimals;  // mm: 1 or 2 (0 to 4); inch: 3 (0 to 5)
    int             parts;     // fraction: 2, 4, 8, 16, 32 or 64 to the inch
} tw_figures;

/// An inch amount as a whole and a fraction in lowest terms. Negative amounts: sign set, the rest of the size.
/// A tie between two fractions goes to the one farther from zero.
typedef struct tw_fraction {
    bool   negative;
    long   whole, numerator, denominator;  // numerator 0: denominator 1
    double remainder_mm;                   // amount - fraction: positive is heavy, negative is light
} tw_fraction;

/// parts: a power of two, 1 to 1024. length_mm: finite, size under 1e9.
tw_fraction tw_fraction_of(double length_mm, int parts);
/// "1 3/8", "5/16 light", "-2", "0": heavy and light are said when the remainder is over 0.02 mm. No unit mark.
char *tw_fraction_text(tw_arena *arena, tw_fraction fraction);
/// "38.0 mm", "1.496 in", "1 1/2 in light". Never "-0.0".
char *tw_length_text(tw_arena *arena, double length_mm, tw_figures figures);
/// The same without the unit, for drawings that state the unit once.
char *tw_length_bare(tw_arena *arena, double length_mm, tw_figures figures);
/// "5.0°" (one decimal, or two when the tenth would hide more than 0.02°).
char *tw_angle_text(tw_arena *arena, double angle_rad);

/* ---- small sums ------------------------------------------------------------------------- */

static inline double tw_min(double a, double b) { return a < b ? a : b; }
static inline double tw_max(double a, double b) { return a > b ? a : b; }
static inline double tw_square(double a) { return a * a; }
static inline double tw_radians(double degrees) { return degrees * (TW_PI / 180.0); }
static inline double tw_degrees(double radians) { return radians * (180.0 / TW_PI); }

#endif
