// SPDX-License-Identifier: GPL-3.0-or-later
/* job: job text and shop text -> checked model.
 *
 * Past this stage every number is finite and in its range, every name is known, every count is at least 1; a fault after
 * that is a fault of ours. Anything that cannot be read becomes a finding of level TW_WRONG with its place; all that one
 * reading can find is found in one go. */
#ifndef TW_JOB_H
#define TW_JOB_H

#include "base/base.h"
#include "draw/draw.h"
#include "job/keys.h"

/* ---- named limits ---- */
#define TW_TEXT_MOST_BYTES (4u * 1024u * 1024u)  // a job or shop file
#define TW_VALUES_MOST 1000000                   // keys, values, lists and maps of one file
#define TW_PIECES_MOST 20000
#define TW_JOINTS_MOST 20000
#define TW_PROFILES_MOST 20000
#define TW_PLACES_MOST 64                        // places of one joint in one piece
#define TW_COUNT_MOST 10000                      // alike pieces
#define TW_NAME_MOST 60                          // characters of a name
#define TW_TITLE_MOST 120                        // characters of a title or note line
#define TW_DEPTH_MOST 16                         // nesting of a file
#define TW_LENGTH_MOST_MM 20000.0                // a length anywhere in a job
#define TW_LENGTH_LEAST_MM 0.001                 // a length that must be more than nothing

struct tw_node;  // a value in the text's tree (tree.h)

/// An amount with a name of its own. What it is follows from its sum; OTHER: an area, say.
typedef enum tw_amount_kind { TW_AMOUNT_LENGTH, TW_AMOUNT_ANGLE, TW_AMOUNT_NUMBER, TW_AMOUNT_OTHER } tw_amount_kind;
typedef struct tw_named_amount {
    const char    *name;
    tw_place       place;
    double         value;     // mm, radians or number
    tw_amount_kind kind;
    bool           bare;      // a number without a unit, which is a length beside lengths
    const struct tw_node *written;  // its value in the text
} tw_named_amount;

typedef struct tw_piece {
    const char *name;
    tw_place    place;
    const struct tw_node *written;                  // its map in the text
    tw_amount   count;                              // in one set; whole, at least 1
    tw_amount   length, width, thickness;           // mm; finished, tenons included
    tw_words    timber, note;
} tw_piece;

/// What the reader needs of a kind of joint or of profile; the joint stage owns the table (joint/joint.h).
typedef struct tw_joint_format {
    const char   *kind;       // as written: "forked tusks"
    const char   *meaning;    // for the docs
    const tw_key *keys;       // rows beyond `kind` and `note`
    int           key_count;
    size_t        spec_size;  // of the struct that the rows fill
    bool          profile;    // shapes an edge of one piece: stands under `profiles:`, not under `joints:`
} tw_joint_format;

/// A joint, or a profile (a shaped edge of one piece): both have a name, a kind and the kind's own values.
typedef struct tw_joint {
    const char *name;
    tw_place    place;        // of its name in the file
    int         kind;         // index into the formats given to the reader
    void       *spec;         // the kind's struct, filled by its rows
    tw_words    note;
    const struct tw_node *written;  // its map in the text
} tw_joint;

typedef struct tw_job {
    const char *file;         // as named to the reader, for places
    tw_words    title;        // `job:`
    tw_words    revision;     // "1" when not given
    tw_words    shop;         // file name of the shop, relative to the job's file; "" when not given
    tw_words    note;
    tw_choice   units;        // of bare numbers: index into tw_unit_words
    tw_figures  figures;      // how lengths are shown
    bool        inch_sizes;   // the job's own figures are inches: so are round and customary sizes, however they are shown
    tw_choice   paper;        // tw_paper
    tw_amount   sets;         // how many sets are made; 1 when not given
    tw_choice   up;           // direction of the base piece that points up: a side as tw_face_words of piece.h counts them
    tw_choice   projection;   // of the views: 0 first angle, 1 third angle
    tw_link     base;         // the piece from which the others are placed; -1: the first that is in a joint
    tw_piece   *pieces;
    int         piece_count;
    tw_joint   *joints;       // [joint_count + profile_count]: the joints, then the profiles, each in the file's order
    int         joint_count;
    int         profile_count;
    tw_named_amount *amounts;
    int         amount_count;
    const struct tw_node *written;  // the whole text
} tw_job;

extern const char *const tw_unit_words[];  // "mm", "cm", "m", "in", "ft", NULL

/* ---- shop ---- */
typedef struct tw_cutter {
    const char *name;
    tw_place    place;
    tw_amount   diameter;        // as sold
    tw_amount   measured;        // as measured; when not given, as sold
    tw_amount   cutting_length;  // mm
    tw_amount   shank;           // mm; the diameter when not given
    tw_amount   top_speed;       // rpm; 0 when not given
    tw_choice   plunges;         // its end cuts
    tw_amount   dovetail;        // radians, from its axis to its side: it widens towards its tip by so much on each side; 0: straight
    double      d_mm;            // what to reckon with: measured, else as sold; of a dovetail cutter at its tip, the widest part
} tw_cutter;

