// SPDX-License-Identifier: GPL-3.0-or-later
/* What goes when an entry goes. */
#include "begin/propose.h"

#include <string.h>

#include "joint/joint.h"

typedef struct removing { tw_arena *arena; tw_change *changes; size_t count, room; } removing;

static void add(removing *r, const char *section, const char *name)
{
    const char **path = TW_NEW_ARRAY(r->arena, const char *, 2);
    path[0] = section;
    path[1] = name;
    tw_array_make_room(r->arena, &r->changes, r->count, &r->room, sizeof *r->changes);
    r->changes[r->count++] = (tw_change){ .kind = TW_CHANGE_REMOVE, .path = path, .path_count = name ? 2 : 1 };
}

/* Does the joint or profile name the piece in one of its keys? */
static bool speaks_of(const tw_joint *joint, int piece)
{
    const tw_joint_format *format = &tw_joint_kinds[joint->kind]->format;
    for (int i = 0; i < format->key_count; i++) {
        if (format->keys[i].kind != TW_KEY_PIECE) continue;
        const tw_link *link = (const void *)((const char *)joint->spec + format->keys[i].offset);
        if (link->index == piece) return true;
    }
    return false;
}

static const char *section_of(const tw_job *job, int joint) { return joint < job->joint_count ? "joints" : "profiles"; }

static void remove_piece(removing *r, const tw_job *job, int piece)
{
    for (int i = 0; i < job->joint_count + job->profile_count; i++)
        if (speaks_of(&job->joints[i], piece)) add(r, section_of(job, i), job->joints[i].name);
    if (job->base.given && job->base.index == piece) add(r, "base", NULL);
    add(r, "pieces", job->pieces[piece].name);
}

const tw_change *tw_removal(tw_arena *arena, const tw_job *job, const char *section, const char *name, size_t *count)
{
    removing r = { .arena = arena };
    for (int i = 0; i < job->piece_count; i++)
        if (strcmp(section, "pieces") == 0 && strcmp(job->pieces[i].name, name) == 0) remove_piece(&r, job, i);
    for (int i = 0; i < job->joint_count + job->profile_count; i++)
        if (strcmp(section, section_of(job, i)) == 0 && strcmp(job->joints[i].name, name) == 0) add(&r, section,
            job->joints[i].name);
    for (int i = 0; i < job->amount_count; i++)
        if (strcmp(section, "amounts") == 0 && strcmp(job->amounts[i].name, name) == 0) add(&r, section, job->amounts[i].name);
    *count = r.count;
    return r.changes;
}
