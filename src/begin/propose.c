// SPDX-License-Identifier: GPL-3.0-or-later
/* Two places pointed at say what can join them: an end at a side takes the joints of an end, or one more place of a joint that
 * joins them already; two sides cross in laps, two ends meet in a corner. Each candidate is added to the text and set out; what
 * cannot be read is not proposed. */
#include "begin/propose.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "begin/one_more.h"
#include "job/written.h"
#include "piece/piece.h"
#include "whole.h"

#define MIDDLE_PART 0.15    // pointed at so near to the middle, in parts of the width, the middle is meant
#define PROPOSALS_MOST 16
#define PLACES_MOST 4       // joints that are there and could get one more place
#define STEP_MM 1.0         // places are pointed at, not measured: taken to a round one
#define STEP_INCH (TW_MM_PER_INCH / 8.0)

/* ---- what is looked at ---- */

typedef struct proposing {
    tw_arena           *arena;
    const tw_request   *request;
    const tw_result    *before;   // the job as it is
    const tw_job       *job;
    tw_proposal        *items;
    size_t              count;
} proposing;

typedef struct spot { const tw_pointed *pointed; const tw_piece *piece; } spot;

static bool is_end(spot s) { return s.pointed->face >= TW_SIDE_LEFT_END; }
static bool is_edge(spot s) { return s.pointed->face == TW_SIDE_FACE_EDGE || s.pointed->face == TW_SIDE_BACK_EDGE; }
static const char *end_word(spot s) { return s.pointed->face == TW_SIDE_LEFT_END ? "left" : "right"; }

static const tw_piece *piece_named(const tw_job *job, const char *name)
{
    for (int i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].name, name) == 0) return &job->pieces[i];
    return NULL;
}

static const char *round_length(const proposing *p, double length_mm)
{
    double step = p->job->inch_sizes ? STEP_INCH : STEP_MM;
    return tw_job_written_length(p->arena, p->job, round(length_mm / step) * step, TW_ROUND_NEAREST);
}

/* ---- names ---- */

static bool name_is_taken(const tw_job *job, const char *name)
{
    for (int i = 0; i < job->joint_count + job->profile_count; i++)
        if (strcmp(job->joints[i].name, name) == 0) return true;
    for (int i = 0; i < job->amount_count; i++)
        if (strcmp(job->amounts[i].name, name) == 0) return true;
    return piece_named(job, name) != NULL;
}

static int characters_of(const char *name)
{
    int count = 0;
    for (; *name; name++) count += ((unsigned char)*name & 0xC0) != 0x80;
    return count;
}

static const char *free_name(const proposing *p, const char *a, const char *b)
{
    const char *plain = tw_format(p->arena, "%s to %s", a, b);
    if (characters_of(plain) > TW_NAME_MOST - 4) plain = "joint";
    const char *name = plain;
    for (int i = 2; name_is_taken(p->job, name); i++) name = tw_format(p->arena, "%s %d", plain, i);
    return name;
}

/* ---- trying ---- */

static bool stood_before(const tw_result *before, const tw_finding *finding)
{
    for (size_t i = 0; i < before->findings.count; i++) {
        const tw_finding *old = &before->findings.items[i];
        if (old->level == finding->level && strcmp(old->code, finding->code) == 0 &&
            strcmp(old->about, finding->about) == 0) return true;
    }
    return false;
}

/* The first new halt, "" when there is none; NULL when the job cannot be set out with the changes. */
static const char *try_it(const proposing *p, const tw_change *changes, size_t count)
{
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = p->request->job,
        .bytes = p->request->job_bytes, .name = p->request->job_name, .changes = changes, .change_count = count,
        .out_of_memory = p->request->out_of_memory });
    const char *halt = NULL;
    if (tw_changed_is_good(changed)) {
        tw_request request = *p->request;
        request.papers = false;
        request.job = tw_changed_text(changed, &request.job_bytes);
        tw_result *after = tw_set_out(&request);
        if (tw_result_state(after) != TW_STATE_WRONG) halt = "";
        for (size_t i = 0; halt && !halt[0] && i < after->findings.count; i++)
            if (after->findings.items[i].level == TW_HALT && !stood_before(p->before, &after->findings.items[i]))
                halt = tw_text_copy(p->arena, tw_text_of(after->findings.items[i].what));
        tw_result_free(after);
    }
    tw_changed_free(changed);
    return halt;
}

/* Keeps what can be set out. changes live in the arena. */
static void keep(proposing *p, const char *kind, const char *name, const char *label, const tw_change *changes, size_t count)
{
    const char *halt = try_it(p, changes, count);
    if (!halt) return;
    assert(p->count < PROPOSALS_MOST);
    p->items[p->count++] = (tw_proposal){ .kind = kind, .name = name, .label = label, .halt = halt, .changes = changes,
        .change_count = count };
}

