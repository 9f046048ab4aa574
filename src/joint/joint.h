// SPDX-License-Identifier: GPL-3.0-or-later
/* joint: each kind of joint turns its few lines of the job into proportions, cuts, work at the machine and by hand,
 * checks and drawings. One file and one row of tw_joint_kinds for each kind.
 *
 * A kind fills a tw_joint_plan. It knows nothing of templates and settings: it says which cut it wants, on which face,
 * seen how, located from what; the stages below it (template, setup, run) do the rest. */
#ifndef TW_JOINT_H
#define TW_JOINT_H

#include "base/base.h"
#include "draw/draw.h"
#include "job/job.h"
#include "piece/piece.h"

/* ---- figures: every number with its sum ---- */

typedef enum tw_unit { TW_UNIT_MM, TW_UNIT_RAD, TW_UNIT_NONE, TW_UNIT_COUNT } tw_unit;

typedef struct tw_figure {
    const char *key;      // "housing_depth": stable, for job.json; the unit is added there ("_mm", "_deg")
    const char *label;    // as a maker says it: "housing depth"
    const char *symbol;   // of design section 7.1: "e", or ""
    double      value;    // mm, radians or number
    tw_unit     unit;
    const char *sum;      // with the values put in: "(t - slot + s)/2 = (16.0 - 8.0 + 0.8)/2", or "given" (the job gives it)
    const char *rule;     // the trade rule or design reason it follows, or ""
    const tw_key *row;    // the key by which the job can say it; NULL: it is reckoned. Set by tw_plan_figure()
    bool        given;    // the job says it
    bool        has_proposed;  // there is a rule for it, whether the job gives it or not
    double      proposed;
} tw_figure;

/* ---- work: one kind of cut on one kind of piece, one hand ---- */

typedef enum tw_hand { TW_HAND_NONE, TW_HAND_LEFT, TW_HAND_RIGHT } tw_hand;

typedef enum tw_way {
    TW_WAY_COPY,      // router along a template
    TW_WAY_SAW,       // table saw
    TW_WAY_BANDSAW,
    TW_WAY_ROUTE,     // hand-held router between guides
    TW_WAY_TABLE,     // router table, along a fence or with a sliding jig
    TW_WAY_DRILL,     // drill press
    TW_WAY_PLANE,     // hand plane, spokeshave
    TW_WAY_CHISEL,
    TW_WAY_MARK,      // knife line, pencil, number
    TW_WAY_MEASURE,   // a value that goes into the ledger
    TW_WAY_FIT,       // together dry
    TW_WAY_GLUE,
    TW_WAY_FINISH
} tw_way;

/// How the template and the piece are located about the machine's centre.
typedef enum tw_locate {
    TW_LOCATE_CENTRED,   // template's centre lines on the machine's centre; the cut's origin on it too
    TW_LOCATE_BASELINE   // a straight edge of the template is found with a reference pin, then shifted
} tw_locate;

