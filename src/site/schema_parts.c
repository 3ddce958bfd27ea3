// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of the format: parts, in the site file or in a catalogue.
#include "site/schema.h"

#define PART                                                                                       \
    {"id", BYS_ID, BYS_NEED, BYS_ANY, "name by which the layout uses the part"},                   \
    {"name", BYS_TEXT, BYS_MAY, BYS_ANY, "free text"},                                             \
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "certificate, catalogue or table of the numbers"},      \
    {"basis", BYS_CHOICE(BYS_BASES), BYS_MAY, BYS_ANY,                                             \
     "how well they are known: read in the source, from memory, stated by you, from a test, or "   \
     "assumed; assumed if not stated"}

#define LINE(needed, stretch_words)                                                                \
    {"diameter", BYS_IN(LENGTH), BYS_NEED, BYS_RANGE(0.001, 0.5),                                  \
     "diameter of the rope, or of the chain's bar"},                                               \
    {"mass", BYS_IN(MASS_PER_LENGTH), BYS_NEED, BYS_POSITIVE, "mass in air"},                      \
    {"density", BYS_IN(DENSITY), BYS_MAY, BYS_RANGE(100, 25000),                                   \
     "of the solid, for the weight in water; that of the material if not stated"},                 \
    {"strength", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE,                                             \
     "breaking strength when new; without it the line is not checked"},                            \
    {"stiffness", BYS_IN(FORCE), needed, BYS_POSITIVE,                                             \
     "force that would double its length (EA)" stretch_words},                                     \
    {"drag-normal", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 10),                                          \
     "drag coefficient across, on the diameter; rope 1.6, stud chain 2.6, other chain 2.4"},       \
    {"drag-tangential", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),                                       \
     "drag coefficient along, on pi times the diameter; rope 0.01, stud chain 0.446, other "       \
     "chain 0.366"},                                                                               \
    {"drag", BYS_REF("drag"), BYS_MAY, BYS_ANY, "drag record that gives both coefficients"},       \
    {"because", BYS_TEXT, BYS_MAY, BYS_ANY,                                                        \
     "why coefficients stated here replace those of the record; needed then"},                     \
    {"efficiency", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0.05, 1),                                  \
     "share of the strength left by its knots or splices; or name them by ends"},                  \
    {"wear", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 0.95), "share of the strength lost to wear"}, \
    {"age", BYS_IN(YEARS), BYS_MAY, BYS_NOT_NEGATIVE,                                              \
     "years in the water at the end of the time that is checked; needs loss-per-year, or for "     \
     "chain corrosion-per-year"}

#define DRAG                                                                                       \
    {"drag", BYS_REF("drag"), BYS_MAY, BYS_ANY, "drag record that gives the coefficient"},         \
    {"because", BYS_TEXT, BYS_MAY, BYS_ANY,                                                        \
     "why a coefficient stated here replaces that of the record; needed then"}

#define FLOW                                                                                       \
    {"basis", BYS_CHOICE(BYS_BASES), BYS_MAY, BYS_ANY, "how well these numbers are known"},        \
    {"source", BYS_TEXT, BYS_MAY, BYS_ANY, "where these numbers come from"}

