// SPDX-License-Identifier: GPL-3.0-or-later
/* The pages docs/job-file.md and docs/shop-file.md. What is said of a key comes from its row, and what an amount comes to is
 * reckoned by the reader itself, so the pages cannot say anything else than the reader does. */
#include "job/job.h"
#include "job/reader.h"
#include "job/sums.h"
#include "job/tables.h"

typedef struct page { tw_sink *sink; tw_arena arena; } page;

static void put(page *p, const char *text) { tw_put_text(p->sink, text); }

/* ---- one row ---- */

static tw_want want_of(const tw_key *key)
{
    if (key->kind == TW_KEY_LENGTH || key->kind == TW_KEY_LENGTHS) return TW_WANT_LENGTH;
    return key->kind == TW_KEY_ANGLE ? TW_WANT_ANGLE : TW_WANT_NUMBER;
}

static bool is_amount(const tw_key *key)
{
    return key->kind == TW_KEY_LENGTH || key->kind == TW_KEY_LENGTHS || key->kind == TW_KEY_ANGLE ||
           key->kind == TW_KEY_NUMBER || key->kind == TW_KEY_COUNT;
}

static const char *amount(page *p, const tw_key *key, double value) { return tw_amount_in_words(&p->arena, want_of(key), value, 0); }

static const char *range(page *p, const tw_key *key)
{
    bool own = key->least != 0.0 || key->most != 0.0;
    if (own) return tw_format(&p->arena, ", %s to %s", amount(p, key, key->least), amount(p, key, key->most));
    switch (key->kind) {
    case TW_KEY_LENGTH: case TW_KEY_LENGTHS: return tw_format(&p->arena, ", more than 0, at most %g mm", TW_LENGTH_MOST_MM);
    case TW_KEY_ANGLE: return ", 0 to 90 deg";
    case TW_KEY_COUNT: return tw_format(&p->arena, ", 1 to %d", TW_COUNT_MOST);
    default: return "";
    }
}

static const char *what_is_written(page *p, const tw_key *key)
{
    switch (key->kind) {
    case TW_KEY_TEXT: return tw_format(&p->arena, "a text, at most %d characters", key->most > 0.0 ? (int)key->most : TW_TITLE_MOST);
    case TW_KEY_LENGTH: return tw_format(&p->arena, "a length%s", range(p, key));
    case TW_KEY_LENGTHS: return tw_format(&p->arena, "a length or a list of lengths%s", range(p, key));
    case TW_KEY_ANGLE: return tw_format(&p->arena, "an angle%s", range(p, key));
    case TW_KEY_NUMBER: return tw_format(&p->arena, "a number%s", range(p, key));
    case TW_KEY_COUNT: return tw_format(&p->arena, "a whole number%s", range(p, key));
    case TW_KEY_YES_NO: return "`yes` or `no`";
    case TW_KEY_CHOICE: return key->choices ? tw_words_list(&p->arena, key->choices) : "one of the kinds below";
    case TW_KEY_PIECE: return "the name of a piece";
    case TW_KEY_CUTTER: return "the name of a cutter of the shop";
    case TW_KEY_FOLLOWER: return "the name of a follower of the shop";
    case TW_KEY_FIGURES: return "`mm 1`, `mm 0.1`, `mm 0.01`, `mm 0.001`, `in 0.1` to `in 0.0001`, or `in 1/2`, `in 1/4` to `in 1/64`";
    }
    return "";
}

static const char *when_left_out(page *p, const tw_key *key)
{
    if (key->required) return "must be given";
    if (key->otherwise) return key->otherwise;
    if (is_amount(key)) return amount(p, key, key->preset);
    if (key->kind == TW_KEY_YES_NO) return key->fallback ? "yes" : "no";
    if (key->kind == TW_KEY_CHOICE) return key->choices[key->fallback];
    return "nothing";
}

static void put_row(page *p, const tw_key *key)
{
    tw_putf(p->sink, "| `%s` | %s | %s | %s", key->name, what_is_written(p, key), when_left_out(p, key), key->meaning);
    bool shown = key->example && key->kind != TW_KEY_YES_NO && !(key->kind == TW_KEY_CHOICE && key->choices);
    tw_putf(p->sink, shown ? " For instance `%s`. |\n" : " |\n", key->example);
}

static void put_rows(page *p, const tw_key *keys, int count)
{
    put(p, "| key | what is written | when it is left out | what it says |\n|---|---|---|---|\n");
    for (int i = 0; i < count; i++) put_row(p, &keys[i]);
    put(p, "\n");
}

