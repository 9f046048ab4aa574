// SPDX-License-Identifier: GPL-3.0-or-later
/* door_pages: the few pages that the door itself shows to who is not let in: plain HTML that works without a script. */
#ifndef TW_DOOR_PAGES_H
#define TW_DOOR_PAGES_H

#include "serve/door.h"

/// A page that says in plain words what is wrong and what would be right. Texts are escaped here.
tw_reply tw_page_says(tw_arena *arena, int status, const char *title, const char *what, const char *remedy);
/// How to get in, for who has no cookie. on_network: by pairing too.
tw_reply tw_page_how_to_get_in(tw_arena *arena, bool on_network);
/// The form for the pairing code; says: what is to be said above it, "" for nothing.
tw_reply tw_page_pairing(tw_arena *arena, int status, const char *says);
/// Their style sheet.
tw_reply tw_page_style(void);

#define TW_PAGE_STYLE_PATH "/door.css"
#define TW_PAGE_PAIR_PATH  "/pair"

#endif
