// SPDX-License-Identifier: GPL-3.0-or-later
/* net: curves laid over each other, split where they meet, and the faces between them. Private to src/outline.
 *
 * Strands (whole curves between two nodes) go in. tw_net_tie() finds where they meet, splits them into edges, and makes
 * one edge of edges that lie on each other. Around each node the edges stand in the order of their directions; so each
 * side of each edge belongs to one ring that runs round a face. Which faces are wanted is the caller's matter. Because
 * whole faces are chosen, and not single edges, the border between chosen and other faces always closes, whatever the
 * rounding: this is what makes offset and overlay safe.
 *
 * Half-edge 2 e runs along edge e, 2 e + 1 back; face[h] is the ring to the left of half-edge h. */
#ifndef TW_NET_H
#define TW_NET_H

#include "outline/edge.h"

/// What lies on a side of a strand or edge: bits that only the caller understands.
typedef unsigned char tw_marks;

/// Regions that a net may hold, numbered from 0.
#define TW_NET_REGIONS 2

typedef struct tw_strand {
    tw_curve curve;
    int      from, to;     // nodes
    int      source;       // strands of one source that follow each other are one edge of the result
    int      first_stop;   // list of nodes along it, -1 at the end
    int      smooth_next;  // the strand that goes on smoothly from its end, or -1
    int      region;       // of whose border it is part, or -1
    tw_marks left, right;
} tw_strand;

typedef struct tw_stop { int node, after; } tw_stop;

typedef struct tw_net_edge {
    int      from, to, strand;
    double   chord, bulge;
    tw_point middle;
    tw_marks left, right;
    bool     gone;         // laid into another one
    int      turns[TW_NET_REGIONS];  // how many times more the border of each region winds about its left than about its right
} tw_net_edge;

typedef struct tw_net {
    tw_arena    *arena;    // for working memory
    double       near_mm, touch_mm;  // TW_NEAR_MM and TW_TOUCH_MM, unless the caller widens them after tw_net_start()
    tw_point    *nodes;    size_t node_count, node_room;
    int         *same_as;  // node that stands for it (itself, if it stands for itself); once tied, that one stands for itself
    tw_strand   *strands;  size_t strand_count, strand_room;
    tw_stop     *stops;    size_t stop_count, stop_room;
    tw_net_edge *edges;    int edge_count;
    int         *next;     // of half-edge: the half-edge that follows it round the face on its left
    int         *face;     int face_count;
} tw_net;

/// strands: how many are expected (more are taken too).
void tw_net_start(tw_net *net, tw_arena *arena, int strands);
int  tw_net_node(tw_net *net, tw_point point);
/// Adds a strand; from and to are nodes at the curve's ends (within a few TW_NEAR_MM).
void tw_net_add(tw_net *net, tw_curve curve, int from, int to, int source, tw_marks left, tw_marks right);
/// If the strand next begins at the end of the strand before and goes on in its direction, the two are not looked at
/// for other places where they meet.
void tw_net_note_smooth(tw_net *net, int before, int next);
/// Adds the edges of an outline as the border of a region; each is a source, numbered from first_source. Strands stand in
/// the order of tw_curves_of_outline().
void tw_net_add_outline(tw_net *net, tw_outline outline, int first_source, int region);
/// careful: also splits strands at nodes of others that lie on them; slower, for when the quick way does not work out.
/// Returns false when the rings cannot be those of a drawing on a plane: rounding has put edges in a wrong order.
bool tw_net_tie(tw_net *net, bool careful);

/// The faces about which the border of the region winds. It is told from the net alone where that lies on a plane; where it
/// does not, the middles of the edges are asked.
bool *tw_net_faces_within(const tw_net *net, int region);

/// The region made of the chosen faces, in tidy form. inside: for each face. Loops without area are left out.
tw_outline tw_net_outline(tw_net *net, tw_arena *arena, const bool *inside);
/// A copy whose loops begin and stand as those of tw_net_outline() do: lowest vertex first, largest loop first.
tw_outline tw_outline_ordered(tw_arena *arena, tw_outline outline);

#endif