/// What a copied cut wants. The cut's frame: origin at the cut's own reference point, x to the right and y up as seen
/// by one who looks at the face that is cut (along the plunge), with `down` lying on the table.
typedef struct tw_copy_want {
    tw_outline cut;             // pocket (inside) or what stays (outside), in the cut's frame
    bool       inside;
    double     depth_mm;        // plunge from the face
    bool       both_faces;      // cut to depth from this face and again from the opposite one
    const char *cutter, *follower;   // names that the job asks for, or NULL: the template stage chooses
    bool       path_shared;     // another work of the joint runs the same path with another cutter: one template serves both
    double     dovetail_rad;    // a dovetail cutter of this angle is wanted, and `cut` is what its tip cuts, the widest; 0: a straight one
    double     cutter_most_mm;  // the cut's own limit on the cutter (slot width, corner), 0: none
    double     corner_most_mm;  // largest radius that may stay in a hollow corner; 0: none; with round-ended mates: their radius
    tw_locate  locate;
    double     edge_x_mm;       // BASELINE: x of the straight wall in the cut's frame
    int        edge_side;       // BASELINE: -1 the wall is the pocket's left wall, +1 its right wall
    tw_face    stop_end;        // the end (or edge) of the piece that lies at the stop
    double     stop_to_origin_mm;   // from the stop's face to the cut's origin, along the table
    bool       stop_at_centre;  // the stop's face lies on the machine's centre (else the cut's origin does)
    const char *stop_word;      // what touches the stop: "end of the tenon", "left end", "shoulder"
    double     down_to_origin_mm;   // height of the cut's origin above the side that lies down
    double     overhang_low_mm; // how far the cutter reaches below the piece's side that lies down (positive: into the table)
    double     shoulder_mm;     // height of the wood that stands above the face beside the cut, 0: none
    double     shoulder_away_mm;    // distance from the nearest cutter centre to that wood
    double     waste_mm;        // outside: the widest waste around what stays
    const char *wall_word;      // BASELINE: what the straight wall is: "straight wall"
    const char *corner_word;    // what becomes of wood left in round corners, a sentence's end; NULL: nothing is known
    const char *zero_word;      // surface on which the depth is zeroed: "cheek of the tenon"; NULL: the face that is cut
} tw_copy_want;

/// What is moved when the one dimension that is measured is off.
typedef enum tw_moves_by {
    TW_BY_NOTHING,  // it is pared, marked again, left: `if_off` says so
    TW_BY_WIDTH,    // the width of a copied cut: another follower, the template's own width, another cutter
    TW_BY_CUTTER,   // it is as wide as the cutter: another cutter
    TW_BY_DEPTH,    // the depth stop, of the copying machine or a drill
    TW_BY_STOP,     // the stop along the table: its distance from the machine's centre
    TW_BY_TABLE,    // the table: how far it is raised
    TW_BY_FENCE,    // the fence of a saw, drill press or router table
    TW_BY_GUIDES    // the spacers between two guides
} tw_moves_by;

/// grows: by how much the dimension grows for each mm deeper, farther from the centre, higher; of a fence or of guides: for each
/// mm that they are moved, without its sign. Example: a web between two housings, TW_BY_DEPTH: -2.
typedef struct tw_answer { tw_moves_by by; double grows; } tw_answer;

/// A cradle of wedge-shaped packing that holds the piece out of square, so that a cut goes in along a leaning axis. Seen with
/// the face that is cut towards the cutter and `down` below: first the piece is rolled about its own length, then the cradle is
/// swung in plan about the upright; both about the middle of the cut.
typedef struct tw_cradle {
    bool        used;
    double      roll_rad;       // the wedge under the side that lies down; above 0: the upper side comes towards the cutter
    double      swing_rad;      // in plan; above 0: what is on the right as the cutter looks at it comes towards the cutter
    double      tilt_rad;       // both together: between the axis of the cut and the normal of the face
    const char *words;          // "rolled by 5.0°, the face edge down, its top towards the cutter; swung ..."
} tw_cradle;

typedef struct tw_work {
    const char *name;           // "housings, right hand"
    const char *key;            // names it however sizes change: "mortises, 2 of 3"; NULL: its name does
    const char *what;           // one sentence for the card and the run sheet
    tw_way      way;
    int         piece;          // whose piece, -1 for a part that the joint makes (tusk): then part says
    int         joint;
    const char *part;           // "tusk" or "" when piece >= 0
    tw_face     face;           // that is cut (towards the cutter, blade or drill)
    tw_face     down;           // that lies on the table
    tw_hand     hand;
    int         count;          // cuts in all sets
    int         pieces;         // pieces handled in all sets
    const char *places;         // which end and cheek: "right end, face; left end, back"
    bool        copied;
    bool        freehand;       // sawn along a drawn line: no fence is set
    tw_copy_want copy;          // when copied
    const char *test_piece;     // what the trial is cut in
    const char *measure;        // the one dimension to measure on the first piece
    double      measure_mm, measure_under_mm, measure_over_mm;  // nominal and limits, limits as signed differences
    const char *if_off;         // what to move, how much
    tw_answer   answer;         // the same for the trial cut's sum (setup/trial.h)
    const char *state;          // how the piece arrives: "planed, over length, mortise cut"
    const char *marks;          // marks to be seen on it
    const char *cautions;       // beyond the way's own cautions, or ""
    int        *after;          // indices into the plan's list of what must be done before
    int         after_count;
    tw_cradle   cradle;         // copied and drilled cuts that lean
    int         stage;          // rough order: 10 stock, 20 joinery at the machine, 30 tusks, 40 fitting, 50 finish
} tw_work;

