// SPDX-License-Identifier: GPL-3.0-or-later
/* The door's own pages. */
#include "serve/door_pages.h"

static const char style[] =
    ":root { color-scheme: light dark; --paper: #f6f0e2; --pencil: #2b2a27; --line: #8a7f69; --accent: #8a3b12; }\n"
    "@media (prefers-color-scheme: dark) { :root { --paper: #211f1b; --pencil: #ece5d6; --line: #8d8470; --accent: #f0a070; } }\n"
    "* { box-sizing: border-box; }\n"
    "body { margin: 0; background: var(--paper); color: var(--pencil); font: 1.15rem/1.5 system-ui, sans-serif; }\n"
    "main { max-width: 34rem; margin: 0 auto; padding: 2rem 1.25rem; }\n"
    "h1 { font-size: 1.6rem; line-height: 1.2; border-bottom: 2px solid var(--line); padding-bottom: .5rem; }\n"
    "a { color: var(--accent); }\n"
    "label { display: block; margin: 1.5rem 0 .5rem; }\n"
    "input { width: 100%; font: 2.2rem/1.2 ui-monospace, monospace; letter-spacing: .15em; padding: .4em; color: inherit;\n"
    "        background: transparent; border: 2px solid var(--line); border-radius: 4px; }\n"
    "button { width: 100%; margin-top: 1rem; font: inherit; padding: .8em; color: var(--paper); background: var(--accent); "
        "border: 0;\n"
    "         border-radius: 4px; }\n"
    ":focus-visible { outline: 3px solid var(--accent); outline-offset: 2px; }\n";

static void put_escaped(tw_sink *sink, const char *text)
{
    for (; *text; text++) {
        const char *name = *text == '&' ? "&amp;" : *text == '<' ? "&lt;" : *text == '>' ? "&gt;" : *text == '"' ? "&quot;"
            : NULL;
        if (name) tw_put_text(sink, name);
        else tw_put(sink, text, 1);
    }
}

/* The sentence with a capital at its start and a full stop at its end; nothing for "". */
static void put_paragraph(tw_sink *sink, const char *role, const char *text)
{
    if (*text == '\0') return;
    bool is_small = *text >= 'a' && *text <= 'z';
    tw_putf(sink, "<p%s>", role);
    if (is_small) tw_putf(sink, "%c", *text - 'a' + 'A');
    put_escaped(sink, text + is_small);
    tw_put_text(sink, ".</p>\n");
}

static void put_head(tw_sink *sink, const char *title)
{
    tw_put_text(sink, "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
                      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>");
    put_escaped(sink, title);
    tw_put_text(sink, "</title>\n<link rel=\"stylesheet\" href=\"" TW_PAGE_STYLE_PATH "\">\n</head>\n<body>\n<main>\n<h1>");
    put_escaped(sink, title);
    tw_put_text(sink, "</h1>\n");
}

static tw_reply page(int status, tw_gather *all, tw_sink *sink)
{
    tw_put_text(sink, "</main>\n</body>\n</html>\n");
    return (tw_reply){ .status = status, .type = "text/html; charset=utf-8", .body = tw_gathered(all) };
}

tw_reply tw_page_says(tw_arena *arena, int status, const char *title, const char *what, const char *remedy)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    put_head(&sink, title);
    put_paragraph(&sink, "", what);
    put_paragraph(&sink, "", remedy);
    return page(status, &all, &sink);
}

tw_reply tw_page_how_to_get_in(tw_arena *arena, bool on_network)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    put_head(&sink, "Not let in");
    put_paragraph(&sink, "", "This Tuskwright belongs to whoever started it, and it does not know this browser (yet, or any "
                  "more: each start has new keys)");
    put_paragraph(&sink, "", "On the computer where it runs: open the whole address that \"tuskwright serve\" printed when it "
                  "was started, the part behind \"token=\" too; or start it again and open the new address");
    if (on_network)
        tw_put_text(&sink, "<p>On a tablet or phone in the shop: <a href=\"" TW_PAGE_PAIR_PATH "\">pair it</a> with the code "
                    "that the desk shows.</p>\n");
    return page(403, &all, &sink);
}

tw_reply tw_page_pairing(tw_arena *arena, int status, const char *says)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    put_head(&sink, "Pair this device");
    put_paragraph(&sink, " role=\"alert\"", says);
    tw_put_text(&sink,
        "<form method=\"post\" action=\"" TW_PAGE_PAIR_PATH "\">\n"
        "<label for=\"code\">The six digits that the desk shows</label>\n"
        "<input id=\"code\" name=\"code\" inputmode=\"numeric\" autocomplete=\"one-time-code\" pattern=\"[0-9 ]{6,9}\" "
        "maxlength=\"9\" title=\"six digits\" required autofocus>\n<button>Pair</button>\n</form>\n"
        "<p>The code is good for ten minutes and for one device. What passes between this device and the desk can be read by "
        "others in the same network: use a network of your own.</p>\n");
    return page(status, &all, &sink);
}

tw_reply tw_page_style(void)
{
    return (tw_reply){ .status = 200, .type = "text/css; charset=utf-8", .body = { style, sizeof style - 1 } };
}
