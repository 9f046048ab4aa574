// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/kin.h"

#include <math.h>
#include <string.h>

#define NAMED_MOST 8    // pieces that a list names
#define CUTS_MOST 2000  // of a piece that is compared

static bool same_timber(const tw_piece *a, const tw_piece *b) { return strcmp(a->timber.text ? a->timber.text : "", b->timber.text ? b->timber.text : "") == 0; }

static tw_cut_list list_of(const tw_job *job, const tw_piece_cuts *cuts, int piece)
{
    return (tw_cut_list){ tw_piece_size(&job->pieces[piece]), cuts[piece].cuts, cuts[piece].count };
}

/* The firsts of all kinds, in chains by their length in tenths of a millimetre, so that a piece meets only those as long as it. */
typedef struct lengths { int *heads, *next; size_t count; } lengths;

static lengths lengths_make(tw_arena *arena, int piece_count)
{
    lengths l = { .count = 16 };
    while (l.count < 2 * (size_t)piece_count) l.count *= 2;
    l.heads = TW_NEW_ARRAY(arena, int, l.count);
    l.next = TW_NEW_ARRAY(arena, int, (size_t)piece_count + 1);
    for (size_t i = 0; i < l.count; i++) l.heads[i] = -1;
    return l;
}

static long tenths_of(const tw_job *job, int piece) { return (long)floor(job->pieces[piece].length.value * 10.0); }
static int *chain_of(const lengths *l, long tenths) { return &l->heads[(size_t)(tenths + 1) & (l->count - 1)]; }

/* Looks along one chain; true when a piece that is alike is found. */
static bool look_along(tw_kin *kin, const tw_job *job, const tw_piece_cuts *cuts, const lengths *l, int first, int piece, tw_arena *scratch)
{
    for (; first >= 0; first = l->next[first]) {
        tw_symmetry how;
        if (!same_timber(&job->pieces[first], &job->pieces[piece])) continue;
        tw_likeness likeness = tw_pieces_alike(scratch, list_of(job, cuts, piece), list_of(job, cuts, first), &how);
        if (likeness == TW_MIRRORED && kin->mirror < 0) kin->mirror = first;
        if (likeness != TW_ALIKE) continue;
        kin->like = first;
        kin->how = how;
        return true;
    }
    return false;
}

static void place_among_kin(tw_kin *kin, const tw_job *job, const tw_piece_cuts *cuts, lengths *l, int *last, int piece, tw_arena *scratch)
{
    long tenths = tenths_of(job, piece);
    for (long k = tenths - 1; k <= tenths + 1; k++)
        if (look_along(&kin[piece], job, cuts, l, *chain_of(l, k), piece, scratch)) {
            int first = kin[piece].like;
            kin[last[first]].next = piece;
            last[first] = piece;
            kin[first].entries++;
            return;
        }
    if (kin[piece].mirror >= 0) kin[kin[piece].mirror].mirror = piece;
    l->next[piece] = *chain_of(l, tenths);
    *chain_of(l, tenths) = piece;
}

tw_kin *tw_kin_make(tw_arena *arena, const tw_job *job, const tw_piece_cuts *cuts)
{
    tw_kin *kin = TW_NEW_ARRAY(arena, tw_kin, (size_t)job->piece_count + 1);
    int *last = TW_NEW_ARRAY(arena, int, (size_t)job->piece_count + 1);
    lengths l = lengths_make(arena, job->piece_count);
    for (int i = 0; i < job->piece_count; i++) {
        tw_arena scratch = { .out_of_memory = arena->out_of_memory };
        kin[i] = (tw_kin){ .like = i, .mirror = -1, .next = -1, .entries = 1 };
        last[i] = i;
        if (cuts[i].count > 0 && cuts[i].count <= CUTS_MOST) place_among_kin(kin, job, cuts, &l, last, i, &scratch);
        tw_arena_finish(&scratch);
    }
    for (int i = 0; i < job->piece_count; i++) kin[i].mirror = kin[kin[i].like].mirror;
    return kin;
}

static const char *names_of(tw_arena *arena, const tw_job *job, const tw_kin *kin, int first, int but)
{
    const char *text = "";
    int named = 0, all = kin[first].entries - (but >= 0);
    for (int i = first; i >= 0 && named < NAMED_MOST; i = kin[i].next) {
        if (i == but) continue;
        text = tw_format(arena, "%s%s%s", text, named++ ? ", " : "", job->pieces[i].name);
    }
    return all > named ? tw_format(arena, "%s and %d more", text, all - named) : text;
}

const char *tw_kin_alike_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece) { return names_of(arena, job, kin, kin[piece].like, piece); }

const char *tw_kin_mirror_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece)
{
    return kin[piece].mirror < 0 ? "" : names_of(arena, job, kin, kin[kin[piece].mirror].like, -1);
}
