#include "fastener/strength.h"

#include <array>
#include <cmath>

#include "fastener/scanner.h"
#include "reference/iso898_1_classes.h"
#include "reference/iso898_1_proof_loads.h"
#include "reference/iso898_2_nut_proof_loads.h"
#include "reference/sae_j429_grades.h"
#include "reference/thin_nuts.h"

namespace trammel::fastener {
namespace {

constexpr Pressure ksi = 1000.0 * units::psi;

// Classes whose loads have been read in one publication only.
bool one_source(std::string_view c) { return c == "4.6" || c == "5.6" || c == "5.8" || c == "9.8"; }

// "1/4", "1", "1-1/2" in inches.
double inches(std::string_view text) {
  Scanner s(text);
  double whole = s.number().value_or(0.0);
  if (s.peek() == '/') {
    s.go_to(s.at() + 1);
    return whole / s.number().value_or(1.0);
  }
  if (s.peek() != '-') return whole;
  s.go_to(s.at() + 1);
  return whole + inches(text.substr(s.at()));
}

// "1/4 to 1-1/2" includes both ends, "over 3/4 to 1-1/2" leaves the first out.
bool in_range(std::string_view range, double d_in) {
  const bool over = range.starts_with("over ");
  if (over) range.remove_prefix(5);
  const auto to = range.find(" to ");
  const double low = inches(range.substr(0, to)), high = inches(range.substr(to + 4));
  return (over ? d_in > low : d_in >= low) && d_in <= high;
}

std::string_view grade_number(std::string_view grade) { return grade.substr(0, grade.find(' ')); }

std::optional<Strength> metric_strength(std::string_view c, const Thread& thread) {
  const double d = thread.d.in(units::mm);
  if (c == "9.8" && d > 16.0) return std::nullopt;
  for (const auto& row : reference::iso898_1_classes) {
    const auto split = row.property_class.find(' ');
    if (row.property_class.substr(0, split) != c) continue;
    if (split != std::string_view::npos && (d <= 16.0) != row.property_class.ends_with("d<=16")) continue;
    return Strength{row.proof_mpa * units::MPa,
                    row.yield_min_mpa * units::MPa,
                    row.rm_min_mpa * units::MPa,
                    row.source,
                    row.basis,
                    one_source(c)};
  }
  return std::nullopt;
}

std::optional<Strength> inch_strength(std::string_view c, const Thread& thread) {
  if (!c.starts_with("grade ")) return std::nullopt;
  for (const auto& row : reference::sae_j429_grades)
    if (grade_number(row.grade) == c.substr(6) && in_range(row.size_range_in, thread.d.in(units::inch)))
      return Strength{
          row.proof_ksi * ksi, row.yield_min_ksi * ksi, row.tensile_min_ksi * ksi, row.source, row.basis, false};
  return std::nullopt;
}

// The printed load where the standard's table has been read, else area times stress.
std::optional<Load> load(std::string_view c, const Thread& thread, Pressure Strength::*stress,
                         double reference::ProofLoadRow::*printed) {
  const auto s = strength(c, thread);
  if (!s) return std::nullopt;
  if (is_metric(thread)) {
    const std::string named = name(thread);
    for (const auto& row : reference::iso898_1_proof_loads)
      if (row.thread == named && row.property_class == c && row.basis == Basis::as_published)
        return Load{row.*printed * units::newton, row.source, row.basis, s->single_source};
  }
  return Load{stress_area(thread) * (*s).*stress, s->source, Basis::derived, s->single_source};
}

}  // namespace

std::optional<std::string> read_bolt_class(std::string_view text) {
  std::string t = lower(trimmed(text));
  for (std::string_view prefix : {"class ", "cl "})
    if (t.starts_with(prefix)) t.erase(0, prefix.size());
  for (const auto& row : reference::iso898_1_classes)
    if (row.property_class.substr(0, row.property_class.find(' ')) == t) return t;
  for (std::string_view prefix : {"grade ", "gr ", "sae ", "grade", "gr"}) {
    if (!t.starts_with(prefix)) continue;
    const std::string number(trimmed(t.substr(prefix.size())));
    for (const auto& row : reference::sae_j429_grades)
      if (grade_number(row.grade) == number) return "grade " + number;
  }
  return std::nullopt;
}

std::string nearest_bolt_class(std::string_view text) {
  const std::string t = lower(trimmed(text));
  const bool grade = !t.empty() && (t.front() == 'g' || t.front() == 's');
  const std::size_t digit = t.find_first_of("0123456789");
  if (digit == std::string::npos) return {};
  const double asked = inches(t.substr(digit));
  std::string best;
  double apart = 0.0;
  const auto offer = [&](std::string_view number, const std::string& named) {
    const double off = std::abs(inches(number) - asked);
    if (best.empty() || off < apart) best = named, apart = off;
  };
  if (grade) {
    for (const auto& row : reference::sae_j429_grades)
      if (const auto number = grade_number(row.grade); number.find('.') == std::string_view::npos)
        offer(number, "grade " + std::string(number));
  } else {
    for (const auto& row : reference::iso898_1_classes) {
      const auto named = row.property_class.substr(0, row.property_class.find(' '));
      offer(named, std::string(named));
    }
  }
  return best;
}

std::optional<std::string> read_nut_class(std::string_view text) {
  std::string t = lower(trimmed(text));
  for (std::string_view prefix : {"class ", "cl "})
    if (t.starts_with(prefix)) t.erase(0, prefix.size());
  // ISO 898-2:2012 classes; Z: hot-dip galvanized and tapped oversize, ISO 10684.
  constexpr std::array<std::string_view, 12> known = {"04", "05", "4",  "5",  "6",  "8",
                                                      "9",  "10", "12", "8z", "9z", "10z"};
  for (std::string_view k : known)
    if (t == k) {
      if (t.back() == 'z') t.back() = 'Z';
      return t;
    }
  return std::nullopt;
}

std::optional<std::string> read_nut_grade(std::string_view number) {
  if (number == "2" || number == "5" || number == "8") return "grade " + std::string(number);
  return std::nullopt;
}

std::optional<Strength> strength(std::string_view bolt_class, const Thread& thread) {
  return is_metric(thread) ? metric_strength(bolt_class, thread) : inch_strength(bolt_class, thread);
}

std::optional<Load> proof_load(std::string_view bolt_class, const Thread& thread) {
  return load(bolt_class, thread, &Strength::proof, &reference::ProofLoadRow::proof_load_n);
}

std::optional<Load> breaking_load(std::string_view bolt_class, const Thread& thread) {
  return load(bolt_class, thread, &Strength::tensile, &reference::ProofLoadRow::ultimate_n);
}

std::optional<Load> nut_proof_load(std::string_view nut_class, const Thread& thread) {
  for (const auto& row : reference::thin_nuts)
    if (row.nut_class == nut_class)
      return Load{row.proof_mpa * units::MPa * stress_area(thread), row.source, row.basis, false};
  if (!is_metric(thread)) return std::nullopt;
  const std::string size = size_name(thread);
  for (const auto& row : reference::iso898_2_nut_proof_loads) {
    const bool pitch = abs(row.pitch_mm * units::mm - thread.pitch) < 1e-9 * units::metre;
    if (row.thread == size && pitch && row.nut_class.substr(0, row.nut_class.find('/')) == nut_class)
      return Load{row.proof_load_n * units::newton, row.source, row.basis, true};
  }
  return std::nullopt;
}

}  // namespace trammel::fastener
