// SPDX-License-Identifier: GPL-3.0-or-later
/* Drawings for the screen. Layout: every drawing of every example at the width of a phone and of a desk. Links: an amount that a
 * dimension leads to is written into the job's text, the job is set out again, and the dimension must have moved. */
#define _POSIX_C_SOURCE 200809L
#include "check.h"

#include "examples.h"
#include "job/path.h"
#include "sheet/bodies.h"
#include "sheet/drawing.h"
#include "sheet/figures.h"
#include "sheet/writers.h"

#define PHONE_MM 90.0
#define DESK_MM 180.0
#define WIDE_MM 250.0
#define HAIR_MM 0.05

/* ---- every drawing of a job ---- */

typedef struct asked { const char *what, *name; } asked;
typedef struct asked_list { asked *items; size_t count, room; } asked_list;

static void ask(tw_arena *arena, asked_list *list, const char *what, const char *name)
{
    tw_array_make_room(arena, &list->items, list->count, &list->room, sizeof *list->items);
    list->items[list->count++] = (asked){ what, name };
}

static asked_list all_of(tw_arena *arena, const tw_paper_input *in)
{
    asked_list list = { 0 };
    ask(arena, &list, "whole", "");
    ask(arena, &list, "picture", "");
    ask(arena, &list, "apart", "");
    for (int i = 0; i < in->job->piece_count; i++) ask(arena, &list, "piece", in->job->pieces[i].name);
    for (int i = 0; i < in->job->piece_count; i++) ask(arena, &list, "grain", in->job->pieces[i].name);
    for (int i = 0; i < in->plan_count; i++) ask(arena, &list, in->plans[i].profile ? "profile" : "joint",
        in->plans[i].joint->name);
    for (int i = 0; i < in->templates->count; i++) ask(arena, &list, "template", in->templates->items[i].name);
    for (int i = 0; i < in->run->count; i++) ask(arena, &list, "card", tw_step_key(arena, in, i));
    return list;
}

static const tw_sheet *drawn(tw_arena *arena, const tw_paper_input *in, const char *what, const char *name, double wide_mm)
{
    return tw_drawing_make(arena, in, (tw_drawing_ask){ .what = what, .name = name, .width_mm = wide_mm });
}

/* Must there be such a drawing in an example? */
static bool is_due(const tw_paper_input *in, const asked *a)
{
    if (strcmp(a->what, "piece") == 0 || strcmp(a->what, "joint") == 0 || strcmp(a->what, "profile") == 0) return true;
    return strcmp(a->what, "whole") == 0 && in->space->tie_count > 0 && in->space->nets[0].closed;
}

/* ---- layout ---- */

static int faults_of(const tw_sheet *sheet, double wide_mm, tw_arena *arena, const char *whose, const asked *a)
{
    int overlaps, off, crossed = 0, faults = 0;
    // as on paper: a tail of a letter touches an arrow
    bool of_joint = strcmp(a->what, "joint") == 0 || strcmp(a->what, "card") == 0 || strcmp(a->what, "whole") == 0;
    const tw_overlap *through = of_joint ? NULL : tw_sheet_crossed_texts(sheet, arena, &crossed);
    if (crossed) print_error("%s, %s %s at %g: item %d runs through \"%s\"\n", whose, a->what, a->name, wide_mm,
        through[0].second, sheet->items[through[0].first].text);
    const tw_overlap *lying = tw_sheet_overlaps(sheet, arena, &overlaps);
    const int *out = tw_sheet_texts_off_paper(sheet, 0.0, arena, &off);
    if (overlaps) print_error("%s, %s %s at %g: \"%s\" lies on \"%s\"\n", whose, a->what, a->name, wide_mm,
        sheet->items[lying[0].first].text, sheet->items[lying[0].second].text);
    if (off) print_error("%s, %s %s at %g: \"%s\" is cut off\n", whose, a->what, a->name, wide_mm, sheet->items[out[0]].text);
    faults = (overlaps > 0) + (off > 0) + (crossed > 0);
    if (sheet->width_mm > wide_mm + HAIR_MM) { print_error("%s, %s %s: %.1f wide in place of %g\n", whose, a->what, a->name,
        sheet->width_mm, wide_mm); faults++; }
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind != TW_ITEM_TEXT || item->size_mm >= TW_DRAWING_TEXT_MM - 1e-9) continue;
        print_error("%s, %s %s at %g: \"%s\" is %.2f high\n", whose, a->what, a->name, wide_mm, item->text, item->size_mm);
        return faults + 1;
    }
    return faults;
}

