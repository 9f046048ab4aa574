// SPDX-License-Identifier: GPL-3.0-or-later
/* door_net: the socket that listens, and the addresses of this computer and of who comes. IPv4: what a shop's network has. */
#ifndef TW_DOOR_NET_H
#define TW_DOOR_NET_H

#include "base/base.h"

#define TW_ADDRESS_TEXT 16  // bytes of "255.255.255.255" with the zero

/// A socket that listens on 127.0.0.1, or on all addresses. port: 0 = a free one; set to the one taken. The socket is the
/// caller's. Returns -1 when it cannot, *why a sentence without its full stop.
int tw_net_listen(tw_arena *arena, bool on_network, int *port, const char **why);

/// The two ends of a connection.
typedef struct tw_ends {
    uint32_t peer;                    // who asks; 0: not known
    bool     from_here;               // a program on this computer
    char     local[TW_ADDRESS_TEXT];  // the address that was asked
} tw_ends;
tw_ends tw_net_ends(int socket);

typedef struct tw_addresses { char (*items)[TW_ADDRESS_TEXT]; size_t count; } tw_addresses;
/// The addresses by which other devices may reach this computer; none when it is on no network.
tw_addresses tw_net_addresses(tw_arena *arena);

/// Whether a Host header, given once, names us: the address asked for with the port; from this computer also as localhost.
bool tw_net_is_host(const tw_ends *ends, int port, const char *host);

#endif
