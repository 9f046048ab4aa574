// SPDX-License-Identifier: GPL-3.0-or-later
#include "joint/kin.h"

#include <string.h>

#define NAMED_MOST 8  // pieces that a list names

static bool same_timber(const tw_piece *a, const tw_piece *b) { return strcmp(a->timber.text ? a->timber.text : "", b->timber.text ? b->timber.text : "") == 0; }

static tw_cut_list list_of(const tw_job *job, const tw_piece_cuts *cuts, int piece)
{
    return (tw_cut_list){ tw_piece_size(&job->pieces[piece]), cuts[piece].cuts, cuts[piece].count };
}

/* Compares with the firsts of all kinds before it. */
static tw_kin kin_of(const tw_job *job, const tw_piece_cuts *cuts, const int *firsts, int first_count, int piece, tw_arena *scratch)
{
    tw_kin kin = { .like = piece, .mirror = -1 };
    for (int i = 0; i < first_count; i++) {
        tw_symmetry how;
        if (!same_timber(&job->pieces[firsts[i]], &job->pieces[piece])) continue;
        tw_likeness likeness = tw_pieces_alike(scratch, list_of(job, cuts, piece), list_of(job, cuts, firsts[i]), &how);
        if (likeness == TW_MIRRORED && kin.mirror < 0) kin.mirror = firsts[i];
        if (likeness != TW_ALIKE) continue;
        kin.like = firsts[i];
        kin.how = how;
        return kin;
    }
    return kin;
}

tw_kin *tw_kin_make(tw_arena *arena, const tw_job *job, const tw_piece_cuts *cuts)
{
    tw_kin *kin = TW_NEW_ARRAY(arena, tw_kin, (size_t)job->piece_count + 1);
    int *firsts = TW_NEW_ARRAY(arena, int, (size_t)job->piece_count + 1), first_count = 0;
    for (int i = 0; i < job->piece_count; i++) {
        tw_arena scratch = { .out_of_memory = arena->out_of_memory };
        kin[i] = (tw_kin){ .like = i, .mirror = -1 };
        if (cuts[i].count > 0) kin[i] = kin_of(job, cuts, firsts, first_count, i, &scratch);
        if (cuts[i].count > 0 && kin[i].like == i) firsts[first_count++] = i;
        if (kin[i].like == i && kin[i].mirror >= 0) kin[kin[i].mirror].mirror = i;
        tw_arena_finish(&scratch);
    }
    for (int i = 0; i < job->piece_count; i++) kin[i].mirror = kin[kin[i].like].mirror;
    return kin;
}

static const char *names_of(tw_arena *arena, const tw_job *job, const tw_kin *kin, int like, int but)
{
    const char *text = "";
    int named = 0, all = 0;
    for (int i = 0; i < job->piece_count; i++) {
        if (kin[i].like != like || i == but) continue;
        if (++all > NAMED_MOST) continue;
        text = tw_format(arena, "%s%s%s", text, named++ ? ", " : "", job->pieces[i].name);
    }
    return all > NAMED_MOST ? tw_format(arena, "%s and %d more", text, all - NAMED_MOST) : text;
}

const char *tw_kin_alike_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece) { return names_of(arena, job, kin, kin[piece].like, piece); }

const char *tw_kin_mirror_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece)
{
    return kin[piece].mirror < 0 ? "" : names_of(arena, job, kin, kin[kin[piece].mirror].like, -1);
}
