// SPDX-License-Identifier: GPL-3.0-or-later
/* The booklet. How many pages the contents take decides the numbers that stand in it; so they are laid out again until both agree
 * (the second time at the latest, but for a page that fills by a digit). */
#include "sheet/booklet.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "sheet/explode.h"
#include "sheet/pages.h"
#include "sheet/picture.h"
#include "sheet/space_views.h"
#include "sheet/two_up.h"

#define NAME_MM        8.0   // the title on the cover
#define PICTURE_MM     140.0
#define FRONT_TRIES    5
#define NUMBER_MM      2.5
#define NUMBER_FOOT_MM 5.2   // base line over the paper's border: printers reach it, and the frame begins at 10 (common practice)

/* ---- cover ---- */

/* The group with most pieces that can be drawn; -1: none. */
static int net_to_draw(const tw_paper_input *in)
{
    int best = -1;
    if (!in->space || !in->bodies) return -1;
    for (int i = 0; i < in->space->net_count; i++) {
        const tw_net *net = &in->space->nets[i];
        if (net->closed && net->count <= TW_VIEW_PIECES_MOST && (best < 0 || net->count > in->space->nets[best].count)) best = i;
    }
    return best;
}

static void add_picture(tw_pages *pages)
{
    int net = net_to_draw(pages->in);
    if (net < 0) return;
    tw_standing_list all = tw_standing_of(pages->arena, pages->in->bodies, pages->in->space, net, false);
    tw_picture picture = { .sight = tw_sight_pictorial(), .list = all.items, .count = all.count, .role = TW_ROLE_FRAME };
    tw_sheet *block = tw_scratch(pages->arena);
    double width = pages->room.x1 - pages->room.x0;
    tw_pages_gap(pages, 6.0);
    if (tw_picture_draw(block, &picture, (tw_box){ 0.0, -PICTURE_MM, width, 0.0 }) > 0.0) tw_pages_place(pages, block,
        PICTURE_MM);
    tw_pages_gap(pages, 6.0);
}

static const char *size_words(tw_pages *pages)
{
    int net = net_to_draw(pages->in);
    if (net < 0 || pages->in->space->nets[net].count < 2) return "";
    tw_spot size = tw_spot_less(pages->in->space->nets[net].most, pages->in->space->nets[net].least);
    return tw_format(pages->arena, "%s wide, %s deep, %s high. ", tw_paper_length(pages, size.x), tw_paper_length(pages, size.y),
                     tw_paper_length(pages, size.z));
}

static const char *wood_words(tw_pages *pages)
{
    const tw_job *job = pages->in->job;
    int count = 0;
    for (int i = 0; i < job->piece_count; i++) count += (int)job->pieces[i].count.value;
    double mass = pages->in->woods ? tw_set_mass_kg(job, pages->in->woods) : NAN;
    const char *weighs = isfinite(mass) ? tw_format(pages->arena, ", about %s of wood",
                                                    tw_mass_words(pages->arena, mass, job->figures)) : "";
    return tw_format(pages->arena, "%s in one set%s; %s to make.", tw_count_words(pages->arena, count, "piece", "pieces"), weighs,
                     tw_count_words(pages->arena, (int)job->sets.value, "set", "sets"));
}

/* A box at the foot: what to read before anything else. */
static void add_caution(tw_pages *pages, int overview_page)
{
    double width = pages->room.x1 - pages->room.x0;
    tw_sheet *block = tw_scratch(pages->arena);
    double y = tw_block_text(block, 2.0, -2.0, width - 4.0, TW_LOUD_MM, true, "Before a cutter turns");
    y = tw_block_text(block, 2.0, y, width - 4.0, TW_BODY_MM, false,
                      tw_format(pages->arena,
                                "Read the cautions of the overview, page %d, and those of each card. Guard eyes, ears and lungs; "
                                "keep hands away from cutters "
                                "and blades; cut the test piece first. Templates are true to size only when they are printed at "
                                "100 %%: check the scale bars. What is "
                                "reckoned is an estimate for a maker's judgement; where people stand, sit or sleep on it, local "
                                "codes and licensed practice decide.",
                                overview_page));
    tw_draw_box(block, TW_ROLE_CUT, 0.0, y, width, 0.0);
    tw_pages_place(pages, block, 2.0 - y);
}

