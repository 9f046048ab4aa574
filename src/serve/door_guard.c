// SPDX-License-Identifier: GPL-3.0-or-later
/* Secrets, the pairing code, and the measures of how often an address may knock. */
#define _GNU_SOURCE
#include "serve/door_guard.h"

#include <errno.h>
#include <string.h>
#include <sys/random.h>

#include "serve/door_words.h"

/* ---- secrets ---- */

static bool random_bytes(unsigned char *bytes, size_t count)
{
    while (count > 0) {
        ssize_t got = getrandom(bytes, count, 0);
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) return false;
        bytes += got;
        count -= (size_t)got;
    }
    return true;
}

static bool make_secret(char secret[TW_SECRET_TEXT])
{
    unsigned char bytes[(TW_SECRET_TEXT - 1) / 2];
    if (!random_bytes(bytes, sizeof bytes)) return false;
    for (size_t i = 0; i < sizeof bytes; i++) {
        secret[2 * i] = "0123456789abcdef"[bytes[i] >> 4];
        secret[2 * i + 1] = "0123456789abcdef"[bytes[i] & 15];
    }
    secret[TW_SECRET_TEXT - 1] = '\0';
    return true;
}

static void name_cookie(tw_guard *guard, int port)
{
    tw_arena arena = { 0 };
    const char *name = tw_format(&arena, "tuskwright-%d", port);
    memcpy(guard->cookie, name, strlen(name) + 1);
    tw_arena_finish(&arena);
}

bool tw_guard_begin(tw_guard *guard, int port)
{
    *guard = (tw_guard){ .code_tries = 0 };
    name_cookie(guard, port);
    return make_secret(guard->token) && make_secret(guard->desk);
}

bool tw_guard_is_token(const tw_guard *guard, tw_text token) { return tw_same_secret(token, guard->token); }

static bool is_device(const tw_guard *guard, tw_text cookie)
{
    bool found = false;  // all are looked at, so that the time tells nothing
    for (size_t i = 0; i < TW_DEVICES_MOST && i < guard->device_count; i++) found |= tw_same_secret(cookie, guard->devices[i]);
    return found;
}

tw_caller tw_guard_who(const tw_guard *guard, tw_text cookies, bool from_here)
{
    for (size_t i = 0; i < 4; i++) {  // a foreign page on another port of this computer may have set one of our name too
        tw_text cookie = tw_cookie_value(cookies, guard->cookie, i);
        if (cookie.length == 0) break;
        if (from_here && tw_same_secret(cookie, guard->desk)) return TW_DESK;
        if (is_device(guard, cookie)) return TW_DEVICE;
    }
    return TW_STRANGER;
}

/* ---- pairing ---- */

bool tw_guard_make_code(tw_guard *guard, int64_t now_ms)
{
    uint32_t number;
    do {
        if (!random_bytes((unsigned char *)&number, sizeof number)) return false;
    } while (number >= UINT32_MAX / 1000000u * 1000000u);  // so that each code is as likely
    for (int i = 5; i >= 0; i--, number /= 10) guard->code[i] = (char)('0' + number % 10);
    guard->code[6] = '\0';
    guard->code_until_ms = now_ms + TW_CODE_VALID_MS;
    guard->code_tries = 0;
    return true;
}

const char *tw_guard_code(const tw_guard *guard, int64_t now_ms)
{
    return guard->code[0] != '\0' && now_ms < guard->code_until_ms ? guard->code : NULL;
}

static bool is_code(const tw_guard *guard, tw_text code)
{
    char digits[8];
    size_t count = 0;
    for (size_t i = 0; i < code.length; i++)
        if (code.bytes[i] != ' ' && count < sizeof digits) digits[count++] = code.bytes[i];
    return tw_same_secret((tw_text){ digits, count }, guard->code);
}

tw_pairing tw_guard_pair(tw_guard *guard, tw_text code, int64_t now_ms, const char **secret)
{
    if (!tw_guard_code(guard, now_ms)) return TW_PAIR_NO_CODE;
    if (!is_code(guard, code)) {
        if (++guard->code_tries >= TW_CODE_TRIES) guard->code[0] = '\0';
        return guard->code[0] == '\0' ? TW_PAIR_NO_CODE : TW_PAIR_WRONG;
    }
    char *place = guard->devices[guard->device_count % TW_DEVICES_MOST];
    if (!make_secret(place)) return TW_PAIR_FAILED;
    guard->device_count++;
    guard->code[0] = '\0';
    *secret = place;
    return TW_PAIRED;
}

/* ---- how often ---- */

/* At once, and a second. A guest who drags a value asks once a frame; a page is a handful of files. A token cannot be
 * guessed and a code is used up by five tries: the last row only spares the machine and the log. */
static const struct { double most, each_s; } measures[TW_MEASURE_COUNT] = {
    [TW_MEASURE_GUEST] = { 1000, 300 },
    [TW_MEASURE_STRANGER] = { 200, 20 },
    [TW_MEASURE_TRY] = { 10, 0.2 },
};

/* The row of an address; a new one takes the place of the one that was quiet for longest. */
static tw_knocks *knocks_of(tw_guard *guard, uint32_t address, int64_t now_ms)
{
    tw_knocks *oldest = &guard->knocks[0];
    for (size_t i = 0; i < TW_ADDRESSES_MOST; i++) {
        tw_knocks *row = &guard->knocks[i];
        if (row->address == address) return row;
        if (row->address == 0 ? oldest->address != 0 : oldest->address != 0 && row->at_ms < oldest->at_ms) oldest = row;
    }
    *oldest = (tw_knocks){ .address = address, .at_ms = now_ms };
    for (int i = 0; i < TW_MEASURE_COUNT; i++) oldest->left[i] = measures[i].most;
    return oldest;
}

bool tw_guard_may(tw_guard *guard, tw_measure measure, uint32_t address, int64_t now_ms)
{
    tw_knocks *row = knocks_of(guard, address, now_ms);
    double passed_s = (double)(now_ms - row->at_ms) / 1000.0;
    for (int i = 0; i < TW_MEASURE_COUNT; i++) row->left[i] = tw_min(measures[i].most,
                                                                     row->left[i] + passed_s * measures[i].each_s);
    row->at_ms = now_ms;
    if (row->left[measure] < 1.0) return false;
    row->left[measure] -= 1.0;
    return true;
}
