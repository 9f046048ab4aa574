// SPDX-License-Identifier: GPL-3.0-or-later
/* Assembly: the size of the whole, three views, a picture, the whole drawn apart with the numbers of its steps, the orders of
 * putting together and taking apart with boxes to tick, and where each piece of one set stands. */
#include "sheet/pages.h"

#include "sheet/explode.h"
#include "sheet/picture.h"
#include "sheet/space_views.h"

#define VIEWS_HIGH_MM 150.0
#define PICTURE_HIGH_MM 86.0
#define PICTURE_LEAST_MM 58.0    // where the page leaves less it goes onto the next one
#define PICTURE_ALONE_MM 120.0   // and is larger there
#define PICTURE_HEADING_MM 16.0  // its heading and the space about it
#define APART_HIGH_MM 150.0
#define GROUPS_MOST 4        // groups that are told; the rest stands in job.json
#define ROWS_MOST 120        // pieces in the table
#define TICK_MM 3.5
#define SCREEN_HIGH_PER_WIDE 0.75  // on the screen: a drawing is at most so high, as a part of its width

/* Members of a net, in the order of the instances. */
static int *members_of(const tw_pages *pages, int net)
{
    const tw_space *space = pages->in->space;
    int *members = TW_NEW_ARRAY(pages->arena, int, (size_t)space->nets[net].count), count = 0;
    for (int i = 0; i < space->instance_count; i++)
        if (space->instances[i].net == net) members[count++] = i;
    return members;
}

static const char *name_of(const tw_pages *pages, int instance)
{
    return tw_instance_name(pages->arena, pages->in->job, &pages->in->space->instances[instance]);
}

/* It is drawn: no loop of it stays open, and its pieces are not too many. */
static bool is_drawn(const tw_paper_input *in, const tw_net *net)
{
    return net->closed && net->count <= TW_VIEW_PIECES_MOST && in->bodies != NULL;
}

/* True when joints of the net have parts that hold them and come out again: those may stand out, and are numbered. */
static bool parts_in(const tw_pages *pages, const tw_net *net)
{
    const tw_space *space = pages->in->space;
    for (size_t i = 0; i < space->tie_count; i++) {
        const tw_tie *tie = &space->ties[i];
        bool held = *tie->meeting->held_by && !tie->meeting->for_good && pages->in->plans[tie->plan].lodging_count > 0;
        if (held && &space->nets[space->instances[tie->base].net] == net) return true;
    }
    return false;
}

static void add_size(tw_pages *pages, const tw_net *net)
{
    tw_spot size = tw_spot_less(net->most, net->least);
    tw_pages_text(pages, TW_LOUD_MM, true,
                  tw_format(pages->arena, "%s wide, %s deep, %s high", tw_paper_length(pages, size.x), tw_paper_length(pages, size.y),
                            tw_paper_length(pages, size.z)));
    tw_pages_text(pages, TW_BODY_MM, false,
                  tw_format(pages->arena, "Over %d pieces%s. Up is the %s of %s: %s.", net->count,
                            parts_in(pages, net) ? "; tusks, pegs and bolts are drawn, but not measured with them" : "", tw_face_words[net->up],
                            name_of(pages, net->first), net->up_why));
}

static void add_loops(tw_pages *pages, int net)
{
    const tw_space *space = pages->in->space;
    double worst = 0.0;
    int count = 0;
    for (size_t i = 0; i < space->ring_count; i++) {
        if (space->rings[i].net != net) continue;
        worst = tw_max(worst, space->rings[i].open_mm);
        count++;
    }
    if (count == 0) return;
    tw_pages_text(pages, TW_BODY_MM, false,
                  tw_format(pages->arena, "%s of pieces, open by %s%s as drawn; more than %s would be a halt.", tw_count_words(pages->arena, count, "loop", "loops"),
                            tw_opening_words(pages->arena, pages->in->job, worst), count > 1 ? " at most" : "",
                            tw_opening_words(pages->arena, pages->in->job, TW_LOOP_OPEN_MM)));
}

/* ---- steps ---- */

static void add_steps(tw_pages *pages, const char *title, const tw_move *moves, size_t count)
{
    double width = pages->room.x1 - pages->room.x0;
    if (count == 0) return;
    tw_pages_heading(pages, title, 12.0);
    for (size_t i = 0; i < count; i++) {
        tw_sheet *block = tw_scratch(pages->arena);
        tw_draw_tick_box(block, 0.0, -TICK_MM, TICK_MM);
        tw_draw_bold(block, 6.0, -TW_BODY_MM - 0.5, TW_BODY_MM, TW_ANCHOR_LEFT, tw_format(pages->arena, "%zu", i + 1));
        double y = tw_block_text(block, 13.0, -0.5, width - 13.0, TW_BODY_MM, false, tw_sentence(pages->arena, moves[i].text));
        tw_pages_place(pages, block, tw_max(-y, TICK_MM + 1.2));
    }
}