static const bys_attr_rule catalogue_attrs[] = {
    {"href", BYS_TEXT, BYS_NEED, BYS_ANY,
     "path of a file of parts, in the folder of the site file, below it, or among the installed "
     "data"},
};
static const bys_attr_rule rope_attrs[] = {
    PART,
    {"material", BYS_CHOICE("polypropylene|polyethylene|nylon|polyester|hmpe|mixed|steel-wire"),
     BYS_NEED, BYS_ANY, "material; mixed needs a density"},
    LINE(BYS_MAY, ", for steady loads; or a <stretch> in its place"),
    {"bedding-in", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 0.5),
     "permanent stretch after bedding in; 0 if not stated"},
    {"wet-factor", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0.3, 1),
     "share of the strength left when wet; nylon 0.85, else 1 if not stated"},
    {"ends",
     BYS_CHOICE("splice|eye-splice|short-splice|knot|clove-hitch|two-half-hitches|anchor-bend|"
                "timber-hitch|bowline|figure-eight|reef-knot|overhand"),
     BYS_MAY, BYS_ANY,
     "how it is made fast, in place of efficiency: the weakest of its knots and splices"},
    {"loss-per-year", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 0.9),
     "share of the strength that is lost in each year of age; no open standard states it"},
};
static const bys_attr_rule chain_attrs[] = {
    PART,
    {"link", BYS_CHOICE("stud|short|long"), BYS_NEED, BYS_ANY, "form of the links"},
    {"grade", BYS_TEXT, BYS_MAY, BYS_ANY, "grade, for the report"},
    LINE(BYS_NEED, ""),
    {"measured-diameter", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.001, 0.5),
     "of the worn bar, in place of wear; the strength falls with its square"},
    {"corrosion-per-year", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0, 0.005),
     "diameter lost to corrosion and wear in each year of age"},
    {"used", BYS_YES_NO, BYS_MAY, BYS_ANY,
     "yes: the rules' factor for used chain holds where they have one; no if not stated"},
    {"around-bends", BYS_YES_NO, BYS_MAY, BYS_ANY,
     "yes: it runs around a bend, as over a fairlead; the factor for that holds; no if not stated"},
};
static const bys_attr_rule stretch_attrs[] = {
    {"for", BYS_CHOICE("working|storm"), BYS_NEED, BYS_ANY,
     "working: steady loads, slack water and the largest movements; storm: the largest tensions"},
    {"stiffness", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE,
     "force that would double its length; or points"},
    FLOW,
};
static const bys_attr_rule stretch_at_attrs[] = {
    {"strain", BYS_IN(FRACTION), BYS_NEED, 0, 1, true, "stretch over the length before"},
    {"tension", BYS_IN(FORCE), BYS_NEED, BYS_POSITIVE, "tension at that strain"},
};
static const bys_attr_rule connector_attrs[] = {
    PART,
    {"strength", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE,
     "breaking strength, not the working load; without it the connector is not checked"},
    {"mass", BYS_IN(MASS), BYS_MAY, BYS_NOT_NEGATIVE, "mass in air; 0 kg if not stated"},
    {"density", BYS_IN(DENSITY), BYS_MAY, BYS_RANGE(100, 25000), "7850 kg/m3 if not stated"},
};
static const bys_attr_rule sinker_attrs[] = {
    PART,
    {"mass", BYS_IN(MASS), BYS_NEED, BYS_POSITIVE, "mass in air"},
    {"density", BYS_IN(DENSITY), BYS_NEED, BYS_RANGE(1000, 25000), "of the solid"},
};
static const bys_attr_rule float_attrs[] = {
    PART,
    {"shape", BYS_CHOICE("sphere|barrel-side|barrel-upright"), BYS_NEED, BYS_ANY,
     "sphere, barrel lying on its side, or barrel standing upright"},
    {"volume", BYS_IN(VOLUME), BYS_MAY, BYS_POSITIVE, "gross volume"},
    {"diameter", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "sphere: from the volume if not stated; barrel: two of volume, diameter, length"},
    {"length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "of a barrel"},
    {"mass", BYS_IN(MASS), BYS_NEED, BYS_NOT_NEGATIVE, "mass in air"},
    {"drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "on the wetted projected area; sphere 0.5, barrel 1.2 if not stated"},
    DRAG,
    {"lies", BYS_CHOICE("any|along|across"), BYS_MAY, BYS_ANY,
     "barrel on its side under a barrel record: its axis along the line, across it, or the worse "
     "of both in any current; any if not stated"},
    {"wind-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5), "0.7 if not stated"},
    {"strop", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "length of the rope between the line and the float's foot; 0 m if not stated"},
    {"depth-rating", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "depth below the surface that it stands without crushing; the deepest that its lowest part "
     "gets is checked against it"},
    {"loss-per-metre", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 0.1),
     "share of its volume that it loses with each metre of depth; 0 if not stated"},
    {"loss-per-bar", BYS_IN(FRACTION), BYS_MAY, BYS_RANGE(0, 1),
     "the same with each bar of water pressure, in place of it"},
};
static const bys_attr_rule gear_attrs[] = {
    PART,
    {"kind", BYS_CHOICE("rope|panel|chaplet|basket|lantern|tray|net|weed"), BYS_NEED, BYS_ANY,
     "kind of dropper"},
    {"mass-in-water", BYS_IN(MASS), BYS_MAY, BYS_RANGE(-1000, 1e5),
     "apparent mass in water of one whole piece, its dropper included; this or the next is needed"},
    {"mass-in-water-per-metre", BYS_IN(MASS_PER_LENGTH), BYS_MAY, BYS_RANGE(-100, 1e3),
     "the same for each metre of its height"},
    {"width", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE,
     "width of a panel or basket, diameter of a rope, chaplet or lantern"},
    {"height", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "height of what catches the flow"},
    {"drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "on width times height; this or a drag record is needed"},
    DRAG,
    {"solidity", BYS_PLAIN, BYS_MAY, BYS_RANGE(0.01, 1),
     "projected area over outline, growth included: of a net or a basket"},
    {"twine", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(1e-4, 0.05), "diameter of a net's twine"},
    {"sinker", BYS_IN(MASS), BYS_MAY, BYS_POSITIVE, "mass hung below a lantern net"},
    {"swing-credit", BYS_PLAIN, BYS_MAY, BYS_RANGE(0.05, 1),
     "share of the upright drag that loads the legs; 1 if not stated; below 0.6 only by a tow "
     "test"},
    {"swing-basis", BYS_CHOICE("judgement|tow-test"), BYS_MAY, BYS_ANY,
     "where that share comes from; judgement if not stated"},
    {"swing-because", BYS_TEXT, BYS_MAY, BYS_ANY, "why that share may be taken; needed with it"},
    {"drop", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "from the line down to the top of that height; 0 m if not stated"},
    {"orientation", BYS_CHOICE("free|along|across"), BYS_MAY, BYS_ANY,
     "panels and nets must say it: free to turn, face along the line, or face across it"},
    {"edge-drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "panel seen edge-on, on its gross face; 0.15 if not stated"},
};
static const bys_attr_rule at_attrs[] = {
    {"stage", BYS_REF("stage"), BYS_NEED, BYS_ANY, "crop stage at which these values hold"},
    {"of", BYS_REF("block|line"), BYS_MAY, BYS_ANY,
     "block or line that they hold for; all if not stated"},
    {"mass-in-water", BYS_IN(MASS), BYS_MAY, BYS_RANGE(-1000, 1e5), "as of the gear"},
    {"mass-in-water-per-metre", BYS_IN(MASS_PER_LENGTH), BYS_MAY, BYS_RANGE(-100, 1e3),
     "as of the gear"},
    {"width", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "as of the gear"},
    {"height", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "as of the gear"},
    {"drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5), "as of the gear"},
    {"solidity", BYS_PLAIN, BYS_MAY, BYS_RANGE(0.01, 1), "as of the gear"},
    DRAG,
    FLOW,
};
static const bys_attr_rule drag_attrs[] = {
    PART,
    {"law", BYS_CHOICE("outline|panel|lantern|net|net-loland|net-kristiansen|basket|weed|line|"
                       "sphere|barrel|hull"),
     BYS_NEED, BYS_ANY,
     "what it is of: an outline in the flow, a panel by face and edge, a lantern net by its "
     "sinker, a net by the larger of two laws or by one, a basket by its solidity, weed that "
     "folds, a line, a float, a hull"},
    {"coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 10),
     "on outline, face, diameter or long side; not for lantern, nets, basket and barrel, whose law "
     "gives it"},
    {"edge", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5), "panel: on its face, seen edge-on"},
    {"along", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "line: along, on the diameter; hull: end-on"},
    {"speed", BYS_IN(SPEED), BYS_MAY, BYS_POSITIVE, "weed: speed at which the coefficient holds"},
    {"power", BYS_PLAIN, BYS_MAY, BYS_RANGE(1.2, 2),
     "weed: power of the speed that the drag follows; 1.5 if not stated"},
    {"low", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 10), "least that other sources give"},
    {"high", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 10), "most that other sources give"},
    {"reynolds-from", BYS_PLAIN, BYS_MAY, BYS_POSITIVE, "range of the source, on the width"},
    {"reynolds-to", BYS_PLAIN, BYS_MAY, BYS_POSITIVE, "its upper end"},
    {"speed-from", BYS_IN(SPEED), BYS_MAY, BYS_NOT_NEGATIVE, "range of the source by speed"},
    {"speed-to", BYS_IN(SPEED), BYS_MAY, BYS_POSITIVE, "its upper end"},
    {"note", BYS_TEXT, BYS_MAY, BYS_ANY, "what it leaves out"},
};
static const bys_attr_rule raft_attrs[] = {
    PART,
    {"length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "length between fairlead corners"},
    {"width", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "width between fairlead corners"},
    {"mass", BYS_IN(MASS), BYS_NEED, BYS_POSITIVE, "mass in air of frame and pontoons"},
    {"centre-of-gravity", BYS_IN(LENGTH), BYS_NEED, BYS_NOT_NEGATIVE, "height above the keel"},
    {"pontoons", BYS_WHOLE, BYS_NEED, BYS_RANGE(1, 100), "number, parallel to the length"},
    {"pontoon-length", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "length of one pontoon"},
    {"pontoon-width", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "width of one pontoon"},
    {"pontoon-height", BYS_IN(LENGTH), BYS_NEED, BYS_POSITIVE, "height of one pontoon"},
    {"drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "on the wetted sides; 1.2 if not stated"},
    {"end-drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "on the wetted ends; as on the sides if not stated"},
    DRAG,
    {"friction-factor", BYS_PLAIN, BYS_MAY, BYS_RANGE(1, 10),
     "on the friction of a hull record: 1 clean, 3 to 5 fouled; 1 if not stated"},
    {"beams", BYS_WHOLE, BYS_MAY, BYS_RANGE(0, 1000),
     "beams across the raft, evenly spread over its length; 0 if not stated"},
    {"beam-length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "of one beam; the width if not stated"},
    {"beam-height", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "of one beam; needed with beams"},
    {"beam-level", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "height of its underside above the keel; needed with beams"},
    {"beam-drag-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5),
     "on the side that the flow sees; 2.0 if not stated"},
    {"wind-coefficient", BYS_PLAIN, BYS_MAY, BYS_RANGE(0, 5), "1.2 if not stated"},
    {"deck-area", BYS_IN(AREA), BYS_MAY, BYS_NOT_NEGATIVE,
     "area above the pontoons that the wind meets from any side; 0 m2 if not stated"},
    {"deck-height", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "height of its middle above the pontoons' top; 0 m if not stated"},
    {"gear", BYS_REF("gear"), BYS_MAY, BYS_ANY, "gear hung below it"},
    {"gear-count", BYS_WHOLE, BYS_MAY, BYS_RANGE(0, 100000), "pieces below one raft"},
    {"fairlead-height", BYS_IN(LENGTH), BYS_NEED, BYS_NOT_NEGATIVE, "height above the keel"},
};
static const bys_attr_rule pull_test_attrs[] = {
    {"href", BYS_TEXT, BYS_NEED, BYS_ANY,
     "record of a pull test of this anchor: a path below the site file's folder"},
};
static const bys_attr_rule anchor_attrs[] = {
    PART,
    {"kind", BYS_CHOICE("deadweight|drag|screw|fixed|plate|pile|rock-pin"), BYS_NEED, BYS_ANY,
     "gravity block, drag anchor, screw anchor, a fixed point that is never checked, embedded "
     "plate, pile, or a bar grouted into rock"},
    {"mass", BYS_IN(MASS), BYS_MAY, BYS_POSITIVE,
     "mass in air; needed for deadweights and drag anchors"},
    {"density", BYS_IN(DENSITY), BYS_MAY, BYS_RANGE(1000, 25000),
     "of the solid; needed for deadweights"},
    {"friction", BYS_PLAIN, BYS_MAY, BYS_RANGE(0.01, 2),
     "of a deadweight on the bed; 0.30 for precast concrete, from memory, if not stated"},
    {"friction-basis", BYS_CHOICE(BYS_BASES), BYS_MAY, BYS_ANY, "how well the friction is known"},
    {"base-area", BYS_IN(AREA), BYS_MAY, BYS_POSITIVE, "of a deadweight; needed on clay"},
    {"base", BYS_CHOICE("concrete|steel"), BYS_MAY, BYS_ANY,
     "what a deadweight stands on, for its friction; concrete if not stated"},
    {"key-depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "depth of the keys or skirt below a deadweight's base"},
    {"key-width", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "of them across the pull"},
    {"key-thickness", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "of them; the block must be heavy enough to push them in"},
    {"drag-class",
     BYS_CHOICE("stockless|stockless-35|stockless-fixed|hinged-light|heavy-hinged-20|"
                "heavy-hinged-28|wide-hinged|fixed-fluke|cast-claw|wide-hinged-sharp|"
                "fixed-fluke-hooked|fixed-fluke-sharp|large-fluke|stabilised"),
     BYS_MAY, BYS_ANY, "class of a drag anchor by its shape"},
    {"fluke-length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "of a drag anchor; says how deep it digs and how far it drags"},
    {"helices", BYS_WHOLE, BYS_MAY, BYS_RANGE(1, 20), "plates of a screw anchor; 1 if not stated"},
    {"helix-diameter", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.05, 3), "of a screw anchor's plates"},
    {"helix-spacing", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "between a screw anchor's plates"},
    {"depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "below the bed: of a screw anchor's upper plate, of the middle of a plate as driven"},
    {"shaft", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.005, 1),
     "diameter of a screw anchor's shaft, side of a square one, diameter of a rock pin's bar"},
    {"shaft-form", BYS_CHOICE("round|square"), BYS_MAY, BYS_ANY, "of a screw; round if not stated"},
    {"shaft-angle", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0.17, BYS_RIGHT_ANGLE),
     "of a screw's shaft or a rock pin above the bed, leaning towards the pull; 90 deg if not "
     "stated"},
    {"torque", BYS_IN(MOMENT), BYS_MAY, BYS_POSITIVE,
     "at which a screw went in, mean over the last three plate diameters of depth"},
    {"width", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "shorter side of a plate"},
    {"length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "longer side of a plate; of a pile in the bed"},
    {"diameter", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.02, 5), "of a pile"},
    {"wall", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "of a tube pile; a full bar if not stated"},
    {"yield-stress", BYS_IN(PRESSURE), BYS_MAY, BYS_POSITIVE,
     "of a pile's or a screw shaft's steel"},
    {"pull-height", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "of the eye of a pile or screw above the bed; 0 m if not stated"},
    {"eye-depth", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE,
     "of the eye of a plate or pile below the bed; the leg's chain cuts down to it"},
    {"hole", BYS_IN(LENGTH), BYS_MAY, BYS_RANGE(0.01, 1), "diameter of a rock pin's hole"},
    {"bond-length", BYS_IN(LENGTH), BYS_MAY, BYS_POSITIVE, "grouted length of a rock pin"},
    {"free-length", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "of a rock pin from the bed to the grouted length; 0 m if not stated"},
    {"rock",
     BYS_CHOICE("granite|basalt|dolomite|soft-limestone|slate|hard-shale|soft-shale|sandstone|"
                "weathered-sandstone|chalk"),
     BYS_MAY, BYS_ANY, "around a rock pin, for the bond of its grout"},
    {"rock-strength", BYS_IN(PRESSURE), BYS_MAY, BYS_POSITIVE,
     "of the rock in compression, for the bond of a rock pin's grout"},
    {"bar-bond", BYS_IN(PRESSURE), BYS_MAY, BYS_POSITIVE, "of a rock pin's bar and its grout"},
    {"permitted-drag", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "drag at which a pull test's record is read; 2 m if not stated"},
    {"capacity", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE,
     "holding that you state or tested, in place of a formula"},
    {"capacity-kind", BYS_CHOICE("ultimate|fractile|proof"), BYS_MAY, BYS_ANY,
     "what that holding is; needed with it"},
    {"capacity-basis", BYS_CHOICE("user|test"), BYS_MAY, BYS_ANY,
     "stated by you or from a test; needed with it"},
    {"test", BYS_TEXT, BYS_MAY, BYS_ANY, "note on the test"},
    {"capacity-angle", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, BYS_RIGHT_ANGLE),
     "uplift of the pull up to which that holding is good"},
    {"uplift-limit", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, BYS_RIGHT_ANGLE),
     "uplift at the bed up to which the anchor is checked; 0 deg for drag anchors if not stated"},
    {"offset-limit", BYS_IN(ANGLE), BYS_MAY, BYS_RANGE(0, 3.1416),
     "pull off its set heading up to which it is checked; 30 deg if not stated"},
    {"setback", BYS_IN(LENGTH), BYS_MAY, BYS_NOT_NEGATIVE,
     "drag distance to set it; 0 m if not stated"},
    {"strength", BYS_IN(FORCE), BYS_MAY, BYS_POSITIVE, "structural strength"},
};

#define IN_PARTS "parts|catalogue-parts", false, false

const bys_element_rule bys_schema_part_rows[] = {
    {"parts", "parts", "site", true, false, NULL, 0, "parts that the layout uses"},
    {"catalogue-parts", "parts", "", true, false, NULL, 0, "a catalogue, a file of its own"},
    {"catalogue", "catalogue", "parts", false, false, BYS_ROWS(catalogue_attrs),
     "parts from a file"},
    {"rope", "rope", IN_PARTS, BYS_ROWS(rope_attrs), "a kind of rope"},
    {"stretch", "stretch", "rope", false, false, BYS_ROWS(stretch_attrs),
     "tension over strain of a rope: one stiffness, or a curve through points from zero"},
    {"stretch-at", "at", "stretch", false, false, BYS_ROWS(stretch_at_attrs),
     "a point of the curve; two or more, in rising order"},
    {"chain", "chain", IN_PARTS, BYS_ROWS(chain_attrs), "a kind of chain"},
    {"connector", "connector", IN_PARTS, BYS_ROWS(connector_attrs),
     "shackle, swivel, ring or thimble"},
    {"sinker", "sinker", IN_PARTS, BYS_ROWS(sinker_attrs), "a weight within a leg"},
    {"float", "float", IN_PARTS, BYS_ROWS(float_attrs), "a float"},
    {"gear", "gear", IN_PARTS, BYS_ROWS(gear_attrs), "what hangs from a line or raft"},
    {"at", "at", "gear", false, false, BYS_ROWS(at_attrs), "the gear's values at a crop stage"},
    {"raft", "raft", IN_PARTS, BYS_ROWS(raft_attrs), "a rectangular raft on pontoons"},
    {"anchor", "anchor", IN_PARTS, BYS_ROWS(anchor_attrs), "an anchor"},
    {"pull-test", "pull-test", "anchor", false, false, BYS_ROWS(pull_test_attrs),
     "a pull test, in place of a formula; several give a 5 % fractile"},
    {"drag", "drag", IN_PARTS, BYS_ROWS(drag_attrs),
     "a drag record: a coefficient with its source and range, for parts to name"},
};
const int bys_schema_part_count =
    (int)(sizeof bys_schema_part_rows / sizeof bys_schema_part_rows[0]);