static void propose(proposing *p, const char *kind, const char *name, const char *label, const tw_entry *entries,
    size_t entry_count)
{
    const char **path = TW_NEW_ARRAY(p->arena, const char *, 2);
    path[0] = "joints";
    path[1] = name;
    tw_change *change = TW_NEW(p->arena, tw_change);
    *change = tw_change_copy(p->arena, (tw_change){ .kind = TW_CHANGE_ADD, .path = path, .path_count = 2, .entries = entries,
        .entry_count = entry_count });
    keep(p, kind, name, label, change, 1);
}

/* ---- an end at a side ---- */

/* Kinds that bring an end to a side: the keys that name the two pieces. */
typedef struct end_kind { const char *kind, *end_key, *side_key, *words; bool across; } end_kind;
static const end_kind end_kinds[] = {
    { "mortise and tenon", "tenon", "into", "Mortise and tenon", true },
    { "forked tusks", "tenon", "through", "Through tenon with forked tusks", true },
    { "single tusk", "tenon", "through", "Through tenon with a single tusk", true },
    { "slip tenon", "piece", "into", "Slip tenon", true },
    { "housing", "housed", "into", "Housing", true },
    { "sliding dovetail", "housed", "into", "Sliding dovetail", true },
    { "cross dowel and bolt", "rail", "into", "Cross dowel and bolt", true },
    { "housed bridle", "forked", "over", "Housed bridle", false },
};

/* Each end of the one wants a piece of the other of its own. */
static bool both_ends(spot end, spot side) { return side.piece->count.value >= 2.0 * end.piece->count.value; }

/* Where across the side, when it is not the middle that was pointed at; NULL for the middle. */
static const char *across_of(const proposing *p, spot side)
{
    double wide = is_edge(side) ? side.piece->thickness.value : side.piece->width.value;
    if (fabs(side.pointed->across_mm - wide / 2.0) <= MIDDLE_PART * wide) return NULL;
    return round_length(p, side.pointed->across_mm);
}

static void propose_end(proposing *p, const end_kind *kind, spot end, spot side)
{
    const char *ends = both_ends(end, side) ? "both" : end_word(end), *from = tw_face_words[side.pointed->face];
    const char *at = round_length(p, side.pointed->at_mm), *across = across_of(p, side);
    tw_entry entries[] = { { .key = "kind", .value = kind->kind }, { .key = kind->end_key, .value = end.piece->name },
        { .key = "ends", .value = ends }, { .key = kind->side_key, .value = side.piece->name }, { .key = "from", .value = from },
        { .key = "at", .value = at },
        { .key = "across", .value = across } };
    size_t count = sizeof entries / sizeof *entries;
    if (!across || !kind->across) count--;
    const char *label = tw_format(p->arena, "%s: %s of %s in the %s of %s, %s from its left end", kind->words,
        strcmp(ends, "both") == 0 ? "both ends" : tw_format(p->arena, "the %s end", ends), end.piece->name, from,
        side.piece->name, at);
    propose(p, kind->kind, free_name(p, end.piece->name, side.piece->name), label, entries, count);
}

/* ---- one more place of a joint that is there ---- */

static const void *field(const tw_joint *joint, const char *name)
{
    const tw_joint_format *format = &tw_joint_kinds[joint->kind]->format;
    for (int i = 0; i < format->key_count; i++)
        if (strcmp(format->keys[i].name, name) == 0) return (const char *)joint->spec + format->keys[i].offset;
    return NULL;
}

static bool joins(const proposing *p, const tw_joint *joint, const end_kind *kind, spot end, spot side)
{
    if (strcmp(tw_joint_kinds[joint->kind]->format.kind, kind->kind) != 0) return false;
    const tw_link *brought = field(joint, kind->end_key), *receives = field(joint, kind->side_key);
    const tw_choice *from = field(joint, "from");
    return &p->job->pieces[brought->index] == end.piece && &p->job->pieces[receives->index] == side.piece &&
           from->value == side.pointed->face;
}

/* As many pieces more as the places want. */
static void propose_place(proposing *p, const tw_joint *joint, const end_kind *kind, spot end, spot side)
{
    const char *at = round_length(p, side.pointed->at_mm);
    size_t places;
    const char *const *list = tw_places_and_one_more(p->arena, joint, at, &places);
    const tw_choice *ends = field(joint, "ends");
    int each = ends->value == 2 ? 2 : 1, wanted = (int)side.piece->count.value * (int)places;
    if (!list || wanted % each != 0) return;
    const char *const at_path[] = { "joints", joint->name, "at" }, *const count_path[] = { "pieces", end.piece->name, "count" };
    tw_change *changes = TW_NEW_ARRAY(p->arena, tw_change, 2);
    changes[0] = tw_change_copy(p->arena,
        (tw_change){ .kind = TW_CHANGE_SET, .path = at_path, .path_count = 3, .list = list, .list_count = places });
    changes[1] = tw_change_copy(p->arena, (tw_change){ .kind = TW_CHANGE_SET, .path = count_path, .path_count = 3,
        .value = tw_format(p->arena, "%d", wanted / each) });
    const char *label = tw_format(p->arena, "One more place of %s, %s from the left end of %s, and %d of %s", joint->name, at,
        side.piece->name, wanted / each, end.piece->name);
    const char *name = tw_text_copy(p->arena, tw_text_of(joint->name));
    keep(p, kind->kind, name, label, changes, wanted / each != (int)end.piece->count.value ? 2 : 1);
}

