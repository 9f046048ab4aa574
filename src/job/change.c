// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/change.h"

#include "job/characters.h"
#include "job/splice.h"

#include <assert.h>
#include <string.h>

typedef struct changing {
    tw_arena       *arena;
    const char     *file;
    tw_change_rules rules;
    tw_findings    *findings;
    tw_change_made  made;
    size_t          room;
} changing;

/* ---- splices ---- */

void tw_splice_at(tw_splicer *s, size_t begin, size_t end, const char *text)
{
    tw_array_make_room(s->arena, &s->splices, s->count, &s->room, sizeof *s->splices);
    s->splices[s->count++] = (tw_splice){ begin, end - begin, text, strlen(text) };
}

bool tw_splice_refuse(tw_splicer *s, const tw_node *near, const char *what, const char *remedy)
{
    tw_find(s->findings, TW_WRONG, near && near->place.line ? near->place : s->root->place, "change", "", what, remedy);
    return false;
}

/* From the last to the first; of two at one place the one planned later first, so that it ends up behind. */
static void sort_splices(tw_splice *splices, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        tw_splice moved = splices[i];
        size_t to = i;
        for (; to > 0 && splices[to - 1].begin <= moved.begin; to--) splices[to] = splices[to - 1];
        splices[to] = moved;
    }
}

/* The splices stand from the last to the first. */
static tw_text spliced(tw_arena *arena, tw_text source, const tw_splice *splices, size_t count)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    size_t at = 0;
    for (size_t i = count; i-- > 0;) {
        assert(splices[i].begin >= at);
        tw_put(&sink, source.bytes + at, splices[i].begin - at);
        tw_put(&sink, splices[i].text, splices[i].bytes);
        at = splices[i].begin + splices[i].old_bytes;
    }
    tw_put(&sink, source.bytes + at, source.length - at);
    return tw_gathered(&all);
}

/* ---- what must come of it ---- */

static bool is_empty(const tw_node *node)
{
    return node->kind == TW_NODE_MAP ? node->count == 0 : node->kind == TW_NODE_TEXT && node->text.length == 0;
}

static bool same_text(tw_text a, tw_text b)
{
    return a.length == b.length && (a.length == 0 || memcmp(a.bytes, b.bytes, a.length) == 0);
}

static bool alike(const tw_node *a, const tw_node *b)
{
    if (is_empty(a) && is_empty(b)) return true;  // a map whose last key went is a key without a value
    if (a->kind != b->kind || a->count != b->count) return false;
    if (a->kind == TW_NODE_TEXT) return same_text(a->text, b->text);
    for (int i = 0; i < a->count; i++) {
        if (a->kind == TW_NODE_LIST && !alike(a->items[i], b->items[i])) return false;
        if (a->kind == TW_NODE_LIST) continue;
        if (!alike(a->pairs[i].key, b->pairs[i].key) || !alike(a->pairs[i].value, b->pairs[i].value)) return false;
    }
    return true;
}

/* ---- one change ---- */

static tw_node *tree_of(tw_arena *arena, tw_text text, const char *file, tw_findings *findings)
{
    size_t before = findings->count;
    tw_tree tree = tw_tree_read(arena, text, file, findings);
    return findings->count == before && !tree.holed ? tree.root : NULL;
}

static bool plan(tw_splicer *s, const tw_change *change)
{
    if (change->path_count == 0 || change->path_count > TW_DEPTH_MOST)
        return tw_splice_refuse(s, NULL, "a place in the text is named by 1 to 16 words", "");
    switch (change->kind) {
    case TW_CHANGE_SET: return tw_splice_set(s, change);
    case TW_CHANGE_REMOVE: return tw_splice_remove(s, change);
    case TW_CHANGE_ADD: return tw_splice_add(s, change);
    case TW_CHANGE_RENAME: return tw_splice_rename(s, change);
    }
    return false;
}

static void keep(changing *c, const tw_splicer *s, tw_text text)
{
    c->made.text = text;
    for (size_t i = 0; i < s->count; i++) {
        tw_array_make_room(c->arena, &c->made.splices, c->made.count, &c->room, sizeof *c->made.splices);
        c->made.splices[c->made.count++] = s->splices[i];
    }
}

