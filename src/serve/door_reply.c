// SPDX-License-Identifier: GPL-3.0-or-later
/* Replies: the headers that protect them, and what handlers read and write by. */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "serve/door_inside.h"
#include "serve/door_words.h"

/* ---- headers ---- */

#define PAGE_POLICY "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; " \
    "media-src 'self' data: blob:; font-src 'self'; connect-src 'self'; worker-src 'self' blob:; frame-src 'self'; " \
    "manifest-src 'self'; form-action 'self'; base-uri 'none'; object-src 'none'; frame-ancestors 'none'"

/* What a file may do in the browser. A browser's own viewer for PDF does not work under a policy for its parts. */
static const char *policy_for(const char *type)
{
    if (strncmp(type, "text/html", 9) == 0 || strncmp(type, "text/javascript", 15) == 0) return PAGE_POLICY;
    if (strncmp(type, "application/pdf", 15) == 0) return "frame-ancestors 'self'";
    return "default-src 'none'; frame-ancestors 'self'";
}

/* attachment; filename="..." in ASCII for the old, filename*= in UTF-8 for the others (RFC 6266, RFC 8187). */
static const char *disposition(tw_arena *arena, const char *name)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "attachment; filename=\"");
    for (const char *c = name; *c; c++) tw_put(&sink, *c >= ' ' && *c < 127 && *c != '"' && *c != '\\' && *c != '%' ? c : "_", 1);
    tw_put_text(&sink, "\"; filename*=UTF-8''");
    for (const char *c = name; *c; c++) {
        unsigned char byte = (unsigned char)*c;
        bool plain = (byte >= '0' && byte <= '9') || ((byte | 32) >= 'a' && (byte | 32) <= 'z') || byte == '.' ||
            byte == '-' || byte == '_';
        if (plain) tw_put(&sink, c, 1);
        else tw_putf(&sink, "%%%c%c", "0123456789ABCDEF"[byte >> 4], "0123456789ABCDEF"[byte & 15]);
    }
    return tw_gathered(&all).bytes;
}

/* Whether who asks has this etag already: If-None-Match: "a", W/"b" or *. */
static bool has_already(const char *none_match, const char *etag)
{
    for (const char *at = none_match; at && *at;) {
        at += strspn(at, " \t,");
        if (*at == '*') return true;
        if (strncmp(at, "W/", 2) == 0) at += 2;
        size_t length = strcspn(at, ", \t");
        if (length >= 2 && at[0] == '"' && tw_text_is((tw_text){ at + 1, length - 2 }, etag) && at[length - 1] == '"')
            return true;
        at += length;
    }
    return false;
}

void tw_reply_headers(tw_visit *v, tw_header_line lines[TW_HEADER_LINES])
{
    const tw_reply *reply = &v->reply;
    const char *type = reply->type ? reply->type : TW_JSON_TYPE;
    const tw_header_line all[] = {
        { "Content-Type", type },
        { "Content-Security-Policy", policy_for(type) },
        { "X-Content-Type-Options", "nosniff" },
        { "Referrer-Policy", v->tells_referrer ? "same-origin" : "no-referrer" },
        { "Cross-Origin-Opener-Policy", "same-origin" },
        { "Cross-Origin-Resource-Policy", "same-origin" },
        { "Permissions-Policy", "camera=(), microphone=(), geolocation=(), screen-wake-lock=(self)" },
        { "Cache-Control", reply->stored && reply->etag ? "private, no-cache" : "no-store" },
        { "Location", reply->location },
        { "Content-Disposition", reply->file_name ? disposition(&v->arena, reply->file_name) : NULL },
        { "ETag", reply->etag ? tw_format(&v->arena, "\"%s\"", reply->etag) : NULL },
        { "Set-Cookie", v->cookie },
        { "Allow", reply->status == 405 ? v->allow : NULL },
        { "Retry-After", reply->status == 429 ? "5" : NULL },
        { "Connection", v->refused && v->caller == TW_STRANGER ? "close" : NULL },
    };
    static_assert(sizeof all / sizeof *all == TW_HEADER_LINES, "one line each");
    memcpy(lines, all, sizeof all);
}

void tw_reply_if_changed(tw_visit *v)
{
    tw_reply *reply = &v->reply;
    if (reply->status != 200 || !reply->etag || !has_already(v->headers[TW_NONE_MATCH], reply->etag)) return;
    reply->status = 304;
    reply->body.length = 0;
}

/* ---- for handlers ---- */

tw_reply tw_reply_error(tw_arena *arena, int status, const char *code, const char *what, const char *remedy)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_put_text(&sink, "{\"error\":{\"code\":");
    tw_put_json_text(&sink, code);
    tw_put_text(&sink, ",\"what\":");
    tw_put_json_text(&sink, what);
    tw_put_text(&sink, ",\"remedy\":");
    tw_put_json_text(&sink, remedy);
    tw_put_text(&sink, "}}\n");
    return (tw_reply){ .status = status, .body = tw_gathered(&all) };
}

tw_reply tw_reply_see_other(const char *location)
{
    return (tw_reply){ .status = 303, .type = "text/plain; charset=utf-8", .location = location };
}

const char *tw_door_query(const tw_door_ask *ask, const char *name) { return tw_query_value(ask->arena, ask->query, name); }

bool tw_door_query_whole(const tw_door_ask *ask, const char *name, int64_t least, int64_t most, int64_t *value)
{
    const char *text = tw_door_query(ask, name);
    if (!text) return false;
    size_t digits = strspn(text, "0123456789");
    if (digits == 0 || digits > 18 || text[digits] != '\0') return false;
    int64_t read = strtoll(text, NULL, 10);
    if (read < least || read > most) return false;
    *value = read;
    return true;
}
