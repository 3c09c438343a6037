// One written value: from a node of the tree to a number, point, band, word, move or gap, with its faults.
#pragma once

#include <optional>
#include <string>

#include "job/job.h"
#include "job/shape.h"
#include "jobfile/report.h"
#include "measure/text.h"

namespace trammel {

struct ReadContext {
  Report& report;
  Basis basis = Basis::assumed;  // of a value that does not say its own
  TextRules rules;
};

// A value's node, taken out of `{ value = …, basis = …, sure = true }` where it stands in one.
struct Given {
  const Node* node = nullptr;  // null where the table has no value
  Basis basis = Basis::assumed;
  bool sure = false;  // the person has looked: sizes are not doubted
};
Given unwrap(const Node& node, const std::string& key, ReadContext& context);

struct NumberGiven {
  Number number;
  Basis basis = Basis::assumed;
};
std::optional<NumberGiven> read_number(const Node& node, const Key& key, Kind kind, ReadContext& context);
std::optional<PointValue> read_point_value(const Node& node, const Key& key, ReadContext& context);
std::optional<Band> read_band_value(const Node& node, const Key& key, Kind kind, ReadContext& context);
std::optional<Text> read_text(const Node& node, const Key& key, ReadContext& context);
std::optional<Count> read_count(const Node& node, const Key& key, ReadContext& context);
std::optional<Flag> read_flag(const Node& node, const Key& key, ReadContext& context);
std::optional<AdjusterMove> read_move(const Node& node, const Key& key, ReadContext& context);
std::optional<SquareGap> read_gap(const Node& node, const Key& key, ReadContext& context);

// Doubts a size outside what is plausible, with the unit that was probably meant.
void doubt_size(const Node& node, const std::string& key, const Number& number, const std::string& unit,
                const Plausible& plausible, ReadContext& context);

// Where a byte of a node's text stands on its line; nothing where escapes or line ends shift it.
std::optional<Place> place_in_text(const Node& node, std::size_t offset, const Report& report);

// A text that measure could not read; `shift` is where the part that was read starts in the node's text.
void report_text_error(const Node& node, const std::string& key, Kind kind, const TextError& error, std::size_t shift,
                       ReadContext& context);

}  // namespace trammel
