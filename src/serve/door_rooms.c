// SPDX-License-Identifier: GPL-3.0-or-later
/* What the door itself serves: pairing, and what the desk is told of the network. */
#include "serve/door_inside.h"
#include "serve/door_pages.h"
#include "serve/door_words.h"

#define FORM_TYPE "application/x-www-form-urlencoded"

void tw_visit_set_cookie(tw_visit *v, const char *secret, const char *lasting)
{
    v->cookie = tw_format(&v->arena, "%s=%s; Path=/; HttpOnly; SameSite=Strict%s", v->door->guard.cookie, secret, lasting);
    v->guest->known = true;
}

static tw_reply get_style(void *context, const tw_door_ask *ask)
{
    (void)context, (void)ask;
    return tw_page_style();
}

static tw_reply no_pairing(tw_arena *arena)
{
    return tw_page_says(arena, 404, "No pairing", "this Tuskwright serves only the computer on which it runs",
                        "to use it in the shop too, end it there and start it with \"tuskwright serve --on-network\"");
}

static tw_reply get_pair(void *context, const tw_door_ask *ask)
{
    tw_visit *v = context;
    v->tells_referrer = true;  // else browsers would not say where the form comes from
    return v->door->options.on_network ? tw_page_pairing(ask->arena, 200, "") : no_pairing(ask->arena);
}

static tw_reply post_pair(void *context, const tw_door_ask *ask)
{
    tw_visit *v = context;
    tw_guard *guard = &v->door->guard;
    v->tells_referrer = true;
    if (!v->door->options.on_network) return no_pairing(ask->arena);
    if (!tw_guard_may(guard, TW_MEASURE_TRY, v->guest->ends.peer, tw_door_now_ms()))
        return tw_page_pairing(ask->arena, 429, "too many tries: wait a minute, then type the code that the desk shows now");
    const char *code = tw_query_is_well_written(ask->body) ? tw_query_value(ask->arena, ask->body, "code") : NULL;
    if (!code) return tw_page_pairing(ask->arena, 400, "no code came: type the six digits that the desk shows");
    const char *secret;
    switch (tw_guard_pair(guard, tw_text_of(code), tw_door_now_ms(), &secret)) {
    case TW_PAIRED:
        tw_visit_set_cookie(v, secret, "; Max-Age=2592000");
        return tw_reply_see_other("/");
    case TW_PAIR_WRONG: return tw_page_pairing(ask->arena, 403, "that is not the code: look at the desk once more");
    case TW_PAIR_NO_CODE:
        return tw_page_pairing(ask->arena, 403, "no code holds any more (each is good for ten minutes, one device and five "
                               "tries): let the desk make a new one");
    case TW_PAIR_FAILED: break;
    }
    return tw_page_says(ask->arena, 500, "That does not work",
                        "the system gives no random numbers, so this device cannot get a key of its own",
                        "try again in a moment");
}

/* What the desk's screen shows of the network. Only the desk sees the code. */
static tw_reply network_reply(tw_visit *v)
{
    tw_door *door = v->door;
    tw_gather all = { .arena = &v->arena };
    tw_sink sink = tw_gather_sink(&all);
    tw_addresses list = door->options.on_network ? tw_net_addresses(&v->arena) : (tw_addresses){ 0 };
    tw_putf(&sink, "{\"on\":%s,\"desk\":%s,\"addresses\":[", door->options.on_network ? "true" : "false",
            v->caller == TW_DESK ? "true" : "false");
    for (size_t i = 0; i < list.count; i++)
        tw_putf(&sink, "%s\"http://%s:%d" TW_PAGE_PAIR_PATH "\"", i ? "," : "", list.items[i], door->port);
    int64_t now = tw_door_now_ms();
    const char *code = door->options.on_network && v->caller == TW_DESK ? tw_guard_code(&door->guard, now) : NULL;
    if (code) tw_putf(&sink, "],\"code\":\"%s\",\"expires_s\":%d}\n", code, (int)((door->guard.code_until_ms - now) / 1000));
    else tw_put_text(&sink, "],\"code\":null,\"expires_s\":0}\n");
    return (tw_reply){ .status = 200, .body = tw_gathered(&all) };
}

static tw_reply get_network(void *context, const tw_door_ask *ask)
{
    (void)ask;
    return network_reply(context);
}

static tw_reply post_network_code(void *context, const tw_door_ask *ask)
{
    tw_visit *v = context;
    if (v->caller != TW_DESK)
        return tw_reply_error(ask->arena, 403, "desk-only", "only the desk may make a new code for pairing",
                              "make it on the computer where Tuskwright runs");
    if (!v->door->options.on_network)
        return tw_reply_error(ask->arena, 409, "not-on-network",
                              "this Tuskwright serves only the computer on which it runs, so there is nothing to pair",
                              "end it and start it with \"tuskwright serve --on-network\"");
    if (!tw_guard_make_code(&v->door->guard, tw_door_now_ms()))
        return tw_reply_error(ask->arena, 500, "failed", "the system gives no random numbers, so no code can be made",
                              "try again in a moment");
    return network_reply(v);
}

const tw_room tw_rooms[] = {
    { { "GET", TW_PAGE_STYLE_PATH, get_style, 0 }, true, NULL },
    { { "GET", TW_PAGE_PAIR_PATH, get_pair, 0 }, true, NULL },
    { { "POST", TW_PAGE_PAIR_PATH, post_pair, 256 }, true, FORM_TYPE },
    { { "GET", "/api/network", get_network, 0 }, false, NULL },
    { { "POST", "/api/network/code", post_network_code, 1024 }, false, TW_JSON_TYPE },
};
const size_t tw_room_count = sizeof tw_rooms / sizeof *tw_rooms;

void tw_door_pairing_put(tw_door *door, tw_sink *sink)
{
    const char *code = tw_guard_code(&door->guard, tw_door_now_ms());
    if (!door->options.on_network || !code) return;
    tw_addresses list = tw_net_addresses(door->arena);
    if (list.count == 0)
        tw_put_text(sink, "tuskwright: this computer is on no network now; the desk's page shows the address when it is\n");
    for (size_t i = 0; i < list.count; i++)
        tw_putf(sink, "tuskwright: on a tablet in the shop open http://%s:%d" TW_PAGE_PAIR_PATH "\n", list.items[i], door->port);
    tw_putf(sink, "tuskwright: and give it the code %.3s %s, good for 10 minutes and one device; others in the same network can "
            "read what passes, so use a network of your own\n", code, code + 3);
}