static int faults_of_example(const char *folder, const char *lines, double wide_mm)
{
    tw_result *result = set_out_example(folder, lines, true);
    tw_paper_input in = tw_result_input(result);
    asked_list all = all_of(&result->arena, &in);
    int faults = 0;
    for (size_t i = 0; i < all.count; i++) {
        tw_arena arena = {0};
        const tw_sheet *sheet = drawn(&arena, &in, all.items[i].what, all.items[i].name, wide_mm);
        if (sheet) faults += faults_of(sheet, wide_mm, &arena, folder, &all.items[i]);
        else if (is_due(&in, &all.items[i])) { print_error("%s: no %s %s\n", folder, all.items[i].what,
            all.items[i].name); faults++; }
        tw_arena_finish(&arena);
    }
    tw_result_free(result);
    return faults;
}

static void look_at_all(const char *lines, double wide_mm)
{
    int faults = 0;
    assert_true(example_count >= 10);
    for (int e = 0; e < example_count; e += example_stride()) faults += faults_of_example(examples[e], lines, wide_mm);
    assert_int_equal(faults, 0);
}

static void every_drawing_is_clear_on_a_phone(void **state) { (void)state; look_at_all(NULL, PHONE_MM); }
static void every_drawing_is_clear_at_the_desk(void **state) { (void)state; look_at_all(NULL, DESK_MM); }
static void every_drawing_is_clear_in_fractions_on_a_wide_desk(void **state)
{
    (void)state;
    look_at_all("figures: in 1/64\nprojection: third angle\n", WIDE_MM);
}

/* ---- refusals ---- */

static tw_result    *table;
static tw_paper_input table_in;

static int set_out_table(void **state)
{
    find_examples(state);
    table = set_out_example("examples/reading-table", NULL, true);
    table_in = tw_result_input(table);
    return 0;
}

static int free_table(void **state)
{
    tw_result_free(table);
    return drop_examples(state);
}

static void expect_none(const char *what, const char *name)
{
    tw_arena arena = {0};
    if (drawn(&arena, &table_in, what, name, DESK_MM)) fail_msg("there should be no %s \"%s\"", what, name);
    tw_arena_finish(&arena);
}

static void what_there_is_not_is_not_drawn(void **state)
{
    (void)state;
    expect_none("elevation", "");
    expect_none("", "post");
    expect_none("piece", "Post");
    expect_none("piece", "");
    expect_none("joint", "post");
    expect_none("profile", "post to foot");
    expect_none("template", "T99");
    expect_none("grain", "lid");
    expect_none("card", "post to foot");
}

static void missing_words_and_names_are_no_drawing(void **state)
{
    (void)state;
    tw_arena arena = {0};
    assert_null(tw_drawing_make(&arena, &table_in, (tw_drawing_ask){ .name = "post", .width_mm = DESK_MM }));
    assert_null(tw_drawing_make(&arena, &table_in, (tw_drawing_ask){ .what = "piece", .width_mm = DESK_MM }));
    tw_arena_finish(&arena);
}

static void a_group_beyond_the_last_is_not_drawn(void **state)
{
    (void)state;
    tw_arena arena = {0};
    assert_non_null(tw_drawing_make(&arena, &table_in, (tw_drawing_ask){ .what = "whole", .number = 1, .width_mm = DESK_MM }));
    assert_null(tw_drawing_make(&arena, &table_in, (tw_drawing_ask){ .what = "whole", .number = 2, .width_mm = DESK_MM }));
    assert_null(tw_drawing_make(&arena, &table_in, (tw_drawing_ask){ .what = "apart", .number = 2, .width_mm = DESK_MM }));
    tw_arena_finish(&arena);
}

static void steps_without_a_template_have_no_picture(void **state)
{
    (void)state;
    tw_arena arena = {0};
    int with = 0, without = 0;
    for (int i = 0; i < table_in.run->count; i++) {
        const tw_step *step = &table_in.run->steps[i];
        bool copied = step->setup >= 0 && step->plan >= 0 && table_in.plans[step->plan].works[step->work].copied;
        const tw_sheet *sheet = drawn(&arena, &table_in, "card", tw_step_key(&arena, &table_in, i), DESK_MM);
        assert_int_equal(copied, sheet != NULL);
        with += copied;
        without += !copied;
    }
    assert_true(with > 3 && without > 3);
    tw_arena_finish(&arena);
}

