// SPDX-License-Identifier: GPL-3.0-or-later
/* sections: what a piece is square to its grain, and from that its volume and its middle.
 *
 * At x the section is what all cuts leave of width x thickness. Lines along y through it are parted exactly (fibres.h); over z
 * they are added up by Gauss's rule, between the marks (marks.h) where the section changes its shape:
 *
 *     A = integral of dA,   y0 = (integral of y dA)/A,   I about the axis along y = integral of (z - z0)^2 dA    (1)
 *     V = integral of A dx,   centre = (integral of (x, y0, z0) A dx)/V                                          (2)
 *     strong, weak = (Iy + Iz)/2 +- sqrt(((Iy - Iz)/2)^2 + Iyz^2)                                               (3)
 *
 * With walls square to the piece's sides the sums are exact; where walls slope or bend they go in small steps, denser towards
 * the marks (z = a + (b - a) s^2 (3 - 2 s), which takes the root at the end of an arc away). A wall of one cut that slopes
 * through a wall of another has a corner that is no mark: there the sum is good to a step's square. */
#ifndef TW_SECTIONS_H
#define TW_SECTIONS_H

#include "piece/fibres.h"

typedef struct tw_slice {
    double x_mm, area_mm2;
    double y_mm, z_mm;              // its centroid
    double about_y_mm4, about_z_mm4;  // second moments: bending through the thickness, and on edge through the width
    double strong_mm4, weak_mm4;    // about its own two main axes (3)
} tw_slice;

/// area 0: there is no wood at x, and the rest is 0. x within the piece.
tw_slice tw_slice_at(tw_wood *wood, double x_mm);

typedef struct tw_bulk {
    double     volume_mm3;
    tw_spot    centre;          // of mass, for wood of even weight
    tw_slice least_area, least_about_y, least_about_z;  // the weakest sections; ends that come to a point or slope do not count
    bool       severed;         // no wood at all at some place between the ends: the piece falls in two
    double     severed_at_mm;
} tw_bulk;

tw_bulk tw_bulk_make(tw_wood *wood);

#endif