/// Its sides are parallel to its axis: what every cut with upright walls wants.
static inline bool tw_cutter_is_straight(const tw_cutter *cutter) { return !(cutter->dovetail.value > 0.0); }
/// Its diameter so far above its tip, mm: d - 2 up tan(angle). Example: 12.7 at 14 degrees, 10 above the tip: 7.713.
double tw_cutter_diameter_at_mm(const tw_cutter *cutter, double up_mm);

typedef struct tw_follower {
    const char *name;
    tw_place    place;
    tw_amount   diameter, measured, length;  // length: the saw's strip thickness when not given
    double      b_mm;            // what to reckon with
} tw_follower;

typedef struct tw_spacer { const char *name; tw_place place; tw_amount size, count; } tw_spacer;
typedef struct tw_pin { const char *name; tw_place place; tw_amount diameter; } tw_pin;

typedef struct tw_machine {
    tw_words  name;
    tw_amount ratio;                   // template travel / cutter travel, 0.2 to 10
    tw_choice copy;                    // 0 upright: the copy stands as the template does; 1 turned: half a turn
    tw_choice seen_from;               // 0 front, 1 back: from which side the maker sees the template at work
    tw_choice turns_over;              // can a template be mounted either face outward?
    tw_amount travel_across, travel_up, travel_in;   // of the cutter, mm
    tw_amount holder_across, holder_up;              // largest template, mm
    tw_amount table_lowest, table_highest, table_step;  // distance of the table below the cutter's centre, mm
    tw_amount nut_radius;              // collet nut, mm
    tw_amount clamp_zone;              // wood the clamps need, mm, beside the cut
    tw_amount smallest_piece;          // the shortest piece that is safe to hold, mm
    tw_amount top_speed, low_speed;    // rpm of the spindle; low: the top speed when not given
    tw_amount spacer_tolerance;        // how near a stack must come; 0.05 mm when not given
    tw_amount play;                    // of the follower in a slot of its own width, mm; 0.1 when not given
} tw_machine;

typedef struct tw_shop {
    const char  *file;
    tw_words     name;
    tw_choice    units;
    tw_machine   machine;
    tw_amount    saw_kerf, strip_thickness;          // mm: table saw's kerf; thickness of template stock
    tw_cutter   *cutters;    int cutter_count;
    tw_follower *followers;  int follower_count;
    tw_spacer   *spacers;    int spacer_count;
    tw_pin      *pins;       int pin_count;
} tw_shop;

/// Reads a job. formats: the kinds of joints and profiles known. Returns NULL when a finding of level TW_WRONG was made.
const tw_job *tw_job_read(tw_arena *arena, tw_text text, const char *file, const tw_joint_format *const *formats,
                          int format_count, tw_findings *findings);
/// Reads a shop. Returns NULL when a finding of level TW_WRONG was made.
const tw_shop *tw_shop_read(tw_arena *arena, tw_text text, const char *file, tw_findings *findings);
struct tw_measures;  // measured.h
/// The same with values as built in the place of the drawn ones; measures NULL: none. What is in force is noted there.
const tw_job *tw_job_read_as_built(tw_arena *arena, tw_text text, const char *file, const tw_joint_format *const *formats,
                                   int format_count, struct tw_measures *measures, tw_findings *findings);
const tw_shop *tw_shop_read_as_built(tw_arena *arena, tw_text text, const char *file, struct tw_measures *measures,
                                     tw_findings *findings);
/// The file name that a job's text gives for its shop, before the job is read; NULL when it gives none.
const char *tw_job_shop_name(tw_arena *arena, tw_text text);
/// One length as a maker writes it ("1-1/2 in", "38", "2 ft 3 1/2 in"), for the command line. unit: of bare numbers,
/// one of tw_unit_words.
/// Returns false with *why set (a sentence without full stop, with what would be right) when it is none.
bool tw_length_read(tw_arena *arena, tw_text text, const char *unit, double *length_mm, const char **why);
/// One angle likewise: "5 deg", "5°", "1:12"; a bare number is degrees.
bool tw_angle_read(tw_arena *arena, tw_text text, double *angle_rad, const char **why);

/// A name in an amount's text: "post.width" is owner "post" and key "width", "gap" has the key "".
typedef struct tw_name_used { tw_text owner, key; } tw_name_used;
/// Whether an amount's text is a sum, not one number with its unit; the names in it, in the order in which they stand. A text
/// that cannot be read has those before its fault.
bool tw_amount_is_sum(tw_arena *arena, tw_text text, tw_name_used **names, int *count);
/// "figures:" as written; false with *what and *remedy set.
bool tw_figures_read(tw_arena *arena, tw_text text, tw_figures *figures, const char **what, const char **remedy);
/// The way round: "mm 0.1"; "" for figures that cannot be written.
const char *tw_figures_words(tw_figures figures);
/// All that can be written, one after the other; NULL behind the last.
const char *tw_figures_nth(size_t index);

/// The pages docs/job-file.md and docs/shop-file.md, printed from the tables.
void tw_job_docs_put(const tw_joint_format *const *formats, int format_count, tw_sink *sink);
void tw_shop_docs_put(tw_sink *sink);

#endif