static void add_orders(tw_pages *pages, const tw_net *net)
{
    if (net->apart_count == 0 && net->together_count == 0) return;
    add_steps(pages, "Taken apart", net->apart, net->apart_count);
    add_steps(pages, "Put together", net->together, net->together_count);
    tw_pages_text(pages, TW_SMALL_MM, false,
                  "What is drawn off stands no longer by itself, and neither may the rest: have a second pair of hands, or blocks under it, before a joint comes free. "
                  "Keep fingers out from under shoulders, and knock with a block between mallet and wood.");
}

/* ---- where each stands ---- */

static void fill_row(const tw_pages *pages, int instance, const tw_net *net, const char **cell)
{
    const tw_space *space = pages->in->space;
    tw_block box = tw_instance_block(space, instance);
    cell[0] = name_of(pages, instance);
    cell[1] = tw_paper_bare(pages, box.least.x - net->least.x);
    cell[2] = tw_paper_bare(pages, box.least.y - net->least.y);
    cell[3] = tw_paper_bare(pages, box.least.z - net->least.z);
    cell[4] = tw_direction_words(pages->arena, space->instances[instance].pose.x);
    cell[5] = tw_direction_words(pages->arena, space->instances[instance].pose.z);
}

static void add_table(tw_pages *pages, const tw_net *net, const int *members)
{
    const tw_column columns[] = { { "Piece", 46, TW_ANCHOR_LEFT, true }, { "From the left", 25, TW_ANCHOR_RIGHT, false },
                                  { "From the front", 25, TW_ANCHOR_RIGHT, false }, { "From the floor", 25, TW_ANCHOR_RIGHT, false },
                                  { "Right end looks", 28, TW_ANCHOR_LEFT, false }, { "Face looks", 28, TW_ANCHOR_LEFT, false } };
    int rows = net->count > ROWS_MOST ? ROWS_MOST : net->count;
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)rows * 6);
    for (int i = 0; i < rows; i++) fill_row(pages, members[i], net, cells + 6 * i);
    tw_pages_heading(pages, "Where each piece stands", 16.0);
    tw_pages_table(pages, columns, 6, TW_SMALL_MM, cells, rows);
    if (rows < net->count) tw_pages_text(pages, TW_SMALL_MM, false, tw_format(pages->arena, "And %d more: job.json has them.", net->count - rows));
}

/* ---- pictures ---- */

static void place_picture(tw_pages *pages, const tw_picture *picture, double high_mm)
{
    tw_sheet *block = tw_scratch(pages->arena);
    double width = pages->room.x1 - pages->room.x0;
    if (tw_picture_draw(block, picture, (tw_box){ 0.0, -high_mm, width, 0.0 }) > 0.0) tw_pages_place(pages, block, high_mm + 2.0);
}

/* What the page leaves, within bounds. */
static double picture_high(const tw_pages *pages)
{
    double left = pages->y - pages->room.y0 - PICTURE_HEADING_MM;
    return left >= PICTURE_LEAST_MM ? tw_min(PICTURE_HIGH_MM, left) : PICTURE_ALONE_MM;
}

static tw_picture home_picture(const tw_standing_list *all)
{
    return (tw_picture){ .sight = tw_sight_pictorial(), .list = all->items, .count = all->count, .role = TW_ROLE_FRAME };
}

static void add_picture(tw_pages *pages, int net)
{
    double high = picture_high(pages);
    tw_standing_list all = tw_standing_of(pages->arena, pages->in->bodies, pages->in->space, net, false);
    tw_picture picture = home_picture(&all);
    tw_pages_heading(pages, "As it stands", high + 4.0);
    place_picture(pages, &picture, high);
}

/* Names of what no step moves. */
static const char *staying_names(const tw_pages *pages, const tw_standing_list *all)
{
    const char *text = "";
    for (int i = 0; i < all->count; i++)
        if (all->step_of[i] == 0 && all->items[i].mark >= 0) text = tw_format(pages->arena, "%s%s%s", text, *text ? ", " : "", name_of(pages, all->items[i].mark));
    return text;
}

/* The whole drawn apart, each with its step; no marks when nothing comes apart. */
static tw_picture apart_picture(tw_arena *arena, const tw_standing_list *all)
{
    tw_picture_mark *marks = TW_NEW_ARRAY(arena, tw_picture_mark, (size_t)all->count);
    int mark_count = 0;
    for (int i = 0; i < all->count; i++)
        if (all->step_of[i] > 0) marks[mark_count++] = (tw_picture_mark){ i, tw_format(arena, "%d", all->step_of[i]) };
    return (tw_picture){ .sight = tw_sight_pictorial(), .list = all->items, .count = all->count, .marks = marks,
        .mark_count = mark_count, .role = TW_ROLE_FRAME };
}

static bool comes_apart(const tw_net *net) { return net->ordered && net->apart_count > 0; }

