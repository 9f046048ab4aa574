// SPDX-License-Identifier: GPL-3.0-or-later
/* The starting design of a box: four boards on edge, notched into each other, and a loose bottom. Its proportions are
 * common practice; begin.h tells the form of the text. */
#include "begin/begin.h"

const tw_design tw_design_box = {
    .kind = "box",
    .opening =
        "# A box without glue: four boards on edge that are notched into each other near their ends, and a loose bottom.\n"
        "# Change the amounts above the line first: the rest follows from them. Then look at each piece and joint.\n",
    .title = "Box",
    .amounts =
        "amounts:\n"
        "  length: <420|16 1/2>  # inside\n"
        "  height: <130|5>  # of the boards\n"
        "  depth: <280|11>  # inside, from front to back\n"
        "  stock: <15|5/8>  # thickness of the boards\n"
        "  # ---- what follows from them ----\n"
        "  past the corner: 2.5 * stock  # wood beyond the notch: a short end breaks off along the grain\n",
    .pieces =
        "pieces:\n"
        "  long board:\n"
        "    count: 2\n"
        "    length: length + 2 * (short board.thickness + past the corner)\n"
        "    width: height  # it stands on edge\n"
        "    thickness: stock\n"
        "    timber: Ash, white\n"
        "  short board:\n"
        "    count: 2\n"
        "    length: depth + 2 * (long board.thickness + past the corner)\n"
        "    width: height\n"
        "    thickness: stock\n"
        "    timber: Ash, white\n"
        "  bottom:  # loose, on battens; a little smaller than the room for it\n"
        "    count: 1\n"
        "    length: length - <2|1/16>\n"
        "    width: depth - <2|1/16>\n"
        "    thickness: 0.7 * stock\n"
        "    timber: Ash, white\n",
    .joints =
        "joints:\n"
        "  short board over long board:\n"
        "    kind: edge lap\n"
        "    over: short board  # comes from above; notched at its lower edge\n"
        "    over at: [past the corner + stock / 2, short board.length - past the corner - stock / 2]\n"
        "    under: long board  # stands below; notched at its upper edge\n"
        "    under at: [past the corner + stock / 2, long board.length - past the corner - stock / 2]\n"
        "    fit: dry  # plane the boards first, and hold the real board to each notch\n",
};
