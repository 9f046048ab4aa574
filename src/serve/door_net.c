// SPDX-License-Identifier: GPL-3.0-or-later
/* Sockets and addresses. */
#define _GNU_SOURCE
#include "serve/door_net.h"

#include <arpa/inet.h>
#include <errno.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

#define WAITING_MOST 128  // connections that the system holds until they are taken in

static const char *reason_of(tw_arena *arena, int error, int port)
{
    if (error == EADDRINUSE)
        return tw_format(arena, "port %d is in use by another program; end that one, give another --port, or leave it out for "
                         "a free one", port);
    if (error == EACCES || error == EPERM)
        return tw_format(arena, "port %d is not for you to take; give one from 1024 to 65535, or leave --port out for a free "
                         "one", port);
    return tw_format(arena, "cannot listen for a browser: %s", strerror(error));
}

int tw_net_listen(tw_arena *arena, bool on_network, int *port, const char **why)
{
    struct sockaddr_in address = { .sin_family = AF_INET, .sin_port = htons((uint16_t)*port),
                                   .sin_addr.s_addr = htonl(on_network ? INADDR_ANY : INADDR_LOOPBACK) };
    socklen_t size = sizeof address;
    int on = 1, listener = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
    bool good = listener >= 0 && setsockopt(listener, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on) == 0 &&
                bind(listener, (struct sockaddr *)&address, size) == 0 && listen(listener, WAITING_MOST) == 0 &&
                getsockname(listener, (struct sockaddr *)&address, &size) == 0;
    if (good) {
        *port = ntohs(address.sin_port);
        return listener;
    }
    *why = reason_of(arena, errno, *port);
    if (listener >= 0) close(listener);
    return -1;
}

static bool is_loopback(uint32_t address) { return address >> 24 == 127; }

tw_ends tw_net_ends(int socket)
{
    struct sockaddr_in peer = { .sin_family = AF_INET }, local = peer;
    socklen_t peer_size = sizeof peer, local_size = sizeof local;
    tw_ends ends = { .peer = 0 };
    if (getpeername(socket, (struct sockaddr *)&peer, &peer_size) != 0) return ends;
    if (getsockname(socket, (struct sockaddr *)&local, &local_size) != 0) return ends;
    ends.peer = ntohl(peer.sin_addr.s_addr);
    ends.from_here = is_loopback(ends.peer) && is_loopback(ntohl(local.sin_addr.s_addr));
    inet_ntop(AF_INET, &local.sin_addr, ends.local, sizeof ends.local);
    return ends;
}

tw_addresses tw_net_addresses(tw_arena *arena)
{
    tw_addresses list = { 0 };
    size_t room = 0;
    struct ifaddrs *all = NULL;
    if (getifaddrs(&all) != 0) return list;
    for (const struct ifaddrs *one = all; one; one = one->ifa_next) {
        if (!one->ifa_addr || one->ifa_addr->sa_family != AF_INET || !(one->ifa_flags & IFF_UP) ||
            (one->ifa_flags & IFF_LOOPBACK)) continue;
        struct sockaddr_in address;
        memcpy(&address, one->ifa_addr, sizeof address);
        tw_array_make_room(arena, &list.items, list.count, &room, sizeof *list.items);
        if (inet_ntop(AF_INET, &address.sin_addr, list.items[list.count], TW_ADDRESS_TEXT)) list.count++;
    }
    freeifaddrs(all);
    return list;
}

bool tw_net_is_host(const tw_ends *ends, int port, const char *host)
{
    static const char *const here[] = { "127.0.0.1", "localhost", "[::1]" };
    tw_arena arena = { 0 };
    bool found = false;
    if (ends->from_here)
        for (size_t i = 0; i < sizeof here / sizeof *here; i++)
            found |= strcmp(host, tw_format(&arena, "%s:%d", here[i], port)) == 0;
    found |= ends->local[0] != '\0' && strcmp(host, tw_format(&arena, "%s:%d", ends->local, port)) == 0;
    tw_arena_finish(&arena);
    return found;
}