static void propose_places(proposing *p, spot end, spot side)
{
    for (int i = 0; i < p->job->joint_count; i++)
        for (size_t k = 0; k < sizeof end_kinds / sizeof *end_kinds; k++)
            if (p->count < PLACES_MOST && joins(p, &p->job->joints[i], &end_kinds[k], end, side))
                propose_place(p, &p->job->joints[i], &end_kinds[k], end, side);
}

/* ---- two sides ---- */

static void propose_lap(proposing *p, bool edges, spot over, spot under)
{
    const char *kind = edges ? "edge lap" : "cross lap";
    const char *over_at = round_length(p, over.pointed->at_mm), *under_at = round_length(p, under.pointed->at_mm);
    tw_entry entries[] = { { .key = "kind", .value = kind }, { .key = "over", .value = over.piece->name },
        { .key = "over at", .value = over_at },
        { .key = "over side", .value = tw_face_words[over.pointed->face] }, { .key = "under", .value = under.piece->name },
        { .key = "under at", .value = under_at }, { .key = "under side", .value = tw_face_words[under.pointed->face] } };
    const char *words = edges ? "Edge lap" : "Cross lap";
    const char *label = tw_format(p->arena, "%s: %s over %s, %s and %s from their left ends", words, over.piece->name,
        under.piece->name, over_at, under_at);
    propose(p, kind, free_name(p, over.piece->name, under.piece->name), label, entries, sizeof entries / sizeof *entries);
}

/* ---- two ends ---- */

static void propose_corner(proposing *p, const char *kind, const char *key, const char *words, spot a, spot b)
{
    bool box = a.piece->count.value >= 2.0 && a.piece->count.value == b.piece->count.value;
    const char *a_ends = box ? "both" : end_word(a), *b_ends = box ? "both" : end_word(b);
    tw_entry entries[] = { { .key = "kind", .value = kind }, { .key = key, .value = a.piece->name },
        { .key = "ends", .value = a_ends },
        { .key = "into", .value = b.piece->name }, { .key = "into ends", .value = b_ends } };
    const char *one = a.piece->name, *other = b.piece->name;
    const char *label = box ? tw_format(p->arena, "%s: both ends of %s and of %s, all corners of a box", words, one, other)
        : tw_format(p->arena, "%s: the %s end of %s and the %s end of %s", words, a_ends, one, b_ends, other);
    propose(p, kind, free_name(p, a.piece->name, b.piece->name), label, entries, sizeof entries / sizeof *entries);
}

/* ---- all ---- */

static void propose_all(proposing *p, spot a, spot b)
{
    if (is_end(a) && is_end(b)) {
        propose_corner(p, "finger joint", "fingers", "Finger joint", a, b);
        propose_corner(p, "through dovetail", "tails", "Through dovetail", a, b);
        propose_corner(p, "through dovetail", "tails", "Through dovetail", b, a);
    } else if (is_end(a) || is_end(b)) {
        spot end = is_end(a) ? a : b, side = is_end(a) ? b : a;
        propose_places(p, end, side);
        for (size_t i = 0; i < sizeof end_kinds / sizeof *end_kinds; i++) propose_end(p, &end_kinds[i], end, side);
    } else if (is_edge(a) == is_edge(b)) {
        propose_lap(p, is_edge(a), a, b);
        propose_lap(p, is_edge(a), b, a);
    }
}

/* Those without a halt first; else as they came. */
static void sort_proposals(tw_proposal *items, size_t count)
{
    for (size_t i = 1; i < count; i++) {
        tw_proposal moved = items[i];
        size_t to = i;
        for (; to > 0 && !moved.halt[0] && items[to - 1].halt[0]; to--) items[to] = items[to - 1];
        items[to] = moved;
    }
}

static bool is_sound(const tw_pointed *pointed)
{
    return pointed->piece && pointed->face >= TW_SIDE_FACE && pointed->face <= TW_SIDE_RIGHT_END && isfinite(pointed->at_mm) &&
        isfinite(pointed->across_mm);
}

const tw_proposal *tw_propose(tw_arena *arena, const tw_request *request, tw_pointed first, tw_pointed second, size_t *count)
{
    *count = 0;
    if (!is_sound(&first) || !is_sound(&second)) return NULL;
    tw_request plain = *request;
    plain.papers = false;
    tw_result *before = tw_set_out(&plain);
    proposing p = { .arena = arena, .request = &plain, .before = before, .job = before->job };
    if (tw_result_state(before) != TW_STATE_WRONG) {
        spot a = { &first, piece_named(p.job, first.piece) }, b = { &second, piece_named(p.job, second.piece) };
        p.items = TW_NEW_ARRAY(arena, tw_proposal, PROPOSALS_MOST);
        if (a.piece && b.piece && a.piece != b.piece) propose_all(&p, a, b);
    }
    tw_result_free(before);
    sort_proposals(p.items, p.count);
    *count = p.count;
    return p.count > 0 ? p.items : NULL;
}
