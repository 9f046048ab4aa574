// SPDX-License-Identifier: GPL-3.0-or-later
/* The assembler takes the files in as they are: gcc and clang both know .incbin, and it costs no time however large they are. The build
 * says with -Wa,-I where the files lie. */
#include "serve/embedded.h"

#include <string.h>

#include "page_files.h"  // made with them: another digest, and this file is compiled again

#define EMBED(symbol, file)                                                                      \
    __asm__(".section .rodata\n.balign 16\n.global tw_embedded_" #symbol "\ntw_embedded_" #symbol ":\n.incbin \"" file "\"\n" \
            ".global tw_embedded_" #symbol "_end\ntw_embedded_" #symbol "_end:\n.byte 0\n.previous\n"); \
    extern const char tw_embedded_##symbol[], tw_embedded_##symbol##_end[]

EMBED(index, "index.html");
EMBED(page, "page.js");
EMBED(solid, "solid.js");
EMBED(style, "page.css");
EMBED(icon, "icon.svg");
EMBED(manifold, "manifold.wasm");

#define FILE_AT(path, type, symbol) \
    { path, type, { tw_embedded_##symbol, (size_t)(tw_embedded_##symbol##_end - tw_embedded_##symbol) }, TW_DIGEST_OF_##symbol }

const tw_embedded *tw_embedded_files(tw_arena *arena, size_t *count)
{
    const tw_embedded all[] = {
        FILE_AT("/", "text/html; charset=utf-8", index),
        FILE_AT("/page.js", "text/javascript; charset=utf-8", page),
        FILE_AT("/solid.js", "text/javascript; charset=utf-8", solid),
        FILE_AT("/page.css", "text/css; charset=utf-8", style),
        FILE_AT("/icon.svg", "image/svg+xml", icon),
        FILE_AT("/manifold.wasm", "application/wasm", manifold),
    };
    *count = sizeof all / sizeof *all;
    tw_embedded *files = TW_NEW_ARRAY(arena, tw_embedded, *count);
    memcpy(files, all, sizeof all);
    return files;
}