static void add_cover(tw_pages *pages, int overview_page)
{
    const tw_job *job = pages->in->job;
    const char *shop = pages->in->shop->name.text ? pages->in->shop->name.text : "";
    tw_pages_new(pages, job->title.text, NULL);
    tw_pages_gap(pages, 4.0);
    tw_pages_text(pages, NAME_MM, true, job->title.text);
    tw_pages_text(pages, TW_LOUD_MM, false, tw_format(pages->arena, "Revision %s%s%s", job->revision.text, *shop
                                                      ? ", reckoned for: " : "", shop));
    const char *halt = tw_halt_words(pages->arena, pages->in->findings);
    if (halt) tw_pages_text(pages, TW_LOUD_MM, true, halt);
    add_picture(pages);
    tw_pages_text(pages, TW_LOUD_MM, false, tw_format(pages->arena, "%s%s", size_words(pages), wood_words(pages)));
    if (job->note.text && *job->note.text) tw_pages_text(pages, TW_BODY_MM, false, job->note.text);
    tw_pages_gap(pages, 4.0);
    add_caution(pages, overview_page);
}

/* ---- contents ---- */

/* A sheet that only goes on with the one before is not listed. */
static bool goes_on(const tw_paper_pages *paper, int page)
{
    const char *title = paper->pages[page]->title;
    return page > 0 && (tw_title_goes_on(title) || strcmp(title, paper->pages[page - 1]->title) == 0);
}

static int fill_rows(tw_pages *pages, const tw_papers *papers, int front, const char **cells)
{
    int rows = 0, number = front;
    for (int i = 0; i < papers->count; i++) {
        const tw_paper_pages *paper = &papers->items[i];
        for (int k = 0; k < paper->page_count; k++) {
            number++;
            if (goes_on(paper, k)) continue;
            const char **cell = cells + 3 * rows++;
            cell[0] = tw_format(pages->arena, "%d", number);
            cell[1] = k == 0 ? paper->title : "";
            cell[2] = strcmp(paper->pages[k]->title, paper->title) == 0 ? paper->purpose : paper->pages[k]->title;
        }
    }
    return rows;
}

static int pages_of(const tw_papers *papers)
{
    int count = 0;
    for (int i = 0; i < papers->count; i++) count += papers->items[i].page_count;
    return count;
}

static void add_contents(tw_pages *pages, const tw_papers *papers, int front)
{
    const tw_column columns[] = { { "Page", 14, TW_ANCHOR_RIGHT, false }, { "Paper", 52, TW_ANCHOR_LEFT, true },
                                  { "What is on it", 114, TW_ANCHOR_LEFT, false } };
    const char **cells = TW_NEW_ARRAY(pages->arena, const char *, (size_t)pages_of(papers) * 3 + 1);
    int rows = fill_rows(pages, papers, front, cells);
    tw_pages_new(pages, "Contents", NULL);
    tw_pages_text(pages, TW_TITLE_MM, true, "Contents");
    tw_pages_table(pages, columns, 3, TW_BODY_MM, cells, rows);
}

/* ---- the whole ---- */

static tw_paper_pages front_of(tw_arena *arena, const tw_paper_input *in, const tw_papers *papers, int front)
{
    tw_pages pages = tw_pages_begin(arena, in, "booklet", "Booklet", "Booklet",
                                    "all papers in one, with contents and page numbers");
    add_cover(&pages, front + 1);
    add_contents(&pages, papers, front);
    tw_paper_pages made = tw_pages_finish(&pages);
    return in->job->paper.value == TW_PAPER_A3 ? tw_two_to_a_sheet(arena, made) : made;
}

static const tw_sheet *numbered(tw_arena *arena, const tw_sheet *page, int number, int of)
{
    tw_sheet *copy = tw_sheet_new(arena, page->name, page->title, page->width_mm, page->height_mm);
    tw_draw_sheet(copy, page, 1.0, 0.0, 0.0);
    tw_draw_text(copy, page->width_mm - TW_PAGE_MARGIN_MM, NUMBER_FOOT_MM, NUMBER_MM, TW_ANCHOR_RIGHT,
                 tw_format(arena, "page %d of %d", number, of));
    return copy;
}

tw_paper_pages tw_booklet_make(tw_arena *arena, const tw_paper_input *input, const tw_papers *papers)
{
    assert(papers->count > 0);
    tw_paper_input with_bodies = *input;
    if (!with_bodies.bodies) with_bodies.bodies = papers->bodies;
    tw_paper_pages book = front_of(arena, &with_bodies, papers, 2);
    for (int i = 0, before = 2; i < FRONT_TRIES && book.page_count != before; i++) {
        before = book.page_count;
        book = front_of(arena, &with_bodies, papers, before);
    }
    int front = book.page_count, all = front + pages_of(papers), count = 0;
    const tw_sheet **pages = TW_NEW_ARRAY(arena, const tw_sheet *, (size_t)all);
    for (int i = 0; i < front; i++, count++) pages[count] = i == 0 ? book.pages[0] : numbered(arena, book.pages[i], i + 1, all);
    for (int i = 0; i < papers->count; i++)
        for (int k = 0; k < papers->items[i].page_count; k++, count++) pages[count] = numbered(arena, papers->items[i].pages[k],
            count + 1, all);
    book.pages = pages;
    book.page_count = count;
    return book;
}