static void put_section(page *p, const tw_section *section)
{
    tw_putf(p->sink, "## `%s:`\n\n%s", section->name, section->meaning);
    tw_putf(p->sink, section->required ? " Must be there.\n\n" : " May be left out.\n\n");
    if (section->example) tw_putf(p->sink, "```yaml\n%s\n```\n\n", section->example);
    if (section->keys && section->entry) tw_putf(p->sink, "The keys of one %s:\n\n", section->entry);
    if (section->keys) put_rows(p, section->keys, section->count);
}

/* ---- amounts ---- */

static void put_amount_row(page *p, const char *written, const char *unit, bool angle)
{
    double value;
    const char *why;
    bool good = angle ? tw_angle_read(&p->arena, tw_text_of(written), &value, &why)
                      : tw_length_read(&p->arena, tw_text_of(written), unit, &value, &why);
    const char *comes_to = good ? tw_amount_in_words(&p->arena, angle ? TW_WANT_ANGLE : TW_WANT_LENGTH, value, 0) : why;
    tw_putf(p->sink, "| `%s` | %s |\n", written, comes_to);
}

static void put_amounts(page *p)
{
    static const char *const lengths[] = {
        "38", "38 mm", "19mm", "2.5 cm", "1.2 m", "1.5 in", "3/8 in", "1-1/2 in", "1 1/2\"", "1½ in", "2 ft 3 1/2 in", "2' 3\"", "2'-3\"",
        "2 * (12 + 45) + 980", "1 ft - 1/2 in", "50 % * 38 mm", "max(3/8 in, 9 mm)",
    };
    static const char *const angles[] = { "5 deg", "5°", "5", "1:12", "1/2:6" };
    put(p, "## How amounts are written\n\n| written | comes to, in a job with `units: mm` |\n|---|---|\n");
    for (size_t i = 0; i < sizeof lengths / sizeof lengths[0]; i++) put_amount_row(p, lengths[i], "mm", false);
    for (size_t i = 0; i < sizeof angles / sizeof angles[0]; i++) put_amount_row(p, angles[i], "mm", true);
    put(p,
        "\n"
        "- A number without a unit takes the unit of the file (`units:`) where a length is wanted or where it is added to a length; where an\n"
        "  angle is wanted it is degrees. The units are `mm`, `cm`, `m`, `in` or `\"`, `ft` or `'`, `deg` or `°`, and `%`.\n"
        "- A fraction is written without spaces: `3/8 in`. `1-1/2` and `1 1/2` are both one and a half, and so is `1½`. A minus that\n"
        "  takes away has spaces round it: `10 - 1/2`; `2'-3\"` is two feet and three inches. Decimals have a point: `1.5`; `1,5` is refused.\n"
        "- `1:12` is the slope that goes 1 to the side in 12.\n"
        "- Amounts may be reckoned: `+ - * / ( )`, `min(a, b)` and `max(a, b)`. Units are watched: a length times a length is an area and is\n"
        "  refused where a length is wanted, and so is a length and an angle added. A length divided by a length is a ratio and takes no unit any more.\n"
        "- Other amounts of the job can be used by name: `post.width` for a piece (`length`, `width`, `thickness`, `count`),\n"
        "  `stretcher to post.beyond` for an amount that is given in a joint or a profile, `gap` for one under `amounts:`. Amounts that lean on each other in\n"
        "  a circle are refused, and the circle is shown.\n"
        "- Most amounts need no quotes. Put one in single quotes when it begins with `\"`, `'`, `[`, `{`, `*`, `&`, `%`, `@` or `- `, and in a list\n"
        "  `[...]` or map `{...}` also when it holds a comma.\n\n");
}

static void put_common(page *p)
{
    put(p,
        "The file is YAML 1.2, in UTF-8: keys with values, indented with spaces, `#` before a remark. Anchors, aliases, tags and several\n"
        "documents in one file are refused. Everything that is wrong in a file is said in one go, each as `FILE:LINE:COLUMN`, with what\n"
        "would be right. This page is printed from the tables by which the program reads.\n\n");
}

/* ---- joints ---- */

static void put_joint(page *p, const tw_joint_format *format)
{
    tw_putf(p->sink, "### `kind: %s`\n\n%s\n\n```yaml\n%s:\n  NAME:\n    kind: %s\n", format->kind, format->meaning, format->profile ? "profiles" : "joints", format->kind);
    for (int i = 0; i < format->key_count; i++)
        if (format->keys[i].required) tw_putf(p->sink, "    %s: %s\n", format->keys[i].name, format->keys[i].example);
    put(p, "```\n\n");
    put_rows(p, format->keys, format->key_count);
}