static void widths_stay_within_their_limits(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const double asked_mm[] = { -5.0, 10.0, 70.0, 500.0, 1e6 };
    for (size_t i = 0; i < sizeof asked_mm / sizeof *asked_mm; i++) {
        const tw_sheet *sheet = drawn(&arena, &table_in, "picture", "", asked_mm[i]);
        double wanted = tw_max(TW_DRAWING_LEAST_MM, tw_min(TW_DRAWING_MOST_MM, asked_mm[i]));
        assert_true(sheet->width_mm > wanted - HAIR_MM && sheet->width_mm < wanted + HAIR_MM);
    }
    tw_arena_finish(&arena);
}

/* ---- only what is drawn is made ---- */

static void a_joint_makes_no_solids_of_other_pieces(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_paper_input in = table_in;
    const tw_bodies *bodies = in.bodies = tw_bodies_to_look_at(&arena, in.job, in.plans, in.plan_count, 0.1);
    assert_non_null(drawn(&arena, &in, "joint", "stretcher to post", DESK_MM));
    assert_non_null(drawn(&arena, &in, "piece", "post", DESK_MM));
    for (int i = 0; i < in.job->piece_count; i++) assert_null(bodies->pieces[i]);
    int made = 0;
    for (int p = 0; p < in.plan_count; p++)
        for (size_t k = 0; k < in.plans[p].part_count; k++) made += bodies->parts[p][k] != NULL;
    assert_int_equal(made, 1);  // the tusk
    assert_non_null(drawn(&arena, &in, "picture", "", DESK_MM));
    for (int i = 0; i < in.job->piece_count; i++) assert_non_null(bodies->pieces[i]);
    tw_arena_finish(&arena);
}

static void the_same_drawing_comes_twice(void **state)
{
    (void)state;
    tw_arena arena = {0};
    tw_gather svg[2] = { { .arena = &arena }, { .arena = &arena } };
    for (int i = 0; i < 2; i++) {
        tw_sink sink = tw_gather_sink(&svg[i]);
        tw_svg_put_screen(drawn(&arena, &table_in, "piece", "stretcher", DESK_MM), &sink);
    }
    assert_string_equal(tw_gathered(&svg[0]).bytes, tw_gathered(&svg[1]).bytes);
    tw_arena_finish(&arena);
}

/* ---- links ---- */

static const tw_item *text_from(const tw_sheet *sheet, const char *text, const char *from)
{
    for (size_t i = 0; i < sheet->count; i++) {
        const tw_item *item = &sheet->items[i];
        if (item->kind == TW_ITEM_TEXT && strcmp(item->text, text) == 0 && item->source.from
            && strcmp(item->source.from, from) == 0) return item;
    }
    fail_msg("no \"%s\" from %s", text, from);
    return NULL;
}

/* The reading table's own amounts, known by heart: its posts are 655 x 110 x 45 and carry stretchers at 190 and 480. */
static void dimensions_of_a_piece_lead_to_its_sizes_its_places_and_its_joints(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const tw_sheet *post = drawn(&arena, &table_in, "piece", "post", DESK_MM);
    text_from(post, "655.0", "pieces/post/length");
    text_from(post, "110.0", "pieces/post/width");
    text_from(post, "45.0", "pieces/post/thickness");
    text_from(post, "170.9", "joints/stretcher to post/at/1");
    text_from(post, "460.9", "joints/stretcher to post/at/2");
    text_from(post, "50.0", "joints/post to foot/depth");
    text_from(post, "12.5", "joints/post to foot/tenon thickness");
    tw_arena_finish(&arena);
}

static void dimensions_of_a_joint_lead_to_its_keys_given_or_proposed(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const tw_sheet *joint = drawn(&arena, &table_in, "joint", "stretcher to post", DESK_MM);
    text_from(joint, "38.0", "joints/stretcher to post/tenon width");
    text_from(joint, "9.0", "joints/stretcher to post/tusk thickness");
    text_from(joint, "45.0", "pieces/post/thickness");
    assert_string_equal(text_from(joint, "12.0", "joints/stretcher to post/reserve")->source.why,
        "joints/stretcher to post/reserve");
    tw_arena_finish(&arena);
}

static bool has_id(const tw_values *values, const char *id)
{
    for (size_t i = 0; i < values->count; i++)
        if (strcmp(values->items[i].id, id) == 0) return true;
    return false;
}

