// SPDX-License-Identifier: GPL-3.0-or-later
/* json: a writer that keeps commas and depth. One entry a line down to the depth of lists that hold numbers. Private to
 * the papers. key NULL inside a list. Numbers that are not finite become null. */
#ifndef TW_JSON_H
#define TW_JSON_H

#include "outline/outline.h"

typedef struct tw_json {
    tw_sink *sink;
    int      depth;
    bool     started;  // something stands already in the object or list in hand
    bool     tight;    // without line ends and blanks: for programs alone
} tw_json;

void tw_json_open(tw_json *json, const char *key, char bracket);   // '{' or '['
void tw_json_close(tw_json *json, char bracket);                   // '}' or ']'
void tw_json_text(tw_json *json, const char *key, const char *text);  // NULL: ""
void tw_json_number(tw_json *json, const char *key, double value);
/// All of them in one line.
void tw_json_numbers(tw_json *json, const char *key, const double *values, int count);
void tw_json_yes_no(tw_json *json, const char *key, bool value);
void tw_json_nothing(tw_json *json, const char *key);              // null
/// A list of texts, ended by NULL; null when it is NULL.
void tw_json_texts(tw_json *json, const char *key, const char *const *texts);
/// Loops as [[[x, y, bulge], ...], ...], one loop a line.
void tw_json_outline(tw_json *json, const char *key, tw_outline outline);

#endif