static void put_joints(page *p, const tw_joint_format *const *formats, int count)
{
    put(p, "The keys of every joint and every profile:\n\n");
    put_rows(p, tw_joint_common_keys, TW_JOINT_COMMON_KEYS);
    put(p, "## Kinds of joints\n\n");
    for (int i = 0; i < count; i++)
        if (!formats[i]->profile) put_joint(p, formats[i]);
    put(p, "## Kinds of profiles\n\n");
    for (int i = 0; i < count; i++)
        if (formats[i]->profile) put_joint(p, formats[i]);
}

/* ---- pages ---- */

void tw_job_docs_put(const tw_joint_format *const *formats, int format_count, tw_sink *sink)
{
    page p = { .sink = sink };
    put(&p,
        "# The job file\n\n"
        "A job is one design: its pieces, the joints by which they meet, and the profiles of their edges. A small one:\n\n"
        "```yaml\n"
        "job: Bench for the potting shed\n"
        "units: mm\n"
        "amounts:\n"
        "  overhang: 60\n"
        "pieces:\n"
        "  leg: {count: 4, length: 420, width: 70, thickness: 45}\n"
        "  seat:\n"
        "    length: 900 + 2 * overhang\n"
        "    width: 280\n"
        "    thickness: 32 mm\n"
        "    timber: Oak, white\n"
        "```\n\n");
    put_common(&p);
    put_amounts(&p);
    tw_putf(sink, "## Names\n\nNames of pieces, joints, profiles and amounts are words of letters (Latin, Greek, Cyrillic) and digits with one space between\n"
                  "them, at most %d characters. They begin with a letter, are no unit, and each is used once in a job.\n\n", TW_NAME_MOST);
    put(&p, "## The job itself\n\n");
    put_rows(&p, tw_job_layout.keys, tw_job_layout.count);
    for (int i = 0; i < tw_job_layout.section_count; i++) put_section(&p, &tw_job_layout.sections[i]);
    put_joints(&p, formats, format_count);
    tw_putf(sink, "## Limits\n\nA file has at most %u bytes, nested at most %d deep; a job has at most %d pieces, %d joints and %d profiles; an amount has at most %d\n"
                  "bytes.\n", TW_TEXT_MOST_BYTES, TW_DEPTH_MOST, TW_PIECES_MOST, TW_JOINTS_MOST, TW_PROFILES_MOST, TW_FORMULA_MOST_BYTES);
    tw_arena_finish(&p.arena);
}

void tw_shop_docs_put(tw_sink *sink)
{
    page p = { .sink = sink };
    put(&p,
        "# The shop file\n\n"
        "A shop is what the maker owns: the machine, cutters, followers, pins and spacers. Write it once, measure with care, and name it in\n"
        "each job. The least that can be written:\n\n"
        "```yaml\n"
        "shop: The shed\n"
        "units: mm\n"
        "machine:\n"
        "  ratio: 2\n"
        "  travel across: 150\n"
        "  travel up: 90\n"
        "  travel in: 70\n"
        "  holder across: 360\n"
        "  holder up: 220\n"
        "  table lowest: 110\n"
        "  table highest: 5\n"
        "  nut radius: 22\n"
        "  top speed: 24000\n"
        "cutters:\n"
        "  spiral 9.5: {diameter: 9.525, cutting length: 38, plunges: yes}\n"
        "followers:\n"
        "  bush 19.05: {diameter: 19.05}\n"
        "```\n\n");
    put_common(&p);
    put(&p, "Amounts are written as in [the job file](job-file.md), without names of other amounts. Names of cutters and the like are words of\n"
            "letters, digits and `. / - \" '`, with one space between two words.\n\n"
            "Measured sizes go straight into every template and setting: a cutter that is 0.1 mm larger than said makes each pocket 0.1 mm\n"
            "wider. Unplug the machine before you measure a cutter in its collet, and keep fingers off the edges.\n\n"
            "## The shop itself\n\n");
    put_rows(&p, tw_shop_layout.keys, tw_shop_layout.count);
    for (int i = 0; i < tw_shop_layout.section_count; i++) put_section(&p, &tw_shop_layout.sections[i]);
    tw_arena_finish(&p.arena);
}
