// The pages before they become bytes, for draw_sheets and for checking them.
#pragma once

#include <functional>
#include <string>

#include "sheets/page.h"
#include "sheets/sheets.h"

namespace trammel::sheets {

void lay_out(const Job& job, const Assessment& assessment, const SheetOptions& options,
             const std::function<void(const std::string& name, const Book& book)>& take);

void lay_out_booklet(const Job& job, const Assessment& assessment, const SheetOptions& options,
                     const std::function<void(const Book& book)>& take);

}  // namespace trammel::sheets
