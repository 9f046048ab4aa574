// SPDX-License-Identifier: GPL-3.0-or-later
/* Tuskwright: a compiler for joinery.
 *
 * One pure call: the text of a job and of a shop go in; a result with every figure and a list of findings comes out.
 * Beside it, one call changes values in such a text and leaves the rest of it alone.
 * Nothing here opens a file, reads a clock, a locale or the environment, prints, or keeps anything between calls; all
 * memory of a result lies in one arena and goes with tw_result_free(). Bytes leave through a write function of yours.
 *
 *     tw_result *result = tw_set_out(&(tw_request){ .job = text, .job_bytes = length, .job_name = "job.yaml", ... });
 *     if (tw_result_state(result) == TW_STATE_GOOD) tw_result_put(result, TW_OUTPUT_JSON, write, context);
 *     tw_result_free(result);
 */
#ifndef TUSKWRIGHT_H
#define TUSKWRIGHT_H

#include <stdbool.h>
#include <stddef.h>

/// What to set out. Texts are UTF-8, need no zero at their end, and are only read during the call.
typedef struct tw_request {
    const char *job;            // text of the job (docs/job-file.md)
    size_t      job_bytes;
    const char *job_name;       // as findings are to name it
    const char *shop;           // text of the shop (docs/shop-file.md)
    size_t      shop_bytes;
    const char *shop_name;
    bool        papers;         // compose the papers too, not only the figures
    bool        prove_fixes;    // make each offered fix and set it out: only those that hold are offered. Costs a reckoning each
    const struct tw_measured *measured;  // [measured_count] values as built, reckoned with in the place of the drawn ones
    size_t      measured_count;
    const char *figures;        // how lengths are written, as `figures:` says it: "mm 0.1", "in 1/64"; NULL: as the job does
    void (*out_of_memory)(void);  // called when the system has no more; must not return. NULL: abort()
} tw_request;

typedef struct tw_result tw_result;

typedef enum tw_state {
    TW_STATE_GOOD = 0,   // no halt
    TW_STATE_HALT = 1,   // worked out, and a finding says: do not cut this
    TW_STATE_WRONG = 2   // a text cannot be read as a job or a shop: nothing but findings
} tw_state;

/// A way to clear a finding: changes that can be made at once (below, with the changes).
typedef struct tw_fix tw_fix;

/// One finding; the texts live as long as the result.
typedef struct tw_result_finding {
    const char *level;       // "note", "care", "halt", "wrong"
    const char *code;        // stable: "wedge-steep"
    const char *about;       // the piece or joint, "" for the whole
    const char *file;        // as named in the request, "" for no place
    int         line, column;  // from 1, in characters; 0 for no place
    const char *what;        // a sentence without its full stop
    const char *remedy;      // what would be right, or ""
    const tw_fix *fixes;     // [fix_count] each clears it alone
    size_t      fix_count;
} tw_result_finding;

typedef enum tw_output {
    TW_OUTPUT_JSON,          // every figure, keys with units
    TW_OUTPUT_FINDINGS_JSON, // {"state": .., "findings": [..]}
    TW_OUTPUT_FINDINGS_TEXT, // FILE:LINE:COLUMN: what; remedy
    TW_OUTPUT_CUTTING_CSV,   // the cutting list
    TW_OUTPUT_DESK_JSON      // every figure as a text, with its sum and where the job can say it: what the page shows
} tw_output;

/// Takes bytes; returns false when it cannot.
typedef bool tw_write(void *context, const char *bytes, size_t count);

/// Works out a whole job. Never NULL.
tw_result *tw_set_out(const tw_request *request);
void       tw_result_free(tw_result *result);  // takes NULL
tw_state   tw_result_state(const tw_result *result);
size_t     tw_result_finding_count(const tw_result *result);
/// index under the count.
tw_result_finding tw_result_finding_at(const tw_result *result, size_t index);
/// Writes an output. Returns false when write did, or when the state is TW_STATE_WRONG and the output needs a job.
bool tw_result_put(const tw_result *result, tw_output output, tw_write *write, void *context);
/// File name of the shop that a job's text names (`shop:`), relative to the job; NULL when it names none or cannot be
/// read. The text is the caller's to free().
char *tw_shop_named_by(const char *job, size_t job_bytes);
/// Bytes that the result holds.
size_t tw_result_bytes(const tw_result *result);

/* ---- two results held against each other ---- */

/// A figure that is another in the one than in the other; before or after is "" where it has come or gone.
typedef struct tw_result_move {
    const char *id;            // stays the same while values change: "joints/stretcher to post/housing_depth"
    const char *where;         // whose it is: "joint `stretcher to post`", "card 7: housings, right hand"
    const char *label;         // "housing depth"
    const char *before, *after;  // texts
} tw_result_move;

typedef struct tw_compared tw_compared;

/// Never NULL. The results are only read, and may be freed before it. Both must be written in the same figures. A result whose
/// state is TW_STATE_WRONG has no figures: all of the other have come or gone.
tw_compared   *tw_results_compare(const tw_result *before, const tw_result *after);
void           tw_compared_free(tw_compared *compared);  // takes NULL
size_t         tw_compared_count(const tw_compared *compared);
/// index under the count.
tw_result_move tw_compared_at(const tw_compared *compared, size_t index);

