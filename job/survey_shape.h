// The keys of a survey file. See job/shape.h.
#pragma once

#include <array>

#include "job/job_shape.h"
#include "job/survey.h"

namespace trammel {

namespace words {
inline constexpr std::array<std::string_view, 2> survey_sides = {"left", "right"};
}  // namespace words

// Plausible sizes, in SI. common practice, no source.
namespace sizes {
inline constexpr Plausible taped{0.01, 6.0}, coordinate{-6.0, 6.0}, tool{1e-5, 0.02}, wanted{2e-4, 0.05};
}  // namespace sizes

template <class V>
void fields(V& v, SurveyDatum& s) {
  v.field(Key{"name", "a name for the mark", Need::required}, s.name);
  v.field(Key{"at", "its place, x forward, y left, z up"}, s.at);
  v.field(Key{"x", "where only some coordinates are known: forward", {}, sizes::coordinate}, s.x);
  v.field(Key{"y", "to the left", {}, sizes::coordinate}, s.y);
  v.field(Key{"z", "above the floor", {}, sizes::coordinate}, s.z);
}
template <class V>
void fields(V& v, SurveyedPoint& s) {
  v.field(Key{"name", "a name for the point", Need::required}, s.name);
  v.field(Key{"near", "roughly where it is; tells mirrored places apart"}, s.near);
  v.field(Key{"side", "side of the cart it lies on", {}, {}, words::survey_sides}, s.side);
  v.field(Key{"x", "its x by a plumb line", {}, sizes::coordinate}, s.x);
  v.field(Key{"y", "its y by a plumb line", {}, sizes::coordinate}, s.y);
  v.field(Key{"z", "its height above the floor", {}, sizes::coordinate}, s.z);
  v.field(Key{"becomes", "the point of the cart file that it is, front.left.lower_arm.ball_joint"}, s.becomes);
}
template <class V>
void fields(V& v, TapedDistance& s) {
  v.field(Key{"from", "name of a datum or point", Need::required}, s.from);
  v.field(Key{"to", "name of a datum or point", Need::required}, s.to);
  v.field(Key{"length", "as read on the tape, middle to middle", Need::required, sizes::taped}, s.length);
}
template <class V>
void fields(V& v, SurveyTools& s) {
  v.field(Key{"tape", "standard uncertainty of one distance", {}, sizes::tool}, s.tape);
  v.field(Key{"height", "standard uncertainty of one coordinate; the tape's where not given", {}, sizes::tool},
          s.height);
}
template <class V>
void fields(V& v, SurveyFile& s) {
  v.field(Key{"format", "\"trammel survey 1\"", Need::required}, s.format);
  v.field(Key{"name", "what the shop calls this survey", Need::required}, s.name);
  v.field(Key{"decimal_sign", "\".\" or \",\" for every number in this file", {}, {}, words::decimal_signs},
          s.decimal_sign);
  v.field(Key{"tools", "how sure one reading is"}, s.tools);
  v.field(Key{"wanted", "uncertainty of a point that is enough", {}, sizes::wanted}, s.wanted);
  v.field(Key{"datum", "marks whose place is known", Need::required}, s.datum);
  v.field(Key{"point", "points to be found", Need::required}, s.point);
  v.field(Key{"distance", "distances read on the tape", Need::required}, s.distance);
}

}  // namespace trammel
