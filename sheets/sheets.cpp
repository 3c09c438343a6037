#include "sheets/sheets.h"

#include "assess/accessories.h"
#include "assess/fitted_cart.h"
#include "sheets/layout.h"
#include "sheets/room.h"
#include "sheets/support_drawing.h"

namespace trammel {
namespace sheets {

PaperSize size_of(Paper paper) {
  return paper == Paper::a4 ? PaperSize{210 * mm, 297 * mm} : PaperSize{8.5 * 72, 11 * 72};
}

namespace {

Furniture furniture_of(const Job& job, const Words& words, const std::string& title) {
  Furniture f;
  f.title = escape(words(title));
  f.job = bold(escape(job.name.value)) + "\n";
  if (job.cart.name.value != job.name.value) f.job += escape(job.cart.name.value) + " · ";
  if (job.customer) f.job += escape(job.customer->value) + " · ";
  f.job += job.date ? escape(job.date->value) : escape(words("sheet-no-date"));
  f.legend = escape(words("sheet-legend"));
  f.standing = escape(words("sheet-standing"));
  f.page_of = [&words](int page, int of) {
    return escape(words("sheet-page", {{"page", std::to_string(page)}, {"pages", std::to_string(of)}}));
  };
  return f;
}

// German writes a comma where English has a point.
SheetOptions spoken(SheetOptions options) {
  if (options.language == "de") options.print.decimal_sign = ',';
  return options;
}

}  // namespace

Book new_book(const Job& job, const Words& words, const SheetOptions& options, const std::string& title) {
  return Book(size_of(options.paper), furniture_of(job, words, title));
}

// A PDF wants ISO 8601; any other text of a date would be dropped, so it is not given.
std::string pdf_date(const Job& job) {
  std::string date = job.date ? job.date->value : "";
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') date = "2000-01-01";
  return date + "T00:00:00Z";
}

void lay_out(const Job& job, const Assessment& assessment, const SheetOptions& asked,
             const std::function<void(const std::string& name, const Book& book)>& take) {
  const SheetOptions options = spoken(asked);
  const Words words(options);
  const Cart after = fitted_cart(job);
  const Job fitted = as_fitted(job);  // without the parts of accessories that this cart does not get
  const Given given{fitted, after, assessment, words};
  const auto lay = [&](const char* name, const char* title, void (*fill)(const Given&, Book&)) {
    Book book = new_book(job, words, options, title);
    fill(given, book);
    take(name, book);
  };
  lay("quote-sheet", "sheet-title-quote", lay_quote_sheet);
  if (!job.kits.empty()) lay("pack-sheet", "sheet-title-pack", lay_pack_sheet);
  lay("work-sheet", "sheet-title-work", lay_work_sheet);
  lay("torque-record", "sheet-title-torque", lay_torque_record);
  if (assessment.resume && assessment.work_state != "released") lay("resume-card", "sheet-title-resume", lay_resume_card);
  lay("alignment-sheet", "sheet-title-alignment", lay_alignment_sheet);
  if (!assessment.clearance.empty()) lay("clearance-sheet", "sheet-title-clearance", lay_clearance_sheet);
  if (has_geometry(given)) lay("geometry-sheet", "sheet-title-geometry", lay_geometry_sheet);
  lay("owner-page", "sheet-title-owner", lay_owner_page);
}

void lay_out_booklet(const Job& job, const Assessment& assessment, const SheetOptions& asked,
                     const std::function<void(const Book& book)>& take) {
  // The author's language: that of the first kit which names one.
  SheetOptions options = asked;
  for (const KitUse& use : job.kits)
    if (use.kit.language && options.language.empty()) {
      options.language = use.kit.language->value;
      break;
    }
  options = spoken(options);
  const Words words(options);
  const Cart after = fitted_cart(job);
  const Given given{job, after, assessment, words};
  Furniture furniture = furniture_of(job, words, "booklet-title");
  std::string names;
  for (const KitUse& use : job.kits) names += (names.empty() ? "" : " · ") + use.kit.name.value;
  furniture.job = bold(escape(names)) + "\n" + escape(words("booklet-subtitle"));
  furniture.page_of = [&words](int page, int of) {
    return escape(words("booklet-page", {{"page", std::to_string(page)}, {"pages", std::to_string(of)}}));
  };
  Book book(size_of(options.paper), furniture);
  lay_booklet(given, book);
  take(book);
}

}  // namespace sheets

namespace {

Sheet sheet_of(const Job& job, const std::string& name, const sheets::Book& book, const SheetOptions& options) {
  Sheet sheet{name, book.pdf(job.name.value + ", " + name, sheets::pdf_date(job)), book.pages(), {}};
  if (options.png_dots_per_inch > 0)
    for (int page = 0; page < book.pages(); ++page) sheet.png.push_back(book.png(page, options.png_dots_per_inch));
  return sheet;
}

}  // namespace

Sheet draw_booklet(const Job& job, const Assessment& assessment, const SheetOptions& options) {
  Sheet sheet;
  sheets::lay_out_booklet(job, assessment, options,
                          [&](const sheets::Book& book) { sheet = sheet_of(job, "booklet", book, options); });
  return sheet;
}

std::vector<Sheet> draw_sheets(const Job& job, const Assessment& assessment, const SheetOptions& options) {
  std::vector<Sheet> out;
  sheets::lay_out(job, assessment, options, [&](const std::string& name, const sheets::Book& book) {
    out.push_back(sheet_of(job, name, book, options));
  });
  return out;
}

}  // namespace trammel
