#include "suspension/tyre/size.h"

#include <cmath>

namespace trammel::suspension {
namespace {

// A text read from the left.
class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) { spaces(); }
  std::size_t at() const { return at_; }
  bool done() const { return at_ >= text_.size(); }
  char peek() const { return done() ? '\0' : text_[at_]; }
  void spaces() {
    while (!done() && (peek() == ' ' || peek() == '\t')) ++at_;
  }
  bool take(std::string_view any) {
    spaces();
    if (done() || any.find(peek()) == std::string_view::npos) return false;
    ++at_;
    spaces();
    return true;
  }
  // The sign that the trade writes as x, X or a multiplication sign.
  bool take_times() {
    spaces();
    if (text_.substr(at_, 2) == "\xc3\x97") {
      at_ += 2;
      spaces();
      return true;
    }
    return take("xX");
  }
  std::optional<double> number() {
    double value = 0, scale = 1;
    int digits = 0;
    bool point = false;
    std::size_t i = at_;
    for (; i < text_.size() && digits < 9; ++i) {
      const char c = text_[i];
      if (c == '.' && !point) {
        point = true;
        continue;
      }
      if (c < '0' || c > '9') break;
      ++digits;
      value = value * 10 + (c - '0');
      if (point) scale *= 10;
    }
    if (digits == 0) return std::nullopt;
    at_ = i;
    return value / scale;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

// What may follow the size: a load index with its speed symbol, a ply rating.
std::optional<TyreError> read_tail(Reader& in, TyreSize& size) {
  in.spaces();
  while (!in.done()) {
    const std::size_t at = in.at();
    const std::optional<double> n = in.number();
    if (!n || *n != std::floor(*n)) return TyreError{TyreFault::trailing_text, at};
    in.spaces();
    if (in.take("Pp")) {
      const bool rating = in.take("Rr") || (in.take("Ll") && in.take("Yy"));
      if (rating && !size.ply_rating && *n >= 2 && *n <= 20) {
        size.ply_rating = static_cast<int>(*n);
        continue;
      }
      if (rating || size.load_index) return TyreError{TyreFault::trailing_text, at};
      size.load_index = static_cast<int>(*n);
      size.speed_symbol = 'P';
      continue;
    }
    const char c = in.peek();
    if (size.load_index || *n > 279 || c < 'A' || c > 'Z') return TyreError{TyreFault::trailing_text, at};
    size.load_index = static_cast<int>(*n);
    size.speed_symbol = c;
    in.take(std::string_view(&c, 1));
  }
  return std::nullopt;
}

}  // namespace

std::variant<TyreSize, TyreError> read_tyre(std::string_view text) {
  using units::inch, units::mm;
  Reader in(text);
  if (in.done()) return TyreError{TyreFault::empty, 0};
  in.take("P");
  const auto bad = [&] { return TyreError{TyreFault::not_a_size, in.at()}; };

  TyreSize size;
  const std::optional<double> first = in.number();
  if (!first) return bad();
  std::optional<double> second;
  if (in.take("/")) {
    size.notation = TyreNotation::metric;
    second = in.number();
  } else if (in.take_times()) {
    size.notation = TyreNotation::inch;
    second = in.number();
  } else if (in.take("-Rr") && in.number()) {
    return TyreError{TyreFault::no_overall_diameter, in.at()};
  }
  if (!second) return bad();
  in.spaces();
  size.radial = in.peek() == 'R' || in.peek() == 'r';
  if (!in.take("-Rr")) return bad();
  const std::size_t rim_at = in.at();
  const std::optional<double> rim = in.number();
  if (!rim) return bad();

  size.rim_diameter = *rim * inch;
  if (size.notation == TyreNotation::metric) {
    size.section_width = *first * mm;
    size.aspect = *second / 100.0;
    size.overall_diameter = size.rim_diameter + 2.0 * size.aspect * size.section_width;
  } else {
    size.overall_diameter = *first * inch;
    size.section_width = *second * inch;
    if (size.section_width.si() > 0) size.aspect = size.section_height() / size.section_width;
  }

  // A cart's tyre: anything far off is a slip of the pen, said so and not repaired.
  if (size.overall_diameter <= size.rim_diameter) return TyreError{TyreFault::rim_not_smaller, rim_at};
  if (size.section_width < 50.0 * mm || size.section_width > 500.0 * mm || size.rim_diameter < 3.0 * inch ||
      size.rim_diameter > 30.0 * inch || size.overall_diameter > 60.0 * inch || size.aspect > 1.3)
    return TyreError{TyreFault::out_of_range, 0};
  if (const auto error = read_tail(in, size)) return *error;
  return size;
}

LoadedRadius loaded_radius_estimate(const TyreSize& size, double load_share) {
  constexpr double flattening = 0.20, flattening_u = 0.05;
  const Length height = size.section_height();
  return {0.5 * size.overall_diameter - load_share * flattening * height, std::abs(load_share) * flattening_u * height};
}

}  // namespace trammel::suspension
