// SPDX-License-Identifier: GPL-3.0-or-later
/* door_guard: who is let in, and how often he may knock.
 *
 * At each start there are new secrets of 128 bits: the token, which stands in the address that is printed, and the desk's
 * cookie, which the token is changed for. Both open the door from this computer only. A device in the shop is let in by a
 * code of 6 digits that the desk shows: it holds for 10 minutes, is used up by the first device that brings it, and by the
 * fifth wrong try; the device then gets a secret of its own as its cookie. Nothing of this is kept on the disk.
 *
 * How often: each address has three measures of so many requests at once, filled up again by so many a second: for guests,
 * for strangers, and for wrong tokens and codes. Who brings the right token is always let in. */
#ifndef TW_DOOR_GUARD_H
#define TW_DOOR_GUARD_H

#include "base/base.h"

#define TW_SECRET_TEXT    33      // bytes of 128 bits in hexadecimal digits, with the zero
#define TW_DEVICES_MOST   16      // paired at a time; the one that was paired first is forgotten for the next
#define TW_CODE_VALID_MS  600000
#define TW_CODE_TRIES     5
#define TW_ADDRESSES_MOST 256     // whose measures are kept

typedef enum tw_caller { TW_STRANGER, TW_DEVICE, TW_DESK } tw_caller;

typedef enum tw_measure { TW_MEASURE_GUEST, TW_MEASURE_STRANGER, TW_MEASURE_TRY, TW_MEASURE_COUNT } tw_measure;

typedef struct tw_knocks {
    uint32_t address;                 // IPv4, 0: free
    int64_t  at_ms;                   // when `left` was reckoned
    double   left[TW_MEASURE_COUNT];  // requests that he may still make at once
} tw_knocks;

typedef struct tw_guard {
    char      cookie[32];             // its name
    char      token[TW_SECRET_TEXT], desk[TW_SECRET_TEXT];
    char      devices[TW_DEVICES_MOST][TW_SECRET_TEXT];
    size_t    device_count;           // ever paired
    char      code[7];                // "" when there is none that holds
    int64_t   code_until_ms;
    int       code_tries;             // wrong ones
    tw_knocks knocks[TW_ADDRESSES_MOST];
} tw_guard;

/// New secrets. port: browsers send a cookie to all ports, so its name carries it. False: the system gives no random bytes.
bool tw_guard_begin(tw_guard *guard, int port);
bool tw_guard_is_token(const tw_guard *guard, tw_text token);
/// Who the cookies of a request (its header, or nothing) belong to. from_here: the request comes from this computer.
tw_caller tw_guard_who(const tw_guard *guard, tw_text cookies, bool from_here);

/// A new code; the one before holds no more. False: the system gives no random bytes.
bool tw_guard_make_code(tw_guard *guard, int64_t now_ms);
/// The code that holds, or NULL.
const char *tw_guard_code(const tw_guard *guard, int64_t now_ms);

typedef enum tw_pairing { TW_PAIRED, TW_PAIR_WRONG, TW_PAIR_NO_CODE, TW_PAIR_FAILED } tw_pairing;
/// Tries a code; spaces in it do not count. With TW_PAIRED *secret is the new device's, its place in the guard.
tw_pairing tw_guard_pair(tw_guard *guard, tw_text code, int64_t now_ms, const char **secret);

/// Counts one request of an address; false when it makes too many.
bool tw_guard_may(tw_guard *guard, tw_measure measure, uint32_t address, int64_t now_ms);

#endif
