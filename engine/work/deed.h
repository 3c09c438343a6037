// Work on what is neither fastener nor part, in one plain verb: "drill wing lip, 6.5 mm", "strap axle, to the saddle".
//
//   verb    makes the condition   served by
//   drill   X drilled             drill
//   cut     X cut                 snips, saw, knife, file
//   rivet   X riveted             rivet gun
//   grease, bleed, route, label, choose                   no tool is asked for
//   strap   X strapped            strap or rope
//   lower   X lowered             jack or hoist
//   raise   X raised              jack or hoist
//   adjust  X adjusted            what turns: wrench, socket, key, screwdriver, pliers; or a hand
//   load    X loaded              ballast
//   read    X read                what reads that quantity: a gauge for "tyre pressure" (measure_tool.h)
// Later steps may need the condition. What is drilled, cut or riveted is so for good. Law: a deed whose tool is among
// those of the step, or may be since a tool's words are not known, is no fault. Source: common practice, no source.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "work/measure_tool.h"
#include "work/tool.h"

namespace trammel::work {

enum class Verb : unsigned char {
  drill,
  cut,
  rivet,
  grease,
  bleed,
  route,
  label,
  choose,
  strap,
  lower,
  raise,
  adjust,
  load,
  read
};
inline constexpr std::array<std::string_view, 14> verb_words = {"drill", "cut",    "rivet",  "grease", "bleed",
                                                                "route", "label",  "choose", "strap",  "lower",
                                                                "raise", "adjust", "load",   "read"};
std::optional<Verb> read_verb(std::string_view word);

struct Deed {
  Verb verb = Verb::drill;
  std::string what, how;  // "wing lip", "6.5 mm"; how is opaque
  friend bool operator==(const Deed&, const Deed&) = default;
};
std::string condition_of(const Deed& deed);  // "wing lip drilled"
constexpr bool irreversible(Verb v) { return v == Verb::drill || v == Verb::cut || v == Verb::rivet; }

// Whether a deed asks for a tool at all, and whether one of that kind serves it.
bool wants_tool(const Deed& deed);
bool serves(ToolKind kind, const Deed& deed);

}  // namespace trammel::work
