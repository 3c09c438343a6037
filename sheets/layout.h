// The pages before they become bytes, for draw_sheets and for checking them.
#pragma once

#include <functional>
#include <string>

#include "sheets/page.h"
#include "sheets/sheets.h"
#include "sheets/words.h"

namespace trammel::sheets {

PaperSize size_of(Paper paper);
// An empty book with a sheet's head and foot, its title by code.
Book new_book(const Job& job, const Words& words, const SheetOptions& options, const std::string& title);
// As a PDF wants it; 2000-01-01 where the job has none.
std::string pdf_date(const Job& job);

void lay_out(const Job& job, const Assessment& assessment, const SheetOptions& options,
             const std::function<void(const std::string& name, const Book& book)>& take);

void lay_out_booklet(const Job& job, const Assessment& assessment, const SheetOptions& options,
                     const std::function<void(const Book& book)>& take);

}  // namespace trammel::sheets
