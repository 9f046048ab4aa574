// SPDX-License-Identifier: GPL-3.0-or-later
/* The starting design of a stand for a board: two posts on feet, two rails with single tusks. Its proportions are
 * common practice; begin.h tells the form of the text. */
#include "begin/begin.h"

const tw_design tw_design_board_stand = {
    .kind = "stand for a board",
    .opening =
        "# A stand for a board to write or pin on: two posts on feet, two rails that tusks draw home. The board hangs between.\n"
        "# Change the amounts above the line first: the rest follows from them. Then look at each piece and joint.\n",
    .title = "Stand for a board",
    .amounts =
        "amounts:\n"
        "  length: <1200|48>  # between the posts: the board, and a finger's breadth\n"
        "  height: <1500|60>  # of the whole\n"
        "  depth: <520|20>  # of the feet, from front to back: a short foot tips\n"
        "  stock: <36|1 3/8>  # thickness of the posts\n"
        "  # ---- what follows from them ----\n"
        "  past the post: 1.2 * stock + <20|3/4>  # for the tusk, and wood beyond it: short grain there breaks out\n"
        "  into the foot: 0.6 * foot.width\n",
    .pieces =
        "pieces:\n"
        "  foot:  # its width is its height as it stands\n"
        "    count: 2\n"
        "    length: depth\n"
        "    width: 1.7 * stock\n"
        "    thickness: 1.3 * stock\n"
        "    timber: Oak, white\n"
        "  post:  # its length holds the tenon into the foot\n"
        "    count: 2\n"
        "    length: height - foot.width + into the foot\n"
        "    width: 2.2 * stock\n"
        "    thickness: stock\n"
        "    timber: Oak, white\n"
        "  rail:  # its length holds both tenons and what stands past the posts\n"
        "    count: 2\n"
        "    length: length + 2 * (post.thickness + past the post)\n"
        "    width: 2 * stock\n"
        "    thickness: stock\n"
        "    timber: Ash, white\n",
    .joints =
        "joints:\n"
        "  post to foot:\n"
        "    kind: mortise and tenon\n"
        "    tenon: post\n"
        "    ends: left\n"
        "    into: foot\n"
        "    from: back edge  # the upper side of the foot\n"
        "    at: foot.length / 2\n"
        "    depth: into the foot\n"
        "    fit: glued  # dry: it comes apart too, and wants a peg to lift it by the posts\n"
        "  rail to post:\n"
        "    kind: single tusk\n"
        "    tenon: rail\n"
        "    ends: both\n"
        "    through: post\n"
        "    from: back  # the sides of the posts that look at each other\n"
        "    at: [0.2 * post.length, 0.9 * post.length]\n"
        "    tenon width: min(0.6 * rail.width, <44|1 3/4>)\n"
        "    tenon thickness: 0.75 * rail.thickness\n"
        "    beyond: past the post\n"
        "    angle: 5 deg  # 4 to 5 degrees are common practice; a steeper wedge works loose\n",
};