/// A part that a joint makes beside the job's pieces (a tusk, a peg), or that is bought for it (a bolt).
typedef struct tw_part {
    const char *name;           // "tusk of stretcher to post"
    int         joint, count;   // in all sets
    tw_size     finished;       // mm
    tw_size     stick;          // a stick long enough to hold, from which `per_stick` come
    int         per_stick;
    const char *timber;
    bool        bought;         // hardware: no timber, no stick; `note` says what to ask for
    const char *note;           // or NULL
    const tw_cut *cuts;         // what its blank loses to become it: a wedge's slope. Length runs as x
    int         cut_count;
    tw_size     blank;          // of those cuts, where it is not the finished size: a bolt's, with its head; all 0: the finished size
} tw_part;

/// Where one of a joint's parts sits when the joint is home, for pictures.
typedef struct tw_lodging {
    int     part, meeting;      // indices into the plan's lists
    tw_pose pose;               // of the part in the frame of the meeting's base
    tw_spot leaves;             // unit vector there: the way in which it is taken out
    double  travel_mm;          // how far it goes until it is free
    bool    in_mover;           // it sits in the mover and goes with it (a cross dowel, a peg glued in); else in the base
    bool    fast;               // it stays there for good
} tw_lodging;

/// One way in which the two pieces of a joint stand against each other: an end of the one in a place of the other.
/// A joint with both ends and two places has four. Filled by the kind, used when pieces are placed in space.
typedef struct tw_meeting {
    int         mover, base;    // pieces: the one that is brought, the one that receives it
    tw_face     end;            // of the mover, that is brought; for joints without an end the face that meets
    int         place;          // index into the joint's `at` list
    int         mover_place;    // index into the mover's own list of places, where it has one (laps); else 0
    tw_pose     pose;           // of the mover in the base's frame, the joint home
    tw_spot     leaves;         // unit vector in the base's frame: the way in which the mover comes out again
    double      travel_mm;      // how far it must go that way until it is free
    const char *held_by;        // what keeps it from going: "tusks", "glue", "pegs", "bolts", "" nothing
    bool        for_good;       // glued: it does not come apart again
} tw_meeting;

/// A place of a curve that is marked out and sawn to: `along` a base line from its middle or its end, `high` square to it.
typedef struct tw_station { double along_mm, high_mm; } tw_station;

/// The outline that is left of a piece, as seen on a side of it, in that face's frame.
typedef struct tw_profile_shape { tw_face face; tw_outline outline; } tw_profile_shape;

/// What one joint asks for, or one profile (a shaped edge of one piece): cuts, work, figures. What is said here of joints holds
/// for profiles too; a profile has one piece, no meetings and no parts.
typedef struct tw_joint_plan {
    const tw_joint *joint;
    int        index;           // of the joint in the job's list; profiles stand behind the joints there
    int        count;           // such joints in all sets; of a profile: pieces that get it
    bool       profile;
    int        piece;           // of a profile: whose it is; -1 for joints
    tw_station *stations; size_t station_count, station_room;  // of a profile's curve
    const char *stations_from;  // how the stations are measured, a sentence; NULL when there are none
    tw_profile_shape shapes[3]; int shape_count;  // of a profile: what is left of the piece, as it is drawn and handed on
    tw_figure *figures;  size_t figure_count, figure_room;
    tw_cut    *cuts;     size_t cut_count, cut_room;
    tw_work   *works;    size_t work_count, work_room;
    tw_part   *parts;    size_t part_count, part_room;
    tw_meeting *meetings; size_t meeting_count, meeting_room;
    tw_lodging *lodgings; size_t lodging_count, lodging_room;
    const char **order;  size_t order_count, order_room;   // advice that makers keep, in order, for the joint's sheet
    void      *own;             // the kind's own values, for its drawing
} tw_joint_plan;

