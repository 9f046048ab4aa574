// SPDX-License-Identifier: GPL-3.0-or-later
/* kin: which entries of a job are alike once they are cut, and which are left and right of each other. */
#ifndef TW_KIN_H
#define TW_KIN_H

#include "joint/piece_cuts.h"
#include "piece/alike.h"

typedef struct tw_kin {
    int         like;    // index of the first piece that this one is alike to; its own when it is the first of its kind
    tw_symmetry how;     // how it is laid down to be that one
    int         mirror;  // index of the first piece whose mirror image it is, -1: none
    int         next;    // the next piece that is alike, -1: none
    int         entries; // of a first: how many entries of the job are alike, itself included
} tw_kin;

/// [piece_count]. Only pieces with cuts, of one size and one timber, are compared; cuts: as gathered from the same job.
tw_kin *tw_kin_make(tw_arena *arena, const tw_job *job, const tw_piece_cuts *cuts);
/// The others that are alike to it (or its mirror images), as a list of names parted by commas; "" for none.
const char *tw_kin_alike_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece);
const char *tw_kin_mirror_words(tw_arena *arena, const tw_job *job, const tw_kin *kin, int piece);

#endif