static bool change_once(changing *c, const tw_change *change)
{
    tw_text source = c->made.text;
    tw_splicer s = { .arena = c->arena, .findings = c->findings, .rules = c->rules, .source = source,
                     .root = tree_of(c->arena, source, c->file, c->findings) };
    if (!s.root) return false;
    if (s.root->kind != TW_NODE_MAP) return tw_splice_refuse(&s, s.root, "the text is no map of keys", "");
    s.line_end = tw_line_end_of(source);
    s.step = tw_step_of(source, s.root);
    if (!plan(&s, change)) return false;
    if (s.count == 0) return true;
    sort_splices(s.splices, s.count);
    tw_text text = spliced(c->arena, source, s.splices, s.count);
    const tw_node *root = tree_of(c->arena, text, c->file, c->findings);
    if (!root) return false;
    const char *path = tw_path_in_words(c->arena, change->path, change->path_count);
    if (!alike(s.root, root))
        return tw_splice_refuse(&s, NULL, tw_format(c->arena, "%s cannot be changed in place, as the text is written there", path),
                                "change it in the text");
    keep(c, &s, text);
    return true;
}

/* ---- what is wrong now and was not ---- */

static void read_whole(const changing *c, tw_text text, tw_findings *found)
{
    if (c->rules.file == TW_FILE_SHOP) tw_shop_read(c->arena, text, c->file, found);
    else tw_job_read(c->arena, text, c->file, c->rules.formats, c->rules.format_count, found);
}

static bool said_before(const tw_findings *before, const tw_finding *finding)
{
    for (size_t i = 0; i < before->count; i++) {
        const tw_finding *old = &before->items[i];
        bool same_fault = strcmp(old->code, finding->code) == 0 && strcmp(old->about, finding->about) == 0;
        if (same_fault && strcmp(old->what, finding->what) == 0) return true;
    }
    return false;
}

/* Returns false when there is something, and finds it. */
static bool nothing_new_is_wrong(const changing *c, tw_text old)
{
    tw_findings before = { .arena = c->arena }, after = { .arena = c->arena };
    read_whole(c, c->made.text, &after);
    if (!tw_findings_have(&after, TW_WRONG)) return true;
    read_whole(c, old, &before);
    bool more = tw_findings_count(&after, TW_WRONG) > tw_findings_count(&before, TW_WRONG), fresh = false;
    for (size_t i = 0; i < after.count; i++) fresh = fresh || !said_before(&before, &after.items[i]);
    if (!more && !fresh) return true;
    for (size_t i = 0; i < after.count; i++) {
        const tw_finding *f = &after.items[i];
        if (fresh && said_before(&before, f)) continue;
        tw_find(c->findings, f->level, f->place, f->code, f->about, f->what, f->remedy);
    }
    return false;
}

/* ---- all changes ---- */

tw_change_made tw_text_change(tw_arena *arena, tw_text text, const char *file, tw_change_rules rules, const tw_change *changes,
                              size_t count, tw_findings *findings)
{
    tw_text old = { tw_text_copy(arena, text), text.length };
    changing c = { .arena = arena, .rules = rules, .findings = findings, .made = { .text = old } };
    c.file = tw_text_copy(arena, tw_text_of(file));
    bool good = true;
    for (size_t i = 0; good && i < count; i++) good = change_once(&c, &changes[i]);
    good = good && (c.made.count == 0 || nothing_new_is_wrong(&c, old));
    if (!good) return (tw_change_made){ false, old, NULL, 0 };
    c.made.good = true;
    return c.made;
}

bool tw_text_span(tw_arena *arena, tw_text text, const char *const *path, size_t path_count, tw_span *span)
{
    tw_findings unheard = { .arena = arena };
    tw_splicer s = { .arena = arena, .source = text, .root = tree_of(arena, text, "", &unheard) };
    if (!s.root || path_count == 0 || path_count > TW_DEPTH_MOST) return false;
    tw_found f = tw_path_find(&s, path, path_count);
    if (!f.node) return false;
    bool colon, nothing = tw_node_is_nothing(f.node);
    size_t begin = nothing ? tw_nothing_at(text, f.key, f.node, &colon) : f.node->begin;
    *span = (tw_span){ begin, nothing ? 0 : tw_node_end(text, f.node) - begin };
    return true;
}