static bool has_path(const tw_values *values, const char *path)
{
    for (size_t i = 0; i < values->count; i++)
        if (strcmp(values->items[i].path, path) == 0) return true;
    return false;
}

static void all_links_lead_to_figures_that_there_are(void **state)
{
    (void)state;
    int links = 0, lost = 0;
    for (int e = 0; e < example_count; e += example_stride()) {
        tw_result *result = set_out_example(examples[e], NULL, true);
        tw_paper_input in = tw_result_input(result);
        tw_values values = tw_figure_list(&result->arena, &in);
        asked_list all = all_of(&result->arena, &in);
        for (size_t i = 0; i < all.count; i++) {
            bool leads = strcmp(all.items[i].what, "joint") == 0 || strcmp(all.items[i].what, "profile") == 0
                || strcmp(all.items[i].what, "template") == 0
                      || (strcmp(all.items[i].what, "piece") == 0 && e % 3 == 0);
            const tw_sheet *sheet = leads ? drawn(&result->arena, &in, all.items[i].what, all.items[i].name, DESK_MM) : NULL;
            for (size_t k = 0; sheet && k < sheet->count; k++) {
                tw_source s = sheet->items[k].source;
                links += s.from || s.why;
                if (s.why && !has_id(&values, s.why)) { print_error("%s, %s: no figure %s\n", examples[e], all.items[i].name,
                    s.why); lost++; }
                if (s.from && !has_path(&values, s.from)) { print_error("%s, %s: no amount %s\n", examples[e], all.items[i].name,
                    s.from); lost++; }
            }
        }
        tw_result_free(result);
    }
    assert_int_equal(lost, 0);
    assert_true(links > (example_stride() > 1 ? 50 : 300));
}

/* The law of the links: what is written where one leads moves what it shows. */

static tw_result *set_out_changed(const char *folder, const char *from, const char *value)
{
    tw_arena arena = {0};
    char *text = file_in(folder, "job.yaml"), *shop_name = tw_shop_named_by(text, strlen(text)),
        *shop = file_in(folder, shop_name ? shop_name : "shop.yaml");
    size_t count, bytes;
    const char *const *path = tw_path_split(&arena, from, &count);
    assert_non_null(path);
    const tw_change change = { .kind = TW_CHANGE_SET, .path = path, .path_count = count, .value = value };
    tw_changed *changed = tw_change_text(&(tw_change_request){ .file = TW_FILE_JOB, .text = text, .bytes = strlen(text),
        .name = "job.yaml", .changes = &change, .change_count = 1 });
    tw_result *result = NULL;
    if (tw_changed_is_good(changed)) {
        const char *now = tw_changed_text(changed, &bytes);
        result = tw_set_out(&(tw_request){ .job = now, .job_bytes = bytes, .job_name = folder, .shop = shop,
            .shop_bytes = strlen(shop), .shop_name = "shop.yaml", .papers = false });
    }
    tw_changed_free(changed);
    free(text);
    free(shop);
    free(shop_name);
    tw_arena_finish(&arena);
    return result;
}

static const tw_value *value_at(const tw_values *values, const char *path)
{
    for (size_t i = 0; i < values->count; i++)
        if (strcmp(values->items[i].path, path) == 0) return &values->items[i];
    return NULL;
}

/* All texts of a drawing that come from an amount, one after the other. */
static const char *texts_from(tw_arena *arena, const tw_sheet *sheet, const char *from)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    for (size_t i = 0; sheet && i < sheet->count; i++)
        if (sheet->items[i].source.from && strcmp(sheet->items[i].source.from, from) == 0) tw_putf(&sink, "%s | ",
            sheet->items[i].text);
    return tw_gathered(&all).length ? tw_gathered(&all).bytes : "";
}

typedef struct tally { int links, moved, unreadable, still; } tally;

static void try_link(tally *t, const char *folder, const asked *a, const tw_sheet *sheet, const tw_value *value, const char *from)
{
    tw_arena arena = {0};
    bool angle = strstr(value->unit, "°") != NULL;
    const char *written = angle ? tw_format(&arena, "%.4f deg", value->value * 180.0 / TW_PI + 1.0)
        : tw_format(&arena, "%.4f mm", value->value + 1.0);
    tw_result *changed = set_out_changed(folder, from, written);
    t->links++;
    if (!changed || tw_result_state(changed) == TW_STATE_WRONG) {
        t->unreadable++;
    } else {
        tw_paper_input in = tw_result_input(changed);
        const tw_sheet *now = drawn(&arena, &in, a->what, a->name, DESK_MM);
        bool moved = strcmp(texts_from(&arena, sheet, from), texts_from(&arena, now, from)) != 0;
        t->moved += moved;
        t->still += !moved;
        if (!moved) print_error("%s, %s %s: %s as %s moves none of %s\n", folder, a->what, a->name, from, written,
            texts_from(&arena, sheet, from));
    }
    tw_result_free(changed);
    tw_arena_finish(&arena);
}