/* ---- changing a value in its text ----
 *
 * A text is changed where the value stands: everything else stays byte for byte as the maker wrote it. A place is a path of
 * words from the top: {"pieces", "post", "width"}, {"joints", "stretcher to post", "at", "2"} (the second of a list, counted
 * from 1), {"units"}. Values are given as the maker writes them, `2 * 38 mm`, without the quotes that YAML may ask for; those
 * are put on, kept or left off here. Blanks at the ends of a value are dropped. */

typedef enum tw_file_kind { TW_FILE_JOB, TW_FILE_SHOP } tw_file_kind;

typedef enum tw_change_kind {
    TW_CHANGE_SET,     // writes `value`, or `list`, at the path; a key (and the maps above it) that is not there yet is added
                       // at the end of its map, an item one past the last at the end of its list
    TW_CHANGE_REMOVE,  // takes a key, an entry or an item out, with the remarks that belong to it
    TW_CHANGE_ADD,     // adds {"pieces", "rail"} and its `entries` at the end of the section, which is made when missing
    TW_CHANGE_RENAME   // gives {"pieces", "post"} the name `value`, wherever the text speaks of it: links, sums, `base`
} tw_change_kind;

/// A key with its value, or with a list when value is NULL.
typedef struct tw_entry {
    const char        *key;
    const char        *value;
    const char *const *list;        // [list_count]
    size_t             list_count;  // at least 1 where a list is wanted
} tw_entry;

typedef struct tw_change {
    tw_change_kind     kind;
    const char *const *path;        // [path_count], 1 to 16 words
    size_t             path_count;
    const char        *value;       // set: NULL for a list; rename: the new name
    const char *const *list;        // set: [list_count], when value is NULL
    size_t             list_count;
    const tw_entry    *entries;     // add: [entry_count], at least 1
    size_t             entry_count;
} tw_change;

/// A change of one of the two texts.
typedef struct tw_file_change { tw_file_kind file; tw_change change; } tw_file_change;

/// What a finding offers. Made all together, the changes clear it and bring no new halt; that is sure where the fixes were asked
/// to be proved.
struct tw_fix {
    const char           *label;    // an order in the maker's words: "Make the tenon 14.0 mm thick"
    const tw_file_change *changes;  // [change_count], at least 1
    size_t                change_count;
};

/// A value as it was built: a piece that came out thinner, a cutter that was measured. It takes the place of what the text
/// says, a number or a sum, for the reckoning only; the text stays. Findings keep the places of the maker's text. Of a cutter
/// or follower, {"cutters", "spiral 8", "measured"} counts whether the shop's text has the key or not; every other value must
/// stand in the text. One that stands nowhere is left aside with a note.
typedef struct tw_measured {
    tw_file_kind       file;
    const char *const *path;        // [path_count], 1 to 16 words
    size_t             path_count;
    double             value_mm;    // finite
} tw_measured;

typedef struct tw_change_request {
    tw_file_kind     file;
    const char      *text;          // UTF-8, needs no zero at its end
    size_t           bytes;
    const char      *name;          // as findings are to name it
    const tw_change *changes;       // made one after the other; the text is read as a job or shop after the last
    size_t           change_count;
    void (*out_of_memory)(void);    // as in tw_request
} tw_change_request;

/// One cut in a text: at `begin`, `old_bytes` bytes go and `bytes` bytes come. begin counts in the text as the splices before
/// it have left it, so that they can be made one after the other; those of one change stand from the last to the first.
typedef struct tw_splice {
    size_t      begin, old_bytes;
    const char *text;               // [bytes]
    size_t      bytes;
} tw_splice;

typedef struct tw_changed tw_changed;

/// Makes the changes. Never NULL. All or nothing: when one cannot be made, or makes anything wrong that was not wrong before
/// (what was wrong already may be mended one by one), the text is the old one, there are no splices, and findings say why.
tw_changed *tw_change_text(const tw_change_request *request);
void        tw_changed_free(tw_changed *changed);  // takes NULL
bool        tw_changed_is_good(const tw_changed *changed);
/// The text after the changes; lives as long as `changed`. bytes may be NULL; a zero follows the text.
const char *tw_changed_text(const tw_changed *changed, size_t *bytes);
size_t      tw_changed_splice_count(const tw_changed *changed);
/// index under the count.
tw_splice   tw_changed_splice_at(const tw_changed *changed, size_t index);
size_t      tw_changed_finding_count(const tw_changed *changed);
/// index under the count. Places are those of the text as it would have become, or of the old one where that could not be
/// changed.
tw_result_finding tw_changed_finding_at(const tw_changed *changed, size_t index);

/// Where a value stands in a text: `bytes` bytes from `begin`, its quotes and brackets among them; 0 bytes where a key has none.
typedef struct tw_span { size_t begin, bytes; } tw_span;
/// Returns false, and leaves *span alone, when nothing stands at the path or the text cannot be read as YAML without a fault.
bool tw_value_span(const char *text, size_t text_bytes, const char *const *path, size_t path_count, tw_span *span);

/// The version of the library: "0.1.0".
const char *tw_version(void);

#endif
