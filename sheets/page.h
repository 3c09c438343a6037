// Paper: drawing by hand on a canvas, a book of pages that blocks are laid on one under the other, and one drawing
// alone.
//
// All lengths are points (1/72 in) on the paper, x to the right, y down; `mm` turns millimetres of paper
// into points. Texts are pango markup; escape() makes markup of plain text.
#pragma once

#include <functional>
#include <string>
#include <vector>

typedef struct _cairo cairo_t;

namespace trammel::sheets {

inline constexpr double mm = 72.0 / 25.4;

struct Point {
  double x = 0, y = 0;
};
struct Box {
  double x = 0, y = 0, w = 0, h = 0;
};
struct Pen {
  double width = 0.5;
  double ink = 0.0;   // 0 black to 1 white
  double dash = 0.0;  // length of a dash, none at 0
  double dot = 0.0;   // of a dot between two dashes, none at 0
};
enum class Align { left, centre, right };
struct TextStyle {
  double size = 8.5;
  bool bold = false;
  Align align = Align::left;
  double ink = 0.0;
};

std::string escape(const std::string& plain);
std::string bold(const std::string& markup);
std::string small(const std::string& markup);

class Canvas {
 public:
  explicit Canvas(cairo_t* cairo) : cairo_(cairo) {}

  // Lays text into the width and returns the height it took; all text goes through here.
  double text(Point at, double width, const std::string& markup, const TextStyle& style = {});
  double text_height(double width, const std::string& markup, const TextStyle& style = {}) const;
  double text_width(const std::string& markup, const TextStyle& style = {}) const;
  // One line with its middle at a point, on a white ground where it lies over lines.
  void label(Point middle, const std::string& markup, const TextStyle& style = {}, bool ground = false);

  void line(Point a, Point b, const Pen& pen = {});
  void polyline(const std::vector<Point>& points, bool closed, const Pen& pen = {});
  void fill(const std::vector<Point>& points, double ink = 0.0);
  void rect(const Box& box, const Pen& pen = {});
  void circle(Point centre, double radius, const Pen& pen = {});
  void disc(Point centre, double radius, double ink = 0.0);
  void arc(Point centre, double radius, double from, double to, const Pen& pen = {});  // radians, clockwise
  void arrow_head(Point tip, double direction, double size);  // direction in which it points, radians
  // The line over a block; left out right under a page's head, which has its own.
  void rule(const Box& room, double width);
  void start_block(bool under_head) { under_head_ = under_head; }
  void hatch(const std::vector<Point>& outline, double spacing, const Pen& pen = {0.3, 0.35});

  // What is drawn between the two is cut off at the box.
  void begin_window(const Box& box);
  void end_window();

  const std::vector<Box>& texts() const { return texts_; }  // ink of every text so far, on the page
  cairo_t* cairo() { return cairo_; }

 private:
  cairo_t* cairo_;
  std::vector<Box> texts_;
  bool under_head_ = false;
};

// Draws into room.x, room.y, room.w and returns the height it took; room.h is a whole page's body.
using Draw = std::function<double(Canvas&, const Box& room)>;

struct PaperSize {
  double w = 0, h = 0;
};

// Texts that stand on every page.
struct Furniture {
  std::string title, job, legend, standing;
  std::function<std::string(int page, int of)> page_of;
};

class Book {
 public:
  Book(PaperSize size, Furniture furniture);

  // Places a block whole: on this page, or on the next where it does not fit. A block higher than a page
  // is drawn smaller as a whole, so that nothing is lost.
  void block(const Draw& draw, double gap_after = 3.0 * mm);
  // The same, and it never ends a page: it goes over with the block that follows it.
  void heading(const Draw& draw, double gap_after = 1.0 * mm);
  void new_page();
  void new_page_if_begun();  // unless nothing stands on this one yet
  double left_on_page() const;
  double width() const { return body_.w; }
  double body_height() const { return body_.h; }

  int pages() const { return static_cast<int>(pages_.size()); }
  std::string pdf(const std::string& title, const std::string& date) const;
  std::string png(int page, double dots_per_inch) const;
  // For checking: ink of the whole page and of each of its texts; and the margins they must keep.
  Box ink(int page, std::vector<Box>* texts = nullptr) const;
  Box inside_margins() const { return inside_; }
  Box body() const { return body_; }

 private:
  struct Placed {
    Draw draw;
    Box room;
    double scale = 1.0, height = 0.0, gap_after = 0.0;
    bool heading = false;
  };
  void place(Placed placed);
  void draw_page(Canvas& canvas, int page) const;

  PaperSize size_;
  Furniture furniture_;
  Box inside_, body_;
  double y_ = 0;
  std::vector<std::vector<Placed>> pages_;
};

// One drawing by itself as SVG, its title and what it says of its own scale inside for those who read the file.
std::string svg(const Draw& draw, double width, const std::string& title,
                const std::function<std::string(const Box& room)>& told);

}  // namespace trammel::sheets