static bool before(const tw_sheet *sheet, size_t at, const char *from)
{
    for (size_t i = 0; i < at; i++)
        if (sheet->items[i].source.from && strcmp(sheet->items[i].source.from, from) == 0) return true;
    return false;
}

static void try_links(tally *t, const char *folder, bool pieces)
{
    tw_result *result = set_out_example(folder, NULL, false);
    tw_paper_input in = tw_result_input(result);
    tw_values values = tw_figure_list(&result->arena, &in);
    asked_list all = all_of(&result->arena, &in);
    for (size_t i = 0; i < all.count; i++) {
        bool plan = strcmp(all.items[i].what, "joint") == 0 || strcmp(all.items[i].what, "profile") == 0;
        if (!plan && !(pieces && strcmp(all.items[i].what, "piece") == 0)) continue;
        const tw_sheet *sheet = drawn(&result->arena, &in, all.items[i].what, all.items[i].name, DESK_MM);
        for (size_t k = 0; k < sheet->count; k++) {
            const char *from = sheet->items[k].source.from;
            const tw_value *value = from && !before(sheet, k, from) ? value_at(&values, from) : NULL;
            if (value) try_link(t, folder, &all.items[i], sheet, value, from);
        }
    }
    tw_result_free(result);
}

static void an_amount_written_where_a_link_leads_moves_the_dimension(void **state)
{
    (void)state;
    tally t = { 0 };
    for (int e = 0; e < example_count; e += example_stride()) try_links(&t, examples[e], strstr(examples[e], "shaped-foot")
        || strstr(examples[e], "housing") || strstr(examples[e], "edge-lap"));
    print_message("# %d links: %d move, %d stay, %d cannot be read\n", t.links, t.moved, t.still, t.unreadable);
    assert_int_equal(t.still, 0);
    assert_true(t.moved > (example_stride() > 1 ? 10 : 150) && t.unreadable < t.links / 20);
}

/* ---- SVG for the screen ---- */

static const char *svg_of(tw_arena *arena, const tw_sheet *sheet, bool screen)
{
    tw_gather all = { .arena = arena };
    tw_sink sink = tw_gather_sink(&all);
    (screen ? tw_svg_put_screen : tw_svg_put)(sheet, &sink);
    return tw_gathered(&all).bytes;
}

static tw_sheet *sheet_of_three(tw_arena *arena)
{
    tw_sheet *sheet = tw_sheet_new(arena, "a", "Rail \"<one>\" & more", 80.0, 40.0);
    tw_draw_line(sheet, TW_ROLE_VISIBLE, 0, 0, 10, 10);
    tw_draw_text(sheet, 5, 5, 2.5, TW_ANCHOR_LEFT, "plain");
    tw_draw_source(sheet, (tw_source){ "pieces/a\"b/width", "pieces/a\"b/width" });
    tw_draw_text(sheet, 5, 10, 2.5, TW_ANCHOR_LEFT, "38.0");
    tw_draw_source(sheet, (tw_source){ NULL, "joints/x/web" });
    tw_draw_text(sheet, 5, 15, 2.5, TW_ANCHOR_LEFT, "7.2");
    tw_draw_source(sheet, (tw_source){ 0 });
    tw_draw_text(sheet, 5, 20, 2.5, TW_ANCHOR_LEFT, "after");
    return sheet;
}

static int times_in(const char *text, const char *part)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, part)); at += strlen(part)) count++;
    return count;
}

static void linked_texts_are_buttons_with_a_name_and_others_are_none(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const char *svg = svg_of(&arena, sheet_of_three(&arena), true);
    assert_non_null(strstr(svg,
        "class=\"t-from\" data-from=\"pieces/a&quot;b/width\" data-why=\"pieces/a&quot;b/width\" tabindex=\"0\" role=\"button\""));
    assert_non_null(strstr(svg, "aria-label=\"38.0, width of a&quot;b\">38.0</text>"));
    assert_non_null(strstr(svg, "class=\"t-why\" data-why=\"joints/x/web\" tabindex=\"0\""));
    assert_int_equal(times_in(svg, "role=\"button\""), 2);
    assert_int_equal(times_in(svg, "<text "), 4);
    tw_arena_finish(&arena);
}