#define TW_JOINT_KINDS_MOST 32

/// What a kind may look at while it plans.
typedef struct tw_joint_context {
    tw_arena       *arena;
    const tw_job   *job;
    const tw_shop  *shop;
    tw_findings    *findings;
    void           *kept[TW_JOINT_KINDS_MOST];  // what each kind remembers from one joint of the job to the next; NULL at first
} tw_joint_context;

typedef struct tw_joint_kind {
    tw_joint_format format;
    /// Fills the plan; what cannot be made is a finding of level TW_HALT with its remedy, and the plan is as full as can be.
    void (*plan)(tw_joint_context *context, tw_joint_plan *plan);
    /// Draws the joint in section with its dimensions on a sheet of the size given (title block is drawn elsewhere),
    /// inside the box, and says the scale as text ("1 : 2").
    const char *(*draw)(const tw_joint_context *context, const tw_joint_plan *plan, tw_sheet *sheet, tw_box room);
} tw_joint_kind;

extern const tw_joint_kind *const tw_joint_kinds[];
extern const int                  tw_joint_kind_count;
/// The formats of all kinds, for the reader, in the order of tw_joint_kinds. The array lives in the arena.
const tw_joint_format **tw_joint_formats(tw_arena *arena);

/// How many plans a job has: its joints and its profiles.
int tw_plan_count(const tw_job *job);
/// Plans every joint of the job, in the job's order, then every profile: [tw_plan_count].
tw_joint_plan *tw_joints_plan(tw_joint_context *context);

/* ---- helpers that kinds share ---- */
/// Notes a figure. One with the same words as a key of the kind ("tenon_width", `tenon width`) is the key's own.
void tw_plan_figure(tw_joint_context *context, tw_joint_plan *plan, tw_figure figure);
/// The amount if the job gives it, else the proposed value; noted as a figure either way.
double tw_plan_amount(tw_joint_context *context, tw_joint_plan *plan, const tw_amount *amount, const char *key, const char *label,
                      const char *symbol, tw_unit unit, double proposed, const char *sum, const char *rule);
const tw_figure *tw_plan_find(const tw_joint_plan *plan, const char *key);  // NULL when it has none
tw_cut  *tw_plan_cut(tw_joint_context *context, tw_joint_plan *plan, tw_cut cut);
int      tw_plan_work(tw_joint_context *context, tw_joint_plan *plan, tw_work work);  // returns its index
void     tw_plan_part(tw_joint_context *context, tw_joint_plan *plan, tw_part part);
void     tw_plan_meeting(tw_joint_context *context, tw_joint_plan *plan, tw_meeting meeting);
void     tw_plan_lodging(tw_joint_context *context, tw_joint_plan *plan, tw_lodging lodging);
void     tw_plan_advice(tw_joint_context *context, tw_joint_plan *plan, const char *text);
void     tw_work_after(tw_joint_context *context, tw_work *work, int before);
void     tw_plan_station(tw_joint_context *context, tw_joint_plan *plan, tw_station station);
/// A finding at the joint's place (or at the amount's when it is given), its name as `about`.
void tw_plan_finding(tw_joint_context *context, tw_joint_plan *plan, tw_level level, const tw_amount *amount, const char *code,
                     const char *what, const char *remedy);
/// The blank of a part's cuts.
tw_size  tw_part_blank(const tw_part *part);
/// A length as the job writes it, in the context's arena.
const char *tw_say(const tw_joint_context *context, double length_mm);

#endif
