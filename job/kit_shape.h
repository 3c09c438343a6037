// The keys of a kit file. A `change` is read by jobfile itself, because its value's type follows from the
// path that it names. See job/shape.h.
#pragma once

#include "job/cart_shape.h"
#include "job/kit.h"

namespace trammel {

namespace words {
inline constexpr std::array<std::string_view, 4> change_acts = {"set", "move", "add", "remove"};
inline constexpr std::array<std::string_view, 4> sides = {"once", "each", "left", "right"};
inline constexpr std::array<std::string_view, 3> part_kinds = {"suspension", "wheel", "body"};
inline constexpr std::array<std::string_view, 2> sources = {"cart", "pack"};
inline constexpr std::array<std::string_view, 4> duties = {"general", "wheel", "body", "battery"};
inline constexpr std::array<std::string_view, 14> cautions = {
    "crush",  "worn-parts", "stored-energy", "battery", "cutting",       "steering", "tip-over",
    "brakes", "wheel-loss", "surface",       "lifting", "tyre-mounting", "law",      "tool-limits"};
inline constexpr std::array<std::string_view, 2> bushes = {"bonded", "greased"};
inline constexpr std::array<std::string_view, 2> sequences = {"isolate", "power up"};
inline constexpr std::array<std::string_view, 2> trials = {"slope", "level pull"};
inline constexpr std::array<std::string_view, 2> reuse = {"new", "reuse"};
inline constexpr std::array<std::string_view, 2> languages = {"en", "de"};
inline constexpr std::array<std::string_view, 2> axles = {"front", "rear"};
inline constexpr std::array<std::string_view, 3> pivot_lies = {"across the cart", "along the cart", "upright"};
inline constexpr std::array<std::string_view, 3> bolt_kept = {"left in", "bag of its side", "scrap"};
inline constexpr std::array<std::string_view, 3> nut_kept = {"threaded back", "bag of its side", "scrap"};
inline constexpr std::array<std::string_view, 5> loads = {"jacked", "on stands", "on wheels", "rolled", "driven"};
inline constexpr std::array<std::string_view, 9> states = {"out",        "nut-off", "slack",    "finger-tight", "snug",
                                                           "part-tight", "final",   "verified", "locked"};
}  // namespace words
namespace sizes {
inline constexpr Plausible across_flats{0.004, 0.06}, torque{0.3, 600}, minutes{10, 36000}, cure{60, 604800},
    nut_factor{0.05, 0.6}, trial_slope{0.01, 0.6}, trial_load{1, 5000}, trial_pull{50, 50000};
}

template <class V>
void fields(V& v, LeastStates& s) {
  const auto key = [](std::string_view name, std::string_view help) { return Key{name, help, {}, {}, words::states}; };
  v.field(key("jacked", "before a jack takes load"), s.jacked);
  v.field(key("on_stands", "before the cart rests on stands"), s.on_stands);
  v.field(key("on_wheels", "before the cart stands on its wheels"), s.on_wheels);
  v.field(key("rolled", "before the cart is rolled by hand"), s.rolled);
  v.field(key("driven", "before the first slow drive"), s.driven);
  v.field(key("released", "before the cart is handed over"), s.released);
}
template <class V>
void fields(V& v, KitPivot& s) {
  v.field(Key{"axle", "whose wheel's load it sees", Need::required, {}, words::axles}, s.axle);
  v.field(Key{"lies", "how the bolt lies", {}, {}, words::pivot_lies}, s.lies);
  v.field(Key{"share", "its part of one wheel's load, over 100 % where a lever multiplies it", {}, Plausible{0.01, 10}},
          s.share);
  v.field(Key{"planes", "in how many planes it is sheared", {}, Plausible{1, 4}}, s.planes);
}
template <class V>
void fields(V& v, KitFastener& s) {
  v.field(Key{"id", "short name, as F3", Need::required}, s.id);
  v.field(Key{"at", "where it sits, with {left,right} for each of several", Need::required}, s.at);
  v.field(Key{"stack", "the joint from head to thread", Need::required}, s.stack);
  v.field(Key{"across_flats", "wrench size the kit names", {}, sizes::across_flats}, s.across_flats);
  v.field(Key{"across_flats_nut", "wrench size for the nut, where it differs", {}, sizes::across_flats},
          s.across_flats_nut);
  v.field(Key{"torque", "final torque", {}, sizes::torque}, s.torque);
  v.field(Key{"passes", "torques in order, the last is final", {}, sizes::torque}, s.passes);
  v.field(Key{"surface", "state of thread and seat for which the torque holds"}, s.surface);
  v.field(Key{"method", "how it is tightened"}, s.method);
  v.field(Key{"nut_factor",
              "K of torque = K x clamp force x thread diameter, where the kit reckoned with its own",
              {},
              sizes::nut_factor},
          s.nut_factor);
  v.field(Key{"least_state", "least state before each load"}, s.least_state);
  v.field(Key{"only_on", "final only while the cart stands so", {}, {}, words::loads}, s.only_on);
  v.field(Key{"bush", "bonded: final only on the wheels; greased: in any state", {}, {}, words::bushes}, s.bush);
  v.field(Key{"accessory", "only where this accessory is fitted"}, s.accessory);
  v.field(Key{"reuse", "new, or may be used again", {}, {}, words::reuse}, s.reuse);
  v.field(Key{"retorque", "when it is checked again"}, s.retorque);
  v.field(Key{"second_person", "a second person checks it"}, s.second_person);
  v.field(Key{"duty", "which default least states hold", {}, {}, words::duties}, s.duty);
  v.field(Key{"as_found", "state before the work", {}, {}, words::states}, s.as_found);
  v.field(Key{"holds", "parts that it clamps, by id"}, s.holds);
  v.field(Key{"shares", "fastener of an earlier kit in the same holes, as F2 front"}, s.shares);
  v.field(Key{"torque_limit", "greatest torque on the way to a castle nut's slot", {}, sizes::torque}, s.torque_limit);
  v.field(Key{"set_by", "what sets it where torque does not, as end float 0.05 mm"}, s.set_by);
  v.field(Key{"pivot", "a bolt that something turns on, and the load it sees"}, s.pivot);
  v.field(Key{"bolt_kept", "where the bolt is while the joint is open", {}, {}, words::bolt_kept}, s.bolt_kept);
  v.field(Key{"nut_kept", "where the nut is while the joint is open", {}, {}, words::nut_kept}, s.nut_kept);
  v.field(Key{"cure", "time of the thread locker before a load", {}, sizes::cure}, s.cure);
  v.field(Key{"grease", "where grease belongs, never on the thread"}, s.grease);
  v.field(Key{"note", "a line for the technician"}, s.note);
}
template <class V>
void fields(V& v, Part& s) {
  v.field(Key{"id", "short name", Need::required}, s.id);
  v.field(Key{"name", "what it is", Need::required}, s.name);
  v.field(Key{"count", "how many are in the pack", {}, Plausible{1, 500}}, s.count);
  v.field(Key{"at", "{left,right} where there is one on each side"}, s.at);
  v.field(Key{"kind", "suspension, wheel or body", {}, {}, words::part_kinds}, s.kind);
  v.field(Key{"source", "on the cart already, or in the pack", {}, {}, words::sources}, s.source);
  v.field(Key{"replaces", "part that stays off because this one is on"}, s.replaces);
  v.field(Key{"accessory", "only where this accessory is fitted"}, s.accessory);
  v.field(Key{"mass", "mass of one, for the load on stands", {}, Plausible{0.05, 300}}, s.mass);
}
template <class V>
void fields(V& v, Proof& s) {
  v.field(Key{"id", "what is proved, as toe", Need::required}, s.id);
  v.field(Key{"voided_by_lifting", "void once the cart is lifted again"}, s.voided_by_lifting);
  v.field(Key{"voided_by_slackening", "void once one of these fasteners is slackened"}, s.voided_by_slackening);
  v.field(Key{"voided_by_removing", "void once one of these parts comes off"}, s.voided_by_removing);
  v.field(Key{"only_while", "needs without which it proves nothing, as \"not axle on jack\""}, s.only_while);
  v.field(Key{"guards", "loads and steps that wait for it, as driven"}, s.guards);
}
template <class V>
void fields(V& v, BrakeTrial& s) {
  v.field(Key{"by", "a slope that it stands on, or a level pull on a pull gauge", Need::required, {}, words::trials},
          s.by);
  v.field(Key{"slope", "of the ramp, as 10 %; the site's steepest where not said", {}, sizes::trial_slope}, s.slope);
  v.field(
      Key{"load", "people, goods or ballast in the cart on that slope; empty where not said", {}, sizes::trial_load},
      s.load);
  v.field(Key{"pull",
              "level pull that it holds against; what the site's slope asks for where not said",
              {},
              sizes::trial_pull},
          s.pull);
}
template <class V>
void fields(V& v, KitStep& s) {
  v.field(Key{"id", "short name", Need::required}, s.id);
  v.field(Key{"do", "what to do, one sentence", Need::required}, s.act);
  v.field(Key{"stage", "which end or stage it belongs to"}, s.stage);
  v.field(Key{"sides", "once, on each side, or on one", {}, {}, words::sides}, s.sides);
  v.field(Key{"needs", "conditions that must hold before"}, s.needs);
  v.field(Key{"gives", "conditions that hold afterwards"}, s.gives);
  v.field(Key{"ends", "conditions that no longer hold afterwards"}, s.ends);
  v.field(Key{"tighten", "fasteners and the state they reach, as \"F3 final\""}, s.tighten);
  v.field(Key{"slacken", "fasteners and the state they come back to"}, s.slacken);
  v.field(Key{"work",
              "a verb, what, and how after a comma, as \"drill wing lip, 6.5 mm\"; verbs: drill, cut, rivet, grease, "
              "bleed, "
              "route, label, choose, strap, lower, raise, adjust, load, read"},
          s.work);
  v.field(Key{"removes", "parts taken off"}, s.removes);
  v.field(Key{"fits", "parts put on"}, s.fits);
  v.field(Key{"tools", "tools in hand, in English or the kit's language, as \"2 wrenches 16 mm\""}, s.tools);
  v.field(Key{"undoes", "readings and checks that it voids"}, s.undoes);
  v.field(Key{"proves", "readings and checks that it makes good"}, s.proves);
  v.field(Key{"cautions", "cautions that apply, by name"}, s.cautions);
  v.field(Key{"evidence", "what shows that it is done"}, s.evidence);
  v.field(Key{"loads", "loads that come on when it is done, as rear on stands"}, s.loads);
  v.field(Key{"accessory", "only where this accessory is fitted"}, s.accessory);
  v.field(Key{"person_under", "someone works under the cart"}, s.person_under);
  v.field(Key{"after", "comes in after this step of an earlier kit"}, s.after);
  v.field(Key{"before", "comes in before this step of an earlier kit"}, s.before);
  v.field(Key{"optional", "may be left out"}, s.optional);
  v.field(Key{"any_time", "may come at any time that its needs allow"}, s.any_time);
  v.field(Key{"repeat_until", "done again until this is met"}, s.repeat_until);
  v.field(Key{"hold", "wait for a second look before going on"}, s.hold);
  v.field(Key{"minutes", "time it takes", {}, sizes::minutes}, s.minutes);
  v.field(Key{"people", "how many people it takes", {}, Plausible{1, 4}}, s.people);
  v.field(Key{"one_person", "what a shop of one does instead, where it takes two"}, s.one_person);
  v.field(Key{"trial", "how it tries the parking brake"}, s.trial);
  v.field(Key{"calls", "the standard sequence for this cart's drive, printed in the step", {}, {}, words::sequences},
          s.calls);
}
template <class V>
void fields(V& v, Kit& s) {
  v.field(Key{"format", "\"trammel kit 1\"", Need::required}, s.format);
  v.field(Key{"name", "what the kit is called", Need::required}, s.name);
  v.field(Key{"maker_note", "a line from the kit's maker"}, s.maker_note);
  v.field(Key{"language", "of its own words: en or de, for the booklet", {}, {}, words::languages}, s.language);
  v.field(Key{"conflicts", "kits that cannot be fitted with this one"}, s.conflicts);
  v.field(Key{"given", "conditions that hold before the first step"}, s.given);
  v.field(Key{"accessories", "accessories that it offers; what says `accessory` names one of them"}, s.accessories);
  v.field(Key{"part", "parts in the pack and parts taken off"}, s.part);
  v.field(Key{"proof", "readings and checks with rules of their own"}, s.proof);
  v.field(Key{"fastener", "fasteners and their joints"}, s.fastener);
  v.field(Key{"step", "steps in the order of work"}, s.step);
}

}  // namespace trammel