static void the_screen_has_roles_as_classes_and_no_size_ground_or_style(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const char *svg = svg_of(&arena, sheet_of_three(&arena), true);
    assert_non_null(strstr(svg, "viewBox=\"0 0 80 40\""));
    assert_non_null(strstr(svg, "<g class=\"r-visible\" fill=\"none\""));
    assert_non_null(strstr(svg, "<g class=\"r-text\" fill=\"#000000\""));
    assert_non_null(strstr(svg, "aria-label=\"Rail &quot;&lt;one&gt;&quot; &amp; more\""));
    assert_null(strstr(svg, "mm\""));
    assert_null(strstr(svg, "#fff"));
    assert_null(strstr(svg, "style"));
    assert_null(strstr(svg, "<title"));
    tw_arena_finish(&arena);
}

static void paper_says_nothing_of_links(void **state)
{
    (void)state;
    tw_arena arena = {0};
    const char *svg = svg_of(&arena, sheet_of_three(&arena), false);
    assert_null(strstr(svg, "data-"));
    assert_null(strstr(svg, "class"));
    assert_null(strstr(svg, "button"));
    tw_arena_finish(&arena);
}

/* What the program's own file says of a piece that nothing is cut in, named with letters beyond ASCII. */
static void a_piece_without_joints_leads_to_its_three_sizes(void **state)
{
    (void)state;
    static const char *const job =
        "job: plain\nunits: mm\nshop: shop.yaml\npieces:\n  Brett \xC3\x9F 2: {count: 1, length: 300, width: 40, thickness: 20}\n";
    char *shop = file_in("examples/reading-table", "shop.yaml");
    tw_result *result = tw_set_out(&(tw_request){ .job = job, .job_bytes = strlen(job), .job_name = "job", .shop = shop,
        .shop_bytes = strlen(shop), .shop_name = "shop", .papers = true });
    assert_int_not_equal(tw_result_state(result), TW_STATE_WRONG);
    tw_paper_input in = tw_result_input(result);
    const tw_sheet *sheet = drawn(&result->arena, &in, "piece", "Brett \xC3\x9F 2", DESK_MM);
    assert_non_null(sheet);
    text_from(sheet, "300.0", "pieces/Brett \xC3\x9F 2/length");
    text_from(sheet, "40.0", "pieces/Brett \xC3\x9F 2/width");
    text_from(sheet, "20.0", "pieces/Brett \xC3\x9F 2/thickness");
    assert_null(drawn(&result->arena, &in, "grain", "Brett \xC3\x9F 2", DESK_MM));
    assert_null(drawn(&result->arena, &in, "whole", "", DESK_MM));
    tw_result_free(result);
    free(shop);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_there_is_not_is_not_drawn),
        cmocka_unit_test(missing_words_and_names_are_no_drawing),
        cmocka_unit_test(a_group_beyond_the_last_is_not_drawn),
        cmocka_unit_test(steps_without_a_template_have_no_picture),
        cmocka_unit_test(widths_stay_within_their_limits),
        cmocka_unit_test(a_joint_makes_no_solids_of_other_pieces),
        cmocka_unit_test(the_same_drawing_comes_twice),
        cmocka_unit_test(linked_texts_are_buttons_with_a_name_and_others_are_none),
        cmocka_unit_test(the_screen_has_roles_as_classes_and_no_size_ground_or_style),
        cmocka_unit_test(paper_says_nothing_of_links),
        cmocka_unit_test(a_piece_without_joints_leads_to_its_three_sizes),
        cmocka_unit_test(dimensions_of_a_piece_lead_to_its_sizes_its_places_and_its_joints),
        cmocka_unit_test(dimensions_of_a_joint_lead_to_its_keys_given_or_proposed),
        cmocka_unit_test(all_links_lead_to_figures_that_there_are),
        cmocka_unit_test(an_amount_written_where_a_link_leads_moves_the_dimension),
        cmocka_unit_test(every_drawing_is_clear_on_a_phone),
        cmocka_unit_test(every_drawing_is_clear_at_the_desk),
        cmocka_unit_test(every_drawing_is_clear_in_fractions_on_a_wide_desk),
    };
    return cmocka_run_group_tests(tests, set_out_table, free_table);
}
