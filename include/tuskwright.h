// SPDX-License-Identifier: GPL-3.0-or-later
/* Tuskwright: a compiler for joinery.
 *
 * One pure call: the text of a job and of a shop go in; a result with every figure and a list of findings comes out.
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
    void (*out_of_memory)(void);  // called when the system has no more; must not return. NULL: abort()
} tw_request;

typedef struct tw_result tw_result;

typedef enum tw_state {
    TW_STATE_GOOD = 0,   // no halt
    TW_STATE_HALT = 1,   // worked out, and a finding says: do not cut this
    TW_STATE_WRONG = 2   // a text cannot be read as a job or a shop: nothing but findings
} tw_state;

/// One finding; the texts live as long as the result.
typedef struct tw_result_finding {
    const char *level;       // "note", "care", "halt", "wrong"
    const char *code;        // stable: "wedge-steep"
    const char *about;       // the piece or joint, "" for the whole
    const char *file;        // as named in the request, "" for no place
    int         line, column;  // from 1, in characters; 0 for no place
    const char *what;        // a sentence without its full stop
    const char *remedy;      // what would be right, or ""
} tw_result_finding;

typedef enum tw_output {
    TW_OUTPUT_JSON,          // every figure, keys with units
    TW_OUTPUT_FINDINGS_JSON, // {"state": .., "findings": [..]}
    TW_OUTPUT_FINDINGS_TEXT, // FILE:LINE:COLUMN: what; remedy
    TW_OUTPUT_CUTTING_CSV    // the cutting list
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

/// The version of the library: "0.1.0".
const char *tw_version(void);

#endif
