// SPDX-License-Identifier: GPL-3.0-or-later
/* embedded: the files of the page, put into the program when it is built. */
#ifndef TW_EMBEDDED_H
#define TW_EMBEDDED_H

#include "base/base.h"

typedef struct tw_embedded {
    const char *path;   // as the page asks for it: "/page.js"
    const char *type;   // media type
    tw_text     bytes;
    const char *digest; // of the bytes: another digest, other bytes
} tw_embedded;

/// All of them; count is set. The first is the page itself, "/". The list lives in the arena, the bytes always.
const tw_embedded *tw_embedded_files(tw_arena *arena, size_t *count);

#endif
