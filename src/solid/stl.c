// SPDX-License-Identifier: GPL-3.0-or-later
/* Binary STL: 80 bytes that do not begin with "solid", the number of triangles, then for each its unit normal and its three
 * corners as 32-bit floats and two bytes of nothing; all little endian (the layout as published; tests read it back). */
#include "solid/solid.h"

#include <string.h>

#include "base/bytes.h"

static void put_spot(tw_sink *sink, tw_spot spot)
{
    tw_put_float(sink, spot.x);
    tw_put_float(sink, spot.y);
    tw_put_float(sink, spot.z);
}

/* volatile: gcc 12 leaves the way to float and back out where it can reckon two parts at once. */
static double as_written(double value)
{
    volatile float single = (float)value;
    return (double)single;
}

/* As the file has it: the normal of a thin triangle is that of its rounded corners. */
static tw_spot rounded(tw_spot spot) { return (tw_spot){ as_written(spot.x), as_written(spot.y), as_written(spot.z) }; }

void tw_stl_put(const tw_solid *solid, const char *title, tw_sink *sink)
{
    char head[80] = "piece in mm: ";
    size_t used = strlen(head), length = strlen(title);
    memcpy(head + used, title, length < sizeof head - used ? length : sizeof head - used);
    tw_put(sink, head, sizeof head);
    tw_put_u32(sink, (uint32_t)solid->triangle_count);
    for (int i = 0; i < solid->triangle_count; i++) {
        const int *t = solid->triangles[i];
        tw_spot a = rounded(solid->points[t[0]]), b = rounded(solid->points[t[1]]), c = rounded(solid->points[t[2]]);
        tw_spot normal = tw_spot_cross(tw_spot_less(b, a), tw_spot_less(c, a));
        double size = tw_spot_size(normal);
        put_spot(sink, size > 0.0 ? tw_spot_times(normal, 1.0 / size) : (tw_spot){ 0, 0, 0 });
        put_spot(sink, a);
        put_spot(sink, b);
        put_spot(sink, c);
        tw_put(sink, "\0\0", 2);
    }
}