static void add_apart(tw_pages *pages, int index, const char *title)
{
    const tw_net *net = &pages->in->space->nets[index];
    if (!comes_apart(net)) return;
    tw_standing_list all = tw_standing_of(pages->arena, pages->in->bodies, pages->in->space, index, true);
    tw_picture picture = apart_picture(pages->arena, &all);
    if (picture.mark_count == 0) return;
    tw_pages_new(pages, tw_format(pages->arena, "%s, drawn apart", title), "not to scale");
    tw_pages_text(pages, TW_TITLE_MM, true, "Drawn apart");
    tw_pages_text(pages, TW_BODY_MM, false, parts_in(pages, net)
        ? "The number at a piece is the step in which it comes off; at a tusk, a peg or a bolt, the step in which it is taken out, with what lies beside it. Put together, it goes backwards."
        : "The number at a piece is the step in which it comes off. Put together, it goes backwards.");
    place_picture(pages, &picture, APART_HIGH_MM);
    const char *staying = staying_names(pages, &all);
    if (*staying) tw_pages_text(pages, TW_BODY_MM, false, tw_format(pages->arena, "What stays to the end: %s.", staying));
}

/* ---- groups ---- */

static void add_group(tw_pages *pages, int index)
{
    const tw_space *space = pages->in->space;
    const tw_net *net = &space->nets[index];
    int *members = members_of(pages, index);
    tw_sheet *views = tw_scratch(pages->arena);
    const char *scale = NULL, *title = index == 0 ? "Assembly" : tw_format(pages->arena, "Assembly, group of %s", name_of(pages, net->first));
    double height = 0.0;
    bool drawn = is_drawn(pages->in, net);
    if (drawn) scale = tw_views_draw(views, pages->in->bodies, space, index, pages->room.x1 - pages->room.x0, VIEWS_HIGH_MM, &height);
    tw_pages_new(pages, title, scale);
    tw_pages_text(pages, TW_TITLE_MM, true, title);
    const char *halt = tw_halt_words(pages->arena, pages->in->findings);
    if (halt) tw_pages_text(pages, TW_LOUD_MM, true, halt);
    add_size(pages, net);
    add_loops(pages, index);
    if (drawn) {
        tw_pages_place(pages, views, height);
        add_picture(pages, index);
    } else {
        tw_pages_text(pages, TW_BODY_MM, false, net->closed ? tw_format(pages->arena, "Of more than %d pieces no views are drawn.", TW_VIEW_PIECES_MOST)
                                                            : "A loop stays open, so no views are drawn: the findings say which, and what would close it.");
    }
    if (drawn) add_apart(pages, index, title);
    add_orders(pages, net);
    add_table(pages, net, members);
}

tw_paper_pages tw_paper_assembly(tw_arena *arena, const tw_paper_input *in)
{
    if (!in->space || in->space->tie_count == 0) return (tw_paper_pages){ .page_count = 0 };
    tw_pages pages = tw_pages_begin(arena, in, "assembly", "Assembly", "Assembly",
                                    "the whole from three sides, the orders of putting together and taking apart, where each piece stands");
    int told = 0, left = 0;
    for (int i = 0; i < in->space->net_count; i++) {
        if (in->space->nets[i].count < 2) continue;
        if (told == GROUPS_MOST) left++;
        else { add_group(&pages, i); told++; }
    }
    if (left > 0) tw_pages_text(&pages, TW_BODY_MM, false, tw_format(pages.arena, "And %d more groups: job.json has them.", left));
    return tw_pages_finish(&pages);
}

/* ---- on the screen ---- */

static tw_sheet *screen_sheet(tw_arena *arena, double least_text_mm)
{
    tw_sheet *sheet = tw_scratch(arena);
    sheet->least_text_mm = least_text_mm;
    return sheet;
}

int tw_group_net(const tw_paper_input *in, int number)
{
    for (int i = 0; in->space && i < in->space->net_count; i++)
        if (in->space->nets[i].count >= 2 && --number == 0) return i;
    return -1;
}

tw_sheet *tw_whole_drawing(tw_arena *arena, const tw_paper_input *in, int net, double wide_mm, double least_text_mm)
{
    if (!is_drawn(in, &in->space->nets[net])) return NULL;
    tw_sheet *sheet = screen_sheet(arena, least_text_mm);
    double height;
    tw_views_draw(sheet, in->bodies, in->space, net, wide_mm, tw_max(VIEWS_HIGH_MM, SCREEN_HIGH_PER_WIDE * wide_mm), &height);
    return sheet;
}

tw_sheet *tw_whole_picture(tw_arena *arena, const tw_paper_input *in, int net, bool apart, double wide_mm, double least_text_mm)
{
    if (!is_drawn(in, &in->space->nets[net]) || (apart && !comes_apart(&in->space->nets[net]))) return NULL;
    tw_sheet *sheet = screen_sheet(arena, least_text_mm);
    tw_standing_list all = tw_standing_of(arena, in->bodies, in->space, net, apart);
    tw_picture picture = apart ? apart_picture(arena, &all) : home_picture(&all);
    if (apart && picture.mark_count == 0) return NULL;
    tw_picture_draw(sheet, &picture, (tw_box){ 0.0, -SCREEN_HIGH_PER_WIDE * wide_mm, wide_mm, 0.0 });
    return sheet->count > 0 ? sheet : NULL;
}
